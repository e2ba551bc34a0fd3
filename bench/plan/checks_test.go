package plan_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"seamwright/bench/finding"
)

// fault is one change to the good job and what the plan must then say.
type fault struct {
	name string
	// on starts from a worked case instead of the good job.
	on string
	// from makes another job to start from.
	from  func(t *testing.T) files
	edits [][2]string // text and what replaces it

	code     finding.Code
	severity finding.Severity
	where    string
	// measured and limit are the numbers with the digits that their source
	// gives, "" for none; unit is theirs.
	measured, limit, unit string
	message, remedy       string
	// source says where the expected numbers come from.
	source string
}

// always are the codes that every plan carries, whatever its job: what nobody
// has checked, and what the good job and its arm do not say.
var always = []finding.Code{finding.MaterialMissing, finding.ProcedureSilent,
	finding.ArmWithoutShapes, finding.TorchShapeAssumed, finding.TorchBendAssumed, finding.CableUnknown, finding.PartShapeUnknown, finding.SurroundingsUnknown,
	finding.NotOnMachine}

func faults() []fault {
	return slices.Concat(listFaults, seamFaults, sizeFaults, procedureFaults, learnedFaults, armFaults, cornerFaults, heatFaults, symbolFaults, stitchFaults, shapeFaults, clearFaults, roomFaults)
}

// TestGoodJob: no false alarm on a good job.
func TestGoodJob(t *testing.T) {
	p := planOf(t, good(t))
	if !p.Fit() {
		t.Error("the good job is not fit")
	}
	var codes []finding.Code
	for _, f := range p.Findings {
		codes = append(codes, f.Code)
	}
	if !slices.Equal(codes, always) {
		t.Errorf("findings of the good job:\n%s", list(p.Findings))
	}
}

// TestFaults: each fault is found, and said as a person at the bench needs it.
func TestFaults(t *testing.T) {
	for _, row := range faults() {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			if row.on != "" {
				f = worked(t, row.on)
			}
			if row.from != nil {
				f = row.from(t)
			}
			for _, e := range row.edits {
				f.edit(t, e[0], e[1])
			}
			row.check(t, planOf(t, f).Findings)
		})
	}
}

func (row fault) check(t *testing.T, all []finding.Finding) {
	t.Helper()
	i := slices.IndexFunc(all, func(f finding.Finding) bool { return f.Code == row.code && f.Where.String() == row.where })
	if i < 0 {
		t.Fatalf("no %s at %q; there are:\n%s", row.code, row.where, list(all))
	}
	got := all[i]
	remedy := row.remedy
	if remedy == "" {
		remedy = finding.Lookup(row.code).Remedy
	}
	for _, c := range []struct{ what, got, want string }{
		{"severity", got.Severity.String(), row.severity.String()},
		{"measured", digits(got.Measured, row.measured), row.measured},
		{"limit", digits(got.Limit, row.limit), row.limit},
		{"unit", got.Unit, row.unit},
		{"message", got.Message, row.message},
		{"remedy", got.Remedy, remedy},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q (%s)", c.what, c.got, c.want, row.source)
		}
	}
}

// digits prints x with as many decimals as like has; NaN where like is empty
// prints as "".
func digits(x float64, like string) string {
	if like == "" {
		if math.IsNaN(x) {
			return ""
		}
		return fmt.Sprint(x)
	}
	decimals := 0
	if dot := slices.Index([]byte(like), '.'); dot >= 0 {
		decimals = len(like) - dot - 1
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// inCode are the codes of what a plan holds again although it is made so: no
// document produces them, their tests do in code (corner_guard_internal_test.go, and
// those of cmd/seamwright for the proof).
var inCode = []finding.Code{finding.MoveOffPath, finding.ProofFails}

// TestEveryCheckHasAFault: a code that nothing produces, or that no test
// produces, is not a check.
func TestEveryCheckHasAFault(t *testing.T) {
	seen := map[finding.Code]bool{}
	for _, f := range faults() {
		seen[f.code] = true
	}
	for _, c := range finding.Checks() {
		if !seen[c.Code] && !slices.Contains(inCode, c.Code) {
			t.Errorf("%s is produced by no fault of the table", c.Code)
		}
	}
}
