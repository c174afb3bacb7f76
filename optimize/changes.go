package optimize

import (
	"cmp"
	"math"
	"slices"

	"tuckup/kennel"
)

// Changes is what sets one plan apart from another. Before and after are compared over the weeks that both hold;
// work that was done by then counts as part of the week in which it was done.
type Changes struct {
	Sessions                    []SessionChange   // by dog in the kennel's order, then by date
	Shares                      []ShareChange     // by week, dog and area in working order
	Hours                       []HoursChange     // every week that both plans hold
	Readiness                   []ReadinessChange // every dog and show of either plan, by date, then show, then dog
	Dogs                        []DogChange       // who pays: those who lose most first
	BalanceBefore, BalanceAfter float64           // points for the least mean show readiness
	PointsBefore, PointsAfter   float64           // all that the plans are worth over the weeks that both hold
	NewlyCannot, NoLongerCannot []Cannot
	From                        kennel.Date // Monday of the first week that both plans hold
	Weeks                       int         // that both plans hold
	Cut                         bool        // the search for one of them was cut short: part of what differs may be owed to that
}

// ShareChange is how much of one area of a dog is pulled in a week.
type ShareChange struct {
	Week          kennel.Date // its Monday
	Dog           string
	Area          kennel.AreaName
	Before, After kennel.Share
}

// HoursChange is the planned work of one week, sessions with set-ups and duties, and the hours available.
type HoursChange struct {
	Week                    kennel.Date
	Before, After           kennel.Hours
	ThereBefore, ThereAfter kennel.Hours
}

// ReadinessChange is how ready a dog is for a show.
type ReadinessChange struct {
	Dog, Show         string
	On                kennel.Date
	InBefore, InAfter bool // in which of the plans the dog is to be shown there
	Before, After     kennel.Score
	ChanceBefore      float64 // that the dog is shown there; 1 = entered
	ChanceAfter       float64
}

// DogChange is what a plan is worth for one dog, in points.
type DogChange struct {
	Dog               string
	InBefore, InAfter bool // in which of the plans the dog is
	Before, After     float64
}

// Gain is what the dog gains, points; it pays where that is below 0.
func (d DogChange) Gain() float64 { return d.After - d.Before }

// Gain is what the later plan is worth more than the earlier, points.
func (c Changes) Gain() float64 { return c.PointsAfter - c.PointsBefore }

// leastPoints is the difference in points below which nobody gains or pays.
const leastPoints = 1e-6

// Compare says what changed from one plan to another. The plans may start on different days; a plan that holds no week
// of the other has nothing in common with it but its dogs and shows.
func Compare(before, after Result) Changes {
	c := Changes{From: max(before.Week0, after.Week0), Cut: before.Season.Cut || after.Season.Cut}
	last := min(end(before), end(after))
	c.Weeks = max(0, int(last-c.From)/kennel.DaysAWeek)
	c.Sessions = sessionChanges(before, after, c.From, last)
	c.Shares = shareChanges(before, after, c.From, c.Weeks)
	c.Hours = hoursChanges(before, after, c.From, c.Weeks)
	c.Readiness = readinessChanges(before, after)
	c.Dogs = dogChanges(before, after, c.From, c.Weeks)
	for _, d := range c.Dogs {
		c.PointsBefore += d.Before
		c.PointsAfter += d.After
	}
	c.BalanceBefore, c.BalanceAfter = before.Balance, after.Balance
	c.PointsBefore += before.Balance
	c.PointsAfter += after.Balance
	c.NewlyCannot = without(after.Cannot, before.Cannot)
	c.NoLongerCannot = without(before.Cannot, after.Cannot)
	return c
}

// end is the Monday after the last week of the plan.
func end(r Result) kennel.Date { return r.Week0.AddDays(len(r.Weeks) * kennel.DaysAWeek) }

// weekOf is the plan's week that begins on the Monday; false when it holds none such.
func weekOf(r Result, monday kennel.Date) (Week, bool) {
	t := kennel.WeekOf(monday, r.Week0)
	if t < 0 || t >= len(r.Weeks) {
		return Week{}, false
	}
	return r.Weeks[t], true
}

// doneIn is the work that was done in the week of the Monday before the plan was made.
func doneIn(r Result, monday kennel.Date) (done []kennel.Work) {
	for _, w := range r.Options.Done {
		if w.On.Monday() == monday {
			done = append(done, w)
		}
	}
	return done
}

