package export

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// errNoExchange says that two folders cannot change names in one go here.
var errNoExchange = errors.New("this file system cannot exchange two names")

// fill writes the parts into the folder dir and syncs them.
func fill(dir string, parts []part) error {
	if err := os.Chmod(dir, 0o755); err != nil { // MkdirTemp keeps others out
		return err
	}
	inside := map[string]bool{} // folders in dir
	for _, p := range parts {
		name := filepath.Join(dir, filepath.FromSlash(p.name))
		if in := filepath.Dir(name); in != dir && !inside[in] {
			if err := os.Mkdir(in, 0o755); err != nil {
				return err
			}
			inside[in] = true
		}
		if err := writeFile(name, p.write); err != nil {
			return err
		}
	}
	for _, in := range slices.Sorted(maps.Keys(inside)) {
		if err := syncDir(in); err != nil {
			return err
		}
	}
	return syncDir(dir)
}

// swap gives the folder fresh, whole and synced, the name dir and takes away
// the older folder of that name. Where the system can exchange two names, dir
// is a whole plan at every instant; elsewhere the older one is moved aside
// first, and for that instant dir is missing while both are whole beside it.
func swap(dir, fresh string) error {
	older, err := place(dir, fresh)
	if err != nil {
		return errors.Join(err, remove(fresh))
	}
	if err := syncDir(filepath.Dir(dir)); err != nil {
		return err
	}
	if older == "" {
		return nil
	}
	if err := remove(older); err != nil {
		return fmt.Errorf("the plan is written, but the older folder, now %s, could not be taken away: %w", older, err)
	}
	return nil
}

// place gives fresh the name dir and returns where the older dir is now.
func place(dir, fresh string) (older string, err error) {
	if _, err := os.Lstat(dir); os.IsNotExist(err) {
		return "", os.Rename(fresh, dir)
	}
	err = exchange(fresh, dir)
	if !errors.Is(err, errNoExchange) {
		return fresh, err
	}
	return moveAside(dir, fresh)
}

// moveAside is place for systems without exchange.
func moveAside(dir, fresh string) (older string, err error) {
	older = fresh + "-older"
	if err := os.Rename(dir, older); err != nil {
		return "", err
	}
	if err := os.Rename(fresh, dir); err != nil {
		return "", errors.Join(err, os.Rename(older, dir))
	}
	return older, nil
}

func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriterSize(f, 1<<16)
	if err := write(w); err != nil {
		return fmt.Errorf("%s: %w", filepath.Base(name), err)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return f.Close()
}

func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
