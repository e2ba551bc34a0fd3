package mesh_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/mesh"
)

// Lines end at LF, CR LF or CR, mixed as may be; what is left shrinks to nothing.
func TestLinesAgainstSplitting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.SampledFrom([]string{"\n", "\r", "\r\n", "a", "bc", " "})).Draw(t, "text"), "")
		plain := strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
		want := strings.Split(plain, "\n")
		want = want[:len(want)-1]
		if rest := plain[strings.LastIndexByte(plain, '\n')+1:]; rest != "" {
			want = append(want, rest) // the last line has no end
		}
		var got []string
		lines := mesh.NewLines([]byte(text), 7)
		for {
			line, more := lines.Next()
			if !more {
				break
			}
			got = append(got, string(line))
			if lines.Number != 7+len(got) || !bytes.HasSuffix([]byte(text), []byte(text)[len(text)-lines.Rest():]) {
				t.Fatalf("line %d, %d bytes left after %d lines", lines.Number, lines.Rest(), len(got))
			}
		}
		if !slices.Equal(got, want) || lines.Rest() != 0 {
			t.Fatalf("%q: %q, want %q; %d bytes left", text, got, want, lines.Rest())
		}
	})
}
