package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"seamwright/bench/gauge"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld/accept"
	"seamwright/weld/deposit"
)

// gaugeSheet prints what readings say for a person at a terminal.
type gaugeSheet struct {
	job           *job.Job
	date          string
	result        gauge.Result
	system        unit.System
	oneWeld       bool   // one weld was asked for, not the job
	learned, kept string // the file of what was learned; "" where nothing was written
}

// news reports whether there is anything to keep.
func (s *gaugeSheet) news() bool {
	for _, l := range s.result.Lessons {
		if l.Added > 0 || len(l.LeftOut) > 0 {
			return true
		}
	}
	return false
}

// print returns whether everything was read and accepted.
func (s *gaugeSheet) print(out io.Writer) bool {
	title := s.job.Name
	if s.job.Revision != "" {
		title += ", revision " + s.job.Revision
	}
	fmt.Fprintf(out, "%s: readings of %s%s\n", title, s.date, s.by())
	for i := range s.result.Seams {
		s.seam(out, &s.result.Seams[i])
	}
	for i := range s.result.Lessons {
		s.lesson(out, &s.result.Lessons[i])
	}
	switch {
	case s.kept != "":
		fmt.Fprintf(out, "\nKept in %s\n", s.kept)
	case len(s.result.Lessons) > 0:
		fmt.Fprint(out, "\nNothing kept: there was nothing new, or it was not asked for\n")
	}
	passed := s.verdict(out)
	fmt.Fprint(out, "Arithmetic on the readings that were typed. It does not replace visual testing by a qualified inspector, nor the\nedition that the contract names; cracks and lack of fusion are for trained eyes and the tests of the contract.\n")
	return passed
}

// by names the standard.
func (s *gaugeSheet) by() string {
	a := s.job.Acceptance
	if a == nil {
		return ""
	}
	std := a.Standard
	text := fmt.Sprintf(", by %v:%s", std.Code, std.Edition)
	switch {
	case std.Code == accept.D11 && std.Load == accept.Cyclic:
		return text + ", cyclic load"
	case std.Code == accept.D11:
		return text + ", static load"
	case std.Execution != 0:
		return text + ", " + std.Execution.String()
	}
	return text + ", level " + std.Level.String()
}

func (s *gaugeSheet) seam(out io.Writer, seam *gauge.Seam) {
	fmt.Fprintf(out, "\n%s\n", seam.Name)
	if seam.Unjudged != "" {
		fmt.Fprintf(out, "  NOT JUDGED: %s\n", seam.Unjudged)
	} else {
		rows := [][]string{{"  imperfection", "verdict", "read", "limit", "rule", "source"}}
		var unread, remarks []string
		for _, v := range seam.Verdicts {
			if v.State == accept.NotRead {
				unread = append(unread, v.Name)
				continue
			}
			measured, limit := v.Figures()
			state := v.State.String()
			if v.State != accept.Accepted {
				state = strings.ToUpper(state)
			}
			rows = append(rows, []string{"  " + v.Name, state, measured, limit, v.Words, v.Source.String()})
			if r := v.Remarks(); r != "" {
				remarks = append(remarks, v.Name+": "+r)
			}
		}
		if len(rows) > 1 {
			printTable(out, rows)
		}
		for _, r := range remarks {
			fmt.Fprintf(out, "  %s\n", r)
		}
		if len(unread) > 0 {
			fmt.Fprintf(out, "  not read, so not passed: %s\n", strings.Join(unread, ", "))
		}
		if a := s.job.Acceptance; a.Standard.Load == accept.Cyclic && !slices.Contains(a.AcrossTension, seam.Name) {
			fmt.Fprint(out, "  taken as not across tension in a primary member: acceptance does not name it under across_tension\n")
		}
		if s.job.Acceptance.Standard.Code == accept.D11 {
			fmt.Fprint(out, "  not held here: ends of a girder's web-to-flange welds, where no leg may be under its size\n")
		}
	}
	s.mend(out, seam)
	for _, n := range seam.Notes {
		fmt.Fprintf(out, "  note: %s\n", n)
	}
}

