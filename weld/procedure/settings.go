package procedure

import (
	"errors"
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// Settings is one settings set: the stored weld settings that an arc-on refers
// to by its ID.
type Settings struct {
	ID   string // as the controller and the job refer to it, such as "11"
	Name string // for people, such as "z5 fillet"

	Process  weld.Process
	Transfer weld.Transfer
	Polarity Polarity // 0: not known

	WireDiameter float64 // m
	WireClass    string  // such as "G 42 4 M21 3Si1" or "ER70S-6"
	Feed         float64 // wire feed speed, m/s

	Volts float64 // V; 0: not known
	Amps  float64 // A; 0: not known
	// Power is the mean instantaneous power that a waveform-controlled source
	// reports, W; 0: not known. When known it replaces Volts times Amps.
	Power float64

	// Efficiency is the deposition efficiency, dimensionless; 0: the figure of
	// deposit.Efficiency for the transfer mode.
	Efficiency float64
	// Convexity is the planning factor k, bead area over flat-face area,
	// dimensionless; 0: the figure of section.Convexity for the transfer mode.
	Convexity float64

	GasName         string  // such as "M21"
	GasFlow         float64 // m3/s; 0: not known
	ContactDistance float64 // contact-tip-to-work distance, m; 0: not known
	// Hydrogen is the diffusible hydrogen that wire and gas bring, ml per 100 g (grams)
	// of weld metal; 0: not known.
	Hydrogen float64

	Phases Phases
}

// Phases are the times of a weld's start and end, s. Zero means none.
type Phases struct {
	PreFlow    float64 // gas before the arc, s
	StartDelay float64 // standing still after the arc is detected, s
	CraterFill float64 // standing still at the end on reduced settings, s
	PostFlow   float64 // gas after the arc, s
}

var (
	wireSense     = weld.WireSense()
	feedSense     = weld.FeedSense()
	voltSense     = weld.VoltSense()
	ampSense      = weld.CurrentSense()
	powerSense    = weld.PowerSense()
	etaSense      = weld.EfficiencySense()
	convexSense   = weld.ConvexitySense()
	gasSense      = weld.Sense{What: "gas flow", Low: 2e-3 / 60, High: 60e-3 / 60, Unit: unit.LitresPerMinute}
	distanceSense = weld.Sense{What: "contact-tip-to-work distance", Low: 3e-3, High: 50e-3, Unit: unit.Millimetres}
	phaseSense    = weld.Sense{What: "time of a weld phase", Low: 0, High: 30, Unit: unit.Seconds}
)

// Validate reports every field that is missing or out of its range of sense,
// joined into one error that names the set.
func (s Settings) Validate() error {
	var errs []error
	add := func(err error) { errs = append(errs, err) }
	if s.ID == "" {
		add(errors.New("it has no ID; give the number or name that the arc-on refers to"))
	}
	if s.Process != 0 && !s.Process.Planned() {
		add(fmt.Errorf("process %v is not planned here; write 131, 135, 136 or 138", s.Process))
	}
	add(wireSense.Check(s.WireDiameter))
	add(feedSense.Check(s.Feed))
	optional := []weld.Sensed{
		voltSense.Of(s.Volts), ampSense.Of(s.Amps), powerSense.Of(s.Power), etaSense.Of(s.Efficiency),
		convexSense.Of(s.Convexity), gasSense.Of(s.GasFlow), distanceSense.Of(s.ContactDistance),
	}
	for _, o := range optional {
		if o.Value != 0 {
			add(o.Sense.Check(o.Value))
		}
	}
	p := s.Phases
	for _, t := range []float64{p.PreFlow, p.StartDelay, p.CraterFill, p.PostFlow} {
		add(phaseSense.Check(t))
	}
	if err := errors.Join(errs...); err != nil {
		return fmt.Errorf("settings set %q: %w", s.ID, err)
	}
	return nil
}

// DepositionEfficiency returns the efficiency to plan with, dimensionless: the
// set's own, or the default for its transfer mode with that default's source.
func (s Settings) DepositionEfficiency() weld.Figure {
	if s.Efficiency != 0 {
		return weld.Figure{Value: s.Efficiency, Source: s.source()}
	}
	return deposit.Efficiency(s.Transfer)
}

// PlanningFactor returns the convexity factor k to plan with, dimensionless:
// the set's own, or the default for its transfer mode with that default's
// source.
func (s Settings) PlanningFactor() weld.Figure {
	if s.Convexity != 0 {
		return weld.Figure{Value: s.Convexity, Source: s.source()}
	}
	return section.Convexity(s.Transfer)
}

// source names the set as the origin of a figure.
func (s Settings) source() weld.Source {
	return weld.Source{Mark: weld.Given, Code: "settings set " + s.ID}
}

// Melt returns the wire going in, checked.
func (s Settings) Melt() (deposit.Melt, error) {
	m, err := deposit.NewMelt(s.WireDiameter, s.Feed, s.DepositionEfficiency().Value)
	if err != nil {
		return deposit.Melt{}, fmt.Errorf("settings set %q: %w", s.ID, err)
	}
	return m, nil
}

// Shape returns the section that the set's metal fills between plates at an
// included angle (rad) with a dimensionless ratio of second to first leg.
func (s Settings) Shape(angle, legRatio float64) deposit.Shape {
	return deposit.Shape{Angle: angle, LegRatio: legRatio, Convexity: s.PlanningFactor().Value}
}

// Energy is an arc energy with how it was had.
type Energy struct {
	PerLength float64 // arc energy without k, J/m
	Method    string  // "voltage times current" or "mean power"
	Caution   string  // what a reader must know; empty for nothing
}

// ErrEnergyUnknown says that a set gives neither power nor both voltage and
// current.
var ErrEnergyUnknown = errors.New("arc energy is not known: the settings set gives neither power nor both voltage and current")

// waveformCaution is from memory: ISO/TR 18491 asks for instantaneous values.
const waveformCaution = "pulsed source without a power reading: voltage times current is off by typically 5 to 15 %, up to 30 % (from memory)"

// ArcEnergy returns the arc energy at a travel speed along the seam (m/s): from
// Power where known, else from voltage and current. It returns ErrEnergyUnknown
// where neither is known.
func (s Settings) ArcEnergy(travel float64) (Energy, error) {
	if s.Power != 0 {
		e, err := thermal.FromPower(s.Power, travel)
		return Energy{PerLength: e, Method: "mean power"}, err
	}
	if s.Volts == 0 || s.Amps == 0 {
		return Energy{}, ErrEnergyUnknown
	}
	e, err := thermal.FromVoltsAmps(s.Volts, s.Amps, travel)
	out := Energy{PerLength: e, Method: "voltage times current"}
	if s.Transfer == weld.Pulsed {
		out.Caution = waveformCaution
	}
	return out, err
}
