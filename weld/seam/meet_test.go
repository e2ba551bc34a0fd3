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

// floor is a plate 300 x 200 x 10 whose front is the plane z = 0, around the
// origin.
func floor() seam.Plate {
	return seam.Plate{Corner: r3.Vec{X: -0.15, Y: -0.1}, Along: r3.Vec{X: 2}, Across: r3.Vec{Y: 3}, Length: 0.3, Width: 0.2, Thickness: 0.01}
}

// wall is a plate 150 x 80 x 6 standing on the floor, its front looking along -Y
// in the plane y = 0, leaning by lean (rad) about its foot.
func wall(lean float64) seam.Plate {
	return seam.Plate{Corner: r3.Vec{X: -0.05}, Along: xDir, Across: se3.RotX(lean).Apply(zDir), Length: 0.15, Width: 0.08, Thickness: 0.006}
}

func surface(t testing.TB, p seam.Plate, side seam.PlateSide) seam.Surface {
	t.Helper()
	s, err := p.Surface(side)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestPlateSides(t *testing.T) {
	tests := []struct {
		side   seam.PlateSide
		name   string
		normal r3.Vec
		centre r3.Vec
		round  float64 // m, sum of the edges
	}{
		{seam.PlateFront, "front", zDir, r3.Vec{}, 1.0},
		{seam.PlateRear, "rear", zDir.Neg(), r3.Vec{Z: -0.01}, 1.0},
		{seam.PlateStart, "start edge", xDir.Neg(), r3.Vec{X: -0.15, Z: -0.005}, 0.42},
		{seam.PlateEnd, "end edge", xDir, r3.Vec{X: 0.15, Z: -0.005}, 0.42},
		{seam.PlateNear, "near edge", yDir.Neg(), r3.Vec{Y: -0.1, Z: -0.005}, 0.62},
		{seam.PlateFar, "far edge", yDir, r3.Vec{Y: 0.1, Z: -0.005}, 0.62},
	}
	for _, tt := range tests {
		s := surface(t, floor(), tt.side)
		if tt.side.String() != tt.name || s.Normal().Dist(tt.normal) > 1e-15 || s.Known().Face != (seam.Plane{N: s.Normal()}) || !strings.Contains(s.Known().Decided, tt.name) {
			t.Errorf("%v: normal %v, told %q; want %s, %v", tt.side, s.Normal(), s.Known().Decided, tt.name, tt.normal)
		}
		var centre r3.Vec
		var sum float64
		last := s.Edges()[3].End()
		for _, e := range s.Edges() {
			if e.Start().Dist(last) > 1e-12 || math.Abs(e.Dir().Dot(tt.normal)) > 1e-12 {
				t.Errorf("%v: edge from %v does not go on in the face", tt.side, e.Start())
			}
			centre, sum, last = centre.AddScaled(0.25, e.Start()), sum+e.Length(), e.End()
		}
		if centre.Dist(tt.centre) > 1e-12 || math.Abs(sum-tt.round) > 1e-12 {
			t.Errorf("%v: centre %v, edges %v; want %v and %v", tt.side, centre, sum, tt.centre, tt.round)
		}
	}
}

func TestPlatesMeet(t *testing.T) {
	base := surface(t, floor(), seam.PlateFront)
	for _, tt := range []struct {
		name     string
		other    seam.Plate
		side     seam.PlateSide
		joint    weld.JointType
		stands   seam.Side
		from, to float64
		a, b     r3.Vec
		included float64
	}{
		{"front, on the left", wall(0), seam.PlateFront, weld.Tee, seam.Left, 0, 0, r3.Vec{X: -0.05}, r3.Vec{X: 0.1}, 90},
		{"front, on the right", wall(0), seam.PlateFront, weld.Tee, seam.Right, 0, 0, r3.Vec{X: 0.1}, r3.Vec{X: -0.05}, 90},
		{"trimmed", wall(0), seam.PlateFront, weld.Tee, seam.Left, 0.01, 0.04, r3.Vec{X: -0.04}, r3.Vec{X: -0.01}, 90},
		{"rear, on the left", wall(0), seam.PlateRear, weld.Tee, seam.Left, 0, 0, r3.Vec{X: 0.1, Y: 0.006}, r3.Vec{X: -0.05, Y: 0.006}, 90},
		{"leaning back by 20", wall(-20 * degree), seam.PlateFront, weld.Tee, seam.Left, 0, 0, r3.Vec{X: -0.05}, r3.Vec{X: 0.1}, 110},
		{"leaning over by 30", wall(30 * degree), seam.PlateFront, weld.Tee, seam.Left, 0, 0, r3.Vec{X: -0.05}, r3.Vec{X: 0.1}, 60},
		{"edge of a sheet laid on", seam.Plate{Corner: r3.Vec{X: -0.2, Z: 0.003}, Along: xDir, Across: yDir, Length: 0.25, Width: 0.2, Thickness: 0.003}, seam.PlateNear, weld.Lap, seam.Left, 0, 0, r3.Vec{X: -0.15}, r3.Vec{X: 0.05}, 90},
		{"gap of 2 mm", seam.Plate{Corner: r3.Vec{X: -0.05, Z: 0.002}, Along: xDir, Across: zDir, Length: 0.15, Width: 0.08, Thickness: 0.006}, seam.PlateFront, weld.Tee, seam.Left, 0, 0, r3.Vec{X: -0.05}, r3.Vec{X: 0.1}, 90},
	} {
		t.Run(tt.name, func(t *testing.T) {
			spec, err := seam.MeetPlates(seam.PlatesRequest{
				Joint: tt.joint, Base: base, Other: surface(t, tt.other, tt.side), Stands: tt.stands, From: tt.from, To: tt.to,
			})
			if err != nil {
				t.Fatal(err)
			}
			s := mustSeam(t, spec)
			a, b := s.At(0), s.At(s.Length())
			if a.Origin.Dist(tt.a) > 1e-12 || b.Origin.Dist(tt.b) > 1e-12 {
				t.Errorf("from %v to %v, want %v to %v", a.Origin, b.Origin, tt.a, tt.b)
			}
			if math.Abs(a.Included-tt.included*degree) > 1e-9 {
				t.Errorf("included %v, want %v", a.Included/degree, tt.included)
			}
			left := a.M.Cross(a.T)
			if open := left.Dot(a.B); (open < 0) != (tt.stands == seam.Left) {
				t.Errorf("opens %v to the left, other plate told on the %v", open, tt.stands)
			}
		})
	}
}

// An outside corner of two plates: the seam runs along the common edge.
func TestPlatesMeetInAnOutsideCorner(t *testing.T) {
	base := surface(t, floor(), seam.PlateFront)
	down := seam.Plate{Corner: r3.Vec{X: -0.15, Y: -0.1, Z: -0.1}, Along: xDir, Across: zDir, Length: 0.3, Width: 0.1, Thickness: 0.01}
	spec, err := seam.MeetPlates(seam.PlatesRequest{Joint: weld.OutsideCorner, Base: base, Other: surface(t, down, seam.PlateFront), Stands: seam.Left})
	if err != nil {
		t.Fatal(err)
	}
	f := mustSeam(t, spec).At(0)
	if want := (r3.Vec{Y: -1, Z: 1}).Unit(); f.Bisector.Dist(want) > 1e-12 || f.Origin.Dist(r3.Vec{X: -0.15, Y: -0.1}) > 1e-12 {
		t.Errorf("%+v, want the bisector %v", f, want)
	}
}

func TestTubeMeetsPlate(t *testing.T) {
	base := surface(t, floor(), seam.PlateFront)
	for _, lean := range []float64{0, 20, 45, 60} {
		for _, wall := range []seam.Wall{seam.Outside, seam.Inside} {
			axis := se3.RotY(lean * degree).Apply(zDir)
			spec, err := seam.MeetPlateTube(seam.PlateTubeRequest{
				Plate: base, Tube: curve.Tube{Point: axis.Scale(0.3), Axis: axis.Scale(7), Radius: 0.03}, Wall: wall,
				Zero: xDir, Sweep: -2 * math.Pi,
			})
			if err != nil {
				t.Fatal(err)
			}
			if _, circle := spec.Path.(curve.Arc); circle != (lean == 0) {
				t.Errorf("lean %v: a %T", lean, spec.Path)
			}
			s := mustSeam(t, spec)
			f := s.At(0) // at the side to which the tube leans: the acute one outside
			if want := (r3.Vec{X: 0.03 / math.Cos(lean*degree)}); f.Origin.Dist(want) > 1e-9 {
				t.Errorf("lean %v: starts at %v, want %v", lean, f.Origin, want)
			}
			want := 90 - lean
			if wall == seam.Inside {
				want = 90 + lean
			}
			if math.Abs(f.Included/degree-want) > 1e-6 || f.M.Dist(zDir) > 1e-9 {
				t.Errorf("lean %v %v: included %v, base %v; want %v, Z", lean, wall, f.Included/degree, f.M, want)
			}
			if f.T.Dist(yDir.Neg()) > 1e-9 {
				t.Errorf("lean %v: travel %v, want left-handed about the tube", lean, f.T)
			}
		}
	}
}

// genTyped draws seams met from typed plates and tubes, anywhere in space.
func genTyped() *rapid.Generator[*seam.Seam] {
	return rapid.Custom(func(t *rapid.T) *seam.Seam {
		var spec seam.Spec
		base, err := floor().Surface(seam.PlateFront)
		if err != nil {
			t.Fatal(err)
		}
		lean := rapid.Float64Range(-55, 55).Draw(t, "lean") * degree
		sweep := rapid.SampledFrom([]float64{2 * math.Pi, -2 * math.Pi, 2, -1}).Draw(t, "sweep")
		start := rapid.Float64Range(-4, 4).Draw(t, "start")
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			other, err2 := wall(lean).Surface(seam.PlateFront)
			if err2 != nil {
				t.Fatal(err2)
			}
			spec, err = seam.MeetPlates(seam.PlatesRequest{Joint: weld.Tee, Base: base, Other: other, Stands: rapid.SampledFrom([]seam.Side{seam.Left, seam.Right}).Draw(t, "side")})
		case 1:
			spec, err = seam.MeetPlateTube(seam.PlateTubeRequest{
				Plate: base, Tube: curve.Tube{Axis: se3.RotX(lean).Apply(zDir), Radius: 0.03},
				Wall: rapid.SampledFrom([]seam.Wall{seam.Outside, seam.Inside}).Draw(t, "wall"), Start: start, Sweep: sweep,
			})
		default:
			spec, err = seam.MeetTubes(curve.SaddleRequest{
				Run:    curve.Tube{Axis: xDir, Radius: 0.06},
				Branch: curve.Tube{Point: r3.Vec{Y: rapid.Float64Range(-0.01, 0.01).Draw(t, "offset")}, Axis: se3.RotY(lean).Apply(zDir), Radius: rapid.Float64Range(0.01, 0.035).Draw(t, "radius")},
				Start:  start, Sweep: sweep,
			})
		}
		if err != nil {
			t.Fatal(err)
		}
		s, err := seam.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		return s.Moved(genPose().Draw(t, "bFromA"))
	})
}

