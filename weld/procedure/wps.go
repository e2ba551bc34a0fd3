package procedure

import (
	"errors"
	"fmt"
	"strings"

	"seamwright/weld"
	"seamwright/weld/section"
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

	QualifiedBy *Qualification // nil: its record is not given, or by name alone
}

// Validate reports limits that are out of order or of the other code family,
// and runs that overlap, leave a pass out, run backward or leave the limits of
// all runs, joined into one error that names the procedure.
func (w WPS) Validate() error {
	if err := w.Common.Validate(); err != nil {
		return err
	}
	errs := []error{w.Further.Validate()}
	for i := range w.Runs {
		for _, slip := range w.SlipsOfRun(i) {
			errs = append(errs, fmt.Errorf("%v: %w", w.Runs[i], slip))
		}
	}
	if err := errors.Join(errs...); err != nil {
		return fmt.Errorf("welding procedure %q: %w", w.Common.ID, err)
	}
	return nil
}

// Row returns the place in Runs of what the procedure states for a pass, from
// 0; -1 where it states nothing run by run and one list of limits holds for all.
// The error says that no run of the procedure holds for the pass.
func (w *WPS) Row(p Which) (int, error) {
	if len(w.Runs) == 0 {
		return -1, nil
	}
	stated := make([]string, len(w.Runs))
	for i, r := range w.Runs {
		if r.has(p) {
			return i, nil
		}
		stated[i] = r.String()
	}
	return 0, fmt.Errorf("welding procedure %q states nothing for %v; it has %s", w.Common.ID, p, strings.Join(stated, ", "))
}

// ForRow returns the limits of a row of Runs, from 0: those of all runs, with
// what the row states in their place and named as its source; -1 for those of all
// runs alone.
func (w *WPS) ForRow(i int) (Spec, Further) {
	s, f := w.Common, w.Further
	if i >= 0 {
		w.Runs[i].narrow(&s, &f)
	}
	return s, f
}

// ForRole returns the limits of every row that a pass of the role may come
// under. Rows by number say nothing of roles: the first is the root's, any other
// may be that of fill or cap.
func (w *WPS) ForRole(role section.Role) []Spec {
	if len(w.Runs) == 0 {
		return []Spec{w.Common}
	}
	var out []Spec
	for i, r := range w.Runs {
		if r.mayHave(role) {
			s, _ := w.ForRow(i)
			out = append(out, s)
		}
	}
	return out
}

// Checker returns the limits of a row of Runs, from 0, or -1 for those of all
// runs alone, made ready for checking.
func (w *WPS) Checker(row int) (*Checker, error) {
	if err := w.Validate(); err != nil {
		return nil, err
	}
	s, f := w.ForRow(row)
	return NewChecker(s, &f)
}

// Check compares a planned pass with what the procedure states for it: every
// item of Spec and Further appears, as in Checker.Check.
func (w *WPS) Check(p Planned) ([]Verdict, error) {
	if err := w.Validate(); err != nil {
		return nil, err
	}
	row, err := w.Row(p.Run)
	if err != nil {
		return nil, err
	}
	s, f := w.ForRow(row)
	c, err := NewChecker(s, &f)
	if err != nil {
		return nil, err
	}
	return c.Check(p)
}
