package main

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// sizeQuestion is what the flags of `size` hold, as typed.
type sizeQuestion struct {
	leg, throat, area, angle, gap           string
	wire, feed, speed, efficiency, transfer string
	convexity                               float64
	volts, amps, power, process, length     string
	units                                   string
}

func sizeCommand() *cobra.Command {
	var q sizeQuestion
	cmd := &cobra.Command{
		Use:   "size",
		Short: "Leg, wire feed, travel speed and heat of a fillet",
		Long: `Leg, wire feed, travel speed and heat of a fillet by the metal balance.

Give two of size, feed and speed; the third is computed. With all three the size
that feed and speed really give is held against the one wanted. Examples:
  seamwright size --leg "5 mm" --wire "1.0 mm" --feed "9 m/min"
  seamwright size --leg "1/4 in" --wire "0.045 in" --feed "350 in/min" --units inch
  seamwright size --wire "1.0 mm" --feed "9 m/min" --speed "6.8 mm/s" --volts "23.5 V" --amps "205 A"
  seamwright size --throat "8.5 mm" --wire "1.2 mm" --speed "6.65 mm/s"`,
		Args: noBareWords,
		RunE: func(cmd *cobra.Command, _ []string) error { return q.answer(cmd) },
	}
	f := cmd.Flags()
	f.StringVar(&q.leg, "leg", "", "leg wanted")
	f.StringVar(&q.throat, "throat", "", "throat wanted")
	f.StringVar(&q.area, "area", "", "bead area wanted")
	f.StringVar(&q.angle, "angle", "90 deg", "included angle between the plates")
	f.StringVar(&q.gap, "gap", "", "fit-up gap, added to the leg by the gap rule")
	f.StringVar(&q.wire, "wire", "", "wire diameter (required)")
	f.StringVar(&q.feed, "feed", "", "wire feed speed")
	f.StringVar(&q.speed, "speed", "", "travel speed")
	f.StringVar(&q.efficiency, "efficiency", "", `deposition efficiency, such as "96 percent" (default by the transfer)`)
	f.StringVar(&q.transfer, "transfer", "spray", "short-circuit, globular, spray or pulsed")
	f.Float64Var(&q.convexity, "convexity", 0, "bead area over flat-face area (default by the transfer)")
	f.StringVar(&q.volts, "volts", "", "arc voltage")
	f.StringVar(&q.amps, "amps", "", "current")
	f.StringVar(&q.power, "power", "", "mean power of a waveform source, instead of volts and amps")
	f.StringVar(&q.process, "process", "135", "131, 135, 136 or 138")
	f.StringVar(&q.length, "length", "", "weld length, for arc time and weld metal")
	f.StringVar(&q.units, "units", "metric", "units of the answer: metric or inch")
	length := quantity(unit.Length)
	completeFlags(cmd, map[string]completer{"leg": length, "throat": length, "gap": length, "wire": length, "length": length,
		"area": quantity(unit.Area), "angle": quantity(unit.Angle), "feed": quantity(unit.WireFeed), "speed": quantity(unit.Speed),
		"volts": quantity(unit.Voltage), "amps": quantity(unit.Current), "power": quantity(unit.Power), "efficiency": quantity(unit.Ratio),
		"transfer": words("short-circuit", "globular", "spray", "pulsed"), "process": words("131", "135", "136", "138"), "units": words("metric", "inch")})
	return cmd
}

// noBareWords refuses what stands outside of the flags: most often the unit of
// a value without quotes.
func noBareWords(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%q stands alone; put quotes round a value with its unit, such as --leg \"5 mm\"", args[0])
	}
	return nil
}

// sizeNumbers are the same in SI; 0 means not given.
type sizeNumbers struct {
	leg, throat, area, angle, gap float64
	feed, speed, length           float64
	settings                      procedure.Settings
}

