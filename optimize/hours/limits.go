package hours

import (
	"math"
	"slices"
	"strings"
)

// Limit is one bound on a week's minutes: the work of the classes in Set is at most Capacity.
type Limit struct {
	Set      ClassSet // never holds duties: their minutes are taken off
	Capacity float64
	Names    string // the hands that have these minutes
	Strip    bool   // of pulling only, so a bound of hand load
}

// Limits are the bounds under which a week's work of the classes in used, beside what is fixed, can be
// given to the hands so that none works above its hours, pulls above its hand load, or does what it may not
// do. Giving work to hands is a flow from classes through each pair's pulling time to its working time, so by
// the max-flow min-cut theorem the bounds
//
//	minutes(S) <= sum over hands of hands.share(S)   for every set S of classes
//
// are all that is needed, and each is needed unless others imply it. Duties that take more than the time beside breaks have
// hands of their own (onlyDuties).
func Limits(week []Hands, used ClassSet, what Fixed) []Limit {
	used &^= fixed
	left := onlyDuties(week, what.Duties)
	var all []Limit
	for s := ClassSet(1); s < 1<<ClassCare; s++ {
		if s&^used == 0 {
			all = append(all, newLimit(week, left, s, what))
		}
	}
	slices.SortStableFunc(all, func(a, b Limit) int { return a.Set.size() - b.Set.size() })
	for i := 0; i < len(all); {
		if implied(all, i) {
			all = slices.Delete(all, i, i+1)
		} else {
			i++
		}
	}
	return all
}

// newLimit is the bound on s, alone or together with some of what is fixed, whichever leaves least. left are the hands of the week
// with what its duties leave them to do.
func newLimit(week, left []Hands, s ClassSet, what Fixed) Limit {
	var counted ClassSet
	capacity := math.Inf(1)
	for _, with := range fixedSets() {
		if there := shares(left, s|with) - what.of(with); there < capacity {
			counted, capacity = s|with, there
		}
	}
	var names []string
	for _, h := range week {
		if h.share(counted) > 0 {
			names = append(names, h.Name)
		}
	}
	return Limit{
		Set: s, Capacity: max(0, capacity), Names: strings.Join(names, " and "),
		Strip: counted&timed == 0,
	}
}

// implied reports whether limit i follows from others: a wider set bound as low or lower, or two parts whose
// bounds add up to no more.
func implied(all []Limit, i int) bool {
	l := all[i]
	for j, w := range all {
		if j != i && l.Set&^w.Set == 0 && w.Capacity <= l.Capacity {
			return true
		}
		if w.Set != l.Set && w.Set&^l.Set == 0 {
			for _, v := range all {
				if v.Set == l.Set&^w.Set && v.Capacity+w.Capacity <= l.Capacity {
					return true
				}
			}
		}
	}
	return false
}
