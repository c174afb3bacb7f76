package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize/planned"
)

// twoDogs is a string of two dogs that is planned in no time.
const twoDogs = `kennel: Fellside
plan_from: 2027-01-04
weeks: 6
hands:
  - {name: Maeve, hours: {mon: 2, tue: 1.5, thu: 2, fri: 1.5}}
dogs:
  - {name: Moss, pattern: border-terrier, areas: {all: [{share: 0.6, pulled: 2026-10-12}, {share: 0.4, pulled: 2026-12-07}]}}
  - {name: Sorrel, pattern: border-terrier, areas: {all: [{share: 0.5, pulled: 2026-09-21}, {share: 0.5, pulled: 2026-11-16}]}}
shows:
  - {name: Brackenmere, on: 2027-02-06, dogs: [Moss, Sorrel]}
`

// touches are the work of the coming days, a line for each area: "2027-01-04 09:00 Moss, ribs 1 in 25".
type touches []string

func touch(on, start, dog string, area kennel.AreaName, share kennel.Share) string {
	return touchInWords(on, start, dog, area, kennel.ShareWords(share))
}

func touchInWords(on, start, dog string, area kennel.AreaName, words string) string {
	return fmt.Sprintf("%s %s %s, %s %s", on, start, dog, area, words)
}

// onSheet are those that the sheet has, areas that a break cuts put together.
func onSheet(t *testing.T, on string) (all touches) {
	t.Helper()
	var doc struct {
		Days []struct {
			Date  string
			Hands []struct {
				Items []struct {
					Kind, Dog, Start string
					SetUp            float64 `json:"set_up"`
					Areas            []struct {
						Area  kennel.AreaName
						Share kennel.Share
					}
				}
			}
		}
	}
	code, out, said := program(context.Background(), "sheet", "--format", "json", "--on", on)
	if err := json.Unmarshal([]byte(out), &doc); err != nil || code != codeDone || strings.Contains(said, "planning") {
		t.Fatalf("sheet: code %d, %v, said %s", code, err, said)
	}
	for _, d := range doc.Days {
		for _, h := range d.Hands {
			begun := map[string]string{}
			sum := map[string]kennel.Share{}
			var order []string
			for _, i := range h.Items {
				if i.Kind != "session" {
					continue
				}
				if i.SetUp > 0 {
					begun[i.Dog] = i.Start
				}
				for _, a := range i.Areas {
					key := i.Dog + "|" + string(a.Area)
					if sum[key] == 0 {
						order = append(order, key)
					}
					sum[key] += a.Share
				}
			}
			for _, key := range order {
				dog, area, _ := strings.Cut(key, "|")
				all = append(all, touch(d.Date, begun[dog], dog, kennel.AreaName(area), sum[key]))
			}
		}
	}
	return sorted(all)
}

func sorted(all touches) touches {
	slices.Sort(all)
	return all
}

// inCalendar are those that the calendar has.
func inCalendar(t *testing.T, on string) (all touches) {
	t.Helper()
	code, out, said := program(context.Background(), "calendar", "--on", on)
	if code != codeDone {
		t.Fatalf("calendar: %s", said)
	}
	out = strings.NewReplacer("\r\n ", "", "\r\n", "\n").Replace(out)
	when := regexp.MustCompile(`DTSTART[^:]*:(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)`)
	line := regexp.MustCompile(`- ([a-z ]+): (about 1 in \d+|about half|all|a few hairs)`)
	for _, e := range strings.Split(out, "BEGIN:VEVENT")[1:] {
		at := when.FindStringSubmatch(e)
		_, summary, _ := strings.Cut(e, "SUMMARY:")
		dog, _, _ := strings.Cut(summary, ":")
		for _, m := range line.FindAllStringSubmatch(e, -1) {
			all = append(all, fmt.Sprintf("%s-%s-%s %s:%s %s, %s %s", at[1], at[2], at[3], at[4], at[5], dog, m[1], m[2]))
		}
	}
	return sorted(all)
}

// inBookNow are those of the sessions that the book has agreed on and that are not done, from the day on; a dog's session of the day is what work done proposes. record and words are those of the plan that was taken, with
// their shares and as they are said.
func inBookNow(t *testing.T, on string) (sessions, record, words touches) {
	t.Helper()
	from, err := kennel.ParseDate(on)
	if err != nil {
		t.Fatal(err)
	}
	s := bookNow(t)
	for _, x := range s.Accepted(from) {
		if x.On == from {
			if proposed, err := s.AgreedFor(x.Dog, from); err != nil || !slices.Equal(proposed.Areas, x.Areas) {
				t.Errorf("work done of %s proposes %v, not %v (%v)", x.Dog, proposed.Areas, x.Areas, err)
			}
		}
		for _, a := range x.Areas {
			sessions = append(sessions, touch(x.On.String(), x.Start.String(), x.Dog, a.Area, a.Share))
		}
	}
	r, err := planned.Unpack(s.Plan.Result)
	if err != nil {
		t.Fatal(err)
	}
	done := map[string]bool{}
	for _, w := range s.Work {
		done[w.On.String()+w.Dog] = true
	}
	for _, d := range r.Timetable.Days {
		for _, x := range d.Sessions() {
			if d.On < from || done[d.On.String()+x.Dog] {
				continue
			}
			for _, a := range x.Areas {
				record = append(record, touch(d.On.String(), x.At.Start.String(), x.Dog, a.Area, a.Share))
				words = append(words, touchInWords(d.On.String(), x.At.Start.String(), x.Dog, a.Area, a.Words()))
			}
		}
	}
	return sorted(sessions), sorted(record), sorted(words)
}

