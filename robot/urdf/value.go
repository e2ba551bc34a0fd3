package urdf

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// numbers reads an attribute of exactly len(into) finite numbers, separated by
// spaces. It reports a fault and leaves into alone where that fails; present
// says whether the attribute is there.
func (d *decoder) numbers(n *node, field, attr, unit string, into []float64) (present, good bool) {
	text, ok := n.attr(attr)
	if !ok {
		return false, false
	}
	allowed := "a finite number, " + unit
	if len(into) > 1 {
		allowed = fmt.Sprintf("%d finite numbers, %s", len(into), unit)
	}
	words := strings.Fields(text)
	values := make([]float64, len(into))
	fits := len(words) == len(into)
	for i := 0; fits && i < len(words); i++ {
		v, err := strconv.ParseFloat(words[i], 64)
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
			fits = false
		}
		values[i] = v
	}
	if !fits {
		d.problem(n, field+" "+attr, quote(text), allowed, "write plain decimal numbers")
		return true, false
	}
	copy(into, values)
	return true, true
}

// required reads one number that must be there.
func (d *decoder) required(n *node, field, attr, unit string) (float64, bool) {
	var v [1]float64
	present, good := d.numbers(n, field, attr, unit, v[:])
	if !present {
		d.problem(n, field+" "+attr, "none", "a finite number, "+unit, "add "+attr+`="..."`)
	}
	return v[0], good
}

// positive reads one number that must be there and above zero.
func (d *decoder) positive(n *node, field, attr, unit string) float64 {
	v, good := d.required(n, field, attr, unit)
	if good && v <= 0 {
		d.problem(n, field+" "+attr, fmt.Sprint(v), "a number above 0, "+unit, "give the true size")
	}
	return v
}

// origin reads the optional <origin> of n: xyz in metres, rpy in radians about
// the fixed axes X, then Y, then Z.
func (d *decoder) origin(n *node, field string) se3.Pose {
	o := d.once(n, field, "origin")
	if o == nil {
		return se3.Identity()
	}
	field += " origin"
	d.known(o, field, "xyz", "rpy")
	var xyz, rpy [3]float64
	d.numbers(o, field, "xyz", "m", xyz[:])
	d.numbers(o, field, "rpy", "rad", rpy[:])
	rot := se3.RotZ(rpy[2]).Mul(se3.RotY(rpy[1])).Mul(se3.RotX(rpy[0]))
	return se3.Pose{R: rot, P: r3.Vec{X: xyz[0], Y: xyz[1], Z: xyz[2]}}
}

// vec reads three numbers that must be there.
func (d *decoder) vec(n *node, field, attr, unit string) (r3.Vec, bool) {
	var v [3]float64
	present, good := d.numbers(n, field, attr, unit, v[:])
	if !present {
		d.problem(n, field+" "+attr, "none", "3 finite numbers, "+unit, "add "+attr+`="..."`)
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}, good
}
