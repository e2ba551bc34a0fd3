package policy

import (
	"fmt"
	"go/ast"
	"go/token"
	"regexp"
	"strings"
	"testing"
)

// longUnits are words and symbols that name a unit wherever they stand.
var longUnits = regexp.MustCompile(`(?i)\b(metres?|millimetres?|micrometres?|inch(es)?|radians?|rad|degrees?|deg|degC|celsius|kelvin|` +
	`seconds?|minutes?|hours?|dimensionless|ratio|fraction|share|percent|pixels?|kilograms?|grams?|newtons?|pascals?|amperes?|volts?|` +
	`watts?|joules?|hertz|moles?|litres?|efficiency|units of|unit of|same unit|in (the |its |their )?units?)\b|` +
	`\b(mm|mm2|mm3|cm|um|µm|kg|kJ|kN|kW|MPa|GPa|Pa|Hz|ms|min|in/min|m/min|m/s|m2|m3|m/s2)\b|%|°|'? units\b`)

// shortUnits are symbols of one letter: they count in parentheses, after
// "in", after a number, in a quotient, at the start of a line, and where a
// comma or colon leads to them and the clause ends with them.
var shortUnits = regexp.MustCompile(`(?m)\([^)]*\b[msAVWJKN]\b[^)]*\)|\bin [msAVWJKN]\b|\d ?[msAVWJKN]\b|` +
	`\b[msAVWJKN]/\w|\w/[msAVWJKN]\b|^([msVWJKN]\b|A[,;.])|[,:] [msAVWJKN]([.,;:]|$)`)

// namesUnit reports whether a text names a physical unit, or says that a
// number has none.
func namesUnit(text string) bool { return longUnits.MatchString(text) || shortUnits.MatchString(text) }

// packageComments is the rule that each package has one package comment.
func packageComments(t tree) []string {
	var bad []string
	packages := t.packages()
	for _, dir := range sortedKeys(packages) {
		count, right := 0, true
		for _, f := range packages[dir] {
			if f.syntax.Doc == nil {
				continue
			}
			count++
			text := f.syntax.Doc.Text()
			right = right && (strings.HasPrefix(text, "Package "+f.syntax.Name.Name+" ") || f.syntax.Name.Name == "main" && text != "")
		}
		switch {
		case count != 1:
			bad = append(bad, fmt.Sprintf("%s: %d package comments, want one", dir, count))
		case !right:
			bad = append(bad, fmt.Sprintf("%s: the package comment starts %q", dir, "Package NAME"))
		}
	}
	return bad
}

// docComments is the rule that what is exported is documented, and that the
// documentation of a number names its unit.
func docComments(t tree) []string {
	var bad []string
	packages := t.packages()
	for _, dir := range sortedKeys(packages) {
		for _, f := range packages[dir] {
			if f.syntax.Name.Name == "main" {
				continue
			}
			for _, d := range f.syntax.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					bad = append(bad, funcDoc(t, d)...)
				case *ast.GenDecl:
					bad = append(bad, genDoc(t, d)...)
				}
			}
		}
	}
	return bad
}

func funcDoc(t tree, d *ast.FuncDecl) []string {
	if !d.Name.IsExported() || d.Recv != nil && !receiver(d).IsExported() {
		return nil
	}
	switch {
	case d.Doc.Text() == "":
		return []string{t.at(d.Pos(), "%s has no doc comment", d.Name.Name)}
	case hasFloat(d.Type) && !namesUnit(d.Doc.Text()):
		return []string{t.at(d.Pos(), "%s takes or returns a float64 and its comment names no unit", d.Name.Name)}
	}
	return nil
}

// receiver returns the name of a method's type.
func receiver(d *ast.FuncDecl) *ast.Ident {
	e := d.Recv.List[0].Type
	for {
		switch x := e.(type) {
		case *ast.StarExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.IndexListExpr:
			e = x.X
		case *ast.Ident:
			return x
		}
	}
}

func genDoc(t tree, d *ast.GenDecl) []string {
	var bad []string
	for _, s := range d.Specs {
		switch s := s.(type) {
		case *ast.TypeSpec:
			if s.Name.IsExported() {
				bad = append(bad, typeDoc(t, s, d.Doc.Text()+s.Doc.Text()+s.Comment.Text())...)
			}
		case *ast.ValueSpec:
			doc := d.Doc.Text() + s.Doc.Text() + s.Comment.Text()
			if d.Tok == token.CONST && d.Lparen.IsValid() && doc == "" {
				doc = "a member of the group, which its type explains"
			}
			for _, n := range s.Names {
				if n.IsExported() {
					bad = append(bad, valueDoc(t, n, s, doc)...)
				}
			}
		}
	}
	return bad
}

func valueDoc(t tree, n *ast.Ident, s *ast.ValueSpec, doc string) []string {
	number := s.Type != nil && hasFloat(s.Type)
	for _, v := range s.Values {
		lit, ok := v.(*ast.BasicLit)
		number = number || ok && lit.Kind == token.FLOAT
	}
	switch {
	case doc == "":
		return []string{t.at(n.Pos(), "%s has no doc comment", n.Name)}
	case number && !namesUnit(doc):
		return []string{t.at(n.Pos(), "%s is a float64 and its comment names no unit", n.Name)}
	}
	return nil
}

