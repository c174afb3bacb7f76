package reports

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// box is what is ticked when the work is done.
const box = "[ ] "

// Sheet writes the days planned as a list to hang up: each day's work by hands and clock, a dog's slowest areas first,
// with boxes to tick, then what the days could not hold, what cannot be met, and the cautions.
func Sheet(w io.Writer, r optimize.Result, l Look) error {
	p := newPage(w, l)
	p.strong(plain(r.Kennel.Name), "work for "+daysWords(r))
	p.line(strings.Repeat("=", p.columns))
	p.say(0, "", "%s", startWords(r.Timetable, r.On))
	worked := true
	for _, d := range r.Timetable.Days {
		worked = sheetDay(p, d, worked)
	}
	leftOutList(p, r.Timetable.LeftOut)
	cannotList(p, r)
	cautionsFoot(p)
	return p.done()
}

// daysWords names the days of the sheet: "Monday 4 to Sunday 10 January 2027".
func daysWords(r optimize.Result) string {
	days := r.Timetable.Days
	if len(days) == 0 {
		return longDay(r.On)
	}
	first, last := days[0].On, days[len(days)-1].On
	if first == last {
		return longDay(first)
	}
	layout := "Monday 2"
	switch {
	case first.Time().Year() != last.Time().Year():
		layout = "Monday 2 January 2006"
	case first.Time().Month() != last.Time().Month():
		layout = "Monday 2 January"
	}
	return first.Time().Format(layout) + " to " + longDay(last)
}

// startWords is what to do before anything else.
func startWords(t optimize.Timetable, today kennel.Date) string {
	for _, d := range t.Days {
		on, item, ok := firstItem(d)
		if !ok {
			continue
		}
		words := fmt.Sprintf("Start with %s at %s: %s", dayWords(d.On, today), item.Start, plain(itemWords(item)))
		if len(item.Areas) > 0 {
			a := item.Areas[0]
			words += fmt.Sprintf(", %s, %s, %s", plain(string(a.Area)), shareWords(a.Share), minutesWords(a.Minutes))
		}
		if len(d.Hands) > 1 {
			words += " (" + plain(on) + ")"
		}
		return words + "."
	}
	return "There is no work on these days."
}

// firstItem is a day's first work on a dog, and whose it is.
func firstItem(d optimize.Day) (hands string, first optimize.Item, ok bool) {
	for _, h := range d.Hands {
		for _, i := range h.Items {
			if i.Dog != "" && (!ok || i.Start < first.Start) {
				hands, first, ok = h.Hands, i, true
			}
		}
	}
	return hands, first, ok
}

// itemWords is what a stretch of a day is, without its reason.
func itemWords(i optimize.Item) string {
	switch i.Kind {
	case optimize.ItemSession:
		return i.Dog
	case optimize.ItemDuty:
		return i.Dog + ": " + i.What
	case optimize.ItemBath:
		return i.Dog + ": lifting bath, left to dry"
	case optimize.ItemTravel:
		return "travel: " + i.What
	}
	return string(i.Kind)
}

// clockWords is when a stretch of a day is.
func clockWords(i optimize.Item) string {
	if i.Start == 0 && i.End == wholeDayEnd {
		return "all day"
	}
	return i.Start.String() + "-" + i.End.String()
}

// sheetDay writes a day; one without work is one line, close to another such line. It reports whether there is work.
func sheetDay(p *page, d optimize.Day, dayBefore bool) bool {
	day := strings.ToUpper(d.On.Time().Format("Monday 2 January"))
	hands := busyHands(d)
	if len(hands) > 0 || dayBefore {
		p.blank()
	}
	switch len(hands) {
	case 0:
		p.strong(day, "no work")
	case 1:
		p.strong(day, plain(hands[0].Hands)+", "+dayWork(hands[0]))
		sheetItems(p, hands[0].Items)
	default:
		p.strong(day, "")
		for i, h := range hands {
			if i > 0 {
				p.blank()
			}
			p.line(cut(" "+plain(h.Hands)+", "+dayWork(h), p.columns))
			sheetItems(p, h.Items)
		}
	}
	return len(hands) > 0
}

