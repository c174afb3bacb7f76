package optimize

import (
	"cmp"
	"context"
	"slices"

	"tuckup/kennel"
)

// readinessChanges are all dogs and shows of either plan; shows that were over when the later plan was made are left out.
func readinessChanges(before, after Result) (all []ReadinessChange) {
	type dogShow struct {
		dog, show string
		on        kennel.Date
	}
	at := map[dogShow]int{}
	entry := func(s ShowReadiness) *ReadinessChange {
		key := dogShow{s.Dog, s.Show, s.On}
		i, ok := at[key]
		if !ok {
			i = len(all)
			at[key] = i
			all = append(all, ReadinessChange{Dog: s.Dog, Show: s.Show, On: s.On})
		}
		return &all[i]
	}
	for _, s := range before.Readiness {
		if s.On >= after.On {
			r := entry(s)
			r.InBefore, r.Before, r.ChanceBefore = true, s.Score, s.Chance
		}
	}
	for _, s := range after.Readiness {
		r := entry(s)
		r.InAfter, r.After, r.ChanceAfter = true, s.Score, s.Chance
	}
	slices.SortStableFunc(all, func(a, b ReadinessChange) int {
		return cmp.Or(cmp.Compare(a.On, b.On), cmp.Compare(a.Show, b.Show), cmp.Compare(a.Dog, b.Dog))
	})
	return all
}

// MissedWeek says what it costs when nobody works in the week of the day: the plan as it is against the one made anew
// without that week. Gain is then what is lost in points, and Pay who pays for it. Errors are those of Plan.
func MissedWeek(ctx context.Context, before Result, opt Options, day kennel.Date) (Changes, error) {
	k := before.Kennel
	k.Hands = slices.Clone(k.Hands)
	week := kennel.Span{From: day.Monday(), To: day.Monday().AddDays(kennel.DaysAWeek - 1), Why: "missed"}
	for i := range k.Hands {
		k.Hands[i].Away = append(slices.Clone(k.Hands[i].Away), week)
	}
	after, err := Plan(ctx, k, before.Patterns, opt)
	if err != nil {
		return Changes{}, err
	}
	return Compare(before, after), nil
}
