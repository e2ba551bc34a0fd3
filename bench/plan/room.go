package plan

import (
	"context"
	"math"
	"slices"
	"strconv"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// Room is what the nozzle has between the plates of its own joint, all along a pass.
type Room struct {
	// Clearance is the least distance of the nozzle from a plate or a bead, m,
	// negative where it would stand inside; Metal names what is nearest and Along
	// says where, m of the seam. Nozzle and On are the two places, m.
	Clearance, Along float64
	Metal            string
	Nozzle, On       r3.Vec
	// Wanted is what is asked for, m, and Least what stops the pass, m.
	Wanted, Least float64
	// WishedWork and WishedTravel are the angles of the document at the weld start,
	// rad; the pass has others where they had to give way for the nozzle.
	WishedWork, WishedTravel float64
	GaveWay                  bool
}

// roomSlack is under what a clearance counts as what is wanted, m: rounding.
const roomSlack = 1e-6

// rooms gives every pass the nearest angles at which its nozzle has the room that is
// wanted, and says what is left where there are none.
func (m *maker) rooms(ctx context.Context) error {
	m.roomed = make([][]*roomCheck, len(m.plan.Seams))
	for i := range m.plan.Seams {
		m.roomed[i] = make([]*roomCheck, len(m.plan.Seams[i].Passes))
	}
	all := m.passes()
	return sideBySide(ctx, len(all), func(_ context.Context, n int) error {
		at := all[n]
		c, err := m.roomCheck(at.seam, at.pass)
		if err != nil {
			return err
		}
		if err := c.unknown(); err != nil {
			return err
		}
		c.giveWay()
		m.roomed[at.seam][at.pass] = c
		return nil
	})
}

// Nozzle is the nozzle of a torch as it is held against the plates of a joint.
func Nozzle(t *job.Torch) seam.Nozzle {
	n := seam.Nozzle{Radius: t.NozzleDiameter / 2, Length: t.NozzleLength, StickOut: t.StickOut}
	if t.TaperEnd > 0 {
		n.Radius, n.Top, n.Over = t.TaperEnd/2, t.NozzleDiameter/2, t.TaperOver
	}
	return n
}

// roomCheck holds the nozzle of one pass against its joint.
type roomCheck struct {
	*maker
	doc    *job.Seam
	seam   *Seam
	pass   *Pass
	name   string
	spec   seam.RoomSpec
	room   *seam.Room
	sway   seam.Sway
	start  seam.Frame // that carries the torch at the weld start
	limits *procedure.Spec
	found  []finding.Finding
}

func (m *maker) roomCheck(i, k int) (*roomCheck, error) {
	s := &m.plan.Seams[i]
	c := &roomCheck{maker: m, doc: m.shapes[i].doc, seam: s, pass: &s.Passes[k], start: s.Way.At(0).Frame}
	c.name = s.PassName(c.pass)
	if w := m.job.ProcedureOf(c.doc); w != nil {
		if row, err := w.Row(procedure.Which{Number: c.pass.Number, Role: c.pass.Role}); err == nil {
			spec, _ := w.ForRow(row)
			c.limits = &spec
		}
	}
	if w := c.pass.Weave; w != nil {
		c.sway = seam.Sway{Amplitude: w.Amplitude, Plane: w.Plane}
	}
	c.spec = seam.RoomSpec{Way: s.Way, OtherThickness: s.OtherThickness, Nozzle: Nozzle(&m.job.Torch)}
	c.laid(k)
	var err error
	c.room, err = seam.NewRoom(c.spec)
	return c, err
}

// laid puts the groove and the beads of the passes before into the room.
func (c *roomCheck) laid(k int) {
	plan := c.seam.Section
	if plan == nil {
		return
	}
	c.spec.Root = plan.Root
	if w := &c.doc.Weld; w.Kind == job.SizeGroove {
		g := w.Groove.Section
		if c.doc.Gap > 0 {
			g.Gap = c.doc.Gap
		}
		c.spec.Groove, c.spec.Mirrored = &g, w.Groove.Right
	}
	number := 0
	for i := range plan.Passes {
		q := &plan.Passes[i]
		if q.Back {
			continue
		}
		if number++; number > k {
			break
		}
		if hull := section.Hull(q.Bead); hull != nil {
			c.spec.Beads = append(c.spec.Beads, seam.Bar{Name: "bead of pass " + strconv.Itoa(number), Outline: hull})
		}
	}
}

// wanted is the clearance that is asked for, m, and least the one that stops the pass:
// what the document itself asks for; where it leaves that to common practice, half a
// wire, by which the arc and the nozzle with it may be off the seam.
func (c *roomCheck) wanted() (wanted, least float64) {
	wanted = c.job.Clearance.Nozzle
	if slices.Contains(c.job.Clearance.Stated, "nozzle") {
		return wanted, wanted
	}
	return wanted, min(wanted, weld.SeamTolerance(c.pass.Size.WireDiameter).Value)
}

// giveWay finds the angles of the pass and what room they leave.
func (c *roomCheck) giveWay() {
	wished := lean{c.start.WorkOf(c.pass.Aim), c.pass.Aim.Travel}
	wanted, stops := c.wanted()
	before := c.room.Least(c.pass.Aim, c.sway)
	left := before
	room := &Room{Wanted: wanted, Least: stops, WishedWork: wished.work, WishedTravel: wished.travel}
	if before.Clearance < wanted-roomSlack {
		if to, ok := c.nearest(c.allowed(wished), wished, before.At); ok {
			c.pass.Aim, c.pass.Above = c.aimed(to)
			left = c.room.Least(c.pass.Aim, c.sway)
			room.GaveWay = true
			c.gaveWay(wished, to, &before, &left)
		} else {
			c.short(wished, &before)
		}
	}
	room.take(&left)
	c.pass.Room = room
}

// Lacks reports whether less is left than is wanted.
func (r *Room) Lacks() bool { return r.Clearance < r.Wanted-roomSlack }

// take takes over what is left.
func (r *Room) take(l *seam.Least) {
	r.Clearance, r.Along, r.Metal, r.Nozzle, r.On = l.Clearance, l.Arc, l.Metal, l.Nozzle, l.On
}

// has reports whether the nozzle has its room with another aim, at angles that may be
// chosen: what is wanted, or where the pass has less already, what does not stop it.
func (c *roomCheck) has(a seam.Aim) bool {
	room := c.pass.Room
	l := c.allowed(lean{room.WishedWork, room.WishedTravel})
	if !l.work.Contains(c.start.WorkOf(a)) || !l.travel.Contains(a.Travel) {
		return false
	}
	least := room.Wanted
	if room.Clearance < least-roomSlack {
		least = min(room.Least, room.Clearance)
	}
	return c.room.Clears(a, c.sway, least-roomSlack, 0)
}

// again holds the nozzle against the joint with the aim that the pass has been given
// since, and says anew what is left.
func (c *roomCheck) again() {
	least := c.room.Least(c.pass.Aim, c.sway)
	c.pass.Room.take(&least)
	c.found = slices.DeleteFunc(c.found, func(f finding.Finding) bool { return f.Code == finding.ClearanceBelow })
	if c.pass.Room.Lacks() {
		c.short(lean{c.start.WorkOf(c.pass.Aim), c.pass.Aim.Travel}, &least)
	}
}

// lean is how the torch is held: work and travel angle at the weld start, rad.
type lean struct{ work, travel float64 }

// off is how far from another lean it is, rad.
func (l lean) off(from lean) float64 { return math.Hypot(l.work-from.work, l.travel-from.travel) }

// aimed is the aim of the pass with its torch held otherwise, about the place that it
// points at, and its Above.
//
// That place is offset + above sin(work) cos(travel) across the base plate and
// above cos(work) cos(travel) out of it, as section.Plan.Shift has it.
func (c *roomCheck) aimed(to lean) (seam.Aim, float64) {
	a := c.pass.Aim
	sin, cos := math.Sincos(c.start.WorkOf(a))
	high := c.pass.Above * cos * math.Cos(a.Travel)
	across := a.Offset + c.pass.Above*sin*math.Cos(a.Travel)
	above := high / (math.Cos(to.work) * math.Cos(to.travel))
	a.Offset = across - high*math.Tan(to.work)
	a.Distance += above - c.pass.Above
	a.Ahead = above * math.Sin(to.travel)
	a.Work += to.work - c.start.WorkOf(a)
	a.Travel = to.travel
	return a, above
}

// leans are the leans that may be chosen, rad.
type leans struct{ work, travel weld.Range }

// allowed is how far the angles may give way: by the tolerance of the document and the
// procedure's, within the procedure's ranges where the wish lies within them, and not
// from push to drag.
func (c *roomCheck) allowed(wished lean) leans {
	work, travel := c.doc.Aim.Tolerance, c.doc.Aim.Tolerance
	if p := c.limits; p != nil {
		if p.WorkDeviation.HasHigh {
			work = min(work, p.WorkDeviation.High)
		}
		if p.TravelDeviation.HasHigh {
			travel = min(travel, p.TravelDeviation.High)
		}
	}
	return c.within(wished, leans{weld.Between(wished.work-work, wished.work+work), weld.Between(wished.travel-travel, wished.travel+travel)})
}

// within narrows leans to the procedure's and to the sense of the travel angle that is
// wished.
func (c *roomCheck) within(wished lean, l leans) leans {
	if c.limits != nil {
		for _, r := range []struct {
			mine   *weld.Range
			limit  weld.Range
			wished float64
		}{{&l.work, c.limits.WorkAngle, wished.work}, {&l.travel, c.limits.TravelAngle, wished.travel}} {
			if !r.limit.Contains(r.wished) {
				continue // said where the pass is held against its procedure
			}
			if r.limit.HasLow {
				r.mine.Low = max(r.mine.Low, r.limit.Low)
			}
			if r.limit.HasHigh {
				r.mine.High = min(r.mine.High, r.limit.High)
			}
		}
	}
	if wished.travel > 0 {
		l.travel.Low = max(l.travel.Low, 0)
	}
	if wished.travel < 0 {
		l.travel.High = min(l.travel.High, 0)
	}
	return l
}

// leanStep is how finely angles are chosen, rad: half a degree, as they are typed.
const leanStep = 0.5 * math.Pi / 180

// around lists the leans within l in steps (rad) from the wished one, the nearest first.
func around(wished lean, l leans, step float64) []lean {
	side := func(r weld.Range, at float64) (from, to int) {
		return -int((at-r.Low)/step + 1e-6), int((r.High-at)/step + 1e-6)
	}
	var list []lean
	w0, w1 := side(l.work, wished.work)
	t0, t1 := side(l.travel, wished.travel)
	for i := w0; i <= w1; i++ {
		for k := t0; k <= t1; k++ {
			list = append(list, lean{wished.work + float64(i)*step, wished.travel + float64(k)*step})
		}
	}
	slices.SortStableFunc(list, func(a, b lean) int {
		switch d := a.off(wished) - b.off(wished); {
		case d < -1e-9:
			return -1
		case d > 1e-9:
			return 1
		}
		return 0
	})
	return list
}

// nearest returns the lean nearest to the wished one that leaves what is wanted.
func (c *roomCheck) nearest(l leans, wished lean, first int) (lean, bool) {
	wanted, _ := c.wanted()
	for _, to := range around(wished, l, leanStep) {
		if a, _ := c.aimed(to); c.room.Clears(a, c.sway, wanted-roomSlack, first) {
			return to, true
		}
	}
	return wished, false
}
