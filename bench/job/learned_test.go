package job_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
)

// set11 is a set that nothing was learned about.
func set11(t fataler, eta, k float64) job.LearnedSet {
	start, err := deposit.NewBelief(eta, k)
	if err != nil {
		t.Fatal(err)
	}
	return job.LearnedSet{ID: "11", Wire: 1.2 * unit.MM, Transfer: weld.Spray, Start: start, Belief: start}
}

type fataler interface{ Fatal(...any) }

// exact reads a quantity as documents do.
func exact(t fataler, k unit.Kind, text string) float64 {
	x, err := unit.Parse(k, text)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// perfect is what a gauge of an invented step reads of a weld with a true
// efficiency and face factor: by the metal balance, and by the parabola of the
// face. Nothing of package deposit is used.
func perfect(eta, k, travel float64) job.LearnedReading {
	const d, feed = 1.2e-3, 8.0 / 60
	area := eta * math.Pi * d * d / 4 * feed / travel
	z := math.Sqrt(2 * area / k)
	flat := z * z / 2
	face := z * math.Sqrt2
	bulge := (k - 1) * flat / (2.0 / 3 * face)
	return job.LearnedReading{Date: "2031-05-12", Seam: "W1", Gauged: deposit.Gauged{
		Melt: deposit.Melt{WireDiameter: d, Feed: feed}, Travel: travel, Angle: math.Pi / 2,
		LegBase: z, LegOther: z, Throat: z/math.Sqrt2 + bulge, Step: 0.1 * unit.MM}}
}

// Perfect readings of a true efficiency and face factor are learned: the belief
// comes to them, and its spread shrinks with every reading.
func TestLearningConverges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eta, k := rapid.Float64Range(0.93, 0.985).Draw(t, "eta"), rapid.Float64Range(1.02, 1.22).Draw(t, "k")
		s := set11(t, 0.96, 1.1)
		last := s.Belief
		for n := range 400 {
			if err := s.Teach(perfect(eta, k, (6+0.01*float64(n%100))*unit.MMPerS)); err != nil {
				t.Fatalf("reading %d: %v", n+1, err)
			}
			if b := s.Belief; !(b.EfficiencySpread < last.EfficiencySpread && b.FaceSpread < last.FaceSpread) {
				t.Fatalf("reading %d: spreads %g %g, before %g %g", n+1, b.EfficiencySpread, b.FaceSpread, last.EfficiencySpread, last.FaceSpread)
			}
			last = s.Belief
		}
		if math.Abs(last.Efficiency-eta) > 0.002 || math.Abs(last.FaceFactor-k) > 0.002 || last.EfficiencySpread > 0.004 {
			t.Fatalf("efficiency %.4f +- %.4f, want %.4f; face factor %.4f, want %.4f", last.Efficiency, last.EfficiencySpread, eta, last.FaceFactor, k)
		}
	})
}

// A reading that contradicts the rest is kept and does not count.
func TestOutlierIsKeptAndDoesNotCount(t *testing.T) {
	s := set11(t, 0.96, 1.1)
	for range 6 {
		if err := s.Teach(perfect(0.96, 1.1, 7*unit.MMPerS)); err != nil {
			t.Fatal(err)
		}
	}
	before := s.Belief
	slip := perfect(0.96, 1.1, 7*unit.MMPerS)
	slip.Gauged.LegBase *= 1.15 // a third more metal than six readings agree on
	slip.Gauged.LegOther *= 1.15
	err := s.Teach(slip)
	if err == nil || !strings.Contains(err.Error(), "standard deviations away") {
		t.Fatalf("error %v", err)
	}
	if s.Belief != before || len(s.Readings) != 7 || s.Counted() != 6 || s.Readings[6].LeftOut == "" {
		t.Errorf("%+v", s)
	}
}

