package planned

import (
	"cmp"
	"slices"

	"tuckup/kennel"
)

// InUse is what is said beside a plan that was taken on an earlier day, or before something changed.
type InUse struct {
	From   kennel.Date // the day that it was planned from
	To     kennel.Date // the last day that it lays out
	Since  []string    // what has changed since, in words, like "Brackenmere on 20 March is new"
	Behind []Behind    // what it had on days gone by and was not done, the longest first
	Facts  *Facts      // what is true on the day that it is seen; nil = it is as the plan has it
}

// Facts are the kennel, with its coats moved by the work, the settings and the work done of the day on which a plan is seen.
type Facts struct {
	Kennel  kennel.Kennel
	Options Options
}

// Ended reports whether the plan's days are over.
func (u InUse) Ended(on kennel.Date) bool { return on > u.To }

// Behind is work on one area that slipped.
type Behind struct {
	Dog      string
	Area     kennel.AreaName
	Share    kennel.Share
	Minutes  kennel.Minutes
	CaughtUp kennel.Date // last day of the week by whose end a plan has as much work on the area; 0 = in none of its weeks
}

// spot is one area of one dog.
type spot struct {
	dog  string
	area kennel.AreaName
}

// amount is so much of an area.
type amount struct {
	share   kennel.Share
	minutes kennel.Minutes
}

func (a amount) plus(share kennel.Share, minutes kennel.Minutes) amount {
	return amount{a.share + share, a.minutes + minutes}
}

// Behind is what the plan had on its days before the day and was not done by then, for each dog and area at least a crumb of minutes.
// done is the work that the book holds; what was done before the plan was made, it knew. Work of the day itself first counts for the
// session that the plan has on that day, then for what slipped. What was left because the long layer was seen to be none or thin has not slipped.
func (r Result) Behind(done []kennel.Work, on kennel.Date) (all []Behind) {
	since := r.WorkSince(done, on)
	had := map[spot]amount{}
	for _, s := range r.SessionsUpTo(on - 1) {
		for _, a := range s.Areas {
			at := spot{s.Dog, a.Area}
			had[at] = had[at].plus(a.Share, a.Minutes)
		}
	}
	today := map[spot]kennel.Share{}
	for _, d := range r.Timetable.Days {
		if d.On != on {
			continue
		}
		for _, s := range d.Sessions() {
			for _, a := range s.Areas {
				today[spot{s.Dog, a.Area}] += a.Share
			}
		}
	}
	for _, w := range since {
		if w.On < r.On {
			continue
		}
		for _, a := range w.Areas {
			at, share := spot{w.Dog, a.Area}, a.Share
			if w.On == on {
				own := min(share, today[at])
				today[at] -= own
				share -= own
			}
			h := had[at]
			if h.share <= 0 {
				continue
			}
			left := max(0, h.share-share)
			had[at] = amount{left, h.minutes * kennel.Minutes(left/h.share)}
		}
		for _, x := range w.Looks {
			if x.Long == kennel.LongNone || x.Long == kennel.LongThin {
				delete(had, spot{w.Dog, x.Area}) // there was no more to take
			}
		}
	}
	for at, h := range had {
		if h.minutes >= max(r.Options.CrumbTime, 1) {
			all = append(all, Behind{Dog: at.dog, Area: at.area, Share: h.share, Minutes: h.minutes})
		}
	}
	slices.SortFunc(all, func(x, y Behind) int {
		return cmp.Or(cmp.Compare(y.Minutes, x.Minutes), cmp.Compare(x.Dog, y.Dog), cmp.Compare(x.Area, y.Area))
	})
	return all
}

// CatchUp says of each when a plan, from the day on, has as much work on the area as slipped.
func (r Result) CatchUp(behind []Behind, on kennel.Date) []Behind {
	behind = slices.Clone(behind)
	for i := range behind {
		b := &behind[i]
		var sum kennel.Share
		for _, w := range r.Weeks {
			if w.Week.AddDays(kennel.DaysAWeek) <= on {
				continue
			}
			if sum += r.shareIn(w, b.Dog, b.Area, on); sum >= b.Share-tinyShare {
				b.CaughtUp = w.Week.AddDays(kennel.DaysAWeek - 1)
				break
			}
		}
	}
	return behind
}

// shareIn is how much of an area the plan has in a week from the day on: as its days are laid out, else as the week has it.
func (r Result) shareIn(w Week, dog string, area kennel.AreaName, from kennel.Date) (sum kennel.Share) {
	if w.Week <= r.LastDay() {
		for _, d := range r.Timetable.Days {
			if d.On < from || d.On.Monday() != w.Week {
				continue
			}
			for _, s := range d.Sessions() {
				if s.Dog == dog {
					sum += ShareOf(s.Areas, area)
				}
			}
		}
		return sum
	}
	for _, d := range w.Dogs {
		if d.Dog == dog {
			sum += ShareOf(d.Areas, area)
		}
	}
	return sum
}

// ShareOf is the share of an area among what is pulled.
func ShareOf(areas []AreaWork, area kennel.AreaName) (sum kennel.Share) {
	for _, a := range areas {
		if a.Area == area {
			sum += a.Share
		}
	}
	return sum
}

// LastDay is the last day that the plan lays out, the day before today where it lays out none.
func (r Result) LastDay() kennel.Date {
	if n := len(r.Timetable.Days); n > 0 {
		return r.Timetable.Days[n-1].On
	}
	return r.On - 1
}

// SessionsUpTo are the sessions on the plan's days up to the day, and behind those days one for each dog of each week that is over then.
func (r Result) SessionsUpTo(on kennel.Date) (all []SessionIn) {
	for _, d := range r.Timetable.Days {
		if d.On <= on {
			all = append(all, d.Sessions()...)
		}
	}
	for _, w := range r.Weeks {
		if w.Week <= r.LastDay() || w.Week.AddDays(kennel.DaysAWeek-1) > on {
			continue
		}
		for _, d := range w.Dogs {
			all = append(all, SessionIn{Dog: d.Dog, At: SessionAt{On: w.Week}, Areas: d.Areas})
		}
	}
	return all
}

// WorkSince is the work from the plan's first Monday up to the day that was not known yet when the plan was made.
func (r Result) WorkSince(done []kennel.Work, on kennel.Date) (since []kennel.Work) {
	known := slices.Clone(r.Options.Done)
	for _, w := range done {
		if w.On < r.Week0 || w.On > on {
			continue
		}
		if i := slices.IndexFunc(known, w.Same); i >= 0 {
			known = slices.Delete(known, i, i+1)
			continue
		}
		since = append(since, w)
	}
	return since
}
