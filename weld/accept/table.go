package accept

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// Rule is what a row says at one level. The zero value is nothing.
type Rule uint8

// The rules.
const (
	Forbidden     Rule = iota + 1 // not permitted
	Permitted                     // permitted without a limit
	AtMost                        // up to a limit
	AtLeast                       // down to a limit (toe angle)
	ByApplication                 // agreed for the application
)

// Basis is what a limit grows with. The zero value is nothing.
type Basis uint8

// The bases.
const (
	Thickness     Basis = iota + 1 // t, of the plate
	NominalThroat                  // a, of a fillet as drawn
	ButtThickness                  // s, of a groove weld as drawn
	Width                          // b, of the weld face, or of the excess penetration
)

// letter returns the symbol of ISO 5817.
func (b Basis) letter() string { return [...]string{"", "t", "a", "s", "b"}[b] }

// Bound is a row's limit at one level: Base + Factor times the basis, at most
// Max; all m, Factor dimensionless. A toe angle has Base in rad.
type Bound struct {
	Rule   Rule
	Base   float64 // m, or rad
	Factor float64 // dimensionless
	Max    float64 // m; 0 for none
	Short  bool    // for short imperfections only; longer ones are not permitted
}

// Limit returns the limit for a basis, m (rad for a toe angle; 0 where nothing
// is permitted, infinite where everything is).
func (b Bound) Limit(basis float64) float64 {
	switch b.Rule {
	case Forbidden:
		return 0
	case AtMost, AtLeast:
		limit := b.Base + b.Factor*basis
		if b.Max > 0 {
			limit = min(limit, b.Max)
		}
		return limit
	}
	return math.Inf(1)
}

// words returns the formula, such as "h <= 0.1 t, max 0.5 mm".
func (b Bound) words(basis Basis) string {
	switch b.Rule {
	case Forbidden:
		return "not permitted"
	case Permitted:
		return "permitted"
	case ByApplication:
		return "by application"
	case AtLeast:
		return fmt.Sprintf("at least %.4g deg", b.Base/unit.Deg)
	}
	var terms []string
	if b.Base != 0 {
		terms = append(terms, mm(b.Base))
	}
	if b.Factor != 0 {
		terms = append(terms, fmt.Sprintf("%.4g %s", b.Factor, basis.letter()))
	}
	out := "h <= " + strings.Join(terms, " + ")
	if b.Max != 0 {
		out += ", max " + mm(b.Max)
	}
	if b.Short {
		out += ", short ones only"
	}
	return out
}

// Row is one row of a table of ISO 5817.
type Row struct {
	Ref     string // ISO 6520-1 number
	Name    string
	Measure Measure       // what is read for it; legs and throats make several rows
	Kind    weld.WeldKind // 0: any
	// Plates is the range of plate thickness that the row is for, m: from Low,
	// not included, to High.
	Plates weld.Range
	Basis  Basis

	D, C, B Bound
	seen    string // levels read for the row in a source, such as "CB"
}

// At returns the bound of a level.
func (r Row) At(l Level) Bound {
	switch l {
	case D:
		return r.D
	case C:
		return r.C
	}
	return r.B
}

// Words returns the limit of a level as the table has it, such as "h <= 0.1 t,
// max 0.5 mm", with t the plate, a the throat, s the groove weld and b the
// width.
func (r Row) Words(l Level) string { return r.At(l).words(r.Basis) }

// holdsFor reports whether the row is for a plate (m).
func (r Row) holdsFor(plate float64) bool {
	return (!r.Plates.HasLow || plate > r.Plates.Low+slack) && (!r.Plates.HasHigh || plate <= r.Plates.High+slack)
}

// Short notation for the table: millimetres and degrees.
func most(base, factor, highest float64) Bound {
	return Bound{Rule: AtMost, Base: base * unit.MM, Factor: factor, Max: highest * unit.MM}
}

func short(b Bound) Bound { b.Short = true; return b }

func least(degrees float64) Bound { return Bound{Rule: AtLeast, Base: degrees * unit.Deg} }

var (
	no    = Bound{Rule: Forbidden}
	yes   = Bound{Rule: Permitted}
	agree = Bound{Rule: ByApplication}

	thick = weld.AtLeast(3e-3) // above 3 mm
	thin  = weld.Range{Low: 0.5e-3 - 2*slack, High: 3e-3, HasLow: true, HasHigh: true}
)
