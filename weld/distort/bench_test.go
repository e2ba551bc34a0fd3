package distort_test

import (
	"testing"

	"seamwright/unit"
	"seamwright/weld/distort"
)

func BenchmarkTransverse(b *testing.B) {
	w := distort.Butt{Area: 66.77 * unit.MM2, Thickness: 10 * unit.MM, RootGap: 2 * unit.MM, HeatInput: 0.765 * unit.KJPerMM}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.Transverse(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBow(b *testing.B) {
	p := distort.Pull{Area: 18 * unit.MM2, Offset: 80 * unit.MM, HeatInput: 0.765 * unit.KJPerMM}
	beam := distort.Beam{Length: 3, Inertia: 8e6 * mm4, Welds: []distort.Pull{p, p}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := beam.Bow(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkProposeOrder orders forty seams of a frame.
func BenchmarkProposeOrder(b *testing.B) {
	r := distort.OrderRequest{BackStep: 0.2}
	for i := range 40 {
		r.Seams = append(r.Seams, seam(18+float64(i%3)*10, float64(i%7-3)*20, float64(i%5-2)*40, float64(i)*50, float64(i)*50+600))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := distort.ProposeOrder(r); err != nil {
			b.Fatal(err)
		}
	}
}
