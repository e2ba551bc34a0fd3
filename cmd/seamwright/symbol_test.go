package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestSymbolStitchesBothReadings: "60-150" on 1200 mm of a 6 mm flat is 9 stitches at
// 142.5 mm, 540 mm, by AWS A2.4, and 6, 360 mm, by ISO 2553, whose 150 mm clear are
// over 24 times 6 = 144 mm (the project's worked case; the limit READ in an inspection
// firm's summary of AWS D1.1; 12 times 6 = 72 mm of EN 1993-1-8 from memory).
func TestSymbolStitchesBothReadings(t *testing.T) {
	const pitch = "    by AWS A2.4, a pitch of 150 mm: 9 at 142.5 mm, 540 mm of weld, 82.5 mm clear between them\n"
	const gap = "    by ISO 2553, a clear gap of 150 mm: 6 at 210 mm, 360 mm of weld, 150 mm clear between them, 90 mm bare at the end\n"
	for _, row := range []struct {
		name string
		args []string
		want string
	}{
		{"AWS", []string{"AWS: 5 fillet, both sides, 60-150, staggered"}, pitch + gap +
			"      not allowed: clear gap 150 mm, at most 144 mm (AWS D1.1 intermittent fillets of built-up members, from an inspection firm's summary (read))\n"},
		{"AWS by the flag", []string{"5 fillet, both sides, 60-150, staggered", "--system", "aws"}, pitch + gap},
		{"ISO", []string{"z5 fillet, both sides, 60-150, staggered", "--system", "iso"}, pitch +
			"      not allowed: clear gap 82.5 mm, at most 72 mm (EN 1993-1-8 4.3.2.2, compression and shear: open the code before use (from memory))\n" + gap +
			"      not allowed: clear gap 150 mm, at most 72 mm (EN 1993-1-8 4.3.2.2, compression and shear: open the code before use (from memory))\n"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := call(append(append([]string{"symbol"}, row.args...), "--length", "1200 mm", "--thickness", "6 mm")...)
			if a.code != exitFit || a.errors != "" || !strings.Contains(a.out, "  on 1200 mm of joint, on each side:\n"+row.want) {
				t.Errorf("code %d, errors %q, out\n%s\nwant\n%s", a.code, a.errors, a.out, row.want)
			}
		})
	}
}

func TestSymbolAnswers(t *testing.T) {
	for _, row := range []struct {
		name string
		args []string
		want string
	}{
		{"in words and in AWS", []string{"ISO-A: a5 arrow side", "--to", "aws"}, `ISO 2553-A: a5 arrow side
  ISO 2553 system A: solid and dashed line; what stands on the solid line is on the arrow side, on the dashed line on the other side
  arrow side: fillet, throat 5 mm (leg 7.07 mm at 90 degrees between the plates)
    the full length of the joint

AWS A2.4: z7.071 arrow side
  a5 became z7.071 at 90 degrees between the plates
`},
		{"a groove in its plate", []string{"AWS: V 8(10) arrow side, root 2, angle 60", "--thickness", "12 mm"}, `AWS A2.4: V s10 arrow side, depth 8, root 2, angle 60
  AWS A2.4: one line; what hangs below it is on the arrow side, what stands above it on the other side
  arrow side: V groove, penetration 10 mm, prepared 8 mm deep, root opening 2 mm, groove angle 60 degrees
    the full length of the joint
  4 mm of the 12 mm plate are left between the roots
`},
		{"too small for its plate, in inches", []string{"AWS: 1/8 in other side", "--thickness", "1/2 in", "--units", "inch"}, `AWS A2.4: z3.175 other side
  AWS A2.4: one line; what hangs below it is on the arrow side, what stands above it on the other side
  other side: fillet, leg 0.125 in (throat 0.0884 in at 90 degrees between the plates); a fillet's figure without a letter is its leg by this standard
    the full length of the joint
  leg 0.125 in is below the least for plates of 0.5 in, 0.25 in (AWS D1.1:2025 Table 7.7, printed in a code commentary (read))
`},
		{"a pitch with the joint's length", []string{"AWS: 6 arrow side, 50-100", "--to", "iso-b", "--length", "1 m"}, `ISO 2553-B: z6 arrow side, 10 x 50 (50)
  50 pitch 100 became 10 x 50 (50) on a joint of 1000 mm
`},
	} {
		t.Run(row.name, func(t *testing.T) {
			if a := call(append([]string{"symbol"}, row.args...)...); a.code != exitFit || a.errors != "" || !strings.HasSuffix(a.out, row.want) {
				t.Errorf("code %d, errors %q, out\n%s\nwant\n%s", a.code, a.errors, a.out, row.want)
			}
		})
	}
}

