package html

import (
	"html/template"
	"io"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/draw"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

// Workload writes the hours planned as a page: a chart by week, the sums and how they are shared out.
func Workload(w io.Writer, r optimize.Result) error {
	sections, err := workloadSections(r)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: "Workload", note: "Hours planned over " + say.Plural(len(r.Weeks), "week") + " from " + say.LongDay(r.On) + ".",
		contents: true, foot: foot(),
	}, sections...)
}

// foot is the foot of every page.
func foot() []string { return []string{say.Caution} }

func workloadSections(r optimize.Result) ([]section, error) {
	lines := tally.Lines(r)
	var sections []section
	for _, by := range []struct {
		part  tally.Part
		title string
	}{
		{tally.PartWeek, "Hours by week"}, {tally.PartDog, "Hours by dog"}, {tally.PartArea, "Hours by area"}, {tally.PartOwner, "Hours by owner"}, {tally.PartHands, "Hours by hands"},
	} {
		var body fragments
		switch by.part {
		case tally.PartWeek:
			body.wrapped("wide", picturePart(hoursChart(r, lines, "hours-dogs", tally.PartDog, "Hours by week and dog")))
		case tally.PartHands:
			body.wrapped("wide", picturePart(hoursChart(r, lines, "hours-hands", tally.PartHands, "Hours by week and hands")))
		}
		body.add(sumsTable(r, lines, by.part, by.title))
		if body.err != nil {
			return nil, body.err
		}
		sections = append(sections, section{id: "by-" + string(by.part), title: by.title, body: body.html()})
	}
	balance, err := balanceSection(r)
	return append(sections, balance), err
}

// picturePart is a picture with what it says in words under it.
func picturePart(svg template.HTML, words string, err error) *fragments {
	var b fragments
	b.err = err
	b.add(fragment("picture", struct {
		SVG   template.HTML
		Words string
	}{svg, say.Plain(words)}))
	return &b
}

// hoursChart is the chart of hours by week, stacked by dog or by hands.
func hoursChart(r optimize.Result, lines []tally.Line, id string, by tally.Part, title string) (template.HTML, string, error) {
	weeks := map[kennel.Date]int{}
	c := draw.Bars{ID: id, Title: title, Weeks: chartWeeks(r), ThereName: "hours available"}
	for i, w := range r.Weeks {
		weeks[w.Week] = i
		c.There = append(c.There, float64(w.Hours))
	}
	lines = tally.AtHome(lines)
	var planned, there layout.Hundredths
	for _, s := range tally.Sums(r, lines, by) {
		series := draw.Series{Name: s.Label(r, by), Hours: make([]float64, len(r.Weeks))}
		for _, l := range lines {
			if tally.Key(l, by) == s.Name {
				series.Hours[weeks[l.Week]] += float64(l.Time) / (100 * kennel.MinutesAnHour)
			}
		}
		planned += s.All()
		c.Series = append(c.Series, series)
	}
	for _, w := range r.Weeks {
		there += layout.HundredthsOf(kennel.Minutes(w.Hours * kennel.MinutesAnHour))
	}
	c.Desc = layout.HoursWords(planned) + " of " + layout.HoursWords(there) + " hours are planned. The line shows the hours available. Every figure is in the tables."
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

func sumsTable(r optimize.Result, lines []tally.Line, by tally.Part, title string) (template.HTML, error) {
	columns := []string{string(by), "#pulling", "#set-up", "#duties", "#shows", "#all"}
	against := by == tally.PartWeek || by == tally.PartHands
	if against {
		columns = append(columns, "#at home", "#there are")
	}
	t := newTable(title, columns...)
	t.Hidden = true
	hours := func(h layout.Hundredths) cell { return figureCell(layout.HoursWords(h), h.Minutes()) }
	row := func(name string, s tally.Sum) []cell {
		cells := []cell{wordCell(name), hours(s.Pull), hours(s.SetUp), hours(s.Duties), hours(s.Shows), hours(s.All())}
		switch {
		case s.ThereAre != nil:
			cells = append(cells, hours(s.Home()), hours(*s.ThereAre))
		case against:
			cells = append(cells, hours(s.Home()), cell{})
		}
		return cells
	}
	list := tally.Sums(r, lines, by)
	all := tally.Total(list)
	if against {
		var there layout.Hundredths
		for _, s := range list {
			if s.ThereAre != nil {
				there += *s.ThereAre
			}
		}
		all.ThereAre = &there
	}
	for _, s := range list {
		t.add(row(s.Label(r, by), s)...)
	}
	t.total(row("all", all)...)
	return t.html()
}

func balanceSection(r optimize.Result) (section, error) {
	b := optimize.BalanceOf(r)
	var body fragments
	t := newTable("Balance", "dog", "#hours", "#share of hours", "#need", "#share of need", "#ready")
	t.Hidden = true
	hours := func(h kennel.Hours) cell {
		minutes := layout.Rounded(float64(h)*kennel.MinutesAnHour, 2)
		return figureCell(layout.Number(minutes/kennel.MinutesAnHour, 2), minutes)
	}
	share := func(part float64) cell {
		return figureCell(say.Percent(part), layout.Rounded(part, layout.ShareDecimals))
	}
	for _, s := range b.Dogs {
		ready := scoreCell(s.Score)
		if !s.Shown {
			ready = ready.with("no show")
		}
		t.add(wordCell(s.Dog), hours(s.Planned), share(s.PartOfHours), hours(s.Need), share(s.PartOfNeed), ready)
	}
	body.add(t.html())
	if b.Worst != "" {
		body.add(paragraphs("Served worst: "+b.Worst+"; "+b.Why+".", say.Need))
	}
	return section{id: "balance", title: "Balance", note: "Each dog's share of the hours beside its share of the need.", body: body.html()}, body.err
}
