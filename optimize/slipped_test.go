package optimize

import (
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// weekDoneBut is the kennel on the Monday after a plan's first week, with all of that week done but one area of a dog, and the plan to
// begin with; done is all that was done before, and since.
func weekDoneBut(k kennel.Kennel, r Result, done []kennel.Work, dog string, area kennel.AreaName) (kennel.Kennel, []kennel.Work, Options) {
	monday := r.Week0.AddDays(kennel.DaysAWeek)
	k.Dogs = slices.Clone(k.Dogs)
	for _, day := range r.Timetable.Days {
		if day.On >= monday {
			break
		}
		for _, s := range day.Sessions() {
			w := kennel.Work{Dog: s.Dog, On: day.On, Hands: s.At.Hands, Minutes: s.Minutes()}
			for _, a := range s.Areas {
				if s.Dog != dog || a.Area != area {
					w.Areas = append(w.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
				}
			}
			done = append(done, w)
			for d := range k.Dogs {
				if k.Dogs[d].Name == s.Dog {
					k.Dogs[d] = k.Dogs[d].Worked(r.Patterns[k.Dogs[d].Pattern], w)
				}
			}
		}
	}
	opt := DefaultOptions()
	opt.On, k.PlanFrom = monday, monday
	opt.Begin, opt.Done = &r, done
	return k, done, opt
}

// sessionOf is the first session of a dog on a plan's days.
func sessionOf(t *testing.T, r Result, dog string) planned.SessionIn {
	t.Helper()
	for _, day := range r.Timetable.Days {
		for _, s := range day.Sessions() {
			if s.Dog == dog {
				return s
			}
		}
	}
	t.Fatalf("no session of %s", dog)
	return planned.SessionIn{}
}

// whyOf is what the days say that a session is for.
func whyOf(r Result, s planned.SessionIn) string {
	for _, day := range r.Timetable.Days {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				if day.On == s.At.On && h.Hands == s.At.Hands && i.Start == s.At.Start {
					return i.Why
				}
			}
		}
	}
	return ""
}

// An area that was left out in two weeks running is the first of the third: of the first session of its dog, and its session of the
// week's. Left out once it comes in its turn, and done in between as well.
func TestAnAreaLeftOutTwiceRunningGoesFirst(t *testing.T) {
	const left = kennel.AreaWithers
	for name, c := range map[string]struct {
		but   []kennel.AreaName // by week
		weeks int
	}{
		"never": {[]kennel.AreaName{"", ""}, 0}, "once": {[]kennel.AreaName{"", left}, 1}, "done between": {[]kennel.AreaName{left, "", left}, 1},
		"twice": {[]kennel.AreaName{left, left}, 2}, "three times": {[]kennel.AreaName{left, left, left}, 3},
	} {
		k := kennel.Kennel{
			PlanFrom: made.Monday, Weeks: 14, Hands: []kennel.Hands{made.Ample()},
			Dogs:  []kennel.Dog{made.EvenDog("Sorrel", "rough", 9), made.EvenDog("Moss", "rough", 9)},
			Shows: []kennel.Show{made.ShowOn("Yarrowmead", 89, "Moss", "Sorrel")},
		}
		var done []kennel.Work
		r := planOf(t, k)
		for _, area := range c.but {
			var opt Options
			k, done, opt = weekDoneBut(k, r, done, "Moss", area)
			r = planWith(t, k, func(o *Options) { *o = opt })
		}
		weeks := 0
		for _, s := range r.Slipped {
			if s.Dog != "Moss" || s.Area != left {
				t.Errorf("%s: %+v slipped as well", name, s)
			}
			weeks = s.Weeks
		}
		s := sessionOf(t, r, "Moss")
		if n := slices.IndexFunc(s.Areas, func(a AreaWork) bool { return a.Area == left }); n < 0 {
			t.Fatalf("%s: the area is not worked in the first session: %+v", name, s)
		} else if weeks != c.weeks || n == 0 != (c.weeks >= 2) {
			t.Errorf("%s: left out %d weeks running, it is number %d of %+v", name, weeks, n+1, s.Areas)
		}
		why := whyOf(r, s)
		said := strings.Contains(why, "; withers first, left out ")
		earlier := s.At.On < sessionOf(t, r, "Sorrel").At.On || s.At.Start < sessionOf(t, r, "Sorrel").At.Start
		if said != (c.weeks >= 2) || said && !earlier {
			t.Errorf("%s: %q, before the other dog: %v", name, why, earlier)
		}
	}
}

// What the days left out of a plan counts like what was not done, and a look that finds nothing to take leaves nothing undone.
func TestWhatTheDaysLeaveOutSlips(t *testing.T) {
	monday := made.Monday
	r := Result{
		On: monday, Week0: monday, Options: DefaultOptions(), Slipped: []planned.Slipped{{Dog: "Moss", Area: kennel.AreaRibs, Weeks: 1}, {Dog: "Moss", Area: kennel.AreaEars, Weeks: 4}},
		Timetable: Timetable{
			Days: []Day{{On: monday, Hands: []HandsDay{{Hands: "Handler", Items: []Item{{
				Start: 540, End: 570, Kind: ItemSession, Dog: "Moss", Areas: []AreaWork{{Area: kennel.AreaRibs, Share: 0.1, Minutes: 20}, {Area: kennel.AreaBack, Share: 0.1, Minutes: 20}},
			}}}}}},
			LeftOut: []LeftOut{{Week: monday, Dog: "Moss", Area: kennel.AreaRibs, Share: 0.2, Minutes: 40}, {Week: monday, Dog: "Moss", Area: kennel.AreaNeck, Share: 0.01, Crumb: true}},
		},
	}
	pulled := func(share kennel.Share, looks ...kennel.Look) []kennel.Work {
		return []kennel.Work{{Dog: "Moss", On: monday, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: share}, {Area: kennel.AreaBack, Share: 0.1}}, Looks: looks}}
	}
	for name, c := range map[string]struct {
		done []kennel.Work
		on   kennel.Date
		want []planned.Slipped
	}{
		"what was on the days is done": {pulled(0.1), monday + 7, []planned.Slipped{{Dog: "Moss", Area: kennel.AreaRibs, Weeks: 2}}},
		"more is done":                 {pulled(0.2), monday + 7, nil},
		"nothing is done":              {nil, monday + 7, []planned.Slipped{{Dog: "Moss", Area: kennel.AreaBack, Weeks: 1}, {Dog: "Moss", Area: kennel.AreaRibs, Weeks: 2}}},
		"there was nothing to take":    {pulled(0, kennel.Look{Area: kennel.AreaRibs, Long: kennel.LongNone}), monday + 7, nil},
		"the same week":                {nil, monday, []planned.Slipped{{Dog: "Moss", Area: kennel.AreaEars, Weeks: 4}, {Dog: "Moss", Area: kennel.AreaRibs, Weeks: 1}}},
		"a week without a plan":        {nil, monday + 14, nil},
	} {
		if got := r.SlippedBy(c.on, c.done); !slices.Equal(got, c.want) {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}
