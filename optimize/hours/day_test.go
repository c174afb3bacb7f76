package hours

import (
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// dayOf is the diary of one pair of hands that is there for so many hours on Mondays, of days that begin at an hour.
func dayOf(there, begins kennel.Hours, done ...kennel.Work) Diary {
	monday := kennel.NewDate(2027, 3, 1)
	k := kennel.Kennel{Hands: []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{there}}}, Dogs: []kennel.Dog{{Name: "Moss"}}}
	return NewDiary(k, planned.Options{On: monday, StripHours: 4, DayStart: begins, Done: done}, 4)
}

func TestALongDayHasAMealInItsMiddle(t *testing.T) {
	for _, c := range []struct {
		there, spent kennel.Hours
		want         []Stretch
		work, free   float64
	}{
		{6, 0, []Stretch{{540, 900}}, 320, 360},
		{6.5, 0, []Stretch{{540, 720}, {750, 930}}, 320, 360},
		{8, 0, []Stretch{{540, 765}, {795, 1020}}, 410, 450},
		{8, 1, []Stretch{{600, 765}, {795, 1020}}, 350, 390},
		{8, 5, []Stretch{{840, 1020}}, 110, 150},
	} {
		var done []kennel.Work
		if c.spent > 0 {
			done = append(done, kennel.Work{Dog: "Moss", On: kennel.NewDate(2027, 3, 1), Hands: "Handler", Duty: "nails", Minutes: kennel.Minutes(60 * c.spent)})
		}
		d := dayOf(c.there, 9, done...)
		if got := d.Stretches(0, 0); !slices.Equal(got, c.want) {
			t.Errorf("%v h, %v worked: %v, want %v", c.there, c.spent, got, c.want)
		}
		if h := d.HandsIn(0)[0]; h.Work != c.work || h.Free != c.free || h.There != 60*float64(c.there) {
			t.Errorf("%v h, %v worked: %+v, want %v and %v", c.there, c.spent, h, c.work, c.free)
		}
		longest := 0.0
		for _, s := range c.want {
			longest = max(longest, s.To-s.From)
		}
		if got := d.Free(0, 0); float64(got) != longest {
			t.Errorf("%v h, %v worked: %v min in one piece, want %v", c.there, c.spent, got, longest)
		}
	}
}

func TestADayEndsByNineInTheEvening(t *testing.T) {
	for _, c := range []struct {
		there, begins kennel.Hours
		want          float64
	}{{4, 9, 540}, {4, 17, 1020}, {4, 18, 1020}, {1, 20, 1200}, {2.5, 20, 1110}, {24, 9, 0}} {
		if got := dayOf(c.there, c.begins).Begins(0, 0); got != c.want {
			t.Errorf("%v h from %v: begins at %v, want %v", c.there, c.begins, got, c.want)
		}
	}
}

func TestSessionsHaveFreeDaysBetween(t *testing.T) {
	monday := kennel.NewDate(2027, 3, 1)
	all := func(int) bool { return true }
	for _, c := range []struct {
		hours [kennel.DaysAWeek]kennel.Hours
		free  int
		done  []kennel.Date
		want  int
	}{
		{[kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, 1, nil, 3},
		{[kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, 0, nil, 5},
		{[kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, 2, nil, 2},
		{[kennel.DaysAWeek]kennel.Hours{1, 1}, 1, nil, 1},
		{[kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, 1, []kennel.Date{monday}, 2},
		{[kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, 0, []kennel.Date{monday}, 4},
	} {
		k := kennel.Kennel{Hands: []kennel.Hands{{Name: "Handler", Hours: c.hours}}, Dogs: []kennel.Dog{{Name: "Moss"}}}
		d := NewDiary(k, planned.Options{On: monday, StripHours: 4}, 4)
		if got := d.ApartDays(0, 0, c.free, c.done, all); got != c.want {
			t.Errorf("%v, %d free, done %v: %d sessions, want %d", c.hours, c.free, c.done, got, c.want)
		}
	}
}
