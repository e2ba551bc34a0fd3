package examples_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the drawn shapes of the examples; read the difference before committing it")

// corner is a place of a drawn shape, in the unit of its file.
type corner [3]float64

// drawn is a shape while it is drawn: faces of three corners, counted from 0.
type drawn struct {
	corners []corner
	faces   [][3]int
}

func (d *drawn) at(x, y, z float64) int {
	d.corners = append(d.corners, corner{x, y, z})
	return len(d.corners) - 1
}

// quad adds a face of four corners, counter-clockwise seen from outside.
func (d *drawn) quad(a, b, c, e int) { d.faces = append(d.faces, [3]int{a, b, c}, [3]int{a, c, e}) }

// obj is the shape as an OBJ file.
func (d *drawn) obj(about string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n", about)
	for _, c := range d.corners {
		fmt.Fprintf(&b, "v %.4f %.4f %.4f\n", c[0], c[1], c[2])
	}
	for _, f := range d.faces {
		fmt.Fprintf(&b, "f %d %d %d\n", f[0]+1, f[1]+1, f[2]+1)
	}
	return b.String()
}

// ply is the shape as a PLY file.
func (d *drawn) ply(about string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "ply\nformat ascii 1.0\ncomment %s\nelement vertex %d\nproperty float x\nproperty float y\nproperty float z\nelement face %d\nproperty list uchar int vertex_indices\nend_header\n",
		about, len(d.corners), len(d.faces))
	for _, c := range d.corners {
		fmt.Fprintf(&b, "%.3f %.3f %.3f\n", c[0], c[1], c[2])
	}
	for _, f := range d.faces {
		fmt.Fprintf(&b, "3 %d %d %d\n", f[0], f[1], f[2])
	}
	return b.String()
}

// guard is the half round guard of the header stand, mm: radius 40, 5 thick, 25
// high, open towards +y, its middle at (350, 60) on the sole.
func guard() *drawn {
	d := &drawn{}
	const steps = 24
	var rings [steps + 1][4]int // outside below and above, inside below and above
	for i := range rings {
		sin, cos := math.Sincos(math.Pi * (1 + float64(i)/steps))
		for k, c := range [4][2]float64{{40, 0}, {40, 25}, {35, 0}, {35, 25}} {
			rings[i][k] = d.at(350+c[0]*cos, 60+c[0]*sin, c[1])
		}
	}
	for i := range steps {
		a, b := rings[i], rings[i+1]
		d.quad(a[0], b[0], b[1], a[1]) // outside
		d.quad(b[2], a[2], a[3], b[3]) // inside
		d.quad(a[1], b[1], b[3], a[3]) // above
		d.quad(b[0], a[0], a[2], b[2]) // below
	}
	first, last := rings[0], rings[steps]
	d.quad(first[2], first[0], first[1], first[3])
	d.quad(last[0], last[2], last[3], last[1])
	return d
}

// pad is the pad of the header stand, mm: 160 x 100 x 8 on the sole, its corners
// rounded with a radius of 20.
func pad() *drawn {
	d := &drawn{}
	const steps = 8 // of each corner
	var below, above []int
	for i, middle := range [4][2]float64{{410, 216}, {290, 216}, {290, 156}, {410, 156}} {
		for k := 0; k <= steps; k++ {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(i) + float64(k)/steps))
			x, y := middle[0]+20*cos, middle[1]+20*sin
			below, above = append(below, d.at(x, y, 0)), append(above, d.at(x, y, 8))
		}
	}
	n := len(below)
	for i := range n {
		d.quad(below[i], below[(i+1)%n], above[(i+1)%n], above[i])
	}
	for i := 2; i < n; i++ {
		d.faces = append(d.faces, [3]int{above[0], above[i-1], above[i]}, [3]int{below[0], below[i], below[i-1]})
	}
	return d
}

// lug is the lug plate of the sluice gate, in: 4 1/2 wide, 1/2 thick, its top
// round about a hole of 1 1/2 in 4 in above the base plate.
func lug() *drawn {
	d := &drawn{}
	const (
		steps      = 48
		middle, up = 7.75, 4.0
		half, hole = 2.25, 0.75
		near, far  = 4.5, 5.0
	)
	var rings [steps][4]int // edge near and far, hole near and far
	for i := range rings {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / steps)
		x, z := half*cos, half*sin
		if z < 0 { // below the middle of the hole the plate is square
			k := math.Min(half/math.Abs(cos), up/math.Abs(sin))
			x, z = k*cos, k*sin
		}
		rings[i] = [4]int{d.at(middle+x, near, up+z), d.at(middle+x, far, up+z), d.at(middle+hole*cos, near, up+hole*sin), d.at(middle+hole*cos, far, up+hole*sin)}
	}
	for i := range steps {
		a, b := rings[i], rings[(i+1)%steps]
		d.quad(a[0], b[0], b[2], a[2]) // near face
		d.quad(b[1], a[1], a[3], b[3]) // far face
		d.quad(b[0], a[0], a[1], b[1]) // edge
		d.quad(a[2], b[2], b[3], a[3]) // hole
	}
	return d
}

// TestDrawnShapes: the files of triangles are the shapes drawn here.
func TestDrawnShapes(t *testing.T) {
	for name, want := range map[string]string{
		"header-stand/guard.ply": guard().ply("half round guard, mm, an invented part"),
		"header-stand/pad.ply":   pad().ply("pad with round corners, mm, an invented part"),
		"sluice-lug/lug.obj":     lug().obj("lifting lug, inches, an invented part"),
	} {
		file := filepath.Join("..", "..", "examples", name)
		if *update {
			if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		got, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != want {
			t.Errorf("%s is not what is drawn: run go test ./internal/examples -run DrawnShapes -update", name)
		}
	}
}
