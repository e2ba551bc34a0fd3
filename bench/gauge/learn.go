package gauge

import (
	"fmt"
	"slices"
	"strconv"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
)

// Lesson is what the readings taught about one settings set.
type Lesson struct {
	Settings      string
	Before, After deposit.Belief
	Readings      int // that count, of all days
	Added         int // readings added now that count
	Again         int // readings that the file had already
	LeftOut       []LeftOut
	// Next are the speeds at which the seams that were gauged will be planned with
	// what is known now.
	Next []Next
}

// LeftOut is a reading that contradicts the rest.
type LeftOut struct{ Where, Why string }

// Next is the planned speed of a seam, m/s, as it is and with what was learned.
type Next struct {
	Seam     string
	Was, Now float64 // m/s
}

// copied returns a copy that can be added to.
func copied(l *job.Learned) *job.Learned {
	out := &job.Learned{}
	if l != nil {
		*out = *l
		out.Sets = slices.Clone(l.Sets)
		for i := range out.Sets {
			out.Sets[i].Readings = slices.Clone(out.Sets[i].Readings)
		}
	}
	return out
}

// lessons gathers what readings teach.
type lessons struct {
	request Request
	learned *job.Learned
	list    []Lesson
}

// teach adds the readings of one seam.
func (t *lessons) teach(s *Seam, sized *plan.SizedSeam, rows []job.Gauging) {
	if !slices.ContainsFunc(rows, func(r job.Gauging) bool { _, both := legsOf(r); return both }) {
		return
	}
	set, why := t.teaches(sized)
	if why != "" {
		s.Notes = append(s.Notes, "nothing learned: "+why)
		return
	}
	known, why := t.known(set)
	if why != "" {
		s.Notes = append(s.Notes, "nothing learned: "+why)
		return
	}
	lesson := t.lesson(known)
	for _, row := range rows {
		l, both := legsOf(row)
		if !both {
			continue
		}
		if len(sized.Passes) > 1 && (row.Travel > 0 || row.Feed > 0) {
			s.Notes = append(s.Notes, "nothing learned from "+place(s.Name, row.Readings[0])+": one speed or feed as welded, and several passes")
			continue
		}
		t.one(lesson, known, sized, set, row, l)
	}
	if sized.Doc.Speed == 0 && len(sized.Passes) == 1 {
		lesson.Next = append(lesson.Next, Next{Seam: s.Name, Was: sized.Passes[0].Size.Travel})
	}
}

// finish gives every lesson what is known in the end, and the speeds that follow.
func (t *lessons) finish() []Lesson {
	for i := range t.list {
		l := &t.list[i]
		known := t.learned.Set(l.Settings)
		l.After, l.Readings = known.Belief, known.Counted()
		var kept []Next
		for _, n := range l.Next {
			if size := t.planned(n.Seam); l.Added > 0 { // v goes with eta/k
				n.Now = n.Was * l.After.Efficiency / l.After.FaceFactor / (size.Efficiency / size.Convexity)
				kept = append(kept, n)
			}
		}
		l.Next = kept
	}
	return t.list
}

// planned is the size of a seam in one pass.
func (t *lessons) planned(name string) plan.Size {
	i := slices.IndexFunc(t.request.Seams, func(s plan.SizedSeam) bool { return s.Name == name })
	return t.request.Seams[i].Passes[0].Size
}

// teaches returns the one settings set that a seam is welded with, or why it
// teaches nothing.
func (t *lessons) teaches(s *plan.SizedSeam) (procedure.Settings, string) {
	id := s.Passes[0].Size.Settings
	i := slices.IndexFunc(t.request.Job.Settings, func(set procedure.Settings) bool { return set.ID == id })
	switch {
	case !s.Doc.Weld.Fillet():
		return procedure.Settings{}, "no fillet by leg or throat"
	case s.Doc.Gap > 0:
		return procedure.Settings{}, "the gap of " + unit.Format(s.Doc.Gap, unit.Millimetres, 1) + " took metal that no gauge sees"
	case slices.ContainsFunc(s.Passes, func(p plan.Pass) bool { return p.Size.Settings != id }):
		return procedure.Settings{}, "its passes are laid with several settings sets"
	case i < 0:
		return procedure.Settings{}, "settings set " + id + " is not in the job"
	}
	return t.request.Job.Settings[i], ""
}

// known returns what is known about a set, begun where nothing is.
func (t *lessons) known(set procedure.Settings) (*job.LearnedSet, string) {
	if known := t.learned.Set(set.ID); known != nil {
		if !known.Of(set) {
			return nil, "settings set " + set.ID + " was learned about with another wire or transfer; begin a new file"
		}
		return known, ""
	}
	start, err := deposit.NewBelief(rounded(set.DepositionEfficiency().Value), rounded(set.PlanningFactor().Value))
	if err != nil {
		return nil, err.Error()
	}
	t.learned.Sets = append(t.learned.Sets, job.LearnedSet{ID: set.ID, Wire: set.WireDiameter, Transfer: set.Transfer, Start: start, Belief: start})
	return &t.learned.Sets[len(t.learned.Sets)-1], ""
}

// lesson returns the lesson about a set, begun where there is none.
func (t *lessons) lesson(known *job.LearnedSet) *Lesson {
	for i := range t.list {
		if t.list[i].Settings == known.ID {
			return &t.list[i]
		}
	}
	t.list = append(t.list, Lesson{Settings: known.ID, Before: known.Belief})
	return &t.list[len(t.list)-1]
}

// one adds one reading.
func (t *lessons) one(lesson *Lesson, known *job.LearnedSet, sized *plan.SizedSeam, set procedure.Settings, row job.Gauging, l legs) {
	first := row.Readings[0]
	r := job.LearnedReading{Date: t.request.Date, Seam: row.Seam, Revision: t.request.Job.Revision, Placed: first.Placed}
	if first.Placed {
		r.At = first.At
	}
	if l.travel == 0 {
		l.travel = together(sized)
	}
	feed := row.Feed
	if feed == 0 {
		feed = set.Feed
	}
	r.Gauged = deposit.Gauged{Melt: deposit.Melt{WireDiameter: known.Wire, Feed: feed}, LegBase: l.base, LegOther: l.other, Throat: l.throat, Step: l.step,
		Travel: written(unit.Speed, l.travel, unit.MillimetresPerSecond, 3), Angle: written(unit.Angle, sized.Passes[0].Size.Included, unit.Degrees, 2)}
	if slices.ContainsFunc(known.Readings, r.Same) {
		lesson.Again++
		return
	}
	if err := known.Teach(r); err != nil {
		lesson.LeftOut = append(lesson.LeftOut, LeftOut{place(row.Seam, first), err.Error()})
		return
	}
	lesson.Added++
}

// written is a quantity (SI) as the file will hold it, with so many decimals.
func written(k unit.Kind, si float64, u unit.Unit, decimals int) float64 {
	x, err := unit.Parse(k, unit.Format(si, u, decimals))
	if err != nil {
		return si // not finite: refused by what reads it
	}
	return x
}

// rounded takes the noise of float64 off a dimensionless figure.
func rounded(x float64) float64 {
	y, err := strconv.ParseFloat(fmt.Sprintf("%.6f", x), 64)
	if err != nil {
		return x
	}
	return y
}
