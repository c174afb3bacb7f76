package week

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

const close = 1e-5 // minutes

// TestWeeksKeepTheRules checks what was laid out against the problem alone, minute by minute.
func TestWeeksKeepTheRules(t *testing.T) {
	sizes := []size{{6, 2, 6, 9, 5}, {7, 3, 5, 10, 6}, {5, 2, 8, 8, 6}, {3, 1, 3, 4, 3}}
	var shared, breaks, baths int
	rapid.Check(t, func(t *rapid.T) {
		p := randomWeek(rapid.Uint64().Draw(t, "seed"), rapid.SampledFrom(sizes).Draw(t, "size"))
		r, err := Solve(p, Options{Nodes: 20, Steps: 100000, Tries: 2000})
		if err != nil {
			t.Fatal(err)
		}
		if r.Objective > r.Bound+gainStep {
			t.Fatalf("%v is above the bound %v", r.Objective, r.Bound)
		}
		linesKeepTheirLimits(t, p, &r)
		dogsAreInOnePlace(t, p, &r)
		sessionsKeepTheirRules(t, p, &r)
		dutiesKeepTheirRules(t, p, &r)
		for _, s := range r.Sessions {
			if s.Helper >= 0 {
				shared++
			}
		}
		for i, d := range r.Duties {
			if d.Placed && p.Duties[i].Lifts {
				baths++
			}
		}
		for _, l := range r.Lines {
			for _, it := range l.Items {
				if it.Session < 0 && it.Duty < 0 {
					breaks++
				}
			}
		}
	})
	if shared == 0 || (breaks == 0 || baths == 0) && !testing.Short() { // the quick round draws too few weeks to be sure of both
		t.Errorf("%d shared sessions, %d breaks and %d baths: nothing was tried", shared, breaks, baths)
	}
}

// linesKeepTheirLimits: items are within the free time and don't overlap; no more than so much is pulled without a rest,
// or in a day; nobody does what they are not let near.
func linesKeepTheirLimits(t *rapid.T, p *Problem, r *Result) {
	for _, l := range r.Lines {
		day := p.Hands[l.Hands].Days[l.Day]
		at, tired, strip := math.Inf(-1), 0.0, 0.0
		for n, it := range l.Items {
			inside := false
			for _, s := range day.Stretches {
				inside = inside || it.Start >= s.Start-close && it.End <= s.Start+s.Minutes+close
			}
			if !inside || it.Start < at-close || it.End < it.Start {
				t.Fatalf("hands %d, day %d: %v to %v after %v, free %v", l.Hands, l.Day, it.Start, it.End, at, day.Stretches)
			}
			if it.Start-at >= p.Break-close || it.Session < 0 && it.Duty < 0 && it.End-it.Start >= p.Break-close {
				tired = 0
			}
			at = it.End
			length := it.SetUp
			for _, d := range it.Parts {
				length += d.Minutes
				tired += d.Minutes
				strip += d.Minutes
				if kind := p.Sessions[it.Session].Parts[d.Part].Kind; p.Hands[l.Hands].Does&Kind(kind) == 0 {
					t.Fatalf("hands %d are not let near kind %d", l.Hands, kind)
				}
			}
			switch {
			case it.Session >= 0:
			case it.Duty >= 0:
				length = p.Duties[it.Duty].Minutes
			default:
				length = p.Break
			}
			if math.Abs(length-(it.End-it.Start)) > close || tired > p.BreakAfter+p.Past+close || tired > p.BreakAfter+close && !last(l, n) {
				t.Fatalf("hands %d, day %d: %v minutes of work in %v to %v, %v pulled without a rest", l.Hands, l.Day, length, it.Start, it.End, tired)
			}
		}
		if strip > day.Strip+close {
			t.Fatalf("hands %d, day %d: %v minutes of pulling, at most %v", l.Hands, l.Day, strip, day.Strip)
		}
	}
}

// last reports whether the item is the last of its session for these hands.
func last(l Line, n int) bool {
	return !slices.ContainsFunc(l.Items[n+1:], func(it Item) bool { return it.Session >= 0 && it.Session == l.Items[n].Session })
}

