package export

import (
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
)

// The folders of a plan folder that hold drawings: of what comes out along each
// seam, of the section that is laid in passes, of temperatures.
const (
	ProfileDir = "profile"
	SectionDir = "section"
	HeatDir    = "heat"
)

var drawingDirs = []string{ProfileDir, SectionDir, HeatDir, SymbolDir}

// drawings are the parts of a plan folder that are drawn.
func drawings(j *job.Job, p *plan.Plan) []part {
	return slices.Concat(profileParts(j, p), sectionParts(j, p), heatParts(j, p), symbolParts(j))
}

// systemOf is the system of units that a job's drawings speak.
func systemOf(j *job.Job) unit.System {
	if j.Keying.Length == unit.Inches.String() {
		return unit.InchPound
	}
	return unit.Metric
}

// profileParts are the drawings of every pass with a profile that has something
// to see.
func profileParts(j *job.Job, p *plan.Plan) []part {
	var parts []part
	used := map[string]bool{}
	for i := range p.Seams {
		s := &p.Seams[i]
		for k := range s.Passes {
			pass := &s.Passes[k]
			if pass.Profile == nil || pass.Profile.Even() {
				continue
			}
			name := s.Name
			if len(s.Passes) > 1 {
				name = fmt.Sprintf("%s pass %d", s.Name, pass.Number)
			}
			name = path.Join(ProfileDir, fileName(name, used)+".svg")
			parts = append(parts, part{name, func(w io.Writer) error { return Profile(w, j, s, pass) }})
		}
	}
	return parts
}

// fileName makes a name of letters, digits, dots, dashes and blanks that no other
// file has, whether or not the system tells capitals apart.
func fileName(name string, used map[string]bool) string {
	safe := strings.Map(func(r rune) rune {
		if r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) || strings.ContainsRune("-_ .", r) {
			return r
		}
		return '-'
	}, name)
	safe = strings.Trim(safe, " .")
	const longest = 100 // bytes: a name, not a text
	safe = safe[:min(len(safe), longest)]
	if safe == "" {
		safe = "seam"
	}
	unique := safe
	for n := 2; used[strings.ToLower(unique)]; n++ {
		unique = fmt.Sprintf("%s-%d", safe, n)
	}
	used[strings.ToLower(unique)] = true
	return unique
}

// Profile draws what comes out along a seam as an SVG: the leg with its limits,
// beneath it the travel speed that the arm holds and the travel angle at which
// the torch truly stands, all over the length of the seam.
func Profile(w io.Writer, j *job.Job, s *plan.Seam, pass *plan.Pass) error {
	d := drawing{seam: s, pass: pass, system: systemOf(j)}
	_, err := io.WriteString(w, d.svg())
	return err
}
