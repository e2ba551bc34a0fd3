package job

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/unit"
)

// Corner says how a polyline goes round a corner: with a radius, or sharp, the
// torch turning before, in and behind it.
type Corner struct {
	// Radius is that of the arc in place of the corner, m; 0: it is sharp.
	Radius float64
	// Shared says that Before and After were given: the angles (rad) by which the
	// torch turns on the seam before the corner and behind it. The rest is turned
	// in the corner.
	Shared        bool
	Before, After float64
	// Ahead and Behind are the lengths of seam, m, over which it turns before and
	// behind the corner; 0: not said.
	Ahead, Behind float64
	// ArcOff: the arc is put out while the torch turns in the corner.
	ArcOff bool
	At     Place
}

// cornersForm reads one corner for all, or a list with one for each.
func cornersForm(dst *[]Corner) form {
	return oneOrMany[Corner]{manyOf(dst, 1, maxPath, "corners", cornerForm).like("[{radius: 15 mm}, {arc: off}]")}
}

func cornerForm(c *Corner) form {
	var arc Arc
	return record{at: &c.At, example: "{radius: 15 mm}", allowed: "radius, or turn and arc of a sharp corner", fields: []field{
		may("radius", quantity(unit.Length, &c.Radius, cornerRadius, "15 mm")),
		may("turn", record{example: "{before: 15 deg over 15 mm, after: 15 deg over 15 mm}", fields: []field{
			may("before", turnForm(&c.Before, &c.Ahead)),
			may("after", turnForm(&c.After, &c.Behind)),
		}}),
		may("arc", oneOf(&arc, arcs...)),
	}, check: func(ps *Problems, n node, clean bool) {
		c.Shared, c.ArcOff = n.has("turn"), arc == ArcOff
		if turn, given := n.get("turn"); clean && given && c.Radius > 0 {
			ps.add(turn.at, turn.found()+" beside a radius", "turn at a sharp corner only", "delete turn: round an arc the torch turns along with it; or delete radius")
		}
		if off, _ := n.get("arc"); clean && c.ArcOff && c.Radius > 0 {
			ps.add(off.at, off.found()+" beside a radius", "arc: off at a sharp corner only", "delete arc: a round corner is welded on; or delete radius")
		}
	}}
}

// turnForm reads "15 deg over 20 mm", or the angle alone.
func turnForm(angle, reach *float64) single {
	const example = "15 deg over 15 mm"
	turn := quantity(unit.Angle, angle, turnAngle, example)
	over := quantity(unit.Length, reach, turnReach, example)
	turn.allowed = "an angle such as 15 deg, or with the length of seam over which it is turned, such as " + example
	turn.json["description"] = turn.allowed
	bare := turn.take
	turn.take = func(s string) *wrong {
		first, second, with := strings.Cut(s, " over ")
		w := bare(first)
		if w == nil && with {
			w = over.take(strings.TrimSpace(second))
		}
		if w != nil && w.found != "" { // no quantity: show the whole
			w.found, w.mend = quote(s), "write for example "+example
		}
		return w
	}
	return turn
}

// StartAt says where a closed path begins: By (m) along the path from where it
// would begin otherwise, or behind one of its points.
type StartAt struct {
	Point string // label, "": the path's own start
	By    float64
}

func startForm(s *StartAt, point *ref) either {
	by := func() single { return quantity(unit.Length, &s.By, startBy, "40 mm") }
	word := by()
	take := word.take
	word.take = func(text string) *wrong {
		w := take(text)
		if first, _ := utf8.DecodeRuneInString(strings.TrimSpace(text)); w != nil && unicode.IsLetter(first) { // a point's name
			return &wrong{mend: "write for example {after: " + strings.TrimSpace(text) + ", by: 0 mm}"}
		}
		return w
	}
	return either{word: word, group: record{example: "{after: W1 a, by: 40 mm}", allowed: "{after: W1 a, by: 40 mm}", fields: []field{
		need("after", named(point, "W1 a")),
		need("by", by()),
	}}}
}
