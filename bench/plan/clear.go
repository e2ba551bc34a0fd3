package plan

import (
	"math"

	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// How clearance weighs in the choice of a posture, beside limits and the wrist
// (see posture.go): less room than clearFade over what is wanted costs, rad.
const (
	clearWeight = 0.10
	clearFade   = 30e-3 // m
	// clearLooked is the slack above which nothing is looked at between stations, m.
	clearLooked = 20e-3
)

// keeping is what a search keeps of the clearances that are wanted.
type keeping uint8

const (
	keepsWanted keeping = iota // every one
	keepsApart                 // bodies stay apart, by however little
	keepings                   // how many there are
)

// clearing keeps the postures of one pass clear of the job's bodies. Where the
// tip stands and how the torch is turned decides whether the torch is clear of
// what does not move on the base; that is looked at before the ladder is searched,
// for every spin. The arm's links are looked at only along a way that was found:
// what is not clear of it is forbidden and the ladder searched again (lazy
// collision checking: R. Bohlin and L. Kavraki, Path Planning Using Lazy PRM, 2000,
// from memory).
type clearing struct {
	model   *collision.Model
	scratch *collision.Scratch
	keeps   keeping
	kept    [keepings]wantedClear
	torches map[standAt]float64 // slack of the torch by stand, m
}

// wantedClear are the clearances wanted along the weld and on approach and retreat.
type wantedClear struct{ weld, leave regimes }

// regimes are one of the torch alone and one of everything.
type regimes struct{ torch, all collision.Regime }

// standAt is a stand at a place of the track, m.
type standAt struct {
	along float64
	stand
}

func newClearing(m *collision.Model, weld, leave collision.Regime) *clearing {
	c := &clearing{model: m, scratch: m.Scratch()}
	c.kept[keepsWanted] = wantedClear{regimesOf(m, weld), regimesOf(m, leave)}
	c.kept[keepsApart] = wantedClear{regimesOf(m, apart(weld)), regimesOf(m, apart(leave))}
	c.keep(keepsWanted)
	return c
}

// keep says what is kept from now on.
func (c *clearing) keep(k keeping) { c.keeps, c.torches = k, map[standAt]float64{} }

// apart is the regime that wants the same pairs apart, by however little.
func apart(r collision.Regime) collision.Regime {
	list := make(collision.Regime, len(r))
	for i, w := range r {
		list[i] = min(w, 0)
	}
	return list
}

func regimesOf(m *collision.Model, all collision.Regime) regimes {
	torch := make(collision.Regime, len(all))
	bodies := m.Bodies()
	for i, p := range m.Pairs() {
		torch[i] = -1
		a, b := bodies[p.A].Group, bodies[p.B].Group
		if isTorch(a) && stands(b) || isTorch(b) && stands(a) {
			torch[i] = all[i]
		}
	}
	return regimes{torch, all}
}

func isTorch(g collision.Group) bool { return g == collision.TorchBody || g == collision.Nozzle }

// stands reports whether bodies of a group do not move on the base, or only with
// a turning table.
func stands(g collision.Group) bool {
	switch g {
	case collision.Part, collision.Fixture, collision.Floor, collision.Table:
		return true
	}
	return false
}

// regimes are those that are kept on the weld or beside it.
func (c *clearing) regimes(weld bool) *regimes {
	if weld {
		return &c.kept[c.keeps].weld
	}
	return &c.kept[c.keeps].leave
}

// torch is what it costs to have the torch at a stand, rad; false where it is not
// clear. q is any posture there.
func (c *clearing) torch(at standAt, q *kinematics.Q, weld bool) (cost float64, ok bool) {
	slack, had := c.torches[at]
	if !had {
		slack = clearFade
		if near, found := c.model.Least(c.scratch, q, c.regimes(weld).torch, clearFade); found {
			slack = near.Slack()
			if !near.Clear() {
				slack = math.Inf(-1)
			}
		}
		c.torches[at] = slack
	}
	return clearWeight * fade(slack, clearFade), slack >= 0
}

// between lists the samples of a path behind which it is not clear before the next;
// at gives the posture at a share of the way from one to the next.
func (c *clearing) between(qs []kinematics.Q, weld bool, at func(i int, share float64) kinematics.Q) ([]int, error) {
	found, err := c.model.Between(c.scratch, qs, c.regimes(weld).all, collision.PathOptions{Limit: clearLooked, At: at})
	var list []int
	for i := range found {
		if !found[i].Clear {
			list = append(list, i)
		}
	}
	return list, err
}

// clear reports whether the arm and all that it carries is clear at a posture.
func (c *clearing) clear(q *kinematics.Q, weld bool) bool {
	return c.model.Clear(c.scratch, q, c.regimes(weld).all)
}
