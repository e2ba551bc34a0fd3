package motion

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"testing"

	"seamwright/robot/kinematics"
)

var updateDrawing = flag.Bool("update", false, "write docs/img/air-moves.svg instead of comparing it")

// twoLinks is an arm of two links in a plane among round posts.
type twoLinks struct{ posts [][3]float64 } // x, y, radius, m

var twoLengths = [2]float64{1, 0.8} // m

func (a twoLinks) points(q *kinematics.Q) (p [3][2]float64) {
	p[1] = [2]float64{twoLengths[0] * math.Cos(q[0]), twoLengths[0] * math.Sin(q[0])}
	p[2] = [2]float64{p[1][0] + twoLengths[1]*math.Cos(q[0]+q[1]), p[1][1] + twoLengths[1]*math.Sin(q[0]+q[1])}
	return p
}

// gap is the distance between arm and posts, m, less than 0 where they cross.
func (a twoLinks) gap(q *kinematics.Q) float64 {
	p := a.points(q)
	least := math.Inf(1)
	for _, post := range a.posts {
		for k := range 2 {
			ux, uy := p[k+1][0]-p[k][0], p[k+1][1]-p[k][1]
			vx, vy := post[0]-p[k][0], post[1]-p[k][1]
			s := min(1, max(0, (ux*vx+uy*vy)/(ux*ux+uy*uy)))
			least = min(least, math.Hypot(vx-s*ux, vy-s*uy)-post[2])
		}
	}
	return least
}

func (a twoLinks) Clear(q *kinematics.Q) bool { return a.gap(q) > 0 }

// ClearMove goes on by what the gap allows: no point of the arm travels further
// than both links together times the turn of the first joint, and so on.
func (a twoLinks) ClearMove(from, to *kinematics.Q) bool {
	d := [2]float64{to[0] - from[0], to[1] - from[1]}
	travel := math.Abs(d[0])*(twoLengths[0]+twoLengths[1]) + math.Abs(d[1])*twoLengths[1]
	for share := 0.0; ; {
		q := kinematics.Q{from[0] + share*d[0], from[1] + share*d[1]}
		gap := a.gap(&q)
		if gap < 1e-4 {
			return false
		}
		if share == 1 {
			return true
		}
		share = min(1, share+gap/travel)
	}
}

