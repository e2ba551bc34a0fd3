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
