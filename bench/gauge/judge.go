package gauge

import (
	"fmt"
	"slices"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/weld"
	"seamwright/weld/accept"
	"seamwright/weld/section"
)

// Request is what is judged.
type Request struct {
	Job      *job.Job
	Seams    []plan.SizedSeam // all of the job
	Readings *job.Gaugings
	// Learned is what is known so far; nil: nothing. It is not changed.
	Learned *job.Learned
	Date    string // of the readings, year-month-day
}

// Result is what the readings say.
type Result struct {
	Seams  []Seam   // those with readings, in the order of welding
	Unread []string // seams without any
	// Learned is what is known now, with the readings added that teach something.
	Learned *job.Learned
	Lessons []Lesson
}

// Seam is one seam with readings.
type Seam struct {
	Name     string
	Verdicts []accept.Verdict
	// Unjudged says why there are no verdicts, "" where there are.
	Unjudged string
	// Notes say what was not used, and why.
	Notes []string
	Speed *Speed // nil where both legs were read nowhere
	Aim   *Aim   // the same
}

// Passed reports whether every imperfection of every seam was read and accepted.
func (r *Result) Passed() bool {
	for i := range r.Seams {
		if !accept.Passed(r.Seams[i].Verdicts) {
			return false
		}
	}
	return len(r.Seams) > 0 && len(r.Unread) == 0
}

// Judge holds readings against the job.
func Judge(q Request) Result {
	out := Result{Learned: copied(q.Learned)}
	lessons := lessons{request: q, learned: out.Learned}
	for i := range q.Seams {
		s := &q.Seams[i]
		var rows []job.Gauging
		for _, row := range q.Readings.Rows {
			if row.Seam == s.Name {
				rows = append(rows, row)
			}
		}
		if len(rows) == 0 {
			out.Unread = append(out.Unread, s.Name)
			continue
		}
		seam := Seam{Name: s.Name}
		seam.judge(q.Job, s, rows)
		seam.mend(q.Job, s, rows)
		lessons.teach(&seam, s, rows)
		out.Seams = append(out.Seams, seam)
	}
	out.Lessons = lessons.finish()
	return out
}

// judge gives the verdicts.
func (s *Seam) judge(j *job.Job, sized *plan.SizedSeam, rows []job.Gauging) {
	if j.Acceptance == nil {
		s.Unjudged = "the job has no acceptance; add acceptance: {standard: ISO 5817:2023, level: C}, or what the drawing calls"
		return
	}
	w, why := weldOf(j.Acceptance, sized)
	if why != "" {
		s.Unjudged = why
		return
	}
	readings, notes := s.readings(j.Acceptance.Standard, w, rows)
	s.Notes = append(s.Notes, notes...)
	var err error
	if s.Verdicts, err = accept.Judge(j.Acceptance.Standard, w, readings); err != nil {
		s.Unjudged = err.Error()
	}
}

// readings gathers what is judged.
func (s *Seam) readings(std accept.Standard, w accept.Weld, rows []job.Gauging) (out []accept.Reading, notes []string) {
	clean := false
	for _, row := range rows {
		clean = clean || row.Clean
		for _, r := range row.Readings {
			if r.Measure == accept.Throat && std.Code == accept.D11 {
				notes = append(notes, "the throat is not judged: AWS D1.1 judges fillets by the leg")
				continue
			}
			out = append(out, r)
		}
	}
	if !clean {
		return out, slices.Compact(notes)
	}
	for _, m := range accept.SeenMeasures(w.Kind) {
		if !slices.ContainsFunc(out, func(r accept.Reading) bool { return r.Measure == m }) {
			out = append(out, accept.Reading{Measure: m})
		}
	}
	return out, slices.Compact(notes)
}

// weldOf is the weld as the standard judges it, or why it cannot be judged.
func weldOf(a *job.Acceptance, s *plan.SizedSeam) (accept.Weld, string) {
	doc := &s.Doc
	w := accept.Weld{Length: s.Length, Thickness: thinner(doc), AcrossTension: slices.Contains(a.AcrossTension, s.Name)}
	if w.Thickness == 0 {
		return w, "the thickness of its plates is not said; add thickness: {base: 8 mm, upright: 8 mm} to the seam"
	}
	size := s.Passes[0].Size
	switch {
	case doc.Weld.Kind == job.SizeGroove:
		w.Kind, w.ButtThickness = weld.Groove, doc.Weld.Groove.Section.Thickness
	case doc.Weld.Kind == job.SizeArea && (doc.Joint == weld.Butt || doc.Joint == weld.Edge):
		w.Kind = weld.Groove
	case doc.Weld.Kind == job.SizeArea:
		return w, "the drawing's size is not in the job: a bead of a given area has neither leg nor throat to hold readings against"
	case doc.Weld.Kind == job.SizeThroat:
		w.Kind, w.Size, w.SizeIs, w.Angle = weld.Fillet, doc.Weld.Throat, weld.Throat, size.Included
	case doc.Weld.Kind == job.SizeLegs && a.Standard.Code == accept.D11:
		return w, "legs that are called unequal are for the inspector: the limits of AWS D1.1 are held here for equal legs"
	case doc.Weld.Kind == job.SizeLegs:
		drawn, err := section.New(size.Included, doc.Weld.LegBase, doc.Weld.LegOther)
		if err != nil {
			return w, err.Error()
		}
		w.Kind, w.Size, w.SizeIs, w.Angle, w.UnequalLegs = weld.Fillet, drawn.DesignThroat(), weld.Throat, size.Included, true
	default:
		w.Kind, w.Size, w.SizeIs, w.Angle = weld.Fillet, doc.Weld.LegBase, weld.Leg, size.Included
	}
	return w, ""
}

// thinner returns the thinner stated thickness, m, or 0.
func thinner(s *job.Seam) float64 {
	if s.BaseThickness == 0 || s.OtherThickness == 0 {
		return s.BaseThickness + s.OtherThickness
	}
	return min(s.BaseThickness, s.OtherThickness)
}

// place says where readings were made: "W1 at 40 mm".
func place(seam string, r accept.Reading) string {
	if !r.Placed {
		return seam
	}
	return fmt.Sprintf("%s at %.4g mm", seam, r.At*1e3)
}
