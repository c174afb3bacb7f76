package hours

import (
	"testing"

	"pgregory.net/rapid"
)

// someHands draws one to three pairs of hands for a week, in whole minutes; breaks take some of their time if they pull.
func someHands() *rapid.Generator[[]Hands] {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Hands {
		work := rapid.IntRange(0, 60).Draw(t, "work")
		does := ClassSet(rapid.IntRange(0, 1<<Classes-1).Draw(t, "does"))
		if does.Has(ClassDuties) {
			does |= ClassCare.Set() // who does duties may care for kept hair
		}
		if does.Has(ClassClose) {
			does |= ClassTrim.Set() // and who does close work may trim
		}
		return Hands{
			Name:  "h",
			Does:  does,
			Free:  float64(work + rapid.IntRange(0, 10).Draw(t, "breaks")),
			Work:  float64(work),
			Strip: float64(rapid.IntRange(0, work).Draw(t, "strip")),
		}
	}), 1, 3)
}

func someWork(t *rapid.T) (work [Classes]float64) {
	for c := range work {
		work[c] = float64(rapid.IntRange(0, 40).Draw(t, "minutes"))
	}
	return work
}

func (s ClassSet) minutes(work [Classes]float64) (sum float64) {
	for c, m := range work {
		if s.Has(Class(c)) {
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
		fixed := Fixed{Duties: work[ClassDuties], Care: work[ClassCare], Trim: work[ClassTrim]}
		_, left := Assign(week, [Classes]float64{ClassDuties: fixed.Duties, ClassCare: fixed.Care, ClassTrim: fixed.Trim})
		if (left == 0) != fixed.fits(week) {
			t.Fatalf("duties and care fit: %v, but %v minutes found no hands", fixed.fits(week), left)
		}
		if left > 0 {
			t.Skip("the duties alone do not fit; placing duties sees to that")
		}
		var used ClassSet
		for c, m := range work {
			if m > 0 {
				used |= Class(c).Set()
			}
		}
		holds := true
		for _, l := range Limits(week, used, fixed) {
			if l.Set.minutes(work) > l.Capacity {
				holds = false
			}
		}
		if _, left := Assign(week, work); (left == 0) != holds {
			t.Fatalf("bounds hold: %v, but %v minutes found no hands", holds, left)
		}
	})
}

// The flow is checked against trying every way to give whole blocks of work to hands.
func TestAssignGivesAsMuchAsCanBeGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		week := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Hands {
			work := rapid.IntRange(0, 3).Draw(t, "work")
			return Hands{
				Does:  ClassSet(rapid.IntRange(0, 1<<Classes-1).Draw(t, "does")),
				Free:  float64(work), // no breaks: these are not for the flow to share out
				Work:  float64(work),
				Strip: float64(rapid.IntRange(0, work).Draw(t, "strip")),
			}
		}), 1, 2).Draw(t, "week")
		var work [Classes]float64
		for c := range work {
			work[c] = float64(rapid.IntRange(0, 2).Draw(t, "minutes"))
		}
		each, left := Assign(week, work)
		var sum, all float64
		for h, g := range each {
			if g.All() > week[h].Work {
				t.Fatalf("hands %d got %v of %v minutes", h, g.All(), week[h].Work)
			}
			var pulled float64
			for c, m := range g {
				if m > 0 && !week[h].Does.Has(Class(c)) {
					t.Fatalf("hands %d got %v minutes of class %d, which they may not do", h, m, c)
				}
				if Pulling.Has(Class(c)) {
					pulled += m
				}
			}
			if pulled > week[h].Strip {
				t.Fatalf("hands %d pull %v of %v minutes", h, pulled, week[h].Strip)
			}
			sum += g.All()
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
func mostGiven(week []Hands, work [Classes]float64) float64 {
	var minutes []Class
	for c, m := range work {
		for range int(m) {
			minutes = append(minutes, Class(c))
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
		if Pulling.Has(c) {
			pull = 1
		}
		if h := week[0]; h.Does.Has(c) && s.w0 < int(h.Work) && s.s0+pull <= int(h.Strip) {
			n := next
			n.w0, n.s0 = n.w0+1, n.s0+pull
			best = max(best, 1+try(n))
		}
		if len(week) > 1 {
			if h := week[1]; h.Does.Has(c) && s.w1 < int(h.Work) && s.s1+pull <= int(h.Strip) {
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
	week := []Hands{
		{Name: "Handler", Does: 1<<Classes - 1, Free: 120, Work: 100, Strip: 80},
		{Name: "Assistant", Does: ClassDuties.Set() | ClassCare.Set() | ClassFurnishings.Set(), Free: 70, Work: 60, Strip: 40},
	}
	each, left := Assign(week, [Classes]float64{ClassJacket: 50, ClassFurnishings: 30, ClassSetUp: 10, ClassDuties: 40})
	if left != 0 || each[0].All() != 70 || each[1].All() != 60 {
		t.Fatalf("given %v, left %v; want 70 and 60, 0", each, left)
	}
}

func TestLimitsOfOneHandlerAreHoursAndHandLoad(t *testing.T) {
	week := []Hands{{Name: "Handler", Does: 1<<Classes - 1, Free: 340, Work: 300, Strip: 240}}
	got := Limits(week, Pulling|ClassSetUp.Set(), Fixed{Duties: 15, Care: 5})
	if len(got) != 2 {
		t.Fatalf("%d bounds, want 2: %+v", len(got), got)
	}
	load, hours := got[0], got[1]
	if load.Set != Pulling || load.Capacity != 240 || !load.Strip || load.Names != "Handler" {
		t.Errorf("hand load: %+v", load)
	}
	if hours.Set != Pulling|ClassSetUp.Set() || hours.Capacity != 280 || hours.Strip || hours.Names != "Handler" {
		t.Errorf("hours: %+v", hours)
	}
}
