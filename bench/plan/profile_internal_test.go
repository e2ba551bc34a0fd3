package plan

import (
	"context"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld/seam"
)

// heldSpin keeps one spin, so that the posture search is quick.
func heldSpin(_ *job.Job, s *job.Seam) {
	s.Aim.Spin, s.Aim.SpinAngle = job.SpinFixed, -45/deg
}

func profileOf(t testing.TB, p *Plan) *Profile {
	t.Helper()
	pass := &p.Seams[0].Passes[0]
	if pass.Motion == nil || pass.Profile == nil {
		t.Fatalf("no profile: %+v", p.Findings)
	}
	return pass.Profile
}

// laid is the metal along a profile, m3: trapezoids between its samples.
func laid(p *Profile) float64 {
	var sum float64
	for i := 1; i < len(p.Samples); i++ {
		a, b := p.Samples[i-1], p.Samples[i]
		sum += (a.Area + b.Area) / 2 * (b.Arc - a.Arc)
	}
	return sum
}

func codes(p *Plan, code finding.Code) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.Findings {
		if f.Code == code {
			list = append(list, f)
		}
	}
	return list
}

// gatherAndStop is how much longer the tip takes to gather a speed v (m/s) from rest
// and to lose it again than it takes for that way at v, s: with jerk j alone each lasts
// 2 sqrt(v/j), at half the speed in the mean.
func gatherAndStop(v float64) float64 {
	return 2 * math.Sqrt(v/(job.DefaultTipAcceleration/job.DefaultJerkTime))
}

// A turn of 90 deg at 60 deg/s takes 1.5 s, in which 202 mm3 are laid on a bead of
// 19.8 mm2 at 6.8 mm/s (the project's welding reference, computed there). The arm
// takes its ramps besides; what it lays goes with the time that it stands.
func TestReferenceTurnInACorner(t *testing.T) {
	p := bentSeam{geometry: boxAround(t, 0, 0.2), change: func(j *job.Job, s *job.Seam) {
		heldSpin(j, s)
		for i := range j.Settings {
			if set := &j.Settings[i]; set.ID == s.Settings {
				set.Feed *= 6.8e-3 / 5.9659e-3 // so that 19.8 mm2 are laid at 6.8 mm/s
			}
		}
	}}.plan(t)
	size := p.Seams[0].Passes[0].Size
	if math.Abs(size.Travel-6.8e-3) > 0.01e-3 || math.Abs(size.Area-19.8e-6) > 0.01e-6 {
		t.Fatalf("%v mm/s and %v mm2, want 6.8 and 19.8", size.Travel*1e3, size.Area*1e6)
	}
	profile := profileOf(t, p)
	c := profile.Corners[0]
	if turn := c.InPlace / turnMost; math.Abs(turn-1.5) > 1e-9 || c.Hold < turn || c.Hold > turn+turnMost/job.DefaultJointAcceleration+job.DefaultJerkTime {
		t.Errorf("stands %.3f s, want 1.5 s and the ramps of the slowest joint", c.Hold)
	}
	stop := gatherAndStop(size.Travel)    // of the tip, at the corner
	more := laid(profile) - size.Area*0.2 // the ramps at the ends lay nothing that counts
	if got := more * 1.5 / (c.Hold + stop); math.Abs(got*1e9-202) > 1 {
		t.Errorf("%.1f mm3 in 1.5 s, want 202", got*1e9)
	}
}

