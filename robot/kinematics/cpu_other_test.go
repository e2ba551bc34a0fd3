//go:build !linux

package kinematics_test

import "testing"

// reportCPU adds nothing where the process's CPU clock is not known.
func reportCPU(*testing.B) func() { return func() {} }
