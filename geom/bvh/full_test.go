//go:build reference

// The whole reference workload, which is too large for the repository:
//
//	REFERENCE=folder go test -tags reference -run Full -bench Full ./geom/bvh
//
// The folder holds mesh/torch.stl, mesh/part20k.stl, mesh/part200k.stl,
// dist_20k.jsonl, dist_200k.jsonl and dist_seam20k.jsonl; answers by the Flexible
// Collision Library 0.7, OBBRSS trees.
package bvh_test

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"seamwright/geom/bvh"
	meshes "seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/r3"
)

func fullPath(tb testing.TB, name string) string {
	tb.Helper()
	dir := os.Getenv("REFERENCE")
	if dir == "" {
		tb.Fatal("REFERENCE names no folder")
	}
	return filepath.Join(dir, name)
}

func fullMesh(tb testing.TB, name string) (vertices []r3.Vec, triangles [][3]int32) {
	tb.Helper()
	data, err := os.ReadFile(fullPath(tb, "mesh/"+name+".stl"))
	if err != nil {
		tb.Fatal(err)
	}
	m, _, err := stl.Decode(data, meshes.Options{Unit: meshes.Metres})
	if err != nil {
		tb.Fatal(err)
	}
	return m.Vertices, m.Triangles
}

func fullTree(tb testing.TB, name string) *bvh.Tree {
	tb.Helper()
	tree, err := bvh.New(fullMesh(tb, name))
	if err != nil {
		tb.Fatal(err)
	}
	return tree
}

func fullCases(tb testing.TB, name string) (cases []reference) {
	tb.Helper()
	f, err := os.Open(fullPath(tb, name))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var c reference
		if err := json.Unmarshal(lines.Bytes(), &c); err != nil {
			tb.Fatal(err)
		}
		cases = append(cases, c)
	}
	return cases
}

var fullSets = []struct {
	name, part, file string
	count            int
}{
	{"20k", "part20k", "dist_20k.jsonl", 2000},
	{"200k", "part200k", "dist_200k.jsonl", 2000},
	{"seam", "part20k", "dist_seam20k.jsonl", 3276},
}

func TestFullReference(t *testing.T) {
	torch := fullTree(t, "torch")
	for _, set := range fullSets {
		part := fullTree(t, set.part)
		cases := fullCases(t, set.file)
		if len(cases) != set.count {
			t.Fatalf("%s: %d cases, want %d", set.file, len(cases), set.count)
		}
		var worst float64
		var last bvh.Gap
		for _, c := range cases {
			worst = max(worst, c.check(t, part, torch, last.Pair))
			last = part.Distance(torch, c.pose())
		}
		t.Logf("%s: %d cases, largest difference of distance %.2g m", set.name, len(cases), worst)
	}
}

// cpu returns the processor time of this process: what the machine's other
// users do does not count.
func cpu(b *testing.B) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func BenchmarkFull(b *testing.B) {
	torch := fullTree(b, "torch")
	for _, set := range fullSets {
		part := fullTree(b, set.part)
		cases := fullCases(b, set.file)
		each := func(name string, f func(c *reference)) {
			b.Run(set.name+"/"+name, func(b *testing.B) {
				b.ReportAllocs()
				before := cpu(b)
				for b.Loop() {
					for i := range cases {
						f(&cases[i])
					}
				}
				b.ReportMetric(float64((cpu(b)-before).Nanoseconds())/float64(b.N)/float64(len(cases))/1e3, "us/query")
			})
		}
		each("cold", func(c *reference) { part.Distance(torch, c.pose()) })
		if set.name == "seam" {
			last := bvh.NoPair()
			each("warm", func(c *reference) { last = part.DistanceFrom(torch, c.pose(), last).Pair })
		}
		each("under50mm", func(c *reference) { part.DistanceUnder(torch, c.pose(), 0.05, bvh.NoPair()) })
		each("under5mm", func(c *reference) { part.DistanceUnder(torch, c.pose(), 0.005, bvh.NoPair()) })
		each("clears5mm", func(c *reference) { part.Clears(torch, c.pose(), 0.005) })
		each("overlaps", func(c *reference) { part.Overlaps(torch, c.pose()) })
		known := make([]float64, len(cases))
		for i := range cases {
			known[i] = math.Nextafter(cases[i].Distance, 1) + 1e-12
		}
		i := 0
		each("oracle", func(c *reference) {
			part.DistanceUnder(torch, c.pose(), known[i%len(known)], bvh.NoPair())
			i++
		})
	}
	for _, name := range []string{"torch", "part20k", "part200k"} {
		vertices, triangles := fullMesh(b, name)
		b.Run("build/"+name, func(b *testing.B) {
			before := cpu(b)
			for b.Loop() {
				if _, err := bvh.New(vertices, triangles); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64((cpu(b)-before).Nanoseconds())/float64(b.N)/1e6, "ms/tree")
		})
	}
}
