package text

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"tuckup/kennel"
)

var (
	firstDay = kennel.NewDate(2027, 1, 4)
	lastDay  = kennel.NewDate(2029, 1, 3)
)

func TestATableOfDogsTellsWhatItsCellsSay(t *testing.T) {
	rows, err := ReadCSV("dogs.csv", []byte("\ufeffName,pattern,born,Roll Only,a_week,coat,growth\r\n"+
		"\"Sorrel, of the Ferry\",wire-fox-terrier,2024-05-02,yes,3,0.6 2026-09-20; 0.4 2026-12-01,1.1\r\nMoss,,,,,,\r\n"))
	if err != nil || len(rows.Dogs) != 2 || len(rows.Shows) != 0 {
		t.Fatal(rows, err)
	}
	d := kennel.Dog{Owner: "stays", Areas: []kennel.AreaCoat{{Area: kennel.AreaBack}}}
	rows.Dogs[0].Set(&d)
	want := kennel.Dog{
		Owner: "stays", Pattern: "wire-fox-terrier", Born: kennel.NewDate(2024, 5, 2), Coat: kennel.Coat{RollOnly: true, Growth: 1.1}, Table: kennel.Table{AWeek: 3},
		All: []kennel.Layer{{Share: 0.6, Pulled: kennel.NewDate(2026, 9, 20)}, {Share: 0.4, Pulled: kennel.NewDate(2026, 12, 1)}},
	}
	if !reflect.DeepEqual(d, want) {
		t.Errorf("%+v", d)
	}
	if rows.Dogs[0].Name != "Sorrel, of the Ferry" || rows.Dogs[1].Line != 3 {
		t.Errorf("%+v", rows.Dogs)
	}
	rows.Dogs[1].Set(&d)
	if !reflect.DeepEqual(d, want) {
		t.Errorf("empty cells changed the dog: %+v", d)
	}
}

func TestATableOfShowsTellsWhatItsCellsSay(t *testing.T) {
	rows, err := ReadCSV("shows.csv", []byte("name,on,days,weight,chance,away_from,dogs\nFerrydown,2027-04-10,2,1.5,0.4,2027-04-09,Sorrel; Moss\n"))
	if err != nil || len(rows.Shows) != 1 {
		t.Fatal(rows, err)
	}
	s := kennel.Show{On: rows.Shows[0].On, Days: 1}
	rows.Shows[0].Set(&s)
	want := kennel.Show{
		On: kennel.NewDate(2027, 4, 10), Days: 2, Weight: 1.5, Chance: 0.4, Dogs: []string{"Sorrel", "Moss"},
		Away: &kennel.Span{From: kennel.NewDate(2027, 4, 9), To: kennel.NewDate(2027, 4, 11)},
	}
	if !reflect.DeepEqual(s, want) {
		t.Errorf("%+v", s)
	}
}

func TestABadTableIsRefusedWithItsPlace(t *testing.T) {
	for data, want := range map[string]string{
		"":                                 "t.csv:1:1: the table is empty",
		"name,on\nFerrydown,soon\n":        `t.csv:2:11: on "soon": is not a date`,
		"name,on\n,2027-04-10\n":           "t.csv:2:1: name: is missing",
		"name,on,weight\nF,2027-04-10,x\n": `t.csv:2:14: weight "x": is not a number`,
		"name,on,days\nF,2027-04-10,1.5\n": `t.csv:2:14: days "1.5": is not a whole number`,
		"name,on\nF,2027-04-10,more\n":     `t.csv:2:14: cell "more": is in no column: the first line names 2`,
		"name,on\n\"F,2027-04-10\n":        `t.csv:2:15: cell: has a quote in it that does not go around all of it`,
		"name,patern\n":                    `t.csv:1:6: column "patern": is not a column that is known`,
		"name,name\n":                      `t.csv:1:6: column "name": appears twice`,
		"pattern\n":                        `t.csv:1:1: column "name": is missing`,
		"name,on\n\"F\nG\",2027-04-10\n":   "t.csv:2:1: name",
		"name,on\n\xff,2027-04-10\n":       `t.csv:2:1: letter "ÿ": is not saved as UTF-8`,
		"name,coat\nF,0.6\n":               `t.csv:2:3: coat "0.6": has no day behind it`,
		"name,growth\nF,0x1p-2\n":          `t.csv:2:3: growth "0x1p-2": is not a number`,
		"name,roll_only\nF,perhaps\n":      `t.csv:2:3: roll_only "perhaps": is not true or false`,
		"name,born\nF,2027-02-30\n":        `t.csv:2:3: born "2027-02-30": is not a day: February 2027 has 28`,
		"name,on\n" + strings.Repeat("F,2027-04-10\n", mostRows+1): "t.csv:10002:1: the table has more than 10000 rows",
	} {
		_, err := ReadCSV("t.csv", []byte(data))
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Try == "" {
			t.Errorf("%.40q: %v", data, err)
			continue
		}
		if !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%.40q: got %q, want %q", data, err.Error(), want)
		}
	}
}

