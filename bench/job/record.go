package job

import (
	"slices"
	"strings"
)

// field is one named value of a record.
type field struct {
	name string
	need bool
	form form
}

func need(name string, f form) field { return field{name, true, f} }
func may(name string, f form) field  { return field{name, false, f} }

// record is the form of a group of named fields. Zero parts do not apply.
type record struct {
	fields []field
	one    [][]string // sets of fields of which exactly one must be given
	at     *Place     // gets the place of the group
	// allowed and mend word the message about a value that is no group;
	// example stands for the group in other messages.
	allowed, mend, example string
	// check looks at the group as a whole after its fields were read; clean
	// says that all of them were right.
	check func(ps *Problems, n node, clean bool)
}

func (r record) names() []string {
	names := make([]string, len(r.fields))
	for i, f := range r.fields {
		names[i] = f.name
	}
	return names
}

func (r record) say() (string, string) {
	allowed := orElse(r.allowed, "a group of fields: "+listed(r.names()))
	if r.example != "" {
		return allowed, r.example
	}
	first := r.fields[0]
	_, example := first.form.say()
	return allowed, "{" + first.name + ": " + example + "}"
}

func (r record) schema() schema {
	properties := schema{}
	required := []string{}
	for _, f := range r.fields {
		properties[f.name] = f.form.schema()
		if f.need {
			required = append(required, f.name)
		}
	}
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	var sets []schema
	for _, set := range r.one {
		var choices []schema
		for _, name := range set {
			choices = append(choices, schema{"required": []string{name}})
		}
		sets = append(sets, schema{"oneOf": choices})
	}
	if len(sets) > 0 {
		s["allOf"] = sets
	}
	return s
}

func (r record) read(ps *Problems, n node) {
	if r.at != nil {
		*r.at = n.at
	}
	if n.shape != group {
		allowed, example := r.say()
		ps.add(n.at, n.found(), allowed, orElse(r.mend, "write for example "+example))
		return
	}
	before := ps.count()
	for _, f := range r.fields { // in the order of the table, whatever that of the document
		if v, given := n.get(f.name); given && v.shape != refused {
			f.form.read(ps, v)
		}
	}
	r.missing(ps, n, r.unknown(ps, n))
	if r.check != nil {
		r.check(ps, n, ps.count() == before)
	}
}

// unknown reports fields that do not exist and returns those that were meant
// as far as one can tell.
func (r record) unknown(ps *Problems, n node) (meant []string) {
	names := r.names()
	for _, e := range n.fields {
		if !slices.Contains(names, e.name) {
			ps.add(e.at, "a field that does not exist here", listed(names), orNearest(e.name, names, "delete it"))
			meant = append(meant, nearest(e.name, names))
		}
	}
	return meant
}

// missing reports required fields that are neither there nor misspelt, and
// sets of which not exactly one is there.
func (r record) missing(ps *Problems, n node, meant []string) {
	for _, f := range r.fields {
		if f.need && !n.has(f.name) && !slices.Contains(meant, f.name) {
			lacks(ps, n, f)
		}
	}
	for _, set := range r.one {
		given := slices.DeleteFunc(slices.Clone(set), func(name string) bool { return !n.has(name) })
		misspelt := slices.ContainsFunc(set, func(name string) bool { return slices.Contains(meant, name) })
		if len(given) > 1 || len(given) == 0 && !misspelt {
			ps.add(n.at, orElse(strings.Join(given, " and "), "none of "+strings.Join(set, ", ")), "exactly one of them", oneMend(given))
		}
	}
}

func oneMend(given []string) string {
	if len(given) == 0 {
		return "add the one that you know"
	}
	return "keep the one that is meant"
}

// lacks reports a field of n that must be there and is not.
func lacks(ps *Problems, n node, f field) {
	allowed, example := f.form.say()
	ps.add(n.at.sub(f.name), "nothing", allowed, "add "+f.name+": "+example)
}
