package prove

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/job"
)

// wanted holds the seams that the plan welds against those of the job.
func (p *proof) wanted(m *meter, planned []string) {
	want, stitched := p.namesOfJob()
	var found []string // stitches as the seam that they are of, once
	count := 0         // stitches of it so far
	for _, name := range planned {
		whole := name
		if before, number, isStitch := strings.Cut(name, " stitch "); isStitch && stitched[before] {
			whole = before
			if len(found) > 0 && found[len(found)-1] == whole {
				count++
			} else {
				count = 0
			}
			if n := stitchNumber(number); n < 0 || count > 0 && n != lastStitch(planned, whole, name)+1 {
				m.fail(place{seam: name}, "%q is not the next stitch of %q", cut(name), cut(whole))
			}
		}
		if len(found) == 0 || found[len(found)-1] != whole {
			found = append(found, whole)
		}
	}
	if p.job.Air.Order == job.OrderShortest && p.says("order-chosen-for-air-time", "") { // the programmer leaves it free
		place := func(name string) int { return slices.Index(found, name) }
		slices.SortStableFunc(want, func(a, b string) int { return place(a) - place(b) })
	}
	if slices.Equal(found, want) {
		m.pass()
		return
	}
	for _, name := range want {
		if !slices.Contains(found, name) {
			m.fail(place{seam: name}, "the job has the seam %q, the plan does not weld it", cut(name))
		}
	}
	for _, name := range found {
		if !slices.Contains(want, name) {
			m.fail(place{seam: name}, "the plan welds %q, which the job does not have", cut(name))
		}
	}
	if len(m.broken) == 0 {
		m.fail(place{}, "the plan welds %s; the order of the job is %s", listed(found), listed(want))
	}
}

// namesOfJob are the seams of the job in the order of welding, and which of them are
// welded in stitches.
func (p *proof) namesOfJob() (names []string, stitched map[string]bool) {
	stitched = map[string]bool{}
	for i := range p.job.Seams {
		s := &p.job.Seams[i]
		own := s.Names()
		if s.Restart.At > 0 {
			own = own[max(0, slices.Index(own, s.Restart.Seam)):]
		}
		for _, name := range own {
			stitched[name] = s.Stitches.Asked()
		}
		names = append(names, own...)
	}
	if len(p.job.Order) > 0 {
		place := func(name string) int { return slices.Index(p.job.Order, name) }
		slices.SortStableFunc(names, func(a, b string) int { return place(a) - place(b) })
	}
	return names, stitched
}

// stitchNumber reads the number of a stitch, -1 for what is none.
func stitchNumber(text string) int {
	n := 0
	for _, c := range text {
		if c < '0' || c > '9' || n > 1e6 {
			return -1
		}
		n = 10*n + int(c-'0')
	}
	return n
}

// lastStitch is the number of the stitch that stands before another in the plan.
func lastStitch(planned []string, whole, name string) int {
	i := slices.Index(planned, name)
	if i < 1 {
		return -1
	}
	return stitchNumber(strings.TrimPrefix(planned[i-1], whole+" stitch "))
}

// listed is a list of names for a message.
func listed(names []string) string {
	const most = 8
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}
