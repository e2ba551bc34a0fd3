package accept

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/weld"
)

// Code is the document that sets the limits. The zero value is "not stated".
type Code uint8

// The codes.
const (
	ISO5817 Code = iota + 1 // ISO 5817, fusion welds in steel
	D11                     // AWS D1.1, structural steel, visual inspection
)

// String returns "ISO 5817" or "AWS D1.1".
func (c Code) String() string {
	switch c {
	case ISO5817:
		return "ISO 5817"
	case D11:
		return "AWS D1.1"
	}
	return "code not stated"
}

// Family returns the code family.
func (c Code) Family() weld.CodeFamily {
	switch c {
	case ISO5817:
		return weld.ISO
	case D11:
		return weld.AWS
	}
	return 0
}

// Editions returns the editions that are held here, oldest first.
func (c Code) Editions() []string {
	switch c {
	case ISO5817:
		return []string{"2014", "2023"}
	case D11:
		return []string{"2000", "2004", "2020", "2025"}
	}
	return nil
}

// Level is a quality level of ISO 5817. The zero value is "not stated".
type Level byte

// The levels, from moderate to stringent.
const (
	D Level = 'D'
	C Level = 'C'
	B Level = 'B'
)

// String returns "D", "C" or "B".
func (l Level) String() string {
	if l == D || l == C || l == B {
		return string(rune(l))
	}
	return "level not stated"
}

// Execution is an execution class of EN 1090-2, which sets a level of ISO 5817
// with exceptions. The zero value is "not stated".
type Execution uint8

// The execution classes.
const (
	EXC1 Execution = iota + 1
	EXC2
	EXC3
	EXC4
)

// String returns "EXC1" to "EXC4".
func (e Execution) String() string {
	if e < EXC1 || e > EXC4 {
		return "execution class not stated"
	}
	return fmt.Sprintf("EXC%d", uint8(e))
}

// Level returns the level of ISO 5817 for the imperfection of an ISO 6520-1
// number, and whether the class counts it at all: EXC1 D; EXC2 C, but D for
// overlap 506, stray arc 601 and end crater pipe 2025; EXC3 and EXC4 B, EXC4
// with more that is not held here. The toe angle 505 is not counted. EN
// 1090-2:2018 7.6.1, READ in a data file that quotes it.
func (e Execution) Level(ref string) (level Level, counted bool) {
	counted = ref != "505"
	switch e {
	case EXC1:
		return D, counted
	case EXC2:
		if ref == "506" || ref == "601" || ref == "2025" {
			return D, counted
		}
		return C, counted
	case EXC3, EXC4:
		return B, counted
	}
	return 0, false
}

// Load is how a weld to AWS D1.1 is loaded. The zero value is static.
type Load uint8

// The loads.
const (
	Static Load = iota
	Cyclic      // cyclically loaded
)

// Standard is what a weld is accepted by.
type Standard struct {
	Code    Code
	Edition string // one of Code.Editions

	Level     Level     // ISO 5817 only
	Execution Execution // ISO 5817 only, in place of Level
	Load      Load      // AWS D1.1 only
}

// Validate reports an edition that is not held, a missing level or fields of
// the other code family. Every error is an *Error.
func (s Standard) Validate() error {
	if err := s.check(); err != nil {
		return err
	}
	return nil
}

func (s Standard) check() *Error {
	editions := s.Code.Editions()
	switch {
	case editions == nil:
		return &Error{UnknownCode, fmt.Sprintf("code %d", s.Code), "ISO 5817, AWS D1.1", "name the code of the contract"}
	case !slices.Contains(editions, s.Edition):
		return &Error{UnknownEdition, fmt.Sprintf("%v:%s", s.Code, s.Edition), strings.Join(editions, ", "), "name the edition of the contract; if it is another one, judge by the document itself"}
	case s.Code == D11 && (s.Level != 0 || s.Execution != 0):
		return &Error{MixedCodes, "a level of ISO 5817 for AWS D1.1", "the load, static or cyclic", "leave the level out, or name ISO 5817"}
	case s.Code == ISO5817 && s.Load != Static:
		return &Error{MixedCodes, "a load of AWS D1.1 for ISO 5817", "a level or an execution class", "leave the load out, or name AWS D1.1"}
	case s.Code == ISO5817 && s.Level != 0 && s.Execution != 0:
		return &Error{NoLevel, fmt.Sprintf("level %v and %v", s.Level, s.Execution), "one of them", "keep the one that the drawing calls"}
	case s.Code == ISO5817 && s.Execution == 0 && s.Level != D && s.Level != C && s.Level != B:
		return &Error{NoLevel, s.Level.String(), "D, C, B, or an execution class", "take the level from the drawing"}
	case s.Execution > EXC4:
		return &Error{NoLevel, s.Execution.String(), "EXC1 to EXC4", "take the class from the drawing"}
	}
	return nil
}

// levelFor returns the level that holds for an imperfection, and whether it
// counts.
func (s Standard) levelFor(ref string) (Level, bool) {
	if s.Execution != 0 {
		return s.Execution.Level(ref)
	}
	return s.Level, true
}
