package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"strings"

	"seamwright/unit"
	"seamwright/weld/quote"
)

// quoteMark begins the CSV of a quote; a file that does not begin so is not
// written over.
const quoteMark = "# seamwright quote"

var quoteHeads = []string{"mark", "weld", "count", "by", "settings", "passes", "length_mm", "area_mm2", "travel_mm_s", "metal_kg", "wire_kg", "gas_l",
	"arc_s", "arm_worked_s", "hand_worked_s", "arm_cost", "hand_cost"}

// writeCSV writes the lines, the totals and every assumption.
func (s *quoteSheet) writeCSV(name string) error {
	if err := mayReplace(name, quoteMark); err != nil {
		return err
	}
	return writeFile(name, s.csv())
}

// mayReplace reports a file that this program did not write: it is not replaced.
func mayReplace(name, mark string) error {
	f, err := os.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	first, _ := bufio.NewReader(f).ReadString('\n') // a folder or an empty file has none
	if !strings.HasPrefix(first, mark) {
		return fmt.Errorf("%s is there already and does not begin with %q; name a new file", name, mark)
	}
	return nil
}

func (s *quoteSheet) csv() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s, batch of %d, sums in %s\n", quoteMark, s.title, s.parts, s.rates.Currency)
	if s.ratesFrom == "" {
		fmt.Fprintln(&b, "# RATES ASSUMED: none were given, and these are invented")
	}
	for _, row := range s.assumptions()[1:] {
		fmt.Fprintf(&b, "# %s = %s; %s\n", row[0], row[1], row[2])
	}
	for _, n := range s.notCounted() {
		fmt.Fprintf(&b, "# not counted: %s\n", n)
	}
	for _, c := range s.cautions() {
		fmt.Fprintf(&b, "# CAUTION %s\n", c)
	}
	w := csv.NewWriter(&b) // a bytes.Buffer takes all
	w.Write(quoteHeads)
	var mass, arc float64
	for _, l := range s.quote.Lines {
		size := l.Symbol.String()
		if l.Laid != nil {
			size = l.Laid.Words
		}
		arm, cost := fmt.Sprintf("%.1f", l.ByArm.Time), money(l.CostArm)
		if l.By == quote.Hand {
			arm, cost = "", ""
		}
		w.Write([]string{l.Mark, size, fmt.Sprint(l.Count), l.By.String(), sets(l), fmt.Sprint(l.Passes),
			fmt.Sprintf("%.1f", l.Length/unit.MM), fmt.Sprintf("%.2f", l.Area/unit.MM2), fmt.Sprintf("%.2f", l.Travel/unit.MMPerS),
			fmt.Sprintf("%.4f", l.Mass), fmt.Sprintf("%.4f", l.ByHand.Wire), litres(l.ByHand.Gas), fmt.Sprintf("%.1f", l.ArcTime),
			arm, fmt.Sprintf("%.1f", l.ByHand.Time), cost, money(l.CostHand)})
		mass, arc = mass+l.Mass, arc+l.ArcTime
	}
	all := func(mark string, arm, hand string, times ...string) {
		w.Write(append(append([]string{mark, "", "", "", "", "", "", "", ""}, times...), arm, hand))
	}
	a, h := s.quote.WithArm, s.quote.AllByHand
	all("part", money(a.Cost.Total()), money(h.Cost.Total()), fmt.Sprintf("%.4f", mass), fmt.Sprintf("%.4f", h.Use.Wire), litres(h.Use.Gas),
		fmt.Sprintf("%.1f", arc), fmt.Sprintf("%.1f", a.Use.Time), fmt.Sprintf("%.1f", h.Use.Time))
	all("batch", money(a.Total), money(h.Total), "", "", "", "", "", "")
	w.Flush()
	return b.Bytes()
}

// litres prints a volume of gas, m3, and nothing for one that is not known.
func litres(m3 float64) string {
	if m3 == 0 {
		return ""
	}
	return fmt.Sprintf("%.2f", m3*1e3)
}
