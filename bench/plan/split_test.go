package plan_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
)

// TestSplitServes: where two starts are offered the document takes them in the
// words of the remedy, both parts can then be run, and the second laps over the
// first by the tie-in.
func TestSplitServes(t *testing.T) {
	for _, name := range []string{"wrist wound up", "postures that do not join"} {
		t.Run(name, func(t *testing.T) {
			f := good(t)
			for _, row := range armFaults {
				if row.name == name {
					for _, e := range row.edits {
						f.edit(t, e[0], e[1])
					}
				}
			}
			blocked := planOf(t, f)
			if blocked.Seams[0].Passes[0].Motion != nil {
				t.Fatal("the pass is not blocked")
			}
			split := ""
			for _, found := range blocked.Findings {
				if found.Severity == finding.Stop && found.Where.Seam == "W1" && split == "" {
					split = regexp.MustCompile(`split: \{[^}]*\}`).FindString(found.Remedy)
				}
			}
			if split == "" {
				t.Fatalf("no split is offered:\n%s", list(blocked.Findings))
			}
			f.edit(t, "    settings: 11\n", "    settings: 11\n    "+split+"\n")
			p := planOf(t, f)
			if len(p.Seams) != 2 {
				t.Fatalf("%d seams, want two parts", len(p.Seams))
			}
			sum := 0.0
			for i := range p.Seams {
				s := &p.Seams[i]
				sum += s.Length
				if s.Passes[0].Motion == nil || !s.Passes[0].Reach.Whole {
					t.Errorf("%s cannot be run:\n%s", s.Name, list(p.Findings))
				}
			}
			if lap := sum - blocked.Seams[0].Length; math.Abs(lap-job.DefaultTieIn) > 1e-9 {
				t.Errorf("the parts lap over by %.2f mm, want the tie-in of %.0f mm", lap/mm, job.DefaultTieIn/mm)
			}
		})
	}
}

// TestNoSplitWhereNoneServes: a seam whose end no posture reaches is not cured by
// a second start, and none is offered.
func TestNoSplitWhereNoneServes(t *testing.T) {
	f := good(t)
	e := end("1400,-230,30")
	f.edit(t, e[0], e[1])
	for _, found := range planOf(t, f).Findings {
		if text := fmt.Sprint(found.Message, found.Remedy); strings.Contains(text, "split: {") {
			t.Errorf("offered: %s", text)
		}
	}
}
