package intake

import (
	"regexp"
	"strconv"
	"strings"
)

// Part is what a label says of a point's place in its seam.
type Part uint8

// The places. PartOther is any other, such as a touch on a plate.
const (
	PartOther Part = iota
	PartStart
	PartEnd
	PartAlong // root, via, middle and numbered points
	PartApproach
	PartRetreat
	PartHome
)

// String returns the trade's word for the place, empty for PartOther.
func (p Part) String() string {
	return [...]string{"", "weld start", "weld end", "via point", "approach", "retreat", "home"}[min(p, PartHome)]
}

// onLine reports whether a part lies on the seam's line.
func (p Part) onLine() bool { return p == PartStart || p == PartEnd || p == PartAlong }

// Name is a label taken apart: "W1 start" is the start of the seam W1.
type Name struct {
	// Seam is the seam's name as the label spells it, Key the same for
	// comparing: "Seam 3", "seam_3" and "3" are one. Both are empty where the
	// label names none.
	Seam, Key string
	Part      Part
	// Rank is the number or letter behind the seam or behind "root" and "via",
	// from 1; 0 where there is none.
	Rank int
	// Word is what the label calls the point, small: "wall" in "W2 wall 1",
	// "root" in "W1 root 2"; empty where it has no word.
	Word string
}

// Nameless is the key of a seam whose labels say what its points are and not
// which seam they belong to, as in "approach", "weld start", "weld end".
const Nameless = "the seam"

// partWords are the trade's words for places in a seam.
var partWords = map[string]Part{
	"start": PartStart, "begin": PartStart, "beginning": PartStart, "end": PartEnd, "stop": PartEnd, "finish": PartEnd,
	"root": PartAlong, "via": PartAlong, "middle": PartAlong, "mid": PartAlong, "half": PartAlong, "quarter": PartAlong, "quarters": PartAlong,
	"approach": PartApproach, "in": PartApproach, "retreat": PartRetreat, "out": PartRetreat,
	"home": PartHome,
}

// fillers say nothing of which seam it is, trailers nothing of which place.
var (
	fillers  = map[string]bool{"weld": true, "seam": true, "the": true, "of": true, "at": true, "point": true, "pt": true, "pos": true, "position": true, "p": true, "no": true, "nr": true}
	trailers = map[string]bool{"point": true, "pt": true, "pos": true, "position": true, "pose": true}
)

// labelWord is one word of a label. A number behind letters belongs to them,
// so that "W1start" is W1 and start.
var labelWord = regexp.MustCompile(`\p{L}+[0-9]*|[0-9]+`)

// labelWords cuts a label into words; "start1" is start and 1.
func labelWords(text string) []string {
	var out []string
	for _, w := range labelWord.FindAllString(text, -1) {
		letters := strings.TrimRight(w, "0123456789")
		if _, known := partWords[strings.ToLower(letters)]; known && letters != w {
			out = append(out, letters, w[len(letters):])
			continue
		}
		out = append(out, w)
	}
	for len(out) > 1 && trailers[strings.ToLower(out[len(out)-1])] {
		out = out[:len(out)-1]
	}
	return out
}

// keyOf returns words without those that say nothing, small.
func keyOf(words []string) string {
	var out []string
	for _, w := range words {
		if w = strings.ToLower(w); !fillers[w] {
			out = append(out, w)
		}
	}
	return strings.Join(out, " ")
}

// Names takes the labels of points apart. What one label leaves open others
// may tell: "1 s" is a start where there is a "1 e".
func Names(points []Point) []Name {
	r := nameReader{firm: map[string]bool{}, leading: map[string]Part{}, letters: map[string]string{}, names: make([]Name, len(points)), words: make([][]string, len(points))}
	for i, p := range points {
		r.words[i] = labelWords(p.Label)
		r.byWord(i)
	}
	for i := range points {
		r.letter(i)
	}
	for i := range points {
		if n := &r.names[i]; n.Part == PartOther && n.Key == "" {
			*n = r.weak(r.words[i])
		}
		r.settle(i)
	}
	return r.names
}

// nameReader knows the seams that have a start or an end: by word, by a word
// that leads, or by the letters s and e; by the last two only where both are.
type nameReader struct {
	firm    map[string]bool
	leading map[string]Part
	letters map[string]string
	names   []Name
	words   [][]string
}

// name makes the name of the words of a seam.
func (r *nameReader) name(words []string, part Part, rank int) Name {
	key := keyOf(words)
	if key == "" {
		return Name{Key: Nameless, Part: part, Rank: rank}
	}
	if n := len(words); n > 1 && strings.EqualFold(words[n-1], "weld") {
		words = words[:n-1]
	}
	return Name{Seam: strings.Join(words, " "), Key: key, Part: part, Rank: rank}
}

