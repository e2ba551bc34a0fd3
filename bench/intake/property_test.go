package intake_test

import (
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"

	"seamwright/bench/intake"
)

// truth is one known point, its numbers in the unit in which it is written.
type truth struct {
	label  string
	xyz    []float64
	turn   []float64
	joints []float64
}

// writing is a random way to write a table, and the right answers to every
// question that it may raise.
type writing struct {
	separator   string
	decimal     string
	decimals    int
	headed      bool
	headUnits   bool
	trailing    bool
	quotes      bool
	numbered    bool
	encoding    string
	length      string
	angle       string
	orientation string
	joints      string
	newline     string
}

func drawWriting(t *rapid.T) writing {
	w := writing{
		separator: rapid.SampledFrom([]string{";", "\t", ",", ", ", " ", "   ", " | "}).Draw(t, "separator"),
		decimal:   rapid.SampledFrom([]string{".", ","}).Draw(t, "decimal"),
		decimals:  rapid.IntRange(1, 4).Draw(t, "decimals"),
		headed:    rapid.Bool().Draw(t, "headed"),
		headUnits: rapid.Bool().Draw(t, "head units"),
		trailing:  rapid.Bool().Draw(t, "trailing"),
		numbered:  rapid.Bool().Draw(t, "labels with numbers"),
		encoding:  rapid.SampledFrom([]string{"", "mark", "utf-16"}).Draw(t, "encoding"),
		length:    rapid.SampledFrom([]string{"mm", "m", "in"}).Draw(t, "length"),
		angle:     rapid.SampledFrom([]string{"deg", "rad"}).Draw(t, "angle"),
		joints:    rapid.SampledFrom([]string{"none", "home", "all"}).Draw(t, "joints"),
		newline:   rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "newline"),
	}
	w.orientation = rapid.SampledFrom([]string{"fixed x-y-z", "moving z-y-x", "rotation vector", "quaternion w first", "quaternion w last"}).Draw(t, "orientation")
	if !strings.HasPrefix(w.orientation, "quaternion") {
		w.orientation += map[string]string{"deg": " degrees", "rad": " radians"}[w.angle]
	} else {
		w.decimals = 4
		if w.joints == "home" {
			w.joints = "none" // seven numbers of a pose are not six joint values
		}
	}
	if w.length == "m" || w.angle == "rad" {
		w.decimals = 4
	}
	w.quotes = strings.HasPrefix(w.separator, ",") && w.decimal == ","
	return w
}

// drawPoints makes two seams and a home such as people teach.
func drawPoints(t *rapid.T, w writing) []truth {
	number := func(name string, low, high float64) float64 {
		return rapid.Float64Range(low, high).Draw(t, name)
	}
	perUnit := map[string]float64{"mm": 1, "m": 1000, "in": 25.4}[w.length]
	var out []truth
	for _, label := range []string{"home", "W1 start", "W1 end", "W2 start", "W2 end"} {
		if w.numbered && label != "home" {
			label += " 2"
		}
		p := truth{label: label}
		joints := w.joints == "all" || w.joints == "home" && label == "home"
		if joints {
			unit := 1.0
			if w.angle == "rad" {
				unit = math.Pi / 180
			}
			for k := range 6 {
				low, high := -170.0, 170.0
				if label == "home" && w.joints == "home" {
					low, high = -90, 90
				}
				p.joints = append(p.joints, w.round(number(fmt.Sprint(label, k), low, high)*unit))
			}
			out = append(out, p)
			continue
		}
		for k, r := range [][2]float64{{450, 900}, {-400, 400}, {-50, 300}} {
			p.xyz = append(p.xyz, w.round(number(fmt.Sprint(label, "xyz"[k:k+1]), r[0], r[1])/perUnit))
		}
		p.turn = w.drawTurn(t, label)
		out = append(out, p)
	}
	return out
}

func (w writing) drawTurn(t *rapid.T, label string) []float64 {
	var out []float64
	if strings.HasPrefix(w.orientation, "quaternion") {
		var n float64
		for k := range 4 {
			x := rapid.Float64Range(0.2, 1).Draw(t, fmt.Sprint(label, "q", k))
			out = append(out, x)
			n += x * x
		}
		for k := range out {
			out[k] = w.round(out[k] / math.Sqrt(n))
		}
		return out
	}
	unit := 1.0
	if w.angle == "rad" {
		unit = math.Pi / 180
	}
	for k := range 3 {
		out = append(out, w.round(rapid.Float64Range(-100, 100).Draw(t, fmt.Sprint(label, "r", k))*unit))
	}
	return out
}

func (w writing) round(x float64) float64 {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', w.decimals, 64), 64)
	return y
}

func (w writing) number(x float64) string {
	s := strings.Replace(strconv.FormatFloat(x, 'f', w.decimals, 64), ".", w.decimal, 1)
	if w.quotes {
		return `"` + s + `"`
	}
	return s
}

