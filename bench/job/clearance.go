package job

import (
	"slices"

	"seamwright/unit"
)

// maxPairs bounds the pairs that a document leaves out or keeps.
const maxPairs = 500

// clearanceDraft is the section "clearance" while it is read.
type clearanceDraft struct {
	ignore, keep []pairDraft
}

type pairDraft struct {
	names []ref
	at    Place
}

func (p *pairDraft) form() form {
	return placed{manyOf(&p.names, 2, 2, "names", func(r *ref) form { return named(r, "clamp 1") }).like("[clamp 1, neck]"), &p.at}
}

// form is the table of the section "clearance".
func (d *clearanceDraft) form(c *Clearance) record {
	limit := func(name string, dst *float64, example string) field {
		return may(name, quantity(unit.Length, dst, apart, example))
	}
	pairs := func(name string, dst *[]pairDraft) field {
		return may(name, manyOf(dst, 1, maxPairs, "pairs of names", (*pairDraft).form).like("[[clamp 1, neck]]"))
	}
	limits := []field{
		limit("nozzle", &c.Nozzle, "3 mm"),
		limit("torch", &c.Torch, "5 mm"),
		limit("air", &c.Air, "20 mm"),
		limit("cable", &c.Cable, "5 mm"),
		limit("arm", &c.Arm, "50 mm"),
		limit("self", &c.Self, "5 mm"),
	}
	return record{at: &c.At, fields: append(slices.Clone(limits), pairs("ignore", &d.ignore), pairs("keep", &d.keep)),
		check: func(_ *Problems, n node, _ bool) {
			for _, f := range limits {
				if n.has(f.name) {
					c.Stated = append(c.Stated, f.name)
				}
			}
		}}
}

// resolve checks the names of the pairs.
func (d *clearanceDraft) resolve(ps *Problems, j *Job) {
	known := newKnown("shape, member, link or part of the torch", j.bodyNames(), j.Arm.Robot == nil)
	read := func(list []pairDraft) (out []NamePair) {
		for _, p := range list {
			if len(p.names) != 2 {
				continue // said already
			}
			a, b := p.names[0], p.names[1]
			known.check(ps, a)
			known.check(ps, b)
			if a.text == b.text && a.text != WordArm {
				ps.add(p.at, quote(a.text)+" twice", "two different names", "name what it may come near")
			}
			out = append(out, NamePair{a.text, b.text, p.at})
		}
		return out
	}
	c := &j.Clearance
	c.Ignore, c.Keep = read(d.ignore), read(d.keep)
	for _, k := range c.Keep {
		if slices.ContainsFunc(c.Ignore, func(i NamePair) bool { return i.A == k.A && i.B == k.B || i.A == k.B && i.B == k.A }) {
			ps.add(k.At, quote(k.A)+" and "+quote(k.B)+" under keep and under ignore", "one of the two", "delete it from one list")
		}
	}
}

// bodyNames are the names that a pair may use.
func (j *Job) bodyNames() []string {
	var names []string
	for _, s := range j.Shapes {
		names = append(names, s.Name)
	}
	for _, p := range j.Plates {
		names = append(names, p.Name)
	}
	for _, t := range j.Tubes {
		names = append(names, t.Name)
	}
	names = append(names, BodyWords()...)
	if j.Arm.Robot != nil {
		names = append(names, linkNames(j.Arm.Robot)...)
	}
	return names
}
