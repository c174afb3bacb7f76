package made

import (
	"context"
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"

	"tuckup/optimize/season"
)

// Shape is the size of a made-up string whose dogs meet at the same shows and share the hours of one room.
type Shape struct {
	Dogs, Weeks int     // 1 and more
	Hours       float64 // the hands' hours in a week as a share of the string's Wish: 0.4 is short, 1.5 ample
	Hands       int     // pairs of hands, 1 to 3: the first does everything, the second no jackets, the third furnishings only
	ADog        float64 // minutes of the hands a dog and week, in place of Hours; 0 = by Hours
	Session     float64 // minutes of every dog's longest session; 0 = drawn, 45 to 90
	Own         bool    // every dog goes to shows of its own, and no week is short for them
}

const stringAreas = 8 // of each dog

// RandomString is a made-up season for benchmarks, the same for the same numbers. Unlike Random it keeps what makes a
// real season hard: the shows are in one calendar, about one in three weeks, and each dog is entered at 2 to 5 of them
// (one dog in ten at none), so that many dogs want the same weeks; a week with a show that most of the hands travel
// to is short; hours are the same from week to week but for that, whatever the dogs would like. Every dog has 8 areas.
func RandomString(seed uint64, s Shape) *season.Problem {
	r := &randomiser{rand.New(rand.NewPCG(seed, 0x57216))}
	p := &season.Problem{Weeks: s.Weeks, Kinds: randomKinds, Hole: hole}
	cal := r.calendar(s.Weeks)
	away := make([]bool, s.Weeks)
	if s.Weeks >= 13 {
		away[r.IntN(s.Weeks)] = true
	}
	shown := 0
	for d := range s.Dogs {
		enter := func(dog *season.Dog, weeks int) []bool {
			return r.enter(dog, weeks, func() (at []meeting) {
				for _, i := range r.Perm(len(cal))[:min(r.between(2, 5), len(cal))] {
					at = append(at, cal[i])
				}
				return at
			})
		}
		if s.Own {
			enter = r.shows
		}
		dog := r.dog(fmt.Sprintf("Dog %d", d+1), stringAreas, s.Weeks, away, enter)
		if s.Session > 0 {
			for t := range dog.Minutes {
				dog.Minutes[t] = s.Session
			}
		}
		if dog.Shows != nil {
			shown++
		}
		p.Dogs = append(p.Dogs, dog)
	}
	p.Balance = 0.5 * float64(shown)
	minutes := s.Hours * Wish(p)
	if s.ADog > 0 {
		minutes = s.ADog * float64(s.Dogs)
	}
	for t := range s.Weeks {
		hours := minutes
		switch {
		case away[t]:
			hours = 0
		case !s.Own && slices.ContainsFunc(cal, func(c meeting) bool { return c.week == t && c.far }):
			hours *= 0.6
		}
		p.Rows = append(p.Rows, limitsOf(roomOf(hours, s.Hands), t)...)
	}
	return p
}

// WithShow is a made-up season in which some of its dogs are entered at one show more; the season that it comes from stays
// as it is. Points are those of a dog that is fully ready, before the dog's priority.
func WithShow(p *season.Problem, week int, points float64, dogs ...int) *season.Problem {
	q := *p
	q.Dogs = slices.Clone(p.Dogs)
	for _, d := range dogs {
		q.Dogs[d] = withShow(&p.Dogs[d], week, points)
		if p.Dogs[d].Shows == nil && p.Balance > 0 {
			q.Balance += 0.5
		}
	}
	return &q
}

func withShow(g *season.Dog, week int, points float64) season.Dog {
	o := *g
	priority := slices.Min(g.Value) / standingPart
	o.ShowValue, o.Shows, o.Areas = make([]float64, len(g.Value)), make([]float64, len(g.Value)), slices.Clone(g.Areas)
	copy(o.ShowValue, g.ShowValue)
	o.ShowValue[week] += priority * points
	var sum float64
	for t, v := range o.ShowValue {
		o.Shows[t] = v / priority
		sum += o.Shows[t]
	}
	for t := range o.Shows {
		o.Shows[t] /= sum
	}
	for i := range o.Areas {
		a := &o.Areas[i]
		a.Most = slices.Clone(a.Most)
		finish, few := finishOf(a.Name, a.Kind)
		for t := max(0, week-finish+1); t <= week; t++ {
			a.Most[t] = min(a.Most[t], few)
		}
	}
	return o
}

// meeting is a show in the calendar of a made-up season.
type meeting struct {
	week   int
	points float64
	far    bool // it takes two days of the hands' week
}

