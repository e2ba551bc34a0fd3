package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/unit"
)

// errLook says that something in a table wants a person's eyes. Everything has
// been printed already.
var errLook = errors.New("something in the table wants a look")

func pointsCommand(d desk) *cobra.Command {
	var f tableFlags
	cmd := &cobra.Command{
		Use:   "points FILE",
		Short: "Show a table of points as it is understood, what is open and what looks like a slip",
		Long: `Show a table of points as it is understood.

FILE is a table in whatever form: any separator, decimal comma or point, with or
without heads, joints and poses mixed, or values pasted from a screen with their
names before them; "-" reads it from standard input. What the table itself settles
is shown with its evidence, what it leaves open as questions, then the points with
the way their wire points, and numbers that look like slips. Nothing is written.

Exit code 0: nothing is open. 1: something wants a look. 2: it is no table.`,
		Args: oneTable,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, err := newSession(cmd.Context(), d, f, ".")
			if err != nil {
				return err
			}
			data, err := d.readTable(args[0])
			if err != nil {
				return err
			}
			return s.show(args[0], data)
		},
	}
	f.add(cmd)
	cmd.ValidArgsFunction = once(anyFile)
	completeFlags(cmd, map[string]completer{"answer": f.complete(d)})
	return cmd
}

func oneTable(_ *cobra.Command, args []string) error {
	if len(args) != 1 || args[0] == "" {
		return fmt.Errorf("name one table of points, such as points.csv, or - for standard input; found %d names", len(args))
	}
	return nil
}

func (f *tableFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringArrayVar(&f.answers, "answer", nil, "answer a question ahead: `QUESTION=ANSWER`, such as measured_in=base; may be repeated")
	cmd.Flags().StringVar(&f.arm, "arm", "", "the arm's URDF `FILE`; its reach and joints help to read the table")
	cmd.Flags().StringVar(&f.like, "like", "", "a `JOB` done before with the same arm, torch and controller")
	completeFlags(cmd, map[string]completer{"arm": files("urdf", "xml"), "like": files("yaml", "yml")})
}

// show prints a table without asking.
func (s *session) show(name string, data []byte) error {
	table, open, err := s.readShown(data)
	if err != nil {
		return err
	}
	w := s.out
	fmt.Fprintf(w, "%s: %s\n", title(name), counted(len(table.Rows()), "row with points", "rows with points"))
	s.showFacts(table)
	if len(open) > 0 {
		s.showOpen(open)
		s.showRows(table)
		return errLook
	}
	points, problems := intake.Apply(table)
	s.showPoints(points, table.Stated)
	showRanges(w, points, table.Stated)
	if seams := draft.Sketch(points, table.Stated); len(seams) > 0 {
		fmt.Fprintln(w, "\nSeams by their labels")
		for _, line := range seams {
			fill(w, "  ", line)
		}
	}
	slips := intake.Suspicions(points, table.Stated)
	showList(w, "\nRows that cannot be taken", problems, draft.ProblemText)
	showList(w, "\nNumbers that look like slips; nothing is changed", slips, draft.SlipText)
	if len(problems)+len(slips) > 0 {
		return errLook
	}
	return nil
}

// readShown reads as far as the answers given ahead go.
func (s *session) readShown(data []byte) (intake.Table, []draft.Question, error) {
	for {
		table, open, err := intake.Read(data, s.known())
		if err != nil || len(open) == 0 {
			return table, nil, err
		}
		words, taken := s.likeWords(), false
		for _, q := range fromTable(open) {
			if value, err := q.Take(words[q.ID]); err == nil && words[q.ID] != "" {
				s.answers[q.ID], taken = draft.Answer{Value: value, How: draft.AsLike}, true
			}
		}
		if !taken {
			return table, fromTable(open), nil
		}
	}
}

