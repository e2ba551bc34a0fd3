package job

import (
	"slices"

	"seamwright/geom/se3"
	"seamwright/unit"
)

// torchDraft is the section "torch" while it is read.
type torchDraft struct {
	shape torchShapeDraft
	cable []cableDraft
}

func (d *torchDraft) form(t *Torch) record {
	var shift []float64
	measures := []field{
		need("body", quantity(unit.Length, &t.Body, bodyLength, "210 mm")),
		need("neck", quantity(unit.Length, &t.Neck, neckLength, "120 mm")),
		need("neck_angle", quantity(unit.Angle, &t.NeckAngle, neckAngle, "35 deg")),
		may("turn", quantity(unit.Angle, &t.Turn, wholeTurn, "0 deg")),
		may("sideways", lengths(&shift, 2, sideways)),
	}
	r := record{at: &t.At}
	for _, f := range measures {
		r.fields = append(r.fields, may(f.name, f.form)) // needed or not allowed: the check says
	}
	r.fields = append(r.fields,
		may("flange_from_tip", poseForm(&t.FlangeFromTip)),
		need("nozzle", quantity(unit.Length, &t.NozzleDiameter, nozzle, "22 mm")),
		may("taper", taperForm(t)),
		may("nozzle_length", quantity(unit.Length, &t.NozzleLength, nozzleLength, "65 mm")),
		may("neck_diameter", quantity(unit.Length, &t.NeckDiameter, neckDiameter, "24 mm")),
		may("body_diameter", quantity(unit.Length, &t.BodyDiameter, bodyDiameter, "50 mm")),
		may("shape", d.shape.form()),
		may("cable", manyOf(&d.cable, 1, maxCable, "pieces of the cable", (*cableDraft).form)),
		need("tip_recess", quantity(unit.Length, &t.TipRecess, tipRecess, "2 mm")),
		need("stick_out", quantity(unit.Length, &t.StickOut, stickOut, "13 mm")),
		may("wire", quantity(unit.Length, &t.WireDiameter, wireDiameter, "1.0 mm")),
		may("mass", quantity(unit.Mass, &t.Mass, torchMass, "2.4 kg")))
	r.check = func(ps *Problems, n node, clean bool) {
		copy(t.Sideways[:], shift)
		t.Measured = !n.has("flange_from_tip")
		measuredOrTyped(ps, n, measures)
		t.assume(ps, n)
		if recess, _ := n.get("tip_recess"); clean && n.has("tip_recess") && t.ContactTipDistance() <= 0 {
			ps.add(recess.at, recess.found()+", which leaves no distance from contact tip to wire end",
				"recess and stick-out together over 0 mm", "check the sign: a tip inside the nozzle is positive")
		}
	}
	return r
}

// measuredOrTyped checks that a torch has all of its measurements or, beside
// the pose of its tip, none.
func measuredOrTyped(ps *Problems, n node, measures []field) {
	typed := n.means("flange_from_tip")
	if !typed && !slices.ContainsFunc(measures, func(f field) bool { return n.means(f.name) }) {
		ps.add(n.at, "neither the torch's measurements nor the pose of its tip", "body, neck and neck_angle, or flange_from_tip",
			"add the one that you have: body: 210 mm, neck: 120 mm and neck_angle: 35 deg, or flange_from_tip")
		return
	}
	for _, f := range measures {
		v, given := n.get(f.name)
		switch {
		case !typed && f.need && !n.means(f.name):
			lacks(ps, n, f)
		case typed && given:
			ps.add(v.at, v.found()+" beside flange_from_tip", "the measurements of the torch or the pose of its tip",
				"delete "+f.name+" or flange_from_tip")
		}
	}
}

// taperForm is the form of the nozzle's narrow end.
func taperForm(t *Torch) record {
	return record{fields: []field{
		need("end", quantity(unit.Length, &t.TaperEnd, nozzle, "16 mm")),
		need("over", quantity(unit.Length, &t.TaperOver, taperOver, "15 mm")),
	}, check: func(ps *Problems, n node, clean bool) {
		if end, _ := n.get("end"); clean && t.NozzleDiameter > 0 && t.TaperEnd >= t.NozzleDiameter {
			ps.add(end.at, end.found()+", no less than the nozzle", "an end that is narrower than nozzle, its outside diameter",
				"delete taper where the nozzle does not narrow, or check the two diameters")
		}
	}}
}

