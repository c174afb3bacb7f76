package reports

import (
	"fmt"
	"io"
	"math"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// hoursWeeks is how many weeks of hours the plan's page shows.
const hoursWeeks = 8

// Plan writes a plan as a page of text: this week's work in working order, readiness for each show, hours against
// hours there are, what cannot be met, the tight week, and how good the plan is.
func Plan(w io.Writer, r optimize.Result, l Look) error {
	p := newPage(w, l)
	planHead(p, r)
	planWork(p, r)
	planDuties(p, r)
	leftOutList(p, r.Timetable.LeftOut)
	showTable(p, r)
	hoursTable(p, r)
	cannotList(p, r)
	planWorth(p, r)
	cautionsShort(p)
	return p.done()
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

func planHead(p *page, r optimize.Result) {
	name := plain(r.Kennel.Name)
	if name == "" {
		name = "The string"
	}
	week := thisWeek(r)
	p.strong(name, fmt.Sprintf("week of %s, planned from %s over %s",
		withYear(week.Week, 0, "2 January"), dayWords(r.On, r.On), plural(len(r.Weeks), "week")))
	p.say(0, "", "%s", firstThing(week))
}

// firstThing is what to do before anything else this week.
func firstThing(w optimize.Week) string {
	if d, a, ok := firstWork(w); ok {
		first := fmt.Sprintf("Do first: %s, %s: %s, %s", plain(d.Dog), plain(string(a.Area)), shareWords(a.Share), minutesWords(a.Minutes))
		if d.Why != "" {
			first += "; " + plain(d.Why)
		}
		return first + "."
	}
	if len(w.Duties) > 0 {
		d := w.Duties[0]
		return fmt.Sprintf("No coat work this week. Do first: %s, %s (%s).", plain(d.Dog), plain(d.Name), minutesWords(d.Minutes))
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

func shareWords(s kennel.Share) string { return kennel.ShareWords(s) }

func planWork(p *page, r optimize.Result) {
	week := thisWeek(r)
	if len(week.Dogs) == 0 {
		p.heading("THIS WEEK'S WORK", "")
		p.say(2, "", "No dog is to be pulled this week.")
		return
	}
	p.heading("THIS WEEK'S WORK", fmt.Sprintf("%.1f of %.1f hours, in working order", float64(week.Planned), float64(week.Hours)))
	for i, d := range week.Dogs {
		p.say(1, fmt.Sprintf("%2d. ", i+1), "%s: %s%s, %s + %s set-up", plain(d.Dog), sessionsWords(d),
			onDays(sessionDays(r.Timetable, week.Week, d.Dog)), minutesWords(d.Minutes), minutesWords(d.SetUp))
		if d.Why != "" {
			p.say(5, "for:  ", "%s", plain(d.Why))
		}
		if d.Lift != "" {
			p.say(5, "lift: ", "%s", plain(d.Lift))
		}
		if d.Tool != "" {
			p.say(5, "pull: ", "%s", plain(d.Tool))
		}
		t := table{right: map[int]bool{2: true}}
		for _, a := range d.Areas {
			t.add(plain(string(a.Area)), shareWords(a.Share), minutesWords(a.Minutes), "")
		}
		p.table(11, t)
	}
}

// sessionsWords says how many sessions a dog has and, where there are several, how long it stands in each.
func sessionsWords(d optimize.DogWeek) string {
	words := plural(d.Sessions, "session")
	if d.Sessions > 1 {
		words += " of about " + minutesWords((d.Minutes+d.SetUp)/kennel.Minutes(d.Sessions))
	}
	return words
}

func planDuties(p *page, r optimize.Result) {
	week := thisWeek(r)
	if len(week.Duties) == 0 {
		return
	}
	p.heading("DUTIES", "this week")
	t := table{right: map[int]bool{2: true}}
	for _, d := range week.Duties {
		days := strings.TrimPrefix(onDays(dutyDays(r.Timetable, week.Week, d.Dog, d.Name)), ", ")
		t.add(plain(d.Dog), plain(d.Name), minutesWords(d.Minutes), days, plain(d.Why))
	}
	p.table(2, t)
}

// hoursTable sets the planned hours of the next weeks against the hours there are, with a bar.
func hoursTable(p *page, r optimize.Result) {
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
	p.heading("HOURS", fmt.Sprintf("planned against hours there are, next %s", plural(len(weeks), "week")))
	if hoursIn(weeks) == 0 {
		p.say(2, "", "There are no hours in these weeks.")
		return
	}
	length := barLength
	if p.columns < Columns {
		length /= 2
	}
	t := table{right: map[int]bool{1: true}}
	for _, w := range weeks {
		t.add(weekWords(w.Week, r.On), fmt.Sprintf("%.1f of %4.1f h", float64(w.Planned), float64(w.Hours)),
			bar(w.Planned, w.Hours, length), handsWords(w.Hands))
	}
	p.table(2, t)
}

// hoursIn are all the hours that there are in the weeks.
func hoursIn(weeks []optimize.Week) (all kennel.Hours) {
	for _, w := range weeks {
		all += w.Hours
	}
	return all
}

// coatHours reports whether any hands that are let near a coat have hours in the plan's weeks.
func coatHours(r optimize.Result) bool {
	for _, w := range r.Weeks {
		for i, h := range w.Hands { // in the kennel's order
			if i < len(r.Kennel.Hands) && h.Hours > 0 && pulls(r.Kennel.Hands[i]) {
				return true
			}
		}
	}
	return false
}

func pulls(h kennel.Hands) bool {
	return h.Can(kennel.SkillJacket) || h.Can(kennel.SkillClose) || h.Can(kennel.SkillFurnishings)
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
			parts = append(parts, plain(h.Hands)+" none")
			continue
		}
		words := fmt.Sprintf("%s %.1f of %.1f", plain(h.Hands), float64(h.Planned), float64(h.Hours))
		switch {
		case h.Planned > h.Hours-fullWithin:
			words += " (full)"
		case h.MostPulling > 0 && h.Pulled() > h.MostPulling-fullWithin:
			words += " (no more pulling)"
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

// fullWithin is how near to the hours there are a week is called full: what one decimal of an hour can't show.
const fullWithin kennel.Hours = 0.05

func cannotList(p *page, r optimize.Result) {
	if len(r.Cannot) == 0 {
		return
	}
	p.heading("CANNOT BE MET", "")
	for _, c := range r.Cannot {
		p.say(2, "- ", "%s: %s", plain(c.What), plain(c.Why))
	}
}

// planWorth says where an hour is dearest, how good the plan is and what its rounding for people cost.
func planWorth(p *page, r optimize.Result) {
	p.heading("HOW GOOD", "a point is one dog fully ready at one show of weight 1")
	if s := tightWords(r); s != "" {
		p.say(2, "", "%s", s)
	}
	p.say(2, "", "%s", worthWords(r.Season, r.Gathered))
	if s := gatheredWords(r.Gathered); s != "" {
		p.say(2, "", "%s", s)
	}
}

func tightWords(r optimize.Result) string {
	t := r.Tight
	if t == nil {
		if !coatHours(r) {
			return "There are no hours for coat work, so no plan can do more."
		}
		if r.Season.Cut {
			return "The time limit left no time to find out which week is the tight one."
		}
		return "No week is short of hours."
	}
	s := fmt.Sprintf("The week of %s is the tight one: one more hour", weekWords(t.Week, r.On))
	if t.Hands != "" {
		s += " of " + plain(t.Hands)
	}
	s += fmt.Sprintf(" there is worth %s", pointsWords(t.PointsPerHour))
	if t.Dog != "" {
		s += ", most to " + plain(t.Dog)
		if t.Show != "" {
			s += " at " + plain(t.Show)
		}
	}
	return s + "."
}

// pointsWords are points with as many decimals as their size needs: two digits that count.
func pointsWords(x float64) string {
	switch a := math.Abs(x); {
	case a >= 10:
		return fmt.Sprintf("%.0f points", x)
	case a >= 0.095:
		return fmt.Sprintf("%.1f points", x)
	case a >= 0.0095:
		return fmt.Sprintf("%.2f points", x)
	case a >= 0.001:
		return fmt.Sprintf("%.3f points", x)
	}
	return "less than 0.001 points"
}

// worthWords compares the plan as shown, after gathering, with the bound.
func worthWords(s optimize.Season, g optimize.Gathered) string {
	shown := s.Objective - g.Points
	words := fmt.Sprintf("The plan is worth %.2f points; no plan can be worth more than %.2f", shown, s.Bound)
	if shown > 0 {
		words = fmt.Sprintf("No plan can be more than %s better (%.2f points; no plan can pass %.2f)",
			percentUp(100*(s.Bound-shown)/shown), shown, s.Bound)
	}
	if s.Cut {
		words += "; the time limit ended the search"
	}
	return words + "."
}

// percentUp is a percentage rounded up to one decimal, so that what it promises stays true.
func percentUp(x float64) string {
	return fmt.Sprintf("%.1f %%", max(0, math.Ceil(10*x-1e-9)/10))
}

func gatheredWords(g optimize.Gathered) string {
	if g.Moved == 0 {
		return ""
	}
	cost := "nothing was lost by it"
	if g.Points > nothingLost {
		cost = "that cost " + pointsWords(g.Points)
	}
	return "Touches too small to be worth making were gathered into fuller ones; " + cost + "."
}

// nothingLost is the most points that gathering may cost without a word of it: half a hundredth, which the two
// decimals of a plan's worth can't show. Gathering can also gain, for it settles what the search had left.
const nothingLost = 0.005
