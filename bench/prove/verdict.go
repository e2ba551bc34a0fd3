package prove

import "fmt"

// Outcome is what became of one constraint. The zero value is no outcome.
type Outcome uint8

// The outcomes.
const (
	// Holds: it was checked and holds.
	Holds Outcome = iota + 1
	// Broken: it was checked and does not hold.
	Broken
	// Told: it does not hold, and a caution of the plan says so at every such place.
	Told
	// Declared: it could not be checked, and a finding of the plan says so.
	Declared
	// Open: it could not be checked, and nothing says so.
	Open
)

// passes reports whether a plan may be fit with it.
func (o Outcome) passes() bool { return o == Holds || o == Told || o == Declared }

// String returns "holds", "BROKEN", "beyond, as the plan says", "not checked, as the
// plan says" or "NOT CHECKED".
func (o Outcome) String() string {
	switch o {
	case Holds:
		return "holds"
	case Broken:
		return "BROKEN"
	case Told:
		return "beyond, as the plan says"
	case Declared:
		return "not checked, as the plan says"
	case Open:
		return "NOT CHECKED"
	}
	return fmt.Sprintf("outcome %d", uint8(o))
}

// Row is one constraint of a plan and what became of it.
type Row struct {
	// Name says what is held, in the trade's words.
	Name    string  `json:"constraint"`
	Outcome Outcome `json:"-"`
	Said    string  `json:"outcome"`
	// Known says that there are numbers. Measured is the one with the least margin
	// to Limit, in Unit; Margin what is left, negative where it is broken.
	Known    bool    `json:"-"`
	Measured float64 `json:"measured"` // in Unit
	Limit    float64 `json:"limit"`    // in Unit
	Margin   float64 `json:"margin"`   // in Unit
	Unit     string  `json:"unit"`
	// Where is the place of the least margin.
	Where string `json:"where"`
	// Checked counts the numbers that were held.
	Checked int `json:"checked"`
	// Note says why something could not be checked, or how it was.
	Note string `json:"note,omitempty"`
	// Breaches are the places at which it is broken, the worst of each seam.
	Breaches []Breach `json:"breaches,omitempty"`
}

// Breach is a place at which a constraint is broken.
type Breach struct {
	Seam     string  `json:"seam,omitempty"` // empty off the seams
	Where    string  `json:"where"`
	Measured float64 `json:"measured"` // in the unit of its row
	Limit    float64 `json:"limit"`    // in the unit of its row
	Text     string  `json:"text,omitempty"`
}

// Verdict is what a proof says of a plan.
type Verdict struct {
	// Fit says that the plan is fit to release: every constraint holds, or the plan
	// itself says that it was not checked, and no finding stops it.
	Fit bool `json:"fit"`
	// Stops are the codes of the plan's findings that stop it.
	Stops []string `json:"stops"`
	Rows  []Row    `json:"constraints"`
	// Untold are the breaches that no finding of the plan stops it for.
	Untold []Untold `json:"-"`
}

// Untold is a breach of a constraint; its numbers are in Unit.
type Untold struct {
	Constraint, Unit string
	Breach
}

// Row returns the row of a name, nil where there is none.
func (v *Verdict) Row(name string) *Row {
	for i := range v.Rows {
		if v.Rows[i].Name == name {
			return &v.Rows[i]
		}
	}
	return nil
}
