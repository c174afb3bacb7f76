package html

import (
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/draw"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Readiness writes how ready the dogs are as a page: dogs by shows, and a ribbon of each coat.
func Readiness(w io.Writer, r optimize.Result) error {
	sections, err := readinessSections(r)
	if err != nil {
		return err
	}
	return writePage(w, pageHead{
		kennel: r.Kennel.Name, title: "Readiness", note: "On " + say.LongDay(r.On) + " and over " + say.Plural(len(r.Weeks), "week") + ".",
		contents: true, foot: foot(),
	}, sections...)
}

func readinessSections(r optimize.Result) ([]section, error) {
	today, err := todaySection(r)
	if err != nil {
		return nil, err
	}
	shows, err := showsSection(r)
	if err != nil {
		return nil, err
	}
	var coats fragments
	for i, o := range r.Outlooks {
		coats.heading(o.Dog)
		coats.add(ribbon(r, i))
		coats.add(dogShowsTable(r, o.Dog))
	}
	return []section{
		today, shows,
		{
			id: "coats", title: "The coats over the weeks", body: coats.html(),
			note: "Above with the plan, below if nothing is done. The numbers are the shows in the table under each.",
		},
	}, coats.err
}

func todaySection(r optimize.Result) (section, error) {
	t := newTable("Today", "dog", "#ready", "state", "worst area")
	t.Hidden, t.Class = true, stacked
	for _, o := range r.Outlooks {
		worst := say.WorstArea(o)
		t.add(wordCell(o.Dog), scoreCell(o.Score), wordCell(string(o.State)), worstCell(worst.Area, worst.Score, worst.Why))
	}
	body, err := t.html()
	return section{id: "today", title: "Today", body: body}, err
}

// scoreCell is a readiness in whole points.
func scoreCell(s kennel.Score) cell { return figureCell(kennel.ScoreWords(s), layout.Points(s)) }

// worstCell names the worst area in a column that is headed so.
func worstCell(area kennel.AreaName, score kennel.Score, why string) cell {
	return wordCell(strings.TrimPrefix(say.Worst(area, score, why), "worst "))
}

// showsSection has a row for each show and a column for each dog that is shown.
func showsSection(r optimize.Result) (section, error) {
	s := section{
		id: "shows", title: "Dogs and shows",
		note: "Readiness, 0 to 100, to be expected with the plan, then its range and the worst area. 8 in 10 times the dog is within the " +
			"range, as sessions may be missed and it may grow slower or faster than thought.",
	}
	for _, words := range say.Young(r) {
		s.note += " " + words
	}
	var dogs []string
	columns := []string{"show"}
	for _, d := range r.Kennel.Dogs {
		for _, x := range r.Readiness {
			if x.Dog == d.Name {
				dogs = append(dogs, d.Name)
				columns = append(columns, "#"+say.Plain(d.Name))
				break
			}
		}
	}
	if len(dogs) == 0 {
		body, err := paragraphs("No dog is named for a show in these weeks.")
		s.body = body
		return s, err
	}
	t := newTable("Readiness of each dog for each show", columns...)
	t.Hidden, t.Class = true, "matrix"
	for i, x := range r.Readiness {
		if i == 0 || x.Show != r.Readiness[i-1].Show || x.On != r.Readiness[i-1].On {
			t.add(showRow(r, x, dogs)...)
		}
	}
	body, err := t.html()
	s.body = body
	return s, err
}

// showRow is one show with the dogs that are named for it.
func showRow(r optimize.Result, show optimize.ShowReadiness, dogs []string) []cell {
	cells := []cell{wordCell(show.Show).with(say.Day(show.On, r.On) + ", " + say.Chance(show.Chance))}
	for _, dog := range dogs {
		var c cell
		for _, x := range r.Readiness {
			if x.Dog != dog || x.Show != show.Show || x.On != show.On {
				continue
			}
			c = scoreCell(x.Score)
			small := ""
			if x.High > 0 {
				small = say.Range(x)
			}
			if x.WorstArea != "" && x.WorstScore < say.AllRight {
				if small != "" {
					small += ", "
				}
				small += string(x.WorstArea) + " " + kennel.ScoreWords(x.WorstScore)
			}
			if words := say.NotDone(x); words != "" {
				if small != "" {
					small += "; "
				}
				small += words
			}
			c = c.with(small)
		}
		cells = append(cells, c)
	}
	return cells
}

// dogShows are the shows of a dog, by date.
func dogShows(r optimize.Result, dog string) (all []optimize.ShowReadiness) {
	for _, x := range r.Readiness {
		if x.Dog == dog {
			all = append(all, x)
		}
	}
	return all
}

// dogShowsTable lists a dog's shows under the numbers that they have on its ribbon.
func dogShowsTable(r optimize.Result, dog string) (template.HTML, error) {
	shows := dogShows(r, dog)
	if len(shows) == 0 {
		return paragraphs("It is named for no show in these weeks.")
	}
	t := newTable("Shows of "+dog, "show", "#ready", "#range", "#chance in coat", "#left alone", "worst area")
	t.Hidden, t.Class = true, stacked
	for i, x := range shows {
		band, likely := cell{}, cell{}
		if x.High > 0 {
			band = cell{Text: say.Range(x), Figure: true}
			likely = figureCell(say.Percent(x.Likely), layout.Chance(x.Likely))
		}
		t.add(wordCell(fmt.Sprintf("%d %s", i+1, x.Show)).with(say.Day(x.On, r.On)+", "+say.Chance(x.Chance)), scoreCell(x.Score), band,
			likely, scoreCell(x.Idle), curedCell(x, r.On))
	}
	return t.html()
}

// curedCell is a dog's worst area at a show, and what would bring it in coat.
func curedCell(x optimize.ShowReadiness, today kennel.Date) cell {
	c := wordCell(strings.TrimPrefix(say.WorstAt(x), "worst "))
	if x.Cure != nil {
		c = c.with("In coat with " + say.Cure(x.Cure, today))
	}
	if words := say.NotDone(x); words != "" {
		c.Text += "; " + words
	}
	return c
}

// ribbon is the coat of one dog over the weeks.
func ribbon(r optimize.Result, dog int) (template.HTML, error) {
	return ribbonWith(r, dog, dogShows(r, r.Outlooks[dog].Dog))
}

// ribbonWith is the same with the shows that are marked.
func ribbonWith(r optimize.Result, dog int, shows []optimize.ShowReadiness) (template.HTML, error) {
	o := r.Outlooks[dog]
	weeks := chartWeeks(r)
	rows := []draw.RibbonRow{{Name: "With the plan", States: o.PlannedStates}, {Name: "If nothing is done", States: o.IdleStates}}
	c := draw.Ribbon{
		ID: "ribbon-" + strconv.Itoa(dog+1), Title: "The coat of " + say.Plain(o.Dog) + " by week", Weeks: weeks, Rows: rows,
		Desc: draw.RibbonWords(rows[0], weeks) + " " + draw.RibbonWords(rows[1], weeks),
	}
	for i, x := range shows {
		c.Marks = append(c.Marks, draw.Mark{
			Week: kennel.WeekOf(x.On, r.Week0), Label: strconv.Itoa(i + 1),
			Title: fmt.Sprintf("%s, %s: %s", say.Plain(x.Show), say.Day(x.On, r.On), kennel.ScoreWords(x.Score)),
		})
		c.Desc += fmt.Sprintf(" Show %d is %s on %s.", i+1, say.Plain(x.Show), say.Day(x.On, r.On))
	}
	svg, err := c.SVG()
	part := picturePart(svg, "", err)
	var b fragments
	b.wrapped("ribbon", part)
	return b.html(), b.err
}