// Scenario S3 with sharp corners, the turn shared out 15 deg before, 60 in and 15
// behind: travel -0.7 to +20.4 deg. And as drawn, with a radius of 15 mm: the
// torch turns at 22.8 deg/s at 5.97 mm/s, which the arm holds (worked example).
func TestReferenceBoxCorners(t *testing.T) {
	sharp := bentSeam{geometry: boxAround(t, 0, 0.2), shares: []seam.Share{{Before: 15 / deg, After: 15 / deg}}, change: heldSpin}.plan(t)
	c := profileOf(t, sharp).Corners[0]
	if math.Abs(c.TravelLeast*deg+0.7) > 0.06 || math.Abs(c.TravelMost*deg-20.4) > 0.06 || math.Abs(c.InPlace*deg-60) > 1e-9 {
		t.Errorf("%+v, want 60 deg in place and travel -0.7 to 20.4 deg", c)
	}
	if f := codes(sharp, finding.CornerTravel); len(f) != 0 {
		t.Errorf("found %+v", f)
	}
	round := bentSeam{geometry: boxAround(t, 0.015, 0.2), change: heldSpin}.plan(t)
	c = profileOf(t, round).Corners[0]
	size := round.Seams[0].Passes[0].Size
	if math.Abs(c.TurnMost*deg-22.8) > 0.05 || math.Abs(c.SpeedLeast-size.Travel) > 1e-3*size.Travel || math.Abs(size.Travel-5.97e-3) > 0.005e-3 {
		t.Errorf("%+v at %v mm/s, want 22.8 deg/s at 5.97 mm/s held", c, size.Travel*1e3)
	}
	for _, code := range []finding.Code{finding.CornerLeg, finding.CornerTravel, finding.CornerTurn, finding.MoveOffPath, finding.JointSpeedWeld} {
		if f := codes(round, code); len(f) != 0 {
			t.Errorf("found %+v", f)
		}
	}
}

// No metal is lost: what lies along the profile is what the wire brings in the
// time that the trace has the arc on, less start and crater; and the arm keeps
// its joint speeds all along.
func TestProfileKeepsTheMetal(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		num := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, what) }
		share := seam.Share{
			Before: num("before", 0, 30) / deg, After: num("after", 0, 30) / deg,
			Ahead: num("ahead", 2, 30) * 1e-3, Behind: num("behind", 2, 30) * 1e-3, ArcOff: rapid.Bool().Draw(r, "arc off"),
		}
		radius := rapid.SampledFrom([]float64{0, 0, 0.004, 0.015}).Draw(r, "radius")
		accel := num("joint acceleration", 40, 600) / deg
		b := bentSeam{geometry: boxAround(t, radius, num("length", 140, 220)*1e-3), shares: []seam.Share{share}, change: func(j *job.Job, s *job.Seam) {
			heldSpin(j, s)
			j.Arm.Acceleration = []float64{accel}
		}}
		p := b.plan(t)
		profile, size := profileOf(t, p), p.Seams[0].Passes[0].Size
		var lit float64
		for i := 1; i < len(p.Trace); i++ {
			a, b := p.Trace[i-1], p.Trace[i]
			if a.Arc && b.Arc {
				lit += b.T - a.T
			}
			for k := range p.Cell.Chain.N() {
				if step := math.Abs(b.Q[k] - a.Q[k]); step > p.Cell.Chain.Joint(k).Velocity*(b.T-a.T)*(1+1e-6)+1e-9 {
					r.Fatalf("joint %d steps %v rad in %v s", k+1, step, b.T-a.T)
				}
			}
		}
		stands := size.StartTime + size.CraterTime
		if radius == 0 && share.ArcOff && profile.Corners[0].InPlace > 0 {
			stands *= 2
		}
		stands += gatherAndStop(size.Travel) // at the ends
		wire := math.Pi / 4 * size.WireDiameter * size.WireDiameter * size.Feed * size.Efficiency * (lit - stands)
		if got := laid(profile); math.Abs(got-wire) > 0.005*wire {
			r.Fatalf("%.1f mm3 along the seam, %.1f mm3 of wire melted", got*1e9, wire*1e9)
		}
		for _, s := range profile.Samples {
			if s.Leg < size.LegBase-1e-6 || s.Turn > turnMost*1.001 || s.Speed > size.Travel*1.001 {
				r.Fatalf("sample %+v of %+v", s, size)
			}
		}
	})
}

var spoken = regexp.MustCompile(`corners: {turn: {before: (\d+) deg over (\d+) mm, after: (\d+) deg over (\d+) mm}} gives a leg up to ([\d.]+) mm and the torch from ([\d.]+) deg (push|drag) to ([\d.]+) deg push`)

