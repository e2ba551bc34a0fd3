// Package obj reads Wavefront OBJ files: positions (v) and faces (f) of any
// number of corners, with negative indices, comments and continued lines.
//
// OBJ carries no unit. Faces of more than three corners are cut into triangles
// in the plane of their area. Groups, objects and materials are one mesh;
// texture, normals, points and lines are left aside, and the notes say so. Free-form
// curves and surfaces are an error, for a shape would be missing without
// them. Equal positions are merged.
//
// The grammar is that of appendix B1 of the Advanced Visualizer manual of
// Wavefront (from memory).
package obj

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// Read reads a whole file from r, within the limits, and decodes it.
func Read(r io.Reader, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return mesh.ReadAll(r, "OBJ", o, Decode)
}

// Decode reads a whole file. The unit has to be declared. Errors are
// *mesh.Error with the line.
func Decode(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	b, err := mesh.NewBuilder("OBJ", int64(len(data)), o, mesh.Undeclared)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	d := decoder{Builder: b, ignored: map[string]*ignored{}}
	lines := mesh.NewLines(bytes.TrimPrefix(data, []byte("\ufeff")), 0)
	for {
		line, more := lines.Next()
		if !more {
			break
		}
		d.Place.Line = lines.Number
		if continued(line) {
			if line, more = join(line, lines); !more {
				return mesh.Mesh{}, mesh.Notes{}, d.Fault("the end of the file after a line that goes on", "the rest of the line", "copy or export the file again: it is cut off")
			}
		}
		if err := d.line(line); err != nil {
			return mesh.Mesh{}, mesh.Notes{}, err
		}
	}
	d.report()
	return d.Done()
}

// continued reports whether the next line belongs to this one.
func continued(line []byte) bool { return len(line) > 0 && line[len(line)-1] == '\\' }

// join returns a line with those that it goes on in; false if one is missing.
func join(line []byte, lines *mesh.Lines) ([]byte, bool) {
	whole := bytes.Clone(line)
	for continued(whole) {
		next, more := lines.Next()
		if !more {
			return nil, false
		}
		whole[len(whole)-1] = ' '
		whole = append(whole, next...)
	}
	return whole, true
}

type decoder struct {
	*mesh.Builder
	positions []r3.Vec
	welded    []int32 // the builder's vertex of each position plus 1; 0 is not used yet
	face      []int32 // corners of a face, as positions
	corners   []r3.Vec
	ignored   map[string]*ignored
	cut       int // faces of more than three corners
	bent      int // of these, not flat
	worst     float64
	thin      int // faces that name fewer than three corners but for repetitions
	weights   bool
}

// ignored is a keyword that is not read: how often and where first.
type ignored struct{ times, line int }

// drawn lists keywords whose loss does not change the surface.
var drawn = map[string]string{
	"vt": "texture coordinates", "vn": "normals", "g": "group names", "o": "object names", "s": "smoothing groups",
	"usemtl": "materials", "mtllib": "materials", "l": "lines", "p": "points", "mg": "merging groups",
	"bevel": "display settings", "c_interp": "display settings", "d_interp": "display settings", "lod": "display settings",
	"maplib": "texture maps", "usemap": "texture maps", "shadow_obj": "display settings", "trace_obj": "display settings",
}

// freeForm lists keywords of curves and surfaces.
var freeForm = map[string]bool{
	"vp": true, "cstype": true, "deg": true, "bmat": true, "step": true, "curv": true, "curv2": true, "surf": true,
	"parm": true, "trim": true, "hole": true, "scrv": true, "sp": true, "end": true, "con": true, "ctech": true, "stech": true,
	"call": true, "csh": true,
}

func (d *decoder) line(line []byte) error {
	if i := bytes.IndexByte(line, '#'); i >= 0 {
		line = line[:i]
	}
	word, rest := mesh.Word(line)
	switch key := string(word); {
	case key == "":
		return nil
	case key == "v":
		return d.position(rest)
	case key == "f", key == "fo": // fo is the old word for f
		return d.readFace(rest)
	case freeForm[key]:
		return d.Fault(mesh.Quote(word), "positions and faces; free-form shapes and commands are not read", "export the part as polygons")
	default:
		return d.ignore(key, word)
	}
}

// maxKeywords bounds the kinds of unknown keywords: beyond it the file is no OBJ.
const maxKeywords = 20

func (d *decoder) ignore(key string, word []byte) error {
	if len(key) > maxKeywords {
		key = "" // not kept
	}
	if seen := d.ignored[key]; seen != nil {
		seen.times++
		return nil
	}
	if _, known := drawn[key]; !known && (key == "" || len(d.ignored) >= maxKeywords+len(drawn)) {
		return d.Fault(mesh.Quote(word), "lines that begin with a keyword of the format, such as v or f", "choose an OBJ file")
	}
	d.ignored[key] = &ignored{1, d.Place.Line}
	return nil
}

const positionForm = "three numbers x y z, with a weight of 1 or a colour at most"

