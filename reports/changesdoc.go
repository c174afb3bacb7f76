package reports

import (
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

type changesDoc struct {
	From         string               `json:"from"`
	Weeks        int                  `json:"weeks"`
	PointsBefore float64              `json:"points_before"`
	PointsAfter  float64              `json:"points_after"`
	Gain         float64              `json:"gain"`
	Sessions     []sessionChangeDoc   `json:"sessions"`
	Shares       []shareChangeDoc     `json:"shares"`
	Hours        []hoursChangeDoc     `json:"hours"`
	Readiness    []readinessChangeDoc `json:"readiness"`
	Dogs         []dogChangeDoc       `json:"dogs"`
	Newly        []cannotChangeDoc    `json:"cannot_any_more"`
	NoLonger     []cannotChangeDoc    `json:"can_now"`
	Cut          bool                 `json:"cut,omitempty"`
}

type sessionChangeDoc struct {
	Dog  string        `json:"dog"`
	Kind string        `json:"kind"`
	From *sessionAtDoc `json:"from,omitempty"`
	To   *sessionAtDoc `json:"to,omitempty"`
}

type sessionAtDoc struct {
	On    string `json:"on"` // the week's Monday where start and hands are not known
	Start string `json:"start,omitempty"`
	Hands string `json:"hands,omitempty"`
}

type shareChangeDoc struct {
	Week   string  `json:"week"`
	Dog    string  `json:"dog"`
	Area   string  `json:"area"`
	Before float64 `json:"before"`
	After  float64 `json:"after"`
}

type hoursChangeDoc struct {
	Week        string  `json:"week"`
	Before      float64 `json:"before"`
	After       float64 `json:"after"`
	ThereBefore float64 `json:"there_before"`
	ThereAfter  float64 `json:"there_after"`
}

type readinessChangeDoc struct {
	On     string   `json:"on"`
	Show   string   `json:"show"`
	Dog    string   `json:"dog"`
	Before *float64 `json:"before"` // null = not shown there
	After  *float64 `json:"after"`
}

type dogChangeDoc struct {
	Dog    string   `json:"dog"`
	Before *float64 `json:"before"` // null = not in the string
	After  *float64 `json:"after"`
	Gain   float64  `json:"gain"`
}

type cannotChangeDoc struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// given is a number, nil where there is none.
func given(there bool, x float64, decimals int) *float64 {
	if !there {
		return nil
	}
	x = layout.Rounded(x, decimals)
	return &x
}

func sessionAtDocOf(s optimize.SessionAt) *sessionAtDoc {
	if s.On == 0 {
		return nil
	}
	doc := &sessionAtDoc{On: s.On.String(), Hands: s.Hands}
	if s.Hands != "" {
		doc.Start = s.Start.String()
	}
	return doc
}

func cannotChangeDocs(all []optimize.Cannot) []cannotChangeDoc {
	docs := []cannotChangeDoc{}
	for _, x := range all {
		docs = append(docs, cannotChangeDoc{x.What, x.Why})
	}
	return docs
}

// ChangesJSON writes what sets one plan apart from another as one object: points, hours, shares from 0 to 1, scores from 0
// to 100.
func ChangesJSON(w io.Writer, c optimize.Changes) error {
	doc := changesDoc{
		From: c.From.String(), Weeks: c.Weeks, PointsBefore: layout.Rounded(c.PointsBefore, layout.PointDecimals),
		PointsAfter: layout.Rounded(c.PointsAfter, layout.PointDecimals), Gain: layout.Rounded(c.Gain(), layout.PointDecimals),
		Sessions: []sessionChangeDoc{}, Shares: []shareChangeDoc{}, Hours: []hoursChangeDoc{}, Readiness: []readinessChangeDoc{},
		Dogs: []dogChangeDoc{}, Newly: cannotChangeDocs(c.NewlyCannot), NoLonger: cannotChangeDocs(c.NoLongerCannot),
		Cut: c.Cut,
	}
	for _, s := range c.Sessions {
		doc.Sessions = append(doc.Sessions, sessionChangeDoc{s.Dog, string(s.Kind), sessionAtDocOf(s.From), sessionAtDocOf(s.To)})
	}
	for _, s := range c.Shares {
		doc.Shares = append(doc.Shares, shareChangeDoc{
			s.Week.String(), s.Dog, string(s.Area), layout.Rounded(float64(s.Before), layout.ShareDecimals), layout.Rounded(float64(s.After), layout.ShareDecimals),
		})
	}
	for _, h := range c.Hours {
		doc.Hours = append(doc.Hours, hoursChangeDoc{
			h.Week.String(), hoursNumber(h.Before), hoursNumber(h.After), hoursNumber(h.ThereBefore), hoursNumber(h.ThereAfter),
		})
	}
	for _, r := range c.Readiness {
		doc.Readiness = append(doc.Readiness, readinessChangeDoc{
			r.On.String(), r.Show, r.Dog, given(r.InBefore, float64(r.Before), layout.ScoreDecimals), given(r.InAfter, float64(r.After), layout.ScoreDecimals),
		})
	}
	for _, d := range c.Dogs {
		doc.Dogs = append(doc.Dogs, dogChangeDoc{
			d.Dog, given(d.InBefore, d.Before, layout.PointDecimals), given(d.InAfter, d.After, layout.PointDecimals), layout.Rounded(d.Gain(), layout.PointDecimals),
		})
	}
	return layout.JSON(w, doc)
}

func hoursNumber(h kennel.Hours) float64 { return layout.Rounded(float64(h), layout.HourDecimals) }

// ChangesCSV writes one row for each thing that differs: what it is, whose, when, and its value before and after.
func ChangesCSV(w io.Writer, c optimize.Changes) error {
	var rows [][]string
	add := func(what, dog, when, name, before, after string) {
		rows = append(rows, []string{what, layout.Cell(dog), when, layout.Cell(name), layout.Cell(before), layout.Cell(after)})
	}
	at := func(s optimize.SessionAt) string {
		if s.On == 0 {
			return ""
		}
		words := s.On.String()
		if s.Hands != "" {
			words += " " + s.Start.String() + " " + s.Hands
		}
		return words
	}
	for _, s := range c.Sessions {
		add("session "+string(s.Kind), s.Dog, max(s.From.On, s.To.On).String(), "", at(s.From), at(s.To))
	}
	for _, s := range c.Shares {
		add("share", s.Dog, s.Week.String(), string(s.Area), layout.Number(float64(s.Before), layout.ShareDecimals), layout.Number(float64(s.After), layout.ShareDecimals))
	}
	for _, h := range c.Hours {
		if h.Before != h.After || h.ThereBefore != h.ThereAfter {
			add("hours", "", h.Week.String(), "", layout.Number(float64(h.Before), layout.HourDecimals), layout.Number(float64(h.After), layout.HourDecimals))
		}
	}
	score := func(there bool, s kennel.Score) string {
		if !there {
			return ""
		}
		return layout.Number(float64(s), layout.ScoreDecimals)
	}
	for _, r := range c.Readiness {
		add("readiness", r.Dog, r.On.String(), r.Show, score(r.InBefore, r.Before), score(r.InAfter, r.After))
	}
	for _, d := range c.Dogs {
		add("points", d.Dog, "", "", layout.Number(d.Before, layout.PointDecimals), layout.Number(d.After, layout.PointDecimals))
	}
	return layout.CSV(w, []string{"what", "dog", "on", "name", "before", "after"}, rows)
}
