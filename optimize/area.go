package optimize

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/season"
)

// area is one area of a dog in numbers, looked at in the weeks of at, before the rules that ask what the whole dog can still be (jacket.go).
func (l *layout) area(d int, a kennel.AreaCoatNow, at []float64) season.Area {
	coat := l.k.Dogs[d].Coat
	strip := a.Minutes.Value * factor(coat.Pace)
	area := season.Area{
		Name: string(a.Name), Kind: int(hours.ClassOf(a.Work)), Weight: a.Weight.Value,
		Minutes: strip * l.opt.Pick, Loose: strip, Dead: grain(float64(a.Rule.DeadShare(a.Curve, 0))),
		Past: l.past(d, a), Most: l.most(d, a.PatternArea), Grip: gripWeeks(a.PatternArea, factor(coat.Growth)),
	}
	lean := a.Curve.Lean()
	for _, growth := range l.thirds(d) {
		rule := a.RuleFor(growth)
		area.Young = append(area.Young, leanTerms(terms(rule.Young, cases), lean, at)...)
		area.Old = append(area.Old, leanTerms(terms(rule.Old, cases), lean, at)...)
	}
	area.Young = append(area.Young, l.fresh(d, a.PatternArea)...)
	return area
}

// thirds are three equally likely growths of the dog: the middle ones of the slow, the usual and the fast third.
func (l *layout) thirds(d int) []float64 {
	spread := lognormalSpread(growthSD(l.opt, l.k.Dogs[d].Name))
	var all []float64
	for _, part := range []float64{1. / 6, 3. / 6, 5. / 6} {
		all = append(all, factor(l.k.Dogs[d].Coat.Growth)*math.Exp(spread*normalQuantile(part)))
	}
	return all
}

// cases is how many growths a season is planned for.
const cases = 3

// terms are those of one growth of so many, each with its part of the slope: what is planned for is the expected readiness.
func terms(in []kennel.Term, of float64) (out []season.Term) {
	for _, t := range in {
		out = append(out, season.Term{Weeks: int(t.Weeks), Allow: grain(float64(t.Allow)), Slope: t.Slope / of})
	}
	return out
}

// gripWeeks is the age below which hair can't be gripped. It is a length that makes hair grippable, so growth
// divides it like ready and hold; whole weeks, rounded up, for hair too short to hold can't be pulled at all.
func gripWeeks(a kennel.PatternArea, growth float64) int {
	return int(math.Ceil(grain(a.Grip.Value / growth)))
}

// past is the pull curve that an area arrives with, from its first layer to week 0.
func (l *layout) past(d int, a kennel.AreaCoatNow) (p []float64) {
	first := 0
	for _, layer := range l.k.Dogs[d].LayersOf(a.PatternArea) {
		first = min(first, kennel.WeekOf(layer.Pulled, l.diary.Week0))
	}
	if lean := a.Curve.Lean(); lean != nil {
		return grownPast(a.Curve, lean, first)
	}
	for t := first; t <= 0; t++ {
		p = append(p, grain(a.Curve.Pulled(t)))
	}
	return p
}

// most is the largest share of an area's living hair that may be pulled in each week: none of kept hair or where no hands
// that do such work have hours, little in the last weeks before a show, and never much of a dog that is only rolled.
func (l *layout) most(d int, a kennel.PatternArea) []float64 {
	dog := l.k.Dogs[d]
	most := make([]float64, l.diary.Weeks)
	if a.Kept {
		return most
	}
	able, days := func(h int) bool { return l.k.Hands[h].Can(a.Work) }, l.diary.TableDays
	if a.Work == kennel.SkillJacket {
		days = l.diary.JacketDays
	}
	for t := range most {
		if days(d, t, able) == 0 {
			continue
		}
		most[t] = 1
		if dog.Coat.RollOnly {
			most[t] = grain(l.pats[dog.Pattern].RollMost.Value)
		}
	}
	for t, share := range dog.LeastCaps(l.pattern(d), a, l.curve(d, a.Name), l.diary.Weeks) {
		most[t] = min(most[t], leastGrain(share))
	}
	finish := int(math.Round(a.FinishWeeks.Value))
	for _, s := range l.k.Shows {
		if s.On < l.opt.On || !hours.Goes(dog, s) || finish == 0 {
			continue
		}
		for _, t := range l.weeksNear(s, finish, s.Last()) {
			most[t] = min(most[t], grain(a.FinishShare.Value))
		}
	}
	return most
}

// leastGrain is a cap in whole millionths, rounded down: many of them together may not pass the rule.
func leastGrain(share float64) float64 { return math.Floor(share*1e6) / 1e6 }

// curve is what was pulled of an area of dog d up to now.
func (l *layout) curve(d int, name kennel.AreaName) kennel.Curve {
	return l.coats[d].Areas[l.areaIndex(d, name)].Curve
}

// keepLeast bounds areas with a least length by their minutes too: dead hair is free of the largest share, but what comes back of it is as
// short as of any other. While some may be dead, living hair can then take up no more than what so much dead hair would.
func (l *layout) keepLeast(d int, dog *season.Dog) {
	for i, a := range l.coats[d].Areas {
		area := &dog.Areas[i]
		if l.k.Dogs[d].LeastWeeks(l.pattern(d), a.PatternArea) == 0 || area.Dead == 0 {
			continue
		}
		if area.Room == nil {
			area.Room = slices.Repeat([]float64{minutesAnHour * hoursADay}, l.diary.Weeks)
		}
		for t, most := range area.Most {
			area.Room[t] = math.Min(area.Room[t], roomOf(area, most*area.Loose))
		}
	}
}

// weeksNear are the weeks of the season with any day nearer to the show than the weeks given, up to that of a day of the show.
func (l *layout) weeksNear(s kennel.Show, weeks int, until kennel.Date) (near []int) {
	first, last := kennel.WeekOf(s.On, l.diary.Week0)-weeks, kennel.WeekOf(until, l.diary.Week0)
	for t := max(0, first); t <= min(last, l.diary.Weeks-1); t++ {
		if s.Near(l.diary.Monday(t).AddDays(kennel.DaysAWeek-1), weeks) {
			near = append(near, t)
		}
	}
	return near
}
