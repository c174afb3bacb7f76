package main

import (
	"context"
	"os"
	"strings"
	"testing"

	"tuckup/kennel"
)

// Eight weeks of a book, planned every Monday and done as planned: nothing slips, nothing is said to have changed, every plan is taken and
// the sheet keeps its words from day to day within a week.
func TestEightWeeksDoneAsPlannedKeepTheirWords(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	if err := os.WriteFile("tiny.yaml", []byte(strings.Replace(tiny, "weeks: 8", "weeks: 6", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) (out, said string) {
		t.Helper()
		code, out, said := program(context.Background(), args...)
		if code != codeDone {
			t.Fatalf("%v: code %d, said %s", args, code, said)
		}
		return out, said
	}
	run("import", "tiny.yaml")
	sessions := 0
	for monday := kennel.NewDate(2027, 1, 4); monday < kennel.NewDate(2027, 1, 4)+56; monday += 7 {
		out, said := run("plan", "--accept", "--on", monday.String())
		if strings.Contains(out, "Behind") || !strings.Contains(said, "this is the plan in use now") {
			t.Errorf("%s: wrote\n%s\nsaid %s", monday, out, said)
		}
		whole, _ := run("sheet", "--on", monday.String())
		if strings.Contains(whole, "Behind") || strings.Contains(whole, "Changed since") {
			t.Errorf("%s: the sheet says\n%s", monday, whole)
		}
		for _, day := range []kennel.Date{monday, monday + 1, monday + 3, monday + 4} { // Maeve works on Mondays and Thursdays
			sheet, _ := run("sheet", "--on", day.String())
			today := dayOf(sheet, day)
			if today == "" || today != dayOf(whole, day) {
				t.Errorf("%s: on the day the sheet says\n%s\non Monday it said\n%s", day, today, dayOf(whole, day))
			}
			if strings.Contains(today, "MOSS") {
				run("work", "done", "Moss", "--today", day.String())
				sessions++
				if sheet, _ := run("sheet", "--on", day.String()); strings.Contains(dayOf(sheet, day), "MOSS") || strings.Contains(sheet, "Behind") {
					t.Errorf("%s: done, the sheet says\n%s", day, sheet)
				}
			}
		}
	}
	if sessions < 5 {
		t.Errorf("only %d sessions were done", sessions)
	}
}

// dayOf is what a sheet says of a day.
func dayOf(sheet string, day kennel.Date) string {
	_, of, found := strings.Cut(sheet, "\n"+strings.ToUpper(day.Time().Format("Monday 2 January")))
	if !found {
		return ""
	}
	for _, next := range []kennel.Date{day + 1, day + 2} {
		of, _, _ = strings.Cut(of, strings.ToUpper(next.Time().Format("Monday 2 January")))
	}
	of, _, _ = strings.Cut(of, "\n\n") // what comes behind the days
	return strings.TrimSpace(of)
}
