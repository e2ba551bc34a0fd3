package job

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"seamwright/unit"
)

// maxText bounds a text of the document, in characters; sheets and tables must
// be able to print it.
const maxText = 200

// text is the form of free text on one line.
func text(dst *string, example string) single {
	return single{
		allowed: fmt.Sprintf("text on one line, 1 to %d characters", maxText), example: example,
		json: schema{"type": []string{"string", "number", "boolean"}, "examples": []string{example}},
		take: func(s string) *wrong {
			*dst = strings.TrimSpace(s)
			n := utf8.RuneCountInString(*dst)
			switch {
			case n == 0:
				return &wrong{found: "an empty text"}
			case n > maxText:
				return &wrong{found: fmt.Sprintf("a text of %d characters", n), mend: "shorten it"}
			case strings.ContainsFunc(*dst, unicode.IsControl):
				return &wrong{found: "a line break or an invisible character in the text", mend: "write it on one line"}
			}
			return nil
		},
	}
}

// oneOf is the form of one of a few words.
func oneOf[T ~string](dst *T, words ...T) single {
	return parsed(dst, texts(words), func(s string) (T, bool) {
		for _, w := range words {
			if string(w) == s {
				return w, true
			}
		}
		return "", false
	})
}

func texts[T ~string](words []T) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return out
}

// parsed is the form of one of the listed words, read by parse.
func parsed[T any](dst *T, words []string, parse func(string) (T, bool)) single {
	return single{
		allowed: inWords(words), example: words[0],
		json: schema{"enum": words},
		take: func(s string) *wrong {
			value, ok := parse(strings.TrimSpace(s))
			if !ok {
				return &wrong{mend: orNearest(s, words, "write one of these words")}
			}
			*dst = value
			return nil
		},
	}
}

// coded is the same for codes such as 135 or PB: one that is nearly another is
// no slip of it, so none is suggested.
func coded[T any](dst *T, codes []string, parse func(string) (T, bool)) single {
	s := parsed(dst, codes, parse)
	take := s.take
	s.take = func(code string) *wrong {
		if take(code) != nil {
			return &wrong{mend: "write one of these"}
		}
		return nil
	}
	return s
}

// inWords joins words as in "tee, lap or butt".
func inWords(words []string) string {
	last := len(words) - 1
	if last <= 0 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// flag is the form of true or false.
func flag(dst *bool) single {
	return single{
		allowed: "true or false", example: "true",
		json: schema{"type": "boolean"},
		take: func(s string) *wrong {
			if s != "true" && s != "false" {
				return &wrong{mend: "write true or false"}
			}
			*dst = s == "true"
			return nil
		},
	}
}

// span is the range that a number or quantity must lie in, its ends included,
// in SI. Ends are sense limits: they catch slips, they are no rules of the
// trade.
type span struct{ low, high float64 }

func (s span) holds(x float64) bool { return x >= s.low && x <= s.high }

// quantity is the form of a number with a unit; within is in SI (m, rad, s...),
// example such as "6 mm".
func quantity(k unit.Kind, dst *float64, within span, example string) single {
	return single{
		allowed: k.String() + " in " + inWords(symbols(k)), example: example,
		json: schema{"type": "string", "description": k.String() + " in " + inWords(symbols(k)), "examples": []string{example}},
		take: func(s string) *wrong {
			si, err := unit.Parse(k, s)
			if refused := (*unit.Error)(nil); errors.As(err, &refused) { // the only error that Parse returns
				mend := refused.Mend
				if k == unit.Ratio { // 0.96 may mean 96 percent: do not suggest 0.96 %
					mend = "write it in percent, for example " + example
				}
				return &wrong{found: quote(s) + " (" + refused.Found + ")", mend: mend}
			}
			if !within.holds(si) {
				u, _ := k.Preferred(unit.Metric)
				return &wrong{allowed: unit.Exact(within.low, u) + " to " + unit.Exact(within.high, u), mend: "check the number and its unit"}
			}
			*dst = si
			return nil
		},
	}
}

func symbols(k unit.Kind) []string {
	var out []string
	for _, u := range k.Units() {
		out = append(out, u.String())
	}
	return out
}

// decimal is a plain number as people write it: never octal, never hexadecimal.
var decimal = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]{1,3})?$`)

// maxNumber bounds plain numbers: coordinates in millimetres and angles stay
// far below.
const maxNumber = 1e6

// parseNumber reads a plain decimal number; 011 is eleven.
func parseNumber(s string) (float64, *wrong) {
	s = strings.TrimSpace(s)
	x, err := strconv.ParseFloat(s, 64)
	switch {
	case s == "":
		return 0, &wrong{found: "nothing", mend: "write the number"}
	case decimal.MatchString(s) && err == nil && x >= -maxNumber && x <= maxNumber:
		return x, nil
	case decimal.MatchString(s):
		return 0, &wrong{allowed: fmt.Sprintf("a number from %.0f to %.0f", -maxNumber, maxNumber), mend: "check the number and the unit that the document states for it"}
	case decimal.MatchString(strings.Replace(s, ",", ".", 1)):
		return 0, &wrong{found: quote(s) + " with a decimal comma", mend: "write " + strings.Replace(s, ",", ".", 1)}
	}
	return 0, &wrong{mend: "write the number alone, in digits"}
}

// number is the form of a plain number whose unit the document states
// elsewhere, or that has none.
func number(dst *float64, within span, example string) single {
	return single{
		allowed: "a number without a unit", example: example,
		json: schema{"type": "number", "minimum": within.low, "maximum": within.high},
		take: func(s string) *wrong {
			x, w := parseNumber(s)
			if w != nil {
				return w
			}
			if !within.holds(x) {
				return &wrong{allowed: fmt.Sprintf("%g to %g", within.low, within.high), mend: "check the number"}
			}
			*dst = x
			return nil
		},
	}
}

// numbers is the form of a list of plain numbers.
func numbers(dst *[]float64, low, high int, example string) form {
	return manyOf(dst, low, high, "numbers", func(x *float64) form {
		return number(x, span{-maxNumber, maxNumber}, example)
	})
}
