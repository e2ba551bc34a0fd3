package drawings

import (
	"fmt"

	"seamwright/robot/motion"
)

// law is the time law of a move of one radian with the limits that a joint has by
// rule, to scale: place, speed, acceleration and jerk over time.
func law() *sheet {
	s := &sheet{width: 880, height: 690, title: "A move from rest to rest with speed, acceleration and jerk limited, over time"}
	limits := motion.LawLimits{Speed: 1.6, Accel: 5, Jerk: 50}
	l, err := motion.NewSevenPhase(1, limits)
	if err != nil {
		panic(err) // the drawing itself is wrong
	}
	rows := []struct {
		name, unit string
		most       float64 // rad, per s, s2 or s3
		zero       float64 // px, of the line of 0
		high       float64 // px, of most
		at         func(t float64) float64
	}{
		{"place", "1 rad", 1, 150, 90, func(t float64) float64 { p, _, _ := l.At(t); return p }},
		{"speed", fmt.Sprintf("%g rad/s", limits.Speed), limits.Speed, 290, 90, func(t float64) float64 { _, v, _ := l.At(t); return v }},
		{"acceleration", fmt.Sprintf("%g rad/s2", limits.Accel), limits.Accel, 405, 60, func(t float64) float64 { _, _, a := l.At(t); return a }},
		{"jerk", fmt.Sprintf("%g rad/s3", limits.Jerk), limits.Jerk, 565, 60, l.JerkAt},
	}
	const left, right = 190.0, 840.0
	x := func(t float64) float64 { return left + (right-left)*t/l.Duration() }
	ends := append([]float64{0}, sevenEnds(l)...)
	for _, t := range ends {
		s.line("dash", point{x(t), 50}, point{x(t), 640})
	}
	for i := 1; i < len(ends); i++ {
		s.text(point{(x(ends[i-1]) + x(ends[i])) / 2, 40}, "middle", "small", fmt.Sprint(i))
	}
	for _, r := range rows {
		s.arrow("thin", point{left, r.zero}, point{right + 20, r.zero})
		y := func(t float64) float64 { return r.zero - r.high*r.at(t)/r.most }
		var curve []point
		for i := 1; i < len(ends); i++ { // both sides of a jump
			const parts = 24
			for k := range parts + 1 {
				f := 1e-6 + (1-2e-6)*float64(k)/parts
				t := ends[i-1] + f*(ends[i]-ends[i-1])
				curve = append(curve, point{x(t), y(t)})
			}
		}
		s.line("edge", curve...)
		s.text(point{left - 14, r.zero - r.high/2}, "end", "big", r.name)
		s.text(point{left - 14, r.zero - r.high/2 + 20}, "end", "small", "to "+r.unit)
	}
	s.text(point{right, 665}, "end", "", fmt.Sprintf("%.2f s", l.Duration()))
	s.text(point{left, 665}, "start", "", "rest")
	return s
}

// sevenEnds are the ends of the phases, s.
func sevenEnds(l motion.SevenPhase) []float64 {
	e := l.Ends()
	return e[:]
}
