package main

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/spf13/cobra"

	"seamwright/bench/draft"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// shells are those that completions are written for.
var shells = map[string]func(*cobra.Command) error{
	"bash": func(c *cobra.Command) error { return c.Root().GenBashCompletionV2(c.OutOrStdout(), true) },
	"zsh":  func(c *cobra.Command) error { return c.Root().GenZshCompletion(c.OutOrStdout()) },
	"fish": func(c *cobra.Command) error { return c.Root().GenFishCompletion(c.OutOrStdout(), true) },
}

func completionCommand() *cobra.Command {
	names := slices.Sorted(maps.Keys(shells))
	return &cobra.Command{
		Use:   "completion " + strings.Join(names, "|"),
		Short: "Print what a shell needs to complete commands, files and names",
		Long: `Print what a shell needs to complete commands, files and names: seams and settings
sets of the job that was named, points of the table, open questions and their
answers, conventions and units.

  bash    source <(seamwright completion bash)      (with its package bash-completion)
  zsh     source <(seamwright completion zsh)
  fish    seamwright completion fish | source

Put that line into the shell's start-up file to have it always.`,
		ValidArgs: names,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 || shells[args[0]] == nil {
				return fmt.Errorf("name one shell: %s", strings.Join(names, ", "))
			}
			return shells[args[0]](cmd)
		},
	}
}

// completer completes one argument or one flag.
type completer = cobra.CompletionFunc

// files completes names of files with one of the endings.
func files(endings ...string) completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return endings, cobra.ShellCompDirectiveFilterFileExt
	}
}

// once completes the first argument only.
func once(c completer) completer {
	return func(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return c(cmd, args, part)
	}
}

func folders(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return nil, cobra.ShellCompDirectiveFilterDirs
}

// anyFile leaves it to the shell.
func anyFile(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return nil, cobra.ShellCompDirectiveDefault
}

// words completes one of a few words.
func words(list ...string) completer {
	return func(_ *cobra.Command, _ []string, part string) ([]string, cobra.ShellCompDirective) {
		return beginning(list, part), cobra.ShellCompDirectiveNoFileComp
	}
}

func beginning(list []string, part string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(w string) bool { return !strings.HasPrefix(w, part) })
}

// quantity completes a number with the units of its quantity, without a blank
// between them, which a shell would want quoted.
func quantity(k unit.Kind) completer {
	return func(_ *cobra.Command, _ []string, part string) ([]string, cobra.ShellCompDirective) {
		number := part[:len(part)-len(strings.TrimLeft(part, "0123456789.,/+-"))]
		if number == "" {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var out []string
		for _, u := range k.Units() {
			if full := number + u.String(); strings.HasPrefix(full, part) {
				out = append(out, full)
			}
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

// conventions completes the usual conventions of orientations.
func conventions(_ *cobra.Command, _ []string, part string) ([]string, cobra.ShellCompDirective) {
	var out []string
	for _, c := range se3.Conventions() {
		if strings.HasPrefix(c.String(), part) {
			out = append(out, c.String()+"\t"+c.Describe())
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// seamNames completes the seams of the job that was named before, whether or
// not the job is without faults.
func seamNames(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	taken, _ := cmd.Flags().GetStringArray("only")
	names := slices.DeleteFunc(namesIn(args[0], "$.seams[*].name"), func(n string) bool { return slices.Contains(taken, n) })
	return beginning(names, part), cobra.ShellCompDirectiveNoFileComp
}

// namesIn reads the texts at a path of a document.
func namesIn(file, where string) []string {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	path, err := yaml.PathString(where)
	if err != nil {
		return nil
	}
	var names []string
	if err := path.Read(strings.NewReader(string(data)), &names); err != nil {
		return nil
	}
	return names
}

// completeFlags registers the completers of a command's flags.
func completeFlags(cmd *cobra.Command, all map[string]completer) {
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if err := cmd.RegisterFlagCompletionFunc(name, all[name]); err != nil {
			panic("seamwright: " + err.Error()) // a flag that does not exist
		}
	}
}

// complete completes the questions that are open about the table and its job,
// given the answers before, and behind the sign of equality their choices:
// points, seams, settings sets, conventions, units.
func (f *newFlags) complete(d desk) completer {
	return func(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
		if len(args) == 0 || args[0] == "-" {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return offer(f.openAt(cmd, d, args[0]), part)
	}
}

// offer lists questions, or the choices of the one that was written out.
func offer(open []draft.Question, part string) ([]string, cobra.ShellCompDirective) {
	id, value, chosen := strings.Cut(part, "=")
	var out []string
	for _, q := range open {
		if !chosen && strings.HasPrefix(q.ID, id) {
			out = append(out, q.ID+"=\t"+q.Text)
		}
		if chosen && q.ID == id {
			for _, c := range q.Choices {
				if strings.HasPrefix(c.Value, value) {
					out = append(out, id+"="+c.Value+"\t"+c.Text)
				}
			}
		}
	}
	if !chosen {
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// openAt returns the questions that are open about a table and its job.
func (f *newFlags) openAt(cmd *cobra.Command, d desk, name string) []draft.Question {
	d.asks = false
	s, err := newSession(cmd.Context(), d, f.tableFlags, filepath.Clean(f.dir))
	if err != nil {
		return nil
	}
	data, err := d.readTable(name)
	if err != nil {
		return nil
	}
	in, err := s.parts(f)
	if err != nil {
		return nil
	}
	s.yes = f.yes
	if _, err = s.make(name, data, in); err == nil {
		return nil
	}
	var open *openError
	if errors.As(err, &open) {
		return open.open
	}
	return nil
}

// complete is the same for the command that only shows a table.
func (f *tableFlags) complete(d desk) completer {
	return func(cmd *cobra.Command, args []string, part string) ([]string, cobra.ShellCompDirective) {
		if len(args) == 0 || args[0] == "-" {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		s, err := newSession(cmd.Context(), d, *f, ".")
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		data, err := d.readTable(args[0])
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		_, open, _ := s.readShown(data)
		return offer(open, part)
	}
}
