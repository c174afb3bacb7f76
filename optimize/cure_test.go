package optimize

import (
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
)

// shownDog is a season of a dog of the rough pattern with ample hours and one show on a Saturday, so many weeks ahead. Its
// areas were pulled so many weeks ago: ribs, withers, ears.
func shownDog(t *testing.T, week int, weeksAgo ...int) *layout {
	t.Helper()
	dog := made.EvenDog("Quill", "rough", 0)
	for i, a := range made.Patterns()["rough"].Areas {
		dog.Areas = append(dog.Areas, kennel.AreaCoat{Area: a.Name, Layers: []kennel.Layer{{Share: 1, Pulled: made.Monday.AddDays(-7 * weeksAgo[i])}}})
	}
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{dog},
		Shows: []kennel.Show{made.ShowOn("Yarrowmead", 7*week+5, "Quill")},
	}
	l, err := layOut(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A dog whose ears alone are blown needs them taken down, as late as they still come in (ears are ready in 2 weeks): not its
// jacket, and not half of them.
func TestTheCheapestCureIsOneArea(t *testing.T) {
	l := shownDog(t, 6, 6, 7, 30)
	nothing := season.NewPlan(&l.problem)
	c := l.cure(0, l.k.Shows[0], nothing)
	if c == nil || len(c.Work) != 1 || c.Work[0].Area != kennel.AreaEars || c.Minutes() > 15 {
		t.Fatalf("%+v", c)
	}
	score := func(week int, share float64) kennel.Score {
		p := season.NewPlan(&l.problem)
		p.Shares[0][2][week] = share
		return l.coats[0].With(p.Shares[0]).ShowScore(6)
	}
	week, share := kennel.WeekOf(c.Work[0].By, made.Monday), float64(c.Work[0].Share)
	if s := score(week, share); s < kennel.ReadyScore || s != c.Score {
		t.Errorf("%+v makes it %v", c, s)
	}
	if s := score(week+1, share); s >= kennel.ReadyScore {
		t.Errorf("%+v could be done a week later: %v", c, s)
	}
	for w := range 7 {
		for _, less := range cureShares {
			if s := score(w, less); less < share && s >= kennel.ReadyScore {
				t.Errorf("%v of the ears in week %d would do (%v), not only %+v", less, w, s, c)
			}
		}
	}
}

func TestACureMayTakeTwoAreas(t *testing.T) {
	l := shownDog(t, 14, 0, 35, 30) // ribs come in, withers and ears are blown
	c := l.cure(0, l.k.Shows[0], season.NewPlan(&l.problem))
	if c == nil || len(c.Work) != 2 || c.Work[0].Area != kennel.AreaWithers || c.Work[1].Area != kennel.AreaEars {
		t.Fatalf("%+v", c)
	}
	p := season.NewPlan(&l.problem)
	for i, w := range c.Work {
		p.Shares[0][i+1][kennel.WeekOf(w.By, made.Monday)] = float64(w.Share)
	}
	if s := l.coats[0].With(p.Shares[0]).ShowScore(14); s < kennel.ReadyScore || s != c.Score {
		t.Errorf("%+v makes it %v", c, s)
	}
}

func TestWhereNoWorkHelpsThereIsNoCure(t *testing.T) {
	for name, l := range map[string]*layout{
		"its jacket was stripped a month before":    shownDog(t, 4, 0, 0, 0),
		"it is in coat":                             shownDog(t, 3, 9, 9, 0),
		"the show is this week, on the coat it has": shownDog(t, 0, 9, 9, 30),
	} {
		if c := l.cure(0, l.k.Shows[0], season.NewPlan(&l.problem)); c != nil {
			t.Errorf("%s: %+v", name, c)
		}
	}
}

// A cure is work that somebody may do on a day on which the dog is there: none on hands that are not let near ears.
func TestACureNeedsHands(t *testing.T) {
	l := shownDog(t, 6, 6, 7, 30)
	l.k.Hands[0].Does = []kennel.Skill{kennel.SkillJacket}
	if c := l.cure(0, l.k.Shows[0], season.NewPlan(&l.problem)); c != nil {
		t.Errorf("%+v", c)
	}
}

func TestAnEntryIsWorthItsCure(t *testing.T) {
	e := Entry{
		Likely: 0.3, Gain: 1, WorstArea: kennel.AreaEars, Why: "100 % is over 8 weeks",
		Cure: &Cure{Work: []CureWork{{Area: kennel.AreaEars, Share: 1, Minutes: 30, By: made.Monday}}, Score: 91},
	}
	if e.advise(made.Monday, false); e.Advice != AdviceWork || e.Reason != "30 % likely to be in coat (ears: 100 % is over 8 weeks); with that work it is 91" {
		t.Errorf("%s, %s", e.Advice, e.Reason)
	}
}
