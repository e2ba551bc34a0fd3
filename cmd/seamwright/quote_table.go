package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/quote"
)

// quoteSheet prints a quote for a person at a terminal.
type quoteSheet struct {
	title     string
	parts     int
	system    unit.System
	quote     quote.Quote
	rates     *job.Rates
	ratesFrom string // file of the rates, "" where they are assumed
}

func (s *quoteSheet) print(out io.Writer) {
	fmt.Fprintf(out, "%s, batch of %s; sums in %s\n\n", s.title, counted(s.parts, "part", "parts"), s.rates.Currency)
	printTable(out, s.lines())
	fmt.Fprintln(out)
	printTable(out, s.plans())
	fmt.Fprintf(out, "\n%s\n", s.breakEven())
	fmt.Fprintln(out)
	for _, c := range s.cautions() {
		fmt.Fprintf(out, "CAUTION  %s\n", c)
	}
	if s.ratesFrom == "" {
		fmt.Fprint(out, "RATES ASSUMED: none were given, and these are invented. Give your own: --rates rates.yaml\n\n")
	}
	printTable(out, s.assumptions())
	for _, n := range s.notCounted() {
		fmt.Fprintf(out, "not counted: %s\n", n)
	}
	fmt.Fprint(out, "\nAn estimate, to be checked by a person who knows the shop. What stands still between arcs is in the operating factors\n(air moves, cleaning, inspection); fit-up, tacking, repair and holds at corners are not counted.\n")
}

// cautions are those of the lines, each with the welds that it concerns.
func (s *quoteSheet) cautions() []string {
	var texts []string
	marks := map[string][]string{}
	for _, l := range s.quote.Lines {
		for _, c := range l.Cautions {
			if marks[c] == nil {
				texts = append(texts, c)
			}
			marks[c] = append(marks[c], l.Mark)
		}
	}
	for i, c := range texts {
		texts[i] = strings.Join(marks[c], ", ") + ": " + c
	}
	return texts
}

// printTable prints rows in columns, the first row being their names.
func printTable(out io.Writer, rows [][]string) {
	var text strings.Builder
	w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	for _, cells := range rows {
		fmt.Fprintln(w, strings.Join(cells, "\t"))
	}
	w.Flush()
	for line := range strings.Lines(text.String()) {
		fmt.Fprintln(out, strings.TrimRight(line, " \n"))
	}
}

// lines is the table of the welds of a part.
func (s *quoteSheet) lines() [][]string {
	rows := [][]string{{"weld", "size", "length", "passes", "set", "travel", "metal", "wire", "gas", "arc time", "by arm", "by hand", "cost by arm", "cost by hand"}}
	var mass, arc float64
	for _, l := range s.quote.Lines {
		arm, cost := minutes(l.ByArm.Time), money(l.CostArm)
		if l.By == quote.Hand {
			arm, cost = "by hand", ""
		}
		rows = append(rows, []string{l.Mark, sizeWords(l), s.length(l.Length), fmt.Sprint(l.Passes), sets(l), unit.FormatIn(unit.Speed, l.Travel, s.system),
			s.mass(l.Mass), s.mass(l.ByHand.Wire), s.gas(l.ByHand.Gas), minutes(l.ArcTime), arm, minutes(l.ByHand.Time), cost, money(l.CostHand)})
		mass, arc = mass+l.Mass, arc+l.ArcTime
	}
	all := s.quote.AllByHand.Use
	return append(rows, []string{"a part", "", "", "", "", "", s.mass(mass), s.mass(all.Wire), s.gas(all.Gas), minutes(arc)})
}

// sizeWords is what a line calls for.
func sizeWords(l quote.Line) string {
	if l.Laid != nil {
		return l.Laid.Words
	}
	if l.Count > 1 {
		return fmt.Sprintf("%d of %v", l.Count, l.Symbol)
	}
	return l.Symbol.String()
}

// sets are the settings sets of a line, each once.
func sets(l quote.Line) string {
	if l.Laid == nil {
		return l.Settings
	}
	var names []string
	for i, p := range l.Laid.Passes {
		if i == 0 || p.Settings != l.Laid.Passes[i-1].Settings {
			names = append(names, p.Settings)
		}
	}
	return strings.Join(names, ", ")
}

// plans is the table of the two ways to weld the part.
func (s *quoteSheet) plans() [][]string {
	arm, hand := s.quote.WithArm, s.quote.AllByHand
	row := func(name string, cell func(quote.Plan) string) []string { return []string{name, cell(arm), cell(hand)} }
	sum := func(x float64) string { return money(x) + " " + s.rates.Currency }
	return [][]string{
		{"", "arm where it may", "all by hand"},
		row("worked time a part, handling included", func(p quote.Plan) string { return minutes(p.Use.Time) }),
		row("labour", func(p quote.Plan) string { return sum(p.Cost.Labour) }),
		row("wire", func(p quote.Plan) string { return counts(p.Use.Wire, p.Cost.Wire, sum) }),
		row("gas", func(p quote.Plan) string { return counts(p.Use.Gas, p.Cost.Gas, sum) }),
		row("energy", func(p quote.Plan) string { return counts(p.Use.Energy, p.Cost.Energy, sum) }),
		row("cost a part", func(p quote.Plan) string { return sum(p.Cost.Total()) }),
		row("once for the batch", func(p quote.Plan) string { return sum(p.Batch.Once) }),
		row("the batch of "+counted(s.parts, "part", "parts"), func(p quote.Plan) string { return sum(p.Total) }),
	}
}

