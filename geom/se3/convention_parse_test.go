package se3_test

import (
	"strings"
	"testing"

	"seamwright/geom/se3"
)

func TestParseConventionReadsItsOwnWords(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range se3.Conventions() {
		for _, words := range []string{c.String(), c.Describe(), strings.ToUpper(c.String()), strings.ReplaceAll(c.String(), "-", " ")} {
			got, err := se3.ParseConvention(words)
			if err != nil || got != c {
				t.Errorf("%q: got %v, %v, want %v", words, got, err, c)
			}
		}
		heads := strings.Join(c.Names(), "; ")
		for i, name := range c.Names() {
			if strings.Count("; "+heads+";", "; "+name+";") != 1 {
				t.Errorf("%v: column head %d, %q, is not the only one of its name", c, i, name)
			}
		}
		if seen[c.String()] {
			t.Errorf("%v is listed twice", c)
		}
		seen[c.String()] = true
	}
	if len(seen) != 58 { // 2 x 12 orders x 2 units, and 10
		t.Errorf("%d conventions, want 58", len(seen))
	}
}

func TestConventionWords(t *testing.T) {
	rows := []struct{ words, describe, names string }{
		{"fixed x-y-z degrees", "turn about fixed X, then fixed Y, then fixed Z, in degrees", "about fixed X, about fixed Y, about fixed Z"},
		{"fixed z-x-z radians", "turn about fixed Z, then fixed X, then fixed Z, in radians", "about fixed Z, about fixed X, about fixed Z again"},
		{"moving z-y-z degrees", "turn about Z, then new Y, then new Z, in degrees", "about Z, about new Y, about new Z"},
		{"quaternion w last", "quaternion, x, y, z and then w", "quaternion x, quaternion y, quaternion z, quaternion w"},
		{"matrix by rows", "rotation matrix, nine numbers, one row after the other",
			"tool X along X, tool Y along X, tool Z along X, tool X along Y, tool Y along Y, tool Z along Y, tool X along Z, tool Y along Z, tool Z along Z"},
		{"tool direction and spin degrees", "unit direction of the tool's Z and then the spin about it, in degrees",
			"tool direction X, tool direction Y, tool direction Z, spin about tool"},
	}
	for _, row := range rows {
		c := convention(t, row.words)
		if got := c.Describe(); got != row.describe {
			t.Errorf("%s: described as %q, want %q", row.words, got, row.describe)
		}
		if got := strings.Join(c.Names(), ", "); got != row.names {
			t.Errorf("%s: named %q, want %q", row.words, got, row.names)
		}
	}
}

func TestParseConventionErrors(t *testing.T) {
	rows := []struct{ words, want string }{
		{"fixed x-y-z", `the orientation convention "fixed x-y-z" leaves something open: write "fixed x-y-z degrees" or "fixed x-y-z radians"`},
		{"zyx degrees", `the orientation convention "zyx degrees" leaves something open: write "fixed z-y-x degrees" or "moving z-y-x degrees"`},
		{"Quaternion", `the orientation convention "Quaternion" leaves something open: write "quaternion w first" or "quaternion w last"`},
		{"matrix", `the orientation convention "matrix" leaves something open: write "matrix by rows" or "matrix by columns"`},
	}
	for _, row := range rows {
		if _, err := se3.ParseConvention(row.words); err == nil || err.Error() != row.want {
			t.Errorf("got %v\nwant %s", err, row.want)
		}
	}
	for _, words := range []string{"", "degrees", "fixed x-x-y degrees", "euler", "fixed xyz degrees 2"} {
		_, err := se3.ParseConvention(words)
		if err == nil || !strings.Contains(err.Error(), `is not an orientation convention: allowed are "fixed" or "moving"`) {
			t.Errorf("%q: got %v, want an error that lists what is allowed", words, err)
		}
	}
}

func FuzzParseConvention(f *testing.F) {
	for _, c := range se3.Conventions() {
		f.Add(c.String())
	}
	f.Add("Fixed X-Y-Z, degrees")
	f.Add("x-y-z")
	f.Add("")
	f.Fuzz(func(t *testing.T, words string) {
		c, err := se3.ParseConvention(words)
		if err != nil {
			if c != (se3.Convention{}) {
				t.Errorf("%q: gave %v beside %v", words, c, err)
			}
			return
		}
		if back, err := se3.ParseConvention(c.String()); err != nil || back != c {
			t.Errorf("%q: %v reads back as %v, %v", words, c, back, err)
		}
	})
}
