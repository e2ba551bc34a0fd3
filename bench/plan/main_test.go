package plan_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain fixes the seed of the property tests, so that a run says the same
// everywhere; -rapid.seed=0 draws afresh.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}
