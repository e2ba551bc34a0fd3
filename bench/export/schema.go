package export

import (
	"encoding/json"
	"reflect"
	"strings"
)

// schema is one JSON Schema.
type schema map[string]any

// Schema returns the JSON Schema (draft 2020-12) of plan.json, made from the
// types that write it.
func Schema() []byte {
	s := typeSchema(reflect.TypeFor[planDoc]())
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = "seamwright plan"
	s["properties"].(schema)["seamwright_plan"].(schema)["const"] = FormatVersion
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		panic("export: the schema holds a value that JSON cannot: " + err.Error()) // a fault of the types
	}
	return append(out, '\n')
}

func typeSchema(t reflect.Type) schema {
	switch t.Kind() {
	case reflect.Struct:
		return recordSchema(t)
	case reflect.Slice:
		return schema{"type": "array", "items": typeSchema(t.Elem())}
	case reflect.Array:
		return schema{"type": "array", "items": typeSchema(t.Elem()), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Float64:
		return schema{"type": "number"}
	case reflect.Int:
		return schema{"type": "integer"}
	case reflect.Bool:
		return schema{"type": "boolean"}
	case reflect.String:
		return schema{"type": "string"}
	}
	panic("export: the schema knows no " + t.String()) // a fault of the types
}

func recordSchema(t reflect.Type) schema {
	properties, required := schema{}, []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get("json"), ",")
		properties[name] = fieldSchema(f, name, option == "omitempty")
		if option != "omitempty" {
			required = append(required, name)
		}
	}
	return schema{"type": "object", "properties": properties, "required": required, "additionalProperties": false}
}

func fieldSchema(f reflect.StructField, name string, left bool) schema {
	t, null := f.Type, false
	if t.Kind() == reflect.Pointer {
		t, null = t.Elem(), !left // a pointer that is not left out is null
	}
	s := typeSchema(t)
	if null {
		s["type"] = []any{s["type"], "null"}
	}
	if words := f.Tag.Get("enum"); words != "" {
		s["enum"] = strings.Split(words, ",")
	}
	s["description"] = f.Tag.Get("doc")
	if unit := unitOf(name); unit != "" {
		s["description"] = f.Tag.Get("doc") + ", in " + unit
	}
	return s
}

// units are the endings of names that are a unit, longer ones first.
var units = []struct{ ending, unit string }{
	{"_deg_s", "deg/s"}, {"_mm_s", "mm/s"}, {"_m_min", "m/min"}, {"_kj_mm", "kJ/mm"},
	{"_mm2", "mm2"}, {"_kg", "kg"}, {"_hz", "Hz"}, {"_degc", "deg C"}, {"_mm", "mm"}, {"_m", "m"}, {"_s", "s"},
	{"_deg", "deg"}, {"_rad", "rad"}, {"_pct", "percent"}, {"_v", "V"}, {"_a", "A"},
}

func unitOf(name string) string {
	for _, u := range units {
		if strings.HasSuffix(name, u.ending) {
			return u.unit
		}
	}
	return ""
}
