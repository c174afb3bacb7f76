package timetable

import (
	"cmp"
	"maps"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// weekWork is one week on its way to days and hands and back.
type weekWork struct {
	l        *Season
	t        int
	p        week.Problem
	sessions []sessionWork // as in p
	duties   []dutyWork    // as in p
	pinned   []pinnedWork
	leftOut  []planned.LeftOut        // before the days were even asked
	targets  map[int][]kennel.Minutes // dog: minutes for each of its sessions; dogs without are dealt out evenly
	touched  []touched                // by dog: before this week, and in pinned sessions
}

// sessionWork is one session of p.
type sessionWork struct {
	dog    int
	of     *planned.DogWeek
	areas  []planned.AreaWork
	worth  []float64 // points, by area
	first  string    // which areas go first, and why; empty where none do
	barred []string  // why an area is to be left alone on some of the days, by area; empty where it is not
}

// dutyWork is one duty of p, or a lifting bath.
type dutyWork struct {
	dog     int
	name    string
	minutes kennel.Minutes
	why     string
	shows   []int  // that it is for
	bath    string // why a bath is worth it; empty for a duty
}

// pinnedWork is a session that the handler fixed.
type pinnedWork struct {
	kennel.Session
	dog, hands int
	areas      []planned.AreaWork
	setUp      kennel.Minutes
	start, end float64 // minutes after midnight, with breaks
}

const hoursADay = 24

// past is what the weeks before leave to a week, by dog.
type past struct {
	jackets [][]kennel.Date // days of jacket sessions
	touched []touched
	bathed  []bool // it had a lifting bath
}

// weekWork turns week t of the plan into a problem of days and hands. targets are weekWork.targets.
func (l *Season) weekWork(t int, w *planned.Week, price *pricer, before past, targets map[int][]kennel.Minutes) *weekWork {
	k := &weekWork{l: l, t: t, targets: targets}
	for _, of := range before.touched {
		k.touched = append(k.touched, maps.Clone(of))
	}
	k.p = week.Problem{
		Days: kennel.DaysAWeek, Apart: l.Options.FreeDays + 1, BreakAfter: hours.BreakAfter, Break: hours.BreakFor, Past: hours.FinishIn,
		Early: earlyWorth, SetUps: l.Options.SessionCost, Keep: l.Options.Stay, Even: evenWorth,
	}
	k.addPinned()
	k.addHands()
	for d := range l.Kennel.Dogs {
		k.addDog(d, before.jackets[d])
	}
	for i := range w.Dogs {
		k.addSessions(&w.Dogs[i], float64(len(w.Dogs)-i)/float64(len(w.Dogs)), price)
	}
	k.addDuties()
	k.addBaths(before.bathed)
	return k
}

func (k *weekWork) day(n int) kennel.Date { return k.l.Diary.Monday(k.t).AddDays(n) }

func (k *weekWork) holds(d kennel.Date) bool {
	return d >= max(k.day(0), k.l.Diary.On) && d <= k.day(kennel.DaysAWeek-1)
}

// addPinned lists the sessions that the handler fixed in this week, by time.
func (k *weekWork) addPinned() {
	for _, s := range k.l.Options.Accepted {
		d, h := k.l.dogIndex(s.Dog), k.l.handsIndex(s.Hands)
		if !s.Pinned || !k.holds(s.On) || d < 0 || h < 0 || k.doneOn(d, s.On) {
			continue
		}
		p := pinnedWork{Session: s, dog: d, hands: h, setUp: kennel.Minutes(k.l.Problem.Dogs[d].SetUp), start: float64(s.Start)}
		for _, a := range s.Areas {
			if i := k.l.areaIndex(d, a.Area); i >= 0 && a.Share > 0 {
				p.areas = append(p.areas, planned.AreaWork{
					Area: a.Area, Share: a.Share, Work: k.l.pattern(d).Areas[i].Work,
					Minutes: k.l.minutes(d, i, k.t, float64(a.Share)),
					Few:     planned.FewHairs(a.Share, kennel.Share(k.l.Problem.Dogs[d].Areas[i].Most[k.t]), k.l.Options),
				})
			}
		}
		pull := float64(planned.Pulling(p.areas))
		p.end = p.start + float64(p.setUp) + pull + hours.BreakFor*float64(hours.Breaks(pull))
		k.pinned = append(k.pinned, p)
		k.touched[d].add(p.areas, p.On)
	}
	slices.SortStableFunc(k.pinned, func(a, b pinnedWork) int { return cmp.Or(cmp.Compare(a.On, b.On), cmp.Compare(a.start, b.start)) })
}

// minutes are what a share of an area takes in week t: its part of what the week takes, or of what it would if it took that much. Dead
// hair goes first.
func (l *Season) minutes(d, area, t int, share float64) kennel.Minutes {
	shares := slices.Clone(l.Plan.Shares[d][area][:t+1])
	whole := max(share, shares[t])
	shares[t] = whole
	return kennel.Minutes(l.Problem.Dogs[d].Areas[area].MinutesOf(shares)[t] * share / whole)
}

func (l *Season) dogIndex(name string) int {
	return slices.IndexFunc(l.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == name })
}