// byWord reads a label that says the place with a word of the trade. A number
// behind "start" or "end" makes it another thing, such as a touch on an end
// wall, unless the word comes first.
func (r *nameReader) byWord(i int) {
	words := r.words[i]
	last := len(words) - 1
	if last < 0 {
		return
	}
	part, known := partWords[strings.ToLower(words[last])]
	first, leads := partWords[strings.ToLower(words[0])]
	switch {
	case leads && first == PartHome || known && part == PartHome:
		r.names[i] = Name{Part: PartHome}
		return
	case known:
		if last > 0 && strings.EqualFold(words[last], "quarters") {
			last-- // three quarters
		}
		r.names[i] = r.name(words[:last], part, 0)
		r.names[i].Word = strings.ToLower(words[len(words)-1])
	case last > 0 && unsigned(words[last]) && partWords[strings.ToLower(words[last-1])] == PartAlong:
		r.names[i] = r.name(words[:last-1], PartAlong, rankOf(words[last]))
		r.names[i].Word = strings.ToLower(words[last-1])
	case leads && first == PartAlong && last > 1 && rankOf(words[last]) > 0:
		r.names[i] = r.name(words[1:last], first, rankOf(words[last]))
		r.names[i].Word = strings.ToLower(words[0])
	case leads && last > 0:
		r.names[i] = r.name(words[1:], first, 0)
		r.names[i].Word = strings.ToLower(words[0])
		r.lead(r.names[i])
		return
	}
	if n := r.names[i]; n.Part == PartStart || n.Part == PartEnd {
		r.firm[n.Key] = true
	}
}

// lead notes a start or an end whose word comes first; both make a seam.
func (r *nameReader) lead(n Name) {
	if n.Part != PartStart && n.Part != PartEnd {
		return
	}
	if before, known := r.leading[n.Key]; known && before != n.Part {
		r.firm[n.Key] = true
	}
	r.leading[n.Key] = n.Part
}

// letter notes the seams whose labels end in s and in e.
func (r *nameReader) letter(i int) {
	words := r.words[i]
	last := len(words) - 1
	if last < 1 || r.names[i].Part != PartOther {
		return
	}
	if w := strings.ToLower(words[last]); w == "s" || w == "e" {
		key := keyOf(words[:last])
		if !strings.Contains(r.letters[key], w) {
			r.letters[key] += w
		}
		if len(r.letters[key]) > 1 {
			r.firm[key] = true
		}
	}
}

// weak reads a label without a word for the place: by a letter or a number
// behind the seam, or as something else beside a seam that is known.
func (r *nameReader) weak(words []string) Name {
	last := len(words) - 1
	if last < 1 {
		return Name{}
	}
	for n := last; n > 0; n-- {
		if key := keyOf(words[:n]); r.firm[key] && n < last {
			other := r.name(words[:n], PartOther, rankOf(words[last]))
			other.Word = strings.ToLower(strings.Join(words[n:], " "))
			if other.Rank > 0 {
				other.Word = strings.ToLower(strings.Join(words[n:last], " "))
			}
			return other
		}
	}
	key := keyOf(words[:last])
	switch w := strings.ToLower(words[last]); {
	case key == "":
		return Name{}
	case len(r.letters[key]) > 1 && w == "s":
		return r.name(words[:last], PartStart, 0)
	case len(r.letters[key]) > 1 && w == "e":
		return r.name(words[:last], PartEnd, 0)
	case rankOf(w) > 0:
		return r.name(words[:last], PartAlong, rankOf(w))
	case r.firm[key]:
		other := r.name(words[:last], PartOther, 0)
		other.Word = w
		return other
	}
	return Name{Seam: words[0], Key: strings.ToLower(words[0]), Word: strings.ToLower(strings.Join(words[1:], " "))}
}

// settle takes back a reading that rests on a seam which does not exist: "via
// 1" may be the first of a nameless seam, "in front" no approach at all.
func (r *nameReader) settle(i int) {
	n := &r.names[i]
	words := r.words[i]
	_, leads := partWords[strings.ToLower(orEmpty(words))]
	if n.Part == PartOther || n.Part == PartHome || r.firm[n.Key] || !leads || len(words) < 2 {
		return
	}
	if rank := rankOf(words[1]); n.Part == PartAlong && len(words) == 2 && rank > 0 {
		*n = Name{Key: Nameless, Part: PartAlong, Rank: rank, Word: n.Word}
		return
	}
	*n = Name{}
}

func orEmpty(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// rankOf returns the number or the single letter of a word, from 1; 0 for any
// other.
func rankOf(word string) int {
	const most = 999
	if n, err := strconv.Atoi(word); err == nil && n > 0 && n <= most {
		return n
	}
	if len(word) == 1 {
		if c := word[0] | 0x20; c >= 'a' && c <= 'h' {
			return int(c-'a') + 1
		}
	}
	return 0
}

// seams groups points by the seam that their labels name, in order of first
// mention; points without one, and home, are in none.
type seams struct {
	order []string
	of    map[string][]int // indexes of points
	names []Name
}

func groupSeams(points []Point) seams {
	g := seams{of: map[string][]int{}, names: Names(points)}
	for i, n := range g.names {
		if n.Key == "" {
			continue
		}
		if _, known := g.of[n.Key]; !known {
			g.order = append(g.order, n.Key)
		}
		g.of[n.Key] = append(g.of[n.Key], i)
	}
	return g
}
