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
}

// NewLines returns the lines of data. Before says how many lines stand above it.
func NewLines(data []byte, before int) *Lines { return &Lines{Number: before, rest: data} }

// Next returns the next line without its end, and false after the last.
func (l *Lines) Next() ([]byte, bool) {
	if len(l.rest) == 0 {
		return nil, false
	}
	l.Number++
	i := bytes.IndexAny(l.rest, "\r\n")
	if i < 0 {
		line := l.rest
		l.rest = nil
		return line, true
	}
	line := l.rest[:i]
	if l.rest[i] == '\r' && i+1 < len(l.rest) && l.rest[i+1] == '\n' {
		i++
	}
	l.rest = l.rest[i+1:]
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
