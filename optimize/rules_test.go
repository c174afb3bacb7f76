package optimize

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// rules are what every plan must keep. The checks work from the kennel and the plan in words alone, day by day, and
// use nothing that the planner computed on the way.
var rules = []struct {
	name  string
	check func(t *rapid.T, k kennel.Kennel, r Result)
}{
	{"no hands work over their hours", noHandsWorkOverTheirHours},
	{"hand load holds for every kind of work", handLoadHoldsForEveryKindOfWork},
	{"nobody pulls or sets up what they are not let near", nobodyPullsOrSetsUpWhatTheyAreNotLetNear},
	{"sessions fit the table and the days that dog and hands are there", sessionsFitTheTableAndTheDaysThatDogAndHandsAreThere},
	{"no hair is pulled under the grip age", noHairIsPulledUnderTheGripAge},
	{"finish rules are kept", finishRulesAreKept},
	{"no touch is a crumb", noTouchIsACrumb},
	{"no lifting bath and no powder left within a fortnight of a show", noLiftingBathAndNoPowderLeftWithinAFortnightOfAShow},
	{"every duty is planned or reported", everyDutyIsPlannedOrReported},
	{"duties for a show are done before it", dutiesForAShowAreDoneBeforeIt},
	{"readiness is from nothing to right", readinessIsFromNothingToRight},
	{"the bound is never below the plan", theBoundIsNeverBelowThePlan},
	{"a plan against itself has no changes", aPlanAgainstItselfHasNoChanges},
	{"same input same plan", sameInputSamePlan},
}

func TestPlansOfRandomKennelsKeepTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := made.Kennel().Draw(t, "kennel")
		r, err := Plan(context.Background(), k, made.Patterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Weeks) != int(k.Weeks) {
			t.Fatalf("%d weeks, want %d", len(r.Weeks), k.Weeks)
		}
		for _, rule := range rules {
			t.Log(rule.name)
			rule.check(t, k, r)
		}
	})
}

const slack = 1e-6 // arithmetic's

// handsAtWork reports whether a pair of hands works on a day, by the rules of the kennel file.
func handsAtWork(k kennel.Kennel, h int, day kennel.Date) bool {
	if day < k.PlanFrom || k.Hands[h].Hours[day.Weekday()] == 0 {
		return false
	}
	for _, s := range k.Hands[h].Away {
		if s.Holds(day) {
			return false
		}
	}
	for _, s := range k.Shows {
		if h == 0 && s.Chance >= 0.5 && s.AwayDays().Holds(day) {
			return false
		}
	}
	return true
}

func dogAtTable(k kennel.Kennel, dog kennel.Dog, day kennel.Date) bool {
	if day < k.PlanFrom {
		return false
	}
	here := len(dog.Here) == 0
	for _, s := range dog.Here {
		here = here || s.Holds(day)
	}
	for _, s := range k.Shows {
		if s.Has(dog.Name) && s.Chance >= 0.5 && s.AwayDays().Holds(day) && !inSpellAt(dog, s) {
			return false
		}
	}
	for _, s := range dog.Spells {
		vet := s.What == kennel.SpellWhelping || s.What == kennel.SpellIllness || s.What == kennel.SpellInjury
		if spellHolds(s, day) && (s.Table == "no" || vet && s.Table != "yes") {
			return false
		}
	}
	return here
}

func spellHolds(s kennel.Spell, day kennel.Date) bool {
	return day >= s.From && (s.To == 0 || day <= s.To)
}

// inSpellAt reports whether the dog is in season, ill or the like on a day of the show: nobody counts on its coat then (C16; second-hand).
func inSpellAt(dog kennel.Dog, show kennel.Show) bool {
	for day := show.On; day < show.On.AddDays(show.Days); day++ {
		for _, s := range dog.Spells {
			if spellHolds(s, day) {
				return true
			}
		}
	}
	return false
}

func dogNamed(k kennel.Kennel, name string) kennel.Dog {
	for _, dog := range k.Dogs {
		if dog.Name == name {
			return dog
		}
	}
	panic("no dog " + name)
}

// pulled is the share of an area of a dog pulled in each week.
func pulled(r Result, dog string, area kennel.AreaName) []float64 {
	shares := make([]float64, len(r.Weeks))
	for t, w := range r.Weeks {
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				if d.Dog == dog && a.Area == area {
					shares[t] += float64(a.Share)
				}
			}
		}
	}
	return shares
}

