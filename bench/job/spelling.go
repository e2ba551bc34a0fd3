package job

import (
	"fmt"
	"strings"
	"unicode"
)

// maxCompared bounds the names that a wrong one is compared with.
const maxCompared = 300

// nearest returns the word of among that is nearest to the given one, "" where
// more than a third of its letters, or all of them, would have to change; one
// letter of several always may. Words with other numbers in them are not near:
// seam 12 is no slip of 11, though 011 may be. Of equally near words it returns
// the first.
func nearest(given string, among []string) string {
	if len(given) > maxFound {
		return "" // no name of ours is that long
	}
	given = strings.ToLower(given)
	best, least := "", min(max(1, letters(given)/3)+1, len(given))
	for _, word := range among[:min(len(among), maxCompared)] {
		w := strings.ToLower(word)
		if d := distance(given, w); d < least && digits(given) == digits(w) {
			best, least = word, d
		}
	}
	return best
}

// letters counts the letters of a text.
func letters(text string) int {
	n := 0
	for _, r := range text {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}

// digits returns the digits of a text without zeros in front.
func digits(text string) string {
	only := strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, text)
	return strings.TrimLeft(only, "0")
}

// orNearest returns the remedy for a name that does not exist.
func orNearest(given string, among []string, otherwise string) string {
	if word := nearest(given, among); word != "" {
		return "did you mean " + quote(word) + "?"
	}
	const few = 4 // a choice that a message can list
	if longer := completions(given, among); len(longer) > 0 && len(longer) <= few {
		return "did you mean " + inWords(longer) + "?"
	}
	return otherwise
}

// completions returns the words, quoted, of which the given one is a part.
func completions(given string, among []string) []string {
	const short = 3 // letters that say too little
	if len(given) < short {
		return nil
	}
	var out []string
	for _, word := range among[:min(len(among), maxCompared)] {
		if strings.Contains(strings.ToLower(word), strings.ToLower(given)) {
			out = append(out, quote(word))
		}
	}
	return out
}

// listed returns the names with commas, at most thirty of them: the document has near that many fields.
func listed(names []string) string {
	const most = 30
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " and others"
	}
	return strings.Join(names, ", ")
}

// counted returns a number of things in words.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
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
