package job

import (
	"seamwright/unit"
	"seamwright/weld"
)

// rangeForm is the table of {from: a, to: b}, either end alone allowed.
func rangeForm(r *weld.Range, k unit.Kind, within span, from, to string) record {
	return record{allowed: "from and to, or one of them", example: "{from: " + from + ", to: " + to + "}", fields: []field{
		may("from", quantity(k, &r.Low, within, from)),
		may("to", quantity(k, &r.High, within, to)),
	}, check: func(ps *Problems, n node, clean bool) {
		r.HasLow, r.HasHigh = n.has("from"), n.has("to")
		switch {
		case clean && !r.Stated():
			ps.add(n.at, "a range without ends", "from, to or both", "add the end that the procedure states, or delete the range")
		case clean && r.HasLow && r.HasHigh && r.Low > r.High:
			v, _ := n.get("from")
			ps.add(v.at, v.found()+", which is above the upper end", "a lower end below the upper one", "swap the two")
		}
	}}
}

// travelRangeForm is the table of {from: drag 5 deg, to: push 15 deg}. Both ends
// must be there, for "drag 15 deg" alone may be the least or the most; their
// order does not matter.
func travelRangeForm(r *weld.Range) record {
	var a, b float64
	return record{allowed: "from and to in push or drag", example: "{from: drag 5 deg, to: push 15 deg}", fields: []field{
		need("from", travelForm(&a, "drag 5 deg")),
		need("to", travelForm(&b, "push 15 deg")),
	}, check: func(_ *Problems, _ node, clean bool) {
		if clean {
			*r = weld.Between(min(a, b), max(a, b))
		}
	}}
}
