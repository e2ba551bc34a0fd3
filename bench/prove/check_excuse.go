package prove

import "strings"

// excuse is a caution that may let a breach pass: what it says is for a person to
// judge, and the plan has said it. Unless agrees is nil, its own numbers must own up to
// what was found.
type excuse struct {
	code   string
	agrees func(told *findingFile, found *Row, b *Breach) bool
}

// cautioned lists the excuses by constraint.
func cautioned() map[string][]excuse {
	corner := []excuse{{"leg-at-corner", nil}, {"joint-speed-at-weld-speed", nil}}
	moves := []excuse{{"move-off-path", asFar}}
	angles := []excuse{{"torch-angles-gave-way", nil}} // the angles of the plan are held, inside the tolerance
	return map[string][]excuse{
		"margin to joint limits on the passes":          {{"joint-limit-margin", asNear}},
		"linear and arc moves: off the commanded way":   moves,
		"linear and arc moves: turned off":              moves,
		"travel speed under the planned, inside a weld": corner,
		"time lost where a weld begins or ends":         corner,
		"joint acceleration over its limit":             {{"joint-speed-at-weld-speed", asOften}},
		"clear of everything: air moves":                {{"clearance-below-minimum", asNear}},
		"work angle off the wanted":                     angles,
		"travel angle off the wanted":                   angles,
	}
}

// By how much what a caution tells may be milder than what is found: the plan looks at
// its samples, the proof between them too, where distances are known to
// collision.Resolution and collision.Share of what is left.
const (
	milder      = 1.0  // mm or deg
	milderShare = 0.05 // dimensionless
)

// inUnit is a number of a finding in the unit of a row; false where the units are of
// different kinds.
func inUnit(x *float64, from, to string) (float64, bool) {
	switch {
	case x == nil:
		return 0, false
	case from == to:
		return *x, true
	case from == "in" && to == "mm":
		return *x * 25.4, true
	}
	return 0, false
}

// asNear: it tells as little room as was found.
func asNear(told *findingFile, found *Row, b *Breach) bool {
	x, ok := inUnit(told.Measured, told.Unit, found.Unit)
	return ok && x <= b.Measured+milder
}

// asFar: it tells as much.
func asFar(told *findingFile, found *Row, b *Breach) bool {
	x, ok := inUnit(told.Measured, told.Unit, found.Unit)
	return ok && x >= b.Measured*(1-milderShare)
}

// asOften: its measured number is as often over its limit.
func asOften(told *findingFile, _ *Row, b *Breach) bool {
	return told.Measured != nil && told.Limit != nil && *told.Limit > 0 && *told.Measured / *told.Limit >= b.Measured*(1-milderShare)
}

// excuse marks the rows whose breaches the plan has told as cautions, every one.
func (p *proof) excuse() {
	for name, list := range cautioned() {
		for i := range p.rows {
			r := &p.rows[i]
			if r.Name != name || r.Outcome != Broken {
				continue
			}
			told := true
			for k := range r.Breaches {
				b := &r.Breaches[k]
				// What touches is never let pass.
				touches := strings.HasPrefix(name, "clear of") && b.Measured <= 0
				told = told && b.Text == "" && !touches && p.owned(list, r, b)
			}
			if told {
				r.Outcome, r.Said = Told, Told.String()
			}
		}
	}
}

// owned reports whether a caution of the plan owns up to a breach.
func (p *proof) owned(list []excuse, r *Row, b *Breach) bool {
	for i := range p.plan.Findings {
		f := &p.plan.Findings[i]
		if f.Severity == "note" || b.Seam != "" && !at(f.Where, b.Seam) {
			continue
		}
		for _, e := range list {
			if f.Code == e.code && (e.agrees == nil || e.agrees(f, r, b)) {
				return true
			}
		}
	}
	return false
}
