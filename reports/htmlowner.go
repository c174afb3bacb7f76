package reports

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

// OwnerHTML writes what an owner is sent: the pages of the owner's dogs without the handler's notes, what to enter, and
// the hours spent in the month that holds today. The error is an *kennel.InputError when the kennel has no such owner.
func OwnerHTML(w io.Writer, r optimize.Result, owner string, x Records) error {
	owner, err := FindOwner(r.Kennel, owner)
	if err != nil {
		return err
	}
	x.Private = false
	var sections []htmlSection
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
			part[j].title = d.Name + ": " + part[j].title
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
	return htmlDoc(w, htmlHead{
		kennel: r.Kennel.Name, title: "Report for " + owner, note: "On " + say.LongDay(r.On) + ".", foot: htmlFoot(),
	}, append(sections, spent)...)
}

// FindOwner is the owner that is meant, found as kennel.Match finds names. The error is an *kennel.InputError.
func FindOwner(k kennel.Kennel, name string) (string, error) {
	names := OwnerNames(k)
	if len(names) == 0 {
		return "", &kennel.InputError{Field: "owner", Value: name, What: "no dog of this kennel has an owner", Try: "an owner for the dog, in the kennel file or by tuckup dog edit"}
	}
	return kennel.Match("owner", name, names)
}

// OwnerNames are the owners of a kennel's dogs, each once, in the kennel's order.
func OwnerNames(k kennel.Kennel) (names []string) {
	for _, d := range k.Dogs {
		if d.Owner != "" && !slices.Contains(names, d.Owner) {
			names = append(names, d.Owner)
		}
	}
	return names
}

// spentSection is the work done on the dogs in the month that holds today.
func spentSection(r optimize.Result, dogs []string, work []kennel.Work) (htmlSection, error) {
	month := r.On.Time().Format("January 2006")
	s := htmlSection{id: "spent", title: "Hours spent in " + month}
	t := newHTMLTable(s.title, "day", "dog", "#minutes", "what")
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
		body, err = htmlSays("No work is written down for this month.")
	} else {
		t.total(wordCell("all"), htmlCell{}, workCell(all).with(fmt.Sprintf("%s h", layout.HoursWords(all))), htmlCell{})
		body, err = t.html()
	}
	s.body = body
	return s, err
}
