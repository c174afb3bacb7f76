package timetable

import (
	"cmp"
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
)

// Place is a day and a pair of hands to which a session of the timetable could be moved.
type Place struct {
	On    kennel.Date
	Hands string
	Start kennel.Clock // the first time of that day at which it fits
	Why   string       // why it can't be there; empty = it can
	Full  bool         // Why is that the day holds no more
	Swaps []Swap       // of a full day: sessions that it can change places with
	Room  bool         // Why is what else is planned: it fits, at Start, when the day's work and the dog's other sessions go elsewhere, but pinned ones
}

// Swap is a session of a full day that goes where the one that is moved comes from.
type Swap struct {
	With  planned.SessionIn
	Start kennel.Clock // of the session that is moved, on its new day
	Back  kennel.Clock // of With, where that one comes from
}

// Places are the days and hands of the plan's timetable to which a session of it could be moved, in the order of days and
// of the kennel's hands, with the reason where it can't: the dog or the hands are away, the hands may not do the
// work, the dog has a session on that day, a jacket session or the same area too near or a show, as many sessions that week as it stands for, or
// there is no time left. Where what else is planned stands against it, it is said what could make room. Of a plan in use, dogs, shows,
// hours, limits and work done are as they are now, whatever they were when it was made.
func Places(r planned.Result, s planned.SessionIn) (all []Place) {
	r.Kennel, r.Options = asNow(r)
	dog := slices.IndexFunc(r.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == s.Dog })
	if dog < 0 {
		return nil
	}
	diary := hours.NewDiary(r.Kennel, r.Options, len(r.Weeks))
	m, rest := newMover(r, s, dog, diary), r
	for _, other := range m.others {
		if !other.Pinned {
			rest, _ = taken(rest, other)
		}
	}
	alone := newMover(rest, s, dog, diary)
	for _, d := range r.Timetable.Days {
		for h := range r.Kennel.Hands {
			p := Place{On: d.On, Hands: r.Kennel.Hands[h].Name}
			p.Start, p.Why, p.Full = m.fits(d, h)
			if p.Full {
				p.Swaps = m.swaps(d, h)
			}
			if p.Why != "" {
				if start, why, _ := alone.fits(onlyPinned(alone.day(d.On), p.Hands), h); why == "" {
					p.Start, p.Room = start, true
				}
			}
			all = append(all, p)
		}
	}
	return all
}

// asNow are the kennel and the settings, with the work done, as they are when a plan is seen.
func asNow(r planned.Result) (kennel.Kennel, planned.Options) {
	if r.InUse == nil || r.InUse.Facts == nil {
		return r.Kennel, r.Options
	}
	return r.InUse.Facts.Kennel, r.InUse.Facts.Options
}

// mover looks for places for one session.
type mover struct {
	r     planned.Result
	s     planned.SessionIn
	dog   int
	diary hours.Diary

	others []planned.SessionIn // the dog's other sessions of the timetable
}

func newMover(r planned.Result, s planned.SessionIn, dog int, diary hours.Diary) mover {
	m := mover{r: r, s: s, dog: dog, diary: diary}
	for _, d := range r.Timetable.Days {
		if !has(d, s.Dog) {
			continue
		}
		for _, o := range d.Sessions() {
			if o.Dog == s.Dog && o.At != s.At {
				m.others = append(m.others, o)
			}
		}
	}
	return m
}

// has reports whether a day has anything for a dog.
func has(d planned.Day, dog string) bool {
	return slices.ContainsFunc(d.Hands, func(h planned.HandsDay) bool {
		return slices.ContainsFunc(h.Items, func(i planned.Item) bool { return i.Dog == dog })
	})
}

// fits is when the session can begin on the day, or why it can't be there; full is that the day holds no more.
func (m mover) fits(d planned.Day, h int) (start kennel.Clock, why string, full bool) {
	hands, dog := m.r.Kennel.Hands[h], m.r.Kennel.Dogs[m.dog]
	n := int(d.On - m.diary.Week0)
	for _, rule := range []func() string{
		func() string {
			switch {
			case !hours.InHand(dog, d.On):
				return dog.Name + " is not in hand"
			case !dog.Stands(d.On):
				return dog.Name + " is not to be worked then: a spell of it"
			case !m.diary.Table[m.dog][n]:
				return dog.Name + " is travelling"
			case m.diary.Presence[h][n] <= 0:
				return hands.Name + " does not work"
			}
			return ""
		},
		func() string { return m.letNear(hands) },
		func() string { return m.daysApart(d.On) },
		func() string { return m.sessionsOfWeek(d.On, dog) },
	} {
		if why := rule(); why != "" {
			return 0, why, false
		}
	}
	if why := m.handLoad(d, h, n); why != "" {
		return 0, why, true
	}
	start, why = m.gap(d, h, n)
	return start, why, why != ""
}

