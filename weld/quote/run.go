package quote

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/symbol"
)

// run is weld metal of one line that one settings set lays at one speed.
type run struct {
	set    procedure.Settings
	melt   deposit.Melt
	area   float64 // of one pass, m2
	length float64 // that is welded, over all passes, m
	starts int
}

// line works out one line of the list.
func (p *pricer) line(it Item) (Line, error) {
	out := Line{Item: it}
	var runs []run
	var err error
	if it.Laid != nil {
		runs, err = p.laid(&out)
	} else {
		runs, err = p.listed(&out)
	}
	if err != nil {
		return Line{}, err
	}
	volume, time, length := 0.0, 0.0, 0.0
	for _, r := range runs {
		metal := r.area * r.length
		volume, time, length = volume+metal, time+metal/r.melt.Flow(), length+r.length
	}
	out.Area, out.Mass, out.Travel = volume/out.Length, volume*p.Density, length/time
	if limit := weld.TravelSpeedLimit(); !limit.Range.Contains(out.Travel) {
		out.Cautions = append(out.Cautions, fmt.Sprintf("a pass would travel at %s, outside %s to %s (%v): check the number of passes and the settings set",
			unit.Format(out.Travel, unit.MillimetresPerSecond, 1), unit.Format(limit.Range.Low, unit.MillimetresPerSecond, 0), unit.Format(limit.Range.High, unit.MillimetresPerSecond, 0), limit.Source))
	}
	for _, r := range runs {
		if err := p.use(&out, r); err != nil {
			return Line{}, err
		}
	}
	out.ByArm = out.ByHand
	out.ByArm.Time, out.ByHand.Time = out.ArcTime/p.Arm.Factor, out.ArcTime/p.Hand.Factor
	if out.By == Hand {
		out.ByArm = deposit.Use{}
	}
	out.CostArm, out.CostHand = p.Arm.Rates.Cost(out.ByArm).Total(), p.Hand.Rates.Cost(out.ByHand).Total()
	return out, nil
}

// fail words what is wrong with a line.
func fail(it Item, column string, err error) error {
	return &Problem{it.Line, column, err.Error(), "what the ranges of sense hold", "check the line and its settings set"}
}

// set finds a settings set and its metal, and notes what they assume.
func (p *pricer) set(it Item, id string) (run, error) {
	set, ok := p.sets[id]
	if !ok {
		return run{}, &Problem{it.Line, "settings", fmt.Sprintf("settings set %q", id), strings.Join(p.known, ", "), "name a set that the shop has"}
	}
	melt, err := set.Melt()
	if err != nil {
		return run{}, fail(it, "settings", err)
	}
	p.assume("deposition efficiency, settings set "+set.ID, set.DepositionEfficiency())
	return run{set: set, melt: melt}, nil
}

// laid takes the metal of a weld as it was planned.
func (p *pricer) laid(out *Line) ([]run, error) {
	var runs []run
	for _, pass := range out.Laid.Passes {
		r, err := p.set(out.Item, pass.Settings)
		if err != nil {
			return nil, err
		}
		if err := weld.CheckAll(areaSense.Of(pass.Area), seamSense.Of(pass.Length)); err != nil {
			return nil, fail(out.Item, "", err)
		}
		if out.Laid.Fillet {
			p.assume("face factor, settings set "+r.set.ID, r.set.PlanningFactor())
		}
		r.area, r.length, r.starts = pass.Area, float64(out.Count)*pass.Length, out.Count
		out.Starts += r.starts
		out.Length = max(out.Length, r.length)
		runs = append(runs, r)
	}
	if len(runs) == 0 {
		return nil, &Problem{out.Line, "", "a planned weld without passes", "one pass or more", "plan it first"}
	}
	out.Passes = len(runs)
	return runs, nil
}

// listed works out the metal of a line from its symbol: as much as all its welds
// take, laid at one speed.
func (p *pricer) listed(out *Line) ([]run, error) {
	it := out.Item
	r, err := p.set(it, it.Settings)
	if err != nil {
		return nil, err
	}
	volume := 0.0 // of weld metal in a part, m3
	for _, w := range it.Symbol.Welds() {
		area := it.Area
		if area == 0 {
			if area, err = filletArea(w, it.Angle, r.set); err != nil {
				return nil, fail(it, "weld", err)
			}
			p.assume("face factor, settings set "+r.set.ID, r.set.PlanningFactor())
		}
		over, err := w.Run.Over(it.Seam)
		if err != nil {
			return nil, fail(it, "seam", err)
		}
		length := float64(it.Count) * over.Weld
		volume += area * length
		out.Length += length
		r.starts += it.Count * over.Elements * it.Passes
	}
	out.Starts = r.starts
	r.area, r.length = volume/out.Length/float64(it.Passes), out.Length*float64(it.Passes)
	if _, err := r.melt.TravelForArea(r.area); err != nil {
		return nil, fail(it, "passes", err)
	}
	return []run{r}, nil
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

// use adds what a run takes, but for the worked time, to its line: arc time,
// wire, gas and energy.
func (p *pricer) use(out *Line, r run) error {
	set := r.set
	arc := r.area*r.length/r.melt.Flow() + float64(r.starts)*(set.Phases.StartDelay+set.Phases.CraterFill)
	use := deposit.Use{Wire: r.area * r.length * p.Density / r.melt.Efficiency}
	caution := func(what string) {
		if !slices.Contains(out.Cautions, what) {
			out.Cautions = append(out.Cautions, what)
		}
	}
	if set.GasFlow != 0 {
		gas, err := deposit.Gas{Flow: set.GasFlow, PreFlow: set.Phases.PreFlow, PostFlow: set.Phases.PostFlow}.Used(arc, r.starts)
		if err != nil {
			return &Problem{out.Line, "settings", err.Error(), "what the ranges of sense hold", "check the gas of the settings set"}
		}
		use.Gas = gas
	} else {
		caution("no gas counted: settings set " + set.ID + " has no gas flow")
	}
	power := set.Power
	if power == 0 {
		power = set.Volts * set.Amps
	}
	if power != 0 {
		source := p.source()
		p.assume("efficiency of the power source", source)
		energy, err := deposit.MainsEnergy(power, arc, source.Value)
		if err != nil {
			return &Problem{out.Line, "settings", err.Error(), "what the ranges of sense hold", "check volts and amps of the settings set"}
		}
		use.Energy = energy
	} else {
		caution("no power counted: settings set " + set.ID + " has neither power nor volts and amps")
	}
	out.ArcTime += arc
	out.ByHand = out.ByHand.Add(use)
	return nil
}

// source is the efficiency of the power source: as given, else the usual one.
func (p *pricer) source() weld.Figure {
	if p.SourceEfficiency == 0 {
		return deposit.SourceEfficiency()
	}
	return weld.Figure{Value: p.SourceEfficiency, Source: weld.Source{Mark: weld.Given, Code: "the shop's own"}}
}
