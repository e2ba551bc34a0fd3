package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/bench/job"
	"seamwright/robot/urdf"
)

// tableFlags are the flags of the commands that read a table of points.
type tableFlags struct {
	answers []string // ID=VALUE
	arm     string
	like    string
}

// session asks what is open, or takes what was said ahead.
type session struct {
	desk
	ctx     context.Context
	answers draft.Answers
	yes     bool     // take the defaults that exist
	asked   []string // at the terminal, in order
	dir     string   // where the document will stand; file names count from there

	arm  *draft.Arm
	like *draft.Like
	sets *draft.Settings // of the file named at the terminal
}

// Questions that are answered by reading a file.
const (
	armQuestion       = "arm"
	settingsQuestion  = "settings_file"
	procedureQuestion = "procedure_file"
)

func newSession(ctx context.Context, d desk, f tableFlags, dir string) (*session, error) {
	s := &session{desk: d, ctx: ctx, answers: draft.Answers{}, dir: dir}
	for _, a := range f.answers {
		id, value, ok := strings.Cut(a, "=")
		id, value = strings.TrimSpace(id), strings.TrimSpace(value)
		switch {
		case !ok || id == "" || value == "":
			return nil, fmt.Errorf("--answer %q: write QUESTION=ANSWER, such as measured_in=base", a)
		case !draft.Known(id):
			return nil, fmt.Errorf("--answer %s: no question is called %q; questions are %s, those of one seam with its name before them, such as W1.end", a, id, strings.Join(draft.IDs(), ", "))
		}
		if before, twice := s.answers[id]; twice && before.Value != value {
			return nil, fmt.Errorf("--answer %s is given twice, as %q and %q: keep one", id, before.Value, value)
		}
		s.answers[id] = draft.Answer{Value: value, How: draft.Answered}
	}
	if f.like != "" {
		if err := s.follow(f.like); err != nil {
			return nil, err
		}
	}
	name := f.arm
	if a, given := s.answers[armQuestion]; given && name == "" {
		name = a.Value
	}
	delete(s.answers, armQuestion)
	for _, id := range []string{settingsQuestion, procedureQuestion} {
		if _, given := s.answers[id]; given {
			return nil, fmt.Errorf("--answer %s: name the file with --%s", id, strings.TrimSuffix(id, "_file"))
		}
	}
	if name != "" {
		return s, s.openArm(name)
	}
	return s, nil
}

// follow reads the job whose arm, torch and cell are taken.
func (s *session) follow(name string) error {
	j, err := job.Decode(name, folder(filepath.Dir(name)))
	if err != nil {
		return fmt.Errorf("--like: %w", err)
	}
	text, err := os.ReadFile(name)
	if err != nil {
		return fmt.Errorf("--like: %w", err)
	}
	s.like = &draft.Like{Name: s.named(name), Job: j, Text: text}
	s.arm = &draft.Arm{File: s.named(beside(name, j.Arm.URDF)), Robot: j.Arm.Robot}
	return nil
}

// beside is the path of a file that a document names.
func beside(document, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(document), filepath.FromSlash(name))
}

// named is how the document in its folder names a file.
func (s *session) named(file string) string {
	to, err := filepath.Abs(file)
	if err != nil {
		return filepath.ToSlash(file)
	}
	from, err := filepath.Abs(s.dir)
	if err != nil {
		return filepath.ToSlash(to)
	}
	rel, err := filepath.Rel(from, to)
	if err != nil { // another drive
		return filepath.ToSlash(to)
	}
	return filepath.ToSlash(rel)
}

// atHome writes out the home folder of a name typed as a shell takes it.
func atHome(name string) string {
	if rest, ok := strings.CutPrefix(name, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			return filepath.Join(home, rest)
		}
	}
	return name
}

// openArm reads an arm's file.
func (s *session) openArm(name string) error {
	name = atHome(name)
	f, err := os.Open(name)
	if err != nil {
		return fmt.Errorf("the arm's file: %w", err)
	}
	defer f.Close()
	r, err := urdf.Parse(f, name)
	if err != nil {
		return err
	}
	s.arm = &draft.Arm{File: s.named(name), Robot: r}
	return nil
}

// known is what is known beside a table.
func (s *session) known() intake.Known {
	k := intake.Known{Answers: s.answers.Plain()}
	if s.arm != nil {
		k.Reach, k.Slides = draft.Reach(s.arm.Robot), draft.Slides(s.arm.Robot)
	}
	return k
}

