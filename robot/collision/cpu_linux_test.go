package collision_test

import (
	"syscall"
	"testing"
)

// cpuTime returns the CPU time that this process has used, ns: what else the
// machine does counts little in it.
func cpuTime() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return float64(u.Utime.Nano() + u.Stime.Nano())
}

// reportCPU starts counting and returns the function that adds the CPU time of
// each of the count things that one round of the benchmark does.
func reportCPU(b *testing.B, unit string, count int) func() {
	start := cpuTime()
	return func() { b.ReportMetric((cpuTime()-start)/float64(b.N*count), unit) }
}
