package accept_test

import (
	"fmt"
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/accept"
)

const mm = unit.MM

// iso and aws are standards of the tests.
func iso(edition string, l accept.Level) accept.Standard {
	return accept.Standard{Code: accept.ISO5817, Edition: edition, Level: l}
}

var aws = accept.Standard{Code: accept.D11, Edition: "2020"}

// throat5 is the fillet of the worked example: a5, plate 8 mm.
var throat5 = accept.Weld{Kind: weld.Fillet, Size: 5 * mm, SizeIs: weld.Throat, Thickness: 8 * mm, Length: 400 * mm}

// verdict judges readings and returns the verdict on one imperfection.
func verdict(t *testing.T, s accept.Standard, w accept.Weld, name string, readings ...accept.Reading) accept.Verdict {
	t.Helper()
	all, err := accept.Judge(s, w, readings)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range all {
		if v.Name == name {
			return v
		}
	}
	t.Fatalf("no verdict on %s", name)
	return accept.Verdict{}
}

// gauge is a reading in mm with a step of 0.1 mm.
func gauge(m accept.Measure, value float64) accept.Reading {
	return accept.Reading{Measure: m, Value: value * mm, Step: 0.1 * mm}
}

// over gives a reading its place and extent, mm.
func over(r accept.Reading, at, extent float64) accept.Reading {
	r.At, r.Extent, r.Placed = at*mm, extent*mm, true
	return r
}

// TestLimits are limits of the reference page: source and mark stand in each
// row. The expected figure is that of the source; the mark is the one that the
// verdict must carry.
func TestLimits(t *testing.T) {
	groove := accept.Weld{Kind: weld.Groove, Thickness: 8 * mm, Length: 400 * mm}
	throat6 := throat5
	throat6.Size = 6 * mm
	thin := throat5
	thin.Thickness = 2 * mm
	for _, row := range []struct {
		name, source string
		got          accept.Verdict
		want         float64 // mm
		mark         weld.Mark
	}{
		{"V094 5817 C convexity, b 10", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "excessive convexity", gauge(accept.Convexity, 1), gauge(accept.FaceWidth, 10)), 2.5, weld.Read},
		{"V095 5817 B undercut, t 8", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.B), throat5, "undercut", gauge(accept.Undercut, 0.1)), 0.4, weld.Read},
		{"V096 5817 C short throat, a 5", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", gauge(accept.Throat, 4.3)), 0.8, weld.Read},
		{"V097 5817 B legs, a 6", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.B), throat6, "unequal legs", gauge(accept.LegBase, 8), gauge(accept.LegOther, 9)), 2.4, weld.Read},
		{"V098 5817 C excess penetration 2023, b 4", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), groove, "excess penetration", gauge(accept.RootExcess, 1), gauge(accept.RootWidth, 4)), 2.8, weld.Read},
		{"V098 5817 C excess penetration 2014, b 4", "ISO 5817:2014 extract, READ", verdict(t, iso("2014", accept.C), groove, "excess penetration", gauge(accept.RootExcess, 1), gauge(accept.RootWidth, 4)), 3.4, weld.Read},
		{"worked a5 t8 C: convexity on the drawn face", "face 10 mm of z7.07, DERIVED", verdict(t, iso("2023", accept.C), throat5, "excessive convexity", gauge(accept.Convexity, 1)), 2.5, weld.Read},
		{"worked a5 t8 C: throat excess", "2014 text, MEMORY", verdict(t, iso("2023", accept.C), throat5, "excessive throat", gauge(accept.Throat, 6)), 2.0, weld.Memory},
		{"worked a5 t8 C: leg difference", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "unequal legs", gauge(accept.LegBase, 7), gauge(accept.LegOther, 8)), 2.75, weld.Read},
		{"worked a5 t8 C: undercut", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "undercut", gauge(accept.Undercut, 0.1)), 0.5, weld.Read},
		{"worked a5 t8 C: pore", "ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "surface pore", gauge(accept.SurfacePore, 0.5)), 1.0, weld.Read},
		{"worked a5 t8 C: crater", "fragment of the 2014 table, READ", verdict(t, iso("2014", accept.C), throat5, "end crater pipe", gauge(accept.CraterDepth, 0.5)), 0.8, weld.Read},
		{"worked a5 t8 C: root gap", "MEMORY; EN 25817 has the same, READ", verdict(t, iso("2014", accept.C), throat5, "root gap of a fillet", gauge(accept.RootGap, 1)), 1.5, weld.Memory},
		{"D excess penetration, b 4", "1 + 1.0 b, max 5, TWI Job Knowledge 68, READ", verdict(t, iso("2014", accept.D), groove, "excess penetration", gauge(accept.RootExcess, 1), gauge(accept.RootWidth, 4)), 5, weld.Read},
		{"C undercut, t 2", "0.1 t, short, level C extract, READ", verdict(t, iso("2014", accept.C), thin, "undercut", over(gauge(accept.Undercut, 0.1), 0, 10)), 0.2, weld.Read},
		{"C underfill, t 8", "0.1 t, max 1, level C extract, READ", verdict(t, iso("2014", accept.C), groove, "sagging, underfill", over(gauge(accept.Underfill, 0.1), 0, 10)), 0.8, weld.Read},
		{"B misalignment, t 8", "2014 text, MEMORY", verdict(t, iso("2014", accept.B), throat5, "linear misalignment", gauge(accept.Misalignment, 0.1)), 0.8, weld.Memory},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.got.Limit / mm; math.Abs(got-row.want) > 1e-6 || row.got.Source.Mark != row.mark {
				t.Errorf("limit %g, %v; want %g, %v (%s)", got, row.got.Source.Mark, row.want, row.mark, row.source)
			}
		})
	}
}

