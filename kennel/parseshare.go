package kennel

import "strings"

// tryShare is what to write where a part of an area is expected.
const tryShare = "a part like 1/17, 1 in 17, 0.06 or 6%, or all"

// ParseShare reads a part of an area as it is said or printed: 1/17, 1 in 17, about 1 in 17, 0.06, 0,06, 6%, half, all;
// 0 and none are 0. The error is an *InputError.
func ParseShare(said string) (Share, error) {
	if v, ok := shareOf(said); ok && v >= 0 && v <= 1 {
		return v, nil
	}
	return 0, &InputError{Field: "share", Value: said, What: "is not a part of an area", Try: tryPart(said, tryShare)}
}

// tryPart names the part that a number from 1 to 100 may have been meant for.
func tryPart(said, otherwise string) string {
	if v, ok := decimal(spoken(said)); ok && v > 1 && v <= 100 {
		return strings.TrimSpace(spoken(said)) + "%, or " + otherwise
	}
	return otherwise
}

// shareWords are words for parts.
var shareWords = map[string]Share{"all": 1, "all of it": 1, "whole": 1, "half": 0.5, "none": 0}

func shareOf(s string) (Share, bool) {
	w := strings.TrimPrefix(spoken(s), "about ")
	if v, ok := shareWords[w]; ok {
		return v, true
	}
	for _, between := range []string{"/", " in "} {
		if top, bottom, ok := strings.Cut(w, between); ok {
			a, okA := decimal(top)
			b, okB := decimal(bottom)
			return Share(a / b), okA && okB && b > 0
		}
	}
	if p, ok := strings.CutSuffix(w, "%"); ok {
		v, ok := decimal(p)
		return Share(v / 100), ok
	}
	v, ok := decimal(w)
	return Share(v), ok
}

// ParseChance reads how likely it is that a show is entered: 0.6, 0,6, 60%, 1 in 2, 1; from 0 to 1. The error is an
// *InputError.
func ParseChance(said string) (float64, error) {
	if v, ok := shareOf(said); ok && v >= 0 && v <= 1 {
		return float64(v), nil
	}
	return 0, &InputError{
		Field: "chance", Value: said, What: "is not a chance", Try: tryPart(said, "a chance like 0.6 or 60%; 1 = entered"),
	}
}
