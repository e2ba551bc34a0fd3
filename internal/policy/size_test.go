package policy

import (
	"fmt"
	"go/ast"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

const (
	// maxFunctionLines bounds a function, tests apart: longer ones do several
	// things and want to be several functions.
	maxFunctionLines = 80
	// maxFileLines bounds a file, tests apart: one file holds one idea.
	maxFileLines = 500
	// maxTestdata bounds all testdata together, in bytes, so that a clone
	// stays quick: larger sets are cut down or compressed.
	maxTestdata = 3 << 20
)

// sizes is the rule of lengths.
func sizes(t tree) []string {
	var bad []string
	for _, f := range t.files {
		if f.isTest() {
			continue
		}
		if f.lines > maxFileLines {
			bad = append(bad, fmt.Sprintf("%s/%s: %d lines, %d at most: split it by idea", f.dir, f.name, f.lines, maxFileLines))
		}
		for _, d := range f.syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			lines := t.fset.Position(fn.End()).Line - t.fset.Position(fn.Pos()).Line + 1
			if lines > maxFunctionLines {
				bad = append(bad, t.at(fn.Pos(), "%s has %d lines, %d at most", fn.Name.Name, lines, maxFunctionLines))
			}
		}
	}
	return bad
}

// testdataBytes adds up the files below folders named testdata.
func testdataBytes(fsys fs.FS) (int64, error) {
	var total int64
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == ".git" || d.Name() == "node_modules") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.Contains("/"+p, "/testdata/") {
			return nil
		}
		info, err := d.Info()
		if err == nil {
			total += info.Size()
		}
		return err
	})
	return total, err
}

func TestFilesAndFunctionsAreShort(t *testing.T) { checkRepository(t, sizes) }

func TestSizeRuleOnSamples(t *testing.T) {
	body := func(n int) string { return "func f() {\n" + strings.Repeat("\t_ = 1\n", n) + "}\n" }
	checkSamples(t, sizes, []sample{
		{"short", map[string]string{"a/a.go": "package a\n" + body(10)}, nil},
		{"function at the limit", map[string]string{"a/a.go": "package a\n" + body(maxFunctionLines-2)}, nil},
		{"function over it", map[string]string{"a/a.go": "package a\n" + body(maxFunctionLines-1)}, []string{"f has 81 lines"}},
		{"file over it", map[string]string{"a/a.go": "package a\n" + strings.Repeat("// .\n", maxFileLines)}, []string{"split it by idea"}},
		{"test", map[string]string{"a/a_test.go": "package a\n" + body(200)}, nil},
	})
}

func TestTestdataIsSmall(t *testing.T) {
	got, err := testdataBytes(repository())
	if err != nil {
		t.Fatal(err)
	}
	if got > maxTestdata {
		t.Errorf("all testdata together has %d bytes, %d at most", got, maxTestdata)
	}
}

func TestTestdataBytesCountsOnlyTestdata(t *testing.T) {
	five := &fstest.MapFile{Data: []byte("12345")}
	got, err := testdataBytes(fstest.MapFS{"a/testdata/b/c.txt": five, "testdata/d.txt": five, "a/e.txt": five})
	if err != nil || got != 10 {
		t.Errorf("got %d bytes, error %v; want 10", got, err)
	}
}
