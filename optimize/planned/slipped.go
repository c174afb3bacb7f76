package planned

import (
	"cmp"
	"slices"

	"tuckup/kennel"
)

// Slipped is an area that was due in each of the weeks before a plan's first and was not done: the days left it out, or it was left undone.
type Slipped struct {
	Dog   string
	Area  kennel.AreaName
	Weeks int // running, up to the last before the plan's first; 1 and up
}

// GoesFirst reports whether the area has been left out so often that it is laid out before others.
func (s Slipped) GoesFirst() bool { return s.Weeks >= slippedTwice }

// slippedTwice is from how many weeks running an area goes first. Common practice: once may be, twice is a habit.
const slippedTwice = 2

// SlippedBy says which areas have slipped by a Monday, from what had slipped before the plan and from its weeks that are over then.
// done is the work that is written down. An area counts as done where at least half of what was due is; where its long layer was seen to
// be none or thin nothing was due.
func (r Result) SlippedBy(monday kennel.Date, done []kennel.Work) (all []Slipped) {
	runs := map[spot]int{}
	for _, s := range r.Slipped {
		runs[spot{s.Dog, s.Area}] = s.Weeks
	}
	since := r.WorkSince(done, monday-1)
	for week := r.Week0; week < monday; week = week.AddDays(kennel.DaysAWeek) {
		now := map[spot]int{}
		for at := range r.undone(week, since) {
			now[at] = runs[at] + 1
		}
		runs = now
	}
	for at, weeks := range runs {
		all = append(all, Slipped{at.dog, at.area, weeks})
	}
	slices.SortFunc(all, func(x, y Slipped) int { return cmp.Or(cmp.Compare(x.Dog, y.Dog), cmp.Compare(x.Area, y.Area)) })
	return all
}

// undone are the areas that were due in a week that is over, and of which less than half was done.
func (r Result) undone(week kennel.Date, since []kennel.Work) map[spot]kennel.Share {
	sunday := week.AddDays(kennel.DaysAWeek - 1)
	due := map[spot]kennel.Share{}
	for _, s := range r.SessionsUpTo(sunday) {
		if s.At.On >= week {
			for _, a := range s.Areas {
				due[spot{s.Dog, a.Area}] += a.Share
			}
		}
	}
	for _, l := range r.Timetable.Missed() {
		if l.Week == week && l.Area != "" {
			due[spot{l.Dog, l.Area}] += l.Share
		}
	}
	did := map[spot]kennel.Share{}
	for _, w := range since {
		if w.On < week || w.On > sunday {
			continue
		}
		for _, a := range w.Areas {
			did[spot{w.Dog, a.Area}] += a.Share
		}
		for _, x := range w.Looks {
			if x.Long == kennel.LongNone || x.Long == kennel.LongThin {
				delete(due, spot{w.Dog, x.Area})
			}
		}
	}
	for at, share := range due {
		if did[at] >= share/2 {
			delete(due, at)
		}
	}
	return due
}
