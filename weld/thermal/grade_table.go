package thermal

import "seamwright/weld"

const megapascal = 1e6 // Pa

// grades is the table of steels. Compositions are percent by mass, by ladle or
// heat analysis, for thin product.
var grades = []Grade{
	en("S235JR", 235, nonAlloy, Composition{C: 0.17, Mn: 1.40, Cu: 0.55},
		Composition{C: 0.12, Si: 0.20, Mn: 0.70, Cr: 0.05, Ni: 0.05, Mo: 0.01, Cu: 0.10}),
	en("S235J2", 235, nonAlloy, Composition{C: 0.17, Mn: 1.40, Cu: 0.55}, Composition{}),
	en("S275JR", 275, nonAlloy, Composition{C: 0.21, Mn: 1.50, Cu: 0.55}, Composition{}),
	en("S275J2", 275, nonAlloy, Composition{C: 0.18, Mn: 1.50, Cu: 0.55}, Composition{}),
	en("S355JR", 355, nonAlloy, Composition{C: 0.24, Si: 0.55, Mn: 1.60, Cu: 0.55}, Composition{}),
	en("S355J0", 355, nonAlloy, Composition{C: 0.20, Si: 0.55, Mn: 1.60, Cu: 0.55}, Composition{}),
	en("S355J2", 355, nonAlloy, Composition{C: 0.20, Si: 0.55, Mn: 1.60, Cu: 0.55},
		Composition{C: 0.16, Si: 0.35, Mn: 1.45, Cr: 0.05, Ni: 0.05, Mo: 0.01, Cu: 0.10, V: 0.005}),
	en("S355K2", 355, nonAlloy, Composition{C: 0.20, Si: 0.55, Mn: 1.60, Cu: 0.55}, Composition{}),

	en("S355N", 355, normalized, Composition{C: 0.20, Si: 0.50, Mn: 1.65, Cr: 0.30, Ni: 0.50, Mo: 0.10, Cu: 0.55, V: 0.12, Nb: 0.05, Ti: 0.05}, Composition{}),
	en("S460N", 460, normalized, Composition{C: 0.20, Si: 0.60, Mn: 1.70, Cr: 0.30, Ni: 0.80, Mo: 0.10, Cu: 0.55, V: 0.20, Nb: 0.05, Ti: 0.05}, Composition{}),
	en("S355M", 355, thermomechanical, Composition{C: 0.14, Si: 0.50, Mn: 1.60, Cr: 0.30, Ni: 0.50, Mo: 0.10, Cu: 0.55, V: 0.10, Nb: 0.05, Ti: 0.05}, Composition{}),
	en("S420M", 420, thermomechanical, Composition{C: 0.16, Si: 0.50, Mn: 1.70, Cr: 0.30, Ni: 0.80, Mo: 0.20, Cu: 0.55, V: 0.12, Nb: 0.05, Ti: 0.05}, Composition{}),
	en("S460M", 460, thermomechanical, Composition{C: 0.16, Si: 0.60, Mn: 1.70, Cr: 0.30, Ni: 0.80, Mo: 0.20, Cu: 0.55, V: 0.12, Nb: 0.05, Ti: 0.05}, Composition{}),

	en("S355MC", 355, coldForming, Composition{C: 0.12, Si: 0.50, Mn: 1.50, V: 0.20, Nb: 0.09, Ti: 0.15}, Composition{}),
	en("S420MC", 420, coldForming, Composition{C: 0.12, Si: 0.50, Mn: 1.60, V: 0.20, Nb: 0.09, Ti: 0.15}, Composition{}),
	en("S460MC", 460, coldForming, Composition{C: 0.12, Si: 0.50, Mn: 1.60, V: 0.20, Nb: 0.09, Ti: 0.15}, Composition{}),
	en("S500MC", 500, coldForming, Composition{C: 0.12, Si: 0.50, Mn: 1.70, V: 0.20, Nb: 0.09, Ti: 0.15}, Composition{}),
	en("S700MC", 700, coldForming, Composition{C: 0.12, Si: 0.60, Mn: 2.10, Mo: 0.50, V: 0.20, Nb: 0.09, Ti: 0.22, B: 0.005}, Composition{}),

	en("S690QL", 690, quenched, Composition{C: 0.20, Si: 0.80, Mn: 1.70, Cr: 1.50, Ni: 2.0, Mo: 0.70, Cu: 0.50, V: 0.12, Nb: 0.06, Ti: 0.05, B: 0.005},
		Composition{C: 0.16, Si: 0.30, Mn: 1.20, Cr: 0.50, Ni: 0.10, Mo: 0.25, Cu: 0.05, V: 0.03, B: 0.002}),

	astm("A36", 250, GroupOrdinary, carbonA36, Composition{C: 0.26, Si: 0.40, Mn: 1.20}, Composition{}),
	astm("A572-42", 290, GroupLowHydrogen, highStrengthA572, Composition{C: 0.21, Si: 0.40, Mn: 1.35, V: 0.15, Nb: 0.05}, Composition{}),
	astm("A572-50", 345, GroupLowHydrogen, highStrengthA572, Composition{C: 0.23, Si: 0.40, Mn: 1.35, V: 0.15, Nb: 0.05},
		Composition{C: 0.18, Si: 0.25, Mn: 1.20, Cr: 0.10, Ni: 0.10, Mo: 0.02, Cu: 0.20, V: 0.04}),
	astm("A572-60", 415, GroupHigherStrength, highStrengthA572, Composition{C: 0.26, Si: 0.40, Mn: 1.35, V: 0.15, Nb: 0.05}, Composition{}),
	astm("A572-65", 450, GroupHigherStrength, highStrengthA572, Composition{C: 0.23, Si: 0.40, Mn: 1.65, V: 0.15, Nb: 0.05}, Composition{}),
	astm("A588-B", 345, GroupLowHydrogen, weatheringA588, Composition{C: 0.20, Si: 0.50, Mn: 1.35, Cr: 0.70, Ni: 0.50, Cu: 0.40, V: 0.10}, Composition{}),
	astm("A992", 345, GroupLowHydrogen, shapesA992, Composition{C: 0.23, Si: 0.40, Mn: 1.50, Cr: 0.35, Ni: 0.45, Mo: 0.15, Cu: 0.60, V: 0.11, Nb: 0.05}, Composition{}),
}

