package optimize

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// stay is an item with where it stands.
type stay struct {
	Item
	on    kennel.Date
	hands string
}

func stays(t Timetable, kinds ...ItemKind) (all []stay) {
	for _, d := range t.Days {
		for _, h := range d.Hands {
			for _, it := range h.Items {
				for _, k := range kinds {
					if it.Kind == k {
						all = append(all, stay{it, d.On, h.Hands})
					}
				}
			}
		}
	}
	return all
}

func jacketIn(areas []AreaWork) bool {
	return slices.ContainsFunc(areas, func(a AreaWork) bool { return a.Work == kennel.SkillJacket })
}

// TestTimetablesOfRandomKennelsKeepTheRules checks the next days against the kennel and the weeks in words.
func TestTimetablesOfRandomKennelsKeepTheRules(t *testing.T) {
	var sessions, baths int
	rapid.Check(t, func(t *rapid.T) {
		k := made.Kennel().Draw(t, "kennel")
		if testing.Short() {
			k.Weeks = min(k.Weeks, 6) // the days laid out are the first fortnight's
		}
		opt := DefaultOptions()
		opt.Days = rapid.IntRange(1, 14).Draw(t, "days")
		r, err := Plan(context.Background(), k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(r.Timetable.Days); n < opt.Days || r.Timetable.Days[n-1].On.Weekday() != kennel.Sunday && n < len(r.Weeks)*kennel.DaysAWeek {
			t.Fatalf("%d days for %d, to %s", n, opt.Days, r.Timetable.Days[n-1].On)
		}
		theShareOfEachWeekIsPlaced(t, r)
		handsAndDogsAreInOnePlace(t, k, r)
		sessionsSuitTheDog(t, k, r)
		bathsAreOnlyWhereTheyMayBe(t, k, r)
		noLineIsACrumb(t, r)
		areasAreWholeAndRest(t, r)
		theJacketIsLeftAloneBeforeShows(t, k, r)
		sessions += len(stays(r.Timetable, ItemSession))
		baths += len(stays(r.Timetable, ItemBath))
	})
	if sessions == 0 || baths == 0 && !testing.Short() {
		t.Errorf("%d sessions and %d baths: nothing was tried", sessions, baths)
	}
}

// theShareOfEachWeekIsPlaced: a week promises what its days hold, and what they leave out is not in it.
func theShareOfEachWeekIsPlaced(t *rapid.T, r Result) {
	type place struct {
		week kennel.Date
		dog  string
		area kennel.AreaName
	}
	got, seen := map[place]float64{}, map[kennel.Date]bool{}
	for _, d := range r.Timetable.Days {
		seen[d.On.Monday()] = true
	}
	for _, s := range stays(r.Timetable, ItemSession) {
		for _, a := range s.Areas {
			got[place{s.on.Monday(), s.Dog, a.Area}] += float64(a.Share)
		}
	}
	for _, x := range r.Timetable.LeftOut {
		if x.Why == "" {
			t.Fatalf("%+v is left out and nobody says why", x)
		}
	}
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				if p := (place{w.Week, d.Dog, a.Area}); seen[w.Week] && math.Abs(got[p]-float64(a.Share)) > slack {
					t.Fatalf("%v: %v placed, %v in the week", p, got[p], a.Share)
				}
			}
		}
	}
}

func handsAndDogsAreInOnePlace(t *rapid.T, k kennel.Kennel, r Result) {
	all := stays(r.Timetable, ItemSession, ItemDuty, ItemBath, ItemBreak, ItemTravel)
	for i, a := range all {
		if a.Start >= a.End {
			t.Fatalf("%+v takes no time", a)
		}
		for _, b := range all[:i] {
			if a.on == b.on && (a.hands == b.hands || a.Dog != "" && a.Dog == b.Dog) && a.Start < b.End && b.Start < a.End && a.Kind != ItemTravel {
				t.Fatalf("%+v and %+v at one time", a, b)
			}
		}
		if a.Kind != ItemTravel {
			for h, pair := range k.Hands {
				if pair.Name == a.hands && !handsAtWork(k, h, a.on) {
					t.Fatalf("%s does not work on %s: %+v", a.hands, a.on, a)
				}
			}
		}
		if a.Dog != "" && !dogAtTable(k, dogNamed(k, a.Dog), a.on) {
			t.Fatalf("%s is not at the table on %s", a.Dog, a.on)
		}
	}
}

