package html

import (
	"fmt"
	"html/template"
	"io"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Owner writes what an owner is sent: the pages of the owner's dogs without the handler's notes, what to enter, and
// the hours spent in the month that holds today. The error is an *kennel.InputError when the kennel has no such owner.
func Owner(w io.Writer, r optimize.Result, owner string, x Records) error {
	owner, err := r.Kennel.FindOwner(owner)
	if err != nil {
		return err
	}
	x.Private = false
	var sections []section
	var dogs []string
	for i, d := range r.Kennel.Dogs {
		if d.Owner != owner {
			continue
		}
		dogs = append(dogs, d.Name)
		own := x
		own.Work = nil // the month's account tells it
		part, err := dogSections(r, i, own)
		if err != nil {
			return err
		}
		for j := range part {
			name := d.Name
			if j == 0 && d.RingName != "" {
				name += " (" + d.RingName + ")"
			}
			part[j].title = name + ": " + part[j].title
			if j == 0 && i > 0 && len(dogs) > 1 {
				part[j].class = "newpage"
			}
		}
		sections = append(sections, part...)
	}
	spent, err := spentSection(r, dogs, x.Work)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: "Report for " + owner, note: "On " + say.LongDay(r.On) + ".", foot: foot(),
	}, append(sections, spent)...)
}

// spentSection is the work done on the dogs in the month that holds today.
func spentSection(r optimize.Result, dogs []string, work []kennel.Work) (section, error) {
	month := r.On.Time().Format("January 2006")
	s := section{id: "spent", title: "Hours spent in " + month}
	t := newTable(s.title, "day", "dog", "#minutes", "what")
	t.Hidden, t.Class = true, stacked
	work = slices.Clone(work)
	slices.SortStableFunc(work, func(a, b kennel.Work) int { return int(a.On - b.On) })
	var all layout.Hundredths
	for _, w := range work {
		if w.On.Time().Format("January 2006") != month || !slices.Contains(dogs, w.Dog) {
			continue
		}
		m := layout.HundredthsOf(w.Minutes)
		all += m
		t.add(wordCell(say.Day(w.On, r.On)), wordCell(w.Dog), workCell(m), wordCell(say.Work(w)))
	}
	var body template.HTML
	var err error
	if all == 0 {
		body, err = paragraphs("No work is written down for this month.")
	} else {
		t.total(wordCell("all"), cell{}, workCell(all).with(fmt.Sprintf("%s h", layout.HoursWords(all))), cell{})
		body, err = t.html()
	}
	s.body = body
	return s, err
}
