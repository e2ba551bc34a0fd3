package se3_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// apart returns the largest difference of two matrices, entry by entry.
func apart(a, b se3.Rot) float64 {
	worst := 0.0
	for i := range a {
		worst = max(worst, math.Abs(a[i]-b[i])) // NaN stays NaN and fails !(d <= limit)
	}
	return worst
}

func TestRightHandTurns(t *testing.T) {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	rows := []struct {
		name       string
		turn       se3.Rot
		from, want r3.Vec
	}{
		{"X carries y to z", se3.RotX(math.Pi / 2), y, z},
		{"Y carries z to x", se3.RotY(math.Pi / 2), z, x},
		{"Z carries x to y", se3.RotZ(math.Pi / 2), x, y},
		{"axis X as RotX", se3.RotAxis(x, math.Pi/2), y, z},
		{"axis Y as RotY", se3.RotAxis(y, math.Pi/2), z, x},
		{"axis Z as RotZ", se3.RotAxis(z, math.Pi/2), x, y},
		{"axis 1,1,1 by a third of a turn", se3.Exp(r3.Vec{X: 1, Y: 1, Z: 1}.Unit().Scale(2 * math.Pi / 3)), x, y},
	}
	for _, row := range rows {
		if got := row.turn.Apply(row.from); got.Dist(row.want) > 1e-15 {
			t.Errorf("%s: got %v, want %v", row.name, got, row.want)
		}
	}
}

func TestColumnsAreTheTurnedAxes(t *testing.T) {
	r := fixedXYZ(10, 20, 30)
	for name, pair := range map[string][2]r3.Vec{
		"X": {r.X(), r.Apply(r3.Vec{X: 1})},
		"Y": {r.Y(), r.Apply(r3.Vec{Y: 1})},
		"Z": {r.Z(), r.Apply(r3.Vec{Z: 1})},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s: column %v, turned axis %v", name, pair[0], pair[1])
		}
	}
	if got := se3.RotColumns(r.X(), r.Y(), r.Z()); got != r {
		t.Errorf("RotColumns of the columns gave %v, want %v", got, r)
	}
}

func TestGroupProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s, u := anyRot().Draw(t, "r"), anyRot().Draw(t, "s"), anyRot().Draw(t, "u")
		v := anyDirection().Draw(t, "v")
		if d := apart(r.Mul(r.T()), se3.RotIdentity()); !(d <= 1e-14) {
			t.Fatalf("r r^T is %v off the identity", d)
		}
		if d := apart(r.Mul(s).Mul(u), r.Mul(s.Mul(u))); !(d <= 1e-14) {
			t.Fatalf("the product is not associative by %v", d)
		}
		if d := r.Mul(s).Apply(v).Dist(r.Apply(s.Apply(v))); !(d <= 1e-14) {
			t.Fatalf("(rs)v and r(sv) are %v apart", d)
		}
		if d := math.Abs(r.AngleTo(s) - s.AngleTo(r)); !(d <= 1e-9) {
			t.Fatalf("AngleTo is not symmetric by %v", d)
		}
	})
}

func TestExpOfLog(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		v := r.Log()
		if n := v.Norm(); !(n <= math.Pi+1e-12) {
			t.Fatalf("log has length %v, more than half a turn", n)
		}
		if d := apart(se3.Exp(v), r); !(d <= 1e-14) {
			t.Fatalf("exp(log r) is %v off r", d)
		}
		if d := math.Abs(v.Norm() - r.Angle()); !(d <= 1e-9) {
			t.Fatalf("log has length %v, Angle is %v", v.Norm(), r.Angle())
		}
		axis, angle := r.Axis()
		if math.Abs(axis.Norm()-1) > 1e-14 {
			t.Fatalf("axis %v has length %v", axis, axis.Norm())
		}
		if d := apart(se3.RotAxis(axis, angle), r); !(d <= 1e-14) {
			t.Fatalf("RotAxis(Axis(r)) is %v off r", d)
		}
	})
}

// The logarithm undoes the exponential up to half a turn, also for turns too
// small to see and for turns that are all but half.
func TestLogOfExp(t *testing.T) {
	axis := r3.Vec{X: 0.48, Y: -0.6, Z: 0.64}
	for _, angle := range []float64{0, 1e-300, 1e-15, 1e-9, 1e-4, 1, 3, math.Pi - 1e-4, math.Pi - 1e-9} {
		v := axis.Scale(angle)
		if d := se3.Exp(v).Log().Dist(v); !(d <= 1e-14) {
			t.Errorf("angle %v: %v away", angle, d)
		}
	}
}

