package accept

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Judge gives the verdict on readings of one weld, imperfection by imperfection
// in the order of the standard's table: every imperfection appears that can be
// seen or gauged on this kind of weld, those that nobody read as NotRead. Every
// error is an *Error.
//
// A gauge may be off by half of its step: a reading nearer to the limit than that
// is Undecided, in either direction. One within a whole step is Near.
func Judge(s Standard, w Weld, readings []Reading) ([]Verdict, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	if err := w.check(s); err != nil {
		return nil, err
	}
	if w.Angle == 0 {
		w.Angle = math.Pi / 2
	}
	for i, r := range readings {
		if err := r.check(w, s.Code.Family()); err != nil {
			return nil, err
		}
		for _, other := range readings[:i] {
			if r.Measure == other.Measure && once[r.Measure] && r.samePlace(other) {
				return nil, &Error{ReadTwice, fmt.Sprintf("two readings of the %v at one place", r.Measure), "one for each place", "give their places, or the worse one"}
			}
		}
	}
	j := judge{s, w, readings}
	if s.Code == D11 {
		return append(j.d11(), j.lengths()...), nil
	}
	var out []Verdict
	for _, row := range Rows(s.Edition) {
		level, counted := s.levelFor(row.Ref)
		if !counted || row.Kind != 0 && row.Kind != w.Kind || !row.holdsFor(w.Thickness) || row.Ref == "512" && w.UnequalLegs {
			continue
		}
		out = append(out, j.iso(row, level))
	}
	return append(out, j.lengths()...), nil
}

// once lists the measures of which one place has one reading.
var once = map[Measure]bool{LegBase: true, LegOther: true, Throat: true, FaceWidth: true, Convexity: true, RootWidth: true}

// samePlace reports whether two readings belong together; readings without a
// place belong to one.
func (r Reading) samePlace(o Reading) bool { return r.Placed == o.Placed && r.At == o.At }

// judge holds what a verdict needs.
type judge struct {
	std      Standard
	weld     Weld
	readings []Reading
}

// beside returns the reading of a measure at the place of r.
func (j judge) beside(r Reading, m Measure) (Reading, bool) {
	for _, o := range j.readings {
		if o.Measure == m && o.samePlace(r) {
			return o, true
		}
	}
	return Reading{}, false
}

// throat is the nominal throat of the fillet, m: a, or z cos(angle/2).
func (j judge) throat() float64 {
	if j.weld.SizeIs == weld.Throat {
		return j.weld.Size
	}
	return j.weld.Size * math.Cos(j.weld.Angle/2)
}

// iso judges one row of ISO 5817.
func (j judge) iso(row Row, level Level) Verdict {
	bound := row.At(level)
	v := Verdict{Ref: row.Ref, Name: row.Name, Words: row.Words(level), Source: row.Source(j.std.Edition, level), unit: row.Measure.unit()}
	obs := j.observe(row)
	for i := range obs {
		o := &obs[i]
		basis, need := j.basis(row, *o)
		if bound.Factor != 0 && need != "" {
			o.need = need
		}
		o.limit = bound.Limit(basis)
	}
	if j.std.Execution == EXC4 {
		v.Source.Note += "; EXC4 asks for more than level B, which is not held here"
	}
	v.settle(bound.Rule, obs)
	if bound.Rule == ByApplication && v.State == Accepted {
		v.State, v.Need = Undecided, "what the application allows"
		if v.Measured == 0 {
			v.State, v.Need = Accepted, ""
		}
	}
	if bound.Short && v.State == Accepted {
		j.short(&v, obs)
	}
	return v
}

