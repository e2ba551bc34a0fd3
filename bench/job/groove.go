package job

import (
	"errors"

	"seamwright/unit"
	"seamwright/weld/section"
)

// Groove is the prepared joint that a groove weld fills.
type Groove struct {
	// Section is the drawing's, checked; its Thickness is that of the base plate
	// where the groove states none.
	Section section.Groove
	// Cap is the metal above the plates' face.
	Cap section.Reinforcement
	// Right says that of a preparation with one prepared edge it is the one at the
	// right of the travel, seen with the plates' face towards you; otherwise the
	// left.
	Right bool
}

// Ranges of sense of a groove, common practice, no source; section.NewGroove
// checks what goes together.
var (
	rootOpening = span{0, 30 * unit.MM}              // m
	rootFace    = span{0, 300 * unit.MM}             // m
	grooveAngle = span{0, 120 * unit.Deg}            // rad
	rootRadius  = span{1 * unit.MM, 300 * unit.MM}   // m
	backDepth   = span{0.5 * unit.MM, 300 * unit.MM} // m
	capHeight   = span{0, 15 * unit.MM}              // m
	capOver     = span{0, 20 * unit.MM}              // m
)

// preps are the words for the preparations.
var preps = []string{"square", "single V", "double V", "single bevel", "double bevel", "single U", "double U", "single J", "double J", "flare V", "flare bevel"}

// grooveForm is the table of a groove.
func grooveForm(g *Groove) record {
	s := &g.Section
	var edge string
	return record{example: "{prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}", fields: []field{
		need("prep", parsed(&s.Prep, preps, errless(section.ParsePrep))),
		may("thickness", quantity(unit.Length, &s.Thickness, thickness, "10 mm")),
		need("gap", quantity(unit.Length, &s.Gap, rootOpening, "3 mm")),
		may("root_face", quantity(unit.Length, &s.RootFace, rootFace, "1.5 mm")),
		may("angle", quantity(unit.Angle, &s.Angle, grooveAngle, "60 deg")),
		may("radius", quantity(unit.Length, &s.Radius, rootRadius, "6 mm")),
		may("back", quantity(unit.Length, &s.Back, backDepth, "8 mm")),
		may("prepared", oneOf(&edge, "left", "right")),
		may("cap", either{word: flushForm(&g.Cap), group: record{allowed: "{height: 1.5 mm, over: 3 mm}", example: "{height: 1.5 mm, over: 3 mm}", fields: []field{
			need("height", quantity(unit.Length, &g.Cap.Height, capHeight, "1.5 mm")),
			may("over", quantity(unit.Length, &g.Cap.Over, capOver, "3 mm")),
		}}}),
	}, check: func(_ *Problems, n node, clean bool) {
		g.Right = edge == "right"
		if !clean {
			s.Prep = 0 // what was read is not held together
		}
		if !n.has("cap") {
			g.Cap = section.UsualReinforcement()
		}
	}}
}

// flushForm reads the word for a weld without a cap.
func flushForm(c *section.Reinforcement) single {
	return parsed(c, []string{"flush"}, func(s string) (section.Reinforcement, bool) {
		return section.Reinforcement{}, s == "flush"
	})
}

// groove completes the seam's groove with the base plate's thickness and checks
// that its measures go together.
func (d *seamDraft) groove(ps *Problems) {
	s := &d.seam
	if s.Weld.Kind != SizeGroove || s.Weld.Groove.Section.Prep == 0 {
		return // said where it was read
	}
	g := &s.Weld.Groove.Section
	if g.Thickness == 0 {
		g.Thickness = s.BaseThickness
	}
	at := s.Weld.At.sub("groove")
	if s.Symbol.Given() {
		at = s.Symbol.At
	}
	if v, ok := d.read.get("weld"); ok {
		if v, ok = v.get("groove"); ok {
			at = v.at
		}
	}
	if g.Thickness == 0 {
		ps.add(at, "a groove in plates of unknown thickness", "the thickness of the plates", "add thickness: {base: 10 mm} to the seam, or thickness to the groove")
		return
	}
	whole, err := section.NewGroove(*g)
	if err != nil {
		found, allowed, mend := "measures that make no groove ("+err.Error()+")", "measures that go together", "correct the measure named"
		if in := (section.InputError{}); errors.As(err, &in) {
			found, allowed, mend = in.Kind.Error()+": "+in.Found, in.Allowed, in.Mend
		}
		ps.add(at, found, allowed, mend)
		return
	}
	*g = whole
}
