package thermal_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld/thermal"
)

// drawRun draws a run that an arc can weld, on a plate of one kind.
func drawRun(t *rapid.T, plate thermal.Plate) (thermal.Field, thermal.FieldRequest) {
	r := thermal.FieldRequest{
		Power:     rapid.Float64Range(1500, 9000).Draw(t, "power"),
		Travel:    rapid.Float64Range(3, 15).Draw(t, "travel") * unit.MMPerS,
		Preheat:   rapid.Float64Range(0, 200).Draw(t, "preheat"),
		Thickness: rapid.Float64Range(2, 30).Draw(t, "thickness") * unit.MM,
		Plate:     plate,
	}
	f, err := thermal.NewField(r)
	if err != nil {
		t.Fatal(err)
	}
	return f, r
}

// TestFieldAgainstMovingHeat adds up the heat that a moving source left behind:
// the integral over time of instantaneous point sources (thick, with images for
// a finite plate) or line sources (thin), which is how Rosenthal's field comes
// about, by Simpson's rule in the logarithm of the time.
func TestFieldAgainstMovingHeat(t *testing.T) {
	for _, plate := range []thermal.Plate{thermal.ThickPlate, thermal.ThinPlate, thermal.FinitePlate} {
		t.Run(plate.String(), rapid.MakeCheck(func(t *rapid.T) {
			f, r := drawRun(t, plate)
			at := r3.Vec{X: rapid.Float64Range(-60, 6).Draw(t, "x") * unit.MM, Y: rapid.Float64Range(2, 25).Draw(t, "y") * unit.MM}
			if plate == thermal.FinitePlate {
				at.Z = rapid.Float64Range(0, 1).Draw(t, "z") * r.Thickness
			}
			m := f.Metal()
			a := m.Diffusivity()
			rate := func(age float64) float64 { // K/s of the heat laid down age seconds ago
				along := at.X + r.Travel*age
				flat := math.Exp(-(along*along + at.Y*at.Y) / (4 * a * age))
				if plate == thermal.ThinPlate {
					return r.Power / (r.Thickness * m.HeatCapacity * 4 * math.Pi * a * age) * flat
				}
				deep := math.Exp(-at.Z * at.Z / (4 * a * age))
				if plate == thermal.FinitePlate {
					for n := 1.0; n < 60; n++ {
						for _, image := range [2]float64{at.Z - 2*n*r.Thickness, at.Z + 2*n*r.Thickness} {
							deep += math.Exp(-image * image / (4 * a * age))
						}
					}
				}
				return 2 * r.Power / (m.HeatCapacity * math.Pow(4*math.Pi*a*age, 1.5)) * flat * deep
			}
			const steps = 800
			low, high := math.Log(1e-3), math.Log(300.)
			h := (high - low) / steps
			want := r.Preheat
			for i := range steps + 1 {
				weight := float64(2 + 2*(i%2))
				if i == 0 || i == steps {
					weight = 1
				}
				age := math.Exp(low + float64(i)*h)
				want += weight * h / 3 * age * rate(age)
			}
			if got := f.Temperature(at); !(math.Abs(got-want) <= 1e-6*(want-r.Preheat)+1e-6) {
				t.Fatalf("%v at %v: %.9g degC, summed %.9g", plate, at, got, want)
			}
		}))
	}
}

// TestFieldAgainstFiniteDifferences marches heat through a small net of squares,
// explicitly, from a cold plate, with an arc that starts at one end, and compares
// the thin-plate field once the arc has run long enough.
func TestFieldAgainstFiniteDifferences(t *testing.T) {
	const (
		columns, rows = 130, 40 // half the plate: row 0 is the line of the run
		side          = 1e-3    // m
		start, finish = 30, 110 // columns of the arc
	)
	r := thermal.FieldRequest{Power: 3000, Travel: 8 * unit.MMPerS, Preheat: 20, Plate: thermal.ThinPlate, Thickness: 4 * unit.MM}
	f, err := thermal.NewField(r)
	if err != nil {
		t.Fatal(err)
	}
	m := f.Metal()
	step := 0.1 * side * side / m.Diffusivity() // s
	now, next := new([rows][columns]float64), new([rows][columns]float64)
	arc := float64(start)
	perStep := r.Power * step / (side * side * r.Thickness * m.HeatCapacity) // K in one square
	for ; arc < finish; arc += r.Travel * step / side {
		for j := range rows {
			for i := range columns {
				value := func(j, i int) float64 { // the middle mirrors, the edges stay cold
					if j = max(j, -j); j == rows || i < 0 || i == columns {
						return 0
					}
					return now[j][i]
				}
				next[j][i] = now[j][i] + 0.1*(value(j-1, i)+value(j+1, i)+value(j, i-1)+value(j, i+1)-4*now[j][i])
			}
		}
		left := int(arc)
		share := arc - float64(left)
		next[0][left] += perStep * (1 - share)
		next[0][left+1] += perStep * share
		now, next = next, now
	}
	for _, at := range [][2]int{{-10, 0}, {-20, 0}, {-30, 0}, {-40, 0}, {-10, 5}, {-20, 8}, {-30, 10}} {
		// The net at the column nearest to the place, and the field at that column.
		i := int(math.Round(arc)) + at[0]
		got := f.Temperature(r3.Vec{X: (float64(i) - arc) * side, Y: float64(at[1]) * side})
		if want := r.Preheat + now[at[1]][i]; !(math.Abs(got-want) <= 0.03*(want-r.Preheat)) {
			t.Errorf("%d mm behind, %d mm beside: field %.1f degC, net %.1f degC", -at[0], at[1], got, want)
		}
	}
}

