package scene

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/mesh"
	"seamwright/robot/urdf"
	"seamwright/unit"
)

// findings says what is odd about the shapes, and what is not known.
func (b *builder) findings() []finding.Finding {
	var out []finding.Finding
	say := func(code finding.Code, field, format string, args ...any) {
		out = append(out, finding.Newf(code, finding.AtField(field), format, args...))
	}
	b.sayArm(say)
	b.sayTorch(say)
	if !b.has(part) {
		say(finding.PartShapeUnknown, "shapes", "the document has no shape of the part: nothing is kept clear of it")
	}
	if !b.has(fixture) {
		say(finding.SurroundingsUnknown, "shapes", "the document has no fixture, table or floor: nothing is kept clear of them")
	}
	if len(b.unlong) > 0 {
		say(finding.TubeWithoutLength, "members.tubes", "%s without a length: nothing is kept clear of %s", listed(b.unlong), themOrIt(b.unlong))
	}
	for i := range b.reports {
		b.sayMesh(say, &b.reports[i])
	}
	if len(b.ignored) > 0 {
		say(finding.PairsIgnored, "clearance.ignore", "not looked at, as the document wants it: %s", listed(b.ignored))
	}
	if len(b.eased) > 0 {
		say(finding.AlwaysNear, "clearance", "never as far apart as is wanted, in any posture tried; held to half of the most that they are apart: %s", listed(b.eased))
	}
	return out
}

type sayer func(code finding.Code, field, format string, args ...any)

func (b *builder) sayArm(say sayer) {
	switch a := &b.job.Arm; {
	case a.Shapes == job.ShapesNone && hasShapes(a.Robot):
		say(finding.ArmWithoutShapes, "arm.shapes", "the document wants none of the arm's shapes: the arm itself is kept clear of nothing")
	case a.Shapes == job.ShapesNone:
		say(finding.ArmWithoutShapes, "arm.urdf", "%s has no shapes of the arm: the arm itself is kept clear of nothing", a.URDF)
	case a.Shapes == job.ShapesVisual:
		say(finding.ArmShapesVisual, "arm.urdf", "the arm is kept clear by the shapes of %s that are there to look at", a.URDF)
	}
}

// hasShapes reports whether any link of the arm's file has a shape.
func hasShapes(r *urdf.Robot) bool {
	return slices.ContainsFunc(r.Links, func(l urdf.Link) bool { return len(l.Collisions)+len(l.Visuals) > 0 })
}

func (b *builder) sayTorch(say sayer) {
	t := &b.job.Torch
	if len(t.Assumed) > 0 {
		values := map[string]float64{"nozzle_length": t.NozzleLength, "neck_diameter": t.NeckDiameter, "body_diameter": t.BodyDiameter}
		var said []string
		for _, name := range t.Assumed {
			said = append(said, strings.ReplaceAll(name, "_", " ")+" "+b.length(values[name]))
		}
		say(finding.TorchShapeAssumed, "torch", "of the torch is taken, for the document does not say it: %s", strings.Join(said, ", "))
	}
	if !t.Measured && t.Shape == nil {
		say(finding.TorchBendAssumed, "torch", "the torch is told by the pose of its tip: its bend is taken %s from the nozzle's end, where the wire's line passes nearest to the flange's axis", b.length(b.neckLength()))
	}
	for _, s := range b.splitTorch {
		say(finding.TorchDrawingCut, "torch.shape", "of the torch's drawing %s", s)
	}
	if len(t.Cable) == 0 {
		say(finding.CableUnknown, "torch.cable", "the document does not say where the cable is: it is kept clear of nothing")
	}
}

// neckLength returns how far the torch's bend is from the nozzle's end, m.
func (b *builder) neckLength() float64 {
	bend, found := b.bend()
	if tip := b.cell.FlangeFromTip; found {
		return tip.P.Dist(bend) - b.job.Torch.StickOut
	}
	return b.cell.FlangeFromTip.P.Norm() - b.job.Torch.StickOut
}

// sayMesh says what a file of triangles is like.
func (b *builder) sayMesh(say sayer, r *MeshReport) {
	field, name := r.At.Field, quoted(r.Name)+" ("+r.File+")"
	if len(r.Read) > 0 {
		say(finding.ShapeReadPartly, field, "%s: %s", name, strings.Join(r.Read, "; "))
	}
	if lines := r.Done.Lines(); r.Done.Any() {
		say(finding.ShapeMended, field, "%s: %s", name, strings.Join(lines, ", "))
	}
	if r.Left.Open > 0 {
		say(finding.ShapeOpen, field, "%s: %s open, %s in all%s; what lies inside is not known, the surface alone is looked at", name,
			counted(r.Left.Open, "shell"), counted(r.Left.HoleCount, "hole")+" or borders", b.biggest(r.Left.Holes))
	}
	if doubts := r.Doubts(); len(doubts) > 0 {
		say(finding.ShapeDoubtful, field, "%s: %s", name, strings.Join(doubts, ", "))
	}
	if r.Left.UnitsSuspect != "" {
		say(finding.ShapeSizeSuspect, field, "%s, read in %v: %s", name, r.Unit, r.Left.UnitsSuspect)
	}
}

// biggest says where the longest border is.
func (b *builder) biggest(holes []mesh.Hole) string {
	if len(holes) == 0 {
		return ""
	}
	h, u := holes[0], unit.Millimetres
	decimals := 0
	if b.inches() {
		u, decimals = unit.Inches, 1
	}
	at := func(m float64) string { return unit.Format(m, u, decimals) }
	return fmt.Sprintf(", the longest of %s about (%s, %s, %s)", at(h.Length), at(h.Centre.X), at(h.Centre.Y), at(h.Centre.Z))
}

// doubtsOf lists what is wrong with a mended mesh beside its holes.
func doubtsOf(r *mesh.Report) (out []string) {
	for _, d := range []struct {
		n    int
		what string
	}{
		{r.Crossings.Pairs, "pairs of triangles cut each other"},
		{r.Twisted, "shells have no outside"},
		{r.Undecided, "shells face inwards, and it was not found out whether they are hollows"},
		{r.ManyEdges, "edges have three or more triangles that do not fit together"},
		{r.ZeroArea, "triangles without area are left"},
	} {
		if d.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", d.n, d.what))
		}
	}
	if r.Crossings.Bounded {
		out = append(out, fmt.Sprintf("the search for triangles that cut each other ended after %d pairs", r.Crossings.Tested))
	}
	return out
}

// has reports whether there is a body of a role.
func (b *builder) has(r role) bool {
	for _, x := range b.roles {
		if x == r {
			return true
		}
	}
	return false
}

// listed joins names, the first few of many.
func listed(names []string) string {
	const most = 6
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}

func themOrIt(names []string) string {
	if len(names) == 1 {
		return "it"
	}
	return "them"
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// inches reports whether the job's shop reads inches.
func (b *builder) inches() bool { return b.job.Keying.Length == unit.Inches.String() }

// length says a length of the scene, m.
func (b *builder) length(m float64) string {
	if b.inches() {
		return unit.Format(m, unit.Inches, 2)
	}
	return unit.Format(m, unit.Millimetres, 1)
}
