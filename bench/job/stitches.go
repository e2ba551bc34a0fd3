package job

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld/symbol"
)

// Stitches says that a seam is welded in stitches. The zero value is a seam that is
// welded through.
type Stitches struct {
	// Run is the length of a stitch, its spacing as pitch or clear gap, and how many
	// there are, 0: as many as belong on the seam.
	Run  symbol.Run
	Ends symbol.EndRule
	// Offset is how far behind the seam's start the first stitch begins, in m.
	Offset float64
	// Staggered: the stitches of the mirror image lie between these, as Far says;
	// otherwise opposite them.
	Staggered bool
	Far       symbol.FarRule
	At        Place
}

// Asked reports whether the seam is welded in stitches.
func (s *Stitches) Asked() bool { return s.Run.Stitched() }

// Restart says where a weld stopped that is to be taken up again: At, m from the
// seam's start; the arc goes back over the weld by TieIn, m. Seam names the copy or
// mirror image that stopped, "": the seam itself; those before it are welded. An At
// of 0 is a seam that did not stop.
type Restart struct {
	Seam      string
	At, TieIn float64
	Place     Place
}

// Ranges of sense of stitches, those of weld/seam.
var (
	stitchLength  = span{5 * unit.MM, 10}           // m
	stitchSpacing = span{1 * unit.MM, 20}           // m
	takenUp       = span{1 * unit.MM, 50 * unit.MM} // m
)

// mostStitches bounds the stitches of one seam.
const mostStitches = 1000

// stitchesDraft is what cuts a seam into stitches, and a restart, while it is read.
type stitchesDraft struct {
	length, pitch, gap, count float64
	restart                   ref
}

// fields lists what says where along the seam the arc is on.
func (d *stitchesDraft) fields(s *Seam) []field {
	st := &s.Stitches
	return []field{
		may("stitches", record{at: &st.At, allowed: "length with pitch or gap", example: "{length: 60 mm, pitch: 150 mm}",
			mend: "write {length: 60 mm, pitch: 150 mm} for 60-150 of an AWS symbol, {length: 60 mm, gap: 90 mm} for 60 (90) of an ISO symbol", one: [][]string{{"pitch", "gap"}}, fields: []field{
				need("length", quantity(unit.Length, &d.length, stitchLength, "60 mm")),
				may("pitch", quantity(unit.Length, &d.pitch, stitchSpacing, "150 mm")),
				may("gap", quantity(unit.Length, &d.gap, stitchSpacing, "90 mm")),
				may("count", number(&d.count, span{1, mostStitches}, "9")),
				may("ends", parsed(&st.Ends, []string{"welded", "as drawn"}, func(w string) (symbol.EndRule, bool) {
					return map[string]symbol.EndRule{"as drawn": symbol.PitchKept}[w], w == "welded" || w == "as drawn"
				})),
				may("offset", quantity(unit.Length, &st.Offset, startBy, "75 mm")),
				may("staggered", flag(&st.Staggered)),
				may("other_side", parsed(&st.Far, []string{"own ends", "in the gaps"}, func(w string) (symbol.FarRule, bool) {
					return map[string]symbol.FarRule{"in the gaps": symbol.InGaps}[w], w == "own ends" || w == "in the gaps"
				})),
			}, check: func(ps *Problems, n node, clean bool) {
				if clean {
					d.stitches(ps, n, st)
				}
			}}),
		may("restart", record{at: &s.Restart.Place, example: "{at: 350 mm}", fields: []field{
			need("at", quantity(unit.Length, &s.Restart.At, splitAt, "350 mm")),
			may("tie_in", quantity(unit.Length, &s.Restart.TieIn, takenUp, "12 mm")),
			may("seam", named(&d.restart, "W1 left")),
		}}),
	}
}

