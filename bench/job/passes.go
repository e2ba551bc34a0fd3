package job

import (
	"seamwright/unit"
	"seamwright/weld/section"
)

// Passes says how a weld is laid in passes. The zero value leaves it to the
// planner: one where one will do, more otherwise.
type Passes struct {
	// One: a single pass, whatever its size.
	One bool
	// MostArea (m2), MostLeg and MostWidth (m) are the most that one pass may lay;
	// 0: what procedure, code and usual practice allow.
	MostArea, MostLeg, MostWidth float64
	// Root, Fill and Cap say what is asked of the passes of each role.
	Root, Fill, Cap PassWish
	At              Place
}

// PassWish is what is asked of the passes of one role.
type PassWish struct {
	// Settings is the identity of a settings set, "": the seam's.
	Settings string
	// Area is what one such pass lays, m2, or Speed the travel speed at which it
	// is laid, m/s; both 0: an equal share of what is left.
	Area, Speed float64
	// Work is a work angle (rad) where WorkStated says so, Travel a travel angle
	// (rad, push positive) where TravelStated does; otherwise the planner's, from
	// the section and the seam's torch.
	Work, Travel             float64
	WorkStated, TravelStated bool
	// Weave is that of these passes; none wished: the seam's.
	Weave Weaving
	At    Place
}

// Of returns what is asked of the passes of a role.
func (p *Passes) Of(r section.Role) *PassWish {
	switch r {
	case section.FillPass:
		return &p.Fill
	case section.CapPass:
		return &p.Cap
	}
	return &p.Root
}

// passesDraft holds the names that the passes of a seam refer to.
type passesDraft struct{ root, fill, cap ref }

// Ranges of sense of passes, common practice, no source; section checks its own.
var (
	passArea  = span{3 * unit.MM2, 150 * unit.MM2} // m2
	passLeg   = span{2 * unit.MM, 20 * unit.MM}    // m
	passWidth = span{3 * unit.MM, 40 * unit.MM}    // m
)

// form reads auto, one, or a table.
func (d *passesDraft) form(p *Passes) either {
	words := parsed(&p.One, []string{"auto", "one"}, func(s string) (bool, bool) { return s == "one", s == "auto" || s == "one" })
	return either{word: words, group: record{at: &p.At,
		allowed: "a table with most, root, fill and cap", example: "{most: {area: 30 mm2}, root: {settings: 15}, cap: {settings: 17}}",
		fields: []field{
			may("most", record{example: "{area: 30 mm2}", fields: []field{
				may("area", quantity(unit.Area, &p.MostArea, passArea, "30 mm2")),
				may("leg", quantity(unit.Length, &p.MostLeg, passLeg, "8 mm")),
				may("width", quantity(unit.Length, &p.MostWidth, passWidth, "12 mm")),
			}}),
			may("root", wishForm(&p.Root, &d.root)),
			may("fill", wishForm(&p.Fill, &d.fill)),
			may("cap", wishForm(&p.Cap, &d.cap)),
		}}}
}

// wishForm is the table of the passes of one role.
func wishForm(w *PassWish, settings *ref) record {
	return record{at: &w.At, example: "{settings: 15, area: 22 mm2}", fields: []field{
		may("settings", named(settings, "15")),
		may("area", quantity(unit.Area, &w.Area, passArea, "22 mm2")),
		may("speed", quantity(unit.Speed, &w.Speed, weldSpeed, "5 mm/s")),
		may("work", quantity(unit.Angle, &w.Work, workAngle, "45 deg")),
		may("travel", travelForm(&w.Travel, "push 10 deg")),
		may("weave", weaveForm(&w.Weave)),
	}, check: func(ps *Problems, n node, clean bool) {
		w.WorkStated, w.TravelStated = n.has("work"), n.has("travel")
		if v, given := n.get("speed"); clean && given && w.Area > 0 {
			ps.add(v.at, v.found()+" beside an area", "speed or area: with the settings set one follows from the other", "delete one of the two")
		}
	}}
}

// told reports whether the metal of the passes of a role was given.
func (p *Passes) told() bool {
	for _, w := range []*PassWish{&p.Root, &p.Fill, &p.Cap} {
		if w.Area > 0 || w.Speed > 0 {
			return true
		}
	}
	return false
}

// finish takes over the names.
func (d *passesDraft) finish(p *Passes) {
	p.Root.Settings, p.Fill.Settings, p.Cap.Settings = d.root.text, d.fill.text, d.cap.text
}

// refs are the settings sets that the passes name.
func (d *passesDraft) refs() []ref { return []ref{d.root, d.fill, d.cap} }
