package job

import (
	"seamwright/weld"
)

// rule is one combination of fields that a seam must not have.
type rule struct {
	broken               bool
	field                string // where it is shown
	found, allowed, mend string // found "": what stands in the field
}

// rules checks what the fields of a seam must be to each other. Fields of the
// defaults count as the seam's own.
func (d *seamDraft) rules(ps *Problems) {
	s := &d.seam
	path := d.setPath(ps)
	has := func(field string) bool { _, ok := s.Fields[field]; return ok }
	fillet := s.Joint != 0 && s.Joint != weld.Butt && s.Joint != weld.Edge
	groove := s.Joint == weld.Butt || s.Joint == weld.Edge
	joint := s.Joint.String()
	met := path.ofMembers()
	unclear := path == "" && (d.read.has(string(PathMeeting)) || d.read.has(string(PathTubeOnPlate)) || d.read.has(string(PathSaddle)))
	size := "weld"
	if d.read.has("symbol") {
		size = "symbol"
	}
	round := path == PathArc || path == PathCircle
	for _, r := range append(append(d.pathRules(has), d.stitchRules(has)...), []rule{
		{!met && !unclear && !d.read.means("base"), "base", "nothing",
			"how the base plate faces", "add base: level, up or down, or how it was measured"},
		{met && d.read.means("base"), "base", "",
			"no base beside " + string(path), "delete base: the plates follow from the members"},
		{met && d.read.means("upright"), "upright", "",
			"no upright beside " + string(path), "delete upright: the plates follow from the members"},
		{met && d.read.means("thickness"), "thickness", "a thickness beside " + string(path),
			"the thickness of the members", "delete thickness: it follows from the members"},
		{path == PathMeeting && groove, "joint", "",
			"tee, lap, inside corner or outside corner where plates meet", "give the seam of a " + joint + " joint as line"},
		{(path == PathTubeOnPlate || path == PathSaddle) && s.Joint != 0 && s.Joint != weld.Tee, "joint", "",
			"tee where a tube stands on its member", "say joint: tee"},
		{!met && !unclear && fillet && !has("upright"), "upright", "nothing",
			"how the butting plate of a " + joint + " joint stands", "add upright: left, seen along the travel with the base plate's face towards you"},
		{groove && has("upright"), "upright", "",
			"no upright at a " + joint + " joint", "delete upright"},
		{path != "" && !round && (s.Other.Kind == PlateTubeOutside || s.Other.Kind == PlateTubeInside), "upright", "",
			"a tube on arc and circle only", "give the seam as arc or circle, or say on which side the plate stands"},
		{groove && s.Weld.Kind != "" && s.Weld.Kind != SizeArea && s.Weld.Kind != SizeGroove, size, string(s.Weld.Kind),
			"groove or area for a " + joint + " joint", "give the groove, for example {groove: {prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}}, or the area of one pass, for example {area: 22 mm2}"},
		{s.Joint != 0 && s.Joint != weld.Butt && s.Weld.Kind == SizeGroove, size, "a groove at a " + joint + " joint",
			"a groove between the edges of a butt joint", "say joint: butt, or give the area of one pass, for example {area: 22 mm2}"},
		{has("speed") && d.read.means("passes") && !s.Passes.One, "speed", "",
			"no speed of the whole seam beside passes", "give the speed in passes, for example passes: {root: {speed: 5 mm/s}}"},
		{has("speed") && s.Weld.Kind == SizeGroove && !d.read.means("passes"), "speed", "",
			"no speed of the whole seam for a groove, which is laid in passes", "give the speed in passes, for example passes: {root: {speed: 5 mm/s}}"},
		{s.Weld.Fillet() && s.Passes.told(), "passes", "an area or a speed of a role",
			"no area and no speed by role for a fillet, whose passes are all alike", "say how much one may lay, for example passes: {most: {area: 26 mm2}}"},
		{s.Passes.One && s.Weld.Kind == SizeGroove, "passes", "",
			"auto, or a table, for a groove", "give the area of the one pass instead, for example weld: {area: 22 mm2}"},
		{!has("settings"), "settings", "nothing",
			"the id of a settings set", "add settings to the seam or to defaults"},
		{!has("torch.travel") && !d.slippedTravel(), "torch.travel", "nothing",
			"push or drag with an angle", "add travel: push 10 deg to the torch of the seam or of defaults; wire with flux takes drag as a rule"},
	}...) {
		if r.broken {
			at, value := d.place(r.field)
			ps.add(at, orElse(r.found, value), r.allowed, r.mend)
		}
	}
}

// slippedTravel says whether the seam's torch is misspelt or has no form at
// all, which is reported already.
func (d *seamDraft) slippedTravel() bool {
	torch, given := d.read.get("torch")
	return given && torch.shape != group || torch.means("travel")
}

// place returns where a field stands, or would stand, and what it holds.
func (d *seamDraft) place(field string) (Place, string) {
	if v, ok := d.read.get(field); ok {
		return v.at, v.found()
	}
	return d.read.at.sub(field), "nothing"
}
