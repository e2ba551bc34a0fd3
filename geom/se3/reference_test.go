package se3_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The check values below were worked out for this project outside its code
// (CALC in its trade notes); scipy_test.go gives a second opinion on the same
// rotations. Printed digits: angles 3 decimals of a degree, quaternions and
// rotation vectors 6 decimals, directions 5 decimals.

const deg = math.Pi / 180

// pose is a row of the table: the rotation, built without any convention where
// the row says how, and what each convention prints for it.
type pose struct {
	name                        string
	rot                         se3.Rot
	fixedXYZ, movingZYX         []float64
	movingXYZ, movingZYZ        []float64
	quaternion, vector, toolDir []float64
}

// fixedXYZ is the rotation by its definition Rz(c) Ry(b) Rx(a), degrees.
func fixedXYZ(a, b, c float64) se3.Rot {
	return se3.RotZ(c * deg).Mul(se3.RotY(b * deg)).Mul(se3.RotX(a * deg))
}

// leaning is T4: a seam along +X, the upright on the +Y side, so the torch
// stands on -Y; work angle 45 deg, push 10 deg, tool X the travel direction
// made square to the wire.
func leaning() se3.Rot {
	travel := r3.Vec{X: 1}
	across := r3.Vec{Y: math.Sin(45 * deg), Z: -math.Cos(45 * deg)}
	z := across.Scale(math.Cos(10*deg)).AddScaled(math.Sin(10*deg), travel)
	x := travel.Reject(z).Unit()
	return se3.RotColumns(x, z.Cross(x), z)
}

func table() []pose {
	return []pose{
		{"T1 90 about X", se3.RotX(90 * deg),
			[]float64{90, 0, 0}, []float64{0, 0, 90}, []float64{90, 0, 0}, []float64{-90, 90, 90},
			[]float64{.707107, .707107, 0, 0}, []float64{1.570796, 0, 0}, []float64{0, -1, 0}},
		{"T2 small", fixedXYZ(10, 20, 30),
			[]float64{10, 20, 30}, []float64{30, 20, 10}, []float64{-1.116, 22.242, 28.452}, []float64{2.727, 22.269, 25.506},
			[]float64{.951549, .038135, .189308, .239298}, []float64{.077525, .384852, .486479}, []float64{.37852, .01803, .92542}},
		{"T3 torch straight down", se3.RotX(180 * deg),
			[]float64{180, 0, 0}, []float64{0, 0, 180}, []float64{180, 0, 0}, []float64{180, 180, 0},
			[]float64{0, 1, 0, 0}, []float64{3.141593, 0, 0}, []float64{0, 0, -1}},
		{"T4 leaning torch", leaning(),
			[]float64{-134.561, -7.053, -7.107}, []float64{-7.107, -7.053, -134.561}, []float64{-135, 10, 0}, []float64{75.998, 134.136, -99.851},
			[]float64{.381227, -.920364, .033353, -.080521}, []float64{-2.348838, .085120, -.205497}, []float64{.17365, .69636, -.69636}},
		{"T5 leaning and turned", se3.RotZ(27 * deg).Mul(leaning()),
			[]float64{-134.561, -7.053, 19.893}, []float64{19.893, -7.053, -134.561}, []float64{-134.879, -9.289, -18.983}, []float64{102.998, 134.136, -99.851},
			[]float64{.389491, -.902720, -.182423, .010699}, []float64{-2.294887, -.463755, .027199}, []float64{-.16142, .69930, -.69636}},
		{"T6 lock", fixedXYZ(0, 90, 40),
			[]float64{-40, 90, 0}, []float64{0, 90, -40}, []float64{-90, 50, 90}, []float64{40, 90, 0},
			[]float64{.664463, -.241845, .664463, .241845}, []float64{-.546277, 1.500883, .546277}, []float64{.76604, .64279, 0}},
		{"T7 180 about (1,1,0)", se3.RotAxis(r3.Vec{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2}, math.Pi),
			[]float64{180, 0, 90}, []float64{90, 0, 180}, []float64{180, 0, -90}, []float64{-90, 180, 0},
			[]float64{0, .707107, .707107, 0}, []float64{2.221441, 2.221441, 0}, []float64{0, 0, -1}},
	}
}