// drawAir draws the search for a way between two posts: on the left in joint
// space, on the right in the shop.
func drawAir(t *testing.T) []byte {
	arm := twoLinks{posts: [][3]float64{{1.15, 0.55, 0.2}, {-0.35, 1.5, 0.2}, {0.85, -0.75, 0.15}}}
	req := &AirRequest{Start: kinematics.Q{-0.15, 0.4}, Goals: []kinematics.Q{{1.95, -1.1}}, Checker: arm, Seed: 8, Shortcuts: -1, Reach: 0.5,
		Joints: []AirJoint{{-math.Pi, math.Pi, 1}, {-2.8, 2.8, 1}}}
	var planner AirPlanner
	var raw, short AirAnswer
	if err := planner.Solve(context.Background(), req, &raw); err != nil || raw.Status != AirPlanned {
		t.Fatalf("no path to draw: %+v, %v", raw, err)
	}
	var b bytes.Buffer
	fmt.Fprint(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 860 470" font-family="sans-serif" font-size="13" fill="none">
<title>A way through the air: trees, path and shortcuts</title>
<rect width="860" height="470" fill="#fff"/>
`)
	x := func(q *kinematics.Q) float64 { return 20 + (q[0]+math.Pi)*62 }
	y := func(q *kinematics.Q) float64 { return 395 - (q[1]+2.8)*64 }
	line := func(style string, path []kinematics.Q) {
		fmt.Fprint(&b, `<polyline `, style, ` points="`)
		for i := range path {
			fmt.Fprintf(&b, "%.1f,%.1f ", x(&path[i]), y(&path[i]))
		}
		fmt.Fprintln(&b, `"/>`)
	}
	const cell = 0.05
	for q1 := -math.Pi; q1 < math.Pi-cell/2; q1 += cell {
		begin := math.NaN()
		for q2 := -2.8; q2 < 2.8+cell/2; q2 += cell {
			mid := kinematics.Q{q1 + cell/2, q2 + cell/2}
			blocked := q2 < 2.8-cell/2 && !arm.Clear(&mid)
			if blocked && math.IsNaN(begin) {
				begin = q2
			}
			if !blocked && !math.IsNaN(begin) {
				fmt.Fprintf(&b, `<path fill="#bbb" d="M%.1f %.1fh%.1fv%.1fh%.1fz"/>`+"\n", x(&kinematics.Q{q1}), y(&kinematics.Q{0, q2}), cell*62+0.1, (q2-begin)*64+0.1, -cell*62-0.1)
				begin = math.NaN()
			}
		}
	}
	fmt.Fprintf(&b, `<rect x="20" y="%.1f" width="%.1f" height="%.1f" stroke="#000"/>`+"\n", y(&kinematics.Q{0, 2.8}), 2*math.Pi*62, 5.6*64)
	for side, style := range []string{`stroke="#27c" stroke-width="1"`, `stroke="#c60" stroke-width="1"`} {
		tree := &planner.trees[side]
		for i, p := range tree.parent {
			if p >= 0 && !tree.near.gone[i] {
				line(style, []kinematics.Q{tree.q[p], tree.q[i]})
			}
		}
	}
	req.Shortcuts = 0
	if err := planner.Solve(context.Background(), req, &short); err != nil || short.Status != AirPlanned || short.First != raw.Length {
		t.Fatalf("no shortcut to draw: %+v, %v", short, err)
	}
	line(`stroke="#000" stroke-width="1.5" stroke-dasharray="5 4"`, raw.Path)
	line(`stroke="#080" stroke-width="3"`, short.Path)
	drawShop(&b, arm, req, &short)
	for _, note := range []struct {
		x, y  float64
		style string
		words string
	}{
		{20, 420, `stroke="#27c"`, "tree from the start"}, {215, 420, `stroke="#c60"`, "tree from the goal"},
		{20, 445, `stroke="#000" stroke-dasharray="5 4"`, "path that joins them"}, {215, 445, `stroke="#080" stroke-width="3"`, "after shortcuts"},
	} {
		fmt.Fprintf(&b, `<path %s d="M%.0f %.0fh26"/><text fill="#000" x="%.0f" y="%.0f">%s</text>`+"\n", note.style, note.x, note.y, note.x+32, note.y+4, note.words)
	}
	for _, end := range []struct {
		q     *kinematics.Q
		words string
	}{{&req.Start, "start"}, {&req.Goals[0], "goal"}} {
		fmt.Fprintf(&b, `<circle fill="#000" cx="%.1f" cy="%.1f" r="4"/><text fill="#000" x="%.1f" y="%.1f">%s</text>`+"\n", x(end.q), y(end.q), x(end.q)+7, y(end.q)+14, end.words)
	}
	fmt.Fprint(&b, `<text fill="#000" x="215" y="28" text-anchor="middle">joint 2 over joint 1; grey: not clear</text>
<text fill="#000" x="650" y="28" text-anchor="middle">the same in the shop: arm, posts, way of the tip</text>
</svg>
`)
	return b.Bytes()
}

// drawShop draws the arm along the way.
func drawShop(b *bytes.Buffer, arm twoLinks, req *AirRequest, out *AirAnswer) {
	at := func(p [2]float64) (x, y float64) { return 620 + p[0]*110, 260 - p[1]*110 }
	for _, post := range arm.posts {
		x, y := at([2]float64{post[0], post[1]})
		fmt.Fprintf(b, `<circle fill="#bbb" stroke="#000" cx="%.1f" cy="%.1f" r="%.1f"/>`+"\n", x, y, post[2]*110)
	}
	links := func(style string, q *kinematics.Q) {
		fmt.Fprint(b, `<polyline `, style, ` points="`)
		for _, p := range arm.points(q) {
			x, y := at(p)
			fmt.Fprintf(b, "%.1f,%.1f ", x, y)
		}
		fmt.Fprintln(b, `"/>`)
	}
	var tip bytes.Buffer
	for i := 1; i < len(out.Path); i++ {
		for k := range 25 {
			var q kinematics.Q
			for j := range 2 {
				q[j] = out.Path[i-1][j] + float64(k)/25*(out.Path[i][j]-out.Path[i-1][j])
			}
			if k%5 == 0 {
				links(`stroke="#9c9" stroke-width="2"`, &q)
			}
			x, y := at(arm.points(&q)[2])
			fmt.Fprintf(&tip, "%.1f,%.1f ", x, y)
		}
	}
	links(`stroke="#000" stroke-width="6" stroke-linecap="round" stroke-linejoin="round"`, &req.Start)
	links(`stroke="#666" stroke-width="6" stroke-linecap="round" stroke-linejoin="round"`, &req.Goals[0])
	x, y := at(arm.points(&req.Goals[0])[2])
	fmt.Fprintf(b, `<polyline stroke="#080" stroke-width="3" points="%s%.1f,%.1f"/>`+"\n", tip.String(), x, y)
}

func TestDrawingOfAirMovesIsCurrent(t *testing.T) {
	const file = "../../docs/img/air-moves.svg"
	got := drawAir(t)
	if *updateDrawing {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("docs/img/air-moves.svg differs from what the planner finds: run go test ./robot/motion -run Drawing -update and look at it")
	}
}
