package timetable_test

import (
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
	"tuckup/optimize/timetable"
)

// laidOut is a plan whose timetable was laid by hand: Sorrel's jacket on Monday at nine, Moss on Wednesday, an hour and a
// half of each day there, three days of it the assistant's too.
func laidOut() planned.Result {
	k := kennel.Kennel{
		Weeks: 8,
		Hands: []kennel.Hands{
			{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{1.5, 1.5, 1.5, 1.5}, Away: []kennel.Span{{From: made.Monday + 3, To: made.Monday + 3}}},
			{Name: "Assistant", Hours: [kennel.DaysAWeek]kennel.Hours{1, 1, 1}, Does: []kennel.Skill{kennel.SkillFurnishings, kennel.SkillDuties}},
		},
		Dogs: []kennel.Dog{made.EvenDog("Sorrel", "wiry", 11), made.EvenDog("Moss", "rough", 8)},
	}
	opt := optimize.DefaultOptions()
	opt.On = made.Monday
	session := func(dog string, minutes kennel.Minutes) planned.Item {
		return planned.Item{
			Kind: planned.ItemSession, Dog: dog, Start: 9 * 60, End: 9*60 + kennel.Clock(minutes) + 10, SetUp: 10,
			Areas: []planned.AreaWork{{Area: kennel.AreaBack, Share: 0.2, Minutes: minutes, Work: kennel.SkillJacket}},
		}
	}
	day := func(n int, items ...planned.Item) planned.Day {
		d := planned.Day{On: made.Monday.AddDays(n)}
		if n < 3 {
			d.Hands = []planned.HandsDay{{Hands: "Handler", Hours: 1.5, Items: items}, {Hands: "Assistant", Hours: 1}}
		}
		return d
	}
	return planned.Result{
		Kennel: k, Patterns: made.Patterns(), Options: opt, On: made.Monday, Week0: made.Monday, Weeks: make([]planned.Week, 8),
		Timetable: planned.Timetable{Days: []planned.Day{day(0, session("Sorrel", 40)), day(1), day(2, session("Moss", 30)), day(3), day(4)}},
	}
}

func sorrels(r planned.Result) planned.SessionIn { return r.Timetable.Days[0].Sessions()[0] }

// why is what is said against a session's place.
func why(t *testing.T, r planned.Result, day int, hands string) string {
	t.Helper()
	for _, p := range timetable.Places(r, sorrels(r)) {
		if p.On == made.Monday.AddDays(day) && p.Hands == hands {
			return p.Why
		}
	}
	t.Fatalf("nothing is said of day %d and %s", day, hands)
	return ""
}

func TestASessionMayGoToADayThatHoldsIt(t *testing.T) {
	r := laidOut()
	for _, p := range timetable.Places(r, sorrels(r)) {
		if p.On == made.Monday+1 && p.Hands == "Handler" && (p.Why != "" || p.Start != 9*60) {
			t.Errorf("Tuesday at nine is free, said is %q at %s", p.Why, p.Start)
		}
	}
	moved := timetable.Moved(r, sorrels(r), timetable.Place{On: made.Monday + 1, Hands: "Handler", Start: 9 * 60})
	if len(moved.Timetable.Days[0].Hands[0].Items) != 0 {
		t.Error("it is still on Monday")
	}
	s := moved.Timetable.Days[1].Sessions()
	if len(s) != 1 || s[0].Dog != "Sorrel" || !s[0].Pinned || s[0].Minutes() != 50 || s[0].End != 9*60+50 {
		t.Errorf("on Tuesday: %+v", s)
	}
	if len(r.Timetable.Days[0].Hands[0].Items) != 1 || len(r.Timetable.Days[1].Hands[0].Items) != 0 {
		t.Error("the plan that it was moved from has changed")
	}
}

