package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"seamwright/bench/draft"
)

// unwritten opens files that are not on the disk yet, and others from their
// folder.
type unwritten struct {
	files []draft.File
	rest  folder
}

func (u unwritten) Open(name string) (io.ReadCloser, error) {
	for _, f := range u.files {
		if f.Name == name {
			return io.NopCloser(bytes.NewReader(f.Data)), nil
		}
	}
	return u.rest.Open(name)
}

// freshFolder returns the whole path of a folder that a job can be written
// into: one that is not there, or is empty.
func freshFolder(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	info, err := os.Stat(dir)
	switch {
	case os.IsNotExist(err):
		return dir, nil
	case err != nil:
		return "", err
	case !info.IsDir():
		return "", fmt.Errorf("%s is a file; name an empty or a new folder", dir)
	}
	if here, err := os.Stat("."); err == nil && os.SameFile(here, info) {
		return "", fmt.Errorf("%s is the folder you stand in; name an empty or a new folder", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "", err
	}
	if len(entries) > 0 {
		var names []string
		for _, e := range entries[:min(3, len(entries))] {
			names = append(names, e.Name())
		}
		return "", fmt.Errorf("%s holds files already (%s), and nothing is overwritten; name an empty or a new folder", dir, strings.Join(names, ", "))
	}
	return dir, nil
}

// writeFolder writes the files into a folder beside dir, which then takes dir's
// name: all of them or none.
func writeFolder(dir string, files []draft.File) error {
	dir, err := freshFolder(dir)
	if err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-new-")
	if err != nil {
		return err
	}
	for _, step := range []func() error{
		func() error { return os.Chmod(fresh, 0o755) }, // MkdirTemp keeps others out
		func() error { return writeAll(fresh, files) },
		func() error { return replaceEmpty(fresh, dir) },
		func() error { return syncFolder(parent) },
	} {
		if err := step(); err != nil {
			return errors.Join(err, removeFiles(fresh, files))
		}
	}
	return nil
}

// replaceEmpty gives a folder the name of another, which is empty or not there.
func replaceEmpty(fresh, dir string) error {
	if err := os.Remove(dir); err != nil && !os.IsNotExist(err) {
		return err // it is no longer empty
	}
	return os.Rename(fresh, dir)
}

func writeAll(dir string, files []draft.File) error {
	for _, f := range files {
		if err := writeSynced(filepath.Join(dir, f.Name), f.Data); err != nil {
			return err
		}
	}
	return syncFolder(dir)
}

func writeSynced(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer f.Close()
	if _, err := f.Write(data); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return f.Close()
}

func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// removeFiles takes away what was written before a failure.
func removeFiles(dir string, files []draft.File) error {
	if _, err := os.Stat(dir); os.IsNotExist(err) {
		return nil
	}
	for _, f := range files {
		if err := os.Remove(filepath.Join(dir, f.Name)); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	return os.Remove(dir)
}
