package check

import (
	"math"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

var monday = kennel.NewDate(2028, 1, 3)

func fig(v float64) kennel.Figure { return kennel.Figure{Value: v, Low: v, High: v} }

// ribs is a jacket area of which an hour takes all down: right from 11 to 18 weeks, dead from 25.
func ribs() kennel.PatternArea {
	return kennel.PatternArea{
		Name: kennel.AreaRibs, Work: kennel.SkillJacket, Weight: fig(0.75), Ready: fig(11), Hold: fig(7), Grip: fig(4), Minutes: fig(60),
		FinishWeeks: fig(3), FinishShare: fig(0.06),
	}
}

// legs are kept hair.
func legs() kennel.PatternArea {
	return kennel.PatternArea{Name: kennel.AreaFurnishings, Work: kennel.SkillFurnishings, Kept: true, Weight: fig(0.25), Ready: fig(40), Hold: fig(52), Grip: fig(4), Minutes: fig(40)}
}

// checkerOf is a checker for one dog with ribs and legs, on which there are layers pulled so many weeks ago, over 20 weeks.
func checkerOf(growth float64, layers map[int]float64) *checker {
	dog := kennel.Dog{Name: "Sorrel", Pattern: "rough", Priority: 2, Coat: kennel.Coat{Growth: growth, Pace: 1}, Table: kennel.Table{SetUp: 10, Minutes: 75, AWeek: 2}}
	for ago := range 100 {
		if share := layers[ago]; share > 0 {
			dog.All = append(dog.All, kennel.Layer{Share: kennel.Share(share), Pulled: monday.AddDays(-7*ago + 2)})
		}
	}
	return newChecker(planned.Result{
		On: monday, Week0: monday,
		Kennel:   kennel.Kennel{Dogs: []kennel.Dog{dog}, Weeks: 20},
		Patterns: kennel.Patterns{"rough": {Name: "rough", Look: fig(12), Areas: []kennel.PatternArea{ribs(), legs()}}},
		Options:  planned.Options{On: monday, Pick: 2, Standing: 0.5},
	})
}

// none pulls nothing.
func none(_, _, _ int) float64 { return 0 }

// pulling is a plan that pulls shares of the ribs in weeks.
func pulling(shares map[int]float64) func(d, a, t int) float64 {
	return func(_, a, t int) float64 {
		if a == 0 {
			return shares[t]
		}
		return 0
	}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s is %.6f, should be %.6f", what, got, want)
	}
}

// Hair that is dead when the plan begins goes first and costs a strip's minutes; what dies later is as slow as the rest.
func TestDeadHairIsCountedHairByHair(t *testing.T) {
	c := checkerOf(1, map[int]float64{30: 0.3, 25: 0.1, 24: 0.2, 5: 0.3}) // a tenth is of no known age
	a := &c.dogs[0].areas[0]
	dead := c.deadIn(a, func(t int) float64 { return map[int]float64{0: 0.4, 3: 0.3, 4: 0.2}[t] })
	for week, want := range map[int]float64{0: 0.4, 1: 0, 3: 0.1, 4: 0} {
		near(t, "dead hair pulled", dead[week], want)
	}
	near(t, "minutes of dead hair", a.work(0.4, dead[0]), 24)
	near(t, "minutes of a tenth dead and two tenths living", a.work(0.3, dead[3]), 6+2*12)
	fast := checkerOf(1.5, map[int]float64{17: 0.5, 16: 0.5})
	if got := fast.deadIn(&fast.dogs[0].areas[0], func(int) float64 { return 1 })[0]; got != 0.5 {
		t.Errorf("25 weeks are 17 for a coat that grows half as fast again: %v is dead", got)
	}
	if got := c.deadIn(&c.dogs[0].areas[1], func(int) float64 { return 1 })[0]; got != 0 {
		t.Errorf("kept hair is never dead: %v", got)
	}
	near(t, "set-up and look-over", c.setUp(0), 22)
}

