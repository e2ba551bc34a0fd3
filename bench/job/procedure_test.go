package job_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// TestProceduresPageIsReadable decodes the pieces of docs/procedures.md: the two
// ways to name procedures, and the procedures themselves.
func TestProceduresPageIsReadable(t *testing.T) {
	var procedures, ways []string
	for _, piece := range fences(t, "../../docs/procedures.md") {
		if strings.HasPrefix(piece, "id: ") {
			procedures = append(procedures, piece)
		} else {
			ways = append(ways, piece)
		}
	}
	if len(procedures) != 2 || len(ways) != 2 {
		t.Fatalf("%d procedures and %d ways to name them, want 2 and 2", len(procedures), len(ways))
	}
	for _, way := range ways {
		m := small(t)
		m["procedures/fillets.yaml"], m["procedures/grooves.yaml"] = procedures[0], procedures[1]
		m["job.yaml"] = strings.Replace(m["job.yaml"], "seams:\n", way+"seams:\n", 1)
		j, err := job.Decode("job.yaml", m)
		if err != nil {
			t.Fatal(err)
		}
		if w := j.ProcedureOf(&j.Seams[0]); w == nil || w.Common.ID != "WPS-012" {
			t.Errorf("the seam goes by %+v", w)
		}
		if last := j.Procedures[len(j.Procedures)-1]; len(j.Procedures) == 2 {
			for _, f := range last.Fields(unit.Metric) {
				if !f.Stated() && f.Name != "wire feed speed" {
					t.Errorf("the whole form does not state %s", f.Name)
				}
			}
			wholeForm(t, &last)
		}
	}
}

// wholeForm holds what is kept of the page's procedure for grooves against what is
// written there.
func wholeForm(t *testing.T, w *procedure.WPS) {
	t.Helper()
	f := w.Further
	if !slices.Equal(f.ParentGroups, []string{"1.1", "1.2"}) || !slices.Equal(f.Polarities, []procedure.Polarity{procedure.ElectrodePositive}) ||
		!slices.Equal(f.Techniques, []procedure.Technique{procedure.Stringer, procedure.Weave}) || f.Amplitude != weld.AtMost(0.004) || f.Frequency != weld.Between(0.5, 3) || f.Dwell != weld.AtMost(0.4) ||
		f.Preheat != weld.AtLeast(15) || f.Interpass != weld.AtMost(250) {
		t.Errorf("further limits %+v", f)
	}
	if w.Date != "2025-03-14" || w.ParentDesignation != "S355J2 EN 10025-2" || w.OutsideDiameter != weld.AtLeast(0.5) || w.Electrodes != 1 || w.RunWidth != weld.AtMost(0.015) {
		t.Errorf("got %+v", w)
	}
	want := []procedure.Run{
		{Roles: []section.Role{section.RootPass}, Name: "root", Transfer: weld.ShortCircuit, WireDiameter: 0.001, Technique: procedure.Stringer,
			Current: weld.Between(130, 165), Voltage: weld.Between(17, 20), Travel: weld.Between(0.0025, 0.004)},
		{Roles: []section.Role{section.FillPass, section.CapPass}, Name: "fill and cap", Transfer: weld.Spray,
			Current: weld.Between(190, 240), Voltage: weld.Between(23, 28), Travel: weld.Between(0.003, 0.007), Amplitude: weld.AtMost(0.003)},
	}
	if !reflect.DeepEqual(w.Runs, want) {
		t.Errorf("runs %+v\nwant %+v", w.Runs, want)
	}
	q := w.QualifiedBy
	p := q.Record.Welded
	if q.Record.ID != "WPQR-031" || p.Family != weld.ISO || p.Settings.Amps != 215 || p.Settings.Volts != 25.5 || p.Settings.Polarity != procedure.ElectrodePositive ||
		!near(p.Travel, 0.0045) || p.Preheat != procedure.KnownTemperature(15) || p.Interpass != procedure.KnownTemperature(220) || q.Tests != (procedure.Tests{Impact: true}) {
		t.Errorf("record %+v", q)
	}
}

// TestRowsByNumber: a number alone is one pass; without an end all further ones.
func TestRowsByNumber(t *testing.T) {
	m := small(t)
	m["job.yaml"] += "procedure: {spec: {id: P, code: iso, runs: [{passes: 1}, {passes: {from: 2, to: 4}}, {passes: {from: 5}, arc_energy: {to: 1 kJ/mm}}]}}\n"
	w := decodeSmall(t, m).Procedures[0]
	var got []string
	for _, r := range w.Runs {
		got = append(got, r.String())
	}
	if !slices.Equal(got, []string{"run 1", "runs 2 to 4", "runs from 5 on"}) || w.Runs[2].Energy != weld.AtMost(1e6) || w.Common.EnergyIs != thermal.ArcEnergy || w.Common.Energy.Stated() {
		t.Errorf("rows %q, %+v", got, w)
	}
}

// TestRecordNamesTheQualification: the record's name need not be written twice.
func TestRecordNamesTheQualification(t *testing.T) {
	for _, more := range []string{"", ", qualification: R-1"} {
		m := small(t)
		m["job.yaml"] += "procedure: {spec: {id: P, code: iso, qualified_by: {record: R-1, process: 135}" + more + "}}\n"
		if got := decodeSmall(t, m).Procedures[0].Common.Qualification; got != "R-1" {
			t.Errorf("%q: got %q", more, got)
		}
	}
}

// TestProcedureOfSeams: a seam's own procedure, else that of the defaults, else the
// only one.
func TestProcedureOfSeams(t *testing.T) {
	two := "procedures: [{spec: {id: P, code: iso}}, {spec: {id: Q, code: iso}}]\n"
	for _, row := range []struct{ name, document, seam, want string }{
		{"none", "", "", ""},
		{"the only one", "procedure: {spec: {id: P, code: iso}}\n", "", "P"},
		{"the only one of a list", "procedures: [{spec: {id: P, code: iso}}]\n", "", "P"},
		{"named", two, "    procedure: Q\n", "Q"},
		{"of the defaults", two + "defaults: {procedure: Q}\n", "", "Q"},
		{"own before defaults", two + "defaults: {procedure: Q}\n", "    procedure: P\n", "P"},
	} {
		m := small(t)
		m["job.yaml"] = strings.Replace(m["job.yaml"], "seams:\n", row.document+"seams:\n", 1) + row.seam
		j := decodeSmall(t, m)
		w := j.ProcedureOf(&j.Seams[0])
		if got := j.Seams[0].Procedure; got != row.want || (w == nil) != (got == "") || w != nil && w.Common.ID != got {
			t.Errorf("%s: %q, %+v", row.name, got, w)
		}
	}
}
