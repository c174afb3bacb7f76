package kennel

import "sort"

// Nearest lists up to n of the names that look most like name, most alike first. Names equally alike keep their
// order.
func Nearest(name string, names []string, n int) []string {
	near := append([]string(nil), names...)
	sort.SliceStable(near, func(i, j int) bool { return edits(name, near[i]) < edits(name, near[j]) })
	return near[:min(n, len(near))]
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