// The standards of the table, and how each was seen.
var (
	nonAlloy = weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "EN 10025-2", Edition: "2004", Clause: "Table 2",
		Note: "ladle analysis, up to 40 mm"}
	normalized = weld.Source{Mark: weld.Memory, Family: weld.ISO, Code: "EN 10025-3", Edition: "2004", Clause: "chemical composition"}

	thermomechanical = weld.Source{Mark: weld.Memory, Family: weld.ISO, Code: "EN 10025-4", Edition: "2004", Clause: "chemical composition"}

	coldForming = weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "EN 10149-2", Clause: "chemical composition",
		Note: "as a stockholder prints it; V, Nb and Ti together are at most 0.22 %"}
	quenched = weld.Source{Mark: weld.Memory, Family: weld.ISO, Code: "EN 10025-6", Edition: "2004", Clause: "chemical composition"}

	carbonA36 = weld.Source{Mark: weld.Memory, Family: weld.AWS, Code: "ASTM A36",
		Note: "C and Si read in US Army TI 809-26, Table 4-3; Mn from memory, for plates over 20 mm: thinner plates and shapes have no limit of Mn"}
	highStrengthA572 = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "ASTM A572",
		Note: "C, Mn, Si as a fastener dealer prints them; V and Nb of types 1 and 2 in US Army TI 809-26, Table 4-3"}
	weatheringA588 = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "ASTM A588",
		Note: "as US Army TI 809-26, Table 4-3 has it"}
	shapesA992 = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "ASTM A992",
		Note: "as US Army TI 809-26 of 2000, Table 4-3 has it"}
)

// chosen is the source of every typical composition.
var chosen = weld.Source{Mark: weld.CommonPractice, Code: "typical composition",
	Note: "chosen for estimates; use the certificate of the plate"}

// en returns a row for a European steel; yield is in MPa.
func en(name string, yield float64, standard weld.Source, maximum, typical Composition) Grade {
	g := Grade{Name: name, Family: weld.ISO, Class: CarbonManganese, Yield: yield * megapascal,
		Maximum: maximum, MaximumSource: standard, Typical: typical}
	if standard == quenched {
		g.Class = QuenchedTempered
	}
	return g.finish()
}

// astm returns a row for an American steel; yield is in MPa.
func astm(name string, yield float64, group PreheatGroup, standard weld.Source, maximum, typical Composition) Grade {
	g := Grade{Name: name, Family: weld.AWS, Class: CarbonManganese, Yield: yield * megapascal,
		Maximum: maximum, MaximumSource: standard, Typical: typical, PreheatGroup: group}
	return g.finish()
}

// finish fills in what follows from the rest.
func (g Grade) finish() Grade {
	g.Standard = g.MaximumSource.Code
	if g.MaximumSource.Edition != "" {
		g.Standard += ":" + g.MaximumSource.Edition
	}
	if g.HasTypical() {
		g.TypicalSource = chosen
	}
	return g
}
