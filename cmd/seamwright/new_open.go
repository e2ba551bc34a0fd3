package main

import (
	"fmt"
	"strings"

	"seamwright/bench/draft"
)

// openError lists questions that nobody answered.
type openError struct {
	open []draft.Question
	why  string
}

func openQuestions(open []draft.Question, why string) error { return &openError{open, why} }

func (e *openError) Error() string {
	var b strings.Builder
	if len(e.open) == 1 {
		fmt.Fprintf(&b, "1 question is open, and there is %s; answer it with a flag:", e.why)
	} else {
		fmt.Fprintf(&b, "%d questions are open, and there is %s; answer them with flags:", len(e.open), e.why)
	}
	defaults := false
	for _, q := range e.open {
		fmt.Fprintf(&b, "\n\n  %s", q.Text)
		for i, c := range q.Choices {
			mark := ""
			if i == q.Default {
				mark, defaults = "  (default)", true
			}
			fmt.Fprintf(&b, "\n    --answer %s%s", shellWord(q.ID+"="+c.Value), mark)
			if c.Text != c.Value {
				fmt.Fprintf(&b, "\n        %s", c.Text)
			}
			if c.Evidence != "" {
				fmt.Fprintf(&b, "\n        - %s", c.Evidence)
			}
		}
		if q.Free != "" {
			fmt.Fprintf(&b, "\n    --answer %s   %s", shellWord(q.ID+"=..."), q.Free)
		}
	}
	if defaults {
		b.WriteString("\n\n  --yes takes the defaults")
	}
	return b.String()
}

// shellWord quotes a word for a shell where it needs that.
func shellWord(s string) string {
	plain := strings.IndexFunc(s, func(r rune) bool {
		return !strings.ContainsRune("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-+=/", r)
	}) < 0
	if plain {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
