package main

import (
	"errors"
	"os"
	"path/filepath"
)

// writeFile writes a whole file beside name, which then takes its name: all of it
// or nothing.
func writeFile(name string, data []byte) error {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	}
	dir := filepath.Dir(name)
	f, err := os.CreateTemp(dir, "."+filepath.Base(name)+"-new-")
	if err != nil {
		return err
	}
	if err := errors.Join(fillFile(f, data), f.Close()); err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	if err := os.Rename(f.Name(), name); err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return syncFolder(dir)
}

// fillFile writes data to a file and onto the disk.
func fillFile(f *os.File, data []byte) error {
	if err := f.Chmod(0o644); err != nil { // CreateTemp keeps others out
		return err
	}
	if _, err := f.Write(data); err != nil {
		return err
	}
	return f.Sync()
}
