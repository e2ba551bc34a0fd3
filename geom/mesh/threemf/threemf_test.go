package threemf_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/threemf"
)

// A tetrahedron of 10 mm over the axes, built twice, the second 20 mm further on.
const model = `<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
 <resources>
  <object id="1" type="model"><mesh>
   <vertices><vertex x="0" y="0" z="0"/><vertex x="10" y="0" z="0"/><vertex x="0" y="10" z="0"/><vertex x="0" y="0" z="10"/></vertices>
   <triangles><triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/></triangles>
  </mesh></object>
  <object id="2" type="model"><components><component objectid="1"/><component objectid="1" transform="1 0 0 0 1 0 0 0 1 20 0 0"/></components></object>
 </resources>
 <build><item objectid="2"/></build>
</model>`

const relations = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>`

const types = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>`

// packed is a model as a file.
func packed(t testing.TB, model string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range []struct{ name, text string }{{"[Content_Types].xml", types}, {"_rels/.rels", relations}, {"3D/3dmodel.model", model}} {
		w, err := z.Create(part.name)
		if err == nil {
			_, err = w.Write([]byte(part.text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The unit stands in the file, components are built where they are put.
func TestComponentsAreBuilt(t *testing.T) {
	m, notes, err := threemf.Decode(packed(t, model), mesh.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Triangles) != 8 || math.Abs(m.Volume()-2e-6/6) > 1e-15 || notes.Unit != mesh.Millimetres {
		t.Errorf("%d triangles, %g m3, %v", len(m.Triangles), m.Volume(), notes.Unit)
	}
	if far := m.Box().Max.X; math.Abs(far-0.03) > 1e-12 {
		t.Errorf("the second ends at %g m, want 0.03", far)
	}
}

func TestRefusals(t *testing.T) {
	bomb := packed(t, strings.Replace(model, "<build>", strings.Repeat(" ", 200_000)+"<build>", 1))
	for _, row := range []struct {
		name string
		data []byte
		o    mesh.Options
	}{
		{"another unit than the file's", packed(t, model), mesh.Options{Unit: mesh.Inches}},
		{"no archive", []byte("PK"), mesh.Options{}},
		{"truncated", packed(t, model)[:200], mesh.Options{}},
		{"a corner that is not there", packed(t, strings.Replace(model, `v3="3"/></triangles>`, `v3="9"/></triangles>`, 1)), mesh.Options{}},
		{"an object of itself", packed(t, strings.Replace(model, `<component objectid="1"/>`, `<component objectid="2"/>`, 1)), mesh.Options{}},
		{"more than it may unpack to", bomb, mesh.Options{Limits: mesh.Limits{Unpacked: 100_000}}},
		{"no model", packed(t, "<model/>"), mesh.Options{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, _, err := threemf.Decode(row.data, row.o)
			var refused *mesh.Error
			if !errors.As(err, &refused) {
				t.Errorf("got %d triangles and %v, want a refusal", len(m.Triangles), err)
			}
		})
	}
}

func FuzzThreeMF(f *testing.F) {
	f.Add(packed(f, model))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, _, err := threemf.Decode(data, mesh.Options{Limits: mesh.Limits{Triangles: 1000, Shells: 100, Unpacked: 1 << 20}})
		if err == nil && m.Validate() != nil {
			t.Errorf("what was read is no mesh: %v", m.Validate())
		}
	})
}
