package intake

import (
	"regexp"
	"strings"
)

// part is what a label says of a point's place in its seam.
type part uint8

const (
	otherPart part = iota
	startPart
	endPart
	onSeam // root, via and middle points
	approachPart
	retreatPart
	homePart
)

// named is a label taken apart: "W1 start" is the start of the seam "w1".
type named struct {
	seam string
	part part
}

// partWords are the trade's words for places in a seam.
var partWords = map[string]part{
	"start": startPart, "begin": startPart, "end": endPart, "stop": endPart,
	"root": onSeam, "via": onSeam, "middle": onSeam, "mid": onSeam, "half": onSeam, "quarter": onSeam,
	"approach": approachPart, "in": approachPart, "retreat": retreatPart, "out": retreatPart,
}

var labelWords = regexp.MustCompile(`[A-Za-z]+[0-9]*|[0-9]+`)

// readLabel takes a label apart. The seam is everything before the word of the
// part; a number behind "start" or "end" makes it another thing, such as a
// touch on an end wall.
func readLabel(text string) named {
	words := labelWords.FindAllString(strings.ToLower(text), -1)
	if len(words) > 0 && words[0] == "home" {
		return named{part: homePart}
	}
	last := len(words) - 1
	counted := false
	if last > 0 && unsigned(words[last]) {
		counted = true
		last--
	}
	if last < 1 {
		return named{}
	}
	p, known := partWords[words[last]]
	if words[last] == "quarters" { // three quarters
		p, known, last = onSeam, true, last-1
	}
	if !known || counted && p != onSeam {
		return named{seam: words[0]}
	}
	seam := strings.TrimSuffix(strings.Join(words[:last], " "), " weld")
	return named{seam: seam, part: p}
}

// seams groups points by the seam that their labels name, in order of first
// mention; points without one, and home, are in none.
type seams struct {
	order []string
	of    map[string][]int // indexes of points
	names []named
}

func groupSeams(points []Point) seams {
	g := seams{of: map[string][]int{}}
	for i, p := range points {
		n := readLabel(p.Label)
		g.names = append(g.names, n)
		if n.seam == "" {
			continue
		}
		if _, known := g.of[n.seam]; !known {
			g.order = append(g.order, n.seam)
		}
		g.of[n.seam] = append(g.of[n.seam], i)
	}
	return g
}

// onLine reports whether a part lies on the seam's line.
func (p part) onLine() bool { return p == startPart || p == endPart || p == onSeam }