func noHandsWorkOverTheirHours(t *rapid.T, k kennel.Kennel, r Result) {
	for _, w := range r.Weeks {
		var all, planned float64
		for h, pair := range w.Hands {
			var hours float64
			for day := w.Week; day < w.Week+7; day++ {
				if handsAtWork(k, h, day) {
					hours += float64(k.Hands[h].Hours[day.Weekday()])
				}
			}
			if math.Abs(hours-float64(pair.Hours)) > slack || float64(pair.Planned) > hours+slack {
				t.Fatalf("%s: %s has %v h, the plan says %v and gives %v", w.Week, pair.Hands, hours, pair.Hours, pair.Planned)
			}
			all += hours
			planned += float64(pair.Planned)
		}
		var minutes float64
		for _, d := range w.Dogs {
			minutes += float64(d.Minutes + d.SetUp)
		}
		for _, d := range w.Duties {
			minutes += float64(d.Minutes)
		}
		if math.Abs(all-float64(w.Hours)) > slack || math.Abs(planned-float64(w.Planned)) > slack || math.Abs(minutes/60-planned) > slack {
			t.Fatalf("%s: hours %v of %v, planned %v, %v of it given to hands, %v of work",
				w.Week, w.Hours, all, w.Planned, planned, minutes/60)
		}
	}
}

// E1: hand-activity limits concern hand work of 4 h a day and more (ACGIH hand activity TLV; seen). Pulling stays
// within the hours a day that each pair of hands may pull, for every mix of kinds of work.
func handLoadHoldsForEveryKindOfWork(t *rapid.T, k kennel.Kennel, r Result) {
	kinds := []kennel.Skill{kennel.SkillJacket, kennel.SkillClose, kennel.SkillFurnishings}
	for _, w := range r.Weeks {
		for set := 1; set < 1<<len(kinds); set++ {
			var work, load float64
			for i, kind := range kinds {
				if set>>i&1 == 0 {
					continue
				}
				for _, d := range w.Dogs {
					for _, a := range d.Areas {
						if a.Work == kind {
							work += float64(a.Minutes)
						}
					}
				}
			}
			for h, pair := range k.Hands {
				able := false
				for i, kind := range kinds {
					able = able || set>>i&1 == 1 && pair.Can(kind)
				}
				most := pair.StripHoursADay
				if most == 0 {
					most = 4
				}
				for day := w.Week; able && day < w.Week+7; day++ {
					if handsAtWork(k, h, day) {
						load += 60 * float64(min(most, pair.Hours[day.Weekday()]))
					}
				}
			}
			if work > load+slack {
				t.Fatalf("%s: %v minutes of pulling (kinds %b), the hands that may can do %v", w.Week, work, set, load)
			}
		}
	}
}

func nobodyPullsOrSetsUpWhatTheyAreNotLetNear(t *rapid.T, k kennel.Kennel, r Result) {
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				able := false
				for h, pair := range k.Hands {
					for day := w.Week; day < w.Week+7; day++ {
						able = able || pair.Can(a.Work) && handsAtWork(k, h, day) && dogAtTable(k, dogNamed(k, d.Dog), day)
					}
				}
				if !able {
					t.Fatalf("%s: %s of %s is %s work and nobody who may is there with the dog", w.Week, a.Area, d.Dog, a.Work)
				}
			}
		}
		for _, d := range w.Duties {
			able := false
			for h, pair := range k.Hands {
				for day := w.Week; day < w.Week+7; day++ {
					able = able || mayDo(pair, d) && handsAtWork(k, h, day) && dogAtTable(k, dogNamed(k, d.Dog), day)
				}
			}
			if !able {
				t.Fatalf("%s: %s of %s, but nobody who may is there with the dog", w.Week, d.Name, d.Dog)
			}
		}
	}
}

// mayDo reports whether hands may do a duty: a trim is for those that do close work, care for those that do furnishings or duties.
func mayDo(pair kennel.Hands, d DutyWork) bool {
	switch d.Kind() {
	case Trim:
		return pair.Can(kennel.SkillClose)
	case Care:
		return pair.Can(kennel.SkillFurnishings) || pair.Can(kennel.SkillDuties)
	}
	return pair.Can(kennel.SkillDuties)
}

