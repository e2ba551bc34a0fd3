package plan

import (
	"syscall"
	"testing"
	"unsafe"
)

// cpuTime returns the CPU time that this process has used, ns. Other work on
// the machine does not count in it, unlike in a benchmark's ns/op.
func cpuTime() float64 {
	const clockProcess = 2 // CLOCK_PROCESS_CPUTIME_ID of clock_gettime(2)
	var t syscall.Timespec
	syscall.Syscall(syscall.SYS_CLOCK_GETTIME, clockProcess, uintptr(unsafe.Pointer(&t)), 0)
	return float64(t.Nano())
}

// reportCPU starts counting and returns the function that adds cpu-ns/op.
func reportCPU(b *testing.B) func() {
	start := cpuTime()
	return func() { b.ReportMetric((cpuTime()-start)/float64(b.N), "cpu-ns/op") }
}
