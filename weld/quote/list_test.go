package quote_test

import (
	"errors"
	"strings"
	"testing"

	"seamwright/unit"
	"seamwright/weld/quote"
)

// good is an invented weld list of an invented part.
const good = `# weld list of the tray bracket
mark,weld,seam,settings,count,passes,by,angle,area
W1,"z6 both sides, 50 pitch 100, staggered",1200 mm,11,2,1,arm,90 deg,
W2,a5 arrow side,450 mm,11,,,,,

W3,"V s10 arrow side, root 2, angle 60",300 mm,12,1,3,hand,,66.8 mm2
`

func TestParse(t *testing.T) {
	items, err := quote.Parse([]byte(good))
	if err != nil {
		t.Fatal(err)
	}
	if len(items) != 3 {
		t.Fatalf("%d items", len(items))
	}
	w1, w2, w3 := items[0], items[1], items[2]
	if w1.Line != 3 || w1.Mark != "W1" || w1.Symbol.String() != "z6 both sides, 50 pitch 100, staggered" || w1.Seam != 1.2 || w1.Count != 2 || w1.By != quote.Arm {
		t.Errorf("%+v", w1)
	}
	if w2.Line != 4 || w2.Count != 1 || w2.Passes != 1 || w2.By != quote.Arm || w2.Angle != 90*unit.Deg || w2.Area != 0 {
		t.Errorf("%+v", w2)
	}
	if w3.Line != 6 || w3.Passes != 3 || w3.By != quote.Hand || w3.Area/unit.MM2 < 66.79 || w3.Area/unit.MM2 > 66.81 {
		t.Errorf("%+v", w3)
	}
	for _, same := range []string{
		"\xef\xbb\xbf" + good,
		strings.ReplaceAll(strings.ReplaceAll(good, ",", ";"), "z6 both sides; 50 pitch 100; staggered", "z6 both sides, 50 pitch 100, staggered"),
		strings.ReplaceAll(good, "\n", "\r\n"),
	} {
		again, err := quote.Parse([]byte(same))
		if err != nil || len(again) != 3 || again[0] != w1 || again[2] != w3 {
			t.Errorf("%q: %+v, %v", same, again, err)
		}
	}
}

// TestParseProblems: each problem with its line and column in exact words.
func TestParseProblems(t *testing.T) {
	const head = "mark,weld,seam,settings,count,passes,by,angle,area\n"
	for _, row := range []struct{ name, text, says string }{
		{"empty", "", "weld list, line 1: an empty list; allowed: a line that names the columns: mark, weld, seam, settings, count, passes, by, angle, area; write it first"},
		{"only names", head, "weld list, line 1: no welds; allowed: a line for each kind of seam; add the welds below the names of the columns"},
		{"unknown column", "mark,weld,seam,settings,colour\n", `weld list, line 1: a column "colour"; allowed: mark, weld, seam, settings, count, passes, by, angle, area; name it so, or take it out`},
		{"column twice", "mark,mark,weld,seam,settings\n", "weld list, line 1, mark: a second column of this name; allowed: one; keep one"},
		{"column missing", "mark,weld,seam\n", "weld list, line 1: no column settings; allowed: at least mark, weld, seam, settings; add the column"},
		{"bare size", head + "W1,6 arrow side,1 m,11\n", `weld list, line 2, weld: bare size: the size "6" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write z6 or a6; by AWS A2.4 it is the leg: write AWS: in front if the drawing is of that system`},
		{"bare length", head + "W1,z6 arrow side,1200,11\n", `weld list, line 2, seam: "1200": it has no unit; allowed: mm, cm, m, in, ft; write the unit, such as "1200 mm" or "1200 in"`},
		{"seam too long", head + "W1,z6 arrow side,1200000 mm,11\n", "weld list, line 2, seam: length of the joint 1200 m is outside 0.001 m to 1000 m; check the value and its unit; allowed: the range named; write the value of the drawing with its unit"},
		{"nothing in a needed cell", head + "W1,,1 m,11\n", "weld list, line 2, weld: nothing; allowed: a value on every line; fill the cell"},
		{"mark twice", head + "W1,z6 arrow side,1 m,11\n\nW1,z6 arrow side,1 m,11\n", `weld list, line 4, mark: mark "W1" again; allowed: each mark once; line 2 has it; give each kind of seam its own mark`},
		{"count of words", head + "W1,z6 arrow side,1 m,11,two\n", `weld list, line 2, count: "two"; allowed: a whole number from 1 to 100000; count again, or leave the cell empty for 1`},
		{"passes of nothing", head + "W1,z6 arrow side,1 m,11,1,0\n", `weld list, line 2, passes: "0"; allowed: a whole number from 1 to 200; count again, or leave the cell empty for 1`},
		{"by somebody", head + "W1,z6 arrow side,1 m,11,1,1,somebody\n", `weld list, line 2, by: "somebody"; allowed: arm, hand; write who welds it, or leave the cell empty for the arm`},
		{"groove without area", head + "W1,V arrow side,1 m,11\n", "weld list, line 2, area: nothing for a V groove; allowed: the area of its section, which the symbol does not give; write the area to fill, such as 66.8 mm2"},
		{"stitches that do not fit", head + "W1,\"z6 arrow side, 10 x 50 (100)\",1 m,11\n", "weld list, line 2, seam: does not fit the seam: the weld reaches over 1400 mm of a joint of 1000 mm; allowed: no more than the joint; check the joint's length, the number of elements and the spacing"},
		{"cells without quotes", head + "W1,z6 both sides, 50 pitch 100, staggered,1200 mm,11,2,1,arm,90 deg,\n", "weld list, line 2: 11 cells; allowed: 9, one for each column; put cells with a separator inside into quotation marks"},
		{"open quotation", head + "W1,\"z6 both sides,1 m,11\n", "weld list, line 2: extraneous or missing \" in quoted-field; allowed: cells, those with a separator inside in quotation marks; check the quotation marks of the line"},
		{"angle without sense", head + "W1,z6 arrow side,1 m,11,1,1,arm,200 deg\n", "weld list, line 2, angle: included angle 200 deg is outside 30 deg to 150 deg; check the value and its unit; allowed: the range named; write the value of the drawing with its unit"},
	} {
		t.Run(row.name, func(t *testing.T) {
			items, err := quote.Parse([]byte(row.text))
			if err == nil || items != nil {
				t.Fatalf("%+v, %v", items, err)
			}
			if err.Error() != row.says {
				t.Errorf("got  %v\nwant %s", err, row.says)
			}
		})
	}
}

