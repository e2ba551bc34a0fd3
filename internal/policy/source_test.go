package policy

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"sort"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

// modulePath is the first part of every import path of this repository.
const modulePath = "seamwright"

// source is one parsed Go file.
type source struct {
	dir, name string // slash-separated, relative to the repository
	syntax    *ast.File
	lines     int
}

// isTest reports whether only go test compiles the file.
func (s source) isTest() bool { return strings.HasSuffix(s.name, "_test.go") }

// tree is every Go file of a repository, in path order.
type tree struct {
	fset  *token.FileSet
	files []source
}

// rule looks at a tree and returns one line for each violation.
type rule func(tree) []string

// skippedDirs are folders whose Go files belong to no package of the module.
var skippedDirs = map[string]bool{
	".git": true, "node_modules": true, "testdata": true, "bin": true, "out": true, "dist": true, "tools": true,
}

// parseTree reads every Go file below the root of fsys.
func parseTree(fsys fs.FS) (tree, error) {
	t := tree{fset: token.NewFileSet()}
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && skippedDirs[d.Name()] {
			return fs.SkipDir
		}
		if d.IsDir() || path.Ext(p) != ".go" {
			return nil
		}
		text, err := fs.ReadFile(fsys, p)
		if err != nil {
			return err
		}
		syntax, err := parser.ParseFile(t.fset, p, text, parser.ParseComments)
		if err != nil {
			return err
		}
		lines := t.fset.File(syntax.Pos()).LineCount()
		t.files = append(t.files, source{dir: path.Dir(p), name: path.Base(p), syntax: syntax, lines: lines})
		return nil
	})
	return t, err
}

// at formats a violation at a position.
func (t tree) at(pos token.Pos, format string, args ...any) string {
	p := t.fset.Position(pos)
	return fmt.Sprintf("%s:%d: %s", p.Filename, p.Line, fmt.Sprintf(format, args...))
}

// imports returns the import paths of a file with their positions.
func (s source) imports() map[string]token.Pos {
	found := map[string]token.Pos{}
	for _, spec := range s.syntax.Imports {
		if p, err := strconv.Unquote(spec.Path.Value); err == nil {
			found[p] = spec.Pos()
		}
	}
	return found
}

// packages groups the files that are not tests by their folder.
func (t tree) packages() map[string][]source {
	byDir := map[string][]source{}
	for _, f := range t.files {
		if !f.isTest() {
			byDir[f.dir] = append(byDir[f.dir], f)
		}
	}
	return byDir
}

// sortedKeys returns the keys of m in order.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// repository returns the files of this repository.
func repository() fs.FS { return os.DirFS("../..") }

// checkRepository fails the test for each violation in this repository.
func checkRepository(t *testing.T, r rule) {
	t.Helper()
	tr, err := parseTree(repository())
	if err != nil {
		t.Fatal(err)
	}
	if len(tr.files) == 0 {
		t.Fatal("no Go file found: the test looks in the wrong folder")
	}
	for _, v := range r(tr) {
		t.Error(v)
	}
}

// sample is a made-up repository and what a rule has to say about it.
type sample struct {
	name  string
	files map[string]string // path to source text
	want  []string          // a part of each violation, in order; empty for a clean tree
}

// checkSamples tries the rule on made-up repositories.
func checkSamples(t *testing.T, r rule, samples []sample) {
	t.Helper()
	for _, s := range samples {
		t.Run(s.name, func(t *testing.T) {
			fsys := fstest.MapFS{}
			for p, text := range s.files {
				fsys[p] = &fstest.MapFile{Data: []byte(text)}
			}
			tr, err := parseTree(fsys)
			if err != nil {
				t.Fatal(err)
			}
			compare(t, r(tr), s.want)
		})
	}
}

// compare matches violations with the wanted parts one to one.
func compare(t *testing.T, got, want []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("got %d violations %q, want %d %q", len(got), got, len(want), want)
	}
	for i := range got {
		if !strings.Contains(got[i], want[i]) {
			t.Errorf("violation %d: got %q, want a mention of %q", i, got[i], want[i])
		}
	}
}