// What a remedy says is what comes out when it is followed: in a plan of its own.
func TestRemedyIsTrue(t *testing.T) {
	for name, share := range map[string]seam.Share{"all in place": {}, "too much": {Before: 45 / deg, After: 40 / deg}} {
		t.Run(name, func(t *testing.T) {
			p := bentSeam{geometry: boxAround(t, 0, 0.4), shares: []seam.Share{share}, change: heldSpin}.plan(t)
			found := append(codes(p, finding.CornerLeg), codes(p, finding.CornerTravel)...)
			if len(found) != 1 {
				t.Fatalf("found %+v", found)
			}
			if !strings.Contains(found[0].Message, "; so at ") {
				t.Errorf("%s: the other corner is not named", found[0].Message)
			}
			m := spoken.FindStringSubmatch(found[0].Remedy)
			if m == nil {
				t.Fatalf("remedy %q", found[0].Remedy)
			}
			num := func(i int) float64 {
				x, err := strconv.ParseFloat(m[i], 64)
				if err != nil {
					t.Fatal(err)
				}
				return x
			}
			low := num(6)
			if m[7] == "drag" {
				low = -low
			}
			mended := bentSeam{geometry: boxAround(t, 0, 0.4), shares: []seam.Share{{
				Before: num(1) / deg, Ahead: num(2) * 1e-3, After: num(3) / deg, Behind: num(4) * 1e-3,
			}}, change: heldSpin}.plan(t)
			if f := codes(mended, finding.CornerTravel); len(f) != 0 {
				t.Errorf("still %+v", f)
			}
			for _, c := range profileOf(t, mended).Corners {
				if math.Abs(c.TravelLeast*deg-low) > 0.051 || math.Abs(c.TravelMost*deg-num(8)) > 0.051 || c.LegMost*1e3 > num(5)+0.051 {
					t.Errorf("comes out as %+v, said was %q", c, found[0].Remedy)
				}
			}
			if !strings.Contains(found[0].Remedy, "of wire while it turns a leg up to 7.5 mm") {
				t.Errorf("%q: no feed is said", found[0].Remedy)
			}
		})
	}
}

