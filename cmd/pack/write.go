package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"time"
)

// packedOn is the date of every file of an archive, so that the same program gives the same bytes. Archives can't hold none.
var packedOn = time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)

const (
	plainMode   = 0o644
	programMode = 0o755
)

// write writes an archive whose name has the ending. All files are in a folder of their own.
func write(w io.Writer, ending, folder string, files []file) error {
	if ending == ".zip" {
		return writeZip(w, folder, files)
	}
	g := gzip.NewWriter(w)
	t := tar.NewWriter(g)
	for _, f := range files {
		h := tar.Header{Name: folder + "/" + f.name, Mode: plainMode, Size: int64(len(f.data)), ModTime: packedOn, Format: tar.FormatPAX}
		if f.runs {
			h.Mode = programMode
		}
		if err := t.WriteHeader(&h); err != nil {
			return err
		}
		if _, err := t.Write(f.data); err != nil {
			return err
		}
	}
	return errors.Join(t.Close(), g.Close())
}

func writeZip(w io.Writer, folder string, files []file) error {
	z := zip.NewWriter(w)
	for _, f := range files {
		h := zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: packedOn}
		h.SetMode(plainMode)
		if f.runs {
			h.SetMode(programMode) // macOS keeps it when it unpacks
		}
		to, err := z.CreateHeader(&h)
		if err != nil {
			return err
		}
		if _, err := to.Write(f.data); err != nil {
			return err
		}
	}
	return z.Close()
}

// read is what an archive of the ending holds, without its folder, and which of it runs.
func read(data io.ReaderAt, size int64, ending, folder string) (files map[string]file, err error) {
	files = map[string]file{}
	add := func(name string, mode int64, r io.Reader) error {
		data, err := io.ReadAll(r)
		if err != nil {
			return err
		}
		if len(name) <= len(folder)+1 || name[:len(folder)+1] != folder+"/" {
			return fmt.Errorf("%s is not in the folder %s", name, folder)
		}
		name = name[len(folder)+1:]
		files[name] = file{name, data, mode&0o111 != 0}
		return nil
	}
	if ending == ".zip" {
		z, err := zip.NewReader(data, size)
		if err != nil {
			return nil, err
		}
		for _, f := range z.File {
			r, err := f.Open()
			if err != nil {
				return nil, err
			}
			if err := errors.Join(add(f.Name, int64(f.Mode().Perm()), r), r.Close()); err != nil {
				return nil, err
			}
		}
		return files, nil
	}
	g, err := gzip.NewReader(io.NewSectionReader(data, 0, size))
	if err != nil {
		return nil, err
	}
	for t := tar.NewReader(g); ; {
		h, err := t.Next()
		if errors.Is(err, io.EOF) {
			return files, nil
		}
		if err != nil {
			return nil, err
		}
		if err := add(h.Name, h.Mode, t); err != nil {
			return nil, err
		}
	}
}
