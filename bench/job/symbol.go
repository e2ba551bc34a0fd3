package job

import (
	"errors"
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// Symbol is the drawing's weld symbol that a seam is welded to; the zero value is
// none. Size, groove and stitches of the seam follow from it.
type Symbol struct {
	Says symbol.Symbol
	// Side is the side of the symbol that the seam is; BothSides where its mirror
	// image is the other.
	Side symbol.Side
	// SystemNamed: the symbol names its system; otherwise it follows the job's code,
	// ISO 2553 as system A, whose sides differ from B on the paper only.
	SystemNamed bool
	// Taken are what the symbol leaves open and how it is taken, a sentence each.
	Taken []string
	At    Place
}

// Given reports whether the seam has a symbol.
func (s *Symbol) Given() bool { return s.Says.Side() != 0 }

// Called is the weld that the symbol calls for where the seam is.
func (s *Symbol) Called() symbol.Weld {
	if s.Side == symbol.OtherSide {
		return s.Says.Other
	}
	return s.Says.Arrow
}

// Opposite is the weld on the other face of the joint; the zero Weld for none.
func (s *Symbol) Opposite() symbol.Weld {
	if s.Side == symbol.OtherSide {
		return s.Says.Arrow
	}
	return s.Says.Other
}

// symbolDraft is a symbol while it is read.
type symbolDraft struct {
	text string
	code weld.CodeFamily // of the job
}

// fields lists what says that a seam is welded to a symbol.
func (d *symbolDraft) fields(s *Symbol) []field {
	return []field{
		may("symbol", placed{text(&d.text, `"a5 both sides, 60 (90)"`), &s.At}),
		may("side", parsed(&s.Side, []string{"arrow", "other", "both"}, func(w string) (symbol.Side, bool) {
			side := map[string]symbol.Side{"arrow": symbol.ArrowSide, "other": symbol.OtherSide, "both": symbol.BothSides}[w]
			return side, side != 0
		})),
	}
}

// systemOf is the system of drawings of a code family.
func systemOf(code weld.CodeFamily) symbol.System {
	switch code {
	case weld.ISO:
		return symbol.ISO2553A
	case weld.AWS:
		return symbol.AWSA24
	}
	return 0
}

// symbol reads the seam's symbol and fills in what follows from it.
func (d *seamDraft) symbol(ps *Problems) {
	s := &d.seam
	side, sided := d.read.get("side")
	if !d.read.has("symbol") {
		if sided {
			ps.add(side.at, side.found()+" on a seam without a symbol", "side beside symbol", "delete side, or write the drawing's symbol in place of weld")
		}
		return
	}
	at := s.Symbol.At
	if d.symbolic.text == "" || sided && s.Symbol.Side == 0 {
		return // said where it was read
	}
	says, err := symbol.ParseBy(d.symbolic.text, systemOf(d.symbolic.code))
	if e := (*symbol.Error)(nil); errors.As(err, &e) { // the only error that ParseBy returns
		if d.symbolic.code == 0 && (e.Name == symbol.NoSystem || e.Name == symbol.BareSize) {
			return // it hangs on the code, which was reported
		}
		where := ""
		if e.Column > 0 {
			where = fmt.Sprintf("column %d: ", e.Column)
		}
		ps.add(at, fmt.Sprintf("%s (%s%s: %s)", quote(d.symbolic.text), where, e.Name, e.Found), e.Allowed, e.Mend)
		return
	}
	own, err := symbol.Parse(d.symbolic.text)
	s.Symbol.SystemNamed = err == nil && own.System != 0
	if w := s.Symbol.settle(says, d.read.has("mirror")); w != nil {
		if sided {
			at = side.at
		}
		ps.add(at, w.found, w.allowed, w.mend)
		return
	}
	s.Symbol.Says = says
	s.Weld.At = at
	w := d.called()
	if w == nil {
		w = d.calledStitches()
	}
	if w != nil {
		ps.add(at, w.found, w.allowed, w.mend)
	}
}

// settle finds the side of a symbol that the seam is, from the one that was told.
func (s *Symbol) settle(says symbol.Symbol, mirror bool) *wrong {
	called := says.Side()
	switch told := s.Side; {
	case told == 0 && called == symbol.BothSides:
		return &wrong{"a symbol with welds on both sides", "side: arrow, other or both",
			"say which of the two this seam is: side: arrow or side: other, or side: both where its mirror image is the second"}
	case told == 0:
		s.Side = called
	case told == symbol.BothSides && called != symbol.BothSides:
		return &wrong{"side both of a symbol with a weld on the " + called.String() + " only", "the side that the symbol calls for", "delete side, or look at the symbol again"}
	case told == symbol.BothSides && !says.Symmetric():
		return &wrong{"side both of a symbol with two different welds", "side: arrow or other", "give each side a seam of its own"}
	case told == symbol.BothSides && says.Arrow.Kind.Groove():
		return &wrong{"side both of a groove", "side: arrow or other", "say from which side this seam is welded"}
	case told == symbol.BothSides && !mirror:
		return &wrong{"side both of a single seam", "side: both beside mirror, whose image is the other side", "add mirror, or say side: arrow and give the other side a seam of its own"}
	case told != symbol.BothSides && says.On(told).Kind == 0:
		return &wrong{"the " + told.String() + " of a symbol with a weld on the " + called.String() + " only", "the side that the symbol calls for", "delete side, or look at the symbol again"}
	}
	return nil
}

// called fills in the size that the symbol calls for.
func (d *seamDraft) called() *wrong {
	s := &d.seam
	called := s.Symbol.Called()
	if called.Kind.Groove() {
		return d.calledGroove()
	}
	size := called.Size
	w := &s.Weld
	switch {
	case size.Second != 0:
		return &wrong{"unequal legs in the symbol", "equal legs, or a throat: no symbol says which leg lies on which plate",
			fmt.Sprintf("look at the drawing's detail and write weld: {legs: {base: %s, upright: %s}} in place of the symbol", exactMM(size.Value), exactMM(size.Second))}
	case !weldSize.holds(size.Value):
		return &wrong{"the size " + exactMM(size.Value), exactMM(weldSize.low) + " to " + exactMM(weldSize.high), "check the number and its unit"}
	case size.Is == symbol.Throat:
		w.Kind, w.Throat = SizeThroat, size.Value
	default:
		w.Kind, w.LegBase, w.LegOther = SizeLeg, size.Value, size.Value
	}
	return nil
}

// calledStitches fills in the stitches that the symbol calls for.
func (d *seamDraft) calledStitches() *wrong {
	s := &d.seam
	run := s.Symbol.Called().Run
	if !run.Stitched() {
		return nil
	}
	switch st := &s.Stitches; {
	case d.read.has("stitches"):
		return &wrong{"stitches in the symbol and beside it", "one of the two", "delete stitches, or take them out of the symbol"}
	case !stitchLength.holds(run.Length):
		return &wrong{"stitches of " + exactMM(run.Length), exactMM(stitchLength.low) + " to " + exactMM(stitchLength.high), "check the number and its unit"}
	case !stitchSpacing.holds(run.Spacing):
		return &wrong{"a " + run.SpacingIs.String() + " of " + exactMM(run.Spacing), exactMM(stitchSpacing.low) + " to " + exactMM(stitchSpacing.high), "check the number and its unit"}
	case run.Elements > mostStitches:
		return &wrong{fmt.Sprintf("%d stitches", run.Elements), fmt.Sprintf("%d at most", mostStitches), "count them again"}
	default:
		st.Run, st.At = run, s.Symbol.At
		if s.Symbol.Says.System.Family() == weld.ISO {
			st.Ends = symbol.PitchKept // n x l (e) is dimensioned as it stands
		}
		if s.Symbol.Says.Pattern == symbol.Staggered {
			s.stagger()
		}
	}
	return nil
}

// stagger sets the stitches of one side off against those of the other.
func (s *Seam) stagger() {
	switch s.Symbol.Side {
	case symbol.BothSides:
		s.Stitches.Staggered = true
	case symbol.OtherSide:
		s.Stitches.Offset = s.Stitches.Run.Pitch() / 2
		s.Symbol.Taken = append(s.Symbol.Taken, "staggered: the stitches of this side begin half the drawn pitch later")
	}
}

// exactMM prints a length, m, in mm.
func exactMM(x float64) string { return unit.Exact(x, unit.Millimetres) }
