package gltf

import (
	"encoding/json"
	"fmt"
)

// document holds what is read of the JSON part. Members that say nothing about
// the shape are not here.
type document struct {
	Asset struct {
		Version    string `json:"version"`
		MinVersion string `json:"minVersion"`
	} `json:"asset"`
	ExtensionsUsed     []string     `json:"extensionsUsed"`
	ExtensionsRequired []string     `json:"extensionsRequired"`
	Scene              *int         `json:"scene"`
	Scenes             []scene      `json:"scenes"`
	Nodes              []node       `json:"nodes"`
	Meshes             []meshOf     `json:"meshes"`
	Accessors          []accessor   `json:"accessors"`
	BufferViews        []bufferView `json:"bufferViews"`
	Buffers            []buffer     `json:"buffers"`
	Animations         []presence   `json:"animations"`
}

// presence is an element of which only the number matters.
type presence = json.RawMessage

type scene struct {
	Nodes []int `json:"nodes"`
}

type node struct {
	Children    []int      `json:"children"`
	Mesh        *int       `json:"mesh"`
	Skin        *int       `json:"skin"`
	Matrix      []float64  `json:"matrix"`
	Translation []float64  `json:"translation"`
	Rotation    []float64  `json:"rotation"`
	Scale       []float64  `json:"scale"`
	Weights     []float64  `json:"weights"`
	Extensions  extensions `json:"extensions"`
}

type meshOf struct {
	Primitives []primitive `json:"primitives"`
	Weights    []float64   `json:"weights"`
}

type primitive struct {
	Attributes map[string]int `json:"attributes"`
	Indices    *int           `json:"indices"`
	Mode       *int           `json:"mode"`
	Targets    []presence     `json:"targets"`
	Extensions extensions     `json:"extensions"`
}

type accessor struct {
	BufferView    *int     `json:"bufferView"`
	ByteOffset    int64    `json:"byteOffset"`
	ComponentType int      `json:"componentType"`
	Normalized    bool     `json:"normalized"`
	Count         int64    `json:"count"`
	Type          string   `json:"type"`
	Sparse        presence `json:"sparse"`
}

type bufferView struct {
	Buffer     int        `json:"buffer"`
	ByteOffset int64      `json:"byteOffset"`
	ByteLength int64      `json:"byteLength"`
	ByteStride int64      `json:"byteStride"`
	Extensions extensions `json:"extensions"`
}

type buffer struct {
	URI        *string `json:"uri"`
	ByteLength int64   `json:"byteLength"`
}

// extensions are the names of those that an element has.
type extensions map[string]presence

// harmless lists extensions that change looks, not shapes, by the Khronos
// registry of glTF extensions (from memory).
var harmless = map[string]bool{
	"KHR_lights_punctual": true, "KHR_materials_anisotropy": true, "KHR_materials_clearcoat": true,
	"KHR_materials_dispersion": true, "KHR_materials_emissive_strength": true, "KHR_materials_ior": true,
	"KHR_materials_iridescence": true, "KHR_materials_sheen": true, "KHR_materials_specular": true,
	"KHR_materials_transmission": true, "KHR_materials_unlit": true, "KHR_materials_variants": true,
	"KHR_materials_volume": true, "KHR_materials_pbrSpecularGlossiness": true, "KHR_texture_basisu": true,
	"KHR_texture_transform": true, "KHR_xmp_json_ld": true, "EXT_texture_webp": true, "EXT_texture_avif": true,
	"KHR_mesh_quantization": true, // coordinates as whole numbers, which are read
}

// maxValues bounds the members and elements of the JSON part, whose numbers are
// few beside those in the buffers: a few hundred bytes of memory for each.
const maxValues = 2_000_000

// extentOf returns how deep the brackets of a JSON text nest and how many
// members and elements it has at most.
func extentOf(text []byte) (depth, values int) {
	now := 0
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '"':
			for i++; i < len(text) && text[i] != '"'; i++ {
				if text[i] == '\\' {
					i++
				}
			}
		case '{', '[':
			now++
			depth = max(depth, now)
			values++
		case '}', ']':
			now--
		case ',':
			values++
		}
	}
	return depth, values
}

// parse reads the JSON part; offset is where it begins in the file.
func (d *decoder) parse(text []byte, offset int64) error {
	d.Place.Offset, d.Place.HasOffset = offset, true
	switch depth, values := extentOf(text); {
	case depth > d.Limits.Depth:
		return d.Exceeded("Depth", fmt.Sprintf("brackets nested %d deep", depth), fmt.Sprintf("at most %d", d.Limits.Depth), "export the file again")
	case values > maxValues:
		return d.Fault(fmt.Sprintf("%d members and elements of JSON", values), fmt.Sprintf("at most %d", maxValues), "export fewer nodes, and data as GLB")
	}
	if err := json.Unmarshal(text, &d.document); err != nil {
		switch e := err.(type) {
		case *json.SyntaxError:
			d.Place.Offset += e.Offset
			if e.Offset >= int64(len(text)) {
				return d.Fault("the end of the JSON text", "a whole document", "copy or export the file again: it is cut off")
			}
		case *json.UnmarshalTypeError:
			d.Place.Offset += e.Offset
			return d.Fault(fmt.Sprintf("a %s at %q", e.Value, e.Field), "what glTF 2.0 has there", "export the file again")
		}
		return d.Fault("no JSON: "+err.Error(), "glTF 2.0, as JSON or GLB", "choose a glTF or GLB file")
	}
	d.Place.Offset, d.Place.HasOffset = 0, false
	return d.checkDocument()
}

// checkDocument refuses versions and extensions that are not read.
func (d *decoder) checkDocument() error {
	for _, v := range []string{d.document.Asset.Version, d.document.Asset.MinVersion} {
		if v != "2.0" && (v != "" || d.document.Asset.Version == "") {
			d.Place.Part = "asset"
			return d.Fault(fmt.Sprintf("version %q", v), `version "2.0"`, "export the file as glTF 2.0")
		}
	}
	for _, x := range d.document.ExtensionsRequired {
		if !harmless[x] {
			d.Place.Part = "extensionsRequired"
			return d.Fault(fmt.Sprintf("%q", x), "plain glTF 2.0, or extensions that change looks only", "export it without compression and extensions")
		}
	}
	for _, x := range d.document.ExtensionsUsed {
		if !harmless[x] {
			d.Say("the extension %q is not read", x)
		}
	}
	if n := len(d.document.Animations); n > 0 {
		d.Say("%d animations ignored: nodes stand where the file has them at rest", n)
	}
	return nil
}
