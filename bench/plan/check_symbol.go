package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/symbol"
)

// symbolSlack is how far the length of a weld may be from the symbol's, m: what a
// tape in the shop holds. Common practice, no source.
const symbolSlack = 5e-3

// symbolCheck holds a seam of the document and what was planned of it against the
// drawing's symbol.
type symbolCheck struct {
	words
	job    *job.Job
	doc    *job.Seam
	says   symbol.Symbol
	called symbol.Weld
	seams  []*Seam // made of it
	of     float64 // its length where it is stitched, m, otherwise 0
	found  []finding.Finding
}

// checkSymbols holds every seam that has a symbol against it, and the sides that
// symbols call for against the seams there are.
func (m *maker) checkSymbols() []finding.Finding {
	var out []finding.Finding
	for i := range m.job.Seams {
		doc := &m.job.Seams[i]
		if !doc.Symbol.Given() {
			continue
		}
		c := symbolCheck{words: m.words, job: m.job, doc: doc, says: doc.Symbol.Says, called: doc.Symbol.Called()}
		for k := range m.plan.Seams {
			if s := &m.plan.Seams[k]; s.Index == i {
				c.seams = append(c.seams, s)
			}
		}
		for k := range m.plan.Stitched {
			if st := &m.plan.Stitched[k]; st.Index == i && c.of == 0 {
				c.of = st.Of
			}
		}
		c.reading()
		c.spacing()
		c.extent()
		c.tail()
		c.byHand()
		out = append(out, c.found...)
	}
	return append(out, checkSymbolSides(m.job)...)
}

// add notes a finding about the seam, whose name begins the message.
func (c *symbolCheck) add(code finding.Code, format string, args ...any) *finding.Finding {
	f := finding.Newf(code, finding.AtSeam(c.doc.Name), "%s: "+format, append([]any{c.doc.Name}, args...)...)
	c.found = append(c.found, f.From(c.says.System.Source().String()))
	return &c.found[len(c.found)-1]
}

// reading says what the symbol leaves open, and whose figures it has.
func (c *symbolCheck) reading() {
	system, family := c.says.System, c.job.Code
	if system.Family() != family {
		c.add(finding.SymbolOtherCode, "its symbol is of %v in a job of code %v: size and spacing are read by %v, limits are those of %v", system, family, system, family)
	}
	for _, taken := range c.doc.Symbol.Taken {
		c.add(finding.SymbolOpen, "its symbol leaves something open: %s", taken)
	}
	if deep := c.called.Size.Deep; deep > 0 {
		f := c.add(finding.SymbolOpen, "its symbol counts a penetration of %s; the throat of %s is planned, and no melt below the root", c.say(asSize, deep), c.say(asSize, c.called.Size.Value))
		*f = f.Mend("show the penetration by a procedure test")
	}
}

// spacing says both readings of the figures of stitches, where it is not said already
// that they are of the other code family.
func (c *symbolCheck) spacing() {
	run, system := c.called.Run, c.says.System
	if !run.Stitched() || system.Family() != c.job.Code {
		return
	}
	length, number := c.digits(unit.Length, run.Length, 4), c.digits(unit.Length, run.Spacing, 4)
	as := func(is symbol.SpacingKind, family weld.CodeFamily, ends symbol.EndRule) string {
		r := symbol.Run{Length: run.Length, Spacing: run.Spacing, SpacingIs: is}
		if is == run.SpacingIs {
			r.Elements = run.Elements
		}
		laid, err := seam.NewStitches(seam.StitchRequest{Run: r, Family: family, Length: c.of, Ends: ends, Closed: c.doc.Closed})
		if err != nil {
			return "they cannot be laid"
		}
		return fmt.Sprintf("%d of them, %s of weld", len(laid.Near), c.digits(unit.Length, laid.Weld(), 4))
	}
	pitch, gap := as(symbol.Pitch, weld.AWS, symbol.EndsWelded), as(symbol.ClearGap, weld.ISO, symbol.PitchKept)
	if run.SpacingIs == symbol.Pitch {
		c.add(finding.SymbolSpacing, "stitches of %s at a pitch of %s by %v: on one side %s; by ISO 2553 the same figures leave %s clear: %s", length, number, system, pitch, number, gap)
		return
	}
	f := c.add(finding.SymbolSpacing, "stitches of %s with %s clear between them by %v: on one side %s; by AWS A2.4 the same figures are a pitch of %s: %s", length, number, system, gap, number, pitch)
	if run.Elements == 0 {
		*f = f.As(finding.Caution).Mend("ask which standard the drawing follows: ISO 2553 writes the number of stitches before their length, and here is none")
	}
}

// extent holds the way of the seam against all round and the length that the symbol
// has.
func (c *symbolCheck) extent() {
	if c.says.AllRound && !c.doc.Closed {
		c.add(finding.SymbolAllRound, "its symbol says all round, and its path does not close")
	}
	wanted := c.called.Run.Length
	if wanted == 0 || c.called.Run.Stitched() {
		return
	}
	parts := min(len(c.doc.Split.At)+1, len(c.seams))
	planned := -c.doc.Overlap
	for i, s := range c.seams[:parts] {
		planned += s.Length
		if i > 0 {
			planned -= c.doc.Split.TieIn
		}
	}
	if math.Abs(planned-wanted) > symbolSlack {
		f := c.add(finding.SymbolLength, "its symbol says a length of %s, its path is %s long", c.tape(wanted), c.tape(planned))
		*f = f.Values(c.pair(unit.Length, planned, wanted))
	}
}

