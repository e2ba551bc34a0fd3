package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// Bounds of one YAML file. The reader's time grows with the square of the
// number of fields; these keep the worst file under about a second.
const (
	maxYAMLBytes  = 256 << 10
	maxYAMLFields = 10000
	maxYAMLDepth  = 24
)

// shape is what a node of a YAML file is.
type shape uint8

const (
	nothing shape = iota // an empty value
	word                 // a single value; its text is kept as it was written
	series               // a list
	group                // a mapping of names to values
	refused              // a value that was reported already
)

// node is one value of a YAML file. Values are text here: what they mean is
// for the form that reads them, so no 011, no or 1e3 changes on the way.
type node struct {
	shape  shape
	text   string  // of a word
	items  []node  // of a series
	fields []entry // of a group, in order, without doubles
	at     Place
}

type entry struct {
	name  string
	at    Place // of the name
	value node
}

// get returns the named field of a group.
func (n node) get(name string) (node, bool) {
	for _, e := range n.fields {
		if e.name == name {
			return e.value, true
		}
	}
	return node{}, false
}

func (n node) has(name string) bool { _, ok := n.get(name); return ok }

// means says whether the group has the field, or one that is a slip of its
// name.
func (n node) means(name string) bool {
	return slices.ContainsFunc(n.fields, func(e entry) bool {
		return e.name == name || nearest(e.name, []string{name}) != ""
	})
}

// found says in words what the node is.
func (n node) found() string {
	switch n.shape {
	case word:
		return quote(n.text)
	case series:
		return "a list"
	case group:
		return "a group of fields"
	}
	return "nothing"
}

// readTree parses a YAML file of maxYAMLBytes at most; ok is false where nothing of it can be used.
func readTree(file string, data []byte, ps *Problems) (root node, ok bool) {
	text, ok := checkText(file, data, ps)
	if !ok {
		return node{}, false
	}
	docs, ok := parseYAML(file, text, ps)
	if !ok {
		return node{}, false
	}
	t := treeMaker{file: file, ps: ps}
	for i, doc := range docs {
		if i > 0 {
			ps.add(t.place(doc.Start, doc.Body, ""), "a second document", "one document in a file", "keep one and put the other into a file of its own")
			return node{}, false
		}
		if _, directive := doc.Body.(*ast.DirectiveNode); directive {
			ps.add(Place{file, 1, 1, ""}, "a line that begins with %", "no directives", "delete that line and the line --- below it")
			return node{}, false
		}
	}
	if len(docs) == 0 || docs[0].Body == nil {
		ps.add(Place{file, 1, 1, ""}, "an empty file", "a document with fields", "see the examples for the form of the document")
		return node{}, false
	}
	return t.node(docs[0].Body, "", 0), true
}

// checkText refuses what no YAML reader should be given: text that is not
// UTF-8, tabs that indent.
func checkText(file string, data []byte, ps *Problems) (string, bool) {
	text := strings.TrimPrefix(string(data), "\ufeff")
	good := true
	for i, line := range strings.Split(text, "\n") {
		at := Place{file, i + 1, 1, ""}
		if !utf8.ValidString(line) {
			ps.add(at, "bytes that are not UTF-8 text", "UTF-8", "save the file with the encoding UTF-8")
			return "", false
		}
		indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]
		if strings.Contains(indent, "\t") && strings.TrimSpace(line) != "" {
			at.Column += strings.IndexByte(indent, '\t')
			ps.add(at, "a tab before the text", "spaces", "indent with two spaces")
			good = false
		}
	}
	return text, good
}

// parseYAML bounds the work and parses.
func parseYAML(file, text string, ps *Problems) (docs []*ast.DocumentNode, ok bool) {
	tokens := lexer.Tokenize(text)
	if at, found := tooMuch(tokens); at != nil {
		ps.add(Place{file, at.Line, at.Column, ""}, found, "far less in a document of this kind", "move long lists of points into a CSV file, and look for a bracket that is not closed")
		return nil, false
	}
	parsed, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return parsed.Docs, true
	}
	at := Place{file, 1, 1, ""}
	found := err.Error()
	if syntax := (*yaml.SyntaxError)(nil); errors.As(err, &syntax) {
		found = syntax.Message
		if syntax.Token != nil && syntax.Token.Position != nil {
			at.Line, at.Column = syntax.Token.Position.Line, syntax.Token.Position.Column
		}
	}
	ps.add(at, "text that is not YAML ("+strings.Trim(quote(found), `"`)+")", "YAML: name: value, lists in [ ] or with -, two spaces a level",
		"look at this line and the one above for a missing bracket, quote, colon or indent")
	return nil, false
}

