package plan_test

import (
	"context"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// flat is the flat of 1200 mm upright on its base, welded with stitches on both
// sides from one place of the arm: case 5 as its drawing has it, fillet 5, 60-150
// staggered, American system.
func flat(t *testing.T, near, far string) files {
	f := worked(t, "s5")
	f.edit(t, "code: iso", "code: aws")
	f.edit(t, "home: home\n", `    - {label: W2 start, place: [525.985, -600.419, 10]}
    - {label: W2 end, place: [609.695, 596.661, 10]}
home: home
`)
	f.edit(t, "    weld: {leg: 5 mm}\n", "    weld: {leg: 5 mm}\n    speed: 8.2 mm/s\n    stitches: {"+near+"}\n")
	if far != "" {
		f["job.yaml"] += `  - name: W2
    joint: tee
    line: [W2 start, W2 end]
    base: {direction: [0.0, 0.0, 1.0]}
    upright: {direction: [0.99756, -0.06976, 0.0]}
    thickness: {base: 10 mm, upright: 6 mm}
    weld: {leg: 5 mm}
    speed: 8.2 mm/s
    stitches: {` + far + `}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: free}
`
	}
	return f
}

// Case 5: 9 stitches at 142.5 mm, 540 mm on either side, side 2 at an offset of 71.25
// mm, 131 s of arc for both. Of side 2 the first 75 mm have no posture at any spin,
// which is stitch 1; stitch 2 has 5 usable spins of 24. Invented scenario, worked.
func TestStitchesOfTheFlat(t *testing.T) {
	p := planOf(t, flat(t, "length: 60 mm, pitch: 150 mm", "length: 60 mm, pitch: 150 mm, offset: 71.25 mm"))
	if len(p.Stitched) != 2 || len(p.Seams) != 18 {
		t.Fatalf("%d seams in stitches, %d stitches", len(p.Stitched), len(p.Seams))
	}
	one, two := &p.Stitched[0], &p.Stitched[1]
	near(t, "pitch, mm", one.Pitch/mm, 142.5, 0.001)
	near(t, "offset of side 2, mm", two.Offset/mm, 71.25, 1e-9)
	arc := 0.0
	for i := range p.Stitched {
		s := &p.Stitched[i]
		if len(s.Stretches) != 9 || len(s.Seams) != 9 || s.Pitch > s.Drawn {
			t.Errorf("%s: %d stitches at %.1f mm", s.Name, len(s.Stretches), s.Pitch/mm)
		}
		near(t, "welded, mm", s.Welded()/mm, 540, 1e-9)
		near(t, "end of the last, mm", s.Stretches[8].To/mm, s.Of/mm, 1e-9)
	}
	for i := range p.Seams {
		arc += p.Seams[i].Passes[0].Size.ArcTime
	}
	near(t, "arc, s", arc, 131.5, 0.7)
	for _, f := range p.Findings {
		if f.Severity == finding.Stop && f.Where.Seam != "W2 stitch 1" {
			t.Errorf("stopped: %s", f.Message)
		}
	}
	says(t, only(t, p, finding.ArmCannotReach).Message, "W2 stitch 1 at 0 mm of 60 mm: no posture at any spin; the wrist misses by 2 mm")
	says(t, only(t, p, finding.RunIncomplete).Message, "W2 stitch 1 is left out of the run: no posture carries through it")
	says(t, withCode(p, finding.StitchPitch)[0].Message, "W1: the pitch is 142.5 mm, closed up from 150 mm, so that a stitch ends the seam: 9 of them")
	for _, code := range []finding.Code{finding.StitchShort, finding.StitchGap, finding.StitchSystem, finding.StitchBare} {
		if found := withCode(p, code); len(found) > 0 {
			t.Errorf("no fault, yet:\n%s", list(found))
		}
	}
}

// Case 5, side 2: of 24 spins 5 serve stitch 2 and 4 stitch 9; the first 75 mm, and so
// all of stitch 1, have none. Counted where side 1 has its stitches, opposite them.
// Invented scenario, worked.
func TestSpinsOfFarStitches(t *testing.T) {
	f := flat(t, "length: 60 mm, pitch: 150 mm", "length: 60 mm, pitch: 150 mm")
	f.edit(t, "home: home\nsettings", "home: home\nair: {out: 5 mm}\nsettings")
	j := decode(t, f)
	j.Seams = j.Seams[1:]
	usable := map[string]int{}
	for k := range 24 {
		j.Seams[0].Aim.Spin, j.Seams[0].Aim.SpinAngle = job.SpinFixed, float64(k)*15*degree
		p, err := plan.Make(context.Background(), j, nil)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Seams {
			if p.Seams[i].Passes[0].Reach.Whole {
				usable[p.Seams[i].Name]++
			}
		}
	}
	for name, want := range map[string]int{"W2 stitch 1": 0, "W2 stitch 2": 5, "W2 stitch 9": 4} {
		if usable[name] != want {
			t.Errorf("%s: %d spins of 24 serve, want %d", name, usable[name], want)
		}
	}
}

// Case 5, the pitch read as a gap: 6 stitches at 210 mm, 360 mm, one third missing,
// and 150 mm clear where 24 x 6 = 144 mm is the most. Invented scenario, worked.
func TestPitchReadAsGap(t *testing.T) {
	p := planOf(t, flat(t, "length: 60 mm, gap: 150 mm, ends: as drawn", ""))
	st := &p.Stitched[0]
	if len(st.Stretches) != 6 {
		t.Fatalf("%d stitches", len(st.Stretches))
	}
	near(t, "welded, mm", st.Welded()/mm, 360, 1e-9)
	near(t, "pitch, mm", st.Pitch/mm, 210, 1e-9)
	says(t, only(t, p, finding.StitchGap).Message, "W1: a clear gap of 150 mm between stitches; 144 mm is the most beside a plate of 6 mm")
	says(t, only(t, p, finding.StitchSystem).Message, "W1: 150 mm is typed as the clear gap; symbols of this job's code family give the pitch. As pitch: 8 stitches, 480 mm; as clear gap: 6 stitches, 360 mm")
}

// The other side of a staggered seam is its image: half a pitch later and with an end
// of its own, or one stitch in each gap. Its order comes behind, and a restart of it
// leaves out the first side.
func TestStaggeredImage(t *testing.T) {
	const mirror = "}\n    mirror: {name: W1 left, at: [523 mm, -600.2 mm, 0 mm], normal: [-0.99756, 0.06976, 0.0]"
	for _, row := range []struct {
		name, words  string
		sides        []string
		count        int // of the last side
		first, pitch float64
		seams        int
	}{
		{"own ends", "staggered: true" + mirror, []string{"W1", "W1 left"}, 9, 71.25, (1200 - 71.25 - 60) / 8, 18},
		{"in the gaps", "staggered: true, other_side: in the gaps" + mirror, []string{"W1", "W1 left"}, 8, 71.25, 142.5, 17},
		{"opposite", "count: 9" + mirror, []string{"W1", "W1 left"}, 9, 0, 142.5, 18},
		{"stopped on the other side", "staggered: true" + mirror + "}\n    restart: {seam: W1 left, at: 230 mm", []string{"W1 left"}, 9, 71.25, (1200 - 71.25 - 60) / 8, 8},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := planOf(t, flat(t, "length: 60 mm, pitch: 150 mm, "+row.words, ""))
			if len(p.Stitched) != len(row.sides) || len(p.Seams) != row.seams {
				t.Fatalf("%d stitched seams, %d stitches", len(p.Stitched), len(p.Seams))
			}
			for i, name := range row.sides {
				if p.Stitched[i].Name != name {
					t.Errorf("side %d is %s, want %s", i+1, p.Stitched[i].Name, name)
				}
			}
			last := &p.Stitched[len(p.Stitched)-1]
			if len(last.Stretches) != row.count {
				t.Errorf("%d stitches on the other side, want %d", len(last.Stretches), row.count)
			}
			near(t, "first, mm", last.Stretches[0].From/mm, row.first, 1e-3)
			near(t, "pitch, mm", last.Pitch/mm, row.pitch, 1e-3)
			if row.seams == 8 {
				near(t, "what is left of the one that stopped, mm", p.Seams[0].Length/mm, 264.84-230+12, 0.01)
				says(t, only(t, p, finding.WeldTakenUp).Message, "W1 left stitch 2 is taken up again where it stopped, 230 mm from the start of W1 left: 47 mm of it are left; what lies before is not in this run")
			}
		})
	}
}

