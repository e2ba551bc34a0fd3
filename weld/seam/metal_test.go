package seam_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld/seam"
)

// No metal is lost: the area added up along the seam is the flow times the time,
// whatever the speeds and dwells, at the ends too.
func TestMetalIsConserved(t *testing.T) {
	base := boxRun(t)
	rapid.Check(t, func(t *rapid.T) {
		r := base
		r.Length = rapid.Float64Range(0.05, 1).Draw(t, "length")
		r.Speeds = nil
		at := rapid.Float64Range(-0.1, 0.05).Draw(t, "first")
		for range rapid.IntRange(1, 6).Draw(t, "speeds") {
			r.Speeds = append(r.Speeds, seam.SpeedAt{Arc: at, Speed: rapid.Float64Range(1e-3, 20e-3).Draw(t, "speed")})
			at += rapid.Float64Range(0.001, 0.3).Draw(t, "step")
		}
		r.Dwells = nil
		for range rapid.IntRange(0, 3).Draw(t, "dwells") {
			r.Dwells = append(r.Dwells, seam.Dwell{
				Arc: rapid.Float64Range(0, 1).Draw(t, "at") * r.Length, Time: rapid.Float64Range(0, 3).Draw(t, "time"),
				Spread: rapid.SampledFrom([]float64{0, 0.004, 0.03}).Draw(t, "spread"),
				Feed:   rapid.SampledFrom([]float64{0, 0.6, 1}).Draw(t, "feed"),
			})
		}
		m, err := seam.NewMetal(r)
		if err != nil {
			t.Fatal(err)
		}
		const n = 100000
		h := r.Length / n
		var sum float64
		for i := range n {
			sum += m.Area((float64(i)+0.5)*h) * h
		}
		if want := m.Volume(); math.Abs(sum-want) > 2e-3*want {
			t.Fatalf("%v m3 along the seam, %v laid", sum, want)
		}
		want := m.Time()
		for _, d := range r.Dwells {
			if d.Feed > 0 {
				want -= (1 - d.Feed) * d.Time
			}
		}
		if want *= r.Melt.Flow(); math.Abs(m.Volume()-want) > 1e-12*want {
			t.Fatalf("volume %v, want %v", m.Volume(), want)
		}
		half := r.Length / 2
		if parts := m.TravelTime(0, half) + m.TravelTime(half, r.Length); math.Abs(parts-m.TravelTime(0, r.Length)) > 1e-9*parts {
			t.Fatalf("%v s in two halves, %v in one go", parts, m.TravelTime(0, r.Length))
		}
	})
}

// Speed between rows, and the time of a steady rise, 0.1 m from 5 to 10 mm/s:
// 0.1*ln(2)/0.005 s (the integral of 1/v, by hand).
func TestMetalSpeeds(t *testing.T) {
	r := boxRun(t)
	r.Length = 0.1
	r.Speeds = []seam.SpeedAt{{Arc: 0, Speed: 5e-3}, {Arc: 0.1, Speed: 10e-3}}
	m, err := seam.NewMetal(r)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := m.Time(), 0.1*math.Ln2/5e-3; math.Abs(got-want) > 1e-12 {
		t.Errorf("%v s, want %v", got, want)
	}
	for _, tt := range []struct{ arc, want float64 }{{-1, 5e-3}, {0, 5e-3}, {0.05, 7.5e-3}, {0.1, 10e-3}, {2, 10e-3}} {
		if got := m.Speed(tt.arc); math.Abs(got-tt.want) > 1e-15 {
			t.Errorf("at %v: %v, want %v", tt.arc, got, tt.want)
		}
	}
	// Twice the speed, half the metal.
	if a, b := m.Area(0), m.Area(0.1); math.Abs(a-2*b) > 1e-15 {
		t.Errorf("areas %v and %v, want one half of the other", a, b)
	}
	r.Speeds = r.Speeds[:1]
	if m, err = seam.NewMetal(r); err != nil || math.Abs(m.Time()-20) > 1e-12 {
		t.Errorf("%v s, %v; want 20", m.Time(), err)
	}
}

func TestMetalRefuses(t *testing.T) {
	tests := []struct {
		name   string
		change func(*seam.MetalRequest)
		word   string
	}{
		{"no wire", func(r *seam.MetalRequest) { r.Melt.WireDiameter = 0 }, "wire"},
		{"no shape", func(r *seam.MetalRequest) { r.Shape.Convexity = 0 }, "shape"},
		{"no length", func(r *seam.MetalRequest) { r.Length = 0 }, "length above 0"},
		{"no speed", func(r *seam.MetalRequest) { r.Speeds = nil }, "no travel speed"},
		{"a stop", func(r *seam.MetalRequest) { r.Speeds = []seam.SpeedAt{{Speed: 6e-3}, {Arc: 0.1}} }, "as a dwell"},
		{"out of order", func(r *seam.MetalRequest) {
			r.Speeds = []seam.SpeedAt{{Arc: 0.1, Speed: 6e-3}, {Arc: 0.1, Speed: 7e-3}}
		}, "order them"},
		{"dwell off the seam", func(r *seam.MetalRequest) { r.Dwells = []seam.Dwell{{Arc: 0.7, Time: 1}} }, "dwell 1: at 0.7 m"},
		{"dwell in ms", func(r *seam.MetalRequest) { r.Dwells = []seam.Dwell{{Time: 2000}} }, "0 to 60 s"},
		{"feed of the seam itself", func(r *seam.MetalRequest) { r.Dwells = []seam.Dwell{{Time: 1, Feed: 0.15e3}} }, "times the feed"},
		{"no spread", func(r *seam.MetalRequest) { r.Dwells = []seam.Dwell{{Time: 1, Spread: -1}} }, "spread over"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := boxRun(t)
			tt.change(&r)
			if _, err := seam.NewMetal(r); err == nil || !strings.Contains(err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", err, tt.word)
			}
		})
	}
}
