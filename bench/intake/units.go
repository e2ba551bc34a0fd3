package intake

import (
	"slices"
	"strings"

	"seamwright/unit"
)

// scale is a unit that a head or a cell may state.
type scale struct {
	symbol string
	kind   unit.Kind
	si     float64 // size in SI
	words  []string
}

// scales are the units of tables; their sizes are those of package unit.
var scales = []scale{
	{"mm", unit.Length, unit.MM, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	{"cm", unit.Length, unit.CM, []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
	{"m", unit.Length, 1, []string{"m", "metre", "metres", "meter", "meters"}},
	{"in", unit.Length, unit.Inch, []string{"in", "inch", "inches", `"`, "''"}},
	{"deg", unit.Angle, unit.Deg, []string{"deg", "degs", "degree", "degrees", "°"}},
	{"rad", unit.Angle, 1, []string{"rad", "rads", "radian", "radians"}},
	{"mm/s", unit.Speed, unit.MMPerS, []string{"mm/s", "mm/sec", "mmps"}},
	{"mm/min", unit.Speed, unit.MMPerMin, []string{"mm/min"}},
	{"cm/min", unit.Speed, unit.CMPerMin, []string{"cm/min"}},
	{"m/min", unit.Speed, unit.MPerMin, []string{"m/min"}},
	{"m/s", unit.Speed, 1, []string{"m/s", "m/sec"}},
	{"in/min", unit.Speed, unit.InPerMin, []string{"in/min", "ipm", "inch/min"}},
	{"in/s", unit.Speed, unit.InPerS, []string{"in/s", "ips", "inch/s"}},
	{"%", unit.Ratio, 1, []string{"%", "percent", "pct"}},
}

// unitWord returns the symbol of a unit written in one of its ways. A capital
// M stays a metre: there is no other unit of tables that it could mean.
func unitWord(word string) (symbol string, ok bool) {
	word = strings.ToLower(strings.Trim(strings.TrimSpace(word), "."))
	for _, s := range scales {
		if slices.Contains(s.words, word) {
			return s.symbol, true
		}
	}
	return "", false
}

// scaleOf returns the unit of a symbol.
func scaleOf(symbol string) (scale, bool) {
	i := slices.IndexFunc(scales, func(s scale) bool { return s.symbol == symbol })
	if i < 0 {
		return scale{}, false
	}
	return scales[i], true
}

// kindOf returns the quantity that a unit belongs to.
func kindOf(symbol string) unit.Kind {
	s, _ := scaleOf(symbol)
	return s.kind
}
