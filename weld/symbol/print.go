package symbol

import (
	"math"
	"strconv"
	"strings"

	"seamwright/unit"
)

// mm prints a length (m) in mm as drawings have it: exactly where six decimals
// do, else to three.
func mm(x float64) string { return digits(x / unit.MM) }

// degrees prints an angle (rad) in degrees, likewise.
func degrees(x float64) string { return digits(x / unit.Deg) }

// digits prints a number with six decimals at most where they are exact, else
// with three.
func digits(v float64) string {
	decimals := 6
	if round := math.Round(v*1e6) / 1e6; math.Abs(v-round) > 1e-9 {
		decimals = 3
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// String returns the size with its letter, in mm: "a5", "z6x9", "s8a6".
func (z Size) String() string {
	if z.Is == 0 {
		return ""
	}
	out := z.Is.Letter() + mm(z.Value)
	if z.Second != 0 {
		out += "x" + mm(z.Second)
	}
	if z.Deep != 0 {
		out = Penetration.Letter() + mm(z.Deep) + out
	}
	return out
}

// String returns the run in the text form: "3 x 50 (100)", "50 pitch 100",
// "length 300"; empty for the full length.
func (r Run) String() string {
	switch {
	case r.Length == 0:
		return ""
	case !r.Stitched():
		return "length " + mm(r.Length)
	}
	out := mm(r.Length)
	if r.Elements != 0 {
		out = strconv.Itoa(r.Elements) + " x " + out
	}
	if r.SpacingIs == Pitch {
		return out + " pitch " + mm(r.Spacing)
	}
	return out + " (" + mm(r.Spacing) + ")"
}

// text returns the weld with its side in the text form.
func (w Weld) text(side Side) string {
	head := w.Kind.String()
	switch {
	case w.Kind == Fillet:
		head = w.Size.String()
	case w.Size.Is != 0:
		head += " " + w.Size.String()
	}
	parts := []string{head + " " + side.String()}
	add := func(say bool, part string) {
		if say {
			parts = append(parts, part)
		}
	}
	add(w.Depth != 0, "depth "+mm(w.Depth))
	add(w.Root.Stated, "root "+mm(w.Root.Width))
	add(w.Angle != 0, "angle "+degrees(w.Angle))
	add(w.Run != Run{}, w.Run.String())
	add(w.Contour != 0, "contour "+w.Contour.String())
	add(w.Finish != 0, "finish "+w.Finish.String())
	return strings.Join(parts, ", ")
}

// String returns the symbol in the text form that Parse reads, in mm and
// degrees.
func (s Symbol) String() string {
	var welds []string
	switch {
	case s.Symmetric():
		welds = []string{s.Arrow.text(BothSides)}
	default:
		if s.Arrow.Kind != 0 {
			welds = append(welds, s.Arrow.text(ArrowSide))
		}
		if s.Other.Kind != 0 {
			welds = append(welds, s.Other.text(OtherSide))
		}
	}
	parts := []string{strings.Join(welds, "; ")}
	add := func(say bool, part string) {
		if say {
			parts = append(parts, part)
		}
	}
	add(s.Pattern != 0, s.Pattern.String())
	add(s.AllRound, "all round")
	add(s.Field, "field")
	add(s.BrokenArrow, "broken arrow")
	add(s.Tail != Tail{}, `tail "`+s.Tail.String()+`"`)
	out := strings.Join(parts, ", ")
	if s.System != 0 {
		out = s.System.String() + ": " + out
	}
	return out
}
