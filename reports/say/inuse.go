package say

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Slipped says what a plan had on days gone by and was not done, and when it is caught up: "Behind: Moss's skirt line, 40 min; caught up
// by 14 March." Empty where nothing slipped. More than a few areas are counted.
func Slipped(u *optimize.InUse, today kennel.Date) string {
	if u == nil || len(u.Behind) == 0 {
		return ""
	}
	named := u.Behind[:min(mostSlipped, len(u.Behind))]
	sentences := make([]string, 0, len(named)+1)
	for _, b := range named {
		when := "not in this plan"
		if b.CaughtUp != 0 {
			when = "caught up by " + WithYear(b.CaughtUp, today, "2 January")
		}
		sentences = append(sentences, fmt.Sprintf("%s's %s, %s; %s.", Plain(b.Dog), Plain(string(b.Area)), Minutes(b.Minutes), when))
	}
	if rest := u.Behind[len(named):]; len(rest) > 0 {
		var sum kennel.Minutes
		last, never := kennel.Date(0), 0
		for _, b := range rest {
			sum += b.Minutes
			if last = max(last, b.CaughtUp); b.CaughtUp == 0 {
				never++
			}
		}
		when := "caught up by " + WithYear(last, today, "2 January")
		if never > 0 {
			when = fmt.Sprintf("%d of them not in this plan", never)
		}
		sentences = append(sentences, fmt.Sprintf("And %s, %s; %s.", Plural(len(rest), "area"), Minutes(sum), when))
	}
	return "Behind: " + strings.Join(sentences, " ")
}

// mostSlipped is how many areas that slipped are named.
const mostSlipped = 4

// Since says what has changed since a plan in use was made, and when its days are over; empty where nothing has.
func Since(u *optimize.InUse, today kennel.Date) string {
	if u == nil {
		return ""
	}
	var sentences []string
	if u.Ended(today) {
		sentences = append(sentences, fmt.Sprintf("The days of this plan ended on %s.", Day(u.To, today)))
	}
	if len(u.Since) > 0 {
		sentences = append(sentences, fmt.Sprintf("Changed since this plan was made on %s: %s.", Day(u.From, today), strings.Join(Plains(u.Since), "; ")))
	}
	return strings.Join(sentences, " ")
}

// Beside is all that is said beside a plan, what slipped first, each with what plans again where that helps. again is how to do that, like
// "tuckup replan plans again."
func Beside(u *optimize.InUse, today kennel.Date, again string) string {
	since := Since(u, today)
	if since != "" && again != "" {
		since += " " + again
	}
	return strings.Join(slices.DeleteFunc([]string{Slipped(u, today), since}, func(s string) bool { return s == "" }), " ")
}

// Taken says of a plan that was taken what it lays out: "6 sessions from Mon 4 Jan to Sun 17 Jan".
func Taken(r optimize.Result) string {
	return fmt.Sprintf("%s from %s to %s", Plural(len(r.SessionsAhead()), "session"), Day(r.On, r.On), Day(max(r.LastDay(), r.On), r.On))
}
