package kennel

import (
	"fmt"
	"math"
	"strconv"
)

// The table words for large shares, nearest wins. Below fewestWords a share is "1 in N".
var largeShares = []struct {
	share Share
	words string
}{
	{1.0 / 2, "about half"},
	{2.0 / 3, "about 2 in 3"},
	{3.0 / 4, "about 3 in 4"},
	{9.0 / 10, "about 9 in 10"},
	{1, "all of it"},
}

const (
	fewestWords = 5.0 / 12 // half way between 1 in 3 and a half
	noneWords   = 1.0 / 1000
	roundFrom   = 20 // beyond 1 in 20 nobody counts single hairs: 1 in 25, 1 in 30 ..
	roundTo     = 5
)

// ShareWords says a share as it is said at the table: "about 1 in 17", "about half", "about 2 in 3", "all of it".
// Below 1 in 1000 it is "none".
func ShareWords(s Share) string {
	switch {
	case !(s >= noneWords):
		return "none"
	case s >= fewestWords:
		nearest := largeShares[0]
		for _, l := range largeShares {
			if math.Abs(float64(l.share-s)) < math.Abs(float64(nearest.share-s)) {
				nearest = l
			}
		}
		return nearest.words
	}
	n := oneIn(float64(s))
	if n > roundFrom {
		n = int(math.Round(1/float64(s)/roundTo)) * roundTo
	}
	return fmt.Sprintf("about 1 in %d", n)
}

// oneIn is the n of 3, 4, .. whose 1/n lies nearest to s.
func oneIn(s float64) int {
	n := max(3, int(1/s))
	if s-1/float64(n+1) < 1/float64(n)-s {
		n++
	}
	return n
}

// ScoreWords is a readiness in whole points, rounded, but never up to ReadyScore: a coat that is short of it does not
// read as enough.
func ScoreWords(s Score) string {
	whole := math.Round(float64(s))
	if s < ReadyScore {
		whole = min(whole, float64(ReadyScore)-1)
	}
	return fmt.Sprintf("%.0f", whole)
}

// Number is the shortest decimal that reads back as x: 12, 0.6, 1.25.
func Number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
