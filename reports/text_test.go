package reports

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

type textReport func(io.Writer, optimize.Result, layout.Look) error

var textReports = map[string]textReport{"plan": Plan, "readiness": Readiness, "workload": Workload, "sheet": Sheet}

func pageOf(t *testing.T, f textReport, r optimize.Result, l layout.Look) string {
	t.Helper()
	var b bytes.Buffer
	if err := f(&b, r, l); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestEveryPageFitsTheTerminalWhateverTheNames(t *testing.T) {
	for asked, columns := range map[int]int{0: layout.Columns, 1: layout.LeastColumns, layout.LeastColumns: layout.LeastColumns, 80: 80, 1000: layout.Columns} {
		for name, report := range textReports {
			for _, who := range []string{"Thornfield", sample.TerminalName, sample.FormulaName, sample.HebrewName, sample.LongName, "\xff\xfe", "🐶👨‍👩‍👧", ""} {
				page := pageOf(t, report, sample.Hostile(who), layout.Look{Columns: asked})
				if !utf8.ValidString(page) {
					t.Errorf("%s with %q is not UTF-8", name, who)
				}
				for _, line := range strings.Split(page, "\n") {
					if say.Width(line) > columns {
						t.Errorf("%s with %q: %d columns of %d: %q", name, who, say.Width(line), columns, line)
					}
					for _, r := range line {
						if unicode.Is(unicode.Cc, r) || r == '\u202e' {
							t.Fatalf("%s with %q lets %U through: %q", name, who, r, line)
						}
					}
				}
			}
		}
	}
}

func TestColourOnlyWhereAskedFor(t *testing.T) {
	for name, report := range textReports {
		if strings.Contains(pageOf(t, report, sample.Result(), layout.Look{}), "\x1b") {
			t.Errorf("%s writes terminal codes without being asked", name)
		}
		if !strings.Contains(pageOf(t, report, sample.Result(), layout.Look{Colour: true}), "\x1b[1m") {
			t.Errorf("%s has no bold heading", name)
		}
	}
}

func TestPlanSaysWhatTheHandlerNeeds(t *testing.T) {
	page := strings.Join(strings.Fields(pageOf(t, Plan, sample.Result(), layout.Look{})), " ")
	for _, want := range []string{
		"Thornfield week of 4 January 2027",
		"Do first: Sorrel, skirt line: " + kennel.ShareWords(1./17) + ", 10 min; Brackenmere Terrier Club in 10 weeks.",
		"1. Sorrel: 1 session, Tue and Thu, 30 min + 12 min set-up",
		"skirt line " + kennel.ShareWords(1./17) + " 10 min",
		"lift: back-comb with powder",
		"pull: fingers and stone",
		"Sorrel nails 10 min Tue every week",
		"- Moss, ribs, about 1 in 20: no hours left on its days",
		"Sat 20 Mar: Brackenmere Terrier Club (entered)",
		"Sat 8 Jan 2028: Fallowgate Open (hoped for, 50 %, entries close Mon 20 Dec)",
		"After the weeks planned, so not prepared for: Ashgillan Show on Sat 5 Feb 2028. Plan more weeks to count them.",
		"Moss 100 100 to 100 100 % every area right", "Moss 88 79 to 91 99 % worst back 80",
		"Sorrel 92 84 to 97 93 % worst ribs 71: 58 % is under 11 weeks; in coat with skull, about half, 15 min, by 2 March; and ears, 30 min, by 27 February",
		"Sorrel roll week after week (held to rolling)",
		"Moss strip out now, to 10 January; rest from 11 January. 88 at Brackenmere Terrier Club; rolling only: 61",
		"4 January 1.8 of 27.0 h",
		"11 January 0.0 of 0.0 h no hours Handler none",
		"- Moss at Fallowgate Open: its ribs need 11 weeks and there are 9",
		"The week of 8 March is the tight one: one more hour of Handler there is worth 0.4 points, most to Moss at Brackenmere Terrier Club.",
		"No plan can be more than 0.4 % better (41.15 points; no plan can pass 41.30).",
		"Touches too small to be worth making were gathered into fuller ones; that cost 0.05 points.",
		"Powder must be out of the coat before the ring",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the plan does not say %q", want)
		}
	}
	if t.Failed() {
		t.Log(pageOf(t, Plan, sample.Result(), layout.Look{}))
	}
}

func TestAnEmptyPlanStillPrints(t *testing.T) {
	for name, report := range textReports {
		if page := pageOf(t, report, optimize.Result{On: sample.Date(1, 4), Week0: sample.Date(1, 4)}, layout.Look{}); page == "" {
			t.Errorf("%s prints nothing", name)
		}
	}
}

func TestReadinessSaysTodayAndTheWindows(t *testing.T) {
	page := strings.Join(strings.Fields(pageOf(t, Readiness, sample.Result(), layout.Look{})), " ")
	for _, want := range []string{
		"Sorrel 90 in coat worst ribs 70: 58 % is under 11 weeks",
		"Sorrel left alone 5 Jan to 1 Feb with the plan 5 Jan to 14 Feb, 1 Mar to 30 Jun",
		"Moss left alone never",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("readiness does not say %q:\n%s", want, page)
		}
	}
}

func TestShareWordsAreTheTrades(t *testing.T) {
	if got := kennel.ShareWords(kennel.Share(1. / 17)); !strings.Contains(got, "1 in 17") {
		t.Errorf("got %q", got)
	}
}

