package job

import (
	"errors"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// Material is the steel of the part. The zero value: the document does not say.
type Material struct {
	Given bool
	// Grade is the steel as its standard sells it; HasGrade says that one was named.
	HasGrade bool
	Grade    thermal.Grade
	// Composition is of the plate's certificate, percent by mass; HasComposition says
	// that it was given. Otherwise the grade's own typical one stands in.
	HasComposition bool
	Composition    thermal.Composition
	// Group is the material group by ISO/TR 15608 or by the table of AWS D1.1, as a
	// procedure states it; "": not said. It is not derived from the grade.
	Group string
	At    Place
}

// Heat is what the document says of temperatures, degrees C; the flags say which
// were given.
type Heat struct {
	Ambient                      float64 // of shop and part before any preheat
	Preheat, InterpassMost       float64
	HasPreheat, HasInterpassMost bool
	// Cooling are the cooling times t8/5 that are wanted, s; no range: not said.
	Cooling weld.Range
	At      Place
}

// DefaultAmbient is the temperature of shop and part, degrees C. Common practice,
// no source.
const DefaultAmbient = 20.0

// Ranges of sense, common practice, no source.
var (
	ambientTemperature   = span{-40, 60}  // degC
	preheatTemperature   = span{0, 300}   // degC: the formulas of cooling hold to there
	interpassTemperature = span{20, 400}  // degC
	coolingTime          = span{0.5, 200} // s
	shareByMass          = span{0, 10}    // percent by mass; thermal.Composition has its own
	diffusible           = span{0.5, 30}  // ml per 100 g
)

// materialForm is the table of the section "material".
func materialForm(m *Material) record {
	c := &m.Composition
	element := func(name string, dst *float64) field { return may(name, number(dst, shareByMass, "0.16")) }
	return record{at: &m.At, example: "{grade: S355J2}", fields: []field{
		may("grade", gradeForm(&m.Grade)),
		may("group", text(&m.Group, "1.2")),
		may("composition", record{example: "{C: 0.16, Si: 0.35, Mn: 1.45}", fields: []field{
			need("C", number(&c.C, shareByMass, "0.16")), element("Si", &c.Si), element("Mn", &c.Mn), element("Cr", &c.Cr), element("Ni", &c.Ni),
			element("Mo", &c.Mo), element("Cu", &c.Cu), element("V", &c.V), element("Nb", &c.Nb), element("Ti", &c.Ti), element("B", &c.B),
		}}),
	}, check: func(ps *Problems, n node, clean bool) {
		m.HasGrade, m.HasComposition = n.has("grade"), n.has("composition")
		m.Given = m.HasGrade || m.HasComposition
		if !m.Given {
			ps.add(n.at, "a material without grade and composition", "a grade, or the composition from the certificate, or both", "add grade: S355J2")
		}
		at, _ := n.get("composition")
		if err := c.Validate(); clean && m.HasComposition && err != nil {
			found, allowed, mend := "a composition that no steel has", "percent by mass", err.Error()
			if r := (*thermal.RangeError)(nil); errors.As(err, &r) {
				found, allowed, mend = r.What+" "+r.Found, r.Allowed, r.Mend
			}
			ps.add(at.at, found, allowed, mend)
		}
	}}
}

// gradeForm reads the name of a steel.
func gradeForm(g *thermal.Grade) single {
	return single{
		allowed: "a grade such as S355J2 or A572-50", example: "S355J2",
		json: schema{"type": "string", "examples": []string{"S355J2"}, "description": "one of " + listed(thermal.Grades())},
		take: func(s string) *wrong {
			var err error
			if *g, err = thermal.FindGrade(s); err != nil {
				unknown := (*thermal.UnknownGradeError)(nil)
				mend := "write one of these, or give the composition from the certificate"
				if errors.As(err, &unknown) && len(unknown.Near) > 0 {
					mend = "did you mean " + inWords(unknown.Near) + "? or give the composition from the certificate"
				}
				return &wrong{found: quote(s) + ", which is no grade known here", allowed: "one of " + listed(thermal.Grades()), mend: mend}
			}
			return nil
		},
	}
}

// heatForm is the table of the section "heat".
func heatForm(h *Heat) record {
	return record{at: &h.At, example: "{preheat: 100 degC, interpass_max: 250 degC}", fields: []field{
		may("ambient", quantity(unit.Temperature, &h.Ambient, ambientTemperature, "20 degC")),
		may("preheat", quantity(unit.Temperature, &h.Preheat, preheatTemperature, "100 degC")),
		may("interpass_max", quantity(unit.Temperature, &h.InterpassMost, interpassTemperature, "250 degC")),
		may("cooling", rangeForm(&h.Cooling, unit.Time, coolingTime, "5 s", "25 s")),
	}, check: func(ps *Problems, n node, clean bool) {
		h.HasPreheat, h.HasInterpassMost = n.has("preheat"), n.has("interpass_max")
		if !clean {
			return
		}
		if v, given := n.get("preheat"); given && h.Preheat < h.Ambient {
			ps.add(v.at, v.found()+" under the ambient of "+unit.Exact(h.Ambient, unit.Celsius), "the ambient temperature or more", "leave preheat out where nothing is heated")
		}
		if v, given := n.get("interpass_max"); given && h.InterpassMost < h.Start()+leastFall {
			ps.add(v.at, v.found()+", which the joint never cools to", "more than the preheat, "+unit.Exact(h.Start(), unit.Celsius)+", by 5 degC at least", "check which is which")
		}
	}}
}

// leastFall is how much warmer than the part a joint may at least be when the next
// run begins, K: see thermal.InterpassWait.
const leastFall = 5

// Start is the temperature of the part when the first run begins, degrees C.
func (h Heat) Start() float64 {
	if h.HasPreheat {
		return h.Preheat
	}
	return h.Ambient
}
