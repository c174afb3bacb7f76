package optimize

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
)

// jacketPlan is a plan that pulls each area of dog 0's jacket as of says, by area and week, n being the area's place in the jacket.
func jacketPlan(l *layout, of func(n, t int) float64) season.Plan {
	p := season.NewPlan(&l.problem)
	for n, a := range l.jacket(0) {
		for t := range p.Shares[0][a.area] {
			p.Shares[0][a.area][t] = of(n, t)
		}
	}
	return p
}

func TestAWayIsToldFromWhatIsPulledWhen(t *testing.T) {
	in := func(t, from, to int, share float64) float64 {
		if t < from || t > to {
			return 0
		}
		return share
	}
	for _, c := range []struct {
		name     string
		weeksAgo int // since the whole coat was pulled
		of       func(n, t int) float64
		kind     WayKind
		spells   string
	}{
		{"an eighteenth a week", 10, func(_, _ int) float64 { return 1. / 18 }, WayRolled, "rolled 0-25"},
		{"an eighth a week for eight weeks", 10, func(_, t int) float64 { return in(t, 0, 7, 1./8) + in(t, 8, 25, 1./18) }, WayRolled, "rolled 0-25"},
		{"every second week", 10, func(n, t int) float64 { return in((t+n)%2, 0, 0, 1./9) }, WayRolled, "rolled 0-25"},
		{"a month off", 10, func(_, t int) float64 { return in(t, 0, 9, 1./18) + in(t, 15, 25, 1./18) }, WayRolled, "rolled 0-9, rested 10-14, rolled 15-25"},
		{"two weeks off", 10, func(_, t int) float64 { return in(t, 0, 9, 1./18) + in(t, 12, 25, 1./18) }, WayRolled, "rolled 0-25"},
		{"nothing", 10, func(_, _ int) float64 { return 0 }, WayRested, ""},
		{"one week", 10, func(_, t int) float64 { return in(t, 5, 5, 0.06) }, WayRested, ""},
		{"a few hairs", 10, func(_, _ int) float64 { return 0.005 }, WayRested, ""},
		{"all in two weeks", 18, func(_, t int) float64 { return in(t, 3, 4, 0.5) }, WayStripped, "stripped out 3-4, rested 5-25"},
		{"all in two weeks, then rolled", 18, func(_, t int) float64 { return in(t, 0, 1, 0.5) + in(t, 13, 25, 1./18) }, WayStripped, "stripped out 0-1, rested 2-12, rolled 13-25"},
		{"dead, area after area in five weeks", 40, func(n, t int) float64 { return in(t, n, n, 1) }, WayStripped, "stripped out 0-4, rested 5-25"},
		{"living, area after area in five weeks", 14, func(n, t int) float64 { return in(t, n, n, 1) }, WayStaged, "staged 0-4, rested 5-25"},
		{"one area down, the rest rolled", 14, func(n, t int) float64 {
			if n == 0 {
				return in(t, 2, 2, 1)
			}
			return 1. / 18
		}, WayRolled, "rolled 0-25"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := kennel.Kennel{PlanFrom: made.Monday, Weeks: 26, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Sorrel", "wire-fox-terrier", c.weeksAgo)}}
			l, err := layOut(k, builtin(t), DefaultOptions())
			if err != nil {
				t.Fatal(err)
			}
			w := l.ways(jacketPlan(l, c.of))[0]
			var spells []string
			for _, s := range w.Spells {
				spells = append(spells, fmt.Sprintf("%s %d-%d", s.Kind, kennel.WeekOf(s.From, made.Monday), kennel.WeekOf(s.To, made.Monday)))
			}
			if got := strings.Join(spells, ", "); got != c.spells || w.Kind != c.kind || w.Held || w.LetGo != (c.kind == WayRested) {
				t.Errorf("%s: %q, want %s: %q", w.Kind, got, c.kind, c.spells)
			}
		})
	}
}

// Dead hair is not protected by it.
func TestADogHeldToRollingIsCalledSo(t *testing.T) {
	for weeksAgo, kind := range map[int]WayKind{14: WayRolled, 40: WayStripped} {
		dog := made.EvenDog("Sorrel", "rough", weeksAgo)
		dog.Coat.RollOnly = true
		r := plan(t, kennel.Kennel{Weeks: 16, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{dog}, Shows: []kennel.Show{made.ShowOn("Brackenmere", 96, "Sorrel")}}, made.Patterns())
		if w := r.Ways[0]; !w.Held || w.Kind != kind || w.Other != nil {
			t.Errorf("pulled %d weeks ago: %+v", weeksAgo, w)
		}
	}
}

// The other way is a plan of the season as it is: no harder than rolling, or the jacket taken down and then left, within the
// sessions and the minutes that the other dogs leave.
func TestTheOtherWayIsAPlanThatCouldBeKept(t *testing.T) {
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 24, Hands: []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{2, 0, 2}, StripHoursADay: 4}},
		Dogs:  []kennel.Dog{made.EvenDog("Moss", "rough", 40), made.EvenDog("Sorrel", "wiry", 11)},
		Shows: []kennel.Show{made.ShowOn("Brackenmere", 152, "Moss"), made.ShowOn("Fallowgate", 110, "Sorrel")},
	}
	l, err := layOut(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	solved, _, err := l.solve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	rolled, err := l.onlyRolled(t.Context(), 0, solved.Plan, 0)
	if err != nil {
		t.Fatal(err)
	}
	most := l.pattern(0).RollMost.Value
	for _, a := range l.jacket(0) {
		for week, share := range rolled.Shares[0][a.area] {
			if share > most+slack {
				t.Errorf("%.3f of area %d is pulled in week %d, more than rolling allows", share, a.area, week)
			}
		}
	}
	keeps(t, l, rolled)
	for _, from := range []int{0, 3} {
		s, ok := l.strippedFrom(0, solved.Plan, from)
		if !ok {
			t.Fatalf("the jacket could not be taken down from week %d", from)
		}
		stripped, err := l.restFrom(t.Context(), 0, solved.Plan, s, 0)
		if err != nil {
			t.Fatal(err)
		}
		coat := l.coats[0].With(stripped.Shares[0])
		for _, a := range l.jacket(0) {
			if young := coat.Areas[a.area].Curve.Younger(s.next-1, kennel.Weeks(s.next)); young < 0.98 {
				t.Errorf("from week %d: only %.2f of area %d is down in week %d", from, young, a.area, s.next-1)
			}
		}
		keeps(t, l, stripped)
	}
}

// keeps asks whether the plan is within every limit of the season, if its last session of a week is taken to be full.
func keeps(t *testing.T, l *layout, p season.Plan) {
	t.Helper()
	problem := l.problem
	problem.Rows = slices.Clone(problem.Rows)
	for i := range problem.Rows {
		if row := &problem.Rows[i]; row.SetUps {
			row.Capacity += problem.Dogs[0].SetUp
		}
	}
	for _, v := range season.Violations(&problem, p, 1e-6) {
		t.Error(v)
	}
}
