package intake

import (
	"fmt"
	"slices"
	"strings"
)

// Choice is one answer to a question.
type Choice struct {
	Value    string // what goes into Answers
	Text     string // what the person reads
	Evidence string // what the table shows for or against it; may be empty
}

// Question is one doubt that the table leaves open, in the words of a person at
// a bench.
type Question struct {
	ID      string // key of the answer; those of a job document's points section have the same name there
	Text    string
	Choices []Choice
	Default int // index of the likely choice, -1 where nothing speaks for one
}

// Answers holds decisions by Question.ID: those of a person, or those that the
// job document states (measured_in, point, length, orientation, joints, speeds,
// with the same words). The other questions are comment_rows, separator,
// decimal, label_numbers, columns (and columns_LINE for rows that are filled
// differently), joint_rows (and joint_row_LINE), keep and turns. Answers to
// questions that the table does not raise are not looked at, but where an
// answer contradicts a unit that the table states, Apply reports it.
type Answers map[string]string

// Origin says what a fact rests on.
type Origin string

// The origins of facts.
const (
	Answered Origin = "answered" // a person or the document said so
	Stated   Origin = "stated"   // the table says so itself, such as a unit in a head
	OnlyOne  Origin = "only one" // every other reading is impossible
)

// Fact is one thing that was settled, with its evidence in words.
type Fact struct {
	About    string
	Says     string
	Evidence string
	From     Origin
}

// desk collects facts and questions while a table is read.
type desk struct {
	answers   Answers
	facts     []Fact
	questions []Question
	wrong     error // first answer that is none of the choices
}

// settle records a fact.
func (d *desk) settle(about, says, evidence string, from Origin) {
	d.facts = append(d.facts, Fact{about, says, evidence, from})
}

// ask returns the answer to the question where there is one; else it adds the
// question. It settles a question of one choice itself.
func (d *desk) ask(q Question) (value string, ok bool) {
	if answer, given := d.answers[q.ID]; given {
		if d.take(q, answer) {
			return answer, true
		}
		return "", false
	}
	if len(q.Choices) == 1 {
		c := q.Choices[0]
		d.settle(q.ID, c.Text, c.Evidence, OnlyOne)
		return c.Value, true
	}
	d.questions = append(d.questions, q)
	return "", false
}

// take settles the answer where it is one of the choices.
func (d *desk) take(q Question, answer string) bool {
	i := slices.IndexFunc(q.Choices, func(c Choice) bool { return c.Value == answer })
	if i < 0 {
		if d.wrong == nil {
			d.wrong = fmt.Errorf("the answer %q to %q does not fit the table: allowed are %s", clip(answer), q.ID, values(q.Choices))
		}
		return false
	}
	d.settle(q.ID, q.Choices[i].Text, q.Choices[i].Evidence, Answered)
	return true
}

// values lists the values of choices in words.
func values(choices []Choice) string {
	var out []string
	for _, c := range choices {
		out = append(out, fmt.Sprintf("%q", c.Value))
	}
	return inWords(out, "or")
}

// inWords joins words as in "a, b or c".
func inWords(words []string, last string) string {
	n := len(words) - 1
	if n <= 0 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}

// clip shortens a text for a message.
func clip(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}
