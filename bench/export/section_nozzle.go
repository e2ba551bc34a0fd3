package export

import (
	"fmt"

	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/section"
)

// nozzlesMost is of how many passes the nozzles are drawn; of more, only that with the
// least room, for they would hide each other.
const nozzlesMost = 3

// nozzleHigh is how much of a nozzle is drawn, m from its face up.
const nozzleHigh = 9 * unit.MM

// shown are the passes of which the nozzle is drawn, from 0.
func (d *sectionDrawing) shown() []int {
	var list []int
	for i := range d.seam.Passes {
		r := d.seam.Passes[i].Room
		switch {
		case r == nil:
		case len(d.seam.Passes) <= nozzlesMost || len(list) == 0:
			list = append(list, i)
		case r.Clearance < d.seam.Passes[list[0]].Room.Clearance:
			list[0] = i
		}
	}
	return list
}

// nozzle is the outline of the nozzle in pass i at the weld start, m in the section.
func (d *sectionDrawing) nozzle(i int) section.Polygon {
	frame := d.seam.Way.At(0).Frame
	outline := plan.Nozzle(&d.job.Torch).Outline(frame, frame.Encode(d.seam.Passes[i].Aim), nozzleHigh)
	return d.inSection(outline)
}

// inNozzle is where the wire of pass i is drawn to, pixels: a little inside the nozzle,
// further for each of three in turn, so that their numbers do not meet.
func (d *sectionDrawing) inNozzle(i int) (x, y float64) {
	const inside = 2.5 * unit.MM
	f := d.seam.Way.At(0).Frame
	tip := f.Encode(d.seam.Passes[i].Aim)
	at := tip.P.AddScaled(-plan.Nozzle(&d.job.Torch).StickOut-inside*float64(1+i%3), tip.R.Z()).Sub(f.Origin)
	return d.canvas.at(d.inSection(section.Polygon{{X: at.Dot(f.B), Y: at.Dot(f.M)}})[0])
}

// inSection carries points across the seam, m from its line, into its section.
func (d *sectionDrawing) inSection(at section.Polygon) section.Polygon {
	var root section.Point
	if d.seam.Section != nil {
		root = d.seam.Section.Root
	}
	for i := range at {
		at[i] = section.Point{X: at[i].X + root.X, Y: at[i].Y + root.Y}
	}
	return at
}

// nozzles draws the nozzle of the passes that are shown, to scale, and the way from it to
// what is nearest.
func (d *sectionDrawing) nozzles() {
	for _, i := range d.shown() {
		d.polygon("nozzle", d.nozzle(i))
	}
	for _, i := range d.shown() {
		r := d.seam.Passes[i].Room
		if r.Along > 0 { // it is least elsewhere, and drawn at the start
			continue
		}
		f := d.seam.Way.At(0).Joint
		from, to := r.Nozzle.Sub(f.Origin), r.On.Sub(f.Origin)
		ends := d.inSection(section.Polygon{{X: from.Dot(f.B), Y: from.Dot(f.M)}, {X: to.Dot(f.B), Y: to.Dot(f.M)}})
		x0, y0 := d.canvas.at(ends[0])
		x1, y1 := d.canvas.at(ends[1])
		d.sheet.line("over", x0, y0, x1, y1)
	}
}

// roomText is the clearance of a nozzle.
func roomText(r *plan.Room, system unit.System) string {
	if r == nil {
		return ""
	}
	if system == unit.InchPound {
		return unit.Format(r.Clearance, unit.Inches, 3)
	}
	return unit.Format(r.Clearance, unit.Millimetres, 1)
}

// nozzleNote says which nozzles are drawn.
func (d *sectionDrawing) nozzleNote() string {
	list := d.shown()
	switch {
	case len(list) == 0:
		return ""
	case len(list) == len(d.seam.Passes):
		return "The nozzle is drawn to scale as each pass begins; red is its least clearance."
	}
	return fmt.Sprintf("The nozzle is drawn to scale as pass %d begins, which has the least room; red is its clearance.", list[0]+1)
}
