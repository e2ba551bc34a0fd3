package plan

import (
	"context"
	"fmt"
	"sync"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/seam"
)

// Progress is told how many of the seams are planned and what was done last.
// It may be called from several goroutines, one at a time.
type Progress func(done, of int, what string)

// Make plans a job. It fails only where the job cannot be read as a plan at
// all; the error is then a *job.Problems with the places to mend, or ctx's
// error when it was cancelled. Everything that is planned but wrong is in the
// plan's findings. The same job gives the same plan, to the bit.
func Make(ctx context.Context, j *job.Job, progress Progress) (*Plan, error) {
	m, err := newMaker(j)
	if err != nil {
		return nil, err
	}
	return m.make(ctx, progress)
}

// newMaker resolves what a job names: its arm, its points, its seams.
func newMaker(j *job.Job) (*maker, error) {
	c, err := resolveCell(j)
	if err != nil {
		return nil, err
	}
	around, err := scene.New(j, c)
	if err != nil {
		return nil, err
	}
	all := resolveTips(j, c)
	shapes, err := resolveSeams(j, c, all)
	if err != nil {
		return nil, err
	}
	p := &Plan{Cell: c, Scene: around, Stitched: stitchings(shapes)}
	home, ok := p.homePosture(all[j.Home])
	return &maker{words: wordsOf(j), job: j, plan: p, scene: around, tips: all, shapes: shapes, limits: lawLimits(j, c.Chain), home: home, homeOK: ok}, nil
}

// make goes through the stages of the plan.
func (m *maker) make(ctx context.Context, progress Progress) (*Plan, error) {
	if err := m.seams(); err != nil {
		return nil, err
	}
	if err := m.rooms(ctx); err != nil {
		return nil, err
	}
	if err := m.postures(ctx, progress); err != nil {
		return nil, err
	}
	if err := m.order(ctx); err != nil {
		return nil, err
	}
	if err := m.help(ctx); err != nil {
		return nil, err
	}
	m.heat()
	if err := m.run(ctx); err != nil {
		return nil, err
	}
	if err := m.clear(ctx); err != nil {
		return nil, err
	}
	m.distortion()
	m.check()
	return m.plan, nil
}

// Fit reports whether nothing stops the plan.
func (p *Plan) Fit() bool { return finding.Worst(p.Findings) < finding.Stop }

// maker holds what the stages hand to each other.
type maker struct {
	words
	job    *job.Job
	plan   *Plan
	tips   tips
	shapes []seamShape
	limits []motion.LawLimits
	scene  *scene.Scene // what the arm moves among
	home   kinematics.Q
	homeOK bool

	sized   [][]finding.Finding   // by seam: from sizing
	roomed  [][]*roomCheck        // by seam and pass: the room of the nozzle
	placed  [][][]finding.Finding // by seam and pass: from the posture search
	bent    [][][]finding.Finding // by seam and pass: from its profile
	shifted []finding.Finding     // from the search for a shift of the arm's foot
	moved   []finding.Finding     // from the run
}

// seams fills in everything that needs no arm: geometry, position, size.
func (m *maker) seams() error {
	m.sized = make([][]finding.Finding, len(m.shapes))
	var bad []job.Problem
	for i := range m.shapes {
		shape := &m.shapes[i]
		s, g := shape.doc, shape.geometry
		start := g.At(0)
		up := m.tips.up(m.plan.Cell, s)
		position, err := weld.Classify(weldKind(s.Joint), start.T, start.Bisector, up)
		if err != nil {
			bad = append(bad, job.Problem{Place: s.At, Found: "a weld position that cannot be told", Allowed: "a seam with a direction and faces", Mend: err.Error()})
			continue
		}
		way, err := seam.NewWay(g, shape.shares...)
		if err != nil {
			return err // looked at when the seam was read
		}
		aim := wantedAim(m.job, s)
		z := sizing{words: m.words, job: m.job, seam: s, settings: settingsOf(m.job, s.Settings), position: position, start: start, up: up, length: g.Length()}
		laid, err := z.all(aim)
		if err != nil {
			bad = append(bad, job.Problem{Place: s.At, Found: "a size that cannot be welded with its settings set", Allowed: "a size, a settings set and a speed that fit together", Mend: err.Error()})
			continue
		}
		m.sized[i] = laid.found
		m.plan.Seams = append(m.plan.Seams, Seam{
			Name: s.Name, Index: shape.index, BaseThickness: s.BaseThickness, OtherThickness: s.OtherThickness, Geometry: g, Way: way, FitResidual: shape.residual, Length: g.Length(), Position: position,
			Section: laid.section, Passes: laid.passes,
		})
	}
	if len(bad) > 0 {
		return &job.Problems{List: bad}
	}
	for i := range m.plan.Seams {
		n := len(m.plan.Seams[i].Passes)
		m.placed, m.bent = append(m.placed, make([][]finding.Finding, n)), append(m.bent, make([][]finding.Finding, n))
	}
	return nil
}