// without are those of a whose matter is none of b's.
func without(a, b []Cannot) (out []Cannot) {
	for _, x := range a {
		if !slices.ContainsFunc(b, func(y Cannot) bool { return y.What == x.What }) {
			out = append(out, x)
		}
	}
	return out
}

// bothDogs are the names of the dogs of either plan: the later kennel's order, then those who left.
func bothDogs(before, after Result) (names []string) {
	for _, k := range []kennel.Kennel{after.Kennel, before.Kennel} {
		for _, d := range k.Dogs {
			if !slices.Contains(names, d.Name) {
				names = append(names, d.Name)
			}
		}
	}
	return names
}

// shareStep is the least difference of shares that counts: a millionth of an area is none.
const shareStep = 1e-6

func shareChanges(before, after Result, from kennel.Date, weeks int) (all []ShareChange) {
	dogs := bothDogs(before, after)
	for t := range weeks {
		monday := from.AddDays(t * kennel.DaysAWeek)
		was, is := sharesIn(before, monday), sharesIn(after, monday)
		for _, dog := range dogs {
			for _, area := range areaOrder(before, after, dog) {
				key := dogArea{dog, area}
				if math.Abs(float64(is[key]-was[key])) > shareStep {
					all = append(all, ShareChange{Week: monday, Dog: dog, Area: area, Before: was[key], After: is[key]})
				}
			}
		}
	}
	return all
}

type dogArea struct {
	dog  string
	area kennel.AreaName
}

// sharesIn are the shares pulled in the week of the Monday: planned, and done before the plan was made.
func sharesIn(r Result, monday kennel.Date) map[dogArea]kennel.Share {
	sum := map[dogArea]kennel.Share{}
	if w, ok := weekOf(r, monday); ok {
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				sum[dogArea{d.Dog, a.Area}] += a.Share
			}
		}
	}
	for _, w := range doneIn(r, monday) {
		for _, a := range w.Areas {
			sum[dogArea{w.Dog, a.Area}] += a.Share
		}
	}
	return sum
}

// areaOrder are the areas of the dog's pattern in working order, then all others.
func areaOrder(before, after Result, dog string) (areas []kennel.AreaName) {
	for _, r := range []Result{after, before} {
		for _, d := range r.Kennel.Dogs {
			if d.Name != dog {
				continue
			}
			for _, a := range r.Patterns[d.Pattern].Areas {
				areas = append(areas, a.Name)
			}
		}
	}
	areas = append(areas, kennel.AreaNames()...)
	seen := map[kennel.AreaName]bool{}
	return slices.DeleteFunc(areas, func(a kennel.AreaName) bool {
		was := seen[a]
		seen[a] = true
		return was
	})
}

func hoursChanges(before, after Result, from kennel.Date, weeks int) (all []HoursChange) {
	for t := range weeks {
		h := HoursChange{Week: from.AddDays(t * kennel.DaysAWeek)}
		h.Before, h.ThereBefore = hoursIn(before, h.Week)
		h.After, h.ThereAfter = hoursIn(after, h.Week)
		all = append(all, h)
	}
	return all
}

// hoursIn are the hours worked in the week of the Monday, planned and done, and those there are from the day of the
// plan on with those done.
func hoursIn(r Result, monday kennel.Date) (worked, there kennel.Hours) {
	if w, ok := weekOf(r, monday); ok {
		worked, there = w.Planned, w.Hours
	}
	for _, w := range doneIn(r, monday) {
		worked += kennel.Hours(w.Minutes / minutesAnHour)
		there += kennel.Hours(w.Minutes / minutesAnHour)
	}
	return worked, there
}

func dogChanges(before, after Result, from kennel.Date, weeks int) (all []DogChange) {
	for _, name := range bothDogs(before, after) {
		d := DogChange{Dog: name}
		d.Before, d.InBefore = pointsOf(before, name, from, weeks)
		d.After, d.InAfter = pointsOf(after, name, from, weeks)
		all = append(all, d)
	}
	steps := func(d DogChange) float64 { return math.Round(d.Gain() / leastPoints) }
	slices.SortStableFunc(all, func(a, b DogChange) int { return cmp.Compare(steps(a), steps(b)) })
	return all
}

// pointsOf are the dog's points over so many weeks from the Monday on, and whether the plan has the dog.
func pointsOf(r Result, dog string, from kennel.Date, weeks int) (sum float64, ok bool) {
	first := kennel.WeekOf(from, r.Week0)
	for _, p := range r.Points {
		if p.Dog == dog {
			return p.Sum(first) - p.Sum(first+weeks), true
		}
	}
	return 0, false
}