func title(name string) string {
	if name == "-" {
		return "what was pasted"
	}
	return name
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func showList[T any](w io.Writer, head string, all []T, say func(T) string) {
	if len(all) == 0 {
		return
	}
	fmt.Fprintln(w, head)
	for _, x := range all {
		fill(w, "  - ", say(x))
	}
}

func (s *session) showFacts(table intake.Table) {
	fmt.Fprintln(s.out, "\nSettled")
	for _, f := range table.Facts {
		from := f.Evidence
		if f.From == intake.Answered {
			from = strings.TrimSuffix("answered; "+f.Evidence, "; ")
		}
		text := f.Says
		if from != "" {
			text += " (" + from + ")"
		}
		fill(s.out, fmt.Sprintf("  %-13s ", f.About), text)
	}
}

func (s *session) showOpen(open []draft.Question) {
	fmt.Fprintf(s.out, "\nOpen, %s\n", counted(len(open), "question", "questions"))
	for _, q := range open {
		fill(s.out, "  ", q.Text)
		for i, c := range q.Choices {
			mark := ""
			if i == q.Default {
				mark = "likely: "
			}
			fmt.Fprintf(s.out, "    --answer %s\n", shellWord(q.ID+"="+c.Value))
			text := mark + c.Text
			if c.Evidence != "" {
				text += " (" + c.Evidence + ")"
			}
			fill(s.out, "        ", text)
		}
		if q.Free != "" {
			fmt.Fprintf(s.out, "    or %s\n", q.Free)
		}
	}
}

// most is how many rows are shown of a long table.
const most = 60

// showRows prints the rows as they were cut, under what is known of them.
func (s *session) showRows(table intake.Table) {
	rows := table.Rows()
	if len(rows) == 0 {
		return
	}
	fmt.Fprintln(s.out, "\nAs cut so far")
	w := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	var kinds []string
	for i, r := range rows {
		if i >= most {
			fmt.Fprintf(w, "  ... and %d more\n", len(rows)-most)
			break
		}
		if i == 0 || strings.Join(r.Kinds, "|") != strings.Join(kinds, "|") {
			if kinds = r.Kinds; kinds != nil {
				fmt.Fprintf(w, "  line\t%s\n", strings.Join(orQuestion(kinds), "\t"))
			}
		}
		fmt.Fprintf(w, "  %d\t%s\n", r.Line, strings.Join(r.Cells, "\t"))
	}
	w.Flush()
}

// orQuestion marks cells that are not understood.
func orQuestion(kinds []string) []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		if out[i] = k; k == "" {
			out[i] = "?"
		}
	}
	return out
}

// showPoints prints the points in the table's own units.
func (s *session) showPoints(points []intake.Point, words intake.Words) {
	fmt.Fprintln(s.out, "\nUnderstood")
	wire := "wire"
	if words.Point == "flange" {
		wire = "flange's z axis"
	}
	names := intake.Names(points)
	w := tabwriter.NewWriter(s.out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "  line\tlabel\tis\tx, y, z (%s)\tjoints (%s)\t%s (%s frame)\tmove, arc\n", orDash(words.Length), orDash(words.Joints), wire, words.MeasuredIn)
	for i, p := range points {
		if i >= most {
			fmt.Fprintf(w, "  ... and %d more\n", len(points)-most)
			break
		}
		fmt.Fprintf(w, "  %d\t%s\t%s\t%s\t%s\t%s\t%s\n", p.Line, p.Label, strings.TrimSpace(names[i].Seam+" "+names[i].Part.String()),
			placeText(p, words), jointText(p, words), draft.Wire(p), strings.TrimSpace(p.Move+" "+p.Arc))
	}
	w.Flush()
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

// perLength is how many metres the table's unit of length has.
func perLength(words intake.Words) float64 {
	switch words.Length {
	case "m":
		return 1
	case "in":
		return unit.Inch
	}
	return unit.MM
}

func placeText(p intake.Point, words intake.Words) string {
	if !p.HasPlace {
		return ""
	}
	k := perLength(words)
	return fmt.Sprintf("%.5g, %.5g, %.5g", p.Pose.P.X/k, p.Pose.P.Y/k, p.Pose.P.Z/k)
}

func jointText(p intake.Point, words intake.Words) string {
	var out []string
	for i, x := range p.Joints {
		switch slides := i < len(words.Slides) && words.Slides[i]; {
		case slides:
			x /= perLength(words)
		case words.Joints != "rad":
			x /= unit.Deg
		}
		out = append(out, strconv.FormatFloat(x, 'g', 5, 64))
	}
	return strings.Join(out, ", ")
}

// showRanges prints how far the points spread and how far from the origin they
// lie.
func showRanges(w io.Writer, points []intake.Point, words intake.Words) {
	low, high := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	near, far := math.Inf(1), 0.0
	for _, p := range points {
		if !p.HasPlace {
			continue
		}
		for k, v := range [3]float64{p.Pose.P.X, p.Pose.P.Y, p.Pose.P.Z} {
			low[k], high[k] = min(low[k], v), max(high[k], v)
		}
		near, far = min(near, p.Pose.P.Norm()), max(far, p.Pose.P.Norm())
	}
	if far == 0 {
		return
	}
	k := perLength(words)
	fmt.Fprintln(w, "\nRanges")
	for i, axis := range []string{"x", "y", "z"} {
		fmt.Fprintf(w, "  %s from %.5g to %.5g %s\n", axis, low[i]/k, high[i]/k, words.Length)
	}
	fmt.Fprintf(w, "  from the origin of the %s frame %.5g to %.5g %s\n", words.MeasuredIn, near/k, far/k, words.Length)
}
