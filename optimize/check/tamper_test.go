package check_test

import (
	"context"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// looked are the made-up patterns with a look over the dog in every session, and with kept legs to care for.
func looked() kennel.Patterns {
	figure := func(v float64) kennel.Figure {
		return kennel.Figure{Value: v, Low: v, High: v, Mark: kennel.MarkPractice}
	}
	pats := made.Patterns()
	for name, p := range pats {
		p.Look = figure(8)
		p.Areas = append([]kennel.PatternArea(nil), p.Areas...)
		for i := range p.Areas {
			if a := &p.Areas[i]; a.Work == kennel.SkillFurnishings {
				a.Kept, a.Ready, a.Hold = true, figure(40), figure(52)
				p.Care = kennel.Care{Minutes: figure(10), Every: figure(2)}
			}
		}
		pats[name] = p
	}
	return pats
}

// tampered plans two dogs, one of them long unworked, for shows that they can be ready for.
func tampered(t *testing.T) planned.Result {
	t.Helper()
	handler := kennel.Hands{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{4, 4, 0, 4, 4}}
	blown, even := made.EvenDog("Moss", "wiry", 60), made.EvenDog("Sorrel", "rough", 9)
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{handler}, Dogs: []kennel.Dog{blown, even},
		Shows: []kennel.Show{made.ShowOn("Brackenmere", 75, "Moss", "Sorrel")},
	}
	r, err := optimize.Plan(context.Background(), k, looked(), optimize.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, check.Plan(r))
	return r
}

// touch is one area's work of one dog in a week.
func touch(r *planned.Result, dog string, week int, area kennel.AreaName) *planned.AreaWork {
	dogs := r.Weeks[week].Dogs
	for i := range dogs {
		for j := range dogs[i].Areas {
			if dogs[i].Dog == dog && dogs[i].Areas[j].Area == area {
				return &dogs[i].Areas[j]
			}
		}
	}
	return nil
}

// Each rule of the season is broken alone, and the check says which it is.
func TestCheckNamesTheRuleThatIsBroken(t *testing.T) {
	r := tampered(t)
	for _, x := range r.Readiness {
		if x.Score < kennel.ReadyScore {
			t.Fatalf("%s is %v: the plan of the test is not in coat", x.Dog, x.Score)
		}
	}
	first := touch(&r, "Moss", 0, kennel.AreaBack)
	if first == nil || first.Share < 0.2 || agree(float64(first.Minutes), 2*120*float64(first.Share)) {
		t.Fatalf("the dead coat of Moss is not taken down first: %+v", first)
	}
	late := touch(&r, "Sorrel", 5, kennel.AreaRibs)
	if late == nil {
		t.Fatal("Sorrel's ribs are not worked in the sixth week")
	}
	set := func(at *float64, to float64) func() {
		was := *at
		*at = to
		return func() { *at = was }
	}
	for name, c := range map[string]struct {
		spoil  func() (undo func())
		figure string
	}{
		"dead hair is paid for as living":     {func() func() { return set((*float64)(&first.Minutes), 2*120*float64(first.Share)) }, "minutes"},
		"living hair costs no more than dead": {func() func() { return set(&r.Options.Pick, 1) }, "minutes"},
		"a bite near a show":                  {func() func() { return set((*float64)(&late.Share), 0.14) }, "share of living hair"},
		"kept hair is pulled": {func() func() {
			was := first.Area
			first.Area = kennel.AreaFurnishings
			return func() { first.Area = was }
		}, "share of kept hair"},
		"nobody looks over the dog": {func() func() {
			was := r.Patterns
			r.Patterns = looked()
			for name, p := range r.Patterns {
				p.Look.Value = 0
				r.Patterns[name] = p
			}
			return func() { r.Patterns = was }
		}, "minutes of set-up"},
		"growth is taken as known":     {func() func() { return set(&r.Options.GrowthSD, 0) }, "points"},
		"uneven work costs more":       {func() func() { return set(&r.Options.Uneven, 2) }, "points"},
		"care of the legs is left out": {func() func() { return dropDuty(&r, "Moss") }, "weeks without it"},
	} {
		undo := c.spoil()
		if got := check.Plan(r).Differences; !names(got, c.figure) {
			t.Errorf("%s: nothing says that %q is wrong, only %v", name, c.figure, got)
		}
		undo()
	}
	agrees(t, check.Plan(r))
}

func agree(x, y float64) bool { return x-y < 1e-6 && y-x < 1e-6 }

// dropDuty takes all duties of a dog out of the weeks from the third on.
func dropDuty(r *planned.Result, dog string) (undo func()) {
	was := append([]planned.Week(nil), r.Weeks...)
	for t := 2; t < len(r.Weeks); t++ {
		var others []planned.DutyWork
		for _, y := range r.Weeks[t].Duties {
			if y.Dog != dog {
				others = append(others, y)
			}
		}
		r.Weeks[t].Duties = others
	}
	return func() { copy(r.Weeks, was) }
}

