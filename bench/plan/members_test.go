package plan_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/weld/seam"
)

// memberJob is the job of the worked case of the box with typed members in
// place of its seams.
func memberJob(t testing.TB, members, seams string) files {
	t.Helper()
	f := worked(t, "s3")
	text := f["job.yaml"]
	f["job.yaml"] = text[:strings.Index(text, "home: home")] + members + "home: home\nsettings: {file: settings.yaml}\n" +
		"defaults: {torch: {travel: push 10 deg, spin: free}, settings: 12, approach: {out: 20 mm}, retreat: {out: 20 mm}}\nseams:\n" + seams
	return f
}

const solePost = `members:
  measured_in: base
  plates:
    - {name: sole, corner: [350 mm, -130 mm, 30 mm], along: [1, 0, 0], across: [0, 1, 0], length: 300 mm, width: 250 mm, thickness: 12 mm}
    - {name: rib, corner: [400 mm, 20 mm, 30 mm], along: [1, 0, 0], across: [0, 0, 1], length: 200 mm, width: 80 mm, thickness: 8 mm}
  tubes:
    - {name: post, at: [500 mm, -40 mm, 30 mm], axis: [0, 0, 1], diameter: 76.1 mm, wall: 5 mm}
    - {name: header, at: [500 mm, 0 mm, 50 mm], axis: [1, 0, 0], diameter: 114.3 mm, wall: 6 mm}
    - {name: stub, at: [500 mm, 0 mm, 50 mm], axis: [0, 0, 1], diameter: 60.3 mm, wall: 4 mm}
`

// A rib on a sole, typed: the seam lies where the drawing's sizes put it, its
// plates and thicknesses follow, and it runs with the rib on the side told.
func TestPlatesThatMeet(t *testing.T) {
	f := memberJob(t, solePost, `  - name: W1
    joint: tee
    meeting: {base: {plate: sole, face: front}, upright: {plate: rib, face: front}, stands: left, from: 10 mm, to: 190 mm}
    weld: {leg: 5 mm}
`)
	s := planOf(t, f).Seams[0]
	near(t, "length", s.Length/mm, 180, 1e-9)
	start, along := s.Geometry.Path().At(0)
	// The rib's front looks along -y: the seam is welded from that side, the rib
	// on the left of the travel along x.
	near(t, "start off", start.Dist(r3.Vec{X: 0.41, Y: 0.02, Z: 0.03})/mm, 0, 1e-9)
	near(t, "travel", along.Dot(r3.Vec{X: 1}), 1, 1e-12)
	near(t, "opening", s.Geometry.At(0).B.Dot(r3.Vec{Y: -1}), 1, 1e-12)
	near(t, "work", s.Geometry.At(0).WorkOf(s.Passes[0].Aim)/degree, 45, 1e-9)
}

// A tube square on a plate makes a circle of its outside, one that leans an
// ellipse; a branch on a run the saddle of the two cylinders: every place of it
// is as far from either axis as the radius says.
func TestTubesThatMeet(t *testing.T) {
	f := memberJob(t, solePost, `  - name: W1
    joint: tee
    tube_on_plate: {plate: {plate: sole, face: front}, tube: post, zero: [1, 0, 0], start: 90 deg}
    overlap: 12 mm
    weld: {leg: 5 mm}
  - name: W2
    joint: tee
    saddle: {run: header, branch: stub, start: 45 deg, sweep: 180 deg}
    weld: {leg: 5 mm}
`)
	p := planOf(t, f)
	ring, saddle := p.Seams[0], p.Seams[1]
	near(t, "round the post", ring.Length/mm, 76.1*math.Pi+12, 1e-6)
	start, _ := ring.Geometry.Path().At(0)
	near(t, "start off", start.Dist(r3.Vec{X: 0.5, Y: -0.04 + 0.0761/2, Z: 0.03})/mm, 0, 1e-6)
	for k := range 41 {
		at, _ := saddle.Geometry.Path().At(saddle.Length * float64(k) / 40)
		near(t, "off the header", math.Hypot(at.Y, at.Z-0.05)/mm, 114.3/2, 1e-6)
		near(t, "off the stub", math.Hypot(at.X-0.5, at.Y)/mm, 60.3/2, 1e-6)
		if at.Z < 0.05 {
			t.Errorf("%v lies under the header", at)
		}
	}
}

// Round a branch the plates open from 90 deg at the crown to 90 deg and the angle
// whose sine is the ratio of the radii at the side; a torch that bisects them
// follows, in every commanded move and at every station.
func TestTorchFollowsTheOpeningJoint(t *testing.T) {
	s := planOf(t, quarterSaddle(t)).Seams[0]
	near(t, "widest", s.OpensMost/degree, 90+math.Asin(60.3/114.3)/degree, 1e-3)
	m := s.Passes[0].Motion
	for _, at := range []int{m.First, (m.First + m.Last) / 2, m.Last} {
		joint := s.Way.At(m.Stations[at].Along).Joint
		work := joint.Decode(m.Stations[at].BaseFromTip).Work
		near(t, "work", work/degree, 90-joint.Included/2/degree, 1e-6)
	}
}

