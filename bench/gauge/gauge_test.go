package gauge_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/gauge"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/accept"
	"seamwright/weld/procedure"
)

const mm = unit.MM

// set is an invented settings set.
func set(id string) procedure.Settings {
	return procedure.Settings{ID: id, Process: weld.MAG, Transfer: weld.Spray, WireDiameter: 1.2 * mm, Feed: 8 * unit.MPerMin, Efficiency: 0.97, Convexity: 1.1}
}

// seam is a planned fillet with a leg in mm and speeds of its passes in mm/s.
func seam(name string, leg float64, speeds ...float64) plan.SizedSeam {
	s := plan.SizedSeam{Seam: plan.Seam{Name: name, Length: 0.4},
		Doc: job.Seam{Joint: weld.Tee, Weld: job.Weld{Kind: job.SizeLeg, LegBase: leg * mm, LegOther: leg * mm}, BaseThickness: 8 * mm, OtherThickness: 10 * mm}}
	for i, v := range speeds {
		s.Passes = append(s.Passes, plan.Pass{Number: i + 1, Size: plan.Size{Settings: "11", WireDiameter: 1.2 * mm, Efficiency: 0.97, Convexity: 1.1,
			DrawnLegBase: leg * mm, DrawnLegOther: leg * mm, Included: math.Pi / 2, Travel: v * unit.MMPerS}})
	}
	return s
}

// read is a row of both legs in mm.
func read(seam string, base, other float64) job.Gauging {
	row := job.Gauging{Seam: seam}
	for m, v := range map[accept.Measure]float64{accept.LegBase: base, accept.LegOther: other} {
		row.Readings = append(row.Readings, accept.Reading{Measure: m, Value: v * mm, Step: 0.1 * mm})
	}
	return row
}

// judge judges rows of one seam.
func judge(s plan.SizedSeam, a *job.Acceptance, rows ...job.Gauging) gauge.Result {
	return gauge.Judge(gauge.Request{Job: &job.Job{Settings: []procedure.Settings{set("11"), set("12")}, Acceptance: a}, Seams: []plan.SizedSeam{s, seam("W9", 5, 6)},
		Readings: &job.Gaugings{Rows: rows}, Date: "2031-05-12"})
}

// The trade's number: z got 5.5, wanted 6.0, so 0.84 of the speed; places count
// with the speed at which each was welded.
func TestSpeed(t *testing.T) {
	fast := read("W1", 5.5, 5.5)
	fast.Travel = 9 * unit.MMPerS
	slow := read("W1", 5.5*math.Sqrt(9.0/6), 5.5*math.Sqrt(9.0/6)) // the same metal in each second
	slow.Travel = 6 * unit.MMPerS
	for _, row := range []struct {
		name  string
		seam  plan.SizedSeam
		rows  []job.Gauging
		ratio float64
		now   float64 // mm/s
		tells bool
	}{
		{"as planned", seam("W1", 6, 7), []job.Gauging{read("W1", 5.5, 5.5)}, 0.8403, 5.882, true},
		{"as said", seam("W1", 6, 7), []job.Gauging{fast}, 0.8403, 7.5625, true},
		{"at two speeds", seam("W1", 6, 7), []job.Gauging{fast, slow}, 1.0083, 7.5625, false},
		{"two places", seam("W1", 6, 7), []job.Gauging{read("W1", 5, 5), read("W1", 6, 6)}, 61.0 / 72, 7 * 61.0 / 72, true},
		{"in three passes", seam("W1", 12, 6, 6, 6), []job.Gauging{read("W1", 11, 11)}, 0.8403, 2 * 0.8403, true},
		{"less than the gauge can tell", seam("W1", 6, 7), []job.Gauging{read("W1", 6.04, 6)}, 1.0067, 7.047, false},
	} {
		s := judge(row.seam, nil, row.rows...).Seams[0].Speed
		if s == nil || math.Abs(s.Ratio-row.ratio) > 1e-4 || math.Abs(s.Mended/unit.MMPerS-row.now) > 1e-3 || s.Tells() != row.tells {
			t.Errorf("%s: %+v, want ratio %g, %g mm/s, %v", row.name, s, row.ratio, row.now, row.tells)
		}
	}
	if s := judge(seam("W1", 6, 7), nil, read("W1", 12, 12)).Seams[0].Speed; s.Refused == "" || s.Tells() {
		t.Errorf("four times the metal is mended by speed: %+v", s)
	}
}

