package text

import (
	"errors"
	"strings"

	"tuckup/kennel"
)

// Positions says where each field of a kennel file stands, by its path like dogs[2].coat.growth.
type Positions struct {
	file string
	at   map[string]place
}

// place is where a value starts, both from 1, and a scalar's words as they stand there.
type place struct {
	line, column int
	written      string
}

// Locate adds file, line and column to a *kennel.InputError that names a field. A field that the file leaves out
// is placed where the thing that should hold it starts. Other errors come back as they are.
func (p Positions) Locate(err error) error {
	var in *kennel.InputError
	if !errors.As(err, &in) || in.Line > 0 {
		return err
	}
	return p.locate(in)
}

func (p Positions) locate(in *kennel.InputError) *kennel.InputError {
	placed := *in
	placed.File = p.file
	found := false
	for path := in.Field; ; path = parent(path) {
		var at place
		if at, found = p.at[path]; found {
			placed.Line, placed.Column = at.line, at.column
			if path == in.Field && at.written != "" {
				placed.Value = shortened(at.written)
			}
			break
		}
		if path == "" {
			break
		}
	}
	return &placed
}

// parent is the path of what holds the field: dogs[2] for dogs[2].name, dogs for dogs[2], "" for dogs.
func parent(path string) string {
	return path[:max(0, strings.LastIndexAny(path, ".["))]
}

// shortened keeps a value readable in a message.
func shortened(s string) string {
	return kennel.Shortened(s)
}