func sessionsSuitTheDog(t *rapid.T, k kennel.Kennel, r Result) {
	type dogDay struct {
		dog string
		on  kennel.Date
	}
	minutes, jackets := map[dogDay]float64{}, map[dogDay]bool{}
	for _, s := range stays(r.Timetable, ItemSession) {
		d := dogDay{s.Dog, s.on}
		minutes[d] += float64(s.SetUp + planned.Pulling(s.Areas))
		jackets[d] = jackets[d] || jacketIn(s.Areas)
	}
	for d, m := range minutes {
		dog := dogNamed(k, d.dog)
		longest := float64(dog.Table.Minutes)
		if dog.Puppy(d.on) {
			longest = min(longest, defaultPuppyTable)
		}
		if m > longest+slack {
			t.Fatalf("%s stands for %v minutes on %s, at most %v", d.dog, m, d.on, longest)
		}
		if jackets[d] && jackets[dogDay{d.dog, d.on + 1}] {
			t.Fatalf("%s has its jacket worked on %s and the day after", d.dog, d.on)
		}
	}
}

// noLineIsACrumb: nothing under 3 % and 3 minutes is a line of a week, a day or what was left out, but for a few hairs near a show.
func noLineIsACrumb(t *rapid.T, r Result) {
	line := func(where string, a AreaWork) {
		if !a.Few && float64(a.Share) < 0.03-slack && float64(a.Minutes) < 3-slack {
			t.Fatalf("%s: %s %v, %v min", where, a.Area, a.Share, a.Minutes)
		}
		if a.Few && float64(a.Share) > 0.03+slack {
			t.Fatalf("%s: %s %v are more than a few hairs", where, a.Area, a.Share)
		}
	}
	for _, w := range r.Weeks {
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				line("week of "+w.Week.String(), a)
			}
		}
	}
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, items := range [][]Item{h.Shown(), h.Whole()} {
				for _, i := range items {
					for _, a := range i.Areas {
						line(d.On.String(), a)
					}
				}
			}
		}
	}
	for _, x := range r.Timetable.Missed() {
		if x.Area != "" {
			line("left out of "+x.Week.String(), AreaWork{Area: x.Area, Share: x.Share, Minutes: x.Minutes})
		}
	}
}

// areasAreWholeAndRest: an area of a dog is in one session of a week and one line of it, and never worked on two days running.
func areasAreWholeAndRest(t *rapid.T, r Result) {
	type place struct {
		dog  string
		area kennel.AreaName
	}
	last, week := map[place]kennel.Date{}, map[place]kennel.Date{}
	for _, d := range r.Timetable.Days {
		today := map[place]bool{}
		for _, h := range d.Hands {
			for _, i := range h.Shown() {
				for _, a := range i.Areas {
					p := place{i.Dog, a.Area}
					switch {
					case today[p]:
						t.Fatalf("%v: two lines on %s", p, d.On)
					case week[p] == d.On.Monday():
						t.Fatalf("%v: on %s and on %s", p, last[p], d.On)
					case last[p] == d.On-1:
						t.Fatalf("%v: on %s and the day before", p, d.On)
					}
					today[p], week[p], last[p] = true, d.On.Monday(), d.On
				}
			}
		}
	}
}

// theJacketIsLeftAloneBeforeShows: on the last two days before a show, and on its own.
func theJacketIsLeftAloneBeforeShows(t *rapid.T, k kennel.Kennel, r Result) {
	for _, s := range stays(r.Timetable, ItemSession) {
		for _, show := range k.Shows {
			if show.Has(s.Dog) && show.On >= r.On && jacketIn(s.Areas) && s.on >= show.On-2 && s.on <= show.Last() && inHandFor(dogNamed(k, s.Dog), show) {
				t.Fatalf("%s has its jacket worked on %s, %s is on %s", s.Dog, s.on, show.Name, show.On)
			}
		}
	}
}

