package scene

import (
	"fmt"
	"sync"

	"seamwright/bench/job"
	"seamwright/geom/bvh"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/robot/collision"
)

// MeshReport says what a file of triangles is.
type MeshReport struct {
	// Name is that of the shape or link, File and Unit those of its file.
	Name, File string
	Unit       mesh.Unit
	// Read is what the reader said, Done what was mended, Left what is left.
	Read []string
	Done mesh.Changes
	Left mesh.Report
	At   job.Place
}

// Doubts says in words why a mesh bounds no body, though it may have no hole;
// empty where nothing is wrong.
func (r *MeshReport) Doubts() []string { return doubtsOf(&r.Left) }

// Mend returns the triangles of a file with what can be mended without adding a
// face, in m, and the report of it. The error is a *job.Problems.
func Mend(name string, file job.MeshFile) (mesh.Mesh, MeshReport, error) {
	out, r, err := mend(name, file, file.Mesh, file.At)
	if err == nil {
		r.Left = look(out)
	}
	return out, r, err
}

// mend is Mend, but that what is left is not looked for yet: that takes longest.
func mend(name string, file job.MeshFile, m mesh.Mesh, at job.Place) (mesh.Mesh, MeshReport, error) {
	r := MeshReport{Name: name, File: file.File, Unit: file.Unit, Read: file.Said, At: at}
	out, done, err := mesh.Repair(m, mesh.RepairOptions{})
	if err != nil {
		return mesh.Mesh{}, r, unusable(at, file.File, err)
	}
	if len(out.Triangles) == 0 {
		return mesh.Mesh{}, r, problem(at, quoted(file.File)+", whose triangles all have no area", "a shape", "check the unit, and export the shape again")
	}
	r.Done = done
	return out, r, nil
}

// look looks for what is left to mend in a mesh that Repair has made, and which is
// valid therefore.
func look(m mesh.Mesh) mesh.Report {
	left, _ := mesh.Check(m, mesh.CheckOptions{})
	return left
}

// report keeps the report of a mesh, and what finds out what is left to mend.
func (b *builder) report(r MeshReport, left func() mesh.Report) {
	b.reports, b.left = append(b.reports, r), append(b.left, left)
}

// look completes the report of every mesh.
func (b *builder) look() []MeshReport {
	for i := range b.reports {
		b.reports[i].Left = b.left[i]()
	}
	return b.reports
}

// meshShape mends the mesh of a file, scaled (dimensionless, by axis), and returns
// its shape. It keeps the report.
func (b *builder) meshShape(name string, file job.MeshFile, scale r3.Vec, at job.Place) (collision.Shape, error) {
	f, err := b.kept.form(name, file, scale, at)
	if err != nil {
		return collision.Shape{}, err
	}
	f.report.Name, f.report.File, f.report.At = name, file.File, at
	b.report(f.report, f.left)
	return f.shape, nil
}

// formOf mends a mesh and makes its shape. The tree is made while the mesh is
// mended, for most need no mending.
func formOf(name string, file job.MeshFile, m mesh.Mesh, at job.Place) (form, error) {
	type made struct {
		shape collision.Shape
		err   error
	}
	asRead := make(chan made, 1)
	go func() {
		shape, err := treeOf(m, at, file.File)
		asRead <- made{shape, err}
	}()
	sound, r, err := mend(name, file, m, at)
	first := <-asRead
	if err != nil {
		return form{}, err
	}
	f := form{report: r, left: sync.OnceValue(func() mesh.Report { return look(sound) })}
	if f.shape, err = first.shape, first.err; r.Done.Any() {
		f.shape, err = treeOf(sound, at, file.File)
	}
	return f, err
}

// treeOf returns the shape of a mesh.
func treeOf(m mesh.Mesh, at job.Place, file string) (collision.Shape, error) {
	tree, err := bvh.New(m.Vertices, m.Triangles)
	if err != nil {
		return collision.Shape{}, unusable(at, file, err)
	}
	return collision.OfTree(tree), nil
}

func unusable(at job.Place, file string, err error) error {
	return problem(at, fmt.Sprintf("%q, which is no shape", file), "triangles that make a body", err.Error())
}
