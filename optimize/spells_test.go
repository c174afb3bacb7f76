package optimize

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// A spell changes only its dog: all others are handed to the season as they were.
func TestASpellChangesOnlyItsDog(t *testing.T) {
	changed := 0
	rapid.Check(t, func(t *rapid.T) {
		k := made.Kennel().Draw(t, "kennel")
		if len(k.Dogs) == 0 {
			return
		}
		was, err := Problem(k, made.Patterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		other := k.Clone()
		n := rapid.IntRange(0, len(k.Dogs)-1).Draw(t, "dog")
		other.Dogs[n].Spells = append(other.Dogs[n].Spells, made.Spell(t))
		is, err := Problem(other, made.Patterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for d := range is.Dogs {
			same := reflect.DeepEqual(was.Dogs[d], is.Dogs[d])
			if d != n && !same {
				t.Fatalf("a spell of %s changes %s", k.Dogs[n].Name, k.Dogs[d].Name)
			}
			if d == n && !same {
				changed++
			}
		}
	})
	if changed == 0 {
		t.Error("no spell changes anything")
	}
}

func planOf(t *testing.T, k kennel.Kennel) Result {
	t.Helper()
	r, err := Plan(context.Background(), k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func spelled(spells ...kennel.Spell) kennel.Kennel {
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 9), made.EvenDog("Sorrel", "rough", 9)},
		Shows: []kennel.Show{made.ShowOn("Brackenmere", 61, "Moss", "Sorrel"), made.ShowOn("Yarrowmead", 103, "Moss", "Sorrel")},
	}
	k.Dogs[0].Spells = spells
	return k
}

// A show in the days of a spell is asked about, and nothing is planned for it; the others are planned as ever.
func TestNothingIsPulledForAShowInASpell(t *testing.T) {
	r := planOf(t, spelled(kennel.Spell{From: made.Monday + 50, To: made.Monday + 70, What: kennel.SpellSeason, Growth: 0.8}))
	var asked []string
	for _, c := range r.Cannot {
		asked = append(asked, c.What+": "+c.Why)
	}
	if len(asked) == 0 || !strings.Contains(asked[0], "Moss at Brackenmere") || !strings.Contains(asked[0], "withdraw it") {
		t.Errorf("%q", asked)
	}
	for _, x := range r.Readiness {
		if x.Dog == "Moss" && x.Show == "Brackenmere" {
			t.Errorf("it is planned for: %+v", x)
		}
	}
	if len(r.Readiness) != 3 {
		t.Errorf("%d dog-shows are planned for, not 3", len(r.Readiness))
	}
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			if d.Dog == "Moss" && strings.Contains(d.Why, "Brackenmere") {
				t.Errorf("%s: %s is worked for %s", w.Week, d.Dog, d.Why)
			}
		}
	}
}

// A dog that the vet keeps off the table is worked on no day of its spell, and has no duty on one.
func TestAnIllDogIsNotWorked(t *testing.T) {
	ill := kennel.Spell{From: made.Monday + 2, To: made.Monday + 33, What: kennel.SpellIllness, Growth: 0.5}
	k := spelled(ill)
	k.Dogs[0].Duties = []kennel.Duty{{Name: "nails", Minutes: 10, Every: 1}}
	r, worked := planOf(t, k), 0
	for _, day := range r.Timetable.Days {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				if i.Dog == "Moss" && ill.Holds(day.On) {
					t.Errorf("%s: %s of Moss", day.On, i.Kind)
				}
			}
		}
	}
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			switch {
			case d.Dog != "Moss":
			case w.Week >= ill.From && w.Week+6 <= ill.To:
				t.Errorf("%s: %d sessions of Moss", w.Week, d.Sessions)
			default:
				worked++
			}
		}
	}
	if worked == 0 {
		t.Error("it is never worked at all")
	}
}

// A spell that slows growth lowers what can be promised soon after it, of its dog alone.
func TestASlowSpellLowersItsDogsReadiness(t *testing.T) {
	at := func(r Result, dog, show string) kennel.Score {
		for _, x := range r.Readiness {
			if x.Dog == dog && x.Show == show {
				return x.Idle
			}
		}
		t.Fatalf("%s at %s is not planned", dog, show)
		return 0
	}
	k := spelled()
	k.Dogs[0].All[0].Pulled, k.Dogs[1].All[0].Pulled = made.Monday-14, made.Monday-14
	usual := planOf(t, k)
	k.Dogs[0].Spells = []kennel.Spell{{From: made.Monday, To: made.Monday + 55, What: kennel.SpellOther, Growth: 0.3, Table: kennel.AnswerYes}}
	slow := planOf(t, k)
	if a, b := at(usual, "Moss", "Brackenmere"), at(slow, "Moss", "Brackenmere"); b >= a {
		t.Errorf("left alone it would be %v, and %v with a spell of slow growth", a, b)
	}
	if a, b := at(usual, "Sorrel", "Brackenmere"), at(slow, "Sorrel", "Brackenmere"); a != b {
		t.Errorf("the other dog goes from %v to %v", a, b)
	}
}

// A dog in season stays at home: who goes to the show takes the others.
func TestWhoTravelsToAShowLeavesADogInASpellAtHome(t *testing.T) {
	k := spelled(kennel.Spell{From: made.Monday, To: made.Monday + 20, What: kennel.SpellSeason, Growth: 0.8})
	k.Shows = append(k.Shows, made.ShowOn("Quernby", 5, "Moss", "Sorrel"))
	seen := 0
	for _, day := range planOf(t, k).Timetable.Days {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				if i.Kind == ItemTravel {
					seen++
					if strings.Contains(i.Why, "Moss") || !strings.Contains(i.Why, "with Sorrel") {
						t.Errorf("%s: %s", day.On, i.Why)
					}
				}
			}
		}
	}
	if seen == 0 {
		t.Error("nobody travels")
	}
}
