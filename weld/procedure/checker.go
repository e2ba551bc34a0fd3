package procedure

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"seamwright/weld"
)

// Checker is a procedure made ready for many passes. It is safe for use by
// several goroutines at once.
type Checker struct {
	spec    Spec
	further *Further // nil: the items of Spec alone
	source  weld.Source

	// The words allowed, as they are shown.
	processes, transfers, joints, kinds, positions, progressions []string
	wireClass, wires, gas, polarities, techniques                []string
}

// NewChecker returns a procedure made ready for checking, with its further
// limits, or what is wrong with it. Without further limits their items do not
// appear; with them, be they empty, every item does.
func NewChecker(s Spec, further *Further) (*Checker, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if further != nil {
		if err := further.Validate(); err != nil {
			return nil, fmt.Errorf("welding procedure %q: %w", s.ID, err)
		}
	}
	c := &Checker{
		spec: s, further: further, source: s.source(),
		processes: names(s.Processes), transfers: names(s.Transfers), joints: names(s.Joints), kinds: names(s.Kinds),
		positions: names(s.Positions), progressions: names(s.Progressions),
		wireClass: single(s.WireClass), gas: single(s.GasName),
	}
	if further != nil {
		c.polarities, c.techniques = names(further.Polarities), names(further.Techniques)
	}
	for _, d := range s.WireDiameters {
		c.wires = append(c.wires, millimetres(d))
	}
	return c, nil
}

// itemsMost is the most verdicts of one pass.
const itemsMost = 30

// Check compares a planned pass with the procedure, item by item in fixed
// order. Every item appears, those that the procedure does not limit as
// NotStated, those that the plan does not know as NotKnown; progression only in
// vertical positions, where alone it is a variable, frequency and dwell of a weave and an amplitude
// that is not limited not for a stringer, the size of one pass not for a groove, preheat for the first pass and interpass temperature for the others
// (both where the plan does not say which pass it is).
func (c *Checker) Check(p Planned) ([]Verdict, error) {
	return c.Append(make([]Verdict, 0, itemsMost), p)
}

// Append is Check into a slice of the caller's.
func (c *Checker) Append(verdicts []Verdict, p Planned) ([]Verdict, error) {
	if p.Family != c.spec.Family {
		return nil, fmt.Errorf("welding procedure %q is of the %v family, the job's is %v; codes are never mixed in one check", c.spec.ID, c.spec.Family, p.Family)
	}
	k := check{Checker: c, plan: &p, verdicts: verdicts}
	k.words()
	k.numbers()
	if err := k.energy(); err != nil {
		return nil, err
	}
	k.angles()
	k.singlePass()
	k.later()
	return k.verdicts, nil
}

// check gathers the verdicts on one pass.
type check struct {
	*Checker
	plan     *Planned
	verdicts []Verdict
}

// sourceOf says where the limit of an item stands.
func (c *Checker) sourceOf(item Item) weld.Source {
	if c.further != nil {
		if src, ok := c.further.Sources[item]; ok {
			return src
		}
	}
	return c.source
}

// words checks the items that are names.
func (c *check) words() {
	p := c.plan
	c.word(ItemProcess, name(p.Settings.Process), c.processes)
	c.word(ItemTransfer, name(p.Settings.Transfer), c.transfers)
	c.word(ItemJoint, name(p.Joint), c.joints)
	c.word(ItemKind, name(p.Kind), c.kinds)
	position := p.Position.Name(c.spec.Family)
	c.word(ItemPosition, name(position), c.positions)
	if position.Vertical() {
		c.word(ItemProgression, name(p.Position.Progression), c.progressions)
	}
	c.word(ItemWireClass, p.Settings.WireClass, c.wireClass)
	c.wireDiameter()
	c.word(ItemGasName, p.Settings.GasName, c.gas)
}

