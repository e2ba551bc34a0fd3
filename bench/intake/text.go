package intake

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// The bounds of what is read. Larger tables are refused with words.
const (
	MaxBytes   = 2 << 20 // bytes of a table
	MaxRows    = 20000   // lines with points
	MaxColumns = 64      // fields of a line
)

var errEmpty = errors.New("the table is empty: paste or hand over at least one row with a position or joint values")

// decodeText turns the bytes into text and settles in which encoding they were.
func decodeText(d *desk, data []byte) (string, error) {
	switch {
	case len(data) > MaxBytes:
		return "", fmt.Errorf("the table has %d bytes, allowed are %d: hand over the points alone, or split the table", len(data), MaxBytes)
	case len(bytes.TrimSpace(data)) == 0:
		return "", errEmpty
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) && utf8.Valid(data):
		d.settle("encoding", "UTF-8", "the byte-order mark says so", Stated)
		return string(data[3:]), nil
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return wide(d, data[2:], binary.LittleEndian, "the byte-order mark says so")
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return wide(d, data[2:], binary.BigEndian, "the byte-order mark says so")
	case bytes.IndexByte(data, 0) >= 0:
		return wideUnmarked(d, data)
	case utf8.Valid(data):
		return string(data), nil
	}
	d.settle("encoding", "Latin-1", "some bytes are not UTF-8; letters of words may be wrong, numbers cannot", OnlyOne)
	var b strings.Builder
	for _, c := range data {
		b.WriteRune(rune(c))
	}
	return b.String(), nil
}

// wideUnmarked reads UTF-16 without a byte-order mark: digits and separators
// have a zero byte on one side, always the same.
func wideUnmarked(d *desk, data []byte) (string, error) {
	var zeros [2]int
	for i, c := range data {
		if c == 0 {
			zeros[i%2]++
		}
	}
	const evidence = "every second byte is zero"
	switch half := len(data) / 2; {
	case zeros[1] > half*9/10 && zeros[0] == 0:
		return wide(d, data, binary.LittleEndian, evidence)
	case zeros[0] > half*9/10 && zeros[1] == 0:
		return wide(d, data, binary.BigEndian, evidence)
	}
	return "", errors.New("the table has zero bytes: it is not text; save it as CSV or plain text and hand over that file")
}

func wide(d *desk, data []byte, order binary.ByteOrder, evidence string) (string, error) {
	if len(data)%2 != 0 {
		return "", errors.New("the UTF-16 text ends in the middle of a character: copy or save the table again")
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	text := string(utf16.Decode(units))
	switch {
	case strings.ContainsRune(text, 0):
		return "", errors.New("the table has zero characters: it is not text; save it as CSV or plain text and hand over that file")
	case strings.TrimSpace(text) == "":
		return "", errEmpty
	}
	d.settle("encoding", "UTF-16", evidence, Stated)
	return text, nil
}

// line is a line of the text that is not blank.
type line struct {
	number int
	text   string
	point  bool // a point although it begins like a comment
}

// lines cuts the text into lines and drops blank and ruled ones.
func lines(text string) []line {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2212", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "\ufeff", "").Replace(text)
	var out []line
	for i, s := range strings.Split(text, "\n") {
		if strings.Trim(s, " \t-=+_|*,;") != "" {
			out = append(out, line{number: i + 1, text: s})
		}
	}
	return out
}
