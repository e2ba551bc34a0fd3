package section

import "fmt"

// layOn lays the layers of one side of a groove and adds them to a plan.
func layOn(p *Plan, h half, levels []level) error {
	outline, err := h.g.CapOutline(h.cap)
	if err != nil {
		return err
	}
	b := bench{h: h, s: h.surface()}
	if !h.back {
		p.Root = h.place(Point{0, h.bottom()})
	}
	b.ground = b.s
	b.below = h.bottom()
	for i, l := range levels {
		if err := b.layer(l, i+1); err != nil {
			return err
		}
	}
	if outline != nil {
		p.Filled = append(p.Filled, h.outline(outline))
	}
	first := 0
	if n := len(p.Passes); n > 0 {
		first = p.Passes[n-1].Layer
	}
	for _, q := range b.passes {
		q.Layer += first
		p.Passes = append(p.Passes, q)
	}
	if !h.back {
		p.Face = h.outline(b.s.at)
	}
	p.Low = min(p.Low, b.low)
	return nil
}

// bench lays the layers of one side of a groove, in its own frame.
type bench struct {
	h      half
	ground surface // before the first pass
	s      surface
	below  float64  // m, height that the layers fill so far
	toes   [2]Point // of the layer below
	low    float64  // m, of the last layer
	passes []Pass
}

// layer lays one layer.
func (b *bench) layer(l level, number int) error {
	head, tail := b.h.margin-b.h.cap.Over/2, b.h.margin-b.h.cap.Over/2
	thick := b.h.g.Thickness + b.h.cap.Height - b.below
	if !l.last {
		head, tail = b.h.toes(b.ground, l.top)
		thick = l.top - b.below
	}
	areas := make([]float64, l.beads)
	for i := range areas {
		areas[i] = l.area
	}
	got := lay(b.s, head, tail, areas)
	if !got.fits {
		return InputError{ErrNoBeadFits, fmt.Sprintf("%d beads of %s in layer %d", l.beads, squares(l.area), number), "beads that reach from edge to edge", "change the area of a pass, or the width above which layers are split"}
	}
	for i, f := range got.faces {
		q := Pass{Role: l.role, Layer: number, Back: b.h.back, Area: l.area, Bead: b.h.outline(f.outline(got.grounds[i])),
			Toes: [2]Point{b.h.place(f.from.Point), b.h.place(f.to.Point)}, Thickness: thick,
			Aim: b.h.place(b.aim(got, i, number)), Work: b.work(i, l.beads)}
		b.passes = append(b.passes, q)
	}
	b.s, b.below, b.low = got.after, l.top, got.low
	b.toes = [2]Point{got.faces[0].from.Point, got.faces[l.beads-1].to.Point}
	return nil
}

// aim returns where bead i of a layer is pointed at.
func (b *bench) aim(l layer, i, number int) Point {
	switch last := len(l.faces) - 1; {
	case last == 0 && number == 1:
		return Point{0, b.h.bottom()}
	case last == 0 || number == 1:
		return middle(l.grounds[i], l.faces[i])
	case i == 0:
		return b.toes[0]
	case i == last:
		return b.toes[1]
	default:
		return l.faces[i-1].to.Point
	}
}

// work returns the work angle of bead i of n in a layer, rad: the wire of the first
// points at the edge at positive X, so its torch leans to negative X.
func (b *bench) work(i, n int) float64 {
	bisector, half := b.h.lean()
	if n == 1 {
		return bisector
	}
	lean := min(sideLean, half/2)
	return bisector + lean*(2*float64(i)/float64(n-1)-1)
}
