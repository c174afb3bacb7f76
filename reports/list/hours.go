package list

import (
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// does are the kinds of work that hands may do.
func does(h kennel.Hands) (all []string) {
	for _, s := range kennel.Skills() {
		if h.Can(s) {
			all = append(all, string(s))
		}
	}
	return all
}

// Hours writes who works when as a page of text.
func Hours(w io.Writer, k kennel.Kennel, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(k.Hands) == 0 {
		p.Say(0, "", "no hours yet: tuckup hours set mon=5 tue=5")
	}
	for _, h := range k.Hands {
		var days []string
		var sum float64
		for d, hours := range h.Hours {
			if hours > 0 {
				days = append(days, kennel.Weekday(d).Key()+" "+kennel.Number(float64(hours)))
				sum += float64(hours)
			}
		}
		p.Say(0, "", "%s: %s; %s hours a week", say.Plain(h.Name), orNone(strings.Join(days, ", ")), kennel.Number(layout.Rounded(sum, layout.HourDecimals)))
		p.Say(4, "", "does %s", strings.Join(does(h), ", "))
		if h.StripHoursADay > 0 {
			p.Say(4, "", "pulls at most %s hours a day", kennel.Number(float64(h.StripHoursADay)))
		}
		if away := spansWords(h.Away); away != "" {
			p.Say(4, "", "away %s", away)
		}
	}
	return p.Done()
}

func orNone(s string) string {
	if s == "" {
		return "no days"
	}
	return s
}

// HoursJSON writes a list of objects, one for each pair of hands, with the keys of the kennel file.
func HoursJSON(w io.Writer, k kennel.Kennel) error {
	docs := []object{}
	for _, h := range k.Hands {
		docs = append(docs, toldOf(fields.Hands, h))
	}
	return layout.JSON(w, docs)
}

// HoursCSV writes one row for each pair of hands.
func HoursCSV(w io.Writer, k kennel.Kennel) error {
	columns, rows := tableOf(fields.Hands, k.Hands)
	for i, h := range k.Hands {
		rows[i] = append(rows[i], layout.Cell(spansWords(h.Away)))
	}
	return layout.CSV(w, append(columns, "away"), rows)
}