// observe turns readings into imperfections of a row.
func (j judge) observe(row Row) []observation {
	var out []observation
	add := func(r Reading, h, step float64, note string) {
		out = append(out, observation{h: h, step: step, at: r.At, extent: r.Extent, placed: r.Placed, gauged: !r.Measure.Seen(), note: note})
	}
	a := j.throat()
	for _, r := range j.readings {
		other, pair := j.beside(r, LegOther)
		_, gauged := j.beside(r, Throat)
		switch {
		case row.Ref == "512":
			if r.Measure == LegBase && pair {
				add(r, math.Abs(r.Value-other.Value), r.Step+other.Step, fmt.Sprintf("legs %s and %s", mm(r.Value), mm(other.Value)))
			}
		case row.Ref == "5213" && r.Measure == LegBase && pair && !gauged:
			share := math.Cos(j.weld.Angle / 2)
			low := min(r.Value, other.Value) * share
			add(r, a-low, max(r.Step, other.Step)*share, fmt.Sprintf("throat %s from the smaller leg, of %s", mm(low), mm(a)))
		case r.Measure != row.Measure:
		case row.Ref == "5213":
			add(r, a-r.Value, r.Step, fmt.Sprintf("throat %s of %s", mm(r.Value), mm(a)))
		case row.Ref == "5214":
			add(r, r.Value-a, r.Step, fmt.Sprintf("throat %s of %s", mm(r.Value), mm(a)))
		default:
			add(r, r.Value, r.Step, "")
		}
	}
	return out
}

// basis returns what the limit of a row grows with at a place, m, or what is
// missing for it.
func (j judge) basis(row Row, o observation) (float64, string) {
	switch row.Basis {
	case Thickness:
		return j.weld.Thickness, ""
	case NominalThroat:
		return j.throat(), ""
	case ButtThickness:
		if j.weld.ButtThickness != 0 {
			return j.weld.ButtThickness, ""
		}
		return j.weld.Thickness, ""
	case Width:
		return j.width(Reading{At: o.at, Placed: o.placed}, row.Measure)
	}
	return 0, ""
}

// width returns the width b at a place, m: as read, from the legs there, or of
// the fillet as drawn.
func (j judge) width(place Reading, m Measure) (float64, string) {
	read := FaceWidth
	if m == RootExcess {
		read = RootWidth
	}
	if r, ok := j.beside(place, read); ok {
		return r.Value, ""
	}
	if j.weld.Kind != weld.Fillet {
		return 0, "the " + read.String() + " there"
	}
	z1, ok1 := j.beside(place, LegBase)
	z2, ok2 := j.beside(place, LegOther)
	if !ok1 || !ok2 {
		z1.Value = j.throat() / math.Cos(j.weld.Angle/2)
		z2.Value = z1.Value
	}
	d, s := z1.Value-z2.Value, math.Sin(j.weld.Angle/2) // law of cosines without loss
	return math.Sqrt(d*d + 4*z1.Value*z2.Value*s*s), ""
}

// A short imperfection, ISO 5817 (from memory): in a weld of 100 mm or more, at
// most 25 mm in the worst 100 mm; in a shorter one, at most a quarter of it.
const (
	shortWindow = 100 * unit.MM
	shortMost   = 25 * unit.MM
	shortShare  = 0.25
)

// short holds imperfections inside their limit against the length that they
// may have.
func (j judge) short(v *Verdict, obs []observation) {
	run, measured := imperfect(obs, func(o observation) bool { return o.h > slack })
	if len(run) == 0 {
		return
	}
	if !measured || j.weld.Length == 0 {
		v.State, v.Need = Undecided, "the weld's length and the length over which it runs, for only short ones are permitted"
		return
	}
	window, most := shortWindow, shortMost
	if j.weld.Length < shortWindow {
		window, most = j.weld.Length, shortShare*j.weld.Length
	}
	length := worstWindow(run, window)
	text := fmt.Sprintf("%s in the worst %s, %s permitted", mm(length), mm(window), mm(most))
	if v.Note != "" {
		text = v.Note + ", " + text
	}
	v.Note = text
	if length > most+slack {
		v.State = Rejected
	}
}