func (r *randomiser) calendar(weeks int) []meeting {
	at := r.Perm(weeks)[:min(weeks, max(5, weeks/3))]
	slices.Sort(at)
	cal := make([]meeting, 0, len(at))
	for _, t := range at {
		m := meeting{week: t, points: float64(r.between(1, 3)), far: r.chance(0.3)}
		if r.chance(0.25) {
			m.points *= 0.5 // hoped for
		}
		cal = append(cal, m)
	}
	return cal
}

// Wish is what the dogs of a string would take in a week if hours were free, in minutes: by rule, each area once
// round while its hair comes in and holds (its first threshold of old hair), and a session a week, and of that the
// part that unlimited plans were measured to take. It depends on no solver, so that a made-up season stays the same
// when the solver changes; MeasuredWish is the measurement, and a test holds one against the other.
func Wish(p *season.Problem) float64 {
	const taken = 0.84
	var sum float64
	for d := range p.Dogs {
		sum += p.Dogs[d].SetUp
		for _, a := range p.Dogs[d].Areas {
			if len(a.Old) > 0 {
				sum += a.Minutes / float64(a.Old[0].Weeks)
			}
		}
	}
	return taken * sum
}

// MeasuredWish is the minutes in a week, over the whole season, that the solver's plans take where each dog has the
// room to itself and no limit of hours. Errors are those of Solve.
func MeasuredWish(ctx context.Context, p *season.Problem) (float64, error) {
	var sum float64
	for d := range p.Dogs {
		alone := *p
		alone.Dogs, alone.Rows = p.Dogs[d:d+1], nil
		r, err := season.Solve(ctx, &alone, season.Options{})
		if err != nil {
			return 0, err
		}
		sum += minutesOf(&alone, r.Plan)
	}
	return sum / float64(p.Weeks), nil
}

// minutesOf is a plan's work with set-ups.
func minutesOf(p *season.Problem, plan season.Plan) (sum float64) {
	for d := range p.Dogs {
		for _, z := range plan.Sessions[d] {
			sum += float64(z) * p.Dogs[d].SetUp
		}
		for a, shares := range plan.Shares[d] {
			for _, u := range shares {
				sum += u * p.Dogs[d].Areas[a].Minutes
			}
		}
	}
	return sum
}

// handPair is one pair of hands in one week of a made-up season. Its work is a set of bits: the kinds of work, and setUps.
type handPair struct {
	name        string
	does        uint32
	work, strip float64 // minutes of any work, and of pulling within it
}

const (
	setUps    = uint32(1) << randomKinds
	pullKinds = setUps - 1
)

// roomOf shares a week's minutes among pairs of hands with nested skills. Three quarters of a pair's time may
// be pulling.
func roomOf(minutes float64, hands int) []handPair {
	pairs := []handPair{
		{name: "first", does: pullKinds | setUps},
		{name: "second", does: 1<<closeWork | 1<<furnishingWork},
		{name: "third", does: 1 << furnishingWork},
	}[:min(max(hands, 1), 3)]
	parts := [][]float64{{1}, {0.75, 0.25}, {0.7, 0.2, 0.1}}[len(pairs)-1]
	for i := range pairs {
		pairs[i].work = math.Round(minutes * parts[i])
		pairs[i].strip = math.Round(0.75 * pairs[i].work)
	}
	return pairs
}

// greatest is what the pairs can do of a set of work: the capacity of the least cut between it and them.
func greatest(pairs []handPair, set uint32) (minutes float64, names string) {
	for _, h := range pairs {
		m := 0.0
		switch does := set & h.does; {
		case does&setUps != 0:
			m = h.work
		case does != 0:
			m = min(h.work, h.strip)
		default:
			continue
		}
		minutes += m
		if names != "" {
			names += " and "
		}
		names += h.name
	}
	return minutes, names + " hands"
}

// limitsOf are the rows under which a week's work can be given to the pairs: by the theorem of the greatest flow and
// the least cut, one for each set of work, of which those are left out that follow from a wider set with no more
// minutes or from two parts with no more together.
func limitsOf(pairs []handPair, week int) []season.Row {
	const sets = uint32(1) << (randomKinds + 1)
	follows := func(set uint32) bool {
		c, _ := greatest(pairs, set)
		for o := uint32(1); o < sets; o++ {
			m, _ := greatest(pairs, o)
			if o != set && o&set == set && m <= c {
				return true
			}
			if o != set && o&^set == 0 {
				if rest, _ := greatest(pairs, set&^o); m+rest <= c {
					return true
				}
			}
		}
		return false
	}
	var rows []season.Row
	for size := 1; size <= randomKinds+1; size++ {
		for set := uint32(1); set < sets; set++ {
			if bits.OnesCount32(set) != size || follows(set) {
				continue
			}
			c, names := greatest(pairs, set)
			rows = append(rows, season.Row{
				Name: names, Week: week, Capacity: c, Kinds: set & pullKinds, SetUps: set&setUps != 0,
				Strip: set&setUps == 0,
			})
		}
	}
	return rows
}
