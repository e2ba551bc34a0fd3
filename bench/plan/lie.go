package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// Lie is a weld position that a seam has, and the first place where it has it.
type Lie struct {
	Along    float64 // m, arc length
	Position weld.Position
}

// PositionText is how the positions of a seam are shown: "PB" or "PB, PC".
func (s *Seam) PositionText(code weld.CodeFamily) string {
	names := make([]string, len(s.Lies))
	for i, l := range s.Lies {
		names[i] = l.Position.Name(code).String()
	}
	return strings.Join(names, ", ")
}

// WorkText is how the work angle of an aim along the seam is shown: "45.0" or
// "34.1 to 45.0", deg.
func (s *Seam) WorkText(aim seam.Aim) string {
	if !aim.FromBisector || s.OpensMost-s.OpensLeast <= steadyJoint {
		return degreesText(s.Way.At(0).Frame.WorkOf(aim))
	}
	work := func(included float64) string { return degreesText(math.Pi/2 - included/2 + aim.Work) }
	return work(s.OpensMost) + " to " + work(s.OpensLeast)
}

// lying is how a joint lies at a place of a pass: up is against gravity.
type lying struct {
	place seam.Place
	up    r3.Vec
}

// stands are the places of a seam at which its joint is looked at, by every pass
// that has a posture and a table to stand on, otherwise once: what a table that
// stands as taught has at the weld.
func (m *maker) stands(i int) []lying {
	s := &m.plan.Seams[i]
	var list []lying
	if m.plan.Cell.Table != nil {
		for k := range s.Passes {
			mo := s.Passes[k].Motion
			if mo == nil {
				continue
			}
			for _, st := range mo.Stations[mo.First : mo.Last+1] {
				list = append(list, lying{s.Way.At(st.Along), m.plan.Cell.Up(&st.Q)})
			}
		}
	}
	if list != nil {
		return list
	}
	up := m.tips.up(m.plan.Cell, m.shapes[i].doc)
	along, _, _ := newTrack(s.Way, s.Passes[0].Aim).stations(stationStep)
	for _, at := range along {
		list = append(list, lying{s.Way.At(at), up})
	}
	return list
}

// lie classifies seam i all along as it will be welded: a seam may turn out of
// its position, and a table may stand otherwise than when it was taught.
func (m *maker) lie(i int) error {
	s := &m.plan.Seams[i]
	kind, code := weldKind(m.shapes[i].doc.Joint), m.job.Code
	seen := map[string]bool{}
	s.Lies = nil
	for k, l := range m.stands(i) {
		position, err := weld.Classify(kind, l.place.Joint.T, l.place.Joint.Bisector, l.up)
		if err != nil {
			return err
		}
		if k == 0 {
			s.Position = position
		}
		if name := position.Name(code).String(); !seen[name] {
			seen[name] = true
			s.Lies = append(s.Lies, Lie{l.place.Arc, position})
		}
		s.opens(l.place.Joint.Included)
	}
	return nil
}

// opens takes an angle between the plates (rad) into the range of them.
func (s *Seam) opens(included float64) {
	if s.OpensLeast == 0 {
		s.OpensLeast, s.OpensMost = included, included
	}
	s.OpensLeast, s.OpensMost = min(s.OpensLeast, included), max(s.OpensMost, included)
}

// steadyJoint is how much the angle between the plates may change along a seam
// before it is said, rad (2 deg): a leg then changes by less than a tenth of a
// millimetre. Own judgement.
const steadyJoint = 2 * math.Pi / 180

// along says what changes along the seam that is sized and placed at its start.
func (c *seamCheck) along() {
	s := c.seam
	if len(s.Lies) > 1 {
		var parts []string
		for _, l := range s.Lies[1:] {
			parts = append(parts, fmt.Sprintf("%v from %s", l.Position.Name(c.job.Code), c.tape(l.Along)))
		}
		c.add(c.newf(finding.PositionChanges, "%s begins in %v and turns along its way: %s", c.doc.Name, s.Position.Name(c.job.Code), strings.Join(parts, ", ")))
	}
	if s.OpensMost-s.OpensLeast > steadyJoint {
		c.opening()
	}
}

// opening says what leg and throat come out where the plates open or close along
// the seam at the speed that suits its start.
func (c *seamCheck) opening() {
	s, size := c.seam, c.pass.Size
	text := fmt.Sprintf("%s: the plates stand at %.0f deg at its start and at %.0f to %.0f deg along it", c.doc.Name, size.Included*deg, s.OpensLeast*deg, s.OpensMost*deg)
	f := c.newf(finding.JointOpens, "%s", text)
	if size.LegBase > 0 {
		least, thin, err := c.filletAt(s.OpensLeast)
		most, wide, err2 := c.filletAt(s.OpensMost)
		if err == nil && err2 == nil {
			f = c.newf(finding.JointOpens, "%s; the metal that makes leg %s and throat %s there makes legs of %s to %s and throats of %s to %s",
				text, c.say(asSize, size.LegBase), c.say(asSize, size.Throat), c.say(asSize, min(least, most)), c.say(asSize, max(least, most)),
				c.say(asSize, min(thin, wide)), c.say(asSize, max(thin, wide)))
			f = f.Values(c.pair(unit.Length, min(thin, wide), size.Throat))
		}
	}
	c.add(f)
}

// filletAt returns the leg and the throat, m, that the pass makes where the plates
// stand at an angle (rad).
func (c *seamCheck) filletAt(included float64) (leg, throat float64, err error) {
	size := c.pass.Size
	ratio := size.LegOther / size.LegBase
	if leg, err = c.set.Shape(included, ratio).Leg(size.Area); err != nil {
		return 0, 0, err
	}
	made, err := section.New(included, leg, leg*ratio)
	return leg, made.DesignThroat(), err
}
