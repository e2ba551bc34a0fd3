package plan

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// checkTogether gathers the findings of seam i and of those that are stitches of the
// same document seam, and returns how many seams that were.
func (m *maker) checkTogether(i int, ready checkers) ([]finding.Finding, int) {
	st := m.shapes[i].stitching
	if st == nil {
		return m.checkSeam(i, ready), 1
	}
	found := make([][]finding.Finding, len(st.Seams))
	for k := range found {
		found[k] = m.checkSeam(i+k, ready)
	}
	c := stitchCheck{seamCheck: seamCheck{words: m.words, job: m.job, doc: m.shapes[i].doc, shape: &m.shapes[i], seam: &m.plan.Seams[i]}, stitching: st}
	c.take(&c.seam.Passes[0])
	c.system()
	c.laid()
	c.limits()
	return append(c.found, saidOnce(st, found)...), len(found)
}

// saidOnce says what holds for every stitch of a seam once, of the seam, and then
// what is left stitch by stitch.
func saidOnce(st *Stitching, found [][]finding.Finding) []finding.Finding {
	whole := func(f finding.Finding, k int) finding.Finding {
		f.Message = strings.ReplaceAll(f.Message, st.Seams[k], st.Name)
		if f.Where.Seam == st.Seams[k] {
			f.Where.Seam = st.Name
		}
		return f
	}
	same := func(a, b finding.Finding) bool {
		return a.Code == b.Code && a.Severity == b.Severity && a.Where == b.Where && a.Message == b.Message && a.Remedy == b.Remedy
	}
	var list []finding.Finding
	said := func(f finding.Finding) bool {
		return slices.ContainsFunc(list, func(g finding.Finding) bool { return same(f, g) })
	}
	for _, f := range found[0] {
		f = whole(f, 0)
		every := true
		for k := range found {
			every = every && slices.ContainsFunc(found[k], func(g finding.Finding) bool { return same(f, whole(g, k)) })
		}
		if every && !said(f) {
			list = append(list, f)
		}
	}
	common := len(list)
	for k := range found {
		for _, f := range found[k] {
			if g := whole(f, k); !slices.ContainsFunc(list[:common], func(h finding.Finding) bool { return same(g, h) }) {
				list = append(list, f)
			}
		}
	}
	return list
}

// stitchCheck holds the stitches of one seam against the drawing's system and the
// limits of the code; its seamCheck is that of the first of them.
type stitchCheck struct {
	seamCheck
	stitching *Stitching
}

func (c *stitchCheck) newf(code finding.Code, format string, args ...any) finding.Finding {
	return finding.Newf(code, finding.AtSeam(c.stitching.Name), c.stitching.Name+": "+format, args...)
}

// mm says a length of the stitches, m, as a drawing has it: "142.5 mm".
func (c *stitchCheck) mm(m float64) string { return c.digits(unit.Length, m, 4) }

// system says where the word for the spacing is not that of the job's code family,
// and what the number means either way.
func (c *stitchCheck) system() {
	doc := &c.doc.Stitches
	isPitch := doc.Run.SpacingIs == symbol.Pitch
	if isPitch == (c.job.Code == weld.AWS) {
		return
	}
	r := stitchRequest(c.doc, c.stitching.Of)
	r.Pattern = 0
	both := seam.BothReadings(r, doc.Run.Length, doc.Run.Spacing)
	reading := func(r seam.SystemReading) string {
		if r.Fault != nil {
			return "it cannot be laid"
		}
		return fmt.Sprintf("%d stitches, %s", len(r.Stitches.Near), c.mm(r.Stitches.Weld()))
	}
	typed, other := "pitch", "the clear gap"
	if !isPitch {
		typed, other = "clear gap", "the pitch"
	}
	c.add(c.newf(finding.StitchSystem, "%s is typed as the %s; symbols of this job's code family give %s. As pitch: %s; as clear gap: %s",
		c.mm(doc.Run.Spacing), typed, other, reading(both[0]), reading(both[1])))
}

// laid says where the stitches do not lie as drawn.
func (c *stitchCheck) laid() {
	s := c.stitching
	n := len(s.Stretches)
	if n > 1 && s.Drawn-s.Pitch > unit.MM/10 {
		f := c.newf(finding.StitchPitch, "the pitch is %s, closed up from %s, so that a stitch ends the seam: %d of them", c.mm(s.Pitch), c.mm(s.Drawn), n)
		c.add(f.Values(c.pair(unit.Length, s.Pitch, s.Drawn)))
	}
	if s.Bare > unit.MM/10 {
		c.add(c.newf(finding.StitchBare, "%s is left bare behind the last stitch", c.mm(s.Bare)))
	}
}

// limits holds length and clear gap of the stitches of a fillet against the code.
func (c *stitchCheck) limits() {
	s := c.stitching
	thinner := min(c.doc.BaseThickness, c.doc.OtherThickness)
	why := ""
	switch {
	case !c.doc.Weld.Fillet():
		why = "limits are known for fillets of a leg or throat"
	case thinner == 0:
		why = "the thickness of a plate is not stated"
	}
	size, err := c.measured()
	var limits seam.StitchLimits
	if why == "" && err == nil {
		limits, err = seam.LimitsOfStitches(c.job.Code, size, thinner)
	}
	if why == "" && err != nil {
		why = unprefixed.Replace(err.Error())
	}
	if why != "" {
		f := c.newf(finding.StitchShort, "length and clear gap of the stitches were not held against limits: %s", why)
		c.add(f.As(finding.Note))
		return
	}
	if least := limits.Least.Value; !weld.AtLeast(least).Contains(s.Length()) {
		f := c.newf(finding.StitchShort, "stitches of %s; shorter than %s they do not count", c.mm(s.Length()), c.mm(least))
		c.add(f.Values(c.pair(unit.Length, s.Length(), least)).From(limits.Least.Source.String()))
	}
	if gap := s.Pitch - s.Length(); len(s.Stretches) > 1 && !limits.Gap.Range.Contains(gap) {
		most := limits.Gap.Range.High
		f := c.newf(finding.StitchGap, "a clear gap of %s between stitches; %s is the most beside a plate of %s", c.mm(gap), c.mm(most), c.mm(thinner))
		c.add(f.Values(c.pair(unit.Length, gap, most)).From(limits.Gap.Source.String()))
	}
}

// measured is the size that the code family counts with: the larger leg, or the
// throat, m.
func (c *stitchCheck) measured() (float64, error) {
	size := &c.pass.Size
	if c.job.Code == weld.AWS {
		return max(size.DrawnLegBase, size.DrawnLegOther), nil
	}
	drawn, err := section.New(size.Included, size.DrawnLegBase, size.DrawnLegOther)
	if err != nil {
		return 0, err
	}
	return drawn.DesignThroat(), nil
}

// again says that a weld is taken up where it stopped.
func (c *seamCheck) again() {
	if !c.shape.again {
		return
	}
	r := &c.doc.Restart
	f := c.newf(finding.WeldTakenUp, "%s is taken up again where it stopped, %s from the start of %s: %s of it are left; what lies before is not in this run", c.doc.Name, c.tape(r.At), r.Seam, c.tape(c.seam.Length))
	if n := len(c.seam.Passes); n > 1 && c.shape.torn {
		f = c.newf(finding.WeldTakenUp, "%s is taken up again %s from the start of %s, and is laid in %d passes: which of them stopped is not told, and this run lays all of them in what is left", c.doc.Name, c.tape(r.At), r.Seam, n)
		f = f.As(finding.Stop).Mend("say passes: one where that is right, or write what is left of each pass as a seam of its own, by its area")
	}
	c.add(f)
}
