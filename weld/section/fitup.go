package section

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// fitUpSource is where the everyday figures of butt joints come from.
var fitUpSource = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1 as quoted", Note: "workshop articles in a public repository"}

// FitUp holds a groove as measured against the groove as drawn, with the
// tolerances that AWS shops use without backing: gap 2 mm either way, root face
// 2 mm either way, groove angle 10 degrees more or 5 less, read in workshop
// articles that cite D1.1. It returns where it is outside, none where it fits,
// and their source. It fails where the two are different preparations.
func FitUp(drawn, measured Groove) ([]Difference, weld.Source, error) {
	if drawn.Prep != measured.Prep {
		return nil, weld.Source{}, fmt.Errorf("fit-up: %w", InputError{ErrNotOfThisPrep, measured.Prep.String(), drawn.Prep.String(), "measure the joint that is drawn"})
	}
	var out []Difference
	add := func(what string, r weld.Range, value float64, say func(float64) string, mend string) {
		if !r.Contains(value) {
			out = append(out, Difference{what, say(value), span(r, false, say), mend})
		}
	}
	either := func(x, by float64) weld.Range { return weld.Between(max(0, x-by), x+by) }
	add("gap", either(drawn.Gap, 2e-3), measured.Gap, millimetres, "re-fit, or plan the section as measured")
	add("root face", either(drawn.RootFace, 2e-3), measured.RootFace, millimetres, "grind the root face")
	if drawn.Angle > 0 {
		add("angle", weld.Between(drawn.Angle-5*unit.Deg, drawn.Angle+10*unit.Deg), measured.Angle, degrees, "prepare the edges again")
	}
	return out, fitUpSource, nil
}

// Misalignment returns how far the plates of a butt joint may be out of line, m,
// for the thinner thickness (m): a tenth of it, 3 mm at most. AWS D1.1, read in
// workshop articles. ISO limits it by the quality level instead (ISO 5817, 507).
func Misalignment(thickness float64) (weld.Limit, error) {
	if err := inRange("misalignment", plateSense.Of(thickness)); err != nil {
		return weld.Limit{}, err
	}
	return weld.Limit{Range: weld.AtMost(math.Min(thickness/10, 3e-3)), Source: fitUpSource}, nil
}

// gapLevels is ISO 5817, imperfection 617: root gap of a fillet up to add +
// share times the throat, most at most, m.
var gapLevels = map[string]struct{ add, share, most float64 }{
	"B": {0.5e-3, 0.1, 2e-3},
	"C": {0.5e-3, 0.2, 3e-3},
	"D": {1e-3, 0.3, 4e-3},
}

// GapISO returns the widest root gap of a fillet, m, for a quality level of ISO
// 5817 ("B", "C", "D") and a throat (m): B 0.5 + 0.1 a, at most 2 mm; C 0.5 + 0.2
// a, at most 3; D 1 + 0.3 a, at most 4 (imperfection 617). Read in the older EN
// 25817 sheet: compare the edition of the contract. AWS asks something else: see
// Gap.
func GapISO(level string, throat float64) (weld.Limit, error) {
	row, ok := gapLevels[strings.ToUpper(strings.TrimSpace(level))]
	if !ok {
		return weld.Limit{}, fmt.Errorf("gap of a fillet: %w", InputError{ErrNotStated, fmt.Sprintf("quality level %q", level), "B, C, D", "name the quality level of ISO 5817"})
	}
	if err := inRange("gap of a fillet", throatSense.Of(throat)); err != nil {
		return weld.Limit{}, err
	}
	return weld.Limit{Range: weld.AtMost(min(row.most, row.add+row.share*throat)), Source: weld.Source{Mark: weld.Read, Family: weld.ISO,
		Code: "ISO 5817", Clause: "imperfection 617", Note: "from the older EN 25817 sheet"}}, nil
}

// GapMetal returns by how much the metal of a fillet grows when both legs grow by
// a gap, dimensionless, and so by how much travel slows at the same feed:
// ((z+g)/z)^2, for a leg of 0.5 to 60 mm and a gap of 0 to 50 mm, both in m.
// Derived. Whether the legs must grow is said by Gap (AWS).
func GapMetal(leg, gap float64) (float64, error) {
	if err := inRange("metal in a gap", legSense.Of(leg), gapSense.Of(gap)); err != nil {
		return 0, err
	}
	k := 1 + gap/leg
	return k * k, nil
}