func sessionsFitTheTableAndTheDaysThatDogAndHandsAreThere(t *rapid.T, k kennel.Kennel, r Result) {
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			dog := dogNamed(k, d.Dog)
			days := 0
			for day := w.Week; day < w.Week+7; day++ {
				there := false
				for h := range k.Hands {
					there = there || handsAtWork(k, h, day)
				}
				if there && dogAtTable(k, dog, day) {
					days++
				}
			}
			if d.Sessions < 1 || d.Sessions > min(days, dog.Table.AWeek) {
				t.Fatalf("%s: %d sessions of %s, on %d days, at most %d a week", w.Week, d.Sessions, d.Dog, days, dog.Table.AWeek)
			}
			if d.SetUp != kennel.Minutes(d.Sessions)*dog.Table.SetUp {
				t.Fatalf("%s: %v minutes of set-up of %s", w.Week, d.SetUp, d.Dog)
			}
			longest := dog.Table.Minutes
			if dog.Born != 0 && w.Week.Time().Before(dog.Born.Time().AddDate(1, 0, 0)) {
				longest = min(longest, 30) // under 12 months
			}
			if float64(d.Minutes+d.SetUp) > float64(longest)*float64(d.Sessions)+slack {
				t.Fatalf("%s: %v minutes in %d sessions of %s, at most %v each", w.Week, d.Minutes+d.SetUp, d.Sessions, d.Dog, longest)
			}
		}
	}
}

func noHairIsPulledUnderTheGripAge(t *rapid.T, k kennel.Kennel, r Result) {
	eachArea(k, func(dog kennel.Dog, area kennel.PatternArea, layers []kennel.Layer) {
		shares := pulled(r, dog.Name, area.Name)
		grip := area.Grip.Value / dog.Coat.Growth
		for week := range shares {
			if shares[week] == 0 {
				continue
			}
			// What is younger than the grip age at the end of the week may not be more than the whole area.
			young := 0.0
			for back := 0; float64(back) < grip; back++ {
				if week-back >= 0 {
					young += shares[week-back]
				}
				for _, l := range layers {
					if kennel.WeekOf(l.Pulled, r.Week0) == week-back {
						young += float64(l.Share)
					}
				}
			}
			if young > 1+1e-5 {
				t.Fatalf("week %d: %v of %s of %s is younger than %v weeks", week, young, area.Name, dog.Name, grip)
			}
		}
	})
}

func eachArea(k kennel.Kennel, do func(kennel.Dog, kennel.PatternArea, []kennel.Layer)) {
	for _, dog := range k.Dogs {
		for _, area := range made.Patterns()[dog.Pattern].Areas {
			layers := dog.All
			for _, own := range dog.Areas {
				if own.Area == area.Name {
					layers = own.Layers
				}
			}
			do(dog, area, layers)
		}
	}
}

// deadBefore is the share of an area that is dead when the plan begins.
func deadBefore(t *rapid.T, r Result, dog kennel.Dog, area kennel.PatternArea) float64 {
	coat, err := kennel.NewDogCoat(dog, made.Patterns()[dog.Pattern], r.Week0)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range coat.Areas {
		if a.Name == area.Name {
			return float64(a.Rule.DeadShare(a.Curve, 0))
		}
	}
	return 0
}

// C14 is the withers' rule among these: eight weeks, 3 % (common practice).
func finishRulesAreKept(t *rapid.T, k kennel.Kennel, r Result) {
	eachArea(k, func(dog kennel.Dog, area kennel.PatternArea, _ []kennel.Layer) {
		dead := deadBefore(t, r, dog, area)
		for week, share := range pulled(r, dog.Name, area.Name) {
			loose := min(dead, share) // dead hair is free of the rules
			dead -= loose
			share -= loose
			if dog.Coat.RollOnly && share > made.Patterns()[dog.Pattern].RollMost.Value+slack {
				t.Fatalf("week %d: %v of %s of %s, which is only rolled", week, share, area.Name, dog.Name)
			}
			for _, s := range k.Shows {
				to := kennel.WeekOf(s.On, r.Week0)
				if !s.Has(dog.Name) || s.On < k.PlanFrom || !inHandFor(dog, s) {
					continue
				}
				sunday := r.Week0.AddDays(7*week + 6)
				if week <= to && float64(s.On-sunday) < 7*area.FinishWeeks.Value && share > area.FinishShare.Value+slack {
					t.Fatalf("week %d: %v of %s of %s, %d weeks before %s", week, share, area.Name, dog.Name, to-week, s.Name)
				}
			}
		}
	})
}

