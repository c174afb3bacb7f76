package hours

import (
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// dutyKennel is one dog with one duty and an assistant with an hour on Mondays, over eight weeks.
func dutyKennel(duty kennel.Duty) (kennel.Kennel, Diary) {
	k := kennel.Kennel{
		Hands: []kennel.Hands{
			{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{5}, Does: []kennel.Skill{kennel.SkillJacket}},
			{Name: "Assistant", Hours: [kennel.DaysAWeek]kennel.Hours{1}, Does: []kennel.Skill{kennel.SkillDuties}},
		},
		Dogs: []kennel.Dog{{Name: "Sorrel", Duties: []kennel.Duty{duty}}},
	}
	return k, dutyDiary(k)
}

func dutyDiary(k kennel.Kennel) Diary {
	return NewDiary(k, planned.Options{On: made.Monday, StripHours: 4}, 8)
}

// placeAll places the duties of dogs without patterns.
func placeAll(k kennel.Kennel, d Diary, done []kennel.Work) ([]Duty, []planned.Cannot) {
	p := PlaceDuties(k, nil, d, done)
	return p.Duties, p.Cannot
}

func weeksOf(placed []Duty) (weeks []int) {
	for _, p := range placed {
		weeks = append(weeks, p.Week)
	}
	return weeks
}

func TestRegularDutiesSpreadOverTheWeeks(t *testing.T) {
	k, _ := dutyKennel(kennel.Duty{Name: "nails", Minutes: 30, Every: 2})
	k.Dogs = append(k.Dogs, kennel.Dog{Name: "Moss", Duties: k.Dogs[0].Duties})
	placed, cannot := placeAll(k, dutyDiary(k), nil)
	perWeek := map[int]int{}
	for _, p := range placed {
		perWeek[p.Week]++
	}
	for week := range 8 {
		if perWeek[week] != 1 {
			t.Errorf("%d duties in week %d, want 1: %+v", perWeek[week], week, placed)
		}
	}
	if len(cannot) != 0 || placed[0].Why != "every 2 weeks" {
		t.Errorf("%+v, %+v", placed, cannot)
	}
}

func TestRegularDutyWaitsForTheNextWeekWithTime(t *testing.T) {
	k, _ := dutyKennel(kennel.Duty{Name: "nails", Minutes: 30, Every: 4})
	k.Hands[1].Away = []kennel.Span{{From: made.Monday, To: made.Monday.AddDays(7*3 - 1)}, {From: made.Monday.AddDays(7 * 4), To: made.Monday.AddDays(7*7 - 1)}}
	placed, cannot := placeAll(k, dutyDiary(k), nil)
	if got := weeksOf(placed); !reflect.DeepEqual(got, []int{3, 7}) || len(cannot) != 0 {
		t.Errorf("weeks %v, %+v; want 3 and 7", got, cannot)
	}
}

func TestDutyLongerThanTheHoursIsReportedByName(t *testing.T) {
	k, d := dutyKennel(kennel.Duty{Name: "bath", Minutes: 61, Every: 4})
	placed, cannot := placeAll(k, d, nil)
	want := []planned.Cannot{{What: "bath of Sorrel", Why: "it takes 61 min at a time, and no day has more than 60 min for it (due 2 times, first in the week of 3 January)"}}
	if len(placed) != 0 || !reflect.DeepEqual(cannot, want) {
		t.Errorf("%+v, %+v", placed, cannot)
	}
}

func TestDutyIsNotOwedToADogThatIsNotInHand(t *testing.T) {
	k, _ := dutyKennel(kennel.Duty{Name: "nails", Minutes: 30, Every: 1})
	k.Dogs[0].Here = []kennel.Span{{From: made.Monday.AddDays(7 * 5)}}
	placed, cannot := placeAll(k, dutyDiary(k), nil)
	if got := weeksOf(placed); !reflect.DeepEqual(got, []int{5, 6, 7}) || len(cannot) != 0 {
		t.Errorf("weeks %v, %+v", got, cannot)
	}
}

func TestDutyForAShowTakesTheEmptiestWeekOfItsWindow(t *testing.T) {
	k, _ := dutyKennel(kennel.Duty{Name: "close trim", Minutes: 30, Before: &kennel.BeforeShow{From: 21, To: 7}})
	k.Hands[1].Away = []kennel.Span{{From: made.Monday.AddDays(7 * 2), To: made.Monday.AddDays(7*3 - 1)}}
	k.Shows = []kennel.Show{made.ShowOn("Brackenmere", 7*4+5, "Sorrel"), made.ShowOn("Dunmarrow", 7*6+5, "Sorrel")}
	placed, cannot := placeAll(k, dutyDiary(k), nil)
	if got := weeksOf(placed); !reflect.DeepEqual(got, []int{3, 4}) || len(cannot) != 0 {
		t.Errorf("weeks %v, %+v; want 3 for the first show and 4, which is then emptier, for the second", got, cannot)
	}
}

func TestDutyForAShowThatCantBeDone(t *testing.T) {
	for _, c := range []struct {
		name   string
		show   int // days from the Monday planned from
		window kennel.BeforeShow
		away   kennel.Span
		why    string
	}{
		{"window past, and no day left", 0, kennel.BeforeShow{From: 10, To: 7}, kennel.Span{}, "the days for it before Brackenmere ended on 27 December 2027, and none is left"},
		{"no assistant", 12, kennel.BeforeShow{From: 10, To: 4}, kennel.Span{From: made.Monday, To: made.Monday.AddDays(20)}, "no day has Sorrel and hands for it together (from 5 January to 11 January, before Brackenmere)"},
		{"only days on which nobody works", 5, kennel.BeforeShow{From: 3, To: 1}, kennel.Span{}, "no day has Sorrel and hands for it together (from 5 January to 7 January, before Brackenmere)"},
	} {
		k, _ := dutyKennel(kennel.Duty{Name: "close trim", Minutes: 30, Before: &c.window})
		k.Shows = []kennel.Show{made.ShowOn("Brackenmere", c.show, "Sorrel")}
		if c.away.From != 0 {
			k.Hands[1].Away = []kennel.Span{c.away}
		}
		placed, cannot := placeAll(k, dutyDiary(k), nil)
		if want := []planned.Cannot{{What: "close trim of Sorrel", Why: c.why}}; len(placed) != 0 || !reflect.DeepEqual(cannot, want) {
			t.Errorf("%s: %+v, %+v", c.name, placed, cannot)
		}
	}
}

// Late is better than never: up to the day before the show, on the first days that have time, and said.
func TestDutyForAShowIsDoneLateWhenItsDaysAreOver(t *testing.T) {
	for _, c := range []struct {
		name     string
		show     int // days from the Monday planned from
		window   kennel.BeforeShow
		away     kennel.Span
		from, to int // days from the Monday planned from
	}{
		{"over before today", 4, kennel.BeforeShow{From: 10, To: 7}, kennel.Span{}, 0, 3},
		{"nobody there on its days", 12, kennel.BeforeShow{From: 12, To: 6}, kennel.Span{From: made.Monday, To: made.Monday.AddDays(6)}, 7, 11},
	} {
		k, _ := dutyKennel(kennel.Duty{Name: "close trim", Minutes: 30, Before: &c.window})
		k.Shows = []kennel.Show{made.ShowOn("Brackenmere", c.show, "Sorrel")}
		if c.away.From != 0 {
			k.Hands[1].Away = []kennel.Span{c.away}
		}
		placed, cannot := placeAll(k, dutyDiary(k), nil)
		want := []Duty{{Week: c.from / 7, From: made.Monday.AddDays(c.from), To: made.Monday.AddDays(c.to), Shows: []int{0}, Late: true}}
		if !reflect.DeepEqual(placed, want) || len(cannot) != 0 {
			t.Errorf("%s: %+v, %+v", c.name, placed, cannot)
		}
	}
}

func TestDutyIsDueAgainWhenItsWeeksHavePassed(t *testing.T) {
	for _, c := range []struct {
		name string
		last int // days from Monday of week 0
		want []int
	}{
		{"done last week", -4, []int{2, 5}},
		{"done two weeks ago", -11, []int{1, 4, 7}},
		{"long overdue", -60, []int{0, 3, 6}},
		{"done today", 0, []int{3, 6}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k, d := dutyKennel(kennel.Duty{Name: "nails", Minutes: 10, Every: 3})
			done := []kennel.Work{
				{Dog: "Sorrel", Duty: "nails", On: made.Monday.AddDays(c.last), Minutes: 10},
				{Dog: "Sorrel", Duty: "nails", On: made.Monday.AddDays(c.last - 21), Minutes: 10},
				{Dog: "Moss", Duty: "nails", On: made.Monday, Minutes: 10},
				{Dog: "Sorrel", Duty: "bath", On: made.Monday, Minutes: 10},
			}
			placed, cannot := placeAll(k, d, done)
			if got := weeksOf(placed); !reflect.DeepEqual(got, c.want) || len(cannot) != 0 {
				t.Errorf("weeks %v, want %v; %+v", got, c.want, cannot)
			}
			k.Dogs[0].DutyDone(kennel.Pattern{}, "nails", made.Monday.AddDays(c.last)) // as a kennel file says it
			if got, _ := placeAll(k, d, nil); !reflect.DeepEqual(got, placed) {
				t.Errorf("by the file %+v, by the records %+v", got, placed)
			}
		})
	}
}