func (l *Season) handsIndex(name string) int {
	return slices.IndexFunc(l.Kennel.Hands, func(h kennel.Hands) bool { return h.Name == name })
}

// doneOn reports whether the dog had a session of pulling on the day.
func (k *weekWork) doneOn(d int, day kennel.Date) bool {
	return slices.ContainsFunc(k.l.Options.Done, func(w kennel.Work) bool {
		return w.Duty == "" && w.Dog == k.l.Kennel.Dogs[d].Name && w.On == day
	})
}

// addHands lists each pair of hands' free time: its hours less its meal, what was done today already and pinned sessions,
// with a rest on both sides of these.
func (k *weekWork) addHands() {
	for h, hands := range k.l.Kennel.Hands {
		out := week.Hands{Does: skillsOf(hours.ClassesOf(hands, k.l.Diary.SetUp))}
		if hands.Can(kennel.SkillJacket) {
			out.Dear = dearWorth
		}
		for n := range kennel.DaysAWeek {
			strip := float64(k.l.Diary.Strip[h][k.t*kennel.DaysAWeek+n])
			if k.day(n) == k.l.Diary.On {
				strip -= k.l.Diary.Spent[h].Strip
			}
			free := k.l.Diary.Stretches(h, k.t*kennel.DaysAWeek+n)
			for _, p := range k.pinned {
				if p.hands == h && p.On == k.day(n) {
					free = without(free, hours.Stretch{From: p.start - hours.BreakFor, To: p.end + hours.BreakFor})
					strip -= float64(planned.Pulling(p.areas))
				}
			}
			day := week.HandsDay{Strip: max(0, strip)}
			for _, s := range free {
				day.Stretches = append(day.Stretches, week.Stretch{Start: s.From, Minutes: s.To - s.From})
			}
			out.Days = append(out.Days, day)
		}
		k.p.Hands = append(k.p.Hands, out)
	}
}

// without are the stretches without the time of another.
func without(free []hours.Stretch, taken hours.Stretch) (left []hours.Stretch) {
	for _, s := range free {
		for _, part := range []hours.Stretch{{From: s.From, To: min(s.To, taken.From)}, {From: max(s.From, taken.To), To: s.To}} {
			if part.To > part.From {
				left = append(left, part)
			}
		}
	}
	return left
}

// skillsOf are the classes of work that hands may do, as package week knows them.
func skillsOf(s hours.ClassSet) (skills week.Skills) {
	for c := range hours.Classes {
		switch {
		case !s.Has(c):
		case c == hours.ClassSetUp:
			skills |= week.SkillSetUp
		case c == hours.ClassDuties:
			skills |= week.SkillDuties
		case c == hours.ClassCare:
			skills |= week.SkillCare
		case c == hours.ClassTrim: // by the kind of work, close
		default:
			skills |= week.Kind(int(c))
		}
	}
	return skills
}

func (k *weekWork) addDog(d int, jackets []kennel.Date) {
	out := week.Dog{}
	for n := range kennel.DaysAWeek {
		day := week.DogDay{There: k.l.Diary.Table[d][k.t*kennel.DaysAWeek+n], Longest: k.l.Problem.Dogs[d].Minutes[k.t], With: -1}
		day.Fixed = k.doneOn(d, k.day(n))
		for _, p := range k.pinned {
			if p.dog == d && p.On == k.day(n) {
				day.Fixed, day.With = true, p.hands
				if jacket(p.areas) {
					out.Jackets = append(out.Jackets, n)
				}
			}
		}
		out.Days = append(out.Days, day)
	}
	for _, on := range jackets {
		out.Jackets = append(out.Jackets, int(on-k.day(0)))
	}
	k.p.Dogs = append(k.p.Dogs, out)
}

func jacket(areas []planned.AreaWork) bool {
	return slices.ContainsFunc(areas, func(a planned.AreaWork) bool { return a.Work == kennel.SkillJacket })
}

// How long a week is searched: about a tenth of a second, the same for every plan, so that it is the same week each time.
const (
	weekNodes = 1000
	weekSteps = 200000
	weekTries = 20000
)

func (k *weekWork) solve() (week.Result, error) {
	return week.Solve(&k.p, week.Options{Nodes: weekNodes, Steps: weekSteps, Tries: weekTries, Within: week.DefaultWithin})
}
