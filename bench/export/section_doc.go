package export

import (
	"seamwright/bench/plan"
	"seamwright/weld/section"
)

// sectionDoc and what it holds are a part of plan.json. All points are across the
// seam, mm: x along the base plate to the open side, y out of it.
type sectionDoc struct {
	Needed float64        `json:"metal_mm2" doc:"metal that the section needs"`
	Root   [2]float64     `json:"root_mm" doc:"root, from which aims are measured; across the seam, x along the base plate to the open side, y out of it"`
	Filled [][][2]float64 `json:"filled_mm" doc:"outlines of what is to be filled"`
	Beads  []beadDoc      `json:"beads" doc:"beads in the order in which they are laid, those from the back last"`
}

type beadDoc struct {
	Role    string       `json:"role" enum:"root,fill,cap" doc:"what the pass is for"`
	Layer   int          `json:"layer" doc:"from 1"`
	Back    bool         `json:"from_the_back" doc:"laid from the back of the joint, which this run does not weld"`
	Area    float64      `json:"area_mm2" doc:"metal"`
	Aim     [2]float64   `json:"aim_mm" doc:"where the wire points"`
	Outline [][2]float64 `json:"outline_mm" doc:"the metal in its place"`
}

func newSection(s *plan.Seam) *sectionDoc {
	p := s.Section
	if p == nil {
		return nil
	}
	d := &sectionDoc{Needed: r6(p.Needed * mm2), Root: flat(p.Root), Filled: [][][2]float64{}, Beads: []beadDoc{}}
	for _, f := range p.Filled {
		d.Filled = append(d.Filled, outline(f))
	}
	for i := range p.Passes {
		q := &p.Passes[i]
		d.Beads = append(d.Beads, beadDoc{
			Role: q.Role.String(), Layer: q.Layer, Back: q.Back, Area: r6(q.Area * mm2), Aim: flat(q.Aim), Outline: outline(q.Bead),
		})
	}
	return d
}

func flat(p section.Point) [2]float64 { return [2]float64{r6(p.X * mm), r6(p.Y * mm)} }

func outline(p section.Polygon) [][2]float64 {
	list := make([][2]float64, len(p))
	for i := range p {
		list[i] = flat(p[i])
	}
	return list
}
