package plan_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/weld/thermal"
)

// A tee fillet at 0.765 kJ/mm between 10 mm plates at 20 degC: 4.46 s by EN 1011-2
// with the shape factor 0.67 (READ in public code, the factor from memory).
func TestCoolingThroughTheJob(t *testing.T) {
	f := good(t)
	set := refSet("1.1")
	f.edit(t, set[0], set[1])
	f.edit(t, noProcedure[0], noProcedure[1])
	f.edit(t, "    settings: 11\n", "    settings: 90\n    speed: 6.8 mm/s\n")
	f.edit(t, "linear,100,,,on,11", "linear,100,,,on,")
	f.edit(t, "{base: 8 mm, upright: 6 mm}", "{base: 10 mm, upright: 10 mm}")
	h := planOf(t, f).Seams[0].Passes[0].Heat
	near(t, "kJ/mm", h.Input/1e6, 0.7647, 0.0005)
	if !h.Known || h.Shape != thermal.TeeFillet {
		t.Fatalf("%+v", h)
	}
	near(t, "t8/5, s", h.Fast.Time, 4.46, 0.02)
	near(t, "the same thick and thin", h.Slow.Time, h.Fast.Time, 1e-12)
}

// heavy is the heavy fillet of the scenarios in S355 on 25 mm, with what is said of
// heat.
func heavy(t *testing.T, said string) files {
	f := worked(t, "s6")
	f.edit(t, "weld: {area: 26.4 mm2}", "weld: {throat: 8.5 mm}")
	f.edit(t, "seams:\n", said+"\nseams:\n")
	return f
}

// Method B by hand for a typical S355J2 (CET 0.3147, READ formula), 25 mm, 5 ml per
// 100 g, 0.98 kJ/mm: 697 CET + 160 tanh(25/35) + 62 5^0.35 + (53 CET - 32) Q - 328.
func TestPreheatThroughTheJob(t *testing.T) {
	f := heavy(t, "material: {grade: S355J2}")
	f["settings.yaml"] = strings.ReplaceAll(f["settings.yaml"], "{id: 30,", "{id: 30, hydrogen: 5,")
	p := planOf(t, f)
	q := p.Seams[0].Passes[0].Heat.Input / 1e6
	cet := 0.16 + (1.45+0.01)/10 + (0.05+0.10)/20 + 0.05/40
	want := 697*cet + 160*math.Tanh(25.0/35) + 62*math.Pow(5, 0.35) + (53*cet-32)*q - 328
	got := only(t, p, finding.PreheatLow)
	near(t, "preheat, degC", got.Limit, want, 0.01)
	if got.Severity != finding.Caution || !strings.Contains(got.Message, "EN 1011-2 method B asks for a preheat of 83 degC (CET 0.315 of a typical S355J2, 25.0 mm, 5 ml per 100 g, 0.98 kJ/mm); the job states none and the part is at 20 degC") {
		t.Errorf("%v: %s", got.Severity, got.Message)
	}
	f.edit(t, "material: {grade: S355J2}", "material: {grade: S355J2}\nheat: {preheat: 60 degC}")
	if got := only(t, planOf(t, f), finding.PreheatLow); got.Severity != finding.Stop {
		t.Errorf("too little preheat is a %v", got.Severity)
	}
	f.edit(t, "preheat: 60 degC", "preheat: 90 degC")
	if n := len(withCode(planOf(t, f), finding.PreheatLow)); n != 0 {
		t.Errorf("%d findings at 90 degC", n)
	}
}

