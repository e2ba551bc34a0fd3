package export_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// tree is every file below dir with its text, folders and links by name.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, p)
		switch {
		case d.IsDir():
			all[name] = "folder"
		case d.Type()&os.ModeSymlink != 0:
			to, err := os.Readlink(p)
			all[name] = "-> " + to
			return err
		default:
			b, err := os.ReadFile(p)
			all[name] = string(b)
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func names(all map[string]string) []string {
	var list []string
	for name := range all {
		if name != "." {
			list = append(list, name)
		}
	}
	slices.Sort(list)
	return list
}

// planNames are the files of a plan in the folder dir, with the folder.
func planNames(dir string) []string {
	list := []string{dir}
	for _, f := range []string{"findings.json", "heat", "heat/W1.svg", "plan.json", "steps.csv", "symbols", "symbols/W1.svg", "trace.csv"} {
		list = append(list, filepath.Join(dir, f))
	}
	return list
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestFolderIsWritten(t *testing.T) {
	c := plannedJobs(t)[0]
	for _, row := range []struct {
		name string
		dir  string // as given, below the work folder
		make func(t *testing.T, work string)
		want []string
	}{
		{"new", "out", nil, planNames("out")},
		{"new, below folders that are not there", "a/b", nil, append([]string{"a"}, planNames("a/b")...)},
		{"empty", "out", func(t *testing.T, work string) { mkdir(t, work, "out") }, planNames("out")},
		{"slash at the end", "out/", nil, planNames("out")},
		{"slash at the end of an older plan", "out/", func(t *testing.T, work string) { older(t, filepath.Join(work, "out")) }, planNames("out")},
		{"roundabout", "x/../out/.", nil, planNames("out")},
		{"older plan", "out", func(t *testing.T, work string) { older(t, filepath.Join(work, "out")) }, planNames("out")},
		{"odd name", "-*[x] ü", nil, planNames("-*[x] ü")},
		{
			"link to an empty folder", "link",
			func(t *testing.T, work string) { mkdir(t, work, "there"); link(t, "there", work, "link") },
			append([]string{"link"}, planNames("there")...),
		},
		{
			"link to an older plan", "link/",
			func(t *testing.T, work string) {
				older(t, filepath.Join(work, "there"))
				link(t, "there", work, "link")
			},
			append([]string{"link"}, planNames("there")...),
		},
		{
			"what a killed run left", "out",
			func(t *testing.T, work string) {
				write(t, filepath.Join(work, ".out-new-123", "plan.json"), "half")
				mkdir(t, work, ".out-new-77-left")
			},
			planNames("out"),
		},
		{
			"leftovers of others stay", "out",
			func(t *testing.T, work string) {
				write(t, filepath.Join(work, ".out-new-file"), "mine")
				write(t, filepath.Join(work, ".other-new-1", "plan.json"), "half")
			},
			append([]string{".other-new-1", ".other-new-1/plan.json", ".out-new-file"}, planNames("out")...),
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			work := t.TempDir()
			if row.make != nil {
				row.make(t, work)
			}
			if err := writePlan(work+"/"+row.dir, c.job, c.plan); err != nil {
				t.Fatal(err)
			}
			got := tree(t, work)
			if !slices.Equal(names(got), row.want) {
				t.Errorf("got %q\nwant %q", names(got), row.want)
			}
			for name, text := range got {
				if base := filepath.Base(name); strings.HasSuffix(base, ".csv") || strings.HasSuffix(base, ".json") {
					if want := string(written(t, c, base)); !strings.Contains(name, ".other") && text != want {
						t.Errorf("%s holds something else", name)
					}
				}
			}
		})
	}
}

func mkdir(t *testing.T, work, name string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Join(work, name), 0o755); err != nil {
		t.Fatal(err)
	}
}

func link(t *testing.T, to, work, name string) {
	t.Helper()
	if err := os.Symlink(to, filepath.Join(work, name)); err != nil {
		t.Fatal(err)
	}
}

// older writes another plan than the first one.
func older(t *testing.T, dir string) {
	t.Helper()
	c := plannedJobs(t)[1]
	if err := writePlan(dir, c.job, c.plan); err != nil {
		t.Fatal(err)
	}
}