// likeWords are the answers that a followed job has to questions about a table.
func (s *session) likeWords() map[string]string {
	if s.like == nil {
		return nil
	}
	k := s.like.Job.Keying
	words := map[string]string{"measured_in": string(k.Frame), "point": "tip", "length": k.Length}
	if k.Flange {
		words["point"] = "flange"
	}
	if k.Length == "" {
		delete(words, "point")
		delete(words, "length")
	} else {
		words["orientation"] = k.Orientation.String()
	}
	return words
}

// settle takes or asks for the answer to one open question or more. It fails
// where nothing answers them.
func (s *session) settle(open []draft.Question) error {
	words := s.likeWords()
	taken := false
	for _, q := range open {
		if v, ok := words[q.ID]; ok && v != "" {
			if value, err := q.Take(v); err == nil {
				s.answers[q.ID], taken = draft.Answer{Value: value, How: draft.AsLike}, true
			}
		}
	}
	if taken {
		return nil
	}
	if s.yes {
		for _, q := range open {
			if c, ok := q.Proposed(); ok {
				s.answers[q.ID], taken = draft.Answer{Value: c.Value, How: draft.Accepted}, true
			}
		}
		if taken {
			return nil
		}
		return openQuestions(open, "no default")
	}
	if !s.asks {
		return openQuestions(open, "no terminal to ask at")
	}
	return s.askOne(open[0])
}

// askOne asks one question at the terminal.
func (s *session) askOne(q draft.Question) error {
	value, accepted, err := s.ask(s.ctx, q, len(s.asked)+1)
	switch {
	case errors.Is(err, errBack):
		s.back()
		return nil
	case err != nil:
		return err
	case q.ID == armQuestion:
		if err := s.openArm(value); err != nil {
			fill(s.errs, "    ", capital(err.Error())+".")
			return nil
		}
	default:
		how := draft.Answered
		if accepted {
			how = draft.Accepted
		}
		s.answers[q.ID] = draft.Answer{Value: value, How: how}
	}
	s.asked = append(s.asked, q.ID)
	return nil
}

// back takes the last answer back.
func (s *session) back() {
	if len(s.asked) == 0 {
		fmt.Fprintln(s.errs, "    This is the first question.")
		return
	}
	last := s.asked[len(s.asked)-1]
	s.asked = s.asked[:len(s.asked)-1]
	delete(s.answers, last)
	if last == armQuestion {
		s.arm = nil
	}
}

// refused takes back the last answer where it led to an error, which is shown;
// it returns the error where nothing was asked.
func (s *session) refused(err error) error {
	if !s.asks || len(s.asked) == 0 || s.yes {
		return err
	}
	fill(s.errs, "    ", capital(err.Error())+". The last answer is taken back.")
	s.back()
	return nil
}

// table reads a table until nothing is left open about it.
func (s *session) table(data []byte) (intake.Table, error) {
	for {
		table, open, err := intake.Read(data, s.known())
		if err != nil {
			if err = s.refused(err); err != nil {
				return intake.Table{}, err
			}
			continue
		}
		if len(open) == 0 {
			return table, nil
		}
		if err := s.settle(fromTable(open)); err != nil {
			return table, err
		}
	}
}

func fromTable(open []intake.Question) []draft.Question {
	out := make([]draft.Question, len(open))
	for i, q := range open {
		out[i] = draft.FromTable(q)
	}
	return out
}

// resume is the command line that goes on from the answers given so far.
func (s *session) resume() string {
	var out []string
	for _, id := range s.asked {
		if a, ok := s.answers[id]; ok {
			out = append(out, "--answer "+shellWord(id+"="+a.Value))
		} else if id == armQuestion && s.arm != nil {
			out = append(out, "--arm "+shellWord(filepath.Join(s.dir, filepath.FromSlash(s.arm.File))))
		}
	}
	return strings.Join(out, " ")
}

// unheard names an answer about a seam that does not exist.
func (s *session) unheard(seams []string) error {
	for _, id := range slices.Sorted(maps.Keys(s.answers)) {
		if seam := draft.SeamOf(id); seam != "" && !slices.Contains(seams, seam) {
			return fmt.Errorf("--answer %s: %q is no seam; seams are %s", id, seam, strings.Join(seams, ", "))
		}
	}
	return nil
}

// readTable reads a table from a file, or from the desk where the name is "-".
func (d desk) readTable(name string) ([]byte, error) {
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		data, err := io.ReadAll(io.LimitReader(f, intake.MaxBytes+1))
		if err != nil {
			return nil, fmt.Errorf("%s cannot be read: %w", name, err)
		}
		return data, nil
	}
	if d.asks {
		fmt.Fprintln(d.errs, "Paste the points, then press Enter and Ctrl-D (on Windows Ctrl-Z and Enter):")
	}
	return io.ReadAll(io.LimitReader(d.in, intake.MaxBytes+1))
}
