package draft

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/intake"
)

// each asks one question for all seams that want the same answer, or one for
// each where that was chosen or where only one is left.
func (m *maker) each(id, text string, seams []*seam, ask func(*seam) Question, take func(*seam, string)) {
	var left []*seam
	questions := map[*seam]Question{}
	for _, s := range seams {
		q := ask(s)
		q.ID = s.name + "." + id
		q.Explain = orElse(q.Explain, explain[id])
		questions[s] = q
		if _, answered := m.answers[q.ID]; answered || len(seams) == 1 || q.settled() {
			if value, ok := m.ask(q); ok {
				take(s, value)
			}
			continue
		}
		left = append(left, s)
	}
	switch whole, answered := m.answers[id]; {
	case len(left) == 0:
		return
	case answered && whole.Value == apiece, len(left) == 1 && !answered:
		for _, s := range left {
			if value, ok := m.ask(questions[s]); ok {
				take(s, value)
			}
		}
		return
	}
	m.together(id, text, left, questions, take)
}

// settled reports whether a question answers itself.
func (q Question) settled() bool { return len(q.Choices) == 1 && q.Free == "" && q.Default == 0 }

// Answers to a question for all seams.
const (
	apiece   = "each"        // seam by seam
	proposed = "as proposed" // each seam its own default
)

// together asks for all seams at once.
func (m *maker) together(id, text string, left []*seam, questions map[*seam]Question, take func(*seam, string)) {
	q := togetherQuestion(id, text, left, questions)
	value, ok := m.ask(q)
	if !ok {
		return
	}
	for _, s := range left {
		own := questions[s]
		this := value
		if c, has := own.Proposed(); has && value == proposed {
			this = c.Value
		}
		if value != proposed {
			own.check = judged(own, q)
		}
		if this, err := own.Take(this); err == nil {
			m.proof[own.ID] = evidenceFor(own, this)
			take(s, this)
		} else if m.wrong == nil {
			m.wrong = err
		}
	}
}

// judged is the check of one seam's question where the answer for all was judged
// in the same words already: a thousand seams are not judged one by one.
func judged(own, all Question) func(string) (string, error) {
	if own.check == nil || own.Free != all.Free {
		return own.check
	}
	return func(text string) (string, error) { return text, nil }
}

// evidenceFor is what speaks for a choice.
func evidenceFor(q Question, value string) string {
	for _, c := range q.Choices {
		if c.Value == value {
			return c.Evidence
		}
	}
	return ""
}

// togetherQuestion offers what every seam could take, and each seam's own
// default where all have one.
func togetherQuestion(id, text string, left []*seam, questions map[*seam]Question) Question {
	first := questions[left[0]]
	q := Question{Question: intake.Question{ID: id, Text: text, Default: -1}, Free: first.Free, Explain: first.Explain, check: first.check}
	names := make([]string, len(left))
	all, same := true, true
	var own []string
	for i, s := range left {
		names[i] = s.name
		c, has := questions[s].Proposed()
		all = all && has
		if d, _ := first.Proposed(); c.Value != d.Value {
			same = false
		}
		own = append(own, s.name+": "+c.Value)
	}
	q.Text += " (" + inWords(names, "and") + ")"
	if all && !same {
		q.Default = 0
		q.Choices = append(q.Choices, intake.Choice{Value: proposed, Text: "as the points say: " + inWords(own, "and"), Evidence: evidenceOf(left, questions)})
	}
	for i, c := range first.Choices {
		everywhere := !slices.ContainsFunc(left, func(s *seam) bool {
			return !slices.ContainsFunc(questions[s].Choices, func(d intake.Choice) bool { return d.Value == c.Value })
		})
		if !everywhere {
			continue
		}
		if all && same && i == first.Default {
			q.Default = len(q.Choices)
			c.Evidence = evidenceOf(left, questions)
		} else {
			c.Evidence = ""
		}
		q.Choices = append(q.Choices, c)
	}
	q.Choices = append(q.Choices, intake.Choice{Value: apiece, Text: "they differ: ask for each"})
	return q
}

// evidenceOf joins what speaks for the defaults of the seams.
func evidenceOf(left []*seam, questions map[*seam]Question) string {
	var out []string
	for _, s := range left {
		if c, has := questions[s].Proposed(); has && c.Evidence != "" {
			out = append(out, s.name+": "+c.Evidence)
		}
	}
	const most = 4
	if len(out) > most {
		out = append(out[:most], fmt.Sprintf("and %d more", len(out)-most))
	}
	return strings.Join(out, "; ")
}