// swaps are the sessions of a full day that could go where the moved one comes from, with room for both then.
func (m mover) swaps(d planned.Day, h int) (all []Swap) {
	from := slices.IndexFunc(m.r.Kennel.Hands, func(x kennel.Hands) bool { return x.Name == m.s.At.Hands })
	if from < 0 || d.On == m.s.At.On {
		return nil
	}
	for _, x := range d.Sessions() {
		dog := slices.IndexFunc(m.r.Kennel.Dogs, func(d kennel.Dog) bool { return d.Name == x.Dog })
		if x.At.Hands != m.r.Kennel.Hands[h].Name || x.Pinned || dog < 0 || x.Dog == m.s.Dog {
			continue
		}
		both, _ := taken(m.r, m.s)
		both, _ = taken(both, x)
		there := newMover(both, m.s, m.dog, m.diary)
		start, why, _ := there.fits(there.day(d.On), h)
		if why != "" {
			continue
		}
		moved := put(both, planned.Item{Kind: planned.ItemSession, Dog: m.s.Dog, Areas: m.s.Areas, SetUp: m.s.SetUp}, m.s, Place{On: d.On, Hands: x.At.Hands}, start, true)
		back := newMover(moved, x, dog, m.diary)
		other, why, _ := back.fits(back.day(m.s.At.On), from)
		if why != "" {
			continue
		}
		all = append(all, Swap{x, start, other})
	}
	return all
}

// day is the day of the timetable.
func (m mover) day(on kennel.Date) planned.Day {
	for _, d := range m.r.Timetable.Days {
		if d.On == on {
			return d
		}
	}
	return planned.Day{On: on}
}

// onlyPinned is the day with nothing of the hands' work but what is pinned or can't be elsewhere.
func onlyPinned(d planned.Day, hands string) planned.Day {
	d.Hands = slices.Clone(d.Hands)
	for h := range d.Hands {
		if d.Hands[h].Hands != hands {
			continue
		}
		d.Hands[h].Items = slices.DeleteFunc(slices.Clone(d.Hands[h].Items), func(i planned.Item) bool {
			return !i.Pinned && i.Kind != planned.ItemTravel
		})
	}
	return d
}

func (m mover) letNear(hands kennel.Hands) string {
	if !hands.Can(m.diary.SetUp) {
		return hands.Name + " starts no session"
	}
	for _, a := range m.s.Areas {
		if !hands.Can(a.Work) {
			return fmt.Sprintf("%s may not work on the %s", hands.Name, a.Area)
		}
	}
	return ""
}

// daysApart says what stands against the session on a day: one session of a dog a day, free days between two of the
// jacket, no area on two days running, and nothing of the jacket just before a show.
func (m mover) daysApart(on kennel.Date) string {
	if show, ok := m.diary.BeforeShow(m.dog, on); ok && jacket(m.s.Areas) {
		return leftAlone(m.r.Kennel, show)
	}
	near := func(other kennel.Date, isJacket bool, worked func(kennel.AreaName) bool) string {
		switch apart := max(on-other, other-on); {
		case apart == 0:
			return m.s.Dog + " has a session on that day"
		case isJacket && jacket(m.s.Areas) && int(apart) <= m.r.Options.FreeDays:
			return fmt.Sprintf("the jacket of %s is worked on %s; it wants %d free between", m.s.Dog, other.Time().Format("Monday"), m.r.Options.FreeDays)
		case apart == 1:
			for _, a := range m.s.Areas {
				if worked(a.Area) {
					return fmt.Sprintf("the %s of %s is worked on %s too", a.Area, m.s.Dog, other.Time().Format("Monday"))
				}
			}
		}
		return ""
	}
	for _, o := range m.others {
		if why := near(o.At.On, jacket(o.Areas), func(area kennel.AreaName) bool {
			return slices.ContainsFunc(o.Areas, func(a planned.AreaWork) bool { return a.Area == area })
		}); why != "" {
			return why
		}
	}
	for _, w := range m.r.Options.Done {
		if w.Dog == m.s.Dog && w.Duty == "" {
			if why := near(w.On, m.jacketDone(w), func(area kennel.AreaName) bool {
				return slices.ContainsFunc(w.Areas, func(a kennel.Pulled) bool { return a.Area == area })
			}); why != "" {
				return why
			}
		}
	}
	return ""
}

