package main

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// table reads an answer of orient: the numbers beside each convention.
func table(t *testing.T, out string) map[string][]float64 {
	t.Helper()
	rows := map[string][]float64{}
	for line := range strings.Lines(out) {
		name, rest, ok := strings.Cut(strings.TrimSpace(line), "  ")
		if !ok {
			continue // a note
		}
		for cell := range strings.SplitSeq(strings.Trim(rest, " *"), ", ") {
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			rows[name] = append(rows[name], x)
		}
	}
	return rows
}

// Orientations with their numbers in the conventions that arms use. The values
// were computed from the definitions in a separate program with a public
// library for rotations and printed to the digits below; none of them comes
// from this program.
func TestOrientOnCheckValues(t *testing.T) {
	heads := []string{"fixed x-y-z degrees", "moving z-y-x degrees", "moving x-y-z degrees", "moving z-y-z degrees",
		"quaternion w first", "rotation vector radians", "wire direction (tool z)"}
	for _, c := range []struct {
		name string
		from string
		with string
		want [7][]float64
		tol  float64 // of the angles, deg: 0.001 where the input is exact
	}{
		{"T1: 90 about X", "fixed x-y-z degrees", "90 0 0", [7][]float64{
			{90, 0, 0}, {0, 0, 90}, {90, 0, 0}, {-90, 90, 90}, {.707107, .707107, 0, 0}, {1.570796, 0, 0}, {0, -1, 0}}, 0.001},
		{"T2", "fixed x-y-z degrees", "10 20 30", [7][]float64{
			{10, 20, 30}, {30, 20, 10}, {-1.116, 22.242, 28.452}, {2.727, 22.269, 25.506},
			{.951549, .038135, .189308, .239298}, {.077525, .384852, .486479}, {.37852, .01803, .92542}}, 0.001},
		{"T3: torch straight down", "fixed x-y-z degrees", "180 0 0", [7][]float64{
			{180, 0, 0}, {0, 0, 180}, {180, 0, 0}, {180, 180, 0}, {0, 1, 0, 0}, {3.141593, 0, 0}, {0, 0, -1}}, 0.001},
		{"T4: work 45, push 10", "moving x-y-z degrees", "-135 10 0", [7][]float64{
			{-134.561, -7.053, -7.107}, {-7.107, -7.053, -134.561}, {-135, 10, 0}, {75.998, 134.136, -99.851},
			{.381227, -.920364, .033353, -.080521}, {-2.348838, .085120, -.205497}, {.17365, .69636, -.69636}}, 0.001},
		{"T5: T4 turned 27 about Z", "fixed x-y-z degrees", "-134.561 -7.053 19.893", [7][]float64{
			{-134.561, -7.053, 19.893}, {19.893, -7.053, -134.561}, {-134.879, -9.289, -18.983}, {102.998, 134.136, -99.851},
			{.389491, -.902720, -.182423, .010699}, {-2.294887, -.463755, .027199}, {-.16142, .69930, -.69636}}, 0.002},
		{"T6: lock", "fixed x-y-z degrees", "-40 90 0", [7][]float64{
			{-40, 90, 0}, {0, 90, -40}, {-90, 50, 90}, {40, 90, 0}, {.664463, -.241845, .664463, .241845},
			{-.546277, 1.500883, .546277}, {.76604, .64279, 0}}, 0.001},
		{"T7: 180 about (1,1,0)", "fixed x-y-z degrees", "180 0 90", [7][]float64{
			{180, 0, 90}, {90, 0, 180}, {180, 0, -90}, {-90, 180, 0}, {0, .707107, .707107, 0}, {2.221441, 2.221441, 0}, {0, 0, -1}}, 0.001},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call("orient", "--decimals", "6", c.from, c.with)
			if a.code != exitFit || a.errors != "" {
				t.Fatalf("got %+v", a)
			}
			got := table(t, a.out)
			for i, head := range heads {
				tol := c.tol
				if i >= 4 {
					tol = c.tol*math.Pi/180 + 5e-6 // rounding of the sources' five and six digits
				}
				if len(got[head]) != len(c.want[i]) {
					t.Fatalf("%s: got %v, want %v", head, got[head], c.want[i])
				}
				for k, want := range c.want[i] {
					if math.Abs(got[head][k]-want) > tol {
						t.Errorf("%s: got %v, want %v", head, got[head], c.want[i])
						break
					}
				}
			}
			back(t, got)
		})
	}
}

// back asks for every row of an answer again: all name one orientation.
func back(t *testing.T, rows map[string][]float64) {
	t.Helper()
	want := rows["matrix by rows"]
	for name, numbers := range rows {
		if strings.HasPrefix(name, "wire") {
			continue
		}
		var cells []string
		for _, x := range numbers {
			cells = append(cells, strconv.FormatFloat(x, 'f', 6, 64))
		}
		a := call("orient", "--to", "matrix by rows", "--decimals", "6", name, strings.Join(cells, " "))
		got := table(t, a.out)["matrix by rows"]
		if a.code != exitFit || len(got) != 9 {
			t.Errorf("%s %v: %+v", name, cells, a)
			continue
		}
		for k := range want {
			if math.Abs(got[k]-want[k]) > 1e-5 {
				t.Errorf("%s %v comes back as %v, want %v", name, cells, got, want)
				break
			}
		}
	}
}

