package job

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
)

// maxRows bounds the rows of a procedure's table of runs, maxPass the number of
// a pass.
const (
	maxRows = 50
	maxPass = 200
)

// rowDraft is a row of a procedure's table of runs while it is read.
type rowDraft struct {
	run       procedure.Run
	heat, arc weld.Range // J/m
	read      node
}

// form is the table of one row.
func (d *rowDraft) form() form {
	r := &d.run
	fields := []field{
		need("passes", passesForm{r}),
		may("name", text(&r.Name, "root")),
		may("process", processForm(&r.Process)),
		may("transfer", transferForm(&r.Transfer)),
		may("wire", quantity(unit.Length, &r.WireDiameter, wireDiameter, "1.0 mm")),
		may("wire_class", text(&r.WireClass, "G 42 4 M21 3Si1")),
		may("polarity", polarityForm(&r.Polarity)),
		may("technique", techniqueForm(&r.Technique)),
		may("current", rangeForm(&r.Current, unit.Current, current, "180 A", "230 A")),
		may("voltage", rangeForm(&r.Voltage, unit.Voltage, voltage, "22 V", "26 V")),
		may("feed", rangeForm(&r.Feed, unit.WireFeed, wireFeed, "8 m/min", "10 m/min")),
		may("travel", rangeForm(&r.Travel, unit.Speed, weldSpeed, "5 mm/s", "10 mm/s")),
		may("weave_amplitude", amplitudeForm(&r.Amplitude)),
	}
	return record{fields: append(fields, energyForm(&d.heat, &d.arc)...), example: "{passes: root, current: {from: 130 A, to: 160 A}}",
		check: func(_ *Problems, n node, _ bool) { d.read = n }}
}

// slips reports what is wrong with the row beside the others, where it stands.
func (d *rowDraft) slips(ps *Problems, slips []procedure.Slip) {
	fields := map[procedure.Item][]string{
		"": {"passes"}, procedure.ItemCurrent: {"current"}, procedure.ItemVoltage: {"voltage"}, procedure.ItemFeed: {"feed"},
		procedure.ItemTravelSpeed: {"travel"}, procedure.ItemEnergy: {"heat_input", "arc_energy"}, procedure.ItemAmplitude: {"weave_amplitude"},
	}
	for _, s := range slips {
		at := d.read.at
		for _, name := range fields[s.Item] {
			if v, given := d.read.get(name); given {
				at = v.at
			}
		}
		ps.add(at, s.Found, s.Allowed, s.Mend)
	}
}

// passesForm reads the passes that a row holds for: root, fill or cap, a list of
// these, the number of a pass, or {from: 2, to: 4}.
type passesForm struct{ run *procedure.Run }

func (f passesForm) say() (string, string) {
	return "root, fill or cap, a list of these, the number of a pass, or {from: 2, to: 4}", "root"
}

func (f passesForm) schema() schema {
	role := schema{"enum": rolesOfPasses}
	return schema{"oneOf": []schema{
		role,
		{"type": "array", "items": role, "minItems": 1, "maxItems": len(rolesOfPasses)},
		{"type": "integer", "minimum": 1, "maximum": maxPass},
		f.numbers().schema(),
	}}
}

func (f passesForm) read(ps *Problems, n node) {
	switch n.shape {
	case word:
		if role, ok := parseRole(n.text); ok {
			f.run.Roles = []section.Role{role}
			return
		}
		number := passNumber(&f.run.First)
		if number.take(n.text) != nil {
			allowed, _ := f.say()
			ps.add(n.at, n.found(), allowed, orNearest(n.text, rolesOfPasses, "write for example root, or 1"))
		}
		f.run.Last = f.run.First
	case series:
		manyOf(&f.run.Roles, 1, len(rolesOfPasses), "roles", func(r *section.Role) form {
			return parsed(r, rolesOfPasses, parseRole)
		}).read(ps, n)
	case group:
		f.numbers().read(ps, n)
	default:
		wrongKind(f, ps, n)
	}
}

// numbers is the table of passes by number; without an end they are all further
// ones.
func (f passesForm) numbers() record {
	return record{allowed: "from, and to unless all further passes are meant", example: "{from: 2, to: 4}", fields: []field{
		need("from", passNumber(&f.run.First)),
		may("to", passNumber(&f.run.Last)),
	}, check: func(ps *Problems, n node, clean bool) {
		if v, given := n.get("to"); clean && given && f.run.Last < f.run.First {
			ps.add(v.at, fmt.Sprintf("%s, which is before pass %d", v.found(), f.run.First), "the last pass not before the first", "swap the two")
		}
	}}
}

// passNumber reads the number of a pass.
func passNumber(dst *int) single {
	return single{allowed: fmt.Sprintf("the number of a pass, 1 to %d", maxPass), example: "2",
		json: schema{"type": "integer", "minimum": 1, "maximum": maxPass},
		take: func(s string) *wrong {
			n, err := strconv.Atoi(strings.TrimSpace(s))
			if err != nil || n < 1 || n > maxPass {
				return &wrong{mend: "count the passes as they are welded, from 1"}
			}
			*dst = n
			return nil
		}}
}

var rolesOfPasses = []string{section.RootPass.String(), section.FillPass.String(), section.CapPass.String()}

func parseRole(s string) (section.Role, bool) {
	for r := section.RootPass; r <= section.CapPass; r++ {
		if r.String() == strings.TrimSpace(s) {
			return r, true
		}
	}
	return 0, false
}
