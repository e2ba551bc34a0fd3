package draft

import (
	"math"

	"seamwright/unit"
)

// templateWire and templateFeed are the values that a template may hold, in
// order: far from what anybody welds fillets with.
var (
	templateWire = []float64{0.5 * unit.MM, 1 * unit.MM, 2 * unit.MM, 4 * unit.MM}                                                                             // m
	templateFeed = []float64{0.5 * unit.MPerMin, 1 * unit.MPerMin, 2 * unit.MPerMin, 4 * unit.MPerMin, 8 * unit.MPerMin, 16 * unit.MPerMin, 30 * unit.MPerMin} // m/s
)

// slowest is the speed (m/s) that the template's values give the largest seam:
// above the least that can be reckoned, 0.2 mm/s, below any that is welded with.
const slowest = 0.3 * unit.MMPerS

// templateValues returns the first wire and feed that can fill the largest
// section (m2) of the job's seams; the last where none can.
func (m *maker) templateValues() (wire, feed float64) {
	var most float64
	for _, s := range m.seams {
		most = max(most, m.area[s])
	}
	for _, wire = range templateWire {
		for _, feed = range templateFeed {
			if math.Pi/4*wire*wire*feed >= most*slowest {
				return wire, feed
			}
		}
	}
	return wire, feed
}

// settingsTemplate writes the sets that have to be filled in. Their numbers are
// the smallest with which the job's sizes can be reckoned at all, so that
// nothing reckoned from them looks like a speed or a size of anybody's.
func (m *maker) settingsTemplate() []byte {
	p := &page{}
	p.say("", "Settings sets of the power source: FILL IN. One set for each number that is called up.")
	p.say("", "The wire and feed below are the smallest with which this job can be reckoned at all. They are no proposal: put yours in their place, then give the set its own name. As long as the name of a set begins with \"fill in\", the plan stops.")
	wire, feed := m.templateValues()
	p.put("sets:", "")
	for _, id := range m.fill {
		p.put("  - id: "+quoted(id), "the number under which the source keeps it, as the job calls it")
		p.put("    name: "+fillIn, "for example: fillet z5, flat and horizontal")
		p.put("    process: 135", "131, 135, 136 or 138")
		p.put("    transfer: short-circuit", "short-circuit, globular, spray or pulsed")
		p.put("    wire: "+unit.Exact(wire, unit.Millimetres), "the wire's diameter")
		p.put("    feed: "+unit.Exact(feed, unit.MetresPerMinute), "wire feed speed; m/min or in/min")
		p.put("    # volts: 23.5 V", "volts and amps as the source shows them on a test bead, for the heat input")
		p.put("    # amps: 205 A", "")
		p.put("    # polarity: DCEP", "")
		p.put("    # gas: M21", "")
		p.put("    # gas_flow: 15 L/min", "")
		p.put("    # crater_time: 0.6 s", "")
	}
	return []byte(p.b.String())
}

// procedureTemplate writes a procedure of which only the ranges that are filled
// in count.
func (m *maker) procedureTemplate() []byte {
	p := &page{}
	p.say("", "Welding procedure: FILL IN from the paper, then take the # from the line procedure in "+JobFile+". What is left out is not checked. As long as the id is \"fill in\", the plan stops.")
	p.put("id: "+fillIn, "such as WPS-012")
	p.put("code: "+m.code, "")
	for _, l := range []string{"revision: B", "qualification: WPQR-031", "processes: [135]", "transfers: [spray]", "joints: [tee]", "kinds: [fillet]",
		"positions: [" + map[string]string{"aws": "1F, 2F"}[m.code] + map[string]string{"iso": "PA, PB"}[m.code] + "]", "wire: [1.0 mm]", "gas: M21", "polarity: DCEP", "technique: [stringer]",
		"ranges:", "  current: {from: 180 A, to: 230 A}", "  voltage: {from: 22 V, to: 26 V}", "  feed: {from: 8 m/min, to: 10 m/min}",
		"  travel: {from: 5 mm/s, to: 10 mm/s}", "  heat_input: {from: 0.3 kJ/mm, to: 1.3 kJ/mm}", "  thickness: {from: 3 mm, to: 12 mm}",
		"  preheat: {from: 5 degC}", "  interpass: {to: 250 degC}", "single_pass_max: {leg: 8 mm}"} {
		p.put("# "+l, "")
	}
	return []byte(p.b.String())
}
