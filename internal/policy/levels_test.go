package policy

import (
	"fmt"
	"strings"
	"testing"
)

// levels is the one place that says how the packages are stacked. A package
// imports only packages of lower levels. See docs/decisions/0001-layers.md.
var levels = map[string]int{
	"examples":         9,
	"unit":             0,
	"geom/r3":          1,
	"weld":             1,
	"geom/se3":         2,
	"geom/mesh":        2,
	"geom/convex":      2,
	"robot/urdf":       2,
	"robot/contact":    2,
	"weld/section":     2,
	"weld/thermal":     2,
	"weld/deposit":     2,
	"weld/distort":     2,
	"weld/accept":      2,
	"weld/symbol":      2,
	"geom/curve":       3,
	"geom/bvh":         3,
	"geom/fit":         3,
	"robot/kinematics": 3,
	"weld/procedure":   3,
	"weld/weave":       3,
	"robot/collision":  4,
	"robot/motion":     4,
	"weld/seam":        4,
	"weld/quote":       4,
	"robot/cell":       5,
	"bench/finding":    5,
	"bench/job":        5,
	"bench/intake":     5,
	"bench/draft":      6,
	"bench/scene":      6,
	"bench/plan":       6,
	"bench/locate":     6,
	"bench/prove":      7,
	"bench/sheet":      7,
	"bench/export":     7,
	"bench/gauge":      7,
	"bench/library":    8,
	"httpapi":          9,
	"web":              9,
	"cmd/seamwright":   10,
}

// sameLevel lists the only imports between packages of one level.
var sameLevel = map[[2]string]string{
	{"robot/urdf", "geom/se3"}:    "the origins of joints and shapes are poses",
	{"weld", "geom/r3"}:           "a weld position is read from directions",
	{"geom/convex", "geom/se3"}:   "solids are held against each other at a pose",
	{"bench/plan", "bench/scene"}: "a plan is kept clear of the job's bodies; the scene plans nothing",
}

// never lists shelves whose packages never import those of another shelf,
// whatever their levels.
var never = []struct{ from, to string }{
	{"robot", "weld"}, // they meet in bench/plan
	{"weld", "robot"},
	{"geom", "robot"}, // geometry knows nothing of what it is used for
	{"geom", "weld"},
}

// unreachable lists what a package must not import, not even through others.
var unreachable = map[string][]string{
	// The proof is worth something only if it shares no planner code.
	"bench/prove": {"bench/plan", "robot/motion", "weld/seam"},
}

// internalPrefix marks test helpers, which only tests import.
const internalPrefix = "internal/"

// levelOf returns the level of a package. A folder below geom/mesh holds one
// file format and stands on the level of its parent.
func levelOf(dir string) (int, bool) {
	if strings.HasPrefix(dir, "geom/mesh/") {
		dir = "geom/mesh"
	}
	level, ok := levels[dir]
	return level, ok
}

// mayShareLevel reports whether from may import to although both stand on one
// level: a file format fills the mesh type of its parent, and sameLevel.
func mayShareLevel(from, to string) bool {
	_, listed := sameLevel[[2]string{from, to}]
	return listed || to == "geom/mesh" && strings.HasPrefix(from, "geom/mesh/")
}

// onShelf reports whether dir is the shelf or lies below it.
func onShelf(dir, shelf string) bool {
	return dir == shelf || strings.HasPrefix(dir, shelf+"/")
}

// arrows is the rule of downward imports.
func arrows(t tree) []string {
	var bad []string
	for _, f := range t.files {
		if strings.HasPrefix(f.dir, internalPrefix) {
			continue
		}
		if _, known := levelOf(f.dir); !known {
			bad = append(bad, fmt.Sprintf("%s/%s: package %q has no level: add it to the table in internal/policy/levels_test.go",
				f.dir, f.name, f.dir))
			continue
		}
		imports := f.imports()
		for _, imported := range sortedKeys(imports) {
			to, own := strings.CutPrefix(imported, modulePath+"/")
			if !own {
				continue
			}
			if why := arrowFault(f, to); why != "" {
				bad = append(bad, t.at(imports[imported], "%s imports %s: %s", f.dir, to, why))
			}
		}
	}
	return append(bad, reachFaults(t)...)
}

