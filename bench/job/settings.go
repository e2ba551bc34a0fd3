package job

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// maxSets bounds the list of settings sets.
const maxSets = 1000

// Ranges of sense of settings, common practice, no source; procedure.Settings
// checks its own once more.
var (
	wireFeed    = span{0.5 * unit.MPerMin, 30 * unit.MPerMin} // m/s
	voltage     = span{8, 50}                                 // V
	current     = span{20, 800}                               // A
	power       = span{0.2 * unit.KW, 40 * unit.KW}           // W
	efficiency  = span{50 * unit.Percent, 1}                  // dimensionless
	convexity   = span{0.8, 2}                                // dimensionless
	setDistance = span{3 * unit.MM, 50 * unit.MM}             // m
	gasFlow     = span{2 * unit.LPerMin, 60 * unit.LPerMin}   // m3/s
	phaseTime   = span{0, 30}                                 // s
)

// settingsDraft is a settings set and the place of its identity.
type settingsDraft struct {
	set procedure.Settings
	id  ref
}

func (d *settingsDraft) form() form {
	s := &d.set
	return record{example: "{id: 11, process: 135, transfer: spray, wire: 1.0 mm, feed: 9.0 m/min}", fields: []field{
		need("id", named(&d.id, "11")),
		may("name", text(&s.Name, "fillet z5")),
		need("process", processForm(&s.Process)),
		need("transfer", transferForm(&s.Transfer)),
		may("polarity", polarityForm(&s.Polarity)),
		need("wire", quantity(unit.Length, &s.WireDiameter, wireDiameter, "1.0 mm")),
		may("wire_class", text(&s.WireClass, "G 42 4 M21 3Si1")),
		may("gas", text(&s.GasName, "M21")),
		may("gas_flow", quantity(unit.GasFlow, &s.GasFlow, gasFlow, "15 L/min")),
		may("hydrogen", number(&s.Hydrogen, diffusible, "5")),
		may("distance", quantity(unit.Length, &s.ContactDistance, setDistance, "15 mm")),
		need("feed", quantity(unit.WireFeed, &s.Feed, wireFeed, "9.0 m/min")),
		may("volts", quantity(unit.Voltage, &s.Volts, voltage, "23.5 V")),
		may("amps", quantity(unit.Current, &s.Amps, current, "205 A")),
		may("power", quantity(unit.Power, &s.Power, power, "5.2 kW")),
		may("efficiency", quantity(unit.Ratio, &s.Efficiency, efficiency, "96 percent")),
		may("convexity", number(&s.Convexity, convexity, "1.10")),
		may("start_time", quantity(unit.Time, &s.Phases.StartDelay, phaseTime, "0.3 s")),
		may("crater_time", quantity(unit.Time, &s.Phases.CraterFill, phaseTime, "0.6 s")),
		may("preflow", quantity(unit.Time, &s.Phases.PreFlow, phaseTime, "0.3 s")),
		may("postflow", quantity(unit.Time, &s.Phases.PostFlow, phaseTime, "0.5 s")),
	}, check: func(ps *Problems, n node, clean bool) {
		s.ID = d.id.text
		if !clean {
			return
		}
		if err := s.Validate(); err != nil { // the tables above and the package's own must not drift apart in silence
			ps.add(n.at, "settings that do not hold ("+err.Error()+")", "settings within their ranges", "correct the values named")
		}
	}}
}

func transferForm(dst *weld.Transfer) single {
	return parsed(dst, []string{"short-circuit", "globular", "spray", "pulsed"}, errless(weld.ParseTransfer))
}

func processForm(dst *weld.Process) single {
	s := coded(dst, []string{"131", "135", "136", "138"}, func(s string) (weld.Process, bool) {
		p, err := weld.ParseProcess(s)
		return p, err == nil && p.Planned()
	})
	take := s.take
	s.take = func(text string) *wrong {
		w := take(text)
		if p, err := weld.ParseProcess(text); w != nil && err == nil {
			w.found = quote(text) + " (" + p.String() + "), which is not planned here"
		}
		return w
	}
	s.json = schema{"enum": []any{131, 135, 136, 138, "131", "135", "136", "138"}}
	return s
}

// uniqueSets checks that no identity stands twice and returns the identities.
func (d *draft) uniqueSets(ps *Problems) []string {
	var ids []string
	first := map[string]Place{}
	for _, s := range d.sets {
		if s.id.text == "" {
			d.settings.unread = true // reported where it was read
			continue
		}
		if at, twice := first[s.id.text]; twice {
			ps.add(s.id.at, fmt.Sprintf("%s again, first on line %d", quote(s.id.text), at.Line), "each settings set once", "give the two sets different ids, or delete one")
			continue
		}
		first[s.id.text] = s.id.at
		ids = append(ids, s.id.text)
		d.job.Settings = append(d.job.Settings, s.set)
	}
	return ids
}
