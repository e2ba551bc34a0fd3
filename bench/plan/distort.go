package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/distort"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// Distortion is what the welds are likely to do to the part, by published rules of
// thumb that differ by a factor of two and more. It is no prediction.
type Distortion struct {
	Pulls []Pull // by seam of the plan, in its order, stitches of one seam together
	// Bow is how far the middle of the part moves, m, positive where it is hollow on
	// the side that the document names; nil where the document does not say enough.
	Bow *distort.Estimate
	// Order is the order that the rules propose, nil where the document gives no axis
	// or there is but one seam. Seam indices are places in Plan.Seams, of stitches that
	// of the first; see DrawnName.
	Order *distort.Order
}

// Pull is what one seam does beside itself. Estimates without rules do not apply;
// Unknown says in words what could not be estimated, and why.
type Pull struct {
	Seam          string
	Across, Along distort.Estimate // m, by which the parts draw together and shorten
	Turn          weld.Limit       // rad, by which the joint closes towards the weld; no range: not known
	Unknown       []string
}

// distortion estimates what the welds do to the part, and proposes an order.
func (m *maker) distortion() {
	d := &m.plan.Distortion
	for i := 0; i < len(m.plan.Seams); i += m.together(i) {
		d.Pulls = append(d.Pulls, m.pull(i))
	}
	if !m.job.Distortion.Given {
		return
	}
	m.bow()
	m.propose()
}

// seamHeat is the heat input with the thermal efficiency of all passes of a seam
// together, J/m; 0 where one is not known.
func (m *maker) seamHeat(s *Seam) float64 {
	sum := 0.0
	for i := range s.Passes {
		size := &s.Passes[i].Size
		q, err := thermal.HeatInput.FromArcEnergy(size.ArcEnergy, settingsOf(m.job, size.Settings).Process)
		if err != nil || math.IsNaN(q) {
			return 0
		}
		sum += q
	}
	return sum
}

// seamArea is the metal of all passes of a seam, m2.
func seamArea(s *Seam) float64 {
	sum := 0.0
	for i := range s.Passes {
		sum += s.Passes[i].Size.Area
	}
	return sum
}

// pull estimates what seam i does beside itself.
func (m *maker) pull(i int) Pull {
	s, doc := &m.plan.Seams[i], m.shapes[i].doc
	p := Pull{Seam: m.shapes[i].drawn()}
	keep := func(e distort.Estimate, err error) distort.Estimate {
		if err != nil {
			p.Unknown = append(p.Unknown, err.Error())
		}
		return e
	}
	kind, heat := distort.FilletJoint, m.seamHeat(s)
	if weldKind(doc.Joint) == weld.Groove {
		kind = distort.ButtJoint
		gap := doc.Gap
		if gap == 0 && doc.Weld.Kind == job.SizeGroove {
			gap = doc.Weld.Groove.Section.Gap
		}
		if doc.BaseThickness > 0 {
			p.Across = keep(distort.Butt{Area: seamArea(s), Thickness: doc.BaseThickness, RootGap: gap, HeatInput: heat}.Transverse())
		} else {
			p.Unknown = append(p.Unknown, "shrinkage across: the thickness of the plates is not stated")
		}
	} else if doc.OtherThickness > 0 {
		p.Across = keep(distort.Fillet{Leg: m.legOf(i), Thickness: doc.OtherThickness, HeatInput: heat}.Transverse())
	} else {
		p.Unknown = append(p.Unknown, "shrinkage across: the thickness of the upright is not stated")
	}
	along := distort.Along{Joint: kind, Length: m.welded(i)}
	if section := m.job.Distortion.Section; section > 0 && heat > 0 {
		along.HeatInput, along.Section = heat, section
	}
	p.Along = keep(along.Longitudinal())
	m.turn(&p, doc)
	return p
}

// legOf is the leg of seam i as it is welded, m.
func (m *maker) legOf(i int) float64 {
	s := &m.plan.Seams[i]
	size := &s.Passes[0].Size
	if s.Section == nil {
		return max(size.LegBase, size.LegOther)
	}
	return max(size.DrawnLegBase, size.DrawnLegOther)
}

// turn takes in the angle by which the joint closes.
func (m *maker) turn(p *Pull, doc *job.Seam) {
	var err error
	switch {
	case doc.Joint == weld.Tee:
		p.Turn, err = distort.Angular(distort.OneSidedTee)
	case doc.Weld.Kind == job.SizeGroove && doc.Weld.Groove.Section.Prep == section.SingleV:
		p.Turn, err = distort.Angular(distort.SingleV)
	default:
		return
	}
	if err != nil {
		p.Unknown = append(p.Unknown, err.Error())
	}
}

