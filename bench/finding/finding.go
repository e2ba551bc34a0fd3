// Package finding holds the answer of every check: what was looked at, what
// was found, what is allowed, how to mend it and who says so.
//
// A Finding is data. Whoever computes says it; the table, the page and the
// sheet only show it. Its code is a stable phrase in trade words, registered
// in this package together with what the check does and where its limit comes
// from, so that docs/checks.md can be generated and no code can be misspelt.
package finding

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
)

// Severity says what a finding does to the job.
type Severity uint8

const (
	// Note is for the reader; nothing is wrong.
	Note Severity = iota
	// Caution asks a person to look before welding.
	Caution
	// Stop forbids the job as it stands.
	Stop
)

// String returns the word that findings.json and the sheet use.
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Caution:
		return "caution"
	case Stop:
		return "stop"
	}
	return fmt.Sprintf("severity(%d)", uint8(s))
}

// Place is what a finding concerns. Empty fields do not apply.
type Place struct {
	// Seam is the name of the seam, Pass its pass counted from 1 (0: all).
	Seam string
	Pass int
	// Along is the distance from the weld start in metres, valid if HasAlong.
	Along    float64
	HasAlong bool
	// System is the system of units in which String says Along.
	System unit.System
	// Point is the label of a taught point.
	Point string
	// Field is a field of the document, such as "arm.urdf", or a file's line.
	Field string
}

// AtSeam returns the place that is a whole seam.
func AtSeam(seam string) Place { return Place{Seam: seam} }

// AtPoint returns the place that is a taught point, of a seam or of none.
func AtPoint(seam, label string) Place { return Place{Seam: seam, Point: label} }

// AtField returns the place that is a field of the document.
func AtField(field string) Place { return Place{Field: field} }

// AtAlong returns the place along metres after the start of a seam's pass.
func AtAlong(seam string, pass int, along float64) Place {
	return Place{Seam: seam, Pass: pass, Along: along, HasAlong: true}
}

// In returns p with its numbers said in a system of units.
func (p Place) In(s unit.System) Place { p.System = s; return p }

// Along says a place along a seam, or another length that is taken with a
// tape, m: "182 mm" or "7.2 in".
func Along(m float64, s unit.System) string {
	if s == unit.InchPound {
		return unit.Format(m, unit.Inches, 1)
	}
	return unit.Format(m, unit.Millimetres, 0)
}

// String names the place as a person would: "W3 pass 1 at 182 mm".
func (p Place) String() string {
	var parts []string
	if p.Seam != "" {
		parts = append(parts, p.Seam)
	}
	if p.Pass > 0 {
		parts = append(parts, fmt.Sprintf("pass %d", p.Pass))
	}
	if p.HasAlong {
		parts = append(parts, "at "+Along(p.Along, p.System))
	}
	if p.Point != "" {
		parts = append(parts, fmt.Sprintf("point %q", p.Point))
	}
	if p.Field != "" {
		parts = append(parts, p.Field)
	}
	if len(parts) == 0 {
		return "job"
	}
	return strings.Join(parts, " ")
}

// Finding is one answer of one check.
type Finding struct {
	Code     Code
	Severity Severity
	Where    Place
	// Measured and Limit are numbers in Unit, the unit a person would read
	// ("mm", "deg", "in/min", "kJ/in"); NaN where the check has no number.
	Measured, Limit float64
	Unit            string
	// Message says what, where and how much; Remedy what to do about it;
	// Source who sets the limit and how well that is known.
	Message string
	Remedy  string
	Source  string
}

// New returns a finding of the check with its usual severity and source and
// without numbers.
func New(code Code, where Place, message string) Finding {
	c := Lookup(code)
	return Finding{
		Code: code, Severity: c.Severity, Where: where,
		Measured: math.NaN(), Limit: math.NaN(),
		Message: message, Remedy: c.Remedy, Source: c.Source,
	}
}

// Newf is New with a formatted message.
func Newf(code Code, where Place, format string, args ...any) Finding {
	return New(code, where, fmt.Sprintf(format, args...))
}

// Values returns f with the measured value and the limit it was held against,
// both in unit, a unit that people read.
func (f Finding) Values(measured, limit float64, unit string) Finding {
	f.Measured, f.Limit, f.Unit = measured, limit, unit
	return f
}

// As returns f with another severity than its check's usual one.
func (f Finding) As(s Severity) Finding { f.Severity = s; return f }

// Mend returns f with a remedy for this very case.
func (f Finding) Mend(format string, args ...any) Finding {
	f.Remedy = fmt.Sprintf(format, args...)
	return f
}

// From returns f with the source of the limit that was used.
func (f Finding) From(source string) Finding { f.Source = source; return f }

// Worst returns the highest severity in list, Note for an empty one.
func Worst(list []Finding) Severity {
	worst := Note
	for _, f := range list {
		worst = max(worst, f.Severity)
	}
	return worst
}