// A job in inches reads of its corners in inches, and in what it can write.
func TestCornersInInches(t *testing.T) {
	m := bentSeam{geometry: boxAround(t, 0, 0.4), change: heldSpin}.making(t)
	m.words = words{unit.InchPound}
	p, err := m.make(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	f := codes(p, finding.CornerLeg)
	if len(f) != 1 || f[0].Unit != "in" || !strings.HasPrefix(f[0].Message, "W1 at ") {
		t.Fatalf("found %+v", f)
	}
	for _, text := range []string{"the leg comes to 0.36", "0.236 in is wanted and 0.295 in the most"} {
		if !strings.Contains(f[0].Message, text) {
			t.Errorf("%q does not say %q", f[0].Message, text)
		}
	}
	for _, text := range []string{"{turn: {before: 25 deg over 0.5 in, after: 20 deg over 0.5 in}}", "in/min of wire"} {
		if !strings.Contains(f[0].Remedy, text) {
			t.Errorf("%q does not say %q", f[0].Remedy, text)
		}
	}
}

// A bend that is too tight for the torch: it is slowed there, the leg grows, and
// speed and feed that keep it are said and true.
func TestTightBend(t *testing.T) {
	tight := boxAround(t, 0.003, 0.2)
	p := bentSeam{geometry: tight, change: heldSpin}.plan(t)
	size := p.Seams[0].Passes[0].Size
	c := profileOf(t, p).Corners[0]
	hold := turnMost * 0.003
	if math.Abs(c.SpeedLeast-hold) > 0.02*hold || math.Abs(c.TurnMost-turnMost) > 0.02*turnMost {
		t.Errorf("%v m/s at %v deg/s, want %v at 60", c.SpeedLeast, c.TurnMost*deg, hold)
	}
	if want := size.LegBase * math.Sqrt(size.Travel/c.SpeedLeast); math.Abs(c.LegMost-want) > 1e-6 {
		t.Errorf("leg %v, want %v", c.LegMost, want)
	}
	slow := 0
	for _, s := range p.Steps {
		if s.Move == MoveArc && math.Abs(s.Speed-hold) < 1e-9 {
			slow++
		} else if s.Move == MoveArc || s.Arc == "off" && s.Speed != size.Travel {
			t.Errorf("%s is commanded at %v m/s", s.Label, s.Speed)
		}
	}
	if slow != 2 {
		t.Errorf("%d moves of the bend are commanded at the speed that is held, want via point and end", slow)
	}
	f := codes(p, finding.CornerTurn)
	if len(f) != 1 || math.Abs(f[0].Measured-size.Travel/0.003*deg) > 0.5 || math.Abs(f[0].Limit-60) > 1e-6 {
		t.Errorf("found %+v", f)
	}
	f = codes(p, finding.CornerLeg)
	if len(f) != 1 || f[0].Remedy != "weld the seam at 3.1 mm/s with 4.9 m/min of wire: a leg up to 6.0 mm" {
		t.Errorf("found %+v", f)
	}
}

// Where a straight piece runs into a round one a joint may be too slow to gather
// the torch's turn at once: the arm slows for a moment, which is no stop. A joint
// that is too slow all round the bend is one.
func TestSlowWhereTheTurnBegins(t *testing.T) {
	for name, row := range map[string]struct {
		accel float64 // deg/s2
		turn  float64 // deg/s, of every joint at most; 0: as the arm has it
		want  finding.Severity
	}{"at the joint": {40, 0, finding.Caution}, "all round": {600, 10, finding.Stop}} {
		t.Run(name, func(t *testing.T) {
			m := bentSeam{geometry: boxAround(t, 0.015, 0.2), change: heldSpin}.making(t)
			for i := range m.limits {
				m.limits[i].Accel = row.accel / deg
				if row.turn > 0 {
					m.limits[i].Speed = row.turn / deg
				}
			}
			p, err := m.make(context.Background(), nil)
			if err != nil {
				t.Fatal(err)
			}
			f := codes(p, finding.JointSpeedWeld)
			if len(f) == 0 {
				t.Fatal("nothing is found")
			}
			for _, f := range f {
				if f.Severity != row.want || !(f.Measured > f.Limit) {
					t.Errorf("found %+v", f)
				}
			}
			if c := profileOf(t, p).Corners[0]; c.SpeedLeast > 0.99*p.Seams[0].Passes[0].Size.Travel || c.LegMost < 6.02e-3 {
				t.Errorf("the profile does not show it: %+v", c)
			}
		})
	}
}

// A seam round a branch: the angle between the plates changes, and with it the
// leg of the same metal. From the side of the run, where they stand at 120 deg, to
// the crown, where they stand at 90: the leg goes with sqrt(sin 120 / sin 90).
func TestLegGoesWithThePlates(t *testing.T) {
	path, err := curve.NewSaddle(curve.SaddleRequest{
		Run:    curve.Tube{Point: r3.Vec{X: 0.5, Y: -0.05}, Axis: r3.Vec{X: 1}, Radius: 0.06},
		Branch: curve.Tube{Point: r3.Vec{X: 0.5, Y: -0.05}, Axis: r3.Vec{Z: 1}, Radius: 0.03}, Start: -90 / deg, Sweep: 90 / deg,
	})
	at := r3.Vec{X: 0.5, Y: -0.05}
	g := mustSeam(t, path, err, seam.Cylinder{Point: at, Axis: r3.Vec{X: 1}, Outward: true}, seam.Cylinder{Point: at, Axis: r3.Vec{Z: 1}, Outward: true})
	p := bentSeam{geometry: g}.plan(t)
	profile := profileOf(t, p)
	want := profile.Leg * math.Sqrt(math.Sin(120/deg))
	end := profile.Samples[len(profile.Samples)-2] // before the stop
	if c := profile.Corners[0]; math.Abs(c.LegLeast-want) > 0.02e-3 || math.Abs(end.Leg-want) > 0.05e-3 {
		t.Errorf("least leg %v at %v, at the end %v, want %v", c.LegLeast, c.LegLeastAt, end.Leg, want)
	}
	f := codes(p, finding.CornerLeg)
	if len(f) != 1 || !strings.Contains(f[0].Remedy, "nowhere under 6.0 mm") {
		t.Errorf("found %+v", f)
	}
}

// Seams that are hardly there, corners that hardly turn, turns that are all on
// the seam: each has a plan and a profile, or says why not.
func TestSmallestCorners(t *testing.T) {
	start := r3.Vec{X: 0.5, Y: -0.07, Z: 0.03}
	bent := func(a, b, turn float64) *seam.Seam {
		sin, cos := math.Sincos(turn)
		path, err := curve.Polyline(start, start.Add(r3.Vec{X: a}), start.Add(r3.Vec{X: a + b*cos, Y: b * sin}))
		up := seam.Plane{N: r3.Vec{Z: 1}}
		return mustSeam(t, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
	}
	line, err := curve.NewLine(start, start.Add(r3.Vec{X: 2e-6}))
	up := seam.Plane{N: r3.Vec{Z: 1}}
	for name, b := range map[string]bentSeam{
		"shortest line":            {geometry: mustSeam(t, line, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})},
		"short sides":              {geometry: bent(1e-3, 1e-3, 90/deg)},
		"one short side":           {geometry: bent(0.1, 1e-3, 90/deg)},
		"hardly a corner":          {geometry: bent(0.05, 0.05, 0.2/deg)},
		"no corner":                {geometry: bent(0.05, 0.05, 0.05/deg)},
		"all on the seam":          {geometry: bent(0.05, 0.05, 90/deg), shares: []seam.Share{{Before: 30 / deg, After: 60 / deg}}},
		"as good as on the seam":   {geometry: bent(0.05, 0.05, 90/deg), shares: []seam.Share{{Before: 30 / deg, After: 60/deg - 1e-10}}},
		"hardly in place":          {geometry: bent(0.05, 0.05, 90/deg), shares: []seam.Share{{Before: 30 / deg, After: 60/deg - 1e-6}}},
		"turned up to the start":   {geometry: bent(0.01, 0.05, 60/deg), shares: []seam.Share{{Before: 10 / deg, Ahead: 0.01}}},
		"turned on to the end":     {geometry: bent(0.05, 0.01, 60/deg), shares: []seam.Share{{After: 10 / deg, Behind: 0.01}}},
		"no turn before, but said": {geometry: bent(0.05, 0.05, 60/deg), shares: []seam.Share{{Ahead: 0.01, Behind: 0.01}}},
	} {
		t.Run(name, func(t *testing.T) {
			b.change = func(j *job.Job, s *job.Seam) { heldSpin(j, s); s.Aim.Spin = job.SpinFree }
			p := b.plan(t)
			profile := profileOf(t, p)
			if last := profile.Samples[len(profile.Samples)-1].Arc; math.Abs(last-p.Seams[0].Length) > 1e-9 {
				t.Errorf("the profile ends at %v of %v m", last, p.Seams[0].Length)
			}
			for i, s := range profile.Samples {
				if math.IsNaN(s.Leg) || !(s.Area > 0) || s.Speed < 0 || i > 0 && s.Arc < profile.Samples[i-1].Arc-1e-12 {
					t.Errorf("sample %d: %+v", i, s)
				}
			}
			for i := 1; i < len(p.Trace); i++ {
				if !(p.Trace[i].T > p.Trace[i-1].T) {
					t.Errorf("%v s after %v s", p.Trace[i].T, p.Trace[i-1].T)
				}
			}
			last := p.Steps[len(p.Steps)-3]
			if last.Arc != "off" || last.Label != "W1 weld end" {
				t.Errorf("the weld ends with %+v", last)
			}
		})
	}
}

// A corner of a seam with no length to speak of: its heap of metal is no fillet,
// and that is said.
func TestNoLegCanBeTold(t *testing.T) {
	start := r3.Vec{X: 0.5, Y: -0.07, Z: 0.03}
	path, err := curve.Polyline(start, start.Add(r3.Vec{X: 2e-6}), start.Add(r3.Vec{X: 2e-6, Y: 2e-6}))
	up := seam.Plane{N: r3.Vec{Z: 1}}
	p := bentSeam{geometry: mustSeam(t, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})}.plan(t)
	if c := profileOf(t, p).Corners[0]; !math.IsNaN(c.LegMost) {
		t.Errorf("%+v, want no leg", c)
	}
	if f := codes(p, finding.CornerLeg); len(f) != 1 || f[0].Severity != finding.Stop || !strings.Contains(f[0].Message, "cannot be told") {
		t.Errorf("found %+v", f)
	}
}

// A bead that is given by its area has no leg to be held against, but its metal.
func TestProfileOfAnArea(t *testing.T) {
	p := bentSeam{geometry: boxAround(t, 0, 0.2), change: func(j *job.Job, s *job.Seam) {
		heldSpin(j, s)
		s.Weld = job.Weld{Kind: job.SizeArea, Area: 20e-6}
	}}.plan(t)
	profile := profileOf(t, p)
	if profile.Leg != 0 || profile.Corners[0].LegMost != 0 || len(codes(p, finding.CornerLeg)) != 0 {
		t.Errorf("%+v", profile)
	}
	for _, s := range profile.Samples {
		if s.Leg != 0 || s.Area < 20e-6*(1-1e-9) {
			t.Errorf("sample %+v", s)
		}
	}
}
