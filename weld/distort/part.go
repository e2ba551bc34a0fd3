package distort

import "math"

// pair is a moment about both neutral axes, m4.
type pair struct{ y, z float64 }

func (a pair) plus(b pair) pair { return pair{a.y + b.y, a.z + b.z} }

func (a pair) size() float64 { return math.Hypot(a.y, a.z) }

// part is a part while its order is looked for.
type part struct {
	request OrderRequest
	moments []pair // of each seam
	done    []bool
	now     pair    // of the seams that are done
	largest float64 // size of the largest single moment, m4
	total   float64 // sum of the sizes, m4
	low     float64 // ends of the part as the seams tell them, m
	high    float64
}

func newPart(r OrderRequest) *part {
	p := &part{request: r, moments: make([]pair, len(r.Seams)), done: make([]bool, len(r.Seams)), low: math.Inf(1), high: math.Inf(-1)}
	for i, s := range r.Seams {
		volume := s.Area * math.Abs(s.To-s.From)
		p.moments[i] = pair{volume * s.Y, volume * s.Z}
		size := p.moments[i].size()
		p.largest = max(p.largest, size)
		p.total += size
		p.low, p.high = min(p.low, s.From, s.To), max(p.high, s.From, s.To)
	}
	return p
}

// next returns the seam that comes next and why.
func (p *part) next() (int, Reason) {
	now := p.now.size()
	if now <= balanced*p.largest {
		return p.best(p.thicker), ThickFirst
	}
	i := p.best(p.nearerToBalance)
	if p.now.plus(p.moments[i]).size() < now {
		return i, Balances
	}
	return p.best(p.thicker), NoneBalances
}

// best returns the first seam that is left and that no other left is before.
func (p *part) best(before func(a, b int) bool) int {
	best := -1
	for i := range p.done {
		if !p.done[i] && (best < 0 || before(i, best)) {
			best = i
		}
	}
	return best
}

// thicker reports whether seam a is thicker than b, or as thick and nearer to
// the neutral axis, or both and earlier along the part.
func (p *part) thicker(a, b int) bool {
	s, t := p.request.Seams[a], p.request.Seams[b]
	if s.Area != t.Area {
		return s.Area > t.Area
	}
	da, db := coarse(math.Hypot(s.Y, s.Z)), coarse(math.Hypot(t.Y, t.Z))
	if da != db {
		return da < db
	}
	return coarse(p.along(s)) < coarse(p.along(t))
}

// coarse counts a length (m) in thousandths of a millimetre, so that rounding
// decides nothing between equals.
func coarse(length float64) float64 { return math.Round(length / 1e-6) }

// nearerToBalance reports whether seam a leaves less moment than b, or as much
// and is thicker, or both and earlier along the part.
func (p *part) nearerToBalance(a, b int) bool {
	step := evenly * p.largest
	la := math.Round(p.now.plus(p.moments[a]).size() / step)
	lb := math.Round(p.now.plus(p.moments[b]).size() / step)
	if la != lb {
		return la < lb
	}
	return p.thicker(a, b)
}

// along returns how late along the part a seam comes, m: from the middle out,
// or from the held end on.
func (p *part) along(s Seam) float64 {
	middle := (s.From + s.To) / 2
	switch p.request.Held {
	case LowHeld:
		return middle - p.low
	case HighHeld:
		return p.high - middle
	}
	return math.Abs(middle - (p.low+p.high)/2)
}

// runs returns the runs of a seam: towards the free end, or from the middle
// outwards.
func (p *part) runs(s Seam) []Run {
	low, high := min(s.From, s.To), max(s.From, s.To)
	middle := (p.low + p.high) / 2
	switch {
	case p.request.Held == LowHeld, p.request.Held == BothFree && low >= middle:
		return p.backStep(nil, Run{low, high})
	case p.request.Held == HighHeld, high <= middle:
		return p.backStep(nil, Run{high, low})
	case middle-low < shortHalf*(high-low):
		return p.backStep(nil, Run{low, high})
	case high-middle < shortHalf*(high-low):
		return p.backStep(nil, Run{high, low})
	}
	return p.backStep(p.backStep(nil, Run{middle, high}), Run{middle, low})
}

// shortHalf is the share of a seam below which the piece beyond the middle is
// not worth a start of its own, dimensionless. Common practice, no source.
const shortHalf = 0.1

// backStep appends the run, or the equal pieces into which it is cut, each
// welded against the way in which they follow one another.
func (p *part) backStep(runs []Run, r Run) []Run {
	length := math.Abs(r.To - r.From)
	if p.request.BackStep == 0 || length <= p.request.BackStep {
		return append(runs, r)
	}
	n := math.Ceil(length/p.request.BackStep - 1e-9)
	place := func(i float64) float64 { return r.From + (r.To-r.From)*(i/n) }
	for i := 0.0; i < n; i++ {
		runs = append(runs, Run{place(i + 1), place(i)})
	}
	return runs
}