// word gives the verdict on a name. Letter case and outer spaces do not count.
func (c *check) word(item Item, found string, allowed []string) {
	v := Verdict{Item: item, Found: found, Allowed: allowed, Source: c.sourceOf(item)}
	switch {
	case len(allowed) == 0:
		v.State = NotStated
	case found == "":
		v.State = NotKnown
	default:
		v.State = Outside
		for _, a := range allowed {
			if strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(found)) {
				v.State = Inside
			}
		}
	}
	c.verdicts = append(c.verdicts, v)
}

// sameWire is how far two statements of one wire diameter may differ, m: a
// tenth of the step between 0.045 in and 1.2 mm, which are different wires.
const sameWire = 5e-6

// isWire reports whether two statements (m) are of one wire.
func isWire(a, b float64) bool { return math.Abs(a-b) <= sameWire }

// millimetres shows a wire diameter given in m.
func millimetres(d float64) string { return fmt.Sprintf("%.4g mm", d*1e3) }

// wireDiameter gives the verdict on the wire, which is a list of numbers.
func (c *check) wireDiameter() {
	v := Verdict{Item: ItemWireDiameter, Measured: c.plan.Settings.WireDiameter, Unit: "m", Allowed: c.wires, Wires: c.spec.WireDiameters, Source: c.sourceOf(ItemWireDiameter)}
	switch {
	case len(c.spec.WireDiameters) == 0:
		v.State = NotStated
	case v.Measured == 0:
		v.State = NotKnown
	default:
		v.State = Outside
		for _, d := range c.spec.WireDiameters {
			if isWire(d, v.Measured) {
				v.State = Inside
			}
		}
	}
	c.verdicts = append(c.verdicts, v)
}

// numbers checks the items that are plain numbers.
func (c *check) numbers() {
	s, p := &c.spec, c.plan
	c.positive(ItemGasFlow, p.Settings.GasFlow, s.GasFlow, "m3/s")
	c.thickness()
	c.positive(ItemCurrent, p.Settings.Amps, s.Current, "A")
	c.positive(ItemVoltage, p.Settings.Volts, s.Voltage, "V")
	c.positive(ItemFeed, p.Settings.Feed, s.Feed, "m/s")
	c.positive(ItemTravelSpeed, p.Travel, s.Travel, "m/s")
	c.positive(ItemContactDistance, p.Settings.ContactDistance, s.ContactDistance, "m")
}

// positive gives the verdict on a quantity of which zero means not known.
func (c *check) positive(item Item, value float64, r weld.Range, unit string) {
	c.number(item, value, value != 0, r, unit, "")
}

// number gives the verdict on a number.
func (c *check) number(item Item, value float64, known bool, r weld.Range, unit, note string) {
	v := Verdict{Item: item, Range: r, Unit: unit, Note: note, Source: c.sourceOf(item)}
	if known {
		v.Measured = value
	}
	switch {
	case !r.Stated():
		v.State = NotStated
	case !known:
		v.State = NotKnown
	case r.Contains(value):
		v.State = Inside
	default:
		v.State = Outside
	}
	c.verdicts = append(c.verdicts, v)
}

// thickness checks both plates and reports one: the first outside, else the
// first not known, else the thicker.
func (c *check) thickness() {
	type part struct {
		thickness float64
		note      string
	}
	r := c.spec.Thickness
	thin, thick := part{c.plan.Thinner, "thinner part"}, part{c.plan.Thicker, "thicker part"}
	report := thick
	switch {
	case thin.thickness != 0 && !r.Contains(thin.thickness):
		report = thin
	case thick.thickness != 0 && !r.Contains(thick.thickness):
	case thin.thickness == 0:
		report = thin
	}
	c.number(ItemThickness, report.thickness, report.thickness != 0, r, "m", report.note)
}