// calendarOf is a calendar with the lines of its events.
func calendarOf(events ...string) []byte {
	var b strings.Builder
	b.WriteString("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//none//none//EN\r\n")
	for i, e := range events {
		fmt.Fprintf(&b, "BEGIN:VEVENT\r\nUID:%d@example\r\nDTSTAMP:20260101T000000Z\r\n%s\r\nEND:VEVENT\r\n", i, strings.ReplaceAll(e, "\n", "\r\n"))
	}
	b.WriteString("END:VCALENDAR\r\n")
	return []byte(b.String())
}

// days are the shows of a calendar as "name day days".
func days(t *testing.T, data []byte) (all []string) {
	t.Helper()
	rows, err := ReadICS(context.Background(), "t.ics", data, firstDay, lastDay)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows.Shows {
		var s kennel.Show
		r.Set(&s)
		all = append(all, fmt.Sprintf("%s %s %d", r.Name, r.On, s.Days))
	}
	return all
}

func TestEventsAreShowsOnTheirOwnDays(t *testing.T) {
	for event, want := range map[string][]string{
		"SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410":                                                                 {"Ferrydown 2027-04-10 1"},
		"SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410\nDTEND;VALUE=DATE:20270412":                                      {"Ferrydown 2027-04-10 2"},
		"SUMMARY:Late\nDTSTART;TZID=America/Los_Angeles:20270410T220000\nDTEND;TZID=America/Los_Angeles:20270410T230000": {"Late 2027-04-10 1"},
		"SUMMARY:Universal\nDTSTART:20270410T080000Z\nDTEND:20270411T000000Z":                                            {"Universal 2027-04-10 1"},
		"SUMMARY:A\\, B\nDTSTART;VALUE=DATE:20270410":                                                                    {"A, B 2027-04-10 1"},
		"SUMMARY:Past\nDTSTART;VALUE=DATE:20260410":                                                                      nil,
		"SUMMARY:Far\nDTSTART;VALUE=DATE:20400410":                                                                       nil,
		"SUMMARY:Off\nSTATUS:CANCELLED\nDTSTART;VALUE=DATE:20270410":                                                     nil,
		"SUMMARY:Yearly\nDTSTART;VALUE=DATE:20200229\nRRULE:FREQ=YEARLY":                                                 {"Yearly 2028-02-29 1"},
		"SUMMARY:Spring\nDTSTART;VALUE=DATE:20260509\nRRULE:FREQ=YEARLY;BYMONTH=5;BYDAY=2SA":                             {"Spring 2027-05-08 1", "Spring 2028-05-13 1"},
		"SUMMARY:Twice\nDTSTART;VALUE=DATE:20270410\nRRULE:FREQ=WEEKLY;COUNT=3\nEXDATE;VALUE=DATE:20270417":              {"Twice 2027-04-10 1", "Twice 2027-04-24 1"},
	} {
		if got := days(t, calendarOf(event)); !reflect.DeepEqual(got, want) {
			t.Errorf("%q: got %q, want %q", event, got, want)
		}
	}
}