// What is written is read back, whatever the names.
func TestLearnedIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"W1", "W2 left", `a "b" \ c`, "ü: #1", "12", "no", "- x", "{y}", "0x1", " "}).Filter(func(s string) bool { return strings.TrimSpace(s) != "" })
		l := &job.Learned{File: "learned.yaml"}
		for i := range rapid.IntRange(0, 3).Draw(t, "sets") {
			s := set11(t, float64(rapid.IntRange(940, 980).Draw(t, "eta"))/1000, 1.1)
			s.ID = fmt.Sprintf("%s %d", name.Draw(t, "id"), i)
			for range rapid.IntRange(0, 5).Draw(t, "readings") {
				r := perfect(0.96, 1.1, 7*unit.MMPerS)
				tenth := func(what string, low, high int) float64 {
					return exact(t, unit.Length, fmt.Sprintf("%g mm", float64(rapid.IntRange(low, high).Draw(t, what))/10))
				}
				r.Seam, r.Revision = name.Draw(t, "seam"), rapid.SampledFrom([]string{"", "B", "07"}).Draw(t, "revision")
				r.Gauged.LegBase, r.Gauged.LegOther, r.Gauged.Throat = tenth("leg", 50, 70), tenth("leg", 50, 70), 0
				r.Gauged.Travel, r.Gauged.Melt.Feed, r.Gauged.Angle = exact(t, unit.Speed, "7.123 mm/s"), exact(t, unit.WireFeed, "8 m/min"), exact(t, unit.Angle, "90 deg")
				if r.Placed = rapid.Bool().Draw(t, "placed"); r.Placed {
					r.At = tenth("at", 0, 3000)
				}
				_ = s.Teach(r) // some are left out
			}
			l.Sets = append(l.Sets, s)
		}
		text := l.Encode()
		back, err := job.DecodeLearned("learned.yaml", memory{"learned.yaml": string(text)})
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if again := back.Encode(); !bytes.Equal(again, text) {
			t.Fatalf("got\n%s\nwant\n%s", again, text)
		}
		for i := range l.Sets {
			a, b := l.Sets[i], back.Sets[i]
			if a.ID != b.ID || len(a.Readings) != len(b.Readings) || math.Abs(a.Belief.Efficiency-b.Belief.Efficiency) > 1e-12 || a.Belief.Evidence.Readings != b.Belief.Evidence.Readings {
				t.Fatalf("%+v\n%+v", a, b)
			}
			for k := range a.Readings {
				if !a.Readings[k].Same(b.Readings[k]) || a.Readings[k].LeftOut != b.Readings[k].LeftOut {
					t.Fatalf("%+v\n%+v", a.Readings[k], b.Readings[k])
				}
			}
		}
	})
}

// The document takes the figures over, for the sets of the file alone.
func TestDocumentTakesWhatWasLearned(t *testing.T) {
	m := small(t)
	s := set11(t, 0.96, 1.1)
	s.Wire = 1 * unit.MM
	r := perfect(0.96, 1.1, 7*unit.MMPerS)
	r.Gauged.Melt.WireDiameter = s.Wire
	r.Gauged.LegBase, r.Gauged.LegOther, r.Gauged.Throat = 5.3*unit.MM, 5.1*unit.MM, 0
	if err := s.Teach(r); err != nil {
		t.Fatal(err)
	}
	m["learned.yaml"] = string((&job.Learned{Sets: []job.LearnedSet{s}}).Encode())
	m["job.yaml"] = strings.Replace(m["job.yaml"], "home: home\n", "home: home\nlearned: learned.yaml\n", 1)
	j := decodeSmall(t, m)
	got := j.Settings[0]
	if math.Abs(got.Efficiency-s.Belief.Efficiency) > 1e-12 || math.Abs(got.Convexity-s.Belief.FaceFactor) > 1e-12 || got.Efficiency == 0.96 {
		t.Errorf("%g %g, want %g %g", got.Efficiency, got.Convexity, s.Belief.Efficiency, s.Belief.FaceFactor)
	}
	if l := j.Learned; l == nil || l.File != "learned.yaml" || l.Set("11") == nil || l.Set("12") != nil || l.At.Field != "learned" {
		t.Errorf("%+v", l)
	}
	if plain := decodeSmall(t, small(t)); plain.Learned != nil || !reflect.DeepEqual(plain.Learned.Set("11"), (*job.LearnedSet)(nil)) {
		t.Error("something learned without a file")
	}
}

func FuzzLearned(f *testing.F) {
	seed, err := os.ReadFile(filepath.Join("testdata", "learned.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(seed))
	f.Add("learned: 1\nsets: []\n")
	f.Add("learned: 2\nsets: [{id: 11}]\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := job.DecodeLearned("learned.yaml", memory{"learned.yaml": text})
		if (l == nil) == (err == nil) {
			t.Fatalf("%v, %v", l, err)
		}
		if err != nil {
			return
		}
		first := l.Encode()
		back, err := job.DecodeLearned("learned.yaml", memory{"learned.yaml": string(first)})
		if err != nil {
			t.Fatalf("%v\n%s", err, first)
		}
		if again := back.Encode(); !bytes.Equal(first, again) {
			t.Fatalf("%s\n%s", first, again)
		}
	})
}
