package job

import (
	"fmt"
	"path"
	"strings"

	"seamwright/geom/mesh"
	"seamwright/robot/urdf"
)

// maxPackages bounds the packages of the arm's file.
const maxPackages = 20

// packageDraft is a package while it is read.
type packageDraft struct{ name, folder ref }

func (p *packageDraft) form() form {
	return record{example: "{name: arm_shapes, folder: ../arms}", fields: []field{
		need("name", named(&p.name, "arm_shapes")),
		need("folder", named(&p.folder, "../arms")),
	}}
}

// readShapes settles which shapes of the arm's file count, and reads the files
// that they name.
func (d *armDraft) readShapes(m *meshes, a *Arm) {
	folders := map[string]string{}
	for _, p := range d.packages {
		a.Packages = append(a.Packages, Package{p.name.text, p.folder.text})
		if _, twice := folders[p.name.text]; twice {
			m.ps.add(p.name.at, quote(p.name.text)+" again", "each package once", "delete one of the two")
		}
		folders[p.name.text] = p.folder.text
	}
	if a.Robot == nil {
		return
	}
	a.Shapes = shapesOf(a.Robot, a.Shapes)
	a.Meshes = map[string]MeshFile{}
	at := d.urdf.at
	if v, given := d.read.get("shapes"); given {
		at = v.at
	}
	for _, g := range geometries(a.Robot, a.Shapes) {
		if _, had := a.Meshes[g.Mesh.File]; had || g.Kind != urdf.MeshFile {
			continue
		}
		name, err := g.Mesh.Resolve(path.Dir(d.urdf.text), func(pkg string) (string, bool) {
			folder, ok := folders[pkg]
			return folder, ok
		})
		if err != nil {
			d.unresolved(m.ps, at, g.Mesh.File, err)
			a.Meshes[g.Mesh.File] = MeshFile{}
			continue
		}
		unit := mesh.Metres // as the URDF XML specification has it (from memory)
		if hasEnding(name, unitfulMeshes) {
			unit = mesh.Undeclared // the file carries it
		}
		before := len(m.ps.List)
		a.Meshes[g.Mesh.File], _ = m.get(name, unit, at)
		for i := before; i < len(m.ps.List); i++ {
			m.ps.List[i].Found += ", a shape of the arm in " + quote(d.urdf.text)
			m.ps.List[i].Mend += "; or say shapes: none in arm to plan without the arm's shapes"
		}
	}
}

// unresolved says which file of the arm's shapes is not known.
func (d *armDraft) unresolved(ps *Problems, at Place, file string, err error) {
	found := fmt.Sprintf("%s, whose shape %s has no place in a folder", quote(d.urdf.text), quote(file))
	mend := "copy the file beside the URDF file and name it there, or say shapes: none to plan without the arm's shapes"
	if rest, is := strings.CutPrefix(file, "package://"); is {
		name, _, _ := strings.Cut(rest, "/")
		found = fmt.Sprintf("%s, whose shape %s lies in a package", quote(d.urdf.text), quote(file))
		mend = fmt.Sprintf("add packages: [{name: %s, folder: where it lies}] to arm, or say shapes: none to plan without the arm's shapes", cut(name))
	}
	why := err.Error()
	if i := strings.Index(why, "allowed: "); i >= 0 {
		why, _, _ = strings.Cut(why[i+len("allowed: "):], ";")
	}
	ps.add(at, found, why, mend)
}

// shapesOf returns which shapes count: those that are wanted, else those to
// keep clear, else those to look at.
func shapesOf(r *urdf.Robot, wanted ArmShapes) ArmShapes {
	if wanted == ShapesNone {
		return ShapesNone
	}
	order := []ArmShapes{ShapesCollision, ShapesVisual}
	if wanted == ShapesVisual {
		order = order[1:]
	}
	for _, s := range order {
		if len(geometries(r, s)) > 0 {
			return s
		}
	}
	return ShapesNone
}

// geometries returns the shapes of a kind of all links in the order of the file.
func geometries(r *urdf.Robot, s ArmShapes) []urdf.Geometry {
	var out []urdf.Geometry
	for _, l := range r.Links {
		switch s {
		case ShapesCollision:
			for _, c := range l.Collisions {
				out = append(out, c.Geometry)
			}
		case ShapesVisual:
			for _, v := range l.Visuals {
				out = append(out, v.Geometry)
			}
		}
	}
	return out
}
