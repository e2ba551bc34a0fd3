package weld_test

import (
	"testing"

	"seamwright/weld"
)

// FuzzParse: no text makes a parser panic, and what is read prints as a word
// that reads back as the same.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"tee", "T-joint", "inside corner", "corner", "135", "MAG", "2F", "pb", "short arc", "uphill", "EN", "z", "", "\x00", "ſ"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if v, err := weld.ParseJointType(s); err == nil {
			same(t, weld.ParseJointType, v)
		}
		if v, err := weld.ParseWeldKind(s); err == nil {
			same(t, weld.ParseWeldKind, v)
		}
		if v, err := weld.ParseSizeKind(s); err == nil {
			same(t, weld.ParseSizeKind, v)
		}
		if v, err := weld.ParseCodeFamily(s); err == nil {
			same(t, weld.ParseCodeFamily, v)
		}
		if v, err := weld.ParseTransfer(s); err == nil {
			same(t, weld.ParseTransfer, v)
		}
		if v, err := weld.ParseProcess(s); err == nil && v.String() == "" {
			t.Errorf("process %q has no name", s)
		}
		if v, err := weld.ParsePositionName(s); err == nil {
			same(t, weld.ParsePositionName, v)
		}
		if v, err := weld.ParseProgression(s); err == nil {
			same(t, weld.ParseProgression, v)
		}
		if v, err := weld.ParseMark(s); err == nil {
			same(t, weld.ParseMark, v)
		}
	})
}

func same[T interface {
	comparable
	String() string
}](t *testing.T, parse func(string) (T, error), v T) {
	t.Helper()
	if got, err := parse(v.String()); err != nil || got != v {
		t.Errorf("%v reads back as %v, %v", v, got, err)
	}
}
