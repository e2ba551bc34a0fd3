package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
	"seamwright/bench/job"
)

// newFlags are the flags of `new`.
type newFlags struct {
	tableFlags
	dir, settings, procedure string
	yes, show                bool
}

func newCommand(d desk) *cobra.Command {
	var f newFlags
	cmd := &cobra.Command{
		Use:   "new POINTS -o DIR",
		Short: "Start a job from a table of points, asking for what it does not tell",
		Long: `Start a job from a table of points.

POINTS is a table in whatever form, or "-" for standard input: paste what stands on
the controller's screen. One question is asked at a time, for every doubt; what the
data speak for is offered with its evidence, and Enter takes it. Answers can be given
ahead with --answer, and --yes takes the defaults that exist. Without a terminal the
questions that are open are listed, each with its flag.

DIR then holds job.yaml (every value says where it comes from), taught.csv (the points
in one form), original (the table as it was given), and templates to fill in for what
was not given: settings.yaml, procedure.yaml. All are written or none, and nothing is
overwritten. A plan made while a template is not filled in stops and says so.

  seamwright new points.csv -o bracket --arm arms/arm.urdf
  seamwright new - -o bracket --like old/job.yaml --settings shop/settings.yaml

Exit code 0: written. 2: not written.`,
		Args: oneTable,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.run(cmd, d, args[0])
		},
	}
	f.add(cmd)
	cmd.Flags().StringVarP(&f.dir, "out", "o", "", "folder of the job, an empty or a new one (required)")
	cmd.Flags().StringVar(&f.settings, "settings", "", "`FILE` with settings sets")
	cmd.Flags().StringVar(&f.procedure, "procedure", "", "`FILE` with the welding procedure")
	cmd.Flags().BoolVar(&f.yes, "yes", false, "take the defaults that exist and ask nothing")
	cmd.ValidArgsFunction = once(anyFile)
	completeFlags(cmd, map[string]completer{"out": folders, "settings": files("yaml", "yml"), "procedure": files("yaml", "yml"), "answer": f.complete(d)})
	cmd.Flags().BoolVar(&f.show, "show", false, "show how the points are understood, as seamwright points does, and write nothing")
	return cmd
}

func (f *newFlags) run(cmd *cobra.Command, d desk, name string) error {
	if f.dir == "" && !f.show {
		return errors.New("say where the job goes: -o DIR, an empty or a new folder")
	}
	target := ""
	if !f.show {
		var err error
		if target, err = freshFolder(f.dir); err != nil {
			return err
		}
	}
	s, err := newSession(cmd.Context(), d, f.tableFlags, f.dir)
	if err != nil {
		return err
	}
	s.yes = f.yes
	data, err := d.readTable(name)
	if err != nil {
		return err
	}
	if f.show {
		return s.show(name, data)
	}
	err = s.draft(name, data, f, target)
	if errors.Is(err, errQuit) && len(s.asked) > 0 {
		fmt.Fprintf(s.errs, "To go on from here, add: %s\n", s.resume())
	}
	return err
}

// draft asks until the document is whole, shows it and writes it.
func (s *session) draft(name string, data []byte, f *newFlags, target string) error {
	in, err := s.parts(f)
	if err != nil {
		return err
	}
	if s.asks && !s.yes && s.arm == nil { // its reach and joints answer questions about the table
		if err := s.askArm(); err != nil {
			return err
		}
	}
	document, err := s.make(name, data, in)
	if err != nil {
		return err
	}
	document.Files = append(document.Files, draft.File{Name: "original", Data: data})
	if err := s.reads(document); err != nil {
		return err
	}
	s.overview(document, in)
	if s.asks && !s.yes {
		if err := s.confirm(); err != nil {
			return err
		}
	}
	if err := writeFolder(target, document.Files); err != nil {
		return fmt.Errorf("the job could not be written: %w", err)
	}
	fmt.Fprintf(s.out, "%s written. Next: seamwright plan %s -o %s\n", f.dir, shellWord(filepath.Join(f.dir, draft.JobFile)), shellWord(filepath.Join(f.dir, "plan")))
	return nil
}

// askArm asks for the arm's file first.
func (s *session) askArm() error {
	for s.arm == nil {
		if err := s.askOne(draft.ArmQuestion()); err != nil {
			return err
		}
	}
	return nil
}