// What is refused is refused in words and leaves everything as it was.
func TestFolderRefuses(t *testing.T) {
	c := plannedJobs(t)[0]
	for _, row := range []struct {
		name, dir string
		make      func(t *testing.T, work string)
		want      string
	}{
		{"file of the user's", "out", func(t *testing.T, work string) { write(t, work+"/out/notes.txt", "mine") },
			"/out holds files that are not a plan's (notes.txt); name an empty or a new folder"},
		{"plan and a file of the user's", "out", func(t *testing.T, work string) {
			older(t, work+"/out")
			write(t, work+"/out/photo.jpg", "mine")
		}, "/out holds files that are not a plan's (photo.jpg); name an empty or a new folder"},
		{"many files", "out", func(t *testing.T, work string) {
			for _, n := range []string{"a", "b", "c", "d", "e"} {
				write(t, work+"/out/"+n, "mine")
			}
		}, "(a, b, c and 2 more)"},
		{"folder named as a file of a plan", "out", func(t *testing.T, work string) { mkdir(t, work, "out/plan.json") },
			"(plan.json)"},
		{"link named as a file of a plan", "out", func(t *testing.T, work string) {
			older(t, work+"/out")
			if err := os.Rename(work+"/out/steps.csv", work+"/steps.csv"); err != nil {
				t.Fatal(err)
			}
			link(t, "../steps.csv", work, "out/steps.csv")
		}, "(steps.csv)"},
		{"plan.json of something else", "out", func(t *testing.T, work string) { write(t, work+"/out/plan.json", `{"name": "floor plan"}`) },
			"(plan.json)"},
		{"plan.json that is no JSON", "out", func(t *testing.T, work string) { write(t, work+"/out/plan.json", "ground floor") },
			"(plan.json)"},
		{"steps.csv alone", "out", func(t *testing.T, work string) { write(t, work+"/out/steps.csv", "1,2") },
			"(steps.csv)"},
		{"a file", "out", func(t *testing.T, work string) { write(t, work+"/out", "mine") },
			"/out is a file; name an empty or a new folder"},
		{"below a file", "file/out", func(t *testing.T, work string) { write(t, work+"/file", "mine") },
			"not a directory"},
		{"link to nowhere", "link", func(t *testing.T, work string) { link(t, "gone", work, "link") },
			"/link is a link to a folder that is not there; name a folder"},
		{"link to a file", "link", func(t *testing.T, work string) {
			write(t, work+"/file", "mine")
			link(t, "file", work, "link")
		}, "/file is a file; name an empty or a new folder"},
	} {
		t.Run(row.name, func(t *testing.T) {
			work := t.TempDir()
			row.make(t, work)
			before := tree(t, work)
			err := writePlan(filepath.Join(work, row.dir), c.job, c.plan)
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q", err, row.want)
			}
			checkSame(t, before, tree(t, work))
		})
	}
}

func checkSame(t *testing.T, before, after map[string]string) {
	t.Helper()
	if !slices.Equal(names(before), names(after)) {
		t.Errorf("before %q, after %q", names(before), names(after))
	}
	for name, text := range before {
		if after[name] != text {
			t.Errorf("%s was changed", name)
		}
	}
}

// The folder that a terminal stands in cannot be swapped from under it, by
// whatever name.
func TestFolderRefusesWhereOneStands(t *testing.T) {
	c := plannedJobs(t)[0]
	work := t.TempDir()
	mkdir(t, work, "here")
	t.Chdir(filepath.Join(work, "here"))
	for _, dir := range []string{".", "", "./", "../here", filepath.Join(work, "here")} {
		err := writePlan(dir, c.job, c.plan)
		if err == nil || !strings.Contains(err.Error(), "is the folder you stand in") {
			t.Errorf("%q: got %v", dir, err)
		}
	}
	if err := writePlan("../out", c.job, c.plan); err != nil {
		t.Error(err)
	}
	if got, want := names(tree(t, work)), append([]string{"here"}, planNames("out")...); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A parent that nobody may write into, the superuser neither.
func TestFolderInAnUnwritableParent(t *testing.T) {
	c := plannedJobs(t)[0]
	const parent = "/proc/self/fd"
	if _, err := os.Stat(parent); err != nil {
		t.Fatalf("this check needs a system with %s: %v", parent, err)
	}
	if err := writePlan(parent+"/out", c.job, c.plan); err == nil {
		t.Error("a plan was written where nothing can be")
	}
}

func TestTwoRunsGiveTheSameBytes(t *testing.T) {
	for _, file := range jobFiles(t) {
		a, b := planFile(t, file), planFile(t, file)
		for _, name := range []string{"plan.json", "steps.csv", "trace.csv", "findings.json"} {
			if string(written(t, a, name)) != string(written(t, b, name)) {
				t.Errorf("%s: two runs give two %s", a.name, name)
			}
		}
	}
}