// A coat with bald ears is no better at a show than its ears and 30 points, whatever the rest.
func TestCheckKnowsAHole(t *testing.T) {
	dog := made.EvenDog("Sorrel", "rough", 12)
	dog.Areas = []kennel.AreaCoat{{Area: kennel.AreaEars, Layers: []kennel.Layer{{Share: 1, Pulled: made.Monday}}}}
	k := kennel.Kennel{PlanFrom: made.Monday, Weeks: 8, Dogs: []kennel.Dog{dog}, Shows: []kennel.Show{made.ShowOn("Brackenmere", 4, "Sorrel")}}
	r, err := optimize.Plan(context.Background(), k, looked(), optimize.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, check.Plan(r))
	at := &r.Readiness[0]
	if at.WorstArea != kennel.AreaEars || at.Score > 31 {
		t.Fatalf("%+v", at)
	}
	at.Score = r.Outlooks[0].PlannedScores[0] // the mean
	if got := check.Plan(r).Differences; !names(got, "readiness") {
		t.Errorf("the mean for a dog with bald ears: %v", got)
	}
}

// jacketDay is the first day of the timetable with work on a jacket, and the hands and the dog of it.
func jacketDay(t *testing.T, r planned.Result) (day int, hands planned.HandsDay, dog string) {
	t.Helper()
	for n, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Items {
				for _, a := range i.Areas {
					if a.Area.Jacket() {
						return n, h, i.Dog
					}
				}
			}
		}
	}
	t.Fatal("no jacket is worked")
	return 0, planned.HandsDay{}, ""
}

// On the last two days before a show no jacket is touched.
func TestCheckKnowsTheLastDays(t *testing.T) {
	r := checkable(t)
	first, _, dog := jacketDay(t, r)
	for days, left := range map[int]bool{0: true, 2: true, 3: false} {
		was := r.Kennel.Shows
		r.Kennel.Shows = append([]kennel.Show{made.ShowOn("Tarnbrough", first+days, dog)}, was...)
		if got := names(check.Plan(r).Differences, "day of jacket work"); got != left {
			t.Errorf("a session %d days before a show: the check finds fault with its day: %v", days, got)
		}
		r.Kennel.Shows = was
	}
}

// No area is worked on two days running, but for sessions that the handler fixed.
func TestCheckKnowsThatAnAreaRests(t *testing.T) {
	r := checkable(t)
	first, again, dog := jacketDay(t, r)
	if names(check.Plan(r).Differences, "day of work") {
		t.Fatal("fault is found with one day's work")
	}
	r.Timetable.Days[first+1].Hands = append(r.Timetable.Days[first+1].Hands, again)
	if got := check.Plan(r).Differences; !names(got, "day of work") {
		t.Errorf("the same areas on two days running: %v", got)
	}
	r.Options.Accepted = []kennel.Session{{Dog: dog, On: r.On.AddDays(first), Hands: again.Hands, Pinned: true}}
	if got := check.Plan(r).Differences; names(got, "day of work") {
		t.Errorf("a session that the handler fixed is found fault with: %v", got)
	}
}

// Hands rest within an hour of pulling, and not before the last minutes of a session.
func TestCheckKnowsWhenHandsRest(t *testing.T) {
	r := tampered(t)
	var day *planned.HandsDay
	at := -1
	for d := range r.Timetable.Days {
		for h := range r.Timetable.Days[d].Hands {
			hd := &r.Timetable.Days[d].Hands[h]
			for n := range hd.Items {
				if at < 0 && hd.GoesOn(n) {
					day, at = hd, n
				}
			}
		}
	}
	if at < 0 {
		t.Fatal("no break is within a session")
	}
	was := day.Items
	before := planned.Pulling(was[at-2].Areas)
	if before > 50+1e-6 || before+planned.Pulling(was[at].Areas) <= 55 {
		t.Fatalf("%v minutes before the break and %v after it", before, planned.Pulling(was[at].Areas))
	}
	on := append([]planned.Item(nil), was...)
	on[at].Start, on[at].End = on[at].Start-10, on[at].End-10
	day.Items = append(on[:at-1:at-1], on[at:]...) // no break
	if got := check.Plan(r).Differences; !names(got, "minutes of pulling without a rest") {
		t.Errorf("nobody rests: %v", got)
	}
	early := append([]planned.Item(nil), was...)
	early[at].Areas = []planned.AreaWork{early[at].Areas[0].Part(54 - before)}
	day.Items = early
	if got := check.Plan(r).Differences; !names(got, "minutes of Moss before and after a break in its session") {
		t.Errorf("a break before the last minutes: %v", got)
	}
	day.Items = was
	agrees(t, check.Plan(r))
}