// On every typed face: the frame is square, B looks out of the other plate, and
// decoding undoes encoding, at the place and read off the nearest one.
func TestTypedSeamsDecodeWhatTheyEncode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genTyped().Draw(t, "seam")
		a := genAim().Draw(t, "aim")
		arc := rapid.Float64Range(0, 1).Draw(t, "fraction") * s.Length()
		f := s.At(arc)
		if max(math.Abs(f.T.Dot(f.M)), math.Abs(f.T.Dot(f.B)), math.Abs(f.M.Dot(f.B))) > 1e-9 {
			t.Fatalf("not square: %+v", f)
		}
		if p, travel := s.Path().At(arc); s.Other().Normal(p, travel).Dot(f.B) <= 0 || math.Abs(s.Base().Normal(p, travel).Dot(travel)) > 1e-9 {
			t.Fatalf("the seam leaves its base or opens into the other plate: %+v", f)
		}
		got := f.Decode(f.Encode(a)).Aim
		if max(math.Abs(got.Work-a.Work), math.Abs(got.Travel-a.Travel), math.Abs(got.Spin-a.Spin)) > 1e-9 || max(math.Abs(got.Offset-a.Offset), math.Abs(got.Distance-a.Distance)) > 1e-9 {
			t.Fatalf("decoded %+v, want %+v", got, a)
		}
		at, r := s.Read(f.Encode(seam.Aim{Work: a.Work, Travel: a.Travel, Spin: a.Spin}))
		if q := s.At(at); q.Origin.Dist(f.Origin) > 1e-8 || r.Across() > 1e-8 {
			t.Fatalf("read at %v, want %v", at, arc)
		}
	})
}