// dogsAreInOnePlace: a dog is never asked for twice at a time.
func dogsAreInOnePlace(t *rapid.T, p *Problem, r *Result) {
	type stay struct {
		dog, day int
		from, to float64
	}
	var all []stay
	for _, l := range r.Lines {
		for _, it := range l.Items {
			s := stay{-1, l.Day, it.Start, it.End}
			switch {
			case it.Session >= 0:
				s.dog = p.Sessions[it.Session].Dog
			case it.Duty >= 0:
				s.dog = p.Duties[it.Duty].Dog
			default:
				continue
			}
			if !p.Dogs[s.dog].Days[s.day].There {
				t.Fatalf("dog %d is not there on day %d", s.dog, s.day)
			}
			for _, o := range all {
				if o.dog == s.dog && o.day == s.day && o.from < s.to-close && s.from < o.to-close {
					t.Fatalf("dog %d, day %d: %v to %v and %v to %v", s.dog, s.day, o.from, o.to, s.from, s.to)
				}
			}
			all = append(all, s)
		}
	}
}

// sessionsKeepTheirRules: one a day on a dog, jacket sessions apart, none too long, and what the lines do is what the
// session says.
func sessionsKeepTheirRules(t *rapid.T, p *Problem, r *Result) {
	did, setUps := make([]map[int]float64, len(p.Sessions)), make([]float64, len(p.Sessions))
	for i := range did {
		did[i] = map[int]float64{}
	}
	for _, l := range r.Lines {
		for _, it := range l.Items {
			if it.Session < 0 {
				continue
			}
			setUps[it.Session] += it.SetUp
			if it.SetUp > 0 && p.Hands[l.Hands].Does&SkillSetUp == 0 && len(it.Parts) == 0 {
				t.Fatalf("hands %d set session %d up and do nothing of it", l.Hands, it.Session)
			}
			for _, d := range it.Parts {
				did[it.Session][d.Part] += d.Minutes
			}
		}
	}
	days := make([]map[int]bool, len(p.Dogs))
	jackets := make([][]int, len(p.Dogs))
	for d := range p.Dogs {
		days[d] = map[int]bool{}
		jackets[d] = append(jackets[d], p.Dogs[d].Jackets...)
	}
	for i, s := range r.Sessions {
		d, sum, jacket := p.Sessions[i].Dog, p.Sessions[i].SetUp, false
		for a, x := range s.Minutes {
			part := p.Sessions[i].Parts[a]
			if math.Abs(x-did[i][a]) > close || x > part.Minutes+close {
				t.Fatalf("session %d, part %d: %v minutes told, %v done, %v wanted", i, a, x, did[i][a], part.Minutes)
			}
			if s.Placed && x > 0 && part.barred(s.Day) {
				t.Fatalf("session %d, part %d is worked on day %d, %v", i, a, s.Day, part.Barred)
			}
			sum += x
			jacket = jacket || x > 0 && part.Kind == JacketKind
		}
		if !s.Placed {
			if sum > p.Sessions[i].SetUp {
				t.Fatalf("session %d is not placed and worked", i)
			}
			continue
		}
		if math.Abs(setUps[i]-p.Sessions[i].SetUp) > close {
			t.Fatalf("session %d is set up for %v minutes", i, setUps[i])
		}
		if on := p.Dogs[d].Days[s.Day]; on.Fixed || sum > on.Longest+close || days[d][s.Day] {
			t.Fatalf("session %d of %v minutes on day %d: %+v, another %v", i, sum, s.Day, on, days[d][s.Day])
		}
		days[d][s.Day] = true
		for k := range i {
			if q := r.Sessions[k]; p.Sessions[k].Dog == d && q.Placed && q.Day >= s.Day {
				t.Fatalf("dog %d: session %d on day %d, session %d on day %d", d, k, q.Day, i, s.Day)
			}
		}
		for _, o := range jackets[d] {
			if jacket && apart(o, s.Day) < p.Apart && !fixedPair(p, d, o, s.Day) {
				t.Fatalf("dog %d: jacket sessions on days %d and %d", d, o, s.Day)
			}
		}
		if jacket {
			jackets[d] = append(jackets[d], s.Day)
		}
	}
}