// typeDoc checks a type and its fields and methods. The comment of the type
// may name the units for all of them.
func typeDoc(t tree, s *ast.TypeSpec, doc string) []string {
	if doc == "" {
		return []string{t.at(s.Pos(), "%s has no doc comment", s.Name.Name)}
	}
	var fields *ast.FieldList
	switch x := s.Type.(type) {
	case *ast.StructType:
		fields = x.Fields
	case *ast.InterfaceType:
		fields = x.Methods
	default:
		return nil
	}
	if namesUnit(doc) {
		return nil
	}
	var bad []string
	said := "" // a comment speaks for the fields below it that have none
	for _, f := range fields.List {
		if own := f.Doc.Text() + f.Comment.Text(); own != "" {
			said = own
		}
		for _, n := range f.Names {
			if n.IsExported() && hasFloat(f.Type) && !namesUnit(said) {
				bad = append(bad, t.at(n.Pos(), "%s.%s has a float64 and its comment names no unit", s.Name.Name, n.Name))
			}
		}
	}
	return bad
}

// hasFloat reports whether float64 stands anywhere in a type.
func hasFloat(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		found = found || ok && id.Name == "float64"
		return !found
	})
	return found
}

func TestPackagesHaveOneComment(t *testing.T) { checkRepository(t, packageComments) }

func TestCommentsNameUnits(t *testing.T) { checkRepository(t, docComments) }

func TestPackageCommentRuleOnSamples(t *testing.T) {
	checkSamples(t, packageComments, []sample{
		{"one", map[string]string{"a/a.go": "// Package a is.\npackage a", "a/b.go": "package a"}, nil},
		{"none", map[string]string{"a/a.go": "package a"}, []string{"0 package comments"}},
		{"two", map[string]string{"a/a.go": "// Package a is.\npackage a", "a/b.go": "// Package a was.\npackage a"}, []string{"2 package comments"}},
		{"wrong start", map[string]string{"a/a.go": "// This is a.\npackage a"}, []string{"the package comment starts"}},
		{"command", map[string]string{"a/a.go": "// Command a runs.\npackage main"}, nil},
		{"tests need none", map[string]string{"a/a_test.go": "package a"}, nil},
	})
}

func TestDocRuleOnSamples(t *testing.T) {
	in := func(text string) map[string]string { return map[string]string{"a/a.go": "package a\n" + text} }
	checkSamples(t, docComments, []sample{
		{"unit in words", in("// F returns metres.\nfunc F() float64 { return 0 }"), nil},
		{"unit as a symbol", in("// F returns the height (m).\nfunc F() float64 { return 0 }"), nil},
		{"no unit", in("// F returns a height.\nfunc F() float64 { return 0 }"), []string{"F takes or returns"}},
		{"article and genitive are no units", in("// A F is a neck's m.\nfunc F(x float64) {}"), []string{"F takes or returns"}},
		{"slice argument", in("// F sorts.\nfunc F(x []float64) {}"), []string{"F takes or returns"}},
		{"no float, no unit", in("// F counts.\nfunc F() int { return 0 }"), nil},
		{"unexported", in("func f() float64 { return 0 }"), nil},
		{"no comment", in("func F() {}"), []string{"F has no doc comment"}},
		{"method", in("// T is.\ntype T int\n// M is.\nfunc (t *T) M() float64 { return 0 }"), []string{"M takes or returns"}},
		{"method of a hidden type", in("type t int\nfunc (t) M() float64 { return 0 }"), nil},
		{"field", in("// T is.\ntype T struct { X float64 }"), []string{"T.X has a float64"}},
		{"field with a unit beside it", in("// T is.\ntype T struct { X float64 // mm\n}"), nil},
		{"symbol that leads a field comment", in("// T is.\ntype T struct { X float64 // m, how high\n}"), nil},
		{"symbol that ends a field comment", in("// T is.\ntype T struct {\n// X is how high, m.\nX float64 }"), nil},
		{"comment for the fields below", in("// T is.\ntype T struct {\n// X and Y lie in the plane, m.\nX float64\nY float64 }"), nil},
		{"next comment forgets the unit", in("// T is.\ntype T struct {\n// X is flat, m.\nX float64\n// Y is not.\nY float64 }"), []string{"T.Y has a float64"}},
		{"unit for the whole struct", in("// T is, in metres.\ntype T struct { X, Y float64 }"), nil},
		{"interface", in("// T is.\ntype T interface { M() float64 }"), []string{"T.M has a float64"}},
		{"constant", in("// C is.\nconst C = 0.5"), []string{"C is a float64"}},
		{"constant with a unit", in("// C is 0.5 m.\nconst C = 0.5"), nil},
		{"members of a documented type", in("// T is.\ntype T string\nconst (\nX T = \"x\"\nY T = \"y\"\n)"), nil},
		{"number in a group", in("const (\nX = 0.5\n)"), []string{"X is a float64"}},
		{"lone constant without comment", in("const X = 1"), []string{"X has no doc comment"}},
		{"type without comment", in("type T int"), []string{"T has no doc comment"}},
	})
}
