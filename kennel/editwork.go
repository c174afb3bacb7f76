package kennel

import (
	"slices"
	"strings"
)

// SaidWork is work as it was said: whose, what was pulled, and how long it took.
type SaidWork struct {
	Dog     string
	Areas   []Pulled
	Minutes Minutes // 0 = not said
}

// ParseWork reads work as it is said, with the dog first: Sorrel back 1/17 ribs 1/12, 50 min. The dog is one of the
// names, without case and by unique beginning. The error is an *InputError.
func ParseWork(said []string, dogs []string) (w SaidWork, err error) {
	words := strings.Fields(strings.ReplaceAll(strings.Join(said, " "), ",", " , "))
	if len(words) == 0 {
		return w, &InputError{Field: "dog", What: "is missing", Try: "the dog first, like Sorrel back 1/17"}
	}
	n := dogWords(words, dogs)
	if w.Dog, err = Match("dog", strings.Join(words[:n], " "), dogs); err != nil {
		return w, err
	}
	words, w.Minutes = takeMinutes(words[n:])
	w.Areas, err = ParsePulled(slices.DeleteFunc(words, func(s string) bool { return s == "," }))
	return w, err
}

// dogWords is how many of the words name the dog: as many as spell one of the names, else one.
func dogWords(words, dogs []string) int {
	for n := len(words); n > 1; n-- {
		name := folded(strings.Join(words[:n], " "))
		if slices.ContainsFunc(dogs, func(d string) bool { return folded(strings.Join(strings.Fields(d), " ")) == name }) {
			return n
		}
	}
	return 1
}

// takeMinutes takes the minutes out of the words: a number with min behind it, or a stretch of time behind a comma.
func takeMinutes(words []string) (rest []string, m Minutes) {
	for i := 0; i < len(words); i++ {
		next := ""
		if i+1 < len(words) {
			next = folded(words[i+1])
		}
		minutes, err := ParseMinutes(words[i])
		_, share := shareOf(words[i])
		switch {
		case err == nil && (next == "min" || next == "minutes" || next == "m"):
			m = minutes
			i++
		case err == nil && (!share || i > 0 && words[i-1] == ","):
			m = minutes
		default:
			rest = append(rest, words[i])
		}
	}
	return rest, m
}