func bookNow(t *testing.T) book.State {
	t.Helper()
	a := newApp(nil, nil, func() time.Time { return time.Date(2027, 1, 4, 12, 0, 0, 0, time.UTC) })
	b, err := a.readBook(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	s, _, err := b.Read(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// After every kind of change the wall, the calendar, the book and what is proposed when work is done say the same work to the share, and
// that of the plan that was taken; only taking another changes it.
func TestEverySurfaceSaysThePlanInUseAfterEveryKindOfChange(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	if err := os.WriteFile("fellside.yaml", []byte(twoDogs), 0o600); err != nil {
		t.Fatal(err)
	}
	must := func(args ...string) {
		t.Helper()
		if code, _, said := program(context.Background(), args...); code != codeDone {
			t.Fatalf("%v: code %d, said %s", args, code, said)
		}
	}
	must("import", "fellside.yaml")
	must("plan", "--on", "2027-01-04")
	var plan []byte
	for _, step := range []struct {
		name  string
		do    [][]string
		on    string
		takes bool
	}{
		{"the first plan", nil, "2027-01-04", true},
		{"a show added", [][]string{{"show", "add", "Ferrydown", "--on", "2027-01-30", "--dogs", "Moss", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"a plan that nobody takes", [][]string{{"plan", "--on", "2027-01-04"}, {"replan", "--on", "2027-01-04"}}, "2027-01-04", false},
		{"hours changed", [][]string{{"hours", "set", "Maeve", "mon=3", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"hands away", [][]string{{"hours", "away", "--from", "2027-01-08", "--to", "2027-01-09", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"a dog added", [][]string{{"dog", "add", "Hazel", "--pattern", "border-terrier", "--pulled", "2026-11-09", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"done as planned", [][]string{{"work", "done", "Sorrel", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"the next day", nil, "2027-01-05", false},
		{"the work taken back", [][]string{{"undo"}}, "2027-01-04", false},
		{"less than planned", [][]string{{"work", "done", "Sorrel", "ribs", "1/60", "--stopped", "--minutes", "20", "--today", "2027-01-04"}}, "2027-01-04", false},
		{"a length measured", [][]string{{"measure", "add", "Moss", "back", "32", "--today", "2027-01-05"}}, "2027-01-05", false},
		{"a coat looked at", [][]string{{"coat", "set", "Moss", "back", "1", "2026-12-01", "--today", "2027-01-05"}}, "2027-01-05", false},
		{"a dog renamed", [][]string{{"dog", "edit", "Moss", "--name", "Fern", "--today", "2027-01-05"}}, "2027-01-05", true},
		{"taken again", [][]string{{"replan", "--accept", "--on", "2027-01-05"}}, "2027-01-05", true},
		{"more than planned", [][]string{{"work", "add", "Fern", "back", "1/4", "--minutes", "40", "--today", "2027-01-07"}}, "2027-01-08", false},
		{"taken by plan", [][]string{{"plan", "--accept", "--on", "2027-01-08"}}, "2027-01-08", true},
		{"and taken back", [][]string{{"undo"}}, "2027-01-08", true},
	} {
		for _, args := range step.do {
			must(args...)
		}
		now := bookNow(t).Plan.Result
		if changed := string(now) != string(plan); changed != step.takes {
			t.Errorf("%s: another record is in use: %t", step.name, changed)
		}
		plan = now
		sheet, phone := onSheet(t, step.on), inCalendar(t, step.on)
		sessions, record, words := inBookNow(t, step.on)
		if len(record) == 0 && cmp.Compare(step.on, "2027-01-08") < 0 {
			t.Errorf("%s: there is no work to compare", step.name)
		}
		for surface, says := range map[string][2]touches{"the sheet": {sheet, record}, "the calendar": {phone, words}, "the book's sessions": {sessions, record}} {
			if !slices.Equal(says[0], says[1]) {
				t.Errorf("%s: %s says\n%s\nthe plan in use\n%s", step.name, surface, strings.Join(says[0], "\n"), strings.Join(says[1], "\n"))
			}
		}
	}
}

// A plan in use that can't be read any more says how to go on, and that does.
func TestADamagedPlanInUseIsPlannedAgain(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	writeTiny(t)
	for _, args := range [][]string{{"import", "tiny.yaml"}, {"plan"}} {
		if code, _, said := program(context.Background(), args...); code != codeDone {
			t.Fatal(said)
		}
	}
	a := newApp(nil, nil, time.Now)
	b, err := a.openBook(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	_, err = b.Change(context.Background(), book.AnyVersion, "damaged", func(s *book.State) error {
		s.Plan.Result = []byte("tuckup plan 99\nwhat nobody reads yet")
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	b.Close()
	for _, command := range []string{"sheet", "readiness", "replan"} {
		code, out, said := program(context.Background(), command)
		if code != codeUsage || out != "" || said != "tuckup: plan in use: was written by another version of tuckup, in a form that this one does not read\nTry: tuckup plan --accept to plan again\n" {
			t.Errorf("%s: code %d, wrote %q, said %q", command, code, out, said)
		}
	}
	for _, args := range [][]string{{"plan", "--accept"}, {"sheet"}} {
		if code, out, said := program(context.Background(), args...); code != codeDone || !strings.Contains(out, "Moss") && !strings.Contains(out, "MOSS") {
			t.Errorf("%v: code %d, said %s", args, code, said)
		}
	}
}
