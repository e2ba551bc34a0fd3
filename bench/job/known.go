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
