package unit

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// spellings finds a unit by any spelling that is read, in the form of plain.
// No two units share one: a test insists.
var spellings = func() map[string]Unit {
	m := map[string]Unit{}
	for u := Millimetres; u < unitCount; u++ {
		m[plain(scales[u].symbol)] = u
		for _, s := range scales[u].also {
			m[plain(s)] = u
		}
	}
	return m
}()

// plainer replaces signs that keyboards, word processors and drawings put in
// place of the letters of a unit.
var plainer = strings.NewReplacer(
	" ", "", "²", "2", "³", "3", "^", "",
	"°", "deg", "º", "deg", "″", `"`, "”", `"`, "“", `"`, "''", `"`, "′", "'", "’", "'",
)

// plain returns a spelling without capitals, spaces and typographic signs. The
// closed set has no two units that differ in capitals alone.
func plain(text string) string { return strings.ToLower(plainer.Replace(text)) }

// kinds names the quantities that are written in u, such as "a speed or a wire
// feed speed".
func (u Unit) kinds() string {
	var names []string
	for k := Length; k < kindCount; k++ {
		if k.Allows(u) {
			names = append(names, k.String())
		}
	}
	return strings.Join(names, " or ")
}

// shorter replaces words within a compound unit by their symbols, to find what
// "millimeters per second" may mean. It only serves proposals.
var shorter = strings.NewReplacer(
	"millimetres", "mm", "millimetre", "mm", "millimeters", "mm", "millimeter", "mm",
	"inches", "in", "inch", "in", "degrees", "deg", "degree", "deg",
	"seconds", "s", "second", "s", "sec", "s", "minutes", "min", "minute", "min", "per", "/",
)

// nearest returns the unit of the quantity whose spelling is nearest to text,
// in the form of plain, or none where more than half of the letters would have
// to change. Of equally near ones it returns the first.
func (k Kind) nearest(text string) Unit {
	text = shorter.Replace(text)
	best, least := none, max(1, len(text)/2)+1
	for _, u := range k.quantity().units {
		for _, s := range append([]string{scales[u].symbol}, scales[u].also...) {
			if d := levenshtein.ComputeDistance(text, plain(s)); d < least {
				best, least = u, d
			}
		}
	}
	return best
}