func (m mover) jacketDone(w kennel.Work) bool {
	p := m.r.Patterns[m.r.Kennel.Dogs[m.dog].Pattern]
	return slices.ContainsFunc(w.Areas, func(a kennel.Pulled) bool {
		area, ok := p.Area(a.Area)
		return ok && area.Work == kennel.SkillJacket
	})
}

// sessionsOfWeek says whether the dog has as many sessions in the week of the day as it can take.
func (m mover) sessionsOfWeek(on kennel.Date, dog kennel.Dog) string {
	days := map[kennel.Date]bool{}
	for _, o := range m.others {
		if o.At.On.Monday() == on.Monday() {
			days[o.At.On] = true
		}
	}
	for _, w := range m.r.Options.Done {
		if w.Dog == dog.Name && w.Duty == "" && w.On.Monday() == on.Monday() {
			days[w.On] = true
		}
	}
	switch most := dog.Table.AWeek; {
	case len(days) < most:
		return ""
	case most == 1:
		return dog.Name + " can take one session a week"
	default:
		return fmt.Sprintf("%s can take %d sessions a week", dog.Name, most)
	}
}

// handLoad says whether the pulling of the day would be more than the hands should do.
func (m mover) handLoad(d planned.Day, h, n int) string {
	pulled := m.s.Pulling()
	for _, s := range d.Sessions() {
		if s.At.Hands == m.r.Kennel.Hands[h].Name && s.At != m.s.At {
			pulled += s.Pulling()
		}
	}
	switch most, there := m.diary.Strip[h][n], m.diary.Presence[h][n]; {
	case pulled <= most+wholeMinutes:
	case most >= there:
		return fmt.Sprintf("%.0f min of pulling that day, and %s has %.0f min", float64(pulled), m.r.Kennel.Hands[h].Name, float64(there))
	default:
		return fmt.Sprintf("%.0f min of pulling that day, at most %.0f are good for the hands", float64(pulled), float64(most))
	}
	return ""
}

// wholeMinutes is what a stretch may be off for being told in whole minutes.
const wholeMinutes = 1

// gap is the first time of the day at which the hands and the dog are free for as long as the session takes with its
// breaks, and a break between it and other pulling.
func (m mover) gap(d planned.Day, h, n int) (start kennel.Clock, why string) {
	if m.s.At.On == d.On && m.s.At.Hands == m.r.Kennel.Hands[h].Name {
		return m.s.At.Start, "" // where it is
	}
	pull := float64(m.s.Pulling())
	length := float64(m.s.SetUp) + pull + hours.BreakFor*float64(hours.Breaks(pull))
	from := m.diary.Begins(h, n)
	to := from + float64(m.diary.Presence[h][n])
	busy := m.busy(d, m.r.Kennel.Hands[h].Name)
	longest := 0.0
	at := from
	for _, b := range append(busy, stretch{from: to, to: to}) {
		room := min(to, b.from-b.rest) - at
		if room >= length-wholeMinutes {
			return kennel.Clock(at + 0.5), ""
		}
		longest = max(longest, room)
		at = max(at, b.to+b.rest)
	}
	return 0, fmt.Sprintf("%.0f min are free together, it takes %.0f", max(0, longest), length)
}

// stretch is a part of a day that is taken; hands want a rest between it and a session where it is pulling too.
type stretch struct{ from, to, rest float64 }

// busy are the stretches of the day in which the hands or the dog are taken, the meal among them, by their start; the session
// itself and breaks are not.
func (m mover) busy(d planned.Day, hands string) (all []stretch) {
	for _, h := range d.Hands {
		own := false
		for i, item := range h.Items {
			if item.Kind == planned.ItemBreak {
				continue
			}
			at := planned.SessionAt{On: d.On, Start: item.Start, Hands: h.Hands}
			own = item.Kind == planned.ItemSession && item.Dog == m.s.Dog && (at == m.s.At || own && h.GoesOn(i))
			if !own && (h.Hands == hands || item.Dog == m.s.Dog) {
				s := stretch{from: float64(item.Start), to: float64(item.End)}
				if item.Kind == planned.ItemSession && h.Hands == hands {
					s.rest = hours.BreakFor
				}
				all = append(all, s)
			}
		}
	}
	if h := slices.IndexFunc(m.r.Kennel.Hands, func(x kennel.Hands) bool { return x.Name == hands }); h >= 0 {
		if meal, ok := m.diary.Meal(h, int(d.On-m.diary.Week0)); ok {
			all = append(all, stretch{from: meal.From, to: meal.To})
		}
	}
	slices.SortStableFunc(all, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	return all
}
