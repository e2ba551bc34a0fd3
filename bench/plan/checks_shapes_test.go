package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/bench/finding"
)

// withShape is the good job with a file of triangles as a part's shape.
func withShape(file, text string) func(*testing.T) files {
	return func(t *testing.T) files {
		f := good(t)
		f[file] = text
		f.edit(t, "home: home\n", "home: home\nshapes:\n  - {name: lump, is: part, mesh: {file: "+file+", unit: mm}, measured_in: base, at: [1500 mm, 0 mm, 0 mm]}\n")
		return f
	}
}

// block is an OBJ file of a block of 40 x 30 x 20 mm; faces are added to its
// twelve, or taken away from their end.
func block(scale float64, faces int, more ...string) string {
	var b strings.Builder
	for i := range 8 {
		fmt.Fprintf(&b, "v %g %g %g\n", scale*40*float64(i&1), scale*30*float64(i>>1&1), scale*20*float64(i>>2))
	}
	for i, f := range []string{"1 3 4", "1 4 2", "5 6 8", "5 8 7", "1 2 6", "1 6 5", "3 7 8", "3 8 4", "2 4 8", "2 8 6", "1 5 7", "1 7 3"} {
		if i < faces {
			b.WriteString("f " + f + "\n")
		}
	}
	for _, line := range more {
		b.WriteString(line + "\n")
	}
	return b.String()
}

// withLinkShape is the good job whose arm has a shape of a kind on one link.
func withLinkShape(kind string) func(*testing.T) files {
	return func(t *testing.T) files {
		f := good(t)
		f.edit(t, `<link name="link3"/>`, `<link name="link3"><`+kind+`><origin xyz="0 0 0.1"/><geometry><cylinder radius="0.05" length="0.2"/></geometry></`+kind+`></link>`)
		return f
	}
}

const (
	counts   = "counted by hand"
	document = "the document as typed"
)

