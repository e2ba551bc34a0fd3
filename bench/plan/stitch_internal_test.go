package plan

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/symbol"
)

// stitchedSeam is a seam of one shape and what a document asks of it.
type stitchedSeam struct {
	geometry *seam.Seam
	shares   []seam.Share
	doc      job.Seam
}

// shapes cuts the seam.
func (s *stitchedSeam) shapes() ([]seamShape, error) {
	s.doc.Name = "W1"
	b := seamBuilder{job: &job.Job{Air: job.Air{Out: 60 * unit.MM}}, seam: &s.doc, tips: tips{}}
	shape := seamShape{doc: &s.doc, geometry: s.geometry, shares: s.shares}
	shape.whole = s.geometry.Length() - b.overlap()
	return b.copies(shape)
}

// drawStitched draws stitches on a line, round the corners of a box, or round a tube.
func drawStitched(t *rapid.T, outer testing.TB) stitchedSeam {
	mm := func(what string, low, high float64) float64 {
		return rapid.Float64Range(low, high).Draw(t, what) * unit.MM
	}
	var s stitchedSeam
	run := symbol.Run{Length: mm("length", 10, 60), SpacingIs: symbol.ClearGap, Spacing: mm("gap", 10, 100)}
	if rapid.Bool().Draw(t, "pitch") {
		run.SpacingIs, run.Spacing = symbol.Pitch, run.Spacing+run.Length
	}
	s.doc.Stitches = job.Stitches{Run: run, Ends: rapid.SampledFrom([]symbol.EndRule{symbol.EndsWelded, symbol.PitchKept}).Draw(t, "ends")}
	st := &s.doc.Stitches
	if rapid.Bool().Draw(t, "mirrored") {
		s.doc.Mirror = job.Mirror{Name: "W1 left", Normal: r3.Vec{Y: 1}}
		st.Staggered = rapid.Bool().Draw(t, "staggered")
		st.Far = rapid.SampledFrom([]symbol.FarRule{symbol.FarEnds, symbol.InGaps}).Draw(t, "far")
	}
	up := seam.Towards{Dir: r3.Vec{Z: 1}}
	switch rapid.SampledFrom([]string{"line", "round corners", "tube"}).Draw(t, "path") {
	case "line":
		if !st.Staggered {
			st.Offset = mm("offset", 0, 80)
		}
		path, err := curve.NewLine(r3.Vec{X: 0.3}, r3.Vec{X: 0.3 + mm("seam", 250, 1500), Y: 0.1})
		s.geometry = mustSeam(outer, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
	case "round corners":
		s.geometry = boxAround(outer, 0.02, mm("seam", 250, 600))
	case "tube":
		s.doc.Closed = true
		b := seamBuilder{seam: &s.doc}
		path, err := curve.NewCircle(r3.Vec{X: 0.5}, r3.Vec{Z: 1}, r3.Vec{X: 0.5 + mm("radius", 40, 150)}, b.overlap())
		s.geometry = mustSeam(outer, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
	}
	return s
}

// Stitches of a seam are as many and as long as the plan says, welded in order, apart
// from each other and no further than drawn; with ends welded they end the seam; each
// is the path of the whole from where it begins to where it ends, so that stitches and
// gaps make up the path.
func TestStitchesCutThePath(outer *testing.T) {
	rapid.Check(outer, func(t *rapid.T) {
		s := drawStitched(t, outer)
		shapes, err := s.shapes()
		if said := (*job.Problems)(nil); errors.As(err, &said) {
			t.Skip("stitches that do not fit: ", err)
		}
		if err != nil {
			t.Fatal(err)
		}
		run, hands := s.doc.Stitches.Run, stitchings(shapes)
		if want := len(s.doc.Hands()); len(hands) != want {
			t.Fatalf("%d stitched seams, want %d", len(hands), want)
		}
		n := 0
		for h := range hands {
			st := &hands[h]
			if st.Name != s.doc.Hands()[h] || math.Abs(st.Welded()-float64(len(st.Stretches))*run.Length) > 1e-9 {
				t.Fatalf("%s: %.6f m in %d stitches of %.6f", st.Name, st.Welded(), len(st.Stretches), run.Length)
			}
			if st.Pitch > run.Pitch()+1e-6 {
				t.Fatalf("pitch %.6f, wider than the drawn %.6f", st.Pitch, run.Pitch())
			}
			bare := st.Stretches[0].From
			for i, stretch := range st.Stretches {
				shape := &shapes[n]
				if shape.doc.Name != job.StitchName(st.Name, i+1) || shape.stitching.Name != st.Name {
					t.Fatalf("stitch %d of %s is called %s", i+1, st.Name, shape.doc.Name)
				}
				if i > 0 {
					gap := stretch.From - st.Stretches[i-1].To
					if gap <= 0 || gap > run.Gap()+1e-6 {
						t.Fatalf("%s behind a gap of %.6f", shape.doc.Name, gap)
					}
					bare += gap
				}
				s.along(t, shape, stretch, h > 0)
				n++
			}
			last := st.Stretches[len(st.Stretches)-1].To
			if total := bare + st.Welded() + st.Of - last; math.Abs(total-st.Of) > 1e-9 {
				t.Fatalf("stitches and gaps come to %.9f of %.9f", total, st.Of)
			}
			far := h > 0 && s.doc.Stitches.Staggered
			if welded := s.doc.Stitches.Ends == symbol.EndsWelded && !s.doc.Closed && (!far || s.doc.Stitches.Far == symbol.FarEnds); welded && len(st.Stretches) > 1 && math.Abs(last-st.Of) > 1e-9 {
				t.Fatalf("the last ends at %.6f of %.6f", last, st.Of)
			}
			if !s.doc.Closed && math.Abs(st.Bare-(st.Of-last)) > 1e-5 {
				t.Fatalf("%.6f is said to be bare of %.6f", st.Bare, st.Of-last)
			}
		}
		if n != len(shapes) {
			t.Fatalf("%d shapes, %d stitches", len(shapes), n)
		}
	})
}

// along holds a shape against the whole path, or its image in y = 0.
func (s *stitchedSeam) along(t *rapid.T, shape *seamShape, stretch seam.Stretch, mirrored bool) {
	if math.Abs(shape.geometry.Length()-stretch.Length()) > 1e-9 {
		t.Fatalf("%s is %.9f long, its stretch %.9f", shape.doc.Name, shape.geometry.Length(), stretch.Length())
	}
	for _, share := range []float64{0, 0.3, 1} {
		is, tangent := shape.geometry.Path().At(share * stretch.Length())
		want, direction := s.geometry.Path().At(stretch.From + share*stretch.Length())
		if mirrored {
			want.Y, direction.Y = -want.Y, -direction.Y
		}
		if is.Dist(want) > 1e-9 || tangent.Dist(direction) > 1e-6 {
			t.Fatalf("%s at %.1f of it: %v %v, on the whole path %v %v", shape.doc.Name, share, is, tangent, want, direction)
		}
	}
}

// What is left behind a stop is all that was not welded, and the tie-in; with what was
// welded it makes up all the stitches.
func TestRestartLeavesTheRest(outer *testing.T) {
	rapid.Check(outer, func(t *rapid.T) {
		s := drawStitched(t, outer)
		s.doc.Mirror, s.doc.Stitches.Staggered = job.Mirror{}, false
		if rapid.Bool().Draw(t, "welded through") {
			s.doc.Stitches = job.Stitches{}
		}
		whole, err := s.shapes()
		if said := (*job.Problems)(nil); errors.As(err, &said) {
			t.Skip("stitches that do not fit: ", err)
		}
		if err != nil {
			t.Fatal(err)
		}
		var all []seam.Stretch
		if st := whole[0].stitching; st != nil {
			all = st.Stretches
		} else {
			all = []seam.Stretch{{From: 0, To: s.geometry.Length()}}
		}
		first, last := all[0].From, all[len(all)-1].To
		stop := rapid.Float64Range(max(first, 2*unit.MM), last-3*unit.MM).Draw(t, "stop")
		tie := rapid.Float64Range(3, 20).Draw(t, "tie-in") * unit.MM
		s.doc.Restart = job.Restart{Seam: "W1", At: stop, TieIn: tie}
		left, err := s.shapes()
		if err != nil {
			t.Fatal(err)
		}
		done, again := 0.0, 0.0
		for _, stretch := range all {
			done += max(0, min(stop, stretch.To)-stretch.From)
			if stop > stretch.From && stop < stretch.To {
				again = min(tie, stop-stretch.From)
			}
		}
		sum, welded := 0.0, 0.0
		for i := range left {
			sum += left[i].geometry.Length()
			if left[i].again != (i == 0) || left[i].copied != (i > 0) {
				t.Fatalf("%s: again %v, copied %v", left[i].doc.Name, left[i].again, left[i].copied)
			}
		}
		for _, stretch := range all {
			welded += stretch.Length()
		}
		if math.Abs(sum-(welded-done+again)) > 1e-9 {
			t.Fatalf("stopped at %.6f: %.6f left, %.6f welded of %.6f, %.6f again", stop, sum, done, welded, again)
		}
		if at, _ := left[0].geometry.Path().At(0); again > 0 {
			if want, _ := s.geometry.Path().At(stop - again); at.Dist(want) > 1e-9 {
				t.Fatalf("begun at %v, want %v", at, want)
			}
		}
	})
}

// An end of its own: the first stitch has the approach that the document names and
// the last its retreat; the others leave straight along the wire.
func TestEndsOfStitches(t *testing.T) {
	path, err := curve.NewLine(r3.Vec{X: 0.3}, r3.Vec{X: 0.55})
	up := seam.Towards{Dir: r3.Vec{Z: 1}}
	s := stitchedSeam{geometry: mustSeam(t, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})}
	s.doc = job.Seam{
		Joint: weld.Tee, Approach: job.Leave{Point: "in"}, Retreat: job.Leave{Point: "out"}, Through: []string{"over"},
		Stitches: job.Stitches{Run: symbol.Run{Length: 0.04, Spacing: 0.05, SpacingIs: symbol.ClearGap}, Offset: 0.01},
	}
	for name, row := range map[string]struct {
		restart float64
		in, out string // of the first and the last
		through int
	}{
		"all":            {0, "in", "out", 1},
		"taken up again": {0.03, "", "out", 1},
	} {
		s.doc.Restart = job.Restart{Seam: "W1", At: row.restart, TieIn: 0.012}
		shapes, err := s.shapes()
		if err != nil {
			t.Fatal(err)
		}
		for i := range shapes {
			in, out, through := "", "", 0
			if i == 0 {
				in, through = row.in, row.through
			}
			if i == len(shapes)-1 {
				out = row.out
			}
			doc := shapes[i].doc
			if doc.Approach.Point != in || doc.Retreat.Point != out || len(doc.Through) != through || in == "" && doc.Approach.Out != 60*unit.MM {
				t.Errorf("%s, %s: approach %+v, retreat %+v, through %v", name, doc.Name, doc.Approach, doc.Retreat, doc.Through)
			}
		}
	}
}

// A sharp corner inside a stitch, 100 mm along, is welded round; between stitches
// nothing turns; a stitch that ends where the torch still turns is refused by its name.
func TestStitchesAtSharpCorners(t *testing.T) {
	for _, row := range []struct {
		name        string
		length, gap float64 // mm
		turns       int
		says        string
	}{
		{"inside a stitch", 60, 20, 1, ""},
		{"between stitches", 40, 90, 0, ""},
		{"near the end of a stitch", 52, 1, 0, "W1 stitch 2: seam: corner 1 at 47.0 mm: the turn behind it takes 15.0 mm of seam, but only 5.0 mm are left; shorten it, or turn more in place"},
	} {
		share := seam.Share{Before: 15 / deg, Ahead: 15 * unit.MM, After: 10 / deg, Behind: 15 * unit.MM}
		s := stitchedSeam{geometry: boxAround(t, 0, 0.2), shares: []seam.Share{share}}
		s.doc.Stitches = job.Stitches{Run: symbol.Run{Length: row.length * unit.MM, Spacing: row.gap * unit.MM, SpacingIs: symbol.ClearGap}, Ends: symbol.PitchKept}
		shapes, err := s.shapes()
		if said := fmt.Sprint(err); err != nil && said != row.says || err == nil && row.says != "" {
			t.Errorf("%s: got %v, want %q", row.name, err, row.says)
		}
		turns := 0
		for i := range shapes {
			turns += mustWay(t, shapes[i].geometry, shapes[i].shares...).Turns()
		}
		if turns != row.turns {
			t.Errorf("%s: %d turns in stitches, want %d", row.name, turns, row.turns)
		}
	}
}
