// Package patterns holds the coat patterns: how each kind of hard coat behaves and is worked, every number with
// its range, its source and how well it is attested. A pattern file reads
//
//	patterns:
//	  - name: NAME
//	    extends: NAME            # optional: take that pattern and change only what follows
//	    title: TITLE
//	    texture: hard            # hard, fine or soft
//	    legs: short              # long, or short; optional, decides how the dog is drawn
//	    roll_most: FIGURE        # share of an area
//	    look: FIGURE             # minutes of looking over the whole dog in every session; optional, a terrier's
//	    care: {minutes: FIGURE, every: FIGURE} # of kept hair, every so many weeks; optional
//	    areas:
//	      back:
//	        work: jacket         # jacket, close or furnishings
//	        kept: true           # hair that is kept and never pulled; optional, always so of furnishings
//	        weight: FIGURE       # part of the dog's readiness; all of a pattern's sum to 1
//	        ready: FIGURE        # weeks
//	        hold: FIGURE         # weeks
//	        grip: FIGURE         # weeks
//	        minutes: FIGURE
//	        finish: {weeks: FIGURE, share: FIGURE}
//	        show_length: FIGURE  # millimetres, optional
//
// where FIGURE is {value: 11, low: 10, high: 12, source: C1, mark: seen}. A source is a row of sources.yaml,
// several rows ("C3, C4") or free words; a figure without a source is common practice. In a file of the reader's
// own, a FIGURE may also be a bare number.
package patterns

import (
	"embed"
	"sync"

	"tuckup/kennel"
)

//go:embed *.yaml
var files embed.FS

const sourcesFile = "sources.yaml"

// Builtin returns the patterns that come with the program. They are the caller's own, to change.
func Builtin() (kennel.Patterns, error) {
	all, err := readBuiltin()
	return all.Clone(), err
}

// readBuiltin reads what is in the program once.
var readBuiltin = sync.OnceValues(func() (kennel.Patterns, error) {
	rows, err := builtinSources()
	if err != nil {
		return nil, err
	}
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil, err
	}
	all := kennel.Patterns{}
	for _, e := range entries {
		if e.Name() == sourcesFile {
			continue
		}
		data, err := files.ReadFile(e.Name())
		if err != nil {
			return nil, err
		}
		r := reader{file: e.Name(), rows: rows, complete: true}
		if all, err = r.read(data, all); err != nil {
			return nil, err
		}
	}
	return all, nil
})

// Names lists the names of a set of patterns, sorted.
func Names(all kennel.Patterns) []string { return all.Names() }

// Read returns base with the patterns of a file of the reader's own added to it; a pattern of the same name is
// replaced. base itself is not changed. name is the file's name for messages; every error is a
// *kennel.InputError that says where the trouble stands and what to try.
func Read(name string, data []byte, base kennel.Patterns) (kennel.Patterns, error) {
	rows, err := builtinSources()
	if err != nil {
		return nil, err
	}
	r := reader{file: name, rows: rows}
	return r.read(data, base)
}
