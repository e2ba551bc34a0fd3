package job_test

import (
	"bytes"
	"encoding/json"
	"os"
	"slices"
	"testing"

	"seamwright/bench/job"
)

const schemaFile = "../../docs/schema/job.schema.json"

func TestSchemaIsFresh(t *testing.T) {
	got := job.Schema()
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
		t.Errorf("%s is stale: run go test ./bench/job -update", schemaFile)
	}
}

// The schema says of some fields what the description of the document says.
func TestSchemaSays(t *testing.T) {
	type part struct {
		Type        any
		Enum        []any
		Required    []string
		Properties  map[string]*part
		Items       *part
		MinItems    int
		AllOf       []*part
		OneOf       []*part
		Description string
	}
	var s part
	if err := json.Unmarshal(job.Schema(), &s); err != nil {
		t.Fatal(err)
	}
	if want := []string{"seamwright", "name", "code", "arm", "torch", "points", "home", "settings", "seams"}; !slices.Equal(s.Required, want) {
		t.Errorf("required %v, want %v", s.Required, want)
	}
	seam := s.Properties["seams"].Items
	if got := seam.Properties["joint"].Enum; len(got) != 6 || got[0] != "tee" {
		t.Errorf("joint %v", got)
	}
	if got := seam.Properties["line"].MinItems; got != 2 {
		t.Errorf("line has %d points at least, want 2", got)
	}
	if got := seam.Properties["weld"].AllOf[0].OneOf; len(got) != 5 {
		t.Errorf("weld has %d sizes, want 5", len(got))
	}
	if got := seam.Properties["gap"].OneOf[0].Description; got != "a length in mm, cm, m, in or ft" {
		t.Errorf("gap is %q", got)
	}
}
