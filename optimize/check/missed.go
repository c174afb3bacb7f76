package check

import (
	"math"
	"math/rand/v2"
)

// What comes of missed work is tried out again with draws of its own, so figures agree to within what so many draws leave open.

const (
	triedTimes   = 300  // draws of a dog's season
	plannedTimes = 400  // draws that the planner says it makes
	lostWeeks    = 0.3  // part of missed sessions that goes by whole weeks
	canWait      = 0.25 // part of the planned sessions' minutes
	worthSession = 15   // minutes of pulling for which a session is put in
)

// tried is a dog's season as it may come: its growth, and what is pulled of each area by week.
type tried struct {
	growth float64
	pulled [][]float64
}

// tries are such seasons of dog d, their growths at even parts of what it may be.
func (c *checker) tries(d int) []tried {
	if c.dogs[d].tries != nil {
		return c.dogs[d].tries
	}
	random := rand.New(rand.NewPCG(uint64(d), triedTimes))
	spare, holds := c.spareMinutes(), c.holds(d)
	for n := range triedTimes {
		c.dogs[d].tries = append(c.dogs[d].tries, tried{c.growthAt(d, (float64(n)+0.5)/triedTimes), c.try(d, spare, holds, random)})
	}
	return c.dogs[d].tries
}

// spareMinutes are the minutes by week that a dog may have beside its own: those without work, and of work that can wait.
func (c *checker) spareMinutes() (spare []float64) {
	for _, w := range c.r.Weeks {
		sessions := 0.0
		for _, d := range w.Dogs {
			sessions += float64(d.Minutes + d.SetUp)
		}
		spare = append(spare, (60*math.Max(0, float64(w.Hours-w.Planned))+canWait*sessions)/float64(len(c.dogs)))
	}
	return spare
}

// held is what a week holds of a dog's work: the minutes of pulling in its longest session, and the most sessions. No try changes it.
type held struct {
	pulling float64
	most    int
}

func (c *checker) holds(d int) (weeks []held) {
	for t := range c.weeks {
		weeks = append(weeks, held{c.longestIn(d, t) - c.setUp(d), c.mostSessions(d, t)})
	}
	return weeks
}

// try lets dog d's plan be done with some sessions missed: what is left over is caught up in later sessions, in the time that they
// and the hands have beside what is planned, and with one more session a week where that is worth it.
func (c *checker) try(d int, spare []float64, holds []held, random *rand.Rand) (pulled [][]float64) {
	areas := c.dogs[d].areas
	over := make([]float64, len(areas)) // what is left over
	dead := make([]float64, len(areas))
	pulled = make([][]float64, len(areas))
	for i := range areas {
		dead[i] = areas[i].wasDead
		pulled[i] = make([]float64, c.weeks)
	}
	lost := lostWeeks * c.r.Options.Missed
	single := (c.r.Options.Missed - lost) / (1 - lost)
	for t := range c.weeks {
		planned, cheap, dear := 0.0, 0.0, 0.0
		want := make([]float64, len(areas))
		for i := range areas {
			a := &areas[i]
			planned += a.work(a.shares[t], math.Min(a.shares[t], dead[i]))
			if a.cap[t] > 0 {
				want[i] = math.Min(a.shares[t]+over[i], a.cap[t]+dead[i])
			}
			cheap += a.strip * math.Min(want[i], dead[i])
			dear += a.minutes * math.Max(0, want[i]-dead[i])
		}
		sessions, pulling := c.sessions[d][t], holds[t].pulling
		time := math.Min(planned+spare[t], float64(sessions)*pulling)
		longer := math.Min(planned+spare[t]-c.setUp(d), float64(sessions+1)*pulling)
		if sessions < holds[t].most && math.Min(cheap+dear, longer) > time+worthSession {
			sessions, time = sessions+1, longer
		}
		done := 0
		gone := random.Float64() < lost
		for range sessions {
			if random.Float64() >= single && !gone {
				done++
			}
		}
		if sessions > 0 {
			time *= float64(done) / float64(sessions)
		}
		for i := range areas {
			loose := math.Min(want[i], dead[i])
			off := loose
			if time < cheap {
				off *= time / cheap
			}
			dead[i] -= off
			if dear > 0 {
				off += (want[i] - loose) * math.Min(1, math.Max(0, time-cheap)/dear)
			}
			pulled[i][t] = off
			over[i] = math.Max(0, over[i]+areas[i].shares[t]-off)
		}
	}
	return pulled
}

// triedScores are how ready dog d is at the end of week t in each of its seasons.
func (c *checker) triedScores(d, t int) (scores []float64) {
	dog := &c.dogs[d]
	for _, x := range c.tries(d) {
		now := make([]stand, len(dog.areas))
		for i := range dog.areas {
			a := &dog.areas[i]
			q := c.queue(a, min(t, 0))
			for w := 0; w <= t; w++ {
				if x.pulled[i][w] > 0 {
					q = pull(q, x.pulled[i][w], w)
				}
			}
			now[i] = standing(a.RuleFor(x.growth), q, t, a.grown)
		}
		scores = append(scores, dog.showScore(now))
	}
	return scores
}
