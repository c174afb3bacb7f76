package text

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"tuckup/kennel"
)

// Bounds of a calendar that is read.
const (
	mostEvents = 5000 // in one file
	mostDays   = 14   // days that a show may last
)

// ReadICS reads shows from a calendar (RFC 5545): every event that is not cancelled and lasts 14 days at most is a show,
// under its summary, on its days as the event's own zone has them. Series are followed from the first day to the last,
// both included, and what lies outside is left out. The error is a *kennel.InputError, or that of a context that ended.
func ReadICS(ctx context.Context, name string, data []byte, first, last kennel.Date) (rows Rows, err error) {
	defer func() {
		if slip := recover(); slip != nil { // a slip of the calendar library on odd text
			rows, err = Rows{}, noCalendar(name, "is not a calendar")
		}
	}()
	if len(data) > largest {
		return Rows{}, noCalendar(name, fmt.Sprintf("is larger than %d bytes", largest))
	}
	if !bytes.Contains(data, []byte("BEGIN:VCALENDAR")) {
		return Rows{}, noCalendar(name, "is not a calendar: there is no BEGIN:VCALENDAR in it")
	}
	calendar, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		return Rows{}, noCalendar(name, "is not a calendar: "+err.Error())
	}
	events := calendar.Events()
	if len(events) > mostEvents {
		return Rows{}, noCalendar(name, fmt.Sprintf("holds more than %d events", mostEvents))
	}
	moved, f := movedDays(events), newFollower(ctx, first, last)
	for _, e := range events {
		if err := ctx.Err(); err != nil {
			return Rows{}, err
		}
		shows, err := showsOf(e, f, moved)
		if ctx.Err() != nil {
			return Rows{}, ctx.Err()
		}
		if err != nil {
			err.File = name
			return Rows{}, err
		}
		rows.Shows = append(rows.Shows, shows...)
	}
	return rows, nil
}

func noCalendar(name, what string) *kennel.InputError {
	return &kennel.InputError{File: name, What: what, Try: "a calendar file (.ics) with the shows as events"}
}

// property is a property's words, "" where the event has none.
func property(e *ics.VEvent, p ics.ComponentProperty) string {
	if at := e.GetProperty(p); at != nil {
		return at.Value
	}
	return ""
}

// movedDays are the days of series that events of their own take the place of, by the series' name.
func movedDays(events []*ics.VEvent) map[string]bool {
	moved := map[string]bool{}
	for _, e := range events {
		if id := e.GetProperty(ics.ComponentPropertyRecurrenceId); id != nil {
			if at, _, err := instant(id.Value, id.ICalParameters); err == nil {
				moved[property(e, ics.ComponentPropertyUniqueId)+" "+kennel.DateOf(at).String()] = true
			}
		}
	}
	return moved
}

// showsOf are the shows that an event stands for.
func showsOf(e *ics.VEvent, f *follower, moved map[string]bool) ([]Row[kennel.Show], *kennel.InputError) {
	title := strings.TrimSpace(strings.Map(func(c rune) rune {
		if breaks(c) {
			return ' '
		}
		return c
	}, property(e, ics.ComponentPropertySummary)))
	fail := func(field, value, what, try string) *kennel.InputError {
		return &kennel.InputError{Field: "event " + shortened(title) + ": " + field, Value: shortened(value), What: what, Try: try}
	}
	start := e.GetProperty(ics.ComponentPropertyDtStart)
	switch {
	case strings.EqualFold(property(e, ics.ComponentPropertyStatus), "CANCELLED"):
		return nil, nil
	case title == "":
		return nil, fail("SUMMARY", "", "is missing", "a SUMMARY: with the show's name")
	case start == nil:
		return nil, fail("DTSTART", "", "is missing", "a DTSTART: with the show's first day")
	}
	from, whole, err := instant(start.Value, start.ICalParameters)
	if err != nil {
		return nil, fail("DTSTART", start.Value, "is not a time that can be read", "a day like 20270320")
	}
	days, err := lasts(e, from, whole)
	if err != nil {
		return nil, fail("DTEND", property(e, ics.ComponentPropertyDtEnd), err.Error(), "an end after the start, at most 14 days after it")
	}
	starts, err := f.starts(e, from)
	if err != nil {
		try := "a rule like FREQ=YEARLY, or an event for each show"
		if errors.Is(err, errBudget) {
			try = "a calendar that holds the shows alone"
		}
		return nil, fail("RRULE", property(e, ics.ComponentPropertyRrule), err.Error(), try)
	}
	var shows []Row[kennel.Show]
	for _, at := range starts {
		on := kennel.DateOf(at)
		series := len(starts) > 1 || property(e, ics.ComponentPropertyRrule) != ""
		if on < f.first || on > f.last || series && moved[property(e, ics.ComponentPropertyUniqueId)+" "+on.String()] {
			continue
		}
		shows = append(shows, Row[kennel.Show]{Name: title, On: on, Set: func(s *kennel.Show) { s.Days = days }})
	}
	return shows, nil
}

// instant reads a day or a time with its zone.
func instant(value string, params map[string][]string) (at time.Time, wholeDay bool, err error) {
	zone := time.UTC
	if id := params["TZID"]; len(id) > 0 {
		if z, err := time.LoadLocation(strings.Trim(id[0], `"`)); err == nil {
			zone = z // an unknown zone's clock still shows the day
		}
	}
	if at, err = time.ParseInLocation("20060102", value, time.UTC); err == nil {
		return at, true, inYears(at)
	}
	if at, err = time.ParseInLocation("20060102T150405", strings.TrimSuffix(value, "Z"), zone); err == nil {
		return at, false, inYears(at)
	}
	return at, false, err
}

// inYears refuses days that no kennel knows.
func inYears(at time.Time) error {
	_, err := kennel.ParseDate(at.Format(time.DateOnly))
	return err
}

// lasts is how many days an event lasts; the end of whole days is the day after the last.
func lasts(e *ics.VEvent, from time.Time, whole bool) (int, error) {
	end := e.GetProperty(ics.ComponentPropertyDtEnd)
	if end == nil {
		return 1, nil
	}
	to, _, err := instant(end.Value, end.ICalParameters)
	if err != nil {
		return 0, errors.New("is not a time that can be read")
	}
	days := int(kennel.DateOf(to)-kennel.DateOf(from)) + 1
	if midnight := to.Hour() == 0 && to.Minute() == 0 && to.Second() == 0; days > 1 && (whole || midnight) {
		days--
	}
	switch {
	case days < 1:
		return 0, errors.New("is before the start")
	case days > mostDays:
		return 0, fmt.Errorf("is %d days after the start", days)
	}
	return days, nil
}
