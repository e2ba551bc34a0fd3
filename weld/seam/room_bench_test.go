package seam_test

import (
	"testing"

	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

func BenchmarkRoom(b *testing.B) {
	tee, butt := joined(b, weld.Tee), joined(b, weld.Butt)
	g, err := section.NewGroove(section.Groove{Prep: section.SingleU, Thickness: 25e-3, Gap: 1e-3, RootFace: 2e-3, Angle: 12 * radian, Radius: 6e-3})
	if err != nil {
		b.Fatal(err)
	}
	for _, row := range []struct {
		name string
		spec seam.RoomSpec
	}{{"tee", seam.RoomSpec{Way: tee, Nozzle: roomNozzle}}, {"U groove", seam.RoomSpec{Way: butt, Nozzle: roomNozzle, Groove: &g}}} {
		b.Run(row.name+" made", func(b *testing.B) {
			for b.Loop() {
				if _, err := seam.NewRoom(row.spec); err != nil {
					b.Fatal(err)
				}
			}
		})
		r := roomOf(b, row.spec)
		b.Run(row.name+" asked", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Least(seam.Aim{Work: 0.6, Travel: 0.2}, seam.Sway{})
			}
		})
	}
}
