package procedure

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/weld"
	"seamwright/weld/section"
)

// Which says which pass of its weld a pass is.
type Which struct {
	Number int // in the order of welding, from 1; 0: not stated
	// Role is what it is for; the only pass of a weld has none and comes under
	// what a procedure states for the root.
	Role section.Role
}

// String returns "pass 2 (fill)" or "pass 1".
func (w Which) String() string {
	if w.Role == 0 {
		return fmt.Sprintf("pass %d", w.Number)
	}
	return fmt.Sprintf("pass %d (%v)", w.Number, w.Role)
}

// Run is what a procedure states for some runs, beside or inside of what holds
// for all: a row of its table. Zero fields state nothing.
type Run struct {
	// Roles are the passes that the row holds for; without them it holds for the
	// numbers First (1 for the root) to Last, 0 for all further runs.
	Roles       []section.Role
	First, Last int
	Name        string

	Process      weld.Process
	Transfer     weld.Transfer
	WireClass    string
	WireDiameter float64 // m
	Polarity     Polarity
	Technique    Technique

	Current   weld.Range // A
	Voltage   weld.Range // V
	Feed      weld.Range // wire feed speed, m/s
	Travel    weld.Range // travel speed along the seam, m/s
	Energy    weld.Range // J/m, of the quantity that Spec.EnergyIs names
	Amplitude weld.Range // of a weave, m
}

// has reports whether the row holds for a pass.
func (r Run) has(p Which) bool {
	if len(r.Roles) > 0 {
		role := p.Role
		if role == 0 {
			role = section.RootPass
		}
		return slices.Contains(r.Roles, role)
	}
	return r.hasNumber(p.Number)
}

func (r Run) hasNumber(n int) bool { return n >= r.First && (r.Last == 0 || n <= r.Last) }

// mayHave reports whether the row may hold for a pass of a role: by number, the
// first pass is the root, every other fill or cap.
func (r Run) mayHave(role section.Role) bool {
	switch {
	case len(r.Roles) > 0:
		return slices.Contains(r.Roles, role)
	case role == section.RootPass:
		return r.hasNumber(1)
	}
	return r.Last != 1
}

// String returns "root and fill runs", "run 1", "runs 2 to 4", "runs from 2 on".
func (r Run) String() string {
	switch {
	case len(r.Roles) == 1:
		return r.Roles[0].String() + " runs"
	case len(r.Roles) > 1:
		return strings.Join(names(r.Roles), " and ") + " runs"
	case r.Last == 0:
		return fmt.Sprintf("runs from %d on", r.First)
	case r.Last == r.First:
		return fmt.Sprintf("run %d", r.First)
	}
	return fmt.Sprintf("runs %d to %d", r.First, r.Last)
}

// Slip is what is wrong with a row of runs: what was found, what is allowed and
// how to mend it. Item is what it concerns, empty for the passes of the row.
type Slip struct {
	Item                 Item
	Found, Allowed, Mend string
}

// Error returns the slip in one line.
func (s Slip) Error() string {
	text := s.Found + "; allowed: " + s.Allowed + "; " + s.Mend
	if s.Item != "" {
		return string(s.Item) + ": " + text
	}
	return text
}

// SlipsOfRun returns what is wrong with row i of Runs, from 0, beside the rows
// before it and the limits of all runs.
func (w WPS) SlipsOfRun(i int) []Slip {
	r := w.Runs[i]
	if slip, bad := w.passesOfRun(i); bad {
		return []Slip{slip}
	}
	var out []Slip
	s, f := w.Common, w.Further
	for _, x := range r.ranges(&s, &f) {
		if err := x.own.Validate(); err != nil {
			out = append(out, Slip{x.item, err.Error(), "a range from its lower to its upper end", "correct the range"})
		} else if leaves(x.own, *x.common) {
			out = append(out, Slip{x.item, "a range that leaves that of all runs", "one inside it", "widen the range of all runs or narrow the run's"})
		}
	}
	if r.Energy.Stated() && w.Common.EnergyIs.Family() != w.Common.Family {
		out = append(out, Slip{ItemEnergy, fmt.Sprintf("%v, which does not belong to %v", w.Common.EnergyIs, w.Common.Family), "the energy that the code defines", "say which quantity the limit is"})
	}
	return out
}