// tail holds what the tail asks for against settings, position and procedure.
func (c *symbolCheck) tail() {
	t := c.says.Tail
	differs := func(format string, args ...any) { c.add(finding.SymbolTail, format, args...) }
	said := map[string]bool{}
	for _, s := range c.seams {
		for k := range s.Passes {
			id := s.Passes[k].Size.Settings
			set := settingsOf(c.job, id)
			if said[id] {
				continue
			}
			said[id] = true
			if !c.says.Allows(set.Process) {
				differs("its symbol's tail asks for process %v, settings set %s is for %v", t.Process, id, set.Process)
			}
			if t.Filler != "" && set.WireClass != "" && !strings.Contains(joined(t.Filler), joined(set.WireClass)) {
				differs("its symbol's tail asks for filler %s, settings set %s is for %s", t.Filler, id, set.WireClass)
			}
		}
		if at := s.Position.Name(t.Position.Family()); t.Position != 0 && at != t.Position && !said["position"] {
			said["position"] = true
			differs("its symbol's tail asks for position %v, it is welded in %v", t.Position, at)
		}
	}
	if !strings.HasPrefix(strings.ToUpper(t.Note), "WPS") {
		return
	}
	switch w := c.job.ProcedureOf(c.doc); {
	case w == nil:
		differs("its symbol's tail asks for procedure %s, the job gives none for it", t.Note)
	case joined(t.Note) != joined(w.Common.ID) && joined(t.Note) != joined(w.Common.ID+w.Common.Revision):
		differs("its symbol's tail asks for procedure %s, it is held against %s", t.Note, w.Common.ID)
	}
}

// joined takes out of an identity what people write differently.
func joined(text string) string { return strings.ToUpper(unjoined.Replace(text)) }

var unjoined = strings.NewReplacer(" ", "", "-", "", "_", "", ".", "")

// byHand says what the symbol calls for and the arm does not do.
func (c *symbolCheck) byHand() {
	var what []string
	if c.says.Field {
		what = append(what, "a weld in the field, not in the shop")
	}
	if face := c.called; face.Contour != 0 {
		text := fmt.Sprintf("a %v face", face.Contour)
		if face.Finish != 0 {
			text += ", finish " + face.Finish.String()
		}
		what = append(what, text)
	}
	if level := c.says.Tail.Level; level != "" {
		what = append(what, "quality level "+level)
	}
	if note := c.says.Tail.Note; note != "" && !strings.HasPrefix(strings.ToUpper(note), "WPS") {
		what = append(what, fmt.Sprintf("%q in its tail", note))
	}
	if filler := c.says.Tail.Filler; filler != "" {
		for _, s := range c.seams[:min(1, len(c.seams))] {
			if settingsOf(c.job, s.Passes[0].Size.Settings).WireClass == "" {
				what = append(what, "filler "+filler+" (the settings set states no class of wire)")
			}
		}
	}
	if len(what) > 0 {
		c.add(finding.SymbolByHand, "its symbol also calls for %s; no plan brings that about", strings.Join(what, "; "))
	}
}

// sideCount is how many seams there are to one symbol with welds on both sides.
type sideCount struct {
	says         symbol.Symbol
	first        *job.Seam
	arrow, other []string
}

// checkSymbolSides asks for the seams of the other side where a symbol has welds on
// both. The two sides of a groove that is planned as one seam count as one.
func checkSymbolSides(j *job.Job) []finding.Finding {
	var counts []*sideCount
	for i := range j.Seams {
		s := &j.Seams[i]
		planned := s.Weld.Kind == job.SizeGroove && s.Weld.Groove.Section.Prep.Double()
		if s.Symbol.Says.Side() != symbol.BothSides || s.Symbol.Side == symbol.BothSides || planned {
			continue
		}
		var count *sideCount
		for _, c := range counts {
			if c.says == s.Symbol.Says {
				count = c
			}
		}
		if count == nil {
			count = &sideCount{says: s.Symbol.Says, first: s}
			counts = append(counts, count)
		}
		if s.Symbol.Side == symbol.ArrowSide {
			count.arrow = append(count.arrow, s.Name)
		} else {
			count.other = append(count.other, s.Name)
		}
	}
	var out []finding.Finding
	for _, c := range counts {
		if len(c.arrow) == len(c.other) {
			continue
		}
		has := func(names []string, side symbol.Side) string {
			if len(names) == 0 {
				return fmt.Sprintf("no seam is its %v", side)
			}
			return fmt.Sprintf("%s on its %v", strings.Join(names, ", "), side)
		}
		f := finding.Newf(finding.SymbolOtherSide, finding.AtSeam(c.first.Name), "%s: its symbol has welds on both sides; %s, %s", c.first.Name, has(c.arrow, symbol.ArrowSide), has(c.other, symbol.OtherSide))
		out = append(out, f.Values(float64(min(len(c.arrow), len(c.other))), float64(max(len(c.arrow), len(c.other))), "seams").From(c.says.System.Source().String()))
	}
	return out
}
