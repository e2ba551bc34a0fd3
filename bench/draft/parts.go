package draft

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/goccy/go-yaml"

	"seamwright/bench/job"
)

// maxPart bounds a file of settings sets while its first id is looked for; the
// document's reader has a bound of its own.
const maxPart = 4 << 20

// overlay serves the files of a trial document and takes the others from a
// folder.
type overlay struct {
	own  files
	rest job.Files
}

func (o overlay) Open(name string) (io.ReadCloser, error) {
	if _, ours := o.own[name]; ours {
		return o.own.Open(name)
	}
	return o.rest.Open(name)
}

// Names of the trial document's own files.
const (
	trialJob  = ".trial-job.yaml"
	trialURDF = ".trial-arm.urdf"
)

// try reads a trial document with values in it and returns what is wrong with
// the named file.
func try(name string, values map[trial]string, rest job.Files) (*job.Job, error) {
	values[trial{"arm", "urdf"}] = quoted(trialURDF)
	own := files{trialJob: trial{}.with(values), trialURDF: trialArm}
	j, err := job.Decode(trialJob, overlay{own, rest})
	var ps *job.Problems
	if !errors.As(err, &ps) {
		return j, err
	}
	var about job.Problems
	for _, p := range ps.List {
		switch {
		case p.Place.File == name:
			about.List = append(about.List, p)
		case strings.HasSuffix(p.Place.Field, ".file"): // it cannot be opened
			p.Place = job.Place{File: name}
			about.List = append(about.List, p)
		}
	}
	if len(about.List) == 0 {
		return nil, err
	}
	about.More = ps.More
	return nil, &about
}

// ReadSettings reads a file with settings sets, named as a job document in the
// folder of files would name it. The error says all that is wrong with it.
func ReadSettings(name string, rest job.Files) (*Settings, error) {
	values := map[trial]string{{"settings", "sets"}: "", {"settings", "file"}: quoted(name), {"seams", "settings"}: quoted(orElse(firstID(name, rest), "s"))}
	j, err := try(name, values, rest)
	if err != nil {
		return nil, err
	}
	s := &Settings{File: name}
	for _, set := range j.Settings {
		s.IDs = append(s.IDs, set.ID)
	}
	return s, nil
}

// firstID returns the id of the first set as it is written, empty where there
// is none: the reader then says what is wrong.
func firstID(name string, rest job.Files) string {
	r, err := rest.Open(name)
	if err != nil {
		return ""
	}
	defer r.Close()
	path, err := yaml.PathString("$.sets[0].id")
	if err != nil {
		return ""
	}
	node, err := path.ReadNode(io.LimitReader(r, maxPart))
	if err != nil {
		return ""
	}
	return node.GetToken().Value
}

// CheckProcedure reads a file with a welding procedure, of whichever code family,
// and says all that is wrong with it.
func CheckProcedure(name string, rest job.Files) error {
	var fewest error
	for _, code := range []string{"iso", "aws"} {
		_, err := try(name, map[trial]string{{"procedure", "file"}: quoted(name), {"", "code"}: code}, rest)
		if err == nil {
			return nil
		}
		if fewest == nil || count(err) < count(fewest) { // the family adds a problem in a job of the other
			fewest = err
		}
	}
	return fewest
}

// count returns how many problems an error holds.
func count(err error) int {
	var ps *job.Problems
	if errors.As(err, &ps) {
		return len(ps.List) + ps.More
	}
	return 1
}

// PartFile returns the file that a section of a job document names, such as
// "settings"; empty where the section stands in the document itself.
func PartFile(document []byte, section string) string {
	path, err := yaml.PathString(fmt.Sprintf("$.%s.file", section))
	if err != nil {
		return ""
	}
	node, err := path.ReadNode(strings.NewReader(string(document)))
	if err != nil {
		return ""
	}
	return node.GetToken().Value
}
