package policy

import (
	"go/ast"
	"go/token"
	"strings"
	"testing"
)

// pureLevels is the highest level whose packages read no clock, no file of
// their own, no network and no global.
const pureLevels = 7

// outsideWorld lists the imports that reach out of a program; a folder counts
// for all packages below it.
var outsideWorld = []string{"os", "net", "syscall", "log", "crypto/rand", "database/sql", "os/exec", "plugin"}

// mayReachOut lists what a pure package may import all the same.
var mayReachOut = map[[2]string]string{
	{"bench/export", "os"}: "writes a plan folder by temporary file, sync and rename",
}

// callsOutside lists the functions of harmless packages that read the clock,
// a generator shared by the whole program, or write to its standard output.
var callsOutside = map[string]map[string]bool{
	"time": set("Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"),
	"fmt":  set("Print", "Printf", "Println", "Scan", "Scanf", "Scanln"),
	"math/rand": set("Seed", "Int", "Intn", "Int31", "Int31n", "Int63", "Int63n", "Uint32", "Uint64",
		"Float32", "Float64", "NormFloat64", "ExpFloat64", "Perm", "Shuffle", "Read"),
	"math/rand/v2": set("N", "Int", "IntN", "Int32", "Int32N", "Int64", "Int64N", "Uint", "UintN", "Uint32", "Uint32N",
		"Uint64", "Uint64N", "Float32", "Float64", "NormFloat64", "ExpFloat64", "Perm", "Shuffle"),
}

func set(names ...string) map[string]bool {
	m := map[string]bool{}
	for _, n := range names {
		m[n] = true
	}
	return m
}

// purity is the rule of the calculating levels.
func purity(t tree) []string {
	var bad []string
	for _, f := range t.files {
		level, known := levelOf(f.dir)
		if f.isTest() || !known || level > pureLevels {
			continue
		}
		bad = append(bad, importFaults(t, f)...)
		bad = append(bad, callFaults(t, f)...)
		bad = append(bad, globalFaults(t, f)...)
	}
	return append(bad, writeFaults(t)...)
}

func importFaults(t tree, f source) []string {
	var bad []string
	imports := f.imports()
	for _, imported := range sortedKeys(imports) {
		for _, banned := range outsideWorld {
			_, allowed := mayReachOut[[2]string{f.dir, imported}]
			if onShelf(imported, banned) && !allowed {
				bad = append(bad, t.at(imports[imported], "%s imports %s: levels 0 to %d reach nothing outside", f.dir, imported, pureLevels))
				break
			}
		}
	}
	return bad
}

// callFaults finds uses of callsOutside, under whatever name they are imported.
func callFaults(t tree, f source) []string {
	names := map[string]map[string]bool{}
	for _, spec := range f.syntax.Imports {
		p := strings.Trim(spec.Path.Value, `"`)
		if banned, ok := callsOutside[p]; ok {
			name := strings.TrimSuffix(p, "/v2")
			name = name[strings.LastIndex(name, "/")+1:]
			if spec.Name != nil {
				name = spec.Name.Name
			}
			names[name] = banned
		}
	}
	var bad []string
	ast.Inspect(f.syntax, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if x, ok := sel.X.(*ast.Ident); ok && x.Obj == nil && names[x.Name][sel.Sel.Name] {
			bad = append(bad, t.at(sel.Pos(), "%s.%s: levels 0 to %d take it as an argument", x.Name, sel.Sel.Name, pureLevels))
		}
		return true
	})
	return bad
}

// globalFaults finds package variables that others could change, hidden state,
// and code that runs before main.
func globalFaults(t tree, f source) []string {
	var bad []string
	for _, d := range f.syntax.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Name.Name == "init" {
			bad = append(bad, t.at(fn.Pos(), "init function: build the value where it is used"))
		}
		for _, v := range variables(d) {
			for _, name := range v.Names {
				if name.IsExported() && !strings.HasPrefix(name.Name, "Err") {
					bad = append(bad, t.at(name.Pos(), "exported variable %s can be changed by anyone: make it a function or a constant", name.Name))
				}
			}
			if mentionsPackage(v, "sync") || mentionsPackage(v, "atomic") {
				bad = append(bad, t.at(v.Pos(), "package variable with a lock or an atomic is hidden state"))
			}
		}
	}
	return bad
}

// variables returns the package variables that a declaration makes.
func variables(d ast.Decl) []*ast.ValueSpec {
	gen, ok := d.(*ast.GenDecl)
	if !ok || gen.Tok != token.VAR {
		return nil
	}
	var specs []*ast.ValueSpec
	for _, s := range gen.Specs {
		specs = append(specs, s.(*ast.ValueSpec))
	}
	return specs
}

func mentionsPackage(n ast.Node, pkg string) bool {
	found := false
	ast.Inspect(n, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			x, ok := sel.X.(*ast.Ident)
			found = found || ok && x.Name == pkg
		}
		return !found
	})
	return found
}

// writeFaults finds functions that assign to a variable of their package or
// take its address.
func writeFaults(t tree) []string {
	var bad []string
	packages := t.packages()
	for _, dir := range sortedKeys(packages) {
		if level, known := levelOf(dir); !known || level > pureLevels {
			continue
		}
		globals := map[string]bool{}
		for _, f := range packages[dir] {
			for _, d := range f.syntax.Decls {
				for _, v := range variables(d) {
					for _, n := range v.Names {
						globals[n.Name] = true
					}
				}
			}
		}
		for _, f := range packages[dir] {
			bad = append(bad, writesIn(t, f, globals)...)
		}
	}
	return bad
}

