package policy

import (
	"go/ast"
	"regexp"
	"strings"
	"testing"
)

// formulaSources are the words that say where a formula or a figure comes from: a
// document that was read, memory, the trade, or the definition itself.
var formulaSources = regexp.MustCompile(`(?i)\bread\b|from memory|common practice|geometry|derived|definition|own judgement|settings set|certificate|` +
	`\b(EN|ISO|AWS|ASME|AISC|SEW|TWI|NIST|SI|IIW)\b|Rosenthal|Blodgett|Okerblom|Handbook`)

// formulaRanges are the words that say where a formula holds.
var formulaRanges = regexp.MustCompile(`(?i)\bbetween\b|\bat (most|least)\b|\babove\b|\bbelow\b|\bunder\b|\bover\b|\bup to\b|\bfrom [-0-9]|\d[^.\n]{0,12} to \d|` +
	`\brefuse|\bRangeError\b|\binputError\b|\bvalid\b|\bany\b|\bevery\b|\ball\b|\bpositive\b|\bchecked\b|\bNewGroove\b|\brange\b|\balways\b|\bnever\b|\bonly\b|\bexact\b`)

// formulaDocs is the rule that what computes a quantity of welding says in which unit
// and range it holds and who says so.
func formulaDocs(t tree) []string {
	var bad []string
	packages := t.packages()
	for _, dir := range sortedKeys(packages) {
		if dir != "weld" && !strings.HasPrefix(dir, "weld/") {
			continue
		}
		for _, f := range packages[dir] {
			for _, d := range f.syntax.Decls {
				if d, ok := d.(*ast.FuncDecl); ok && computes(d) {
					bad = append(bad, formulaDoc(t, d)...)
				}
			}
		}
	}
	return bad
}

// quantities are the types of results that carry a computed quantity.
var quantities = map[string]bool{
	"float64": true, "Figure": true, "Limit": true, "SizeLimit": true, "CoolingTime": true, "Wait": true, "Preheat": true, "Equivalent": true,
	"Estimate": true, "Lift": true, "Susceptibility": true, "Peak": true,
}

// computes reports whether an exported function works a quantity out of arguments or
// of a receiver, and can refuse: a formula with a range.
func computes(d *ast.FuncDecl) bool {
	if !d.Name.IsExported() || d.Recv != nil && !receiver(d).IsExported() || d.Type.Results == nil {
		return false
	}
	quantity, refuses := false, false
	for _, r := range d.Type.Results.List {
		switch name := lastName(r.Type); {
		case quantities[name]:
			quantity = true
		case name == "error":
			refuses = true
		}
	}
	return quantity && refuses
}

// lastName is the name of a type without its package.
func lastName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	case *ast.StarExpr:
		return lastName(e.X)
	}
	return ""
}

// formulaDoc says what is missing from the comment of a formula.
func formulaDoc(t tree, d *ast.FuncDecl) []string {
	text := d.Doc.Text()
	var missing []string
	for _, want := range []struct {
		what string
		said bool
	}{
		{"a unit", namesUnit(text)}, {"the range in which it holds", formulaRanges.MatchString(text)}, {"its source", formulaSources.MatchString(text)},
	} {
		if !want.said {
			missing = append(missing, want.what)
		}
	}
	if len(missing) == 0 {
		return nil
	}
	return []string{t.at(d.Pos(), "the comment of %s does not name %s", d.Name.Name, strings.Join(missing, ", "))}
}

func TestFormulasNameUnitRangeAndSource(t *testing.T) { checkRepository(t, formulaDocs) }

func TestFormulaRuleOnSamples(t *testing.T) {
	in := func(dir, text string) map[string]string {
		return map[string]string{dir + "/a.go": "package a\n" + text}
	}
	checkSamples(t, formulaDocs, []sample{
		{"all three", in("weld/a", "// F returns the leg, m, for 1 to 50 mm. Geometry.\nfunc F(x float64) (float64, error) { return 0, nil }"), nil},
		{"no source", in("weld/a", "// F returns the leg, m, for 1 to 50 mm.\nfunc F(x float64) (float64, error) { return 0, nil }"), []string{"its source"}},
		{"no range", in("weld/a", "// F returns the leg, m. Geometry.\nfunc F(x float64) (float64, error) { return 0, nil }"), []string{"the range in which it holds"}},
		{"no unit", in("weld/a", "// F returns the leg for 1 to 50. Geometry.\nfunc F(x float64) (Figure, error) { return Figure{}, nil }"), []string{"a unit"}},
		{"not of welding", in("geom/a", "// F returns it.\nfunc F(x float64) (float64, error) { return 0, nil }"), nil},
		{"refuses nothing", in("weld/a", "// F returns it.\nfunc F(x float64) float64 { return 0 }"), nil},
		{"no quantity", in("weld/a", "// F returns it.\nfunc F(x float64) (string, error) { return \"\", nil }"), nil},
	})
}
