package symbol

import "strings"

// word ties a value to its printed name and the other words read for it.
type word[T comparable] struct {
	value T
	name  string
	also  []string
}

// nameOf returns the printed name of v, or "... not stated" for any other.
func nameOf[T comparable](table []word[T], what string, v T) string {
	for _, w := range table {
		if w.value == v {
			return w.name
		}
	}
	return what + " not stated"
}

// find reads a whole text as one word of the table, in any case.
func find[T comparable](table []word[T], text string) (T, bool) {
	for _, w := range table {
		if strings.EqualFold(text, w.name) {
			return w.value, true
		}
		for _, a := range w.also {
			if strings.EqualFold(text, a) {
				return w.value, true
			}
		}
	}
	var none T
	return none, false
}

// names lists the printed names of a table.
func names[T comparable](table []word[T]) string {
	list := make([]string, len(table))
	for i, w := range table {
		list[i] = w.name
	}
	return strings.Join(list, ", ")
}
