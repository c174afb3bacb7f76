package optimize

import (
	"cmp"
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