// busyHands are those who have something on a day.
func busyHands(d optimize.Day) (hands []optimize.HandsDay) {
	for _, h := range d.Hands {
		if len(h.Items) > 0 {
			hands = append(hands, h)
		}
	}
	return hands
}

// dayWork says how much work hands have on a day: "2 sessions, 2 h 20".
func dayWork(h optimize.HandsDay) string {
	sessions, busy := 0, kennel.Clock(0)
	for n, i := range h.Items {
		if i.Kind == optimize.ItemSession && !optimize.GoesOn(h.Items, n) {
			sessions++
		}
		if i.Dog != "" {
			busy += i.End - i.Start
		}
	}
	if busy == 0 {
		return "away"
	}
	time := fmt.Sprintf("%d min", busy)
	if busy >= minutesAnHour {
		time = fmt.Sprintf("%d h %02d", busy/minutesAnHour, busy%minutesAnHour)
	}
	if sessions == 0 {
		return time
	}
	return plural(sessions, "session") + ", " + time
}

// clockColumns is the width of "09:00-10:20" with the gap behind it.
const clockColumns = 13

func sheetItems(p *page, items []optimize.Item) {
	for n, i := range items {
		clock := clockWords(i)
		clock += strings.Repeat(" ", clockColumns-width(clock))
		switch i.Kind {
		case optimize.ItemSession:
			sheetSession(p, clock, i, optimize.GoesOn(items, n), n+2 < len(items) && optimize.GoesOn(items, n+2))
		case optimize.ItemDuty, optimize.ItemBath:
			p.say(2, clock+box, "%s%s", plain(itemWords(i)), reasonWords(i))
		default:
			p.say(2, clock, "%s%s", plain(itemWords(i)), reasonWords(i))
		}
	}
}

// sheetSession writes a session, or one part of a session that breaks cut into several.
func sheetSession(p *page, clock string, i optimize.Item, rest, more bool) {
	const indent = 2 + clockColumns
	name := strings.ToUpper(plain(i.Dog))
	if rest {
		p.say(2, clock, "%s again", name)
	} else {
		p.say(2, clock, "%s%s, %s set-up", name, reasonWords(i), minutesWords(i.SetUp))
		if i.Lift != "" {
			p.say(indent, "lift: ", "%s", plain(i.Lift))
		}
		if i.Tool != "" {
			p.say(indent, "pull: ", "%s", plain(i.Tool))
		}
	}
	t := table{right: map[int]bool{2: true}}
	for _, a := range i.Areas {
		t.add(box+plain(string(a.Area)), shareWords(a.Share), minutesWords(a.Minutes), "")
	}
	p.table(indent, t)
	if !more {
		p.line(strings.Repeat(" ", indent) + "took ______ min, left over ____________________")
	}
}

// reasonWords is why a stretch of a day is there, in brackets, and whether the handler chose it.
func reasonWords(i optimize.Item) string {
	var parts []string
	if i.Why != "" {
		parts = append(parts, plain(i.Why))
	}
	if i.Pinned {
		parts = append(parts, "your own choice, not moved")
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "; ") + ")"
}

func leftOutList(p *page, left []optimize.LeftOut) {
	if len(left) == 0 {
		return
	}
	p.heading("LEFT OUT", "what the days could not hold")
	for _, l := range left {
		p.say(2, "- ", "%s", leftOutWords(l))
	}
}

func leftOutWords(l optimize.LeftOut) string {
	what := plain(l.Dog) + ", " + plain(l.Duty)
	if l.Area != "" {
		what = plain(l.Dog) + ", " + plain(string(l.Area)) + ", " + shareWords(l.Share)
	}
	return what + ": " + plain(l.Why)
}
