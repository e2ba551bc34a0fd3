// Package ply reads PLY files, ASCII and binary of either byte order, with
// elements and properties in any order.
//
// PLY carries no unit. Of the element "vertex" the properties x, y and z are
// read, of "face" the list "vertex_indices" or "vertex_index"; other elements
// and properties are passed over, and the notes say so. Faces of more than three
// corners are cut into triangles in the plane of their area. Equal positions
// are merged.
//
// The format is that of G. Turk, The PLY polygon file format (1994), from memory.
package ply

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// Read reads a whole file from r, within the limits, and decodes it.
func Read(r io.Reader, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return mesh.ReadAll(r, "PLY", o, Decode)
}

// Decode reads a whole file. The unit has to be declared. Errors are
// *mesh.Error with the line of the header and of ASCII files, and the offset of
// binary ones.
func Decode(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	b, err := mesh.NewBuilder("PLY", int64(len(data)), o, mesh.Undeclared)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	h, err := readHeader(b, data)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	b.Format = h.kind.String()
	d := decoder{Builder: b}
	if d.values, err = h.body(b, data); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	for i := range h.elements {
		if err := d.element(&h.elements[i]); err != nil {
			return mesh.Mesh{}, mesh.Notes{}, err
		}
	}
	if n := d.values.left(); n > 0 {
		d.Say("%s after the last element ignored", n.in(h.kind))
	}
	// Faces may stand above the vertices, so that they are cut at the end.
	if err := d.build(); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	return d.Done()
}

type decoder struct {
	*mesh.Builder
	values    source
	positions []r3.Vec
	faces     []int32 // corners of all faces, one face after the other
	ends      []int32 // where each face ends in faces
	places    []int64 // line or offset of each position
}

// element reads all rows of an element.
func (d *decoder) element(e *element) error {
	switch n := e.leastRow(d.values); {
	case n == 0 && e.count > 0:
		d.Place = mesh.Place{Line: e.line}
		return d.Fault("an element without properties", "at least one property", "export the file again")
	case n > 0 && e.count > d.values.bytes()/n:
		return d.cutOff(e)
	}
	switch e.name {
	case "vertex":
		return d.readVertices(e)
	case "face":
		return d.readFaces(e)
	}
	if e.name == "tristrips" {
		return d.Fault("an element tristrips", "faces", "export faces, not strips")
	}
	for range e.count {
		if err := d.values.start(d.Builder); err != nil {
			return err
		}
		for i := range e.properties {
			if err := d.skip(&e.properties[i]); err != nil {
				return err
			}
		}
		if err := d.values.end(d.Builder); err != nil {
			return err
		}
	}
	d.Say("%d rows of the element %q ignored", e.count, e.name)
	return nil
}

// cutOff says that the file is too short for the count of an element.
func (d *decoder) cutOff(e *element) error {
	d.Place = mesh.Place{Line: e.line}
	return d.Fault(fmt.Sprintf("%d rows of the element %q announced, and too few bytes after the header for them", e.count, e.name),
		"a file that holds what its header announces", "copy or export the file again: it is cut off")
}

func (d *decoder) readVertices(e *element) error {
	at := [3]int{-1, -1, -1}
	var others []string
	for i, p := range e.properties {
		switch k := strings.Index("xyz", p.name); {
		case k >= 0 && len(p.name) == 1 && !p.list:
			at[k] = i
		default:
			others = append(others, p.name)
		}
	}
	if slices.Min(at[:]) < 0 {
		d.Place = mesh.Place{Line: e.line}
		return d.Fault("vertices without x, y and z", "the properties x, y and z", "export the file again")
	}
	if len(others) > 0 {
		d.Say("properties of vertices ignored: %s", strings.Join(others, ", "))
	}
	for range e.count {
		if err := d.values.start(d.Builder); err != nil {
			return err
		}
		var v [3]float64
		for i := range e.properties {
			p := &e.properties[i]
			k := slices.Index(at[:], i)
			if k < 0 {
				if err := d.skip(p); err != nil {
					return err
				}
				continue
			}
			x, err := d.values.number(d.Builder, p.kind)
			if err != nil {
				return err
			}
			v[k] = x
		}
		if err := d.values.end(d.Builder); err != nil {
			return err
		}
		d.positions = append(d.positions, r3.Vec{X: v[0], Y: v[1], Z: v[2]})
		d.places = append(d.places, int64(d.Place.Line)+d.Place.Offset) // one of them is 0
	}
	return nil
}

