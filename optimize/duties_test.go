package optimize

import (
	"context"
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
)

func agrees(t *testing.T, r Result) {
	t.Helper()
	for _, d := range check.Plan(r).Differences {
		t.Errorf("%v", d)
	}
}

// aDuty is a kennel with one pair of hands, one dog and its duties.
func aDuty(hours [kennel.DaysAWeek]kennel.Hours, duties ...kennel.Duty) kennel.Kennel {
	dog := made.EvenDog("Sorrel", "rough", 20)
	dog.Duties = duties
	return kennel.Kennel{Weeks: 6, Hands: []kennel.Hands{{Name: "Handler", Hours: hours}}, Dogs: []kennel.Dog{dog}}
}

// Breaks are for the pulling, so a duty may take all the time of a day. What is longer than every day is reported, and the rest
// is planned.
func TestDutyMayFillADay(t *testing.T) {
	twoHours := [kennel.DaysAWeek]kennel.Hours{2}
	for _, c := range []struct {
		hours   [kennel.DaysAWeek]kennel.Hours
		minutes kennel.Minutes
		why     string
	}{
		{twoHours, 110, ""},
		{twoHours, 112, ""},
		{twoHours, 120, ""},
		{twoHours, 120.5, "it takes 121 min at a time, and no day has more than 120 min for it (due in the week of 17 January)"},
		{[kennel.DaysAWeek]kennel.Hours{8}, 480, ""},
		{[kennel.DaysAWeek]kennel.Hours{2, 0, 1.5, 0, 1}, 270, "it takes 270 min at a time, and no day has more than 120 min for it (due in the week of 17 January)"},
	} {
		r := plan(t, aDuty(c.hours, kennel.Duty{Name: "bath", Minutes: c.minutes, Every: 4}), made.Patterns())
		agrees(t, r)
		done, pulled := 0, kennel.Minutes(0)
		for _, w := range r.Weeks {
			done += len(w.Duties)
			for _, d := range w.Dogs {
				pulled += d.Minutes
			}
		}
		if pulled == 0 {
			t.Errorf("%v min in %v: nothing is pulled", c.minutes, c.hours)
		}
		if c.why == "" && (done != 2 || len(r.Cannot) != 0) {
			t.Errorf("%v min in %v: done %d times, want 2; %+v", c.minutes, c.hours, done, r.Cannot)
		}
		if c.why != "" {
			if done != 0 {
				t.Errorf("%v min in %v: done %d times", c.minutes, c.hours, done)
			}
			wantCannot(t, r, "bath of Sorrel", c.why)
		}
	}
}

// What was worked today already is not there for duties.
func TestDutyLongerThanTheRestOfTheDayWaits(t *testing.T) {
	k := aDuty([kennel.DaysAWeek]kennel.Hours{2}, kennel.Duty{Name: "bath", Minutes: 90, Every: 2})
	opt := DefaultOptions()
	opt.On = made.Monday
	opt.Done = []kennel.Work{{Dog: "Sorrel", Hands: "Handler", On: made.Monday, Minutes: 40, Duty: "nails"}}
	r, err := Plan(context.Background(), k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, r)
	if len(r.Weeks[0].Duties) != 0 || len(r.Weeks[1].Duties) != 1 || len(r.Cannot) != 0 {
		t.Errorf("%+v, %+v, %+v", r.Weeks[0].Duties, r.Weeks[1].Duties, r.Cannot)
	}
}

func TestDutyThatNobodyDoesIsReported(t *testing.T) {
	k := aDuty([kennel.DaysAWeek]kennel.Hours{2}, kennel.Duty{Name: "nails", Minutes: 10, Every: 1})
	k.Hands[0].Does = []kennel.Skill{kennel.SkillJacket}
	wantCannot(t, plan(t, k, made.Patterns()), "nails of Sorrel", "no hands may do it (due 6 times, first in the week of 3 January)")
}

func TestDutyThatOthersLeaveNoHoursForIsReported(t *testing.T) {
	k := aDuty([kennel.DaysAWeek]kennel.Hours{1}, kennel.Duty{Name: "nails", Minutes: 40, Every: 1}, kennel.Duty{Name: "bath", Minutes: 30, Every: 1})
	wantCannot(t, plan(t, k, made.Patterns()), "bath of Sorrel", "other duties take the hours for it (due 6 times")
}

// On the days everything takes whole minutes, the shortest duty one.
func TestDutiesUnderAMinuteTakeOne(t *testing.T) {
	k := aDuty([kennel.DaysAWeek]kennel.Hours{2},
		kennel.Duty{Name: "eyes", Minutes: 0.5, Every: 1}, kennel.Duty{Name: "nose", Minutes: 0.4, Every: 1}, kennel.Duty{Name: "nails", Minutes: 7.2, Every: 1})
	r := plan(t, k, made.Patterns())
	agrees(t, r)
	took := map[string]kennel.Clock{}
	for _, day := range r.Timetable.Days {
		for _, h := range day.Hands {
			for _, it := range h.Items {
				if it.Kind == ItemDuty {
					took[it.What] = it.End - it.Start
				}
			}
		}
	}
	if want := map[string]kennel.Clock{"eyes": 1, "nose": 1, "nails": 8}; !reflect.DeepEqual(took, want) {
		t.Errorf("minutes %v, want %v", took, want)
	}
}
