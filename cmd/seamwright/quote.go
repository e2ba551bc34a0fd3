package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/quote"
)

// assumedRates are invented: they stand where a shop gave none, and the quote
// says so.
const assumedRates = `currency: units
labour: 60 per h
wire: 2.50 per kg
gas: 5.00 per m3
energy: 0.30 per kWh
arm: {way: cart, set_up: 30 min, teach: 10 min, handling: 3 min}
hand: {way: small shop, set_up: 10 min, handling: 3 min}
`

// quoteFlags are the flags of `quote`.
type quoteFlags struct {
	job, settings, rates, units, out string
	quantity                         int
}

func quoteCommand() *cobra.Command {
	var f quoteFlags
	cmd := &cobra.Command{
		Use:   "quote [WELDS.csv] [--job JOB.yaml | --settings FILE]",
		Short: "Metal, wire, gas, time and cost of a list of welds, by the arm and by hand",
		Long: `Metal, wire, gas, time and cost of welds, by the arm and by hand, and from which batch
size the arm is no dearer. The welds are those of a list, welded with the settings
sets of a job or of a file of sets; or, without a list, those of the job as they
are planned. Every assumption is shown with its source, and rates that were not
given are assumed and said to be. Examples:
  seamwright quote welds.csv --settings settings.yaml --rates rates.yaml --quantity 20
  seamwright quote --job job.yaml --quantity 20 -o quote.csv

Exit code 0: quoted. 1: quoted, but something wants a look. 2: the input cannot be
used.`,
		RunE: func(cmd *cobra.Command, args []string) error { return f.run(cmd, args) },
	}
	fs := cmd.Flags()
	fs.StringVar(&f.job, "job", "", "job document, for its settings sets and, without a list, for its welds")
	fs.StringVar(&f.settings, "settings", "", "file of settings sets")
	fs.StringVar(&f.rates, "rates", "", "document of rates: prices, factors, times (default: assumed, and said to be)")
	fs.StringVar(&f.units, "units", "", "units of the table: metric or inch (default: those of the job, else metric)")
	fs.IntVar(&f.quantity, "quantity", 1, "number of parts in the batch")
	fs.StringVarP(&f.out, "out", "o", "", "write the lines and the assumptions into this CSV `FILE` too")
	cmd.ValidArgsFunction = once(files("csv"))
	yaml := files("yaml", "yml")
	completeFlags(cmd, map[string]completer{"job": yaml, "settings": yaml, "rates": yaml, "units": words("metric", "inch"), "out": anyFile,
		"quantity": words()})
	return cmd
}

func (f *quoteFlags) run(cmd *cobra.Command, args []string) error {
	if err := f.sets(args); err != nil {
		return err
	}
	s := quoteSheet{parts: f.quantity, system: unit.Metric}
	request, err := f.request(args, &s)
	if err != nil {
		return err
	}
	if s.quote, err = quote.Price(request); err != nil {
		return fileErrors(args, err)
	}
	if f.out != "" {
		if err := s.writeCSV(f.out); err != nil {
			return err
		}
	}
	out := bufio.NewWriter(cmd.OutOrStdout())
	s.print(out)
	if f.out != "" {
		fmt.Fprintf(out, "\nLines and assumptions in %s\n", f.out)
	}
	if err := out.Flush(); err != nil {
		return err
	}
	if len(s.cautions()) > 0 {
		return errLook
	}
	return nil
}

// sets reports flags that do not go together.
func (f *quoteFlags) sets(args []string) error {
	var errs []error
	say := func(wrong bool, words string) {
		if wrong {
			errs = append(errs, errors.New(words))
		}
	}
	list := len(args) == 1 && args[0] != ""
	say(len(args) > 1, fmt.Sprintf("name one weld list; found %d names", len(args)))
	say(len(args) == 1 && args[0] == "", "name a weld list; found an empty name")
	say(f.job != "" && f.settings != "", "give --job or --settings, not both")
	say(list && f.job == "" && f.settings == "", "say which settings sets the list means: --settings settings.yaml or --job job.yaml")
	say(len(args) == 0 && f.job == "", "name a weld list, such as welds.csv, or a job: --job job.yaml")
	say(f.quantity < 1, fmt.Sprintf("--quantity %d: 1 or more is allowed", f.quantity))
	if _, err := unit.ParseSystem(f.units); f.units != "" && err != nil {
		errs = append(errs, fmt.Errorf("--units: %w", err))
	}
	return errors.Join(errs...)
}

// request reads the files.
func (f *quoteFlags) request(args []string, s *quoteSheet) (quote.Request, error) {
	r := quote.Request{Parts: f.quantity}
	var errs []error
	note := func(err error) {
		if err != nil {
			errs = append(errs, err)
		}
	}
	var j *job.Job
	var err error
	if f.job != "" {
		if j, err = job.Decode(filepath.Base(f.job), folder(filepath.Dir(f.job))); err == nil {
			r.Settings, s.title, s.system = j.Settings, j.Name, tableSystem("", j)
		}
		note(err)
	} else {
		r.Settings, err = job.DecodeSettings(filepath.Base(f.settings), folder(filepath.Dir(f.settings)))
		note(err)
	}
	if system, err := unit.ParseSystem(f.units); err == nil {
		s.system = system
	}
	s.rates, s.ratesFrom, err = f.readRates()
	note(err)
	if err == nil {
		r.Arm, r.Hand, r.Density, r.SourceEfficiency = s.rates.Arm, s.rates.Hand, s.rates.Density, s.rates.SourceEfficiency
	}
	switch {
	case len(args) == 1:
		s.title = filepath.Base(args[0])
		r.Items, err = readWelds(args[0])
		note(err)
	case j != nil:
		seams, err := plan.Sized(j)
		note(err)
		r.Items = seamItems(seams, s.system)
	}
	return r, errors.Join(errs...)
}

// readRates reads the rates of the shop, or takes the assumed ones; from says
// which.
func (f *quoteFlags) readRates() (r *job.Rates, from string, err error) {
	if f.rates == "" {
		r, err = job.DecodeRates("the assumed rates", oneText(assumedRates))
		return r, "", err
	}
	r, err = job.DecodeRates(filepath.Base(f.rates), folder(filepath.Dir(f.rates)))
	return r, filepath.Base(f.rates), err
}

// oneText is a file that this program holds itself.
type oneText string

func (t oneText) Open(string) (io.ReadCloser, error) {
	return io.NopCloser(strings.NewReader(string(t))), nil
}

// maxWelds bounds a weld list, in bytes.
const maxWelds = 4 << 20

// readWelds reads a weld list.
func readWelds(name string) ([]quote.Item, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("weld list: %w", err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxWelds+1))
	if err != nil {
		return nil, fmt.Errorf("weld list: %w", err)
	}
	items, err := quote.Parse(data)
	return items, fileErrors([]string{name}, err)
}

// fileErrors names the file of the problems of a weld list: "welds.csv:3: ...".
func fileErrors(args []string, err error) error {
	problems := quote.Problems(err)
	if len(problems) == 0 || len(args) != 1 {
		return err
	}
	var text bytes.Buffer
	for i, p := range problems {
		if i > 0 {
			text.WriteByte('\n')
		}
		where := ""
		if p.Column != "" {
			where = " " + p.Column + ":"
		}
		fmt.Fprintf(&text, "%s:%d:%s found %s; allowed: %s; %s", filepath.Base(args[0]), p.Line, where, p.Found, p.Allowed, p.Mend)
	}
	return errors.New(text.String())
}