func (s *gaugeSheet) mend(out io.Writer, seam *gauge.Seam) {
	if c := seam.Speed; c != nil {
		got := fmt.Sprintf("%s at %s where %s is wanted", s.fine(c.Got), s.speed(c.Was), s.fine(c.Wanted))
		switch {
		case c.Refused != "":
			fmt.Fprintf(out, "  speed: %s\n", c.Refused)
		case !c.Tells():
			fmt.Fprintf(out, "  speed: leg %s; within what this gauge can tell: leave it\n", got)
		case c.Passes > 1:
			fmt.Fprintf(out, "  speed: leg %s in %d passes: %.2f times the speed of every pass\n", s.fine(c.Got)+" where "+s.fine(c.Wanted)+" is wanted", c.Passes, c.Ratio)
		default:
			fmt.Fprintf(out, "  speed: leg %s: %.2f times the speed, %s\n", got, c.Ratio, s.speed(c.Mended))
		}
	}
	if a := seam.Aim; a != nil {
		pair := fmt.Sprintf("leg %s on the base plate, %s on the upright", s.fine(a.Base), s.fine(a.Other))
		switch {
		case a.Refused != "":
			fmt.Fprintf(out, "  aim: %s\n", a.Refused)
		case !a.Tells():
			fmt.Fprintf(out, "  aim: %s; within what this gauge can tell: leave it\n", pair)
		default:
			to := "onto the base plate"
			if a.Shift.Value < 0 {
				to = "towards the upright"
			}
			fmt.Fprintf(out, "  aim: %s: shift it %s %s, offset %s (%v)\n", pair, s.fine(math.Abs(a.Shift.Value)), to, s.fine(a.Was+a.Shift.Value), a.Shift.Source)
		}
	}
}

func (s *gaugeSheet) lesson(out io.Writer, l *gauge.Lesson) {
	fmt.Fprintf(out, "\nSettings set %s, %s that count, %d new", l.Settings, counted(l.Readings, "reading", "readings"), l.Added)
	if l.Again > 0 {
		fmt.Fprintf(out, ", %d entered before and not counted again", l.Again)
	}
	fmt.Fprintln(out)
	rows := [][]string{{"  ", "before", "now"}}
	row := func(name string, of func(deposit.Belief) string) {
		rows = append(rows, []string{"  " + name, of(l.Before), of(l.After)})
	}
	row("deposition efficiency", func(b deposit.Belief) string {
		return fmt.Sprintf("%.1f %% +- %.1f", b.Efficiency*100, b.Efficiency*b.EfficiencySpread*100)
	})
	row("face factor", func(b deposit.Belief) string {
		return fmt.Sprintf("%.3f +- %.3f", b.FaceFactor, b.FaceFactor*b.FaceSpread)
	})
	row("a leg comes out within", func(b deposit.Belief) string { return fmt.Sprintf("%.1f %% in two of three places", b.LegSpread()*100) })
	printTable(out, rows)
	for _, o := range l.LeftOut {
		fmt.Fprintf(out, "  OUTLIER  %s: %s. It is kept in the file and does not count.\n", o.Where, o.Why)
	}
	for _, n := range l.Next {
		fmt.Fprintf(out, "  %s: planned at %s, with what was learned %s\n", n.Seam, s.speed(n.Was), s.speed(n.Now))
	}
	if s.job.Learned == nil {
		fmt.Fprintf(out, "  The plan uses it where the job says learned: %s\n", s.learned)
	}
}

// verdict prints the last word and returns whether all is read and accepted.
func (s *gaugeSheet) verdict(out io.Writer) bool {
	var bad, open []string
	for i := range s.result.Seams {
		seam := &s.result.Seams[i]
		unread := 0
		if seam.Unjudged != "" {
			open = append(open, seam.Name+" is not judged")
		}
		for _, v := range seam.Verdicts {
			switch v.State {
			case accept.Rejected:
				bad = append(bad, seam.Name+" "+v.Name)
			case accept.Undecided:
				open = append(open, seam.Name+" "+v.Name+" undecided")
			case accept.NotRead:
				unread++
			}
		}
		if unread > 0 {
			open = append(open, fmt.Sprintf("%s %d not read", seam.Name, unread))
		}
	}
	if len(s.result.Unread) > 0 && !s.oneWeld {
		open = append(open, "no readings of "+strings.Join(s.result.Unread, ", "))
	}
	fmt.Fprintln(out)
	if len(bad) > 0 {
		fmt.Fprintf(out, "REJECTED: %s\n", strings.Join(bad, "; "))
	}
	if len(open) > 0 {
		fmt.Fprintf(out, "NOT ACCEPTED YET: %s\n", strings.Join(open, "; "))
	}
	if len(bad)+len(open) == 0 {
		fmt.Fprint(out, "ACCEPTED as read\n")
	}
	return len(bad)+len(open) == 0
}

// fine prints a length of the size of a weld.
func (s *gaugeSheet) fine(x float64) string {
	if s.system == unit.Metric {
		return unit.Format(x, unit.Millimetres, 1)
	}
	return unit.FormatIn(unit.Length, x, s.system)
}

func (s *gaugeSheet) speed(v float64) string { return sizeText(unit.Speed, v, s.system) }
