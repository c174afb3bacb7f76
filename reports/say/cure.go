package say

import (
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Cure is what would bring a dog in coat, with its minutes and the last day on which it helps: "ears, 30 min, by 27 February".
func Cure(c *optimize.Cure, today kennel.Date) string {
	if c == nil {
		return ""
	}
	return Plain(c.Words(today))
}

// Advice is whether to enter, in a word or two: "enter", "do the ears".
func Advice(e optimize.Entry) string {
	if e.Advice != optimize.AdviceWork || e.Cure == nil {
		return string(e.Advice)
	}
	var areas []string
	for _, w := range e.Cure.Work {
		areas = append(areas, Plain(string(w.Area)))
	}
	return "do the " + strings.Join(areas, " and ")
}
