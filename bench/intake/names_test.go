package intake_test

import (
	"fmt"
	"strings"
	"testing"

	"seamwright/bench/intake"
)

// said prints names as "seam|place|rank|word" for tables of labels.
func said(labels []string) []string {
	var points []intake.Point
	for _, l := range labels {
		points = append(points, intake.Point{Label: l})
	}
	var out []string
	for _, n := range intake.Names(points) {
		out = append(out, fmt.Sprintf("%s=%s|%s|%d|%s", n.Key, n.Seam, n.Part, n.Rank, n.Word))
	}
	return out
}

func TestNames(t *testing.T) {
	for _, c := range []struct{ name, labels, want string }{
		{"words behind the seam", "home, W1 in, W1 start, W1 root 1, W1 three quarters, W1 end, W1 out",
			"=|home|0|, w1=W1|approach|0|in, w1=W1|weld start|0|start, w1=W1|via point|1|root, w1=W1|via point|0|quarters, w1=W1|weld end|0|end, w1=W1|retreat|0|out"},
		{"joined by signs and by nothing", "W1_start, W1-end, W2start, W2end, HOME1",
			"w1=W1|weld start|0|start, w1=W1|weld end|0|end, w2=W2|weld start|0|start, w2=W2|weld end|0|end, =|home|0|"},
		{"words before the seam", "start W1, end W1, approach W1, start2, end2, via 2 1",
			"w1=W1|weld start|0|start, w1=W1|weld end|0|end, w1=W1|approach|0|approach, 2=2|weld start|0|start, 2=2|weld end|0|end, 2=2|via point|1|via"},
		{"letters s and e", "1 s, 1 e, 2s, 2e, 3 s",
			"1=1|weld start|0|, 1=1|weld end|0|, 2=2|weld start|0|, 2=2|weld end|0|, 3=3|||s"},
		{"a and b", "seam 3 a, seam 3 b, Seam_4A, Seam_4B",
			"3=seam 3|via point|1|, 3=seam 3|via point|2|, 4=Seam 4|via point|1|, 4=Seam 4|via point|2|"},
		{"numbers", "W1.1, W1.2, W1.3", "w1=W1|via point|1|, w1=W1|via point|2|, w1=W1|via point|3|"},
		{"a number beside start and end", "W1 start, W1 2, W1 end", "w1=W1|weld start|0|start, w1=W1|via point|2|, w1=W1|weld end|0|end"},
		{"touches of plates", "W2 start, W2 end, W2 wall 1, W2 end 1, W2 ramp plate 3, W2 clamp",
			"w2=W2|weld start|0|start, w2=W2|weld end|0|end, w2=W2||1|wall, w2=W2||1|end, w2=W2||3|ramp plate, w2=W2||0|clamp"},
		{"one seam without a name", "approach, weld start, via 1, via 2, weld end, retreat",
			"the seam=|approach|0|approach, the seam=|weld start|0|start, the seam=|via point|1|via, the seam=|via point|2|via, the seam=|weld end|0|end, the seam=|retreat|0|retreat"},
		{"fillers", "seam 3 start, 3 end, W1 weld start, W1 end point", "3=seam 3|weld start|0|start, 3=3|weld end|0|end, w1=W1|weld start|0|start, w1=W1|weld end|0|end"},
		{"nothing", "P1, P2, P 3, 17, , over the clamp, end wall 1", "=|||, =|||, =|||, =|||, =|||, over=over|||the clamp, =|||"},
		{"letters of other scripts", "Naht 1 start, Näht 1 end", "naht 1=Naht 1|weld start|0|start, näht 1=Näht 1|weld end|0|end"},
	} {
		got := said(strings.Split(c.labels, ", "))
		want := strings.ReplaceAll(c.want, "|||", "||0|")
		if g := strings.Join(got, ", "); g != want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, g, want)
		}
	}
}
