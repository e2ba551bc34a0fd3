package urdf

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Bounds of a file. The largest descriptions in use are below a megabyte and
// nest eight deep; these leave room and keep a hostile file from filling the
// memory. Common practice, no source.
const (
	maxBytes    = 16 << 20
	maxDepth    = 32
	maxElements = 200_000
)

// node is one element with its place in the file.
type node struct {
	name         string
	line, column int
	attrs        []xml.Attr
	children     []*node
}

// attr returns the value of a plain attribute and whether it is there.
func (n *node) attr(name string) (string, bool) {
	for _, a := range n.attrs {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

// reader turns the token stream into a tree of nodes.
type reader struct {
	report   *report
	dec      *xml.Decoder
	limited  *io.LimitedReader
	stack    []*node
	root     *node
	elements int
	stop     bool
}

// readTree returns the file's root element, or nil with at least one problem.
func readTree(src io.Reader, rep *report) *node {
	limited := &io.LimitedReader{R: src, N: maxBytes + 1}
	rd := &reader{report: rep, limited: limited, dec: xml.NewDecoder(limited)}
	for !rd.stop {
		line, column := rd.dec.InputPos()
		tok, err := rd.dec.Token()
		if err != nil {
			rd.end(err)
			break
		}
		switch t := tok.(type) {
		case xml.StartElement:
			rd.open(t, line, column)
		case xml.EndElement:
			rd.stack = rd.stack[:len(rd.stack)-1]
		}
	}
	if rep.failed() {
		return nil
	}
	return rd.root
}

// end turns the decoder's last word into a problem, or accepts the end.
func (rd *reader) end(err error) {
	line, column := rd.dec.InputPos()
	at := &node{line: line, column: max(column, 1)} // 0 where the decoder stepped back over a line end
	var syntax *xml.SyntaxError
	switch {
	case rd.limited.N <= 0:
		rd.report.problem(at, "file", fmt.Sprintf("more than %d bytes", maxBytes),
			fmt.Sprintf("at most %d bytes", maxBytes),
			"keep meshes in files of their own")
	case errors.Is(err, io.EOF) && rd.root == nil:
		rd.report.problem(at, "file", "no element", "one <robot> element",
			"choose a URDF file")
	case errors.Is(err, io.EOF):
	case errors.As(err, &syntax):
		rd.report.problem(at, "file", "broken XML: "+syntax.Msg, "well-formed XML in UTF-8",
			"correct the file at this place")
	default:
		rd.report.problem(at, "file", "unreadable: "+err.Error(), "well-formed XML in UTF-8",
			"check the file and its encoding")
	}
}

// open adds an element to the tree and checks what holds for every element.
func (rd *reader) open(t xml.StartElement, line, column int) {
	n := &node{name: t.Name.Local, line: line, column: column, attrs: t.Copy().Attr}
	if rd.elements++; rd.elements > maxElements {
		rd.report.problem(n, "file", fmt.Sprintf("more than %d elements", maxElements),
			fmt.Sprintf("at most %d elements", maxElements), "split the file")
		rd.stop = true
		return
	}
	if len(rd.stack) >= maxDepth {
		rd.report.problem(n, "<"+n.name+">", fmt.Sprintf("elements nested more than %d deep", maxDepth),
			fmt.Sprintf("at most %d levels", maxDepth), "choose a URDF file")
		rd.stop = true
		return
	}
	if len(rd.stack) > 0 {
		parent := rd.stack[len(rd.stack)-1]
		parent.children = append(parent.children, n)
	} else if rd.root == nil {
		rd.root = n
	} else {
		rd.report.problem(n, "file", "a second root element <"+n.name+">", "one <robot> element",
			"keep one robot in a file")
	}
	rd.stack = append(rd.stack, n)
	rd.checkMacro(t, n)
	rd.checkTwice(n)
}

// checkMacro refuses what a macro processor should have replaced.
func (rd *reader) checkMacro(t xml.StartElement, n *node) {
	const mend = "run the file through xacro and give its output"
	if space := t.Name.Space; space == "xacro" || strings.HasSuffix(space, "/xacro") {
		rd.report.problem(n, "<xacro:"+n.name+">", "a xacro element", "plain URDF", mend)
		n.name = "xacro:" + n.name
	}
	for _, a := range n.attrs {
		if strings.Contains(a.Value, "${") || strings.Contains(a.Value, "$(") {
			rd.report.problem(n, "<"+n.name+"> "+a.Name.Local, quote(a.Value),
				"plain values, no ${...} or $(...)", mend)
		}
	}
}

// checkTwice refuses an attribute that is written twice, which XML forbids and
// the decoder lets through.
func (rd *reader) checkTwice(n *node) {
	for i, a := range n.attrs {
		for _, b := range n.attrs[:i] {
			if a.Name == b.Name {
				rd.report.problem(n, "<"+n.name+"> "+a.Name.Local, "the attribute twice",
					"each attribute once", "delete one of them")
			}
		}
	}
}

// quote returns s in quotes, shortened so that a message stays a line.
func quote(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return fmt.Sprintf("%q", s)
}
