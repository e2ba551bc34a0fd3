package weld

import (
	"fmt"
	"strings"
)

// word ties a value to its trade name, printed, and the other words read for it.
type word[T comparable] struct {
	value T
	name  string
	also  []string
}

// nameOf returns the printed name of v, or "... not stated" for any other value.
func nameOf[T comparable](table []word[T], what string, v T) string {
	for _, w := range table {
		if w.value == v {
			return w.name
		}
	}
	return what + " not stated"
}

// parseWord reads s, in any case and with spaces, hyphens or underscores
// between words. The error lists the words allowed.
func parseWord[T comparable](table []word[T], what, s string) (T, error) {
	key := normalWord(s)
	names := make([]string, 0, len(table))
	for _, w := range table {
		if key == normalWord(w.name) {
			return w.value, nil
		}
		for _, a := range w.also {
			if key == normalWord(a) {
				return w.value, nil
			}
		}
		names = append(names, w.name)
	}
	var none T
	return none, fmt.Errorf("%s %q is not known; write one of: %s", what, s, strings.Join(names, ", "))
}

// unseparated drops what separates words. A Replacer is built with the package: one
// a call would cost more than the reading itself.
var unseparated = strings.NewReplacer(" ", "", "-", "", "_", "", "\t", "")

// normalWord lowers s and drops what separates its words.
func normalWord(s string) string {
	return unseparated.Replace(strings.ToLower(strings.TrimSpace(s)))
}
