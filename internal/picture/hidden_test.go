package picture

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// TestNearestFaceIsDrawnLast looks through many places of the sheet: whatever
// is drawn there last must be the face that is nearest to the eye, found by
// measuring along the line of sight. The blocks run through each other.
func TestNearestFaceIsDrawnLast(t *testing.T) {
	v := view{scale: 1, azimuth: 121, elevate: 31}
	eye := v.eye()
	p := paint{fill: "#808080", class: "edge"}
	var faces []face
	faces = append(faces, box(se3.Pose{R: se3.RotZ(0.4)}, r3.Vec{X: 2, Y: 0.5, Z: 0.7}, p)...)
	faces = append(faces, box(se3.Pose{R: se3.RotX(0.7), P: r3.Vec{X: 0.2}}, r3.Vec{X: 0.6, Y: 1.8, Z: 0.5}, p)...)
	faces = append(faces, round{pose: se3.Pose{R: se3.RotY(0.3)}, length: 2.2, low: 0.45, top: 0.3, bore: 0, flats: 12}.faces(eye, p)...)
	var seen, drawn []face
	for _, f := range faces {
		if f.normal.Dot(eye) > 1e-9 {
			seen = append(seen, f)
		}
	}
	grow(seen).walk(eye, func(f *face) { drawn = append(drawn, *f) })

	right := r3.Vec{Z: 1}.Cross(eye).Unit()
	up := eye.Cross(right)
	hits := 0
	for i := range 61 {
		for k := range 61 {
			at := right.Scale(float64(i-30)/22+0.0013).AddScaled(float64(k-30)/22+0.0017, up)
			last, nearest := math.NaN(), math.NaN()
			for n := range drawn {
				if depth, ok := pierced(&drawn[n], at, eye); ok {
					last = depth
				}
			}
			for n := range seen {
				if depth, ok := pierced(&seen[n], at, eye); ok && !(nearest >= depth) {
					nearest = depth
				}
			}
			if math.IsNaN(nearest) {
				continue
			}
			hits++
			if !(math.Abs(last-nearest) < 1e-3) {
				t.Fatalf("at %d, %d depth %.4f is drawn last, %.4f is nearest", i, k, last, nearest)
			}
		}
	}
	if hits < 500 {
		t.Errorf("only %d places looked at", hits)
	}
}

// pierced reports where the line through at along the eye meets a face: the
// distance towards the eye.
func pierced(f *face, at, eye r3.Vec) (depth float64, ok bool) {
	depth = f.points[0].Sub(at).Dot(f.normal) / eye.Dot(f.normal)
	p := at.AddScaled(depth, eye)
	n := len(f.points)
	for i, a := range f.points {
		b, c := f.points[(i+1)%n], f.points[(i+2)%n]
		inward := b.Sub(a).Cross(f.normal)
		if inward.Dot(c.Sub(a)) < 0 {
			inward = inward.Neg()
		}
		if inward.Dot(p.Sub(a)) < 0 {
			return 0, false
		}
	}
	return depth, true
}

func TestArmShapesAreDrawn(t *testing.T) {
	j, p := planned(t)
	m := p.Seams[0].Passes[0].Motion
	eye := view{azimuth: 121, elevate: 31}.eye()
	for _, link := range j.Arm.Robot.Links {
		for _, v := range link.Visuals {
			if v.Geometry.Kind == urdf.MeshFile {
				t.Errorf("link %s has a mesh, which the picture cannot draw", link.Name)
			}
		}
	}
	// The torch must end where the plan has the flange.
	at := m.Stations[m.First]
	faces := torch(j.Torch, at.BaseFromTip, eye)
	flange := at.BaseFromTip.Mul(p.Cell.FlangeFromTip.Inv()).P
	least := math.Inf(1)
	for _, f := range faces {
		for _, point := range f.points {
			least = min(least, point.Dist(flange))
		}
	}
	if math.Abs(least-0.021) > 1e-6 {
		t.Errorf("the drawn torch passes the flange's middle at %.1f mm, want its radius of 21 mm", least*1e3)
	}
}

func TestPlatesCarryTheSeams(t *testing.T) {
	j, p := planned(t)
	partFromBase := j.Cell.WorldFromPart.Inv().Mul(j.Cell.WorldFromBase)
	want := [][2]r3.Vec{ // mm, from the README of the example
		{{X: 345, Y: 370}, {X: 555, Y: 370}},
		{{X: 592, Y: 370, Z: 40}, {X: 592, Y: 370, Z: 150}},
		{},
		{{X: 150 + 44.45, Y: 235}, {}},
		{{X: 270, Y: 40}, {X: 40, Y: 40}},
	}
	_, rib := rampAndRib(se3.Identity())
	want[2] = [2]r3.Vec{rib.P.Scale(1e3), rib.Apply(r3.Vec{X: 0.2104}).Scale(1e3)}
	for i := range p.Seams {
		s := &p.Seams[i]
		start, end := partFromBase.Apply(s.Geometry.At(0).Origin), partFromBase.Apply(s.Geometry.At(s.Length).Origin)
		if off := start.Scale(1e3).Dist(want[i][0]); off > 0.6 {
			t.Errorf("%s starts %.1f mm from where the plates meet", s.Name, off)
		}
		if off := end.Scale(1e3).Dist(want[i][1]); s.Name != "W4" && off > 0.6 {
			t.Errorf("%s ends %.1f mm from where the plates meet", s.Name, off)
		}
	}
}

func TestTemperColours(t *testing.T) {
	for _, c := range []struct {
		margin float64
		want   string
	}{{-3, "#e0b84a"}, {0, "#e0b84a"}, {15, "#a8622c"}, {30, "#773f74"}, {45, "#2c5c9c"}, {170, "#2c5c9c"}} {
		if got := temperOf(c.margin * degree); got != c.want {
			t.Errorf("%g deg is %s, want %s", c.margin, got, c.want)
		}
	}
}