// postures finds the arm's way along every pass, passes side by side on all
// processors; the results do not depend on their number.
func (m *maker) postures(ctx context.Context, progress Progress) error {
	var mu sync.Mutex
	done := 0
	all := m.passes()
	err := sideBySide(ctx, len(all), func(ctx context.Context, n int) error {
		at := all[n]
		if err := m.posture(ctx, at); err != nil {
			return fmt.Errorf("%s: %w", m.passName(at), err)
		}
		if progress != nil {
			mu.Lock()
			defer mu.Unlock()
			done++
			progress(done, len(all), m.passName(at))
		}
		return nil
	})
	if err != nil {
		return err
	}
	for i := range m.plan.Seams {
		if err := m.lie(i); err != nil {
			return fmt.Errorf("seam %s: %w", m.plan.Seams[i].Name, err)
		}
	}
	return sideBySide(ctx, len(all), func(ctx context.Context, n int) error {
		at := all[n]
		if m.pass(at).Motion == nil {
			return m.weaving(at)
		}
		if err := m.timing(m.pass(at)); err != nil {
			return fmt.Errorf("%s: %w", m.passName(at), err)
		}
		if err := m.corners(ctx, at); err != nil {
			return fmt.Errorf("%s: %w", m.passName(at), err)
		}
		return m.weaving(at)
	})
}

// passAt is a pass of the plan: the places of its seam and of itself there, from 0.
type passAt struct{ seam, pass int }

// passes lists every pass in the order of welding.
func (m *maker) passes() []passAt {
	var list []passAt
	for i := range m.plan.Seams {
		for k := range m.plan.Seams[i].Passes {
			list = append(list, passAt{i, k})
		}
	}
	return list
}

func (m *maker) pass(at passAt) *Pass { return &m.plan.Seams[at.seam].Passes[at.pass] }

func (m *maker) passName(at passAt) string {
	return m.plan.Seams[at.seam].PassName(m.pass(at))
}

// PassName is what a pass of the seam is called: the seam's name where it has but
// one.
func (s *Seam) PassName(p *Pass) string {
	if len(s.Passes) == 1 {
		return s.Name
	}
	return fmt.Sprintf("%s pass %d", s.Name, p.Number)
}

// check gathers every finding in a fixed order: the list, the points, then
// seam by seam, then the run.
func (m *maker) check() {
	p, j := m.plan, m.job
	p.Findings = append(p.Findings, checkList(j, m.tips)...)
	p.Findings = append(p.Findings, checkPoints(j, p, m.tips)...)
	p.Findings = append(p.Findings, checkPayload(j)...)
	p.Findings = append(p.Findings, checkTemplates(j)...)
	p.Findings = append(p.Findings, m.checkLearned()...)
	if !m.homeOK {
		p.Findings = append(p.Findings, finding.Newf(finding.HomeUnreachable, finding.AtPoint("", j.Home), "home %q is not a posture of this arm", j.Home))
	}
	p.Findings = append(p.Findings, m.checkHome()...)
	if !j.Material.Given {
		p.Findings = append(p.Findings, finding.New(finding.MaterialMissing, finding.AtField("material"), "no steel is stated: preheat was not looked at, nor the cooling times held against any"))
	}
	if len(j.Procedures) == 0 {
		p.Findings = append(p.Findings, finding.New(finding.ProcedureMissing, finding.AtField("procedure"), "settings are held against no welding procedure"))
	}
	ready := checkers{}
	for i := 0; i < len(p.Seams); {
		found, n := m.checkTogether(i, ready)
		p.Findings = append(p.Findings, found...)
		i += n
	}
	p.Findings = append(p.Findings, m.checkProcedures()...)
	p.Findings = append(p.Findings, m.checkSymbols()...)
	p.Findings = append(p.Findings, m.shifted...)
	p.Findings = append(p.Findings, m.moved...)
	p.Findings = append(p.Findings, m.scene.Findings()...)
	p.Findings = append(p.Findings,
		finding.New(finding.NotOnMachine, finding.Place{}, "this plan has not been checked on the machine"))
}

// checkSeam audits the points taught for seam i and gathers its findings; ready are
// the procedures' rows that other seams have used.
func (m *maker) checkSeam(i int, ready checkers) []finding.Finding {
	shape, seam := &m.shapes[i], &m.plan.Seams[i]
	doc := shape.doc
	first := &seam.Passes[0]
	seam.Taught = audit(shape.held, seam.Way, first, m.tips)
	c := seamCheck{words: m.words, job: m.job, doc: doc, shape: shape, seam: seam, checkers: ready, saidOfSeam: map[procedure.Item]bool{}, ceiling: m.ceilingOf(doc)}
	c.take(first)
	c.again()
	c.geometry()
	c.taught()
	c.found = append(c.found, m.sized[i]...)
	c.size()
	c.heat()
	for k := range seam.Passes {
		c.take(&seam.Passes[k])
		c.passed()
		c.found = append(append(append(c.found, m.roomed[i][k].found...), m.placed[i][k]...), m.bent[i][k]...)
		c.axes(m)
	}
	return c.found
}
