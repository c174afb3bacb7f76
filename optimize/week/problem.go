// Package week lays a week's work into days and hands: which day each session and duty falls on, whose hands do it, and
// what is left out where the days are too short. It is numbers only and imports nothing of the project. MODEL.md states
// the model; Solve finds its optimum and proves it, or says how far it may be from it.
package week

import "fmt"

// Problem is one week's work and the days that there are for it. Minutes are minutes, values are points.
type Problem struct {
	Days     int
	Hands    []Hands
	Dogs     []Dog
	Sessions []Session
	Duties   []Duty

	Apart      int     // least days from one jacket session on a dog to its next: 2 = one free day between
	BreakAfter float64 // minutes of pulling after which hands rest, > 0
	Break      float64 // minutes of a rest
	Past       float64 // minutes beyond BreakAfter that are pulled without a rest where a session is done then

	Early  float64 // points for each day of the week that is left when a session of urgency 1 is done
	SetUps float64 // points that a set-up costs
	Keep   float64 // points for a session that stays where it was
	Even   float64 // points lost for each minute that a pair of hands works above its even share of a day
}

// Skills is a set of kinds of work: bit k for kind k of pulling, SkillCare, SkillSetUp and SkillDuties.
type Skills uint32

// What hands may do beside the kinds of pulling.
const (
	SkillCare   Skills = 1 << 29
	SkillSetUp  Skills = 1 << 30
	SkillDuties Skills = 1 << 31
)

// Kind is the set of one kind of pulling, 0 to 28.
func Kind(k int) Skills { return 1 << k }

// JacketKind is the kind of pulling that a dog has free days between.
const JacketKind = 0

// Hands is one pair of hands.
type Hands struct {
	Does Skills
	Dear float64    // points that a minute of work other than jackets by these hands costs: those that can do more are kept for it
	Days []HandsDay // by day
}

// HandsDay is what a pair of hands has on one day.
type HandsDay struct {
	Strip     float64   // most minutes of pulling
	Stretches []Stretch // free time, in order; more than one where something fixed lies between
}

// Stretch is free time in one piece.
type Stretch struct {
	Start, Minutes float64 // Start counts from the same moment on every day and for all hands
}

// Dog is one dog.
type Dog struct {
	Days    []DogDay
	Jackets []int // days of jacket sessions that are fixed or done; negative before day 0
}

// DogDay is one dog on one day.
type DogDay struct {
	There   bool
	Longest float64 // longest session with its set-up
	Fixed   bool    // it has a session already, so no other; its duties are then for the same hands only
	With    int     // those hands; -1 = nobody here
}

// Session is one session wanted: at most one a day on a dog. A dog's sessions stand in the order in which they are to be
// done, what can't wait first: one is placed only if the one before it is, on an earlier day.
type Session struct {
	Dog     int
	SetUp   float64
	Parts   []Part // in working order
	Urgency float64
	Least   float64 // minutes of pulling below which a session that is cut short is left out after all
	Kept    bool    // it stood on an earlier sheet ..
	KeptDay int     // .. on this day ..
	KeptBy  int     // .. with these hands leading
}

// Part is the work of one area in a session. It may be cut short: a part of the minutes has that part of the value.
type Part struct {
	Kind    int
	Minutes float64 // > 0
	Value   float64 // >= 0
	Least   float64 // minutes below which a part that is cut short is left out after all
	Barred  []bool  // by day: it is not to be done on that day; nil = on any
}

// barred reports whether the part is not to be done on day t.
func (a *Part) barred(t int) bool { return t < len(a.Barred) && a.Barred[t] }

// Duty is timed work on a dog that is not pulling.
type Duty struct {
	Dog     int
	Minutes float64
	Value   float64
	Days    []bool // on which it may be done
	Needs   Skills // any of these are enough; 0 = SkillDuties
	Lifts   bool   // a lifting bath: only one or two days before a jacket session, never on a day with a session
}

// liftDays is how long a lifted coat stands: the session is within so many days of the bath.
const liftDays = 2

// Validate says what is wrong with a problem, or nothing.
func (p *Problem) Validate() error {
	if p.Days < 1 || p.Apart < 1 || p.BreakAfter <= 0 || p.Break < 0 || p.Past < 0 || p.Even < 0 {
		return fmt.Errorf("%d days, %d apart, breaks of %v after %v and %v past, even %v: days, apart and break-after are above 0, the rest at least 0",
			p.Days, p.Apart, p.Break, p.BreakAfter, p.Past, p.Even)
	}
	for h := range p.Hands {
		if len(p.Hands[h].Days) != p.Days {
			return fmt.Errorf("hands %d: %d days, want %d", h, len(p.Hands[h].Days), p.Days)
		}
	}
	for d := range p.Dogs {
		if len(p.Dogs[d].Days) != p.Days {
			return fmt.Errorf("dog %d: %d days, want %d", d, len(p.Dogs[d].Days), p.Days)
		}
	}
	for i, s := range p.Sessions {
		if s.Dog < 0 || s.Dog >= len(p.Dogs) || s.SetUp < 0 {
			return fmt.Errorf("session %d: dog %d, set-up %v", i, s.Dog, s.SetUp)
		}
		for _, a := range s.Parts {
			if a.Minutes <= 0 || a.Value < 0 || a.Kind < 0 || a.Kind > 28 || a.Barred != nil && len(a.Barred) != p.Days {
				return fmt.Errorf("session %d: a part of kind %d with %v minutes worth %v, %d days of %d", i, a.Kind, a.Minutes, a.Value, len(a.Barred), p.Days)
			}
		}
	}
	for i, d := range p.Duties {
		if d.Dog < 0 || d.Dog >= len(p.Dogs) || d.Minutes <= 0 || len(d.Days) != p.Days {
			return fmt.Errorf("duty %d: dog %d, %v minutes, %d days of %d", i, d.Dog, d.Minutes, len(d.Days), p.Days)
		}
	}
	return nil
}

// minutes is the work of a session without its set-up.
func (s *Session) minutes() (sum float64) {
	for _, a := range s.Parts {
		sum += a.Minutes
	}
	return sum
}