// TestVerdicts are verdicts of the reference page.
func TestVerdicts(t *testing.T) {
	leg8 := accept.Weld{Kind: weld.Fillet, Size: 8 * mm, SizeIs: weld.Leg, Thickness: 12 * mm, Length: 500 * mm}
	for _, row := range []struct {
		name, source string
		got          accept.Verdict
		want         accept.State
	}{
		{"V096 a 5, measured 4.3", "limit 4.2, ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", over(gauge(accept.Throat, 4.3), 100, 20)), accept.Accepted},
		{"a 5, measured 4.1", "limit 4.2, ISO 5817:2023 as quoted, READ", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", over(gauge(accept.Throat, 4.1), 100, 20)), accept.Rejected},
		{"V099 D1.1 undersize, L 8, 5.2 on 8 %", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undersize", over(gauge(accept.LegBase, 5.2), 100, 40)), accept.Accepted},
		{"L 8, 4.9", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undersize", over(gauge(accept.LegBase, 4.9), 100, 40)), accept.Rejected},
		{"L 8, 5.2 on 11 %", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undersize", over(gauge(accept.LegOther, 5.2), 100, 55)), accept.Rejected},
		{"V100 D1.1 undercut, t 12, 1.5 mm over 40 in 300", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undercut", over(gauge(accept.Undercut, 1.5), 100, 40)), accept.Accepted},
		{"1.5 mm over 60 in 300", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undercut", over(gauge(accept.Undercut, 1.5), 100, 60)), accept.Rejected},
		{"1.5 mm over 30 and 30, 350 apart", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undercut", over(gauge(accept.Undercut, 1.5), 20, 30), over(gauge(accept.Undercut, 1.5), 400, 30)), accept.Accepted},
		{"1.5 mm over 30 and 30, 200 apart", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undercut", over(gauge(accept.Undercut, 1.5), 100, 30), over(gauge(accept.Undercut, 1.5), 330, 30)), accept.Rejected},
		{"2.1 mm over 5", "Table 6.1 of 2000 and 2004, READ", verdict(t, aws, leg8, "undercut", over(gauge(accept.Undercut, 2.1), 100, 5)), accept.Rejected},
	} {
		t.Run(row.name, func(t *testing.T) {
			if row.got.State != row.want {
				t.Errorf("%v, want %v (%s)", row.got, row.want, row.source)
			}
		})
	}
}

// TestExecutionClasses: V101 and its neighbours, EN 1090-2:2018 7.6.1 as a data
// file quotes it, READ.
func TestExecutionClasses(t *testing.T) {
	for _, row := range []struct {
		class   accept.Execution
		ref     string
		level   accept.Level
		counted bool
	}{
		{accept.EXC1, "5011", accept.D, true},
		{accept.EXC2, "506", accept.D, true}, // V101
		{accept.EXC2, "601", accept.D, true},
		{accept.EXC2, "2025", accept.D, true},
		{accept.EXC2, "5011", accept.C, true},
		{accept.EXC3, "506", accept.B, true},
		{accept.EXC4, "5011", accept.B, true},
		{accept.EXC2, "505", accept.C, false},
	} {
		if level, counted := row.class.Level(row.ref); level != row.level || counted != row.counted {
			t.Errorf("%v, %s: %v %v, want %v %v", row.class, row.ref, level, counted, row.level, row.counted)
		}
	}
}

// TestTable holds the whole table of the reference page against the rows of
// plates above 3 mm: 2014 text, READ or MEMORY as the rows say. mm and deg.
func TestTable(t *testing.T) {
	for _, want := range []string{
		"100 crack: not permitted | not permitted | not permitted",
		"5011 undercut: h <= 0.2 t, max 1 mm | h <= 0.1 t, max 0.5 mm | h <= 0.05 t, max 0.5 mm",
		"503 excessive convexity: h <= 1 mm + 0.25 b, max 5 mm | h <= 1 mm + 0.15 b, max 4 mm | h <= 1 mm + 0.1 b, max 3 mm",
		"502 excess weld metal: h <= 1 mm + 0.25 b, max 10 mm | h <= 1 mm + 0.15 b, max 7 mm | h <= 1 mm + 0.1 b, max 5 mm",
		"504 excess penetration: h <= 1 mm + 1 b, max 5 mm | h <= 1 mm + 0.6 b, max 4 mm | h <= 1 mm + 0.2 b, max 3 mm",
		"506 overlap: h <= 0.2 b | not permitted | not permitted",
		"5213 insufficient throat: h <= 0.3 mm + 0.1 a, max 2 mm, short ones only | h <= 0.3 mm + 0.1 a, max 1 mm, short ones only | not permitted",
		"5214 excessive throat: permitted | h <= 1 mm + 0.2 a, max 4 mm | h <= 1 mm + 0.15 a, max 3 mm",
		"512 unequal legs: h <= 2 mm + 0.2 a | h <= 2 mm + 0.15 a | h <= 1.5 mm + 0.15 a",
		"2025 end crater pipe: h <= 0.2 t, max 2 mm | h <= 0.1 t, max 1 mm | not permitted",
		"509 sagging, underfill: h <= 0.25 t, max 2 mm, short ones only | h <= 0.1 t, max 1 mm, short ones only | h <= 0.05 t, max 0.5 mm, short ones only",
		"510 burn-through: not permitted | not permitted | not permitted",
		"617 root gap of a fillet: h <= 1 mm + 0.3 a, max 4 mm | h <= 0.5 mm + 0.2 a, max 3 mm | h <= 0.5 mm + 0.1 a, max 2 mm",
		"505 incorrect weld toe: at least 90 deg | at least 100 deg | at least 110 deg",
		"507 linear misalignment: h <= 0.25 t, max 5 mm | h <= 0.15 t, max 4 mm | h <= 0.1 t, max 3 mm",
		"601 stray arc: by application | not permitted | not permitted",
	} {
		found := false
		for _, r := range accept.Rows("2014") {
			found = found || fmt.Sprintf("%s %s: %s | %s | %s", r.Ref, r.Name, r.Words(accept.D), r.Words(accept.C), r.Words(accept.B)) == want
		}
		if !found {
			t.Errorf("no row %s", want)
		}
	}
}
