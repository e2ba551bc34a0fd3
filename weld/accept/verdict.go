package accept

import (
	"fmt"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// State is the outcome for one imperfection. The zero value is no outcome.
type State uint8

// The outcomes. Only Accepted is a pass.
const (
	Accepted  State = iota + 1
	Rejected        // beyond the limit
	Undecided       // read, but something that the limit needs is missing
	NotRead         // nobody read it
)

// String returns the outcome in words.
func (s State) String() string {
	switch s {
	case Accepted:
		return "accepted"
	case Rejected:
		return "rejected"
	case Undecided:
		return "undecided"
	case NotRead:
		return "not read"
	}
	return "no outcome"
}

// Verdict is the outcome for one imperfection: its worst reading against the
// limit.
type Verdict struct {
	Ref   string // ISO 6520-1 number, or the item of AWS D1.1 Table 8.1
	Name  string
	State State
	// Near says that the worst reading lies within one step of the gauge from
	// the limit, on either side: read again, or with a finer gauge.
	Near bool

	Measured float64 // the imperfection, m; rad for a toe angle
	Limit    float64 // in the unit of Measured; infinite where there is none
	Step     float64 // of the gauge, in the unit of Measured
	At       float64 // distance of the worst reading from the weld start, m, where Placed
	Placed   bool
	Readings int // how many were judged

	Words  string // the limit as the table has it
	Note   string // the sizes behind the figure, or what decided
	Need   string // what is missing, where undecided
	Source weld.Source

	unit unit.Unit
}

// String returns the verdict as one line for a sheet.
func (v Verdict) String() string {
	parts := []string{fmt.Sprintf("%s: %v", v.Name, v.State)}
	if v.Readings > 0 {
		shown := v.print(v.Measured)
		unknown := v.State == Undecided && v.Limit == 0 // what the limit needs is missing
		if !unknown && v.Words != "permitted" && v.Words != "not permitted" && v.Words != "by application" {
			shown += " against " + v.print(v.Limit)
		}
		if v.Placed {
			shown += fmt.Sprintf(" at %s", mm(v.At))
		}
		parts[0] += ", " + shown
	}
	parts[0] += " (" + v.Words + ")"
	for _, p := range []string{v.Note, v.Need} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	if v.Near {
		parts = append(parts, fmt.Sprintf("within one step of the gauge, %s, of the limit", v.print(v.Step)))
	}
	return strings.Join(append(parts, v.Source.String()), "; ")
}

func (v Verdict) print(x float64) string {
	return fmt.Sprintf("%.4g %v", v.unit.Value(x), v.unit)
}

// Passed reports whether every verdict is Accepted.
func Passed(verdicts []Verdict) bool {
	for _, v := range verdicts {
		if v.State != Accepted {
			return false
		}
	}
	return len(verdicts) > 0
}

// observation is one imperfection at one place.
type observation struct {
	h, limit, step float64 // m or rad
	at, extent     float64 // m
	placed         bool
	gauged         bool   // not seen: its step counts
	need           string // what the limit needs and nobody gave
	note           string
}

// excess is how far the observation passes its limit, negative inside it.
func (o observation) excess(rule Rule) float64 {
	if rule == AtLeast {
		return o.limit - o.h
	}
	return o.h - o.limit
}

// settle fills the outcome from observations of a rule that knows one limit for
// each.
func (v *Verdict) settle(rule Rule, obs []observation) {
	v.Readings = len(obs)
	if len(obs) == 0 {
		v.State = NotRead
		return
	}
	worst, undecided := -1, ""
	for i, o := range obs {
		if o.need != "" {
			undecided = o.need
			continue
		}
		if worst < 0 || o.excess(rule) > obs[worst].excess(rule) {
			worst = i
		}
	}
	if worst < 0 {
		v.State, v.Need, v.Measured = Undecided, undecided, obs[0].h
		v.At, v.Placed = obs[0].at, obs[0].placed
		return
	}
	o := obs[worst]
	v.show(o)
	over := o.excess(rule)
	switch {
	case over > slack:
		v.State = Rejected
	case undecided != "":
		v.State, v.Need = Undecided, undecided
	default:
		v.State = Accepted
	}
	v.Near = o.gauged && (over <= o.step+slack && over >= -o.step-slack) && !(o.limit == 0 && o.h == 0 && o.note == "")
}

// show takes over the figures of an observation.
func (v *Verdict) show(o observation) {
	v.Measured, v.Limit, v.Step, v.At, v.Placed, v.Note = o.h, o.limit, o.step, o.at, o.placed, o.note
}
