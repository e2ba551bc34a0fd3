package intake_test

import (
	"encoding/binary"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"seamwright/bench/intake"
)

var update = flag.Bool("update", false, "write what the tables give into testdata/tables.txt")

const tablesFile = "testdata/tables.txt"

// sample is one table of the file, with what is known beside it.
type sample struct {
	name, known, table, want string
}

// readSamples cuts the file: "== name" with lines of what is known below, then
// "-- table" and "-- want".
func readSamples(t *testing.T) []sample {
	t.Helper()
	data, err := os.ReadFile(tablesFile)
	if err != nil {
		t.Fatal(err)
	}
	var out []sample
	for i, part := range strings.Split("\n"+string(data), "\n== ") {
		if i == 0 {
			continue
		}
		head, rest, ok := strings.Cut(part, "\n-- table\n")
		table, want, both := strings.Cut(rest, "\n-- want\n")
		if !ok || !both {
			t.Fatalf("%s: %q has no table or no want", tablesFile, part)
		}
		name, known, _ := strings.Cut(head, "\n")
		out = append(out, sample{name, known, table + "\n", strings.TrimRight(want, "\n") + "\n"})
	}
	return out
}

func writeSamples(t *testing.T, all []sample) {
	t.Helper()
	var b strings.Builder
	for _, s := range all {
		fmt.Fprintf(&b, "== %s\n", s.name)
		if s.known != "" {
			fmt.Fprintf(&b, "%s\n", s.known)
		}
		fmt.Fprintf(&b, "-- table\n%s-- want\n%s\n", s.table, s.want)
	}
	if err := os.WriteFile(tablesFile, []byte(strings.TrimRight(b.String(), "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

// input returns the bytes of a sample and what is known: lines such as
// "reach 0.9", "slides ffffff", "encode utf-16 little" and "answer length mm".
func (s sample) input(t *testing.T) ([]byte, intake.Known) {
	t.Helper()
	known := intake.Known{Answers: intake.Answers{}}
	data := []byte(strings.NewReplacer(`<tab>`, "\t").Replace(s.table))
	for _, l := range strings.Split(s.known, "\n") {
		word, rest, _ := strings.Cut(l, " ")
		switch word {
		case "":
		case "reach":
			known.Reach, _ = strconv.ParseFloat(rest, 64)
		case "slides":
			for _, c := range rest {
				known.Slides = append(known.Slides, c == 't')
			}
		case "encode":
			data = encode(t, string(data), rest)
		case "answer":
			id, value, _ := strings.Cut(rest, " ")
			known.Answers[id] = value
		default:
			t.Fatalf("%s: unknown line %q", s.name, l)
		}
	}
	return data, known
}

func encode(t *testing.T, text, how string) []byte {
	t.Helper()
	var out []byte
	switch how {
	case "utf-8 mark":
		return append([]byte("\xef\xbb\xbf"), text...)
	case "latin-1":
		for _, r := range text {
			out = append(out, byte(r))
		}
	case "crlf":
		return []byte(strings.ReplaceAll(text, "\n", "\r\n"))
	case "utf-16 little", "utf-16 big", "utf-16 unmarked":
		var order binary.AppendByteOrder = binary.LittleEndian
		if how == "utf-16 big" {
			order = binary.BigEndian
		}
		if how != "utf-16 unmarked" {
			out = order.AppendUint16(out, 0xfeff)
		}
		for _, u := range utf16.Encode([]rune(text)) {
			out = order.AppendUint16(out, u)
		}
	default:
		t.Fatalf("unknown encoding %q", how)
	}
	return out
}

// report prints what a table gives.
func report(data []byte, known intake.Known) string {
	table, questions, err := intake.Read(data, known)
	if err != nil {
		return "error: " + err.Error() + "\n"
	}
	var b strings.Builder
	for _, f := range table.Facts {
		fmt.Fprintf(&b, "%s: %s: %s (%s)\n", f.From, f.About, f.Says, f.Evidence)
	}
	for _, q := range questions {
		fmt.Fprintf(&b, "ask %s: %s\n", q.ID, q.Text)
		for i, c := range q.Choices {
			mark := " "
			if i == q.Default {
				mark = "*"
			}
			fmt.Fprintf(&b, "  %s %s: %s (%s)\n", mark, c.Value, c.Text, c.Evidence)
		}
	}
	if len(questions) > 0 {
		return b.String()
	}
	points, problems := intake.Apply(table)
	for _, p := range problems {
		fmt.Fprintf(&b, "problem, line %d: %s; %s\n", p.Line, p.Found, p.Mend)
	}
	b.Write(intake.Canonical(points, table.Stated))
	for _, s := range intake.Suspicions(points, table.Stated) {
		fmt.Fprintf(&b, "suspect %s, lines %v: %s", s.Kind, s.Lines, s.Message)
		if s.Likely != "" {
			fmt.Fprintf(&b, ". Likely: %s", s.Likely)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func TestCorpus(t *testing.T) {
	all := readSamples(t)
	if const60 := 60; len(all) < const60 {
		t.Errorf("%d tables, want at least %d", len(all), const60)
	}
	for i, s := range all {
		data, known := s.input(t)
		got := report(data, known)
		if *update {
			all[i].want = got
			continue
		}
		if got != s.want {
			t.Errorf("%s:\n--- got\n%s--- want\n%s", s.name, got, s.want)
		}
	}
	if *update {
		writeSamples(t, all)
	}
}