// assume fills in what the document does not say of the torch's form, and keeps
// which it was.
func (t *Torch) assume(ps *Problems, n node) {
	meshed := n.means("shape")
	for _, f := range []struct {
		name   string
		dst    *float64
		value  float64
		inMesh bool // a drawn torch needs none
	}{
		{"nozzle_length", &t.NozzleLength, max(DefaultNozzleLength, t.TaperOver), false},
		{"neck_diameter", &t.NeckDiameter, max(t.NozzleDiameter, DefaultNeckDiameter), true},
		{"body_diameter", &t.BodyDiameter, DefaultBodyDiameter, true},
	} {
		v, given := n.get(f.name)
		switch {
		case given && meshed && f.inMesh:
			ps.add(v.at, v.found()+" beside shape", "the torch's diameters or its drawn shape", "delete "+f.name+" or shape")
		case !n.means(f.name) && !(meshed && f.inMesh):
			*f.dst = f.value
			t.Assumed = append(t.Assumed, f.name)
		}
	}
	if v, given := n.get("nozzle_length"); given && t.NozzleLength > 0 && t.NozzleLength < t.TaperOver {
		ps.add(v.at, v.found()+", shorter than its taper", "a nozzle as long as taper.over or longer", "check the two lengths")
	}
}

// torchShapeDraft is the torch's drawn shape while it is read.
type torchShapeDraft struct {
	mesh  meshDraft
	shape TorchShape
	frame string
	given bool
}

// form is the table of the torch's drawn shape.
func (d *torchShapeDraft) form() record {
	d.shape.LinkFromShape = se3.Identity()
	return record{example: "{file: torch.stl, unit: mm, measured_in: tip}", fields: append(d.mesh.fields(),
		need("measured_in", oneOf(&d.frame, "tip", "flange")),
		may("pose", poseForm(&d.shape.LinkFromShape))),
		check: func(ps *Problems, n node, _ bool) {
			d.mesh.check(ps, n)
			d.given, d.shape.OnFlange = true, d.frame == "flange"
		}}
}

// cableDraft is a piece of the cable while it is read.
type cableDraft struct {
	piece    CablePiece
	link     ref
	from, to []float64
}

// maxCable bounds the pieces of the cable.
const maxCable = 8

// form is the table of a piece of the cable.
func (d *cableDraft) form() form {
	return record{at: &d.piece.At,
		example: "{link: flange, from: [0 mm, 0 mm, 40 mm], to: [-160 mm, 0 mm, -60 mm], diameter: 40 mm, play: 30 mm}",
		fields: []field{
			need("link", named(&d.link, "flange")),
			need("from", lengths(&d.from, 3, anyLength)),
			need("to", lengths(&d.to, 3, anyLength)),
			need("diameter", quantity(unit.Length, &d.piece.Diameter, cableDiameter, "40 mm")),
			need("play", quantity(unit.Length, &d.piece.Play, cablePlay, "30 mm")),
		}, check: func(ps *Problems, n node, clean bool) {
			if clean {
				d.piece.From, d.piece.To = vec(d.from), vec(d.to)
			}
		}}
}

// resolve checks the links that carry the cable.
func (d *torchDraft) resolve(ps *Problems, j *Job) {
	if d.shape.given {
		shape := d.shape.shape
		j.Torch.Shape = &shape
	}
	for _, c := range d.cable {
		piece := c.piece
		piece.Link = c.link.text
		if j.Arm.Robot != nil && piece.Link != "" && j.Arm.Robot.Link(piece.Link) == nil {
			names := linkNames(j.Arm.Robot)
			ps.add(c.link.at, quote(piece.Link), "a link of "+j.Arm.URDF+": "+listed(names), orNearest(piece.Link, names, "write one of these names"))
		}
		j.Torch.Cable = append(j.Torch.Cable, piece)
	}
}
