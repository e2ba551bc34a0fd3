package se3_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// anyRot draws a rotation: a random one, or turns about coordinate axes by
// multiples of 45 degrees and a little more, which is where locks and half
// turns are.
func anyRot() *rapid.Generator[se3.Rot] {
	return rapid.Custom(func(t *rapid.T) se3.Rot {
		if rapid.Bool().Draw(t, "special") {
			r := se3.RotIdentity()
			for range 3 {
				quarter := float64(rapid.IntRange(-4, 4).Draw(t, "eighths")) * math.Pi / 4
				little := math.Pow(10, -float64(rapid.IntRange(4, 17).Draw(t, "little")))
				if rapid.Bool().Draw(t, "exact") {
					little = 0
				}
				turn := []func(float64) se3.Rot{se3.RotX, se3.RotY, se3.RotZ}[rapid.IntRange(0, 2).Draw(t, "axis")]
				r = r.Mul(turn(quarter + little))
			}
			return r
		}
		return se3.RotAxis(anyDirection().Draw(t, "axis"), rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"))
	})
}

func anyDirection() *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		z := rapid.Float64Range(-1, 1).Draw(t, "z")
		round := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "round")
		level := math.Sqrt(1 - z*z)
		return r3.Vec{X: level * math.Cos(round), Y: level * math.Sin(round), Z: z}.Unit()
	})
}

func TestConventionReadsBackWhatItWrote(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		for _, c := range se3.Conventions() {
			var row [9]float64
			n, lock := c.Encode(r, row[:])
			if n != c.Len() || n != len(c.Names()) || n != len(c.Units()) {
				t.Fatalf("%v: %d numbers, Len %d, %d names, %d units", c, n, c.Len(), len(c.Names()), len(c.Units()))
			}
			back, err := c.Decode(row[:n])
			if err != nil {
				t.Fatalf("%v: %v: %v", c, row[:n], err)
			}
			if a := back.AngleTo(r); !(a < 1e-9) {
				t.Fatalf("%v: %v (%v) decodes %.3g rad away", c, row[:n], lock, a)
			}
			if !(lock.Magnify >= 1) {
				t.Fatalf("%v: Magnify %v, want 1 or more", c, lock.Magnify)
			}
		}
	})
}

// A sheet with 0.1 deg, or with three decimals of a number without unit, must
// be read, and come out no further away than its rounding.
func TestConventionReadsRoundedNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		for _, c := range se3.Conventions() {
			var row [9]float64
			n, _ := c.Encode(r, row[:])
			for i, unit := range c.Units() {
				step := 0.001
				if unit == "deg" {
					step = 0.1
				}
				row[i] = math.Round(row[i]/step) * step
			}
			back, err := c.Decode(row[:n])
			if err != nil {
				t.Fatalf("%v: %v: %v", c, row[:n], err)
			}
			// Three angles of 0.05 deg are 2.6e-3 rad; a direction near straight
			// up moves the zero of its spin, so only the direction is promised.
			a := back.AngleTo(r)
			if strings.HasPrefix(c.String(), "tool") {
				a = back.Z().Angle(r.Z())
			}
			if a > 3e-3 {
				t.Fatalf("%v: %v decodes %.3g rad away", c, row[:n], a)
			}
		}
	})
}

// Fixed x-y-z by (a, b, c) is moving z-y-x by (c, b, a), and so for each order,
// also at a lock where three axes are turned about.
func TestConventionFixedIsMovingReadBackwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRot().Draw(t, "r")
		for _, order := range []string{"x-y-z", "x-z-y", "y-x-z", "y-z-x", "z-x-y", "z-y-x"} {
			letters := strings.Split(order, "-")
			slices.Reverse(letters)
			fixed := mustParse(t, "fixed "+order+" degrees")
			moving := mustParse(t, "moving "+strings.Join(letters, "-")+" degrees")
			var a, b [3]float64
			fixed.Encode(r, a[:])
			moving.Encode(r, b[:])
			slices.Reverse(b[:])
			if a != b {
				t.Fatalf("%v writes %v, %v backwards %v", fixed, a, moving, b)
			}
		}
	})
}

