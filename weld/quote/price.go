package quote

import (
	"errors"
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
)

// Way is how the shop welds: the arm, or by hand.
type Way struct {
	Kind   deposit.Way   // for the operating factor, where Factor is 0
	Factor float64       // the shop's own operating factor, dimensionless; 0: that of Kind
	Rates  deposit.Rates // in currency units

	SetUp    float64 // once for a batch: fixture, cart, first settings, s
	Teach    float64 // once for a batch, for each seam of a part: teaching and trying, 0 by hand, s
	Handling float64 // for each part: load, turn, unload, s
}

// Request is what a quote is made of.
type Request struct {
	Items    []Item
	Settings []procedure.Settings
	Arm      Way
	Hand     Way
	Parts    int     // in the batch
	Density  float64 // of the weld metal, kg/m3; 0 for steel
	// SourceEfficiency is the share of mains power that reaches the arc,
	// dimensionless; 0 for the usual one.
	SourceEfficiency float64
}

// Line is what one line of the list takes in a part.
type Line struct {
	Item
	Length   float64     // weld length in a part, m
	Starts   int         // arc starts in a part
	Area     float64     // bead area of one weld, the mean of both sides where they differ, m2
	Travel   float64     // travel speed of a pass, the mean over the passes, m/s
	Mass     float64     // weld metal in a part, kg
	ArcTime  float64     // in a part, s
	ByArm    deposit.Use // by the arm; zero for a weld that is made by hand in any case
	ByHand   deposit.Use
	CostArm  float64 // of ByArm, in currency units
	CostHand float64 // of ByHand, in currency units
	// Cautions say what makes the line doubtful, such as a travel speed that no
	// pass has.
	Cautions []string
}

// Plan is one way to weld the part.
type Plan struct {
	Use   deposit.Use   // for each part
	Cost  deposit.Cost  // for each part, in currency units
	Batch deposit.Batch // once and for each part, in currency units
	Total float64       // for the batch, in currency units
}

// Assumption is a figure that the quote rests on.
type Assumption struct {
	What   string
	Figure weld.Figure // dimensionless, kg/m3 for a density
}

// Quote is the answer.
type Quote struct {
	Lines []Line
	// WithArm has the arm weld what it may and a welder the rest; AllByHand has a
	// welder do it all.
	WithArm, AllByHand Plan
	BreakEven          deposit.BreakEven // of WithArm against AllByHand
	Assumptions        []Assumption
}

// The ranges of sense. Common practice, no source.
var (
	timeSense   = weld.Sense{What: "time", Low: 0, High: 1e7, Unit: unit.Hours}
	factorSense = weld.Sense{What: "operating factor (arc time over worked time)", Low: 0.02, High: 1}
	partSense   = weld.Sense{What: "number of parts", Low: 1, High: 1e7}
	massSense   = weld.Sense{What: "density in kg/m3", Low: 2000, High: 12000}
)

// Price makes a quote. Each weld takes the metal of its size: for a fillet k
// times the flat area, k the settings set's planning factor; for a groove the
// area of the list; for a planned weld what its passes lay. Arc time is metal over deposition rate, and the times that
// the set holds at each start and end with the arc burning; worked time is arc
// time over the operating factor. DERIVED; the factors carry their own source.
// Power is drawn where the set knows volts and amps or power.
//
// Problems of the list carry their line, see Problems; the others say what is
// wrong with the request.
func Price(q Request) (Quote, error) {
	density := weld.Figure{Value: q.Density, Source: weld.Source{Mark: weld.Given, Code: "the shop's own"}}
	if q.Density == 0 {
		q.Density = deposit.SteelDensity
		density = weld.Figure{Value: q.Density, Source: weld.Source{Mark: weld.Memory, Code: "handbook density of mild-steel weld metal"}}
	}
	p := pricer{Request: q, sets: map[string]procedure.Settings{}, said: map[string]bool{}}
	if err := p.prepare(); err != nil {
		return Quote{}, err
	}
	var problems []error
	var out Quote
	for _, it := range q.Items {
		line, err := p.line(it)
		if err != nil {
			problems = append(problems, err)
			continue
		}
		out.Lines = append(out.Lines, line)
	}
	if len(problems) > 0 {
		return Quote{}, errors.Join(problems...)
	}
	out.WithArm = p.plan(out.Lines, true)
	out.AllByHand = p.plan(out.Lines, false)
	var err error
	if out.BreakEven, err = deposit.BreakEvenOf(out.WithArm.Batch, out.AllByHand.Batch); err != nil {
		return Quote{}, err
	}
	out.Assumptions = append(p.assumptions, Assumption{"density of the weld metal, kg/m3", density})
	return out, nil
}

