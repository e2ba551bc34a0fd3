package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// unknown says what of the joint is not told, so that the nozzle cannot be held
// against it.
func (c *roomCheck) unknown() error {
	if c.pass.Number > 1 {
		return nil
	}
	where, name := finding.AtSeam(c.seam.Name), c.seam.Name
	switch {
	case c.doc.Joint == weld.Lap && c.seam.OtherThickness == 0:
		c.found = append(c.found, finding.Newf(finding.NozzleRoomUnknown, where, "%s: how thick the upper plate is is not told; it was taken as higher than the nozzle", name))
	case c.doc.Joint == weld.Butt && c.doc.Weld.Kind != job.SizeGroove:
		f := finding.Newf(finding.NozzleRoomUnknown, where, "%s: how the edges of the plates are prepared is not told; the nozzle was held against a flat face at the seam line", name)
		if c.seam.BaseThickness > 0 {
			deep, err := c.deep()
			if err != nil {
				return err
			}
			wanted, _ := c.wanted()
			f.Message += fmt.Sprintf("; should that be the root, in plates of %s, %s", c.say(asSize, c.seam.BaseThickness), c.leaves(deep))
			if f = f.Values(c.pair(unit.Length, deep.Clearance, wanted)); deep.Clearance < wanted-roomSlack {
				f = f.As(finding.Caution)
			}
		}
		c.found = append(c.found, f)
	}
	return nil
}

// deep is the room where the seam line is the root of plates whose edges are not told,
// up to whose face they count as closed.
func (c *roomCheck) deep() (*seam.Least, error) {
	spec := c.spec
	spec.Groove = &section.Groove{Prep: section.Square, Thickness: c.seam.BaseThickness}
	room, err := seam.NewRoom(spec)
	if err != nil {
		return nil, err
	}
	least := room.Least(c.pass.Aim, c.sway)
	return &least, nil
}

// newf returns a finding about the place along the pass where the room is least.
func (c *roomCheck) newf(code finding.Code, at *seam.Least, format string, args ...any) finding.Finding {
	return finding.Newf(code, c.at(c.seam.Name, c.pass.Number, at.Arc), format, args...)
}

// held says how a torch is held: "work 45.0 deg, 10.0 deg push".
func held(l lean) string { return fmt.Sprintf("work %s, %s", degrees(l.work), leaning(l.travel)) }

// leaves says what is left between nozzle and metal.
func (c *roomCheck) leaves(l *seam.Least) string {
	if l.Clearance < 0 {
		return fmt.Sprintf("the nozzle stands %s inside the %s", c.say(asSize, -l.Clearance), l.Metal)
	}
	return fmt.Sprintf("the nozzle is %s from the %s", c.say(asSize, l.Clearance), l.Metal)
}

// gaveWay says from which angles to which the torch was turned.
func (c *roomCheck) gaveWay(wished, to lean, before, after *seam.Least) {
	wanted, _ := c.wanted()
	f := c.newf(finding.AnglesGaveWay, before, "%s: planned with %s, %s from the wish: with %s %s and %s is wanted, now it is %s. %s",
		c.name, held(to), degrees(to.off(wished)), held(wished), c.leaves(before), c.say(asSize, wanted), c.say(asSize, after.Clearance), c.costs(wished, to))
	c.found = append(c.found, f.Values(c.pair(unit.Length, before.Clearance, wanted)))
}

// costs says in the words of the trade what other angles do to the weld.
func (c *roomCheck) costs(wished, to lean) string {
	var list []string
	switch less := math.Abs(to.travel) - math.Abs(wished.travel); {
	case less < -angleSlack && wished.travel > 0:
		list = append(list, "less push digs deeper and leaves a narrower, higher bead")
	case less > angleSlack && wished.travel >= 0 && to.travel > 0:
		list = append(list, "more push digs less deep and leaves a wider, flatter bead")
	case less < -angleSlack:
		list = append(list, "less drag digs less deep and leaves a wider, flatter bead")
	case less > angleSlack:
		list = append(list, "more drag digs deeper and leaves a narrower, higher bead")
	}
	base, other := "the base plate", "the upright"
	switch c.doc.Joint {
	case weld.Butt, weld.Edge:
		base, other = "the plate on the left", "the plate on the right"
		if to.work < wished.work { // the torch leans to the right, the arc to the left
			base, other = other, base
		}
		if math.Abs(to.work-wished.work) > angleSlack {
			list = append(list, "the arc looks more at "+other+" and less at "+base)
		}
	case weld.Lap:
		other = "the upper plate"
		fallthrough
	default:
		if to.work < wished.work-angleSlack {
			list = append(list, "the arc looks more at "+base+" and less at "+other)
		}
		if to.work > wished.work+angleSlack {
			list = append(list, "the arc looks more at "+other+" and less at "+base)
		}
	}
	text := strings.Join(list, "; ")
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:] + ": look at the first one"
}

// short says that the nozzle has less room than is wanted at every angle that may be
// chosen, and what would help.
func (c *roomCheck) short(wished lean, least *seam.Least) {
	wanted, stops := c.wanted()
	f := c.newf(finding.ClearanceBelow, least, "%s: with %s %s; %s is wanted", c.name, held(wished), c.leaves(least), c.say(asSize, wanted))
	switch {
	case least.Clearance >= stops-roomSlack:
		f = f.As(finding.Caution)
	case stops < wanted:
		f.Message += fmt.Sprintf(", and under %s, half a wire, it can touch", c.say(asSize, stops))
	}
	if most, ok := c.most(wished, least.At); ok {
		f.Message += fmt.Sprintf("; the most within %s is %s, with %s", degrees(c.doc.Aim.Tolerance), c.say(asSize, most.left), held(most.lean))
	}
	f = f.Values(c.pair(unit.Length, least.Clearance, wanted))
	if ways := c.ways(wished, least.At); len(ways) > 0 {
		f = f.Mend("%s", strings.Join(ways, "; or "))
	}
	c.found = append(c.found, f)
}
