package seam_test

import (
	"math"
	"testing"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// roomNozzle is that of the worked cases: 22 mm wide, contact tip 2 mm inside it and
// 15 mm from the work.
var roomNozzle = seam.Nozzle{Radius: 11e-3, Length: 60e-3, StickOut: 13e-3}

// wayOf is the way along straight lines through points, m, with turns shared out.
func wayOf(t testing.TB, spec seam.Spec, shares []seam.Share, points ...r3.Vec) seam.Way {
	t.Helper()
	var path curve.Curve
	var err error
	if path, err = curve.Polyline(points...); len(points) == 2 {
		path, err = curve.NewLine(points[0], points[1])
	}
	if err != nil {
		t.Fatal(err)
	}
	spec.Path = path
	s, err := seam.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	w, err := seam.NewWay(s, shares...)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// joined is a joint of two level or upright plates along x, the upright at y < 0 so
// that the joint opens to +y.
func joined(t testing.TB, joint weld.JointType) seam.Way {
	t.Helper()
	spec := seam.Spec{Joint: joint, Base: seam.Plane{N: r3.Vec{Z: 1}}}
	if joint != weld.Butt {
		spec.Other = seam.Plane{N: r3.Vec{Y: 1}}
	}
	return wayOf(t, spec, nil, r3.Vec{}, r3.Vec{X: 0.3})
}

func roomOf(t testing.TB, spec seam.RoomSpec) *seam.Room {
	t.Helper()
	if spec.Nozzle == (seam.Nozzle{}) {
		spec.Nozzle = roomNozzle
	}
	r, err := seam.NewRoom(spec)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A tee of square plates, by hand: a plane with the normal n through the root is from
// a circle of radius r about the axis e, at s along it, s (e.n) - r sqrt(1 - (e.n)^2)
// away. At 45 deg without push e.n is cos 45 for both plates: (13 - 11) cos 45.
func TestRoomOfATee(t *testing.T) {
	r := roomOf(t, seam.RoomSpec{Way: joined(t, weld.Tee)})
	if r.Places() != 1 {
		t.Errorf("%d places of a straight seam, want 1", r.Places())
	}
	for _, row := range []struct {
		name         string
		work, travel float64 // deg
		want         float64 // mm
		metal        string
	}{
		{"halving the joint", 45, 0, (13 - 11) * math.Sqrt(0.5), seam.BasePlate},
		{"nearer the base", 55, 0, 13*math.Cos(55*radian) - 11*math.Sin(55*radian), seam.BasePlate},
		{"nearer the upright", 35, 0, 13*math.Sin(35*radian) - 11*math.Cos(35*radian), seam.OtherPlate},
		{"pushed", 45, 10, 13*math.Cos(10*radian)*math.Sqrt(0.5) - 11*math.Sqrt(1-math.Pow(math.Cos(10*radian), 2)/2), seam.BasePlate},
		{"square to the base", 0, 0, -11, seam.OtherPlate},
	} {
		got := r.Least(seam.Aim{Work: row.work * radian, Travel: row.travel * radian}, seam.Sway{})
		if math.Abs(got.Clearance*1e3-row.want) > 1e-9 {
			t.Errorf("%s: %.6f mm to the %s, want %.6f", row.name, got.Clearance*1e3, got.Metal, row.want)
		}
		if row.work != 45 && got.Metal != row.metal {
			t.Errorf("%s: nearest is the %s, want the %s", row.name, got.Metal, row.metal)
		}
		if d := got.Nozzle.Dist(got.On); math.Abs(d-math.Abs(got.Clearance)) > 1e-12 {
			t.Errorf("%s: the places are %.6f mm apart", row.name, d*1e3)
		}
	}
}

const radian = math.Pi / 180 // in a degree

// A wall across the end of a fillet, by hand. The seam runs along x to an upright that
// stands square across it: the path turns there into the next side. At work 45 and
// travel T the nozzle's face lies 13 sin T behind the tip and its rim reaches 11 cos T
// forward, so that at a distance d before the wall d + 13 sin T - 11 cos T is left. Behind
// the corner the torch that is pushed leans back to the first side, with its upper end,
// 13 + 60 mm up, furthest: d - 73 sin T - 11 cos T.
func TestRoomBeforeAnUprightAcross(t *testing.T) {
	w := wayOf(t, seam.Spec{Joint: weld.Tee, Base: seam.Plane{N: r3.Vec{Z: 1}}, Other: seam.Upright{On: seam.Plane{N: r3.Vec{Z: 1}}, Side: seam.Right, Included: math.Pi / 2}},
		nil, r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.1})
	r := roomOf(t, seam.RoomSpec{Way: w})
	for _, travel := range []float64{0, 10, 20} {
		sin, cos := math.Sincos(travel * radian)
		aim := seam.Aim{Work: 45 * radian, Travel: travel * radian}
		for i := range r.Places() {
			u := r.Place(i)
			before, behind := u <= w.Turn(0).Start, u >= w.Turn(0).End
			want := 100 - u*1e3 + 13*sin - 11*cos
			if behind {
				want = (u-w.Turn(0).End)*1e3 - 73*sin - 11*cos
			}
			// Far from the corner the plates of its own side are nearer.
			if got := r.At(i, aim, seam.Sway{}); (before || behind) && want < 0 && (math.Abs(got.Clearance*1e3-want) > 1e-6 || got.Metal != seam.OtherPlate) {
				t.Errorf("travel %g at %.1f mm of the way: %.4f mm to the %s, want %.4f to the upright", travel, u*1e3, got.Clearance*1e3, got.Metal, want)
			}
		}
	}
}

// Outside a corner the next plate is behind the one that is welded: the torch has the
// room of a straight seam, on the straight and in the turn.
func TestRoomRoundAnOutsideCorner(t *testing.T) {
	w := wayOf(t, seam.Spec{Joint: weld.Tee, Base: seam.Plane{N: r3.Vec{Z: 1}}, Other: seam.Upright{On: seam.Plane{N: r3.Vec{Z: 1}}, Side: seam.Left, Included: math.Pi / 2}},
		nil, r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.1})
	straight := roomOf(t, seam.RoomSpec{Way: joined(t, weld.Tee)})
	r := roomOf(t, seam.RoomSpec{Way: w})
	for _, travel := range []float64{0, 10, -20} {
		aim := seam.Aim{Work: 45 * radian, Travel: travel * radian}
		got, want := r.Least(aim, seam.Sway{}), straight.Least(aim, seam.Sway{})
		if math.Abs(got.Clearance-want.Clearance) > 1e-12 {
			t.Errorf("travel %g: %.6f mm to the %s at %.1f mm, want %.6f", travel, got.Clearance*1e3, got.Metal, got.Arc*1e3, want.Clearance*1e3)
		}
	}
}

// Inside a tube of radius R standing on a plate, by hand: the rim's place furthest from
// the axis. With the torch at work W the face's middle is R - s sin W from the axis and
// the rim reaches r cos W outward in the plane of axis and tip: R - (s sin W - r cos W)
// there; to the sides the rim is at hypot(R - s sin W, r). The wall is nearest where
// the distance from the axis along the rim is largest.
func TestRoomInsideATube(t *testing.T) {
	const R = 13e-3
	circle, err := curve.NewCircle(r3.Vec{}, r3.Vec{Z: 1}, r3.Vec{X: R}, 0)
	if err != nil {
		t.Fatal(err)
	}
	s, err := seam.New(seam.Spec{Path: circle, Joint: weld.Tee, Base: seam.Plane{N: r3.Vec{Z: 1}}, Other: seam.Cylinder{Axis: r3.Vec{Z: 1}}})
	if err != nil {
		t.Fatal(err)
	}
	w, err := seam.NewWay(s)
	if err != nil {
		t.Fatal(err)
	}
	short := roomNozzle
	short.Length = 5e-3 // a longer one meets the wall on the other side
	r := roomOf(t, seam.RoomSpec{Way: w, Nozzle: short})
	work := 45 * radian
	sin, cos := math.Sincos(work)
	furthest := 0.0
	for i := range 100000 {
		a := 2 * math.Pi * float64(i) / 100000
		furthest = max(furthest, math.Hypot(R-13e-3*sin+11e-3*cos*math.Cos(a), 11e-3*math.Sin(a)))
	}
	got := math.Inf(1)
	for i := range r.Places() {
		if g := r.At(i, seam.Aim{Work: work}, seam.Sway{}); g.Metal == seam.OtherPlate {
			got = min(got, g.Clearance)
		}
	}
	flat := 13e-3*sin - 11e-3*cos
	if want := R - furthest; math.Abs(got-want) > 0.02e-3 || want > flat-0.1e-3 {
		t.Errorf("%.4f mm, want %.4f; a flat wall would be %.4f", got*1e3, want*1e3, flat*1e3)
	}
}

// A lap, by hand: over an upper plate 8 mm high the rim passes above its edge. The
// nearest place is then the edge's corner, and the nearest of an ellipse to a point has
// no short formula: the distance is held against a fine walk round the rim.
func TestRoomOfALap(t *testing.T) {
	w := joined(t, weld.Lap)
	thin := roomOf(t, seam.RoomSpec{Way: w, OtherThickness: 8e-3})
	high := roomOf(t, seam.RoomSpec{Way: w})
	aim := seam.Aim{Work: 25 * radian, Travel: 10 * radian}
	sinW, cosW := math.Sincos(aim.Work)
	sinT, cosT := math.Sincos(aim.Travel)
	e := r3.Vec{X: -sinT, Y: sinW * cosT, Z: cosW * cosT}
	a, b := e.Orthogonal(), e.Cross(e.Orthogonal())
	near := math.Inf(1)
	for i := range 1000000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 1000000)
		p := e.Scale(13).AddScaled(11*cos, a).AddScaled(11*sin, b)
		near = min(near, math.Hypot(max(0, p.Y), max(0, p.Z-8)))
	}
	if got := thin.Least(aim, seam.Sway{}); math.Abs(got.Clearance*1e3-near) > 1e-6 || got.Metal != seam.UpperPlate {
		t.Errorf("%.6f mm to the %s, want %.6f to the upper plate", got.Clearance*1e3, got.Metal, near)
	}
	if got := high.Least(aim, seam.Sway{}); !(got.Clearance*1e3 < near-1) {
		t.Errorf("a plate of unknown height leaves %.3f mm, more than one of 8 mm, %.3f", got.Clearance*1e3, near)
	}
}