func TestADayThatMovedTakesThePlaceOfTheSeries(t *testing.T) {
	data := strings.ReplaceAll(string(calendarOf(
		"SUMMARY:Monthly\nDTSTART;VALUE=DATE:20270410\nRRULE:FREQ=MONTHLY;COUNT=3",
		"SUMMARY:Monthly\nRECURRENCE-ID;VALUE=DATE:20270510\nDTSTART;VALUE=DATE:20270512",
	)), "UID:1@", "UID:0@")
	want := []string{"Monthly 2027-04-10 1", "Monthly 2027-06-10 1", "Monthly 2027-05-12 1"}
	if got := days(t, []byte(data)); !reflect.DeepEqual(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestABadCalendarIsRefused(t *testing.T) {
	for name, data := range map[string][]byte{
		"nothing":         nil,
		"no calendar":     []byte("kennel: Thornfield\n"),
		"no day":          calendarOf("SUMMARY:Ferrydown"),
		"no name":         calendarOf("DTSTART;VALUE=DATE:20270410"),
		"a day":           calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20271310"),
		"an end before":   calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410\nDTEND;VALUE=DATE:20270401"),
		"too long":        calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410\nDTEND;VALUE=DATE:20270510"),
		"a rule":          calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410\nRRULE:FREQ=SOMETIMES"),
		"every second":    calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:20270410\nRRULE:FREQ=SECONDLY"),
		"too often":       calendarOf("SUMMARY:Ferrydown\nDTSTART:19800410T080000Z\nRRULE:FREQ=DAILY"),
		"another century": calendarOf("SUMMARY:Ferrydown\nDTSTART;VALUE=DATE:25000410"),
		"too large":       []byte("BEGIN:VCALENDAR" + strings.Repeat("x", largest)),
	} {
		_, err := ReadICS(context.Background(), "t.ics", data, firstDay, lastDay)
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Try == "" || in.File != "t.ics" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func FuzzReadCSV(f *testing.F) {
	f.Add([]byte("name,on,days,weight,chance,away_from,dogs\nFerrydown,2027-04-10,2,1.5,0.4,2027-04-09,Sorrel; Moss\n"))
	f.Add([]byte("name,pattern,born,roll_only,coat\n\"Sorrel, Two\",wire-fox-terrier,2024-05-02,yes,0.6 2026-09-20; 0.4 2026-12-01\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := ReadCSV("t.csv", data)
		refusedOrSound(t, rows, err)
	})
}

func FuzzReadICS(f *testing.F) {
	f.Add(calendarOf("SUMMARY:Spring\nDTSTART;VALUE=DATE:20260509\nRRULE:FREQ=YEARLY;BYMONTH=5;BYDAY=2SA\nEXDATE:20270509"))
	f.Add(calendarOf("SUMMARY:Late\nDTSTART;TZID=America/Los_Angeles:20270410T220000\nDTEND;TZID=America/Los_Angeles:20270410T230000"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := ReadICS(context.Background(), "t.ics", data, firstDay, lastDay)
		refusedOrSound(t, rows, err)
		for _, r := range rows.Shows {
			if r.On < firstDay || r.On > lastDay {
				t.Errorf("%s on %s", r.Name, r.On)
			}
		}
	})
}

// refusedOrSound holds what was read to names on one line and days that there are, and what was refused to a reason.
func refusedOrSound(t *testing.T, rows Rows, err error) {
	t.Helper()
	if err != nil {
		var in *kennel.InputError
		if !errors.As(err, &in) || in.What == "" || in.Try == "" {
			t.Fatalf("%#v", err)
		}
		return
	}
	for _, r := range rows.Dogs {
		var d kennel.Dog
		r.Set(&d)
		if strings.TrimSpace(r.Name) == "" || strings.ContainsFunc(r.Name, breaks) {
			t.Errorf("a dog %q", r.Name)
		}
	}
	for _, r := range rows.Shows {
		s := kennel.Show{On: r.On, Days: 1}
		r.Set(&s)
		if strings.TrimSpace(r.Name) == "" || strings.ContainsFunc(r.Name, breaks) || r.On == 0 {
			t.Errorf("a show %q on %s", r.Name, r.On)
		}
	}
}
