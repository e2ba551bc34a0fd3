package gltf

import (
	"errors"
	"fmt"
	"math"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// scene adds the triangles of the scene that is shown first.
func (d *decoder) scene() error {
	seen := make([]bool, len(d.document.Nodes))
	roots, err := d.roots()
	if err != nil {
		return err
	}
	for _, i := range roots {
		if err := d.visit(i, zUp(), 1, seen); err != nil {
			return err
		}
	}
	unseen := 0
	for i, n := range d.document.Nodes {
		if !seen[i] && n.Mesh != nil {
			unseen++
		}
	}
	if unseen > 0 {
		d.Say("%d nodes with shapes are not in the scene: ignored", unseen)
	}
	return nil
}

// roots returns the nodes of the scene: the one that the document names, else
// the first; where there is no scene, the nodes that are no child.
func (d *decoder) roots() ([]int, error) {
	s := 0
	switch n := len(d.document.Scenes); {
	case d.document.Scene != nil:
		s = *d.document.Scene
		if s < 0 || s >= n {
			d.Place.Part = "scene"
			return nil, d.Fault(fmt.Sprintf("scene %d", s), fmt.Sprintf("0 to %d", n-1), "export the file again")
		}
	case n > 1:
		d.Say("the file names none of its %d scenes to be shown: the first was read", n)
	case n == 0:
		d.Say("the file has no scene: all nodes were read")
		child := make([]bool, len(d.document.Nodes))
		for _, node := range d.document.Nodes {
			for _, c := range node.Children {
				if c >= 0 && c < len(child) {
					child[c] = true
				}
			}
		}
		var roots []int
		for i, is := range child {
			if !is {
				roots = append(roots, i)
			}
		}
		return roots, nil
	}
	return d.document.Scenes[s].Nodes, nil
}

// visit adds a node and those below it. Clause 3.5.2 demands strict trees, so
// that a node met twice is an error, and circles are too.
func (d *decoder) visit(i int, worldFromParent mesh.Affine, depth int, seen []bool) error {
	part := fmt.Sprintf("nodes[%d]", i)
	d.Place.Part = part
	switch {
	case i < 0 || i >= len(d.document.Nodes):
		return d.Fault("no such node", fmt.Sprintf("0 to %d", len(d.document.Nodes)-1), "export the file again")
	case seen[i]:
		return d.Fault("a node met twice", "each node below one other at most", "export the file again")
	case depth > d.Limits.Depth:
		return d.Exceeded("Depth", fmt.Sprintf("nodes nested more than %d deep", d.Limits.Depth), fmt.Sprintf("at most %d", d.Limits.Depth), "flatten the assembly, or raise the limit")
	}
	seen[i] = true
	n := &d.document.Nodes[i]
	parentFromNode, err := d.transform(n)
	if err != nil {
		return err
	}
	worldFromNode := worldFromParent.Mul(parentFromNode)
	if n.Mesh != nil {
		if err := d.nodeMesh(n, worldFromNode); err != nil {
			return d.placed(err, part)
		}
	}
	for _, c := range n.Children {
		if err := d.visit(c, worldFromNode, depth+1, seen); err != nil {
			return err
		}
	}
	return nil
}

// transform returns parent-from-node: the matrix, column by column, or scale,
// then rotation (x, y, z, w), then translation (clause 3.5.3).
func (d *decoder) transform(n *node) (mesh.Affine, error) {
	for _, l := range []struct {
		name string
		have []float64
		want int
	}{{"matrix", n.Matrix, 16}, {"translation", n.Translation, 3}, {"rotation", n.Rotation, 4}, {"scale", n.Scale, 3}} {
		if l.have != nil && len(l.have) != l.want {
			return mesh.Affine{}, d.Fault(fmt.Sprintf("a %s of %d numbers", l.name, len(l.have)), fmt.Sprintf("%d", l.want), "export the file again")
		}
	}
	f := mesh.NoTransform()
	if m := n.Matrix; m != nil {
		if n.Translation != nil || n.Rotation != nil || n.Scale != nil {
			return f, d.Fault("a matrix beside translation, rotation or scale", "one or the other", "export the file again")
		}
		if m[3] != 0 || m[7] != 0 || m[11] != 0 || m[15] != 1 {
			return f, d.Fault("a matrix whose last row is not 0 0 0 1", "an affine matrix", "export the file again")
		}
		return mesh.Affine{X: r3.Vec{X: m[0], Y: m[1], Z: m[2]}, Y: r3.Vec{X: m[4], Y: m[5], Z: m[6]},
			Z: r3.Vec{X: m[8], Y: m[9], Z: m[10]}, T: r3.Vec{X: m[12], Y: m[13], Z: m[14]}}, nil
	}
	if q := n.Rotation; q != nil {
		norm := math.Sqrt(q[0]*q[0] + q[1]*q[1] + q[2]*q[2] + q[3]*q[3])
		if !(math.Abs(norm-1) < 1e-3) {
			return f, d.Fault(fmt.Sprintf("a rotation of length %g", norm), "a unit quaternion", "export the file again")
		}
		f = turned(q[0]/norm, q[1]/norm, q[2]/norm, q[3]/norm)
	}
	if s := n.Scale; s != nil {
		f.X, f.Y, f.Z = f.X.Scale(s[0]), f.Y.Scale(s[1]), f.Z.Scale(s[2])
	}
	if t := n.Translation; t != nil {
		f.T = r3.Vec{X: t[0], Y: t[1], Z: t[2]}
	}
	return f, nil
}

// turned returns the rotation of a unit quaternion: its columns are the turned
// axes.
func turned(x, y, z, w float64) mesh.Affine {
	return mesh.Affine{
		X: r3.Vec{X: 1 - 2*(y*y+z*z), Y: 2 * (x*y + z*w), Z: 2 * (x*z - y*w)},
		Y: r3.Vec{X: 2 * (x*y - z*w), Y: 1 - 2*(x*x+z*z), Z: 2 * (y*z + x*w)},
		Z: r3.Vec{X: 2 * (x*z + y*w), Y: 2 * (y*z - x*w), Z: 1 - 2*(x*x+y*y)},
	}
}

// nodeMesh adds the triangles of a node's mesh.
func (d *decoder) nodeMesh(n *node, worldFromNode mesh.Affine) error {
	d.Place.Part = ""
	if n.Skin != nil {
		return d.Fault("a shape bent by a skin", "rigid shapes", "export it without bones")
	}
	for x := range n.Extensions {
		if x == "EXT_mesh_gpu_instancing" {
			return d.Fault("copies made by "+x, "a node for each copy", "export it without extensions")
		}
	}
	i := *n.Mesh
	if i < 0 || i >= len(d.document.Meshes) {
		return d.Fault(fmt.Sprintf("mesh %d", i), fmt.Sprintf("0 to %d", len(d.document.Meshes)-1), "export the file again")
	}
	m := &d.document.Meshes[i]
	for _, weights := range [][]float64{m.Weights, n.Weights} {
		for _, w := range weights {
			if w != 0 {
				return d.Fault("a shape bent by morph targets", "rigid shapes", "export it without morph targets")
			}
		}
	}
	for k := range m.Primitives {
		part := fmt.Sprintf("meshes[%d].primitives[%d]", i, k)
		d.Place.Part = ""
		if err := d.primitive(&m.Primitives[k], worldFromNode); err != nil {
			return d.placed(err, part)
		}
	}
	return nil
}

// The modes of a primitive (clause 3.7.2.1).
const (
	modeTriangles = 4
	modeStrip     = 5
	modeFan       = 6
)

func (d *decoder) primitive(p *primitive, worldFromNode mesh.Affine) error {
	for x := range p.Extensions {
		if x == "KHR_draco_mesh_compression" {
			return d.Fault("shapes compressed by "+x, "plain accessors", "export it without compression")
		}
	}
	mode := modeTriangles
	if p.Mode != nil {
		mode = *p.Mode
	}
	switch {
	case mode >= 0 && mode < modeTriangles:
		d.others++
		return nil
	case mode < 0 || mode > modeFan:
		return d.Fault(fmt.Sprintf("mode %d", mode), "0 to 6", "export the file again")
	}
	d.targets += len(p.Targets)
	at, ok := p.Attributes["POSITION"]
	if !ok {
		return d.Fault("no POSITION", "positions for every shape", "export the file again")
	}
	positions, err := d.view(at, "VEC3")
	if err != nil {
		return err
	}
	indices := view{count: positions.count, own: true}
	if p.Indices != nil {
		if indices, err = d.view(*p.Indices, "SCALAR"); err != nil {
			return err
		}
	}
	return d.triangles(mode, positions, indices, worldFromNode)
}

// triangles adds those of a primitive, turned over where the node mirrors.
func (d *decoder) triangles(mode int, positions, indices view, worldFromNode mesh.Affine) error {
	n := indices.count
	switch {
	case mode == modeTriangles && n%3 != 0:
		return d.Fault(fmt.Sprintf("%d corners of triangles", n), "a multiple of three", "export the file again")
	case mode == modeTriangles:
		n /= 3
	default:
		n = max(n-2, 0)
	}
	mirrored := worldFromNode.Det() < 0
	welded := newNumbers(positions.count, 3*n)
	for t := range n {
		var at [3]int64
		switch mode {
		case modeTriangles:
			at = [3]int64{3 * t, 3*t + 1, 3*t + 2}
		case modeStrip: // every second one is turned over
			at = [3]int64{t, t + 1 + t%2, t + 2 - t%2}
		case modeFan:
			at = [3]int64{t + 1, t + 2, 0}
		}
		var v [3]int32
		for k := range v {
			i, err := d.index(indices, at[k], positions.count)
			if err != nil {
				return err
			}
			if v[k], err = d.vertex(welded, i, positions, worldFromNode); err != nil {
				return err
			}
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

// vertex returns the builder's vertex for position i of a shape.
func (d *decoder) vertex(welded numbers, i int64, positions view, worldFromNode mesh.Affine) (int32, error) {
	if v := welded.get(i); v > 0 {
		return v - 1, nil
	}
	at := positions.vector(i)
	v, err := d.Vertex(worldFromNode.Apply(at))
	if err != nil {
		var e *mesh.Error
		if errors.As(err, &e) { // as the file has it, before nodes and axes are applied
			e.Found = fmt.Sprintf("coordinates (%g, %g, %g) of position %d", at.X, at.Y, at.Z, i)
			if worldFromNode != zUp() {
				e.Found += ", moved by its nodes"
			}
		}
		return 0, err
	}
	welded.set(i, v+1)
	return v, nil
}

// numbers keeps the builder's vertex of each position plus 1. Where a shape
// uses few of many positions, as a hostile file may do over and over, a table
// of all of them would cost more than the shape.
type numbers struct {
	dense  []int32
	sparse map[int64]int32
}

func newNumbers(positions, corners int64) numbers {
	if positions/8 > corners {
		return numbers{sparse: map[int64]int32{}}
	}
	return numbers{dense: make([]int32, positions)}
}

func (n numbers) get(i int64) int32 {
	if n.sparse != nil {
		return n.sparse[i]
	}
	return n.dense[i]
}

func (n numbers) set(i int64, v int32) {
	if n.sparse != nil {
		n.sparse[i] = v
		return
	}
	n.dense[i] = v
}

func (d *decoder) index(indices view, at, count int64) (int64, error) {
	i := at
	if !indices.own {
		i = int64(indices.number(at, 0))
	}
	if i >= count {
		return 0, d.Fault(fmt.Sprintf("corner %d", i), fmt.Sprintf("0 to %d, the positions of the shape", count-1), "export the file again")
	}
	return i, nil
}
