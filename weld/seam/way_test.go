package seam_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// sharpBox is the box of scenario S3 made of plate: 200 x 150 with sharp corners,
// welded all round outside from the middle of a long side, 15 mm tied in.
func sharpBox(t testing.TB) *seam.Seam {
	t.Helper()
	path, err := curve.Polyline(r3.Vec{X: 0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: -0.075}, r3.Vec{X: 0.1, Y: -0.075}, r3.Vec{X: 0.1, Y: 0.075})
	if err != nil {
		t.Fatal(err)
	}
	from, err := curve.StartingAt(path, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := curve.WithOverlap(from, 0.015)
	if err != nil {
		t.Fatal(err)
	}
	up, err := seam.Stands(seam.Plane{N: zDir}, seam.Left, math.Pi/2)
	if err != nil {
		t.Fatal(err)
	}
	return mustSeam(t, seam.Spec{Path: whole, Joint: weld.Tee, Base: seam.Plane{N: zDir}, Other: up.Face})
}

func mustWay(t testing.TB, s *seam.Seam, shares ...seam.Share) seam.Way {
	t.Helper()
	w, err := seam.NewWay(s, shares...)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestCornersOfTheSharpBox(t *testing.T) {
	corners := sharpBox(t).Corners()
	if len(corners) != 4 {
		t.Fatalf("corners %+v, want four", corners)
	}
	for i, at := range []float64{0.1, 0.25, 0.45, 0.6} {
		c := corners[i]
		if !c.Sharp() || math.Abs(c.From-at) > 1e-12 || math.Abs(c.Turn-90*degree) > 1e-12 || c.Kind != seam.OutsideBend {
			t.Errorf("corner %d: %+v, want a sharp outside one at %v", i+1, c, at)
		}
	}
}

// The same square walked with the other plate outside it: inside corners, sharp
// and rounded; a butt joint has neither.
func TestCornerKinds(t *testing.T) {
	for _, radius := range []float64{0, 0.02} {
		path, err := curve.Rounded(radius, r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1})
		if err != nil {
			t.Fatal(err)
		}
		for _, tt := range []struct {
			side seam.Side
			want seam.CornerKind
			word string
		}{{seam.Left, seam.OutsideBend, "outside corner"}, {seam.Right, seam.InsideBend, "inside corner"}} {
			up, _ := seam.Stands(seam.Plane{N: zDir}, tt.side, math.Pi/2)
			s := mustSeam(t, seam.Spec{Path: path, Joint: weld.Tee, Base: seam.Plane{N: zDir}, Other: up.Face})
			c := s.Corners()
			if len(c) != 1 || c[0].Kind != tt.want || c[0].Kind.String() != tt.word || c[0].Radius != radius {
				t.Errorf("radius %v, upright %v: %+v, want one %v", radius, tt.side, c, tt.want)
			}
		}
		butt := mustSeam(t, seam.Spec{Path: path, Joint: weld.Butt, Base: seam.Plane{N: zDir}})
		if c := butt.Corners(); len(c) != 1 || c[0].Kind != 0 {
			t.Errorf("butt: %+v, want one of no kind", c)
		}
	}
}

// genAngled draws a seam along straight lines that turn by 20 to 120 deg either
// way in and out of the base plane's direction, 60 mm or more each.
func genAngled() *rapid.Generator[*seam.Seam] {
	return rapid.Custom(func(t *rapid.T) *seam.Seam {
		n := rapid.IntRange(1, 4).Draw(t, "corners")
		at, heading := r3.Vec{}, 0.0
		pts := []r3.Vec{at}
		for range n + 1 {
			at = at.AddScaled(rapid.Float64Range(0.06, 0.2).Draw(t, "side"), r3.Vec{X: math.Cos(heading), Y: math.Sin(heading)})
			pts = append(pts, at)
			turn := rapid.Float64Range(20, 120).Draw(t, "turn") * degree
			if rapid.Bool().Draw(t, "right") {
				turn = -turn
			}
			heading += turn
		}
		path, err := curve.Polyline(pts...)
		if err != nil {
			t.Fatal(err)
		}
		lean := se3.RotX(rapid.Float64Range(-20, 20).Draw(t, "lean") * degree)
		base := rapid.SampledFrom([]seam.Face{seam.Plane{N: zDir}, seam.Towards{Dir: lean.Apply(zDir)}}).Draw(t, "base")
		joint := rapid.SampledFrom([]weld.JointType{weld.Tee, weld.Butt}).Draw(t, "joint")
		spec := seam.Spec{Path: path, Joint: joint, Base: base}
		if joint == weld.Tee {
			up, err := seam.Stands(base, rapid.SampledFrom([]seam.Side{seam.Left, seam.Right}).Draw(t, "side"), rapid.Float64Range(60, 120).Draw(t, "included")*degree)
			if err != nil {
				t.Fatal(err)
			}
			spec.Other = up.Face
		}
		s, err := seam.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		return s.Moved(genPose().Draw(t, "bFromA"))
	})
}

func genShare() *rapid.Generator[seam.Share] {
	return rapid.Custom(func(t *rapid.T) seam.Share {
		return seam.Share{
			Before: rapid.Float64Range(0, 10).Draw(t, "before") * degree, After: rapid.Float64Range(0, 10).Draw(t, "after") * degree,
			Ahead: rapid.SampledFrom([]float64{0, 0.005, 0.03}).Draw(t, "ahead"), Behind: rapid.SampledFrom([]float64{0, 0.008, 0.03}).Draw(t, "behind"),
		}
	})
}

// The torch turns and moves in small steps everywhere, the arc length never goes
// back, and all of the seam is gone over. 0.1 mm of way turns the torch by at
// most 0.1/20 rad in place, by 10 deg on 5 mm beside a corner.
func TestWayIsContinuousAndMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genAngled().Draw(t, "seam")
		share := genShare().Draw(t, "share")
		w, err := seam.NewWay(s, share)
		if err != nil {
			t.Fatal(err)
		}
		aim := seam.Aim{Work: 0.6, Travel: 0.2, Spin: 0.4}
		n := int(w.Length()/1e-4) + 1
		step := w.Length() / float64(n)
		most := step * max(1/seam.LengthPerTurn, 10*degree/0.005) * 1.01
		var last seam.Place
		for i := range n + 1 {
			p := w.At(step * float64(i))
			if i > 0 {
				if p.Arc < last.Arc-1e-12 || p.Arc > last.Arc+step+1e-12 {
					t.Fatalf("from %v to %v m of seam in a step of %v", last.Arc, p.Arc, step)
				}
				a, b := last.Frame.Encode(aim), p.Frame.Encode(aim)
				if turn := a.R.AngleTo(b.R); turn > most {
					t.Fatalf("the torch turns by %v deg at %v m, %v is allowed", turn/degree, step*float64(i), most/degree)
				}
				if a.P.Dist(b.P) > step*1.01 {
					t.Fatalf("the tip jumps by %v m at %v m", a.P.Dist(b.P), step*float64(i))
				}
			}
			last = p
		}
		if math.Abs(last.Arc-s.Length()) > 1e-9 {
			t.Fatalf("the way ends at %v of %v m", last.Arc, s.Length())
		}
	})
}