func convention(t *testing.T, words string) se3.Convention {
	t.Helper()
	c, err := se3.ParseConvention(words)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func decode(t *testing.T, words string, numbers []float64) se3.Rot {
	t.Helper()
	r, err := convention(t, words).Decode(numbers)
	if err != nil {
		t.Fatalf("%s %v: %v", words, numbers, err)
	}
	return r
}

func TestReferenceTable(t *testing.T) {
	for _, p := range table() {
		cells := []struct {
			words   string
			printed []float64
			half    float64 // half of the last printed digit
			turn    float64 // rad by which rounding may turn the pose
		}{
			{"fixed x-y-z degrees", p.fixedXYZ, 0.0005, 3 * 0.0005 * deg},
			{"moving z-y-x degrees", p.movingZYX, 0.0005, 3 * 0.0005 * deg},
			{"moving x-y-z degrees", p.movingXYZ, 0.0005, 3 * 0.0005 * deg},
			{"moving z-y-z degrees", p.movingZYZ, 0.0005, 3 * 0.0005 * deg},
			{"quaternion w first", p.quaternion, 0.5e-6, 4e-6},
			{"rotation vector radians", p.vector, 0.5e-6, 3e-6},
		}
		for _, cell := range cells {
			t.Run(p.name+"/"+cell.words, func(t *testing.T) {
				var got [9]float64
				n, _ := convention(t, cell.words).Encode(p.rot, got[:])
				if n != len(cell.printed) {
					t.Fatalf("wrote %d numbers, want %d", n, len(cell.printed))
				}
				for i, want := range cell.printed {
					if math.Abs(got[i]-want) > cell.half*1.001 {
						t.Errorf("encoded %v, want %v", got[:n], cell.printed)
						break
					}
				}
				if turned := decode(t, cell.words, cell.printed).AngleTo(p.rot); turned > cell.turn {
					t.Errorf("the printed numbers decode %.2g rad away, allowed %.2g", turned, cell.turn)
				}
			})
		}
		t.Run(p.name+"/tool z", func(t *testing.T) {
			want := r3.Vec{X: p.toolDir[0], Y: p.toolDir[1], Z: p.toolDir[2]}
			if d := p.rot.Z().Sub(want); max(math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z)) > 0.5e-5*1.001 {
				t.Errorf("tool z %v, want %v", p.rot.Z(), want)
			}
		})
	}
}

// The table marks three cells as locked, and says of T6 that 0, 90, 40 is the
// same as -40, 90, 0.
func TestReferenceLocks(t *testing.T) {
	rows := []struct {
		row   int
		words string
		rule  se3.Rule
	}{
		{2, "moving z-y-z degrees", se3.LastZero},
		{6, "moving z-y-z degrees", se3.LastZero},
		{5, "fixed x-y-z degrees", se3.LastZero},
		{5, "moving z-y-x degrees", se3.FirstZero},
		{5, "moving z-y-z degrees", se3.Unique},
		{3, "fixed x-y-z degrees", se3.Unique},
		{2, "rotation vector radians", se3.PositiveSign},
		{2, "tool direction and spin degrees", se3.Unique},
	}
	for _, row := range rows {
		p := table()[row.row]
		var dst [9]float64
		_, lock := convention(t, row.words).Encode(p.rot, dst[:])
		if lock.Rule != row.rule || lock.Locked() != (row.rule != se3.Unique) {
			t.Errorf("%s, %s: got rule %q, want %q", p.name, row.words, lock.Rule, row.rule)
		}
	}
	if a := fixedXYZ(-40, 90, 0).AngleTo(decode(t, "fixed x-y-z degrees", []float64{0, 90, 40})); !(a <= 1e-12) {
		t.Errorf("T6: 0, 90, 40 and -40, 90, 0 are %.2g rad apart, want the same rotation", a)
	}
}

// The wrong readings of the same table, degrees of error to one decimal.
func TestReferenceMisreadings(t *testing.T) {
	t2, t5 := table()[1], table()[4]
	backwards := func(v []float64) []float64 { return []float64{v[2], v[1], v[0]} }
	inDegrees := []float64{t5.vector[0] / deg, t5.vector[1] / deg, t5.vector[2] / deg}
	rows := []struct {
		name    string
		p       pose
		words   string
		numbers []float64
		want    float64
	}{
		{"T5 fixed x-y-z read as moving x-y-z", t5, "moving x-y-z degrees", t5.fixedXYZ, 38.9},
		{"T5 list read backwards", t5, "fixed x-y-z degrees", backwards(t5.fixedXYZ), 160.9},
		{"T5 fixed x-y-z read as moving z-y-z", t5, "moving z-y-z degrees", t5.fixedXYZ, 150.2},
		{"T5 rotation vector read as fixed x-y-z", t5, "fixed x-y-z degrees", inDegrees, 26.3},
		{"T5 quaternion w first read as w last", t5, "quaternion w last", t5.quaternion, 158.7},
		{"T2 fixed x-y-z read as moving x-y-z", t2, "moving x-y-z degrees", t2.fixedXYZ, 12.0},
		{"T2 list read backwards", t2, "fixed x-y-z degrees", backwards(t2.fixedXYZ), 32.7},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			got := decode(t, row.words, row.numbers).AngleTo(row.p.rot) / deg
			if math.Abs(got-row.want) > 0.051 {
				t.Errorf("wrong by %.3f deg, want %.1f", got, row.want)
			}
		})
	}
}

// Three degrees of hand error become twenty on the screen: a torch for a
// vertical seam at fixed x-y-z (0, -82, 135), turned 3 deg about world X.
func TestReferenceVerticalSeam(t *testing.T) {
	r := fixedXYZ(0, -82, 135)
	c := convention(t, "fixed x-y-z degrees")
	var got [3]float64
	c.Encode(se3.RotX(3*deg).Mul(r), got[:])
	for i, want := range []float64{-19.9, -83.8, 154.7} {
		if math.Abs(got[i]-want) > 0.051 {
			t.Errorf("got %.3f, want -19.9, -83.8, 154.7", got)
			break
		}
	}
	if _, lock := c.Encode(r, got[:]); math.Abs(lock.Magnify-1/math.Cos(82*deg)) > 1e-9 {
		t.Errorf("Magnify = %v, want 1/cos 82 deg = %v", lock.Magnify, 1/math.Cos(82*deg))
	}
}
