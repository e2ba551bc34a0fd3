package urdf

import (
	"fmt"
	"strings"
)

// checkTree refuses links and joints that do not form one tree.
func (d *decoder) checkTree(root *node) {
	if len(d.robot.Links) == 0 {
		d.problem(root, "robot", "no link", "at least one link", "choose a URDF file with links")
		return
	}
	parent := d.parents()
	var roots []string
	for i := range d.robot.Links {
		name := d.robot.Links[i].Name
		if _, has := parent[name]; !has {
			roots = append(roots, name)
		}
	}
	switch {
	case len(roots) == 0:
		d.problem(root, "robot", "no link without a parent", "one root link",
			"cut the loop: every link is some joint's child")
	case len(roots) > 1:
		d.problem(d.linkAt[roots[1]], "robot", fmt.Sprintf("%d links without a parent: %s", len(roots), list(roots)),
			"one root link", "connect them with fixed joints or delete the loose ones")
	}
	d.checkLoops(parent)
}

// parents maps each child link to its joint and reports ends that lead nowhere
// and children with two parents.
func (d *decoder) parents() map[string]*Joint {
	parent := map[string]*Joint{}
	for i := range d.robot.Joints {
		j := &d.robot.Joints[i]
		at, field := d.jointAt[j.Name], fmt.Sprintf("joint %q", j.Name)
		d.checkEnd(at, field+" parent", j.Parent)
		d.checkEnd(at, field+" child", j.Child)
		if j.Child == "" {
			continue
		}
		if first, twice := parent[j.Child]; twice {
			d.problem(at, field+" child", fmt.Sprintf("link %q, which joint %q already moves", j.Child, first.Name),
				"one parent for each link", "delete one of the two joints")
			continue
		}
		parent[j.Child] = j
	}
	return parent
}

func (d *decoder) checkEnd(at *node, field, link string) {
	if link == "" {
		return // reported where it was read
	}
	if _, ok := d.linkAt[link]; !ok {
		d.problem(at, field, fmt.Sprintf("link %q", link), "a link of this file",
			"correct the name or add the link")
	}
}

// checkLoops reports each loop once, at its first joint in the file.
func (d *decoder) checkLoops(parent map[string]*Joint) {
	done := map[string]bool{}
	for i := range d.robot.Links {
		start := d.robot.Links[i].Name
		onPath := map[string]bool{}
		link := start
		for !done[link] && !onPath[link] {
			onPath[link] = true
			j, ok := parent[link]
			if !ok {
				break
			}
			link = j.Parent
		}
		if onPath[link] && parent[link] != nil {
			d.problem(d.jointAt[parent[link].Name], "robot", "a loop through link "+quote(link),
				"links that form a tree", "cut the loop at one joint")
		}
		for name := range onPath {
			done[name] = true
		}
	}
}

// list joins names, at most five of them.
func list(names []string) string {
	const most = 5
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}
