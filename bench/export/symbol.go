package export

import (
	"fmt"
	"io"
	"path"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// SymbolDir is the folder of a plan folder that holds the weld symbols of the seams.
const SymbolDir = "symbols"

// symbolDoc is a part of plan.json: the weld symbol of a seam.
type symbolDoc struct {
	Text    string   `json:"text" doc:"the symbol in words, lengths in mm"`
	From    string   `json:"from" enum:"drawing,size" doc:"where it comes from: the job gives the drawing's, or it was made from the size that the job gives, with the arrow at the seam"`
	Side    string   `json:"side" enum:"arrow side,other side,both sides" doc:"the side of it that the seam is; both sides where its mirror image is the other"`
	Reading []string `json:"reading" doc:"what it means, a sentence each, with the other standard's reading of the same figures"`
	Drawing string   `json:"drawing" doc:"file of the plan folder that draws it"`
}

// symbolFiles names the drawing of every document seam's symbol, by its place in the
// job; empty where it has none.
func symbolFiles(j *job.Job) []string {
	names, used := make([]string, len(j.Seams)), map[string]bool{}
	for i := range j.Seams {
		if _, _, ok := j.Seams[i].DrawnSymbol(j.Code); ok {
			names[i] = path.Join(SymbolDir, fileName(j.Seams[i].Name, used)+".svg")
		}
	}
	return names
}

// symbolParts are the drawings of the symbols.
func symbolParts(j *job.Job) []part {
	var parts []part
	for i, name := range symbolFiles(j) {
		if name != "" {
			parts = append(parts, part{name, func(w io.Writer) error { return Symbol(w, j, &j.Seams[i]) }})
		}
	}
	return parts
}

// Symbol draws the weld symbol of a seam of the job as an SVG, with a line below it
// that says which side the seam is, or that the symbol is not the drawing's. Inches stand in symbols
// of AWS alone.
func Symbol(w io.Writer, j *job.Job, s *job.Seam) error {
	drawn, given, ok := s.DrawnSymbol(j.Code)
	if !ok {
		return fmt.Errorf("%s has no weld symbol", s.Name)
	}
	units := unit.Metric
	if drawn.System.Family() == weld.AWS {
		units = systemOf(j)
	}
	svg, err := drawn.SVG(units)
	if err != nil {
		return fmt.Errorf("symbol of %s: %w", s.Name, err)
	}
	caption := "this seam: " + symbolSide(s, given).String() // its name, which may be long, is the file's
	if !given {
		caption = "made from the size in the job"
	}
	line := fmt.Sprintf("<text x=\"4\" y=\"146\" font-size=\"9\">%s</text>\n</svg>", caption)
	_, err = io.WriteString(w, drawingMark+"\n"+strings.Replace(svg, "</svg>", line, 1))
	return err
}

// symbolSide is the side of its symbol that a seam is.
func symbolSide(s *job.Seam, given bool) symbol.Side {
	if given {
		return s.Symbol.Side
	}
	return symbol.ArrowSide
}

// newSymbol tells the symbol of a seam of the plan; nil where it has none.
func newSymbol(j *job.Job, s *plan.Seam) *symbolDoc {
	doc := &j.Seams[s.Index]
	drawn, given, ok := doc.DrawnSymbol(j.Code)
	if !ok {
		return nil
	}
	d := &symbolDoc{
		Text: drawn.String(), From: "size", Side: symbolSide(doc, given).String(), Drawing: symbolFiles(j)[s.Index],
		Reading: drawn.Reading(symbol.Context{Units: systemOf(j), Angle: s.Geometry.At(0).Included}),
	}
	if given {
		d.From = "drawing"
	}
	return d
}