// counts prints a sum, or that it is not counted: nothing is known to be used, or
// it has no price.
func counts(used, cost float64, sum func(float64) string) string {
	if used == 0 || cost == 0 {
		return "not counted"
	}
	return sum(cost)
}

// breakEven says from which batch on the arm is no dearer.
func (s *quoteSheet) breakEven() string {
	b := s.quote.BreakEven
	each := fmt.Sprintf("each part saves %s %s", money(b.PerPart), s.rates.Currency)
	if b.PerPart < 0 {
		each = fmt.Sprintf("each part costs %s %s more", money(-b.PerPart), s.rates.Currency)
	}
	text := ""
	switch b.Advantage {
	case deposit.Always:
		text = "no dearer from the first part"
	case deposit.FromSize:
		text = "no dearer from " + counted(b.Parts, "part", "parts") + " on"
	case deposit.UpToSize:
		text = "no dearer up to " + counted(b.Parts, "part", "parts")
	default:
		text = "dearer at every batch size"
	}
	return "break-even: with the arm " + text + "; " + each
}

// assumptions is the table of every figure that the quote rests on.
func (s *quoteSheet) assumptions() [][]string {
	rows := [][]string{{"it rests on", "value", "source"}}
	from := "given in " + s.ratesFrom
	if s.ratesFrom == "" {
		from = "assumed, invented"
	}
	per := func(what string, price float64, of string) {
		if price > 0 {
			rows = append(rows, []string{what, fmt.Sprintf("%s %s per %s", money(price), s.rates.Currency, of), from})
		}
	}
	times := func(what string, t float64) {
		if t > 0 {
			rows = append(rows, []string{what, minutes(t), from})
		}
	}
	arm, hand := s.rates.Arm, s.rates.Hand
	per("labour, arm", arm.Rates.Labour*unit.Hour, "h")
	per("labour, by hand", hand.Rates.Labour*unit.Hour, "h")
	per("wire", arm.Rates.Wire, "kg")
	per("gas", arm.Rates.Gas, "m3")
	per("energy", arm.Rates.Energy*3.6e6, "kWh")
	times("set-up for a batch, arm", arm.SetUp)
	times("teaching a seam, arm", arm.Teach)
	times("handling a part, arm", arm.Handling)
	times("set-up for a batch, by hand", hand.SetUp)
	times("handling a part, by hand", hand.Handling)
	for _, a := range s.quote.Assumptions {
		rows = append(rows, []string{a.What, figure(a.Figure), a.Figure.Source.String()})
	}
	return rows
}

// figure prints a figure and what is usual: "0.40 (0.30 to 0.50)".
func figure(f weld.Figure) string {
	text := fmt.Sprintf("%.3g", f.Value)
	if f.Value >= 1000 {
		text = fmt.Sprintf("%.0f", f.Value)
	}
	if u := f.Usual; u.HasLow && u.HasHigh && u.Low < u.High {
		text += fmt.Sprintf(" (%.3g to %.3g)", u.Low, u.High)
	}
	return text
}

// notCounted says what the rates leave out.
func (s *quoteSheet) notCounted() []string {
	var out []string
	say := func(missing bool, what string) {
		if missing {
			out = append(out, what+" (the rates do not give it)")
		}
	}
	arm, hand := s.rates.Arm, s.rates.Hand
	say(arm.Rates.Wire == 0, "price of wire")
	say(arm.Rates.Gas == 0, "price of gas")
	say(arm.Rates.Energy == 0, "price of energy")
	say(arm.SetUp == 0, "set-up for a batch, arm")
	say(arm.Teach == 0, "teaching a seam, arm")
	say(arm.Handling == 0, "handling a part, arm")
	say(hand.SetUp == 0, "set-up for a batch, by hand")
	say(hand.Handling == 0, "handling a part, by hand")
	return out
}

func (s *quoteSheet) length(m float64) string {
	if s.system == unit.Metric {
		return unit.Format(m, unit.Millimetres, 0)
	}
	return unit.Format(m, unit.Inches, 1)
}

// mass prints weld metal and wire to a gram or a thousandth of a pound.
func (s *quoteSheet) mass(kg float64) string {
	u, _ := unit.Mass.Preferred(s.system)
	return unit.Format(kg, u, 3)
}

const cubicFoot = 0.3048 * 0.3048 * 0.3048 // m3, exactly

// gas prints a volume of gas, m3; 0 is one that is not known.
func (s *quoteSheet) gas(m3 float64) string {
	if m3 == 0 {
		return "unknown"
	}
	if s.system == unit.InchPound {
		return fmt.Sprintf("%.2f ft3", m3/cubicFoot)
	}
	return fmt.Sprintf("%.1f L", m3*1e3)
}

// minutes prints a time, s, as shops count it.
func minutes(s float64) string {
	if s >= 100*unit.Hour {
		return unit.Format(s, unit.Hours, 0)
	}
	return unit.Format(s, unit.Minutes, 2)
}

// money prints a sum to two digits.
func money(x float64) string {
	if math.Abs(x) < 0.005 {
		x = 0
	}
	return fmt.Sprintf("%.2f", x)
}
