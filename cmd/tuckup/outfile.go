package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// outFile is a file to be written whole or not at all. The path "-" stands for standard output.
type outFile struct {
	path  string
	write func(io.Writer) error
}

// writeFiles writes every file beside its place first and then moves all of them there, so that a failure leaves
// what was there before.
func (a *app) writeFiles(files []outFile) error {
	var ready [][2]string
	defer func() {
		for _, r := range ready {
			os.Remove(r[0]) // gone already where the move was made
		}
	}()
	for _, f := range files {
		if f.path == "-" {
			continue
		}
		temp, err := writeBeside(f)
		if temp != "" {
			ready = append(ready, [2]string{temp, f.path})
		}
		if err != nil {
			return err
		}
	}
	for _, r := range ready {
		if err := os.Rename(r[0], r[1]); err != nil {
			return err
		}
	}
	for _, f := range files {
		if f.path == "-" {
			if err := f.write(a.out); err != nil {
				return err
			}
		}
	}
	return nil
}

// cannotWrite says why no file can be made at the path; what the person can mend is wrong use.
func cannotWrite(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return usage("a path in a folder that is there", "there is no folder for %q", path)
	case errors.Is(err, fs.ErrPermission):
		return usage("a path in a folder that you may write to", "%q can't be written: permission denied", path)
	}
	return err
}

// outMode is how files are written: the owner may change them, everybody may read them.
const outMode = 0o644

// writeBeside writes a file's content into a new file in the same folder and returns its name.
func writeBeside(f outFile) (string, error) {
	if info, err := os.Stat(f.path); err == nil && !info.Mode().IsRegular() {
		return "", usage("the path of a file, or - for standard output", "%q is not a file that can be replaced", f.path)
	}
	temp, err := os.CreateTemp(filepath.Dir(f.path), ".tuckup-*")
	if err != nil {
		return "", cannotWrite(f.path, err)
	}
	err = f.write(temp)
	if err == nil {
		err = temp.Chmod(outMode)
	}
	if e := temp.Close(); err == nil {
		err = e
	}
	return temp.Name(), err
}

// makeFolder makes the folder that files are to be written into, where there is none.
func makeFolder(path string) error {
	err := os.MkdirAll(path, folderMode)
	switch {
	case errors.Is(err, fs.ErrPermission):
		return usage("a folder that you may write to", "%q can't be made: permission denied", path)
	case errors.Is(err, syscall.ENOTDIR):
		return usage("the path of a folder", "%q can't be a folder: a file is in its way", path)
	}
	return err
}

// folderMode is how folders are made: the owner may change them, everybody may read them.
const folderMode = 0o755
