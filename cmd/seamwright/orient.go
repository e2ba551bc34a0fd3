package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"seamwright/geom/se3"
)

func orientCommand() *cobra.Command {
	var to string
	var decimals int
	cmd := &cobra.Command{
		Use:   `orient "CONVENTION" NUMBER...`,
		Short: "Convert one orientation between all conventions",
		Long: `Convert one orientation between all conventions.

The convention is said in words, the numbers follow in its order, for example
  seamwright orient "fixed x-y-z degrees" 134.37 -8.54 34.13
  seamwright orient --to "quaternion w first" "moving z-y-x degrees" 34.13 -8.54 134.37
Options come before the convention. Without numbers the conventions are listed.`,
		RunE: func(cmd *cobra.Command, args []string) error {
			return orient(cmd, args, to, decimals)
		},
	}
	cmd.Flags().SetInterspersed(false) // numbers may begin with a minus
	cmd.SetFlagErrorFunc(func(_ *cobra.Command, err error) error {
		return fmt.Errorf("%w; the convention comes first, then its numbers", err)
	})
	cmd.Flags().StringVar(&to, "to", "", "show this convention only")
	cmd.Flags().IntVar(&decimals, "decimals", 4, "digits after the point")
	cmd.ValidArgsFunction = once(conventions)
	completeFlags(cmd, map[string]completer{"to": conventions})
	return cmd
}

func orient(cmd *cobra.Command, args []string, to string, decimals int) error {
	if decimals < 0 || decimals > 15 {
		return fmt.Errorf("--decimals %d: 0 to 15 is allowed", decimals)
	}
	out := cmd.OutOrStdout()
	if len(args) == 0 {
		for _, c := range se3.Conventions() {
			fmt.Fprintf(out, "%s: %s\n", c, strings.Join(c.Names(), ", "))
		}
		return nil
	}
	from, err := se3.ParseConvention(args[0])
	if err != nil {
		return err
	}
	numbers := make([]float64, 0, len(args)-1)
	for _, a := range args[1:] {
		for _, field := range strings.FieldsFunc(a, func(r rune) bool { return r == ',' || r == ' ' || r == ';' }) {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				return notANumber(field, from)
			}
			numbers = append(numbers, v)
		}
	}
	r, err := from.Decode(numbers)
	if err != nil {
		return err
	}
	wanted := se3.Conventions()
	if to != "" {
		c, err := se3.ParseConvention(to)
		if err != nil {
			return fmt.Errorf("--to: %w", err)
		}
		wanted = []se3.Convention{c}
	}
	return orientTable(cmd, r, wanted, decimals)
}

// notANumber names the slip: an option that comes too late, or something else.
func notANumber(field string, from se3.Convention) error {
	if strings.HasPrefix(field, "--") {
		return fmt.Errorf("%s comes after the convention: options come before it", field)
	}
	return fmt.Errorf("%q is not a number: %d numbers follow the convention: %s", field, from.Len(), strings.Join(from.Names(), ", "))
}

func orientTable(cmd *cobra.Command, r se3.Rot, wanted []se3.Convention, decimals int) error {
	w := tabwriter.NewWriter(cmd.OutOrStdout(), 0, 0, 2, ' ', 0)
	var rules []se3.Rule // why some are not unique, each said once
	for _, c := range wanted {
		numbers := make([]float64, c.Len())
		_, lock := c.Encode(r, numbers)
		cells := make([]string, len(numbers))
		for i, v := range numbers {
			cells[i] = strconv.FormatFloat(zeroed(v, decimals), 'f', decimals, 64)
		}
		mark := ""
		if lock.Locked() {
			if !slices.Contains(rules, lock.Rule) {
				rules = append(rules, lock.Rule)
			}
			mark = "  " + strings.Repeat("*", 1+slices.Index(rules, lock.Rule))
		}
		fmt.Fprintf(w, "%s\t%s%s\n", c, strings.Join(cells, ", "), mark)
	}
	z := r.Z()
	fmt.Fprintf(w, "wire direction (tool z)\t%s\n", vector(z.X, z.Y, z.Z, decimals))
	if err := w.Flush(); err != nil {
		return err
	}
	for i, rule := range rules {
		fmt.Fprintf(cmd.OutOrStdout(), "%s not unique: %v\n", strings.Repeat("*", i+1), rule)
	}
	return nil
}

func vector(x, y, z float64, decimals int) string {
	cells := make([]string, 3)
	for i, v := range []float64{x, y, z} {
		cells[i] = strconv.FormatFloat(zeroed(v, decimals), 'f', decimals, 64)
	}
	return strings.Join(cells, ", ")
}

// zeroed takes the minus from a number that prints as zero.
func zeroed(v float64, decimals int) float64 {
	if math.Abs(v) < 0.5*math.Pow(10, -float64(decimals)) {
		return 0
	}
	return v
}
