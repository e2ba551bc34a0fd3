package se3

import (
	"fmt"
	"strings"
)

// ParseConvention reads the words for a convention, those of String or of
// Describe. Capitals, hyphens, spaces and commas do not matter: "Fixed X-Y-Z,
// degrees" and "fixed xyz degrees" are the same. Words that leave something
// open, such as an order without "fixed" or "moving", are refused with the
// conventions they may mean; nothing is guessed.
func ParseConvention(words string) (Convention, error) {
	asked := key(words)
	var near []string
	for _, c := range Conventions() {
		if k := key(c.String()); asked == k || asked == key(c.Describe()) {
			return c, nil
		} else if asked != "" && strings.Contains(k, asked) {
			near = append(near, fmt.Sprintf("%q", c.String()))
		}
	}
	const most = 4 // so many a message can list and still be read
	if len(near) > 0 && len(near) <= most {
		return Convention{}, fmt.Errorf("the orientation convention %q leaves something open: write %s",
			words, strings.Join(near, " or "))
	}
	return Convention{}, fmt.Errorf("%q is not an orientation convention: allowed are %s", words, allowedWords)
}

// allowedWords lists what ParseConvention reads, as a pattern where there are
// many.
const allowedWords = `"fixed" or "moving" with an order of turns (x-y-z, x-z-y, y-x-z, y-z-x, z-x-y, z-y-x, ` +
	`x-y-x, x-z-x, y-x-y, y-z-y, z-x-z, z-y-z) and "degrees" or "radians", as in "fixed x-y-z degrees"; ` +
	`"quaternion w first", "quaternion w last"; "rotation vector", "axis and angle" or "tool direction and spin" ` +
	`with "degrees" or "radians"; "matrix by rows", "matrix by columns"`
