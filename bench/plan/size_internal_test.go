package plan

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/weld/procedure"
)

// memory opens files by name.
type memory map[string]string

func (m memory) Open(name string) (io.ReadCloser, error) {
	if text, ok := m[name]; ok {
		return io.NopCloser(strings.NewReader(text)), nil
	}
	return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
}

// thousand returns the maker of a job of 250 fillets of four passes each, with a
// procedure, steel and heat: the good job, made heavy and repeated.
func thousand(t testing.TB) *maker {
	t.Helper()
	m := memory{}
	for _, name := range []string{"checks/job.yaml", "checks/procedure.yaml", "checks/settings.yaml", "checks/taught.csv", "scenarios/arm_a.urdf"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		m[filepath.Base(name)] = string(data)
	}
	m["job.yaml"] = strings.NewReplacer(
		"weld: {leg: 5 mm}", "weld: {leg: 12 mm}\n    passes: {most: {area: 20 mm2}}\n    repeat: {count: 250, step: [0 mm, 0 mm, 1 mm]}",
		"{base: 8 mm, upright: 6 mm}", "{base: 20 mm, upright: 20 mm}",
		"seams:\n", "material: {grade: S355J2}\nheat: {preheat: 100 degC, interpass_max: 250 degC, cooling: {from: 2 s, to: 25 s}}\nseams:\n",
	).Replace(m["job.yaml"])
	m["settings.yaml"] = strings.Replace(m["settings.yaml"], "{id: 11,", "{id: 11, hydrogen: 5,", 1)
	m["procedure.yaml"] = strings.NewReplacer("to: 0.6 kJ/mm", "to: 0.9 kJ/mm", "to: 12 mm", "to: 25 mm", "single_pass_max: 6 mm", "single_pass_max: 8 mm").Replace(m["procedure.yaml"])
	j, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	k, err := newMaker(j)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// weigh sizes every pass of a job, works out its heat, and holds both against
// procedure and steel: what a plan does beside the arm. It returns the passes and the
// findings.
func (m *maker) weigh() (passes, found int, err error) {
	m.plan.Seams, m.placed, m.bent = nil, nil, nil
	if err := m.seams(); err != nil {
		return 0, 0, err
	}
	m.heat()
	ready := checkers{}
	for i := range m.plan.Seams {
		seam := &m.plan.Seams[i]
		c := seamCheck{words: m.words, job: m.job, doc: m.shapes[i].doc, shape: &m.shapes[i], seam: seam, checkers: ready,
			saidOfSeam: map[procedure.Item]bool{}, ceiling: m.ceilingOf(m.shapes[i].doc)}
		seam.Lies = []Lie{{0, seam.Position}}
		c.take(&seam.Passes[0])
		c.heat()
		for k := range seam.Passes {
			c.take(&seam.Passes[k])
			c.procedure()
			passes++
		}
		found += len(c.found)
	}
	return passes, found, nil
}

func TestThousandPasses(t *testing.T) {
	passes, found, err := thousand(t).weigh()
	if err != nil || passes != 1000 || found != 0 {
		t.Errorf("%d passes, %d findings, %v; want a thousand that fit", passes, found, err)
	}
}

// BenchmarkThousandPasses sizes 1,000 passes, works out their heat and holds them
// against procedure and steel, on one core.
func BenchmarkThousandPasses(b *testing.B) {
	m := thousand(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := m.weigh(); err != nil {
			b.Fatal(err)
		}
	}
}
