package section

import (
	"errors"
	"fmt"

	"seamwright/weld"
)

// The names of what is refused. Ask with errors.Is; the words are in InputError.
var (
	ErrOutOfRange     = errors.New("outside the range")
	ErrNotStated      = errors.New("not stated")
	ErrThroatOverLeg  = errors.New("throat over leg")
	ErrRootFace       = errors.New("root face over thickness")
	ErrRootRadius     = errors.New("root radius over depth")
	ErrTwoSides       = errors.New("depths of two sides over thickness")
	ErrNotOfThisPrep  = errors.New("measure not of this preparation")
	ErrNothingToFill  = errors.New("nothing to fill")
	ErrMixedFamilies  = errors.New("families mixed")
	ErrPassTooLarge   = errors.New("pass too large")
	ErrPassTooSmall   = errors.New("pass too small")
	ErrTooManyPasses  = errors.New("too many passes")
	ErrNoBeadFits     = errors.New("no bead fits")
	ErrDoesNotAddUp   = errors.New("passes do not add up")
	ErrNotOfThisCode  = errors.New("not of this code")
	ErrOutsideSection = errors.New("outside the section")
)

// InputError is an error about input that is no sense to compute with.
type InputError struct {
	Kind    error  // one of the names above, or of another package
	Found   string // what was found, with its unit
	Allowed string // what is allowed, with its unit
	Mend    string // how to mend it
}

// Error returns one sentence, such as "root face over thickness: found 12 mm,
// allowed less than 10 mm; measure the edge again".
func (r InputError) Error() string {
	return fmt.Sprintf("%v: found %s, allowed %s; %s", r.Kind, r.Found, r.Allowed, r.Mend)
}

// Unwrap returns the name.
func (r InputError) Unwrap() error { return r.Kind }

// inRange returns the first complaint of values (SI) under the name
// ErrOutOfRange and after what is being made, nil for none.
func inRange(what string, values ...weld.Sensed) error {
	if err := weld.CheckAll(values...); err != nil {
		return fmt.Errorf("%s: %w: %w", what, ErrOutOfRange, err)
	}
	return nil
}
