package prove

import "strings"

// fieldTwice returns the name of a field that stands twice in one object of a JSON
// text, also in other capitals, which some readers take for the same. The text is
// known to be JSON.
func fieldTwice(data []byte) (name string, twice bool) {
	var open [][]string // names so far in each object that is open; nil for an array
	expectName := false
	for i := 0; i < len(data); i++ {
		switch data[i] {
		case '{':
			open, expectName = append(open, []string{}), true
		case '[':
			open, expectName = append(open, nil), false
		case '}', ']':
			open, expectName = open[:len(open)-1], false
		case ',':
			expectName = len(open) > 0 && open[len(open)-1] != nil
		case '"':
			end := i + 1
			for data[end] != '"' {
				if data[end] == '\\' {
					end++
				}
				end++
			}
			if expectName {
				top := &open[len(open)-1]
				text := string(data[i+1 : end])
				for _, before := range *top {
					if len(before) == len(text) && strings.EqualFold(before, text) {
						return text, true
					}
				}
				*top, expectName = append(*top, text), false
			}
			i = end
		}
	}
	return "", false
}
