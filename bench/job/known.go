package job

import (
	"seamwright/unit"
)

// known is a set of names that others refer to.
type known struct {
	what  string // such as "point"
	names []string
	has   map[string]bool
	// unsure says that not all of the names could be read: that one is missing
	// is then no news.
	unsure bool
}

func newKnown(what string, names []string, unsure bool) known {
	k := known{what: what, names: names, has: map[string]bool{}, unsure: unsure || len(names) == 0}
	for _, name := range names {
		k.has[name] = true
	}
	return k
}

// check reports a name that does not exist.
func (k known) check(ps *Problems, r ref) {
	k.checkOr(ps, r, "write one of these names, or add the "+k.what)
}

// checkLeave does the same for an approach or retreat, where people write the
// length alone.
func (k known) checkLeave(ps *Problems, r ref) {
	mend := "write one of these names, or a length as {out: 60 mm}"
	if _, err := unit.Parse(unit.Length, r.text); err == nil {
		mend = "write {out: " + r.text + "}"
	}
	k.checkOr(ps, r, mend)
}

func (k known) checkOr(ps *Problems, r ref, otherwise string) {
	if k.unsure || r.text == "" || k.has[r.text] {
		return
	}
	mend := otherwise
	if ps.count() < 2*maxProblems { // looking for near names takes time
		mend = orNearest(r.text, k.names, otherwise)
	}
	ps.add(r.at, quote(r.text)+", which is no "+k.what, "one of "+listed(k.names), mend)
}

// places are labels of points without an orientation: the arm cannot be sent
// there, for it may stand at such a point in any number of ways.
type places map[string]bool

func (d *pointsDraft) places() places {
	out := places{}
	for _, r := range d.rows {
		if r.place != nil {
			out[r.label.text] = true
		}
	}
	return out
}

// refuse reports a point to which the arm shall move and which is only a place.
func (p places) refuse(ps *Problems, r ref) {
	if p[r.text] {
		ps.add(r.at, quote(r.text)+", a place without an orientation", "a point with a whole pose or joint values", "teach the point with the torch as it shall stand there, or name another")
	}
}
