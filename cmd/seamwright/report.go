package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"seamwright/bench/export"
	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/robot/contact"
	"seamwright/unit"
)

// report prints a plan for a person at a terminal.
type report struct {
	out    io.Writer
	system unit.System
	keys   bool // print the values to key in
}

const rad = math.Pi / 180 // radians in a degree

func (r report) print(j *job.Job, p *plan.Plan, dir string) error {
	title := j.Name
	for _, extra := range []string{j.Part, j.Drawing} {
		if extra != "" {
			title += ", " + extra
		}
	}
	if j.Revision != "" {
		title += ", revision " + j.Revision
	}
	fmt.Fprintln(r.out, title)
	fmt.Fprintln(r.out)
	r.seams(j, p)
	r.clearances(p)
	r.taught(p)
	if r.keys {
		fmt.Fprintln(r.out)
		if err := export.Keys(r.out, j, p); err != nil {
			return err
		}
	}
	r.distortion(p)
	r.arm(j)
	r.findings(p)
	r.verdict(p, dir)
	return nil
}

func (r report) seams(j *job.Job, p *plan.Plan) {
	w := tabwriter.NewWriter(r.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "seam\tjoint\tlength\tposition\twork\ttravel\tspin\tset\tleg\tspeed\theat input\tt8/5\tlimit\twrist\tarc time")
	for i := range p.Seams {
		s := &p.Seams[i]
		for k := range s.Passes {
			pass := &s.Passes[k]
			cells := []string{passTitle(s, pass), s.Geometry.Joint().String(), r.fine(unit.Length, s.Length), s.PositionText(j.Code),
				s.WorkText(pass.Aim), lean(pass.Aim.Travel), pass.SpinText(), pass.Size.Settings,
				r.leg(pass.Size), r.quantity(unit.Speed, pass.Size.Travel), r.quantity(unit.EnergyPerLength, pass.Size.HeatInput), cooling(&pass.Heat)}
			cells = append(cells, margins(p, pass)...)
			cells = append(cells, fmt.Sprintf("%.0f s", pass.Size.ArcTime))
			fmt.Fprintln(w, strings.Join(cells, "\t"))
		}
	}
	w.Flush()
	for i := range p.Seams {
		for k := range p.Seams[i].Passes {
			pass := &p.Seams[i].Passes[k]
			if pass.Weave != nil {
				fmt.Fprintf(r.out, "%s weaves: %s\n", passTitle(&p.Seams[i], pass), pass.Weave.Text(r.system))
			}
			r.corners(&p.Seams[i], pass)
		}
	}
	r.stitches(p)
	r.symbols(j)
	wait := ""
	if p.Times.Wait > 0 {
		wait = fmt.Sprintf(", cooling between passes %s", clock(p.Times.Wait))
	}
	fmt.Fprintf(r.out, "\narc %s, air %s%s, whole run %s\n", clock(p.Times.Arc), clock(p.Times.Air), wait, clock(p.Times.Total))
}

// passTitle is what a pass is called in the table: "W1", or "W1 2 fill" where the
// seam has several.
func passTitle(s *plan.Seam, p *plan.Pass) string {
	if p.Role == 0 {
		return s.Name
	}
	return fmt.Sprintf("%s %d %v", s.Name, p.Number, p.Role)
}

// cooling is how long a pass takes from 800 to 500 degrees C, quickest to slowest.
func cooling(h *plan.Heat) string {
	if !h.Known {
		return "not known"
	}
	fast, slow := fmt.Sprintf("%.1f", h.Fast.Time), fmt.Sprintf("%.1f", h.Slow.Time)
	if fast == slow {
		return fast + " s"
	}
	return fast + " to " + slow + " s"
}

func (r report) leg(s plan.Size) string {
	switch {
	case s.LegBase == 0:
		return unit.FormatIn(unit.Area, s.Area, r.system)
	case math.Abs(s.LegBase-s.LegOther) < 1e-6:
		return r.fine(unit.Length, s.LegBase)
	}
	return r.fine(unit.Length, s.LegBase) + " x " + r.fine(unit.Length, s.LegOther)
}

// margins says how near the posture comes to a joint limit and to a wrist
// singularity.
func margins(p *plan.Plan, pass *plan.Pass) []string {
	m := pass.Motion
	if m == nil {
		return []string{"no posture", ""}
	}
	return []string{
		fmt.Sprintf("%.0f deg (%s)", m.LimitMargin/rad, p.Cell.Chain.Joint(m.LimitJoint).Name),
		fmt.Sprintf("%.0f deg", m.WristMargin/rad),
	}
}

