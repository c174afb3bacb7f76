package desk

import (
	"fmt"
	"math"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// Leasts of what is told: smaller differences are none to a handler.
const (
	leastPoints = 0.005
	leastHours  = 0.05
	nearWeeks   = 4 // sessions are told for so many weeks
)

// changesView is what sets two plans apart, in words.
type changesView struct {
	Worth           string
	Pays            []payView
	Readiness       []readyView // those that differ
	Same            []readyView
	Sessions        []sessionView
	Near            int
	Later           string
	Hours           []hoursView
	Newly, NoLonger []optimize.Cannot
}

type payView struct{ Dog, Before, After, Gain string }

type readyView struct{ Dog, Show, Day, Before, After string }

type sessionView struct{ Dog, Kind, Words string }

type hoursView struct{ Week, Before, After, There string }

func newChangesView(before, after optimize.Result) changesView {
	c := optimize.Compare(before, after)
	today := after.On
	v := changesView{Worth: say.Change(c), Near: min(nearWeeks, c.Weeks), Newly: c.NewlyCannot, NoLonger: c.NoLongerCannot}
	for _, d := range c.Dogs {
		if d.InBefore == d.InAfter && math.Abs(d.Gain()) < leastPoints {
			continue
		}
		v.Pays = append(v.Pays, payView{d.Dog, pointsOr(d.InBefore, d.Before), pointsOr(d.InAfter, d.After), fmt.Sprintf("%+.2f", d.Gain())})
	}
	for _, r := range c.Readiness {
		x := readyView{r.Dog, r.Show, say.Day(r.On, today), scoreOr(r.InBefore, r.Before), scoreOr(r.InAfter, r.After)}
		if x.Before != x.After {
			v.Readiness = append(v.Readiness, x)
		} else {
			v.Same = append(v.Same, x)
		}
	}
	later := 0
	for _, s := range c.Sessions {
		if max(s.From.On, s.To.On) >= c.From.AddDays(nearWeeks*kennel.DaysAWeek) {
			later++
			continue
		}
		words := ""
		switch s.Kind {
		case optimize.SessionMoved:
			words = say.Session(s.From, today) + " → " + say.Session(s.To, today)
		case optimize.SessionAdded:
			words = say.Session(s.To, today)
		case optimize.SessionDropped:
			words = say.Session(s.From, today)
		}
		v.Sessions = append(v.Sessions, sessionView{s.Dog, string(s.Kind), words})
	}
	if later > 0 {
		v.Later = fmt.Sprintf("And %d more", later)
	}
	for _, h := range c.Hours {
		if math.Abs(float64(h.After-h.Before)) >= leastHours || h.ThereBefore != h.ThereAfter {
			there := fmt.Sprintf("%.1f", h.ThereAfter)
			if h.ThereBefore != h.ThereAfter {
				there = fmt.Sprintf("%.1f → %.1f", h.ThereBefore, h.ThereAfter)
			}
			v.Hours = append(v.Hours, hoursView{say.Week(h.Week, today), fmt.Sprintf("%.1f", h.Before), fmt.Sprintf("%.1f", h.After), there})
		}
	}
	return v
}

func pointsOr(in bool, points float64) string {
	if !in {
		return "-"
	}
	return fmt.Sprintf("%.2f", points)
}

func scoreOr(in bool, s kennel.Score) string {
	if !in {
		return "-"
	}
	return kennel.ScoreWords(s)
}
