package optimize

import (
	"math"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// cureShares are the shares of an area that a cure may take: words of the trade that a hand can follow.
var cureShares = []float64{0.125, 0.25, 1. / 3, 0.5, 0.75, 1}

// remedy is one way of working one area for a show: so much of it, and how ready the area is then by the week in which it is done.
type remedy struct {
	area    int
	share   float64
	options []remedyWeek // by week; only those in which it can be done
}

type remedyWeek struct {
	by      kennel.Date // the last day of the week on which it can be done
	minutes float64
	score   kennel.Score // of the area at the show
}

// cure is the cheapest work on one area of dog d, or on two, that would bring it in coat for the show, beside the plan: found on the
// coat itself, week by week, in sessions as long and as many as the dog takes and under the rules before its shows. It is nil when
// the dog is in coat, and when no such work would do.
func (l *layout) cure(d int, s kennel.Show, plan season.Plan) *Cure {
	show := kennel.ReadinessWeek(s.On, l.diary.Week0)
	coat := l.coats[d].With(plan.Shares[d])
	if show < 0 || coat.ShowScore(show) >= kennel.ReadyScore {
		return nil
	}
	now := make([]kennel.Score, len(coat.Areas))
	for a := range now {
		now[a] = coat.Areas[a].Score(show)
	}
	remedies := l.remedies(d, s, plan, now)
	best, least := []remedy(nil), math.Inf(1)
	try := func(of ...remedy) {
		minutes, scores := 0.0, append([]kennel.Score(nil), now...)
		for _, r := range of {
			x := r.best()
			minutes += x.minutes
			scores[r.area] = x.score
		}
		if minutes < least && coat.ShowScoreOf(scores) >= kennel.ReadyScore {
			best, least = of, minutes
		}
	}
	for _, r := range remedies {
		try(r)
	}
	if best == nil {
		for i, r := range remedies {
			for _, q := range remedies[i+1:] {
				if q.area != r.area {
					try(r, q)
				}
			}
		}
	}
	if best == nil {
		return nil
	}
	return cureOf(coat, now, best)
}

// best is the week in which the remedy helps most, the latest of equals.
func (r remedy) best() (best remedyWeek) {
	for _, o := range r.options {
		if o.score >= best.score {
			best = o
		}
	}
	return best
}

// remedies are the ways of working one area that leave it readier for the show than the plan does.
func (l *layout) remedies(d int, s kennel.Show, plan season.Plan, now []kennel.Score) (all []remedy) {
	show := kennel.ReadinessWeek(s.On, l.diary.Week0)
	for a, area := range l.coats[d].Areas {
		if area.Kept {
			continue
		}
		for _, share := range cureShares {
			r := remedy{area: a, share: share}
			for t := range min(show+1, l.diary.Weeks) {
				shares := append(append([]float64(nil), plan.Shares[d][a][:t]...), share)
				by, minutes := l.lastDay(d, area.Work, t, s), l.problem.Dogs[d].Areas[a].MinutesIn(t, shares)
				if by == 0 || minutes < float64(l.opt.CrumbTime) || !l.allowed(d, a, shares, t, minutes) {
					continue
				}
				if score := area.Rule.Score(area.Curve.With(shares), show); score > now[a] {
					r.options = append(r.options, remedyWeek{by, minutes, score})
				}
			}
			if len(r.options) > 0 {
				all = append(all, r)
			}
		}
	}
	return all
}

// allowed reports whether the last of the shares of an area of dog d can be pulled in week t: of hair that is long enough to grip, as
// much as the rules allow, in as many sessions as the dog takes.
func (l *layout) allowed(d, a int, shares []float64, t int, minutes float64) bool {
	dog := &l.problem.Dogs[d]
	area := &dog.Areas[a]
	share := shares[t]
	return share <= area.MostIn(t, shares)+cureSlack && share <= 1-l.since(d, a, shares, t)+cureSlack &&
		minutes <= float64(dog.Most[t])*(dog.Minutes[t]-dog.SetUp)+cureSlack
}

// cureSlack is what sums of shares and minutes miss each other by.
const cureSlack = 1e-6

// lastDay is the last day of week t before a show on which such work can be done on dog d; zero when there is none.
func (l *layout) lastDay(d int, work kennel.Skill, t int, s kennel.Show) kennel.Date {
	until := s.On.AddDays(-1)
	if work == kennel.SkillJacket {
		until = until.AddDays(-kennel.RestDays)
	}
	for n := (t+1)*kennel.DaysAWeek - 1; n >= t*kennel.DaysAWeek; n-- {
		if day := l.diary.Date(n); day > until || !l.diary.Table[d][n] {
			continue
		}
		for h, hands := range l.k.Hands {
			if l.diary.Presence[h][n] > 0 && hands.Can(work) {
				return l.diary.Date(n)
			}
		}
	}
	return 0
}

// cureOf is the cure of the remedies, each as late as it still does with the others at their best.
func cureOf(coat kennel.DogCoat, now []kennel.Score, of []remedy) *Cure {
	scores := append([]kennel.Score(nil), now...)
	for _, r := range of {
		scores[r.area] = r.best().score
	}
	c := &Cure{}
	for _, r := range of {
		was := r.best()
		for _, o := range r.options {
			scores[r.area] = o.score
			if o.minutes <= was.minutes+cureSlack && coat.ShowScoreOf(scores) >= kennel.ReadyScore {
				was = o
			}
		}
		scores[r.area] = was.score
		c.Work = append(c.Work, CureWork{
			Area: coat.Areas[r.area].Name, Share: kennel.Share(r.share), Minutes: kennel.Minutes(was.minutes), By: was.by,
		})
	}
	c.Score = whole(coat.ShowScoreOf(scores))
	return c
}