func bathsAreOnlyWhereTheyMayBe(t *rapid.T, k kennel.Kennel, r Result) {
	for _, b := range stays(r.Timetable, ItemBath) {
		dog := dogNamed(k, b.Dog)
		if dog.TextureOf(made.Patterns()[dog.Pattern]) != kennel.TextureHard {
			t.Fatalf("%s is no hard coat and has a lifting bath", b.Dog)
		}
		for _, s := range k.Shows {
			if days := int(s.On - b.on); s.Has(b.Dog) && days >= 0 && !inSpellAt(dog, s) {
				if days <= 14 {
					t.Fatalf("%s has a lifting bath %d days before %s", b.Dog, days, s.Name)
				}
				if days <= 21 && !strings.Contains(b.Why, "lie flat") {
					t.Fatalf("%s: %q does not warn of %s", b.Dog, b.Why, s.Name)
				}
			}
		}
		followed := false
		for _, s := range stays(r.Timetable, ItemSession) {
			followed = followed || s.Dog == b.Dog && s.on > b.on && s.on <= b.on+2
		}
		if !followed {
			t.Fatalf("%s has a lifting bath on %s and no session after it", b.Dog, b.on)
		}
	}
}

// oneBlownDog is a kennel with one dog that nothing was pulled of for more than half a year.
func oneBlownDog() kennel.Kennel {
	return kennel.Kennel{
		Name: "Fellside", PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{made.Ample()},
		Dogs: []kennel.Dog{made.EvenDog("Sorrel", "rough", 30)},
	}
}

func planWith(t *testing.T, k kennel.Kennel, change func(*Options)) Result {
	t.Helper()
	opt := DefaultOptions()
	change(&opt)
	r, err := Plan(context.Background(), k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// laidOnce is how the days are laid out before what they leave out is fed back to the season.
func laidOnce(t *testing.T, k kennel.Kennel, change func(*Options)) Timetable {
	t.Helper()
	opt := DefaultOptions()
	change(&opt)
	l, err := layOut(k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	solved, _, err := l.solve(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	x, err := l.lay(solved, nil)
	if err != nil {
		t.Fatal(err)
	}
	return x.table
}

func TestAPinnedSessionStaysWhereTheHandlerPutIt(t *testing.T) {
	pin := kennel.Session{
		Dog: "Sorrel", On: made.Monday.AddDays(3), Start: 11 * 60, Hands: "Handler", Pinned: true,
		Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.1}},
	}
	r := planWith(t, oneBlownDog(), func(o *Options) { o.Accepted = []kennel.Session{pin} })
	found := 0
	for _, s := range stays(r.Timetable, ItemSession) {
		if s.Pinned {
			found++
			if s.on != pin.On || s.Start != pin.Start || len(s.Areas) != 1 || math.Abs(float64(s.Areas[0].Share)-0.1) > slack {
				t.Errorf("pinned: %+v", s)
			}
		} else if s.on >= pin.On-1 && s.on <= pin.On+1 && jacketIn(s.Areas) {
			t.Errorf("a jacket session on %s beside the pinned one", s.on)
		}
	}
	if found != 1 {
		t.Errorf("%d pinned sessions", found)
	}
}

// Dead hair comes off at once in a session that the handler fixed too; what it pulls beyond the dead is living.
func TestAPinnedSessionOnDeadHairTakesAStripsMinutes(t *testing.T) {
	pinned := kennel.Session{
		Dog: "Sorrel", On: made.Monday.AddDays(3), Start: 11 * 60, Hands: "Handler", Pinned: true, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.2}},
	}
	for _, dead := range []kennel.Share{0.9, 0.1, 0.01} {
		k := oneBlownDog()
		k.Dogs[0].All = []kennel.Layer{{Share: dead, Pulled: made.Monday.AddDays(-7 * 60)}, {Share: 1 - dead, Pulled: made.Monday.AddDays(-7)}}
		r := planWith(t, k, func(o *Options) { o.Accepted, o.Pick = []kennel.Session{pinned}, 3 })
		var got kennel.Minutes
		for _, s := range stays(r.Timetable, ItemSession) {
			for _, a := range s.Areas {
				if s.on == pinned.On && a.Area == kennel.AreaRibs {
					got += a.Minutes
				}
			}
		}
		living := 0.2 - min(dead, 0.2)
		if want := kennel.Minutes(150 * (0.2 - living + 3*living)); math.Abs(float64(got-want)) > 1e-6 {
			t.Errorf("with %v dead, a fifth of the ribs takes %v minutes, should be %v", dead, got, want)
		}
	}
}

