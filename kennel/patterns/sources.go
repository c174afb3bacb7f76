package patterns

import (
	"slices"
	"strings"
	"sync"

	"tuckup/kennel"
)

// source is one row of the list of sources.
type source struct {
	words string // with the row's id at the end, as figures carry them
	mark  kennel.Mark
}

// sources are the rows by id and by their words.
type sources map[string]source

// marks are all marks from best to weakest.
var marks = []kennel.Mark{
	kennel.MarkSeen, kennel.MarkWithin, kennel.MarkSecondHand, kennel.MarkMemory, kennel.MarkDerived, kennel.MarkPractice,
}

// rank is a mark's place from best (0) to weakest, or -1 for no mark.
func rank(m kennel.Mark) int {
	for i, k := range marks {
		if k == m {
			return i
		}
	}
	return -1
}

var builtinSources = sync.OnceValues(func() (sources, error) {
	data, err := files.ReadFile(sourcesFile)
	if err != nil {
		return nil, err
	}
	return readSources(data)
})

func readSources(data []byte) (sources, error) {
	r := reader{file: sourcesFile}
	rows := sources{}
	top := r.fields(r.root(data), "", "sources")
	for _, f := range r.entries(top["sources"], "sources") {
		row := r.fields(f.node, f.path, "fact", "source", "mark")
		r.need(row, f, "fact", "source", "mark")
		r.text(row["fact"], f.path+".fact")
		s := source{
			words: r.text(row["source"], f.path+".source") + " [" + f.key + "]",
			mark:  kennel.Mark(r.oneOf(row["mark"], f.path+".mark", sourceMarks())),
		}
		rows[f.key], rows[s.words] = s, s
	}
	return rows, r.failed()
}

// sourceMarks are the marks that a source may have: what lies within a range is a figure's.
func sourceMarks() []string {
	return slices.DeleteFunc(markWords(), func(m string) bool { return m == string(kennel.MarkWithin) })
}

func markWords() []string {
	words := make([]string, len(marks))
	for i, m := range marks {
		words[i] = string(m)
	}
	return words
}

// find looks up the row or rows ("C3, C4") that text names, by id or by words. Several rows are as good as the
// weakest of them. Text that names no row stands for itself.
func (s sources) find(text string) (source, bool) {
	if text == string(kennel.MarkPractice) {
		return source{words: text, mark: kennel.MarkPractice}, true
	}
	for _, separator := range []string{", ", "; "} {
		var found source
		known := true
		for i, part := range strings.Split(text, separator) {
			row, ok := s[strings.TrimSpace(part)]
			if !ok {
				known = false
				break
			}
			if i == 0 {
				found = row
				continue
			}
			found.words += "; " + row.words
			if rank(row.mark) > rank(found.mark) {
				found.mark = row.mark
			}
		}
		if known {
			return found, true
		}
	}
	return source{words: text}, false
}
