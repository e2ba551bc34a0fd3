package procedure

import (
	"errors"
	"fmt"

	"seamwright/weld"
)

// Further are the limits of a procedure beside those of Spec. Empty lists and
// ranges with no end state nothing.
type Further struct {
	// ParentGroups are the material groups, by ISO/TR 15608 or by the table of
	// AWS D1.1.
	ParentGroups []string
	Polarities   []Polarity
	Techniques   []Technique
	Amplitude    weld.Range // of a weave, half of its width, m
	Frequency    weld.Range // of a weave, Hz
	Dwell        weld.Range // at each side of a weave, s
	Preheat      weld.Range // temperature before the first run, degC
	Interpass    weld.Range // temperature before each further run, degC

	// Sources says where the limit of an item stands, of Spec or of these, when
	// that is not the procedure itself; nil or no entry means the procedure.
	Sources map[Item]weld.Source
}

// Validate reports ranges that are out of order, joined into one error.
func (f Further) Validate() error {
	var errs []error
	for _, r := range []struct {
		item Item
		r    weld.Range
	}{{ItemAmplitude, f.Amplitude}, {ItemFrequency, f.Frequency}, {ItemDwell, f.Dwell}, {ItemPreheat, f.Preheat}, {ItemInterpass, f.Interpass}} {
		if err := r.r.Validate(); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", r.item, err))
		}
	}
	if f.Preheat.HasLow && f.Interpass.HasHigh && f.Interpass.High < f.Preheat.Low {
		errs = append(errs, fmt.Errorf("preheat is at least %g degC and interpass at most %g degC; allowed: interpass not below preheat; check which is which", f.Preheat.Low, f.Interpass.High))
	}
	return errors.Join(errs...)
}
