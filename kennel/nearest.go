package kennel

import (
	"sort"
	"strings"
	"unicode"
)

// Nearest lists up to n of the names that look most like name, most alike first: those that begin with it, signs left
// aside, before all others. Names equally alike keep their order. Its work grows as the length of the names does.
func Nearest(name string, names []string, n int) []string {
	near := append([]string(nil), names...)
	short, letters := begins(name), lettersOf(name)
	far := map[string]int{}
	for _, x := range near {
		far[x] = edits(short, begins(x))
		if letters == "" || !strings.HasPrefix(lettersOf(x), letters) {
			far[x] += mostLetters
		}
	}
	sort.SliceStable(near, func(i, j int) bool { return far[near[i]] < far[near[j]] })
	return near[:min(n, len(near))]
}

// mostLetters are as many letters of a name as are compared.
const mostLetters = 120

// begins is the beginning of a name, as long as it is compared.
func begins(name string) string {
	for i := range name {
		if i >= mostLetters {
			return name[:i]
		}
	}
	return name
}

// lettersOf are the letters and digits of a name, small.
func lettersOf(name string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) {
			return unicode.ToLower(c)
		}
		return -1
	}, begins(name))
}

// edits is the least number of letters to change, add or leave out to make b of a (Levenshtein distance).
func edits(a, b string) int {
	from, to := []rune(a), []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i, f := range from {
		diagonal := row[0]
		row[0] = i + 1
		for j, t := range to {
			change := diagonal
			if f != t {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(to)]
}