// Readiness is expected over three growths: those in the middle of each third of what the dog's may be.
func TestReadinessIsExpectedOverThreeGrowths(t *testing.T) {
	c := checkerOf(1, map[int]float64{11: 1})
	c.r.Options.GrowthSD = 0.1
	growths := c.growths(0)
	near(t, "the middle growth", growths[1], 1)
	near(t, "the slow growth", growths[0], math.Exp(-0.967421566101701*math.Sqrt(math.Log(1.01))))
	near(t, "the fast growth", growths[0]*growths[2], 1)
	// At the end of week 0 all of the ribs is 11 weeks old: at growths of 1 and 1.1 it is there; at 0.91 it takes 12.
	// The legs are whole.
	ready := c.unclipped(0, none)
	near(t, "readiness of the ribs", ready[0].areas[0], 1-1.5*0.4/3)
	near(t, "readiness of the legs", ready[0].areas[1], 1)
	near(t, "the mean", ready[0].mean, 0.75*(1-0.2)+0.25)
	c.r.Options.GrowthSDs = map[string]float64{"Sorrel": 0}
	near(t, "readiness with a growth that is known", c.unclipped(0, none)[0].areas[0], 1)
}

// At shows the worst area and three tenths is all that a dog can count for; without one the mean counts.
func TestPointsKnowHoles(t *testing.T) {
	c := checkerOf(1, map[int]float64{14: 1})
	c.dogs[0].areas[1].layers = []kennel.Layer{{Share: 0.55, Pulled: monday}} // half of the legs lost: 1 - 1.8*0.5 = 0.1
	c.k.Shows = []kennel.Show{{Name: "Brackenmere", On: monday.AddDays(5), Days: 1, Weight: 3, Chance: 0.5, Dogs: []string{"Sorrel"}}}
	c.r.Options.Balance = 2
	w := c.points(none, [][]int{make([]int, 20)})
	near(t, "readiness without its show", c.unclipped(0, none)[0].mean, 0.75+0.025)
	near(t, "points of the week of the show", w.dogs[0][0], 2*(0.5*0.775+3*0.5*0.4))
	near(t, "points of the week after", w.dogs[0][1], 2*0.5*0.775)
	near(t, "points for the least ready", w.balance, 2*0.4)
}

// Rolled evenly a jacket costs nothing; a big bite and weeks without any do, by the area's part of the dog.
func TestPointsKnowUnevenWork(t *testing.T) {
	c := checkerOf(1, map[int]float64{14: 1})
	c.r.Options.Uneven = 0.05
	even := 0.068966 // 1 in 14.5, in millionths
	each := map[int]float64{}
	for week := range 20 {
		each[week] = even
	}
	c.k.Hands = []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{8}}}
	c.dogs[0].areas[0].cap = c.caps(0, 0)
	near(t, "charge on even work", c.uneven(0, 7, pulling(each)), 0)
	near(t, "charge on nothing for two weeks", c.uneven(0, 7, none), 0.05*0.75*even)
	each[7] = 0.3
	c.k.Shows = []kennel.Show{{Name: "Brackenmere", On: monday.AddDays(7*9 + 5), Days: 1, Chance: 0.5, Dogs: []string{"Sorrel"}}}
	for week, want := range map[int]float64{5: even, 6: 0, 9: 0, 10: 0, 11: even} { // the last weeks are 6 to 9
		near(t, "charge on nothing near a show", c.uneven(0, week, none), 0.05*0.75*want)
	}
	c.k.Shows[0].Chance = 0.4
	near(t, "charge on nothing near a show that is not counted on", c.uneven(0, 9, none), 0.05*0.75*even)
	c.k.Shows = nil
	near(t, "charge on a bite", c.uneven(0, 7, pulling(each)), 3*0.05*0.75*(0.3-even))
	blown := checkerOf(1, map[int]float64{40: 1})
	blown.r.Options.Uneven = 0.05
	blown.dogs[0].areas[0].cap = make([]float64, 20)
	near(t, "charge on dead hair that is left", blown.uneven(0, 7, pulling(each)), 5*0.05*0.75*(1-7*even-0.3))
	near(t, "charge on taking a dead coat down", blown.uneven(0, 7, pulling(map[int]float64{0: 0.6, 7: 0.4})), 0)
	near(t, "charge on bites when that should be over", blown.uneven(0, 8, pulling(map[int]float64{8: 0.3})), 3*0.05*0.75*(0.3-even))
	c.k.Hands = nil
	near(t, "charge on nothing where nobody is there", c.uneven(0, 7, none), 0)
	c.dogs[0].areas[0].Name = kennel.AreaEars
	near(t, "charge on a bite of the ears", c.uneven(0, 7, pulling(each)), 0)
}

