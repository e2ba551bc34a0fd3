package intake_test

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"seamwright/bench/intake"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The list of the example job is good: nothing is asked that it settles, and
// nothing is suspected.
func TestGoodListRaisesNoSuspicion(t *testing.T) {
	data, err := os.ReadFile("testdata/cradle.csv")
	if err != nil {
		t.Fatal(err)
	}
	table, questions, err := intake.Read(data, intake.Known{Reach: 1.2, Answers: intake.Answers{
		"measured_in": "base", "point": "tip", "orientation": "fixed x-y-z degrees",
	}})
	if err != nil || len(questions) > 0 {
		t.Fatalf("%v, questions %+v", err, questions)
	}
	points, problems := intake.Apply(table)
	if len(problems) > 0 || len(points) < 40 {
		t.Fatalf("%d points, problems %+v", len(points), problems)
	}
	for _, s := range intake.Suspicions(points, table.Stated) {
		t.Errorf("suspected %+v", s)
	}
	if table.Stated.Length != "mm" || table.Stated.Joints != "deg" {
		t.Errorf("stated %+v", table.Stated)
	}
}

// taught makes a list as hand guiding gives it: seams in random places and
// directions, errors of 1 to 3 mm and up to 10 deg.
func taught(r *rand.Rand) []intake.Point {
	direction := func() r3.Vec {
		return r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}.Unit()
	}
	var out []intake.Point
	add := func(label string, p r3.Vec, rot se3.Rot) {
		p = p.Add(direction().Scale(0.003 * r.Float64()))
		rot = se3.RotAxis(direction(), 0.17*r.Float64()).Mul(rot)
		out = append(out, intake.Point{Label: label, Line: len(out) + 1, HasPlace: true, HasTurn: true, Pose: se3.Pose{R: rot, P: p}})
	}
	for _, seam := range []string{"W1", "W2", "W3", "W4"} {
		start := r3.Vec{X: 0.4 + 0.5*r.Float64(), Y: 0.8*r.Float64() - 0.4, Z: 0.3*r.Float64() - 0.1}
		along := direction()
		length := 0.06 + 0.4*r.Float64()
		wire := direction().Reject(along).Unit()
		rot := se3.Between(r3.Vec{Z: 1}, wire)
		out1, out2 := wire.Scale(-0.05-0.08*r.Float64()), wire.Scale(-0.05-0.08*r.Float64())
		add(seam+" in", start.Add(out1), rot)
		add(seam+" start", start, rot)
		if r.IntN(2) == 0 {
			add(seam+" via 1", start.AddScaled(length/3, along), rot)
			add(seam+" via 2", start.AddScaled(2*length/3, along), rot)
		}
		add(seam+" end", start.AddScaled(length, along), rot)
		add(seam+" out", start.AddScaled(length, along).Add(out2), rot)
	}
	return out
}

// Good lists raise nothing; the few that do must stay below one in a hundred
// lists of four seams.
func TestFalseAlarmsAreRare(t *testing.T) {
	const lists = 2000
	alarms := map[string]int{}
	total := 0
	for seed := range uint64(lists) {
		found := intake.Suspicions(taught(rand.New(rand.NewPCG(seed, 1))), intake.Words{Length: "mm", Point: "tip"})
		for _, s := range found {
			alarms[s.Kind]++
			if total == 0 {
				t.Logf("first: %+v", s)
			}
			total++
		}
	}
	if total > lists/100 {
		t.Errorf("%d alarms in %d good lists: %v", total, lists, alarms)
	}
	t.Logf("%d alarms in %d good lists: %v", total, lists, alarms)
}

// Slips that people make are found in most lists, at the right row.
func TestSlipsAreFound(t *testing.T) {
	swap := func(p r3.Vec) r3.Vec { return r3.Vec{X: p.Y, Y: p.X, Z: p.Z} }
	for _, c := range []struct {
		name  string
		slip  func(r3.Vec) r3.Vec
		least float64 // share of lists in which the row is named
	}{
		{"row in metres", func(p r3.Vec) r3.Vec { return p.Scale(1e-3) }, 0.95},
		{"row in inches", func(p r3.Vec) r3.Vec { return p.Scale(1 / 25.4) }, 0.95},
		{"x lost its minus", func(p r3.Vec) r3.Vec { p.X = -p.X; return p }, 0.95},
		{"x and y exchanged", swap, 0.85},
		{"x ten times", func(p r3.Vec) r3.Vec { p.X *= 10; return p }, 0.95},
	} {
		const lists = 300
		named := 0
		for seed := range uint64(lists) {
			points := taught(rand.New(rand.NewPCG(seed, 2)))
			points[1].Pose.P = c.slip(points[1].Pose.P) // W1 start
			for _, s := range intake.Suspicions(points, intake.Words{Length: "mm", Point: "tip"}) {
				if s.Lines[0] == points[1].Line {
					named++
					break
				}
			}
		}
		if got := float64(named) / lists; got < c.least {
			t.Errorf("%s: found in %.2f of the lists, want %.2f", c.name, got, c.least)
		} else {
			t.Logf("%s: found in %.2f", c.name, got)
		}
	}
}

// Suspicions never change a point.
func TestSuspicionsChangeNothing(t *testing.T) {
	points := taught(rand.New(rand.NewPCG(1, 3)))
	points[1].Pose.P = points[1].Pose.P.Scale(1e-3)
	before := points[1].Pose.P
	found := intake.Suspicions(points, intake.Words{})
	if points[1].Pose.P != before || len(found) == 0 || !strings.Contains(found[0].Message, "metres") {
		t.Errorf("got %v, %+v", points[1].Pose.P, found)
	}
}
