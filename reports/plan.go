package reports

import (
	"fmt"
	"io"
	"math"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// hoursWeeks is how many weeks of hours the plan's page shows.
const hoursWeeks = 8

// Plan writes a plan as a page of text: this week's work in working order, readiness for each show, how each dog is worked, hours against
// hours available, what cannot be met, the tight week, and how good the plan is.
func Plan(w io.Writer, r optimize.Result, l layout.Look) error {
	p := layout.NewPage(w, l)
	planHead(p, r)
	planWork(p, r)
	planDuties(p, r)
	leftOutList(p, r.Timetable.Missed())
	showTable(p, r)
	waysList(p, r, r.Ways)
	puppyRoads(p, r)
	hoursTable(p, r)
	cannotList(p, r)
	planWorth(p, r)
	cautionsShort(p)
	return p.Done()
}

// thisWeek is the week that holds today, the first of the plan.
func thisWeek(r optimize.Result) optimize.Week {
	for _, w := range r.Weeks {
		if w.Week == r.On.Monday() {
			return w
		}
	}
	if len(r.Weeks) > 0 {
		return r.Weeks[0]
	}
	return optimize.Week{Week: r.Week0}
}

func planHead(p *layout.Page, r optimize.Result) {
	name := say.Plain(r.Kennel.Name)
	if name == "" {
		name = "The string"
	}
	week := thisWeek(r)
	p.Strong(name, fmt.Sprintf("week of %s, planned from %s over %s",
		say.WithYear(week.Week, 0, "2 January"), say.Day(r.On, r.On), say.Plural(len(r.Weeks), "week")))
	if s := say.Slipped(r.InUse, r.On); s != "" {
		p.Say(0, "", "%s", s)
	}
	p.Say(0, "", "%s", firstThing(week))
}

// firstThing is what to do before anything else this week.
func firstThing(w optimize.Week) string {
	if d, a, ok := firstWork(w); ok {
		first := fmt.Sprintf("Do first: %s, %s: %s, %s", say.Plain(d.Dog), say.Plain(string(a.Area)), a.Words(), say.Minutes(a.Minutes))
		if d.Why != "" {
			first += "; " + say.Plain(d.Why)
		}
		return first + "."
	}
	if len(w.Duties) > 0 {
		d := w.Duties[0]
		return fmt.Sprintf("No coat work this week. Do first: %s, %s (%s).", say.Plain(d.Dog), say.Plain(d.Name), say.Minutes(d.Minutes))
	}
	if w.Hours == 0 {
		return "No hours are left this week."
	}
	return "Nothing to do this week."
}

// firstWork is the first piece of work of the week, in working order, that is more than a touch; where all are
// touches, the longest of them.
func firstWork(w optimize.Week) (dog optimize.DogWeek, area optimize.AreaWork, ok bool) {
	for _, d := range w.Dogs {
		for _, a := range d.Areas {
			if a.Minutes >= optimize.WorthFirst {
				return d, a, true
			}
			if a.Minutes > area.Minutes {
				dog, area, ok = d, a, true
			}
		}
	}
	return dog, area, ok
}

func planWork(p *layout.Page, r optimize.Result) {
	week := thisWeek(r)
	if len(week.Dogs) == 0 {
		p.Heading("THIS WEEK'S WORK", "")
		p.Say(2, "", "No dog is to be pulled this week.")
		return
	}
	p.Heading("THIS WEEK'S WORK", fmt.Sprintf("%.1f of %.1f hours, in working order", float64(week.Planned), float64(week.Hours)))
	for i, d := range week.Dogs {
		p.Say(1, fmt.Sprintf("%2d. ", i+1), "%s: %s%s, %s + %s set-up%s", say.Plain(d.Dog), sessionsWords(d),
			onDays(sessionDays(r.Timetable, week.Week, d.Dog)), say.Minutes(d.Minutes), say.Minutes(d.SetUp), few(d.Areas))
		if d.Why != "" {
			p.Say(5, "for:  ", "%s", say.Plain(d.Why))
		}
		if d.Lift != "" {
			p.Say(5, "lift: ", "%s", say.Plain(d.Lift))
		}
		if d.Tool != "" {
			p.Say(5, "pull: ", "%s", say.Plain(d.Tool))
		}
		t := layout.Table{Right: map[int]bool{2: true}}
		for _, a := range say.Touches(d.Areas) {
			t.Add(say.Plain(string(a.Area)), kennel.ShareWords(a.Share), say.Minutes(a.Minutes), say.OutlineOn(r.Kennel, d.Dog, a.Area))
		}
		p.Table(11, t)
	}
}

// sessionsWords says how many sessions a dog has and, where there are several, how long it stands in each.
func sessionsWords(d optimize.DogWeek) string {
	words := say.Plural(d.Sessions, "session")
	if d.Sessions > 1 {
		words += " of about " + say.Minutes((d.Minutes+d.SetUp)/kennel.Minutes(d.Sessions))
	}
	return words
}

func planDuties(p *layout.Page, r optimize.Result) {
	week := thisWeek(r)
	if len(week.Duties) == 0 {
		return
	}
	p.Heading("DUTIES", "this week")
	t := layout.Table{Right: map[int]bool{2: true}}
	for _, d := range week.Duties {
		days := strings.TrimPrefix(onDays(dutyDays(r.Timetable, week.Week, d.Dog, d.Name)), ", ")
		t.Add(say.Plain(d.Dog), say.Plain(d.Name), say.Minutes(d.Minutes), days, say.Plain(d.Why))
	}
	p.Table(2, t)
}

// hoursTable sets the planned hours of the next weeks against the hours available, with a bar.
func hoursTable(p *layout.Page, r optimize.Result) {
	weeks := r.Weeks
	for i, w := range weeks {
		if w.Week == thisWeek(r).Week {
			weeks = weeks[i:]
			break
		}
	}
	weeks = weeks[:min(hoursWeeks, len(weeks))]
	if len(weeks) == 0 {
		return
	}
	p.Heading("HOURS", fmt.Sprintf("planned, of the hours available, next %s", say.Plural(len(weeks), "week")))
	if hoursIn(weeks) == 0 {
		p.Say(2, "", "There are no hours in these weeks.")
		return
	}
	length := barLength
	if p.Columns() < layout.Columns {
		length /= 2
	}
	t := layout.Table{Right: map[int]bool{1: true}}
	for _, w := range weeks {
		t.Add(say.Week(w.Week, r.On), fmt.Sprintf("%.1f of %4.1f h", float64(w.Planned), float64(w.Hours)),
			bar(w.Planned, w.Hours, length), handsWords(w.Hands))
	}
	p.Table(2, t)
	if s := say.HoursAtShows(r, weeks); s != "" {
		p.Say(2, "", "%s", s)
	}
}

// hoursIn are all the hours that there are in the weeks.
func hoursIn(weeks []optimize.Week) (all kennel.Hours) {
	for _, w := range weeks {
		all += w.Hours
	}
	return all
}

// barLength is the columns of a full bar on a page of full width: one for each twentieth of the hours.
const barLength = 20

func bar(planned, hours kennel.Hours, length int) string {
	if hours <= 0 {
		return "no hours"
	}
	full := int(math.Round(float64(length) * min(1, float64(planned/hours))))
	return strings.Repeat("=", full) + strings.Repeat("-", length-full)
}

func handsWords(hands []optimize.HandsWeek) string {
	parts := make([]string, 0, len(hands))
	for _, h := range hands {
		if h.Hours == 0 && h.Planned == 0 {
			parts = append(parts, say.Plain(h.Hands)+" none")
			continue
		}
		words := fmt.Sprintf("%s %.1f of %.1f", say.Plain(h.Hands), float64(h.Planned), float64(h.Hours))
		switch {
		case say.FullWithBreaks(h):
			words += " (full with breaks)"
		case say.Full(h):
			words += " (full)"
		case say.NoMorePulling(h):
			words += " (no more pulling)"
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

func cannotList(p *layout.Page, r optimize.Result) {
	if len(r.Cannot) == 0 {
		return
	}
	p.Heading("CANNOT BE MET", "")
	for _, c := range r.Cannot {
		p.Say(2, "- ", "%s: %s", say.Plain(c.What), say.Plain(c.Why))
	}
}

// planWorth says where an hour is dearest, how good the plan is and what its rounding for people cost.
func planWorth(p *layout.Page, r optimize.Result) {
	p.Heading("HOW GOOD", "a point is one dog fully ready at one show of weight 1")
	if s := say.Tight(r); s != "" {
		p.Say(2, "", "%s", s)
	}
	p.Say(2, "", "%s", say.Worth(r))
	if s := say.Gathered(r.Gathered); s != "" {
		p.Say(2, "", "%s", s)
	}
}
