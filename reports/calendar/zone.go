package calendar

import (
	"fmt"
	"slices"
	"time"

	ics "github.com/arran4/golang-ical"
)

// zonesOf are the zones that the events' times are given in, each with every change of its clocks from the first of
// them to the last.
func zonesOf(events []*ics.VEvent) []*ics.VTimezone {
	spans := map[string][2]time.Time{}
	for _, e := range events {
		for _, which := range []ics.ComponentProperty{ics.ComponentPropertyDtStart, ics.ComponentPropertyDtEnd} {
			zone, t, ok := zonedTime(e.GetProperty(which))
			if !ok {
				continue
			}
			span, seen := spans[zone]
			if !seen {
				span = [2]time.Time{t, t}
			}
			if t.Before(span[0]) {
				span[0] = t
			}
			if t.After(span[1]) {
				span[1] = t
			}
			spans[zone] = span
		}
	}
	var names []string
	for name := range spans {
		names = append(names, name)
	}
	slices.Sort(names)
	var zones []*ics.VTimezone
	for _, name := range names {
		zones = append(zones, zoneBetween(name, spans[name][0], spans[name][1]))
	}
	return zones
}

// zonedTime is a property's time and the zone that it is given in, if there is one.
func zonedTime(p *ics.IANAProperty) (zone string, t time.Time, ok bool) {
	if p == nil || len(p.ICalParameters[string(ics.ParameterTzid)]) != 1 {
		return "", t, false
	}
	zone = p.ICalParameters[string(ics.ParameterTzid)][0]
	place, err := time.LoadLocation(zone)
	if err != nil {
		return "", t, false
	}
	t, err = time.ParseInLocation(timeLayout, p.Value, place)
	return zone, t, err == nil
}

// zoneBetween says how a zone's clocks stand from the first time to the last: one observance for each stretch between
// two changes (RFC 5545, 3.6.5). Offsets are taken as they are, and the larger of two is called daylight time, so that
// it does not matter which of its times a country calls the standard.
func zoneBetween(name string, first, last time.Time) *ics.VTimezone {
	z := ics.NewTimezone(name)
	for t := first; ; {
		c := stretchOf(t)
		o := ics.NewStandard()
		o.SetProperty(ics.ComponentPropertyDtStart, c.onset())
		o.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetfrom), offsetWords(c.from))
		o.SetProperty(ics.ComponentProperty(ics.PropertyTzoffsetto), offsetWords(c.offset))
		o.SetProperty(ics.ComponentProperty(ics.PropertyTzname), c.short)
		if c.offset > c.from {
			z.Components = append(z.Components, &ics.Daylight{ComponentBase: o.ComponentBase})
		} else {
			z.Components = append(z.Components, o)
		}
		if c.end.IsZero() || c.end.After(last) {
			return z
		}
		t = c.end
	}
}

// stretch is the time between two changes of a zone's clocks.
type stretch struct {
	start, end   time.Time // zero = no change is known
	from, offset int       // seconds from UTC before and in it
	short        string
}

// onset is when the stretch begins, by the clock before the change.
func (s stretch) onset() string {
	if s.start.IsZero() {
		return "19700101T000000" // for as long as is known
	}
	return s.start.UTC().Add(time.Duration(s.from) * time.Second).Format(timeLayout)
}

// stretchOf is the stretch that holds t. Package time also ends one with each year that its table of changes does not
// reach, 2038 and later; there the clocks go on as before, and so does the stretch.
func stretchOf(t time.Time) stretch {
	var s stretch
	s.short, s.offset = t.Zone()
	s.from = s.offset
	for s.start, _ = t.ZoneBounds(); !s.start.IsZero(); s.start, _ = s.start.Add(-time.Second).ZoneBounds() {
		if _, s.from = s.start.Add(-time.Second).Zone(); s.from != s.offset {
			break
		}
	}
	for at := t; ; {
		_, s.end = at.ZoneBounds()
		if s.end.IsZero() {
			return s
		}
		if !s.end.After(at) {
			s.end = at.Add(time.Hour)
		}
		if _, next := s.end.Zone(); next != s.offset {
			return s
		}
		at = s.end
	}
}

// offsetWords is an offset from UTC, given in seconds, like +0100.
func offsetWords(seconds int) string {
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	words := fmt.Sprintf("%c%02d%02d", sign, seconds/3600, seconds/60%60)
	if seconds%60 != 0 {
		words += fmt.Sprintf("%02d", seconds%60)
	}
	return words
}