// The aim goes by half of the difference to the side of the short leg.
func TestAim(t *testing.T) {
	a := judge(seam("W1", 6, 7), nil, read("W1", 6.6, 5.6)).Seams[0].Aim
	if math.Abs(a.Shift.Value+0.5*mm) > 1e-12 || !a.Tells() {
		t.Errorf("%+v", a)
	}
	if a = judge(seam("W1", 6, 7), nil, read("W1", 6, 6.1)).Seams[0].Aim; a.Tells() {
		t.Errorf("a step of the gauge moves the aim: %+v", a)
	}
	unequal := seam("W1", 6, 7)
	unequal.Passes[0].Size.DrawnLegOther = 8 * mm
	for _, s := range []plan.SizedSeam{unequal, seam("W1", 12, 6, 6, 6)} {
		if a = judge(s, nil, read("W1", 6.6, 8.6)).Seams[0].Aim; a.Refused == "" || a.Tells() {
			t.Errorf("%+v", a)
		}
	}
}

// What teaches nothing says why.
func TestNothingLearned(t *testing.T) {
	bead, gap, mixed, groove := seam("W1", 6, 7), seam("W1", 6, 7), seam("W1", 12, 6, 6), seam("W1", 6, 7)
	bead.Doc.Weld = job.Weld{Kind: job.SizeArea, Area: 20 * unit.MM2}
	bead.Passes[0].Size.DrawnLegBase = 0
	gap.Doc.Gap = 0.5 * mm
	mixed.Passes[1].Size.Settings = "12"
	groove.Passes[0].Size.Settings = "77"
	for _, row := range []struct {
		name, why string
		seam      plan.SizedSeam
	}{
		{"a bead", "nothing learned: no fillet by leg or throat", bead},
		{"a gap", "nothing learned: the gap of 0.5 mm took metal that no gauge sees", gap},
		{"several sets", "nothing learned: its passes are laid with several settings sets", mixed},
		{"no set", "nothing learned: settings set 77 is not in the job", groove},
	} {
		r := judge(row.seam, nil, read("W1", 6, 6))
		if len(r.Lessons) != 0 || !strings.Contains(strings.Join(r.Seams[0].Notes, "; "), row.why) {
			t.Errorf("%s: %+v", row.name, r.Seams[0].Notes)
		}
	}
	told := read("W1", 11, 11)
	told.Travel = 6 * unit.MMPerS
	if r := judge(seam("W1", 12, 6, 6, 6), nil, told); len(r.Learned.Sets[0].Readings) != 0 || !strings.Contains(strings.Join(r.Seams[0].Notes, "; "), "one speed or feed as welded, and several passes") {
		t.Errorf("%+v", r.Seams[0].Notes)
	}
	if r := judge(seam("W1", 6, 7), nil, job.Gauging{Seam: "W1", Clean: true}); len(r.Lessons) != 0 || r.Seams[0].Speed != nil {
		t.Errorf("%+v", r)
	}
}

// Passes of one set add up: three at 6 mm/s lay what one at 2 mm/s lays.
func TestPassesAreLearnedTogether(t *testing.T) {
	several := judge(seam("W1", 12, 6, 6, 6), nil, read("W1", 10, 10))
	one := judge(seam("W1", 12, 2), nil, read("W1", 10, 10))
	a, b := several.Learned.Sets[0], one.Learned.Sets[0]
	if a.Readings[0].Gauged != b.Readings[0].Gauged || a.Belief != b.Belief || a.Readings[0].LeftOut != "" {
		t.Errorf("%+v\n%+v", a, b)
	}
	if len(several.Lessons[0].Next) != 0 || len(one.Lessons[0].Next) != 1 {
		t.Errorf("%+v\n%+v", several.Lessons, one.Lessons)
	}
}

// What is known already is not changed, and the same reading counts once.
func TestKnownIsNotChanged(t *testing.T) {
	first := judge(seam("W1", 6, 7), nil, read("W1", 6, 6)).Learned
	before := string(first.Encode())
	q := gauge.Request{Job: &job.Job{Settings: []procedure.Settings{set("11")}}, Seams: []plan.SizedSeam{seam("W1", 6, 7)}, Learned: first, Date: "2031-05-12",
		Readings: &job.Gaugings{Rows: []job.Gauging{read("W1", 6, 6), read("W1", 6.2, 6)}}}
	r := gauge.Judge(q)
	if string(first.Encode()) != before {
		t.Error("what was known has changed")
	}
	if l := r.Lessons[0]; l.Again != 1 || l.Added != 1 || l.Readings != 2 || len(r.Learned.Sets[0].Readings) != 2 {
		t.Errorf("%+v", l)
	}
	q.Job.Settings[0].WireDiameter = 1 * mm
	if r = gauge.Judge(q); len(r.Lessons) != 0 || !strings.Contains(r.Seams[0].Notes[0], "with another wire or transfer; begin a new file") {
		t.Errorf("%+v", r.Seams[0].Notes)
	}
}