// In place and beside the corners the torch's error is the share's and no more,
// and away from them none.
func TestWayKeepsTheAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, err := seam.NewWay(genAngled().Draw(t, "seam"), genShare().Draw(t, "share"))
		if err != nil {
			t.Fatal(err)
		}
		p := w.At(rapid.Float64Range(0, 1).Draw(t, "fraction") * w.Length())
		aim := seam.Aim{Work: 0.5, Travel: 0.1, Spin: -1, Offset: 0.002, Distance: 0.003}
		if got := p.Frame.Decode(p.Frame.Encode(aim)).Aim; math.Abs(got.Work-aim.Work) > 1e-9 || math.Abs(got.Spin-aim.Spin) > 1e-9 || math.Abs(got.Offset-aim.Offset) > 1e-9 {
			t.Fatalf("decoded %+v, want %+v", got, aim)
		}
		off := p.Frame.Encode(aim).R.AngleTo(p.Joint.Encode(aim).R)
		limit := 1e-9
		if p.Corner >= 0 {
			turn := w.Turn(p.Corner)
			limit += max(turn.Before, turn.After)
		}
		if off > limit {
			t.Fatalf("the torch is %v deg off at %+v, %v allowed", off/degree, p, limit/degree)
		}
	})
}

// Without sharp corners a way is the seam.
func TestWayWithoutCornersIsTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genSeam().Draw(t, "seam")
		w, err := seam.NewWay(s, seam.Share{Before: 10 * degree})
		if err != nil {
			t.Fatal(err)
		}
		u := rapid.Float64Range(-0.1, 1.1).Draw(t, "fraction") * s.Length()
		p := w.At(u)
		if w.Length() != s.Length() || w.Turns() != 0 || p.Arc != u || p.Frame != s.At(u) || p.Joint != p.Frame || p.Turning || p.Corner != -1 || w.Of(u) != u {
			t.Fatalf("at %v: %+v", u, p)
		}
	})
}

