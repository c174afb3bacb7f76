package desk

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/draw"
	"tuckup/reports/say"
)

// boardCell is one week of one dog.
type boardCell struct {
	Path, Label string
	Letter      string // of the coat's state; empty = not known
	First       bool   // of the weeks in this state: the letter is written
	Now         bool
	Away        string // "part" or "all" of the week the dog is not at the table; empty = it is
	Ticks       []int  // the sessions, by length
	Mark        *boardMark
}

// boardMark is a show in a week; of several the one that the dog is least ready for.
type boardMark struct {
	Path, Label, Figure string
	Entered, Bad        bool
}

// Ticks are drawn in steps of a few minutes, up to the longest that is drawn.
const (
	tickMinutes = 10
	mostTick    = 9
)

// boardRow draws the weeks of a dog.
func (d *Desk) boardRow(l look, dog kennel.Dog) template.HTML {
	var b strings.Builder
	if err := d.pages("board").ExecuteTemplate(&b, "board-cells", boardCells(l, dog)); err != nil {
		d.opt.Log.Error().Err(err).Str("dog", dog.Name).Msg("a dog could not be drawn on the board")
		return ""
	}
	return template.HTML(b.String()) //nolint:gosec // the template has escaped every text
}

// boardCells are the weeks of a dog, nil where the plan does not have it.
func boardCells(l look, dog kennel.Dog) []boardCell {
	r := l.plan.Result
	n := slices.IndexFunc(r.Outlooks, func(o optimize.Outlook) bool { return o.Dog == dog.Name })
	if n < 0 {
		return nil
	}
	states := r.Outlooks[n].PlannedStates
	cells := make([]boardCell, len(r.Weeks))
	name := say.Plain(dog.Name)
	for t, w := range r.Weeks {
		c := boardCell{Path: weekPath(w.Week, dog.Name), Now: w.Week == l.today.Monday()}
		says := []string{name + ", week of " + say.Week(w.Week, l.today)}
		days, why := dogAway(l.state.Kennel, dog, w.Week)
		switch {
		case days == kennel.DaysAWeek:
			c.Away = "all"
		case days > 0:
			c.Away = "part"
		}
		if t < len(states) {
			c.Letter = draw.Letter(states[t])
			c.First = t == 0 || states[t-1] != states[t]
			says = append(says, string(states[t]))
		}
		says = append(says, c.work(weekMinutes(l, dog.Name, w)))
		says = append(says, c.shows(l, dog.Name, w.Week)...)
		says = append(says, say.Plains(why)...)
		c.Label = strings.Join(says, ", ")
		cells[t] = c
	}
	return cells
}

// work draws the sessions and says what they take.
func (c *boardCell) work(sessions []kennel.Minutes) string {
	var sum kennel.Minutes
	for _, m := range sessions {
		sum += m
		c.Ticks = append(c.Ticks, min(mostTick, max(1, int(m/tickMinutes+0.5))))
	}
	switch len(sessions) {
	case 0:
		return "no work"
	case 1:
		return fmt.Sprintf("%.0f minutes", float64(sum))
	}
	return fmt.Sprintf("%.0f minutes in %d sessions", float64(sum), len(sessions))
}

// shows marks the shows of the week, and says them.
func (c *boardCell) shows(l look, dog string, monday kennel.Date) (says []string) {
	least := kennel.Score(0)
	for _, x := range l.plan.Readiness {
		if x.Dog != dog || x.On.Monday() != monday {
			continue
		}
		words := say.Plain(x.Show) + " " + kennel.ScoreWords(x.Score)
		if notReady(x) {
			words += ", not in coat"
		}
		if x.Chance < 1 {
			words += ", hoped for"
		}
		says = append(says, words)
		if c.Mark != nil && x.Score >= least {
			continue
		}
		least = x.Score
		c.Mark = &boardMark{Label: words + ", " + say.Day(x.On, l.today), Figure: kennel.ScoreWords(x.Score), Entered: x.Chance >= 1, Bad: notReady(x)}
		if s, ok := showOf(l.state.Kennel, x); ok {
			c.Mark.Path = showPath(s)
		}
	}
	return says
}
