package urdf

import (
	"fmt"

	"seamwright/geom/r3"
)

// geometry reads the one <geometry> of a visual or collision element.
func (d *decoder) geometry(n *node, field string) Geometry {
	g := d.once(n, field, "geometry")
	const shapes = "one of <box>, <cylinder>, <sphere>, <mesh>"
	if g == nil {
		d.problem(n, field+" geometry", "none", shapes, "add a <geometry> element")
		return Geometry{}
	}
	field += " geometry"
	d.known(g, field)
	if len(g.children) != 1 {
		d.problem(g, field, fmt.Sprintf("%d shapes", len(g.children)), shapes,
			"give each shape a visual or collision element of its own")
		return Geometry{}
	}
	shape := g.children[0]
	field += " " + shape.name
	switch shape.name {
	case "box":
		d.known(shape, field, "size")
		return Geometry{Kind: Box, Size: d.boxSize(shape, field)}
	case "cylinder":
		d.known(shape, field, "radius", "length")
		return Geometry{Kind: Cylinder,
			Radius: d.positive(shape, field, "radius", "m"), Length: d.positive(shape, field, "length", "m")}
	case "sphere":
		d.known(shape, field, "radius")
		return Geometry{Kind: Sphere, Radius: d.positive(shape, field, "radius", "m")}
	case "mesh":
		d.known(shape, field, "filename", "scale")
		return Geometry{Kind: MeshFile, Mesh: d.mesh(shape, field)}
	}
	d.problem(shape, field, "<"+shape.name+">", shapes, "describe the shape with one of these")
	return Geometry{}
}

func (d *decoder) boxSize(n *node, field string) r3.Vec {
	size, good := d.vec(n, field, "size", "m")
	if good && (size.X <= 0 || size.Y <= 0 || size.Z <= 0) {
		d.problem(n, field+" size", fmt.Sprintf("%v %v %v", size.X, size.Y, size.Z),
			"3 numbers above 0, m", "give the true size")
	}
	return size
}

func (d *decoder) mesh(n *node, field string) Mesh {
	file, ok := n.attr("filename")
	if !ok || file == "" {
		d.problem(n, field+" filename", "none", "a file name", `add filename="..."`)
	}
	m := Mesh{File: file, Scale: r3.Vec{X: 1, Y: 1, Z: 1}}
	if _, ok := n.attr("scale"); !ok {
		return m
	}
	scale, good := d.vec(n, field, "scale", "dimensionless")
	if good && (scale.X == 0 || scale.Y == 0 || scale.Z == 0) {
		d.problem(n, field+" scale", fmt.Sprintf("%v %v %v", scale.X, scale.Y, scale.Z),
			"3 numbers that are not 0, dimensionless", "use 1 1 1 for metres, 0.001 0.001 0.001 for millimetres")
	}
	m.Scale = scale
	return m
}

// readMaterial keeps a material that has a colour or texture and returns its
// name. A visual may define one or use one that is defined elsewhere.
func (d *decoder) readMaterial(n *node, field string) string {
	m := Material{Name: d.name(n, field)}
	d.known(n, field, "name")
	d.others(n, field, "color", "texture")
	if c := d.once(n, field, "color"); c != nil {
		d.known(c, field+" color", "rgba")
		m.RGBA, m.HasColor = d.color(c, field+" color"), true
	}
	if t := d.once(n, field, "texture"); t != nil {
		d.known(t, field+" texture", "filename")
		if m.Texture, _ = t.attr("filename"); m.Texture == "" {
			d.problem(t, field+" texture filename", "none", "a file name", `add filename="..."`)
		}
	}
	if !m.HasColor && m.Texture == "" {
		d.materials = append(d.materials, useOfMaterial{n, m.Name})
		return m.Name
	}
	d.addMaterial(n, field, m)
	return m.Name
}

func (d *decoder) addMaterial(n *node, field string, m Material) {
	for _, old := range d.robot.Materials {
		if old.Name != m.Name {
			continue
		}
		if old != m {
			d.problem(n, field+" name", quote(m.Name)+" again with other values",
				"one meaning for each material name", "rename one of the two")
		}
		return
	}
	d.robot.Materials = append(d.robot.Materials, m)
}

func (d *decoder) color(n *node, field string) (rgba [4]float64) {
	present, good := d.numbers(n, field, "rgba", "each 0 to 1", rgba[:])
	if !present {
		d.problem(n, field+" rgba", "none", "4 finite numbers, each 0 to 1", `add rgba="..."`)
	}
	for _, v := range rgba {
		if good && (v < 0 || v > 1) {
			text, _ := n.attr("rgba")
			d.problem(n, field+" rgba", quote(text), "4 finite numbers, each 0 to 1",
				"divide values of 0 to 255 by 255")
			break
		}
	}
	return rgba
}

// checkMaterials notes names that are used and never given a colour.
func (d *decoder) checkMaterials() {
next:
	for _, use := range d.materials {
		for _, m := range d.robot.Materials {
			if m.Name == use.name {
				continue next
			}
		}
		d.note(use.at, fmt.Sprintf("material %q", use.name), "no colour and no texture in the file",
			"a colour for each material", "nothing, the shape is drawn in a default colour")
	}
}