// TestSymbolRefusals: every refusal in its words, with a mark under the text.
func TestSymbolRefusals(t *testing.T) {
	for _, row := range []struct {
		name string
		args []string
		want string
	}{
		{"bare size", []string{"ISO-A: a5 arrow side; 6 other side"}, `weld symbol "ISO-A: a5 arrow side; 6 other side", column 23: bare size: the size "6" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write z6 or a6
  ISO-A: a5 arrow side; 6 other side
                        ^`},
		{"no system for the spacing", []string{"z5 arrow side,  60-150"}, `weld symbol "z5 arrow side, 60-150", column 16: system not stated: "60-150", whose second number is a pitch by AWS A2.4 and a clear gap by ISO 2553; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; name the system of the drawing in front, or write 60 pitch 150 or 60 (150)
  z5 arrow side, 60-150
                 ^`},
		{"root face over thickness", []string{"ISO-A: V s12 arrow side, root 2, angle 60", "--thickness", "10 mm"}, `a groove 12 mm deep in a plate of 10 mm: up to the thickness is allowed; check the symbol and --thickness`},
		{"two sides over thickness", []string{"ISO-A: V s6 both sides, root 2, angle 60", "--thickness", "10 mm"}, `a groove 12 mm deep in a plate of 10 mm: up to the thickness is allowed; check the symbol and --thickness`},
		{"pitch without a length", []string{"AWS: 6 arrow side, 60-150", "--to", "iso"}, `weld symbol: length and spacing: a pitch without the length of the joint; allowed: the length, which gives the number of elements; measure the joint: give it as --length`},
		{"angle out of range", []string{"ISO-A: a5 arrow side", "--to", "aws", "--angle", "170 deg"}, `weld symbol: size out of sense: included angle 170 deg is outside 30 deg to 150 deg; check the value and its unit; allowed: the range named; write the number that the drawing has, in mm or with its unit`},
		{"two systems", []string{"ISO-A: a5 arrow side", "--system", "aws"}, `the text names ISO 2553-A, --system AWS A2.4: leave one of them out`},
		{"no such system", []string{"a5 arrow side", "--to", "din"}, `--to "din": write iso-a (solid and dashed line), iso-b (one line) or aws`},
		{"a drawing without a system", []string{"a5 arrow side", "--svg", "x.svg"}, `weld symbol: system not stated: a symbol to draw without its system; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; name the system of the drawing`},
		{"a drawing over another file", []string{"ISO-A: a5 arrow side", "--svg", "job.yaml"}, `--svg "job.yaml": name a file that ends with .svg`},
		{"a negative length", []string{"ISO-A: a5 arrow side", "--length", "-2 mm"}, `--length: "-2 mm": more than 0 is allowed`},
		{"no text", nil, `0 texts: write the symbol as one text in quotation marks, such as "a5 arrow side"`},
		{"without quotation marks", []string{"a5", "arrow", "side"}, `3 texts: write the symbol as one text in quotation marks, such as "a5 arrow side"`},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := call(append([]string{"symbol"}, row.args...)...)
			if want := "seamwright: " + row.want + "\n"; a.code != exitUnusable || a.errors != want {
				t.Errorf("code %d, errors\n%s\nwant\n%s", a.code, a.errors, want)
			}
		})
	}
}

// TestSymbolDrawing: the file holds the symbol as converted, in inches under AWS.
func TestSymbolDrawing(t *testing.T) {
	file := filepath.Join(t.TempDir(), "w1.svg")
	a := call("symbol", "AWS: 1/4 in arrow side, 2-5 in", "--units", "inch", "--svg", file)
	if a.code != exitFit || !strings.HasSuffix(a.out, "\ndrawn in "+file+": compare it with the drawing's standard before use\n") {
		t.Fatalf("%+v", a)
	}
	svg, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(svg), ">1/4<") || !strings.Contains(string(svg), ">2-5<") || !strings.HasSuffix(string(svg), "</svg>\n") {
		t.Errorf("%v\n%s", err, svg)
	}
	if a := call("symbol", "AWS: 6 arrow side, 60-150", "--to", "iso", "--length", "600 mm", "--units", "inch", "--svg", file); a.code != exitFit {
		t.Fatalf("%+v", a)
	}
	if svg, err = os.ReadFile(file); err != nil || !strings.Contains(string(svg), ">4 × 60<") || !strings.Contains(string(svg), ">(90)<") {
		t.Errorf("%v\n%s", err, svg)
	}
}
