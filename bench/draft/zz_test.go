package draft_test

import (
	"maps"
	"os"
	"testing"
)

func TestZZ(t *testing.T) {
	d, _ := os.ReadFile("../../examples/keel-cradle/taught.csv")
	a := torch()
	maps.Copy(a, map[string]string{"measured_in": "base", "point": "tip", "orientation": "fixed x-y-z degrees", "length": "mm"})
	doc := settle(t, input(t, string(d), a), map[string]string{"joint": "tee", "weld": "leg 5 mm", "base": "each", "W2.base": "touched wall", "upright": "each", "W2.upright": "touched end"})
	for _, f := range doc.Files {
		if f.Name != "taught.csv" {
			t.Log(f.Name + "\n" + string(f.Data))
		}
	}
	t.Log(doc.Seams, doc.Left)
	_, err := decode(t, doc, nil)
	t.Log(err)
}
