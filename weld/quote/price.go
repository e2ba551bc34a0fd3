package quote

import (
	"errors"
	"fmt"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/symbol"
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
}

// Line is what one line of the list takes in a part.
type Line struct {
	Item
	Length  float64 // weld length in a part, m
	Starts  int     // arc starts in a part
	Area    float64 // bead area of one weld, the mean of both sides where they differ, m2
	Travel  float64 // travel speed of a pass, m/s
	Mass    float64 // weld metal in a part, kg
	ArcTime float64 // in a part, s
	ByArm   deposit.Use
	ByHand  deposit.Use
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
)

// Price makes a quote. Each weld takes the metal of its size: for a fillet k
// times the flat area, k the settings set's planning factor; for a groove the
// area of the list. Arc time is metal over deposition rate, and the times that
// the set holds at each start and end with the arc burning; worked time is arc
// time over the operating factor. DERIVED; the factors carry their own source.
// Power is drawn where the set knows volts and amps or power.
//
// Problems of the list carry their line, see Problems; the others say what is
// wrong with the request.
func Price(q Request) (Quote, error) {
	if q.Density == 0 {
		q.Density = deposit.SteelDensity
	}
	p := pricer{Request: q, sets: map[string]procedure.Settings{}}
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
	out.Assumptions = p.assumptions
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
	p.said = map[string]bool{}
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
	if err := partSense.Check(float64(p.Parts)); err != nil {
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

// line works out one line of the list.
func (p *pricer) line(it Item) (Line, error) {
	set, ok := p.sets[it.Settings]
	if !ok {
		return Line{}, &Problem{it.Line, "settings", fmt.Sprintf("settings set %q", it.Settings), strings.Join(p.known, ", "), "name a set that the shop has"}
	}
	fail := func(column string, err error) (Line, error) {
		return Line{}, &Problem{it.Line, column, err.Error(), "what the ranges of sense hold", "check the line and its settings set"}
	}
	melt, err := set.Melt()
	if err != nil {
		return fail("settings", err)
	}
	p.assume("deposition efficiency, settings set "+set.ID, set.DepositionEfficiency())
	out := Line{Item: it}
	volume := 0.0 // of weld metal in a part, m3
	for _, w := range it.Symbol.Welds() {
		area := it.Area
		if area == 0 {
			if area, err = filletArea(w, it.Angle, set); err != nil {
				return fail("weld", err)
			}
			p.assume("face factor, settings set "+set.ID, set.PlanningFactor())
		}
		over, err := w.Run.Over(it.Seam)
		if err != nil {
			return fail("seam", err)
		}
		length := float64(it.Count) * over.Weld
		volume += area * length
		out.Length += length
		out.Starts += it.Count * over.Elements * it.Passes
	}
	out.Area = volume / out.Length
	out.Mass = volume * p.Density
	if out.Travel, err = melt.TravelForArea(out.Area / float64(it.Passes)); err != nil {
		return fail("passes", err)
	}
	if limit := weld.TravelSpeedLimit(); !limit.Range.Contains(out.Travel) {
		out.Cautions = append(out.Cautions, fmt.Sprintf("a pass would travel at %s, outside %s to %s (%v): check the number of passes and the settings set",
			unit.Format(out.Travel, unit.MillimetresPerSecond, 1), unit.Format(limit.Range.Low, unit.MillimetresPerSecond, 0), unit.Format(limit.Range.High, unit.MillimetresPerSecond, 0), limit.Source))
	}
	burning := set.Phases.StartDelay + set.Phases.CraterFill
	out.ArcTime = volume/melt.Flow() + float64(out.Starts)*burning
	return p.uses(out, set, melt)
}

// filletArea is the bead area of a fillet of the symbol's size, m2.
func filletArea(w symbol.Weld, angle float64, set procedure.Settings) (float64, error) {
	leg, ratio := w.Size.Value, 1.0
	if w.Size.Is == symbol.Throat {
		var err error
		if leg, err = symbol.LegOf(leg, angle); err != nil {
			return 0, err
		}
	}
	if w.Size.Second != 0 {
		ratio = w.Size.Second / w.Size.Value
	}
	return set.Shape(angle, ratio).Area(leg)
}

// uses works out what a line takes by the arm and by hand.
func (p *pricer) uses(out Line, set procedure.Settings, melt deposit.Melt) (Line, error) {
	use := deposit.Use{Wire: out.Mass / melt.Efficiency}
	if set.GasFlow != 0 {
		gas, err := deposit.Gas{Flow: set.GasFlow, PreFlow: set.Phases.PreFlow, PostFlow: set.Phases.PostFlow}.Used(out.ArcTime, out.Starts)
		if err != nil {
			return Line{}, &Problem{out.Line, "settings", err.Error(), "what the ranges of sense hold", "check the gas of the settings set"}
		}
		use.Gas = gas
	} else {
		out.Cautions = append(out.Cautions, "no gas counted: settings set "+set.ID+" has no gas flow")
	}
	power := set.Power
	if power == 0 {
		power = set.Volts * set.Amps
	}
	if power != 0 {
		source := deposit.SourceEfficiency()
		p.assume("efficiency of the power source", source)
		energy, err := deposit.MainsEnergy(power, out.ArcTime, source.Value)
		if err != nil {
			return Line{}, &Problem{out.Line, "settings", err.Error(), "what the ranges of sense hold", "check volts and amps of the settings set"}
		}
		use.Energy = energy
	} else {
		out.Cautions = append(out.Cautions, "no power counted: settings set "+set.ID+" has neither power nor volts and amps")
	}
	out.ByArm, out.ByHand = use, use
	out.ByArm.Time, out.ByHand.Time = out.ArcTime/p.Arm.Factor, out.ArcTime/p.Hand.Factor
	if out.By == Hand {
		out.ByArm = deposit.Use{}
	}
	return out, nil
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
