package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"seamwright/unit"
	"seamwright/weld/symbol"
)

// symbolQuestion is what the call of `symbol` holds, as typed.
type symbolQuestion struct {
	text                     string
	system, to, svg          string
	length, angle, thickness string
	units                    string
}

func symbolCommand() *cobra.Command {
	var q symbolQuestion
	cmd := &cobra.Command{
		Use:   `symbol "TEXT"`,
		Short: "What a weld symbol means, in words, in the other system, as a drawing",
		Long: `What a weld symbol means, in words, in the other system, as a drawing.

The symbol is written as text, for example
  seamwright symbol "AWS: 5 fillet, both sides, 60-150, staggered" --length "1200 mm" --thickness "6 mm"
  seamwright symbol "ISO-A: a5 arrow side, 3 x 60 (90), all round" --to aws --svg a5.svg
  seamwright symbol 'V 8(10) arrow side, root 2, angle 60, tail "GMAW"' --system aws --thickness "12 mm"
The systems are iso-a (solid and dashed line), iso-b (one line) and aws. Where the two
standards write different things alike, both readings are told. --length counts the
stitches, --thickness (of the thinner plate) holds sizes and gaps against it.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%d texts: write the symbol as one text in quotation marks, such as \"a5 arrow side\"", len(args))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			q.text = args[0]
			return q.answer(cmd.OutOrStdout())
		},
	}
	f := cmd.Flags()
	f.StringVar(&q.system, "system", "", "system of the drawing, where the text names none: iso-a, iso-b or aws")
	f.StringVar(&q.to, "to", "", "write the symbol in this system: iso-a (or iso), iso-b or aws")
	f.StringVar(&q.svg, "svg", "", "draw the symbol, as converted, into this file")
	f.StringVar(&q.length, "length", "", "length of the joint")
	f.StringVar(&q.angle, "angle", "90 deg", "included angle between the plates")
	f.StringVar(&q.thickness, "thickness", "", "thickness of the thinner plate")
	f.StringVar(&q.units, "units", "metric", "units of the answer: metric or inch")
	systems := words("iso-a", "iso-b", "aws")
	length := quantity(unit.Length)
	completeFlags(cmd, map[string]completer{"system": systems, "to": systems, "svg": files("svg"), "length": length, "thickness": length,
		"angle": quantity(unit.Angle), "units": words("metric", "inch")})
	return cmd
}

// symbolNumbers are the same in SI; 0 means not given.
type symbolNumbers struct {
	system, to               symbol.System
	length, angle, thickness float64 // m, rad, m
	units                    unit.System
}

// parse reads every flag and reports all that cannot be read at once.
func (q *symbolQuestion) parse() (n symbolNumbers, err error) {
	var errs []error
	read := func(flag string, k unit.Kind, text string) float64 {
		if text == "" {
			return 0
		}
		v, err := unit.Parse(k, text)
		if err == nil && !(v > 0) {
			err = fmt.Errorf("%q: more than 0 is allowed", text)
		}
		if err != nil {
			errs = append(errs, fmt.Errorf("--%s: %w", flag, err))
		}
		return v
	}
	named := func(flag, text string) symbol.System {
		s, ok := map[string]symbol.System{"": 0, "iso": symbol.ISO2553A, "iso-a": symbol.ISO2553A, "iso-b": symbol.ISO2553B, "aws": symbol.AWSA24}[strings.ToLower(text)]
		if !ok {
			errs = append(errs, fmt.Errorf("--%s %q: write iso-a (solid and dashed line), iso-b (one line) or aws", flag, text))
		}
		return s
	}
	n.system, n.to = named("system", q.system), named("to", q.to)
	n.length, n.angle, n.thickness = read("length", unit.Length, q.length), read("angle", unit.Angle, q.angle), read("thickness", unit.Length, q.thickness)
	if n.units, err = unit.ParseSystem(q.units); err != nil {
		errs = append(errs, fmt.Errorf("--units: %w", err))
	}
	if q.svg != "" && !strings.HasSuffix(strings.ToLower(q.svg), ".svg") {
		errs = append(errs, fmt.Errorf("--svg %q: name a file that ends with .svg", q.svg))
	}
	return n, errors.Join(errs...)
}

func (q *symbolQuestion) answer(out io.Writer) error {
	n, err := q.parse()
	if err != nil {
		return err
	}
	s, err := symbol.ParseBy(q.text, n.system)
	if err != nil {
		return pointed(err)
	}
	if n.system != 0 && s.System != n.system {
		return fmt.Errorf("the text names %v, --system %v: leave one of them out", s.System, n.system)
	}
	context := symbol.Context{Units: n.units, Angle: n.angle}
	fmt.Fprintln(out, s)
	for _, line := range s.Reading(context) {
		fmt.Fprintln(out, "  "+line)
	}
	joint := symbolJoint{symbolNumbers: n, says: s}
	lines, err := joint.lines()
	for _, line := range lines {
		fmt.Fprintln(out, "  "+line)
	}
	if err != nil {
		return err
	}
	drawn := s
	if n.to != 0 {
		converted, err := s.Convert(symbol.Conversion{To: n.to, Angle: n.angle, Joint: n.length})
		if e := (*symbol.Error)(nil); errors.As(err, &e) && n.length == 0 && e.Name == symbol.BadRun {
			return fmt.Errorf("%w: give it as --length", err)
		}
		if err != nil {
			return err
		}
		drawn = converted.Symbol
		fmt.Fprintf(out, "\n%v\n", drawn)
		for _, note := range converted.Notes {
			fmt.Fprintln(out, "  "+note)
		}
	}
	if q.svg == "" {
		return nil
	}
	return q.draw(out, drawn, n.units)
}

// draw writes the drawing; inches stand in those of AWS alone.
func (q *symbolQuestion) draw(out io.Writer, s symbol.Symbol, units unit.System) error {
	if s.System != symbol.AWSA24 {
		units = unit.Metric
	}
	svg, err := s.SVG(units)
	if err != nil {
		return err
	}
	if err := writeFile(q.svg, []byte(svg)); err != nil {
		return err
	}
	fmt.Fprintf(out, "\ndrawn in %s: compare it with the drawing's standard before use\n", q.svg)
	return nil
}

// pointed puts the text under an error of a symbol, with a mark where it is.
func pointed(err error) error {
	e := (*symbol.Error)(nil)
	if !errors.As(err, &e) || e.Column == 0 {
		return err
	}
	return fmt.Errorf("%w\n  %s\n  %s^", err, e.Text, strings.Repeat(" ", e.Column-1))
}
