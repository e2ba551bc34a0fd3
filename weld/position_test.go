package weld_test

import (
	"math"
	"math/rand"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/weld"
)

const deg = math.Pi / 180

var up = r3.Vec{Z: 1}

func classify(t *testing.T, kind weld.WeldKind, travel, face r3.Vec) weld.Position {
	t.Helper()
	p, err := weld.Classify(kind, travel, face, up)
	if err != nil {
		t.Fatalf("Classify(%v, %v, %v): %v", kind, travel, face, err)
	}
	return p
}

func TestClassifyRotationSense(t *testing.T) {
	// Looking along +x with z up, the right hand is -y: clockwise from down runs
	// left (+y), up (+z), right (-y).
	for _, row := range []struct {
		name string
		face r3.Vec
		want float64
	}{
		{"down", r3.Vec{Z: -1}, 0},
		{"left", r3.Vec{Y: 1}, 90},
		{"up", r3.Vec{Z: 1}, 180},
		{"right", r3.Vec{Y: -1}, 270},
		{"2F from the left", r3.Vec{Y: 1, Z: 1}, 135},
		{"2F from the right", r3.Vec{Y: -1, Z: 1}, 225},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := classify(t, weld.Fillet, r3.Vec{X: 1}, row.face).Rotation / deg
			if math.Abs(got-row.want) > 1e-9 {
				t.Errorf("rotation %g deg, want %g", got, row.want)
			}
		})
	}
}

func TestClassifyProgression(t *testing.T) {
	for _, row := range []struct {
		name   string
		travel r3.Vec
		want   weld.Progression
	}{
		{"level", r3.Vec{X: 1}, weld.Level},
		{"up", r3.Vec{Z: 1}, weld.Uphill},
		{"down", r3.Vec{Z: -2}, weld.Downhill},
		{"slightly up", r3.Vec{X: 1, Z: 1e-3}, weld.Uphill},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := classify(t, weld.Groove, row.travel, r3.Vec{Y: 1}).Progression; got != row.want {
				t.Errorf("progression %v, want %v", got, row.want)
			}
		})
	}
}

func TestClassifyNearestLimit(t *testing.T) {
	s := func(d float64) float64 { return math.Sin(d * deg) }
	c := func(d float64) float64 { return math.Cos(d * deg) }
	for _, row := range []struct {
		name         string
		kind         weld.WeldKind
		travel, face r3.Vec
		family       weld.CodeFamily
		distance     float64 // deg
		beyond       weld.PositionName
	}{
		// On a level axis the turn about the axis is the whole distance.
		{"2F 45, overhead 10 away", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: 1, Z: 1}, weld.AWS, 10, weld.Overhead4F},
		{"PB 45, PC 10 away", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: 1, Z: 1}, weld.ISO, 10, weld.PC},
		{"PA, vertical 15 away", weld.Groove, r3.Vec{X: 1}, r3.Vec{Z: 1}, weld.ISO, 15, weld.PF},
		{"PA at 28, PB 2 away", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: s(28), Z: c(28)}, weld.ISO, 2, weld.PB},
		{"axis at 13 down, PG 2 away", weld.Groove, r3.Vec{X: c(13), Z: -s(13)}, r3.Vec{Z: 1}, weld.ISO, 2, weld.PG},
		// An upright axis is 10 degrees from where the face begins to count.
		{"upright, 10 from overhead", weld.Fillet, r3.Vec{Z: 1}, r3.Vec{Y: 1}, weld.AWS, 10, weld.Overhead4F},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := classify(t, row.kind, row.travel, row.face).Limit(row.family)
			if math.Abs(got.Distance/deg-row.distance) > 1e-6 || got.Beyond != row.beyond {
				t.Errorf("limit %.6f deg to %v, want %g to %v", got.Distance/deg, got.Beyond, row.distance, row.beyond)
			}
		})
	}
}

// TestNearestLimitBySearch turns the part in many directions: no turn below the
// reported distance changes the position, and some turn just above it reaches
// the position beyond.
func TestNearestLimitBySearch(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for _, kind := range []weld.WeldKind{weld.Fillet, weld.Groove} {
		for i := 0; i < 25; i++ {
			travel := randomUnit(rng)
			face := randomUnit(rng).Reject(travel).Unit()
			p := classify(t, kind, travel, face)
			for _, f := range []weld.CodeFamily{weld.ISO, weld.AWS} {
				searchLimit(t, rng, p, travel, face, f)
			}
		}
	}
}