// TestEveryProblemIsFound: one run names the problems of all lines, in order.
func TestEveryProblemIsFound(t *testing.T) {
	_, err := quote.Parse([]byte("mark,weld,seam,settings\nW1,6 arrow side,1,11\nW2,z6 arrow side,1 m,11\nW3,z6 arrow side,2 m,\n"))
	got := quote.Problems(err)
	var where []string
	for _, p := range got {
		where = append(where, p.Column)
	}
	if strings.Join(where, " ") != "weld seam settings" || got[0].Line != 2 || got[1].Line != 2 || got[2].Line != 4 {
		t.Errorf("%v", err)
	}
	if quote.Problems(errors.New("another")) != nil || quote.Problems(nil) != nil {
		t.Error("problems of other errors")
	}
	many := "mark,weld,seam,settings\n" + strings.Repeat("W,6 arrow side,1,11\n", 200)
	if _, err := quote.Parse([]byte(many)); len(quote.Problems(err)) != 50 {
		t.Errorf("%d problems, want 50", len(quote.Problems(err)))
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(good))
	for _, seed := range []string{"", "mark", "mark,weld,seam,settings\n,,,\n", "mark;weld;seam;settings\nW1;\"a5 arrow side, 3 x 50 (100)\";1 m;2\n", "\"", "#\n#\n", "mark\tweld\tseam\tsettings\nW\tz6 both sides\t1 in\t1\n", "\xff,\xfe\n"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		items, err := quote.Parse(data)
		if err != nil {
			problems := quote.Problems(err)
			if len(problems) == 0 || items != nil {
				t.Fatalf("%d items, error %v", len(items), err)
			}
			lines := strings.Count(string(data), "\n") + strings.Count(string(data), "\r") + 1
			for _, p := range problems {
				if p.Line < 1 || p.Line > lines+1 || p.Found == "" || p.Allowed == "" || p.Mend == "" {
					t.Fatalf("%d lines, %+v", lines, p)
				}
			}
			return
		}
		for _, it := range items {
			if it.Mark == "" || it.Count < 1 || it.Passes < 1 || !(it.Seam > 0) || it.Symbol.Validate() != nil || it.By == 0 {
				t.Fatalf("%+v", it)
			}
		}
	})
}
