package plan

import "math"

// What may be lost when a profile is thinned: far below what shows in a weld.
const (
	thinSpeed = 0.005                // of the planned speed, dimensionless
	thinArea  = 0.005                // of the area, dimensionless
	thinLeg   = 0.02e-3              // m
	thinAngle = 0.1 * math.Pi / 180  // rad
	thinTurn  = 0.25 * math.Pi / 180 // rad/s
)

// thinned leaves out the samples that straight lines between the others give.
// Method: Douglas and Peucker (1973), from memory.
func thinned(list []ProfileSample, travel float64) []ProfileSample {
	keep := make([]bool, len(list))
	keep[0], keep[len(list)-1] = true, true
	type span struct{ from, to int }
	for work := []span{{0, len(list) - 1}}; len(work) > 0; {
		s := work[len(work)-1]
		work = work[:len(work)-1]
		worst, most := -1, 1.0
		for i := s.from + 1; i < s.to; i++ {
			if off := list[i].off(&list[s.from], &list[s.to], travel); off > most {
				worst, most = i, off
			}
		}
		if worst >= 0 {
			keep[worst] = true
			work = append(work, span{s.from, worst}, span{worst, s.to})
		}
	}
	var thin []ProfileSample
	for i, k := range keep {
		if k {
			thin = append(thin, list[i])
		}
	}
	return thin
}

// off is how far a sample lies off the straight line from a to b, in what may be
// lost.
func (p *ProfileSample) off(a, b *ProfileSample, travel float64) float64 {
	f := 0.5
	if b.along > a.along {
		f = (p.along - a.along) / (b.along - a.along)
	}
	far := func(v, a, b, most float64) float64 {
		if math.IsNaN(v) != math.IsNaN(a) || math.IsNaN(v) != math.IsNaN(b) {
			return math.Inf(1)
		}
		if math.IsNaN(v) {
			return 0
		}
		return math.Abs(v-a-f*(b-a)) / most
	}
	off := max(far(p.Speed, a.Speed, b.Speed, thinSpeed*travel), far(p.Area, a.Area, b.Area, thinArea*p.Area),
		far(p.Leg, a.Leg, b.Leg, thinLeg), far(p.Turn, a.Turn, b.Turn, thinTurn),
		far(p.Work, a.Work, b.Work, thinAngle), far(p.Travel, a.Travel, b.Travel, thinAngle))
	if p.Corner != a.Corner && p.Corner != b.Corner {
		off = math.Inf(1)
	}
	return off
}