func TestASessionStaysOnTheDayOfTheSheetHandedOut(t *testing.T) {
	k := oneBlownDog()
	k.Dogs[0].Table.AWeek = 1
	first := stays(planWith(t, k, func(*Options) {}).Timetable, ItemSession)
	if len(first) == 0 {
		t.Fatal("no session")
	}
	day := made.Monday.AddDays(4)
	if first[0].on == day {
		day = made.Monday.AddDays(3)
	}
	kept := kennel.Session{Dog: "Sorrel", On: day, Hands: "Handler"}
	r := planWith(t, k, func(o *Options) { o.Accepted = []kennel.Session{kept} })
	for _, s := range stays(r.Timetable, ItemSession) {
		if s.on == day {
			return
		}
	}
	t.Errorf("no session on %s", day)
}

func TestWhatWasDoneTodayIsSpentAndTheJacketRests(t *testing.T) {
	done := kennel.Work{
		Dog: "Sorrel", On: made.Monday, Hands: "Handler", Minutes: 60, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.2}},
	}
	r := planWith(t, oneBlownDog(), func(o *Options) { o.Done = []kennel.Work{done} })
	for _, s := range stays(r.Timetable, ItemSession) {
		if s.on <= made.Monday+1 && jacketIn(s.Areas) {
			t.Errorf("the jacket was worked on %s and is again on %s", made.Monday, s.on)
		}
	}
}

func TestABathThatWouldNotLieFlatIsNotPlanned(t *testing.T) {
	for days, want := range map[int]bool{60: true, 12: false} {
		k := oneBlownDog()
		k.Dogs[0] = made.EvenDog("Sorrel", "rough", 20)
		k.Shows = []kennel.Show{made.ShowOn("Brackenmere", days, "Sorrel")}
		r := planWith(t, k, func(*Options) {})
		if got := len(stays(r.Timetable, ItemBath)) > 0; got != want {
			t.Errorf("show in %d days: bath %v, want %v", days, got, want)
		}
	}
}

func TestNoDaysAskedForIsNoTimetable(t *testing.T) {
	if r := planWith(t, oneBlownDog(), func(o *Options) { o.Days = 0 }); len(r.Timetable.Days) != 0 {
		t.Errorf("%d days", len(r.Timetable.Days))
	}
}

// shownIn is a kennel with one dog that is shown so many days after Monday, and hands that work on the days named.
func shownIn(days int, weekdays ...kennel.Weekday) kennel.Kennel {
	k := oneBlownDog()
	k.Shows = []kennel.Show{made.ShowOn("Brackenmere", days, "Sorrel")}
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{}
	for _, d := range weekdays {
		k.Hands[0].Hours[d] = 5
	}
	return k
}

func TestTheJacketIsDoneBeforeTheLastTwoDaysOrLeftOut(t *testing.T) {
	early := planWith(t, shownIn(5, kennel.Monday, kennel.Wednesday, kennel.Thursday, kennel.Friday), func(*Options) {})
	jackets := 0
	for _, s := range stays(early.Timetable, ItemSession) {
		if jacketIn(s.Areas) {
			jackets++
			if s.on >= made.Monday+3 && s.on <= made.Monday+5 {
				t.Errorf("the jacket is worked on %s", s.on)
			}
		}
	}
	if jackets == 0 {
		t.Error("no jacket session before the last two days")
	}
	late := planWith(t, shownIn(5, kennel.Friday), func(*Options) {})
	ears := false
	for _, s := range stays(late.Timetable, ItemSession) {
		if s.on == made.Monday+4 && jacketIn(s.Areas) {
			t.Errorf("the day before the show: %v", s.Areas)
		}
		ears = ears || s.on == made.Monday+4
	}
	if !ears {
		t.Error("the ears are not done the day before the show")
	}
}

