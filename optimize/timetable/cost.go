package timetable

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Shift is a session of the timetable that goes to another day.
type Shift struct {
	Session planned.SessionIn
	To      kennel.Date
}

// Cost is how ready a dog is for a show before and after sessions go to other days, if all of the plan is done and the dog grows as thought.
type Cost struct {
	Dog, Show     string
	On            kennel.Date
	Before, After kennel.Score
}

// Costs are the dogs and shows ahead for which sessions that go to other days change how ready the dog is, by date, then show, then dog.
// Coats are counted by the week, as plans do: a session that stays in its week costs nothing, unless it goes past a show in it.
func Costs(r planned.Result, shifts ...Shift) (all []Cost) {
	k, _ := asNow(r)
	for _, dog := range k.Dogs {
		if !slices.ContainsFunc(shifts, func(x Shift) bool { return x.Session.Dog == dog.Name }) {
			continue
		}
		coat, err := kennel.NewDogCoat(dog, r.Patterns[dog.Pattern], r.Week0)
		if err != nil {
			continue // what a plan of today would be refused for
		}
		for _, s := range k.Shows {
			if t := kennel.ReadinessWeek(s.On, r.Week0); t >= 0 && s.Has(dog.Name) {
				before := coat.With(sharesUpTo(r, dog, s.On, t, nil)).ShowScore(t)
				after := coat.With(sharesUpTo(r, dog, s.On, t, shifts)).ShowScore(t)
				if kennel.ScoreWords(before) != kennel.ScoreWords(after) {
					all = append(all, Cost{dog.Name, s.Name, s.On, before, after})
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Cost) int { return int(a.On - b.On) })
	return all
}

// sharesUpTo are the plan's shares of a dog by area and week that count for a show in whose week t the coat is judged, with sessions on
// their new days. What is laid into days counts by its day, all later work by its week.
func sharesUpTo(r planned.Result, dog kennel.Dog, show kennel.Date, t int, shifts []Shift) [][]float64 {
	areas := r.Patterns[dog.Pattern].Areas
	shares := make([][]float64, len(areas))
	for i := range shares {
		shares[i] = make([]float64, t+1)
	}
	add := func(week int, work []planned.AreaWork) {
		for _, w := range work {
			if i := slices.IndexFunc(areas, func(a kennel.PatternArea) bool { return a.Name == w.Area }); i >= 0 && week >= 0 && week <= t {
				shares[i][week] += float64(w.Share)
			}
		}
	}
	laid := 0 // weeks whose work is laid into days
	for _, d := range r.Timetable.Days {
		laid = max(laid, kennel.WeekOf(d.On, r.Week0)+1)
		for _, s := range d.Sessions() {
			on := d.On
			for _, x := range shifts {
				if x.Session.Dog == s.Dog && x.Session.At == s.At {
					on = x.To
				}
			}
			if s.Dog == dog.Name && on < show {
				add(kennel.WeekOf(on, r.Week0), s.Areas)
			}
		}
	}
	for n, week := range r.Weeks {
		for _, w := range week.Dogs {
			if n >= laid && w.Dog == dog.Name {
				add(n, w.Areas)
			}
		}
	}
	return shares
}
