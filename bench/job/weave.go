package job

import (
	"seamwright/unit"
	"seamwright/weld/weave"
)

// Weaving is a wished weave. The zero value wishes none; Not says that none is
// wanted where the seam has one.
type Weaving struct {
	weave.Weave
	Not bool
	At  Place
}

// Wished reports whether a weave is wished.
func (w Weaving) Wished() bool { return w.Frequency > 0 && !w.Not }

// Ranges of sense of a weave, common practice, no source; weave.New checks
// what goes together.
var (
	weaveWidth  = span{0.1 * unit.MM, 20 * unit.MM}   // m
	weaveRate   = span{0.05, 20}                      // Hz
	weaveDwell  = span{0, 5}                          // s
	weaveTilted = span{-90 * unit.Deg, 90 * unit.Deg} // rad
)

// weaveForm reads none, or a table.
func weaveForm(w *Weaving) either {
	none := parsed(&w.Not, []string{"none"}, func(s string) (bool, bool) { return true, s == "none" })
	return either{word: none, group: record{at: &w.At, allowed: "a table with shape, amplitude and frequency",
		example: "{shape: triangle, amplitude: 2 mm, frequency: 1.2 Hz}", fields: []field{
			need("shape", parsed(&w.Shape, []string{"triangle", "sine"}, errless(weave.ParseShape))),
			need("amplitude", quantity(unit.Length, &w.Amplitude, weaveWidth, "2 mm")),
			need("frequency", quantity(unit.Frequency, &w.Frequency, weaveRate, "1.2 Hz")),
			may("dwell", record{example: "{left: 0.2 s, right: 0.2 s}", fields: []field{
				may("left", quantity(unit.Time, &w.DwellLeft, weaveDwell, "0.2 s")),
				may("middle", quantity(unit.Time, &w.DwellCentre, weaveDwell, "0 s")),
				may("right", quantity(unit.Time, &w.DwellRight, weaveDwell, "0.2 s")),
			}}),
			may("plane", quantity(unit.Angle, &w.Plane, weaveTilted, "0 deg")),
		}, check: func(ps *Problems, n node, clean bool) {
			if !clean {
				return
			}
			whole, err := weave.New(w.Weave)
			if err != nil {
				ps.add(n.at, "a weave that cannot be ("+err.Error()+")", "dwells that leave time to move from edge to edge", "shorten the dwells or lower the frequency")
				return
			}
			w.Weave = whole
		}}}
}
