package lived

import (
	"cmp"
	"slices"
)

// Rule is a handler's rule of thumb: dogs are taken in turn, those longest not worked first and those with a show near before all
// others; of every area the oldest hair is pulled, so much that it comes once round in some weeks; and a coat may be
// staged before a show, area by area as long before it as its hair takes to come in.
type Rule struct {
	Round int  // weeks in which an area is pulled once round; with Own that of a body area
	Own   bool // every area has a round of its own, as its hair comes in and holds
	Near  int  // weeks before its show from which a dog comes first; 0 = never
	Stage int  // -1 = no staging; else an area is taken down so many weeks before the last moment
	Quiet int  // weeks before a show in which no more than a few hairs are pulled
}

// What every rule does. Common practice.
const (
	fewHairs     = 0.06 // of an area, in a session of the quiet weeks
	rollMost     = 0.125
	deadFirst    = 0.3  // dead hair of an area from which it is taken down, unless a show is near
	leastSession = 15.0 // minutes of pulling that are worth setting a dog up for
	stagedDown   = 0.9  // of an area: more is as good as all
)

// Rules are all rules that are tuned over.
func Rules() (all []Rule) {
	for _, own := range []bool{false, true} {
		for _, round := range []int{10, 13, 16, 20, 26} {
			for _, near := range []int{0, 6, 12, 20} {
				for _, stage := range []int{-1, 0, 2, 4} {
					for _, quiet := range []int{0, 3} {
						all = append(all, Rule{round, own, near, stage, quiet})
					}
				}
			}
		}
	}
	return all
}

// thumb is a handler that goes by a rule.
type thumb struct {
	Rule
	coats [][]Coat // as they will be if all of the week is done
	last  [][]int  // day on which an area was last worked
}

// Handler is a handler that goes by the rule.
func (r Rule) Handler() Handler { return &thumb{Rule: r} }

// Monday is the week's sessions, day by day.
func (h *thumb) Monday(w Week) (all []Session, err error) {
	h.look(w)
	count := make([]int, len(w.Dogs))
	lastDay := make([]int, len(w.Dogs)) // of a session of the dog, in days
	for d := range lastDay {
		lastDay[d] = slices.Max(h.last[d])
	}
	care := 0.0
	for i := range w.Dogs {
		care += w.Dogs[i].Care
	}
	workdays := 0.0
	for _, m := range w.Hours {
		if m > 0 {
			workdays++
		}
	}
	for n, minutes := range w.Hours {
		day := w.Day() + n
		if minutes <= 0 {
			continue
		}
		left, pulling := minutes-care/workdays, 0.0
		for _, d := range h.order(w, day, lastDay) {
			dog := &w.Dogs[d]
			if count[d] >= dog.AWeek || count[d] > 0 && day-lastDay[d] <= freeDays {
				continue
			}
			room := min(dog.Longest, left) - dog.SetUp
			for room > 0 && room+dog.SetUp+Breaks(pulling+room)-Breaks(pulling) > left {
				room -= breakTime
			}
			if room < leastSession {
				continue
			}
			x := h.session(w, d, day, room)
			if len(x.Takes) == 0 {
				continue
			}
			all = append(all, x)
			left -= dog.SetUp + x.Minutes + Breaks(pulling+x.Minutes) - Breaks(pulling)
			pulling += x.Minutes
			count[d]++
			lastDay[d] = day
		}
	}
	return all, nil
}

// look takes in what is on the dogs and when each area was last worked.
func (h *thumb) look(w Week) {
	h.coats = clone(w.Coats)
	h.last = make([][]int, len(w.Dogs))
	for d := range w.Dogs {
		h.last[d] = make([]int, len(w.Dogs[d].Areas))
		for a := range h.last[d] {
			h.last[d][a] = -4 * daysAWeek
			for _, t := range h.coats[d][a] {
				h.last[d][a] = max(h.last[d][a], t.Pulled)
			}
		}
	}
}

// order are the dogs in the order in which they are taken on a day.
func (h *thumb) order(w Week, day int, last []int) (dogs []int) {
	for d := range w.Dogs {
		dogs = append(dogs, d)
	}
	to := func(d int) int {
		if n := w.next(d, day); n <= h.Near*daysAWeek {
			return n
		}
		return 1 << 30
	}
	slices.SortStableFunc(dogs, func(a, b int) int { return cmp.Compare(last[a], last[b]) })
	if h.Near > 0 {
		slices.SortStableFunc(dogs, func(a, b int) int { return cmp.Compare(to(a), to(b)) })
	}
	return dogs
}

// session is a session on the dog in so many minutes: the areas that are due, those longest not worked first, and of them the slowest.
func (h *thumb) session(w Week, d, day int, minutes float64) Session {
	dog := &w.Dogs[d]
	x := Session{Dog: d, Day: day}
	areas := make([]int, 0, len(dog.Areas))
	for a := range dog.Areas {
		areas = append(areas, a)
	}
	slices.SortStableFunc(areas, func(a, b int) int {
		return cmp.Or(cmp.Compare(h.last[d][a], h.last[d][b]), cmp.Compare(dog.Areas[b].Ready, dog.Areas[a].Ready))
	})
	for _, down := range []bool{true, false} { // what is taken down comes before what is rolled
		for _, a := range areas {
			share, whole := h.wants(w, d, a, day)
			if share <= 0 || whole != down || minutes-x.Minutes <= 0 {
				continue
			}
			// The handler does not know the growth: what is dead and what can be gripped is judged as of a usual dog.
			after, pulled, took := dog.Areas[a].pull(h.coats[d][a], day, 1, share, minutes-x.Minutes, w.Pick)
			if pulled <= 0 {
				continue
			}
			h.coats[d][a], h.last[d][a] = after, day
			x.Takes = append(x.Takes, Take{a, pulled})
			x.Minutes += took
		}
	}
	return x
}

// wants is how much of an area is due on a day, and whether it is taken down rather than rolled.
func (h *thumb) wants(w Week, d, a, day int) (share float64, down bool) {
	area := &w.Dogs[d].Areas[a]
	next := w.next(d, day)
	switch {
	case area.Kept || area.Jacket && next <= leaveAlone:
		return 0, false
	case next <= h.Quiet*daysAWeek:
		return min(fewHairs, h.rolled(area, d, a, day)), false
	}
	ready := int(area.Ready * daysAWeek)
	if h.Stage >= 0 {
		// The hair that is pulled now is right at the next show: it is taken down, unless that was done for it.
		from := ready + h.Stage*daysAWeek
		within := next >= ready && next <= from+stageSpan
		if within && h.coats[d][a].younger(day, float64(stageSpan+h.Stage*daysAWeek)/daysAWeek) < stagedDown {
			return 1, true
		}
		if next < ready && next > 0 {
			return 0, false // it rests until the show
		}
	}
	if dead := area.Dead(h.coats[d][a], day, 1); dead >= deadFirst && next > ready {
		return dead, true
	}
	return h.rolled(area, d, a, day), false
}

// stageSpan is how many days before the first moment staging may begin: an area may have to wait for its dog's turn.
const stageSpan = 14

// rolled is what is due of an area by the weeks since it was last worked.
func (h *thumb) rolled(area *Area, d, a, day int) float64 {
	weeks, round, most := float64(day-h.last[d][a])/daysAWeek, float64(h.Round), rollMost
	if h.Own {
		part := (area.Ready + area.Hold/2) / bodyRound
		round, most = round*part, most/min(1, part)
	}
	return min(most, weeks/round)
}

// bodyRound is the weeks in which a body area with ready 11 and hold 7 comes round when it is rolled evenly.
const bodyRound = 14.5
