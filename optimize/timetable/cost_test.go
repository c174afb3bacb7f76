package timetable_test

import (
	"math"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
	"tuckup/optimize/timetable"
)

// shownOn is laidOut with much of Sorrel's back to be pulled, two dogs entered for a show and days up to it.
func shownOn(day int) planned.Result {
	r := laidOut()
	r.Timetable.Days[0].Hands[0].Items[0].Areas[0].Share = 0.6
	for n := 5; n < 12; n++ {
		r.Timetable.Days = append(r.Timetable.Days, planned.Day{On: made.Monday.AddDays(n)})
	}
	r.Kennel.Shows = []kennel.Show{{Name: "Brackenmere", On: made.Monday.AddDays(day), Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Sorrel", "Moss"}}}
	return r
}

// pulledOn is how ready Sorrel is for the show of r when its session is done on a day, by the records of work.
func pulledOn(t *testing.T, r planned.Result, day int) float64 {
	t.Helper()
	p, show := r.Patterns["wiry"], r.Kennel.Shows[0]
	dog, s := r.Kennel.Dogs[0], sorrels(r)
	if on := made.Monday.AddDays(day); on < show.On {
		dog = dog.Worked(p, kennel.Work{Dog: "Sorrel", On: on, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: s.Areas[0].Share}}})
	}
	coat, err := kennel.NewDogCoat(dog, p, made.Monday)
	if err != nil {
		t.Fatal(err)
	}
	return float64(coat.ShowScore(kennel.ReadinessWeek(show.On, made.Monday)))
}

func TestASessionThatGoesToAnotherWeekSaysWhatItCostsAtWhichShow(t *testing.T) {
	for _, c := range []struct {
		name     string
		show, to int // days after Monday
		costs    bool
	}{
		{"within its week, the show is later", 11, 1, false},
		{"within its week, past its show", 4, 5, true},
		{"into the next week, the show is at its end", 13, 7, false},
		{"into the next week, after the show", 5, 7, true},
		{"into the next week, weeks before the show", 54, 8, true},
		{"within its week, weeks before the show", 54, 4, false},
	} {
		r := shownOn(c.show)
		costs := timetable.Costs(r, timetable.Shift{Session: sorrels(r), To: made.Monday.AddDays(c.to)})
		before, after := pulledOn(t, r, 0), pulledOn(t, r, c.to)
		if c.costs != (math.Round(before) != math.Round(after)) {
			t.Fatalf("%s: worked on Monday it is %.1f, then %.1f: the case shows nothing", c.name, before, after)
		}
		switch {
		case !c.costs && len(costs) == 0:
		case c.costs && len(costs) == 1 && costs[0].Dog == "Sorrel" && math.Abs(float64(costs[0].Before)-before) < 1e-6 && math.Abs(float64(costs[0].After)-after) < 1e-6:
		default:
			t.Errorf("%s: said is %+v, by the records %.2f and %.2f", c.name, costs, before, after)
		}
	}
}

// A plan that is seen later is judged by what is true then: hours that are gone, a dog that is ill, work that was done.
func TestPlacesAreJudgedByWhatIsTrueNow(t *testing.T) {
	r := laidOut()
	if said := why(t, r, 1, "Handler"); said != "" {
		t.Fatalf("Tuesday is not free: %s", said)
	}
	for name, c := range map[string]struct {
		edit func(*planned.Facts)
		want string
	}{
		"hours": {func(f *planned.Facts) { f.Kennel.Hands[0].Hours[1] = 0 }, "Handler does not work"},
		"a spell": {func(f *planned.Facts) {
			f.Kennel.Dogs[0].Spells = []kennel.Spell{{From: made.Monday, To: made.Monday + 2, What: kennel.SpellIllness}}
		}, "Sorrel is not to be worked then: a spell of it"},
		"work": {func(f *planned.Facts) {
			f.Options.Done = []kennel.Work{{Dog: "Sorrel", On: made.Monday, Hands: "Handler", Minutes: 10, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.1}}}}
		}, "the jacket of Sorrel is worked on Monday; it wants 1 free between"},
		"settings": {func(f *planned.Facts) { f.Options.StripHours = 0.5; f.Kennel.Hands[0].StripHoursADay = 0 }, "40 min of pulling that day, at most 30 are good for the hands"},
	} {
		now := laidOut()
		f := planned.Facts{Kennel: now.Kennel, Options: now.Options}
		c.edit(&f)
		now.Kennel = r.Kennel
		now.InUse = &planned.InUse{Facts: &f}
		if said := why(t, now, 1, "Handler"); said != c.want {
			t.Errorf("%s: said is %q, want %q", name, said, c.want)
		}
	}
}