// A way moved with its part is the way along the moved seam.
func TestWayMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, err := seam.NewWay(genAngled().Draw(t, "seam"), genShare().Draw(t, "share"))
		if err != nil {
			t.Fatal(err)
		}
		bFromA := genPose().Draw(t, "bFromA")
		moved := w.Moved(bFromA)
		u := rapid.Float64Range(-0.1, 1.1).Draw(t, "fraction") * w.Length()
		aim := seam.Aim{Work: 0.5, Travel: 0.1, Spin: -1, Offset: 0.002}
		p, q := w.At(u), moved.At(u)
		for _, pair := range [][2]se3.Pose{
			{bFromA.Mul(p.Frame.Encode(aim)), q.Frame.Encode(aim)}, {bFromA.Mul(p.Joint.Encode(aim)), q.Joint.Encode(aim)},
		} {
			if pair[0].P.Dist(pair[1].P) > 1e-9 || pair[0].R.AngleTo(pair[1].R) > 1e-7 {
				t.Fatalf("at %v: %v, want %v", u, pair[1], pair[0])
			}
		}
		if q.Arc != p.Arc || q.Corner != p.Corner || moved.Length() != w.Length() || w.Arc(u) != p.Arc {
			t.Fatalf("at %v: %+v, want %+v", u, q, p)
		}
	})
}

func TestWayOf(t *testing.T) {
	w := mustWay(t, sharpBox(t), seam.Share{Before: 15 * degree, After: 15 * degree})
	for _, arc := range []float64{0, 0.05, 0.1, 0.1001, 0.3, 0.45, 0.7, 0.715} {
		u := w.Of(arc)
		if got := w.At(u).Arc; math.Abs(got-arc) > 1e-12 {
			t.Errorf("at %v of the way %v, want %v", u, got, arc)
		}
		if before := w.At(u - 1e-6).Arc; !(before < arc) {
			t.Errorf("%v is reached before %v", arc, u)
		}
	}
	if got, want := w.Length(), 0.715+4*60*degree*seam.LengthPerTurn; math.Abs(got-want) > 1e-12 {
		t.Errorf("length %v, want %v", got, want)
	}
}

// All of the turn before a corner, or behind it: no turn in place, no jump.
func TestAllOfTheTurnOnTheSeam(t *testing.T) {
	for _, share := range []seam.Share{{Before: 90 * degree, Ahead: 0.03}, {After: 90 * degree, Behind: 0.03}, {Before: 45 * degree, After: 45 * degree}} {
		w := mustWay(t, sharpBox(t), share)
		if w.Length() != 0.715 && math.Abs(w.Length()-0.715) > 1e-12 {
			t.Errorf("%+v: length %v, want the seam's", share, w.Length())
		}
		const h = 1e-9
		a, b := w.At(0.1-h).Frame.Encode(seam.Aim{Work: 0.7}), w.At(0.1+h).Frame.Encode(seam.Aim{Work: 0.7})
		if a.R.AngleTo(b.R) > 1e-6 {
			t.Errorf("%+v: the torch jumps by %v deg", share, a.R.AngleTo(b.R)/degree)
		}
		if got := w.Turn(0).Dwell(1); got > 1e-12 {
			t.Errorf("%+v: stands %v s", share, got)
		}
	}
}

func TestWayRefuses(t *testing.T) {
	box := sharpBox(t)
	back, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.0, Y: 0.001})
	if err != nil {
		t.Fatal(err)
	}
	hairpin := mustSeam(t, seam.Spec{Path: back, Joint: weld.Butt, Base: seam.Plane{N: zDir}})
	tests := []struct {
		name   string
		s      *seam.Seam
		shares []seam.Share
		word   string
	}{
		{"two shares for four corners", box, make([]seam.Share, 2), "2 shares for a path of 4"},
		{"more than the turn", box, []seam.Share{{Before: 60 * degree, After: 40 * degree}}, "corner 1 the torch turns by 90.0 deg"},
		{"negative", box, []seam.Share{{Before: -0.1}}, "0 or more"},
		{"no number", box, []seam.Share{{Ahead: math.NaN()}}, "0 or more"},
		{"past the start", box, []seam.Share{{Before: 0.1, Ahead: 0.11}}, "only 100.0 mm are free"},
		{"past the end", box, []seam.Share{{After: 0.1, Behind: 0.12}}, "only 115.0 mm are left"},
		{"into the next corner's", box, []seam.Share{{Before: 0.1, After: 0.1, Ahead: 0.08, Behind: 0.08}}, "corner 2 at 250.0 mm"},
		{"hairpin", hairpin, nil, "runs back over itself"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := seam.NewWay(tt.s, tt.shares...); err == nil || !strings.Contains(err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", err, tt.word)
			}
		})
	}
}

func TestWayAllocatesNothing(t *testing.T) {
	w := mustWay(t, sharpBox(t), seam.Share{Before: 15 * degree, After: 15 * degree})
	var sink float64
	for _, u := range []float64{0.05, 0.095, w.Turn(0).Start + 0.01, w.Turn(1).End + 0.005} {
		if n := testing.AllocsPerRun(100, func() {
			p := w.At(u)
			sink += p.True(seam.Aim{Work: 0.7}).Work
		}); n != 0 {
			t.Errorf("%v allocations at %v, want 0", n, u)
		}
	}
}

func BenchmarkWayAt(b *testing.B) {
	w := mustWay(b, sharpBox(b), seam.Share{Before: 15 * degree, After: 15 * degree})
	for b.Loop() {
		w.At(0.26)
	}
}
