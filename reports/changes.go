package reports

import (
	"fmt"
	"io"
	"math"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Leasts of what the text of changes tells: smaller ones are in the JSON.
const (
	leastScoreTold = 0.5 // points of readiness
	leastHoursTold = 0.05
	toldWeeks      = 2 // sessions and shares are told for so many weeks
)

// Changes writes what sets one plan apart from another as a page of text: sessions moved, shares, hours a week, readiness
// before and after side by side, what can and can't be met now, and who pays for it.
func Changes(w io.Writer, c optimize.Changes, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong("WHAT CHANGES", fmt.Sprintf("over %s from %s", say.Plural(c.Weeks, "week"), say.Week(c.From, today)))
	p.Say(0, "", "%s", say.Change(c))
	if c.Cut {
		p.Say(0, "", "The search was cut short, so part of what differs may come from that.")
	}
	payList(p, c)
	sessionChangeList(p, c, today)
	shareChangeList(p, c, today)
	hoursChangeList(p, c, today)
	readinessChangeList(p, c, today)
	cannotChangeList(p, "CANNOT BE MET ANY MORE", c.NewlyCannot)
	cannotChangeList(p, "CAN BE MET NOW", c.NoLongerCannot)
	return p.Done()
}

func sessionChangeList(p *layout.Page, c optimize.Changes, today kennel.Date) {
	p.Heading("SESSIONS", "")
	var t layout.Table
	later := 0
	for _, s := range c.Sessions {
		if !near(c, max(s.From.On, s.To.On)) {
			later++
			continue
		}
		at := ""
		switch s.Kind {
		case optimize.SessionMoved:
			at = say.Session(s.From, today) + " -> " + say.Session(s.To, today)
		case optimize.SessionAdded:
			at = say.Session(s.To, today)
		case optimize.SessionDropped:
			at = say.Session(s.From, today)
		}
		t.Add(string(s.Kind), say.Plain(s.Dog), at)
	}
	if len(t.Rows) == 0 {
		p.Say(2, "", "none is moved, added or dropped in the next %d weeks", toldWeeks)
	}
	p.Table(2, t)
	moreLater(p, later)
}

// near reports whether a day lies in the weeks whose sessions and shares are told.
func near(c optimize.Changes, on kennel.Date) bool {
	return on < c.From.AddDays(toldWeeks*kennel.DaysAWeek)
}

// moreLater says how much is not told.
func moreLater(p *layout.Page, n int) {
	if n > 0 {
		p.Say(2, "", "and %d more in later weeks: --format json has them all", n)
	}
}

func shareChangeList(p *layout.Page, c optimize.Changes, today kennel.Date) {
	if len(c.Shares) == 0 {
		return
	}
	p.Heading("SHARES", "before and after")
	var t layout.Table
	later := 0
	for _, s := range c.Shares {
		before, after := kennel.ShareWords(s.Before), kennel.ShareWords(s.After)
		switch {
		case !near(c, s.Week):
			later++
		case before != after:
			t.Add(say.Week(s.Week, today), say.Plain(s.Dog), string(s.Area), before+" -> "+after)
		}
	}
	p.Table(2, t)
	moreLater(p, later)
}

func hoursChangeList(p *layout.Page, c optimize.Changes, today kennel.Date) {
	t := layout.Table{Right: map[int]bool{1: true, 2: true}}
	for _, h := range c.Hours {
		if math.Abs(float64(h.After-h.Before)) >= leastHoursTold || h.ThereBefore != h.ThereAfter {
			t.Add(say.Week(h.Week, today), fmt.Sprintf("%.1f of %.1f", h.Before, h.ThereBefore), fmt.Sprintf("%.1f of %.1f", h.After, h.ThereAfter), "")
		}
	}
	if len(t.Rows) > 0 {
		p.Heading("HOURS A WEEK", "before and after, of those there are")
		p.Table(2, t)
	}
}

func readinessChangeList(p *layout.Page, c optimize.Changes, today kennel.Date) {
	t := layout.Table{Right: map[int]bool{3: true, 4: true}, Most: map[int]int{2: 36}}
	same := 0
	for _, r := range c.Readiness {
		if r.InBefore && r.InAfter && math.Abs(float64(r.After-r.Before)) < leastScoreTold {
			same++
			continue
		}
		before, after := "-", "-"
		if r.InBefore {
			before = kennel.ScoreWords(r.Before)
		}
		if r.InAfter {
			after = kennel.ScoreWords(r.After)
		}
		t.Add(say.Day(r.On, today), say.Plain(r.Dog), say.Plain(r.Show), before, after, "")
	}
	p.Heading("READINESS FOR SHOWS", "before and after")
	p.Table(2, t)
	if same > 0 {
		p.Say(2, "", "%s as before", say.Plural(same, "other"))
	}
}

func cannotChangeList(p *layout.Page, title string, all []optimize.Cannot) {
	if len(all) == 0 {
		return
	}
	p.Heading(title, "")
	for _, x := range all {
		p.Say(2, "", "%s: %s", say.Plain(x.What), say.Plain(x.Why))
	}
}

func payList(p *layout.Page, c optimize.Changes) {
	p.Heading("WHO PAYS", "points for each dog, before and after")
	t := layout.Table{Right: map[int]bool{1: true, 2: true, 3: true}}
	for _, d := range c.Dogs {
		if d.InBefore == d.InAfter && math.Abs(d.Gain()) < say.LeastPoints {
			continue
		}
		before, after := "-", "-"
		if d.InBefore {
			before = fmt.Sprintf("%.2f", d.Before)
		}
		if d.InAfter {
			after = fmt.Sprintf("%.2f", d.After)
		}
		t.Add(say.Plain(d.Dog), before, after, fmt.Sprintf("%+.2f", d.Gain()), "")
	}
	if len(t.Rows) == 0 {
		p.Say(2, "", "nobody: every dog is worth what it was")
	}
	p.Table(2, t)
}