// Points taught where no stitch lies are told on the seam all the same.
func TestTaughtBetweenStitches(t *testing.T) {
	whole := planOf(t, worked(t, "s5"))
	p := planOf(t, flat(t, "length: 60 mm, pitch: 150 mm, offset: 71.25 mm, ends: as drawn", ""))
	want := seamOf(t, whole, "W1").Taught
	first, last := seamOf(t, p, "W1 stitch 1").Taught, seamOf(t, p, "W1 stitch 8").Taught
	if len(first) != 2 || len(last) != 2 {
		t.Fatalf("%d and %d points of 4", len(first), len(last))
	}
	for i, got := range []plan.Taught{first[1], last[0]} {
		w := want[1+i]
		if got.Label != w.Label || got.Role != w.Role {
			t.Errorf("got %s, %s, want %s, %s", got.Label, got.Role, w.Label, w.Role)
		}
		near(t, "across, mm", got.Across/mm, w.Across/mm, 1e-9)
		near(t, "work, deg", got.Work/degree, w.Work/degree, 1e-9)
		near(t, "travel, deg", got.Travel/degree, w.Travel/degree, 1e-9)
	}
	near(t, "start before the first stitch, mm", first[1].Along/mm, -71.25, 1e-3)
	near(t, "end behind the start of the last, mm", last[0].Along/mm, 1200-71.25-7*150, 0.01)
	only(t, p, finding.StitchBare)
}

