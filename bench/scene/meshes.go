package scene

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/bvh"
	"seamwright/geom/mesh"
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

// Mend returns the triangles of a file with what can be mended without adding a
// face, in m, and the report of it. The error is a *job.Problems.
func Mend(name string, file job.MeshFile) (mesh.Mesh, MeshReport, error) {
	out, r, err := mend(name, file, file.Mesh, file.At)
	if err == nil {
		r.look(out)
	}
	return out, r, err
}

// Doubts says in words why a mesh bounds no body, though it may have no hole;
// empty where nothing is wrong.
func (r *MeshReport) Doubts() []string { return doubtsOf(&r.Left) }

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
func (r *MeshReport) look(m mesh.Mesh) { r.Left, _ = mesh.Check(m, mesh.CheckOptions{}) }

// mended is mend, and keeps the report and what is to be looked at.
func (b *builder) mended(name string, file job.MeshFile, m mesh.Mesh, at job.Place) (mesh.Mesh, error) {
	out, r, err := mend(name, file, m, at)
	if err == nil {
		b.reports, b.looked = append(b.reports, r), append(b.looked, out)
	}
	return out, err
}

// look completes the report of every mesh.
func (b *builder) look() []MeshReport {
	for i := range b.reports {
		b.reports[i].look(b.looked[i])
	}
	return b.reports
}

// meshShape mends a mesh and returns its shape.
func (b *builder) meshShape(name string, file job.MeshFile, m mesh.Mesh, at job.Place) (collision.Shape, error) {
	sound, err := b.mended(name, file, m, at)
	if err != nil {
		return collision.Shape{}, err
	}
	return treeOf(sound, at, file.File)
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
