package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// Stitching is what became of the stitches that the document asks for on one seam,
// copy or mirror image: each stitch is a seam of its own in the plan.
type Stitching struct {
	// Name is what the document calls the seam, Index its place in the job's list,
	// from 0.
	Name  string
	Index int
	// Seams are the names of the plan's seams, one for each stitch that is left to
	// weld: all of them, unless the seam is taken up again.
	Seams []string
	// Stretches are all stitches, m along the seam, those welded already included.
	Stretches []seam.Stretch
	// Pitch, in m from centre to centre, is that of the stitches, 0 for a single one;
	// Drawn, in m too, is the document's.
	Pitch, Drawn float64
	Ends         symbol.EndRule
	// Offset is how far behind the seam's start the first stitch begins, m; Bare is
	// what is left bare behind the last one, m; Of is the seam's length, m.
	Offset, Bare, Of float64
}

// Length returns the length of one stitch, m.
func (s *Stitching) Length() float64 { return s.Stretches[0].Length() }

// Welded returns the length of all stitches together, m.
func (s *Stitching) Welded() float64 {
	sum := 0.0
	for _, stretch := range s.Stretches {
		sum += stretch.Length()
	}
	return sum
}

// sameLength is how much two lengths of a seam may differ and be the same, m: the
// rounding of its points.
const sameLength = 1e-6

// cut is one stretch of a seam that is welded in one go: a part, a stitch or what is
// left of one.
type cut struct {
	seam.Stretch
	name string
	// begins and ends: the seam's own approach and retreat are at this cut.
	begins, ends bool
	// torn: it is what is left of a stretch that stopped.
	torn bool
}

// stitching lays the stitches of the document along a shape; far says that it is the
// one that is mirrored.
func (b *seamBuilder) stitching(whole *seamShape, name string, far bool) (*Stitching, error) {
	doc := &b.seam.Stitches
	r := stitchRequest(b.seam, whole.whole)
	if first := doc.Offset + doc.Run.Length; doc.Offset > 0 && first > whole.whole+sameLength {
		return nil, problem(doc.At, fmt.Sprintf("a first stitch from %.4g to %.4g mm", doc.Offset/unit.MM, first/unit.MM),
			fmt.Sprintf("up to the end of the seam, %.4g mm", whole.whole/unit.MM), "shorten offset, or check the length of the seam")
	}
	laid, err := seam.NewStitches(r)
	if err != nil {
		return nil, refused(doc.At, err)
	}
	s := &Stitching{
		Name: name, Index: whole.index, Stretches: laid.Near, Pitch: laid.Pitch, Drawn: doc.Run.Pitch(),
		Ends: doc.Ends, Offset: doc.Offset, Bare: laid.Bare, Of: whole.whole,
	}
	if far && doc.Staggered {
		s.Stretches, s.Pitch, s.Offset = laid.Far, laid.FarPitch, laid.Offset
		if !b.seam.Closed {
			s.Bare = max(0, s.Of-s.Stretches[len(s.Stretches)-1].To)
		}
	}
	s.Stretches = slices.Clone(s.Stretches)
	for i := range s.Stretches {
		s.Stretches[i].From += doc.Offset
		s.Stretches[i].To = min(s.Stretches[i].To+doc.Offset, whole.geometry.Length())
	}
	return s, nil
}

// stitchRequest asks for the stitches of a seam of a length, m. The words pitch and
// gap say which system's the spacing is, whatever the family of the job's rules.
func stitchRequest(s *job.Seam, length float64) seam.StitchRequest {
	r := seam.StitchRequest{Run: s.Stitches.Run, Family: weld.ISO, Length: length - s.Stitches.Offset, Ends: s.Stitches.Ends, Closed: s.Closed}
	if r.Run.SpacingIs == symbol.Pitch {
		r.Family = weld.AWS
	}
	if s.Stitches.Staggered {
		r.Pattern, r.Far = symbol.Staggered, s.Stitches.Far
	}
	return r
}

// overlap is how far a closed path runs past its start, m. Of staggered stitches
// round a closed path one of the other side may lie across the start.
func (b *seamBuilder) overlap() float64 {
	switch st := &b.seam.Stitches; {
	case !b.seam.Closed:
		return 0
	case !st.Asked():
		return b.seam.Overlap
	case st.Staggered:
		return st.Run.Length
	}
	return 0
}

