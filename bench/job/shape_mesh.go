package job

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"path"
	"path/filepath"
	"strings"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/gltf"
	"seamwright/geom/mesh/obj"
	"seamwright/geom/mesh/ply"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/mesh/threemf"
)

// meshDraft is a file of triangles while the document is read.
type meshDraft struct {
	file ref
	unit mesh.Unit
	out  MeshFile
}

// meshFormats are the endings of the files that are read. Those of the second
// kind carry their unit.
var (
	plainMeshes   = []string{".stl", ".obj", ".ply"}
	unitfulMeshes = []string{".gltf", ".glb", ".3mf"}
)

// fields are the file and the unit of its numbers.
func (d *meshDraft) fields() []field {
	return []field{need("file", named(&d.file, "cradle.stl")), may("unit", meshUnitForm(&d.unit))}
}

func meshUnitForm(dst *mesh.Unit) single {
	var words []string
	for u := mesh.Millimetres; u <= mesh.Micrometres; u++ {
		words = append(words, u.String())
	}
	s := coded(dst, words, errless(mesh.ParseUnit))
	s.example = "mm"
	return s
}

// check asks for the unit where the file does not carry it: it is never guessed.
func (d *meshDraft) check(ps *Problems, n node) {
	d.out.At = d.file.at
	if d.file.text == "" || n.means("unit") || !hasEnding(d.file.text, plainMeshes) {
		return
	}
	ps.add(n.at.sub("unit"), "nothing", "the unit in which "+quote(d.file.text)+" was exported: mm, in, m, cm, ft or um",
		"add unit: mm, or what the drawing office says; a file of this kind does not carry it")
}

func hasEnding(name string, endings []string) bool {
	for _, e := range endings {
		if strings.EqualFold(path.Ext(name), e) {
			return true
		}
	}
	return false
}

// meshes reads files of triangles within bounds that hold for all of them
// together, each once.
type meshes struct {
	ps        *Problems
	files     Files
	bytes     int64 // that may still be read
	triangles int
	read      map[meshKey]MeshFile
	sum       hash.Hash // of the file that is read, and what it names
}

type meshKey struct {
	file string
	unit mesh.Unit
}

func newMeshes(ps *Problems, files Files) *meshes {
	limits := mesh.DefaultLimits()
	return &meshes{ps: ps, files: files, bytes: limits.Bytes, triangles: limits.Triangles, read: map[meshKey]MeshFile{}}
}

// get returns the file's triangles; ok is false where it said why not. f is the
// place that names the file.
func (m *meshes) get(name string, u mesh.Unit, at Place) (MeshFile, bool) {
	if had, ok := m.read[meshKey{name, u}]; ok {
		return had, len(had.Mesh.Triangles) > 0
	}
	out := MeshFile{File: name, Unit: u, At: at}
	m.read[meshKey{name, u}] = out // what is wrong with a file is said once
	if !hasEnding(name, plainMeshes) && !hasEnding(name, unitfulMeshes) {
		m.ps.add(at, quote(name), "a file of triangles that ends in .stl, .obj, .ply, .gltf, .glb or .3mf", "export the shape in one of these forms")
		return out, false
	}
	data, ok := read(m.ps, m.files, name, at, max(m.bytes, 1))
	if !ok {
		return out, false
	}
	m.bytes -= int64(len(data))
	m.sum = sha256.New()
	m.sum.Write(data)
	o := mesh.Options{Unit: u, Limits: mesh.Limits{Triangles: max(m.triangles, 1)}}
	shape, notes, err := m.decode(name, data, o, at)
	switch {
	case err != nil:
		m.refuse(name, at, err)
		return out, false
	case len(shape.Triangles) == 0:
		m.ps.add(at, quote(name)+" without triangles", "a file with a shape", "export the shape again")
		return out, false
	}
	m.triangles -= len(shape.Triangles)
	m.sum.Sum(out.SHA256[:0])
	out.Mesh, out.Unit, out.Format, out.Said = shape, notes.Unit, notes.Format, notes.Said
	m.read[meshKey{name, u}] = out
	return out, true
}

func (m *meshes) decode(name string, data []byte, o mesh.Options, at Place) (mesh.Mesh, mesh.Notes, error) {
	switch strings.ToLower(path.Ext(name)) {
	case ".stl":
		return stl.Decode(data, o)
	case ".obj":
		return obj.Decode(data, o)
	case ".ply":
		return ply.Decode(data, o)
	case ".3mf":
		return threemf.Decode(data, o)
	}
	return gltf.DecodeWith(data, o, func(part string) ([]byte, error) {
		whole := path.Join(path.Dir(name), part)
		inside, ok := read(m.ps, m.files, whole, at, max(m.bytes, 1))
		if !ok {
			return nil, errors.New("it could not be read")
		}
		m.bytes -= int64(len(inside))
		m.sum.Write(inside)
		return inside, nil
	})
}

// refuse passes on why a reader refused a file.
func (m *meshes) refuse(name string, at Place, err error) {
	refused := (*mesh.Error)(nil)
	if !errors.As(err, &refused) {
		m.ps.add(at, quote(name)+", which cannot be read ("+cut(err.Error())+")", "a file of triangles", "export the shape again")
		return
	}
	found := quote(name) + ", " + refused.Format
	if p := refused.Place.String(); p != "" {
		found += ", " + p
	}
	allowed := refused.Allowed
	if refused.Limit == "Triangles" {
		allowed += fmt.Sprintf(" (%d in all files of a job together)", mesh.DefaultLimits().Triangles)
	}
	mend, _ := strings.CutSuffix(refused.Mend, ", or raise the limit") // which a document cannot
	m.ps.add(at, found+": "+refused.Found, allowed, mend)
}

// DecodeMesh reads one file of triangles by the last part of its path, as a
// document would that names it with this unit. The error is a *Problems.
func DecodeMesh(file string, u mesh.Unit, files Files) (MeshFile, error) {
	ps, name, at := &Problems{}, filepath.Base(file), Place{File: file}
	if u == mesh.Undeclared && hasEnding(name, plainMeshes) {
		ps.add(at, "no unit", "the unit in which the file was exported: mm, in, m, cm, ft or um", "say --unit mm, or what the drawing office says; a file of this kind does not carry it")
		return MeshFile{}, ps.err()
	}
	out, _ := newMeshes(ps, files).get(name, u, at)
	return out, ps.err()
}

// readMeshes reads the meshes that the document and the arm's file name.
func (d *draft) readMeshes(ps *Problems, files Files) {
	m := newMeshes(ps, files)
	fill := func(x *meshDraft) {
		if x.file.text == "" || x.unit == mesh.Undeclared && hasEnding(x.file.text, plainMeshes) {
			return // said already
		}
		x.out, _ = m.get(x.file.text, x.unit, x.file.at)
	}
	for i := range d.shapes.list {
		x := &d.shapes.list[i]
		fill(&x.mesh)
		x.shape.Mesh = x.mesh.out
	}
	if t := &d.torch.shape; t.given {
		fill(&t.mesh)
		t.shape.MeshFile = t.mesh.out
	}
	d.arm.readShapes(m, &d.job.Arm)
}