// A seam stands for its parts, their copies and the mirror images of all these,
// in this order, each lying where it should.
func TestCopiesOfSeams(t *testing.T) {
	f := memberJob(t, solePost, `  - name: W1
    joint: tee
    meeting: {base: {plate: sole, face: front}, upright: {plate: rib, face: front}, stands: left}
    weld: {leg: 5 mm}
    split: {at: 120 mm, tie_in: 12 mm}
    repeat: {count: 2, step: [0 mm, -60 mm, 0 mm]}
    mirror: {name: W1 left, at: [500 mm, 20 mm, 0 mm], normal: [0, 1, 0]}
    torch: {spin: 30 deg}
`)
	p := planOf(t, f)
	var names []string
	for _, s := range p.Seams {
		names = append(names, s.Name)
	}
	want := []string{"W1 part 1", "W1 part 2", "W1 2 part 1", "W1 2 part 2",
		"W1 left part 1", "W1 left part 2", "W1 left 2 part 1", "W1 left 2 part 2"}
	if !slices.Equal(names, want) {
		t.Fatalf("got %q, want %q", names, want)
	}
	for i, row := range []struct {
		start        r3.Vec // mm
		length, open float64
		spin         float64 // deg
	}{
		{r3.Vec{X: 400, Y: 20, Z: 30}, 120, -1, 30}, {r3.Vec{X: 508, Y: 20, Z: 30}, 92, -1, 30},
		{r3.Vec{X: 400, Y: -40, Z: 30}, 120, -1, 30}, {r3.Vec{X: 508, Y: -40, Z: 30}, 92, -1, 30},
		{r3.Vec{X: 400, Y: 20, Z: 30}, 120, 1, -30}, {r3.Vec{X: 508, Y: 20, Z: 30}, 92, 1, -30},
		{r3.Vec{X: 400, Y: 80, Z: 30}, 120, 1, -30}, {r3.Vec{X: 508, Y: 80, Z: 30}, 92, 1, -30},
	} {
		s := p.Seams[i]
		at, _ := s.Geometry.Path().At(0)
		near(t, s.Name+" start off", at.Dist(row.start.Scale(mm))/mm, 0, 1e-6)
		near(t, s.Name+" length", s.Length/mm, row.length, 1e-6)
		near(t, s.Name+" opens", s.Geometry.At(0).B.Y, row.open, 1e-9)
		near(t, s.Name+" spin", s.Passes[0].Aim.Spin/degree, row.spin, 1e-9)
	}
}

// What does not fit together is said with the seam and the reason.
func TestMembersThatDoNotMeet(t *testing.T) {
	for name, row := range map[string]struct{ old, new, want string }{
		"a rib in the air":        {"corner: [400 mm, 20 mm, 30 mm]", "corner: [400 mm, 20 mm, 90 mm]", "stands 60.0 mm off the line"},
		"a post over the edge":    {"at: [500 mm, -40 mm, 30 mm]", "at: [370 mm, -40 mm, 30 mm]", "over the edge of the plate"},
		"edges out of square":     {"across: [0, 0, 1], length: 200 mm", "across: [0.2, 0, 1], length: 200 mm", "out of square"},
		"a split behind the end":  {"split: {at: 120 mm}", "split: {at: 320 mm}", "places lie on the seam"},
		"a tube that points down": {"at: [500 mm, -40 mm, 30 mm], axis: [0, 0, 1]", "at: [500 mm, -40 mm, 30 mm], axis: [0, 0, -1]", "it leans by 180 deg"},
		"run and branch swapped":  {"run: header, branch: stub", "run: stub, branch: header", "change the two over"},
		"a branch beside the run": {"at: [500 mm, 0 mm, 50 mm], axis: [0, 0, 1]", "at: [500 mm, 200 mm, 50 mm], axis: [0, 0, 1]", "branch on run"},
	} {
		f := memberJob(t, solePost, `  - name: W1
    joint: tee
    meeting: {base: {plate: sole, face: front}, upright: {plate: rib, face: front}, stands: left}
    weld: {leg: 5 mm}
    split: {at: 120 mm}
  - name: W2
    joint: tee
    tube_on_plate: {plate: {plate: sole, face: front}, tube: post}
    overlap: 0 mm
    weld: {leg: 5 mm}
  - name: W3
    joint: tee
    saddle: {run: header, branch: stub, sweep: 90 deg}
    weld: {leg: 5 mm}
`)
		f.edit(t, row.old, row.new)
		if _, err := plan.Make(context.Background(), decode(t, f), nil); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: got %v, want %q in it", name, err, row.want)
		}
	}
}

