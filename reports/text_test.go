package reports

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize"
)

type textReport func(io.Writer, optimize.Result, Look) error

var textReports = map[string]textReport{"plan": Plan, "readiness": Readiness, "workload": Workload, "sheet": Sheet}

func pageOf(t *testing.T, f textReport, r optimize.Result, l Look) string {
	t.Helper()
	var b bytes.Buffer
	if err := f(&b, r, l); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestEveryPageFitsTheTerminalWhateverTheNames(t *testing.T) {
	for name, report := range textReports {
		for _, who := range []string{"Thornfield", terminalName, formulaName, hebrewName, longName, "\xff\xfe", "🐶👨‍👩‍👧", ""} {
			page := pageOf(t, report, hostile(who), Look{})
			if !utf8.ValidString(page) {
				t.Errorf("%s with %q is not UTF-8", name, who)
			}
			for _, line := range strings.Split(page, "\n") {
				if width(line) > Columns {
					t.Errorf("%s with %q: %d columns of %d: %q", name, who, width(line), Columns, line)
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

func TestNamesFromRightToLeftAreKeptToThemselves(t *testing.T) {
	if got, want := plain(hebrewName), firstStrongIsolate+hebrewName+popIsolate; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	long := strings.Repeat("כלב ", 30)
	if got := cut(plain(long), 10); !strings.HasSuffix(got, popIsolate) || width(got) > 10 {
		t.Errorf("a cut name must close its isolate: %q", got)
	}
}

func TestColourOnlyWhereAskedFor(t *testing.T) {
	for name, report := range textReports {
		if strings.Contains(pageOf(t, report, sample(), Look{}), "\x1b") {
			t.Errorf("%s writes terminal codes without being asked", name)
		}
		if !strings.Contains(pageOf(t, report, sample(), Look{Colour: true}), "\x1b[1m") {
			t.Errorf("%s has no bold heading", name)
		}
	}
}

func TestWrapKeepsEveryWordInsideTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		n := rapid.IntRange(2, 40).Draw(t, "columns")
		lines := wrap(s, n)
		for _, l := range lines {
			if width(l) > n {
				t.Fatalf("%q is wider than %d", l, n)
			}
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := squeeze(strings.Join(lines, " ")), squeeze(s); got != want {
			t.Fatalf("lost text: %q became %q", want, got)
		}
	})
}

func TestPlanSaysWhatTheHandlerNeeds(t *testing.T) {
	page := strings.Join(strings.Fields(pageOf(t, Plan, sample(), Look{})), " ")
	for _, want := range []string{
		"Thornfield week of 4 January 2027",
		"Do first: Sorrel, skirt line: " + shareWords(1./17) + ", 10 min; Brackenmere Terrier Club in 10 weeks.",
		"1. Sorrel: 1 session, 30 min + 12 min set-up",
		"skirt line " + shareWords(1./17) + " 10 min",
		"lift: back-comb with powder",
		"pull: fingers and stone",
		"Sorrel nails 10 min every week",
		"Sat 20 Mar: Brackenmere Terrier Club (entered)",
		"Sat 8 Jan 2028: Fallowgate Open (hoped for, 50 %)",
		"Moss 100 every area right",
		"Sorrel 92 worst ribs 71: 58 % is under 11 weeks",
		"4 January 1.8 of 27.0 h",
		"11 January 0.0 of 0.0 h no hours Handler none",
		"- Moss at Fallowgate Open: its ribs need 11 weeks and there are 9",
		"The week of 8 March is the tight one: one more hour of Handler there is worth 0.4 points, most to Moss at Brackenmere Terrier Club.",
		"No plan can be more than 0.4 % better (41.15 points; no plan can pass 41.30).",
		"12 touches too small to be worth making were gathered into other sessions, which cost 0.05 points.",
		"Powder must be out of the coat before the ring",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the plan does not say %q", want)
		}
	}
	if t.Failed() {
		t.Log(pageOf(t, Plan, sample(), Look{}))
	}
}

func TestPercentIsNeverRoundedDown(t *testing.T) {
	for x, want := range map[float64]string{0: "0.0 %", 0.3: "0.3 %", 0.30001: "0.4 %", 12.34: "12.4 %", -1: "0.0 %"} {
		if got := percentUp(x); got != want {
			t.Errorf("percentUp(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestAnEmptyPlanStillPrints(t *testing.T) {
	for name, report := range textReports {
		if page := pageOf(t, report, optimize.Result{On: date(1, 4), Week0: date(1, 4)}, Look{}); page == "" {
			t.Errorf("%s prints nothing", name)
		}
	}
}

func TestReadinessSaysTodayAndTheWindows(t *testing.T) {
	page := strings.Join(strings.Fields(pageOf(t, Readiness, sample(), Look{})), " ")
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

func TestTheSheetHasABoxForEveryTouchAndDuty(t *testing.T) {
	r := sample()
	want := len(r.Weeks[0].Duties)
	for _, d := range r.Weeks[0].Dogs {
		want += len(d.Areas)
	}
	page := pageOf(t, Sheet, r, Look{})
	if got := strings.Count(page, box); got != want {
		t.Errorf("%d boxes, want %d:\n%s", got, want, page)
	}
	for _, c := range cautions() {
		if !strings.Contains(page, c.about+": ") {
			t.Errorf("the foot has no caution about %s", c.about)
		}
	}
}

func TestShareWordsAreTheTrades(t *testing.T) {
	if got := shareWords(kennel.Share(1. / 17)); !strings.Contains(got, "1 in 17") {
		t.Errorf("got %q", got)
	}
}