func mustParse(t *rapid.T, words string) se3.Convention {
	c, err := se3.ParseConvention(words)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Magnify is the longest gradient of any angle over the three ways to turn,
// here by central differences.
func TestConventionMagnifyIsTheSteepestAngle(t *testing.T) {
	const step = 1e-6
	rapid.Check(t, func(t *rapid.T) {
		r := se3.RotAxis(anyDirection().Draw(t, "axis"), rapid.Float64Range(0.1, 3).Draw(t, "angle"))
		for _, c := range se3.Conventions() {
			var row [9]float64
			_, lock := c.Encode(r, row[:])
			if c.Units()[c.Len()-1] != "rad" || lock.Magnify > 100 {
				continue // degrees are the same angles; near a lock differences are too coarse
			}
			steepest := 0.0
			for i, unit := range c.Units() {
				if unit != "rad" {
					continue
				}
				var slope r3.Vec
				for k, turn := range []func(float64) se3.Rot{se3.RotX, se3.RotY, se3.RotZ} {
					var up, down [9]float64
					c.Encode(turn(step).Mul(r), up[:])
					c.Encode(turn(-step).Mul(r), down[:])
					d := math.Remainder(up[i]-down[i], 2*math.Pi) / (2 * step)
					*[]*float64{&slope.X, &slope.Y, &slope.Z}[k] = d
				}
				steepest = max(steepest, slope.Norm())
			}
			if strings.HasPrefix(c.String(), "rotation vector") && steepest < lock.Magnify {
				continue // its three numbers share what one alone may have
			}
			if math.Abs(steepest-lock.Magnify) > 1e-4*lock.Magnify*lock.Magnify {
				t.Fatalf("%v at %v: steepest angle %v, Magnify %v", c, row, steepest, lock.Magnify)
			}
		}
	})
}

func TestConventionToolSpin(t *testing.T) {
	const words = "tool direction and spin degrees"
	rows := []struct {
		name    string
		numbers []float64
		want    se3.Rot
	}{
		{"straight down, spin 0", []float64{0, 0, -1, 0}, fixedXYZ(180, 0, 0)},
		// right-handed about a tool z that points down is clockwise from above
		{"straight down, spin 30", []float64{0, 0, -1, 30}, fixedXYZ(180, 0, -30)},
		// leaning in the x-z plane turns about Y only: tool x leans along
		{"level along x", []float64{1, 0, 0, 0}, se3.RotColumns(r3.Vec{Z: 1}, r3.Vec{Y: -1}, r3.Vec{X: 1})},
		// leaning towards y turns about X only: tool x stays along x
		{"level along y", []float64{0, 1, 0, 0}, se3.RotColumns(r3.Vec{X: 1}, r3.Vec{Z: -1}, r3.Vec{Y: 1})},
		{"straight up by a half turn about Y", []float64{0, 0, 1, 0}, se3.RotY(math.Pi).Mul(fixedXYZ(180, 0, 0))},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			if a := decode(t, words, row.numbers).AngleTo(row.want); !(a <= 1e-12) {
				t.Errorf("decodes %.3g rad away from %v", a, row.want)
			}
			var got [4]float64
			convention(t, words).Encode(row.want, got[:])
			for i := range got {
				if math.Abs(got[i]-row.numbers[i]) > 1e-9 {
					t.Fatalf("encodes as %v, want %v", got, row.numbers)
				}
			}
		})
	}
	var got [4]float64
	if _, lock := convention(t, words).Encode(se3.RotIdentity(), got[:]); lock.Rule != se3.HalfTurnY || !math.IsInf(lock.Magnify, 1) {
		t.Errorf("straight up: lock %v, want the half turn about Y", lock)
	}
}

