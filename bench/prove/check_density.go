package prove

import (
	"math"

	"seamwright/unit"
)

// How near each other the samples of the trace are, by the command's contract, with a
// little for the last digits.
const (
	airApart  = 20e-3 + 2*roundTime // s
	weldApart = 2e-3 + samePlace    // m
)

// density holds the samples of the trace to what is promised of it: at most 20 ms
// apart in the air, at most 2 mm on a seam. What happens between them is judged from
// them.
func (p *proof) density() {
	air := atMost("samples of the trace in the air", "ms", 1e3)
	weld := atMost("samples of the trace on a seam", "mm", 1/unit.MM)
	for i := 1; i < len(p.trace); i++ {
		a, b := &p.trace[i-1], &p.trace[i]
		if a.arc && b.arc && a.seam == b.seam && a.pass == b.pass {
			d := math.Abs(b.along - a.along)
			if math.IsNaN(d) {
				d = a.tip.P.Dist(b.tip.P)
			}
			if weld.near(d, weldApart) {
				weld.keep(d, weldApart, p.atSample(i))
			}
			continue
		}
		if dt := b.t - a.t; air.near(dt, airApart) {
			air.keep(dt, airApart, p.atSample(i))
		}
	}
	p.add(air, weld)
}
