package export

import (
	"slices"

	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// stitchedDoc and what it holds are a part of plan.json.
type stitchedDoc struct {
	Seam     string       `json:"seam" doc:"what the job calls the seam"`
	Count    int          `json:"count" doc:"number of stitches"`
	Length   float64      `json:"stitch_mm" doc:"length of a stitch"`
	Pitch    float64      `json:"pitch_mm" doc:"centre to centre as planned; 0 for a single stitch"`
	Drawn    float64      `json:"drawn_pitch_mm" doc:"centre to centre as drawn"`
	Ends     string       `json:"ends" enum:"ends welded,pitch kept" doc:"how the stitches meet the ends of the seam"`
	Offset   float64      `json:"offset_mm" doc:"from the start of the seam to the first stitch"`
	Bare     float64      `json:"bare_mm" doc:"left bare behind the last stitch"`
	Welded   float64      `json:"welded_mm" doc:"length of all stitches together"`
	Of       float64      `json:"seam_mm" doc:"length of the seam"`
	Stitches []stretchDoc `json:"stitches" doc:"the stitches along the seam"`
}

type stretchDoc struct {
	Seam string  `json:"seam" doc:"name under seams; of a stitch that was welded before a restart there is none there"`
	From float64 `json:"from_mm" doc:"begins, along the seam"`
	To   float64 `json:"to_mm" doc:"ends, along the seam"`
	Left bool    `json:"in_this_run" doc:"it, or what is left of it, is welded in this run"`
}

func newStitched(s *plan.Stitching) stitchedDoc {
	d := stitchedDoc{
		Seam: s.Name, Count: len(s.Stretches), Length: r6(s.Length() * mm), Pitch: r6(s.Pitch * mm), Drawn: r6(s.Drawn * mm),
		Ends: s.Ends.String(), Offset: r6(s.Offset * mm), Bare: r6(s.Bare * mm), Welded: r6(s.Welded() * mm), Of: r6(s.Of * mm),
	}
	for i, stretch := range s.Stretches {
		name := job.StitchName(s.Name, i+1)
		d.Stitches = append(d.Stitches, stretchDoc{Seam: name, From: r6(stretch.From * mm), To: r6(stretch.To * mm), Left: slices.Contains(s.Seams, name)})
	}
	return d
}
