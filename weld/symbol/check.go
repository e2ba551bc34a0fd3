package symbol

import (
	"fmt"
	"strings"

	"seamwright/weld"
)

// Validate reports the first thing about a symbol that no drawing can mean, or
// that its system does not write. Every error is an *Error.
func (s Symbol) Validate() error {
	if err := s.check(); err != nil {
		return err
	}
	return nil
}

func (s Symbol) check() *Error {
	if s.Side() == 0 {
		return &Error{Name: NoWeld, Found: "neither side has a weld", Allowed: "a weld on the arrow side, the other side or both", Mend: "write the weld and its side"}
	}
	for _, side := range []Side{ArrowSide, OtherSide} {
		w := s.On(side)
		if w.Kind == 0 {
			continue
		}
		for _, c := range []struct {
			what  string
			check func(System) *Error
		}{{"", w.checkSize}, {"", w.checkGroove}, {"length and spacing", w.checkRun}, {"contour", w.checkFace}} {
			if err := c.check(s.System); err != nil {
				err.of.side = side
				if err.of.what == "" {
					err.of.what = c.what
				}
				return err
			}
		}
	}
	if s.BrokenArrow && !s.Arrow.Kind.OneMember() && !s.Other.Kind.OneMember() {
		return &Error{of: part{what: "broken arrow"}, Name: NotForKind, Found: fmt.Sprintf("a broken arrow to a %v weld", s.Welds()[0].Kind), Allowed: "bevel, J, flare-bevel, which prepare one member", Mend: "leave the break out"}
	}
	if err := s.checkPattern(); err != nil {
		return err.about("pattern")
	}
	if err := s.Tail.check(s.System); err != nil {
		return err.about("tail")
	}
	return nil
}

// mixed is the error for what the other code family writes.
func mixed(found, allowed, mend string) *Error {
	return &Error{Name: MixedCodes, Found: found, Allowed: allowed, Mend: mend}
}

// checkSize holds the size against the kind and the system.
func (w Weld) checkSize(system System) *Error {
	z := w.Size
	switch {
	case w.Kind == Fillet && z.Is == 0:
		return &Error{Name: NoSize, Found: "a fillet without a size", Allowed: "z for a leg, a for a throat", Mend: "write the size, such as z6 or a5"}
	case w.Kind == Fillet && z.Is == Penetration:
		return &Error{Name: WrongMeasure, Found: "the fillet " + z.String(), Allowed: "z for a leg, a for a throat, s before a", Mend: "write the leg or throat; for a groove, write which"}
	case w.Kind.Groove() && (z.Is == Leg || z.Is == Throat || z.Second != 0 || z.Deep != 0):
		return &Error{Name: WrongMeasure, Found: fmt.Sprintf("the size %v of a %v weld", z, w.Kind), Allowed: "s for a penetration, or none for complete penetration", Mend: "write s, or take the weld for a fillet"}
	case system == AWSA24 && z.Is == Throat:
		return mixed("the throat "+z.String()+" in a symbol of AWS A2.4, which sizes fillets by the leg", "z for a leg", "convert the throat into a leg, or name the system of the drawing")
	case z.Second != 0 && z.Is != Leg:
		return &Error{Name: WrongMeasure, Found: "two figures in " + z.String(), Allowed: "two legs, such as z6x9", Mend: "write legs, or one throat"}
	case z.Deep != 0 && z.Deep <= z.Value:
		return &Error{Name: WrongMeasure, Found: z.String() + ", whose penetration is not above its throat", Allowed: "s above a", Mend: "swap the two or take s off"}
	}
	var values []weld.Sensed
	switch z.Is {
	case Leg:
		values = append(values, legSense.Of(z.Value))
	case Throat:
		values = append(values, throatSense.Of(z.Value))
	case Penetration:
		values = append(values, depthSense.Of(z.Value))
	}
	if z.Second != 0 {
		values = append(values, legSense.Of(z.Second))
	}
	if z.Deep != 0 {
		values = append(values, depthSense.Of(z.Deep))
	}
	if err := weld.CheckAll(values...); err != nil {
		return senseError(err)
	}
	return nil
}

// checkGroove holds preparation, opening and angle against the kind.
func (w Weld) checkGroove(system System) *Error {
	switch {
	case !w.Kind.Groove() && (w.Depth != 0 || w.Root.Stated || w.Angle != 0):
		return &Error{Name: NotForKind, Found: "depth, root or angle of a fillet", Allowed: "them on a groove", Mend: "leave them out, or write the groove", of: part{what: w.told()}}
	case w.Angle != 0 && !w.Kind.angled():
		return &Error{Name: NotForKind, Found: fmt.Sprintf("a groove angle of a %v weld", w.Kind), Allowed: "an angle on V, bevel, U or J", Mend: "leave the angle out", of: part{what: "angle"}}
	case w.Depth != 0 && system.Family() == weld.ISO:
		return mixed("a depth of preparation in a symbol of "+system.String(), "s for the penetration", "write the penetration, and the depth in the tail or a detail").about("depth")
	case system == AWSA24 && (w.Kind == VRootFace || w.Kind == BevelRootFace):
		return mixed(w.Kind.String()+" in a symbol of AWS A2.4", "V or bevel with a depth of preparation", "write V or bevel and the depth")
	}
	for _, m := range []struct {
		what  string
		given bool
		value weld.Sensed
	}{
		{"depth", w.Depth != 0, depthSense.Of(w.Depth)},
		{"root", w.Root.Stated, openingSense.Of(w.Root.Width)},
		{"angle", w.Angle != 0, grooveSense.Of(w.Angle)},
	} {
		if err := weld.CheckAll(m.value); m.given && err != nil {
			return senseError(err).about(m.what)
		}
	}
	return nil
}

