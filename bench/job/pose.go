package job

import (
	"strings"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// poseForm is the form of a typed pose.
func poseForm(dst *se3.Pose) record {
	var p struct {
		at         []float64
		convention se3.Convention
		turn       []float64
	}
	return record{
		example: "{at: [0 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 0]}",
		fields: []field{
			need("at", lengths(&p.at, 3, anyLength)),
			need("orientation", conventionForm(&p.convention)),
			need("turn", numbers(&p.turn, 3, 9, "0")),
		},
		check: func(ps *Problems, n node, clean bool) {
			if !clean {
				return
			}
			turn, _ := n.get("turn")
			if r, ok := orientation(ps, turn.at, p.convention, p.turn); ok {
				*dst = se3.Pose{R: r, P: r3.Vec{X: p.at[0], Y: p.at[1], Z: p.at[2]}}
			}
		},
	}
}

// conventionWords says in short what conventions there are.
const conventionWords = `"fixed" or "moving" with an order such as x-y-z and degrees or radians, quaternion w first or w last, ` +
	`rotation vector, axis and angle or tool direction and spin with degrees or radians, matrix by rows or by columns`

func conventionForm(dst *se3.Convention) single {
	var words []string
	for _, c := range se3.Conventions() {
		words = append(words, c.String())
	}
	s := parsed(dst, words, errless(se3.ParseConvention))
	s.allowed, s.example = conventionWords, "fixed x-y-z degrees"
	take := s.take
	s.take = func(word string) *wrong {
		w := take(word)
		if w != nil && nearest(word, words) == "" && len(completions(word, words)) == 0 {
			w.mend = "ask the maker's manual which of these it writes; for example fixed x-y-z degrees"
		}
		return w
	}
	return s
}

// orientation decodes the numbers of one orientation.
func orientation(ps *Problems, at Place, c se3.Convention, v []float64) (se3.Rot, bool) {
	if len(v) != c.Len() {
		ps.add(at, counted(len(v), "number")+" of orientation", counted(c.Len(), "number")+" for "+c.String()+": "+strings.Join(c.Names(), ", "), "write these and no others")
		return se3.RotIdentity(), false
	}
	r, err := c.Decode(v)
	if err != nil {
		why, _ := strings.CutPrefix(err.Error(), c.String()+": ")
		ps.add(at, "numbers that make no orientation", "an orientation as "+c.String(), why)
		return se3.RotIdentity(), false
	}
	return r, true
}
