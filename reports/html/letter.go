package html

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

// lettersAhead is how many days ahead an owner is asked to decide on entries.
const lettersAhead = 8 * kennel.DaysAWeek

// Letter writes what an owner is sent in a month, a page for a dog: how the dog is, what comes, what is to be decided; its coat by
// week, its shows, and the month's work. Its figures are the plan's. The error is an *kennel.InputError when the kennel has no such
// owner.
func Letter(w io.Writer, r optimize.Result, owner string, bill tally.Bill) error {
	owner, err := r.Kennel.FindOwner(owner)
	if err != nil {
		return err
	}
	var sections []section
	for i, d := range r.Kennel.Dogs {
		if d.Owner != owner {
			continue
		}
		s, err := letterSection(r, i)
		if err != nil {
			return err
		}
		if len(sections) > 0 {
			s.class = "newpage"
		}
		sections = append(sections, s)
	}
	work, err := billSection(bill)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: "For " + owner + ", " + bill.Month.Time().Format("January 2006"),
		note: "Written on " + say.LongDay(r.On) + ".", foot: letterFoot(),
	}, append(sections, work)...)
}

// letterFoot says what the figures mean and what they can't promise.
func letterFoot() []string {
	return []string{
		"Readiness runs from 0 to 100; from 80 on a dog is in coat. It is what to expect if the work goes on as planned, not a promise: coats, weather and dogs have their own ways.",
		"If you see sore, hot or broken skin, a lump, or hair that falls out, please ask your vet first.",
	}
}

// letterSection is one dog of a letter.
func letterSection(r optimize.Result, dog int) (section, error) {
	d := r.Kennel.Dogs[dog]
	title := d.Name
	if d.RingName != "" {
		title += " (" + d.RingName + ")"
	}
	var b fragments
	b.add(paragraphs(letterHow(r, d), letterNext(r, d), letterDecide(r, d)))
	b.add(ribbon(r, dog))
	b.add(letterShows(r, d.Name))
	if not := letterCannot(r, d.Name); len(not) > 0 {
		b.heading("What can't be met")
		b.add(bullets(not))
	}
	return section{id: dogID(dog) + "letter", title: title, body: b.html()}, b.err
}

// letterHow says how the dog is today.
func letterHow(r optimize.Result, d kennel.Dog) string {
	o := outlook(r, d.Name)
	s := fmt.Sprintf("%s is %s today, %s of 100", d.Name, o.State, kennel.ScoreWords(o.Score))
	if worst := say.WorstArea(o); worst.Area != "" && worst.Score < say.AllRight {
		s += fmt.Sprintf("; the %s is furthest from right (%s)", worst.Area, worst.Why)
	}
	return s + "."
}

// letterNext says what comes: how the dog is worked, and its next show.
func letterNext(r optimize.Result, d kennel.Dog) string {
	var s string
	for _, w := range r.Ways {
		if w.Dog == d.Name {
			s = "The plan for its jacket: " + say.Way(w, r.On)
		}
	}
	shows := dogShows(r, d.Name)
	if len(shows) == 0 {
		return joined(s, "It is named for no show in these weeks.")
	}
	next := shows[0] // they are by date
	return joined(s, fmt.Sprintf("Next is %s on %s: %s with the plan, %s if nothing more is done.",
		next.Show, say.Day(next.On, r.On), kennel.ScoreWords(next.Score), kennel.ScoreWords(next.Idle)))
}

// joined puts two sentences behind one another; the first may be empty or lack its full stop.
func joined(first, second string) string {
	if first == "" {
		return second
	}
	return strings.TrimSuffix(first, ".") + ". " + second
}

// letterDecide says which entries close soon, and what we would do.
func letterDecide(r optimize.Result, d kennel.Dog) string {
	var all []string
	for _, s := range r.Kennel.Shows {
		if !s.Has(d.Name) || s.Entered() || s.EntriesClose < r.On || s.EntriesClose > r.On.AddDays(lettersAhead) {
			continue
		}
		for _, x := range dogShows(r, d.Name) {
			if x.Show != s.Name || x.On != s.On {
				continue
			}
			words := "leave it out"
			if x.Score >= kennel.ReadyScore {
				words = "enter"
			}
			all = append(all, fmt.Sprintf("%s by %s (%s: we would %s)", s.Name, say.Day(s.EntriesClose, r.On), kennel.ScoreWords(x.Score), words))
		}
	}
	if len(all) == 0 {
		return "There is no entry to decide on in the next eight weeks."
	}
	return "To decide: " + strings.Join(all, "; ") + "."
}

// letterShows are the dog's shows, each with one figure, and what it would have been.
func letterShows(r optimize.Result, dog string) (template.HTML, error) {
	shows := dogShows(r, dog)
	if len(shows) == 0 {
		return "", nil
	}
	t := newTable("Shows of "+dog, "show", "#readiness", "#left alone")
	t.Hidden = true
	for i, x := range shows {
		t.add(wordCell(fmt.Sprintf("%d %s", i+1, x.Show)).with(say.Day(x.On, r.On)+", "+say.Chance(x.Chance)), scoreCell(x.Score), scoreCell(x.Idle))
	}
	return t.html()
}

// letterCannot is what the plan can't meet of one dog.
func letterCannot(r optimize.Result, dog string) (all []string) {
	for _, c := range r.Cannot {
		about := strings.HasSuffix(c.What, " of "+dog)
		for _, s := range r.Kennel.Shows {
			about = about || c.What == dog+" in coat for "+s.Name || c.What == dog+" at "+s.Name
		}
		if about && !slices.Contains(all, c.What+": "+c.Why) {
			all = append(all, c.What+": "+c.Why)
		}
	}
	return all
}

// billSection is the work of the month.
func billSection(bill tally.Bill) (section, error) {
	s := section{id: "work", title: "Work in " + bill.Month.Time().Format("January 2006"), note: bill.Rule}
	if len(bill.Lines) == 0 {
		s.note = ""
		body, err := paragraphs("No work is written down for this month.")
		s.body = body
		return s, err
	}
	columns := []string{"dog", "#sessions", "#other work", "#hours"}
	if bill.Amount != "" {
		columns = append(columns, "#amount")
	}
	t := newTable(s.title, columns...)
	t.Hidden = true
	cells := func(name string, sessions, duties int, minutes layout.Hundredths, amount string) []cell {
		all := []cell{
			wordCell(name), figureCell(fmt.Sprint(sessions), float64(sessions)), figureCell(fmt.Sprint(duties), float64(duties)),
			figureCell(layout.HoursWords(minutes), minutes.Hours()),
		}
		if bill.Amount != "" {
			all = append(all, cell{Text: amount, Figure: true})
		}
		return all
	}
	sessions, duties := 0, 0
	for _, l := range bill.Lines {
		sessions, duties = sessions+l.Sessions, duties+l.Duties
		t.add(cells(l.Dog, l.Sessions, l.Duties, l.Minutes, l.Amount)...)
	}
	t.total(cells("all", sessions, duties, bill.Minutes, bill.Amount)...)
	body, err := t.html()
	s.body = body
	return s, err
}
