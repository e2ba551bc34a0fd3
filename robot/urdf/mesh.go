package urdf

import (
	"fmt"
	"path"
	"strings"
)

// Resolve returns the path of the mesh's file, with forward slashes:
//
//	package://NAME/rest   packageRoot(NAME)/rest
//	file:///rest          /rest
//	/rest                 /rest
//	anything else         baseDir/rest, baseDir being the URDF file's folder
//
// packageRoot returns the folder of a package and whether it is known; nil
// knows none. No file is looked at. Other schemes, such as http, are an error.
func (m Mesh) Resolve(baseDir string, packageRoot func(name string) (dir string, ok bool)) (string, error) {
	scheme, rest, has := strings.Cut(m.File, "://")
	if !has {
		if path.IsAbs(m.File) {
			return path.Clean(m.File), nil
		}
		return path.Join(baseDir, m.File), nil
	}
	switch scheme {
	case "file":
		if !path.IsAbs(rest) {
			return "", fmt.Errorf("mesh %q: found a relative path after file://; allowed: file:///folder/name; write the full path", m.File)
		}
		return path.Clean(rest), nil
	case "package":
		return m.resolvePackage(rest, packageRoot)
	}
	return "", fmt.Errorf("mesh %q: found scheme %q; allowed: package://, file:// or a path; copy the mesh beside the URDF file and name it there", m.File, scheme)
}

func (m Mesh) resolvePackage(rest string, packageRoot func(string) (string, bool)) (string, error) {
	name, file, _ := strings.Cut(rest, "/")
	if name == "" || file == "" {
		return "", fmt.Errorf("mesh %q: found no package or no file name; allowed: package://name/file; complete the path", m.File)
	}
	inside := path.Clean(file)
	if inside == ".." || strings.HasPrefix(inside, "../") {
		return "", fmt.Errorf("mesh %q: found a path that leaves its package; allowed: a path inside; remove the two leading dots", m.File)
	}
	if packageRoot != nil {
		if dir, ok := packageRoot(name); ok {
			return path.Join(dir, inside), nil
		}
	}
	return "", fmt.Errorf("mesh %q: found package %q, whose folder is not known; allowed: packages with a folder; say where package %q lies", m.File, name, name)
}
