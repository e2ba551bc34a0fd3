package stl

import (
	"bytes"
	"fmt"
	"slices"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// text reads an ASCII file word by word.
type text struct {
	*mesh.Builder
	lines *mesh.Lines
	rest  []byte // of the line
}

// word returns the next word of the file in lower case, empty at its end.
func (t *text) word() []byte {
	for {
		var w []byte
		if w, t.rest = mesh.Word(t.rest); len(w) > 0 {
			t.Place.Line = t.lines.Number
			return w
		}
		line, more := t.lines.Next()
		if !more {
			return nil
		}
		t.rest = line
	}
}

func decodeText(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	b, err := mesh.NewBuilder("ASCII STL", int64(len(data)), o, mesh.Undeclared)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	t := &text{Builder: b, lines: mesh.NewLines(bytes.TrimPrefix(data, []byte("\ufeff")), 0)}
	solids, against := 0, 0
	for {
		w := t.word()
		if w == nil {
			break
		}
		if !bytes.EqualFold(w, []byte("solid")) {
			return mesh.Mesh{}, mesh.Notes{}, t.wrong(w, "solid")
		}
		solids++
		n, err := t.solid()
		if err != nil {
			return mesh.Mesh{}, mesh.Notes{}, err
		}
		against += n
	}
	if solids > 1 {
		b.Say("the file holds %d solids: read as one mesh", solids)
	}
	sayAgainst(b, against)
	return b.Done()
}

// solid reads what follows "solid", up to "endsolid", and returns how many
// stored normals point against their triangle.
func (t *text) solid() (against int, err error) {
	t.rest = nil // its name
	for {
		w := t.word()
		switch {
		case bytes.EqualFold(w, []byte("endsolid")):
			t.rest = nil
			return against, nil
		case bytes.EqualFold(w, []byte("facet")):
			opposite, err := t.facet()
			if err != nil {
				return 0, err
			}
			if opposite {
				against++
			}
		default:
			return 0, t.wrong(w, "facet", "endsolid")
		}
	}
}

// facet reads what follows "facet", up to "endfacet", and reports whether its
// stored normal points against the order of its corners.
func (t *text) facet() (opposite bool, err error) {
	if err := t.expect("normal"); err != nil {
		return false, err
	}
	normal := t.normal()
	if err := t.expect("outer", "loop"); err != nil {
		return false, err
	}
	var p [3]r3.Vec
	var v [3]int32
	for k := range p {
		if err := t.expect("vertex"); err != nil {
			return false, err
		}
		if p[k], err = t.vector(); err != nil {
			return false, err
		}
		if v[k], err = t.Vertex(p[k]); err != nil {
			return false, err
		}
	}
	if err := t.expect("endloop", "endfacet"); err != nil {
		return false, err
	}
	opposite = normal.Dot(p[1].Sub(p[0]).Cross(p[2].Sub(p[0]))) < 0
	return opposite, t.Triangle(v[0], v[1], v[2])
}

func (t *text) expect(words ...string) error {
	for _, want := range words {
		if w := t.word(); !bytes.EqualFold(w, []byte(want)) {
			return t.wrong(w, want)
		}
	}
	return nil
}

// normal reads a stored normal. It is only compared, so that one that is no
// number, as exporters write for triangles without area, counts as none.
func (t *text) normal() r3.Vec {
	var v [3]float64
	for i := range v {
		v[i], _ = mesh.ParseNumber(t.word())
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}
}

func (t *text) vector() (r3.Vec, error) {
	var v [3]float64
	for i := range v {
		w := t.word()
		x, ok := mesh.ParseNumber(w)
		if !ok {
			return r3.Vec{}, t.wrong(w, "a number")
		}
		v[i] = x
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}

// wrong says that another word was expected.
func (t *text) wrong(w []byte, allowed ...string) error {
	if w == nil {
		return t.Fault("the end of the file", fmt.Sprintf("%s here, and endsolid at the end", words(allowed)), "copy or export the file again: it is cut off")
	}
	mend := "export the file again"
	if slices.Contains(allowed, "endloop") && bytes.EqualFold(w, []byte("vertex")) {
		mend = "export triangles: a loop here has more than three corners"
	}
	return t.Fault(mesh.Quote(w), words(allowed), mend)
}

func words(allowed []string) string {
	out := allowed[0]
	for _, w := range allowed[1:] {
		out += " or " + w
	}
	return out
}
