package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// namedValue is a number with its name before it, as screens show them: "X
// 430.2", "RZ: 36,0", "Joint 2 = -60". A name with a number of its own ends
// before a blank or a sign, so that X430.2 is 430.2.
var namedValue = regexp.MustCompile(`(?i)((?:joint|axis) ?[0-9]{1,2}[\t :=|]+|\p{L}+[0-9]{1,2}[\t :=|]+|\p{L}+[\t :=|]*)([+-]?[0-9]+(?:[.,'][0-9]+)*(?:e[+-]?[0-9]{1,2})?)`)

// leastNamed is the share of numbers, in percent, that have a name before them
// in a text of named values: a few stand in labels and headings.
const leastNamed = 80

// value is a named value of a screen.
type value struct{ name, text string }

// named is one line of a screen: the words before its values, and the values.
type named struct {
	words  string
	values []value
	loose  int // numbers without a name
}

// readNamed cuts a line at its named values and takes units along.
func readNamed(text string) named {
	at := slices.DeleteFunc(namedValue.FindAllStringSubmatchIndex(text, -1), func(m []int) bool {
		name := text[m[2]:m[3]]
		r := roleOf(name)
		return strings.TrimRight(name, "\t :=|") == name && !r.isAxis() && r != "r?" // W1 is a name, X1 a value
	})
	if len(at) == 0 {
		return named{words: label0(text), loose: len(anyNumber.FindAllString(text, -1))}
	}
	n := named{words: label0(text[:at[0][0]])}
	n.loose = len(anyNumber.FindAllString(text[:at[0][0]], -1))
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		v := value{strings.Trim(text[m[2]:m[3]], "\t :=|"), text[m[4]:m[5]]}
		rest := strings.TrimLeft(text[m[5]:end], " ")
		if fields := strings.FieldsFunc(rest, func(r rune) bool { return strings.ContainsRune("\t ,;|", r) }); len(fields) > 0 {
			if _, known := unitWord(fields[0]); known && strings.HasPrefix(rest, fields[0]) {
				v.text += " " + fields[0]
				rest = rest[len(fields[0]):]
			}
		}
		n.loose += len(anyNumber.FindAllString(rest, -1))
		n.values = append(n.values, v)
	}
	return n
}

var (
	anyNumber = regexp.MustCompile(`[0-9]+(?:[.,'][0-9]+)*`)
	labelHead = regexp.MustCompile(`(?i)^(?:name|point|label|position|pose)\s*[:=]\s*`)
)

// label0 takes the name of a point out of the words before its values.
func label0(text string) string {
	text = strings.Trim(text, "\t ,;|")
	return strings.Trim(labelHead.ReplaceAllString(text, ""), "\t ,;|:=")
}

// unfold turns a text in which each number has its name before it into lines
// of a table with heads, one a point, however many lines a point has there. ok
// is false for any other text.
func unfold(d *desk, all []line) (table []line, ok bool) {
	lines := make([]named, len(all))
	var count, loose int
	kinds := map[role]bool{}
	var example string
	for i, l := range all {
		if commentSign(strings.TrimSpace(l.text)) != "" {
			continue
		}
		lines[i] = readNamed(l.text)
		for _, v := range lines[i].values {
			count++
			if r := roleOf(v.name); r.isAxis() || r.isJoint() {
				kinds[r] = true
				if example == "" {
					example = v.name + " " + v.text
				}
			}
		}
		if len(lines[i].values) > 0 { // the numbers of headings count for nothing
			loose += lines[i].loose
		}
	}
	if len(kinds) < leastNumbers || count*100 < (count+loose)*leastNamed {
		return nil, false
	}
	f := folder{d: d}
	for i, l := range all {
		f.line(l.number, lines[i])
	}
	f.close()
	f.heading()
	d.settle("layout", fmt.Sprintf("named values, %s", plural(len(f.points), "point", "points")),
		fmt.Sprintf("each number has its name before it, such as %q", clip(example)), OnlyOne)
	return f.table(), true
}

// folder gathers the values of one point after the other.
type folder struct {
	d      *desk
	heads  []string
	points []foldedPoint
	now    foldedPoint
	words  named // words that wait for the values below them
	wordAt int
}

type foldedPoint struct {
	line   int
	label  string
	values map[string]string // by head, small
}

// line takes a line. Words alone name the point below them; a value whose name
// was there already begins the next point.
func (f *folder) line(number int, n named) {
	if len(n.values) == 0 {
		if n.words != "" {
			f.heading()
			f.words, f.wordAt = n, number
		}
		return
	}
	if n.words != "" && len(f.now.values) > 0 || f.words.words != "" {
		f.close()
	}
	for _, v := range n.values {
		head := strings.ToLower(v.name)
		if roleOf(v.name) == label { // "Point 17" names the point
			f.close()
			f.words, f.wordAt = named{words: v.name + " " + v.text}, number
			continue
		}
		if _, there := f.now.values[head]; there {
			f.close()
		}
		if f.now.values == nil {
			f.now = foldedPoint{line: number, values: map[string]string{}, label: f.words.words}
			if n.words != "" {
				f.heading()
				f.now.label = n.words
			}
			f.words = named{}
		}
		f.now.values[head] = v.text
		f.head(v.name)
	}
}

// heading drops words that name no point.
func (f *folder) heading() {
	if f.words.words != "" {
		f.d.settle("heading", fmt.Sprintf("line %d is no point: %q", f.wordAt, clip(f.words.words)), "no values stand below it", OnlyOne)
		f.words = named{}
	}
}

// head notes a column.
func (f *folder) head(name string) {
	for _, h := range f.heads {
		if strings.EqualFold(h, name) {
			return
		}
	}
	f.heads = append(f.heads, name)
}

// close ends the point.
func (f *folder) close() {
	if len(f.now.values) > 0 {
		f.points = append(f.points, f.now)
	}
	f.now = foldedPoint{}
}

// table writes the points between tabs, below a line of heads.
func (f *folder) table() []line {
	out := []line{{number: f.points[0].line, text: "label\t" + strings.Join(f.heads, "\t")}}
	for _, p := range f.points {
		cells := []string{strings.ReplaceAll(p.label, "\t", " ")}
		for _, h := range f.heads {
			cells = append(cells, p.values[strings.ToLower(h)])
		}
		out = append(out, line{number: p.line, text: strings.Join(cells, "\t")})
	}
	return out
}
