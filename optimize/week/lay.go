package week

import (
	"cmp"
	"math"
	"slices"
)

// Line is one pair of hands on one day.
type Line struct {
	Hands, Day int
	Items      []Item // in order, never overlapping
}

// Item is one stretch of a line. A session that a break cuts, or that two pairs of hands share, is several items.
type Item struct {
	Start, End float64
	Session    int     // -1 = none
	Duty       int     // -1 = none; with Session -1 too it is a break
	SetUp      float64 // at the start of a session
	Parts      []Done  // of a session, in working order
}

// Done is work of one part of a session.
type Done struct {
	Part    int
	Minutes float64
}

// job is what a line has to do in one go, with breaks only inside pulling.
type job struct {
	session, duty int
	setUp         float64
	parts         []Done
	pull          float64
	urgency       float64
	ready         float64 // not before: a shared dog that others have first
	shared        bool
}

// layOut gives every item of a choice its time. That it fits is the choice's promise: pullRoom keeps time for the
// breaks, and sharedFit for waiting.
func (m *menu) layOut(chosen []int, placed []PlacedSession) (lines []Line) {
	ready := map[int]float64{} // session: when its first hands are done with it
	order := make([]int, len(m.lines))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { // on each day the second hands come last
		x, y := &m.lines[a], &m.lines[b]
		return cmp.Or(cmp.Compare(x.day, y.day), cmp.Compare(m.rank(x), m.rank(y)), cmp.Compare(x.hands, y.hands))
	})
	for _, li := range order {
		l := &m.lines[li]
		line := Line{Hands: l.hands, Day: l.day}
		for _, f := range l.free {
			jobs := m.jobs(f, chosen, placed, ready)
			w := m.worked(f, jobs)
			for _, it := range w.items {
				if it.Session >= 0 && m.rank(l) == 0 {
					ready[it.Session] = it.End
				}
			}
			line.Items = append(line.Items, w.items...)
		}
		if len(line.Items) > 0 {
			lines = append(lines, line)
		}
	}
	slices.SortStableFunc(lines, func(a, b Line) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Hands, b.Hands))
	})
	return lines
}

func (m *menu) rank(l *line) int {
	if m.second[l.day] == l.hands {
		return 1
	}
	return 0
}

// jobs is what a stretch has to do, in order: dogs shared with others as early as can be by the first hands, as late by
// the second; sessions by urgency, each with its dog's duties behind it; then other duties; baths last.
func (m *menu) jobs(f int, chosen []int, placed []PlacedSession, ready map[int]float64) (jobs []job) {
	l := &m.lines[m.free[f].line]
	for i, c := range chosen {
		if c == none {
			continue
		}
		o := &m.options[c]
		for _, ld := range o.loads {
			if ld.stretch != f {
				continue
			}
			j := job{session: -1, duty: -1, setUp: ld.other}
			if m.session(i) {
				j.session, j.urgency, j.shared = i, m.p.Sessions[i].Urgency, o.helper >= 0
				for _, a := range ld.parts {
					if x := placed[i].Minutes[a]; x > 0 {
						j.parts = append(j.parts, Done{a, x})
						j.pull += x
					}
				}
				if j.shared && o.first != l.hands {
					j.ready = ready[i]
				}
				if j.setUp+j.pull == 0 {
					continue
				}
			} else {
				j.duty = i - len(m.p.Sessions)
				j.urgency = -1
				if m.bath(i) {
					j.urgency = -2
				}
			}
			jobs = append(jobs, j)
		}
	}
	late := func(j job) int {
		switch {
		case !j.shared:
			return 1
		case m.rank(l) == 0:
			return 0
		}
		return 2
	}
	slices.SortStableFunc(jobs, func(a, b job) int {
		return cmp.Or(cmp.Compare(late(a), late(b)), cmp.Compare(a.ready, b.ready), cmp.Compare(b.urgency, a.urgency))
	})
	return m.inOneGo(jobs)
}

// inOneGo puts a dog's duties behind its session of the stretch, unless that is shared: it is on the table already.
func (m *menu) inOneGo(jobs []job) []job {
	session := func(dog int) bool {
		return slices.ContainsFunc(jobs, func(j job) bool { return j.session >= 0 && !j.shared && m.p.Sessions[j.session].Dog == dog })
	}
	follows := func(j job) bool { return j.duty >= 0 && session(m.p.Duties[j.duty].Dog) }
	var all []job
	for _, j := range jobs {
		if follows(j) {
			continue
		}
		all = append(all, j)
		if j.session < 0 || j.shared {
			continue
		}
		for _, d := range jobs {
			if follows(d) && m.p.Duties[d.duty].Dog == m.p.Sessions[j.session].Dog {
				all = append(all, d)
			}
		}
	}
	return all
}

