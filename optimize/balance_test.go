package optimize

import (
	"math"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// One area of 180 minutes that comes round in 11 + 7 weeks needs 10 minutes a week; with a pace of 2 it needs 20.
func balanceSample() Result {
	area := func(minutes float64) kennel.PatternArea {
		fig := func(x float64) kennel.Figure { return kennel.Figure{Value: x} }
		return kennel.PatternArea{Name: kennel.AreaBack, Ready: fig(11), Hold: fig(7), Minutes: fig(minutes)}
	}
	r := Result{
		On: made.Monday,
		Patterns: kennel.Patterns{
			"small": {Areas: []kennel.PatternArea{area(180)}},
			"large": {Areas: []kennel.PatternArea{area(1800)}},
		},
		Kennel: kennel.Kennel{
			Dogs: []kennel.Dog{
				{Name: "Sorrel", Pattern: "small", Coat: kennel.Coat{Growth: 1, Pace: 2}, Table: kennel.Table{SetUp: 10, Minutes: 60, AWeek: 2}},
				{Name: "Ember", Pattern: "large", Coat: kennel.Coat{Growth: 1, Pace: 1}, Table: kennel.Table{SetUp: 10, Minutes: 60, AWeek: 3}},
				{Name: "Moss", Pattern: "small", Table: kennel.Table{SetUp: 10, Minutes: 60, AWeek: 0}, Here: []kennel.Span{{From: made.Monday.AddDays(7)}}},
			},
			Shows: []kennel.Show{{Name: "First", On: made.Monday.AddDays(12), Weight: 3, Chance: 0.5, Days: 1}, {Name: "Second", On: made.Monday.AddDays(19), Weight: 1, Chance: 1, Days: 2}},
		},
		Readiness: []ShowReadiness{
			{Dog: "Sorrel", Show: "First", On: made.Monday.AddDays(12), Score: 80, WorstArea: kennel.AreaBack, Why: "30 % is over 18 weeks"},
			{Dog: "Sorrel", Show: "Second", On: made.Monday.AddDays(19), Score: 66, WorstArea: kennel.AreaBack, Why: "50 % is over 18 weeks"},
			{Dog: "Ember", Show: "First", On: made.Monday.AddDays(12), Score: 90},
		},
		Outlooks: []Outlook{{}, {}, {PlannedScores: []kennel.Score{10, 30}}},
	}
	for t := range 2 {
		r.Weeks = append(r.Weeks, Week{Week: made.Monday.AddDays(7 * t)})
	}
	r.Weeks[0].Dogs = []DogWeek{{Dog: "Sorrel", Minutes: 20, SetUp: 10}, {Dog: "Ember", Minutes: 80, SetUp: 10}}
	r.Weeks[1].Duties = []DutyWork{{Dog: "Moss", Name: "nails", Minutes: 30}}
	return r
}

func TestTheNeedIsTheRollingOfTheWholeCoat(t *testing.T) {
	b := BalanceOf(balanceSample())
	minutes := func(h kennel.Hours) float64 { return math.Round(float64(h)*6000) / 100 }
	for i, want := range []struct{ planned, need float64 }{
		{30, 2 * (20 + 10)},    // one session a week
		{90, 2 * (100 + 2*10)}, // 100 minutes fill two sessions of 50
		{30, 30},               // never on the table: its duty only
	} {
		if s := b.Dogs[i]; minutes(s.Planned) != want.planned || minutes(s.Need) != want.need {
			t.Errorf("%s: planned %v, need %v, want %v", s.Dog, minutes(s.Planned), minutes(s.Need), want)
		}
	}
	if s := b.Dogs[1]; math.Abs(s.PartOfHours-90./150) > 1e-9 || math.Abs(s.PartOfNeed-240./330) > 1e-9 {
		t.Errorf("Ember's parts: %v, %v", s.PartOfHours, s.PartOfNeed)
	}
}

// A dog that is not yet in hand needs nothing; a dog with a place on the table only counts the weeks that it is there.
func TestOnlyWeeksInHandCount(t *testing.T) {
	r := balanceSample()
	r.Kennel.Dogs[2].Table.AWeek = 1
	r.Kennel.Dogs[2].Coat = kennel.Coat{Growth: 1, Pace: 1}
	if got := float64(BalanceOf(r).Dogs[2].Need) * 60; math.Abs(got-(10+10+30)) > 1e-9 {
		t.Errorf("one week of rolling and its duty: %v minutes, want 50", got)
	}
}

func TestServedWorstIsTheDogLeastReadyAtItsShows(t *testing.T) {
	r := balanceSample()
	b := BalanceOf(r)
	// 80 at a show that counts 1.5, 66 at one that counts 2: the mean is 72. Moss, at no show, is not compared with it.
	if s := b.Dogs[0]; math.Abs(float64(s.Score)-72) > 1e-9 || !s.Shown {
		t.Errorf("Sorrel's mean is %v", s.Score)
	}
	if b.Worst != "Sorrel" || b.Why != "for Second it is 66 (back: 50 % is over 18 weeks)" {
		t.Errorf("worst %s: %s", b.Worst, b.Why)
	}
	r.Cannot = []Cannot{{What: "Sorrel in coat for Second", Why: "hours are short"}}
	if why := BalanceOf(r).Why; why != "for Second it is 66: hours are short" {
		t.Errorf("the list of what cannot be met is not asked: %s", why)
	}
	r.Readiness = nil
	if b := BalanceOf(r); b.Worst != "Sorrel" || !strings.Contains(b.Why, "for no show") {
		t.Errorf("without shows: %s, %s", b.Worst, b.Why)
	}
	if b := BalanceOf(Result{}); b.Worst != "" || len(b.Dogs) != 0 {
		t.Errorf("without dogs: %+v", b)
	}
}

// The reason that is looked for is the one that the plan gives.
func TestTheReasonOfTheWorstServedIsThePlans(t *testing.T) {
	k := kennel.Kennel{
		Weeks: 6, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 1)}, Shows: []kennel.Show{made.ShowOn("Early", 12, "Moss")},
	}
	r := plan(t, k, made.Patterns())
	if b := BalanceOf(r); len(r.Cannot) == 0 || b.Worst != "Moss" || !strings.HasSuffix(b.Why, r.Cannot[len(r.Cannot)-1].Why) {
		t.Errorf("why %q, cannot %v", b.Why, r.Cannot)
	}
}
