package procedure

import (
	"errors"
	"fmt"

	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/thermal"
)

// Record is a procedure qualification record: the pass that was welded and
// tested.
type Record struct {
	ID     string
	Welded Planned // as it was welded
}

// Permitted is what a record permits by the essential variables of a code.
type Permitted struct {
	Limits WPS
	// Silent are the variables for which the record has no value: their items
	// are not stated in Limits, which is no pass.
	Silent []Item

	process weld.Process // as welded
}

// Permitted returns the procedure that the record supports: each variable's
// value as welded with the change that the code allows, each limit with the
// variable's source. Variables of another code family than the record's are
// refused.
func (r Record) Permitted(variables []Variable) (Permitted, error) {
	p := r.Welded
	if p.Family != weld.ISO && p.Family != weld.AWS {
		return Permitted{}, fmt.Errorf("qualification record %q: %v; say ISO or AWS", r.ID, p.Family)
	}
	b := bounder{record: r, out: Permitted{process: p.Settings.Process, Limits: WPS{Common: Spec{ID: "by " + r.ID, Qualification: r.ID, Family: p.Family}, Further: Further{Sources: map[Item]weld.Source{}}}}}
	for _, v := range variables {
		if v.Source.Family != p.Family {
			return Permitted{}, fmt.Errorf("qualification record %q is of the %v family, the variable %q of %v; codes are never mixed in one check", r.ID, p.Family, v, v.Source.Family)
		}
		if v.Item == ItemProgression && !p.Position.Name(p.Family).Vertical() {
			continue // a variable of vertical positions alone
		}
		stated, err := b.apply(v)
		switch {
		case err != nil:
			return Permitted{}, fmt.Errorf("qualification record %q: %w", r.ID, err)
		case !stated:
			b.out.Silent = append(b.out.Silent, v.Item)
		default:
			b.out.Limits.Further.Sources[v.Item] = v.Source
		}
	}
	return b.out, b.out.Limits.Validate()
}

// bounder turns variables into limits.
type bounder struct {
	record Record
	out    Permitted
}

// apply sets the limit of one variable and reports whether the record has its
// value.
func (b *bounder) apply(v Variable) (bool, error) {
	if v.Rule == WithinShare || v.Rule == WithinStep {
		return b.number(v)
	}
	if v.Item == ItemWireDiameter {
		return b.wire(v)
	}
	if v.Rule != NoChange {
		return false, fmt.Errorf("variable %q: no such rule for a word; allowed: no change", v)
	}
	return b.word(v.Item)
}

// one returns a list with a value, and whether there is one.
func one[T comparable](value T) ([]T, bool) {
	var none T
	if value == none {
		return nil, false
	}
	return []T{value}, true
}

// word limits an item that is a name to the name as welded.
func (b *bounder) word(item Item) (stated bool, err error) {
	p, s, f := b.record.Welded, &b.out.Limits.Common, &b.out.Limits.Further
	switch item {
	case ItemProcess:
		s.Processes, stated = one(p.Settings.Process)
	case ItemTransfer:
		s.Transfers, stated = one(p.Settings.Transfer)
	case ItemJoint:
		s.Joints, stated = one(p.Joint)
	case ItemKind:
		s.Kinds, stated = one(p.Kind)
	case ItemPosition:
		s.Positions, stated = one(p.Position.Name(s.Family))
	case ItemProgression:
		s.Progressions, stated = one(p.Position.Progression)
	case ItemWireClass:
		s.WireClass, stated = p.Settings.WireClass, p.Settings.WireClass != ""
	case ItemGasName:
		s.GasName, stated = p.Settings.GasName, p.Settings.GasName != ""
	case ItemParentGroup:
		f.ParentGroups, stated = one(p.ParentGroup)
	case ItemPolarity:
		f.Polarities, stated = one(p.Settings.Polarity)
	case ItemTechnique:
		f.Techniques, stated = one(p.Technique)
	default:
		return false, fmt.Errorf("variable %q: its change is a number; allowed: a share or a step", item)
	}
	return stated, nil
}

// wire limits the wire diameter to that as welded, or to the sizes up to it.
func (b *bounder) wire(v Variable) (bool, error) {
	d := b.record.Welded.Settings.WireDiameter
	if d == 0 {
		return false, nil
	}
	var allowed []float64
	for _, size := range deposit.WireSizes() {
		if v.Rule == NoIncrease && size.Diameter < d-sameWire {
			allowed = append(allowed, size.Diameter)
		}
	}
	b.out.Limits.Common.WireDiameters = append(allowed, d)
	return true, nil
}

// number limits a quantity to a range about its value as welded.
func (b *bounder) number(v Variable) (bool, error) {
	p, s, f := b.record.Welded, &b.out.Limits.Common, &b.out.Limits.Further
	var value float64
	var to *weld.Range
	known := true
	switch v.Item {
	case ItemCurrent:
		value, to = p.Settings.Amps, &s.Current
	case ItemVoltage:
		value, to = p.Settings.Volts, &s.Voltage
	case ItemFeed:
		value, to = p.Settings.Feed, &s.Feed
	case ItemTravelSpeed:
		value, to = p.Travel, &s.Travel
	case ItemGasFlow:
		value, to = p.Settings.GasFlow, &s.GasFlow
	case ItemContactDistance:
		value, to = p.Settings.ContactDistance, &s.ContactDistance
	case ItemPreheat:
		value, known, to = p.Preheat.DegC, p.Preheat.Known, &f.Preheat
	case ItemInterpass:
		value, known, to = p.Interpass.DegC, p.Interpass.Known, &f.Interpass
	case ItemEnergy:
		return b.energy(v)
	default:
		return false, fmt.Errorf("variable %q: its change is not a number here; allowed: no change", v)
	}
	if value == 0 && v.Rule == WithinShare || !known {
		return false, nil
	}
	*to = v.Range(value)
	return true, nil
}

// energy limits the energy per length about that as welded: without k, which
// does not change the share.
func (b *bounder) energy(v Variable) (bool, error) {
	p, s := b.record.Welded, &b.out.Limits.Common
	s.EnergyIs = thermal.ArcEnergy
	if s.Family == weld.AWS {
		s.EnergyIs = thermal.AWSHeatInput
	}
	if p.Travel == 0 {
		return false, nil
	}
	arc, err := p.Settings.ArcEnergy(p.Travel)
	if errors.Is(err, ErrEnergyUnknown) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	s.Energy = v.Range(arc.PerLength)
	return true, nil
}