// bow estimates how the part bends.
func (m *maker) bow() {
	axis := &m.job.Distortion
	if axis.Inertia == 0 {
		return
	}
	b := distort.Beam{Inertia: axis.Inertia}
	low, high := math.Inf(1), math.Inf(-1)
	for i := 0; i < len(m.plan.Seams); i += m.together(i) {
		from, to, offset := m.lieOn(i)
		low, high = min(low, from, to), max(high, from, to)
		b.Welds = append(b.Welds, distort.Pull{Area: m.metal(i), Offset: offset.towards, HeatInput: m.seamHeat(&m.plan.Seams[i]) * m.dense(i)})
	}
	b.Length = high - low
	e, err := b.Bow()
	if err != nil {
		f := finding.Newf(finding.BowUnknown, finding.AtField("distortion"), "how the part bends cannot be estimated: %v", err)
		m.moved = append(m.moved, f)
		return
	}
	m.plan.Distortion.Bow = &e
}

// offsets are how far a seam lies from the part's axis, m: towards the side that the
// document names, and beside it.
type offsets struct{ towards, beside float64 }

// lieOn is where seam i, its stitches together, lies along the part's axis and from
// it, m: the mean of ends and middles.
func (m *maker) lieOn(i int) (from, to float64, off offsets) {
	axis := &m.job.Distortion
	beside := axis.Along.Cross(axis.Towards)
	n := m.together(i)
	for k := range n {
		s := &m.plan.Seams[i+k]
		at := func(along float64) float64 {
			d := s.Geometry.At(along).Origin.Sub(axis.At)
			off.towards += d.Dot(axis.Towards) / float64(3*n)
			off.beside += d.Dot(beside) / float64(3*n)
			return d.Dot(axis.Along)
		}
		if begin := at(0); k == 0 {
			from = begin
		}
		at(s.Length / 2)
		to = at(s.Length)
	}
	return from, to, off
}

// propose proposes an order of the seams that run along the part.
func (m *maker) propose() {
	if n := len(m.plan.Seams); n == 0 || m.together(0) == n {
		return
	}
	axis := &m.job.Distortion
	r := distort.OrderRequest{BackStep: axis.BackStep}
	switch axis.Held {
	case "start":
		r.Held = distort.LowHeld
	case "end":
		r.Held = distort.HighHeld
	}
	var first []int // the plan's seam of every one in the request
	for i := 0; i < len(m.plan.Seams); i += m.together(i) {
		from, to, off := m.lieOn(i)
		first = append(first, i)
		r.Seams = append(r.Seams, distort.Seam{Area: m.metal(i), Y: off.towards, Z: off.beside, From: from, To: to})
	}
	o, err := distort.ProposeOrder(r)
	if err != nil {
		f := finding.Newf(finding.BowUnknown, finding.AtField("distortion"), "no order of the seams can be proposed: %v", err)
		m.moved = append(m.moved, f)
		return
	}
	for k := range o.Seams {
		o.Seams[k].Seam = first[o.Seams[k].Seam]
	}
	m.plan.Distortion.Order = &o
	m.orderFinding(&o)
}

// worthSaying is the share of the planned order's moment below which another order
// is said to bend the part less. Own judgement: the rules are no finer.
const worthSaying = 0.9

// orderFinding says the proposed order beside the planned one, where it is clearly
// better.
func (m *maker) orderFinding(o *distort.Order) {
	if o.Worst > worthSaying*o.Given {
		return
	}
	var names []string
	for _, t := range o.Seams {
		names = append(names, m.plan.DrawnName(t.Seam))
	}
	text := fmt.Sprintf("%s would bend the part less on the way: the moments that are not balanced come to %s at most, as planned to %s", strings.Join(names, ", "),
		moment(o.Worst), moment(o.Given))
	if o.OneSided {
		text += "; more than half is not balanced in the end, whatever the order: set or brace the part against the bow"
	}
	f := finding.New(finding.SeamOrder, finding.AtField("order"), text+". It is "+distort.OrderIsThumb)
	m.moved = append(m.moved, f.Values(o.Given/momentUnit, o.Worst/momentUnit, "cm4").Mend("say order: [%s]", strings.Join(names, ", ")))
}

// momentUnit is a moment of area times length times offset of 1 cm4, m4.
const momentUnit = unit.CM4

func moment(m4 float64) string { return fmt.Sprintf("%.3g cm4", m4/momentUnit) }
