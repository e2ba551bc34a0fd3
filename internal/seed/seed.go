// Package seed fixes the random seed of property tests, so that a run says the
// same everywhere. It is for tests only.
package seed

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

// Main is TestMain for packages with property tests: it runs them from one
// seed. -rapid.seed=0 draws afresh.
func Main(m *testing.M) {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		fmt.Fprintln(os.Stderr, "seed: this package has no property tests:", err)
		os.Exit(2)
	}
	os.Exit(m.Run())
}
