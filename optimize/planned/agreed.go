package planned

import (
	"slices"

	"tuckup/kennel"
)

// Agreed is a dog's work of a week in the plan that a new one began with, and was held to where leaving it does not pay.
type Agreed struct {
	Week     kennel.Date // its Monday
	Dog      string
	Sessions int
	Areas    []kennel.Pulled // without what was done of it before the new plan was made
}

// less takes off what was done of it already.
func (a *Agreed) less(done []kennel.Work) {
	days := map[kennel.Date]bool{}
	for _, w := range done {
		if w.Dog != a.Dog || w.Duty != "" || w.On.Monday() != a.Week {
			continue
		}
		days[w.On] = true
		for _, x := range w.Areas {
			for i := range a.Areas {
				if a.Areas[i].Area == x.Area {
					a.Areas[i].Share = max(0, a.Areas[i].Share-x.Share)
				}
			}
		}
	}
	a.Sessions = max(0, a.Sessions-len(days))
	a.Areas = slices.DeleteFunc(a.Areas, func(x kennel.Pulled) bool { return x.Share <= 0 })
}

// AgreedFrom is the work that the plan has in so many weeks from a Monday on, for each of the dogs that it knows in each of these weeks
// that it has, and without what was done of it.
func (r Result) AgreedFrom(monday kennel.Date, weeks int, dogs []kennel.Dog, done []kennel.Work) (all []Agreed) {
	for n := range weeks {
		week := monday.AddDays(n * kennel.DaysAWeek)
		i := slices.IndexFunc(r.Weeks, func(w Week) bool { return w.Week == week })
		if i < 0 {
			break
		}
		for _, dog := range dogs {
			if !slices.ContainsFunc(r.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == dog.Name && d.Pattern == dog.Pattern }) {
				continue
			}
			a := Agreed{Week: week, Dog: dog.Name}
			for _, dw := range r.Weeks[i].Dogs {
				if dw.Dog != dog.Name {
					continue
				}
				a.Sessions = dw.Sessions
				for _, w := range dw.Areas {
					a.Areas = append(a.Areas, kennel.Pulled{Area: w.Area, Share: w.Share})
				}
			}
			a.less(done)
			all = append(all, a)
		}
	}
	return all
}
