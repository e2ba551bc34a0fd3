package plan

import (
	"errors"
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// sizing finds what one pass deposits, how fast it must travel for that and
// what heat it brings.
type sizing struct {
	words
	job      *job.Job
	seam     *job.Seam
	settings procedure.Settings
	position weld.Position
	start    seam.Frame // of the joint at the weld start
	up       r3.Vec     // against gravity, in the start's frame
	length   float64    // m
}

// settingsOf returns the settings set of a seam; the document was checked to
// have it.
func settingsOf(j *job.Job, id string) procedure.Settings {
	for _, s := range j.Settings {
		if s.ID == id {
			return s
		}
	}
	return procedure.Settings{}
}

// size computes the pass, with a finding for everything that it had to change
// or refuse. Travel is 0 where no speed exists.
func (z sizing) size() (Size, []finding.Finding, error) {
	melt, err := z.settings.Melt()
	if err != nil {
		return Size{}, nil, err
	}
	s := z.fixed(melt)
	s.Typed = z.seam.Speed
	var found []finding.Finding
	if z.seam.Weld.Kind == job.SizeArea {
		found, err = z.area(&s, melt)
	} else {
		found, err = z.fillet(&s, melt)
	}
	if err != nil {
		return s, found, err
	}
	if s.Typed > 0 {
		s.Travel = s.Typed
	}
	s.ArcTime = z.length / s.Travel
	s.AloneLeg, s.AloneThroat = max(s.LegBase, s.LegOther), s.Throat
	heat, err := z.heat(&s)
	return s, append(found, heat...), err
}

// fixed is what the settings set and the joint make of a pass, whatever its size.
func (z sizing) fixed(melt deposit.Melt) Size {
	return Size{
		Settings: z.settings.ID, Feed: z.settings.Feed, Volts: z.settings.Volts, Amps: z.settings.Amps,
		Efficiency: melt.Efficiency, Convexity: z.settings.PlanningFactor().Value, WireDiameter: z.settings.WireDiameter,
		StartTime: z.settings.Phases.StartDelay, CraterTime: z.settings.Phases.CraterFill,
		Included: z.start.Included,
	}
}

// area sizes a pass of which the area is given.
func (z sizing) area(s *Size, melt deposit.Melt) ([]finding.Finding, error) {
	s.Area = z.seam.Weld.Area
	var err error
	if s.Travel, err = melt.TravelForArea(s.Area); err != nil || s.Typed == 0 {
		return nil, err
	}
	made, err := melt.BeadArea(s.Typed)
	if err != nil {
		return nil, err
	}
	wanted := s.Area
	s.Area = made // what is welded is what the typed speed gives
	return z.typedSize(typedSize{
		what: "the area", as: asArea, typed: s.Typed, needs: s.Travel,
		made: made, wanted: wanted, slack: areaSlack * wanted, over: areaOver * wanted, more: made/wanted - 1,
	}), nil
}

// fillet sizes a fillet: what the drawing asks, made larger by the gap rule,
// gives the area, and the metal balance the speed.
func (z sizing) fillet(s *Size, melt deposit.Melt) ([]finding.Finding, error) {
	drawn, err := z.drawn()
	if err != nil {
		return nil, err
	}
	s.DrawnLegBase, s.DrawnLegOther = drawn.Leg1, drawn.Leg2
	made, found, err := z.withGap(drawn)
	if err != nil {
		return found, err
	}
	shape := z.settings.Shape(z.start.Included, made.Leg2/made.Leg1)
	if s.Area, err = shape.Area(made.Leg1); err != nil {
		return found, err
	}
	s.LegBase, s.LegOther, s.Throat = made.Leg1, made.Leg2, made.DesignThroat()
	if s.Travel, err = melt.TravelForLeg(shape, made.Leg1); err != nil {
		return found, err
	}
	if s.Typed > 0 {
		typed, err := z.typed(s, melt, shape, made)
		return append(found, typed...), err
	}
	return found, nil
}

// drawn is the fillet that the drawing asks for.
func (z sizing) drawn() (section.Fillet, error) {
	w := z.seam.Weld
	switch w.Kind {
	case job.SizeThroat:
		return section.FromThroat(z.start.Included, w.Throat)
	case job.SizeLegs:
		return section.New(z.start.Included, w.LegBase, w.LegOther)
	}
	return section.EqualLegs(z.start.Included, w.LegBase)
}

// gapFree is the gap up to which the rule changes nothing, m: AWS D1.1:2020
// 7.21.1 (READ, secondary).
const gapFree = 2e-3

// withGap is the fillet that is welded where there is a gap: what the drawing
// asks with the rule applied, or with a finding that forbids it.
func (z sizing) withGap(drawn section.Fillet) (section.Fillet, []finding.Finding, error) {
	if z.seam.Gap == 0 {
		return drawn, nil, nil
	}
	where := finding.AtSeam(z.seam.Name)
	thin := thinner(z.seam)
	if thin == 0 {
		thin = drawn.Leg1 // unstated: the rule's thick-plate exception cannot apply
	}
	rule, err := section.Gap(section.Fit{Leg: drawn.Leg1, Gap: z.seam.Gap, Thickness: thin})
	if err != nil {
		return drawn, nil, err
	}
	source := rule.Source.String()
	if z.job.Code == weld.ISO {
		source += "; taken as a planning rule: ISO 5817 limits the gap by quality level"
	}
	if !rule.Allowed {
		f := finding.Newf(finding.GapTooLarge, where, "%s has a gap of %s; more than %s must not be welded over", z.seam.Name, z.say(asSize, z.seam.Gap), z.say(asSize, rule.Limit))
		return drawn, []finding.Finding{f.Values(z.pair(unit.Length, z.seam.Gap, rule.Limit)).From(source)}, nil
	}
	if rule.Growth == 0 {
		return drawn, nil, nil
	}
	made, err := section.New(drawn.Angle, drawn.Leg1+rule.Growth, drawn.Leg2+rule.Growth)
	f := finding.Newf(finding.GapAddsToLeg, where, "%s: the gap of %s is added to each leg, so leg %s is welded for %s drawn", z.seam.Name, z.say(asSize, z.seam.Gap), z.say(asSize, made.Leg1), z.say(asSize, drawn.Leg1))
	return made, []finding.Finding{f.Values(z.pair(unit.Length, z.seam.Gap, gapFree)).From(source)}, err
}

// heat fills in arc energy and heat input.
func (z sizing) heat(s *Size) ([]finding.Finding, error) {
	energy, err := z.settings.ArcEnergy(s.Travel)
	if errors.Is(err, procedure.ErrEnergyUnknown) {
		s.ArcEnergy, s.HeatInput = math.NaN(), math.NaN()
		f := finding.Newf(finding.EnergyDoubtful, finding.AtSeam(z.seam.Name), "%s: arc energy and heat input are not known: settings set %s states neither power nor both volts and amps", z.seam.Name, z.settings.ID)
		return []finding.Finding{f.Mend("read them off the source while it welds and put them into the set")}, nil
	}
	if err != nil {
		return nil, err
	}
	s.ArcEnergy = energy.PerLength
	s.HeatIs = z.heatIs()
	if s.HeatInput, err = s.HeatIs.FromArcEnergy(energy.PerLength, z.settings.Process); err != nil {
		return nil, fmt.Errorf("settings set %q: %w", z.settings.ID, err)
	}
	if energy.Caution == "" {
		return nil, nil
	}
	return []finding.Finding{finding.New(finding.EnergyDoubtful, finding.AtSeam(z.seam.Name), fmt.Sprintf("%s: %s", z.seam.Name, energy.Caution))}, nil
}

// heatIs is the heat input that the job's family counts.
func (z sizing) heatIs() thermal.Quantity {
	if z.job.Code == weld.AWS {
		return thermal.AWSHeatInput
	}
	return thermal.HeatInput
}

// thinner returns the thinner stated thickness, m, or 0.
func thinner(s *job.Seam) float64 { return thinnerOf(s.BaseThickness, s.OtherThickness) }

// Thinner returns the thinner of the plates whose thickness is stated, m, or 0.
func (s *Seam) Thinner() float64 { return thinnerOf(s.BaseThickness, s.OtherThickness) }

func thinnerOf(a, b float64) float64 {
	switch {
	case a == 0:
		return b
	case b == 0:
		return a
	}
	return min(a, b)
}
