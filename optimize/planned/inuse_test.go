package planned_test

import (
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

var monday = kennel.NewDate(2027, 1, 4)

// week is a plan of three weeks, of which the first is laid out: Moss's ribs and back on Monday and Thursday, its ribs in the weeks after.
func week() planned.Result {
	work := func(area kennel.AreaName, share kennel.Share) planned.AreaWork {
		return planned.AreaWork{Area: area, Share: share, Minutes: kennel.Minutes(share) * 100}
	}
	r := planned.Result{On: monday, Week0: monday}
	r.Options.CrumbTime = 3
	for day := range 7 {
		d := planned.Day{On: monday.AddDays(day)}
		if day == 0 || day == 3 {
			d.Hands = []planned.HandsDay{{Hands: "Maeve", Items: []planned.Item{{
				Kind: planned.ItemSession, Dog: "Moss", Start: 540, End: 600, SetUp: 10, Areas: []planned.AreaWork{work(kennel.AreaRibs, 0.2), work(kennel.AreaBack, 0.1)},
			}}}}
		}
		r.Timetable.Days = append(r.Timetable.Days, d)
	}
	for n := range 3 {
		w := planned.Week{Week: monday.AddDays(7 * n)}
		w.Dogs = []planned.DogWeek{{Dog: "Moss", Areas: []planned.AreaWork{work(kennel.AreaRibs, 0.4), work(kennel.AreaBack, 0.2)}}}
		if n > 0 {
			w.Dogs[0].Areas = []planned.AreaWork{work(kennel.AreaRibs, 0.15)}
		}
		r.Weeks = append(r.Weeks, w)
	}
	return r
}

func pulled(on kennel.Date, areas ...kennel.Pulled) kennel.Work {
	return kennel.Work{Dog: "Moss", On: on, Minutes: 50, Areas: areas}
}

// seen is work before which the long layer of the ribs was seen so.
func seen(long kennel.LongSeen, w kennel.Work) kennel.Work {
	w.Looks = []kennel.Look{{Area: kennel.AreaRibs, Long: long}}
	return w
}

func TestWhatSlippedIsWhatWasPlannedAndNotDone(t *testing.T) {
	ribs, back := func(s kennel.Share) kennel.Pulled { return kennel.Pulled{Area: kennel.AreaRibs, Share: s} }, kennel.Pulled{Area: kennel.AreaBack, Share: 0.1}
	for name, c := range map[string]struct {
		on   kennel.Date
		done []kennel.Work
		want map[kennel.AreaName]int // minutes
	}{
		"nothing is behind on the first day":                {monday, nil, map[kennel.AreaName]int{}},
		"nothing was done on Monday":                        {monday + 1, nil, map[kennel.AreaName]int{kennel.AreaRibs: 20, kennel.AreaBack: 10}},
		"all was done":                                      {monday + 1, []kennel.Work{pulled(monday, ribs(0.2), back)}, map[kennel.AreaName]int{}},
		"less was done":                                     {monday + 1, []kennel.Work{pulled(monday, ribs(0.05), back)}, map[kennel.AreaName]int{kennel.AreaRibs: 15}},
		"none of it was long":                               {monday + 1, []kennel.Work{seen(kennel.LongNone, pulled(monday, back))}, map[kennel.AreaName]int{}},
		"thin as it was, half was taken":                    {monday + 1, []kennel.Work{seen(kennel.LongThin, pulled(monday, ribs(0.1), back))}, map[kennel.AreaName]int{}},
		"as expected, and left":                             {monday + 1, []kennel.Work{seen(kennel.LongExpected, pulled(monday, back))}, map[kennel.AreaName]int{kennel.AreaRibs: 20}},
		"a crumb is no matter":                              {monday + 1, []kennel.Work{pulled(monday, ribs(0.18), back)}, map[kennel.AreaName]int{}},
		"it was done a day later":                           {monday + 2, []kennel.Work{pulled(monday+1, ribs(0.2), back)}, map[kennel.AreaName]int{}},
		"done on Thursday, it counts for Thursday first":    {monday + 3, []kennel.Work{pulled(monday+3, ribs(0.2), back)}, map[kennel.AreaName]int{kennel.AreaRibs: 20, kennel.AreaBack: 10}},
		"more on Thursday makes up for Monday":              {monday + 3, []kennel.Work{pulled(monday+3, ribs(0.3), back)}, map[kennel.AreaName]int{kennel.AreaRibs: 10, kennel.AreaBack: 10}},
		"work before the plan was made was known":           {monday + 1, []kennel.Work{pulled(monday-1, ribs(0.2), back)}, map[kennel.AreaName]int{kennel.AreaRibs: 20, kennel.AreaBack: 10}},
		"work of another dog does not help":                 {monday + 1, []kennel.Work{{Dog: "Sorrel", On: monday, Areas: []kennel.Pulled{ribs(0.2), back}}}, map[kennel.AreaName]int{kennel.AreaRibs: 20, kennel.AreaBack: 10}},
		"behind its days a plan still has its weeks":        {monday + 14, nil, map[kennel.AreaName]int{kennel.AreaRibs: 55, kennel.AreaBack: 20}},
		"work of the coming days is not done yet, not late": {monday + 1, []kennel.Work{pulled(monday+3, ribs(0.2), back)}, map[kennel.AreaName]int{kennel.AreaRibs: 20, kennel.AreaBack: 10}},
	} {
		got := map[kennel.AreaName]int{}
		for _, b := range week().Behind(c.done, c.on) {
			got[b.Area] = int(b.Minutes + 0.5)
		}
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: behind by %v, not %v", name, got, c.want)
		}
	}
}

func TestWorkThatThePlanKnewIsNoNews(t *testing.T) {
	r, w := week(), pulled(monday, kennel.Pulled{Area: kennel.AreaRibs, Share: 0.2})
	r.Options.Done = []kennel.Work{w}
	if got := r.WorkSince([]kennel.Work{w, w}, monday+1); len(got) != 1 {
		t.Errorf("of the same work twice, known once, %d are news", len(got))
	}
	if got := r.Behind([]kennel.Work{w}, monday+1); len(got) != 2 {
		t.Errorf("work that was known counts for what was planned since: %v", got)
	}
}

func TestWhatSlippedIsCaughtUpWhenAPlanHasAsMuch(t *testing.T) {
	r := week()
	at := map[kennel.AreaName]kennel.Date{}
	for _, b := range r.CatchUp(r.Behind(nil, monday+4), monday+4) {
		at[b.Area] = b.CaughtUp
	}
	// 40 minutes of ribs: 15 in each of two weeks do not cover them. 20 of the back: nothing comes.
	if want := (map[kennel.AreaName]kennel.Date{kennel.AreaRibs: 0, kennel.AreaBack: 0}); !reflect.DeepEqual(at, want) {
		t.Errorf("caught up %v, not %v", at, want)
	}
	for _, b := range r.CatchUp(r.Behind(nil, monday+1), monday+1) {
		at[b.Area] = b.CaughtUp
	}
	// 20 of ribs and 10 of the back are covered by Thursday.
	if want := (map[kennel.AreaName]kennel.Date{kennel.AreaRibs: monday + 6, kennel.AreaBack: monday + 6}); !reflect.DeepEqual(at, want) {
		t.Errorf("caught up %v, not %v", at, want)
	}
	for _, b := range r.CatchUp([]planned.Behind{{Dog: "Moss", Area: kennel.AreaRibs, Share: 0.25}}, monday+7) {
		if b.CaughtUp != monday+20 {
			t.Errorf("a quarter of the ribs is caught up by %s", b.CaughtUp)
		}
	}
}