// What cannot be laid along the seam is refused at its place in the document.
func TestStitchesThatDoNotFit(t *testing.T) {
	for _, row := range []struct{ name, words, says string }{
		{"more than there is room for", "stitches: {length: 40 mm, gap: 50 mm, count: 4, ends: as drawn}",
			"job.yaml:31:15: seams[0].stitches: found seam too short: 4 elements over 310 mm; allowed: up to the seam, 250 mm; check the number of elements and the length of the seam"},
		{"fewer than drawn so far apart", "stitches: {length: 40 mm, gap: 50 mm, count: 3}",
			"job.yaml:31:15: seams[0].stitches: found too few elements: 3 elements with gaps of 65 mm; allowed: gaps up to 50 mm; weld more elements, or keep the pitch and leave the end bare"},
		{"longer than the seam", "stitches: {length: 300 mm, pitch: 400 mm}",
			"job.yaml:31:15: seams[0].stitches: found seam too short: 250 mm of seam; allowed: a stitch of 300 mm at least; check the length of the seam, or weld it through"},
		{"into each other at both ends", "stitches: {length: 130 mm, pitch: 150 mm}",
			"job.yaml:31:15: seams[0].stitches: found seam too short: 2 stitches of 130 mm; allowed: a gap between them on 250 mm of seam; weld it through, or keep the pitch and leave the end bare"},
		{"begun behind the end", "stitches: {length: 40 mm, pitch: 90 mm, offset: 230 mm}",
			"job.yaml:31:15: seams[0].stitches: found a first stitch from 230 to 270 mm; allowed: up to the end of the seam, 250 mm; shorten offset, or check the length of the seam"},
		{"stopped behind the end", "restart: {at: 300 mm}",
			"job.yaml:31:14: seams[0].restart: found outside the range: a stop at 300 mm; allowed: 0 mm to 250 mm, where the arc is on; give the arc length along this seam"},
		{"stopped at the end", "restart: {at: 250 mm}",
			"job.yaml:31:14: seams[0].restart: found a weld that stopped at its end; allowed: a place before the end of what is welded; delete the seam, or the restart to weld it again"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			f.edit(t, "weld: {leg: 5 mm}", "weld: {leg: 5 mm}\n    "+row.words)
			_, err := plan.Make(context.Background(), decode(t, f), nil)
			if err == nil {
				t.Fatal("accepted")
			}
			says(t, err.Error(), row.says)
		})
	}
}

// Stitches pull together, by what is welded of the seam, and stay together in the
// order of welding: 0.005 A d L^2/I (Blodgett, from memory) with 540 of 1200 mm welded
// on either side, both 30 mm under the axis.
func TestDistortionOfStitches(t *testing.T) {
	f := beam(t, "order: [W2, W1]\n")
	for _, leg := range []string{"5", "4"} {
		f.edit(t, "weld: {leg: "+leg+" mm}", "weld: {leg: "+leg+" mm}\n    stitches: {length: 60 mm, gap: 90 mm}")
	}
	p := planOf(t, f)
	if len(p.Seams) != 18 || p.Seams[0].Name != "W2 stitch 1" || p.Seams[9].Name != "W1 stitch 1" {
		t.Fatalf("%d seams, first %s", len(p.Seams), p.Seams[0].Name)
	}
	d := &p.Distortion
	if len(d.Pulls) != 2 || d.Pulls[0].Seam != "W2" || d.Pulls[1].Seam != "W1" || d.Bow == nil || d.Order == nil {
		t.Fatalf("%+v", d)
	}
	near(t, "allowance along, mm", d.Pulls[0].Along.Rules[0].Value/mm, 0.8*0.54/3, 1e-6)
	areas := p.Seams[0].Passes[0].Size.Area + p.Seams[9].Passes[0].Size.Area
	near(t, "bow, mm", d.Bow.Rules[0].Value/mm, -0.005*areas*1e6*0.45*30*1200*1200/400e4, 0.01)
	for _, turned := range d.Order.Seams {
		if name := p.DrawnName(turned.Seam); name != "W1" && name != "W2" {
			t.Errorf("proposed: %s", name)
		}
	}
}