// tooMuch returns the place where a file has too many fields or brackets too
// deep for a document, nil where it has not.
func tooMuch(tokens token.Tokens) (*token.Position, string) {
	fields, depth, dashes, line := 0, 0, 0, 0
	for _, tk := range tokens {
		if tk.Position.Line != line {
			line, dashes = tk.Position.Line, 0
		}
		switch tk.Type {
		case token.MappingValueType:
			fields++
		case token.SequenceStartType, token.MappingStartType:
			depth++
		case token.SequenceEndType, token.MappingEndType:
			depth--
		case token.SequenceEntryType, token.MappingKeyType, token.TagType, token.AnchorType:
			dashes++
		}
		switch {
		case fields > maxYAMLFields:
			return tk.Position, fmt.Sprintf("more than %d fields", maxYAMLFields)
		case depth > maxYAMLDepth || dashes > maxYAMLDepth:
			return tk.Position, fmt.Sprintf("more than %d levels inside each other", maxYAMLDepth)
		}
	}
	return nil, ""
}

// treeMaker turns the syntax tree of the YAML reader into nodes and refuses
// what the document does not use: anchors, aliases, tags, keys that are not
// plain words, fields given twice.
type treeMaker struct {
	file string
	ps   *Problems
}

func (t treeMaker) place(start *token.Token, n ast.Node, path string) Place {
	tk := start
	if tk == nil && n != nil {
		tk = n.GetToken()
	}
	at := Place{t.file, 1, 1, path}
	if tk != nil && tk.Position != nil {
		at.Line, at.Column = tk.Position.Line, tk.Position.Column
	}
	return at
}

func (t treeMaker) node(n ast.Node, path string, depth int) node {
	out := node{at: t.place(nil, n, path)}
	if depth > maxYAMLDepth {
		t.ps.add(out.at, fmt.Sprintf("more than %d levels inside each other", maxYAMLDepth), "the levels of the document", "see the examples for the form of the document")
		out.shape = refused
		return out
	}
	switch n := n.(type) {
	case nil, *ast.NullNode:
	case *ast.MappingNode:
		t.group(&out, n.Values, n.IsFlowStyle, path, depth)
	case *ast.SequenceNode:
		out.shape = series
		for i, v := range n.Values {
			out.items = append(out.items, t.node(v, fmt.Sprintf("%s[%d]", path, i), depth+1))
		}
	case *ast.LiteralNode:
		out.shape, out.text = word, strings.TrimSuffix(n.Value.Value, "\n")
	case *ast.AnchorNode:
		t.ps.add(out.at, "an anchor (&)", "values written out", "write the value in each place that needs it")
		return t.node(n.Value, path, depth+1)
	case *ast.AliasNode:
		t.ps.add(out.at, "an alias (*)", "values written out", "write the value here; a text that begins with * needs quotes")
		out.shape = refused
	case *ast.TagNode:
		t.ps.add(out.at, "a tag (!)", "plain values", "delete the tag; a text that begins with ! needs quotes")
		return t.node(n.Value, path, depth+1)
	default: // strings, numbers, true and false: the text as written
		out.shape, out.text = word, n.GetToken().Value
	}
	return out
}

func (t treeMaker) group(out *node, values []*ast.MappingValueNode, flow bool, path string, depth int) {
	out.shape = group
	seen := map[string]bool{}
	for i, v := range values {
		at := t.place(nil, v.Key, path)
		if i == 0 && !flow {
			out.at = at // the reader places a mapping at its first colon
		}
		name, ok := keyName(v.Key)
		if !ok {
			t.ps.add(at, "a field whose name is not a plain word", "plain field names", "write name: value")
			continue
		}
		at.Field = join(path, cut(name))
		value := t.node(v.Value, at.Field, depth+1)
		if value.shape == nothing {
			value.at = at // an empty value stands nowhere: show its name
		}
		if seen[name] {
			t.ps.add(at, "the field a second time", "each field once", "delete one of the two")
			continue
		}
		seen[name] = true
		out.fields = append(out.fields, entry{name, at, value})
	}
}

// keyName returns the name of a field, false for keys that are not a word.
func keyName(key ast.MapKeyNode) (string, bool) {
	switch key.(type) {
	case *ast.StringNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.NullNode:
		return key.GetToken().Value, true
	}
	return "", false
}

// sub returns the place of a field that is missing, or has no place of its own,
// in the group at p: where the group is.
func (p Place) sub(name string) Place {
	p.Field = join(p.Field, name)
	return p
}

// join returns the path of a field inside the field at path.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
