package export_test

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/finding"
	"seamwright/bench/plan"
)

// findings.json is a list of the contract's nine fields; a number that does not
// exist is null, and nothing is an empty list.
func TestFindingsFile(t *testing.T) {
	p := &plan.Plan{Findings: []finding.Finding{
		{
			Code: "travel-speed-above-procedure", Severity: finding.Stop, Where: finding.AtAlong("W1", 2, 0.182),
			Measured: 9.12345678, Limit: 8, Unit: "mm/s", Message: `"a" < b & c`, Remedy: "slow down", Source: "the procedure",
		},
		{Code: "not-checked-on-the-machine", Severity: finding.Note, Measured: math.NaN(), Limit: math.Inf(1), Message: "m"},
	}}
	const want = `[
 {
  "code": "travel-speed-above-procedure",
  "severity": "stop",
  "where": "W1 pass 2 at 182 mm",
  "measured": 9.123457,
  "limit": 8,
  "unit": "mm/s",
  "message": "\"a\" < b & c",
  "remedy": "slow down",
  "source": "the procedure"
 },
 {
  "code": "not-checked-on-the-machine",
  "severity": "note",
  "where": "job",
  "measured": null,
  "limit": null,
  "unit": "",
  "message": "m",
  "remedy": "",
  "source": ""
 }
]
`
	var b bytes.Buffer
	if err := export.Findings(&b, p); err != nil {
		t.Fatal(err)
	}
	if b.String() != want {
		t.Errorf("got %s\nwant %s", b.String(), want)
	}
	b.Reset()
	if err := export.Findings(&b, &plan.Plan{}); err != nil || b.String() != "[]\n" {
		t.Errorf("got %q, %v, want an empty list", b.String(), err)
	}
}

// plan.json and findings.json say the same.
func TestPlanHoldsTheFindings(t *testing.T) {
	for _, c := range plannedJobs(t) {
		var inPlan struct {
			Fit      bool
			Findings []any
		}
		var alone []any
		if err := json.Unmarshal(written(t, c, export.PlanFile), &inPlan); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(written(t, c, export.FindingsFile), &alone); err != nil {
			t.Fatal(err)
		}
		a, _ := json.Marshal(inPlan.Findings)
		b, _ := json.Marshal(alone)
		if !bytes.Equal(a, b) || len(alone) == 0 {
			t.Errorf("%s: plan.json and findings.json differ", c.name)
		}
		stops := bytes.Contains(b, []byte(`"severity":"stop"`))
		if inPlan.Fit == stops {
			t.Errorf("%s: fit is %v with a stop among the findings: %v", c.name, inPlan.Fit, stops)
		}
	}
}

// A number that JSON cannot hold is an error, not a wrong file.
func TestNumbersThatDoNotExistAreRefused(t *testing.T) {
	c := planFile(t, "../plan/testdata/scenarios/s1.yaml")
	c.plan.Steps[1].Q[2] = math.Inf(1)
	if files, err := export.Files(c.job, c.plan, "job.yaml"); err == nil || files != nil {
		t.Errorf("got %d files and %v, want an error", len(files), err)
	}
}
