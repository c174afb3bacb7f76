package optimize

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/check"
	"tuckup/optimize/hours"
)

// What a plan must show, whatever the string: the demo, and ten others from a puppy's first coat to eight dogs in six hours. Over random
// kennels the same is asked by TestPlansOfRandomKennelsKeepTheRules and, of spells, by TestASpellChangesOnlyItsDog.
var (
	dearStrings = []string{demoString, "two-at-one-show", "puppy-first-coat", "five-weeks-away", "soft-coat", "eight-in-six-hours", "no-dates"}
	allStrings  = append(slices.Clone(dearStrings), ampleStrings...)
)

// plannedStrings are those that are planned here: in the quick round only what is planned for other tests, too.
func plannedStrings() []string {
	if testing.Short() {
		return rolledStrings
	}
	return allStrings
}

// shownAt are a plan's dogs at the shows that count.
func shownAt(r Result, each func(kennel.Dog, kennel.Show)) {
	for _, s := range r.Kennel.Shows {
		for _, d := range r.Kennel.Dogs {
			if s.Chance >= kennel.CountedOn && s.On >= r.On && kennel.ReadinessWeek(s.On, r.Week0) < len(r.Weeks) && hours.Goes(d, s) {
				each(d, s)
			}
		}
	}
}

// Every line of a dog's finish is planned once for each show that counts, or the show's line says that it is not done.
func TestEveryFinishOfAStringIsPlannedOrNamed(t *testing.T) {
	for _, name := range plannedStrings() {
		r, looked := stringOf(t, name, stringWeeks), 0
		shownAt(r, func(d kennel.Dog, s kennel.Show) {
			for _, duty := range d.WithCare(r.Patterns[d.Pattern]).Duties {
				if duty.Before == nil {
					continue
				}
				looked++
				times := 0
				for _, w := range r.Weeks {
					for _, x := range w.Duties {
						if x.Dog == d.Name && x.Name == duty.Name && strings.Contains(x.Why, s.Name) && w.Week <= s.On && w.Week > s.On-42 {
							times++
						}
					}
				}
				if not := saidNotDone(r, d.Name, duty.Name, s); times > 1 || times == 0 && !not {
					t.Errorf("%s: %s of %s is planned %d times for %s, not done: %v", name, duty.Name, d.Name, times, s.Name, not)
				}
			}
		})
		if looked == 0 && name != "no-dates" && name != "puppy-first-coat" { // these have no show in these weeks
			t.Errorf("%s: no dog is finished for a show", name)
		}
	}
}

// nearShow is how near to a show the last takes are, days.
const nearShow = 21

// lastTake is what is pulled of an area in one of the last weeks before a show.
type lastTake struct {
	name  string // of the string
	dog   kennel.Dog
	show  kennel.Show
	area  kennel.PatternArea
	on    kennel.Date
	share float64 // of its living hair; 0 = it is left alone
}

// lastTakes are those of the jackets of all dogs of the strings within three weeks of a show that counts: of each week in which something of
// a dog's jacket is pulled all areas, but those of which dead hair alone is.
func lastTakes(t *testing.T, names []string) (takes []lastTake) {
	t.Helper()
	for _, name := range names {
		r := stringOf(t, name, stringWeeks)
		shownAt(r, func(d kennel.Dog, s kennel.Show) {
			coat, err := kennel.NewDogCoat(d, r.Patterns[d.Pattern], r.Week0)
			if err != nil {
				t.Fatal(err)
			}
			for week, w := range r.Weeks {
				if w.Week <= s.On-nearShow || w.Week > s.On {
					continue
				}
				var all []lastTake
				taken := false
				for _, a := range coat.Areas {
					if !a.Name.Jacket() {
						continue
					}
					shares := pulled(r, d.Name, a.Name)
					dead := float64(a.Rule.DeadShare(a.Curve, 0))
					for _, share := range shares[:week] {
						dead -= share
					}
					living := shares[week] - max(0, min(shares[week], dead))
					taken = taken || living > 0
					if living > 0 || shares[week] == 0 {
						all = append(all, lastTake{name: name, dog: d, show: s, area: a.PatternArea, on: w.Week, share: living})
					}
				}
				if taken {
					takes = append(takes, all...)
				}
			}
		})
	}
	return takes
}

// Within three weeks of a show no more of a jacket's living hair is pulled than keeps it in even layers: hair that takes ready weeks to come
// and is right for hold more is rolled once in ready + hold/2.
func TestTakesOfTheJacketNearAShowAreNoMoreThanRolling(t *testing.T) {
	const about = 1.05 // the patterns' shares are in whole per cent
	takes := 0
	for _, x := range lastTakes(t, plannedStrings()) {
		if x.share > 0 {
			takes++
		}
		if even := 1 / (x.area.Ready.Value + x.area.Hold.Value/2); x.share > about*even {
			t.Errorf("%s: %.3f of the %s of %s in the week of %s, rolling takes %.3f; %s is on %s", x.name, x.share, x.area.Name, x.dog.Name, x.on, even, x.show.Name, x.show.On)
		}
	}
	if takes < 100 {
		t.Errorf("only %d takes were looked at", takes)
	}
}

