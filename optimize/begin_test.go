package optimize

import (
	"context"
	"testing"

	"tuckup/kennel"
)

// A plan that is begun with the one before keeps its worth, is still within its bound, and takes fewer rounds.
func TestAPlanThatBeginsWithTheOneBeforeIsNoWorse(t *testing.T) {
	k, pats := twoShown(), testPatterns()
	opt := DefaultOptions()
	opt.On = k.PlanFrom
	first, err := Plan(context.Background(), k, pats, opt)
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
	if again.Season.Objective < first.Season.Objective-0.01*first.Season.Objective {
		t.Errorf("begun with a plan of %.4f points, the next is worth %.4f", first.Season.Objective, again.Season.Objective)
	}
	if again.Season.Objective > again.Season.Bound+1e-6 || again.Season.Objective > first.Season.Bound+1e-6 {
		t.Errorf("%.4f points are above a bound of %.4f or %.4f", again.Season.Objective, again.Season.Bound, first.Season.Bound)
	}
}

// Sessions are carried over by the dog's name and the week's Monday, not by their place.
func TestSessionsOfThePlanBeforeAreFoundByDogAndWeek(t *testing.T) {
	k, pats := twoShown(), testPatterns()
	opt := DefaultOptions()
	opt.On = k.PlanFrom
	before, err := Plan(context.Background(), k, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
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
	start := l.sessionsBefore()
	for week, n := range start.Sessions[0] {
		if n != 0 {
			t.Errorf("a dog that the plan before does not have has %d sessions in week %d", n, week)
		}
	}
	for d := range k.Dogs {
		for week := range len(start.Sessions[d+1]) - 1 {
			if got, want := start.Sessions[d+1][week], before.solved.Sessions[d][week+1]; got != want {
				t.Errorf("%s, week %d: %d sessions, want the %d of the plan before", k.Dogs[d].Name, week, got, want)
			}
		}
	}
}

// twoShown are two dogs, one of them with a show, and hours that are short.
func twoShown() kennel.Kennel {
	return kennel.Kennel{
		PlanFrom: monday, Weeks: 16, Hands: []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{1, 0, 1}, StripHoursADay: 4}},
		Dogs:  []kennel.Dog{evenDog("Moss", "rough", 8), evenDog("Sorrel", "wiry", 11)},
		Shows: []kennel.Show{showOn("Brackenmere", 70, "Moss")},
	}
}
