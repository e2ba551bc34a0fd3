package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// twentySeams writes a job of 20 straight fillets of 250 mm each, 5 m in all,
// in all directions on a plate before the arm kittiwake, into a new folder.
func twentySeams(t testing.TB) (dir string) {
	t.Helper()
	dir = t.TempDir()
	arm, err := os.ReadFile(filepath.Join("..", "..", "examples", "arms", "kittiwake.urdf"))
	if err != nil {
		t.Fatal(err)
	}
	var rows, seams strings.Builder
	for i := range 20 {
		yaw := float64(i) * 18 * math.Pi / 180
		x, y := 560+75*float64(i%4), -300+150*float64(i/4)
		for k, at := range []float64{-125, 125} {
			fmt.Fprintf(&rows, "    - {label: W%d %s, pose: [%.1f, %.1f, 40.0, 180, 0, 0]}\n", i+1, []string{"start", "end"}[k], x+at*math.Cos(yaw), y+at*math.Sin(yaw))
		}
		fmt.Fprintf(&seams, `  - name: W%[1]d
    joint: tee
    line: [W%[1]d start, W%[1]d end]
    base: level
    upright: left
    weld: {leg: 5 mm}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: free}
    approach: {out: 50 mm}
    retreat: {out: 50 mm}
`, i+1)
	}
	job := `seamwright: 1
name: twenty seams
code: iso
arm: {urdf: arm.urdf, base_link: base, flange_link: flange}
torch: {body: 210 mm, neck: 120 mm, neck_angle: 35 deg, nozzle: 22 mm, tip_recess: 2 mm, stick_out: 13 mm}
points:
  measured_in: base
  point: tip
  length: mm
  orientation: fixed x-y-z degrees
  joints: deg
  rows:
    - {label: home, joints: [0, 0, 0, 0, 60, 0]}
` + rows.String() + `home: home
settings:
  sets:
    - {id: 11, name: z5, process: 135, transfer: spray, wire: 1.0 mm, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, start_time: 0.3 s, crater_time: 0.5 s}
seams:
` + seams.String()
	for name, data := range map[string]string{"arm.urdf": string(arm), "job.yaml": job} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// BenchmarkTwentySeams times the whole program on a job of 20 seams and 5 m,
// from process start to the last file, and its peak memory.
func BenchmarkTwentySeams(b *testing.B) {
	dir := twentySeams(b)
	bin := filepath.Join(dir, "seamwright")
	if out, err := exec.Command("go", "build", "-o", bin, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	var peak int64
	for b.Loop() {
		cmd := exec.Command(bin, "plan", "-q", filepath.Join(dir, "job.yaml"), "-o", filepath.Join(dir, "plan"))
		out, err := cmd.CombinedOutput()
		if err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		peak = max(peak, cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss)
	}
	b.ReportMetric(float64(peak)/1024, "peak-MB")
}

// BenchmarkTwentySeamsInProcess is the same without process start, for
// profiles.
func BenchmarkTwentySeamsInProcess(b *testing.B) {
	dir := twentySeams(b)
	for b.Loop() {
		if code := run(b.Context(), []string{"plan", "-q", filepath.Join(dir, "job.yaml"), "-o", filepath.Join(dir, "plan")}, io.Discard, os.Stderr); code != exitFit {
			b.Fatalf("exit code %d", code)
		}
	}
}
