package procedure

import (
	"errors"
	"fmt"

	"seamwright/weld"
)

// WPS is a whole welding procedure specification: the limits that a pass is
// checked against, and what else ISO 15609-1 asks a procedure to say. Texts say
// "none" where there is none; an empty text, like a range without ends, is not
// stated.
type WPS struct {
	Common  Spec // limits of every run
	Further Further

	Manufacturer string
	Examiner     string
	Date         string

	ParentDesignation string     // such as "S355J2 EN 10025-2"
	OutsideDiameter   weld.Range // of pipe, m

	JointSketch string // where the sketch with its sizes is
	Preparation string // how the edges are made
	Cleaning    string
	Jigging     string // fixture and tacks

	RunWidth weld.Range // m
	Dwell    weld.Range // at the sides of a weave, s

	BackGouging string
	Backing     string

	FillerMaker    string
	FillerHandling string
	Pulse          string // pulse data, or "none"

	Mechanisation string     // such as "fully mechanised"
	Nozzle        weld.Range // bore of the gas nozzle, m
	Electrodes    int        // wires fed at once
	BackingGas    string

	PreheatMaintenance string
	PostHeat           string // for the release of hydrogen
	PostWeldHeat       string

	Runs []Run // in order; none: Common holds for all
}

// Run is what a procedure states for some runs, beside or inside of what holds
// for all. Zero fields state nothing.
type Run struct {
	First int // number of the first run, 1 for the root
	Last  int // number of the last; 0 for all further runs
	Name  string

	Process      weld.Process
	Transfer     weld.Transfer
	WireClass    string
	WireDiameter float64 // m
	Polarity     Polarity
	Technique    Technique

	Current   weld.Range // A
	Voltage   weld.Range // V
	Feed      weld.Range // wire feed speed, m/s
	Travel    weld.Range // travel speed along the seam, m/s
	Energy    weld.Range // J/m, of the quantity that Spec.EnergyIs names
	Amplitude weld.Range // of a weave, m
}

// has reports whether the run number belongs to the run.
func (r Run) has(n int) bool { return n >= r.First && (r.Last == 0 || n <= r.Last) }

// String returns "run 1", "runs 2 to 4", "runs from 2 on".
func (r Run) String() string {
	switch {
	case r.Last == 0:
		return fmt.Sprintf("runs from %d on", r.First)
	case r.Last == r.First:
		return fmt.Sprintf("run %d", r.First)
	}
	return fmt.Sprintf("runs %d to %d", r.First, r.Last)
}

// runRange pairs a run's range with that of all runs.
type runRange struct {
	item   Item
	own    weld.Range  // in the unit of the item
	common *weld.Range // in the unit of the item
}

// ranges lists the ranges of the run beside those that they narrow.
func (r Run) ranges(s *Spec, f *Further) []runRange {
	return []runRange{
		{ItemCurrent, r.Current, &s.Current}, {ItemVoltage, r.Voltage, &s.Voltage}, {ItemFeed, r.Feed, &s.Feed},
		{ItemTravelSpeed, r.Travel, &s.Travel}, {ItemEnergy, r.Energy, &s.Energy}, {ItemAmplitude, r.Amplitude, &f.Amplitude},
	}
}

// Validate reports limits that are out of order or of the other code family,
// and runs that overlap, run backward or leave the limits of all runs, joined
// into one error that names the procedure.
func (w WPS) Validate() error {
	if err := w.Common.Validate(); err != nil {
		return err
	}
	errs := []error{w.Further.Validate()}
	for i, r := range w.Runs {
		add := func(format string, args ...any) {
			errs = append(errs, fmt.Errorf("%v: %s", r, fmt.Sprintf(format, args...)))
		}
		if r.First < 1 || r.Last != 0 && r.Last < r.First {
			add("numbers %d to %d; allowed: 1 and up, in order, 0 for all further runs; number the runs as they are welded", r.First, r.Last)
			continue
		}
		if i > 0 && w.Runs[i-1].has(r.First) {
			add("run %d is stated twice; allowed: once; end the runs before it at %d", r.First, r.First-1)
		}
		s, f := w.Common, w.Further
		for _, x := range r.ranges(&s, &f) {
			if err := x.own.Validate(); err != nil {
				add("%s: %v", x.item, err)
			} else if leaves(x.own, *x.common) {
				add("its %s leaves the range of all runs; allowed: inside it; widen the common range or narrow the run's", x.item)
			}
		}
		if r.Energy.Stated() && w.Common.EnergyIs.Family() != w.Common.Family {
			add("energy: %v does not belong to %v; say which quantity the limit is", w.Common.EnergyIs, w.Common.Family)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return fmt.Errorf("welding procedure %q: %w", w.Common.ID, err)
	}
	return nil
}

// leaves reports whether an end of a range lies outside another range.
func leaves(r, within weld.Range) bool {
	return r.HasLow && !within.Contains(r.Low) || r.HasHigh && !within.Contains(r.High)
}

// ForRun returns the limits of one run, counted from 1: those of all runs, with
// what the run states in their place.
func (w WPS) ForRun(n int) (Spec, Further, error) {
	if len(w.Runs) == 0 && n >= 1 {
		return w.Common, w.Further, nil
	}
	for _, r := range w.Runs {
		if r.has(n) {
			s, f := w.Common, w.Further
			r.narrow(&s, &f)
			return s, f, nil
		}
	}
	stated := "1 and up"
	if k := len(w.Runs); k > 0 {
		stated = fmt.Sprintf("from %v to %v", w.Runs[0], w.Runs[k-1])
	}
	return Spec{}, Further{}, fmt.Errorf("welding procedure %q: run %d is not in it; allowed: %s; plan fewer runs or choose a procedure that states them", w.Common.ID, n, stated)
}

// narrow puts what the run states in place of what holds for all.
func (r Run) narrow(s *Spec, f *Further) {
	for _, x := range r.ranges(s, f) {
		if x.own.Stated() {
			*x.common = x.own
		}
	}
	if r.Process != 0 {
		s.Processes = []weld.Process{r.Process}
	}
	if r.Transfer != 0 {
		s.Transfers = []weld.Transfer{r.Transfer}
	}
	if r.WireClass != "" {
		s.WireClass = r.WireClass
	}
	if r.WireDiameter != 0 {
		s.WireDiameters = []float64{r.WireDiameter}
	}
	if r.Polarity != 0 {
		f.Polarities = []Polarity{r.Polarity}
	}
	if r.Technique != 0 {
		f.Techniques = []Technique{r.Technique}
	}
}

// Checker returns the limits of one run, counted from 1, made ready for
// checking.
func (w WPS) Checker(run int) (*Checker, error) {
	if err := w.Validate(); err != nil {
		return nil, err
	}
	s, f, err := w.ForRun(run)
	if err != nil {
		return nil, err
	}
	return NewChecker(s, &f)
}

// Check compares a planned pass with what the procedure states for its run,
// counted from 1: every item of Spec and Further appears, as in Checker.Check.
func (w WPS) Check(run int, p Planned) ([]Verdict, error) {
	c, err := w.Checker(run)
	if err != nil {
		return nil, err
	}
	return c.Check(p)
}
