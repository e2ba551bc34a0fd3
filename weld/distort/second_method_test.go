package distort_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld/distort"
)

// The constants of Okerblom's rules as public code has them, in N and mm.
const (
	alpha   = 1.2e-5
	cGamma  = 0.0047
	modulus = 2e5
)

// TestHeatRuleAgainstStrips adds up the expansion of strips beside the weld: the
// heat spreads as a bell whose heat is q, and each strip is as long as its
// temperature makes it.
func TestHeatRuleAgainstStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.Float64Range(200, 3000).Draw(t, "q J/mm")
		s := rapid.Float64Range(3, 30).Draw(t, "thickness mm")
		spread := rapid.Float64Range(5, 50).Draw(t, "spread mm")
		sum := 0.0
		for y := -8 * spread; y < 8*spread; y += spread / 50 {
			T := q / (cGamma * s * spread * math.Sqrt(2*math.Pi)) * math.Exp(-y*y/(2*spread*spread)) // K
			sum += alpha * T * spread / 50
		}
		e, err := distort.Butt{Area: 50 * unit.MM2, Thickness: s * unit.MM, HeatInput: q * unit.JPerMM}.Transverse()
		if err != nil {
			t.Fatal(err)
		}
		got := e.Rules[len(e.Rules)-1].Value / unit.MM
		if math.Abs(got-sum) > 1e-6*sum {
			t.Fatalf("%g mm, strips %g mm", got, sum)
		}
		if !e.Range.Contains(e.Rules[0].Value) || !e.Range.Contains(e.Rules[1].Value) || !e.Range.Contains(e.Rules[2].Value) {
			t.Fatalf("%+v", e)
		}
	})
}

// TestBowAgainstMarching follows the bent line of a beam whose pulls give it a
// curvature, piece by piece, and measures how far its middle is off the chord.
func TestBowAgainstMarching(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		L := rapid.Float64Range(500, 8000).Draw(t, "length mm")
		I := rapid.Float64Range(1e6, 1e9).Draw(t, "inertia mm4")
		b := distort.Beam{Length: L * unit.MM, Inertia: I * mm4}
		moment, metal := 0.0, 0.0 // N mm, mm3
		for range rapid.IntRange(1, 4).Draw(t, "welds") {
			A, d := rapid.Float64Range(5, 100).Draw(t, "area"), rapid.Float64Range(-300, 300).Draw(t, "offset")
			q := rapid.Float64Range(200, 3000).Draw(t, "q J/mm")
			b.Welds = append(b.Welds, distort.Pull{Area: A * unit.MM2, Offset: d * unit.MM, HeatInput: q * unit.JPerMM})
			moment += 0.3354 * alpha * q * modulus / cGamma * d
			metal += A * d
		}
		marched := func(curvature float64) float64 { // mm at the middle, for a curvature in 1/mm
			const n = 1000
			y, slope, middle := 0.0, 0.0, 0.0
			for i := range n {
				y += slope*L/n + curvature*(L/n)*(L/n)/2
				slope += curvature * L / n
				if i == n/2-1 {
					middle = y
				}
			}
			return y/2 - middle
		}
		e, err := b.Bow()
		if err != nil {
			t.Fatal(err)
		}
		// Blodgett's 0.005 is a curvature of 8 x 0.005 A d/I.
		for i, want := range []float64{marched(0.04 * metal / I), marched(moment / (modulus * I))} {
			if got := e.Rules[i].Value / unit.MM; math.Abs(got-want) > 1e-6*math.Abs(want)+1e-12 {
				t.Fatalf("%s: %g mm, marched %g mm", e.Rules[i].Name, got, want)
			}
		}
	})
}

// TestPullShortens: along a weld the elastic rule gives the strain under the
// force that the camber rule takes: camber 8 E I f/(d L^2) is that force.
func TestPullShortens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.Float64Range(200, 3000).Draw(t, "q J/mm") * unit.JPerMM
		L, A, I, d := rapid.Float64Range(0.5, 8).Draw(t, "length"), rapid.Float64Range(1e-3, 0.1).Draw(t, "section"), 1e-5, 0.1
		e, err := distort.Along{Joint: distort.FilletJoint, Length: L, HeatInput: q, Section: A}.Longitudinal()
		if err != nil {
			t.Fatal(err)
		}
		b, err := distort.Beam{Length: L, Inertia: I, Welds: []distort.Pull{{Area: 18 * unit.MM2, Offset: d, HeatInput: q}}}.Bow()
		if err != nil {
			t.Fatal(err)
		}
		force := 8 * 2e11 * I * b.Rules[1].Value / (d * L * L) // N
		if want := force * L / (2e11 * A); math.Abs(e.Rules[1].Value-want) > 1e-9*want {
			t.Fatalf("%g m, want %g", e.Rules[1].Value, want)
		}
	})
}

// TestBowCancels: equal welds on both sides do not bend a beam, and more area,
// length or offset bends more.
func TestBowCancels(t *testing.T) {
	up := distort.Pull{Area: 18 * unit.MM2, Offset: 80 * unit.MM, HeatInput: 0.765 * unit.KJPerMM}
	down := up
	down.Offset = -up.Offset
	e, err := distort.Beam{Length: 3, Inertia: 8e6 * mm4, Welds: []distort.Pull{up, down}}.Bow()
	if err != nil || e.Range.Low != 0 || e.Range.High != 0 {
		t.Errorf("%+v, %v", e, err)
	}
	e, err = distort.Beam{Length: 3, Inertia: 8e6 * mm4, Welds: []distort.Pull{down}}.Bow()
	if err != nil || !(e.Range.High < 0) {
		t.Errorf("a weld below bends the other way: %+v, %v", e, err)
	}
}

// TestLiftGrows: with the leg, and faster with thinner flanges.
func TestLiftGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := distort.Flange{Width: rapid.Float64Range(50, 400).Draw(t, "width") * unit.MM, Leg: rapid.Float64Range(3, 12).Draw(t, "leg") * unit.MM,
			Thickness: rapid.Float64Range(5, 40).Draw(t, "thickness") * unit.MM}
		lift := func(f distort.Flange) float64 {
			l, err := f.Lift()
			if err != nil {
				t.Fatal(err)
			}
			return l.Edge
		}
		base := lift(f)
		thin, fat := f, f
		thin.Thickness /= 2
		fat.Leg *= 2
		if r := lift(thin) / base; math.Abs(r-4) > 1e-9 {
			t.Fatalf("half the thickness lifts %g times", r)
		}
		if r := lift(fat) / base; math.Abs(r-math.Pow(2, 1.3)) > 1e-9 {
			t.Fatalf("twice the leg lifts %g times", r)
		}
	})
}
