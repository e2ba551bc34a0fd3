package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// meshUnits are the units in which files of triangles come.
var meshUnits = []string{"mm", "in", "m", "cm", "ft", "um"}

func shapeCommand() *cobra.Command {
	var typed string
	cmd := &cobra.Command{
		Use:   "shape FILE",
		Short: "What a file of triangles holds: size, holes, what is wrong with it",
		Long: `What a file of triangles holds, before a job names it: its size, whether it is closed,
what would be mended and what is left. Nothing is written.

  seamwright shape cradle.stl --unit mm
  seamwright shape lug.obj --unit in
STL, OBJ and PLY carry no unit: --unit says it and is never guessed. glTF, GLB and 3MF carry
theirs. The answer is 0 where the shape is closed and nothing is wrong with it, 1 where it wants
a look, 2 where it cannot be used.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%d files: name one file of triangles, such as cradle.stl", len(args))
			}
			return nil
		},
		ValidArgsFunction: once(files("stl", "obj", "ply", "gltf", "glb", "3mf")),
		RunE: func(cmd *cobra.Command, args []string) error {
			u := mesh.Undeclared
			if cmd.Flags().Changed("unit") {
				var err error
				if u, err = mesh.ParseUnit(typed); err != nil {
					return fmt.Errorf("--unit: %w", err)
				}
			}
			return tellShape(cmd.OutOrStdout(), args[0], u)
		},
	}
	cmd.Flags().StringVar(&typed, "unit", "", "what one of the file's numbers means: "+strings.Join(meshUnits, ", "))
	completeFlags(cmd, map[string]completer{"unit": words(meshUnits...)})
	return cmd
}

// tellShape prints what a file of triangles holds.
func tellShape(out io.Writer, name string, u mesh.Unit) error {
	file, err := job.DecodeMesh(name, u, folder(filepath.Dir(name)))
	if err != nil {
		return err
	}
	_, r, err := scene.Mend(filepath.Base(name), file)
	if err != nil {
		return err
	}
	left := &r.Left
	lines := [][2]string{
		{"file", fmt.Sprintf("%s, %s, numbers in %v", filepath.Base(name), file.Format, file.Unit)},
		{"size", span(left.Box.Size(), " x ")},
		{"from", span(left.Box.Min, ", ")},
		{"to", span(left.Box.Max, ", ")},
		{"triangles", fmt.Sprintf("%d, as read %d; %d vertices; %s", left.Triangles, len(file.Mesh.Triangles), left.Vertices, closed(left))},
	}
	if left.Sound() {
		lines = append(lines, [2]string{"volume", fmt.Sprintf("%.4g cm3 (%.4g in3)", left.Volume/1e-6, left.Volume/(unit.Inch*unit.Inch*unit.Inch))})
	}
	for _, said := range r.Read {
		lines = append(lines, [2]string{"left aside", said})
	}
	for _, done := range r.Done.Lines() {
		lines = append(lines, [2]string{"mended", done})
	}
	for _, h := range left.Holes {
		lines = append(lines, [2]string{"hole", fmt.Sprintf("%s round, about (%s)", both(h.Length), places(h.Centre))})
	}
	if more := left.HoleCount - len(left.Holes); more > 0 {
		lines = append(lines, [2]string{"hole", fmt.Sprintf("and %d shorter ones", more)})
	}
	for _, doubt := range r.Doubts() {
		lines = append(lines, [2]string{"wrong", doubt})
	}
	if left.UnitsSuspect != "" {
		lines = append(lines, [2]string{"odd", left.UnitsSuspect})
	}
	for _, l := range lines {
		if _, err := fmt.Fprintf(out, "%-10s  %s\n", l[0], l[1]); err != nil {
			return err
		}
	}
	if !left.Sound() || left.UnitsSuspect != "" {
		return errLook
	}
	return nil
}

// closed says whether a mesh is closed.
func closed(r *mesh.Report) string {
	shells := fmt.Sprintf("%d shells", r.Shells)
	if r.Shells == 1 {
		shells = "1 shell"
	}
	if r.Open == 0 {
		return shells + ", closed"
	}
	return fmt.Sprintf("%s, %d of them open", shells, r.Open)
}

// span says three lengths, m, in mm and in inches.
func span(v r3.Vec, between string) string {
	in := func(u float64, decimals int) string {
		w := v.Scale(1 / u)
		return fmt.Sprintf("%.*f%s%.*f%s%.*f", decimals, w.X, between, decimals, w.Y, between, decimals, w.Z)
	}
	return in(unit.MM, 2) + " mm  (" + in(unit.Inch, 3) + " in)"
}

// places says a place, m, in mm.
func places(v r3.Vec) string {
	p := v.Scale(1 / unit.MM)
	return fmt.Sprintf("%.1f, %.1f, %.1f mm", p.X, p.Y, p.Z)
}

// both says a length, m, in mm and in inches.
func both(m float64) string {
	return fmt.Sprintf("%.1f mm (%.2f in)", m/unit.MM, m/unit.Inch)
}
