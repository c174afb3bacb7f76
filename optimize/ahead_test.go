package optimize

import (
	"context"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

func lookAhead(t testing.TB, k kennel.Kennel) []Ahead {
	t.Helper()
	k.PlanFrom = made.Monday
	all, err := LookAhead(context.Background(), k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// C1, C5: a coat stripped to the undercoat is out for 10 to 12 weeks, whatever is done (seen).
func TestStrippedDogCanNotBeInCoatBeforeItsHairIsBack(t *testing.T) {
	k := kennel.Kennel{Weeks: 20, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 1), made.EvenDog("Sorrel", "wiry", 11)}}
	all := lookAhead(t, k)
	moss, sorrel := all[0], all[1]
	if weeks := kennel.WeekOf(moss.Earliest, made.Monday) + 1; weeks < 9 || weeks > 12 || moss.State != kennel.StateComingIn {
		t.Errorf("stripped a week ago, in coat %d weeks on: %+v", weeks, moss)
	}
	if sorrel.Earliest != made.Monday || sorrel.State != kennel.StateInCoat || sorrel.Windows[0].From != made.Monday {
		t.Errorf("%+v", sorrel)
	}
}

func TestDogThatCanNotBeInCoatIsToldItsBest(t *testing.T) {
	k := kennel.Kennel{Weeks: 6, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 0)}}
	a := lookAhead(t, k)[0]
	if a.Earliest != 0 || len(a.Windows) != 0 || a.Most >= kennel.ReadyScore || a.Most <= 0 || a.WorstArea == "" || a.MostOn < made.Monday || a.Why == "" {
		t.Errorf("%+v", a)
	}
}

// What the string's plan makes of a dog, the dog alone can be. Not held to it are dogs with spells: when shares are chosen their thresholds
// are mixtures of what they are week by week, so that a plan for one week alone may miss it, by six points where it was tried.
func TestDogThatComesFirstCanBeInCoatWheneverThePlanHasIt(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	rapid.Check(t, func(t *rapid.T) {
		k := made.Kennel().Draw(t, "kennel")
		r, err := Plan(context.Background(), k, made.Patterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		all, err := LookAhead(context.Background(), k, made.Patterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for i, o := range r.Outlooks {
			if len(k.Dogs[i].Spells) > 0 {
				continue
			}
			for week, state := range o.PlannedStates {
				day := r.Week0.AddDays(week*kennel.DaysAWeek + kennel.DaysAWeek - 1)
				if state == kennel.StateInCoat && !inWindows(all[i].Windows, day) {
					t.Fatalf("%s is in coat in week %d with the plan, but could not be: %+v", o.Dog, week, all[i])
				}
			}
			if (all[i].Earliest == 0) != (len(all[i].Windows) == 0 && o.State != kennel.StateInCoat) {
				t.Fatalf("%+v", all[i])
			}
		}
	})
}

func inWindows(windows []kennel.Window, day kennel.Date) bool {
	for _, w := range windows {
		if w.From <= day && day <= w.To {
			return true
		}
	}
	return false
}

func TestLookAheadEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	k := kennel.Kennel{PlanFrom: made.Monday, Weeks: 6, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 0)}}
	if _, err := LookAhead(ctx, k, made.Patterns(), DefaultOptions()); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// A dog that comes first still has no more hours than there are.
func TestDogThatComesFirstHasOnlyTheHoursThereAre(t *testing.T) {
	k := kennel.Kennel{Weeks: 20, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 40)}}
	if testing.Short() {
		k.Weeks = 15 // three more than its hair takes to come back
	}
	if a := lookAhead(t, k)[0]; a.Earliest == 0 {
		t.Fatalf("a blown coat with ample hours: %+v", a)
	}
	k.Hands[0].StripHoursADay = 0.02
	if a := lookAhead(t, k)[0]; a.Earliest != 0 {
		t.Errorf("a blown coat with hands that pull six minutes a week: %+v", a)
	}
}
