package say

import (
	"fmt"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Range is the range of a readiness, "81 to 98", as sessions may be missed and a dog may grow slower or faster than thought; empty when there is none.
func Range(s optimize.ShowReadiness) string {
	if s.High <= 0 {
		return ""
	}
	return kennel.ScoreWords(s.Low) + " to " + kennel.ScoreWords(s.High)
}

// Worst names the worst area with its reason.
func Worst(area kennel.AreaName, score kennel.Score, why string) string {
	if area == "" {
		return ""
	}
	if score >= AllRight {
		return "every area right"
	}
	s := fmt.Sprintf("worst %s %s", Plain(string(area)), kennel.ScoreWords(score))
	if why != "" {
		s += ": " + Plain(why)
	}
	return s
}

// WorstAt names the worst area at a show. It is that of a plan of which all is done; so where missed work is expected to cost some
// points, it says first how ready the dog is then: "all done 84, worst forechest 79".
func WorstAt(s optimize.ShowReadiness) string {
	worst := Worst(s.WorstArea, s.WorstScore, s.Why)
	if s.Followed-s.Score < followedTold {
		return worst
	}
	all := "all done " + kennel.ScoreWords(s.Followed)
	if worst == "" {
		return all
	}
	return all + ", " + worst
}

// followedTold are the points from which it is said what a dog would be if all were done.
const followedTold = 2.5

// NotDone says which of a dog's duties before a show find no time: "not done: feet, belly"; empty when all do.
func NotDone(s optimize.ShowReadiness) string {
	if len(s.NotDone) == 0 {
		return ""
	}
	return "not done: " + Plain(strings.Join(s.NotDone, "; "))
}

// AllRight is the score from which the worst area prints as 100, so that there is none to name.
const AllRight = 99.5

// WorstArea is the area with the least score, the first of the pattern's order among equals.
func WorstArea(o optimize.Outlook) optimize.AreaOutlook {
	var worst optimize.AreaOutlook
	for i, a := range o.Areas {
		if i == 0 || a.Score < worst.Score {
			worst = a
		}
	}
	return worst
}