func TestDutyForAShowThatIsDoneIsNotDueAgain(t *testing.T) {
	k, d := dutyKennel(kennel.Duty{Name: "close trim", Minutes: 30, Before: &kennel.BeforeShow{From: 10, To: 7}})
	k.Shows = []kennel.Show{{Name: "Brackenmere", On: made.Monday.AddDays(8), Days: 1, Chance: 1, Dogs: []string{"Sorrel"}}}
	for _, c := range []struct{ on, placed int }{{-1, 0}, {-3, 1}} { // the days for it began two days before
		placed, cannot := placeAll(k, d, []kennel.Work{{Dog: "Sorrel", Duty: "close trim", On: made.Monday.AddDays(c.on), Minutes: 30}})
		if len(placed) != c.placed || len(cannot) != 0 {
			t.Errorf("done %d days before: %+v, %+v", -c.on, placed, cannot)
		}
		file := k
		file.Dogs = []kennel.Dog{k.Dogs[0]}
		file.Dogs[0].DutyDone(kennel.Pattern{}, "close trim", made.Monday.AddDays(c.on)) // as a kennel file says it
		if placed, cannot := placeAll(file, d, nil); len(placed) != c.placed || len(cannot) != 0 {
			t.Errorf("done %d days before, by the file: %+v, %+v", -c.on, placed, cannot)
		}
	}
}