// energy checks the energy per length of the quantity that the procedure
// limits.
func (c *check) energy() error {
	s, p := &c.spec, c.plan
	if !s.Energy.Stated() {
		c.number(ItemEnergy, 0, false, s.Energy, "J/m", "")
		return nil
	}
	note := s.EnergyIs.String()
	if p.Travel == 0 {
		c.number(ItemEnergy, 0, false, s.Energy, "J/m", note)
		return nil
	}
	arc, err := p.Settings.ArcEnergy(p.Travel)
	if errors.Is(err, ErrEnergyUnknown) {
		c.number(ItemEnergy, 0, false, s.Energy, "J/m", note)
		return nil
	}
	if err != nil {
		return fmt.Errorf("settings set %q: %w", p.Settings.ID, err)
	}
	value, err := s.EnergyIs.FromArcEnergy(arc.PerLength, p.Settings.Process)
	if err != nil {
		return fmt.Errorf("settings set %q: %w", p.Settings.ID, err)
	}
	note += ", " + arc.Method
	if arc.Caution != "" {
		note += "; " + arc.Caution
	}
	c.number(ItemEnergy, value, true, s.Energy, "J/m", note)
	return nil
}

// angles checks the torch.
func (c *check) angles() {
	s, p := &c.spec, c.plan
	c.number(ItemWorkAngle, p.WorkAngle.Rad, p.WorkAngle.Known, s.WorkAngle, "rad", "from the normal of the non-butting member")
	c.number(ItemTravelAngle, p.TravelAngle.Rad, p.TravelAngle.Known, s.TravelAngle, "rad", "push positive")
	c.number(ItemWorkDeviation, p.WorkDeviation.Rad, p.WorkDeviation.Known, s.WorkDeviation, "rad", "")
	c.number(ItemTravelDeviation, p.TravelDeviation.Rad, p.TravelDeviation.Known, s.TravelDeviation, "rad", "")
}

// singlePass checks the size that this pass lays, in the procedure's measure: that
// of a fillet, a groove has none.
func (c *check) singlePass() {
	if c.plan.Kind == weld.Groove {
		return
	}
	size, note := c.plan.PassLeg, ""
	if c.spec.SinglePassIs == weld.Throat {
		size = c.plan.PassThroat
	}
	if c.spec.SinglePass.Stated() {
		note = c.spec.SinglePassIs.String()
	}
	c.number(ItemSinglePass, size, size != 0, c.spec.SinglePass, "m", note)
}

// dwell checks both sides of a weave and reports one: the first outside, else the
// longer.
func (c *check) dwell() {
	r, left, right := c.further.Dwell, c.plan.DwellLeft, c.plan.DwellRight
	report, note := max(left, right), "the longer side"
	if r.Contains(report) {
		if shorter := min(left, right); !r.Contains(shorter) {
			report, note = shorter, "the shorter side"
		}
	}
	c.number(ItemDwell, report, c.plan.Technique == Weave, r, "s", note)
}

// later checks the further limits: parent metal, polarity, technique and
// temperatures.
func (c *check) later() {
	f, p := c.further, c.plan
	if f == nil {
		return
	}
	c.word(ItemParentGroup, p.ParentGroup, f.ParentGroups)
	c.word(ItemPolarity, name(p.Settings.Polarity), c.polarities)
	c.word(ItemTechnique, name(p.Technique), c.techniques)
	if p.Technique != Stringer || f.Amplitude.Stated() {
		c.number(ItemAmplitude, p.Amplitude, p.Technique != 0, f.Amplitude, "m", "half of the width")
	}
	if p.Technique != Stringer {
		c.number(ItemFrequency, p.Frequency, p.Technique == Weave, f.Frequency, "Hz", "")
		c.dwell()
	}
	if p.Run.Number <= 1 {
		c.number(ItemPreheat, p.Preheat.DegC, p.Preheat.Known, f.Preheat, "degC", "")
	}
	if p.Run.Number != 1 { // between passes
		c.number(ItemInterpass, p.Interpass.DegC, p.Interpass.Known, f.Interpass, "degC", "")
	}
}