// pricer holds a request made ready.
type pricer struct {
	Request
	sets        map[string]procedure.Settings
	known       []string // IDs of the sets, in order
	assumptions []Assumption
	said        map[string]bool
}

// prepare checks the request apart from its items.
func (p *pricer) prepare() error {
	for _, s := range p.Settings {
		if err := s.Validate(); err != nil {
			return fmt.Errorf("quote: %w", err)
		}
		if _, twice := p.sets[s.ID]; twice {
			return fmt.Errorf("quote: two settings sets have the ID %q; allowed: each ID once; rename one", s.ID)
		}
		p.sets[s.ID] = s
		p.known = append(p.known, s.ID)
	}
	if len(p.Items) == 0 {
		return errors.New("quote: no welds; allowed: one or more; read a weld list first")
	}
	if err := weld.CheckAll(partSense.Of(float64(p.Parts)), massSense.Of(p.Density)); err != nil {
		return fmt.Errorf("quote: %w", err)
	}
	for _, w := range []struct {
		name string
		way  *Way
	}{{"arm", &p.Arm}, {"hand", &p.Hand}} {
		if err := p.way(w.name, w.way); err != nil {
			return fmt.Errorf("quote: %s: %w", w.name, err)
		}
	}
	return nil
}

// way checks one way of welding and gives it its operating factor.
func (p *pricer) way(name string, w *Way) error {
	if err := w.Rates.Validate(); err != nil {
		return err
	}
	if err := weld.CheckAll(timeSense.Of(w.SetUp), timeSense.Of(w.Teach), timeSense.Of(w.Handling)); err != nil {
		return err
	}
	figure := weld.Figure{Value: w.Factor, Source: weld.Source{Mark: weld.Given, Code: "the shop's own operating factor"}}
	if w.Factor == 0 {
		var err error
		if figure, err = deposit.OperatingFactor(w.Kind); err != nil {
			return err
		}
		w.Factor = figure.Value
	}
	if err := factorSense.Check(w.Factor); err != nil {
		return err
	}
	p.assume("operating factor, "+name, figure)
	return nil
}

// assume notes a figure once.
func (p *pricer) assume(what string, f weld.Figure) {
	if !p.said[what] {
		p.said[what] = true
		p.assumptions = append(p.assumptions, Assumption{what, f})
	}
}

// plan adds the lines up for one way to weld the part.
func (p *pricer) plan(lines []Line, arm bool) Plan {
	var out Plan
	for _, side := range []struct {
		way   Way
		takes func(Line) bool
		use   func(Line) deposit.Use
	}{
		{p.Arm, func(l Line) bool { return arm && l.By == Arm }, func(l Line) deposit.Use { return l.ByArm }},
		{p.Hand, func(l Line) bool { return !arm || l.By == Hand }, func(l Line) deposit.Use { return l.ByHand }},
	} {
		use, seams := deposit.Use{Time: side.way.Handling}, 0
		for _, l := range lines {
			if side.takes(l) {
				use = use.Add(side.use(l))
				seams += l.Count
			}
		}
		if seams == 0 {
			continue
		}
		cost := side.way.Rates.Cost(use)
		out.Use = out.Use.Add(use)
		out.Cost = deposit.Cost{Labour: out.Cost.Labour + cost.Labour, Wire: out.Cost.Wire + cost.Wire,
			Gas: out.Cost.Gas + cost.Gas, Energy: out.Cost.Energy + cost.Energy}
		out.Batch.Once += (side.way.SetUp + float64(seams)*side.way.Teach) * side.way.Rates.Labour
	}
	out.Batch.PerPart = out.Cost.Total()
	out.Total = out.Batch.Cost(p.Parts)
	return out
}