func TestEachLimitStandsAgainstAPlaceByItself(t *testing.T) {
	for _, c := range []struct {
		name  string
		day   int
		hands string
		edit  func(*planned.Result)
		want  string
	}{
		{"the hands don't work", 4, "Handler", func(*planned.Result) {}, "Handler does not work"},
		{"the hands are away", 3, "Handler", func(*planned.Result) {}, "Handler does not work"},
		{"the hands are not let near", 1, "Assistant", func(*planned.Result) {}, "starts no session"},
		{"the dog is out of hand", 1, "Handler", func(r *planned.Result) { r.Kennel.Dogs[0].Here = []kennel.Span{{To: made.Monday}} }, "Sorrel is not in hand"},
		{"the dog travels", 1, "Handler", func(r *planned.Result) {
			r.Kennel.Hands[0], r.Kennel.Hands[1] = r.Kennel.Hands[1], r.Kennel.Hands[0]
			r.Kennel.Shows = []kennel.Show{made.ShowOn("Brackenmere", 1, "Sorrel")}
		}, "Sorrel is travelling"},
		{"a jacket session the day after", 1, "Handler", func(r *planned.Result) {
			r.Timetable.Days[2].Hands[0].Items[0].Dog = "Sorrel"
		}, "the jacket of Sorrel is worked on Wednesday"},
		{"a session of the same day", 2, "Handler", func(r *planned.Result) {
			r.Timetable.Days[2].Hands[0].Items[0].Dog = "Sorrel"
		}, "has a session on that day"},
		{"a jacket session done yesterday", 2, "Handler", func(r *planned.Result) {
			r.Options.Done = []kennel.Work{{Dog: "Sorrel", On: made.Monday + 1, Minutes: 30, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.1}}}}
		}, "the jacket of Sorrel is worked on Tuesday"},
		{"as many sessions as it can take", 1, "Handler", func(r *planned.Result) {
			r.Kennel.Dogs[0].Table.AWeek = 1
			r.Options.Done = []kennel.Work{{Dog: "Sorrel", On: made.Monday + 4, Minutes: 30}}
		}, "can take one session a week"},
		{"hand load", 2, "Handler", func(r *planned.Result) { r.Kennel.Hands[0].StripHoursADay = 1 }, "70 min of pulling that day, at most 60"},
		{"no time left", 2, "Handler", func(*planned.Result) {}, "it takes 50"},
		{"the dog is with others", 1, "Handler", func(r *planned.Result) {
			r.Timetable.Days[1].Hands[1].Items = []planned.Item{{Kind: planned.ItemDuty, Dog: "Sorrel", What: "nails", Start: 9*60 + 30, End: 9*60 + 45}}
		}, "min are free together"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := laidOut()
			c.edit(&r)
			if got := why(t, r, c.day, c.hands); !strings.Contains(got, c.want) {
				t.Errorf("said is %q, want %q", got, c.want)
			}
		})
	}
}

func TestASessionThatBreaksCutIsOneSession(t *testing.T) {
	r := laidOut()
	back := planned.AreaWork{Area: kennel.AreaBack, Share: 0.2, Minutes: 40, Work: kennel.SkillJacket}
	ribs := planned.AreaWork{Area: kennel.AreaRibs, Share: 0.1, Minutes: 10, Work: kennel.SkillJacket}
	r.Timetable.Days[0].Hands[0].Items = []planned.Item{
		{Kind: planned.ItemSession, Dog: "Sorrel", Start: 540, End: 600, SetUp: 10, Areas: []planned.AreaWork{back, ribs}},
		{Kind: planned.ItemBreak, Start: 600, End: 610},
		{Kind: planned.ItemSession, Dog: "Sorrel", Start: 610, End: 620, Areas: []planned.AreaWork{ribs}},
		{Kind: planned.ItemSession, Dog: "Moss", Start: 620, End: 650, SetUp: 10, Areas: []planned.AreaWork{back}},
	}
	all := r.Timetable.Days[0].Sessions()
	if len(all) != 2 || all[0].Minutes() != 70 || all[0].End != 620 || len(all[0].Areas) != 2 || all[0].Areas[1].Share != 0.2 {
		t.Fatalf("sessions: %+v", all)
	}
	if ahead := r.SessionsAhead(); len(ahead) != 3 || ahead[0].Minutes != 80 || len(ahead[0].Areas) != 2 {
		t.Errorf("agreed on would be: %+v", ahead)
	}
	moved := timetable.Moved(r, all[0], timetable.Place{On: made.Monday + 1, Hands: "Handler", Start: 540})
	left := moved.Timetable.Days[0].Hands[0].Items
	if !slices.EqualFunc(left, []string{"Moss"}, func(i planned.Item, dog string) bool { return i.Dog == dog }) {
		t.Errorf("on Monday is left: %+v", left)
	}
}