// A nozzle that narrows at its end, by hand: at 45 deg every circle of it is (up - r)
// cos 45 from both plates, the face 13 - 8 and the shoulder, 4 mm further up, 17 - 13.
func TestRoomOfATaperedNozzle(t *testing.T) {
	r := roomOf(t, seam.RoomSpec{Way: joined(t, weld.Tee), Nozzle: seam.Nozzle{Radius: 8e-3, Top: 13e-3, Over: 4e-3, Length: 60e-3, StickOut: 13e-3}})
	if got, want := r.Least(seam.Aim{Work: 45 * radian}, seam.Sway{}).Clearance*1e3, 4*math.Sqrt(0.5); math.Abs(got-want) > 1e-9 {
		t.Errorf("%.6f mm, want %.6f", got, want)
	}
}

// Metal that was laid before counts; a weave takes the nozzle with it.
func TestRoomOfBeadsAndWeave(t *testing.T) {
	w := joined(t, weld.Tee)
	bead := section.Polygon{{}, {X: 12e-3}, {X: 12e-3, Y: 12e-3}, {Y: 12e-3}}
	r := roomOf(t, seam.RoomSpec{Way: w, Beads: []seam.Bar{{Name: "bead of pass 1", Outline: bead}}})
	got := r.Least(seam.Aim{Work: 45 * radian, Distance: 6e-3}, seam.Sway{})
	if want := 19 - 12*math.Sqrt2; got.Metal != "bead of pass 1" || math.Abs(got.Clearance*1e3-want) > 1e-9 {
		t.Errorf("%.6f mm to the %s, want %.6f to the bead", got.Clearance*1e3, got.Metal, want)
	}
	bare := roomOf(t, seam.RoomSpec{Way: w})
	still := bare.Least(seam.Aim{Work: 45 * radian}, seam.Sway{}).Clearance
	for _, row := range []struct {
		name string
		sway seam.Sway
		want float64 // mm less
	}{
		{"square to the wire", seam.Sway{Amplitude: 2e-3}, 2 * math.Sqrt(0.5)},
		{"along the base", seam.Sway{Amplitude: 2e-3, Plane: -45 * radian}, 2},
		{"along the upright", seam.Sway{Amplitude: 2e-3, Plane: 45 * radian}, 2},
	} {
		if got := still - bare.Least(seam.Aim{Work: 45 * radian}, row.sway).Clearance; math.Abs(got*1e3-row.want) > 1e-9 {
			t.Errorf("weave %s takes %.6f mm, want %.6f", row.name, got*1e3, row.want)
		}
	}
}