// fixedPair reports whether both days hold fixed sessions, which nobody can move apart.
func fixedPair(p *Problem, d, a, b int) bool {
	return p.Dogs[d].Days[a].Fixed && p.Dogs[d].Days[b].Fixed
}

// dutiesKeepTheirRules: on allowed days; a bath one or two days before a jacket session, on a day without a session.
func dutiesKeepTheirRules(t *rapid.T, p *Problem, r *Result) {
	for i, d := range r.Duties {
		if !d.Placed {
			continue
		}
		duty := p.Duties[i]
		if !duty.Days[d.Day] || p.Hands[d.Hands].Does&SkillDuties == 0 {
			t.Fatalf("duty %d on day %d by hands %d", i, d.Day, d.Hands)
		}
		if !duty.Lifts {
			continue
		}
		followed := false
		for _, j := range p.Dogs[duty.Dog].Jackets {
			followed = followed || j > d.Day && j <= d.Day+liftDays
		}
		for k, s := range r.Sessions {
			if !s.Placed || p.Sessions[k].Dog != duty.Dog {
				continue
			}
			if s.Day == d.Day {
				t.Fatalf("bath %d on the day of session %d", i, k)
			}
			followed = followed || s.Day > d.Day && s.Day <= d.Day+liftDays
		}
		if !followed {
			t.Fatalf("bath %d on day %d is not followed by a session", i, d.Day)
		}
	}
}

func TestSolvingTwiceGivesTheSameWeek(t *testing.T) {
	a, _ := Solve(usualWeek(3, 1), Options{Nodes: 5, Steps: 1000000, Tries: 5000})
	b, _ := Solve(usualWeek(3, 1), Options{Nodes: 5, Steps: 1000000, Tries: 5000})
	if a.Objective != b.Objective || a.Bound != b.Bound || len(a.Lines) != len(b.Lines) {
		t.Errorf("%v (%v) and %v (%v)", a.Objective, a.Bound, b.Objective, b.Bound)
	}
}

func TestAWeekThatFitsIsPlacedWhole(t *testing.T) {
	p := usualWeek(1, 0.6)
	r, err := Solve(p, DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range r.Sessions {
		for a, x := range s.Minutes {
			if math.Abs(x-p.Sessions[i].Parts[a].Minutes) > close {
				t.Errorf("session %d, part %d: %v of %v minutes", i, a, x, p.Sessions[i].Parts[a].Minutes)
			}
		}
	}
	if !r.Proven || r.Bound > r.Objective+DefaultWithin {
		t.Errorf("%v, bound %v", r.Objective, r.Bound)
	}
}

func TestUsualWeeksAreProvenBest(t *testing.T) {
	proven := 0
	hours := []float64{0.7, 0.9, 1, 1.1, 1.25}
	seeds := 2
	if testing.Short() {
		seeds, hours = 1, []float64{0.7, 1, 1.25}
	}
	for seed := range uint64(seeds) {
		for _, full := range hours {
			p := usualWeek(seed, full)
			for i := range p.Sessions {
				p.Sessions[i].Least = 0
				for a := range p.Sessions[i].Parts {
					p.Sessions[i].Parts[a].Least = 0
				}
			}
			r, err := Solve(p, DefaultOptions())
			if err != nil {
				t.Fatal(err)
			}
			open := r.Bound - r.Objective
			if r.Proven != (open <= DefaultWithin) || open < -gainStep || r.Gap > 0.002 {
				t.Errorf("seed %d, %v of the hours: %v, bound %v, proven %v", seed, full, r.Objective, r.Bound, r.Proven)
			}
			if r.Proven {
				proven++
			}
		}
	}
	if all := seeds * len(hours); proven < all-1 {
		t.Errorf("%d of %d weeks were proven", proven, all)
	}
}