// position reads x y z, then nothing, a weight, a colour or both.
func (d *decoder) position(rest []byte) error {
	var x [7]float64
	n := 0
	for {
		var w []byte
		if w, rest = mesh.Word(rest); len(w) == 0 {
			break
		}
		v, ok := mesh.ParseNumber(w)
		if !ok || n == len(x) {
			return d.Fault(mesh.Quote(w), positionForm, "export the file again")
		}
		x[n] = v
		n++
	}
	switch {
	case n < 3 || n == 5:
		return d.Fault(fmt.Sprintf("a position of the length %d", n), positionForm, "copy or export the file again: it may be cut off")
	case (n == 4 || n == 7) && x[3] != 1:
		return d.Fault(fmt.Sprintf("a weight of %g", x[3]), "a weight of 1", "export the part as polygons")
	case n > 4:
		d.weights = true
	}
	d.positions = append(d.positions, r3.Vec{X: x[0], Y: x[1], Z: x[2]})
	d.welded = append(d.welded, 0)
	return nil
}

// readFace reads corners v, v/vt, v//vn or v/vt/vn and adds the triangles.
func (d *decoder) readFace(rest []byte) error {
	d.face = d.face[:0]
	for {
		var w []byte
		if w, rest = mesh.Word(rest); len(w) == 0 {
			break
		}
		i, err := d.corner(w)
		if err != nil {
			return err
		}
		if len(d.face) >= d.Limits.Corners {
			return d.Exceeded("Corners", fmt.Sprintf("a face of more than %d corners", d.Limits.Corners),
				fmt.Sprintf("at most %d", d.Limits.Corners), "export triangles, or raise the limit")
		}
		d.face = append(d.face, i)
	}
	if len(d.face) < 3 {
		return d.Fault(fmt.Sprintf("a face of %d corners", len(d.face)), "three or more", "export the file again")
	}
	if len(d.face) == 3 {
		return d.triangle(0, 1, 2)
	}
	return d.polygon()
}

func (d *decoder) corner(w []byte) (int32, error) {
	number := w
	if i := bytes.IndexByte(w, '/'); i >= 0 {
		number = w[:i]
	}
	i, err := strconv.Atoi(string(number))
	n := len(d.positions)
	switch {
	case err != nil:
		return 0, d.Fault(mesh.Quote(w), "the number of a position, such as 7 or -1", "export the file again")
	case i > 0 && i <= n:
		return int32(i - 1), nil
	case i < 0 && -i <= n:
		return int32(n + i), nil
	}
	return 0, d.Fault(fmt.Sprintf("position %d", i), fmt.Sprintf("1 to %d or -%d to -1, the positions above this line", n, n),
		"copy or export the file again")
}

// polygon cuts a face of more than three corners.
func (d *decoder) polygon() error {
	// A corner that follows itself spans nothing.
	d.face = slices.CompactFunc(d.face, func(i, j int32) bool { return d.positions[i] == d.positions[j] })
	for len(d.face) > 1 && d.positions[d.face[0]] == d.positions[d.face[len(d.face)-1]] {
		d.face = d.face[:len(d.face)-1]
	}
	if len(d.face) < 3 {
		d.thin++
		return nil
	}
	d.cut++
	d.corners = d.corners[:0]
	for _, i := range d.face {
		d.corners = append(d.corners, d.positions[i])
		if _, err := d.vertex(i); err != nil {
			return err // before anything is computed with it
		}
	}
	cut, offFlat, err := mesh.Triangulate(d.corners)
	if err != nil {
		return d.Fault(err.Error(), "faces whose sides do not cross", "export triangles")
	}
	if offFlat > bent*extent(d.corners) {
		d.bent++
		d.worst = max(d.worst, offFlat)
	}
	for _, t := range cut {
		if err := d.triangle(t[0], t[1], t[2]); err != nil {
			return err
		}
	}
	return nil
}

// bent is the share of its size (dimensionless) by which the corners of a face
// may lie off a plane without a note: what six digits leave of a flat one.
const bent = 1e-5

// extent returns the distance of the furthest corner from the first.
func extent(corners []r3.Vec) float64 {
	far := 0.0
	for _, v := range corners {
		far = max(far, v.Dist(corners[0]))
	}
	return far
}

// triangle adds a triangle of corners of the face.
func (d *decoder) triangle(i, j, k int32) error {
	var t [3]int32
	for c, corner := range [...]int32{i, j, k} {
		v, err := d.vertex(d.face[corner])
		if err != nil {
			return err
		}
		t[c] = v
	}
	return d.Triangle(t[0], t[1], t[2])
}

func (d *decoder) vertex(position int32) (int32, error) {
	if w := d.welded[position]; w > 0 {
		return w - 1, nil
	}
	v, err := d.Vertex(d.positions[position])
	if err != nil {
		var e *mesh.Error
		if errors.As(err, &e) {
			e.Found += fmt.Sprintf(" of position %d", position+1)
		}
		return 0, err
	}
	d.welded[position] = v + 1
	return v, nil
}

// report says what was cut and what was ignored.
func (d *decoder) report() {
	if d.cut > 0 {
		d.Say("%d faces of more than three corners were cut into triangles", d.cut)
	}
	if d.bent > 0 {
		d.Say("%d of them are not flat: corners lie up to %.3g units of the file off their middle plane", d.bent, d.worst)
	}
	if d.thin > 0 {
		d.Say("%d faces with fewer than three different corners were left out", d.thin)
	}
	if d.weights {
		d.Say("colours of positions ignored")
	}
	keys := make([]string, 0, len(d.ignored))
	for k := range d.ignored {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(p, q string) int { return d.ignored[p].line - d.ignored[q].line })
	for _, k := range keys {
		what, known := drawn[k]
		if !known {
			what = "unknown"
		}
		d.Say("%d lines %q ignored (%s), the first on line %d", d.ignored[k].times, k, what, d.ignored[k].line)
	}
}
