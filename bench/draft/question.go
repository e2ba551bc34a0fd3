package draft

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/intake"
	"seamwright/geom/se3"
)

// Question is one doubt, in the words of a person at a bench.
type Question struct {
	intake.Question
	// Free says what may be typed beside the choices, with an example; empty
	// where only the choices count.
	Free string
	// Explain says why it is asked and how to find out.
	Explain string

	check func(text string) (value string, err error)
}

// FromTable returns a question about a table with what helps to answer it.
func FromTable(q intake.Question) Question {
	out := Question{Question: q, Explain: explain[wholeID(q.ID)]}
	if q.ID == "orientation" {
		out.Free = "any convention in words, such as quaternion w last"
		out.check = func(text string) (string, error) {
			c, err := se3.ParseConvention(text)
			if err != nil {
				return "", err
			}
			return c.String(), nil
		}
	}
	return out
}

// wholeID takes the line off the name of a question that is asked line by line.
func wholeID(id string) string {
	for _, whole := range []string{"columns", "joint_row"} {
		if strings.HasPrefix(id, whole+"_") {
			return strings.Replace(whole, "joint_row", "joint_rows", 1)
		}
	}
	return id
}

// Take returns the answer that a text stands for: one of the choices, in any
// spelling of small and capital letters, or what Free allows.
func (q Question) Take(text string) (string, error) {
	text = strings.TrimSpace(text)
	for _, c := range q.Choices {
		if c.Value == text {
			return c.Value, nil
		}
	}
	for _, c := range q.Choices {
		if strings.EqualFold(c.Value, text) {
			return c.Value, nil
		}
	}
	if q.check != nil {
		value, err := q.check(text)
		if err != nil {
			return "", fmt.Errorf("the answer %q to %q: %w", text, q.ID, err)
		}
		return value, nil
	}
	return "", fmt.Errorf("the answer %q to %q does not fit: allowed are %s", text, q.ID, q.allowed())
}

// allowed lists the values of the choices in words.
func (q Question) allowed() string {
	var out []string
	for _, c := range q.Choices {
		out = append(out, fmt.Sprintf("%q", c.Value))
	}
	return inWords(out, "and")
}

// Proposed returns the default, if there is one.
func (q Question) Proposed() (intake.Choice, bool) {
	if q.Default < 0 || q.Default >= len(q.Choices) {
		return intake.Choice{}, false
	}
	return q.Choices[q.Default], true
}

// How says how an answer came about.
type How string

// The ways in which answers come about.
const (
	Answered How = "answered"      // by a person, at the terminal or ahead
	Accepted How = "default taken" // a default that was shown, or that was asked for as such
	AsLike   How = "as in the job followed"
)

// Answer is a decision and how it came about.
type Answer struct {
	Value string
	How   How
}

// Answers holds decisions by Question.ID.
type Answers map[string]Answer

// Plain returns the answers as package intake takes them.
func (a Answers) Plain() intake.Answers {
	out := intake.Answers{}
	for id, x := range a {
		out[id] = x.Value
	}
	return out
}

// asker looks answers up and collects the questions that have none.
type asker struct {
	answers Answers
	open    []Question
	wrong   error             // the first answer that does not fit
	proof   map[string]string // evidence of the choice that was taken, by ID
}

func newAsker(a Answers) *asker { return &asker{answers: a, proof: map[string]string{}} }

// ask returns the answer where there is one; else it adds the question.
func (a *asker) ask(q Question) (value string, ok bool) {
	given, answered := a.answers[q.ID]
	if !answered {
		if len(q.Choices) == 1 && q.Free == "" && q.Default == 0 {
			a.proof[q.ID] = q.Choices[0].Evidence
			return q.Choices[0].Value, true
		}
		if q.Explain == "" {
			_, part, _ := strings.Cut(q.ID, ".")
			q.Explain = orElse(explain[q.ID], explain[part])
		}
		a.open = append(a.open, q)
		return "", false
	}
	value, err := q.Take(given.Value)
	if err != nil {
		if a.wrong == nil {
			a.wrong = err
		}
		return "", false
	}
	if i := slices.IndexFunc(q.Choices, func(c intake.Choice) bool { return c.Value == value }); i >= 0 {
		a.proof[q.ID] = q.Choices[i].Evidence
	}
	return value, true
}

// note says where the answer to a question comes from, for a comment.
func (a *asker) note(id string) string {
	given, answered := a.answers[id]
	switch {
	case !answered:
		return orElse(a.proof[id], "the only one")
	case given.How == Accepted && a.proof[id] != "":
		return string(Accepted) + ": " + a.proof[id]
	case given.How == "":
		return string(Answered)
	}
	return string(given.How)
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// inWords joins words as in "a, b or c".
func inWords(words []string, last string) string {
	n := len(words) - 1
	if n <= 0 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}

// counted returns a number of things in words.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
