package accept

import (
	"fmt"
	"math"
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
	text := fmt.Sprintf("%s: %v", v.Name, v.State)
	measured, limit := v.Figures()
	if measured != "" {
		figure, where, placed := strings.Cut(measured, " at ")
		text += ", " + figure
		if limit != "" {
			text += " against " + limit
		}
		if placed {
			text += " at " + where
		}
	}
	text += " (" + v.Words + ")"
	if remarks := v.Remarks(); remarks != "" {
		text += "; " + remarks
	}
	return text + "; " + v.Source.String()
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
	h, limit, step float64 // m or rad; h as read, so a throat above its size is below 0
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
		if worst < 0 || o.worse(obs[worst], rule) {
			worst = i
		}
	}
	if worst < 0 {
		v.State, v.Need, v.Measured = Undecided, undecided, max(obs[0].h, 0)
		v.At, v.Placed = obs[0].at, obs[0].placed
		return
	}
	o := obs[worst]
	v.show(o)
	v.Near = o.gauged && math.Abs(o.excess(rule)) <= o.step+slack && !o.nothing()
	switch v.State = o.state(rule); {
	case v.State == Rejected:
	case undecided != "":
		v.State, v.Need = Undecided, undecided
	case v.State == Undecided:
		v.Need = v.finer()
	}
}

// state is the outcome of one reading: a gauge may be off by half of its step, so
// a reading nearer to the limit than that decides nothing.
func (o observation) state(rule Rule) State {
	unsure := 0.0
	if o.gauged && !o.nothing() {
		unsure = o.step / 2
	}
	switch over := o.excess(rule); {
	case over <= slack-unsure:
		return Accepted
	case over > slack+unsure:
		return Rejected
	case unsure == 0:
		return Accepted // on the limit, within rounding
	}
	return Undecided
}

// nothing says that the imperfection was looked for and none was found: that is no
// reading near a limit.
func (o observation) nothing() bool { return o.h == 0 && o.note == "" }

// finer says what would decide a reading too near to its limit.
func (v Verdict) finer() string {
	return fmt.Sprintf("a finer gauge, for the reading lies within half a step, %s, of the limit", v.print(v.Step/2))
}

// worse orders observations: rejected before undecided before accepted, and
// further over the limit first.
func (o observation) worse(than observation, rule Rule) bool {
	rank := map[State]int{Rejected: 2, Undecided: 1}
	if a, b := rank[o.state(rule)], rank[than.state(rule)]; a != b {
		return a > b
	}
	return o.excess(rule) > than.excess(rule)
}

// show takes over the figures of an observation.
func (v *Verdict) show(o observation) {
	v.Measured, v.Limit, v.Step, v.At, v.Placed, v.Note = max(o.h, 0), o.limit, o.step, o.at, o.placed, o.note
}

// Figures returns what was read and the limit with their units, each "" where there
// is none.
func (v Verdict) Figures() (measured, limit string) {
	if v.Readings == 0 {
		return "", ""
	}
	measured = v.print(v.Measured)
	if v.Placed {
		measured += " at " + mm(v.At)
	}
	unknown := v.State == Undecided && v.Limit == 0 // what the limit needs is missing
	if !unknown && !math.IsInf(v.Limit, 0) && v.Words != no.words(0) {
		limit = v.print(v.Limit)
	}
	return measured, limit
}

// Remarks returns what stands behind the figures, what is missing and how near the
// limit is, with semicolons between; "" for nothing.
func (v Verdict) Remarks() string {
	var parts []string
	for _, p := range []string{v.Note, v.Need} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	if v.Near && v.State != Undecided {
		parts = append(parts, fmt.Sprintf("within one step of the gauge, %s, of the limit", v.print(v.Step)))
	}
	return strings.Join(parts, "; ")
}
