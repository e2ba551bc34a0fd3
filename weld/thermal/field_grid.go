package thermal

import (
	"fmt"

	"seamwright/geom/r3"
)

// GridRequest is a flat net of places, for a picture of temperatures: the place
// of column i and row j is Corner + i ColumnStep + j RowStep, m in the field's
// travelling frame. The plate's face seen from above has steps in X and Y, a
// cut across the run steps in Y and Z, a cut along it steps in X and Z.
type GridRequest struct {
	Corner, ColumnStep, RowStep r3.Vec // m
	Columns, Rows               int
}

// Grid is a picture of temperatures.
type Grid struct {
	GridRequest
	// Temperatures are degrees C, rows times columns of them, row after row;
	// none above the metal's melting temperature, which means the pool.
	Temperatures []float64
	// Coldest and Hottest are the extremes of the net, degrees C.
	Coldest, Hottest float64
	// Molten counts the places in the pool.
	Molten int
}

// At returns the temperature of a column and row, degrees C. It panics outside
// the net.
func (g Grid) At(column, row int) float64 {
	if column < 0 || column >= g.Columns {
		panic(fmt.Sprintf("thermal: column %d of a net of %d", column, g.Columns))
	}
	return g.Temperatures[row*g.Columns+column]
}

// gridMost is the most places of one picture: more than any screen shows.
const gridMost = 4 << 20

// Grid returns the temperatures of a net of places. Source as for Temperature.
func (f Field) Grid(r GridRequest) (Grid, error) {
	if r.Columns < 1 || r.Rows < 1 || r.Columns > gridMost/r.Rows {
		return Grid{}, fmt.Errorf("picture of temperatures: %d columns and %d rows are outside 1 to %d places in all; ask for a net of that many",
			r.Columns, r.Rows, gridMost)
	}
	for _, end := range []r3.Vec{r.place(0, 0), r.place(r.Columns-1, 0), r.place(0, r.Rows-1), r.place(r.Columns-1, r.Rows-1)} {
		err := placeSpan.Check(end.X)
		if err == nil {
			err = f.place(end.Y, end.Z)
		}
		if err != nil {
			return Grid{}, fmt.Errorf("picture of temperatures: %w", err)
		}
	}
	g := Grid{GridRequest: r, Temperatures: make([]float64, 0, r.Columns*r.Rows), Coldest: f.metal.Melting, Hottest: f.t0}
	for row := range r.Rows {
		for column := range r.Columns {
			T := f.Temperature(r.place(column, row))
			if T >= f.metal.Melting {
				T = f.metal.Melting
				g.Molten++
			}
			g.Coldest, g.Hottest = min(g.Coldest, T), max(g.Hottest, T)
			g.Temperatures = append(g.Temperatures, T)
		}
	}
	return g, nil
}

// place returns the place of a column and row, m.
func (r GridRequest) place(column, row int) r3.Vec {
	return r.Corner.Add(r.ColumnStep.Scale(float64(column))).Add(r.RowStep.Scale(float64(row)))
}