// passesOfRun returns what is wrong with the passes of row i: rows by role name
// each role once; rows by number run from 1 without overlap and without gap.
func (w WPS) passesOfRun(i int) (Slip, bool) {
	r := w.Runs[i]
	const inOrder = "rows that run from pass 1 on, each pass once"
	switch {
	case i > 0 && (len(r.Roles) > 0) != (len(w.Runs[0].Roles) > 0):
		return Slip{Found: "rows by role beside rows by number", Allowed: "one of the two", Mend: "write all rows as root, fill, cap, or all by the numbers of the passes"}, true
	case len(r.Roles) > 0:
		return w.rolesOfRun(i)
	case r.First < 1 || r.Last != 0 && r.Last < r.First:
		return Slip{Found: fmt.Sprintf("passes %d to %d", r.First, r.Last), Allowed: "1 and up, in order", Mend: "number the passes as they are welded"}, true
	}
	next := 1
	if i > 0 {
		if next = w.Runs[i-1].Last + 1; next == 1 {
			return Slip{Found: "a row after " + w.Runs[i-1].String(), Allowed: inOrder, Mend: fmt.Sprintf("end the row before it at pass %d", r.First-1)}, true
		}
	}
	switch {
	case r.First < next:
		return Slip{Found: fmt.Sprintf("pass %d in a second row", r.First), Allowed: inOrder, Mend: fmt.Sprintf("begin this row at pass %d, or end the one before it earlier", next)}, true
	case r.First > next:
		return Slip{Found: fmt.Sprintf("no row for pass %d", next), Allowed: inOrder, Mend: "add the row, or widen one of those beside it"}, true
	}
	return Slip{}, false
}

// rolesOfRun returns a role of row i that stands twice.
func (w WPS) rolesOfRun(i int) (Slip, bool) {
	seen := map[section.Role]bool{}
	for _, r := range w.Runs[:i] {
		for _, role := range r.Roles {
			seen[role] = true
		}
	}
	for _, role := range w.Runs[i].Roles {
		if role < section.RootPass || role > section.CapPass {
			return Slip{Found: role.String(), Allowed: "root, fill or cap", Mend: "say what the passes are for"}, true
		}
		if seen[role] {
			return Slip{Found: role.String() + " in a second row", Allowed: "each role in one row", Mend: "keep the row that is meant"}, true
		}
		seen[role] = true
	}
	return Slip{}, false
}

// leaves reports whether an end of a range lies outside another range.
func leaves(r, within weld.Range) bool {
	return r.HasLow && !within.Contains(r.Low) || r.HasHigh && !within.Contains(r.High)
}

// runRange pairs a run's range with that of all runs.
type runRange struct {
	item   Item
	own    weld.Range  // in the unit of the item
	common *weld.Range // in the unit of the item
}

// ranges lists the ranges of the run beside those that they narrow.
func (r Run) ranges(s *Spec, f *Further) []runRange {
	return []runRange{
		{ItemCurrent, r.Current, &s.Current}, {ItemVoltage, r.Voltage, &s.Voltage}, {ItemFeed, r.Feed, &s.Feed},
		{ItemTravelSpeed, r.Travel, &s.Travel}, {ItemEnergy, r.Energy, &s.Energy}, {ItemAmplitude, r.Amplitude, &f.Amplitude},
	}
}

// narrow puts what the run states in place of what holds for all, and names the
// run as the source of each.
func (r Run) narrow(s *Spec, f *Further) {
	source := s.source()
	source.Clause = r.String()
	own := map[Item]weld.Source{}
	for item, src := range f.Sources {
		own[item] = src
	}
	f.Sources = own
	for _, x := range r.ranges(s, f) {
		if x.own.Stated() {
			*x.common, own[x.item] = x.own, source
		}
	}
	put(own, source, ItemProcess, r.Process, &s.Processes)
	put(own, source, ItemTransfer, r.Transfer, &s.Transfers)
	put(own, source, ItemWireDiameter, r.WireDiameter, &s.WireDiameters)
	put(own, source, ItemPolarity, r.Polarity, &f.Polarities)
	put(own, source, ItemTechnique, r.Technique, &f.Techniques)
	if r.WireClass != "" {
		s.WireClass, own[ItemWireClass] = r.WireClass, source
	}
}

// put makes the run's own value the only one allowed.
func put[T comparable](own map[Item]weld.Source, source weld.Source, item Item, value T, list *[]T) {
	if values, stated := one(value); stated {
		*list, own[item] = values, source
	}
}
