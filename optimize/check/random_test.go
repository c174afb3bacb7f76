package check_test

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

func TestFiguresOfRandomKennelsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, err := optimize.Plan(context.Background(), made.Kennel().Draw(t, "kennel"), made.Patterns(), optimize.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, check.Plan(r))
	})
}

func agrees(t rapid.TB, c check.Report) {
	t.Helper()
	for _, d := range c.Differences {
		t.Errorf("%v", d)
	}
}

// A plan that is remade in the middle of a week, with the sessions of the sheet that was handed out agreed and every
// third of them pinned, is checked in the same way.
func TestFiguresOfARemadePlanAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans many kennels")
	}
	rapid.Check(t, func(t *rapid.T) {
		k, opt := made.Kennel().Draw(t, "kennel"), optimize.DefaultOptions()
		r, err := optimize.Plan(context.Background(), k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		opt.On = r.On.AddDays(rapid.IntRange(0, 3).Draw(t, "days later"))
		for _, day := range r.Timetable.Days {
			for _, h := range day.Hands {
				for i, item := range h.Items {
					if item.Kind != planned.ItemSession || item.SetUp == 0 || day.On < opt.On {
						continue
					}
					s := kennel.Session{Dog: item.Dog, On: day.On, Start: item.Start, Hands: h.Hands, Pinned: i%3 == 0}
					for _, a := range item.Areas {
						s.Areas = append(s.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
					}
					opt.Accepted = append(opt.Accepted, s)
				}
			}
		}
		if rapid.Bool().Draw(t, "begins with it") {
			before := r
			opt.Begin = &before
		}
		if r, err = optimize.Plan(context.Background(), k, made.Patterns(), opt); err != nil {
			t.Fatal(err)
		}
		agrees(t, check.Plan(r))
	})
}
