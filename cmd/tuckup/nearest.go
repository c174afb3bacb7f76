package main

// farthest is how many letters a word may be off and still be taken for a slip of the keys.
const farthest = 2

// nearest is the choice that word most likely meant, or "" when none is near. Among equals it is the first.
func nearest(word string, choices []string) string {
	best, found := farthest+1, ""
	for _, c := range choices {
		if d := distance(word, c); d < best {
			best, found = d, c
		}
	}
	return found
}

// distance is the number of letters to put in, take out or change to get from a to b (Levenshtein 1966).
func distance(a, b string) int {
	from, to := []rune(a), []rune(b)
	row := make([]int, len(to)+1)
	for j := range row {
		row[j] = j
	}
	for i := range from {
		corner := row[0]
		row[0] = i + 1
		for j := range to {
			change := corner
			if from[i] != to[j] {
				change++
			}
			corner, row[j+1] = row[j+1], min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(to)]
}