// cuts are the stretches of a shape that are welded one after the other: its parts,
// its stitches, or the whole.
func (b *seamBuilder) cuts(whole *seamShape, name string, far bool) ([]cut, *Stitching, error) {
	length := whole.geometry.Length()
	var list []cut
	var st *Stitching
	switch {
	case b.seam.Stitches.Asked():
		var err error
		if st, err = b.stitching(whole, name, far); err != nil {
			return nil, nil, err
		}
		for i, s := range st.Stretches {
			list = append(list, cut{Stretch: s, name: job.StitchName(name, i+1)})
		}
	default:
		from := 0.0
		for i := range len(b.seam.Split.At) + 1 {
			to := length
			if i < len(b.seam.Split.At) {
				to = b.seam.Split.At[i]
			}
			if split := len(b.seam.Split.At) > 0; split && (to > length || from < 0 || to-from < seamLeast) {
				return nil, nil, fmt.Errorf("split: a part from %.1f to %.1f mm of a seam of %.1f mm: places lie on the seam, and a part is at least %.0f mm long", from*1e3, to*1e3, length*1e3, seamLeast*1e3)
			}
			list = append(list, cut{Stretch: seam.Stretch{From: from, To: to}, name: b.seam.PartName(name, i)})
			from = to - b.seam.Split.TieIn
		}
	}
	list[0].begins, list[len(list)-1].ends = true, true
	return list, st, nil
}

// left are the cuts that are left to weld where the arc stopped: what is left of one,
// from the tie-in on, and all behind it.
func (b *seamBuilder) left(list []cut) ([]cut, error) {
	stretches, at := make([]seam.Stretch, len(list)), b.seam.Restart.At
	for i := range list {
		stretches[i] = list[i].Stretch
		if math.Abs(at-list[i].To) < sameLength {
			at = list[i].To
		}
	}
	again, rest, err := seam.RestartIn(stretches, at, seam.TieIn{Overlap: b.seam.Restart.TieIn})
	if err != nil {
		return nil, refused(b.seam.Restart.Place, err)
	}
	done := len(list) - len(rest)
	if again == nil {
		return list[done:], nil
	}
	list = slices.Clone(list[done-1:])
	list[0].From, list[0].begins, list[0].torn = again.Turn, list[0].begins && again.Turn == list[0].From, true
	return list, nil
}

// refused says at a place of the document what cannot be laid along the seam.
func refused(at job.Place, err error) error {
	in := section.InputError{}
	if !errors.As(err, &in) {
		return problem(at, "what cannot be laid along the seam", "measures that fit the seam", unprefixed.Replace(err.Error()))
	}
	return problem(at, in.Kind.Error()+": "+in.Found, in.Allowed, in.Mend)
}

// DrawnName is what the document calls seam i of the plan, of which it may be a
// stitch.
func (p *Plan) DrawnName(i int) string {
	name := p.Seams[i].Name
	for k := range p.Stitched {
		if slices.Contains(p.Stitched[k].Seams, name) {
			return p.Stitched[k].Name
		}
	}
	return name
}

// stitchings lists what became of the stitches of every seam, in the order of
// welding.
func stitchings(shapes []seamShape) []Stitching {
	var list []Stitching
	for i := range shapes {
		if s := shapes[i].stitching; s != nil && (i == 0 || shapes[i-1].stitching != s) {
			list = append(list, *s)
		}
	}
	return list
}

// drawn is what the document calls a shape, of which it may be a stitch.
func (s *seamShape) drawn() string {
	if s.stitching != nil {
		return s.stitching.Name
	}
	return s.doc.Name
}

// together is how many seams of the plan from i on are stitches of one seam; 1 for a
// seam that is none.
func (m *maker) together(i int) int {
	if st := m.shapes[i].stitching; st != nil {
		return len(st.Seams)
	}
	return 1
}

// welded is the length of seam i of the plan, m, that of its stitches together.
func (m *maker) welded(i int) float64 {
	sum := 0.0
	for k := range m.together(i) {
		sum += m.plan.Seams[i+k].Length
	}
	return sum
}

// metal is the metal of all passes of seam i of the plan, m2; of stitches spread over
// the whole length of the seam.
func (m *maker) metal(i int) float64 { return seamArea(&m.plan.Seams[i]) * m.dense(i) }

// dense is the share of a stitched seam's length that is welded, dimensionless; 1 of
// another.
func (m *maker) dense(i int) float64 {
	if m.shapes[i].stitching == nil {
		return 1
	}
	return m.welded(i) / m.shapes[i].whole
}
