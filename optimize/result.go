// Package optimize is the entrance to planning: Plan turns a kennel into numbers, has the season solved and
// turns the answer back into the trade's words. It reads no file and no clock.
package optimize

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// Options are the settings of a plan. Zero values are not defaults: take DefaultOptions and change it.
type Options struct {
	On          kennel.Date        // today: the first day that can be worked
	Weeks       kennel.Weeks       // length of the season where the kennel names none
	Standing    float64            // points a week for a dog of priority 1 that is fully ready without a show
	Balance     float64            // points, times the number of dogs shown, for the least mean show readiness
	SessionCost float64            // points a session
	Stay        float64            // points for each accepted session left or added in the next 14 days
	StripHours  kennel.Hours       // most hours of pulling a day where a pair of hands names none
	PuppyTable  kennel.Minutes     // longest session of a dog under 12 months
	CrumbShare  kennel.Share       // a touch is worth making from this share ..
	CrumbTime   kennel.Minutes     // .. or from so many minutes
	Days        int                // days of the timetable, 0 to 14; it runs on to the end of the last one's week; 0 = none
	DayStart    kennel.Hours       // when a day's work begins, hours after midnight
	FreeDays    int                // least free days between two jacket sessions on a dog
	BathTime    kennel.Minutes     // of a lifting bath
	Accepted    []kennel.Session   // agreed for the coming days; pinned ones are never moved
	Over        []kennel.Show      // of a book: shows that were over before today; the kennel planned does not hold them
	Done        []kennel.Work      // done since Monday of this week: its sessions, duties and minutes are spent
	GrowthSD    float64            // relative standard deviation of a dog's growth around its estimate
	GrowthSDs   map[string]float64 // the same by dog, for those with records of their own
	Begin       *Result            // a plan made before, whose sessions the search begins with: it is mended, not sought afresh; nil = none
	Seed        uint64
	TimeLimit   float64        // seconds; 0 = none
	Seconds     func() float64 // stopwatch from the start of the plan; nil = no clock
	Progress    func(objective, bound, seconds float64)
}

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
	Cannot    []Cannot
	Gathered  Gathered
	Tight     *Tight      // the week where an hour is dearest; nil when no week is short
	Timetable Timetable   // the next days
	Points    []DogPoints // one for each dog, in the kennel's order
	Balance   float64     // points for the least mean show readiness; with Points, all that the plan is worth

	problem *season.Problem
	solved  season.Plan // before gathering
	answer  season.Result
}

// Idle reports whether no dog is worked in any week.
func (r Result) Idle() bool {
	return !slices.ContainsFunc(r.Weeks, func(w Week) bool { return len(w.Dogs) > 0 })
}

// Season is how good the plan is and how good any plan could be.
type Season struct {
	Objective, Bound, Gap float64 // points; Gap = (Bound-Objective) / max(1, |Bound|). Of the plan before gathering
	Seconds               float64
	Cut                   bool            // the time limit or the context ended the search
	Failures              int             // answers of the general linear program solver that were not trusted
	Kinds                 season.Failures // the same by kind
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

// Week is the work of one week.
type Week struct {
	Week    kennel.Date // its Monday
	Hours   kennel.Hours
	Planned kennel.Hours // sessions with set-ups and duties
	Dogs    []DogWeek    // dogs with sessions, in working order: slowest-growing areas first
	Duties  []DutyWork
	Hands   []HandsWeek // hours against hours there are, by pair of hands
}

// DogWeek is one dog's sessions in one week.
type DogWeek struct {
	Dog      string
	Sessions int
	Minutes  kennel.Minutes // pulling, without set-up
	SetUp    kennel.Minutes // of all its sessions together
	Areas    []AreaWork     // slowest-growing first
	Lift     string         // how to make the long layer stand up, in words
	Tool     string         // what to pull with, in words
	Why      string         // what it is for: the nearest show, or rolling
}

// AreaWork is how much of one area is pulled.
type AreaWork struct {
	Area    kennel.AreaName
	Share   kennel.Share
	Minutes kennel.Minutes
	Work    kennel.Skill
}

// DutyWork is one duty that is placed in a week.
type DutyWork struct {
	Dog, Name string
	Minutes   kennel.Minutes
	Why       string // "every 2 weeks", or the show that it is for
}

// HandsWeek is one pair of hands in one week.
type HandsWeek struct {
	Hands   string
	Hours   kennel.Hours // there are
	Planned kennel.Hours // given to these hands: those that may do least are given work first
	// MostPulling is how much of Hours may be pulling: the hand load of the days worked, less what was pulled today already.
	MostPulling kennel.Hours
	Given       []Given // what Planned is made of, by kind of work; kinds with no minutes are left out
}

// Pulled is how much of the hands' planned time is pulling.
func (h HandsWeek) Pulled() kennel.Hours {
	var sum kennel.Minutes
	for _, g := range h.Given {
		if g.Work != SetUp && g.Work != kennel.SkillDuties {
			sum += g.Minutes
		}
	}
	return kennel.Hours(sum / minutesAnHour)
}

// Given is how much of one kind of work a pair of hands is given in a week.
type Given struct {
	Work    kennel.Skill // jacket, close, furnishings, duties or SetUp
	Minutes kennel.Minutes
}

// SetUp is the work of setting sessions up: fetching, brushing out, powder.
const SetUp kennel.Skill = "set-up"

// ShowReadiness is how ready a dog is for a show.
type ShowReadiness struct {
	Dog, Show  string
	On         kennel.Date
	Chance     float64
	Score      kennel.Score // if the plan is followed
	Idle       kennel.Score // if nothing more is done
	WorstArea  kennel.AreaName
	WorstScore kennel.Score
	Why        string       // of the worst area: "58 % is under 11 weeks"
	Low, High  kennel.Score // as the dog may grow slower or faster than thought: 1 in 10 is below Low, 1 in 10 above High
	Likely     float64      // chance of being in coat, 0 to 1, on that account
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
	Ready, Over kennel.Weeks   // age from which hair shows, and from which it is too long; growth counted in
}

// Cannot is something that the plan cannot meet.
type Cannot struct {
	What, Why string
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