func TestRoomRefuses(t *testing.T) {
	w := joined(t, weld.Tee)
	groove := section.Groove{Prep: section.Square, Thickness: 4e-3}
	for _, row := range []struct {
		name, want string
		spec       seam.RoomSpec
	}{
		{"a nozzle in metres", "seam: the radius of the nozzle is 1.1e+04 mm: 1 to 100 mm is allowed; check its unit", seam.RoomSpec{Way: w, Nozzle: seam.Nozzle{Radius: 11, Length: 0.06, StickOut: 0.013}}},
		{"a taper over more than its length", "seam: the taper of the nozzle is 80 mm: 0 to 60 mm is allowed; check its unit", seam.RoomSpec{Way: w, Nozzle: seam.Nozzle{Radius: 0.011, Length: 0.06, StickOut: 0.013, Over: 0.08}}},
		{"no way", "seam: no way given", seam.RoomSpec{Nozzle: roomNozzle}},
		{"a groove in a tee", "seam: a groove between the edges of a tee joint: a butt joint has one", seam.RoomSpec{Way: w, Nozzle: roomNozzle, Groove: &groove}},
		{"a line for a bead", "seam: the bead has 2 corners across the seam: 3 or more are needed", seam.RoomSpec{Way: w, Nozzle: roomNozzle, Beads: []seam.Bar{{Name: "bead", Outline: section.Polygon{{}, {X: 1}}}}}},
	} {
		if _, err := seam.NewRoom(row.spec); err == nil || err.Error() != row.want {
			t.Errorf("%s: %v\nwant %s", row.name, err, row.want)
		}
	}
}
