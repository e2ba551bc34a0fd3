package mesh

import (
	"fmt"

	"seamwright/geom/r3"
)

// Builder gathers a mesh while a file is read: it scales coordinates into
// metres, merges equal positions, and holds to the limits. Readers move Place
// along, and errors carry it.
type Builder struct {
	Format string
	Place  Place
	Limits Limits // with defaults in place of zeros

	unit      Unit
	scale     float64
	welder    Welder
	triangles [][3]int32
	corners   int // vertices given to Vertex
	said      []string
}

// NewBuilder returns a builder for a file of this format and size in bytes.
// Carried is the unit that the file carries, Undeclared if none. The errors
// say that the file is too large, that no unit is known, or that declared and
// carried unit differ.
func NewBuilder(format string, size int64, o Options, carried Unit) (*Builder, error) {
	b := &Builder{Format: format, Limits: o.Limits.orDefault()}
	if size > b.Limits.Bytes {
		return nil, b.Exceeded("Bytes", fmt.Sprintf("more than %d bytes", b.Limits.Bytes),
			fmt.Sprintf("at most %d bytes", b.Limits.Bytes), "export it coarser, or raise the limit")
	}
	return b, b.setUnit(o.Unit, carried)
}

func (b *Builder) setUnit(declared, carried Unit) error {
	b.unit = declared
	switch {
	case declared >= unitCount:
		return b.Fault(declared.String(), "mm, in, m, cm, ft or um", "declare the unit that the file was exported in")
	case declared == Undeclared && carried == Undeclared:
		return b.Fault("no unit, and files of this format carry none", "a declared unit", "declare the unit that the file was exported in, such as mm")
	case declared == Undeclared:
		b.unit = carried
	case carried != Undeclared && carried != declared:
		return b.Fault(fmt.Sprintf("coordinates in %s, declared as %s", carried, declared), "the unit that the file carries",
			fmt.Sprintf("declare %s, or none; if the file is wrong, export it again", carried))
	}
	b.scale = b.unit.Metres()
	return nil
}

// Fault returns an error at the builder's place.
func (b *Builder) Fault(found, allowed, mend string) *Error {
	return &Error{Format: b.Format, Place: b.Place, Found: found, Allowed: allowed, Mend: mend}
}

// Exceeded returns the error of a limit that was exceeded at the builder's
// place.
func (b *Builder) Exceeded(limit, found, allowed, mend string) *Error {
	e := b.Fault(found, allowed, mend)
	e.Limit = limit
	return e
}

// Say adds a sentence to the notes.
func (b *Builder) Say(format string, args ...any) {
	b.said = append(b.said, fmt.Sprintf(format, args...))
}

// Expect makes room for so many triangles. It says what Triangle would say if
// they are more than the limit.
func (b *Builder) Expect(triangles int) error {
	if triangles > b.Limits.Triangles {
		return b.tooMany(triangles)
	}
	b.triangles = make([][3]int32, 0, triangles)
	b.welder.Grow(triangles/2 + 2)
	b.welder.vertices = make([]r3.Vec, 0, triangles/2+2)
	return nil
}

func (b *Builder) tooMany(triangles int) error {
	return b.Exceeded("Triangles", fmt.Sprintf("%d triangles", triangles), fmt.Sprintf("at most %d", b.Limits.Triangles),
		"export it coarser, or raise the limit")
}

// Vertex returns the number of the vertex at v, in units of the file, and makes
// it where no vertex is at that position yet. Only corners of triangles are
// given to it.
func (b *Builder) Vertex(v r3.Vec) (int32, error) {
	if !usable(v) || !usable(v.Scale(b.scale)) {
		return 0, b.Fault(fmt.Sprintf("coordinates (%g, %g, %g)", v.X, v.Y, v.Z),
			fmt.Sprintf("finite numbers up to %g m", float64(maxCoordinate)), "export the file again")
	}
	b.corners++
	return b.welder.Index(v.Scale(b.scale)), nil
}

// Triangle adds a triangle of vertices that Vertex returned.
func (b *Builder) Triangle(i, j, k int32) error {
	if len(b.triangles) >= b.Limits.Triangles {
		return b.tooMany(len(b.triangles) + 1)
	}
	b.triangles = append(b.triangles, [3]int32{i, j, k})
	return nil
}

// Len returns how many triangles there are.
func (b *Builder) Len() int { return len(b.triangles) }

// Done returns the mesh and the notes. The error says that there is no
// triangle, or that there are more shells than the limit.
func (b *Builder) Done() (Mesh, Notes, error) {
	b.Place = Place{}
	m := Mesh{b.welder.vertices, b.triangles}
	if len(m.Triangles) == 0 {
		return Mesh{}, Notes{}, b.Fault("no triangle", "at least one", "export a solid or a surface, not points or lines alone")
	}
	if merged := b.corners - len(m.Vertices); merged > 0 {
		b.Say("%d of %d vertices stood at the position of another and were merged", merged, b.corners)
	}
	if n := countShells(m); n > b.Limits.Shells {
		return Mesh{}, Notes{}, b.Exceeded("Shells", fmt.Sprintf("%d separate shells", n), fmt.Sprintf("at most %d", b.Limits.Shells),
			"leave out threads, texts and fasteners, or raise the limit")
	}
	return m, Notes{Format: b.Format, Unit: b.unit, Said: b.said}, nil
}

// countShells returns into how many pieces without a common vertex m falls.
// That is never more than its shells, and quicker.
func countShells(m Mesh) int {
	parent := make([]int32, len(m.Vertices))
	for i := range parent {
		parent[i] = int32(i)
	}
	root := func(v int32) int32 {
		for parent[v] != v {
			parent[v] = parent[parent[v]]
			v = parent[v]
		}
		return v
	}
	n := len(m.Vertices)
	join := func(p, q int32) {
		if p, q = root(p), root(q); p != q {
			parent[max(p, q)] = min(p, q)
			n--
		}
	}
	for _, t := range m.Triangles {
		join(t[0], t[1])
		join(t[1], t[2])
	}
	return n
}
