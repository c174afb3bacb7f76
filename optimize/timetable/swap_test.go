package timetable_test

import (
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
	"tuckup/optimize/timetable"
)

// place is what is said of Sorrel's session and a day of the handler's.
func place(t *testing.T, r planned.Result, day int) timetable.Place {
	t.Helper()
	for _, p := range timetable.Places(r, sorrels(r)) {
		if p.On == made.Monday.AddDays(day) && p.Hands == "Handler" {
			return p
		}
	}
	t.Fatalf("nothing is said of day %d", day)
	return timetable.Place{}
}

// Wednesday is full with Moss. Moss can go to Monday, and Sorrel then fits Wednesday.
func TestTwoSessionsOfFullDaysChangePlaces(t *testing.T) {
	r := laidOut()
	p := place(t, r, 2)
	if !p.Full || len(p.Swaps) != 1 || p.Swaps[0].With.Dog != "Moss" || !p.Room {
		t.Fatalf("Wednesday: %+v", p)
	}
	after := timetable.Swapped(r, sorrels(r), p, p.Swaps[0])
	monday, wednesday := after.Timetable.Days[0].Sessions(), after.Timetable.Days[2].Sessions()
	if len(monday) != 1 || monday[0].Dog != "Moss" || monday[0].Pinned || monday[0].Minutes() != 40 {
		t.Errorf("on Monday: %+v", monday)
	}
	if len(wednesday) != 1 || wednesday[0].Dog != "Sorrel" || !wednesday[0].Pinned || wednesday[0].Minutes() != 50 {
		t.Errorf("on Wednesday: %+v", wednesday)
	}
	if r.Timetable.Days[0].Sessions()[0].Dog != "Sorrel" || r.Timetable.Days[2].Sessions()[0].Dog != "Moss" {
		t.Error("the plan before has changed")
	}
}

// A session that a break cuts, at the same hour as the one it changes places with, is moved whole.
func TestASessionThatABreakCutsChangesPlacesWhole(t *testing.T) {
	r := laidOut()
	r.Kennel.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{1.75, 1.75, 1.75, 1.75}
	ribs := planned.AreaWork{Area: kennel.AreaRibs, Share: 0.1, Minutes: 15, Work: kennel.SkillJacket}
	h := &r.Timetable.Days[0].Hands[0]
	h.Items = append(h.Items,
		planned.Item{Kind: planned.ItemBreak, Start: 590, End: 600},
		planned.Item{Kind: planned.ItemSession, Dog: "Sorrel", Start: 600, End: 615, Areas: []planned.AreaWork{ribs}})
	p := place(t, r, 2)
	if len(p.Swaps) != 1 {
		t.Fatalf("Wednesday: %+v", p)
	}
	after := timetable.Swapped(r, sorrels(r), p, p.Swaps[0])
	monday, wednesday := after.Timetable.Days[0].Sessions(), after.Timetable.Days[2].Sessions()
	if len(monday) != 1 || monday[0].Dog != "Moss" || len(wednesday) != 1 || wednesday[0].Minutes() != 65 {
		t.Errorf("on Monday %+v, on Wednesday %+v", monday, wednesday)
	}
}

// Each thing that stands against changing places, or against making room, does so by itself.
func TestWhatCannotChangePlaces(t *testing.T) {
	for _, c := range []struct {
		name  string
		edit  func(*planned.Result)
		swaps int
		room  bool
	}{
		{"nothing", func(*planned.Result) {}, 1, true},
		{"the other is pinned", func(r *planned.Result) { r.Timetable.Days[2].Hands[0].Items[0].Pinned = true }, 0, false},
		{"the other may not come back", func(r *planned.Result) { r.Kennel.Dogs[1].Here = []kennel.Span{{From: made.Monday + 1}} }, 0, true},
		{"the day is shorter than the session", func(r *planned.Result) { r.Kennel.Hands[0].Hours[2] = 0.7 }, 0, false},
	} {
		r := laidOut()
		c.edit(&r)
		p := place(t, r, 2)
		if !p.Full || len(p.Swaps) != c.swaps || p.Room != c.room {
			t.Errorf("%s: full %v, %d swaps, room %v: %s", c.name, p.Full, len(p.Swaps), p.Room, p.Why)
		}
	}
	r := laidOut()
	r.Kennel.Hands[0].Hours[4] = 0
	if p := place(t, r, 4); p.Full || p.Room || len(p.Swaps) != 0 {
		t.Errorf("nobody works, and yet: %+v", p)
	}
}

// Where the hours end, it is not the hands that are said to be tired.
func TestAFullDayIsSaidToBeFullOfHours(t *testing.T) {
	r := laidOut()
	r.Kennel.Hands[0].Hours[2], r.Kennel.Hands[0].StripHoursADay = 1, 3
	if p := place(t, r, 2); p.Why != "70 min of pulling that day, and Handler has 60 min" {
		t.Errorf("said is %q", p.Why)
	}
	r.Kennel.Hands[0].Hours[2], r.Kennel.Hands[0].StripHoursADay = 3, 1
	if p := place(t, r, 2); !strings.Contains(p.Why, "good for the hands") {
		t.Errorf("said is %q", p.Why)
	}
}

// A session may go right beside a duty: nobody rests from nails. Beside another session hands rest.
func TestASessionMayGoRightBesideADuty(t *testing.T) {
	r := laidOut()
	r.Timetable.Days[1].Hands[0].Items = []planned.Item{{Kind: planned.ItemDuty, Dog: "Moss", What: "nails", Start: 540, End: 580}}
	if p := place(t, r, 1); p.Why != "" || p.Start != 580 {
		t.Errorf("beside a duty: %q at %s", p.Why, p.Start)
	}
	back := []planned.AreaWork{{Area: kennel.AreaBack, Share: 0.1, Minutes: 30, Work: kennel.SkillJacket}}
	r.Timetable.Days[1].Hands[0].Items = []planned.Item{{Kind: planned.ItemSession, Dog: "Moss", SetUp: 10, Areas: back, Start: 540, End: 580}}
	if p := place(t, r, 1); p.Why != "40 min are free together, it takes 50" {
		t.Errorf("beside a session: %q at %s", p.Why, p.Start)
	}
}