func inHandFor(dog kennel.Dog, s kennel.Show) bool {
	if inSpellAt(dog, s) {
		return false
	}
	for day := s.On; day < s.On.AddDays(s.Days); day++ {
		in := len(dog.Here) == 0
		for _, span := range dog.Here {
			in = in || span.Holds(day)
		}
		if !in {
			return false
		}
	}
	return true
}

func noTouchIsACrumb(t *rapid.T, _ kennel.Kennel, r Result) {
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			if len(d.Areas) == 0 {
				t.Fatalf("%s: a session of %s in which nothing is pulled", w.Week, d.Dog)
			}
			for _, a := range d.Areas {
				if float64(a.Share) < 0.03-slack && float64(a.Minutes) < 3-slack {
					t.Fatalf("%s: %v of %s of %s, %v minutes", w.Week, a.Share, a.Area, d.Dog, a.Minutes)
				}
			}
		}
	}
	if r.Gathered.Moved < 0 || r.Gathered.Moved == 0 && r.Gathered.Points > slack {
		t.Fatalf("nothing was gathered and it cost %+v", r.Gathered)
	}
}

// C15: a coat needs two to three weeks to lie flat after a lifting bath (common practice), so none in a week that
// ends within 14 days of the dog's next show. D3: nothing that alters texture or body may be in the coat at the show
// (Kennel Club show regulations, preparation for exhibition; seen), so powder named there is to be out again.
func noLiftingBathAndNoPowderLeftWithinAFortnightOfAShow(t *rapid.T, k kennel.Kennel, r Result) {
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			for _, s := range k.Shows {
				if s.Has(d.Dog) && s.On >= max(w.Week, k.PlanFrom) && s.On <= w.Week.AddDays(6+14) &&
					inHandFor(dogNamed(k, d.Dog), s) &&
					(strings.HasPrefix(d.Lift, "lifting bath") || strings.Contains(d.Lift, "powder") && !strings.Contains(d.Lift, "powder out before the ring")) {
					t.Fatalf("%s: %q for %s, shown on %s", w.Week, d.Lift, d.Dog, s.On)
				}
			}
		}
	}
}

// dutiesForAShowAreDoneBeforeIt, also those that are late; and the care of a dog's legs is not planned beside what is done on them for a show.
func dutiesForAShowAreDoneBeforeIt(t *rapid.T, k kennel.Kennel, r Result) {
	for _, day := range r.Timetable.Days {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				for _, s := range k.Shows {
					if i.Kind == ItemDuty && (i.Why == "for "+s.Name || i.Why == "for "+s.Name+", late") && day.On > s.On.AddDays(-min(1, daysBefore(k, i.Dog, i.What))) {
						t.Fatalf("%s: %s of %s is for %s on %s", day.On, i.What, i.Dog, s.Name, s.On)
					}
				}
			}
		}
	}
	for _, w := range r.Weeks {
		washed := map[string]bool{}
		for _, d := range w.Duties {
			washed[d.Dog] = washed[d.Dog] || d.Name == "legs washed"
		}
		for _, d := range w.Duties {
			if d.Name == "undercoat" && washed[d.Dog] {
				t.Fatalf("%s: undercoat of %s beside its legs for a show", w.Week, d.Dog)
			}
		}
	}
}

// daysBefore is how many days before a show a duty of the dog must be done; those that its pattern brings are done before the day.
func daysBefore(k kennel.Kennel, dog, duty string) int {
	for _, d := range dogNamed(k, dog).Duties {
		if d.Name == duty && d.Before != nil {
			return d.Before.To
		}
	}
	return 1
}