func writesIn(t tree, f source, globals map[string]bool) []string {
	var bad []string
	aliases := map[token.Pos]bool{} // where locals are declared that point into a package variable, to read from it
	global := func(e ast.Expr) bool {
		id := root(e)
		return id != nil && id.Name != "_" && globals[id.Name] && isGlobal(f, id)
	}
	report := func(e ast.Expr) {
		id := root(e)
		if global(e) || id != nil && e != ast.Expr(id) && id.Obj != nil && aliases[id.Obj.Pos()] {
			bad = append(bad, t.at(e.Pos(), "package variable %s is written to: pass the value instead", id.Name))
		}
	}
	ast.Inspect(f.syntax, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			if n.Tok != token.DEFINE {
				for _, e := range n.Lhs {
					report(e)
				}
				break
			}
			if u, ok := n.Rhs[0].(*ast.UnaryExpr); ok && len(n.Rhs) == 1 && u.Op == token.AND && global(u.X) {
				aliases[n.Lhs[0].Pos()] = true
				return false
			}
		case *ast.IncDecStmt:
			report(n.X)
		case *ast.UnaryExpr:
			if n.Op == token.AND {
				report(n.X)
			}
		}
		return true
	})
	return bad
}

// root returns the variable that an expression such as a.b[c] starts from.
func root(e ast.Expr) *ast.Ident {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x
		case *ast.SelectorExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		default:
			return nil
		}
	}
}

// isGlobal reports whether the identifier is not a local of the same name: the
// parser leaves it unresolved, or resolves it to the file's own scope.
func isGlobal(f source, id *ast.Ident) bool {
	return id.Obj == nil || f.syntax.Scope.Lookup(id.Name) == id.Obj
}

func TestCalculatingLevelsReachNothingOutside(t *testing.T) { checkRepository(t, purity) }

func TestPurityRuleOnSamples(t *testing.T) {
	in := func(dir, text string) map[string]string {
		return map[string]string{dir + "/a.go": "package p\n" + text}
	}
	checkSamples(t, purity, []sample{
		{"arithmetic", in("unit", "func Twice(x float64) float64 { return 2 * x }"), nil},
		{"reads a file", in("unit", `import _ "os"`), []string{"imports os"}},
		{"runs a program", in("weld/seam", `import _ "os/exec"`), []string{"imports os/exec"}},
		{"talks to the network", in("bench/plan", `import _ "net/http"`), []string{"imports net/http"}},
		{"export writes files", in("bench/export", `import _ "os"`), nil},
		{"export opens no socket", in("bench/export", `import _ "net"`), []string{"imports net"}},
		{"the server may", in("httpapi", `import _ "net/http"`), nil},
		{"tests may", map[string]string{"unit/a_test.go": "package p\nimport _ \"os\""}, nil},
		{"reads the clock", in("unit", "import \"time\"\nfunc f() time.Time { return time.Now() }"), []string{"time.Now"}},
		{"a duration is no clock", in("unit", "import \"time\"\nconst tick = time.Second"), nil},
		{"renamed clock", in("unit", "import t \"time\"\nfunc f() t.Time { return t.Now() }"), []string{"t.Now"}},
		{"shared generator", in("unit", "import \"math/rand/v2\"\nfunc f() int { return rand.IntN(6) }"), []string{"rand.IntN"}},
		{"own generator", in("unit", "import \"math/rand/v2\"\nfunc f(r *rand.Rand) int { return r.IntN(6) }"), nil},
		{"prints", in("unit", "import \"fmt\"\nfunc f() { fmt.Println() }"), []string{"fmt.Println"}},
		{"exported variable", in("unit", "var Limit = 3"), []string{"exported variable Limit"}},
		{"exported error", in("unit", "import \"errors\"\nvar ErrEmpty = errors.New(\"empty\")"), nil},
		{"table that nobody changes", in("unit", "var table = []int{1, 2}\nfunc f() int { return table[0] }"), nil},
		{"table that somebody changes", in("unit", "var table = []int{1, 2}\nfunc f() { table[0] = 3 }"), []string{"table is written to"}},
		{"counter", in("unit", "var n int\nfunc f() { n++ }"), []string{"n is written to"}},
		{"address handed out", in("unit", "var n int\nfunc f() *int { return &n }"), []string{"n is written to"}},
		{"row read through a pointer", in("unit", "var table = []T{{1}}\nfunc f() int { r := &table[0]; return r.x }"), nil},
		{"row written through a pointer", in("unit", "var table = []T{{1}}\nfunc f() { r := &table[0]; r.x = 2 }"), []string{"r is written to"}},
		{"local of the same name", in("unit", "var n = 1\nfunc f() { n := 2; n++ }"), nil},
		{"written from another file", map[string]string{
			"unit/a.go": "package p\nvar n int", "unit/b.go": "package p\nfunc f() { n = 1 }",
		}, []string{"n is written to"}},
		{"assertion of an interface", in("unit", "var _ error = e{}\nfunc f() { _ = 1 }"), nil},
		{"lock", in("unit", "import \"sync\"\nvar mu sync.Mutex"), []string{"hidden state"}},
		{"runs before main", in("unit", "func init() {}"), []string{"init function"}},
	})
}
