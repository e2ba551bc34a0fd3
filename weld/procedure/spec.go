package procedure

import (
	"errors"
	"fmt"

	"seamwright/weld"
	"seamwright/weld/thermal"
)

// Spec is a welding procedure specification: the ranges inside which a shop is
// allowed to weld. Empty lists, empty texts and ranges with no end state
// nothing; Check says so. Fields follow ISO 15609-1 (clause list from memory)
// and the AWS D1.1 form (read in a sample).
type Spec struct {
	ID       string
	Revision string
	// Qualification names the record that supports it; empty for none.
	Qualification string
	Family        weld.CodeFamily

	Processes []weld.Process
	Transfers []weld.Transfer
	Joints    []weld.JointType
	Kinds     []weld.WeldKind
	// Positions are names of the spec's own family.
	Positions []weld.PositionName
	// Progressions count only in vertical positions.
	Progressions []weld.Progression

	WireClass     string
	WireDiameters []float64 // m
	GasName       string
	GasFlow       weld.Range // m3/s

	Thickness weld.Range // of each part, m
	Current   weld.Range // A
	Voltage   weld.Range // V
	Feed      weld.Range // wire feed speed, m/s
	Travel    weld.Range // travel speed along the seam, m/s
	Energy    weld.Range // J/m, of the quantity that EnergyIs names
	EnergyIs  thermal.Quantity

	ContactDistance weld.Range // contact-tip-to-work distance, m
	WorkAngle       weld.Range // rad from the normal of the non-butting member
	TravelAngle     weld.Range // rad, push positive
	// WorkDeviation and TravelDeviation limit how far the torch may stand from
	// the wanted angle, rad, as in "45 deg +-5 deg".
	WorkDeviation   weld.Range
	TravelDeviation weld.Range

	// SinglePass is the range of the fillet size that one pass lays, m, of the
	// measure that SinglePassIs names.
	SinglePass   weld.Range
	SinglePassIs weld.SizeKind
}

// Validate reports what is missing, out of order or of the other code family,
// joined into one error that names the procedure.
func (s Spec) Validate() error {
	var errs []error
	add := func(what string, err error) {
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", what, err))
		}
	}
	if s.Family != weld.ISO && s.Family != weld.AWS {
		add("code family", fmt.Errorf("%v; say ISO or AWS", s.Family))
	}
	for _, r := range []struct {
		item Item
		r    weld.Range
	}{
		{ItemGasFlow, s.GasFlow}, {ItemThickness, s.Thickness}, {ItemCurrent, s.Current},
		{ItemVoltage, s.Voltage}, {ItemFeed, s.Feed}, {ItemTravelSpeed, s.Travel}, {ItemEnergy, s.Energy},
		{ItemContactDistance, s.ContactDistance}, {ItemWorkAngle, s.WorkAngle}, {ItemTravelAngle, s.TravelAngle},
		{ItemWorkDeviation, s.WorkDeviation}, {ItemTravelDeviation, s.TravelDeviation}, {ItemSinglePass, s.SinglePass},
	} {
		add(string(r.item), r.r.Validate())
	}
	for _, p := range s.Positions {
		if p.Family() != s.Family {
			add("positions", fmt.Errorf("%v is not a position of %v; write the positions in the words of one code", p, s.Family))
		}
	}
	if s.Energy.Stated() && s.EnergyIs.Family() != s.Family {
		add("energy", fmt.Errorf("%v does not belong to %v; say which quantity the limit is", s.EnergyIs, s.Family))
	}
	if s.SinglePass.Stated() {
		add("single pass", s.checkSizeKind())
	}
	if err := errors.Join(errs...); err != nil {
		return fmt.Errorf("welding procedure %q: %w", s.ID, err)
	}
	return nil
}

// checkSizeKind reports a single-pass size without measure, or a throat in an
// AWS procedure.
func (s Spec) checkSizeKind() error {
	switch {
	case s.SinglePassIs != weld.Leg && s.SinglePassIs != weld.Throat:
		return fmt.Errorf("%v; say leg or throat", s.SinglePassIs)
	case s.SinglePassIs == weld.Throat && s.Family == weld.AWS:
		return errors.New("AWS procedures limit the leg, not the throat; give the leg")
	}
	return nil
}

// source names the procedure as the origin of a limit.
func (s Spec) source() weld.Source {
	doc := "welding procedure " + s.ID
	if s.Revision != "" {
		doc += " revision " + s.Revision
	}
	return weld.Source{Mark: weld.Given, Family: s.Family, Code: doc}
}
