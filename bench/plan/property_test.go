package plan_test

import "pgregory.net/rapid"

var _ = rapid.Check
