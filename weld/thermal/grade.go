package thermal

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"

	"seamwright/weld"
)

// MetalClass sorts metals by how much heat they bear. The zero value is "not
// stated".
type MetalClass uint8

// The classes.
const (
	CarbonManganese  MetalClass = iota + 1 // unalloyed and fine-grain structural steel
	QuenchedTempered                       // high-strength steel that got its strength from heat treatment
	Austenitic                             // austenitic stainless steel
	Duplex                                 // austenitic-ferritic stainless steel
	Aluminium                              // aluminium and its alloys
)

var classNames = [...]string{CarbonManganese: "carbon-manganese steel", QuenchedTempered: "quenched and tempered steel",
	Austenitic: "austenitic stainless steel", Duplex: "duplex stainless steel", Aluminium: "aluminium"}

// String returns the class in words, such as "carbon-manganese steel".
func (c MetalClass) String() string {
	if c < CarbonManganese || c > Aluminium {
		return "class of metal not stated"
	}
	return classNames[c]
}

// Grade is a steel as its standard sells it. Build one with FindGrade.
type Grade struct {
	Name     string          // such as "S355J2"
	Standard string          // such as "EN 10025-2:2004"
	Family   weld.CodeFamily // of the standard: ISO for EN steels, AWS for ASTM steels
	Class    MetalClass
	Yield    float64 // least yield strength of thin product, Pa

	// Maximum is the most that the standard allows of each element, percent by
	// mass; an element that it does not limit is 0. No heat has all of it at
	// once, so its equivalents lie above any real plate.
	Maximum       Composition
	MaximumSource weld.Source

	// Typical is a composition of ordinary deliveries, percent by mass, chosen
	// for estimates; the zero Composition where none was chosen. The
	// certificate of the plate takes its place.
	Typical       Composition
	TypicalSource weld.Source

	PreheatGroup PreheatGroup // in the table of AWS D1.1; 0 for steels of the other family
}

// D11Group returns the grade's group in the preheat table of AWS D1.1, or a
// FamilyError for a steel of the other family.
func (g Grade) D11Group() (PreheatGroup, error) {
	if g.Family != weld.AWS {
		return 0, &FamilyError{TableD11.String(), weld.AWS, g.Family, "steel grade " + g.Name}
	}
	return g.PreheatGroup, nil
}

// HasTypical reports whether a typical composition was chosen.
func (g Grade) HasTypical() bool { return g.Typical != Composition{} }

// UnknownGradeError says that no grade of the table has a name.
type UnknownGradeError struct {
	Found string   // the name as it was given, cut at 40 letters
	Near  []string // names like it, likeliest first
	Known []string // all names
}

// Error returns one sentence: what was found, what is near, how to mend it.
func (e *UnknownGradeError) Error() string {
	const mend = "or give the composition from the certificate"
	if len(e.Near) == 0 {
		return fmt.Sprintf("steel grade %q is not known; write one of %s, %s", e.Found, strings.Join(e.Known, ", "), mend)
	}
	return fmt.Sprintf("steel grade %q is not known; near it: %s; write one of these, %s", e.Found, strings.Join(e.Near, ", "), mend)
}

// Grades returns the names of all grades, in the order of the table.
func Grades() []string {
	names := make([]string, len(grades))
	for i, g := range grades {
		names[i] = g.Name
	}
	return names
}

// FindGrade returns the grade of a name such as "S355J2", "S355J2+N",
// "A572-50" or "ASTM A572 Grade 50". Spaces, hyphens, case and the delivery
// condition after a plus sign do not matter. A name without the quality, such
// as "S355", is an UnknownGradeError: the qualities differ.
func FindGrade(name string) (Grade, error) {
	key := gradeKey(name)
	for _, g := range grades {
		if key == gradeKey(g.Name) {
			return g, nil
		}
	}
	const most = 40 // letters of a name that a message repeats
	found := []rune(strings.TrimSpace(name))
	return Grade{}, &UnknownGradeError{string(found[:min(len(found), most)]), nearGrades(key), Grades()}
}

// gradeKey drops what people add to a name or leave out.
func gradeKey(name string) string {
	name, _, _ = strings.Cut(strings.ToUpper(name), "+")
	name = strings.NewReplacer("ASTM", "", "GRADE", "", "GR", "").Replace(name)
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, name)
}

// nearGrades returns the names that a key may have been meant for, the fewest
// changes first: those that begin with it or it with them, and those that
// differ in at most a third of its letters.
func nearGrades(key string) []string {
	const longest, most = 24, 6 // letters of any grade's name, and names worth reading
	if len(key) < 2 || len(key) > longest {
		return nil
	}
	type near struct {
		name    string
		changes int
	}
	var found []near
	for _, g := range grades {
		k := gradeKey(g.Name)
		changes := levenshtein.ComputeDistance(key, k)
		if strings.HasPrefix(k, key) || strings.HasPrefix(key, k) || changes <= max(1, len(key)/3) {
			found = append(found, near{g.Name, changes})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.changes - b.changes })
	var names []string
	for _, n := range found[:min(len(found), most)] {
		names = append(names, n.name)
	}
	return names
}