var shapeFaults = []fault{
	{name: "an arm without shapes", code: finding.ArmWithoutShapes, severity: finding.Caution, where: "arm.urdf",
		message: "arm_a.urdf has no shapes of the arm: the arm itself is kept clear of nothing", source: document},
	{name: "an arm whose shapes are not wanted", from: withLinkShape("collision"), edits: one("flange_link: flange}", "flange_link: flange, shapes: none}"),
		code: finding.ArmWithoutShapes, severity: finding.Caution, where: "arm.shapes",
		message: "the document wants none of the arm's shapes: the arm itself is kept clear of nothing", source: document},
	{name: "an arm with shapes to look at", from: withLinkShape("visual"), code: finding.ArmShapesVisual, severity: finding.Note, where: "arm.urdf",
		message: "the arm is kept clear by the shapes of arm_a.urdf that are there to look at", source: document},
	{name: "a torch of unknown girth", code: finding.TorchShapeAssumed, severity: finding.Note, where: "torch",
		message: "of the torch is taken, for the document does not say it: nozzle length 70.0 mm, neck diameter 26.0 mm, body diameter 60.0 mm", source: "docs/clearance.md"},
	{name: "a torch told by its tip", code: finding.TorchBendAssumed, severity: finding.Note, where: "torch",
		message: "the torch is told by the pose of its tip: its bend is taken 112.5 mm from the nozzle's end, where the wire's line passes nearest to the flange's axis",
		source:  "72 / sin 35 deg = 125.53 from the tip; less the stick-out of 13"},
	{name: "a drawn torch that lies elsewhere", from: withTorch("at: [300 mm, 0 mm, 0 mm]"), code: finding.TorchDrawingCut, severity: finding.Note, where: "torch.shape",
		message: "of the torch's drawing what lies beyond the nozzle's end is taken for the wire and left out", source: "the block lies from 0 to 20 mm along the wire, the nozzle's end 13 mm before the tip"},
	{name: "no cable", code: finding.CableUnknown, severity: finding.Note, where: "torch.cable",
		message: "the document does not say where the cable is: it is kept clear of nothing", source: document},
	{name: "no part", code: finding.PartShapeUnknown, severity: finding.Caution, where: "shapes",
		message: "the document has no shape of the part: nothing is kept clear of it", source: document},
	{name: "no table", code: finding.SurroundingsUnknown, severity: finding.Caution, where: "shapes",
		message: "the document has no fixture, table or floor: nothing is kept clear of them", source: document},
	{name: "a tube without a length", edits: one("home: home\n", "home: home\nmembers: {measured_in: base, tubes: [{name: post, at: [1500 mm, 0 mm, 0 mm], axis: [0, 0, 1], diameter: 60 mm, wall: 4 mm}]}\n"),
		code: finding.TubeWithoutLength, severity: finding.Caution, where: "members.tubes",
		message: "post without a length: nothing is kept clear of it", source: document},
	{name: "a shape with lines in its file", from: withShape("block.obj", block(1, 12, "l 1 2")), code: finding.ShapeReadPartly, severity: finding.Note, where: "shapes[0]",
		message: `"lump" (block.obj): 1 lines "l" ignored (lines), the first on line 21`, source: counts},
	{name: "a face twice", from: withShape("block.obj", block(1, 12, "f 1 3 4")), code: finding.ShapeMended, severity: finding.Note, where: "shapes[0]",
		message: `"lump" (block.obj): 1 triangles that stood there twice dropped`, source: counts},
	{name: "a side left open", from: withShape("block.obj", block(1, 10)), code: finding.ShapeOpen, severity: finding.Caution, where: "shapes[0]",
		message: `"lump" (block.obj): 1 shell open, 1 hole or borders in all, the longest of 100 mm about (0 mm, 15 mm, 10 mm); what lies inside is not known, the surface alone is looked at`,
		source:  "the side at x = 0 is 30 x 20 mm: 100 mm round, its middle at (0, 15, 10)"},
	{name: "faces that cut each other", from: withShape("block.obj", block(1, 12, "v 20 15 -5", "v 20 20 5", "v 25 15 5", "v 15 15 5", "f 9 10 11", "f 9 12 10", "f 9 11 12", "f 10 12 11")),
		code: finding.ShapeDoubtful, severity: finding.Caution, where: "shapes[0]",
		message: `"lump" (block.obj): 5 pairs of triangles cut each other`, source: "three sides of the spike pass through the lower face, two of them across its diagonal and so through both its triangles"},
	{name: "a shape in metres read as millimetres", from: withShape("block.obj", block(1e-3, 12)), code: finding.ShapeSizeSuspect, severity: finding.Caution, where: "shapes[0]",
		message: `"lump" (block.obj), read in mm: units suspect: the longest side of the box is 0.04 mm, under 1 mm; if the file is in m or in, declare that`, source: "40 mm / 1000"},
	{name: "a pair left out", from: withLinkShape("collision"), edits: one("home: home\n", "home: home\nshapes: [{name: shop floor, floor: {height: -500 mm}}]\nclearance: {ignore: [[shop floor, link3]]}\n"),
		code: finding.PairsIgnored, severity: finding.Caution, where: "clearance.ignore",
		message: "not looked at, as the document wants it: link3 and shop floor", source: document},
	{name: "a shoulder over a floor", from: withLinkShape("collision"), edits: [][2]string{{`<link name="link1"/>`, `<link name="link1"><collision><origin xyz="0 0 0.1"/><geometry><cylinder radius="0.05" length="0.2"/></geometry></collision></link>`},
		{"home: home\n", "home: home\nshapes: [{name: shop floor, floor: {height: -30 mm}}]\n"}},
		code: finding.AlwaysNear, severity: finding.Note, where: "clearance",
		message: "never as far apart as is wanted, in any posture tried; held to half of the most that they are apart: link1 and shop floor (30.0 mm)", source: "the shoulder stands on z = 0, the floor 30 mm below"},
}

// withTorch is the good job with a drawn torch: the block, moved in the frame of
// the tip.
func withTorch(at string) func(*testing.T) files {
	return func(t *testing.T) files {
		f := good(t)
		f["torch.obj"] = block(1, 12)
		f.edit(t, "  wire: 1.0 mm\n", "  wire: 1.0 mm\n  shape: {file: torch.obj, unit: mm, measured_in: tip, pose: {"+at+", orientation: fixed x-y-z degrees, turn: [0, 0, 0]}}\n")
		return f
	}
}
