package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"seamwright/bench/draft"
)

// desk is where a person sits: what is typed, what is printed, and whether
// there is anybody to ask.
type desk struct {
	in   *bufio.Reader
	out  io.Writer // results
	errs io.Writer // questions and messages
	asks bool
}

// terminal reports whether a file is a terminal: a device of characters that is
// not the one that holds nothing.
func terminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// What a person may say instead of an answer.
var (
	errBack = errors.New("back")
	errQuit = errors.New("stopped; nothing was written")
)

// width is how wide questions are printed, in characters.
const width = 92

// question prints a question and its choices.
func (d desk) question(q draft.Question, number int) {
	fmt.Fprintln(d.errs)
	fill(d.errs, fmt.Sprintf("%2d. ", number), q.Text)
	keys := choiceKeys(q)
	wide := 0
	for _, c := range q.Choices {
		wide = max(wide, min(len([]rune(c.Value)), 26))
	}
	for i, c := range q.Choices {
		lead := fmt.Sprintf("    %3s  %-*s  ", keys[i], wide, c.Value)
		text := c.Text
		if text == c.Value {
			lead, text = fmt.Sprintf("    %3s  ", keys[i]), c.Value
		}
		fill(d.errs, lead, text)
		if c.Evidence != "" {
			fill(d.errs, strings.Repeat(" ", 11), "- "+c.Evidence)
		}
	}
	if q.Free != "" {
		or := "or "
		if len(q.Choices) == 0 {
			or = ""
		}
		fill(d.errs, strings.Repeat(" ", 9), or+q.Free)
	}
}

// fill prints a text behind a lead, its further lines indented as far.
func fill(w io.Writer, lead, text string) {
	indent := min(len([]rune(lead)), 40)
	line, used := lead, len([]rune(lead))
	for i, word := range strings.Fields(text) {
		n := len([]rune(word))
		if i > 0 && used+1+n > width {
			fmt.Fprintln(w, strings.TrimRight(line, " "))
			line, used = strings.Repeat(" ", indent), indent
		} else if i > 0 {
			line, used = line+" ", used+1
		}
		line, used = line+word, used+n
	}
	fmt.Fprintln(w, strings.TrimRight(line, " "))
}

// choiceKeys numbers the choices, with letters where their values are numbers
// themselves.
func choiceKeys(q draft.Question) []string {
	letters := false
	for _, c := range q.Choices {
		if _, err := strconv.Atoi(c.Value); err == nil {
			letters = len(q.Choices) <= 26
		}
	}
	keys := make([]string, len(q.Choices))
	for i := range keys {
		if keys[i] = strconv.Itoa(i + 1); letters {
			keys[i] = string(rune('a' + i))
		}
	}
	return keys
}

// ask asks until there is an answer. accepted says that it is the default.
func (d desk) ask(ctx context.Context, q draft.Question, number int) (value string, accepted bool, err error) {
	d.question(q, number)
	keys := choiceKeys(q)
	for {
		fmt.Fprint(d.errs, prompt(q, keys))
		text, err := d.line(ctx)
		if err != nil {
			return "", false, err
		}
		switch {
		case text == "":
			if c, ok := q.Proposed(); ok {
				return c.Value, true, nil
			}
			fmt.Fprintln(d.errs, "    Nothing speaks for one of them, so there is no default: type an answer, or ? for help.")
			continue
		case text == "?":
			fill(d.errs, "    ", q.Explain+" Ahead, it is answered with --answer "+q.ID+"=...")
			continue
		case !isChoice(q, text) && strings.EqualFold(text, "b"):
			return "", false, errBack
		case !isChoice(q, text) && strings.EqualFold(text, "q"):
			return "", false, errQuit
		}
		if !isChoice(q, text) {
			for i, k := range keys {
				if strings.EqualFold(k, text) {
					text = q.Choices[i].Value
				}
			}
		}
		value, err := q.Take(text)
		if err == nil || q.ID == armQuestion {
			return text1(value, text), false, nil
		}
		fill(d.errs, "    ", capital(withoutAnswer(err, text, q.ID)))
	}
}

func isChoice(q draft.Question, text string) bool {
	for _, c := range q.Choices {
		if strings.EqualFold(c.Value, text) {
			return true
		}
	}
	return false
}

func text1(value, text string) string {
	if value == "" {
		return text
	}
	return value
}

// withoutAnswer drops the words that name the question, which stands above.
func withoutAnswer(err error, text, id string) string {
	message := err.Error()
	for _, lead := range []string{fmt.Sprintf("the answer %q to %q: ", text, id), fmt.Sprintf("the answer %q to %q does not fit: ", text, id)} {
		message = strings.TrimPrefix(message, lead)
	}
	return message + "."
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func prompt(q draft.Question, keys []string) string {
	if _, ok := q.Proposed(); ok {
		value := q.Choices[q.Default].Value
		if strings.EqualFold(value, keys[q.Default]) {
			return fmt.Sprintf("    Enter takes %s; ? explains, b goes back, q stops > ", value)
		}
		return fmt.Sprintf("    Enter takes %s, %s; ? explains, b goes back, q stops > ", keys[q.Default], value)
	}
	return "    ? explains, b goes back, q stops > "
}

// line reads a line, or ends with the context: a blocked read is left behind,
// for the program ends then.
func (d desk) line(ctx context.Context) (string, error) {
	type answer struct {
		text string
		err  error
	}
	got := make(chan answer, 1)
	go func() {
		text, err := d.in.ReadString('\n')
		got <- answer{text, err}
	}()
	select {
	case <-ctx.Done():
		fmt.Fprintln(d.errs)
		return "", ctx.Err()
	case a := <-got:
		if a.err != nil && a.text == "" {
			fmt.Fprintln(d.errs)
			return "", errQuit
		}
		return strings.TrimSpace(a.text), nil
	}
}
