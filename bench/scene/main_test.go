package scene_test

import (
	"testing"

	"seamwright/internal/seed"
)

func TestMain(m *testing.M) { seed.Main(m) }