// parse reads every flag and reports all that cannot be read at once.
func (q *sizeQuestion) parse() (n sizeNumbers, system unit.System, err error) {
	var errs []error
	read := func(flag string, k unit.Kind, text string) float64 {
		if text == "" {
			return 0
		}
		v, err := unit.Parse(k, text)
		if err == nil && !(v > 0) && !(flag == "gap" && v == 0) {
			err = fmt.Errorf("%q: more than 0 is allowed", text)
		}
		if err != nil {
			errs = append(errs, fmt.Errorf("--%s: %w", flag, err))
		}
		return v
	}
	n.leg, n.throat, n.area = read("leg", unit.Length, q.leg), read("throat", unit.Length, q.throat), read("area", unit.Area, q.area)
	n.angle, n.gap = read("angle", unit.Angle, q.angle), read("gap", unit.Length, q.gap)
	n.feed, n.speed, n.length = read("feed", unit.WireFeed, q.feed), read("speed", unit.Speed, q.speed), read("length", unit.Length, q.length)
	s := &n.settings
	s.ID = "size"
	s.WireDiameter, s.Efficiency = read("wire", unit.Length, q.wire), read("efficiency", unit.Ratio, q.efficiency)
	s.Volts, s.Amps, s.Power = read("volts", unit.Voltage, q.volts), read("amps", unit.Current, q.amps), read("power", unit.Power, q.power)
	s.Convexity = q.convexity
	if s.Transfer, err = weld.ParseTransfer(q.transfer); err != nil {
		errs = append(errs, fmt.Errorf("--transfer: %w", err))
	}
	if s.Process, err = weld.ParseProcess(q.process); err != nil {
		errs = append(errs, fmt.Errorf("--process: %w", err))
	}
	if system, err = unit.ParseSystem(q.units); err != nil {
		errs = append(errs, fmt.Errorf("--units: %w", err))
	}
	return n, system, errors.Join(append(errs, q.sets()...)...)
}

// sets reports what is missing among the flags, and what would have to be
// ignored: nothing that was typed goes unused.
func (q *sizeQuestion) sets() (errs []error) {
	say := func(wrong bool, words string) {
		if wrong {
			errs = append(errs, errors.New(words))
		}
	}
	sizes := count(q.leg, q.throat, q.area)
	say(q.wire == "", "give the wire diameter: --wire, such as --wire \"1.0 mm\"")
	say(sizes > 1, "give one of --leg, --throat and --area")
	say(min(sizes, 1)+count(q.feed, q.speed) < 2, "give two of size (--leg, --throat or --area), --feed and --speed")
	say(q.gap != "" && count(q.leg, q.throat) == 0, "--gap grows a leg: give it with --leg or --throat")
	say(count(q.volts, q.amps) == 1, "give --volts and --amps together")
	say(q.power != "" && count(q.volts, q.amps) > 0, "give --power, or --volts and --amps, not both")
	return errs
}

// count counts the flags that were given.
func count(flags ...string) (n int) {
	for _, f := range flags {
		if f != "" {
			n++
		}
	}
	return n
}

func (q *sizeQuestion) answer(cmd *cobra.Command) error {
	n, system, err := q.parse()
	if err != nil {
		return err
	}
	area, notes, err := n.wantedArea()
	if err != nil {
		return err
	}
	s := n.settings
	s.Feed = n.feed
	melt := deposit.Melt{WireDiameter: s.WireDiameter, Feed: s.Feed, Efficiency: s.DepositionEfficiency().Value}
	speed := n.speed
	switch {
	case n.feed == 0:
		melt, err = melt.FeedForArea(area, speed)
	case speed == 0:
		speed, err = melt.TravelForArea(area)
	default:
		var laid float64
		if laid, err = melt.BeadArea(speed); err == nil && area > 0 {
			notes = append(notes, fmt.Sprintf("%.0f %% of the metal that the wanted size needs", laid/area*100))
		}
		area = laid
	}
	if err != nil {
		return err
	}
	return n.print(cmd, system, sizeAnswer{melt: melt, area: area, speed: speed, notes: notes})
}