func TestSeveralSessionsSayHowLongEachIs(t *testing.T) {
	for want, d := range map[string]optimize.DogWeek{
		"1 session":                  {Sessions: 1, Minutes: 30, SetUp: 12},
		"3 sessions of about 29 min": {Sessions: 3, Minutes: 51, SetUp: 36},
		"2 sessions of about 75 min": {Sessions: 2, Minutes: 126, SetUp: 24},
	} {
		if got := sessionsWords(d); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestEntriesAreToldWhereTheyAreStillToBeMade(t *testing.T) {
	r := sample.Result()
	at := r.Readiness[2]
	for _, c := range []struct {
		chance float64
		close  kennel.Date
		want   string
	}{
		{0.5, r.On, ", entries close Tue 5 Jan"},
		{0.5, r.On - 1, ", entries closed Mon 4 Jan"},
		{0.5, 0, ""},
		{1, r.On, ""},
	} {
		r.Kennel.Shows[0].Chance, r.Kennel.Shows[0].EntriesClose = c.chance, c.close
		if got := entryWords(r, at); got != c.want {
			t.Errorf("chance %v, entries close %v: got %q, want %q", c.chance, c.close, got, c.want)
		}
	}
}

func TestTheFirstThingIsMoreThanATouch(t *testing.T) {
	r := sample.Result()
	r.Weeks[0].Dogs[0].Areas[0].Minutes = 3
	if got := firstThing(r.Weeks[0]); !strings.HasPrefix(got, "Do first: Sorrel, ears: about 1 in 8, 20 min") {
		t.Errorf("got %q", got)
	}
	for d := range r.Weeks[0].Dogs {
		for a := range r.Weeks[0].Dogs[d].Areas {
			r.Weeks[0].Dogs[d].Areas[a].Minutes = kennel.Minutes(1 + d)
		}
	}
	for hours, want := range map[kennel.Hours]string{0: "No hours are left this week.", 2: "Nothing to do this week."} {
		if got := firstThing(optimize.Week{Hours: hours}); got != want {
			t.Errorf("%v hours: got %q, want %q", hours, got, want)
		}
	}
	if got := firstThing(r.Weeks[0]); !strings.HasPrefix(got, "Do first: Moss, back: about 1 in 5, 2 min") {
		t.Errorf("where all are touches the longest comes first, got %q", got)
	}
}

func TestHandsThatAreFullAreCalledSo(t *testing.T) {
	pull := func(minutes kennel.Minutes) []optimize.Given {
		return []optimize.Given{{Work: kennel.SkillJacket, Minutes: minutes}, {Work: optimize.SetUp, Minutes: 30}}
	}
	for _, c := range []struct {
		hands optimize.HandsWeek
		want  string
	}{
		{optimize.HandsWeek{Hours: 4, MostWork: 4, Planned: 3.97, MostPulling: 4, Given: pull(200)}, "H 4.0 of 4.0 (full)"},
		{optimize.HandsWeek{Hours: 4, MostWork: 3.8, Planned: 3.5, MostPulling: 3, Given: pull(180)}, "H 3.5 of 4.0 (no more pulling)"},
		{optimize.HandsWeek{Hours: 4, MostWork: 3.8, Planned: 3.4, MostPulling: 3, Given: pull(174)}, "H 3.4 of 4.0"},
		{optimize.HandsWeek{Hours: 4, MostWork: 3.4, Planned: 3.38, MostPulling: 3.4, Given: pull(172)}, "H 3.4 of 4.0 (full with breaks)"},
		{optimize.HandsWeek{Hours: 4, MostWork: 4, MostPulling: 4}, "H 0.0 of 4.0"},
		{optimize.HandsWeek{}, "H none"},
	} {
		c.hands.Hands = "H"
		if got := handsWords([]optimize.HandsWeek{c.hands}); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestWithoutHoursNoWeekIsCalledLongEnough(t *testing.T) {
	r := sample.Result()
	r.Tight = nil
	if got := say.Tight(r); got != "No week is short of hours." {
		t.Errorf("got %q", got)
	}
	cut := r
	cut.Season.Cut = true
	if got := say.Tight(cut); strings.Contains(got, "No week") || !strings.Contains(got, "cut short") {
		t.Errorf("after a cut: got %q", got)
	}
	r.Kennel.Hands[0].Does = []kennel.Skill{kennel.SkillDuties}
	r.Kennel.Hands[1].Does = []kennel.Skill{kennel.SkillDuties}
	if got, want := say.Tight(r), "There are no hours for coat work, so no plan can do more."; got != want {
		t.Errorf("hands for duties only: got %q, want %q", got, want)
	}
	for w := range r.Weeks {
		r.Weeks[w].Hours = 0
		for h := range r.Weeks[w].Hands {
			r.Weeks[w].Hands[h].Hours = 0
		}
	}
	if page := pageOf(t, Plan, r, layout.Look{}); !strings.Contains(page, "There are no hours in these weeks.") || strings.Contains(page, "short of hours") {
		t.Errorf("without hours the page says:\n%s", page)
	}
}

// The account by area is of the same minutes as the account by dog.
func TestEveryPartOfTheWorkloadAddsUpToTheSame(t *testing.T) {
	var totals []string
	for _, line := range strings.Split(pageOf(t, Workload, sample.Result(), layout.Look{}), "\n") {
		if f := strings.Fields(line); len(f) > 0 && f[0] == "all" {
			totals = append(totals, strings.Join(f[1:], " "))
		}
	}
	if len(totals) != 5 {
		t.Fatalf("%d parts, want week, dog, area, owner and hands: %q", len(totals), totals)
	}
	for _, total := range totals {
		if total != totals[0] {
			t.Errorf("%q beside %q", total, totals[0])
		}
	}
}
