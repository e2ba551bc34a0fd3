package urdf

import (
	"fmt"
	"io"

	"github.com/agnivade/levenshtein"
)

// Parse reads one URDF file; name is the file's name for messages. The error
// is an *Error that holds every problem of the file. Refused in words are
// floating and planar joints, mimic joints, unexpanded xacro, and links that
// do not form one tree.
func Parse(r io.Reader, name string) (*Robot, error) {
	rep := &report{}
	root := readTree(r, rep)
	if root == nil {
		return nil, rep.err(name)
	}
	d := &decoder{report: rep, robot: &Robot{}, linkAt: map[string]*node{}, jointAt: map[string]*node{}}
	d.readRobot(root)
	if rep.failed() {
		return nil, rep.err(name)
	}
	d.robot.Notes = rep.notes
	if rep.moreNote > 0 {
		d.robot.Notes = append(d.robot.Notes, Problem{root.line, root.column, "file",
			fmt.Sprintf("%d more notes", rep.moreNote), "any number", "see the first ones"})
	}
	return d.robot, nil
}

// decoder fills a Robot from the element tree and gathers problems.
type decoder struct {
	*report
	robot     *Robot
	linkAt    map[string]*node // where each link stands
	jointAt   map[string]*node
	materials []useOfMaterial
}

type useOfMaterial struct {
	at   *node
	name string
}

func (d *decoder) readRobot(root *node) {
	if root.name != "robot" {
		d.problem(root, "file", "root element <"+root.name+">", "<robot>", "choose a URDF file")
		return
	}
	d.robot.Name = d.name(root, "robot")
	d.known(root, "robot", "name", "version")
	for _, n := range root.children {
		switch n.name {
		case "link":
			d.readLink(n)
		case "joint":
			d.readJoint(n)
		case "material":
			d.readMaterial(n, "material")
		default:
			d.notRead(n, "robot")
		}
	}
	d.checkMaterials()
	d.checkTree(root)
}

// name returns the required name attribute.
func (d *decoder) name(n *node, field string) string {
	v, ok := n.attr("name")
	switch {
	case !ok:
		d.problem(n, field+" name", "none", "a name", `add name="..."`)
	case v == "":
		d.problem(n, field+" name", `""`, "a name that is not empty", "give it a name")
	}
	return v
}

// once returns the only child of that name, nil where there is none, and
// refuses a second.
func (d *decoder) once(n *node, field, name string) *node {
	var first *node
	for _, c := range n.children {
		if c.name != name {
			continue
		}
		if first != nil {
			d.problem(c, field, "a second <"+name+">", "at most one", "delete one of them")
			continue
		}
		first = c
	}
	return first
}

// notRead notes a child element that this package leaves aside.
func (d *decoder) notRead(n *node, field string) {
	d.note(n, field, "<"+n.name+">", "elements of plain URDF", "nothing, it is not read")
}

// known notes attributes of n that are not among names.
func (d *decoder) known(n *node, field string, names ...string) {
next:
	for _, a := range n.attrs {
		if a.Name.Space != "" || a.Name.Local == "xmlns" {
			continue
		}
		for _, k := range names {
			if a.Name.Local == k {
				continue next
			}
		}
		d.note(n, field+" "+a.Name.Local, quote(a.Value), "attributes of plain URDF",
			"check its spelling, it is not read")
	}
}

func (d *decoder) readLink(n *node) {
	name := d.name(n, "link")
	field := fmt.Sprintf("link %q", name)
	if at, twice := d.linkAt[name]; twice && name != "" {
		d.problem(n, field, fmt.Sprintf("the name again, first on line %d", at.line),
			"each link name once", "rename or delete one of the two")
		return
	}
	d.linkAt[name] = n
	d.known(n, field, "name", "type")
	link := Link{Name: name}
	for _, c := range n.children {
		switch c.name {
		case "visual":
			link.Visuals = append(link.Visuals, d.readVisual(c, field+" visual"))
		case "collision":
			link.Collisions = append(link.Collisions, d.readCollision(c, field+" collision"))
		default:
			d.notRead(c, field)
		}
	}
	d.robot.Links = append(d.robot.Links, link)
}

func (d *decoder) readVisual(n *node, field string) Visual {
	v := Visual{Origin: d.origin(n, field), Geometry: d.geometry(n, field)}
	v.Name, _ = n.attr("name")
	d.known(n, field, "name")
	if m := d.once(n, field, "material"); m != nil {
		v.Material = d.readMaterial(m, field+" material")
	}
	d.others(n, field, "origin", "geometry", "material")
	return v
}

func (d *decoder) readCollision(n *node, field string) Collision {
	c := Collision{Origin: d.origin(n, field), Geometry: d.geometry(n, field)}
	c.Name, _ = n.attr("name")
	d.known(n, field, "name")
	d.others(n, field, "origin", "geometry")
	return c
}

// slip is how many letters of an element's name may be wrong for it to be taken as
// a misspelt one: a swap of two, which would otherwise leave an axis or an origin
// at what a file means that has none.
const slip = 2

// others notes the children of n that are not among names, and refuses those that
// are nearly one of them.
func (d *decoder) others(n *node, field string, names ...string) {
next:
	for _, c := range n.children {
		for _, k := range names {
			if c.name == k {
				continue next
			}
		}
		for _, k := range names {
			if levenshtein.ComputeDistance(c.name, k) <= slip {
				d.problem(c, field, "<"+c.name+">", "an element of a name that is known, or of another altogether", "did you mean <"+k+">?")
				continue next
			}
		}
		d.notRead(c, field)
	}
}
