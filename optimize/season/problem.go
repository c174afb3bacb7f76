// Package season plans the pulling of a string of coats over a season of weeks. It knows numbers only: no
// names of the trade beyond those in comments, no dates, no files. MODEL.md beside this file states the model.
package season

import "slices"

// Problem is one season to plan. Weeks run 0..Weeks-1; all times are minutes, all shares 0..1, all values points.
type Problem struct {
	Weeks   int
	Kinds   int // kinds of work; an area's Kind is below it
	Dogs    []Dog
	Rows    []Row
	Balance float64 // points for the least mean show readiness (0..1) among the dogs with shows; 0 = none
	Hole    float64 // at a show a dog is at most so much readier than its worst area; 0 = no such rule
}

// Row is a limit on one week's minutes: work of the kinds in Kinds, with set-ups if SetUps, is at most Capacity.
type Row struct {
	Name     string // who it is that has these minutes; for reports and the model file
	Week     int
	Capacity float64 // minutes, >= 0, fixed duties already taken off
	Kinds    uint32  // bit k = kind k counts
	SetUps   bool    // set-up minutes count
	Strip    bool    // a limit of hand load, not of hours
}

// Dog is one dog of the problem.
type Dog struct {
	Name        string
	Areas       []Area
	SetUp       float64   // minutes a session
	Minutes     []float64 // by week: longest session with its set-up
	Most        []int     // by week: most sessions, 0 = closed (dog or hands away)
	SessionCost float64   // points a session
	Value       []float64 // by week: points of full readiness at the end of the week, as the mean of its areas
	ShowValue   []float64 // by week: points of full readiness at shows, where a hole counts (Problem.Hole); nil = none
	Shows       []float64 // by week: weight in the dog's mean show readiness, summing to 1; nil = no shows
	Kept        []int     // accepted sessions of the first len(Kept) weeks; empty = none
	Stay        float64   // points for each session more or fewer than Kept in its weeks
}

// Area is one area of a dog.
type Area struct {
	Name    string
	Kind    int
	Weight  float64   // part of the dog's readiness
	Minutes float64   // to take the whole area down while its hair is alive, the dog's pace counted in
	Loose   float64   // the same of dead hair, at most Minutes; of no account where nothing is dead
	Dead    float64   // share that is dead when the plan begins; it comes first
	Past    []float64 // pull curve up to now: Past[i] = P(i-len(Past)+1), the last one is P(0) before this plan pulls
	Grip    int       // weeks: no hair younger than this can be gripped; 0 = no rule
	Most    []float64 // by week: largest share of living hair that may be pulled; 0 = none at all, dead or alive
	Room    []float64 // by week: most minutes of it, where one session does all of its week, in whole millionths of it; nil = no such limit
	Young   []Term    // charges on the share younger than Weeks
	Old     []Term    // charges on the share not younger than Weeks
	Even    float64   // share a week of even work
	Over    []float64 // by week: points for each unit pulled beyond Even; nil = none
	Under   []float64 // by week: points for each unit that this week and the last fall short of Even together; nil = none
	Left    []float64 // by week: points for each unit of dead hair that is left at its end; nil = none
	Agreed  []float64 // of the first weeks: share to be pulled up to the week's end in a plan that people go by; nil = none
	Moved   float64   // points for each unit that is off Agreed, by week
	cleared int       // in a solve: 1 + the week by whose end its dead hair is off; 0 = not decided
}

// Term charges Slope for each unit of the share beyond Allow.
type Term struct {
	Weeks int
	Allow float64
	Slope float64
}

// PastAt is the pull curve that the area arrives with at week t (<= 0 is history, later weeks repeat week 0).
func (a *Area) PastAt(t int) float64 {
	if len(a.Past) == 0 {
		return 0
	}
	i := t + len(a.Past) - 1
	if i < 0 {
		return 0
	}
	return a.Past[min(i, len(a.Past)-1)]
}

// Plan says how many sessions and how much of each area, by week.
type Plan struct {
	Sessions [][]int       // dog, week
	Shares   [][][]float64 // dog, area, week
}

// NewPlan is the plan that does nothing.
func NewPlan(p *Problem) Plan {
	pl := Plan{Sessions: make([][]int, len(p.Dogs)), Shares: make([][][]float64, len(p.Dogs))}
	for d := range p.Dogs {
		pl.Sessions[d] = make([]int, p.Weeks)
		pl.Shares[d] = table(len(p.Dogs[d].Areas), p.Weeks)
	}
	return pl
}

// Clone is the plan with nothing shared.
func (pl Plan) Clone() Plan {
	c := Plan{Sessions: make([][]int, len(pl.Sessions)), Shares: make([][][]float64, len(pl.Shares))}
	for d := range pl.Sessions {
		c.Sessions[d] = slices.Clone(pl.Sessions[d])
		c.Shares[d] = make([][]float64, len(pl.Shares[d]))
		for a := range pl.Shares[d] {
			c.Shares[d][a] = slices.Clone(pl.Shares[d][a])
		}
	}
	return c
}

// table is rows of zeros.
func table(rows, columns int) [][]float64 {
	t := make([][]float64, rows)
	for i := range t {
		t[i] = make([]float64, columns)
	}
	return t
}

// Options steer a solve.
type Options struct {
	Seed     uint64         // same problem, options and seed give the same plan
	Seconds  func() float64 // a stopwatch handed in: seconds since the solve began; nil = no clock, no time limit
	Limit    float64        // seconds; 0 = none. A plan cut by it says so.
	Progress func(Progress) // called now and then from the solving goroutine; nil = quiet
	Start    *Plan          // sessions to begin with, of a plan made before; nil = none. A plan is then mended, not sought afresh
	Keep     bool           // hold to the sessions of Start: only what is pulled in them is chosen again, and no bound is looked for. With a Touch it is held to its touches, too, but for areas of which it asks more than can be
	Quick    bool           // leave out polishing and the rest of the proof: for what could be, not for a plan to follow
	Touch    Touch          // what a touch must have to be worth making; for Result.Workable
	Gap      float64        // stop when the gap is at or below this; 0 = use DefaultGap
}

// Progress is how a solve stands.
type Progress struct {
	Objective, Bound, Seconds float64
}

// Result is what a solve found.
type Result struct {
	Plan      Plan      // continuous: shares as the model has them
	Workable  Plan      // with no touch that is not worth making; where Options.Touch asks for it
	Moved     int       // touches and sessions that are others than in Plan for that
	Objective float64   // of Plan, points
	Bound     float64   // no plan can be worth more (valid, not an estimate)
	Gap       float64   // (Bound - Objective) / max(1, |Bound|)
	Prices    []float64 // points a minute for each of Problem.Rows: what one more minute there would add
	Dearest   int       // of Problem.Rows: the one with the highest price, -1 when none has one
	Eased     Plan      // the best plan with the same sessions and an hour more in that row
	Cut       bool      // the time limit or the context ended the search
	Rounds    int       // pricing rounds of the column generation
	Seconds   float64
}