func TestConventionRefuses(t *testing.T) {
	rows := []struct {
		words   string
		numbers []float64
		want    string
	}{
		{"fixed x-y-z degrees", []float64{1, 2}, "fixed x-y-z degrees takes 3 numbers (about fixed X, about fixed Y, about fixed Z), found 2"},
		{"fixed x-y-z degrees", []float64{1, math.NaN(), 3}, `fixed x-y-z degrees: "about fixed Y" is NaN: write a finite number`},
		{"fixed x-y-z degrees", []float64{1, 2, math.Inf(-1)}, `fixed x-y-z degrees: "about fixed Z" is -Inf: write a finite number`},
		{"moving z-y-z radians", []float64{1, 90, 3}, `moving z-y-z radians: "about new Y" is 90 rad, more than one full turn (6.283 rad): check whether the numbers are in degrees or in radians`},
		{"quaternion w first", []float64{1, 1, 0, 0}, "quaternion w first: the quaternion has length 1.414, allowed is 1 within 0.002: check the order and the decimals of the numbers"},
		{"quaternion w last", []float64{0, 0, 0, 0}, "quaternion w last: the quaternion has length 0, allowed is 1 within 0.002: check the order and the decimals of the numbers"},
		{"axis and angle degrees", []float64{0, 0, 0, 5}, "axis and angle degrees: the axis has length 0, allowed is 1 within 0.002: check the order and the decimals of the numbers"},
		{"tool direction and spin degrees", []float64{0, 0, -2, 5}, "tool direction and spin degrees: the tool direction has length 2, allowed is 1 within 0.002: check the order and the decimals of the numbers"},
		{"matrix by rows", []float64{1, 0, 0, 0, 1, 0, 0, 0, -1}, "matrix by rows: the determinant is -1, allowed is 1: the axes are left-handed, check their order and signs"},
		{"matrix by columns", []float64{1, 0.01, 0, 0, 1, 0, 0, 0, 1}, "matrix by columns: the nine numbers are not a rotation within the rounding of three decimals: axes must have length 1 and be square to each other"},
		{"matrix by rows", make([]float64, 9), "matrix by rows: the nine numbers are not a rotation within the rounding of three decimals: axes must have length 1 and be square to each other"},
	}
	for _, row := range rows {
		r, err := convention(t, row.words).Decode(row.numbers)
		if err == nil || err.Error() != row.want {
			t.Errorf("%s %v:\n got %v\nwant %s", row.words, row.numbers, err, row.want)
		}
		if r != se3.RotIdentity() {
			t.Errorf("%s %v: gave %v beside an error, want the identity", row.words, row.numbers, r)
		}
	}
	var zero se3.Convention
	if _, err := zero.Decode(nil); err == nil || zero.Len() != 0 || zero.String() != "no convention" || zero.Describe() != "no convention" {
		t.Errorf("the zero Convention: Len %d, %q, %v; want 0 numbers and an error", zero.Len(), zero, err)
	}
	if n, _ := zero.Encode(se3.RotIdentity(), nil); n != 0 {
		t.Errorf("the zero Convention wrote %d numbers", n)
	}
}

func TestConventionNoTurnNeedsNoAxis(t *testing.T) {
	if a := decode(t, "axis and angle degrees", []float64{0, 0, 0, 0}).Angle(); a != 0 {
		t.Errorf("turned by %v, want 0", a)
	}
	var got [4]float64
	_, lock := convention(t, "axis and angle degrees").Encode(se3.RotIdentity(), got[:])
	if got != [4]float64{0, 0, 1, 0} || lock.Rule != se3.AxisZ {
		t.Errorf("wrote %v, rule %q", got, lock.Rule)
	}
}

// Half a turn has two rotation vectors and two quaternions; noise must not
// choose between them.
func TestConventionHalfTurnSign(t *testing.T) {
	for _, little := range []float64{0, 1e-11, -1e-11} {
		r := se3.RotAxis(r3.Vec{Y: -1}, math.Pi+little)
		var q [4]float64
		_, lock := convention(t, "quaternion w first").Encode(r, q[:])
		if lock.Rule != se3.PositiveSign || !(q[2] > 0.9) {
			t.Errorf("%v off half a turn about -Y: %v, rule %q; want y = +1", little, q, lock.Rule)
		}
	}
}