// What is pulled of a jacket within three weeks of a show is a judgement (common practice): an area that is right is left alone, of others as
// much goes as would be too long, and of those that are going over as much as their pattern lets. So of the areas of the dogs whose jacket is
// worked in a week, a third and more give up nothing or clearly less than that. The rest are those that are behind, for want of hours or
// because a show is always near: fortnightly for half a year, the pattern's share is less than rolling.
func TestTakesOfTheJacketNearAShowAreAJudgement(t *testing.T) {
	const clearly = 5. / 6
	of := map[string][]string{"hours to spare and a show": {"just-stripped", "blown", "ample-hours"}}
	if !testing.Short() {
		of["all strings"] = allStrings
	}
	for which, names := range of {
		var all, alone, little float64
		for _, x := range lastTakes(t, names) {
			all++
			switch most := x.area.FinishShare.Value; {
			case x.share == 0:
				alone++
			case x.share < clearly*most:
				little++
			}
		}
		t.Logf("%s: of %.0f areas %.0f are left alone, %.0f give up a little", which, all, alone, little)
		if alone+little < all/3 || alone == 0 || little == 0 {
			t.Errorf("%s: of %.0f areas %.0f are left alone and %.0f give up a little, the others as much as they may", which, all, alone, little)
		}
	}
}

// Nothing of a jacket is pulled on the last two days before a show, and hands, hours and every figure are kept to.
func TestStringsKeepTheLastDaysTheHandsAndTheHours(t *testing.T) {
	for _, name := range plannedStrings() {
		r := stringOf(t, name, stringWeeks)
		for _, d := range check.Plan(r).Differences {
			t.Errorf("%s: %s", name, d)
		}
		shownAt(r, func(d kennel.Dog, s kennel.Show) {
			for _, day := range r.Timetable.Days {
				for _, x := range day.Sessions() {
					for _, a := range x.Areas {
						if x.Dog == d.Name && a.Area.Jacket() && day.On >= s.On-2 && day.On <= s.Last() {
							t.Errorf("%s: the %s of %s is pulled on %s, before %s", name, a.Area, d.Name, day.On, s.Name)
						}
					}
				}
			}
		})
	}
}

// placedFrom are the duties of a string that is planned from a day on, with what was done.
func placedFrom(t *testing.T, k kennel.Kennel, on kennel.Date, done ...kennel.Work) *layout {
	t.Helper()
	k.PlanFrom = on
	opt := DefaultOptions()
	opt.On, opt.Done = on, done
	l, err := layOut(k, builtin(t), opt)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Two days before a show all of the finish is late: it is done late, or named. With hours to spare it is done.
func TestAStringsFinishIsLateAndNotDropped(t *testing.T) {
	late := 0
	for _, name := range allStrings {
		k := readString(t, name, stringWeeks)
		for n, s := range k.Shows {
			if s.Chance < kennel.CountedOn {
				continue
			}
			l := placedFrom(t, k, s.On-2)
			for d, dog := range l.k.Dogs {
				if !hours.Goes(dog, s) {
					continue
				}
				for i, duty := range dog.Duties {
					if duty.Before == nil || duty.Before.To <= 2 || duty.Lifts() {
						continue
					}
					planned := slices.ContainsFunc(l.duties, func(x hours.Duty) bool {
						return x.Dog == d && x.Duty == i && x.Late && slices.Contains(x.Shows, n) && x.To < s.On
					})
					if planned {
						late++
					}
					if ample := slices.Contains(ampleStrings, name); !planned && (ample || !slices.Contains(l.notDone, hours.NotDone{Dog: d, Duty: i, Show: n})) {
						t.Errorf("%s: %s of %s for %s is dropped two days before", name, duty.Name, dog.Name, s.Name)
					}
				}
			}
		}
	}
	if late < 50 {
		t.Errorf("only %d lines were late", late)
	}
}

// What is written down as done is not due again before its time: at its next turn, or for a show after it has had its days.
func TestRecordsMoveTheDueDatesOfAString(t *testing.T) {
	moved := 0
	for _, name := range allStrings {
		k := readString(t, name, stringWeeks)
		l := placedFrom(t, k, k.PlanFrom)
		for d, dog := range l.k.Dogs {
			for i, duty := range dog.Duties {
				with := placedFrom(t, k, k.PlanFrom, kennel.Work{Dog: dog.Name, Duty: duty.Name, On: k.PlanFrom, Minutes: duty.Minutes})
				of := func(l *layout) (all []hours.Duty) {
					for _, x := range l.duties {
						if x.Dog == d && x.Duty == i {
							all = append(all, x)
						}
					}
					return all
				}
				lasts := kennel.Date(builtin(t)[dog.Pattern].Lasts(duty))
				for _, x := range of(with) {
					early := len(x.Shows) == 0 && x.Week < int(duty.Every) || slices.ContainsFunc(x.Shows, func(s int) bool { return k.Shows[s].On-lasts <= k.PlanFrom })
					if early {
						t.Errorf("%s: %s of %s was done on %s and is due again in week %d", name, duty.Name, dog.Name, k.PlanFrom, x.Week+1)
					}
				}
				if !reflect.DeepEqual(of(l), of(with)) {
					moved++
				}
			}
		}
	}
	if moved < 20 {
		t.Errorf("records moved only %d duties", moved)
	}
}

// A spell of one dog of a string leaves all others as they were.
func TestASpellInAStringChangesOnlyItsDog(t *testing.T) {
	for _, name := range []string{demoString, "two-at-one-show", "eight-in-six-hours", "no-dates"} {
		k := readString(t, name, stringWeeks)
		was := placedFrom(t, k, k.PlanFrom).problem
		other := k.Clone()
		other.Dogs[0].Spells = []kennel.Spell{{From: k.PlanFrom + 10, To: k.PlanFrom + 40, What: kennel.SpellIllness, Growth: 0.5}}
		is := placedFrom(t, other, k.PlanFrom).problem
		for d := range is.Dogs {
			if same := reflect.DeepEqual(was.Dogs[d], is.Dogs[d]); same != (d != 0) {
				t.Errorf("%s: a spell of %s leaves %s as it was: %v", name, k.Dogs[0].Name, k.Dogs[d].Name, same)
			}
		}
	}
}
