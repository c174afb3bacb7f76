// Package text reads and writes the kennel file: strict YAML with the keys of the trade. Whatever is wrong with a
// file is a *kennel.InputError that says where it stands.
package text

import (
	"cmp"
	"strings"

	"tuckup/kennel"
)

// Read reads a kennel file. name is the file's name for messages. It returns the kennel and where each of its
// fields stands, so that a trouble found later can be placed too.
//
// What the file leaves out is 1 for weight, chance, days, priority, growth and pace, 12 minutes of set-up, sessions
// of 75 minutes twice a week, and mm; a coat without a texture has its pattern's. Everything that can be checked
// without coat patterns is checked: the result passes kennel.Check but for the patterns. The error is a
// *kennel.InputError, and the kennel is then empty.
func Read(name string, data []byte) (kennel.Kennel, Positions, error) {
	root, err := parse(data)
	if err != nil {
		err.File = name
		return kennel.Kennel{}, Positions{}, err
	}
	r := reader{places: Positions{file: name, at: map[string]place{}}}
	k := r.kennel(root)
	if r.err != nil {
		r.err.File = name
		return kennel.Kennel{}, Positions{}, r.err
	}
	if err := firstProblem(k, r.places); err != nil {
		return kennel.Kennel{}, Positions{}, err
	}
	return k, r.places, nil
}

// firstProblem is the first trouble with what the kennel says, patterns left aside.
func firstProblem(k kennel.Kennel, at Positions) error {
	for _, p := range kennel.Problems(k, nil) {
		if !strings.HasSuffix(p.Field, ".pattern") {
			return at.locate(p)
		}
	}
	for _, p := range kennel.TooLong(k, func(string) bool { return false }) {
		return at.locate(p)
	}
	return nil
}

// before orders troubles by their place in the file.
func before(a, b *kennel.InputError) int {
	return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
}
