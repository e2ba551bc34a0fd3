package threemf

import (
	"fmt"
	"strings"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// model is one model part.
type model struct {
	unit    mesh.Unit
	objects map[int32]*object
	items   []component
}

// object has a mesh or is put together from others.
type object struct {
	vertices   []r3.Vec // in the model's unit
	triangles  [][3]int32
	components []component
	line       int
	support    bool
}

// component is another object and where it stands; an item of the build is one
// as well.
type component struct {
	part   string // empty for the same part
	object int32
	at     mesh.Affine // lengths in the model's unit
	line   int
}

// spaces are the namespaces of extensions that may be required: materials lose
// no shape, and production is read.
var spaces = map[string]bool{
	coreSpace: true,
	"http://schemas.microsoft.com/3dmanufacturing/material/2015/02":   true,
	"http://schemas.microsoft.com/3dmanufacturing/production/2015/06": true,
}

// units are the names of units in the core specification, section 3.4.
var units = map[string]mesh.Unit{
	"": mesh.Millimetres, "millimeter": mesh.Millimetres, "micron": mesh.Micrometres, "centimeter": mesh.Centimetres,
	"inch": mesh.Inches, "foot": mesh.Feet, "meter": mesh.Metres,
}

// part returns a model part, read once.
func (d *decoder) part(name string) (*model, error) {
	if m := d.parts[name]; m != nil {
		return m, nil
	}
	data, err := d.unpack(name)
	if err != nil {
		return nil, err
	}
	r := d.reader(data)
	var m *model
	err = r.each(func(t *tag) error {
		if t.Name.Local != "model" || t.Name.Space != coreSpace || m != nil {
			return d.Fault(fmt.Sprintf("<%s> of %s", t.Name.Local, mesh.Quote([]byte(t.Name.Space))), "one <model> of "+coreSpace, "export the file as 3MF core 1.0 or later")
		}
		m = &model{objects: map[int32]*object{}}
		return r.model(m, t)
	})
	if err != nil {
		return nil, err
	}
	if m == nil {
		return nil, d.Fault("no model", "one <model>", "export the file again")
	}
	d.parts[name] = m
	return m, nil
}

func (r *reader) model(m *model, t *tag) error {
	unit, known := units[t.attr("unit")]
	if !known {
		return r.d.Fault("unit = "+mesh.Quote([]byte(t.attr("unit"))), "micron, millimeter, centimeter, inch, foot or meter", "export the file again")
	}
	m.unit = unit
	for _, prefix := range strings.Fields(t.attr("requiredextensions")) {
		space := ""
		for _, a := range t.Attr {
			if a.Name.Space == "xmlns" && a.Name.Local == prefix {
				space = a.Value
			}
		}
		if !spaces[space] {
			return r.d.Fault(fmt.Sprintf("the required extension %s", mesh.Quote([]byte(prefix+" "+space))), "core, materials and production", "export it without extensions")
		}
	}
	return r.children(func(c *tag) error {
		switch c.Name.Local {
		case "resources":
			return r.children(func(o *tag) error {
				if o.Name.Local == "object" {
					return r.object(m, o)
				}
				return r.skip(o)
			}, nil)
		case "build":
			return r.children(func(i *tag) error {
				if i.Name.Local != "item" {
					return r.skip(i)
				}
				return r.component(&m.items, i)
			}, nil)
		case "metadata":
			return r.children(nil, nil)
		}
		return r.skip(c)
	}, nil)
}

func (r *reader) object(m *model, t *tag) error {
	id, err := r.whole(t, "id")
	if err != nil {
		return err
	}
	if m.objects[id] != nil {
		return r.d.Fault(fmt.Sprintf("the object %d again, first on line %d", id, m.objects[id].line), "each object once", "export the file again")
	}
	o := &object{line: r.d.Place.Line, support: t.attr("type") == "support" || t.attr("type") == "solidsupport"}
	m.objects[id] = o
	return r.children(func(c *tag) error {
		switch c.Name.Local {
		case "mesh":
			return r.mesh(o)
		case "components":
			return r.children(func(k *tag) error {
				if k.Name.Local != "component" {
					return r.skip(k)
				}
				return r.component(&o.components, k)
			}, nil)
		case "metadatagroup":
			return r.children(nil, nil)
		}
		return r.skip(c)
	}, nil)
}

// mesh reads vertices and triangles.
func (r *reader) mesh(o *object) error {
	if o.vertices != nil || o.triangles != nil {
		return r.d.Fault("a second mesh in an object", "one", "export the file again")
	}
	err := r.children(func(c *tag) error {
		switch c.Name.Local {
		case "vertices":
			return r.children(func(v *tag) error { return r.vertex(o, v) }, nil)
		case "triangles":
			return r.children(func(t *tag) error { return r.triangle(o, t) }, nil)
		case "beamlattice":
			return r.d.Fault("a lattice of beams", "triangles", "export it as triangles")
		}
		return r.skip(c)
	}, nil)
	if err != nil {
		return err
	}
	for _, t := range o.triangles { // they may stand above the vertices
		for _, v := range t {
			if int(v) >= len(o.vertices) {
				return r.d.Fault(fmt.Sprintf("a triangle with vertex %d", v), fmt.Sprintf("0 to %d, the vertices of the object on line %d", len(o.vertices)-1, o.line), "export the file again")
			}
		}
	}
	o.compact()
	return nil
}

// compact drops the vertices that no triangle uses, so that each copy of the
// object costs no more than its triangles.
func (o *object) compact() {
	if len(o.vertices) <= len(o.triangles) {
		return
	}
	to := make([]int32, len(o.vertices)) // the new number plus 1
	used := []r3.Vec{}                   // not nil: the object has a mesh
	for i := range o.triangles {
		for k, v := range o.triangles[i] {
			if to[v] == 0 {
				used = append(used, o.vertices[v])
				to[v] = int32(len(used))
			}
			o.triangles[i][k] = to[v] - 1
		}
	}
	o.vertices = used
}

func (r *reader) vertex(o *object, t *tag) error {
	if most := 3 * r.d.Limits.Triangles; len(o.vertices) >= most {
		return r.d.Exceeded("Triangles", fmt.Sprintf("more than %d vertices in an object", most), "three for each triangle allowed at most",
			"export it coarser, or raise the limit")
	}
	var v [3]float64
	for i, name := range [...]string{"x", "y", "z"} {
		x, err := r.number(t, name)
		if err != nil {
			return err
		}
		v[i] = x
	}
	o.vertices = append(o.vertices, r3.Vec{X: v[0], Y: v[1], Z: v[2]})
	return r.children(nil, nil)
}

func (r *reader) triangle(o *object, t *tag) error {
	if r.d.triangles++; r.d.triangles > r.d.Limits.Triangles {
		return r.d.Exceeded("Triangles", fmt.Sprintf("more than %d triangles", r.d.Limits.Triangles), fmt.Sprintf("at most %d", r.d.Limits.Triangles),
			"export it coarser, or raise the limit")
	}
	var v [3]int32
	for i, name := range [...]string{"v1", "v2", "v3"} {
		n, err := r.whole(t, name)
		if err != nil {
			return err
		}
		v[i] = n
	}
	o.triangles = append(o.triangles, v)
	return r.children(nil, nil)
}

// component reads a reference to an object and its transform.
func (r *reader) component(to *[]component, t *tag) error {
	id, err := r.whole(t, "objectid")
	if err != nil {
		return err
	}
	at, err := r.transform(t)
	if err != nil {
		return err
	}
	*to = append(*to, component{strings.TrimPrefix(t.attr("path"), "/"), id, at, r.d.Place.Line})
	return r.children(func(c *tag) error { return r.children(nil, nil) }, nil)
}

// transform reads twelve numbers, the rows of a matrix that stands behind a row
// vector (section 3.3): three images of axes and a displacement.
func (r *reader) transform(t *tag) (mesh.Affine, error) {
	text := t.attr("transform")
	if text == "" {
		return mesh.NoTransform(), nil
	}
	fields := strings.Fields(text)
	var m [12]float64
	for i, f := range fields {
		x, ok := mesh.ParseNumber([]byte(f))
		if !ok || len(fields) != len(m) {
			return mesh.Affine{}, r.d.Fault("transform = "+mesh.Quote([]byte(text)), "12 numbers", "export the file again")
		}
		m[i] = x
	}
	return mesh.Affine{X: r3.Vec{X: m[0], Y: m[1], Z: m[2]}, Y: r3.Vec{X: m[3], Y: m[4], Z: m[5]},
		Z: r3.Vec{X: m[6], Y: m[7], Z: m[8]}, T: r3.Vec{X: m[9], Y: m[10], Z: m[11]}}, nil
}