func TestWhatAShowLeavesNoDayForSaysSo(t *testing.T) {
	done := kennel.Work{Dog: "Sorrel", On: made.Monday, Hands: "Handler", Minutes: 20, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.1}}}
	table := laidOnce(t, shownIn(5, kennel.Tuesday, kennel.Friday), func(o *Options) {
		o.On, o.FreeDays = made.Monday+1, 0 // on Tuesday the ribs rest, on Friday the jacket
		o.Done = []kennel.Work{done}
	})
	why := ""
	for _, x := range table.LeftOut {
		if x.Area == kennel.AreaRibs {
			why = x.Why
		}
	}
	if why != "the jacket is left alone on the last 2 days before Brackenmere" {
		t.Errorf("the ribs are left out because %q: %+v", why, table.LeftOut)
	}
}

func TestAnAreaRestsTheDayAfter(t *testing.T) {
	for _, area := range []kennel.AreaName{kennel.AreaEars, kennel.AreaRibs} {
		k := oneBlownDog()
		k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{0, 5}
		done := kennel.Work{Dog: "Sorrel", On: made.Monday, Hands: "Handler", Minutes: 20, Areas: []kennel.Pulled{{Area: area, Share: 0.1}}}
		table := laidOnce(t, k, func(o *Options) {
			o.On, o.FreeDays = made.Monday+1, 0
			o.Done = []kennel.Work{done}
		})
		worked := 0
		for _, s := range stays(table, ItemSession) {
			for _, a := range s.Areas {
				if worked++; s.on == made.Monday+1 && a.Area == area {
					t.Errorf("the %s are worked two days running", area)
				}
			}
		}
		why := ""
		for _, x := range table.LeftOut {
			if x.Area == area {
				why = x.Why
			}
		}
		if worked == 0 || why != "the same area is not worked on two days running" {
			t.Errorf("%d areas worked; the %s left out because %q", worked, area, why)
		}
	}
}

func TestDeadHairNeedsNoLiftingBath(t *testing.T) {
	for weeks, want := range map[int]bool{20: true, 40: false} {
		k := oneBlownDog()
		k.Dogs[0] = made.EvenDog("Sorrel", "rough", weeks)
		r := planWith(t, k, func(*Options) {})
		if got := len(stays(r.Timetable, ItemBath)) > 0; got != want {
			t.Errorf("hair of %d weeks: bath %v, want %v", weeks, got, want)
		}
	}
}

func TestThePlanAndTheDaysSayTheSameOfLifting(t *testing.T) {
	for _, weeks := range []int{20, 40} {
		k := oneBlownDog()
		k.Dogs[0] = made.EvenDog("Sorrel", "rough", weeks)
		r := planWith(t, k, func(*Options) {})
		sessions := stays(r.Timetable, ItemSession)
		if len(sessions) == 0 {
			t.Fatal("no session")
		}
		if got := r.Weeks[0].Dogs[0].Lift; got != sessions[0].Lift {
			t.Errorf("hair of %d weeks: the plan says %q, the days %q", weeks, got, sessions[0].Lift)
		}
	}
}

// assisted is a kennel with one dog that has its nails and its legs and beard done, a handler with ample hours and a helper who
// works on Tuesdays and Thursdays and does so much.
func assisted(does ...kennel.Skill) kennel.Kennel {
	k := oneBlownDog()
	k.Dogs[0].Duties = []kennel.Duty{{Name: "nails", Minutes: 10, Every: 1}, {Name: "legs and beard", Minutes: 20, Every: 1}}
	k.Hands = append(k.Hands, kennel.Hands{Name: "Helper", Hours: [kennel.DaysAWeek]kennel.Hours{0, 2, 0, 2}, Does: does})
	return k
}

