package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld/accept"
)

// oneWeld holds the readings of one place of one weld, as typed in flags.
type oneWeld struct {
	seam, at, over, leg, throat, length, undercut, convexity, face, tapeStep, travel, feed, seen string
}

func (w *oneWeld) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&w.seam, "seam", "", "seam that was gauged, where no file is given")
	f.StringVar(&w.at, "at", "", "distance of the place from the weld start")
	f.StringVar(&w.over, "over", "", "length of weld for which the readings hold")
	f.StringVar(&w.leg, "leg", "", `leg on the base plate and leg on the upright, such as "6.2 mm, 5.8 mm"`)
	f.StringVar(&w.throat, "throat", "", "throat on the middle of the face")
	f.StringVar(&w.length, "length", "", "length of the weld")
	f.StringVar(&w.undercut, "undercut", "", "depth of undercut")
	f.StringVar(&w.convexity, "convexity", "", "height of the face over the line from toe to toe")
	f.StringVar(&w.face, "face", "", "width of the face from toe to toe")
	f.StringVar(&w.tapeStep, "tape-step", "", "step of the tape that the length was read with (default 1 mm)")
	f.StringVar(&w.travel, "travel", "", "travel speed as welded (default: as planned)")
	f.StringVar(&w.feed, "feed", "", "wire feed speed as welded (default: that of the settings set)")
	f.StringVar(&w.seen, "seen", "", "none: looked over, and no crack, lack of fusion, stray arc and the like seen")
}

// given reports whether any of the flags was typed.
func (w *oneWeld) given() bool { return *w != oneWeld{} }

// usualTape is the step of a tape, m. Common practice, no source.
const usualTape = "1 mm"

// readings turns the flags into readings.
func (w *oneWeld) readings(step string, seams []string) (*job.Gaugings, error) {
	var errs []error
	read := func(flag, text string, k unit.Kind) float64 {
		if text == "" {
			return 0
		}
		x, err := unit.Parse(k, text)
		if err == nil && x < 0 {
			err = fmt.Errorf("%q: 0 or more is allowed", text)
		}
		if err != nil {
			errs = append(errs, fmt.Errorf("--%s: %w", flag, err))
		}
		return x
	}
	say := func(wrong bool, words string) {
		if wrong {
			errs = append(errs, errors.New(words))
		}
	}
	row := job.Gauging{Seam: w.seam, Clean: w.seen == "none", Travel: read("travel", w.travel, unit.Speed), Feed: read("feed", w.feed, unit.WireFeed)}
	gauge, tape := read("step", step, unit.Length), read("tape-step", orElse(w.tapeStep, usualTape), unit.Length)
	at, over := read("at", w.at, unit.Length), read("over", w.over, unit.Length)
	add := func(m accept.Measure, flag, text string, step float64) {
		if text != "" {
			row.Readings = append(row.Readings, accept.Reading{Measure: m, Value: read(flag, text, unit.Length), Step: step, At: at, Placed: w.at != "", Extent: over})
		}
	}
	base, upright, two := strings.Cut(w.leg, ",")
	say(w.leg != "" && !two, fmt.Sprintf("--leg: %q is one length; give the leg on the base plate and that on the upright, such as --leg \"6.2 mm, 5.8 mm\"", w.leg))
	if two {
		add(accept.LegBase, "leg", base, gauge)
		add(accept.LegOther, "leg", upright, gauge)
	}
	for _, r := range []struct {
		m          accept.Measure
		flag, text string
	}{{accept.Throat, "throat", w.throat}, {accept.FaceWidth, "face", w.face}, {accept.Convexity, "convexity", w.convexity}, {accept.Undercut, "undercut", w.undercut}} {
		add(r.m, r.flag, r.text, gauge)
	}
	gauged := len(row.Readings) > 0
	add(accept.ElementLength, "length", w.length, tape)
	say(!slices.Contains(seams, w.seam), fmt.Sprintf("--seam %s: no seam of the job is called %q; seams are %s", w.seam, w.seam, strings.Join(seams, ", ")))
	say(w.seen != "" && w.seen != "none", fmt.Sprintf("--seen: %q; write none where nothing was seen, and the rest into a file of readings", w.seen))
	say(len(row.Readings) == 0 && w.seen == "" && w.leg == "", "give a reading, such as --leg, --throat or --undercut")
	say(gauged && step == "", "give the step of the gauge, for a reading is no finer: --step \"0.1 mm\"")
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return &job.Gaugings{Rows: []job.Gauging{row}}, nil
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