// everyDutyIsPlannedOrReported: before a show each duty is planned for it once, late if not in time, or the show says that it is not
// done; a duty that comes round is planned, or reported.
func everyDutyIsPlannedOrReported(t *rapid.T, k kennel.Kennel, r Result) {
	last := r.Week0.AddDays(7 * len(r.Weeks))
	for _, dog := range kennel.WithCare(k, made.Patterns()).Dogs {
		pattern := made.Patterns()[dog.Pattern]
		for _, duty := range dog.Duties {
			if duty.Before != nil {
				for _, s := range k.Shows {
					listed := pattern.Finishes(duty)
					if !s.Has(dog.Name) || s.On < k.PlanFrom || !inHandFor(dog, s) || s.On.AddDays(-duty.Before.To) >= last || kennel.ReadinessWeek(s.On, r.Week0) >= len(r.Weeks) ||
						listed && s.Chance < kennel.CountedOn {
						continue
					}
					if times, not := timesFor(r, dog.Name, duty.Name, s), saidNotDone(r, dog.Name, duty.Name, s); times > 1 || times == 0 && !not {
						t.Fatalf("%s of %s is planned %d times for %s on %s, not done: %v", duty.Name, dog.Name, times, s.Name, s.On, not)
					}
				}
				continue
			}
			times, reported := 0, 0
			for _, w := range r.Weeks {
				for _, done := range w.Duties {
					if done.Dog == dog.Name && done.Name == duty.Name {
						times++
					}
				}
			}
			for _, c := range r.Cannot {
				if c.What == duty.Name+" of "+dog.Name {
					reported++
				}
			}
			home := 0 // whole weeks from the second on with the dog at home
			for week := 1; week < len(r.Weeks); week++ {
				at := true
				for day := r.Weeks[week].Week; day < r.Weeks[week].Week+7; day++ {
					at = at && dogAtTable(k, dog, day)
				}
				if !at {
					home = 0
					continue
				}
				home++
				if home >= 2*int(duty.Every)-1 && times == 0 && reported == 0 {
					t.Fatalf("%s of %s, every %d weeks, is neither planned nor reported", duty.Name, dog.Name, duty.Every)
				}
			}
		}
	}
}

// timesFor is how often a duty is planned for a show, in weeks with days before it on which it is still right.
func timesFor(r Result, dog, duty string, s kennel.Show) (times int) {
	for _, w := range r.Weeks {
		for _, d := range w.Duties {
			if d.Dog != dog || d.Name != duty {
				continue
			}
			names := strings.FieldsFunc(strings.ReplaceAll(strings.TrimSuffix(strings.TrimPrefix(d.Why, "for "), ", late"), " and ", ","), func(r rune) bool { return r == ',' })
			for _, n := range names {
				if strings.TrimSpace(n) == s.Name && w.Week <= s.On { // a duty up to 0 days before may be done on the day
					times++
				}
			}
		}
	}
	return times
}

func saidNotDone(r Result, dog, duty string, s kennel.Show) bool {
	for _, x := range r.Readiness {
		if x.Dog == dog && x.Show == s.Name && x.On == s.On {
			for _, n := range x.NotDone {
				if n == duty {
					return true
				}
			}
		}
	}
	// A show in the first days of the plan's first week is not judged by the plan, and has no line.
	return kennel.ReadinessWeek(s.On, r.Week0) < 0 && slices.ContainsFunc(r.Cannot, func(x Cannot) bool { return x.What == duty+" of "+dog })
}

func readinessIsFromNothingToRight(t *rapid.T, k kennel.Kennel, r Result) {
	right := func(s kennel.Score) bool { return s >= 0 && s <= 100+slack }
	for _, s := range r.Readiness {
		if !right(s.Score) || !right(s.Followed) || !right(s.Idle) || !right(s.WorstScore) || s.WorstScore > s.Followed+slack {
			t.Fatalf("%+v", s)
		}
	}
	if len(r.Outlooks) != len(k.Dogs) {
		t.Fatalf("%d outlooks of %d dogs", len(r.Outlooks), len(k.Dogs))
	}
	for _, o := range r.Outlooks {
		if len(o.IdleScores) != len(r.Weeks) || len(o.PlannedScores) != len(r.Weeks) {
			t.Fatalf("%s: %d and %d scores of %d weeks", o.Dog, len(o.IdleScores), len(o.PlannedScores), len(r.Weeks))
		}
		for week := range r.Weeks {
			if !right(o.IdleScores[week]) || !right(o.PlannedScores[week]) {
				t.Fatalf("%s, week %d: %v and %v", o.Dog, week, o.IdleScores[week], o.PlannedScores[week])
			}
		}
	}
}

func theBoundIsNeverBelowThePlan(t *rapid.T, _ kennel.Kennel, r Result) {
	if s := r.Season; s.Objective > s.Bound+slack || math.Abs(s.Gap-(s.Bound-s.Objective)/max(1, math.Abs(s.Bound))) > slack {
		t.Fatalf("objective %v, bound %v, gap %v", s.Objective, s.Bound, s.Gap)
	}
}

func sameInputSamePlan(t *rapid.T, k kennel.Kennel, r Result) {
	if testing.Short() && k.Weeks > 8 {
		return // a long season is planned once in the quick round
	}
	again, err := Plan(context.Background(), k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(r, again) {
		t.Fatal("two plans of the same kennel differ")
	}
}
