package job

import (
	"seamwright/geom/r3"
)

// Flat is a plane in which an arc or a circle is known to lie.
type Flat struct {
	Kind FlatKind
	// Direction is square to the plane, arm base frame, for FlatDirection.
	Direction r3.Vec
	// Points are the labels of touched points in the plane, for FlatTouched.
	Points []string
	At     Place
}

// FlatKind is a way to know a plane.
type FlatKind string

const (
	// FlatUnstated: the document does not say.
	FlatUnstated FlatKind = ""
	// FlatLevel: the plane is level.
	FlatLevel FlatKind = "level"
	// FlatDirection: by the direction square to it.
	FlatDirection FlatKind = "direction"
	// FlatTouched: by three to twelve touched points.
	FlatTouched FlatKind = "touched"
)

// planeDraft is what a plane refers to.
type planeDraft struct {
	touched   []ref
	direction []float64
}

func (d *planeDraft) form(p *Flat) either {
	return either{word: oneOf(&p.Kind, FlatLevel), group: record{at: &p.At,
		allowed: "{direction: [0, 0, 1]} or {touched: [P1, P2, P3]}",
		fields: []field{
			may("direction", directionForm(&d.direction)),
			may("touched", manyOf(&d.touched, 3, maxTouched, "touched points", func(r *ref) form { return named(r, "P1") }).like("[P1, P2, P3]")),
		}, one: [][]string{{"direction", "touched"}},
		check: func(ps *Problems, n node, clean bool) {
			p.Kind = FlatTouched
			if v, given := n.get("direction"); given {
				p.Kind = FlatDirection
				if clean {
					p.Direction = direction(ps, v, d.direction, "write the direction square to the plane, such as [0, 0, 1]")
				}
			}
		},
	}}
}

// directionForm is the form of a direction of any length.
func directionForm(dst *[]float64) form {
	return manyOf(dst, 3, 3, "numbers", func(x *float64) form {
		return number(x, span{-maxNumber, maxNumber}, "0")
	}).like("[0, 0, 1]")
}

// direction returns three numbers as a vector and refuses one without length.
func direction(ps *Problems, n node, v []float64, mend string) r3.Vec {
	dir := r3.Vec{X: v[0], Y: v[1], Z: v[2]}
	const short = 1e-6 // of what people write, far below any direction meant
	if dir.Norm() < short {
		ps.add(n.at, "a direction without length", "three numbers that are not all 0", mend)
	}
	return dir
}
