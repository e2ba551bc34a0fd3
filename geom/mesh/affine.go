package mesh

import "seamwright/geom/r3"

// Affine is a transform aFromB that may also scale, shear and mirror, as the
// nodes of a file do: X, Y and Z are b's axes seen from a (dimensionless), T is
// b's origin in a (m). The zero value sends everything to the origin; use
// NoTransform.
type Affine struct{ X, Y, Z, T r3.Vec }

// NoTransform returns the transform that changes nothing.
func NoTransform() Affine {
	return Affine{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}}
}

// Apply takes a point from b's coordinates to a's, both in metres.
func (f Affine) Apply(v r3.Vec) r3.Vec { return f.T.Add(f.Dir(v)) }

// Dir takes a direction or a displacement from b's coordinates to a's.
func (f Affine) Dir(v r3.Vec) r3.Vec {
	return f.X.Scale(v.X).Add(f.Y.Scale(v.Y)).Add(f.Z.Scale(v.Z))
}

// Mul returns aFromC for f = aFromB and g = bFromC.
func (f Affine) Mul(g Affine) Affine {
	return Affine{f.Dir(g.X), f.Dir(g.Y), f.Dir(g.Z), f.Apply(g.T)}
}

// Det returns the dimensionless factor by which volumes grow, negative where
// the transform mirrors.
func (f Affine) Det() float64 { return f.X.Dot(f.Y.Cross(f.Z)) }

// IsFinite reports whether no number of f is NaN or infinite.
func (f Affine) IsFinite() bool {
	return f.X.IsFinite() && f.Y.IsFinite() && f.Z.IsFinite() && f.T.IsFinite()
}

// Transformed returns a copy of m taken through f. Where f mirrors, triangles
// are turned over too, so that what faced outwards still does.
func (m Mesh) Transformed(f Affine) Mesh {
	out := m.Clone()
	for i, v := range out.Vertices {
		out.Vertices[i] = f.Apply(v)
	}
	if f.Det() < 0 {
		for i := range out.Triangles {
			turnOver(&out.Triangles[i])
		}
	}
	return out
}