// stitches takes over what was read, and refuses what makes no stitches.
func (d *stitchesDraft) stitches(ps *Problems, n node, st *Stitches) {
	run := symbol.Run{Length: d.length, Elements: int(d.count), Spacing: d.pitch, SpacingIs: symbol.Pitch}
	if n.has("gap") {
		run.Spacing, run.SpacingIs = d.gap, symbol.ClearGap
	}
	pitch, _ := n.get("pitch")
	count, _ := n.get("count")
	offset, _ := n.get("offset")
	other, _ := n.get("other_side")
	for _, r := range []struct {
		broken               bool
		at                   node
		found, allowed, mend string
	}{
		{n.has("pitch") && d.pitch <= d.length, pitch, fmt.Sprintf("%s for stitches of %s", pitch.found(), unit.Exact(d.length, unit.Millimetres)),
			"a pitch, from centre to centre, above the length", "if the drawing gives the clear gap, as ISO symbols do, write gap: " + pitch.text},
		{d.count != math.Trunc(d.count), count, count.found(), "a whole number", "write how many stitches there are, or leave it out"},
		{st.Staggered && n.has("offset"), offset, offset.found() + " beside staggered", "one of the two", "delete offset: the other side begins half a pitch later"},
		{!st.Staggered && n.has("other_side"), other, other.found() + " without staggered", "other_side beside staggered: true", "add staggered: true, or delete other_side"},
	} {
		if r.broken {
			ps.add(r.at.at, r.found, r.allowed, r.mend)
			return
		}
	}
	st.Run = run
}

// stitchRules are the rules of what goes with stitches and a restart.
func (d *seamDraft) stitchRules(has func(string) bool) []rule {
	s := &d.seam
	stitched, restarted := has("stitches") || s.Stitches.Asked(), has("restart")
	split, mirror := has("split"), has("mirror")
	return []rule{
		{stitched && split, "split", "split beside stitches", "one of the two", "delete split: every stitch has a start of its own"},
		{restarted && split, "split", "split beside restart", "one of the two", "delete split, or write the parts that are left as seams of their own"},
		{s.Stitches.Staggered && !mirror, "stitches", "staggered on a seam without an other side", "staggered beside mirror",
			"add mirror, or write offset: with half the pitch on the seam of the other side"},
		{stitched && s.Closed && has("overlap"), "overlap", "", "no overlap on a stitched seam", "delete overlap: no stitch is welded over"},
		{stitched && s.Closed && has("stitches.offset"), "stitches", "an offset on a closed seam", "stitches that begin where the path does",
			"delete offset and say start_at: how far along the path it begins"},
	}
}

// restartOf completes a restart and reports a name that is none of the seam's.
func (d *seamDraft) restartOf(ps *Problems) {
	s, name := &d.seam, d.stitches.restart
	switch names := s.copyNames(); {
	case s.Restart.At == 0:
		s.Restart = Restart{}
	case name.text == "":
		s.Restart.Seam = s.Name
	default:
		s.Restart.Seam = name.text
		newKnown("seam made of "+quote(s.Name), names, false).checkOr(ps, name, "write one of these names")
	}
}

// copyNames lists the seam, its copies, its image and the image's copies, in the
// order of welding, not cut into parts or stitches.
func (s *Seam) copyNames() []string {
	var names []string
	for _, hand := range s.Hands() {
		for k := range max(1, s.Repeat.Count) {
			names = append(names, s.CopyName(hand, k))
		}
	}
	return names
}

// StitchName is what stitch n, from 1, of a seam or copy is called.
func StitchName(seam string, n int) string { return fmt.Sprintf("%s stitch %d", seam, n) }

// stitchNames reports seams that are called as a stitch of another.
func (d *draft) stitchNames(ps *Problems) {
	stitched := map[string]bool{}
	for i := range d.seams {
		for _, name := range d.seams[i].seam.copyNames() {
			stitched[name] = stitched[name] || d.seams[i].seam.Stitches.Asked()
		}
	}
	for i := range d.seams {
		s := &d.seams[i]
		for _, name := range s.seam.Names() {
			before, after, cut := strings.Cut(name, " stitch ")
			if cut && stitched[before] && strings.Trim(after, "0123456789") == "" {
				at := s.name.at
				if m := s.copies.name; m.text != "" && strings.HasPrefix(name, m.text) {
					at = m.at
				}
				ps.add(at, quote(name)+", the name of a stitch of "+quote(before), "a name of its own for each seam", "rename one of the two")
			}
		}
	}
}
