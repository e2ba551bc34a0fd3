package policy

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// mentions lists what no file of the repository may say. The parts are joined
// here so that this file does not accuse itself.
var mentions = []struct {
	pattern *regexp.Regexp
	why     string
}{
	{absolute("work"), "a path of one machine"},
	{absolute("home"), "a path of one machine"},
	{absolute("root"), "a path of one machine"},
	{absolute("Users"), "a path of one machine"},
	{absolute("tmp"), "a path of one machine: use a temporary folder that the system names"},
	{regexp.MustCompile(`\.\./` + `shared\b`), "a folder beside the repository, which a clone does not have"},
	{regexp.MustCompile(`(?i)\b(proxy|sum)\.` + `golang\.org`), "the host of a registry: the client knows it"},
	{regexp.MustCompile(`(?i)\bregistry\.` + `npmjs\.`), "the host of a registry: set omit-lockfile-registry-resolved"},
	{regexp.MustCompile(`(?i)\bdeb\.` + `debian\.org`), "the host of a registry: the client knows it"},
}

// absolute matches a path that starts at the root of a disk with the folder
// name, not a folder of that name inside another path or an address.
func absolute(name string) *regexp.Regexp {
	return regexp.MustCompile(`(^|[^\w./:$})*-])/` + name + `/\w`)
}

// textFiles are the endings, or whole names, of files that people write.
var textFiles = []string{
	".go", ".md", ".txt", ".yml", ".yaml", ".json", ".csv", ".urdf", ".xml", ".svg", ".sh", ".py", ".mod", ".ts", ".js",
	".svelte", ".css", ".html", ".tmpl", "Makefile", "LICENSE", "run", "go.work", ".gitignore", ".npmrc",
}

// forbiddenText returns one line for each forbidden mention in a text file.
func forbiddenText(fsys fs.FS) ([]string, error) {
	var bad []string
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && slices.Contains([]string{".git", "node_modules", "bin", "out", "dist"}, d.Name()) {
			return fs.SkipDir
		}
		if d.IsDir() || !slices.Contains(textFiles, path.Ext(p)) && !slices.Contains(textFiles, path.Base(p)) {
			return nil
		}
		text, err := fs.ReadFile(fsys, p)
		if err != nil {
			return err
		}
		for number, line := range strings.Split(string(text), "\n") {
			for _, m := range mentions {
				if found := m.pattern.FindString(line); found != "" {
					bad = append(bad, fmt.Sprintf("%s:%d: %q is %s", p, number+1, found, m.why))
				}
			}
		}
		return nil
	})
	return bad, err
}

func TestNoFileMentionsAMachine(t *testing.T) {
	bad, err := forbiddenText(repository())
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bad {
		t.Error(b)
	}
}

func TestTextRuleOnSamples(t *testing.T) {
	slash := "/"
	for _, s := range []struct {
		name, path, text string
		want             []string
	}{
		{"clean", "a.md", "see weld" + slash + "seam and docs/", nil},
		{"home folder", "a.md", "in " + slash + "home/someone/jobs", []string{"a.md:1"}},
		{"work folder, second line", "a.go", "// x\n// " + slash + "work/main", []string{"a.go:2"}},
		{"folder of that name inside a path", "a.md", "docs" + slash + "work/angles.md", nil},
		{"folder at the end of an address", "a.md", "https://example.org" + slash + "home/page", nil},
		{"temporary folder", ".ci/run", "cd " + slash + "tmp/x", []string{".ci/run:1"}},
		{"sibling folder", "a.md", ".." + slash + "shared", []string{"a.md:1"}},
		{"registry", "web/package-lock.json", "https://registry." + "npmjs.org/x", []string{"package-lock.json:1"}},
		{"picture", "a.png", slash + "home/someone", nil},
		{"built page", "web/dist/a.js", slash + "home/someone", nil},
	} {
		t.Run(s.name, func(t *testing.T) {
			got, err := forbiddenText(fstest.MapFS{s.path: {Data: []byte(s.text)}})
			if err != nil {
				t.Fatal(err)
			}
			compare(t, got, s.want)
		})
	}
}