// arrowFault says what is wrong with f importing the package to, or nothing.
// Tests may also import their own level and the test helpers.
func arrowFault(f source, to string) string {
	if strings.HasPrefix(to, internalPrefix) {
		if f.isTest() {
			return ""
		}
		return "internal packages are test helpers; only tests import them"
	}
	for _, n := range never {
		if onShelf(f.dir, n.from) && onShelf(to, n.to) {
			return fmt.Sprintf("nothing on the shelf %s imports the shelf %s", n.from, n.to)
		}
	}
	from, _ := levelOf(f.dir)
	level, known := levelOf(to)
	switch {
	case !known:
		return "the imported package has no level"
	case level > from:
		return fmt.Sprintf("level %d must not import level %d", from, level)
	case level == from && !f.isTest() && !mayShareLevel(f.dir, to):
		return fmt.Sprintf("both are level %d and the pair is not listed in sameLevel", from)
	}
	return ""
}

// reachFaults finds forbidden packages in what a package imports, directly or
// through others.
func reachFaults(t tree) []string {
	next := map[string]map[string]bool{}
	for dir, files := range t.packages() {
		next[dir] = map[string]bool{}
		for _, f := range files {
			for imported := range f.imports() {
				if to, own := strings.CutPrefix(imported, modulePath+"/"); own {
					next[dir][to] = true
				}
			}
		}
	}
	var bad []string
	for _, from := range sortedKeys(unreachable) {
		seen := map[string]bool{}
		spread(from, next, seen)
		for _, to := range unreachable[from] {
			if seen[to] {
				bad = append(bad, fmt.Sprintf("%s reaches %s through its imports, and must not share its code", from, to))
			}
		}
	}
	return bad
}

// spread marks everything that dir imports, however far.
func spread(dir string, next map[string]map[string]bool, seen map[string]bool) {
	for to := range next[dir] {
		if !seen[to] {
			seen[to] = true
			spread(to, next, seen)
		}
	}
}

func TestImportsPointDownward(t *testing.T) { checkRepository(t, arrows) }

func TestArrowsRuleOnSamples(t *testing.T) {
	file := func(pkg string, imports ...string) string {
		lines := []string{"package " + pkg}
		for _, i := range imports {
			lines = append(lines, fmt.Sprintf("import _ %q", modulePath+"/"+i))
		}
		return strings.Join(lines, "\n")
	}
	checkSamples(t, arrows, []sample{
		{"downward is right", map[string]string{"geom/se3/a.go": file("se3", "geom/r3")}, nil},
		{"upward", map[string]string{"geom/r3/a.go": file("r3", "geom/se3")}, []string{"level 1 must not import level 2"}},
		{"upward from a test", map[string]string{"geom/r3/a_test.go": file("r3_test", "geom/se3")}, []string{"level 1 must not import level 2"}},
		{"own level", map[string]string{"geom/bvh/a.go": file("bvh", "geom/curve")}, []string{"not listed in sameLevel"}},
		{"own level from a test", map[string]string{"geom/bvh/a_test.go": file("bvh_test", "geom/curve")}, nil},
		{"file format fills its parent", map[string]string{"geom/mesh/stl/a.go": file("stl", "geom/mesh")}, nil},
		{"parent asks a file format", map[string]string{"geom/mesh/a.go": file("mesh", "geom/mesh/stl")}, []string{"not listed in sameLevel"}},
		{"robot asks weld", map[string]string{"robot/motion/a.go": file("motion", "weld")}, []string{"nothing on the shelf"}},
		{"weld asks robot", map[string]string{"weld/seam/a.go": file("seam", "robot/kinematics")}, []string{"nothing on the shelf"}},
		{"geom asks weld", map[string]string{"geom/se3/a.go": file("se3", "weld")}, []string{"nothing on the shelf"}},
		{"unknown package", map[string]string{"geom/knots/a.go": file("knots")}, []string{"has no level"}},
		{"unknown package imported", map[string]string{"httpapi/a.go": file("httpapi", "geom/knots")}, []string{"has no level"}},
		{"robot asks geometry", map[string]string{"robot/kinematics/a.go": file("kinematics", "geom/se3")}, nil},
		{"geometry asks robot", map[string]string{"geom/fit/a.go": file("fit", "robot/urdf")}, []string{"nothing on the shelf"}},
		{"helper outside tests", map[string]string{"unit/a.go": file("unit", "internal/golden")}, []string{"test helpers"}},
		{"helper in a test", map[string]string{"unit/a_test.go": file("unit_test", "internal/golden")}, nil},
		{"proof asks planner", map[string]string{"bench/prove/a.go": file("prove", "robot/motion")}, []string{"bench/prove reaches robot/motion"}},
		{"proof asks planner through another", map[string]string{
			"bench/prove/a.go": file("prove", "robot/cell"),
			"robot/cell/a.go":  file("cell", "robot/motion"),
		}, []string{"bench/prove reaches robot/motion"}},
	})
}
