package html

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

// Sheet writes the days planned as a page to hang up: in print the days of a string of twelve fit one sheet of A4
// or Letter, for the letters are as large as the work leaves room for. On a phone it is one day under the other.
func Sheet(w io.Writer, r optimize.Result) error {
	css, err := files.ReadFile("sheet.css")
	if err != nil {
		return err
	}
	days := dayViews(r)
	left, ways, cannot := sheetNotes(r)
	letters := letterSize(days, slices.Concat(left, ways, cannot))
	style := template.CSS(fmt.Sprintf("%s@media print { html { font-size: %spt; } }\n", css, kennel.Number(letters))) //nolint:gosec // the program's own file and a number
	head := pageHead{kennel: r.Kennel.Name, title: "Work for " + say.Days(r), style: style}
	for _, c := range say.Cautions() {
		head.foot = append(head.foot, c.About+": "+c.Words)
	}
	byDay, err := fragment("days", struct {
		Start string
		Days  []dayView
		Pairs bool
	}{strings.TrimSpace(strings.Join([]string{say.Beside(r.InUse, r.On, "tuckup replan plans again."), say.Start(r.Timetable, r.On), say.Early(r)}, " ")), days, inPairs(letters)})
	if err != nil {
		return err
	}
	sections := []section{{id: "days", title: "By day", body: byDay}}
	for _, s := range []struct {
		section section
		items   []string
	}{
		{section{id: "left-out", title: "Left out: what the days could not hold"}, left},
		{section{id: "at-shows", title: "At the shows: what is done there, and what to pack"}, atShowLines(r)},
		{section{id: "ways", title: "How each dog is worked"}, ways},
		{section{id: "cannot", title: "Cannot be met"}, cannot},
	} {
		if len(s.items) == 0 {
			continue
		}
		if s.section.body, err = fragment("lines", s.items); err != nil {
			return err
		}
		sections = append(sections, s.section)
	}
	return writePage(w, head, sections...)
}

// atShowLines are what is done at the shows of the coming days, and what to pack for them.
func atShowLines(r optimize.Result) (lines []string) {
	for _, s := range say.AtShows(r) {
		lines = append(lines, s.Show)
		lines = append(lines, s.Dogs...)
		if s.Ring != "" {
			lines = append(lines, s.Ring)
		}
		lines = append(lines, "For all: "+s.All)
	}
	return lines
}

// sheetNotes are what the days could not hold, how the dogs with a session on them are worked, and what cannot be met.
func sheetNotes(r optimize.Result) (left, ways, cannot []string) {
	for _, l := range r.Timetable.Missed() {
		left = append(left, say.LeftOut(l))
	}
	for _, w := range say.WaysOnDays(r) {
		ways = append(ways, say.Plain(w.Dog)+": "+say.Way(w, r.On))
	}
	for _, c := range r.Cannot {
		cannot = append(cannot, say.Plain(c.What)+": "+say.Plain(c.Why))
	}
	return left, ways, cannot
}

type dayView struct {
	Name  string
	Hands []handsView
}

type handsView struct {
	Name, Work string
	Items      []itemView
}

type itemView struct {
	Clock, Dog, What, Why, How string
	Box, Took, Session         bool
	Areas                      []touchView
}

type touchView struct{ Area, Share, Minutes, Outline string }

func dayViews(r optimize.Result) []dayView {
	days := make([]dayView, 0, len(r.Timetable.Days))
	for _, d := range r.Timetable.Days {
		day := dayView{Name: d.On.Time().Format("Monday 2 January")}
		for _, h := range say.Busy(d) {
			hands := handsView{Name: say.Plain(h.Hands), Work: say.DayWork(h)}
			for n, i := range h.Shown() {
				hands.Items = append(hands.Items, newItemView(r.Kennel, i, say.Rest(h, n), h.GoesOn(n+2)))
			}
			day.Hands = append(day.Hands, hands)
		}
		days = append(days, day)
	}
	return days
}

// newItemView is an item as the page shows it; again is said of a later part of a session that a break has cut, and more says
// that a part follows.
func newItemView(k kennel.Kennel, i optimize.Item, again string, more bool) itemView {
	h := itemView{Clock: say.Clock(i), Dog: say.Plain(i.Dog), Why: strings.Trim(say.Reason(i), " ()")}
	switch i.Kind {
	case optimize.ItemSession:
		h.Session, h.Took = true, !more
		if again != "" {
			h.What, h.Why = again, ""
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
	if few := say.Few(i.Areas); few != "" {
		h.How = strings.TrimPrefix(h.How+"; "+few, "; ")
	}
	for _, a := range say.Touches(i.Areas) {
		share := strings.TrimPrefix(a.Words(), "about ")
		h.Areas = append(h.Areas, touchView{say.Plain(string(a.Area)), share, say.Minutes(a.Minutes), say.OutlineOn(k, i.Dog, a.Area)})
	}
	return h
}
