package job

import (
	"fmt"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// maxPoints bounds the taught list, inline and from the file together.
const maxPoints = 20000

// maxJoints bounds the joints of one row.
const maxJoints = 16

// pointsDraft is the section "points" while it is read.
type pointsDraft struct {
	frame       FrameName
	tip         string // "tip" or "flange", "" where not said
	length      string // "mm", "m" or "in", "" where not said
	convention  se3.Convention
	oriented    bool          // the convention was read
	joints      string        // "deg" or "rad", "" where not said
	table       []jointNumber // how the turning table stood, empty where not said
	speeds      string        // unit of the column speed, "" where not said
	listed      bool
	file        ref
	rows        []row
	read        node
	labelsKnown bool // false where a file could not be read
	stood       stood
}

// keying returns how the points are written, for values to key in.
func (d *pointsDraft) keying() Keying {
	k := Keying{Frame: d.frame, Flange: d.tip == "flange", Length: d.length, Orientation: d.convention, Joints: d.joints, Speed: unit.MillimetresPerSecond}
	if d.length == "in" {
		k.Speed = unit.InchesPerMinute
	}
	for _, u := range unit.Speed.Units() {
		if u.String() == d.speeds {
			k.Speed = u
		}
	}
	return k
}

// row is a taught point as it was written: numbers without units.
type row struct {
	point        Point     // label, comment, move, arc, speeds and blend in SI
	place        []float64 // x, y, z alone
	pose, joints []float64
	table        []float64 // of the turning table, beside a pose or place
	settings     ref
	label        ref
	at           Place
	broken       bool // only the label counts
}

var (
	moves = []Move{MoveJoint, MoveLinear, MoveArc}
	arcs  = []Arc{ArcOn, ArcOff}
)

// form is the table of the section "points".
func (d *pointsDraft) form() record {
	return record{fields: []field{
		need("measured_in", oneOf(&d.frame, FrameBase, FrameWorld, FramePart)),
		may("point", oneOf(&d.tip, "tip", "flange")),
		may("length", oneOf(&d.length, "mm", "m", "in")),
		may("orientation", conventionForm(&d.convention)),
		may("joints", oneOf(&d.joints, "deg", "rad")),
		may("table", manyOf(&d.table, 1, maxJoints, "joint values of the turning table", jointValueForm)),
		may("speeds", oneOf(&d.speeds, symbols(unit.Speed)...)),
		may("list", flag(&d.listed)),
		may("file", named(&d.file, "taught.csv")),
		may("rows", manyOf(&d.rows, 1, maxPoints, "rows", (*row).form)),
	}, example: "{measured_in: base, file: taught.csv}", check: func(ps *Problems, n node, _ bool) {
		d.read = n
		d.oriented = d.convention != se3.Convention{}
		if !n.has("file") && !n.has("rows") {
			ps.add(n.at, "neither file nor rows", "taught points in a file, in rows, or both", "add file: taught.csv, or rows")
		}
	}}
}

// form is the table of one inline row.
func (r *row) form() form {
	p := &r.point
	return record{at: &r.at, example: "{label: home, joints: [0, -60, 90, 0, 60, 0]}", fields: []field{
		need("label", named(&r.label, "W1 start")),
		may("pose", numbers(&r.pose, 1, 12, "0")),
		may("place", numbers(&r.place, 3, 3, "0")),
		may("joints", numbers(&r.joints, 1, maxJoints, "0")),
		may("table", numbers(&r.table, 1, maxJoints, "0")),
		may("comment", text(&p.Comment, "on the root")),
		may("move", oneOf(&p.Move, moves...)),
		may("arc", oneOf(&p.Arc, arcs...)),
		may("settings", named(&r.settings, "11")),
		may("speed", quantity(unit.Speed, &p.Speed, airSpeed, "8.2 mm/s")),
		may("percent", number(&p.Percent, percents, "20")),
		may("blend", quantity(unit.Length, &p.Blend, blendRadius, "0 mm")),
	}, one: [][]string{{"pose", "place", "joints"}}}
}

// missing reports the units and words that the rows need and the section does
// not state, and whether all are there.
func (d *pointsDraft) missing(ps *Problems, c chain) bool {
	has := func(yes func(row) bool) bool { return slices.ContainsFunc(d.rows, yes) }
	poses := has(func(r row) bool { return r.pose != nil })
	places := poses || has(func(r row) bool { return r.place != nil })
	joints := has(func(r row) bool { return r.joints != nil || r.table != nil })
	all := true
	for _, f := range []struct {
		needed              bool
		name, allowed, mend string
	}{
		{places, "point", "tip or flange: what the poses locate", "add point: tip"},
		{places, "length", "mm, m or in: the unit of x, y and z", "add length: mm"},
		{poses, "orientation", conventionWords, "add orientation: fixed x-y-z degrees, or what your controller's manual says"},
		{joints, "joints", "deg or rad: the unit of joint values", "add joints: deg"},
		{joints && !places && c.slides(), "length", "mm, m or in: the unit of joints that slide", "add length: mm"},
	} {
		if f.needed && !d.read.has(f.name) {
			ps.add(d.read.at.sub(f.name), "nothing", f.allowed, f.mend)
			all = false
		}
	}
	return all
}

// unitLengths are the units of poses; unitAngles those of joint values.
var (
	unitLengths = map[string]float64{"mm": unit.MM, "m": 1, "in": unit.Inch} // m
	unitAngles  = map[string]float64{"deg": unit.Deg, "rad": 1}              // rad
)

// resolve carries the rows into points of the base, SI.
func (d *pointsDraft) resolve(ps *Problems, c chain, cell Cell) []Point {
	d.stood = newStood(ps, d, c, cell)
	if !d.missing(ps, c) {
		return nil
	}
	points := make([]Point, 0, len(d.rows))
	for _, r := range d.rows {
		p := r.point
		p.Label, p.Settings, p.At = r.label.text, r.settings.text, r.at
		if r.joints != nil {
			p.Joints = d.jointValues(ps, r, c)
		}
		p.Table = d.stood.values(ps, r, p.Joints)
		baseFromMeasured := d.stood.at(p.Label, p.Table)
		if r.pose != nil && d.oriented {
			p.HasPose, p.HasTurn, p.TipPose = true, true, d.tip == "tip"
			p.Pose = baseFromMeasured.Mul(d.pose(ps, r))
		}
		if r.place != nil {
			p.HasPose, p.TipPose = true, true
			p.Pose = baseFromMeasured.Mul(se3.Translation(d.position(r.place)))
			d.tipOnly(ps, r)
		}
		points = append(points, p)
	}
	return points
}

// pose decodes a row's pose in the frame in which it was measured.
func (d *pointsDraft) pose(ps *Problems, r row) se3.Pose {
	at := r.at.sub("pose")
	if len(r.pose) != 3+d.convention.Len() {
		ps.add(at, counted(len(r.pose), "number"), fmt.Sprintf("3 lengths and %d numbers of %v", d.convention.Len(), d.convention),
			"write all of them; decimals take a point, not a comma")
		return se3.Identity()
	}
	rot, _ := orientation(ps, at, d.convention, r.pose[3:])
	return se3.Pose{R: rot, P: d.position(r.pose)}
}

// position returns x, y and z in metres, in the frame in which they were
// measured; zero where three numbers were not read.
func (d *pointsDraft) position(xyz []float64) r3.Vec {
	const axes = 3
	if len(xyz) < axes {
		return r3.Vec{}
	}
	k := unitLengths[d.length]
	return r3.Vec{X: xyz[0] * k, Y: xyz[1] * k, Z: xyz[2] * k}
}

// tipOnly refuses the flange's place alone: without its orientation nobody
// knows where the tip was.
func (d *pointsDraft) tipOnly(ps *Problems, r row) {
	if d.tip == "flange" {
		ps.add(r.at.sub("place"), "a place of the flange", "whole poses of the flange, or places of the tip", "write the whole pose, or measure the tip and say point: tip")
	}
}

// jointValues returns a row's joint values as the arm's file has them, rad or m,
// in chain order.
func (d *pointsDraft) jointValues(ps *Problems, r row, c chain) []float64 {
	if c.known && len(r.joints) != len(c.joints) {
		ps.add(r.at.sub("joints"), counted(len(r.joints), "joint value"), fmt.Sprintf("%d, one for each of %s", len(c.joints), listed(c.names())),
			"write all of them in this order; decimals take a point, not a comma")
		return nil
	}
	return d.fileValues(r.joints, c)
}

// fileValues turns numbers, as the controller shows the first joints of the
// chain, into the values of the arm's file, rad or m.
func (d *pointsDraft) fileValues(shown []float64, c chain) []float64 {
	out := make([]float64, len(shown))
	for i, x := range shown {
		switch {
		case !c.known:
			out[i] = x * unitAngles[d.joints]
		case c.joints[i].slides:
			out[i] = c.joints[i].shown.File(x * unitLengths[d.length])
		default:
			out[i] = c.joints[i].shown.File(x * unitAngles[d.joints])
		}
	}
	return out
}

// labels returns the labels in order without doubles. A label may stand twice
// only in a taught list, with the same numbers: a home that is passed again.
func (d *pointsDraft) labels(ps *Problems) []string {
	first := map[string]row{}
	var labels []string
	for _, r := range d.rows {
		name := r.label.text
		if name == "" {
			d.labelsKnown = false // reported where it was read
			continue
		}
		before, twice := first[name]
		if !twice {
			first[name] = r
			labels = append(labels, name)
			continue
		}
		found := fmt.Sprintf("%s again, first on line %d of %s", quote(name), before.at.Line, before.at.File)
		if r.broken || before.broken {
			continue
		}
		switch same := slices.Equal(r.pose, before.pose) && slices.Equal(r.place, before.place) && slices.Equal(r.joints, before.joints) && slices.Equal(r.table, before.table); {
		case !same:
			ps.add(r.label.at, found+", with other numbers", "a label of its own for each point", "rename one of the two")
		case !d.listed:
			ps.add(r.label.at, found, "each label once", "delete the row, or say list: true where the rows are a whole taught list")
		}
	}
	return labels
}
