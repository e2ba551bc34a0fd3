package mesh

import (
	"bytes"
	"math"
	"strconv"
)

// Lines goes through the lines of a text. Line ends are LF, CR LF or CR.
type Lines struct {
	Number int // of the line that Next returned last, from 1
	rest   []byte
	feed   int  // where the next LF stands in rest, or its length
	cr     bool // some CR stands in the text
}

// NewLines returns the lines of data. Before says how many lines stand above it.
func NewLines(data []byte, before int) *Lines {
	return &Lines{Number: before, rest: data, feed: feedOf(data), cr: bytes.IndexByte(data, '\r') >= 0}
}

func feedOf(text []byte) int {
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		return i
	}
	return len(text)
}

// Next returns the next line without its end, and false after the last.
func (l *Lines) Next() ([]byte, bool) {
	if len(l.rest) == 0 {
		return nil, false
	}
	l.Number++
	end := l.feed
	next := end + 1
	if l.cr {
		if i := bytes.IndexByte(l.rest[:end], '\r'); i >= 0 {
			end = i
			if next = i + 1; next == l.feed {
				next++ // CR LF
			}
		}
	}
	line := l.rest[:end]
	l.rest = l.rest[min(next, len(l.rest)):]
	if l.feed -= next; l.feed < 0 {
		l.feed = feedOf(l.rest)
	}
	return line, true
}

// Rest returns how many bytes stand after the line that Next returned last.
func (l *Lines) Rest() int { return len(l.rest) }

// Word cuts the first word off a line at blanks. It is empty at the line's end.
func Word(line []byte) (word, rest []byte) {
	i := 0
	for i < len(line) && isBlank(line[i]) {
		i++
	}
	j := i
	for j < len(line) && !isBlank(line[j]) {
		j++
	}
	return line[i:j], line[j:]
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\v' || c == '\f' }

// ParseNumber reads a decimal number, in the unit of the file; false for
// anything else, NaN, infinities and hexadecimal included.
func ParseNumber(word []byte) (float64, bool) {
	for _, c := range word {
		if !(c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E') {
			return 0, false
		}
	}
	x, err := strconv.ParseFloat(string(word), 64)
	return x, err == nil && !math.IsInf(x, 0)
}

// Quote returns a word of a file for a message, in quotes and cut short.
func Quote(word []byte) string {
	const most = 40
	if len(word) > most {
		return strconv.Quote(string(word[:most])) + "..."
	}
	return strconv.Quote(string(word))
}