// What is fresh shows: the more the later it was pulled, where a show that counts is to come.
func TestPointsKnowWhatIsFresh(t *testing.T) {
	c := checkerOf(1, map[int]float64{14: 0.5, 1: 0.1, 7: 0.4})
	c.k.Shows = []kennel.Show{{Name: "Brackenmere", On: monday.AddDays(7*9 + 5), Days: 1, Chance: 0.5, Dogs: []string{"Sorrel"}}}
	shares := pulling(map[int]float64{5: 0.06, 6: 0.01, 7: 0.1})
	for week, want := range map[int]float64{0: 0.08 * 2 * 0.1, 4: 0, 5: 0.08 * 3 * 0.06, 7: 0.08 * (0.06 + 2*0.01 + 3*0.1), 9: 0.08 * 0.1, 10: 0} {
		near(t, "what is fresh", c.fresh(0, 0, week, shares), want)
	}
	near(t, "what is fresh of legs", c.fresh(0, 1, 7, shares), 0)
	full := c.unclipped(0, shares)[7].areas[0]
	c.k.Shows[0].Chance = 0.4
	near(t, "what is fresh where no show counts", c.fresh(0, 0, 7, shares), 0)
	near(t, "readiness where no show counts", c.unclipped(0, shares)[7].areas[0], full+0.08*(0.06+2*0.01+3*0.1))
}

// Within ready weeks of a show that the dog is in coat for, an eighth of the living hair is the most.
func TestNearAShowAnEighthIsTheMost(t *testing.T) {
	c := checkerOf(1, map[int]float64{14: 1})
	c.k.Hands = []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{8}}}
	show := kennel.Show{Name: "Brackenmere", On: monday.AddDays(19*7 + 5), Days: 1, Weight: 1, Chance: 0.5, Dogs: []string{"Sorrel"}}
	c.k.Shows = []kennel.Show{show}
	caps := func(ready float64) []float64 {
		c.dogs[0].expected = make([]readiness, 20)
		c.dogs[0].expected[19] = readiness{areas: []float64{ready, ready}}
		return c.caps(0, 0)
	}
	for score, want := range map[float64]map[int]float64{0.81: {7: 1, 8: 0.125, 15: 0.125, 16: 0.06, 19: 0.06}, 0.79: {7: 1, 8: 1, 15: 1, 16: 0.06}} {
		got := caps(score)
		for week, most := range want {
			if got[week] != most {
				t.Errorf("at %v, week %d: %v may be pulled, should be %v", score, week, got[week], most)
			}
		}
	}
	if got := c.caps(0, 1)[0]; got != 0 {
		t.Errorf("%v of kept hair may be pulled", got)
	}
	for days, want := range map[int]bool{-3: false, -2: true, 0: true, 1: false} {
		if c.rested(0, show.On.AddDays(days)) != want {
			t.Errorf("%d days from the show the jacket is left alone: %v", days, !want)
		}
	}
	c.k.Shows[0].Chance = 0.4
	if caps(0.99)[15] != 1 {
		t.Error("a show that nobody counts on holds the jacket back")
	}
}

// Sessions need days on which dog and hands are there, and free days between them and those that were had.
func TestSessionsNeedFreeDaysBetween(t *testing.T) {
	five := [kennel.DaysAWeek]kennel.Hours{2, 2, 2, 2, 2}
	for name, x := range map[string]struct {
		hours       [kennel.DaysAWeek]kennel.Hours
		aWeek, free int
		today       int
		done        []int
		want        int
	}{
		"every other day":               {five, 7, 1, 0, nil, 3},
		"as many as it stands for":      {five, 2, 1, 0, nil, 2},
		"no free days":                  {five, 7, 0, 0, nil, 5},
		"one was had today":             {five, 7, 1, 0, []int{0}, 2},
		"the day after one":             {five, 7, 1, 4, []int{3}, 0},
		"too short for set-up and look": {[kennel.DaysAWeek]kennel.Hours{0.3, 0.3, 0.3}, 7, 1, 0, nil, 0},
	} {
		c := checkerOf(1, map[int]float64{14: 1})
		c.k.Hands = []kennel.Hands{{Name: "Handler", Hours: x.hours}}
		c.r.On = monday.AddDays(x.today)
		c.r.Options.On, c.r.Options.FreeDays, c.r.Options.StripHours, c.dogs[0].Table.AWeek = c.r.On, x.free, 4, x.aWeek
		for _, day := range x.done {
			c.r.Options.Done = append(c.r.Options.Done, kennel.Work{Dog: "Sorrel", On: monday.AddDays(day), Minutes: 40})
		}
		if got := c.mostSessions(0, 0); got != x.want {
			t.Errorf("%s: %d sessions, should be %d", name, got, x.want)
		}
	}
}