func (d *decoder) readFaces(e *element) error {
	indices := slices.IndexFunc(e.properties, func(p property) bool {
		return p.list && (p.name == "vertex_indices" || p.name == "vertex_index")
	})
	if indices < 0 {
		d.Place = mesh.Place{Line: e.line}
		return d.Fault("faces without a list of corners", "a list vertex_indices or vertex_index", "export the file again")
	}
	var others []string
	for i, p := range e.properties {
		if i != indices {
			others = append(others, p.name)
		}
	}
	if len(others) > 0 {
		d.Say("properties of faces ignored: %s", strings.Join(others, ", "))
	}
	for range e.count {
		if err := d.values.start(d.Builder); err != nil {
			return err
		}
		for i := range e.properties {
			var err error
			if i == indices {
				err = d.readCorners(&e.properties[i])
			} else {
				err = d.skip(&e.properties[i])
			}
			if err != nil {
				return err
			}
		}
		if err := d.values.end(d.Builder); err != nil {
			return err
		}
		if len(d.ends) > d.Limits.Triangles {
			return d.Exceeded("Triangles", fmt.Sprintf("more than %d faces", d.Limits.Triangles), fmt.Sprintf("at most %d triangles", d.Limits.Triangles),
				"export it coarser, or raise the limit")
		}
	}
	return nil
}

// readCorners reads the list of a face's corners.
func (d *decoder) readCorners(p *property) error {
	n, err := d.length(p)
	switch {
	case err != nil:
		return err
	case n < 3:
		return d.Fault(fmt.Sprintf("a face of %d corners", n), "three or more", "export the file again")
	case n > d.Limits.Corners:
		return d.Exceeded("Corners", fmt.Sprintf("a face of %d corners", n), fmt.Sprintf("at most %d", d.Limits.Corners), "export triangles, or raise the limit")
	}
	for range n {
		x, err := d.values.number(d.Builder, p.kind)
		if err != nil {
			return err
		}
		if x < 0 || x > 1<<31-2 || x != float64(int32(x)) {
			return d.Fault(fmt.Sprintf("corner %g", x), "the number of a vertex, from 0", "export the file again")
		}
		d.faces = append(d.faces, int32(x))
	}
	d.ends = append(d.ends, int32(len(d.faces)))
	return nil
}

// length reads the count of a list.
func (d *decoder) length(p *property) (int, error) {
	x, err := d.values.number(d.Builder, p.countKind)
	if err != nil {
		return 0, err
	}
	if x < 0 || x > 1<<31 || x != float64(int64(x)) {
		return 0, d.Fault(fmt.Sprintf("a list of %g numbers", x), "a whole number from 0", "export the file again")
	}
	return int(x), nil
}

// skip passes over a property.
func (d *decoder) skip(p *property) error {
	n := 1
	if p.list {
		var err error
		if n, err = d.length(p); err != nil {
			return err
		}
	}
	for range n {
		if err := d.values.skip(d.Builder, p.kind); err != nil {
			return err
		}
	}
	return nil
}

// build cuts the faces into triangles.
func (d *decoder) build() error {
	welded := make([]int32, len(d.positions)) // the builder's vertex plus 1
	var corners []r3.Vec
	var face []int32
	begin, cut := int32(0), 0
	d.Place = mesh.Place{}
	for f, end := range d.ends {
		corners, face = corners[:0], face[:0]
		for _, i := range d.faces[begin:end] {
			if int(i) >= len(d.positions) {
				d.Place.Part = fmt.Sprintf("face %d", f)
				return d.Fault(fmt.Sprintf("corner %d", i), fmt.Sprintf("0 to %d, the vertices of the file", len(d.positions)-1), "copy or export the file again")
			}
			if welded[i] == 0 {
				v, err := d.Vertex(d.positions[i])
				if err != nil {
					return d.at(err, i)
				}
				welded[i] = v + 1
			}
			face = append(face, welded[i]-1)
			corners = append(corners, d.positions[i])
		}
		begin = end
		triangles := [][3]int32{{0, 1, 2}}
		if len(face) > 3 {
			var err error
			if triangles, _, err = mesh.Triangulate(corners); err != nil {
				d.Place.Part = fmt.Sprintf("face %d", f)
				return d.Fault(err.Error(), "faces whose sides do not cross", "export triangles")
			}
			cut++
		}
		for _, t := range triangles {
			if err := d.Triangle(face[t[0]], face[t[1]], face[t[2]]); err != nil {
				return err
			}
		}
	}
	if cut > 0 {
		d.Say("%d faces of more than three corners were cut into triangles", cut)
	}
	return nil
}

// at puts the place of a vertex into an error about it.
func (d *decoder) at(err error, vertex int32) error {
	var e *mesh.Error
	if errors.As(err, &e) {
		e.Place = mesh.Place{Part: fmt.Sprintf("vertex %d", vertex)}
		if _, text := d.values.(*textSource); text {
			e.Place.Line = int(d.places[vertex])
		} else {
			e.Place.Offset, e.Place.HasOffset = d.places[vertex], true
		}
	}
	return err
}

// hasMagic reports whether data begins as a PLY file does.
func hasMagic(data []byte) bool {
	return bytes.HasPrefix(data, []byte("ply\n")) || bytes.HasPrefix(data, []byte("ply\r"))
}