func TestOrientText(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"one convention", []string{"--to", "moving z-y-z degrees", "--decimals", "3", "fixed x-y-z degrees", "10", "20", "30"},
			"moving z-y-z degrees     2.727, 22.269, 25.506\nwire direction (tool z)  0.379, 0.018, 0.925\n"},
		{"numbers in one word", []string{"--to", "quaternion w last", "--decimals", "6", "fixed x-y-z degrees", "10, 20; 30"},
			"quaternion w last        0.038135, 0.189308, 0.239298, 0.951549\nwire direction (tool z)  0.378522, 0.018028, 0.925417\n"},
		{"negative first", []string{"--to", "fixed x-y-z degrees", "--decimals", "1", "fixed x-y-z degrees", "-40", "-0", "-0.01"},
			"fixed x-y-z degrees      -40.0, 0.0, 0.0\nwire direction (tool z)  0.0, 0.6, 0.8\n"},
		{"not unique", []string{"--to", "fixed x-y-z degrees", "--decimals", "0", "moving z-y-x degrees", "0", "90", "-40"},
			"fixed x-y-z degrees      -40, 90, 0  *\nwire direction (tool z)  1, 1, 0\n" +
				"* not unique: the first and the last turn have the same axis here and only their sum or difference counts: the last is set to 0\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"orient"}, c.args...)...)
			if a.code != exitFit || a.errors != "" || a.out != c.want {
				t.Errorf("got %d, %q\n%s\nwant\n%s", a.code, a.errors, a.out, c.want)
			}
		})
	}
}

// Each reason why numbers are not unique is said once, however many rows it
// concerns.
func TestOrientSaysReasonsOnce(t *testing.T) {
	a := call("orient", "fixed x-y-z degrees", "180", "0", "0")
	if n := strings.Count(a.out, "not unique"); n != 2 {
		t.Errorf("said %d times, want 2:\n%s", n, a.out)
	}
}

func TestOrientListsConventions(t *testing.T) {
	a := call("orient")
	for _, want := range []string{
		"fixed x-y-z degrees: about fixed X, about fixed Y, about fixed Z\n",
		"moving z-y-x degrees: about Z, about new Y, about new X\n",
		"quaternion w last: quaternion x, quaternion y, quaternion z, quaternion w\n",
	} {
		if !strings.Contains(a.out, want) {
			t.Errorf("%q is not in:\n%s", want, a.out)
		}
	}
	if a.code != exitFit || a.errors != "" {
		t.Errorf("got %d, %q", a.code, a.errors)
	}
}

func TestOrientOfBadInput(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no convention", []string{"30", "20", "10"}, `"30" is not an orientation convention: allowed are `},
		{"no convention and a minus", []string{"-1", "2", "3"}, "unknown shorthand flag: '1' in -1; the convention comes first, then its numbers\n"},
		{"loose words", []string{"fixed xyz deg", "1", "2", "3"}, `the orientation convention "fixed xyz deg" leaves something open: write "fixed x-y-z degrees"` + "\n"},
		{"half a convention", []string{"fixed", "1", "2", "3"}, `"fixed" is not an orientation convention: allowed are "fixed" or "moving" with an order of turns`},
		{"too few", []string{"fixed x-y-z degrees", "1", "2"}, "fixed x-y-z degrees takes 3 numbers (about fixed X, about fixed Y, about fixed Z), found 2\n"},
		{"none", []string{"quaternion w first"}, "quaternion w first takes 4 numbers (quaternion w, quaternion x, quaternion y, quaternion z), found 0\n"},
		{"decimal commas", []string{"fixed x-y-z degrees", "1,5", "2,5", "3,5"}, "fixed x-y-z degrees takes 3 numbers (about fixed X, about fixed Y, about fixed Z), found 6\n"},
		{"no number", []string{"fixed x-y-z degrees", "1", "2", "x"}, `"x" is not a number: 3 numbers follow the convention: about fixed X, about fixed Y, about fixed Z` + "\n"},
		{"not finite", []string{"fixed x-y-z degrees", "1", "2", "nan"}, `fixed x-y-z degrees: "about fixed Z" is NaN: write a finite number` + "\n"},
		{"more than a turn", []string{"fixed x-y-z radians", "10", "20", "30"}, `fixed x-y-z radians: "about fixed X" is `},
		{"not unit", []string{"quaternion w first", "1", "1", "1", "1"}, "quaternion w first: the quaternion has length 2, allowed is 1 within 0.002: check the order and the decimals of the numbers\n"},
		{"option too late", []string{"fixed x-y-z degrees", "1", "2", "3", "--decimals", "2"}, "--decimals comes after the convention: options come before it\n"},
		{"too many decimals", []string{"--decimals", "16", "fixed x-y-z degrees", "1", "2", "3"}, "--decimals 16: 0 to 15 is allowed\n"},
		{"unknown target", []string{"--to", "polar", "fixed x-y-z degrees", "1", "2", "3"}, `--to: "polar" is not an orientation convention: allowed are `},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"orient"}, c.args...)...)
			if a.code != exitUnusable || a.out != "" || !strings.HasPrefix(a.errors, "seamwright: "+c.want) {
				t.Errorf("got %d, %q\n%q\nwant %q", a.code, a.out, a.errors, "seamwright: "+c.want)
			}
		})
	}
}