// What cannot be judged says why, and does not pass.
func TestUnjudged(t *testing.T) {
	iso := &job.Acceptance{Standard: accept.Standard{Code: accept.ISO5817, Edition: "2023", Level: accept.C}}
	aws := &job.Acceptance{Standard: accept.Standard{Code: accept.D11, Edition: "2020"}}
	thin, bead, legs, throat := seam("W1", 6, 7), seam("W1", 6, 7), seam("W1", 6, 7), seam("W1", 6, 7)
	thin.Doc.BaseThickness, thin.Doc.OtherThickness = 0, 0
	bead.Doc.Weld = job.Weld{Kind: job.SizeArea}
	legs.Doc.Weld = job.Weld{Kind: job.SizeLegs, LegBase: 6 * mm, LegOther: 8 * mm}
	throat.Doc.Weld = job.Weld{Kind: job.SizeThroat, Throat: 4 * mm}
	for _, row := range []struct {
		name, why string
		seam      plan.SizedSeam
		by        *job.Acceptance
	}{
		{"no acceptance", "the job has no acceptance", seam("W1", 6, 7), nil},
		{"no thickness", "the thickness of its plates is not said", thin, iso},
		{"a bead", "a bead of a given area has neither leg nor throat", bead, iso},
		{"unequal legs by AWS", "legs that are called unequal are for the inspector", legs, aws},
		{"a throat by AWS", "acceptance: mixed code families: a throat as the size of a fillet to AWS D1.1", throat, aws},
	} {
		r := judge(row.seam, row.by, read("W1", 6, 6))
		if s := r.Seams[0]; !strings.HasPrefix(s.Unjudged, row.why) && !strings.Contains(s.Unjudged, row.why) || len(s.Verdicts) != 0 || r.Passed() {
			t.Errorf("%s: %q", row.name, s.Unjudged)
		}
	}
	if r := judge(legs, iso, read("W1", 6, 8)); r.Seams[0].Unjudged != "" || !reflect.DeepEqual(r.Unread, []string{"W9"}) || r.Passed() {
		t.Errorf("%+v", r)
	}
	row := read("W1", 6, 6)
	row.Readings = append(row.Readings, accept.Reading{Measure: accept.Throat, Value: 4.2 * mm, Step: 0.1 * mm})
	if r := judge(seam("W1", 6, 7), aws, row); r.Seams[0].Unjudged != "" || r.Seams[0].Notes[0] != "the throat is not judged: AWS D1.1 judges fillets by the leg" || r.Learned.Sets[0].Readings[0].Gauged.Throat != 4.2*mm {
		t.Errorf("%+v", r.Seams[0])
	}
	across := &job.Acceptance{Standard: accept.Standard{Code: accept.D11, Edition: "2020", Load: accept.Cyclic}, AcrossTension: []string{"W1"}}
	cut := job.Gauging{Seam: "W1", Readings: []accept.Reading{{Measure: accept.Undercut, Value: 0.5 * mm, Step: 0.1 * mm}}}
	for name, want := range map[string]accept.State{"W1": accept.Rejected, "W2": accept.Accepted} {
		across.AcrossTension[0] = name
		for _, v := range judge(seam("W1", 6, 7), across, cut).Seams[0].Verdicts {
			if v.Name == "undercut" && v.State != want {
				t.Errorf("across tension %s: %v", name, v)
			}
		}
	}
}

// The speed as mended and the speed as planned with what was learned lie on the
// same side of the old one, and learning never goes past the gauge by much.
func TestLearningFollowsTheGauge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.Float64Range(5.4, 6.6).Draw(t, "leg")
		s := seam("W1", 6, 1)
		const eta, k = 0.97, 1.1
		s.Passes[0].Size.Travel = eta * math.Pi * 1.44e-6 / 4 * 8 / 60 / (k * 18e-6)
		r := judge(s, nil, read("W1", z, z))
		if len(r.Lessons[0].Next) != 1 {
			t.Fatalf("%+v", r.Lessons)
		}
		n, mended := r.Lessons[0].Next[0], r.Seams[0].Speed
		gauged, learned := math.Log(mended.Ratio), math.Log(n.Now/n.Was)
		if math.Abs(gauged) > 0.01 && (gauged*learned < 0 || math.Abs(learned) > math.Abs(gauged)) {
			t.Fatalf("leg %g: the gauge says %+.3f, learning %+.3f", z, gauged, learned)
		}
	})
}
