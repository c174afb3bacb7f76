package optimize

import (
	"context"
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// A plan that is begun with the one before a change is about as good as one that is sought afresh, and within both bounds.
func TestAPlanThatBeginsWithTheOneBeforeIsNoWorse(t *testing.T) {
	k, pats, opt, first := twoPlanned(t)
	k.Shows = append(k.Shows, made.ShowOn("Yarrowmead", 90, "Sorrel"))
	fresh, err := Plan(context.Background(), k, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
	opt.Begin = &first
	again, err := Plan(context.Background(), k, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
	if again.Options.Begin != nil {
		t.Error("the plan keeps the one that it began with")
	}
	if again.Season.Objective < 0.99*fresh.Season.Objective {
		t.Errorf("begun with the plan before it is worth %.4f, sought afresh %.4f", again.Season.Objective, fresh.Season.Objective)
	}
	if o := again.Season.Objective; o > again.Season.Bound+1e-6 || o > fresh.Season.Bound+1e-6 {
		t.Errorf("%.4f points are above a bound of %.4f or %.4f", o, again.Season.Bound, fresh.Season.Bound)
	}
}

// Sessions and shares are carried over by the dog's name and the week's Monday, not by their place.
func TestSessionsOfThePlanBeforeAreFoundByDogAndWeek(t *testing.T) {
	k, pats, opt, before := twoPlanned(t)
	later := k.Clone()
	stranger := later.Dogs[0]
	stranger.Name = "Stranger"
	later.Dogs = append([]kennel.Dog{stranger}, later.Dogs...)
	opt.On = k.PlanFrom.AddDays(kennel.DaysAWeek)
	opt.Begin = &before
	l, err := layOut(later, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
	start := l.planBefore()
	for week, n := range start.Sessions[0] {
		if n != 0 {
			t.Errorf("a dog that the plan before does not have has %d sessions in week %d", n, week)
		}
	}
	sessions := 0
	for d := range k.Dogs {
		for week := range len(start.Sessions[d+1]) - 1 {
			var was DogWeek // as the plan before says it
			for _, x := range before.Weeks[week+1].Dogs {
				if x.Dog == k.Dogs[d].Name {
					was = x
				}
			}
			if sessions += was.Sessions; start.Sessions[d+1][week] != was.Sessions {
				t.Errorf("%s, week %d: %d sessions, want the %d of the plan before", k.Dogs[d].Name, week, start.Sessions[d+1][week], was.Sessions)
			}
			for a, area := range l.pattern(d + 1).Areas {
				want := 0.0
				for _, x := range was.Areas {
					if x.Area == area.Name {
						want = float64(x.Share)
					}
				}
				if got := start.Shares[d+1][a][week]; got != want {
					t.Errorf("%s, %s, week %d: %v, want the %v of the plan before", k.Dogs[d].Name, area.Name, week, got, want)
				}
			}
		}
	}
	if sessions == 0 {
		t.Error("the plan before has no sessions")
	}
}

// twoPlanned plans them from the day on which their kennel begins.
func twoPlanned(t *testing.T) (k kennel.Kennel, pats kennel.Patterns, opt Options, r Result) {
	t.Helper()
	k, pats, opt = made.TwoShown(), made.Patterns(), DefaultOptions()
	opt.On = k.PlanFrom
	r, err := Plan(context.Background(), k, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
	return k, pats, opt, r
}

// Where nothing changed the plan before is the answer, also when its own sessions were agreed on since; else it is not.
func TestNothingChangedIsAnsweredByThePlanBefore(t *testing.T) {
	k, pats, opt, before := twoPlanned(t)
	opt.Begin = &before
	ask := func(k kennel.Kennel, opt Options) bool {
		l, err := layOut(k, pats, opt)
		if err != nil {
			t.Fatal(err)
		}
		_, same := l.answered()
		return same
	}
	if !ask(k, opt) {
		t.Error("the same kennel is sought again")
	}
	later := k.Clone()
	later.Shows[0].Weight++
	if ask(later, opt) {
		t.Error("a show that matters more is answered by the plan before")
	}
	opt.Accepted = weeklySessions(before, 2)
	if len(opt.Accepted) == 0 {
		t.Fatal("the plan has no sessions to agree on")
	}
	if !ask(k, opt) {
		t.Error("its own sessions, agreed on, are sought again")
	}
	opt.Accepted = opt.Accepted[1:]
	if ask(k, opt) {
		t.Error("other sessions that were agreed on are answered by the plan before")
	}
}

// weeklySessions are the sessions of the solved plan's first weeks, on days that the hands may work.
func weeklySessions(r Result, weeks int) (all []kennel.Session) {
	for d, dog := range r.Kennel.Dogs {
		for t := range weeks {
			for n := range r.Solved.Answer.Plan.Sessions[d][t] {
				all = append(all, kennel.Session{Dog: dog.Name, On: max(r.On, r.Week0.AddDays(t*kennel.DaysAWeek+2*n))})
			}
		}
	}
	return all
}

func TestAgreedSessionsAreKeptWeekByWeek(t *testing.T) {
	k := made.TwoShown()
	opt := DefaultOptions()
	opt.On = k.PlanFrom
	a, b := k.Dogs[0].Name, k.Dogs[1].Name
	on := func(dog string, days int) kennel.Session { return kennel.Session{Dog: dog, On: opt.On.AddDays(days)} }
	opt.Accepted = []kennel.Session{on(a, 0), on(a, 2), on(b, 8), on(a, -1), on(a, 30)}
	l, err := layOut(k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(l.problem.Dogs[0].Kept, []int{2, 0}) || !slices.Equal(l.problem.Dogs[1].Kept, []int{0, 1}) {
		t.Errorf("kept %v and %v, want 2 0 and 0 1", l.problem.Dogs[0].Kept, l.problem.Dogs[1].Kept)
	}
}

// What was done this week is spent: the dog's sessions, and of today the hands' time.
func TestWorkDoneIsSpent(t *testing.T) {
	k := made.TwoShown()
	opt := DefaultOptions()
	opt.On = k.PlanFrom.Monday().AddDays(kennel.DaysAWeek)
	free, err := layOut(k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	dog, hands := k.Dogs[0], k.Hands[0]
	opt.Done = []kennel.Work{
		{Dog: dog.Name, On: opt.On, Hands: hands.Name, Minutes: 40, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.05}}},
		{Dog: k.Dogs[1].Name, On: opt.On, Hands: hands.Name, Minutes: 10, Duty: "nails"},
		{Dog: dog.Name, On: opt.On.AddDays(-3), Hands: hands.Name, Minutes: 40, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.05}}},
	}
	spent, err := layOut(k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	if was, is := free.problem.Dogs[0].Most, spent.problem.Dogs[0].Most; is[0] != was[0]-1 || is[1] != was[1] {
		t.Errorf("most sessions %v without and %v with one done today", was[:2], is[:2])
	}
	was, is := free.diary.HandsIn(0)[0], spent.diary.HandsIn(0)[0]
	if was.Work-is.Work != 50 || was.Strip-is.Strip != 40 || was.There != is.There {
		t.Errorf("%+v without and %+v with 40 minutes of pulling and 10 of nails done today", was, is)
	}
	if next := spent.diary.HandsIn(1)[0]; next.Work != was.Work {
		t.Errorf("next week has %v minutes, want %v", next.Work, was.Work)
	}
}