// told names the first of the measures of a groove that are stated.
func (w Weld) told() string {
	switch {
	case w.Depth != 0:
		return "depth"
	case w.Root.Stated:
		return "root"
	}
	return "angle"
}

// checkRun holds length, number and spacing against each other and the system.
func (w Weld) checkRun(system System) *Error {
	r := w.Run
	bad := func(found, allowed, mend string) *Error {
		return &Error{Name: BadRun, Found: found, Allowed: allowed, Mend: mend}
	}
	switch {
	case r == Run{}:
		return nil
	case r.Length == 0 || !r.Stitched() && (r.Elements != 0 || r.Spacing != 0):
		return bad("part of a length and spacing", `a length; or length, spacing and what the spacing is`, `write "length 300", "3 x 50 (100)" or "50 pitch 100"`)
	case r.Elements < 0 || r.Elements > maxElements:
		return bad(fmt.Sprintf("%d elements", r.Elements), fmt.Sprintf("1 to %d", maxElements), "count them again")
	case r.SpacingIs == Pitch && !(r.Spacing > r.Length):
		return &Error{Name: PitchTooSmall, Found: fmt.Sprintf("length %s, pitch %s", mm(r.Length), mm(r.Spacing)), Allowed: "a pitch above the length",
			Mend: "swap the two, or leave the pitch out if the weld is continuous; pitch is centre to centre"}
	case r.SpacingIs == Pitch && r.Elements != 0:
		return bad("a pitch with a number of elements", "length and pitch; the joint's length gives the number", fmt.Sprintf("write %s pitch %s, or the clear gap: %d x %s (%s)", mm(r.Length), mm(r.Spacing), r.Elements, mm(r.Length), mm(r.Spacing-r.Length)))
	case system == AWSA24 && r.SpacingIs == ClearGap:
		return mixed("a clear gap in a symbol of AWS A2.4, which gives the pitch", "length and pitch, centre to centre", fmt.Sprintf("write %s pitch %s", mm(r.Length), mm(r.Pitch())))
	case system.Family() == weld.ISO && r.SpacingIs == Pitch:
		return mixed("a pitch in a symbol of "+system.String()+", which gives the clear gap", "n x l (e)", fmt.Sprintf("write the number of elements, their length and the gap: n x %s (%s)", mm(r.Length), mm(r.Gap())))
	}
	if err := elementSense.Check(r.Length); err != nil {
		return senseError(err)
	}
	if !r.Stitched() {
		return nil
	}
	if err := spacingSense.Check(r.Spacing); err != nil {
		return senseError(err)
	}
	return nil
}

// checkFace holds contour and finish against the system.
func (w Weld) checkFace(system System) *Error {
	switch {
	case w.Contour > ToesBlended:
		return &Error{Name: BadContour, Found: fmt.Sprintf("contour %d", w.Contour), Allowed: names(contourWords), Mend: "use one of them"}
	case w.Contour == ToesBlended && system == AWSA24:
		return mixed("blended toes, a symbol of ISO 2553, in one of AWS A2.4", "flat, convex, concave", "write the toes in the tail")
	case w.Finish != 0 && system.Family() == weld.ISO:
		return mixed("a finish letter of AWS A2.4 in a symbol of "+system.String(), "a contour", "write the finish in the tail").about("finish")
	case w.Finish != 0 && (w.Contour == 0 || w.Contour == ToesBlended):
		return &Error{Name: BadFinish, Found: "a finish without a contour", Allowed: "a finish behind flat, convex or concave", Mend: "write the contour too", of: part{what: "finish"}}
	}
	return nil
}

// checkPattern holds chain or staggered against the welds.
func (s Symbol) checkPattern() *Error {
	both := s.Arrow.Run.Stitched() && s.Other.Run.Stitched()
	switch {
	case s.Pattern != 0 && !both:
		return &Error{Name: BadPattern, Found: fmt.Sprintf("%v with stitches not on both sides", s.Pattern), Allowed: "it with stitches on both sides", Mend: "write both sides, or leave it out"}
	case both && s.Pattern == 0:
		return &Error{Name: BadPattern, Found: "stitches on both sides", Allowed: names(patternWords), Mend: "say which"}
	case s.Pattern == Staggered && s.Arrow.Run.Pitch() != s.Other.Run.Pitch():
		return &Error{Name: BadPattern, Found: fmt.Sprintf("staggered with pitches %s and %s", mm(s.Arrow.Run.Pitch()), mm(s.Other.Run.Pitch())), Allowed: "one pitch", Mend: "give both sides one pitch, or write chain"}
	}
	return nil
}

// check holds the tail against the system.
func (t Tail) check(system System) *Error {
	for _, text := range []string{t.Level, t.Filler, t.Note} {
		if strings.ContainsAny(text, "\"/\n") {
			return &Error{Name: BadTail, Found: fmt.Sprintf("%q", text), Allowed: "entries without strokes and quotation marks", Mend: "write it in other words"}
		}
	}
	family := system.Family()
	switch {
	case t.Position != 0 && family != 0 && t.Position.Family() != family:
		return mixed(fmt.Sprintf("position %v in a symbol of %v", t.Position, system), "a position in the words of its own code", "write the position so, or leave it out")
	case t.Level != "" && family == weld.AWS:
		return mixed("level "+t.Level+" in a symbol of "+system.String(), "the acceptance of its own code", "leave the level out, or name the system of the drawing")
	}
	return nil
}
