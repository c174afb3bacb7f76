package reports

import (
	"html/template"
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/draw"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// WorkloadHTML writes the hours planned as a page: a chart by week, the sums and how they are shared out.
func WorkloadHTML(w io.Writer, r optimize.Result) error {
	sections, err := workloadSections(r)
	if err != nil {
		return err
	}
	return htmlDoc(w, htmlHead{
		kennel: r.Kennel.Name, title: "Workload", note: "Hours planned over " + say.Plural(len(r.Weeks), "week") + " from " + say.LongDay(r.On) + ".",
		contents: true, foot: htmlFoot(),
	}, sections...)
}

// htmlFoot is the foot of every page.
func htmlFoot() []string { return []string{say.Caution} }

func workloadSections(r optimize.Result) ([]htmlSection, error) {
	lines := workload(r)
	var sections []htmlSection
	for _, by := range []struct {
		part  WorkPart
		title string
	}{
		{PartWeek, "Hours by week"}, {PartDog, "Hours by dog"}, {PartArea, "Hours by area"}, {PartOwner, "Hours by owner"}, {PartHands, "Hours by hands"},
	} {
		var body htmlBody
		switch by.part {
		case PartWeek:
			body.wrapped("wide", picturePart(hoursChart(r, lines, "hours-dogs", PartDog, "Hours by week and dog")))
		case PartHands:
			body.wrapped("wide", picturePart(hoursChart(r, lines, "hours-hands", PartHands, "Hours by week and hands")))
		}
		body.add(sumsTable(r, lines, by.part, by.title))
		if body.err != nil {
			return nil, body.err
		}
		sections = append(sections, htmlSection{id: "by-" + string(by.part), title: by.title, body: body.html()})
	}
	balance, err := balanceSection(r)
	return append(sections, balance), err
}

// picturePart is a picture with what it says in words under it.
func picturePart(svg template.HTML, words string, err error) *htmlBody {
	var b htmlBody
	b.err = err
	b.add(htmlPart("picture", struct {
		SVG   template.HTML
		Words string
	}{svg, say.Plain(words)}))
	return &b
}

// hoursChart is the chart of hours by week, stacked by dog or by hands.
func hoursChart(r optimize.Result, lines []workLine, id string, by WorkPart, title string) (template.HTML, string, error) {
	weeks := map[kennel.Date]int{}
	c := draw.Bars{ID: id, Title: title, Weeks: chartWeeks(r), ThereName: "hours there are"}
	for i, w := range r.Weeks {
		weeks[w.Week] = i
		c.There = append(c.There, float64(w.Hours))
	}
	var planned, there layout.Hundredths
	for _, s := range sums(r, lines, by) {
		series := draw.Series{Name: s.label(r, by), Hours: make([]float64, len(r.Weeks))}
		for _, l := range lines {
			if workKey(l, by) == s.name {
				series.Hours[weeks[l.week]] += float64(l.time) / (100 * kennel.MinutesAnHour)
			}
		}
		planned += s.all()
		c.Series = append(c.Series, series)
	}
	for _, w := range r.Weeks {
		there += layout.HundredthsOf(kennel.Minutes(w.Hours * kennel.MinutesAnHour))
	}
	c.Desc = layout.HoursWords(planned) + " of " + layout.HoursWords(there) + " hours are planned. The line is the hours there are. Every figure is in the tables."
	svg, err := c.SVG()
	return svg, "", err
}

// dateEvery is how many weeks apart the dates under a chart stand.
const dateEvery = 4

// chartWeeks are the weeks of the plan as charts name them.
func chartWeeks(r optimize.Result) []draw.BarWeek {
	weeks := make([]draw.BarWeek, len(r.Weeks))
	every := dateEvery
	for len(weeks)/every > 7 {
		every += dateEvery
	}
	for i, w := range r.Weeks {
		weeks[i].Name = "week of " + say.Week(w.Week, r.On)
		if i%every == 0 && i+1 < len(weeks) {
			weeks[i].Tick = w.Week.Time().Format("2 Jan")
		}
	}
	return weeks
}

func sumsTable(r optimize.Result, lines []workLine, by WorkPart, title string) (template.HTML, error) {
	columns := []string{string(by), "#pulling", "#set-up", "#duties", "#all"}
	against := by == PartWeek || by == PartHands
	if against {
		columns = append(columns, "#there are")
	}
	t := newHTMLTable(title, columns...)
	t.Hidden = true
	hours := func(h layout.Hundredths) htmlCell { return figureCell(layout.HoursWords(h), h.Minutes()) }
	row := func(name string, s workSum) []htmlCell {
		cells := []htmlCell{wordCell(name), hours(s.pull), hours(s.setUp), hours(s.duties), hours(s.all())}
		switch {
		case s.thereAre != nil:
			cells = append(cells, hours(*s.thereAre))
		case against:
			cells = append(cells, htmlCell{})
		}
		return cells
	}
	list := sums(r, lines, by)
	all := total(list)
	if against {
		var there layout.Hundredths
		for _, s := range list {
			if s.thereAre != nil {
				there += *s.thereAre
			}
		}
		all.thereAre = &there
	}
	for _, s := range list {
		t.add(row(s.label(r, by), s)...)
	}
	t.total(row("all", all)...)
	return t.html()
}

func balanceSection(r optimize.Result) (htmlSection, error) {
	b := newBalanceDoc(r)
	var body htmlBody
	t := newHTMLTable("Balance", "dog", "#hours", "#share of hours", "#need", "#share of need", "#ready")
	t.Hidden = true
	hours := func(minutes float64) htmlCell {
		return figureCell(layout.Number(minutes/kennel.MinutesAnHour, 2), minutes)
	}
	for _, s := range b.Dogs {
		ready := figureCell(kennel.ScoreWords(kennel.Score(s.Score)), s.Score)
		if !s.Shown {
			ready = ready.with("no show")
		}
		t.add(wordCell(s.Dog), hours(s.Minutes), figureCell(say.Percent(s.PartOfHours), s.PartOfHours), hours(s.Need),
			figureCell(say.Percent(s.PartOfNeed), s.PartOfNeed), ready)
	}
	body.add(t.html())
	if b.Worst != "" {
		body.add(htmlSays("Served worst: "+b.Worst+"; "+b.Why+".", say.Need))
	}
	return htmlSection{id: "balance", title: "Balance", note: "Each dog's share of the hours beside its share of the need.", body: body.html()}, body.err
}
