package reports

import (
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

func TestTheSheetHasABoxForEveryTouchDutyAndBath(t *testing.T) {
	r := sample.Result()
	want, sessions := 0, 0
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Items {
				switch i.Kind {
				case optimize.ItemSession:
					sessions++
					want += len(i.Areas)
				case optimize.ItemDuty, optimize.ItemBath:
					want++
				}
			}
		}
	}
	page := pageOf(t, Sheet, r, layout.Look{})
	if got := strings.Count(page, box); got != want || want == 0 {
		t.Errorf("%d boxes, want %d:\n%s", got, want, page)
	}
	if got := strings.Count(page, "took ____"); got != sessions {
		t.Errorf("%d lines to write down what was done, want one for each of %d sessions", got, sessions)
	}
	for _, c := range say.Cautions() {
		if !strings.Contains(page, c.About+": ") {
			t.Errorf("the foot has no caution about %s", c.About)
		}
	}
}

func TestTheSheetSaysWhatToDoWhen(t *testing.T) {
	page := pageOf(t, Sheet, sample.Result(), layout.Look{})
	flat := strings.Join(strings.Fields(page), " ")
	for _, want := range []string{
		"Thornfield work for Tuesday 5 to Monday 11 January 2027",
		"Start with Tue 5 Jan at 09:00: Sorrel, skirt line, about 1 in 17, 10 min (Handler).",
		"Handler, 2 sessions, 1 h 29 09:00-09:43 SORREL (Brackenmere in 10 weeks), 12 min set-up lift: back-comb with powder pull: fingers and stone [ ] skirt line about 1 in 17 10 min",
		"09:43-09:53 break 10:00-10:46 MOSS (keep rolling; your own choice, not moved)",
		"Assistant, 40 min 11:00-11:10 [ ] Sorrel: nails (every week) 11:20-11:50 [ ] Sorrel: lifting bath, left to dry (coat all of one length)",
		"WEDNESDAY 6 JANUARY Handler, 10 min 09:00-09:10 [ ] Moss: nails (every week)",
		"THURSDAY 7 JANUARY Handler, 1 session, 43 min",
		"FRIDAY 8 JANUARY no work",
		"SATURDAY 9 JANUARY Handler, away all day travel: Fallowgate Open",
		"- Moss, ribs, about 1 in 20: no hours left on its days",
		"- Moss, beard bath: Assistant is away",
		"CANNOT BE MET - Moss at Fallowgate Open",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if t.Failed() {
		t.Log(page)
	}
}

// A session that a break cuts in two is one session: on the sheet it goes on after the break, in the plan it is one.
func TestASessionCutByABreakIsOneSession(t *testing.T) {
	r := sample.BrokenSession()
	flat := strings.Join(strings.Fields(pageOf(t, Sheet, r, layout.Look{})), " ")
	for _, want := range []string{
		"Handler, 1 session, 1 h 03", "20 min 09:43-09:53 break 10:00-10:20 SORREL again [ ] back about 1 in 5 20 min took ______",
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("no %q in %s", want, flat)
		}
	}
	if got := onDays(sessionDays(r.Timetable, sample.Date(1, 4), "Sorrel")); got != ", Tue and Thu" {
		t.Errorf("days %q", got)
	}
}

func TestADayWithoutWorkIsOneLine(t *testing.T) {
	r := optimize.Result{On: sample.Date(1, 4), Timetable: optimize.Timetable{Days: []optimize.Day{{On: sample.Date(1, 4)}, {On: sample.Date(1, 5)}}}}
	page := pageOf(t, Sheet, r, layout.Look{})
	for _, want := range []string{"MONDAY 4 JANUARY  no work\nTUESDAY 5 JANUARY  no work\n", "There is no work on these days.\n"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
}

func TestTheSheetNamesItsDays(t *testing.T) {
	for want, days := range map[string][]kennel.Date{
		"Tuesday 5 January 2027":                           nil,
		"Wednesday 6 January 2027":                         {sample.Date(1, 6)},
		"Monday 4 to Sunday 10 January 2027":               {sample.Date(1, 4), sample.Date(1, 10)},
		"Friday 29 January to Sunday 7 February 2027":      {sample.Date(1, 29), sample.Date(2, 7)},
		"Friday 31 December 2027 to Sunday 2 January 2028": {sample.Date(12, 31), kennel.NewDate(2028, 1, 2)},
	} {
		r := optimize.Result{On: sample.Date(1, 5)}
		for _, d := range days {
			r.Timetable.Days = append(r.Timetable.Days, optimize.Day{On: d})
		}
		if got := say.Days(r); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestTheSheetSaysThatDaysBeginEarly(t *testing.T) {
	r := sample.Result()
	words := "so that they end by 21:00"
	if page := pageOf(t, Sheet, r, layout.Look{}); strings.Contains(page, words) {
		t.Errorf("days begin when they should:\n%s", page)
	}
	r.Options.DayStart = 20
	if page := pageOf(t, Sheet, r, layout.Look{}); !strings.Contains(page, "Days begin before 20:00, "+words) {
		t.Errorf("days begin early, and nothing says so:\n%s", page)
	}
}

func TestTheSheetSaysAnAreaThatABreakCutsOnce(t *testing.T) {
	r := sample.BrokenSession()
	hands := &r.Timetable.Days[0].Hands[0]
	first, rest := hands.Items[0].Areas, hands.Items[2].Areas[0]
	last := first[len(first)-1]
	rest.Area, rest.Work = last.Area, last.Work
	hands.Items[2].Areas = []optimize.AreaWork{rest}
	page := strings.Join(strings.Fields(pageOf(t, Sheet, r, layout.Look{})), " ")
	day := page[strings.Index(page, "TUESDAY"):strings.Index(page, "WEDNESDAY")]
	if n := strings.Count(day, "[ ] "+string(last.Area)); n != 1 {
		t.Errorf("%s is said %d times:\n%s", last.Area, n, day)
	}
	for _, want := range []string{"again, first the rest of the " + string(last.Area), say.Minutes(last.Minutes + rest.Minutes)} {
		if !strings.Contains(day, want) {
			t.Errorf("%q is missing:\n%s", want, day)
		}
	}
}

func TestAFewHairsAreSaidOnTheDogsLine(t *testing.T) {
	r := sample.Result()
	items := r.Timetable.Days[0].Hands[0].Items
	areas := items[0].Areas
	areas[0].Few = true
	few := "; " + string(areas[0].Area) + ": a few hairs"
	for name, f := range map[string]textReport{"sheet": Sheet, "plan": Plan} {
		if name == "plan" {
			r.Weeks[0].Dogs[0].Areas[0].Few = true
			few = "; " + string(r.Weeks[0].Dogs[0].Areas[0].Area) + ": a few hairs"
		}
		page := strings.Join(strings.Fields(pageOf(t, f, r, layout.Look{})), " ")
		if !strings.Contains(page, few) {
			t.Errorf("%s does not say %q:\n%s", name, few, page)
		}
	}
	page := strings.Join(strings.Fields(pageOf(t, Sheet, r, layout.Look{})), " ")
	day := page[strings.Index(page, "TUESDAY"):strings.Index(page, "WEDNESDAY")]
	if strings.Contains(day, "[ ] "+string(areas[0].Area)+" ") {
		t.Errorf("a few hairs have a line of their own:\n%s", day)
	}
}
