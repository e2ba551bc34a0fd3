package mesh

import "fmt"

// RepairOptions says how far a repair may go. The zero value merges equal
// vertices only and fills no hole.
type RepairOptions struct {
	// Tolerance is how far, in m, vertices may lie apart to be merged: 0 for
	// equal positions only.
	Tolerance float64
	// FillPerimeter is the perimeter, in m, up to which flat holes are filled:
	// 0 fills none.
	FillPerimeter float64
}

// Changes says what a repair did to a mesh. What it could not mend is what
// Check still finds in the result.
type Changes struct {
	Unused      int // vertices dropped: no triangle used them
	Merged      int // vertices merged into another
	Collapsed   int // triangles dropped: two corners at one place
	Doubled     int // triangles dropped: they stood there already
	Needles     int // triangles without area removed, their neighbour cut in two or nothing beside them
	Filled      int // holes filled
	FilledWith  int // triangles added in holes
	Turned      int // triangles turned over
	InsideOut   int // of those, shells turned as a whole
	Undecided   int // shells facing inwards that were left: whether they are cavities was not found out
	NeedlesLeft int // triangles without area that could not be removed without opening a hole
}

// Any reports whether anything was changed.
func (c Changes) Any() bool {
	return c.Unused+c.Merged+c.Collapsed+c.Doubled+c.Needles+c.Filled+c.Turned > 0
}

// Lines returns the changes in plain words, one a line; none if nothing was
// changed or left.
func (c Changes) Lines() []string {
	var out []string
	for _, l := range []struct {
		n    int
		text string
	}{
		{c.Unused, "unused vertices dropped"},
		{c.Merged, "vertices merged into others"},
		{c.Collapsed, "triangles with two corners at one place dropped"},
		{c.Doubled, "triangles that stood there twice dropped"},
		{c.Needles, "triangles without area removed"},
		{c.Filled, fmt.Sprintf("flat holes filled with %d triangles", c.FilledWith)},
		{c.Turned, "triangles turned over"},
		{c.InsideOut, "shells turned inside out"},
		{c.Undecided, "shells that face inwards left as drawn"},
		{c.NeedlesLeft, "triangles without area left: to remove them would open a hole"},
	} {
		if l.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", l.n, l.text))
		}
	}
	return out
}

// Repair returns a mended copy of a mesh and what was changed: vertices are
// merged, triangles without area or doubled are removed, flat holes filled as
// far as the options allow, and shells wound one way, outwards where they are
// closed (cavities inwards). The order of what stays is kept. Repairing the
// result with the same options changes nothing. The error is that of Weld, or
// says that the perimeter is not a length.
func Repair(m Mesh, o RepairOptions) (Mesh, Changes, error) {
	var c Changes
	if !(o.FillPerimeter >= 0) {
		return Mesh{}, c, fmt.Errorf("mesh: perimeter of holes to fill: found %g m; allowed: 0 m or more; to mend: use 0 m to fill none", o.FillPerimeter)
	}
	if err := m.Validate(); err != nil {
		return Mesh{}, c, err
	}
	out, unused := used(m)
	out, merged, err := Weld(out, o.Tolerance)
	if err != nil {
		return Mesh{}, c, err
	}
	c.Unused, c.Merged = unused, merged
	out, c.Collapsed = withoutCollapsed(out)
	for {
		var d doubled
		out, d = withoutDoubles(out)
		c.Doubled += d.dropped
		n := removeNeedles(&out)
		c.Needles += n
		if n == 0 {
			break
		}
	}
	c.Filled, c.FilledWith = fillHoles(&out, o.FillPerimeter)
	for i := range out.Triangles {
		if height(out.Corners(i)) <= degenerateHeight {
			c.NeedlesLeft++
		}
	}
	shells, against := findShells(out, out.Adjacency())
	w := orient(out, shells, against)
	for i, turn := range w.turn {
		if turn {
			turnOver(&out.Triangles[i])
		}
	}
	c.Turned, c.InsideOut, c.Undecided = w.turned, w.insideOut, w.undecided
	out, unused = used(out)
	c.Unused += unused
	return out, c, nil
}
