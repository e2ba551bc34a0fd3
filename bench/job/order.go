package job

import (
	"fmt"
	"slices"
	"strings"
)

// ordered is the order of welding that the document asks for, by the names of the
// seams as they are welded: every one of them once. The name of a seam of the
// document stands for all its parts and copies that have no place of their own.
func (d *draft) ordered(ps *Problems) []string {
	if len(d.order) == 0 {
		return nil
	}
	made := map[string][]string{} // by the seam's own name: what is welded of it
	var all []string
	for i := range d.job.Seams {
		s := &d.job.Seams[i]
		made[s.Name] = s.Names()
		all = append(all, s.Names()...)
	}
	named := map[string]bool{}
	for _, r := range d.order {
		named[r.text] = true
	}
	known := newKnown("seam", knownNames(all, made), false)
	taken := map[string]bool{}
	var out []string
	for _, r := range d.order {
		known.check(ps, r)
		took := false
		for _, name := range d.meant(r.text, made, all, named) {
			if !taken[name] {
				taken[name], took = true, true
				out = append(out, name)
			}
		}
		if known.has[r.text] && !took {
			ps.add(r.at, quote(r.text)+" again", "each seam once", "delete it here")
		}
	}
	var left []string
	for _, name := range all {
		if !taken[name] {
			left = append(left, name)
		}
	}
	if len(left) > 0 {
		ps.add(d.orderAt, fmt.Sprintf("an order without %s", listed(left)), "every seam once", "add it where it is to be welded, or delete order: seams are welded as they stand")
	}
	return out
}

// knownNames are the names by which an order may speak of seams.
func knownNames(all []string, made map[string][]string) []string {
	names := slices.Clone(all)
	for name := range made {
		if !slices.Contains(all, name) {
			names = append(names, name)
		}
	}
	slices.SortStableFunc(names[len(all):], strings.Compare)
	return names
}

// meant are the seams that a name of the order stands for: the one that is called
// so, or what is made of the seam of that name and not named itself.
func (d *draft) meant(name string, made map[string][]string, all []string, named map[string]bool) []string {
	if slices.Contains(all, name) {
		return []string{name}
	}
	var out []string
	for _, n := range made[name] {
		if !named[n] {
			out = append(out, n)
		}
	}
	return out
}
