package procedure

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"seamwright/weld"
)

// Planned is one pass as planned. Zero means "not known" for every quantity
// that cannot be zero; angles say whether they are known.
type Planned struct {
	Family weld.CodeFamily // code family of the job

	Settings Settings
	Travel   float64 // travel speed along the seam, m/s

	Joint    weld.JointType
	Kind     weld.WeldKind
	Position weld.Position

	Thinner, Thicker float64 // plate thicknesses, m

	WorkAngle       Angle // from the normal of the non-butting member
	TravelAngle     Angle // push positive
	WorkDeviation   Angle // largest distance from the wanted work angle
	TravelDeviation Angle // largest distance from the wanted travel angle

	PassLeg    float64 // leg of the fillet that this pass alone fills, m
	PassThroat float64 // its throat, m
}

// Angle is an angle that may not be known.
type Angle struct {
	Rad   float64 // rad
	Known bool
}

// KnownAngle returns a known angle, rad.
func KnownAngle(rad float64) Angle { return Angle{rad, true} }

// Check compares a planned pass with the procedure, item by item in fixed
// order: every item appears, those that the procedure does not limit as
// NotStated, those that the plan does not know as NotKnown. Progression appears
// only in vertical positions, where alone it is a variable. It returns an error
// when the procedure is not valid, or when the job belongs to another code
// family: those are never compared.
func (s Spec) Check(p Planned) ([]Verdict, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if p.Family != s.Family {
		return nil, fmt.Errorf("welding procedure %q is of the %v family, the job's is %v; codes are never mixed in one check", s.ID, s.Family, p.Family)
	}
	c := checker{spec: s, plan: p}
	c.words()
	c.numbers()
	if err := c.energy(); err != nil {
		return nil, err
	}
	c.angles()
	c.singlePass()
	return c.verdicts, nil
}

// Passed reports whether every verdict is Inside.
func Passed(verdicts []Verdict) bool {
	for _, v := range verdicts {
		if v.State != Inside {
			return false
		}
	}
	return true
}

// checker gathers verdicts.
type checker struct {
	spec     Spec
	plan     Planned
	verdicts []Verdict
}

// words checks the items that are names.
func (c *checker) words() {
	s, p := c.spec, c.plan
	c.word(ItemProcess, name(p.Settings.Process), names(s.Processes))
	c.word(ItemTransfer, name(p.Settings.Transfer), names(s.Transfers))
	c.word(ItemJoint, name(p.Joint), names(s.Joints))
	c.word(ItemKind, name(p.Kind), names(s.Kinds))
	position := p.Position.Name(s.Family)
	c.word(ItemPosition, name(position), names(s.Positions))
	if position.Vertical() {
		c.word(ItemProgression, name(p.Position.Progression), names(s.Progressions))
	}
	c.word(ItemWireClass, p.Settings.WireClass, single(s.WireClass))
	c.wireDiameter()
	c.word(ItemGasName, p.Settings.GasName, single(s.GasName))
}

// word gives the verdict on a name. Letter case and outer spaces do not count.
func (c *checker) word(item Item, found string, allowed []string) {
	v := Verdict{Item: item, Found: found, Allowed: allowed, Source: c.spec.source()}
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

// wireDiameter gives the verdict on the wire, which is a list of numbers.
func (c *checker) wireDiameter() {
	v := Verdict{Item: ItemWireDiameter, Measured: c.plan.Settings.WireDiameter, Unit: "m", Source: c.spec.source()}
	switch {
	case len(c.spec.WireDiameters) == 0:
		v.State = NotStated
	case v.Measured == 0:
		v.State = NotKnown
	default:
		v.State = Outside
	}
	for _, d := range c.spec.WireDiameters {
		v.Allowed = append(v.Allowed, fmt.Sprintf("%.4g mm", d*1e3))
		if v.State == Outside && math.Abs(d-v.Measured) <= sameWire {
			v.State = Inside
		}
	}
	c.verdicts = append(c.verdicts, v)
}

// numbers checks the items that are plain numbers.
func (c *checker) numbers() {
	s, p := c.spec, c.plan
	c.positive(ItemGasFlow, p.Settings.GasFlow, s.GasFlow, "m3/s")
	c.thickness()
	c.positive(ItemCurrent, p.Settings.Amps, s.Current, "A")
	c.positive(ItemVoltage, p.Settings.Volts, s.Voltage, "V")
	c.positive(ItemFeed, p.Settings.Feed, s.Feed, "m/s")
	c.positive(ItemTravelSpeed, p.Travel, s.Travel, "m/s")
	c.positive(ItemContactDistance, p.Settings.ContactDistance, s.ContactDistance, "m")
}

// positive gives the verdict on a quantity of which zero means not known.
func (c *checker) positive(item Item, value float64, r weld.Range, unit string) {
	c.number(item, value, value != 0, r, unit, "")
}

// number gives the verdict on a number.
func (c *checker) number(item Item, value float64, known bool, r weld.Range, unit, note string) {
	v := Verdict{Item: item, Range: r, Unit: unit, Note: note, Source: c.spec.source()}
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
func (c *checker) thickness() {
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
func (c *checker) energy() error {
	s, p := c.spec, c.plan
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
func (c *checker) angles() {
	s, p := c.spec, c.plan
	c.number(ItemWorkAngle, p.WorkAngle.Rad, p.WorkAngle.Known, s.WorkAngle, "rad", "from the normal of the non-butting member")
	c.number(ItemTravelAngle, p.TravelAngle.Rad, p.TravelAngle.Known, s.TravelAngle, "rad", "push positive")
	c.number(ItemWorkDeviation, p.WorkDeviation.Rad, p.WorkDeviation.Known, s.WorkDeviation, "rad", "")
	c.number(ItemTravelDeviation, p.TravelDeviation.Rad, p.TravelDeviation.Known, s.TravelDeviation, "rad", "")
}

// singlePass checks the size that this pass lays, in the procedure's measure.
func (c *checker) singlePass() {
	size, note := c.plan.PassLeg, ""
	if c.spec.SinglePassIs == weld.Throat {
		size = c.plan.PassThroat
	}
	if c.spec.SinglePass.Stated() {
		note = c.spec.SinglePassIs.String()
	}
	c.number(ItemSinglePass, size, size != 0, c.spec.SinglePass, "m", note)
}

// namer is a value of the trade's vocabulary.
type namer interface {
	comparable
	String() string
}

// name returns the word of a value, empty for the zero value.
func name[T namer](v T) string {
	var none T
	if v == none {
		return ""
	}
	return v.String()
}

// names returns the words of a list.
func names[T namer](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, v.String())
	}
	return out
}

// single returns a list of one, or of none for an empty text.
func single(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}
