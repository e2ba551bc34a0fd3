package prove

import (
	"fmt"
	"math"
)

// place is where a number was found.
type place struct {
	seam string
	pass int
	what string // such as "step 3 (W1 weld start)" or "12.345 s of the trace"
}

func (p place) String() string {
	who := p.seam
	if p.pass > 1 {
		who = fmt.Sprintf("%s pass %d", p.seam, p.pass)
	}
	switch {
	case who == "":
		return p.what
	case p.what == "":
		return who
	}
	return who + ", " + p.what
}

// meter holds numbers against limits and keeps the one with the least margin, and
// the worst of every seam that breaks its limit.
type meter struct {
	name, unit string
	scale      float64 // from SI to unit
	least      bool    // the limit is a least value; otherwise a most
	relative   bool    // the margin that decides is that over the limit
	allow      float64 // by how much the limit may be passed all the same

	known           bool
	measured, limit float64
	margin          float64 // that decides
	where           place
	checked         int
	broken          []hit
	note            string
	unchecked       Outcome // 0: all of it was checked
}

// hit is a number that breaks its limit.
type hit struct {
	measured, limit, margin float64
	where                   place
	text                    string
}

func atMost(name, unit string, scale float64) *meter {
	return &meter{name: name, unit: unit, scale: scale}
}

func atLeast(name, unit string, scale float64) *meter {
	return &meter{name: name, unit: unit, scale: scale, least: true}
}

// share makes the margin over the limit decide: for limits of different kinds.
func (m *meter) share() *meter {
	m.relative = true
	return m
}

// near reports whether a number would be kept: it has less margin than all before,
// or breaks the limit. hold then wants its place.
func (m *meter) near(measured, limit float64) bool {
	m.checked++
	margin := m.marginOf(measured, limit)
	return !m.known || !(margin >= m.margin) || margin < -m.allow
}

func (m *meter) marginOf(measured, limit float64) float64 {
	margin := limit - measured
	if m.least {
		margin = -margin
	}
	if m.relative && limit != 0 {
		margin /= math.Abs(limit)
	}
	return margin
}

// keep takes in a number that near asked for. What is not a number breaks any limit.
func (m *meter) keep(measured, limit float64, where place) {
	margin := m.marginOf(measured, limit)
	if math.IsNaN(margin) {
		margin = math.Inf(-1)
	}
	if !m.known || margin < m.margin {
		m.known, m.measured, m.limit, m.margin, m.where = true, measured, limit, margin, where
	}
	if margin < -m.allow {
		m.breach(hit{measured: measured, limit: limit, margin: margin, where: where})
	}
}

// hold is near and keep for numbers that are few.
func (m *meter) hold(measured, limit float64, where place) {
	if m.near(measured, limit) {
		m.keep(measured, limit, where)
	}
}

// fail says in words what is broken, where no number tells.
func (m *meter) fail(where place, format string, args ...any) {
	m.checked++
	m.breach(hit{measured: math.NaN(), limit: math.NaN(), margin: math.Inf(-1), where: where, text: fmt.Sprintf(format, args...)})
}

// pass counts a check in words that holds.
func (m *meter) pass() { m.checked++ }

// open says why something could not be checked; declared: the plan says so itself. What
// the plan does not say of one place is not made good by what it says of another.
func (m *meter) open(declared bool, why string) {
	switch {
	case !declared:
		m.note, m.unchecked = why, Open
	case m.unchecked != Open:
		m.note, m.unchecked = why, Declared
	}
}

// mostBroken bounds the breaches that one row lists.
const mostBroken = 1000

// breach keeps the worst breach of each seam and pass.
func (m *meter) breach(h hit) {
	for i := range m.broken {
		b := &m.broken[i]
		if b.where.seam == h.where.seam && b.where.pass == h.where.pass && b.text == h.text {
			if h.margin < b.margin {
				*b = h
			}
			return
		}
	}
	if len(m.broken) < mostBroken {
		m.broken = append(m.broken, h)
	}
}

// row returns what the meter found; of nothing, that it is open.
func (m *meter) row() Row {
	r := Row{Name: m.name, Outcome: Holds, Unit: m.unit, Checked: m.checked, Note: m.note}
	if m.known {
		r.Known, r.Where = true, m.where.String()
		r.Measured, r.Limit = finite(m.measured*m.scale), finite(m.limit*m.scale)
		if r.Margin = r.Limit - r.Measured; m.least {
			r.Margin = -r.Margin
		}
	}
	for _, h := range m.broken {
		r.Outcome = Broken
		r.Breaches = append(r.Breaches, Breach{Seam: h.where.seam, Where: h.where.String(), Measured: finite(h.measured * m.scale), Limit: finite(h.limit * m.scale), Text: h.text})
	}
	switch {
	case r.Outcome == Broken && (r.Where == "" || m.broken[0].text != ""):
		r.Where = r.Breaches[0].Where
	case r.Outcome == Broken:
	case m.unchecked != 0:
		r.Outcome = m.unchecked
	case m.checked == 0:
		r.Outcome = Open
	}
	r.Said = r.Outcome.String()
	return r
}

// finite returns 0 for what no file can hold.
func finite(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}