func TestTheHelperDoesWhatTheHelperMayDo(t *testing.T) {
	for _, c := range []struct {
		does []kennel.Skill
		want map[string]string
	}{
		{[]kennel.Skill{kennel.SkillFurnishings}, map[string]string{"nails": "Handler", "legs and beard": "Helper"}},
		{[]kennel.Skill{kennel.SkillFurnishings, kennel.SkillDuties}, map[string]string{"nails": "Helper", "legs and beard": "Helper"}},
		{[]kennel.Skill{kennel.SkillDuties}, map[string]string{"nails": "Helper", "legs and beard": "Helper"}},
		{[]kennel.Skill{kennel.SkillClose}, map[string]string{"nails": "Handler", "legs and beard": "Handler"}},
	} {
		r := planWith(t, assisted(c.does...), func(*Options) {})
		found := 0
		for _, d := range stays(r.Timetable, ItemDuty) {
			if found++; d.hands != c.want[d.What] {
				t.Errorf("the helper does %v: %s is done by %s", c.does, d.What, d.hands)
			}
		}
		if found != 2 {
			t.Errorf("the helper does %v: %d duties", c.does, found)
		}
		given := map[string]map[kennel.Skill]kennel.Minutes{}
		for _, h := range r.Weeks[0].Hands {
			given[h.Hands] = map[kennel.Skill]kennel.Minutes{}
			for _, g := range h.Given {
				given[h.Hands][g.Work] = g.Minutes
			}
		}
		if nails, care := given[c.want["nails"]][kennel.SkillDuties], given[c.want["legs and beard"]][Care]; nails != 10 || care != 20 {
			t.Errorf("the helper does %v: the week gives %v", c.does, given)
		}
	}
}

func TestTheHelperWorksTheAreasThatTheHelperMayWork(t *testing.T) {
	k := assisted(kennel.SkillClose)
	k.Dogs[0].Duties = nil
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{0, 3}
	ears := ""
	for _, s := range stays(planWith(t, k, func(*Options) {}).Timetable, ItemSession) {
		for _, a := range s.Areas {
			if a.Area == kennel.AreaEars {
				ears = s.hands
			}
		}
	}
	if ears != "Helper" {
		t.Errorf("the ears are worked by %q", ears)
	}
}

func TestALongDayOfWorkHasAMeal(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := oneBlownDog()
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{8}
	k.Hands[0].StripHoursADay = 8
	for i, name := range []string{"Moss", "Bracken", "Juniper", "Larch", "Rowan", "Hazel", "Tansy", "Ember"} {
		k.Dogs = append(k.Dogs, made.EvenDog(name, "rough", 20+i))
	}
	r := planWith(t, k, func(*Options) {})
	var meal, late, early bool
	for _, s := range stays(r.Timetable, ItemSession, ItemBreak) {
		switch from, to := kennel.Clock(12*60+45), kennel.Clock(13*60+15); {
		case s.Kind == ItemBreak && s.Start == from && s.End == to:
			meal = true
		case s.Start < to && s.End > from:
			t.Errorf("%s to %s runs into the meal", s.Start, s.End)
		case s.Kind == ItemSession && s.End <= from:
			early = true
		case s.Kind == ItemSession:
			late = true
		}
		if s.End > 17*60 {
			t.Errorf("%s to %s is past the end of the day", s.Start, s.End)
		}
	}
	if !meal || !early || !late {
		t.Errorf("meal %v, work before it %v, after it %v", meal, early, late)
	}
}

func TestNoWorkIsPlannedLateInTheEvening(t *testing.T) {
	r := planWith(t, oneBlownDog(), func(o *Options) { o.DayStart = 20 })
	sessions := stays(r.Timetable, ItemSession)
	for _, s := range sessions {
		if s.End > 21*60 {
			t.Errorf("%s to %s", s.Start, s.End)
		}
	}
	if len(sessions) == 0 {
		t.Error("no session")
	}
}
