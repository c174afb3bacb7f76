package optimize

import (
	"math/rand/v2"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// Some of the sessions that are planned are not done: single ones, and all of a week in which somebody is ill or away. The plan is made
// again every week, so what was not done is caught up, as far as the dog's sessions, the hours without work and the rules allow.

// lostPart is the part of missed work that is missed by whole weeks: where one session in ten is missed on its own, one week in 25 is lost.
// Common practice.
const lostPart = 0.3

// missedBy splits the part of the sessions that are missed into the chance that a week is lost, and that a session is missed in another.
func missedBy(missed float64) (week, session float64) {
	week = lostPart * missed
	return week, 1 - (1-missed)/(1-week)
}

// weekLuck is which of a dog's sessions of a week are missed, in their order.
type weekLuck [kennel.DaysAWeek]bool

// luck draws what is missed of each week. It hangs on no plan, so that two plans are judged by the same.
func (l *layout) luck(random *rand.Rand) []weekLuck {
	lost, missed := missedBy(l.opt.Missed)
	weeks := make([]weekLuck, l.diary.Weeks)
	for t := range weeks {
		gone := random.Float64() < lost
		for n := range weeks[t] {
			alone := random.Float64() < missed
			weeks[t][n] = gone || alone
		}
	}
	return weeks
}

// follower follows a dog's part of a plan with some of its sessions missed.
type follower struct {
	dog      *season.Dog
	shares   [][]float64 // as planned, by area and week
	sessions []int       // as planned, by week
	spare    []float64   // by week: minutes beside the plan that the dog may take

	done       [][]float64 // by area and week
	owed, dead []float64   // by area: what is to be caught up, and the dead hair that is left
}

// follows is a follower of dog d. spare are the minutes of each week beside the plan that the dog may take.
func (l *layout) follows(d int, plan season.Plan, spare []float64) *follower {
	f := &follower{dog: &l.problem.Dogs[d], shares: plan.Shares[d], sessions: plan.Sessions[d], spare: spare}
	for range f.shares {
		f.done = append(f.done, make([]float64, l.problem.Weeks))
	}
	f.owed, f.dead = make([]float64, len(f.shares)), make([]float64, len(f.shares))
	return f
}

// follow follows the plan up to a week and returns what is pulled by area and week. The next call writes over it.
func (f *follower) follow(luck []weekLuck, last int) [][]float64 {
	for a := range f.shares {
		f.owed[a], f.dead[a] = 0, f.dog.Areas[a].Dead
		clear(f.done[a])
	}
	for t := range min(last+1, len(luck)) {
		f.week(t, luck[t])
	}
	return f.done
}

// week does the sessions of a week: what is planned, and what is owed as far as their minutes go. Where that is worth a session more,
// there is one, if the dog and the hands have room for it.
func (f *follower) week(t int, luck weekLuck) {
	var planned, dead, living float64 // minutes: as planned, and of what is wanted
	for a := range f.shares {
		area := &f.dog.Areas[a]
		loose, alive := f.parts(a, f.shares[a][t])
		planned += area.Loose*loose + area.Minutes*alive
		f.done[a][t] = 0
		if area.Most[t] > 0 {
			f.done[a][t] = min(area.Most[t]+f.dead[a], f.shares[a][t]+f.owed[a])
		}
		loose, alive = f.parts(a, f.done[a][t])
		dead, living = dead+area.Loose*loose, living+area.Minutes*alive
	}
	sessions, each := f.sessions[t], f.dog.Minutes[t]-f.dog.SetUp
	room := min(planned+f.spare[t], float64(sessions)*each)
	if more := min(planned+f.spare[t]-f.dog.SetUp, float64(sessions+1)*each); sessions < f.dog.Most[t] && min(dead+living, more) > room+leastMore {
		sessions, room = sessions+1, more
	}
	kept := 0
	for n := range sessions {
		if !luck[min(n, len(luck)-1)] {
			kept++
		}
	}
	if sessions > 0 {
		room *= float64(kept) / float64(sessions)
	}
	ofDead, ofLiving := partOf(room, dead), partOf(room-dead, living)
	for a := range f.shares {
		loose, alive := f.parts(a, f.done[a][t])
		f.done[a][t] = ofDead*loose + ofLiving*alive
		f.owed[a] = max(0, f.owed[a]+f.shares[a][t]-f.done[a][t])
		f.dead[a] -= ofDead * loose
	}
}

// partOf is the part of some work, 0 to 1, for which there is time.
func partOf(time, work float64) float64 {
	if work <= 0 {
		return 1
	}
	return min(1, max(0, time)/work)
}

// leastMore is the minutes of pulling that are worth a session more. Common practice.
const leastMore = 15

// parts are the dead and the living hair of a share of an area; dead hair goes first.
func (f *follower) parts(a int, share float64) (dead, living float64) {
	dead = min(share, f.dead[a])
	return dead, share - dead
}

// minutesOver are the minutes of each week that a dog may take beside the plan: an equal part of those in which the hands have no work, and of
// what the plan that is made again takes from work that can wait.
func (l *layout) minutesOver(plan season.Plan) []float64 {
	over := make([]float64, l.diary.Weeks)
	for t := range over {
		var there, work float64
		for _, h := range l.diary.HandsIn(t) {
			there += h.There
		}
		for d := range l.problem.Dogs {
			work += l.minutes(plan, d, t)
		}
		over[t] = (max(0, there-work-l.dutyMinutes(t)) + waits*work) / float64(max(1, len(l.problem.Dogs)))
	}
	return over
}

// waits is the part of a week's planned work that gives way to what was missed when the plan is made again. At 0 the promises of lived
// seasons with few hours come true 1.5 points higher than they are given, at 0.6 as much lower, and the other strings hardly differ.
const waits = 0.25

// dutyMinutes are those of the duties of week t.
func (l *layout) dutyMinutes(t int) (sum float64) {
	for _, p := range l.duties {
		if p.Week == t {
			sum += float64(l.k.Dogs[p.Dog].Duties[p.Duty].Minutes)
		}
	}
	return sum
}
