package calendar

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"tuckup/kennel"
)

// Published is a calendar as it was written before; the zero value is none.
type Published struct{ events []*ics.VEvent }

// The calendars that are not to be written over.
var (
	ErrNone  = errors.New("is not a calendar that tuckup wrote")
	ErrOther = errors.New("is the calendar of another kennel")
)

// Read reads a calendar that Write wrote for the kennel of this name. The error is ErrNone or ErrOther.
func Read(data []byte, kennelName string) (Published, error) {
	c, err := ics.ParseCalendar(bytes.NewReader(data))
	if err != nil {
		return Published{}, ErrNone
	}
	has := func(name, value string) bool {
		return slices.ContainsFunc(c.CalendarProperties, func(p ics.CalendarProperty) bool { return p.IANAToken == name && p.Value == value })
	}
	switch {
	case !has(string(ics.PropertyProductId), product):
		return Published{}, ErrNone
	case !has(string(ics.PropertyXWRCalName), title(kennelName)):
		return Published{}, ErrOther
	}
	return Published{slices.DeleteFunc(c.Events(), unreadable)}, nil
}

// unreadable reports whether an event lacks what it must have (RFC 5545, 3.6.1): a name and a start.
func unreadable(v *ics.VEvent) bool {
	_, ok := startOf(v)
	return !ok || v.Id() == ""
}

// naming gives entries their names and SEQUENCE numbers.
type naming struct {
	kennel string
	before Published
	week   kennel.Date // the Monday of this week
	passed func(end moment) bool
}

// uid names the n-th entry of a slot, from 1. Nothing of its time is in it, so it stays when the entry is moved.
func (n naming) uid(s slot, count int) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%q %q %q %q %s %d", n.kennel, s.kind, s.who, s.what, s.since, count))
	return fmt.Sprintf("%x%s", sum[:16], uidEnd)
}

// uidEnd marks the events that are ours.
const uidEnd = "@tuckup"

// mostOfASlot is how many entries of one slot are looked for in what was written before: more than a dog has sessions,
// or turns of one duty, in a week.
const mostOfASlot = 21

// events are the entries as events, and after them what was written before and is not planned any more, all in order
// of time.
func (n naming) events(entries []entry, zone string, now time.Time) []*ics.VEvent {
	old := map[string]*ics.VEvent{}
	for _, e := range n.before.events {
		old[e.Id()] = e
	}
	names := n.names(entries, old)
	taken := map[string]bool{}
	var events []*ics.VEvent
	for i, e := range entries {
		v := e.event(names[i], zone)
		stamp(v, old[names[i]], now)
		events = append(events, v)
		taken[names[i]] = true
	}
	for _, e := range n.before.events {
		if taken[e.Id()] {
			continue
		}
		if kept := n.unplanned(e, now); kept != nil {
			events = append(events, kept)
		}
	}
	slices.SortStableFunc(events, func(a, b *ics.VEvent) int {
		return strings.Compare(a.GetProperty(ics.ComponentPropertyDtStart).Value, b.GetProperty(ics.ComponentPropertyDtStart).Value)
	})
	return events
}

// names finds each entry's name: entries that stand on the day where one of their slot stood keep its name, the others
// take those that are left, in order; names of what is past are not given again.
func (n naming) names(entries []entry, old map[string]*ics.VEvent) []string {
	names := make([]string, len(entries))
	taken := map[string]bool{}
	take := func(i int, fits func(uid string, e *ics.VEvent) bool) {
		for count := 1; count <= mostOfASlot+len(entries) && names[i] == ""; count++ {
			uid := n.uid(entries[i].slot, count)
			if !taken[uid] && fits(uid, old[uid]) {
				names[i], taken[uid] = uid, true
			}
		}
	}
	for i, e := range entries {
		take(i, func(_ string, v *ics.VEvent) bool {
			start, ok := startOf(v)
			return ok && start.on == e.from.on
		})
	}
	for i := range entries {
		take(i, func(_ string, v *ics.VEvent) bool { return v != nil && !n.past(v) })
	}
	for i := range entries {
		take(i, func(_ string, v *ics.VEvent) bool { return v == nil })
	}
	return names
}

func startOf(v *ics.VEvent) (moment, bool) {
	if v == nil {
		return moment{}, false
	}
	return momentOf(v.GetProperty(ics.ComponentPropertyDtStart))
}

func (n naming) past(v *ics.VEvent) bool {
	end, ok := momentOf(v.GetProperty(ics.ComponentPropertyDtEnd))
	return ok && n.passed(end)
}

// stamp numbers an event: as before where nothing in it changed, else one more.
func stamp(v, old *ics.VEvent, now time.Time) {
	sequence, at := 0, now.UTC().Format(stampLayout)
	if old != nil {
		sequence = sequenceOf(old)
		if written(v) == written(old) {
			if p := old.GetProperty(ics.ComponentPropertyDtstamp); p != nil {
				at = p.Value
			}
		} else {
			sequence++
		}
	}
	v.SetSequence(sequence)
	v.SetProperty(ics.ComponentPropertyDtstamp, at)
}

func sequenceOf(v *ics.VEvent) int {
	p := v.GetProperty(ics.ComponentPropertySequence)
	if p == nil {
		return 0
	}
	count, err := strconv.Atoi(p.Value)
	if err != nil {
		return 0
	}
	return count
}

// written is an event as it is written, without its number and stamp.
func written(v *ics.VEvent) string {
	bare := *v
	bare.Properties = nil
	for _, p := range v.Properties {
		if p.IANAToken != string(ics.ComponentPropertySequence) && p.IANAToken != string(ics.ComponentPropertyDtstamp) {
			bare.Properties = append(bare.Properties, p)
		}
	}
	return bare.Serialize(&ics.SerializationConfiguration{MaxLength: 75, NewLine: "\r\n"})
}

// unplanned is what becomes of an event that is not planned any more: while it is ahead it is cancelled, so that
// calendars that have it take it out; once past it stays as it is to the end of its week, so that its name is not given
// again. After that there is nothing left of it. What somebody else wrote into the file stays.
func (n naming) unplanned(v *ics.VEvent, now time.Time) *ics.VEvent {
	if !strings.HasSuffix(v.Id(), uidEnd) {
		return v
	}
	if n.past(v) {
		if start, ok := startOf(v); ok && start.on >= n.week {
			return v
		}
		return nil
	}
	if p := v.GetProperty(ics.ComponentPropertyStatus); p != nil && p.Value == string(ics.ObjectStatusCancelled) {
		return v
	}
	v.SetStatus(ics.ObjectStatusCancelled)
	v.SetTimeTransparency(ics.TransparencyTransparent)
	v.Components = nil // no alarm for what is not
	v.SetSequence(sequenceOf(v) + 1)
	v.SetProperty(ics.ComponentPropertyDtstamp, now.UTC().Format(stampLayout))
	return v
}
