package job_test

import (
	"strings"
	"testing"

	"seamwright/bench/job"
)

// A table whose first row is one long name says so in a short message on one
// line.
func TestLongColumnNameIsCutInMessages(t *testing.T) {
	m := small(t)
	m["taught.csv"] = "label," + strings.Repeat("\x1dn", 3000) + "\n"
	_, err := job.Decode("job.yaml", m)
	if err == nil {
		t.Fatal("accepted")
	}
	for _, line := range strings.Split(err.Error(), "\n") {
		if len(line) > 1000 || strings.ContainsRune(line, 0x1d) {
			t.Errorf("a message of %d bytes: %q", len(line), line[:min(len(line), 200)])
		}
	}
}