// Found by the property above: the squares of such an axis leave float64.
func TestAxisOfATurnTooSmallToSquare(t *testing.T) {
	r := se3.RotIdentity()
	r[1], r[3] = -2.33e-156, 2.33e-156
	if axis, _ := r.Axis(); axis.Dist(r3.Vec{Z: 1}) > 1e-12 {
		t.Errorf("axis %v, want Z", axis)
	}
}

func TestQuatRot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		q := r.Quat()
		if q.W < 0 || math.Abs(q.Norm()-1) > 1e-14 {
			t.Fatalf("%v: W is negative or the length %v is not 1", q, q.Norm())
		}
		if d := apart(q.Rot(), r); !(d <= 1e-14) {
			t.Fatalf("the rotation of %v is %v off r", q, d)
		}
	})
}

func TestSlerp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s := anyRot().Draw(t, "r"), anyRot().Draw(t, "s")
		f := rapid.Float64Range(0, 1).Draw(t, "f")
		if d := apart(r.Slerp(s, 0), r); !(d <= 1e-13) {
			t.Fatalf("at 0 it is %v off r", d)
		}
		if d := apart(r.Slerp(s, 1), s); !(d <= 1e-13) {
			t.Fatalf("at 1 it is %v off s", d)
		}
		m, whole := r.Slerp(s, f), r.AngleTo(s)
		if math.Abs(r.AngleTo(m)-f*whole) > 1e-9 || math.Abs(m.AngleTo(s)-(1-f)*whole) > 1e-9 {
			t.Fatalf("at %v of %v rad it is %v from r and %v from s", f, whole, r.AngleTo(m), m.AngleTo(s))
		}
	})
}

func TestBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := anyDirection().Draw(t, "from"), anyDirection().Draw(t, "to")
		switch rapid.IntRange(0, 3).Draw(t, "case") {
		case 0:
			to = from
		case 1:
			to = from.Neg()
		}
		r := se3.Between(from, to)
		if d := r.Apply(from).Dist(to); !(d <= 1e-14) {
			t.Fatalf("carries %v to %v, %v away from %v", from, r.Apply(from), d, to)
		}
		if d := math.Abs(r.Angle() - from.Angle(to)); !(d <= 1e-9) {
			t.Fatalf("turns by %v, the smallest turn is %v", r.Angle(), from.Angle(to))
		}
	})
}

func TestOrthonormalMendsRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		rounded := r
		for i := range rounded {
			rounded[i] = math.Round(rounded[i]*1e3) / 1e3
		}
		got, ok := rounded.Orthonormal()
		if !ok {
			t.Fatalf("refused %v", rounded)
		}
		if d := apart(got.Mul(got.T()), se3.RotIdentity()); !(d <= 1e-14) {
			t.Fatalf("%v is %v off a rotation", got, d)
		}
		// No rotation may be nearer than the nearest one: try some about it.
		distance := func(a se3.Rot) float64 {
			sum := 0.0
			for i := range a {
				sum += (a[i] - rounded[i]) * (a[i] - rounded[i])
			}
			return math.Sqrt(sum)
		}
		for range 5 {
			other := se3.RotAxis(anyDirection().Draw(t, "axis"), 1e-4).Mul(got)
			if distance(other) < distance(got) {
				t.Fatalf("%v is nearer to %v than %v", other, rounded, got)
			}
		}
	})
}

func TestOrthonormalRefuses(t *testing.T) {
	nan := math.NaN()
	rows := map[string]se3.Rot{
		"zero":        {},
		"mirror":      {1, 0, 0, 0, 1, 0, 0, 0, -1},
		"doubled":     {2, 0, 0, 0, 2, 0, 0, 0, 2},
		"sheared":     {1, 0.3, 0, 0, 1, 0, 0, 0, 1},
		"not numbers": {nan, nan, nan, nan, nan, nan, nan, nan, nan},
		"one NaN":     {1, 0, 0, 0, 1, 0, 0, 0, nan},
	}
	for name, r := range rows {
		if got, ok := r.Orthonormal(); ok {
			t.Errorf("%s: accepted as %v", name, got)
		}
	}
}
