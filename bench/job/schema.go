package job

import (
	"encoding/json"
)

// schema is one JSON Schema.
type schema map[string]any

// Schema returns the JSON Schema (draft 2020-12) of the job document, made
// from the table by which documents are read. It holds the names, kinds and
// sets of fields; rules between fields are Decode's.
func Schema() []byte {
	s := new(draft).form().schema()
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "seamwright job document"
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic("job: the schema holds a value that JSON cannot: " + err.Error()) // a fault of the table
	}
	return append(out, '\n')
}
