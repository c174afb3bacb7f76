package html

import (
	"fmt"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// AdviceOn puts the advice before entries close into sentences for a dog's page. They say nothing of other dogs: an owner
// is not told whose hours an entry would take.
func AdviceOn(all []optimize.Entry, today kennel.Date) []Advice {
	var out []Advice
	for _, e := range all {
		var b strings.Builder
		fmt.Fprintf(&b, "%s: %s on %s", say.FirstUpper(say.Advice(e)), e.Show, say.Day(e.On, today))
		if e.Closes != 0 {
			fmt.Fprintf(&b, ", entries close %s", say.Day(e.Closes, today))
		}
		if e.WorstArea != "" {
			fmt.Fprintf(&b, "; readiness %s, %s likely to be in coat", kennel.ScoreWords(e.Score), say.Percent(e.Likely))
			if e.Score < kennel.ReadyScore {
				fmt.Fprintf(&b, " (%s: %s)", e.WorstArea, e.Why)
			}
			if e.Cure != nil {
				fmt.Fprintf(&b, "; in coat with %s", say.Cure(e.Cure, today))
			}
		}
		out = append(out, Advice{e.Dog, b.String()})
	}
	return out
}
