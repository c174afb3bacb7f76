package desk

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

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

// changesView is what sets two plans apart, in words: what breaks first.
type changesView struct {
	Breaks      []string
	Pays, Gains []readyView // at shows that both plans have, by size
	Little      []readyView // those that differ by no more than leastPaid
	Same        int         // as before
	New, Gone   []readyView // at shows that only one of the plans has
	Worth       string
	Points      []payView
	Sessions    []sessionView
	Near        int
	Later       string
	Hours       []hoursView
	NoLonger    []optimize.Cannot
}

// leastPaid is up to how many points of readiness a difference is folded away: two searches differ by as much.
const leastPaid = 2

type payView struct{ Dog, Before, After, Gain string }

// readyView is a dog at a show before and after.
type readyView struct {
	Dog, Show, Day, Before, After string
	Change                        string // "−14"
	Bad                           bool   // it is out of coat after
	Why                           string // it is
}

type sessionView struct{ Dog, Kind, Words string }

type hoursView struct{ Week, Before, After, There string }

func newChangesView(before, after optimize.Result) changesView {
	c := optimize.Compare(before, after)
	today := after.On
	v := changesView{Worth: say.Change(c), Near: min(nearWeeks, c.Weeks), NoLonger: c.NoLongerCannot}
	for _, d := range c.Dogs {
		if d.InBefore == d.InAfter && math.Abs(d.Gain()) < leastPoints {
			continue
		}
		v.Points = append(v.Points, payView{d.Dog, pointsOr(d.InBefore, d.Before), pointsOr(d.InAfter, d.After), fmt.Sprintf("%+.2f", d.Gain())})
	}
	v.readiness(c, after)
	v.leftOut(before, after)
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

// readiness says what breaks, and who pays and gains at which show.
func (v *changesView) readiness(c optimize.Changes, after optimize.Result) {
	cannot := slices.Clone(c.NewlyCannot)
	rows := slices.Clone(c.Readiness)
	moved := func(r optimize.ReadinessChange) int {
		return int(math.Round(float64(r.After)) - math.Round(float64(r.Before)))
	}
	slices.SortStableFunc(rows, func(a, b optimize.ReadinessChange) int { return cmp.Compare(abs(moved(b)), abs(moved(a))) })
	for _, r := range rows {
		x := readyView{Dog: r.Dog, Show: r.Show, Day: say.Day(r.On, after.On), Before: scoreOr(r.InBefore, r.Before), After: scoreOr(r.InAfter, r.After)}
		x.Bad = r.InAfter && r.After < kennel.ReadyScore
		if i := slices.IndexFunc(cannot, func(c optimize.Cannot) bool { return c.What == r.Dog+" in coat for "+r.Show }); i >= 0 {
			x.Why = say.Dates(cannot[i].Why, after.On)
			cannot = slices.Delete(cannot, i, i+1)
		}
		d := moved(r)
		x.Change = strings.Replace(fmt.Sprintf("%+d", d), "-", "−", 1)
		switch {
		case !r.InBefore:
			v.New = append(v.New, x)
			continue
		case !r.InAfter:
			v.Gone = append(v.Gone, x)
			continue
		case d == 0:
			v.Same++
		case abs(d) <= leastPaid:
			v.Little = append(v.Little, x)
		case d < 0:
			v.Pays = append(v.Pays, x)
		default:
			v.Gains = append(v.Gains, x)
		}
		if x.Bad && r.Before >= kennel.ReadyScore {
			words := fmt.Sprintf("%s not in coat for %s (%s) any more: %s, before %s", x.Dog, x.Show, x.Day, x.After, x.Before)
			if x.Why != "" {
				words += "; " + x.Why
			}
			v.Breaks = append(v.Breaks, words)
		}
	}
	for _, x := range cannot {
		v.Breaks = append(v.Breaks, say.Dates(x.What+": "+x.Why, after.On))
	}
}

// leftOut adds the work that the days can't hold any more to what breaks.
func (v *changesView) leftOut(before, after optimize.Result) {
	was := before.Timetable.Missed()
	for _, x := range after.Timetable.Missed() {
		if !slices.ContainsFunc(was, func(y optimize.LeftOut) bool {
			return x.Week == y.Week && x.Dog == y.Dog && x.Area == y.Area && x.Duty == y.Duty
		}) {
			v.Breaks = append(v.Breaks, "Left out: "+say.LeftOut(x))
		}
	}
}

func abs(n int) int { return max(n, -n) }

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