// wantedArea is the bead area of the size that was asked for, m2; 0 for none.
func (n *sizeNumbers) wantedArea() (float64, []string, error) {
	if n.area > 0 || n.leg+n.throat == 0 {
		return n.area, nil, nil
	}
	leg := n.leg
	if n.throat > 0 {
		f, err := section.FromThroat(n.angle, n.throat)
		if err != nil {
			return 0, nil, err
		}
		leg = f.Leg1
	}
	var notes []string
	if n.gap > 0 {
		rule, err := section.Gap(section.Fit{Leg: leg, Gap: n.gap, Thickness: leg})
		if err != nil {
			return 0, nil, err
		}
		if !rule.Allowed {
			return 0, nil, fmt.Errorf("a gap of %.1f mm must not be welded over: %.1f mm is the most (%v)", n.gap*1e3, rule.Limit*1e3, rule.Source)
		}
		if rule.Growth > 0 {
			notes = append(notes, fmt.Sprintf("gap of %.1f mm added to the leg (%v)", n.gap*1e3, rule.Source))
		}
		leg = rule.Leg
	}
	shape := n.settings.Shape(n.angle, 1)
	area, err := shape.Area(leg)
	return area, notes, err
}

// sizeAnswer is what was found, SI.
type sizeAnswer struct {
	melt        deposit.Melt
	area, speed float64
	notes       []string
}

func (n *sizeNumbers) print(cmd *cobra.Command, system unit.System, a sizeAnswer) error {
	var table strings.Builder
	w := tabwriter.NewWriter(&table, 0, 0, 2, ' ', 0)
	line := func(name string, k unit.Kind, v float64, note string) {
		fmt.Fprintf(w, "%s\t%s\t%s\n", name, sizeText(k, v, system), note)
	}
	shape := n.settings.Shape(n.angle, 1)
	if leg, err := shape.Leg(a.area); err == nil {
		line("leg", unit.Length, leg, fmt.Sprintf("face factor %.2f (%v)", shape.Convexity, said(n.settings.Convexity, n.settings.PlanningFactor().Source)))
		line("throat", unit.Length, leg*math.Cos(n.angle/2), "")
	}
	line("bead area", unit.Area, a.area, fmt.Sprintf("deposition efficiency %.2f (%v)", a.melt.Efficiency, said(n.settings.Efficiency, n.settings.DepositionEfficiency().Source)))
	line("wire feed", unit.WireFeed, a.melt.Feed, "")
	line("travel speed", unit.Speed, a.speed, "")
	if rate, err := a.melt.DepositionRate(deposit.SteelDensity); err == nil {
		line("deposition", unit.MassRate, rate, "steel")
	}
	if err := n.printHeat(line, a); err != nil {
		return err
	}
	if n.length > 0 {
		line("arc time", unit.Time, n.length/a.speed, "")
		line("weld metal", unit.Mass, a.area*n.length*deposit.SteelDensity, "steel")
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for line := range strings.Lines(table.String()) {
		fmt.Fprintln(cmd.OutOrStdout(), strings.TrimRight(line, " \n"))
	}
	for _, note := range a.notes {
		fmt.Fprintln(cmd.OutOrStdout(), note)
	}
	return nil
}

// sizeText prints what is keyed in, speed and wire feed, to two digits.
func sizeText(k unit.Kind, v float64, system unit.System) string {
	if system == unit.Metric {
		switch k {
		case unit.Speed:
			return unit.Format(v, unit.MillimetresPerSecond, 2)
		case unit.WireFeed:
			return unit.Format(v, unit.MetresPerMinute, 2)
		}
	}
	return unit.FormatIn(k, v, system)
}

// said is the source of a number: the flag where one was typed.
func said(typed float64, source fmt.Stringer) string {
	if typed != 0 {
		return "as given"
	}
	return source.String()
}

func (n *sizeNumbers) printHeat(line func(string, unit.Kind, float64, string), a sizeAnswer) error {
	energy, err := n.settings.ArcEnergy(a.speed)
	if errors.Is(err, procedure.ErrEnergyUnknown) {
		return nil
	}
	if err != nil {
		return err
	}
	k, err := thermal.Efficiency(n.settings.Process)
	if err != nil {
		return err
	}
	line("arc energy", unit.EnergyPerLength, energy.PerLength, energy.Method)
	line("heat input", unit.EnergyPerLength, energy.PerLength*k.Value, fmt.Sprintf("k = %.2f (%v)", k.Value, k.Source))
	return nil
}