// What cannot be told is said with the reason: no hydrogen, a plate too thin for
// method B, a steel of the other family.
func TestPreheatNotKnown(t *testing.T) {
	for _, row := range []struct{ name, code, material, thick, hydrogen, want string }{
		{"no hydrogen", "iso", "grade: S355J2", "20 mm", "", "W1: the preheat cannot be told: settings set 11 states no hydrogen; add hydrogen (ml per 100 g) from the wire's certificate"},
		{"too thin", "iso", "composition: {C: 0.18, Mn: 1.2}", "8 mm", "5", "plate thickness 8 mm is outside 10 mm to 90 mm"},
		{"a steel of the other family", "aws", "grade: S355J2", "20 mm", "5", "AWS"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			f.edit(t, noProcedure[0], noProcedure[1])
			f.edit(t, "name: stool foot\ncode: iso", "name: stool foot\ncode: "+row.code)
			f.edit(t, "base: 8 mm", "base: "+row.thick)
			f.edit(t, "seams:\n", "material: {"+row.material+"}\nseams:\n")
			if row.hydrogen != "" {
				f.edit(t, "{id: 11,", "{id: 11, hydrogen: "+row.hydrogen+",")
			}
			if got := only(t, planOf(t, f), finding.PreheatUnknown); !strings.Contains(got.Message, row.want) {
				t.Errorf("%s", got.Message)
			}
		})
	}
}

// The arm stands between passes until the joint has cooled at its start and at its
// end, and the times of the run add up.
func TestInterpassStand(t *testing.T) {
	f := vButt(t, "{root: {settings: 15, area: 22 mm2}, fill: {settings: 16}, cap: {settings: 17, speed: 3.8 mm/s}}")
	f.edit(t, "seams:\n", "material: {grade: S690QL}\nheat: {interpass_max: 150 degC}\nseams:\n")
	p := planOf(t, f)
	s := seamOf(t, p, "W1")
	near(t, "times", p.Times.Arc+p.Times.Air+p.Times.Wait, p.Times.Total, 1e-6)
	lit := map[int][2]float64{} // by pass: when its start and its end were welded
	for _, x := range p.Trace {
		if !x.Arc {
			continue
		}
		at, seen := lit[x.Pass]
		if !seen {
			at[0] = x.T
		}
		at[1] = x.T
		lit[x.Pass] = at
	}
	stood := 0.0
	for k := 1; k < len(s.Passes); k++ {
		hottest := 0.0
		for end := range 2 { // at the start of the seam, and at its end
			left := s.Passes[0].Heat.Start
			for before := 1; before <= k; before++ {
				rise, err := s.Passes[before-1].Heat.RiseAfter(lit[k+1][end] - lit[before][end])
				if err != nil {
					t.Fatal(err)
				}
				left += rise
			}
			hottest = max(hottest, left)
		}
		if hottest > 150+0.5 {
			t.Errorf("pass %d comes when the joint is at %.1f degC", k+1, hottest)
		}
		if wait := s.Passes[k].Heat.Wait; wait > 0 && hottest < 148.5 {
			t.Errorf("pass %d waits %.1f s, to %.1f degC", k+1, wait, hottest)
		}
		stood += s.Passes[k].Heat.Wait
	}
	near(t, "stands, s", stood, p.Times.Wait, 1e-9)
	if n := len(withCode(p, finding.InterpassStand)); n != 3 {
		t.Errorf("%d findings about stands", n)
	}
	hotter := strings.Replace(f["job.yaml"], "interpass_max: 150 degC", "interpass_max: 200 degC", 1)
	f["job.yaml"] = hotter
	if q := planOf(t, f); q.Times.Wait >= p.Times.Wait {
		t.Errorf("a higher ceiling waits %.0f s, the lower %.0f", q.Times.Wait, p.Times.Wait)
	}
}

// A wait that is not known is said, and is no wait of nothing.
func TestInterpassNotKnown(t *testing.T) {
	p := planOf(t, heavy(t, "heat: {preheat: 100 degC}"))
	got := only(t, p, finding.InterpassUnknown)
	says(t, got.Message, "W1: how long the joint cools after pass 1 is not known: no interpass ceiling is stated")
	if p.Times.Wait != 0 {
		t.Errorf("yet the arm stands %g s", p.Times.Wait)
	}
}