func (r report) taught(p *plan.Plan) {
	if !slices.ContainsFunc(p.Seams, func(s plan.Seam) bool { return len(s.Taught) > 0 }) {
		return
	}
	w := tabwriter.NewWriter(r.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "\nas taught\tpoint\toff the seam\twork taught\twanted\ttravel taught\twanted\tspin taught\tplanned")
	for i := range p.Seams {
		for _, t := range p.Seams[i].Taught {
			off := r.fine(unit.Length, t.Across)
			if t.Role == plan.RoleApproach || t.Role == plan.RoleRetreat {
				off = ""
			}
			fmt.Fprintf(w, "%s %s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", p.Seams[i].Name, t.Role, t.Label, off,
				degrees(t.Work), degrees(t.WantedWork), lean(t.Travel), lean(t.WantedTravel), degrees(t.Spin), degrees(t.WantedSpin))
		}
	}
	w.Flush()
}

// arm prints what the job says of carrying and guiding the arm.
func (r report) arm(j *job.Job) {
	var masses []string
	if j.Arm.Payload > 0 {
		masses = append(masses, "payload of the arm "+r.quantity(unit.Mass, j.Arm.Payload))
	}
	if j.Torch.Mass > 0 {
		masses = append(masses, "mass of the torch "+r.quantity(unit.Mass, j.Torch.Mass))
	}
	if len(masses) > 0 {
		fmt.Fprintf(r.out, "\n%s\n", strings.Join(masses, ", "))
	}
	if len(j.Arm.HandGuiding) > 0 {
		fmt.Fprintf(r.out, "\nguiding the arm by hand\n")
	}
	for _, note := range j.Arm.HandGuiding {
		fmt.Fprintf(r.out, "      %s\n", note)
	}
	if wire := j.Torch.WireDiameter; wire > 0 && len(j.Arm.HandGuiding) > 0 {
		if force, err := contact.TipForce(wire, handPressure); err == nil {
			fmt.Fprintf(r.out, "      a bare %s wire may press on a hand with %.1f N and no more (ISO/TS 15066, pressure from memory): cut it back first\n", unit.FormatIn(unit.Length, wire, r.system), force)
		}
	}
}

// handPressure is what ISO/TS 15066 lets press on a hand, Pa: the low end of 190 to 300
// N/cm2, from memory.
const handPressure = 190e4

func (r report) findings(p *plan.Plan) {
	for _, severity := range []finding.Severity{finding.Stop, finding.Caution, finding.Note} {
		for _, f := range p.Findings {
			if f.Severity != severity {
				continue
			}
			fmt.Fprintf(r.out, "\n%s  %s  [%s]\n", strings.ToUpper(severity.String()), f.Message, f.Code)
			if f.Remedy != "" {
				fmt.Fprintf(r.out, "      mend: %s\n", f.Remedy)
			}
			fmt.Fprintf(r.out, "      source: %s\n", f.Source)
		}
	}
}

func (r report) verdict(p *plan.Plan, dir string) {
	count := map[finding.Severity]int{}
	for _, f := range p.Findings {
		count[f.Severity]++
	}
	verdict := "FIT to dry run"
	if count[finding.Stop] > 0 {
		verdict = "STOPPED"
	}
	fmt.Fprintf(r.out, "\n%s: %d stop, %d caution, %d note. Plan in %s\n", verdict, count[finding.Stop], count[finding.Caution], count[finding.Note], dir)
}

func (r report) quantity(k unit.Kind, si float64) string { return unit.FormatIn(k, si, r.system) }

// fine prints lengths of the size of a weld, which want a tenth of a
// millimetre.
func (r report) fine(k unit.Kind, si float64) string {
	if r.system == unit.Metric {
		return unit.Format(si, unit.Millimetres, 1)
	}
	return unit.FormatIn(k, si, r.system)
}

func degrees(x float64) string {
	if math.Abs(x) < 0.05*rad {
		x = 0
	}
	return fmt.Sprintf("%.1f", x/rad)
}

// lean prints a travel angle in words.
func lean(x float64) string {
	switch {
	case math.Abs(x) < 0.05*rad:
		return "0.0"
	case x > 0:
		return fmt.Sprintf("%.1f push", x/rad)
	}
	return fmt.Sprintf("%.1f drag", -x/rad)
}

func clock(s float64) string {
	if s < 100 {
		return fmt.Sprintf("%.1f s", s)
	}
	whole := int(math.Round(s))
	return fmt.Sprintf("%d min %02d s", whole/60, whole%60)
}
