package calendar

import (
	"bytes"
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/emersion/go-ical"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/sample"
)

// noon is when the sample's calendars are written: the day before its first day, so that nothing is past.
var noon = time.Date(2027, 1, 4, 12, 0, 0, 0, time.UTC)

// sampleIn is the sample in a zone, from its own day on.
func sampleIn(zone string) optimize.Result {
	r := sample.Result()
	r.Kennel.TimeZone = zone
	r.Timetable = sample.Timetable(r.On)
	return r
}

func calendarOf(t *testing.T, r optimize.Result, before []byte, now time.Time) []byte {
	t.Helper()
	var was Published
	if before != nil {
		var err error
		if was, err = Read(before, r.Kennel.Name); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := Write(&b, r, was, now); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// readBack reads a calendar by a library that did not write it, and has that library check which properties each
// component has.
func readBack(t *testing.T, data []byte) *ical.Calendar {
	t.Helper()
	c, err := ical.NewDecoder(bytes.NewReader(data)).Decode()
	if err != nil {
		t.Fatalf("%v in\n%s", err, data)
	}
	var again bytes.Buffer
	if err := ical.NewEncoder(&again).Encode(c); err != nil {
		t.Fatalf("%v in\n%s", err, data)
	}
	return c
}

func textOf(t *testing.T, e ical.Event, name string) string {
	t.Helper()
	s, err := e.Props.Text(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// eventOf finds the one event with this start of its summary.
func eventOf(t *testing.T, c *ical.Calendar, summary string) ical.Event {
	t.Helper()
	var found []ical.Event
	for _, e := range c.Events() {
		if strings.HasPrefix(textOf(t, e, ical.PropSummary), summary) {
			found = append(found, e)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d events begin with %q, want 1", len(found), summary)
	}
	return found[0]
}

func TestTheCalendarHoldsTheWeekTheShowsAndTheClosingDays(t *testing.T) {
	c := readBack(t, calendarOf(t, sampleIn("Europe/Dublin"), nil, noon))
	dublin, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		t.Fatal(err)
	}
	for summary, want := range map[string][2]time.Time{
		"Sorrel: skirt line first, 2 areas (Handler)": {time.Date(2027, 1, 5, 9, 0, 0, 0, dublin), time.Date(2027, 1, 5, 9, 43, 0, 0, dublin)},
		"Sorrel: ribs (Handler)":                      {time.Date(2027, 1, 7, 9, 0, 0, 0, dublin), time.Date(2027, 1, 7, 9, 43, 0, 0, dublin)},
		"Sorrel: lifting bath (Assistant)":            {time.Date(2027, 1, 5, 11, 20, 0, 0, dublin), time.Date(2027, 1, 5, 11, 50, 0, 0, dublin)},
		"Moss: nails (Handler)":                       {time.Date(2027, 1, 6, 9, 0, 0, 0, dublin), time.Date(2027, 1, 6, 9, 10, 0, 0, dublin)},
	} {
		e := eventOf(t, c, summary)
		start, errS := e.DateTimeStart(nil)
		end, errE := e.DateTimeEnd(nil)
		if errS != nil || errE != nil || !start.Equal(want[0]) || !end.Equal(want[1]) {
			t.Errorf("%s is from %v to %v (%v, %v), want %v", summary, start, end, errS, errE, want)
		}
		if zone := e.Props.Get(ical.PropDateTimeStart).Params.Get(ical.PropTimezoneID); zone != "Europe/Dublin" {
			t.Errorf("%s is in zone %q", summary, zone)
		}
	}
	for summary, want := range map[string][2]string{
		"Travel: Fallowgate Open":    {"20270109", "20270110"},
		"Hoped for: Fallowgate Open": {"20280108", "20280109"},
		"Hoped for: Ashgillan Show":  {"20280205", "20280206"},
		"Entries close: Fallowgate":  {"20271220", "20271221"},
	} {
		e := eventOf(t, c, summary)
		from, to := e.Props.Get(ical.PropDateTimeStart), e.Props.Get(ical.PropDateTimeEnd)
		if from.ValueType() != ical.ValueDate || from.Value != want[0] || to.ValueType() != ical.ValueDate || to.Value != want[1] {
			t.Errorf("%s is %s %s to %s %s, want the days %v", summary, from.ValueType(), from.Value, to.ValueType(), to.Value, want)
		}
	}
	if n := len(c.Events()); n != 11 {
		t.Errorf("%d events, want 7 of the days, 2 shows, a journey and a closing day", n)
	}
}

func TestOnlyTheClosingDayHasAnAlarmTwoDaysBefore(t *testing.T) {
	c := readBack(t, calendarOf(t, sampleIn("Europe/Dublin"), nil, noon))
	for _, e := range c.Events() {
		closing := strings.HasPrefix(textOf(t, e, ical.PropSummary), "Entries close")
		if got := len(e.Children); closing != (got == 1) || got > 1 {
			t.Errorf("%s has %d alarms", textOf(t, e, ical.PropSummary), got)
			continue
		}
		for _, a := range e.Children {
			before, err := a.Props.Get(ical.PropTrigger).Duration()
			if err != nil || before != -39*time.Hour || a.Name != ical.CompAlarm || a.Props.Get(ical.PropAction).Value != "DISPLAY" {
				t.Errorf("alarm %v, %v: %v", a.Name, before, err)
			}
		}
	}
}

func TestASessionSaysWhatToDo(t *testing.T) {
	e := eventOf(t, readBack(t, calendarOf(t, sampleIn(""), nil, noon)), "Sorrel: skirt line first")
	want := "Brackenmere in 10 weeks\n- skirt line: about 1 in 17, 10 min\n- ears: about 1 in 8, 20 min\nLift: back-comb with powder\n" +
		"Pull: fingers and stone\nStop when skin is red, hot or broken and ask the vet."
	if got := textOf(t, e, ical.PropDescription); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestASessionCutByABreakIsOneEntry(t *testing.T) {
	e := eventOf(t, readBack(t, calendarOf(t, sample.BrokenSession(), nil, noon)), "Sorrel: skirt line first, 3 areas")
	if got := e.Props.Get("DTEND").Value; got != "20270105T102000" {
		t.Errorf("ends at %s", got)
	}
}

func TestWithoutAZoneTimesAreThoseOfTheClockOnTheWall(t *testing.T) {
	c := readBack(t, calendarOf(t, sampleIn(""), nil, noon))
	p := eventOf(t, c, "Sorrel: skirt line first").Props.Get(ical.PropDateTimeStart)
	if p.Value != "20270105T090000" || len(p.Params) != 0 {
		t.Errorf("start %q with %v", p.Value, p.Params)
	}
	for _, child := range c.Children {
		if child.Name == ical.CompTimezone {
			t.Error("there is a zone")
		}
	}
}

// RFC 5545, 3.1: lines end in CRLF, hold at most 75 octets, and no character is cut in two.
func TestLinesAreFoldedWhateverTheNames(t *testing.T) {
	for _, who := range append(hostileNames(), sample.TerminalName, sample.FormulaName, "\xff\xfe") {
		r := sampleIn("Europe/Dublin")
		r.Kennel.Name = who
		sample.RenameTimetable(&r.Timetable, who)
		for i := range r.Kennel.Shows {
			r.Kennel.Shows[i].Name = who
		}
		data := calendarOf(t, r, nil, noon)
		for _, line := range strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n") {
			if len(line) > 75 || strings.ContainsAny(line, "\r\n") || !utf8.ValidString(line) || line == "" {
				t.Errorf("with %q: %d octets in %q", who, len(line), line)
			}
		}
		readBack(t, data)
	}
}

func hostileNames() []string {
	return []string{
		"comma, semicolon; colon: and \"quote\"", `back\slash \n \; \\`, "two\nlines", "🐶👨‍👩‍👧 emoji", sample.HebrewName,
		strings.Repeat("x", 200), strings.Repeat("犬", 200), strings.Repeat("🐶", 200), "  blanks  around  ", "",
	}
}

func TestHostileNamesReadBackAsTheyWere(t *testing.T) {
	for _, who := range hostileNames() {
		r := sampleIn("Europe/Dublin")
		sample.RenameTimetable(&r.Timetable, who)
		c := readBack(t, calendarOf(t, r, nil, noon))
		want := who + "Sorrel: skirt line first, 2 areas (" + who + "Handler)"
		if !slices.ContainsFunc(c.Events(), func(e ical.Event) bool { return textOf(t, e, ical.PropSummary) == want }) {
			t.Errorf("no event is called %q", want)
		}
	}
	if got := text("a\r\nb\rc\td\x00e\u202ef\u2028g"); got != "a\nb\nc d·e·f\ng" {
		t.Errorf("got %q", got)
	}
}

// The zone in the file must say of every time in it what the zone database says. The weeks are those in which clocks
// change, and one in a zone where they never do.
func TestZonesAreRightInTheWeeksWhenClocksChange(t *testing.T) {
	for _, c := range []struct {
		zone string
		from kennel.Date
		want int // observances
	}{
		{"Europe/Dublin", kennel.NewDate(2027, 3, 23), 2},
		{"Europe/Dublin", kennel.NewDate(2027, 10, 26), 2},
		{"Europe/Dublin", kennel.NewDate(2027, 1, 5), 1},
		{"America/New_York", kennel.NewDate(2027, 3, 9), 2},
		{"America/New_York", kennel.NewDate(2027, 11, 2), 2},
		{"Australia/Lord_Howe", kennel.NewDate(2027, 3, 30), 2},
		{"Australia/Lord_Howe", kennel.NewDate(2027, 9, 28), 2},
		{"Africa/Casablanca", kennel.NewDate(2027, 2, 2), 2},
		{"Europe/Dublin", kennel.NewDate(2038, 3, 23), 2},
		{"America/New_York", kennel.NewDate(2099, 3, 3), 2},
		{"Australia/Lord_Howe", kennel.NewDate(2199, 9, 30), 2},
		{"Asia/Kolkata", kennel.NewDate(2027, 3, 23), 1},
		{"UTC", kennel.NewDate(2027, 3, 23), 1},
	} {
		t.Run(c.zone+" "+c.from.String(), func(t *testing.T) {
			r := sampleIn(c.zone)
			r.On, r.Timetable = c.from, sample.Timetable(c.from)
			loc, err := time.LoadLocation(c.zone)
			if err != nil {
				t.Fatal(err)
			}
			cal := readBack(t, calendarOf(t, r, nil, c.from.Time()))
			zone := cal.Children[slices.IndexFunc(cal.Children, func(c *ical.Component) bool { return c.Name == ical.CompTimezone })]
			if id := zone.Props.Get(ical.PropTimezoneID).Value; id != c.zone || len(zone.Children) != c.want {
				t.Errorf("zone %q with %d observances, want %d", id, len(zone.Children), c.want)
			}
			checked := 0
			for _, e := range cal.Events() {
				for _, name := range []string{ical.PropDateTimeStart, ical.PropDateTimeEnd} {
					p := e.Props.Get(name)
					if p.ValueType() == ical.ValueDate {
						continue
					}
					got := offsetAt(t, zone, p.Value)
					local, err := time.ParseInLocation(timeLayout, p.Value, loc)
					if err != nil {
						t.Fatal(err)
					}
					if _, want := local.Zone(); got != want {
						t.Errorf("%s is %d s from UTC by the file, %d s by the zone database", p.Value, got, want)
					}
					checked++
				}
			}
			if checked != 14 {
				t.Errorf("%d times, want 14", checked)
			}
		})
	}
}

// offsetAt is the offset of a local time by the observances of a VTIMEZONE alone: that of the last one which begins
// at or before it (RFC 5545, 3.6.5). It also holds each observance to its kind and to the one before it.
func offsetAt(t *testing.T, zone *ical.Component, local string) int {
	t.Helper()
	offset, begin, have := 0, "", false
	last := ""
	for _, o := range zone.Children {
		from, to := seconds(t, o.Props.Get(ical.PropTimezoneOffsetFrom).Value), seconds(t, o.Props.Get(ical.PropTimezoneOffsetTo).Value)
		if (o.Name == ical.CompTimezoneDaylight) != (to > from) {
			t.Errorf("%s goes from %d to %d", o.Name, from, to)
		}
		if have && last != o.Props.Get(ical.PropTimezoneOffsetFrom).Value {
			t.Errorf("an observance begins from %s, but the one before it ends with %s", o.Props.Get(ical.PropTimezoneOffsetFrom).Value, last)
		}
		last = o.Props.Get(ical.PropTimezoneOffsetTo).Value
		if start := o.Props.Get(ical.PropDateTimeStart).Value; start <= local && start >= begin {
			offset, begin = to, start
			have = true
		}
	}
	if !have {
		t.Errorf("no observance holds %s", local)
	}
	return offset
}

func seconds(t *testing.T, offset string) int {
	t.Helper()
	n, err := strconv.Atoi(offset[1:])
	if err != nil || len(offset) != len("+0100") {
		t.Fatalf("offset %q: %v", offset, err)
	}
	s := n/100*3600 + n%100*60
	if offset[0] == '-' {
		return -s
	}
	return s
}

// Every change of the clocks is told once and none is made up, also where the zone database gives only a rule.
func TestEveryChangeOfTheClocksIsToldOnce(t *testing.T) {
	for _, name := range []string{"Europe/Dublin", "America/New_York", "Australia/Lord_Howe", "Africa/Casablanca", "Asia/Kolkata"} {
		loc, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		first, last := time.Date(2030, 1, 15, 0, 0, 0, 0, loc), time.Date(2060, 1, 15, 0, 0, 0, 0, loc)
		want := 1
		_, offset := first.Zone()
		for at := first; at.Before(last); at = at.Add(30 * time.Minute) {
			if _, now := at.Zone(); now != offset {
				want, offset = want+1, now
			}
		}
		if got := len(zoneBetween(name, first, last).Components); got != want {
			t.Errorf("%s has %d stretches in 30 years, want %d", name, got, want)
		}
	}
}

func TestTheZoneOfDublinHasItsWinterTimeAsStandard(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	r.On = kennel.NewDate(2027, 10, 26)
	r.Timetable = sample.Timetable(r.On)
	got := string(calendarOf(t, r, nil, noon))
	for _, want := range []string{
		"BEGIN:DAYLIGHT\r\nDTSTART:20270328T010000\r\nTZOFFSETFROM:+0000\r\nTZOFFSETTO:+0100\r\nTZNAME:IST\r\nEND:DAYLIGHT\r\n",
		"BEGIN:STANDARD\r\nDTSTART:20271031T020000\r\nTZOFFSETFROM:+0100\r\nTZOFFSETTO:+0000\r\nTZNAME:GMT\r\nEND:STANDARD\r\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}

func numbered(t *testing.T, e ical.Event) int {
	t.Helper()
	n, err := e.Props.Get(ical.PropSequence).Int()
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func uidOf(e ical.Event) string { return e.Props.Get(ical.PropUID).Value }

func TestWritingTheSamePlanAgainChangesNothing(t *testing.T) {
	for _, zone := range []string{"", "Europe/Dublin"} {
		for _, who := range append(hostileNames(), sample.TerminalName) {
			r := sampleIn(zone)
			sample.RenameTimetable(&r.Timetable, who)
			first := calendarOf(t, r, nil, noon)
			if again := calendarOf(t, r, first, noon.Add(time.Hour)); !bytes.Equal(first, again) {
				t.Errorf("zone %q, name %q:\n%s\nbecame\n%s", zone, who, first, again)
			}
		}
	}
}

func TestWhatMovesKeepsItsNameAndIsNumberedOn(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	data := calendarOf(t, r, nil, noon)
	was := readBack(t, data)

	// Sorrel's second session moves from Thursday to Friday, Moss's nails by an hour.
	moved := r.Timetable.Days[2].Hands
	r.Timetable.Days[2].Hands, r.Timetable.Days[3].Hands = nil, moved
	nails := &r.Timetable.Days[1].Hands[0].Items[0]
	nails.Start, nails.End = nails.Start+60, nails.End+60
	later := noon.Add(3 * time.Hour)
	now := readBack(t, calendarOf(t, r, data, later))

	changed := map[string]bool{"Sorrel: ribs (Handler)": true, "Moss: nails (Handler)": true}
	if len(now.Events()) != len(was.Events()) {
		t.Fatalf("%d events became %d", len(was.Events()), len(now.Events()))
	}
	for _, old := range was.Events() {
		summary := textOf(t, old, ical.PropSummary)
		i := slices.IndexFunc(now.Events(), func(e ical.Event) bool { return uidOf(e) == uidOf(old) })
		if i < 0 {
			t.Fatalf("%s lost its name", summary)
		}
		e := now.Events()[i]
		if textOf(t, e, ical.PropSummary) != summary {
			t.Errorf("%s became %s", summary, textOf(t, e, ical.PropSummary))
		}
		stamp := noon
		if changed[summary] {
			stamp = later
		}
		at, err := e.Props.DateTime(ical.PropDateTimeStamp, nil)
		if err != nil || !at.Equal(stamp) || (numbered(t, e) == 1) != changed[summary] {
			t.Errorf("%s has SEQUENCE %d and stamp %v (%v)", summary, numbered(t, e), at, err)
		}
	}
	e := eventOf(t, now, "Sorrel: ribs")
	if start := e.Props.Get(ical.PropDateTimeStart).Value; start != "20270108T090000" {
		t.Errorf("moved to %s", start)
	}
}

func TestASessionMoreLeavesTheOthersAlone(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	data := calendarOf(t, r, nil, noon)
	r.Timetable.Days[1].Hands[0].Items = append(r.Timetable.Days[1].Hands[0].Items, r.Timetable.Days[0].Hands[0].Items[0])
	more := calendarOf(t, r, data, noon.Add(time.Hour))
	if n := strings.Count(string(more), "SEQUENCE:1"); n != 0 {
		t.Errorf("%d events were numbered on", n)
	}
	if a, b := len(readBack(t, data).Events()), len(readBack(t, more).Events()); b != a+1 {
		t.Errorf("%d events became %d", a, b)
	}
}

func TestWhatIsNotPlannedAnyMoreIsCancelledOnce(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	data := calendarOf(t, r, nil, noon)
	kept := r.Timetable.Days[2].Hands
	r.Timetable.Days[2].Hands = nil
	gone := calendarOf(t, r, data, noon.Add(time.Hour))
	e := eventOf(t, readBack(t, gone), "Sorrel: ribs")
	if got := textOf(t, e, ical.PropStatus); got != "CANCELLED" || numbered(t, e) != 1 {
		t.Errorf("status %s, SEQUENCE %d", got, numbered(t, e))
	}
	if again := calendarOf(t, r, gone, noon.Add(2*time.Hour)); !bytes.Equal(gone, again) {
		t.Errorf("cancelled twice:\n%s", again)
	}
	r.Timetable.Days[2].Hands = kept
	back := eventOf(t, readBack(t, calendarOf(t, r, gone, noon.Add(3*time.Hour))), "Sorrel: ribs")
	if got := textOf(t, back, ical.PropStatus); got != "CONFIRMED" || numbered(t, back) != 2 || uidOf(back) != uidOf(e) {
		t.Errorf("planned again: status %s, SEQUENCE %d", got, numbered(t, back))
	}
}

// On Thursday the work of Tuesday is past: it stays as it was, and its name is not given to what is still ahead, even
// if that moves.
func TestWhatIsPastStaysAndKeepsItsName(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	data := calendarOf(t, r, nil, noon)
	before := eventOf(t, readBack(t, data), "Sorrel: skirt line first")
	r.On = r.On.AddDays(2)
	r.Timetable.Days = r.Timetable.Days[2:]
	r.Timetable.Days[1].Hands, r.Timetable.Days[0].Hands = r.Timetable.Days[0].Hands, nil
	thursday := calendarOf(t, r, data, noon.AddDate(0, 0, 3).Add(-6*time.Hour))
	c := readBack(t, thursday)
	past := eventOf(t, c, "Sorrel: skirt line first")
	if uidOf(past) != uidOf(before) || numbered(t, past) != 0 || past.Props.Get(ical.PropDateTimeStart).Value != "20270105T090000" {
		t.Errorf("what is past was changed: %v", past.Props)
	}
	if e := eventOf(t, c, "Sorrel: ribs"); uidOf(e) == uidOf(past) || numbered(t, e) != 1 {
		t.Errorf("what is ahead has the name %s, SEQUENCE %d", uidOf(e), numbered(t, e))
	}
	r.On = r.On.AddDays(7)
	r.Timetable = optimize.Timetable{}
	if left := string(calendarOf(t, r, thursday, noon.AddDate(0, 0, 10))); strings.Contains(left, "Sorrel: skirt line first") {
		t.Errorf("last week is still there:\n%s", left)
	}
}

// A session more on Friday gets a name of its own, not the one of Tuesday's, which is past.
func TestNamesOfWhatIsPastAreNotGivenAgain(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	data := calendarOf(t, r, nil, noon)
	r.On = r.On.AddDays(2)
	r.Timetable.Days = r.Timetable.Days[2:]
	r.Timetable.Days[1].Hands = r.Timetable.Days[0].Hands
	c := readBack(t, calendarOf(t, r, data, noon.AddDate(0, 0, 3).Add(-6*time.Hour)))
	names := map[string]bool{}
	for _, e := range c.Events() {
		if strings.HasPrefix(textOf(t, e, ical.PropSummary), "Sorrel: ribs") || strings.HasPrefix(textOf(t, e, ical.PropSummary), "Sorrel: skirt") {
			names[uidOf(e)] = true
		}
	}
	if len(names) != 3 {
		t.Errorf("%d names for Tuesday, Thursday and Friday", len(names))
	}
}

// What was done this morning is not planned again in the afternoon, and stays.
func TestThisMorningIsPastByTheKennelsClock(t *testing.T) {
	r := sampleIn("Pacific/Auckland")
	data := calendarOf(t, r, nil, noon.AddDate(0, 0, -2))
	r.Timetable.Days[0].Hands = nil
	auckland, err := time.LoadLocation("Pacific/Auckland")
	if err != nil {
		t.Fatal(err)
	}
	c := readBack(t, calendarOf(t, r, data, time.Date(2027, 1, 5, 9, 43, 0, 0, auckland).UTC()))
	for summary, want := range map[string]string{"Sorrel: skirt line first": "CONFIRMED", "Moss: back (Handler)": "CANCELLED"} {
		for _, e := range c.Events() {
			start := e.Props.Get(ical.PropDateTimeStart).Value
			if strings.HasPrefix(textOf(t, e, ical.PropSummary), summary) && strings.HasPrefix(start, "20270105") && textOf(t, e, ical.PropStatus) != want {
				t.Errorf("%s at %s is %s, want %s", summary, start, textOf(t, e, ical.PropStatus), want)
			}
		}
	}
}

func TestNamesOfEntriesDoNotComeFromTheirTimes(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	uids := func() (all []string) {
		for _, e := range readBack(t, calendarOf(t, r, nil, noon)).Events() {
			all = append(all, uidOf(e))
		}
		slices.Sort(all)
		return all
	}
	was := uids()
	if len(slices.Compact(slices.Clone(was))) != len(was) {
		t.Error("two entries have the same name")
	}
	for d := range r.Timetable.Days {
		for h := range r.Timetable.Days[d].Hands {
			for i := range r.Timetable.Days[d].Hands[h].Items {
				if item := &r.Timetable.Days[d].Hands[h].Items[i]; item.Kind != optimize.ItemTravel {
					item.Start, item.End = item.Start+15, item.End+15
				}
			}
		}
	}
	if now := uids(); !slices.Equal(was, now) {
		t.Errorf("names changed with the times: %v, %v", was, now)
	}
	r.Kennel.Name = "Quernby"
	if now := uids(); slices.Equal(was, now) {
		t.Error("another kennel's entries have the same names")
	}
}

func TestWhatSomebodyElseWroteIntoTheFileStays(t *testing.T) {
	r := sampleIn("Europe/Dublin")
	theirs := "BEGIN:VEVENT\r\nUID:1@example\r\nDTSTAMP:20270101T000000Z\r\nDTSTART:20270105T120000Z\r\nSUMMARY:Dentist\r\nEND:VEVENT\r\n"
	data := strings.Replace(string(calendarOf(t, r, nil, noon)), "END:VCALENDAR", theirs+"END:VCALENDAR", 1)
	if got := string(calendarOf(t, r, []byte(data), noon)); !strings.Contains(got, theirs) {
		t.Errorf("theirs is gone:\n%s", got)
	}
}

func TestOnlyTheKennelsOwnCalendarIsTakenAsWrittenBefore(t *testing.T) {
	ours := calendarOf(t, sampleIn("Europe/Dublin"), nil, noon)
	for name, c := range map[string]struct {
		data string
		want error
	}{
		"nothing":         {"", ErrNone},
		"a text":          {"Dear handler,\r\n", ErrNone},
		"half a calendar": {"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\n", ErrNone},
		"another program": {strings.ReplaceAll(string(ours), product, "-//somebody//EN"), ErrNone},
		"another kennel":  {strings.ReplaceAll(string(ours), "X-WR-CALNAME:Thornfield", "X-WR-CALNAME:Quernby"), ErrOther},
		"ours":            {string(ours), nil},
	} {
		if _, err := Read([]byte(c.data), "Thornfield"); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	var b bytes.Buffer
	r := sample.Result()
	r.Kennel.TimeZone, r.Timetable = "Europe/Dublin", sample.Timetable(r.On)
	if err := Write(&b, r, Published{}, noon); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("BEGIN:VCALENDAR\r\nPRODID:" + product + "\r\nX-WR-CALNAME:Thornfield: coat work\r\nBEGIN:VEVENT\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		was, err := Read(data, r.Kennel.Name)
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := Write(&out, r, was, noon); err != nil {
			t.Fatal(err)
		}
		if _, err := Read(out.Bytes(), r.Kennel.Name); err != nil {
			t.Fatalf("%v in\n%s", err, out.Bytes())
		}
	})
}
