package intake

import "strings"

// separator is what stands between the fields of a line.
type separator string

const (
	tabs       separator = "tabs"
	semicolons separator = "semicolons"
	bars       separator = "upright bars"
	commas     separator = "commas"
	blanks     separator = "blanks"
	// commaBlank are commas with a blank behind them, beside decimal commas;
	// pairs are commas that stand between fields and for decimals alike.
	commaBlank separator = "commas with a blank"
	pairs      separator = "commas that are also decimal marks"
)

// sign returns the text that cuts fields.
func (s separator) sign() string {
	return map[separator]string{tabs: "\t", semicolons: ";", bars: "|", commas: ",", commaBlank: ", ", pairs: ","}[s]
}

// split cuts a line into fields without blanks around them.
func (s separator) split(text string) []string {
	switch s {
	case blanks:
		return joinWords(quoted(text, " "))
	case pairs:
		return joinPairs(quoted(text, ","))
	}
	if s == bars {
		text = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(text), "|"), "|")
	}
	return quoted(text, s.sign())
}

// quoted cuts the text at the sign, except inside double quotes that open a
// field. Blanks as the sign count once however many there are.
func quoted(text, sign string) []string {
	var out []string
	for {
		if sign == " " {
			if text = strings.TrimLeft(text, " \t"); text == "" {
				return out
			}
		}
		field, rest, more := nextField(text, sign)
		out = append(out, field)
		if !more || len(out) > MaxColumns {
			return out
		}
		text = rest
	}
}

// nextField takes the first field off the text.
func nextField(text, sign string) (field, rest string, more bool) {
	start := strings.TrimLeft(text, " ")
	if strings.HasPrefix(start, `"`) {
		if end := closing(start); end > 0 {
			after := strings.TrimLeft(start[end+1:], " ")
			field = strings.TrimSpace(strings.ReplaceAll(start[1:end], `""`, `"`))
			switch {
			case after == "":
				return field, "", false
			case sign == " ":
				return field, after, true
			case strings.HasPrefix(after, strings.TrimSpace(sign)) && strings.TrimSpace(sign) != "":
				return field, after[1:], true
			case strings.HasPrefix(after, sign):
				return field, after[len(sign):], true
			}
		}
	}
	if sign == " " {
		if i := strings.IndexAny(text, " \t"); i >= 0 {
			return text[:i], text[i+1:], true
		}
		return text, "", false
	}
	field, rest, more = strings.Cut(text, sign)
	return strings.TrimSpace(field), rest, more
}

// closing returns where the quote that opens s is closed, 0 where it is not.
func closing(s string) int {
	for i := 1; i < len(s); i++ {
		if s[i] != '"' {
			continue
		}
		if i+1 < len(s) && s[i+1] == '"' {
			i++
			continue
		}
		return i
	}
	return 0
}

// joinWords joins neighbouring fields that are words, and a unit with the
// number before it: blanks stand inside labels and comments too.
func joinWords(fields []string) []string {
	var out []string
	for _, f := range fields {
		last := len(out) - 1
		_, isUnit := unitWord(f)
		switch {
		case last >= 0 && isUnit && looksNumeric(out[last]) && !strings.ContainsAny(out[last], "\"°%"):
			out[last] += " " + f
		case last >= 0 && !looksNumeric(out[last]) && !looksNumeric(f):
			out[last] += " " + f
		default:
			out = append(out, f)
		}
	}
	return out
}

// joinPairs joins each whole number with the decimals behind it.
func joinPairs(fields []string) []string {
	var out []string
	for i := 0; i < len(fields); i++ {
		if i+1 < len(fields) && whole(fields[i]) && unsigned(fields[i+1]) {
			out = append(out, fields[i]+","+fields[i+1])
			i++
			continue
		}
		out = append(out, fields[i])
	}
	return out
}

func unsigned(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

func whole(s string) bool { return unsigned(strings.TrimLeft(s, "+-")) }
