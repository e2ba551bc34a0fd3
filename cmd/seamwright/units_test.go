package main

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"
)

// TestTableFollowsTheJob: a job read in inches is shown in inches, unless the
// reader asks for metric.
func TestTableFollowsTheJob(t *testing.T) {
	job := filepath.Join("..", "..", "examples", "sluice-lug", "job.yaml")
	for _, row := range []struct {
		name      string
		flags     []string
		has, lack string
	}{
		{"the job's", nil, " in/min  ", " mm/s  "},
		{"asked for", []string{"--units", "metric"}, " mm/s  ", " in/min  "},
	} {
		t.Run(row.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			args := append([]string{"plan", job, "-o", filepath.Join(t.TempDir(), "plan")}, row.flags...)
			if code := run(context.Background(), args, &out, &errs); code != exitFit {
				t.Fatalf("exit code %d: %s", code, errs.String())
			}
			table, _, _ := strings.Cut(out.String(), "as taught")
			if !strings.Contains(table, row.has) || strings.Contains(table, row.lack) {
				t.Errorf("want %q and not %q in\n%s", row.has, row.lack, table)
			}
		})
	}
}
