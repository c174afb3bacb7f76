package kennel

import (
	"slices"
	"strings"
)

// SaidWork is work as it was said: whose, what was pulled, and how long it took. An area with a share of 0 was left.
type SaidWork struct {
	Dog     string
	Areas   []Pulled
	Minutes Minutes // 0 = not said
}

// ParseWork reads work as it is said, with the dog first: Sorrel back 1/17 ribs 1/12, 50 min. The dog is one of the
// names, without case and by unique beginning. The error is an *InputError.
func ParseWork(said []string, dogs []string) (w SaidWork, err error) {
	words := phrases(strings.Fields(apart(strings.Join(said, " "))))
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
	most, names := 1, map[string]bool{}
	for _, d := range dogs {
		w := strings.Fields(d)
		most = max(most, len(w))
		names[folded(strings.Join(w, " "))] = true
	}
	for n := min(most, len(words)); n > 1; n-- {
		if names[folded(strings.Join(words[:n], " "))] {
			return n
		}
	}
	return 1
}

// takeMinutes takes the minutes out of the words: a stretch of time with its unit, or one behind a comma.
func takeMinutes(words []string) (rest []string, m Minutes) {
	for i, w := range words {
		minutes, err := ParseMinutes(w)
		_, share := shareOf(w)
		if err == nil && (!share || i > 0 && words[i-1] == ",") {
			m = minutes
		} else {
			rest = append(rest, w)
		}
	}
	return rest, m
}

// ParseLook reads how the long layer of an area was seen: back thin, skirt line none, ribs as expected. The error is an *InputError.
func ParseLook(said string) (area AreaName, long LongSeen, err error) {
	words := strings.Fields(said)
	if n := len(words); n > 1 {
		as := n > 2 && folded(words[n-2]) == "as"
		seen := words[n-1]
		if words = words[:n-1]; as {
			words = words[:n-2]
		}
		if folded(seen) == "expected" {
			seen = string(LongExpected)
		}
		if seen, err = Match("long layer", seen, namesOf(LongSeens(), func(l LongSeen) string { return string(l) })); err != nil {
			return "", "", err
		}
		area, err = MatchArea(strings.Join(words, " "))
		return area, LongSeen(seen), err
	}
	return "", "", &InputError{
		Field: "long layer", Value: said, What: "does not say an area and how its long layer was seen",
		Try: "back thin, with none, thin, as expected or thick",
	}
}
