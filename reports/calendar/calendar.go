// Package calendar writes the days planned as a calendar for other programs (iCalendar, RFC 5545), and reads back what it
// wrote, so that an entry keeps its name when it moves.
package calendar

import (
	"io"
	"slices"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// product names the program in its calendars (RFC 5545, 3.7.3).
const product = "-//tuckup//the coat work of a string//EN"

// Write writes the days planned as a calendar (RFC 5545): sessions, baths and duties by the kennel's clock, shows
// and the days when entries close as whole days, the latter with an alarm. An entry keeps its name (UID) when it is
// moved; what was written before is looked up in before: what is as it was stays so to the byte, what changed gets
// the next SEQUENCE and now as its stamp, what is no longer planned is cancelled, and what is past is left alone until
// its week is over. A kennel without a time zone gets the times of the clock on its wall.
func Write(w io.Writer, r optimize.Result, before Published, now time.Time) error {
	zone, err := zoneOf(r.Kennel)
	if err != nil {
		return err
	}
	n := naming{kennel: r.Kennel.Name, before: before, week: r.On.Monday(), passed: passedBy(r.On, now, zone)}
	events := n.events(entriesOf(r), r.Kennel.TimeZone, now)
	c := ics.NewCalendar()
	c.SetProductId(product)
	c.SetXWRCalName(title(r.Kennel.Name))
	for _, z := range zonesOf(events) {
		c.AddVTimezone(z)
	}
	for _, e := range events {
		c.AddVEvent(e)
	}
	return c.SerializeTo(w, ics.WithNewLine("\r\n"))
}

// title is the calendar's name as programs show it.
func title(name string) string {
	if name = text(name); name == "" {
		return "Coat work"
	}
	return name + ": coat work"
}

// zoneOf is the kennel's zone, or nil where it names none.
func zoneOf(k kennel.Kennel) (*time.Location, error) {
	if k.TimeZone == "" {
		return nil, nil
	}
	return time.LoadLocation(k.TimeZone)
}

// moment is a time on the kennel's wall: a day and its clock.
type moment struct {
	on kennel.Date
	at kennel.Clock
}

func (m moment) before(o moment) bool { return m.on < o.on || m.on == o.on && m.at < o.at }

// passedBy reports of an end whether it is past: the clock is only asked where it shows the day that is planned as
// today.
func passedBy(today kennel.Date, now time.Time, zone *time.Location) func(moment) bool {
	limit := moment{on: today}
	if zone != nil {
		now = now.In(zone)
	}
	if kennel.DateOf(now) == today {
		limit.at = kennel.Clock(now.Hour()*kennel.MinutesAnHour + now.Minute())
	}
	return func(end moment) bool { return !limit.before(end) }
}

// entry is one event of the calendar.
type entry struct {
	slot     slot
	from, to moment // to is where it is over
	wholeDay bool
	summary  string
	says     []string // lines
	hopedFor bool
	alarm    string // what an alarm two days before says; empty = none
}

// slot is what an entry is, whenever it is: entries of one slot are told apart by counting.
type slot struct {
	kind  string
	who   string      // the dog, or the hands that travel
	what  string      // the duty or the show
	since kennel.Date // Monday of its week, or 1 January of a show's year
}

// The kinds of entries that are no items of a day.
const (
	slotShow    = "show"
	slotEntries = "entries close"
)

// entriesOf are the entries of a plan, in order of time.
func entriesOf(r optimize.Result) []entry {
	var all []entry
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Whole() {
				all = append(all, itemEntry(r.Kennel, d.On, h.Hands, i, len(r.Kennel.Hands) > 1))
			}
		}
	}
	for _, s := range r.Kennel.Shows {
		if s.Last() >= r.On {
			all = append(all, showEntry(s))
		}
		if s.EntriesClose >= r.On {
			all = append(all, closingEntry(s))
		}
	}
	slices.SortStableFunc(all, func(a, b entry) int {
		switch {
		case a.from.before(b.from):
			return -1
		case b.from.before(a.from):
			return 1
		}
		return strings.Compare(a.slot.kind, b.slot.kind)
	})
	return all
}

func itemEntry(k kennel.Kennel, on kennel.Date, hands string, i optimize.Item, several bool) entry {
	e := entry{
		slot: slot{kind: string(i.Kind), who: i.Dog, what: i.What, since: on.Monday()},
		from: moment{on, i.Start}, to: moment{on, i.End},
		wholeDay: i.Start == 0 && i.End == kennel.DayEnd,
	}
	if i.End == kennel.DayEnd {
		e.to = moment{on: on + 1}
	}
	switch i.Kind {
	case optimize.ItemSession:
		e.summary, e.says = i.Dog+": "+areasInShort(i.Areas), sessionLines(k, i)
	case optimize.ItemDuty:
		e.summary = i.Dog + ": " + i.What
	case optimize.ItemBath:
		e.summary = i.Dog + ": lifting bath"
	case optimize.ItemTravel:
		e.summary, e.slot.who = "Travel: "+i.What, hands
	}
	if several {
		e.summary += " (" + hands + ")"
	}
	if i.Why != "" {
		e.says = append([]string{i.Why}, e.says...)
	}
	return e
}

// areasInShort names the first area and how many there are: "skirt line first, 8 areas".
func areasInShort(areas []optimize.AreaWork) string {
	switch len(areas) {
	case 0:
		return "coat work"
	case 1:
		return string(areas[0].Area)
	}
	return string(areas[0].Area) + " first, " + say.Plural(len(areas), "area")
}

func sessionLines(k kennel.Kennel, i optimize.Item) []string {
	var lines []string
	for _, a := range i.Areas {
		line := "- " + string(a.Area) + ": " + a.Words()
		if !a.Few {
			line += ", " + say.Minutes(a.Minutes)
		}
		if wanted := say.OutlineOn(k, i.Dog, a.Area); wanted != "" {
			line += " (" + wanted + ")"
		}
		lines = append(lines, line)
	}
	if i.Lift != "" {
		lines = append(lines, "Lift: "+i.Lift)
	}
	if i.Tool != "" {
		lines = append(lines, "Pull: "+i.Tool)
	}
	return append(lines, "Stop when skin is red, hot or broken and ask the vet.")
}

func showEntry(s kennel.Show) entry {
	e := entry{
		slot: slot{kind: slotShow, what: s.Name, since: newYear(s.On)},
		from: moment{on: s.On}, to: moment{on: s.Last() + 1}, wholeDay: true,
		summary: s.Name, says: showLines(s), hopedFor: !s.Entered(),
	}
	if e.hopedFor {
		e.summary = "Hoped for: " + s.Name
	}
	return e
}

func closingEntry(s kennel.Show) entry {
	return entry{
		slot: slot{kind: slotEntries, what: s.Name, since: newYear(s.On)},
		from: moment{on: s.EntriesClose}, to: moment{on: s.EntriesClose + 1}, wholeDay: true,
		summary: "Entries close: " + s.Name, says: append(showLines(s), "The show is on "+say.LongDay(s.On)),
		alarm: "Entries close in two days: " + s.Name,
	}
}

func showLines(s kennel.Show) []string {
	first := "Entered"
	if !s.Entered() {
		first = "Only " + say.Chance(s.Chance)
	}
	if len(s.Dogs) > 0 {
		first += ": " + strings.Join(s.Dogs, ", ")
	}
	return []string{first}
}

func newYear(d kennel.Date) kennel.Date { return kennel.NewDate(d.Time().Year(), time.January, 1) }