func TestMeetRefuses(t *testing.T) {
	base, front := surface(t, floor(), seam.PlateFront), surface(t, wall(0), seam.PlateFront)
	far := wall(0)
	far.Corner.Z = 0.006
	past := wall(0)
	past.Corner.X = 0.16
	plates := func(change func(*seam.PlatesRequest)) error {
		r := seam.PlatesRequest{Joint: weld.Tee, Base: base, Other: front, Stands: seam.Left}
		change(&r)
		_, err := seam.MeetPlates(r)
		return err
	}
	tube := func(change func(*seam.PlateTubeRequest)) error {
		r := seam.PlateTubeRequest{Plate: base, Tube: curve.Tube{Axis: zDir, Radius: 0.03}, Wall: seam.Outside, Sweep: 2 * math.Pi}
		change(&r)
		_, err := seam.MeetPlateTube(r)
		return err
	}
	plate := func(side seam.PlateSide, change func(*seam.Plate)) error {
		p := floor()
		change(&p)
		_, err := p.Surface(side)
		return err
	}
	equal := curve.SaddleRequest{Run: curve.Tube{Axis: xDir, Radius: 0.05}, Branch: curve.Tube{Axis: zDir, Radius: 0.05}, Sweep: 2 * math.Pi}
	equalSpec, err := seam.MeetTubes(equal)
	if err != nil {
		t.Fatal(err)
	}
	wide := equal
	wide.Branch.Radius = 0.06
	tests := []struct {
		name string
		err  error
		word string
	}{
		{"butt", plates(func(r *seam.PlatesRequest) { r.Joint = weld.Butt }), "along an edge"},
		{"no side", plates(func(r *seam.PlatesRequest) { r.Stands = 0 }), "left or right"},
		{"one plate twice", plates(func(r *seam.PlatesRequest) { r.Other = base }), "0.00 deg from each other"},
		{"stands off", plates(func(r *seam.PlatesRequest) { r.Other = surface(t, far, seam.PlateFront) }), "stands 6.0 mm off the line"},
		{"beside the base", plates(func(r *seam.PlatesRequest) { r.Other = surface(t, past, seam.PlateFront) }), "ends 10.0 mm before"},
		{"trim past the end", plates(func(r *seam.PlatesRequest) { r.To = 0.2 }), "meet over 150.0 mm"},
		{"no surface", plates(func(r *seam.PlatesRequest) { r.Base = seam.Surface{} }), "direction"},
		{"tube, no wall", tube(func(r *seam.PlateTubeRequest) { r.Wall = 0 }), "outside or inside"},
		{"tube into the plate", tube(func(r *seam.PlateTubeRequest) { r.Tube.Axis = zDir.Neg() }), "out of the plate"},
		{"tube along the plate", tube(func(r *seam.PlateTubeRequest) { r.Tube.Axis = r3.Vec{X: 1, Z: 0.01} }), "deg from the axis"},
		{"tube over the edge", tube(func(r *seam.PlateTubeRequest) { r.Tube.Point.Y = 0.08 }), "mm over the edge"},
		{"tube of no number", tube(func(r *seam.PlateTubeRequest) { r.Tube.Axis.X = math.NaN() }), "out of the plate"},
		{"branch wider than the run", func() error { _, err := seam.MeetTubes(wide); return err }(), "hangs over"},
		{"equal tubes", func() error { _, err := seam.New(equalSpec); return err }(), "15 to 165 deg are possible"},
		{"no plate side", plate(0, func(*seam.Plate) {}), "which face"},
		{"no thickness", plate(seam.PlateFront, func(p *seam.Plate) { p.Thickness = 0 }), "thickness is 0 mm"},
		{"endless", plate(seam.PlateFront, func(p *seam.Plate) { p.Length = math.Inf(1) }), "length is +Inf"},
		{"skew", plate(seam.PlateFront, func(p *seam.Plate) { p.Across = r3.Vec{X: 1, Y: 20} }), "2.9 deg out of square"},
		{"no direction", plate(seam.PlateFront, func(p *seam.Plate) { p.Along = r3.Vec{} }), "two directions"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", tt.err, tt.word)
			}
		})
	}
}
