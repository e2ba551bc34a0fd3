package section

import (
	"fmt"

	"seamwright/weld"
)

// PassLimits is how thick one pass may be.
type PassLimits struct {
	Root      float64 // thickness of a root pass, m
	Fill      float64 // thickness of any other, m
	FilletLeg float64 // leg of a fillet in one pass, m
	Source    weld.Source
}

// passLimits is AWS D1.1:2020 Table 5.1, gas-metal and flux-cored arc, m, by the
// number of the position.
var passLimits = map[weld.PositionName]PassLimits{
	weld.Flat1F:       {Root: 10e-3, Fill: 6e-3, FilletLeg: 12e-3},
	weld.Horizontal2F: {Root: 8e-3, Fill: 6e-3, FilletLeg: 10e-3},
	weld.Vertical3F:   {Root: 12e-3, Fill: 6e-3, FilletLeg: 12e-3},
	weld.Overhead4F:   {Root: 8e-3, Fill: 6e-3, FilletLeg: 8e-3},
}

// CodePassLimits returns how thick the passes of a prequalified procedure may be
// for wire processes in a position of AWS, 1F to 4F and 1G to 4G. AWS D1.1:2020
// Table 5.1 (read; the page was lightly garbled and agrees with memory). ISO has
// no such table: the procedure says it.
func CodePassLimits(p weld.Process, position weld.PositionName) (PassLimits, error) {
	fillet := map[weld.PositionName]weld.PositionName{weld.Flat1G: weld.Flat1F, weld.Horizontal2G: weld.Horizontal2F, weld.Vertical3G: weld.Vertical3F, weld.Overhead4G: weld.Overhead4F}
	if f, ok := fillet[position]; ok {
		position = f
	}
	out, ok := passLimits[position]
	switch {
	case !ok && position.Family() == weld.ISO:
		return PassLimits{}, fmt.Errorf("thickness of passes: %w", InputError{ErrMixedFamilies, fmt.Sprintf("position %v", position), "1F to 4F, 1G to 4G", "name the position as AWS does; the table is of that family"})
	case !ok:
		return PassLimits{}, fmt.Errorf("thickness of passes: %w", InputError{ErrNotStated, position.String(), "1F to 4F, 1G to 4G", "name the position"})
	case !p.Planned():
		return PassLimits{}, fmt.Errorf("thickness of passes: %w", InputError{ErrNotOfThisCode, p.String(), "wire processes", "open the table for other processes"})
	}
	out.Source = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1", Edition: "2020", Clause: "Table 5.1"}
	return out, nil
}

// Over is a pass that is thicker than allowed.
type Over struct {
	Pass int // from 1
	Difference
}

// Against returns the passes that are thicker than the limits allow, in order.
func (p Plan) Against(l PassLimits) []Over {
	var out []Over
	for i, q := range p.Passes {
		most, what := l.Fill, "thickness of a fill pass"
		if q.Role == RootPass {
			most, what = l.Root, "thickness of the root pass"
		}
		if !weld.AtMost(most).Contains(q.Thickness) {
			out = append(out, Over{i + 1, Difference{what, millimetres(q.Thickness), "at most " + millimetres(most), "lower the area of the pass"}})
		}
	}
	return out
}