func searchLimit(t *testing.T, rng *rand.Rand, p weld.Position, travel, face r3.Vec, f weld.CodeFamily) {
	t.Helper()
	limit, reached := p.Limit(f), false
	// Turning the part one way is tilting "up" the other way. The directions of
	// tilt are spaced finely enough that one meets the region beyond, even at
	// its corner, within the overshoot.
	east := up.Orthogonal()
	north := up.Cross(east)
	const directions, overshoot = 720, 0.5 * deg
	for k := 0; k < directions; k++ {
		phi := 2 * math.Pi * float64(k) / directions
		way := east.Scale(math.Cos(phi)).AddScaled(math.Sin(phi), north)
		tilt := func(angle float64) weld.PositionName {
			tilted := up.Scale(math.Cos(angle)).AddScaled(math.Sin(angle), way)
			q, err := weld.Classify(p.Kind, travel, face, tilted)
			if err != nil {
				t.Fatal(err)
			}
			return q.Name(f)
		}
		if got := tilt(limit.Distance * rng.Float64() * 0.999); got != p.Name(f) {
			t.Fatalf("%v %v at incl %.3f tilt %.3f: a turn below the reported %.4f deg already gives %v",
				p.Kind, p.Name(f), p.Inclination/deg, p.Tilt/deg, limit.Distance/deg, got)
		}
		if tilt(limit.Distance+overshoot) == limit.Beyond {
			reached = true
		}
	}
	if !reached {
		t.Fatalf("%v %v at incl %.3f tilt %.3f: no turn just above %.4f deg reaches %v",
			p.Kind, p.Name(f), p.Inclination/deg, p.Tilt/deg, limit.Distance/deg, limit.Beyond)
	}
}

func randomUnit(rng *rand.Rand) r3.Vec {
	for {
		v := r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}
		if v.Norm() > 1e-3 {
			return v.Unit()
		}
	}
}

func TestClassifyRefuses(t *testing.T) {
	x, z := r3.Vec{X: 1}, r3.Vec{Z: 1}
	for _, row := range []struct {
		name             string
		kind             weld.WeldKind
		travel, face, up r3.Vec
	}{
		{"no kind", 0, x, z, z},
		{"no travel", weld.Fillet, r3.Vec{}, z, z},
		{"no up", weld.Fillet, x, z, r3.Vec{}},
		{"no face", weld.Fillet, x, r3.Vec{}, z},
		{"face along travel", weld.Fillet, x, x, z},
		{"not a number", weld.Fillet, r3.Vec{X: math.NaN()}, z, z},
		{"infinite", weld.Fillet, x, r3.Vec{Z: math.Inf(1)}, z},
	} {
		t.Run(row.name, func(t *testing.T) {
			if p, err := weld.Classify(row.kind, row.travel, row.face, row.up); err == nil {
				t.Errorf("got %v, want an error", p)
			}
		})
	}
}

// TestClassifyProperties: every weld has a position in both families; the
// lengths of the directions and the mirror image do not matter; the angles are
// what their definitions say.
func TestClassifyProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coord := rapid.Float64Range(-1, 1)
		travel := r3.Vec{X: coord.Draw(t, "tx"), Y: coord.Draw(t, "ty"), Z: coord.Draw(t, "tz")}
		face := r3.Vec{X: coord.Draw(t, "nx"), Y: coord.Draw(t, "ny"), Z: coord.Draw(t, "nz")}
		kind := rapid.SampledFrom([]weld.WeldKind{weld.Fillet, weld.Groove}).Draw(t, "kind")
		if travel.Norm() < 1e-3 || face.Reject(travel.Unit()).Norm() < 1e-2 {
			return
		}
		p, err := weld.Classify(kind, travel, face, up)
		if err != nil {
			t.Fatal(err)
		}
		if p.ISO.Family() != weld.ISO || p.AWS.Family() != weld.AWS {
			t.Fatalf("no position: %+v", p)
		}
		if math.IsInf(p.ISOLimit.Distance, 0) || math.IsInf(p.AWSLimit.Distance, 0) {
			t.Fatalf("no limit: %+v", p)
		}
		scaled, err := weld.Classify(kind, travel.Scale(3), face.Scale(0.2), up.Scale(9.81))
		if err != nil || scaled.ISO != p.ISO || scaled.AWS != p.AWS {
			t.Fatalf("length changed the position: %v %v, was %v %v", scaled.ISO, scaled.AWS, p.ISO, p.AWS)
		}
		mirror := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
		m, err := weld.Classify(kind, mirror(travel), mirror(face), up)
		if err != nil || m.ISO != p.ISO || m.AWS != p.AWS {
			t.Fatalf("the mirror image changed the position: %v %v, was %v %v", m.ISO, m.AWS, p.ISO, p.AWS)
		}
		if want := math.Pi/2 - travel.Angle(up); math.Abs(p.Inclination-math.Abs(want)) > 1e-9 {
			t.Fatalf("inclination %g, want %g", p.Inclination, math.Abs(want))
		}
	})
}

func BenchmarkClassify(b *testing.B) {
	travel, face := r3.Vec{X: 0.94, Z: 0.34}, r3.Vec{Y: 0.7, Z: 0.7}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := weld.Classify(weld.Fillet, travel, face, up); err != nil {
			b.Fatal(err)
		}
	}
}
