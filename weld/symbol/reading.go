package symbol

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// Context is what a reading may use of the joint.
type Context struct {
	Units unit.System
	// Angle is the included angle between the plates, rad; 0 for a square joint.
	Angle float64
}

// Reading says in words what the symbol means, a sentence a line, with what it
// would mean by the other standard where the two write different things alike. The
// symbol must be valid.
func (s Symbol) Reading(c Context) []string {
	if c.Angle == 0 {
		c.Angle = math.Pi / 2
	}
	out := []string{s.System.reading()}
	switch {
	case s.Symmetric():
		out = append(out, s.Arrow.reading(s.System, BothSides, c)...)
	default:
		for _, side := range []Side{ArrowSide, OtherSide} {
			if w := s.On(side); w.Kind != 0 {
				out = append(out, w.reading(s.System, side, c)...)
			}
		}
	}
	switch s.Pattern {
	case Chain:
		out = append(out, "chain: the stitches of the two sides lie opposite each other")
	case Staggered:
		out = append(out, "staggered: the stitches of one side lie opposite the gaps of the other; the numbers count for each side")
	}
	if s.AllRound {
		out = append(out, "all round: the weld runs round the whole joint and closes")
	}
	if s.Field {
		out = append(out, "field weld: welded on site, not in the shop")
	}
	if s.BrokenArrow {
		out = append(out, "broken arrow: it points to the member that is prepared")
	}
	return append(out, s.Tail.reading()...)
}

// reading says where a system has its sides.
func (s System) reading() string {
	switch s {
	case ISO2553A:
		return "ISO 2553 system A: solid and dashed line; what stands on the solid line is on the arrow side, on the dashed line on the other side"
	case ISO2553B, AWSA24:
		return s.String() + ": one line; what hangs below it is on the arrow side, what stands above it on the other side"
	}
	return "system not stated: it can be read, but neither drawn nor converted"
}

// length says a length, m, as the reader has it.
func (c Context) length(x float64) string {
	if c.Units == unit.InchPound {
		return digits(math.Round(x/unit.Inch*1e4)/1e4) + " in"
	}
	return digits(math.Round(x/unit.MM*100)/100) + " mm"
}

// reading says what is called for on one side or on both.
func (w Weld) reading(system System, side Side, c Context) []string {
	if w.Kind == Fillet {
		return append([]string{fmt.Sprintf("%v: fillet, %s", side, w.Size.reading(system, c))}, w.along(c)...)
	}
	parts := []string{fmt.Sprintf("%v: %v groove", side, w.Kind)}
	if w.Kind == Square {
		parts[0] = side.String() + ": square groove"
	}
	switch {
	case w.Size.Is == Penetration:
		parts = append(parts, "penetration "+c.length(w.Size.Value))
	case w.Depth == 0:
		parts = append(parts, "complete penetration, for no size is stated")
	}
	if w.Depth != 0 {
		parts = append(parts, "prepared "+c.length(w.Depth)+" deep")
	}
	if w.Root.Stated {
		parts = append(parts, "root opening "+c.length(w.Root.Width))
	} else {
		parts = append(parts, "root opening not stated")
	}
	switch {
	case w.Angle != 0:
		parts = append(parts, "groove angle "+degrees(w.Angle)+" degrees")
	case w.Kind.angled():
		parts = append(parts, "groove angle not stated")
	}
	return append([]string{strings.Join(parts, ", ")}, w.along(c)...)
}

