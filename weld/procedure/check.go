package procedure

import (
	"seamwright/weld"
)

// Planned is one pass as planned. Zero means "not known" for every quantity
// that cannot be zero; angles and temperatures say whether they are known.
type Planned struct {
	Family weld.CodeFamily // code family of the job
	Run    Which

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

	ParentGroup string
	Technique   Technique
	// Amplitude and Frequency are those of the weave, m and Hz, and DwellLeft and
	// DwellRight its stands at the sides, s; they are known where the technique is,
	// 0 for a stringer.
	Amplitude, Frequency  float64
	DwellLeft, DwellRight float64
	// Preheat is the temperature before the first run, Interpass that before each
	// further one.
	Preheat, Interpass Temperature
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
// only in vertical positions, where alone it is a variable. The further limits
// of a WPS are checked by its own Check. Check returns an error when the
// procedure is not valid, or when the job belongs to another code family: those
// are never compared. For many passes see Checker.
func (s Spec) Check(p Planned) ([]Verdict, error) {
	c, err := NewChecker(s, nil)
	if err != nil {
		return nil, err
	}
	return c.Check(p)
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
