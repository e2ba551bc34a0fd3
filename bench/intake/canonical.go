package intake

import (
	"slices"
	"strings"

	"seamwright/unit"
)

// Canonical writes the points as the strict CSV that a job document reads:
// commas, decimal points, heads label, x, y, z, r1..., j1..., and what else the
// points have. Lengths, joint values and speeds are in the units of the words
// (mm, deg and mm/s where these are empty), which the document must state with
// the same words. Numbers keep twelve digits.
func Canonical(points []Point, words Words) []byte {
	w := writer{words: words}
	for _, p := range points {
		w.turns, w.joints = max(w.turns, len(p.Turn)), max(w.joints, len(p.Joints))
		w.places = w.places || p.HasPlace
	}
	w.columns = w.plain(points)
	out := appendRow(nil, w.heads())
	for _, p := range points {
		out = appendRow(out, w.row(p))
	}
	return out
}

// appendRow writes one line of CSV. A first cell that begins like a comment
// gets quotes, which the standard library's writer would not give it.
func appendRow(out []byte, cells []string) []byte {
	for i, c := range cells {
		if i > 0 {
			out = append(out, ',')
		}
		if strings.ContainsAny(c, ",\"\r\n") || strings.HasPrefix(c, "#") || strings.HasPrefix(c, " ") {
			c = `"` + strings.ReplaceAll(c, `"`, `""`) + `"`
		}
		out = append(out, c...)
	}
	return append(out, '\n')
}

// writer knows which columns the points need.
type writer struct {
	words         Words
	places        bool
	turns, joints int
	columns       []plainColumn
}

// plainColumn is a column of words or of one number.
type plainColumn struct {
	name string
	cell func(Point) string
}

func (w writer) plain(points []Point) []plainColumn {
	number := func(x, unit float64, has bool) string {
		if !has {
			return ""
		}
		return roundTo(x / unit)
	}
	length, speeds := w.size(w.words.Length, "mm"), w.size(w.words.Speeds, "mm/s")
	all := []plainColumn{
		{"move", func(p Point) string { return p.Move }},
		{"speed", func(p Point) string { return number(p.Speed, speeds, p.Speed != 0) }},
		{"percent", func(p Point) string { return number(p.Percent, 1, p.Percent != 0) }},
		{"blend", func(p Point) string { return number(p.Blend, length, p.HasBlend) }},
		{"arc", func(p Point) string { return p.Arc }},
		{"settings", func(p Point) string { return p.Settings }},
		{"comment", func(p Point) string { return p.Comment }},
	}
	return slices.DeleteFunc(all, func(c plainColumn) bool {
		return !slices.ContainsFunc(points, func(p Point) bool { return c.cell(p) != "" })
	})
}

func (w writer) size(symbol, fallback string) float64 {
	s, ok := scaleOf(symbol)
	if !ok {
		s, _ = scaleOf(fallback)
	}
	return s.si
}

func (w writer) heads() []string {
	heads := []string{"label"}
	if w.places {
		heads = append(heads, "x", "y", "z")
	}
	for _, r := range append(numbered(turnRole, w.turns), numbered(jointRole, w.joints)...) {
		heads = append(heads, string(r))
	}
	for _, c := range w.columns {
		heads = append(heads, c.name)
	}
	return heads
}

func (w writer) row(p Point) []string {
	length := w.size(w.words.Length, "mm")
	row := []string{p.Label}
	if w.places {
		xyz := []string{"", "", ""}
		if p.HasPlace {
			xyz = []string{roundTo(p.Pose.P.X / length), roundTo(p.Pose.P.Y / length), roundTo(p.Pose.P.Z / length)}
		}
		row = append(row, xyz...)
	}
	for i := range w.turns {
		cell := ""
		if i < len(p.Turn) {
			cell = roundTo(p.Turn[i])
		}
		row = append(row, cell)
	}
	for i := range w.joints {
		cell := ""
		if i < len(p.Joints) {
			cell = roundTo(p.Joints[i] / w.jointUnit(i))
		}
		row = append(row, cell)
	}
	for _, c := range w.columns {
		row = append(row, c.cell(p))
	}
	return row
}

// jointUnit is the unit of a joint's column, rad, or m where it slides.
func (w writer) jointUnit(i int) float64 {
	if i < len(w.words.Slides) && w.words.Slides[i] {
		return w.size(w.words.Length, "mm")
	}
	if w.words.Joints == "rad" {
		return 1
	}
	return unit.Deg
}
