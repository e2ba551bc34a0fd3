package section_test

import (
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// TestMinimumInEitherColumn: AWS D1.1:2025 Table 7.7 prints 5 mm (3/16 in) for
// 6 to 12 mm (read in a code commentary); a leg of 3/16 in, 4.76 mm, meets it.
func TestMinimumInEitherColumn(t *testing.T) {
	limits, err := section.MinSizes(section.Plates{Family: weld.AWS, Process: weld.MAG, Thinner: 10e-3, Thicker: 12e-3})
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name string
		leg  float64 // m
		want bool
	}{
		{"metric", 5e-3, true}, {"3/16 in", unit.Inch * 3 / 16, true}, {"rounded to 4.8 mm", 4.8e-3, true},
		{"4.7 mm", 4.7e-3, false}, {"1/8 in", unit.Inch / 8, false},
	} {
		if got := limits[0].Allows(row.leg); got != row.want {
			t.Errorf("%s: allowed %v, want %v", row.name, got, row.want)
		}
	}
}