// write writes the table.
func (w writing) write(points []truth) []byte {
	var rows [][]string
	numbers := 0
	for _, p := range points {
		row := []string{p.label}
		for _, x := range slices.Concat(p.xyz, p.turn, p.joints) {
			row = append(row, w.number(x))
		}
		numbers = max(numbers, len(row)-1)
		rows = append(rows, row)
	}
	if w.headed {
		rows = slices.Insert(rows, 0, w.heads(numbers))
	}
	var b strings.Builder
	for _, row := range rows {
		b.WriteString(strings.Join(row, w.separator))
		if w.trailing && (w.separator == ";" || w.separator == "\t") {
			b.WriteString(w.separator)
		}
		b.WriteString(w.newline)
	}
	switch w.encoding {
	case "mark":
		return []byte("\ufeff" + b.String())
	case "utf-16":
		out := []byte{0xff, 0xfe}
		for _, u := range utf16.Encode([]rune(b.String())) {
			out = binary.LittleEndian.AppendUint16(out, u)
		}
		return out
	}
	return []byte(b.String())
}

func (w writing) heads(numbers int) []string {
	heads := []string{"label"}
	length, angle := "", ""
	if w.headUnits {
		length, angle = " ["+w.length+"]", " ["+w.angle+"]"
	}
	if w.joints == "all" {
		for k := range numbers {
			heads = append(heads, fmt.Sprintf("J%d%s", k+1, angle))
		}
		return heads
	}
	heads = append(heads, "X"+length, "Y"+length, "Z"+length)
	if strings.HasPrefix(w.orientation, "quaternion") {
		angle = ""
	}
	for k := range numbers - 3 {
		heads = append(heads, fmt.Sprintf("r%d%s", k+1, angle))
	}
	return heads
}

// answer is the right answer to a question; ok is false where the question does
// not offer it.
func (w writing) answer(q intake.Question) (value string, ok bool) {
	separators := map[string]string{";": "semicolons", "\t": "tabs", ",": "commas", ", ": "commas", " ": "blanks", "   ": "blanks", " | ": "upright bars"}
	columns := "x, y, z and three turns"
	switch {
	case w.joints == "all":
		columns = "6 joint values"
	case strings.HasPrefix(w.orientation, "quaternion"):
		columns = "x, y, z and four numbers of the orientation"
	}
	right := map[string]string{
		"separator": separators[w.separator], "decimal": w.decimal, "columns": columns, "joint_rows": "joints",
		"label_numbers": map[bool]string{true: "label", false: "value"}[w.numbered],
		"measured_in":   "base", "point": "tip", "length": w.length, "turns": w.angle, "orientation": w.orientation, "joints": w.angle,
	}
	value = right[q.ID]
	switch {
	case q.ID == "joint_rows" && w.joints != "home", strings.HasPrefix(q.ID, "joint_row_"):
		value = "poses"
	}
	if q.ID == "joint_rows" && w.joints == "home" && len(q.Choices) > 2 {
		value = "each"
	}
	if homeLine := map[bool]string{false: "joint_row_1", true: "joint_row_2"}[w.headed]; q.ID == homeLine && w.joints == "home" {
		value = "joints"
	}
	return value, slices.ContainsFunc(q.Choices, func(c intake.Choice) bool { return c.Value == value })
}

// readAll asks until nothing is left.
func (w writing) readAll(t *rapid.T, data []byte) intake.Table {
	known := intake.Known{Reach: 1.1, Answers: intake.Answers{}}
	for range 20 {
		table, questions, err := intake.Read(data, known)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		if len(questions) == 0 {
			return table
		}
		value, ok := w.answer(questions[0])
		if !ok {
			t.Fatalf("the right answer to %+v, %q, is not offered\n%s", questions[0], value, data)
		}
		known.Answers[questions[0].ID] = value
	}
	t.Fatalf("questions without end\n%s", data)
	return intake.Table{}
}

// Any table in any dialect is read exactly, or asks questions whose right
// answers read it exactly: it is never wrong in silence.
func TestNeverWrongInSilence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWriting(t)
		want := drawPoints(t, w)
		data := w.write(want)
		points, problems := intake.Apply(w.readAll(t, data))
		if len(problems) > 0 {
			t.Fatalf("problems %v\n%s", problems, data)
		}
		if len(points) != len(want) {
			t.Fatalf("%d points, want %d\n%s", len(points), len(want), data)
		}
		length := map[string]float64{"mm": 0.001, "m": 1, "in": 0.0254}[w.length]
		angle := map[string]float64{"deg": math.Pi / 180, "rad": 1}[w.angle]
		for i, p := range points {
			var xyz []float64
			if p.HasPlace {
				xyz = []float64{p.Pose.P.X / length, p.Pose.P.Y / length, p.Pose.P.Z / length}
			}
			var joints []float64
			for _, j := range p.Joints {
				joints = append(joints, j/angle)
			}
			if p.Label != want[i].label || !nearAll(xyz, want[i].xyz) || !nearAll(p.Turn, want[i].turn) || !nearAll(joints, want[i].joints) {
				t.Fatalf("got %+v, want %+v\n%s", p, want[i], data)
			}
		}
	})
}

func nearAll(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-9*math.Max(1, math.Abs(b[i])) {
			return false
		}
	}
	return true
}
