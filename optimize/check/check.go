// Package check works a plan's figures out again by other means than those it was made by. It may import the trade (kennel) and
// what a plan says (planned), and nothing of what makes one; what it must know of that it says again in its own words.
package check

import (
	"fmt"
	"math"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Report is what came of working a plan's figures out again.
type Report struct {
	Figures     int          // how many were compared
	Differences []Difference // those that are not as they should be, in the plan's order
}

// Difference is a figure of a plan that comes out otherwise, or that breaks a limit.
type Difference struct {
	Where  string // "week of 2027-01-04, Sorrel, ribs"
	Figure string // what it is, in the words of the plan: "minutes"
	Says   string // the plan
	Should string // what it should be: "12.5", "at most 300"
}

func (d Difference) String() string {
	return fmt.Sprintf("%s: %s says %s, should be %s", d.Where, d.Figure, d.Says, d.Should)
}

// Plan works every figure of a plan out again, from the kennel, the patterns, the settings and the shares and sessions that
// the weeks say, and compares. It shares no code with the planner but the trade's own rules in package kennel (how an area's
// weeks become thresholds, how a coat is lifted): coats are pulled hair by hair, hours are counted day by day, points are summed
// from their definition. The bound is held against the plan's own worth, for to prove it is to plan again; seconds, rounds
// and the like are only asked to be possible.
func Plan(r planned.Result) Report {
	c := newChecker(r)
	if !c.shape() {
		return c.Report
	}
	c.season()
	c.prices()
	c.weekly()
	c.rules()
	c.shows()
	c.outlooks()
	c.ways()
	c.cannot()
	c.timetable()
	return c.Report
}

// checker works a plan out again. Its numbers are read from the weeks as printed.
type checker struct {
	Report
	r        planned.Result
	k        kennel.Kennel
	weeks    int
	dogs     []checkedDog
	sessions [][]int // dog, week
}

// checkedDog is a dog with its areas in the pattern's order.
type checkedDog struct {
	kennel.Dog
	pattern kennel.Pattern
	own     []kennel.Duty // as the kennel says them
	growth  float64
	pace    float64
	areas   []checkedArea
	idle    stands // left alone
	worked  stands // with the plan

	tries    []tried        // its seasons as they may come; nil = not tried yet
	backs    map[int][]back // by weeks of growth: how far back the season sees them
	expected []readiness    // with the plan, as the season counts it; nil = not worked out yet
}

// checkedArea is an area of a dog.
type checkedArea struct {
	kennel.PatternArea
	layers  []kennel.Layer
	grown   growing // how much hair grows between the ends of two weeks
	rule    kennel.Rule
	deadAge int       // weeks from which hair is dead
	minutes float64   // of the whole area, hair by hair
	strip   float64   // of the whole area where its hair is dead and comes off at once
	shares  []float64 // by week, as printed
	wasDead float64   // share that was dead when the plan began
	dead    []float64 // by week: how much of the share was dead when the plan began
	cap     []float64 // by week: the largest share of living hair that the rules allow
}

func newChecker(r planned.Result) *checker {
	c := &checker{r: r, k: r.Kennel, weeks: int(r.Kennel.Weeks)}
	if c.weeks == 0 {
		c.weeks = int(r.Options.Weeks)
	}
	for _, dog := range c.k.Dogs {
		grown := c.growing(dog)
		d := checkedDog{Dog: dog, pattern: r.Patterns[dog.Pattern], growth: dog.Coat.Growth, pace: dog.Coat.Pace}
		if d.growth <= 0 {
			d.growth = 1
		}
		if d.pace <= 0 {
			d.pace = 1
		}
		d.own, d.Duties = dog.Duties, withCare(dog, d.pattern)
		for _, a := range d.pattern.Areas {
			area := checkedArea{
				PatternArea: a, layers: dog.All, grown: grown, rule: a.RuleFor(d.growth), deadAge: deadAge(a, d.growth),
				minutes: a.Minutes.Value * d.pace * r.Options.Pick, strip: a.Minutes.Value * d.pace, shares: make([]float64, c.weeks),
			}
			if a.Kept {
				area.layers = nil // what is said of all areas is not said of kept hair
			}
			for _, own := range dog.Areas {
				if own.Area == a.Name && len(own.Layers) > 0 {
					area.layers = own.Layers
				}
			}
			area.wasDead = c.dead(&area, c.began(&area))
			d.areas = append(d.areas, area)
		}
		c.dogs = append(c.dogs, d)
		c.sessions = append(c.sessions, make([]int, c.weeks))
	}
	return c
}

// shape reads the printed shares and sessions and reports whether the plan has the shape that its kennel gives it; if
// not, nothing more can be compared.
func (c *checker) shape() bool {
	was := len(c.Differences)
	c.equal("the plan", "today", c.r.On, c.r.Options.On)
	c.equal("the plan", "first Monday", c.r.Week0, c.r.Options.On.AddDays(-int(c.r.Options.On.Weekday())))
	c.equal("the plan", "weeks", len(c.r.Weeks), c.weeks)
	for t, w := range c.r.Weeks {
		where := fmt.Sprintf("week %d", t+1)
		c.equal(where, "Monday", w.Week, c.r.Week0.AddDays(t*kennel.DaysAWeek))
		c.equal(where, "pairs of hands", len(w.Hands), len(c.k.Hands))
		for _, dw := range w.Dogs {
			d := c.dogNamed(dw.Dog)
			c.ask(where, "dog "+dw.Dog, d >= 0, "one of the kennel")
			if d < 0 || t >= c.weeks {
				continue
			}
			c.sessions[d][t] += dw.Sessions
			for _, aw := range dw.Areas {
				a := c.areaNamed(d, aw.Area)
				c.ask(where+", "+dw.Dog, "area "+string(aw.Area), a >= 0, "one of its pattern")
				if a >= 0 {
					c.dogs[d].areas[a].shares[t] += float64(aw.Share)
				}
			}
		}
	}
	c.equal("the plan", "dogs' outlooks", len(c.r.Outlooks), len(c.dogs))
	if len(c.Differences) > was {
		return false
	}
	for d := range c.dogs {
		for a := range c.dogs[d].areas {
			area := &c.dogs[d].areas[a]
			area.dead = c.deadIn(area, func(t int) float64 { return area.shares[t] })
		}
		c.dogs[d].idle, c.dogs[d].worked = c.stands(d, false), c.stands(d, true)
		for a := range c.dogs[d].areas {
			c.dogs[d].areas[a].cap = c.caps(d, a)
		}
	}
	return true
}

// setUp is the minutes of a session before pulling begins: the table's, and a look over the whole dog, for a fifth of its longest session
// at most.
func (c *checker) setUp(d int) float64 {
	dog := c.dogs[d]
	longest := float64(dog.Table.Minutes)
	if dog.Puppy(c.r.On) {
		longest = math.Min(longest, float64(c.r.Options.PuppyTable))
	}
	return float64(dog.Table.SetUp) + math.Min(dog.pattern.Look.Value, longest/5)
}

func (c *checker) dogNamed(name string) int {
	for d := range c.dogs {
		if c.dogs[d].Name == name {
			return d
		}
	}
	return -1
}

func (c *checker) areaNamed(d int, name kennel.AreaName) int {
	for a := range c.dogs[d].areas {
		if c.dogs[d].areas[a].Name == name {
			return a
		}
	}
	return -1
}

// checkTol is the part of a figure by which sums in another order may differ.
const checkTol = 1e-6

func agree(x, y float64) bool { return math.Abs(x-y) <= checkTol*math.Max(1, math.Abs(y)) }

// same compares two numbers.
func (c *checker) same(where, figure string, says, should float64) {
	c.count(where, figure, agree(says, should), number(says), number(should))
}

// atMost holds a number against a limit.
func (c *checker) atMost(where, figure string, says, most float64) {
	c.count(where, figure, says <= most+checkTol*math.Max(1, math.Abs(most)), number(says), "at most "+number(most))
}

// atLeast holds a number against a limit.
func (c *checker) atLeast(where, figure string, says, least float64) {
	c.count(where, figure, says >= least-checkTol*math.Max(1, math.Abs(least)), number(says), "at least "+number(least))
}

// equal compares two words, dates or counts.
func (c *checker) equal(where, figure string, says, should any) {
	c.count(where, figure, says == should, quoted(says), quoted(should))
}

// ask is a figure that is right or not.
func (c *checker) ask(where, figure string, right bool, should string) {
	c.count(where, figure, right, "something else", should)
}

// count takes a figure in.
func (c *checker) count(where, figure string, right bool, says, should string) {
	c.Figures++
	if !right {
		c.Differences = append(c.Differences, Difference{where, figure, says, should})
	}
}

func number(x float64) string { return fmt.Sprintf("%.7g", x) }

func quoted(x any) string {
	switch x := x.(type) {
	case string:
		return fmt.Sprintf("%q", x)
	case fmt.Stringer:
		return x.String()
	}
	return fmt.Sprint(x)
}

// weekWords is a place of a difference.
func (c *checker) weekWords(t int) string { return "week of " + c.monday(t).String() }

// weekOf is the week of the season that holds the day.
func (c *checker) weekOf(on kennel.Date) int { return int(on-c.r.Week0) / kennel.DaysAWeek }

func (c *checker) monday(t int) kennel.Date { return c.r.Week0.AddDays(t * kennel.DaysAWeek) }
