package plan_test

import (
	"math"
	"testing"

	"seamwright/bench/finding"
)

// taughtOnce is a file with two readings of one settings set, and one that was left
// out.
const taughtOnce = `learned: 1
sets:
  - id: 11
    wire: 1.0 mm
    transfer: spray
    start: {efficiency: 96 percent, face_factor: 1.1}
    readings:
      - {date: 2031-05-12, seam: W1, travel: 7.5 mm/s, feed: 9 m/min, angle: 90 deg, leg_base: 5.1 mm, leg_upright: 5.1 mm, step: 0.1 mm}
      - {date: 2031-05-12, seam: W1, at: 200 mm, travel: 7.5 mm/s, feed: 9 m/min, angle: 90 deg, leg_base: 5.2 mm, leg_upright: 5.0 mm, step: 0.1 mm}
      - {date: 2031-05-13, seam: W1, travel: 7.5 mm/s, feed: 9 m/min, angle: 90 deg, leg_base: 8 mm, leg_upright: 8 mm, step: 0.1 mm, left_out: another part}
`

// withLearned is the good job that names what was learned.
func withLearned(t *testing.T) files {
	f := good(t)
	f["learned.yaml"] = taughtOnce
	f.edit(t, "settings: {file: settings.yaml}", "settings: {file: settings.yaml}\nlearned: learned.yaml")
	return f
}

var learnedFaults = []fault{
	{name: "a settings set that readings taught", from: withLearned,
		code: finding.SettingsLearned, severity: finding.Note, where: "learned", measured: "95.62", limit: "96.00", unit: "percent",
		message: "settings set 11 is planned with what 2 gauge readings taught: efficiency 95.6 % (96.0 % before), face factor 1.14 (1.10 before); a leg comes out within 2.9 % of the plan in two of three places; 1 gauge reading left out as contradicting the rest",
		source:  "normal estimate of ln eta and ln k in information form, worked out in a separate program: eta 0.95616, k 1.14038, leg spread 0.02946"},
}

// The plan welds at the speed that the learned figures give: v = eta Q 2 / (k z2).
func TestPlanUsesWhatWasLearned(t *testing.T) {
	p := planOf(t, withLearned(t))
	const eta, k, z = 0.9561623536, 1.1403784927, 5e-3
	flow := math.Pi * 1e-6 / 4 * 9.0 / 60
	want := eta * flow * 2 / (k * z * z)
	if got := p.Seams[0].Passes[0].Size.Travel; math.Abs(got-want) > 1e-9*want {
		t.Errorf("travel %.6f mm/s, want %.6f", got*1e3, want*1e3)
	}
	if found := withCode(planOf(t, good(t)), finding.SettingsLearned); len(found) != 0 {
		t.Errorf("a job that names no file: %v", found)
	}
	// A file about other sets changes nothing and says nothing.
	f := withLearned(t)
	f.edit(t, "  - id: 11\n    wire", "  - id: 77\n    wire")
	other := planOf(t, f)
	if len(withCode(other, finding.SettingsLearned)) != 0 || other.Seams[0].Passes[0].Size.Travel != planOf(t, good(t)).Seams[0].Passes[0].Size.Travel {
		t.Error("a set that nothing was learned about is planned otherwise")
	}
}
