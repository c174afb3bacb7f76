package lived

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

// week is a handler that does the same every week.
type week []Session

func (w week) Monday(now Week) (all []Session, err error) {
	for _, x := range w {
		x.Day += now.Day()
		all = append(all, x)
	}
	return all, nil
}

// one is a string of one dog with a body area that was taken down 14 weeks ago, shown on the Saturday of week 4.
func one() *String {
	return &String{
		Weeks: 6, Pick: 2, Hours: [daysAWeek]float64{120, 120, 120, 120, 120},
		Dogs: []Dog{{
			Name: "Sorrel", Growth: 1, SetUp: 10, Longest: 75, AWeek: 2, Areas: []Area{*body()}, Coats: []Coat{{weeks(1, 14)}},
		}},
		Shows: []Show{{Name: "Brackenmere", Day: 3*daysAWeek + 5, Dogs: []int{0}}},
	}
}

func TestASeasonIsLivedAsItIsSaid(t *testing.T) {
	s := one()
	r, err := Live(s, Luck{}, week{{Dog: 0, Day: 1, Minutes: 40, Takes: []Take{{0, 0.1}}}})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Done) != 6 || len(r.Judged) != 1 {
		t.Fatalf("%+v", r)
	}
	for _, d := range r.Done {
		near(t, "share", d.Pulled[0], 0.1)
		near(t, "minutes", d.Took, 20)
	}
	near(t, "of 17 weeks and four days, four tenths pulled since", r.Judged[0].Score, 100)
	idle, err := Live(s, Luck{}, week{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "left alone it is 17 weeks old", idle.Judged[0].Score, 100)
	s.Shows[0].Day += 2 * daysAWeek
	idle, err = Live(s, Luck{}, week{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "left alone it is over", idle.Judged[0].Score, 55)
	if s.Dogs[0].Coats[0][0].Share != 1 {
		t.Error("living a season changes what the dogs arrive with")
	}
}

func TestLuckIsAsSaidAndTheSameForAll(t *testing.T) {
	luck := Luck{Seed: 7, Missed: 0.1, Lost: 0.04}
	missed, weeksLost := 0, 0
	const n = 4000
	for w := range n {
		gone := true
		for day := w * daysAWeek; day < (w+1)*daysAWeek; day++ {
			if luck.misses("Sorrel", day) {
				missed++
			} else {
				gone = false
			}
		}
		if gone {
			weeksLost++
		}
	}
	if part := float64(missed) / n / daysAWeek; math.Abs(part-(1-0.9*0.96)) > 0.01 {
		t.Errorf("%v of the sessions are missed", part)
	}
	if part := float64(weeksLost) / n; math.Abs(part-0.04) > 0.01 {
		t.Errorf("%v of the weeks are lost", part)
	}
	handler := week{{Dog: 0, Day: 1, Minutes: 40, Takes: []Take{{0, 0.1}}}}
	a, _ := Live(one(), luck, handler)
	b, _ := Live(one(), luck, handler)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same season comes out otherwise")
	}
}

func TestGrowthIsLognormal(t *testing.T) {
	var sum, squares float64
	const n = 5000
	for seed := range uint64(n) {
		x := math.Log(Luck{Seed: seed}.Growth("Sorrel", 0.1))
		sum += x / n
		squares += x * x / n
	}
	if math.Abs(sum) > 0.005 || math.Abs(math.Sqrt(squares)-math.Sqrt(math.Log(1.01))) > 0.004 {
		t.Errorf("mean %v, deviation %v", sum, math.Sqrt(squares))
	}
}

func TestSessionsThatTheDaysCannotHoldAreRefused(t *testing.T) {
	jacket := []Take{{0, 0.1}}
	for want, w := range map[string]week{
		"day 1 holds 120":   {{Dog: 0, Day: 0, Minutes: 60, Takes: jacket}, {Dog: 1, Day: 0, Minutes: 60, Takes: jacket}},
		"table for 85":      {{Dog: 0, Day: 0, Minutes: 75, Takes: jacket}},
		"are too near":      {{Dog: 0, Day: 0, Minutes: 20, Takes: jacket}, {Dog: 0, Day: 1, Minutes: 20, Takes: jacket}},
		"has 3 sessions":    {{Dog: 0, Day: 0, Minutes: 20, Takes: jacket}, {Dog: 0, Day: 2, Minutes: 20, Takes: jacket}, {Dog: 0, Day: 4, Minutes: 20, Takes: jacket}},
		"lies outside":      {{Dog: 0, Day: 8, Minutes: 20, Takes: jacket}},
		"day 6 holds 0":     {{Dog: 0, Day: 5, Minutes: 20, Takes: jacket}},
		"should hold 130":   {{Dog: 1, Day: 0, Minutes: 50, Takes: jacket}, {Dog: 0, Day: 0, Minutes: 50, Takes: jacket}},
		"of Moss on day 36": {{Dog: 1, Day: 36, Minutes: 20, Takes: jacket}},
	} {
		s := one()
		moss := s.Dogs[0]
		moss.Name = "Moss"
		s.Dogs = append(s.Dogs, moss)
		if _, err := Live(s, Luck{}, w); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", want, err)
		}
	}
}

// Every rule keeps to the days, whatever the string, and rolling by it keeps a coat that is left alone no longer.
func TestRulesOfThumbKeepToTheDays(t *testing.T) {
	if n := len(Rules()); n < 100 {
		t.Errorf("%d rules are too few to tune over", n)
	}
	for _, rule := range Rules() {
		s := one()
		moss := s.Dogs[0]
		moss.Name, moss.Care = "Moss", 20
		moss.Coats = []Coat{{weeks(1, 40)}}
		s.Dogs = append(s.Dogs, moss)
		s.Weeks = 20
		s.Shows = append(s.Shows, Show{Name: "Late", Day: 19*daysAWeek + 5, Dogs: []int{0, 1}})
		r, err := Live(s, Luck{}, rule.Handler())
		if err != nil {
			t.Fatalf("%+v: %v", rule, err)
		}
		if len(r.Done) < 10 {
			t.Errorf("%+v: %d sessions in 20 weeks", rule, len(r.Done))
		}
	}
}

func TestARuleRollsInItsRound(t *testing.T) {
	s := one()
	s.Weeks, s.Shows = 20, nil
	r, err := Live(s, Luck{}, Rule{Round: 16, Stage: -1}.Handler())
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, d := range r.Done {
		for _, p := range d.Pulled {
			sum += p
		}
	}
	if sum < 20.0/16-0.15 || sum > 20.0/16+0.25 {
		t.Errorf("%.2f of the coat in 20 weeks, once round in 16", sum)
	}
}

// A dog that is staged is taken down once before its show, and then left to come in.
func TestARuleStagesBeforeAShow(t *testing.T) {
	s := one()
	s.Weeks = 16
	s.Shows[0].Day = 15*daysAWeek + 5
	s.Dogs[0].Coats = []Coat{{weeks(1, 12)}}
	r, err := Live(s, Luck{}, Rule{Round: 16, Stage: 0}.Handler())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "staged for its show", r.Judged[0].Score, 100)
	for _, d := range r.Done {
		if weeks := float64(s.Shows[0].Day-d.Day) / daysAWeek; weeks < 11 && d.Pulled[0] > 0 {
			t.Errorf("%v is pulled %.1f weeks before the show", d.Pulled[0], weeks)
		}
	}
}