// reading says what a fillet's size measures, and the other measure beside it.
func (z Size) reading(system System, c Context) string {
	value := c.length(z.Value)
	at := "at " + degrees(c.Angle) + " degrees between the plates"
	switch {
	case z.Second != 0:
		return fmt.Sprintf("unequal legs %s and %s; a detail of the drawing says which lies on which member", value, c.length(z.Second))
	case z.Is == Throat:
		out := "throat " + value
		if leg, err := LegOf(z.Value, c.Angle); err == nil {
			out += fmt.Sprintf(" (leg %s %s)", c.length(leg), at)
		}
		if z.Deep != 0 {
			out += ", penetration " + c.length(z.Deep) + " counted with the melt below the root"
		}
		return out
	}
	out := "leg " + value
	if throat, err := ThroatOf(z.Value, c.Angle); err == nil {
		out += fmt.Sprintf(" (throat %s %s)", c.length(throat), at)
	}
	if system == AWSA24 {
		out += "; a fillet's figure without a letter is its leg by this standard"
	}
	return out
}

// along says how far the weld runs, and how its face shall be.
func (w Weld) along(c Context) []string {
	var out []string
	r := w.Run
	switch {
	case r.Length == 0:
		out = append(out, "  the full length of the joint")
	case !r.Stitched():
		out = append(out, fmt.Sprintf("  %s long; the drawing says where it begins", c.length(r.Length)))
	default:
		out = append(out, "  "+r.reading(c), "  "+r.otherwise(c))
	}
	if w.Contour != 0 {
		how := map[Finish]string{0: "as welded, or by whatever means", Chipped: "chipped", Ground: "ground", Machined: "machined",
			Rolled: "rolled", Hammered: "hammered", Unspecified: "by a means not specified"}[w.Finish]
		out = append(out, fmt.Sprintf("  face %v, %s", w.Contour, how))
	}
	return out
}

// reading says the stitches with both pitch and gap.
func (r Run) reading(c Context) string {
	number := "as many as the joint's length gives"
	if r.Elements != 0 {
		number = fmt.Sprintf("%d of them, reaching over %s", r.Elements, c.length(float64(r.Elements)*r.Pitch()-r.Gap()))
	} else if r.SpacingIs == ClearGap {
		number = "the number that ISO 2553 writes before the length is missing, so " + number
	}
	length, pitch, gap := c.length(r.Length), c.length(r.Pitch()), c.length(r.Gap())
	if r.SpacingIs == Pitch {
		return fmt.Sprintf("stitches of %s at a pitch of %s, centre to centre: %s clear between them; %s", length, pitch, gap, number)
	}
	return fmt.Sprintf("stitches of %s with %s clear between them: a pitch of %s, centre to centre; %s", length, gap, pitch, number)
}

// otherwise says what the same two figures would be by the other standard.
func (r Run) otherwise(c Context) string {
	length, number := c.length(r.Length), c.length(r.Spacing)
	if r.SpacingIs == Pitch {
		return fmt.Sprintf("by ISO 2553 the same %s would be the clear gap: a pitch of %s, less weld", number, c.length(r.Spacing+r.Length))
	}
	if r.Spacing <= r.Length {
		return fmt.Sprintf("by AWS A2.4 the same %s would be the pitch, which stitches of %s cannot have", number, length)
	}
	return fmt.Sprintf("by AWS A2.4 the same %s would be the pitch: %s clear between stitches, more weld", number, c.length(r.Spacing-r.Length))
}

// reading says what stands in the tail.
func (t Tail) reading() []string {
	var out []string
	add := func(stated bool, what, value string) {
		if stated {
			out = append(out, "tail: "+what+" "+value)
		}
	}
	add(t.Process != 0, "process", t.Process.String())
	add(t.Level != "", "quality level", t.Level)
	add(t.Position != 0, "position", t.Position.String())
	add(t.Filler != "", "filler", t.Filler)
	add(t.Note != "", "says", fmt.Sprintf("%q", t.Note))
	return out
}

// Allows reports whether the tail leaves a process free or names it, by its number,
// or under AWS A2.4 by its letters, which several numbers share.
func (s Symbol) Allows(p weld.Process) bool {
	named := s.Tail.Process
	if named == 0 || named == p {
		return true
	}
	letters := awsProcesses[named]
	return s.System == AWSA24 && letters != "" && letters == awsProcesses[p]
}
