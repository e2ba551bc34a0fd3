package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// File is one file of a plan folder, its name with slashes.
type File struct {
	Name string
	Data []byte
}

// Files returns the files of a plan's folder, sealed: plan.json, the first, holds
// the SHA-256 of every other file, of all that the job was made from, and of
// itself. document is the path of the job document as seen from the folder, with
// slashes; empty where it is no file of its own.
func Files(j *job.Job, p *plan.Plan, document string) ([]File, error) {
	files := []File{{Name: PlanFile}}
	for _, part := range append([]part{
		{StepsFile, func(w io.Writer) error { return Steps(w, p) }},
		{TraceFile, func(w io.Writer) error { return Trace(w, p) }},
		{FindingsFile, func(w io.Writer) error { return Findings(w, p) }},
	}, slices.Concat(procedureParts(j, p), drawings(j, p))...) {
		var b bytes.Buffer
		if err := part.write(&b); err != nil {
			return nil, fmt.Errorf("%s: %w", part.name, err)
		}
		files = append(files, File{part.name, b.Bytes()})
	}
	doc := newPlan(j, p)
	doc.Job.Path = document
	doc.Seal = newSeal(j, files[1:], len(doc.Findings))
	var b bytes.Buffer
	if err := writeJSON(&b, doc); err != nil {
		return nil, fmt.Errorf("%s: %w", PlanFile, err)
	}
	files[0].Data = sealed(b.Bytes())
	return files, nil
}

// sealDoc is a part of plan.json.
type sealDoc struct {
	Inputs   []inputDoc  `json:"inputs" doc:"every file that the job was made from, as the job names it"`
	Files    []outputDoc `json:"files" doc:"every other file of this folder"`
	Findings int         `json:"findings" doc:"how many findings there are"`
	Plan     string      `json:"plan_sha256" doc:"SHA-256 of this file as it is with 64 zeros here, in hexadecimal"`
}

type inputDoc struct {
	File   string `json:"file" doc:"name as the job has it, relative to the job document's folder"`
	Bytes  int    `json:"bytes" doc:"length in bytes"`
	SHA256 string `json:"sha256" doc:"SHA-256 of its bytes, in hexadecimal"`
}

type outputDoc struct {
	File   string `json:"file" doc:"name in this folder"`
	SHA256 string `json:"sha256" doc:"SHA-256 of its bytes, in hexadecimal"`
}

// noSeal stands where the sum of plan.json comes.
var noSeal = strings.Repeat("0", 2*sha256.Size)

func newSeal(j *job.Job, files []File, findings int) sealDoc {
	d := sealDoc{Inputs: []inputDoc{}, Files: []outputDoc{}, Findings: findings, Plan: noSeal}
	for _, in := range j.Inputs {
		d.Inputs = append(d.Inputs, inputDoc{File: in.File, Bytes: int(in.Bytes), SHA256: hex.EncodeToString(in.SHA256[:])})
	}
	slices.SortFunc(d.Inputs, func(a, b inputDoc) int { return strings.Compare(a.File+" "+a.SHA256, b.File+" "+b.SHA256) })
	for _, f := range files {
		sum := sha256.Sum256(f.Data)
		d.Files = append(d.Files, outputDoc{File: f.Name, SHA256: hex.EncodeToString(sum[:])})
	}
	return d
}

// sealed puts the sum of plan.json into it; it stands last where the zeros stand.
func sealed(text []byte) []byte {
	sum := sha256.Sum256(text)
	copy(text[bytes.LastIndex(text, []byte(noSeal)):], hex.EncodeToString(sum[:]))
	return text
}
