// Package planned is what a plan says, in the trade's words, and the settings that it was made with: types, and no planning. It
// stands apart from what makes a plan, so that what checks one (tuckup/optimize/check) need not know how it was made.
package planned

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// Result is a plan in the trade's words. Lists are in the order in which people read them and never depend on
// map order; weeks are Monday weeks.
type Result struct {
	Kennel    kennel.Kennel // as planned
	Patterns  kennel.Patterns
	Options   Options     // as planned with, without stopwatch and progress
	On        kennel.Date // today
	Week0     kennel.Date // Monday of the first week
	Season    Season
	Weeks     []Week          // one for each week of the horizon, also those without work
	Readiness []ShowReadiness // dogs x shows, by date, then show, then dog
	Outlooks  []Outlook       // one for each dog, in the kennel's order
	Ways      []Way           // one for each dog, in the kennel's order
	Cannot    []Cannot
	Gathered  Gathered
	Tight     *Tight      // the week where an hour is dearest; nil when no week is short
	Timetable Timetable   // the next days
	Points    []DogPoints // one for each dog, in the kennel's order
	Balance   float64     // points for the least mean show readiness; with Points, all that the plan is worth

	Slipped []Slipped `cbor:",omitempty"` // what the plan that it began with left out or undone in the weeks before Week0, by dog, then area

	Agreed []Agreed // of the plan that this one began with, by week, then dog; nil = it began with none
	Solved *Solved  // the season in numbers; nil when no dogs or nothing was planned here
	InUse  *InUse   `cbor:"-"` // of a plan that was taken and is looked at later, or of a new one beside it; nil = it was just made
}

// Solved is a season in numbers: what was solved, and the answer before crumbs were gathered. It is for the model file and for the
// next plan, which begins with this one.
type Solved struct {
	Problem *season.Problem
	Answer  season.Result
	Held    *season.Problem // the same season inside what the first weeks' days hold, which the answer keeps to; nil = they hold all of it
}

// Idle reports whether no dog is worked in any week.
func (r Result) Idle() bool {
	return !slices.ContainsFunc(r.Weeks, func(w Week) bool { return len(w.Dogs) > 0 })
}

// Worth is what the plan is worth as it is shown, in points: with crumbs gathered and without what the days leave out.
func (r Result) Worth() float64 { return r.Season.Objective - r.Gathered.Points - r.Timetable.Lost }

// Season is how good the plan is and how good any plan could be.
type Season struct {
	Objective, Bound, Gap float64 // points; Gap = (Bound-Objective) / max(1, |Bound|). Of the plan before gathering
	Seconds               float64
	Cut                   bool // the time limit or the context ended the search
	Rounds                int
	HourPrice             []HourPrice
}

// HourPrice is what one more hour would add in a week, for a group of hands.
type HourPrice struct {
	Week          kennel.Date
	Hands         string // names joined with " and "
	Strip         bool   // an hour of pulling (hand load) rather than of presence
	PointsPerHour float64
}

// ShowReadiness is how ready a dog is for a show.
type ShowReadiness struct {
	Dog, Show  string
	On         kennel.Date
	Chance     float64
	Score      kennel.Score // to be expected: the mean over what may be missed of the plan and how the dog may grow
	Followed   kennel.Score // if all of the plan is done and the dog grows as thought
	Idle       kennel.Score // if nothing more is done
	WorstArea  kennel.AreaName
	WorstScore kennel.Score
	Why        string       // of the worst area: "58 % is under 11 weeks"
	Low, High  kennel.Score // on that account: 1 in 10 is below Low, 1 in 10 above High
	Likely     float64      // chance of being in coat on that account, 0 to 1
	NotDone    []string     `cbor:",omitempty"` // duties before it for which there is no time, in the dog's order
	Cure       *Cure        // what would bring it in coat; nil when it is, or when no work on one area or two does
}

// Outlook is one dog's coat over the season.
type Outlook struct {
	Dog                       string
	State                     kennel.State    // today
	Score                     kennel.Score    // today
	Idle                      []kennel.Window // in coat if nothing more is done
	Planned                   []kennel.Window // in coat if the plan is followed
	Areas                     []AreaOutlook   // in the pattern's order
	IdleScores, PlannedScores []kennel.Score  // by week
	IdleStates, PlannedStates []kennel.State  // by week
}

// AreaOutlook is one area's coat today.
type AreaOutlook struct {
	Area        kennel.AreaName
	State       kennel.State
	Score       kennel.Score
	Why         string
	Ages        []kennel.Share // of the hairs, by age in whole weeks: Ages[0] was pulled within the week
	Older       kennel.Share   // older than all of Ages
	Ready, Over kennel.Weeks   // age from which hair shows, and from which it is too long, 0 = never, of kept hair; growth counted in
}

// Cannot is something that the plan cannot meet.
type Cannot struct {
	What, Why string
	NoReason  bool // there was no time to find out why
}

// Gathered is what gathering crumbs into workable touches cost.
type Gathered struct {
	Points float64 // objective before less objective after
	Moved  int     // touches that were merged, raised or left out
}

// Tight is the week where one more hour is worth most.
type Tight struct {
	Week          kennel.Date
	Hands         string
	PointsPerHour float64
	Dog, Show     string // who would gain most; Show is empty when it is standing readiness
}

// DogPoints is what a plan is worth for one dog, in the points of the objective: readiness at its shows and between
// them, less what its sessions cost.
type DogPoints struct {
	Dog   string
	Weeks []float64 // by week of the season
}

// Sum is the dog's points over the weeks from the given one on.
func (p DogPoints) Sum(from int) (sum float64) {
	for t := max(0, from); t < len(p.Weeks); t++ {
		sum += p.Weeks[t]
	}
	return sum
}

// Cure is the cheapest work, beside the plan, that would bring a dog in coat for a show.
type Cure struct {
	Work  []CureWork // one area or two, in the pattern's order
	Score kennel.Score
}

// CureWork is one area's part of a cure, instead of what the plan pulls of it from that week to the show.
type CureWork struct {
	Area    kennel.AreaName
	Share   kennel.Share
	Minutes kennel.Minutes
	By      kennel.Date // the last day on which it still helps
}

// Words say the cure's areas, minutes and days: "ears, 30 min, by 27 February"; with a year where it is not that of today.
func (c Cure) Words(today kennel.Date) string {
	parts := make([]string, len(c.Work))
	for i, w := range c.Work {
		parts[i] = string(w.Area)
		if w.Share < 1 {
			parts[i] += ", " + kennel.ShareWords(w.Share)
		}
		parts[i] += fmt.Sprintf(", %.0f min, by %s", float64(w.Minutes), DayWords(w.By, today))
	}
	return strings.Join(parts, "; and ")
}

// DayWords are a day as a sentence says it: "27 February"; with its year where that is not today's.
func DayWords(day, today kennel.Date) string {
	if day.Time().Year() != today.Time().Year() {
		return day.Time().Format("2 January 2006")
	}
	return day.Time().Format("2 January")
}

// Minutes is how long the cure takes, without set-ups.
func (c Cure) Minutes() (sum kennel.Minutes) {
	for _, w := range c.Work {
		sum += w.Minutes
	}
	return sum
}
