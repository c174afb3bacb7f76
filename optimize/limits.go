package optimize

import (
	"slices"
	"strings"
)

// limit is one bound on a week's minutes: the work of the classes in set is at most capacity.
type limit struct {
	set      classSet // never holds duties: their minutes are taken off
	capacity float64
	names    string // the hands that have these minutes
	strip    bool   // of pulling only, so a bound of hand load
}

// limits are the bounds under which a week's work of the classes in used, with so many minutes of duties, can be
// given to the hands so that none works above its hours, pulls above its hand load, or does what it is not let
// near. Giving work to hands is a flow from classes through each pair's pulling time to its working time, so by
// the max-flow min-cut theorem the bounds
//
//	minutes(S) <= sum over hands of hands.share(S)   for every set S of classes
//
// are all that is needed, and each is needed unless others imply it. Duties that take more than the time beside breaks have
// hands of their own (onlyDuties): no more than that time is then lost to the rest.
func limits(week []hands, used classSet, duties float64) []limit {
	used &^= classDuties.set()
	beside, _ := dutyTime(week)
	duties = min(duties, beside)
	var all []limit
	for s := classSet(1); s < 1<<classDuties; s++ {
		if s&^used == 0 {
			all = append(all, newLimit(week, s, duties))
		}
	}
	slices.SortStableFunc(all, func(a, b limit) int { return a.set.size() - b.set.size() })
	for i := 0; i < len(all); {
		if implied(all, i) {
			all = slices.Delete(all, i, i+1)
		} else {
			i++
		}
	}
	return all
}

// newLimit is the bound on s, alone or together with the duties, whichever leaves less.
func newLimit(week []hands, s classSet, duties float64) limit {
	alone, with := 0.0, -duties
	for _, h := range week {
		alone += h.share(s)
		with += h.share(s | classDuties.set())
	}
	counted := s
	capacity := alone
	if with < alone {
		counted, capacity = s|classDuties.set(), with
	}
	var names []string
	for _, h := range week {
		if h.share(counted) > 0 {
			names = append(names, h.name)
		}
	}
	return limit{
		set: s, capacity: max(0, capacity), names: strings.Join(names, " and "),
		strip: counted&timed == 0,
	}
}

// implied reports whether limit i follows from others: a wider set bound as low or lower, or two parts whose
// bounds add up to no more.
func implied(all []limit, i int) bool {
	l := all[i]
	for j, w := range all {
		if j != i && l.set&^w.set == 0 && w.capacity <= l.capacity {
			return true
		}
		if w.set != l.set && w.set&^l.set == 0 {
			for _, v := range all {
				if v.set == l.set&^w.set && v.capacity+w.capacity <= l.capacity {
					return true
				}
			}
		}
	}
	return false
}
