package optimize

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/optimize/hours"
)

// Balance says how the planned hours are shared out among the dogs, beside what each of them needs.
type Balance struct {
	Dogs  []Served // in the kennel's order
	Worst string   // the dog that is served worst, empty when there is none
	Why   string   // the reason
}

// Served is one dog's part of the hours.
type Served struct {
	Dog string
	// Planned is what the plan gives the dog: pulling, set-ups and duties.
	Planned kennel.Hours
	// Need is what it takes to keep the whole coat rolling in the weeks that the dog is in hand: every area once round
	// in the time from the pull until its hair is too long, set-ups for a session a week or for as many as the work
	// fills, and the duties of the plan. It is a yardstick, not a bound.
	Need               kennel.Hours
	PartOfHours        float64      // Planned as a part of all dogs', 0 to 1
	PartOfNeed         float64      // Need as a part of all dogs', 0 to 1
	Score              kennel.Score // mean readiness: at its shows as they weigh in the plan, else over the weeks
	Shown              bool         // it has shows in these weeks
	LeastShow          string       // the show for which it is least ready; empty when there is none
	LeastScore         kennel.Score // and how ready it is for that
	leastArea, leastOf string
}

// BalanceOf is how a plan's hours are shared out.
func BalanceOf(r Result) (b Balance) {
	planned := map[string]kennel.Minutes{}
	duties := map[string]kennel.Minutes{}
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			planned[d.Dog] += d.Minutes + d.SetUp
		}
		for _, d := range w.Duties {
			planned[d.Dog] += d.Minutes
			duties[d.Dog] += d.Minutes
		}
	}
	var hours, need kennel.Hours
	for i, dog := range r.Kennel.Dogs {
		s := Served{
			Dog: dog.Name, Planned: kennel.Hours(planned[dog.Name] / minutesAnHour),
			Need: kennel.Hours((kennel.Minutes(weeksInHand(r, dog))*rollingWeek(r, dog) + duties[dog.Name]) / minutesAnHour),
		}
		s.score(r, i)
		hours += s.Planned
		need += s.Need
		b.Dogs = append(b.Dogs, s)
	}
	for i := range b.Dogs {
		b.Dogs[i].PartOfHours = part(b.Dogs[i].Planned, hours)
		b.Dogs[i].PartOfNeed = part(b.Dogs[i].Need, need)
	}
	b.worst(r)
	return b
}

func part(of, all kennel.Hours) float64 {
	if all <= 0 {
		return 0
	}
	return float64(of / all)
}

// weeksInHand counts the weeks of the plan in which the dog is in hand on some day from today on.
func weeksInHand(r Result, dog kennel.Dog) (n int) {
	for _, w := range r.Weeks {
		for day := max(w.Week, r.On); day < w.Week.AddDays(kennel.DaysAWeek); day++ {
			if hours.InHand(dog, day) {
				n++
				break
			}
		}
	}
	return n
}

// rollingWeek is how long a week's rolling of the whole coat takes with its set-ups.
func rollingWeek(r Result, dog kennel.Dog) kennel.Minutes {
	var pulling kennel.Minutes
	for _, a := range r.Patterns[dog.Pattern].Areas {
		if a.Kept {
			continue // never pulled
		}
		rule := a.RuleFor(dog.Coat.Growth)
		if !a.Kept {
			pulling += kennel.Minutes(a.Minutes.Value * factor(dog.Coat.Pace) * factor(r.Options.Pick) / float64(max(1, rule.Ready+rule.Hold)))
		}
	}
	if pulling == 0 || dog.Table.AWeek == 0 {
		return 0 // it can't be pulled
	}
	sessions := 1.0
	setUp := dog.SessionSetUp(r.Patterns[dog.Pattern], dog.Table.Minutes)
	if room := dog.Table.Minutes - setUp; room > 0 {
		sessions = min(max(1, float64(pulling/room)), float64(dog.Table.AWeek))
	}
	return pulling + kennel.Minutes(sessions)*setUp
}

// score is how ready the dog is, at its shows or over the weeks.
func (s *Served) score(r Result, dog int) {
	var sum, weights float64
	for _, x := range r.Readiness {
		if x.Dog != s.Dog {
			continue
		}
		w := 1.0
		for _, show := range r.Kennel.Shows {
			if show.Name == x.Show && show.On == x.On {
				w = showWorth(show)
			}
		}
		sum += w * float64(x.Score)
		weights += w
		if !s.Shown || x.Score < s.LeastScore {
			s.LeastShow, s.LeastScore, s.leastArea, s.leastOf = x.Show, x.Score, string(x.WorstArea), x.Why
		}
		s.Shown = true
	}
	if !s.Shown && dog < len(r.Outlooks) {
		for _, x := range r.Outlooks[dog].PlannedScores {
			sum += float64(x)
			weights++
		}
	}
	if weights > 0 {
		s.Score = whole(kennel.Score(sum / weights))
	}
}

// worst finds the dog that is served worst: of those that are shown the one least ready on the mean, as the plan's
// balance counts it; where none is shown, the least ready of all.
func (b *Balance) worst(r Result) {
	var worst *Served
	for i := range b.Dogs {
		s := &b.Dogs[i]
		if worst == nil || s.Shown && !worst.Shown || s.Shown == worst.Shown && s.Score < worst.Score {
			worst = s
		}
	}
	if worst == nil {
		return
	}
	b.Worst = worst.Dog
	if !worst.Shown {
		b.Why = fmt.Sprintf("it is for no show in these weeks; over them it is %s on the mean", kennel.ScoreWords(worst.Score))
		return
	}
	b.Why = fmt.Sprintf("for %s it is %s", worst.LeastShow, kennel.ScoreWords(worst.LeastScore))
	for _, c := range r.Cannot {
		if c.What == fmt.Sprintf("%s in coat for %s", worst.Dog, worst.LeastShow) {
			b.Why += ": " + c.Why
			return
		}
	}
	if worst.leastOf != "" {
		b.Why += fmt.Sprintf(" (%s: %s)", worst.leastArea, worst.leastOf)
	}
}
