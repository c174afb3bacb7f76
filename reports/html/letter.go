package html

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

// Letter writes what an owner is sent in a month, a page for a dog: how the dog is, what comes, what is to be decided; its coat by
// week, its shows, and the month's work. Its figures are the plan's. The error is an *kennel.InputError when the kennel has no such
// owner.
func Letter(w io.Writer, r optimize.Result, owner string, bill tally.Bill, photos []Photo) error {
	owner, sections, err := letterSections(r, owner, bill, photos)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: letterTitle(owner, bill), note: "Written on " + say.LongDay(r.On) + ".", foot: say.LetterFoot(),
	}, sections...)
}

func letterTitle(owner string, bill tally.Bill) string {
	return "For " + owner + ", " + bill.Month.Time().Format("January 2006")
}

// LetterParts are the parts of that page.
func LetterParts(r optimize.Result, owner string, bill tally.Bill, photos []Photo) ([]Part, error) {
	_, sections, err := letterSections(r, owner, bill, photos)
	return partsOf(sections, err)
}

// letterSections are the owner as the kennel names it, a part for each dog, and one for the work of the month.
func letterSections(r optimize.Result, owner string, bill tally.Bill, photos []Photo) (string, []section, error) {
	owner, err := r.Kennel.FindOwner(owner)
	if err != nil {
		return "", nil, err
	}
	var sections []section
	for i, d := range r.Kennel.Dogs {
		if d.Owner != owner {
			continue
		}
		s, err := letterSection(r, i, bill, photos)
		if err != nil {
			return "", nil, err
		}
		if len(sections) > 0 {
			s.class = strings.TrimSpace("newpage " + s.class)
		}
		sections = append(sections, s)
	}
	work, err := billSection(bill)
	if err != nil {
		return "", nil, err
	}
	return owner, append(sections, work), nil
}

// letterSection is one dog of a letter.
func letterSection(r optimize.Result, dog int, bill tally.Bill, photos []Photo) (section, error) {
	d := r.Kennel.Dogs[dog]
	title := d.Name
	if d.RingName != "" {
		title += " (" + d.RingName + ")"
	}
	var b fragments
	l := say.LetterOf(r, d)
	b.add(paragraphs(l.How, l.Next, l.Decide))
	if p, ok := ofMonth(photos, d.Name, bill.Month); ok {
		b.add(pictures(r, []Photo{p}, false))
	}
	if i := slices.IndexFunc(r.Outlooks, func(o optimize.Outlook) bool { return o.Dog == d.Name }); i >= 0 {
		b.add(ribbonWith(r, i, l.Shows))
	}
	b.add(letterShows(r, d.Name, l.Shows))
	if l.More != "" {
		b.add(paragraphs(l.More))
	}
	if len(l.Cannot) > 0 {
		b.heading("What can't be met")
		b.add(bullets(l.Cannot))
	}
	s := section{id: dogID(dog) + "letter", title: title, body: b.html()}
	if l.Letters() > lettersOnPage {
		s.class = "dense"
	}
	return s, b.err
}

// lettersOnPage are the letters of a dog from which a page is printed in smaller ones, so that it holds them.
const lettersOnPage = 1900

// letterShows are the dog's shows, each with one figure, and what it would have been.
func letterShows(r optimize.Result, dog string, shows []optimize.ShowReadiness) (template.HTML, error) {
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