// boxCorners are the four corners of the worked case of the box, 200 x 150 mm
// about (500, 20, 30) mm at a yaw of 14 deg, as rows of the document.
func boxCorners() string {
	var b strings.Builder
	sin, cos := math.Sincos(14 * degree)
	for i, c := range [][2]float64{{-100, -75}, {100, -75}, {100, 75}, {-100, 75}} {
		fmt.Fprintf(&b, "    - {label: C%d, place: [%.9f, %.9f, 30]}\n", i+1, 500+cos*c[0]-sin*c[1], 20+sin*c[0]+cos*c[1])
	}
	return b.String()
}

// TestReferenceBoxThroughDocument is the worked case of the box welded all round
// in one go: corner radius 15 mm, begun amid a long side, 15 mm of overlap. Only a
// spin of -45 deg runs all 689 mm, joint 6 from +96 to -263 deg.
func TestReferenceBoxThroughDocument(t *testing.T) {
	f := memberJob(t, boxCorners(), `  - name: W1
    joint: tee
    polyline: [C1, C2, C3, C4]
    closed: true
    corners: {radius: 15 mm}
    start_at: {after: C1, by: 100 mm}
    overlap: 15 mm
    base: level
    upright: left
    thickness: {base: 12 mm, upright: 6 mm}
    weld: {leg: 6 mm}
    torch: {work: 45 deg, spin: -45 deg}
    approach: {out: 5 mm}
    retreat: {out: 5 mm}
`)
	p := planOf(t, f)
	s := p.Seams[0]
	near(t, "perimeter and overlap", s.Length/mm, 674.2+15, 0.05)
	if m := s.Passes[0].Motion; m == nil {
		t.Fatalf("no motion:\n%s", list(p.Findings))
	} else {
		near(t, "joint 6 at the start", m.Stations[m.First].Q[5]/degree, 96, 0.5)
		near(t, "joint 6 at the end", m.Stations[m.Last].Q[5]/degree, -263, 0.5)
	}
	// Targets of the straight sides, as the case states them at this spin.
	path := s.Geometry.Path()
	at := path.Nearest(r3.Vec{X: 0.55, Y: -0.0448, Z: 0.03})
	frame := s.Geometry.At(at)
	pose := frame.Encode(seam.Aim{Work: 45 * degree, Travel: 10 * degree, Spin: -45 * degree})
	want := r3.Vec{X: 0, Y: 0.7177, Z: -0.6964} // tool z on side 1
	near(t, "tool z", pose.R.Z().Dist(want), 0, 2e-4)
}

// A polyline with sharp corners turns the torch there, sides find their corners
// from touches along them, a spline runs through its points.
func TestBentPaths(t *testing.T) {
	rows := boxCorners() + `    - {label: L1, place: [420, -40, 30]}
    - {label: L2, place: [500, -41, 30]}
    - {label: L3, place: [520, -20, 30]}
    - {label: L4, place: [521, 60, 30]}
    - {label: M1, place: [400, -60, 30]}
    - {label: M2, place: [450, -40, 30]}
    - {label: M3, place: [500, -45, 30]}
    - {label: M4, place: [560, -30, 30]}
`
	f := memberJob(t, rows, `  - name: sharp
    joint: tee
    polyline: [C1, C2, C3]
    corners: {turn: {before: 20 deg over 15 mm, after: 10 deg}, arc: off}
    base: level
    upright: left
    weld: {leg: 5 mm}
  - name: sides
    joint: tee
    sides: [[L1, L2], [L3, L4]]
    base: level
    upright: left
    weld: {leg: 5 mm}
  - name: spline
    joint: tee
    spline: [M1, M2, M3, M4]
    base: level
    upright: left
    weld: {leg: 5 mm}
`)
	p := planOf(t, f)
	sharp, sides, spline := p.Seams[0], p.Seams[1], p.Seams[2]
	near(t, "two sides", sharp.Length/mm, 350, 1e-6)
	if n := sharp.Way.Turns(); n != 1 {
		t.Fatalf("%d turns, want 1", n)
	}
	turn := sharp.Way.Turn(0)
	near(t, "in place", turn.InPlace/degree, 60, 0.1)
	near(t, "before", turn.Before/degree, 20, 1e-9)
	near(t, "ahead", turn.Ahead/mm, 15, 1e-9)
	if !turn.ArcOff {
		t.Error("the arc stays on in the corner, want it off")
	}
	corner, _ := sides.Geometry.Path().At(sides.Geometry.Corners()[0].From)
	near(t, "corner of the sides, x", corner.X/mm, 519.747, 0.05)
	for _, want := range []r3.Vec{{X: 400, Y: -60, Z: 30}, {X: 450, Y: -40, Z: 30}, {X: 500, Y: -45, Z: 30}, {X: 560, Y: -30, Z: 30}} {
		path := spline.Geometry.Path()
		at, _ := path.At(path.Nearest(want.Scale(mm)))
		near(t, "off the spline", at.Dist(want.Scale(mm))/mm, 0, 1e-6)
	}
}