// parts reads the files that were named beside the table.
func (s *session) parts(f *newFlags) (draft.Input, error) {
	in := draft.Input{Like: s.like}
	settings, procedure := f.settings, f.procedure
	if s.like != nil {
		for section, dst := range map[string]*string{"settings": &settings, "procedure": &procedure} {
			if file := draft.PartFile(s.like.Text, section); file != "" && *dst == "" {
				*dst = beside(f.like, file)
			}
		}
	}
	if settings != "" {
		sets, err := draft.ReadSettings(s.named(settings), folder(s.dir))
		if err != nil {
			return in, fmt.Errorf("--settings: %w", err)
		}
		in.Settings = sets
	}
	if procedure != "" {
		in.Procedure = s.named(procedure)
		if err := draft.CheckProcedure(in.Procedure, folder(s.dir)); err != nil {
			return in, fmt.Errorf("--procedure: %w", err)
		}
	}
	return in, nil
}

// make asks about the table and about the job until both are whole.
func (s *session) make(name string, data []byte, in draft.Input) (draft.Document, error) {
	in.Source = filepath.Base(title(name))
	for {
		table, err := s.table(data)
		if err != nil {
			return draft.Document{}, err
		}
		in.Table = table
		in.Points, in.Missing = intake.Apply(table)
		in.Slips = intake.Suspicions(in.Points, table.Stated)
		in.Arm, in.Answers = s.arm, s.answers
		in := s.withFiles(in)
		document, open, err := draft.Make(in)
		switch {
		case err != nil:
			if err = s.refused(err); err != nil {
				return document, err
			}
		case len(open) == 0:
			if asked, err := s.askFiles(&in); asked || err != nil {
				if err != nil {
					return document, err
				}
				continue
			}
			return document, s.unheard(document.Names)
		default:
			if err := s.settle(open); err != nil {
				return document, err
			}
		}
	}
}

// noFile is the answer that there is none: a template is written.
const noFile = "none"

// askFiles asks at the terminal for the files that were not named.
func (s *session) askFiles(in *draft.Input) (asked bool, err error) {
	if !s.asks || s.yes {
		return false, nil
	}
	for _, f := range []struct {
		id, what string
		has      bool
		read     func(name string) error
	}{
		{settingsQuestion, "settings sets", in.Settings != nil, func(name string) (err error) {
			s.sets, err = draft.ReadSettings(s.named(name), folder(s.dir))
			return err
		}},
		{procedureQuestion, "the welding procedure", in.Procedure != "", func(name string) error {
			return draft.CheckProcedure(s.named(name), folder(s.dir))
		}},
	} {
		if _, done := s.answers[f.id]; done || f.has {
			continue
		}
		if err := s.askOne(draft.FileQuestion(f.id, f.what)); err != nil {
			return true, err
		}
		if a, ok := s.answers[f.id]; ok && a.Value != noFile {
			if err := f.read(atHome(a.Value)); err != nil {
				fill(s.errs, "    ", capital(err.Error())+".")
				s.back()
			}
		}
		return true, nil
	}
	return false, nil
}

// withFiles adds the files that were named at the terminal and not taken back.
func (s *session) withFiles(in draft.Input) draft.Input {
	if a, ok := s.answers[settingsQuestion]; ok && a.Value != noFile {
		in.Settings = s.sets
	}
	if a, ok := s.answers[procedureQuestion]; ok && a.Value != noFile {
		in.Procedure = s.named(atHome(a.Value))
	}
	return in
}

// reads makes sure that the document can be read as a job from where it will
// stand.
func (s *session) reads(d draft.Document) error {
	_, err := job.Decode(draft.JobFile, unwritten{d.Files, folder(s.dir)})
	if err != nil {
		return fmt.Errorf("the answers make a document that cannot be read; change those named here:\n%w", err)
	}
	return nil
}

// overview shows what will be written.
func (s *session) overview(d draft.Document, in draft.Input) {
	w := s.errs
	fmt.Fprintln(w, "\nThe job")
	for _, line := range d.Seams {
		fill(w, "  ", line)
	}
	showList(w, "Rows that cannot be taken", in.Missing, draft.ProblemText)
	showList(w, "Numbers that look like slips; nothing is changed, they stand at the head of job.yaml", in.Slips, draft.SlipText)
	showList(w, "Left to do", d.Left, func(s string) string { return s })
	var names []string
	for _, f := range d.Files {
		names = append(names, f.Name)
	}
	fill(w, "Files  ", strings.Join(names, ", "))
}

// confirm asks before anything is written.
func (s *session) confirm() error {
	fmt.Fprintf(s.errs, "Write it into %s? Enter writes, q stops > ", s.dir)
	text, err := s.line(s.ctx)
	if err != nil {
		return err
	}
	if text != "" && !strings.EqualFold(text, "y") && !strings.EqualFold(text, "yes") {
		return errQuit
	}
	return nil
}
