package optimize

import (
	"testing"

	"pgregory.net/rapid"
)

// someHands draws one to three pairs of hands for a week, in whole minutes; breaks take some of their time if they pull.
func someHands() *rapid.Generator[[]hands] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) hands {
		work := rapid.IntRange(0, 60).Draw(t, "work")
		return hands{
			name:  "h",
			does:  classSet(rapid.IntRange(0, 1<<classes-1).Draw(t, "does")),
			free:  float64(work + rapid.IntRange(0, 10).Draw(t, "breaks")),
			work:  float64(work),
			strip: float64(rapid.IntRange(0, work).Draw(t, "strip")),
		}
	}), 1, 3)
}

func someWork(t *rapid.T) (work [classes]float64) {
	for c := range work {
		work[c] = float64(rapid.IntRange(0, 40).Draw(t, "minutes"))
	}
	return work
}

func (s classSet) minutes(work [classes]float64) (sum float64) {
	for c, m := range work {
		if s.has(class(c)) {
			sum += m
		}
	}
	return sum
}

// The bounds hold exactly when the work can be given to the hands; bounds may only be left out if others imply
// them. Whole minutes, so the arithmetic is exact.
func TestLimitsHoldExactlyWhenTheWorkFindsHands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		week, work := someHands().Draw(t, "week"), someWork(t)
		if _, left := assign(week, [classes]float64{classDuties: work[classDuties]}); left > 0 {
			t.Skip("the duties alone do not fit; placing duties sees to that")
		}
		var used classSet
		for c, m := range work {
			if m > 0 {
				used |= class(c).set()
			}
		}
		holds := true
		for _, l := range limits(week, used, work[classDuties]) {
			if l.set.minutes(work) > l.capacity {
				holds = false
			}
		}
		if _, left := assign(week, work); (left == 0) != holds {
			t.Fatalf("bounds hold: %v, but %v minutes found no hands", holds, left)
		}
	})
}

// The flow is checked against trying every way to give whole blocks of work to hands.
func TestAssignGivesAsMuchAsCanBeGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		week := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) hands {
			work := rapid.IntRange(0, 3).Draw(t, "work")
			return hands{
				does:  classSet(rapid.IntRange(0, 1<<classes-1).Draw(t, "does")),
				free:  float64(work), // no breaks: these are not for the flow to share out
				work:  float64(work),
				strip: float64(rapid.IntRange(0, work).Draw(t, "strip")),
			}
		}), 1, 2).Draw(t, "week")
		var work [classes]float64
		for c := range work {
			work[c] = float64(rapid.IntRange(0, 2).Draw(t, "minutes"))
		}
		each, left := assign(week, work)
		var sum, all float64
		for h, g := range each {
			if g.all() > week[h].work {
				t.Fatalf("hands %d got %v of %v minutes", h, g.all(), week[h].work)
			}
			var pulled float64
			for c, m := range g {
				if m > 0 && !week[h].does.has(class(c)) {
					t.Fatalf("hands %d got %v minutes of class %d, which they may not do", h, m, c)
				}
				if pulling.has(class(c)) {
					pulled += m
				}
			}
			if pulled > week[h].strip {
				t.Fatalf("hands %d pull %v of %v minutes", h, pulled, week[h].strip)
			}
			sum += g.all()
		}
		for _, m := range work {
			all += m
		}
		if sum+left != all {
			t.Fatalf("given %v and left %v of %v", sum, left, all)
		}
		if best := mostGiven(week, work); best != sum {
			t.Fatalf("gave %v minutes, %v can be given", sum, best)
		}
	})
}

// mostGiven is the most minutes that can be given minute by minute, by exhaustion.
func mostGiven(week []hands, work [classes]float64) float64 {
	var minutes []class
	for c, m := range work {
		for range int(m) {
			minutes = append(minutes, class(c))
		}
	}
	type state struct{ n, w0, s0, w1, s1 int }
	seen := map[state]float64{}
	var try func(state) float64
	try = func(s state) float64 {
		if s.n == len(minutes) {
			return 0
		}
		if v, ok := seen[s]; ok {
			return v
		}
		c := minutes[s.n]
		next := s
		next.n++
		best := try(next)
		pull := 0
		if pulling.has(c) {
			pull = 1
		}
		if h := week[0]; h.does.has(c) && s.w0 < int(h.work) && s.s0+pull <= int(h.strip) {
			n := next
			n.w0, n.s0 = n.w0+1, n.s0+pull
			best = max(best, 1+try(n))
		}
		if len(week) > 1 {
			if h := week[1]; h.does.has(c) && s.w1 < int(h.work) && s.s1+pull <= int(h.strip) {
				n := next
				n.w1, n.s1 = n.w1+1, n.s1+pull
				best = max(best, 1+try(n))
			}
		}
		seen[s] = best
		return best
	}
	return try(state{})
}

func TestAssignFillsTheHandsThatMayDoLeastFirst(t *testing.T) {
	week := []hands{
		{name: "Handler", does: 1<<classes - 1, free: 120, work: 100, strip: 80},
		{name: "Assistant", does: classDuties.set() | classFurnishings.set(), free: 70, work: 60, strip: 40},
	}
	each, left := assign(week, [classes]float64{classJacket: 50, classFurnishings: 30, classSetUp: 10, classDuties: 40})
	if left != 0 || each[0].all() != 70 || each[1].all() != 60 {
		t.Fatalf("given %v, left %v; want 70 and 60, 0", each, left)
	}
}

func TestLimitsOfOneHandlerAreHoursAndHandLoad(t *testing.T) {
	week := []hands{{name: "Handler", does: 1<<classes - 1, free: 340, work: 300, strip: 240}}
	got := limits(week, pulling|classSetUp.set(), 20)
	if len(got) != 2 {
		t.Fatalf("%d bounds, want 2: %+v", len(got), got)
	}
	load, hours := got[0], got[1]
	if load.set != pulling || load.capacity != 240 || !load.strip || load.names != "Handler" {
		t.Errorf("hand load: %+v", load)
	}
	if hours.set != pulling|classSetUp.set() || hours.capacity != 280 || hours.strip || hours.names != "Handler" {
		t.Errorf("hours: %+v", hours)
	}
}
