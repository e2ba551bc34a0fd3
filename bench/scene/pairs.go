package scene

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"seamwright/bench/job"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// Limit is a distance that is wanted between two bodies.
type Limit struct {
	// Field is the field of the document's section clearance; "" where the pair is
	// not looked at in this phase.
	Field string
	// Distance is what is wanted, m. Stated says that the document gives it. Eased
	// says that it was lowered, for the two are never further apart by design.
	Distance      float64
	Stated, Eased bool
}

// Source says where the limit comes from.
func (l Limit) Source() string {
	switch {
	case l.Eased:
		return "half of the most that the two are ever apart"
	case l.Stated:
		return "the job document, clearance." + l.Field
	}
	return "common practice, no source"
}

// pair makes the model and what is wanted of its pairs.
func (s *Scene) pair(b *builder) error {
	ignore, keep, why := b.asked()
	model, choices, err := collision.NewModel(b.cell.Chain, b.bodies, collision.PairOptions{LeaveOut: ignore, Keep: keep})
	if err != nil {
		return problem(b.job.Clearance.At, "bodies that make no scene", "shapes, links and pairs that fit together", err.Error())
	}
	s.Model = model
	for _, c := range choices {
		choice := Choice{A: c.A, B: c.B, Kept: c.Reason.Kept(), Why: c.Reason.String()}
		if reason, own := why[c.Pair]; own && c.Reason == collision.AskedToLeave {
			choice.Why = reason
		}
		s.Choices = append(s.Choices, choice)
	}
	for phase := range Phase(phases) {
		for _, p := range model.Pairs() {
			s.limits[phase] = append(s.limits[phase], b.limit(phase, p))
		}
	}
	s.ease(b)
	for phase := range s.limits {
		r := make(collision.Regime, len(s.limits[phase]))
		for i, l := range s.limits[phase] {
			if r[i] = l.Distance; l.Field == "" {
				r[i] = -1
			}
		}
		s.regimes[phase] = r
	}
	return nil
}

// asked returns the pairs that are left out, and those that are kept, by the
// document or by what the bodies are; why has the reasons of the second kind.
func (b *builder) asked() (ignore, keep [][2]string, why map[collision.Pair]string) {
	why = map[collision.Pair]string{}
	kept := map[collision.Pair]bool{}
	for _, p := range b.named(b.job.Clearance.Keep) {
		kept[p] = true
		keep = append(keep, b.pairNames(p))
	}
	left := map[collision.Pair]bool{}
	for _, p := range b.named(b.job.Clearance.Ignore) {
		if !kept[p] { // a pair named alone is kept though a wider one is left out
			left[p] = true
			ignore = append(ignore, b.pairNames(p))
			b.ignored = append(b.ignored, b.bodies[p.A].Name+" and "+b.bodies[p.B].Name)
		}
	}
	for i, r := range b.roles {
		for k := i + 1; k < len(b.roles); k++ {
			p := collision.Pair{A: i, B: k}
			if onArm(r) && onArm(b.roles[k]) && (r == cable || b.roles[k] == cable) && !kept[p] && !left[p] {
				ignore = append(ignore, b.pairNames(p))
				why[p] = "left out: the cable leads along arm and torch"
			}
		}
	}
	return ignore, keep, why
}

// onArm reports whether a body moves with the arm.
func onArm(r role) bool { return r == armLink || r == nozzle || r == torchBody || r == cable }

func (b *builder) pairNames(p collision.Pair) [2]string {
	return [2]string{b.bodies[p.A].Name, b.bodies[p.B].Name}
}

// named returns the pairs of bodies that a list of the document means, in order
// and each once.
func (b *builder) named(list []job.NamePair) (out []collision.Pair) {
	seen := map[collision.Pair]bool{}
	for _, n := range list {
		for i := range b.bodies {
			for k := range b.bodies {
				p := collision.Pair{A: min(i, k), B: max(i, k)}
				if i != k && !seen[p] && slices.Contains(b.words[i], n.A) && slices.Contains(b.words[k], n.B) {
					seen[p] = true
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// limit returns what is wanted of a pair.
func (b *builder) limit(phase Phase, p collision.Pair) Limit {
	c := &b.job.Clearance
	of := func(field string, distance float64) Limit {
		return Limit{Field: field, Distance: distance, Stated: slices.Contains(c.Stated, field)}
	}
	x, y := p.A, p.B
	if !onArm(b.roles[x]) {
		x, y = y, x
	}
	mover := b.roles[x]
	switch standsOnFoot := mover == armLink && b.roles[y] == tableLink && b.bodies[x].Link == b.foot; {
	case !onArm(mover), onArm(b.roles[y]), standsOnFoot:
		return of("self", c.Self)
	case mover == armLink:
		return of("arm", c.Arm)
	case mover == cable:
		return of("cable", c.Cable)
	case phase == InAir:
		return of("air", c.Air)
	case mover == nozzle:
		return of("nozzle", c.Nozzle)
	}
	return of("torch", c.Torch)
}

// ease lowers the distance that is wanted of a pair which is never that far apart
// in any posture tried: links beside each other, a shoulder above the table on
// which the arm stands. They must still stay apart.
func (s *Scene) ease(b *builder) {
	scratch := s.Model.Scratch()
	postures := b.postures()
	only := s.Model.Wanted(-1)
	for i, p := range s.Model.Pairs() {
		l := s.limits[Weld][i]
		if l.Field != "self" && l.Field != "arm" {
			continue
		}
		only[i] = l.Distance
		far := slices.ContainsFunc(postures, func(q kinematics.Q) bool { return s.Model.Clear(scratch, &q, only) })
		if !far {
			most := 0.0
			for _, q := range postures {
				if near, found := s.Model.Least(scratch, &q, only, l.Distance); found {
					most = max(most, near.Distance)
				}
			}
			for phase := range s.limits {
				s.limits[phase][i].Distance, s.limits[phase][i].Eased = most/2, true
			}
			b.eased = append(b.eased, fmt.Sprintf("%s and %s (%s)", b.bodies[p.A].Name, b.bodies[p.B].Name, b.length(most)))
		}
		only[i] = -1
	}
}

// postures returns the middle of the joints' ranges and some others.
func (b *builder) postures() []kinematics.Q {
	const count, seed = 64, 20
	random := rand.New(rand.NewPCG(seed, seed))
	out := make([]kinematics.Q, count)
	for i := range out {
		for k := range b.cell.Chain.N() {
			j := b.cell.Chain.Joint(k)
			lower, upper := j.Lower, j.Upper
			if math.IsInf(lower, 0) || math.IsInf(upper, 0) {
				lower, upper = -math.Pi, math.Pi
			}
			share := 0.5
			if i > 0 {
				share = random.Float64()
			}
			out[i][k] = lower + share*(upper-lower)
		}
	}
	return out
}
