package job

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/unit"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	costs "seamwright/weld/quote"
)

// Rates is what a shop's work and goods cost it, as its own document says.
type Rates struct {
	// Currency is the word behind every sum, such as "EUR".
	Currency string
	// Arm and Hand are the two ways to weld, with prices in that currency.
	Arm, Hand costs.Way
	// SourceEfficiency is that of the power source, dimensionless, and Density that
	// of the weld metal, kg/m3; 0: the usual one.
	SourceEfficiency, Density float64
}

// Ranges of sense of rates, common practice, no source.
var (
	anyPrice  = span{0, 1e9}               // currency units for each unit named
	factor    = span{2 * unit.Percent, 1}  // arc time over worked time, dimensionless
	shopTime  = span{0, 1000 * unit.Hour}  // s
	sourceEta = span{40 * unit.Percent, 1} // dimensionless
	metal     = span{2000, 12000}          // kg/m3
	perTime   = map[string]float64{"h": unit.Hour, "min": unit.Minute}
	perMass   = map[string]float64{"kg": 1, "lb": unit.Pound}
	perGas    = map[string]float64{"m3": 1, "L": 1e-3, "ft3": 0.3048 * 0.3048 * 0.3048}
	perEnergy = map[string]float64{"kWh": 3.6e6, "MJ": 1e6}
)

// waysByArm and waysByHand are the words for how a shop welds.
var (
	waysByArm  = map[string]deposit.Way{"cart": deposit.CartArm, "cart with two stations": deposit.CartArmTwoPlaces, "mechanised": deposit.Mechanised, "automatic": deposit.Automatic}
	waysByHand = map[string]deposit.Way{"small shop": deposit.SmallShopManual, "semi-automatic": deposit.SemiAutomatic, "covered electrode": deposit.ManualElectrode}
)

// DecodeRates reads a document of rates. The error is a *Problems with all that
// is wrong in it.
func DecodeRates(file string, files Files) (*Rates, error) {
	ps, r := &Problems{}, &Rates{}
	readAlone(ps, file, files, ratesForm(r))
	if err := ps.err(); err != nil {
		return nil, err
	}
	return r, nil
}

// DecodeSettings reads a file of settings sets alone. The error is a *Problems
// with all that is wrong in it.
func DecodeSettings(file string, files Files) ([]procedure.Settings, error) {
	ps, d := &Problems{}, newDraft(file)
	readAlone(ps, file, files, record{fields: []field{need("sets", manyOf(&d.sets, 1, maxSets, "settings sets", (*settingsDraft).form))}})
	d.uniqueSets(ps)
	if err := ps.err(); err != nil {
		return nil, err
	}
	return d.job.Settings, nil
}

// readAlone reads a document that no other names.
func readAlone(ps *Problems, file string, files Files, f form) {
	if data, ok := read(ps, files, filepath.Base(file), Place{File: file}, maxYAMLBytes); ok {
		if root, ok := readTree(file, data, ps); ok {
			f.read(ps, root)
		}
	}
}

// ratesForm is the table of a document of rates.
func ratesForm(r *Rates) record {
	var both deposit.Rates
	return record{mend: "see docs/quote.md for the form of the document", fields: []field{
		need("currency", text(&r.Currency, "EUR")),
		may("labour", price(&both.Labour, "60 per h", perTime)),
		may("wire", price(&both.Wire, "2.50 per kg", perMass)),
		may("gas", price(&both.Gas, "5.00 per m3", perGas)),
		may("energy", price(&both.Energy, "0.30 per kWh", perEnergy)),
		may("source_efficiency", quantity(unit.Ratio, &r.SourceEfficiency, sourceEta, "84 percent")),
		may("density", density(&r.Density)),
		may("arm", wayForm(&r.Arm, waysByArm, "cart", true)),
		may("hand", wayForm(&r.Hand, waysByHand, "small shop", false)),
	}, check: func(ps *Problems, n node, clean bool) {
		for _, side := range []struct {
			name string
			way  *costs.Way
			kind deposit.Way
		}{{"arm", &r.Arm, deposit.CartArm}, {"hand", &r.Hand, deposit.SmallShopManual}} {
			own, _ := n.get(side.name)
			rates := both
			if own.has("labour") {
				rates.Labour = side.way.Rates.Labour
			} else if clean && !n.has("labour") {
				ps.add(n.at.sub("labour"), "no price of labour for the "+side.name, "a price for each h or min", "add labour: 60 per h for both, or to arm and to hand")
			}
			side.way.Rates = rates
			if side.way.Kind == 0 {
				side.way.Kind = side.kind
			}
		}
	}}
}

// wayForm is the table of one way to weld.
func wayForm(w *costs.Way, ways map[string]deposit.Way, usual string, teaches bool) record {
	words := []string{usual}
	for _, k := range sortedNames(ways) {
		if k != usual {
			words = append(words, k)
		}
	}
	r := record{example: "{labour: 60 per h, factor: 40 percent, set_up: 30 min}", fields: []field{
		may("way", parsed(&w.Kind, words, func(s string) (deposit.Way, bool) { k, ok := ways[s]; return k, ok })),
		may("factor", quantity(unit.Ratio, &w.Factor, factor, "40 percent")),
		may("labour", price(&w.Rates.Labour, "60 per h", perTime)),
		may("set_up", quantity(unit.Time, &w.SetUp, shopTime, "30 min")),
		may("handling", quantity(unit.Time, &w.Handling, shopTime, "3 min")),
	}}
	if teaches {
		r.fields = append(r.fields, may("teach", quantity(unit.Time, &w.Teach, shopTime, "6 min")))
	}
	return r
}

// price is the form of a sum for each unit of something, such as "60 per h"; what
// is read is the sum for each SI unit.
func price(dst *float64, example string, units map[string]float64) single {
	allowed := "a price for each " + inWords(sortedNames(units)) + ", such as " + example
	return single{allowed: allowed, example: example, json: schema{"type": "string", "examples": []string{example}},
		take: func(s string) *wrong {
			sum, of, told := strings.Cut(s, " per ")
			if !told {
				return &wrong{found: quote(s) + ", which says no unit"}
			}
			per, known := units[strings.TrimSpace(of)]
			if !known {
				return &wrong{found: quote(s) + fmt.Sprintf(" (%q is no unit for it)", clean(cut(strings.TrimSpace(of))))}
			}
			x, w := parseNumber(sum)
			if w != nil {
				w.allowed = orElse(w.allowed, allowed)
				return w
			}
			if !anyPrice.holds(x) {
				return &wrong{mend: "write a price that is 0 or more"}
			}
			*dst = x / per
			return nil
		}}
}

// density is the form of a density in kg/m3.
func density(dst *float64) single {
	const unitOf, example = " kg/m3", "7850 kg/m3"
	return single{allowed: "a density in kg/m3", example: example, json: schema{"type": "string", "examples": []string{example}},
		take: func(s string) *wrong {
			digits, told := strings.CutSuffix(s, unitOf)
			x, w := parseNumber(digits)
			switch {
			case !told || w != nil:
				return &wrong{}
			case !metal.holds(x):
				return &wrong{allowed: fmt.Sprintf("%g to %g kg/m3", metal.low, metal.high), mend: "check the number"}
			}
			*dst = x
			return nil
		}}
}

func sortedNames[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
