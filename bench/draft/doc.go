// Package draft makes a job document from a table of taught points: it groups
// the points into seams by their labels, asks for what neither the table nor
// the arm's file tells, and writes down where every value comes from.
//
//	in := draft.Input{Points: points, Table: table, Answers: draft.Answers{}}
//	document, questions, err := draft.Make(in)
//	...                       // answer a question, add the answer, make again
//
// Nothing is settled in silence. What the points speak for is a question with a
// default and its evidence; what nothing speaks for has no default. What a job
// needs and a person may not have yet, the settings sets, is written as a
// template, and a plan made from it stops until it is filled in.
package draft

import (
	"seamwright/bench/intake"
	"seamwright/bench/job"
	"seamwright/robot/urdf"
)

// Input is what a document is made from.
type Input struct {
	Source  string // name of the table, for comments
	Points  []intake.Point
	Table   intake.Table
	Missing []intake.Problem   // rows that could not be taken
	Slips   []intake.Suspicion // what looks like a slip in the points

	Arm       *Arm      // nil: not known yet
	Settings  *Settings // nil: no file was given
	Procedure string    // file, empty where none was given
	Like      *Like     // nil: no other job is followed

	// Answers to the questions of Make and, for comments, to those of
	// intake.Read.
	Answers Answers
}

// Arm is an arm's description and its name as the document shall write it.
type Arm struct {
	File  string
	Robot *urdf.Robot
}

// Settings is a file of settings sets and the sets in it.
type Settings struct {
	File string
	IDs  []string
}

// Like is another job whose arm, torch, cell and air moves are taken.
type Like struct {
	Name string // for comments
	Job  *job.Job
	Text []byte // its document, whose sections are taken over as they are written
}

// File is one file of a job's folder.
type File struct {
	Name string
	Data []byte
}

// Document is a job that can be read and planned.
type Document struct {
	Files []File   // job.yaml first, then taught.csv and the templates
	Names []string // of the seams
	// Seams says in words what each seam was made of, Left what is left to do
	// or was left out.
	Seams, Left []string
}

// The files of a new job.
const (
	JobFile       = "job.yaml"
	PointsFile    = "taught.csv"
	SettingsFile  = "settings.yaml"
	ProcedureFile = "procedure.yaml"
)

// Make makes the document as far as the answers go and returns the questions
// that are open, the most pressing first; those that rest on another's answer
// come in a later round. The document is empty while questions are open. It
// fails where an answer does not fit its question and where the points make no
// job at all.
func Make(in Input) (Document, []Question, error) {
	m := &maker{Input: in, asker: newAsker(in.Answers), home: -1}
	for _, stage := range []func() error{m.follow, m.rows, m.findHome, m.findSeams, m.findArm, m.findTorch, m.findFrames, m.findPaths, m.findWelds} {
		err := stage()
		if err == nil {
			err = m.wrong
		}
		if err != nil || len(m.open) > 0 {
			return Document{}, m.open, err
		}
	}
	return m.write(), nil, nil
}

// maker makes one document.
type maker struct {
	Input
	*asker

	kept         []row // points that are written
	closes, list bool  // the rows end where they begin; they are a whole taught list
	home         int   // of kept
	left         []string
	seams        []*seam

	base, flange  string // links
	accelerations string
	torch         []entry
	cell          []entry
	followed      map[string]string // sections of the job followed
	geometry
	welds
}

// entry is a field of the document with its value, written as YAML, and where
// it comes from.
type entry struct{ field, value, note string }