// What the list of places allows, a plan keeps: pinned there, nothing is said against it by the check of plans.
func TestWhatIsAllowedCanBePlanned(t *testing.T) {
	k := made.TwoShown()
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{1.5, 1.5, 1.5, 1.5, 1.5}
	r, err := optimize.Plan(t.Context(), k, made.Patterns(), optimize.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, d := range r.Timetable.Days {
		for _, s := range d.Sessions() {
			for _, p := range timetable.Places(r, s) {
				if p.Why != "" || p.On == s.At.On || tried >= 4 {
					continue
				}
				tried++
				pinned := kennel.Session{Dog: s.Dog, On: p.On, Start: p.Start, Minutes: s.Minutes(), Hands: p.Hands, Pinned: true}
				for _, a := range s.Areas {
					pinned.Areas = append(pinned.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
				}
				opt := optimize.DefaultOptions()
				opt.On, opt.Accepted, opt.Begin = k.PlanFrom, []kennel.Session{pinned}, &r
				after, err := optimize.Plan(t.Context(), k, made.Patterns(), opt)
				if err != nil {
					t.Fatal(err)
				}
				if x, ok := after.Timetable.SessionAt(s.Dog, planned.SessionAt{On: p.On, Start: p.Start, Hands: p.Hands}); !ok || !x.Pinned {
					t.Errorf("%s on %s at %s is not kept", s.Dog, p.On, p.Start)
				}
				for _, wrong := range check.Plan(after).Differences {
					t.Errorf("%s pinned on %s: %+v", s.Dog, p.On, wrong)
				}
			}
		}
	}
	if tried == 0 {
		t.Error("no session could go anywhere")
	}
}

func TestASessionIsNotMovedToJustBeforeAShow(t *testing.T) {
	r := laidOut()
	for day, want := range map[int]string{4: "", 3: "the jacket is left alone on the last 2 days before Brackenmere"} {
		r.Kennel.Shows = []kennel.Show{made.ShowOn("Brackenmere", day, "Sorrel")}
		if got := why(t, r, 1, "Handler"); got != want {
			t.Errorf("show on day %d: %q, want %q", day, got, want)
		}
	}
}

func TestAnAreaIsNotMovedBesideItself(t *testing.T) {
	r := laidOut()
	r.Options.FreeDays = 0
	r.Options.Done = []kennel.Work{{Dog: "Sorrel", On: made.Monday + 2, Minutes: 30, Areas: []kennel.Pulled{{Area: kennel.AreaFurnishings, Share: 0.1}}}}
	if got := why(t, r, 1, "Handler"); got != "" {
		t.Errorf("another area: %q", got)
	}
	r.Options.Done[0].Areas[0].Area = kennel.AreaBack
	if got := why(t, r, 1, "Handler"); got != "the back of Sorrel is worked on Wednesday too" {
		t.Errorf("the same area: %q", got)
	}
}

func TestASessionMayStayWhereItIs(t *testing.T) {
	r := laidOut()
	h := &r.Timetable.Days[0].Hands[0] // a duty right after it, to the end of the day
	h.Items = append(h.Items, planned.Item{Kind: planned.ItemDuty, Dog: "Moss", What: "nails", Start: h.Items[0].End, End: h.Items[0].End + 10})
	if got := why(t, r, 0, "Handler"); got != "" {
		t.Errorf("%q", got)
	}
}
