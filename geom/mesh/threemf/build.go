package threemf

import (
	"fmt"

	"seamwright/geom/mesh"
)

// build adds the items of the build.
func (d *decoder) build(part string, root *model) error {
	d.Place = mesh.Place{Part: part}
	if len(root.items) == 0 {
		return d.Fault("a build without items", "at least one <item>", "export the part that is to be built")
	}
	for _, i := range root.items {
		if err := d.place(part, root, i, mesh.NoTransform(), 1); err != nil {
			return err
		}
	}
	return nil
}

// place adds an object and those that it is put together from. The depth is
// bounded, and so are the visits, so that neither circles nor parts made of
// copies of copies go on for ever.
func (d *decoder) place(part string, m *model, c component, worldFromParent mesh.Affine, depth int) error {
	here := mesh.Place{Part: part, Line: c.line}
	d.Place = here
	if c.part != "" && c.part != part {
		other, err := d.part(c.part)
		if err != nil {
			return err
		}
		if other.unit != m.unit {
			d.Place = here
			return d.Fault(fmt.Sprintf("a part in %v used in one in %v", other.unit, m.unit), "one unit in all parts", "export the file again")
		}
		part, m = c.part, other
		d.Place = here
	}
	o := m.objects[c.object]
	d.visits++
	switch {
	case o == nil:
		return d.Fault(fmt.Sprintf("object %d", c.object), "an object that the part has", "export the file again")
	case depth > d.Limits.Depth:
		return d.Exceeded("Depth", fmt.Sprintf("objects nested more than %d deep, or in a circle", d.Limits.Depth), fmt.Sprintf("at most %d", d.Limits.Depth),
			"flatten the assembly, or raise the limit")
	case d.visits > d.Limits.Triangles:
		return d.Exceeded("Triangles", fmt.Sprintf("more than %d objects placed", d.Limits.Triangles), "no more objects than triangles", "export fewer copies, or raise the limit")
	}
	worldFromObject := worldFromParent.Mul(c.at)
	if o.support {
		d.support++
	}
	if err := d.add(o, worldFromObject); err != nil {
		return err
	}
	for _, k := range o.components {
		if err := d.place(part, m, k, worldFromObject, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// add adds the triangles of an object, turned over where it is mirrored.
func (d *decoder) add(o *object, worldFromObject mesh.Affine) error {
	if len(o.triangles) == 0 {
		return nil
	}
	if n := d.Len() + len(o.triangles); n > d.Limits.Triangles {
		return d.Exceeded("Triangles", fmt.Sprintf("more than %d triangles in all copies", d.Limits.Triangles), fmt.Sprintf("at most %d", d.Limits.Triangles),
			"export it coarser, or raise the limit")
	}
	mirrored := worldFromObject.Det() < 0
	welded := make([]int32, len(o.vertices)) // the builder's vertex plus 1
	for _, t := range o.triangles {
		var v [3]int32
		for k, i := range t {
			if welded[i] == 0 {
				p, err := d.Vertex(worldFromObject.Apply(o.vertices[i]))
				if err != nil {
					return err
				}
				welded[i] = p + 1
			}
			v[k] = welded[i] - 1
		}
		if mirrored {
			v[1], v[2] = v[2], v[1]
		}
		if err := d.Triangle(v[0], v[1], v[2]); err != nil {
			return err
		}
	}
	return nil
}
