package finding_test

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"seamwright/bench/finding"
	"seamwright/unit"
)

var update = flag.Bool("update", false, "write docs/checks.md afresh")

func TestChecksAreComplete(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[finding.Code]bool{}
	for _, c := range finding.Checks() {
		if !kebab.MatchString(string(c.Code)) {
			t.Errorf("code %q is not kebab-case", c.Code)
		}
		if seen[c.Code] {
			t.Errorf("code %q is registered twice", c.Code)
		}
		seen[c.Code] = true
		for name, text := range map[string]string{"title": c.Title, "method": c.Method, "remedy": c.Remedy, "source": c.Source} {
			if text == "" {
				t.Errorf("code %q has no %s", c.Code, name)
			}
		}
	}
}

func TestChecksPageIsCurrent(t *testing.T) {
	name := filepath.Join("..", "..", "docs", "checks.md")
	want := finding.Markdown()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Errorf("docs/checks.md is stale: run go test ./bench/finding -update")
	}
}

func TestPlace(t *testing.T) {
	for _, row := range []struct {
		name  string
		place finding.Place
		want  string
	}{
		{"job", finding.Place{}, "job"},
		{"seam", finding.AtSeam("W3"), "W3"},
		{"along", finding.AtAlong("W3", 1, 0.1824), "W3 pass 1 at 182 mm"},
		{"start", finding.AtAlong("W3", 2, 0), "W3 pass 2 at 0 mm"},
		{"along in inches", finding.AtAlong("W3", 1, 0.1824).In(unit.InchPound), "W3 pass 1 at 7.2 in"}, // 182.4/25.4 = 7.181
		{"point", finding.AtPoint("", "home"), `point "home"`},
		{"point of a seam", finding.AtPoint("W1", "W1 in"), `W1 point "W1 in"`},
		{"field", finding.AtField("procedure"), "procedure"},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.place.String(); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

func TestNewTakesOverTheCheck(t *testing.T) {
	f := finding.Newf(finding.JointLimit, finding.AtSeam("W1"), "joint %d", 5)
	check := finding.Lookup(finding.JointLimit)
	if f.Severity != check.Severity || f.Remedy != check.Remedy || f.Source != check.Source || f.Message != "joint 5" {
		t.Errorf("got %+v, want the severity, remedy and source of %+v", f, check)
	}
	if !math.IsNaN(f.Measured) || !math.IsNaN(f.Limit) {
		t.Errorf("a finding without numbers has %g and %g, want NaN", f.Measured, f.Limit)
	}
	g := f.Values(3, 5, "deg").As(finding.Note).Mend("turn %d", 20).From("elsewhere")
	if g.Measured != 3 || g.Limit != 5 || g.Unit != "deg" || g.Severity != finding.Note || g.Remedy != "turn 20" || g.Source != "elsewhere" {
		t.Errorf("got %+v", g)
	}
	if f.Remedy == g.Remedy {
		t.Error("Mend changed the finding that it was called on")
	}
}

func TestWorst(t *testing.T) {
	note := finding.New(finding.NotOnMachine, finding.Place{}, "")
	stop := finding.New(finding.JointLimit, finding.Place{}, "")
	if got := finding.Worst(nil); got != finding.Note {
		t.Errorf("of none: got %v", got)
	}
	if got := finding.Worst([]finding.Finding{note, stop, note}); got != finding.Stop {
		t.Errorf("got %v, want stop", got)
	}
}

func TestLookupRefusesUnknown(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("an unregistered code was accepted")
		}
	}()
	finding.Lookup("no-such-check")
}