// worked is a stretch with its jobs done: with breaks between parts where there is time for them, so that no part is cut that is not
// longer than hands pull without a rest; else with as few breaks as can be, inside parts too.
func (m *menu) worked(f int, jobs []job) worker {
	w := worker{p: m.p, now: m.free[f].start, whole: true}
	for _, j := range jobs {
		w.whole = w.whole && !j.shared
	}
	if w.whole {
		if w.work(jobs); w.now <= m.free[f].start+m.free[f].minutes+slack {
			return w
		}
	}
	w = worker{p: m.p, now: m.free[f].start}
	w.work(jobs)
	return w
}

// worker walks through a stretch.
type worker struct {
	p     *Problem
	whole bool // breaks are between parts, however many that takes
	now   float64
	tired float64 // minutes pulled since the last rest
	left  float64 // minutes to pull from here
	rests int     // breaks that are left to take
	items []Item
}

func (w *worker) work(jobs []job) {
	for _, j := range jobs {
		w.left += j.pull
	}
	w.rests = Breaks(w.left, w.p.BreakAfter)
	for _, j := range jobs {
		if j.ready > w.now+slack {
			if j.ready-w.now >= w.p.Break && w.tired > 0 {
				w.tired = 0
				w.rests = Breaks(w.left, w.p.BreakAfter)
			}
			w.now = j.ready
		}
		if j.duty >= 0 {
			w.add(Item{Start: w.now, End: w.now + j.setUp, Session: -1, Duty: j.duty})
			continue
		}
		if w.restsBefore(j) {
			w.rest()
		}
		w.session(j)
	}
}

// restsBefore reports whether hands rest before a session: where it can't be done, or not even its first part, without a rest, so that
// nobody rests between a set-up and what it was for.
func (w *worker) restsBefore(j job) bool {
	if w.tired == 0 || len(j.parts) == 0 || w.ends(j.pull) {
		return false
	}
	whole := j.pull <= w.p.BreakAfter || w.tired+j.parts[0].Minutes > w.p.BreakAfter+slack
	return w.mayRest() || w.whole && whole || w.tired >= w.p.BreakAfter-slack
}

func (w *worker) add(it Item) {
	w.items = append(w.items, it)
	w.now = it.End
}

// mayRest reports whether a break here leaves enough breaks for the pulling that is to come.
func (w *worker) mayRest() bool {
	return w.tired > 0 && w.rests > 0 && w.left <= float64(w.rests)*w.p.BreakAfter+slack
}

func (w *worker) rest() {
	w.add(Item{Start: w.now, End: w.now + w.p.Break, Session: -1, Duty: -1})
	w.tired = 0
	w.rests--
}

// ends reports whether a session with so many minutes left is done before a rest, or so soon after one is due that it is done first.
func (w *worker) ends(left float64) bool { return w.tired+left <= w.p.BreakAfter+w.p.Past+slack }

// session works a session, with a break before the area that would be too much, or within it where there is no break
// to spare; where little is left when a break is due, it comes after the session.
func (w *worker) session(j job) {
	it := Item{Start: w.now, End: w.now + j.setUp, Session: j.session, Duty: -1, SetUp: j.setUp}
	pause := func() {
		if len(it.Parts) > 0 || it.SetUp > 0 {
			w.add(it)
		}
		w.rest()
		it = Item{Start: w.now, End: w.now, Session: j.session, Duty: -1}
	}
	all := j.pull // that is left of the session
	for _, d := range j.parts {
		for left := d.Minutes; left > slack; {
			most := w.p.BreakAfter
			if w.ends(all) {
				most += w.p.Past
			} else if w.tired+left > w.p.BreakAfter+slack && w.tired > 0 && (w.whole && left == d.Minutes || w.mayRest() && len(it.Parts) > 0) {
				pause()
			}
			x := math.Min(left, most-w.tired)
			if x <= slack {
				pause()
				continue
			}
			it.Parts = append(it.Parts, Done{d.Part, x})
			it.End += x
			w.tired += x
			w.left -= x
			all -= x
			left -= x
		}
	}
	w.add(it)
}
