package optimize

import (
	"math"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// keepJacket forbids to thin the jacket near a show that counts: one with a chance of half and more that the dog can
// still be made ready for.
func (l *layout) keepJacket(d int, dog *season.Dog) {
	var shows []kennel.Show
	var weeks []int
	for _, s := range l.shows(d) {
		if t := kennel.ReadinessWeek(s.On, l.diary.Week0); s.Chance >= kennel.CountedOn && t >= 0 {
			shows, weeks = append(shows, s), append(weeks, t)
		}
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

// leftDead is how much more dead hair that is left on the slowest area in these weeks is charged for than uneven work of it: enough that
// it is not kept for a coat in layers. Tried on made-up blown coats: at 2 and 3 a part of it is.
const leftDead = 5

// evenWork charges the jacket for work beyond an even share of a week, and for less than one in two weeks. Weeks in which the dog can't be
// worked are not charged.
func (l *layout) evenWork(d int, dog *season.Dog) {
	growth := factor(l.k.Dogs[d].Coat.Growth)
	for i, a := range l.coats[d].Areas {
		area := &dog.Areas[i]
		if !a.Name.Jacket() || a.Kept || l.opt.Uneven <= 0 {
			continue
		}
		area.Even = grain(growth / (a.Ready.Value + a.Hold.Value/2))
		area.Over, area.Under = make([]float64, l.diary.Weeks), make([]float64, l.diary.Weeks)
		for t := range area.Over {
			points := l.opt.Uneven * area.Weight
			if area.Dead == 0 || t >= deadFirst {
				area.Over[t] = points
			}
			if dog.Most[t] > 0 && area.Most[t] > 0 {
				area.Under[t] = points
			}
		}
	}
}
