// Package tally adds up the work of a plan: every stretch of it with one pair of hands, and the sums by week, dog, area, owner
// and hands, to the hundredth of a minute.
package tally

import (
	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// The kinds of minutes that a workload tells apart.
const (
	KindPull  = "pull"
	KindSetUp = "set-up"
	KindDuty  = "duty"
	KindShow  = "show" // at a show, before the ring: none of the hours at home
)

// Line is one stretch of work as the account lists it.
type Line struct {
	Week       kennel.Date
	Dog, Owner string
	Kind       string
	Area, Duty string       // what of the two was worked; both empty for a set-up
	Work       kennel.Skill // the kind of work, which its hands must be able to do
	Hands      string
	Time       layout.Hundredths
}

// Lines are the stretches of work of a plan, each with one pair of hands. A stretch that two pairs share becomes
// two lines. The lines of a week at home add up to the plan's minutes of that week to the hundredth; those at shows come behind them.
func Lines(r optimize.Result) []Line {
	owners := map[string]string{}
	for _, d := range r.Kennel.Dogs {
		owners[d.Name] = d.Owner
	}
	var lines []Line
	shows := atShows(r)
	for _, w := range r.Weeks {
		var week []Line
		add := func(l Line, m kennel.Minutes) {
			l.Week, l.Owner, l.Time = w.Week, owners[l.Dog], layout.HundredthsOf(m)
			if l.Time != 0 {
				week = append(week, l)
			}
		}
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				add(Line{Dog: d.Dog, Kind: KindPull, Area: string(a.Area), Work: a.Work}, a.Minutes)
			}
			add(Line{Dog: d.Dog, Kind: KindSetUp, Work: optimize.SetUp}, d.SetUp)
		}
		for _, d := range w.Duties {
			add(Line{Dog: d.Dog, Kind: KindDuty, Duty: d.Name, Work: d.Kind()}, d.Minutes)
		}
		lines = append(lines, shareOut(week, w.Hands)...)
		for _, l := range shows {
			if l.Week == w.Week {
				l.Owner = owners[l.Dog]
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// atShows is what is done at shows, a line for each dog, day and kind of work.
func atShows(r optimize.Result) (lines []Line) {
	for _, s := range optimize.AtShows(r) {
		for _, day := range s.Days {
			for _, d := range s.Dogs {
				for _, w := range d.Work {
					lines = append(lines, Line{
						Week: day.Monday(), Dog: d.Dog, Kind: KindShow, Duty: w.Name, Work: w.Skill(), Hands: s.Hands, Time: layout.HundredthsOf(w.Minutes),
					})
				}
			}
		}
	}
	return lines
}

// AtHome are the lines of the hours that there are: all but those at shows.
func AtHome(lines []Line) (home []Line) {
	for _, l := range lines {
		if l.Kind != KindShow {
			home = append(home, l)
		}
	}
	return home
}

// shareOut gives a week's lines to the hands: of each kind of work, the first pair takes lines until its minutes of
// that kind are used up, then the next. The last pair takes what rounding leaves.
func shareOut(lines []Line, hands []optimize.HandsWeek) []Line {
	type pair struct {
		name string
		left layout.Hundredths
	}
	queues := map[kennel.Skill][]pair{}
	for _, h := range hands {
		for _, g := range h.Given {
			queues[g.Work] = append(queues[g.Work], pair{h.Hands, layout.HundredthsOf(g.Minutes)})
		}
	}
	var out []Line
	for _, l := range lines {
		q := queues[l.Work]
		for len(q) > 1 && l.Time >= q[0].left {
			part := l
			part.Hands, part.Time = q[0].name, q[0].left
			if part.Time > 0 {
				out = append(out, part)
			}
			l.Time -= part.Time
			q = q[1:]
		}
		queues[l.Work] = q
		if l.Time == 0 {
			continue
		}
		if len(q) > 0 {
			l.Hands = q[0].name
			q[0].left -= l.Time
		}
		out = append(out, l)
	}
	return out
}

// Key is what a line is summed under: a date, or a name as the kennel has it.
func Key(l Line, by Part) string {
	switch by {
	case PartWeek:
		return l.Week.String()
	case PartDog:
		return l.Dog
	case PartOwner:
		return l.Owner
	case PartHands:
		return l.Hands
	}
	return spentOn(l)
}

// spentOn is what of the coat a line is spent on; set-ups, duties and what is done at shows are of no area.
func spentOn(l Line) string {
	switch l.Kind {
	case KindPull:
		return l.Area
	case KindSetUp:
		return "(set-ups)"
	case KindShow:
		return "(at shows)"
	}
	return "(duties)"
}
