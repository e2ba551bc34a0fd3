package export_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"seamwright/bench/export"
)

var update = flag.Bool("update", false, "write docs/schema/plan.schema.json; read the difference before committing it")

const schemaFile = "../../docs/schema/plan.schema.json"

func TestSchemaIsFresh(t *testing.T) {
	got := export.Schema()
	if *update {
		if err := os.WriteFile(schemaFile, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is stale: run go test ./bench/export -update", schemaFile)
	}
}

// planSchema compiles the schema with a public library that checks it against
// draft 2020-12 itself.
func planSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(export.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("plan.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("plan.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if s.DraftVersion != 2020 {
		t.Fatalf("draft %d, want 2020", s.DraftVersion)
	}
	return s
}

// unfit are plans that a finding stops and that lack parts for it.
func unfit(t *testing.T) []planned {
	t.Helper()
	return []planned{
		variant(t, "no posture", "[430, -230, 35", "[1430, -230, 35"),
		variant(t, "home out of reach", "joints: [0, -20, 100, 0, 70, 0]", "pose: [5000, 0, 300, 180, 0, 0]"),
		variant(t, "typed speed", "settings: 11", "settings: 11\n    speed: 12 mm/s"),
	}
}

// A stopped plan says so, and what it lacks is an empty list or left out.
func TestUnfitPlansAreWrittenWhole(t *testing.T) {
	for _, c := range unfit(t) {
		text := string(written(t, c, export.PlanFile))
		if !strings.Contains(text, `"fit": false`) || !strings.Contains(text, `"severity": "stop"`) {
			t.Errorf("%s: the plan does not say that it is stopped", c.name)
		}
		for line := range strings.Lines(text) {
			if strings.Contains(line, "null") && !strings.Contains(line, `"measured"`) && !strings.Contains(line, `"limit"`) {
				t.Errorf("%s: %s", c.name, line)
			}
		}
		if c.name == "home out of reach" && !strings.Contains(text, `"steps": []`) {
			t.Errorf("%s: the run begins at a home that cannot be", c.name)
		}
		if err := writePlan(filepath.Join(t.TempDir(), "out"), c.job, c.plan); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestPlansFitTheSchema(t *testing.T) {
	s := planSchema(t)
	for _, c := range slices.Concat(plannedJobs(t), unfit(t)) {
		t.Run(c.name, func(t *testing.T) {
			doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(written(t, c, export.PlanFile)))
			if err != nil {
				t.Fatal(err)
			}
			if err := s.Validate(doc); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestBrokenPlansDoNotFitTheSchema(t *testing.T) {
	s := planSchema(t)
	good := string(written(t, plannedJobs(t)[0], export.PlanFile))
	for _, row := range []struct{ name, old, new, want string }{
		{"other form", `"seamwright_plan": 1`, `"seamwright_plan": 2`, "/seamwright_plan"},
		{"field gone", `"base_link": "base",`, ``, "base_link"},
		{"field more", `"fit": true`, `"fit": true, "released": true`, "released"},
		{"text for a number", `"total_s": `, `"total_s": "1", "x": `, "/times/total_s"},
		{"unknown severity", `"severity": "caution"`, `"severity": "warning"`, "/severity"},
		{"null list", `"joints": [`, `"joints": null, "x": [`, "/joints"},
		{"short vector", `"travel": [`, `"travel": [], "x": [`, "/travel"},
		{"unknown move", `"move": "joint"`, `"move": "jump"`, "/move"},
	} {
		t.Run(row.name, func(t *testing.T) {
			broken := strings.Replace(good, row.old, row.new, 1)
			if broken == good {
				t.Fatalf("the plan does not hold %s", row.old)
			}
			doc, err := jsonschema.UnmarshalJSON(strings.NewReader(broken))
			if err != nil {
				t.Fatal(err)
			}
			if err := s.Validate(doc); err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want an error about %s", err, row.want)
			}
		})
	}
}

// dimensionless are the numbers that need no unit; parts of findings name
// theirs in the field unit.
var dimensionless = []string{"quat_wxyz", "travel", "base_normal", "base_open_side", "axis", "deposition_efficiency", "face_factor", "path_ratio", "joint_speed_share", "measured", "limit"}

// Every field says what it holds, and every number its unit.
func TestSchemaDescribesEveryField(t *testing.T) {
	type node struct {
		Type        any
		Description string
		Properties  map[string]*node
		Items       *node
	}
	var root node
	if err := json.Unmarshal(export.Schema(), &root); err != nil {
		t.Fatal(err)
	}
	fields, numbers := 0, 0
	var walk func(path string, n *node)
	walk = func(path string, n *node) {
		if n.Items != nil {
			walk(path, n.Items)
		}
		for name, p := range n.Properties {
			fields++
			at := path + "/" + name
			if p.Description == "" || strings.HasPrefix(p.Description, ",") {
				t.Errorf("%s has no description", at)
			}
			leaf := p
			for leaf.Items != nil {
				leaf = leaf.Items
			}
			kind, _ := json.Marshal(leaf.Type)
			if strings.Contains(string(kind), `"number"`) && !slices.Contains(dimensionless, name) {
				numbers++
				if !strings.Contains(p.Description, ", in ") {
					t.Errorf("%s is a number whose name ends in no unit", at)
				}
			}
			walk(at, p)
		}
	}
	walk("", &root)
	if fields < 100 || numbers < 40 {
		t.Errorf("walked %d fields and %d numbers only", fields, numbers)
	}
}

func TestPlanFolderNamesAreThoseOfTheContract(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	c := plannedJobs(t)[0]
	if err := writePlan(dir, c.job, c.plan); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if want := []string{"findings.json", "heat", "plan.json", "steps.csv", "symbols", "trace.csv"}; !slices.Equal(names, want) {
		t.Errorf("got %v, want %v", names, want)
	}
}
