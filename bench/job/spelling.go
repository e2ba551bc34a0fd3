package job

import "strings"

// nearest returns the word of among that is nearest to the given one, "" where
// more than a third of its letters (at least two) would have to change. Of
// equally near words it returns the first.
func nearest(given string, among []string) string {
	if len(given) > maxFound {
		return "" // no name of ours is that long
	}
	best, least := "", max(2, len(given)/3)+1
	for _, word := range among {
		if d := distance(strings.ToLower(given), strings.ToLower(word)); d < least {
			best, least = word, d
		}
	}
	return best
}

// orNearest returns the remedy for a name that does not exist.
func orNearest(given string, among []string, otherwise string) string {
	if word := nearest(given, among); word != "" {
		return "did you mean " + quote(word) + "?"
	}
	return otherwise
}

// listed returns the names with commas, at most eight of them.
func listed(names []string) string {
	const most = 8
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " and others"
	}
	return strings.Join(names, ", ")
}

// distance returns how many letters must be put in, left out, replaced or
// swapped with their neighbour to turn a into b: F. J. Damerau, Communications
// of the ACM 7(3), 1964, each letter edited once at most.
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	rows := make([][]int, len(s)+1)
	for i := range rows {
		rows[i] = make([]int, len(t)+1)
		rows[i][0] = i
	}
	for j := range t {
		rows[0][j+1] = j + 1
	}
	for i := range s {
		for j := range t {
			d := rows[i][j]
			if s[i] != t[j] {
				d++
			}
			d = min(d, rows[i][j+1]+1, rows[i+1][j]+1)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				d = min(d, rows[i-1][j-1]+1)
			}
			rows[i+1][j+1] = d
		}
	}
	return rows[len(s)][len(t)]
}
