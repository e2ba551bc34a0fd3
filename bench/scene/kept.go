package scene

import (
	"crypto/sha256"
	"sync"

	"seamwright/bench/job"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/robot/collision"
)

// Kept holds the shapes of files of triangles from one scene to the next, so that
// a job with another number in it need not look over the same files again. It
// knows a file by its digest. What two scenes in a row do not use is let go. The
// zero value holds nothing; several goroutines may use it.
type Kept struct {
	mu            sync.Mutex
	before, forms map[formKey]form
}

// form is a shape with the report of its file.
type form struct {
	shape  collision.Shape
	report MeshReport         // without what is left to mend
	left   func() mesh.Report // what that is; it takes a while the first time
}

type formKey struct {
	sum   [sha256.Size]byte
	unit  mesh.Unit
	scale r3.Vec
}

// begin lets go of what the last scene did not use.
func (k *Kept) begin() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.before, k.forms = k.forms, map[formKey]form{}
}

// form returns the shape of a file, scaled (dimensionless, by axis).
func (k *Kept) form(name string, file job.MeshFile, scale r3.Vec, at job.Place) (form, error) {
	key := formKey{file.SHA256, file.Unit, scale}
	known := file.SHA256 != [sha256.Size]byte{} // not of a mesh that is no file
	if f, ok := k.look(key); ok && known {
		return f, nil
	}
	m := file.Mesh
	if scale != (r3.Vec{X: 1, Y: 1, Z: 1}) {
		m = m.Transformed(mesh.Affine{X: r3.Vec{X: scale.X}, Y: r3.Vec{Y: scale.Y}, Z: r3.Vec{Z: scale.Z}})
	}
	f, err := formOf(name, file, m, at)
	if err == nil && known {
		k.mu.Lock()
		defer k.mu.Unlock()
		k.forms[key] = f
	}
	return f, err
}

// look returns what is kept of a file, and keeps it for the next scene.
func (k *Kept) look(key formKey) (form, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	f, ok := k.forms[key]
	if !ok {
		if f, ok = k.before[key]; ok {
			k.forms[key] = f
		}
	}
	return f, ok
}
