package check_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// Whatever a kennel asks for and however few hours it has: if it passes the checks, there is a plan, and its figures agree.
func TestEveryKennelThatPassesTheChecksHasAPlan(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans many kennels")
	}
	rapid.Check(t, func(t *rapid.T) {
		k, opt := extremeKennel(t)
		if err := kennel.Check(k, made.Patterns()); err != nil {
			t.Fatalf("the kennel drawn does not pass the checks: %v", err)
		}
		r, err := optimize.Plan(context.Background(), k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, check.Plan(r))
		itemsAreWhole(t, r)
	})
}

// itemsAreWhole asks that every stretch of the days takes at least a minute of the clock.
func itemsAreWhole(t rapid.TB, r planned.Result) {
	t.Helper()
	for _, day := range r.Timetable.Days {
		for _, h := range day.Hands {
			for _, it := range h.Items {
				if it.End <= it.Start {
					t.Errorf("%s, %s: %s-%s %s %s", day.On, h.Hands, it.Start, it.End, it.Dog, it.What)
				}
			}
		}
	}
}

// extremeKennel draws a kennel at the edges of what may be asked, the day to plan from and what was worked already.
func extremeKennel(t *rapid.T) (kennel.Kennel, optimize.Options) {
	opt := optimize.DefaultOptions()
	opt.On = made.Monday.AddDays(rapid.IntRange(0, 6).Draw(t, "from"))
	opt.Days = rapid.SampledFrom([]int{7, 14, 1}).Draw(t, "days")
	k := kennel.Kennel{Name: "Fellside", Weeks: kennel.Weeks(rapid.SampledFrom([]int{4, 5, 7}).Draw(t, "weeks")), PlanFrom: opt.On}
	for i := range rapid.SampledFrom([]int{1, 2, 3, 0}).Draw(t, "hands") {
		k.Hands = append(k.Hands, extremeHand(t, i))
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "dogs") {
		k.Dogs = append(k.Dogs, extremeDog(t, i, opt.On))
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "shows") {
		s := made.Show(t, i, k)
		s.On = made.Monday.AddDays(rapid.IntRange(0, 50).Draw(t, "show on"))
		if s.Away != nil {
			s.Away = &kennel.Span{From: s.On.AddDays(-2), To: s.Last().AddDays(1)}
		}
		k.Shows = append(k.Shows, s)
	}
	for range rapid.IntRange(0, 2).Draw(t, "stretches worked") {
		opt.Done = append(opt.Done, extremeWork(t, k, opt.On))
	}
	return k, opt
}

// tenths draws a number with so many decimals as people write, between two bounds.
func tenths(t *rapid.T, label string, low, high float64) float64 {
	step := rapid.SampledFrom([]float64{10, 1, 100, 3}).Draw(t, label+" in parts")
	return math.Max(low, math.Round(rapid.Float64Range(low, high).Draw(t, label)*step)/step)
}

func extremeHand(t *rapid.T, i int) kennel.Hands {
	h := kennel.Hands{Name: []string{"Handler", "Assistant", "Trainee"}[i]}
	for range rapid.IntRange(1, 5).Draw(t, "days worked") {
		high := rapid.SampledFrom([]float64{0.5, 3, 12}).Draw(t, "most hours")
		h.Hours[rapid.IntRange(0, 6).Draw(t, "weekday")] = kennel.Hours(tenths(t, "hours", 0.1, high))
	}
	h.StripHoursADay = kennel.Hours(rapid.SampledFrom([]float64{0, 0, 0.1, 1.3, 12}).Draw(t, "strip hours"))
	for _, s := range kennel.Skills() {
		if rapid.IntRange(0, 2).Draw(t, "does "+string(s)) > 0 {
			h.Does = append(h.Does, s)
		}
	}
	if rapid.IntRange(0, 2).Draw(t, "away") == 2 {
		h.Away = []kennel.Span{made.Span(t)}
	}
	return h
}

func extremeDog(t *rapid.T, i int, on kennel.Date) kennel.Dog {
	dog := made.Dog(t, i, on)
	dog.Coat.Pace = rapid.SampledFrom([]float64{1, 0.25, 4}).Draw(t, "pace")
	dog.Table.Minutes = kennel.Minutes(tenths(t, "longest session", 10, 180))
	dog.Table.SetUp = min(kennel.Minutes(tenths(t, "set-up", 0, 60)), dog.Table.Minutes-0.5)
	dog.Table.AWeek = rapid.IntRange(0, 7).Draw(t, "a week")
	dog.Duties = nil
	for n := range rapid.IntRange(0, 3).Draw(t, "duties") {
		high := rapid.SampledFrom([]float64{1, 60, 480}).Draw(t, "most minutes")
		duty := kennel.Duty{Name: fmt.Sprintf("duty %d", n+1), Minutes: kennel.Minutes(tenths(t, "minutes", 0.1, high))}
		if rapid.Bool().Draw(t, "regular") {
			duty.Every = kennel.Weeks(rapid.SampledFrom([]int{1, 2, 4, 35}).Draw(t, "every"))
		} else {
			to := rapid.IntRange(0, 10).Draw(t, "to")
			duty.Before = &kennel.BeforeShow{From: to + rapid.IntRange(0, 10).Draw(t, "days for it"), To: to}
		}
		dog.Duties = append(dog.Duties, duty)
	}
	return dog
}

// extremeWork draws a stretch of work that was done this week.
func extremeWork(t *rapid.T, k kennel.Kennel, on kennel.Date) kennel.Work {
	dog := rapid.SampledFrom(k.Dogs).Draw(t, "dog worked")
	w := kennel.Work{
		Dog: dog.Name, On: max(on.Monday(), on.AddDays(-rapid.IntRange(0, 3).Draw(t, "days ago"))),
		Minutes: kennel.Minutes(tenths(t, "minutes worked", 0.1, 300)),
	}
	if len(k.Hands) > 0 {
		w.Hands = rapid.SampledFrom(k.Hands).Draw(t, "who worked").Name
	}
	if len(dog.Duties) > 0 && rapid.Bool().Draw(t, "a duty") {
		w.Duty = rapid.SampledFrom(dog.Duties).Draw(t, "duty done").Name
	}
	return w
}