// TestFieldConducts: the field solves -v dT/dx = a (Txx + Tyy + Tzz), by central
// differences, and no heat crosses the far face of a finite plate.
func TestFieldConducts(t *testing.T) {
	for _, plate := range []thermal.Plate{thermal.ThickPlate, thermal.ThinPlate, thermal.FinitePlate} {
		t.Run(plate.String(), rapid.MakeCheck(func(t *rapid.T) {
			f, r := drawRun(t, plate)
			at := r3.Vec{X: rapid.Float64Range(-40, 3).Draw(t, "x") * unit.MM, Y: rapid.Float64Range(3, 15).Draw(t, "y") * unit.MM,
				Z: rapid.Float64Range(0.1, 0.9).Draw(t, "z") * r.Thickness}
			const h = 2e-5 // m
			T := func(dx, dy, dz float64) float64 {
				return f.Temperature(at.Add(r3.Vec{X: dx, Y: dy, Z: dz})) - r.Preheat
			}
			curve := (T(h, 0, 0) + T(-h, 0, 0) + T(0, h, 0) + T(0, -h, 0) + T(0, 0, h) + T(0, 0, -h) - 6*T(0, 0, 0)) / (h * h)
			slope := (T(h, 0, 0) - T(-h, 0, 0)) / (2 * h)
			a := f.Metal().Diffusivity()
			k := r.Travel / a
			if off := math.Abs(-k*slope - curve); off > 2e-3*k*k*T(0, 0, 0)+1e-9*r.Preheat/(h*h) {
				t.Fatalf("%v at %v: -v/a Tx %g, curvature %g K/m2", plate, at, -k*slope, curve)
			}
			if plate == thermal.FinitePlate {
				at.Z = r.Thickness
				fall := math.Abs(3*T(0, 0, 0)-4*T(0, 0, -h)+T(0, 0, -2*h)) / (2 * h)
				if fall > 1e-3*k*T(0, 0, 0)+1e-9/h {
					t.Fatalf("far face loses heat: %g K/m", fall)
				}
			}
		}))
	}
}

// TestFieldCarriesThePower: the heat carried away by the metal that flows out
// behind and conducted through the cut is the power of the arc, summed over a
// plane behind the arc of a thin plate and over a thick one's quarter.
func TestFieldCarriesThePower(t *testing.T) {
	for _, plate := range []thermal.Plate{thermal.ThinPlate, thermal.ThickPlate} {
		r := thermal.FieldRequest{Power: 5200, Travel: 6.8 * unit.MMPerS, Preheat: 20, Plate: plate, Thickness: 6 * unit.MM}
		f, err := thermal.NewField(r)
		if err != nil {
			t.Fatal(err)
		}
		m := f.Metal()
		const behind, h, step, reach = 0.030, 1e-6, 2e-4, 0.1 // m
		flux := func(y, z float64) float64 {                  // W/m2 through a plane that travels with the arc
			T := func(dx float64) float64 { return f.Temperature(r3.Vec{X: -behind + dx, Y: y, Z: z}) - r.Preheat }
			return m.HeatCapacity*r.Travel*T(0) + m.Conductivity*(T(h)-T(-h))/(2*h)
		}
		sum := 0.0
		for y := step / 2; y < reach; y += step {
			if plate == thermal.ThinPlate {
				sum += 2 * flux(y, 0) * step * r.Thickness
				continue
			}
			for z := step / 2; z < reach; z += step {
				sum += 2 * flux(y, z) * step * step
			}
		}
		if !(math.Abs(sum-r.Power) <= 1e-3*r.Power) {
			t.Errorf("%v: %.1f W flow out behind, the arc gives %.1f W", plate, sum, r.Power)
		}
	}
}

// TestFieldsMeet: a finite plate is hotter than thick and thin ones, thick when
// it is very thick and thin when it is very thin.
func TestFieldsMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := thermal.FieldRequest{
			Power:   rapid.Float64Range(1500, 9000).Draw(t, "power"),
			Travel:  rapid.Float64Range(3, 15).Draw(t, "travel") * unit.MMPerS,
			Preheat: rapid.Float64Range(0, 200).Draw(t, "preheat"),
		}
		at := r3.Vec{X: rapid.Float64Range(-60, 5).Draw(t, "x") * unit.MM, Y: rapid.Float64Range(1, 20).Draw(t, "y") * unit.MM}
		rise := func(p thermal.Plate, d float64) float64 {
			r.Plate, r.Thickness = p, d
			f, err := thermal.NewField(r)
			if err != nil {
				t.Fatal(err)
			}
			return f.Temperature(at) - r.Preheat
		}
		d := rapid.Float64Range(2, 40).Draw(t, "thickness") * unit.MM
		finite, thick, thin := rise(thermal.FinitePlate, d), rise(thermal.ThickPlate, d), rise(thermal.ThinPlate, d)
		const slack = 1e-9
		if finite < max(thick, thin)*(1-slack)-slack {
			t.Fatalf("finite %g below thick %g or thin %g", finite, thick, thin)
		}
		if got, want := rise(thermal.FinitePlate, 0.3), rise(thermal.ThickPlate, 0.3); math.Abs(got-want) > 1e-6*want+slack {
			t.Fatalf("300 mm: finite %g, thick %g", got, want)
		}
		if got, want := rise(thermal.FinitePlate, 0.5e-3), rise(thermal.ThinPlate, 0.5e-3); math.Abs(got-want) > 0.01*want+slack {
			t.Fatalf("0.5 mm: finite %g, thin %g", got, want)
		}
	})
}
