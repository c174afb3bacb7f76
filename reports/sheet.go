package reports

import (
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// box is what is ticked when the work is done.
const box = "[ ] "

// Sheet writes the days planned as a list to hang up: each day's work by hands and clock, a dog's slowest areas first,
// with boxes to tick, then what the days could not hold, how the dogs on it are worked, what cannot be met, and the cautions.
func Sheet(w io.Writer, r optimize.Result, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(r.Kennel.Name), "work for "+say.Days(r))
	p.Line(strings.Repeat("=", p.Columns()))
	if s := say.Beside(r.InUse, r.On, planAgain); s != "" {
		p.Say(0, "", "%s", s)
	}
	p.Say(0, "", "%s", say.Start(r.Timetable, r.On))
	if s := say.Early(r); s != "" {
		p.Say(0, "", "%s", s)
	}
	if r.Season.Cut {
		p.Say(0, "", "The search was cut short: there may be a better plan.")
	}
	worked := true
	for _, d := range r.Timetable.Days {
		worked = sheetDay(p, r.Kennel, d, worked)
	}
	leftOutList(p, r.Timetable.Missed())
	notDoneList(p, r)
	atShowsList(p, r)
	waysList(p, r, say.WaysOnDays(r))
	cannotList(p, r)
	cautionsFoot(p)
	return p.Done()
}

// planAgain says what plans again and shows what would change.
const planAgain = "tuckup replan plans again."

// sheetDay writes a day; one without work is one line, close to another such line. It reports whether there is work.
func sheetDay(p *layout.Page, k kennel.Kennel, d optimize.Day, dayBefore bool) bool {
	day := strings.ToUpper(d.On.Time().Format("Monday 2 January"))
	hands := say.Busy(d)
	if len(hands) > 0 || dayBefore {
		p.Blank()
	}
	switch len(hands) {
	case 0:
		p.Strong(day, "no work")
	case 1:
		p.Strong(day, say.Plain(hands[0].Hands)+", "+say.DayWork(hands[0]))
		sheetItems(p, k, hands[0])
	default:
		p.Strong(day, "")
		for i, h := range hands {
			if i > 0 {
				p.Blank()
			}
			p.Line(say.Cut(" "+say.Plain(h.Hands)+", "+say.DayWork(h), p.Columns()))
			sheetItems(p, k, h)
		}
	}
	return len(hands) > 0
}

// clockColumns is the width of "09:00-10:20" with the gap behind it.
const clockColumns = 13

func sheetItems(p *layout.Page, k kennel.Kennel, h optimize.HandsDay) {
	for n, i := range h.Shown() {
		clock := say.Clock(i)
		clock += strings.Repeat(" ", clockColumns-say.Width(clock))
		switch i.Kind {
		case optimize.ItemSession:
			sheetSession(p, k, clock, i, say.Rest(h, n), h.GoesOn(n+2))
		case optimize.ItemDuty, optimize.ItemBath:
			p.Say(2, clock+box, "%s%s", say.Plain(say.Item(i)), say.Reason(i))
		default:
			p.Say(2, clock, "%s%s", say.Plain(say.Item(i)), say.Reason(i))
		}
	}
}

// sheetSession writes a session, or one part of a session that breaks cut into several; again is said of a later part.
func sheetSession(p *layout.Page, k kennel.Kennel, clock string, i optimize.Item, again string, more bool) {
	const indent = 2 + clockColumns
	name := strings.ToUpper(say.Plain(i.Dog))
	if again != "" {
		p.Say(2, clock, "%s %s%s", name, again, few(i.Areas))
	} else {
		p.Say(2, clock, "%s%s, %s set-up%s", name, say.Reason(i), say.Minutes(i.SetUp), few(i.Areas))
		if i.Lift != "" {
			p.Say(indent, "lift: ", "%s", say.Plain(i.Lift))
		}
		if i.Tool != "" {
			p.Say(indent, "pull: ", "%s", say.Plain(i.Tool))
		}
	}
	t := layout.Table{Right: map[int]bool{2: true}}
	for _, a := range say.Touches(i.Areas) {
		t.Add(box+say.Plain(string(a.Area)), kennel.ShareWords(a.Share), say.Minutes(a.Minutes), say.OutlineOn(k, i.Dog, a.Area))
	}
	p.Table(indent, t)
	if !more {
		p.Line(strings.Repeat(" ", indent) + "took ______ min, left over ____________________")
	}
}

// few is where only a few hairs are to be pulled, for the end of the dog's line.
func few(areas []optimize.AreaWork) string {
	if words := say.Few(areas); words != "" {
		return "; " + words
	}
	return ""
}

func leftOutList(p *layout.Page, left []optimize.LeftOut) {
	if len(left) == 0 {
		return
	}
	p.Heading("LEFT OUT", "what the days could not hold")
	for _, l := range left {
		p.Say(2, "- ", "%s", say.LeftOut(l))
	}
}
