package optimize

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/season"
)

// keepJacket forbids to thin the jacket near a show that counts: one with a chance of half and more that the dog can
// still be made ready for.
func (l *layout) keepJacket(d int, dog *season.Dog) {
	shows := l.counted(d)
	var weeks []int
	for _, s := range shows {
		weeks = append(weeks, kennel.ReadinessWeek(s.On, l.diary.Week0))
	}
	for n, ready := range season.Reachable(&l.problem, dog, weeks) {
		if ready*fullScore < float64(kennel.ReadyScore) {
			continue
		}
		for i, a := range l.coats[d].Areas {
			if !a.Name.Jacket() {
				continue
			}
			for _, t := range l.weeksNear(shows[n], int(a.Rule.Ready), shows[n].On) {
				dog.Areas[i].Most[t] = math.Min(dog.Areas[i].Most[t], float64(kennel.LivingMost))
			}
		}
	}
}

// deadLeft charges each of the first weeks for dead hair that is left at its end: it comes off first (C18, four stages a week apart, and
// C19, an area begun is finished; both seen), and that of the slow areas before all (common practice).
func (l *layout) deadLeft(d int, dog *season.Dog) {
	slowest := 0.0
	for _, a := range l.coats[d].Areas {
		if !a.Kept {
			slowest = max(slowest, a.Ready.Value)
		}
	}
	for i, a := range l.coats[d].Areas {
		area := &dog.Areas[i]
		if a.Kept || area.Dead == 0 || l.opt.Uneven <= 0 {
			continue
		}
		slow := a.Ready.Value / slowest
		area.Left = make([]float64, l.diary.Weeks)
		for t := range min(deadFirst, l.diary.Weeks) {
			area.Left[t] = leftDead * l.opt.Uneven * area.Weight * slow * slow
		}
	}
}

// deadFirst is for how many weeks an area with dead hair may be worked unevenly: it is taken down as fast as it can be.
// Common practice.
const deadFirst = 8

// leftDead is how much more dead hair that is left on the slowest area in these weeks is charged for than too little work of it: enough
// that it is not kept for a coat in layers. Tried on made-up blown coats: at 2 and 3 a part of it is.
const leftDead = 5

// bite is how much more work beyond an even share is charged for than as much too little. Tried on dogs with ample hours: at 1 an area that
// was left alone before a show gives up a fifth in one week after it, at 3 it is rolled on.
const bite = 3

// evenWork charges the jacket for work beyond an even share of a week, and for less than one in two weeks. Weeks in which the dog can't be
// worked are not charged, and in the last weeks before a show nothing is pulled for the sake of even work.
func (l *layout) evenWork(d int, dog *season.Dog) {
	growth := factor(l.k.Dogs[d].Coat.Growth)
	for i, a := range l.coats[d].Areas {
		area := &dog.Areas[i]
		if !a.Name.Jacket() || a.Kept || l.opt.Uneven <= 0 {
			continue
		}
		area.Even = grain(growth / (a.Ready.Value + a.Hold.Value/2))
		area.Over, area.Under = make([]float64, l.diary.Weeks), make([]float64, l.diary.Weeks)
		last := l.lastWeeks(d, a.PatternArea)
		for t := range area.Over {
			points := l.opt.Uneven * area.Weight
			if area.Dead == 0 || t >= deadFirst {
				area.Over[t] = bite * points
			}
			if dog.Most[t] > 0 && area.Most[t] > 0 && !last[t] && (t == 0 || !last[t-1]) {
				area.Under[t] = points
			}
		}
	}
}

// counted are a dog's shows to come that count, and are judged on a coat of the season.
func (l *layout) counted(d int) []kennel.Show {
	return slices.DeleteFunc(l.shows(d), func(s kennel.Show) bool {
		return s.Chance < kennel.CountedOn || kennel.ReadinessWeek(s.On, l.diary.Week0) < 0
	})
}

// lastWeeks are those before a show that counts in which an area gives up no more than its pattern says, up to the show.
func (l *layout) lastWeeks(d int, a kennel.PatternArea) []bool {
	last := make([]bool, l.diary.Weeks)
	for _, s := range l.k.Shows {
		if s.On < l.opt.On || s.Chance < kennel.CountedOn || !hours.Goes(l.k.Dogs[d], s) {
			continue
		}
		for _, t := range l.weeksNear(s, int(math.Round(a.FinishWeeks.Value)), s.Last()) {
			last[t] = true
		}
	}
	return last
}

// fresh charges a jacket area's readiness for what was pulled in the last weeks, the more the later, on a dog with a show that counts: what
// is fresh on the day shows, so near a show only hair is pulled that would be too long for it, or soon after.
func (l *layout) fresh(d int, a kennel.PatternArea) (out []season.Term) {
	if !a.Name.Jacket() || a.Kept || len(l.counted(d)) == 0 {
		return nil
	}
	for weeks := 1; weeks <= min(freshWeeks, int(math.Round(a.FinishWeeks.Value))); weeks++ {
		out = append(out, season.Term{Weeks: weeks, Slope: freshSlope})
	}
	return out
}

// freshWeeks is for how long what was pulled shows: C15 (a coat needs two to three weeks to lie flat; common practice).
const freshWeeks = 3

// freshSlope is the readiness that a share of an area costs in each of these weeks. Tried on eleven strings: at 0.08 the big takes lie before
// the last weeks, and dogs are as ready as without. At 0 nearly all takes of the last weeks are as large as they may be, for the tenth of a
// point that each brings; at 0.05 there are more of them than at 0.08.
const freshSlope = 0.08
