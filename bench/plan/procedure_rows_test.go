package plan_test

import (
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/weld/procedure"
)

// rows gives the V butt of the scenarios a procedure with rows in place of its own.
func rows(t *testing.T, passes, rows string) files {
	f := vButt(t, passes)
	f.edit(t, "ranges: {heat_input: {to: 1.3 kJ/mm}}", "ranges: {heat_input: {to: 1.3 kJ/mm}}, runs: ["+rows+"]")
	return f
}

const rootFillCap = "{root: {settings: 15, area: 22 mm2}, fill: {settings: 16}, cap: {settings: 17, speed: 3.8 mm/s}}"

// Each pass of the worked V butt is held against the row of its role: root 150 A,
// fills 215 A, cap 225 A.
func TestPassesHeldByRole(t *testing.T) {
	p := planOf(t, rows(t, rootFillCap, "{passes: root, current: {from: 130 A, to: 165 A}}, {passes: fill, current: {to: 210 A}}, {passes: cap, current: {to: 230 A}}"))
	found := withCode(p, finding.CurrentOutside)
	if len(found) != 2 {
		t.Fatalf("found\n%s", list(found))
	}
	for i, number := range []string{"2", "3"} {
		says(t, found[i].Message, "W1 pass "+number+": current 215 A is above the 210 A of procedure WPS-70 (fill runs)")
		if want := "welding procedure WPS-70 fill runs (given with the job)"; found[i].Source != want {
			t.Errorf("source %q, want %q", found[i].Source, want)
		}
	}
	for i, row := range []int{0, 1, 1, 2} {
		if held := seamOf(t, p, "W1").Passes[i].Held; held == nil || held.Row != row {
			t.Errorf("pass %d: %+v, want row %d", i+1, held, row)
		}
	}
}

// By number: the fourth pass has no row.
func TestPassWithoutRow(t *testing.T) {
	p := planOf(t, rows(t, rootFillCap, "{passes: 1}, {passes: {from: 2, to: 3}}"))
	says(t, only(t, p, finding.ProcedureNoRow).Message, `W1 pass 4: welding procedure "WPS-70" states nothing for pass 4 (cap); it has run 1, runs 2 to 3`)
	if p.Fit() {
		t.Error("the plan is fit")
	}
}

// The heat of the fill's own row shares the metal out: at 0.7 kJ/mm set 16 lays
// 0.95 x pi/4 x 8 m/min over 6.14 mm/s = 16.2 mm2, so the 37 mm2 of the fill take
// three passes of 12.3. Hand calculation: 0.8 x 25 x 215/(0.7 x 1000) = 6.14 mm/s.
func TestRowOfRoleSharesMetal(t *testing.T) {
	p := planOf(t, rows(t, rootFillCap, "{passes: [root, cap]}, {passes: fill, heat_input: {to: 0.7 kJ/mm}}"))
	s := seamOf(t, p, "W1")
	if len(s.Passes) != 5 {
		t.Fatalf("%d passes, want 5", len(s.Passes))
	}
	near(t, "fill, mm2", s.Passes[2].Size.Area*1e6, 37.0/3, 0.1)
}

// What the whole seam fails in is said once, not with every pass; what every pass
// has is said with every pass.
func TestSeamItemsAreSaidOnce(t *testing.T) {
	f := vButt(t, rootFillCap)
	f.edit(t, "id: WPS-70,", "id: WPS-70, kinds: [fillet], gas: M20,")
	var kinds, gases int
	for _, f := range withCode(planOf(t, f), finding.ProcedureOther) {
		switch {
		case strings.Contains(f.Message, "weld kind"):
			kinds++
			says(t, f.Message, "W1: weld kind groove is not in procedure WPS-70, which has fillet")
		case strings.Contains(f.Message, "shielding gas"):
			gases++
		}
	}
	if kinds != 1 || gases != 4 {
		t.Errorf("the kind is said %d times, the gas %d times; want 1 and 4", kinds, gases)
	}
}

// What only some passes are not held in is said with their names: the preheat is of
// the first. The arm waits for the interpass ceiling, so the others are held to it.
func TestSomePassesAreNamed(t *testing.T) {
	f := vButt(t, rootFillCap)
	f.edit(t, "ranges: {heat_input", "ranges: {preheat: {from: 20 degC}, interpass: {to: 250 degC}, heat_input")
	says(t, only(t, planOf(t, f), finding.PlannedNotStated).Message,
		"not stated in the job: preheat temperature (W1 pass 1), which procedure WPS-70 limits; that was not checked")
}

// Two procedures: every seam goes by its own, and each has its own notes.
func TestTwoProcedures(t *testing.T) {
	f := good(t)
	f["grooves.yaml"] = "id: WPS-08\ncode: iso\nkinds: [groove]\n"
	f.edit(t, "procedure: {file: procedure.yaml}", "procedures: [procedure.yaml, grooves.yaml]")
	f.edit(t, "    settings: 11\n", "    settings: 11\n    procedure: WPS-08\n")
	p := planOf(t, f)
	says(t, only(t, p, finding.ProcedureOther).Message, "W1: weld kind fillet is not in procedure WPS-08, which has groove")
	if silent := only(t, p, finding.ProcedureSilent); !strings.HasPrefix(silent.Message, "procedure WPS-08 states no limit for process,") {
		t.Errorf("%s", silent.Message)
	}
}

// BenchmarkProcedures holds a thousand passes against a row of a procedure.
func BenchmarkProcedures(b *testing.B) {
	f := good(b)
	j, err := job.Decode("job.yaml", f)
	if err != nil {
		b.Fatal(err)
	}
	w := j.ProcedureOf(&j.Seams[0])
	b.ReportAllocs()
	for b.Loop() {
		c, err := w.Checker(-1)
		if err != nil {
			b.Fatal(err)
		}
		for range 1000 {
			if _, err := c.Check(procedure.Planned{Family: j.Code, Settings: j.Settings[0], Travel: 8e-3, Joint: j.Seams[0].Joint}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
