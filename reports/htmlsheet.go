package reports

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// SheetHTML writes the days planned as a page to hang up: in print the days of a string of twelve fit one sheet of A4
// or Letter, for the letters are as large as the work leaves room for. On a phone it is one day under the other.
func SheetHTML(w io.Writer, r optimize.Result) error {
	css, err := htmlFiles.ReadFile("html/sheet.css")
	if err != nil {
		return err
	}
	days := htmlDays(r.Timetable)
	left, cannot := sheetNotes(r)
	letters := letterSize(days, slices.Concat(left, cannot))
	style := template.CSS(fmt.Sprintf("%s@media print { html { font-size: %spt; } }\n", css, kennel.Number(letters))) //nolint:gosec // the program's own file and a number
	head := htmlHead{kennel: r.Kennel.Name, title: "Work for " + say.Days(r), style: style}
	for _, c := range say.Cautions() {
		head.foot = append(head.foot, c.About+": "+c.Words)
	}
	byDay, err := htmlPart("days", struct {
		Start string
		Days  []htmlDay
		Pairs bool
	}{say.Start(r.Timetable, r.On), days, inPairs(letters)})
	if err != nil {
		return err
	}
	sections := []htmlSection{{id: "days", title: "By day", body: byDay}}
	for _, s := range []struct {
		section htmlSection
		items   []string
	}{
		{htmlSection{id: "left-out", title: "Left out: what the days could not hold"}, left},
		{htmlSection{id: "cannot", title: "Cannot be met"}, cannot},
	} {
		if len(s.items) == 0 {
			continue
		}
		if s.section.body, err = htmlPart("lines", s.items); err != nil {
			return err
		}
		sections = append(sections, s.section)
	}
	return htmlDoc(w, head, sections...)
}

// sheetNotes are what the days could not hold, and what cannot be met.
func sheetNotes(r optimize.Result) (left, cannot []string) {
	for _, l := range r.Timetable.LeftOut {
		left = append(left, say.LeftOut(l))
	}
	for _, c := range r.Cannot {
		cannot = append(cannot, say.Plain(c.What)+": "+say.Plain(c.Why))
	}
	return left, cannot
}

type htmlDay struct {
	Name  string
	Hands []htmlDayHands
}

type htmlDayHands struct {
	Name, Work string
	Items      []htmlItem
}

type htmlItem struct {
	Clock, Dog, What, Why, How string
	Box, Took, Session         bool
	Areas                      []htmlTouch
}

type htmlTouch struct{ Area, Share, Minutes string }

func htmlDays(t optimize.Timetable) []htmlDay {
	days := make([]htmlDay, 0, len(t.Days))
	for _, d := range t.Days {
		day := htmlDay{Name: d.On.Time().Format("Monday 2 January")}
		for _, h := range say.Busy(d) {
			hands := htmlDayHands{Name: say.Plain(h.Hands), Work: say.DayWork(h)}
			for n, i := range h.Items {
				hands.Items = append(hands.Items, newHTMLItem(i, optimize.GoesOn(h.Items, n), n+2 < len(h.Items) && optimize.GoesOn(h.Items, n+2)))
			}
			day.Hands = append(day.Hands, hands)
		}
		days = append(days, day)
	}
	return days
}

// newHTMLItem is an item as the page shows it; rest is the second part of a session that a break has cut in two, and
// more says that a part follows.
func newHTMLItem(i optimize.Item, rest, more bool) htmlItem {
	h := htmlItem{Clock: say.Clock(i), Dog: say.Plain(i.Dog), Why: strings.Trim(say.Reason(i), " ()")}
	switch i.Kind {
	case optimize.ItemSession:
		h.Session, h.Took = true, !more
		if rest {
			h.What, h.Why = "again", ""
		} else {
			h.How = say.How(i)
		}
	case optimize.ItemDuty:
		h.What, h.Box = say.Plain(i.What), true
	case optimize.ItemBath:
		h.What, h.Box = "lifting bath, left to dry", true
	default:
		h.What = say.Plain(say.Item(i))
	}
	for _, a := range i.Areas {
		share := strings.TrimPrefix(kennel.ShareWords(a.Share), "about ")
		h.Areas = append(h.Areas, htmlTouch{say.Plain(string(a.Area)), share, say.Minutes(a.Minutes)})
	}
	return h
}
