//go:build !linux

package plan

import (
	"testing"
	"time"
)

// cpuTime returns the time of the clock, ns, where that of the process's CPU is
// not known.
func cpuTime() float64 { return float64(time.Now().UnixNano()) }

// reportCPU adds nothing where the process's CPU clock is not known.
func reportCPU(*testing.B) func() { return func() {} }
