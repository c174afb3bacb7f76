package optimize

import (
	"context"
	"fmt"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
)

// notInHand names the shows ahead at which a dog that is named for them is not in hand.
func (l *layout) notInHand() (out []Cannot) {
	for _, s := range l.k.Shows {
		for _, dog := range l.k.Dogs {
			if !s.Has(dog.Name) || !l.ahead(s) {
				continue
			}
			if day := hours.DayNotInHand(dog, s); day != 0 {
				out = append(out, Cannot{
					What: fmt.Sprintf("%s at %s", dog.Name, s.Name), Why: fmt.Sprintf("%s is not in hand on %s", dog.Name, day),
				})
			}
		}
	}
	return out
}

// inSpells ask about the shows ahead in whose days a dog that is named for them is in a spell: nothing is pulled for them.
func (l *layout) inSpells() (out []Cannot) {
	for _, x := range kennel.ShowsInSpells(l.k, l.opt.On) {
		if l.ahead(x.Show) && x.Show.Chance >= kennel.CountedOn {
			out = append(out, Cannot{What: fmt.Sprintf("%s at %s", x.Dog, x.Show.Name), Why: x.Words(func(d kennel.Date) string { return planned.DayWords(d, l.opt.On) })})
		}
	}
	return out
}

// outOfCoat says of each show that is counted on and that a dog will not be in coat for, why that is: too late,
// too few hours, or that the dog's coat is wanted on other dates more. It tells them apart by planning the dog alone
// with all the hours that there are, once for this show only and once for all that it is wanted for.
func (l *layout) outOfCoat(ctx context.Context, all []shown) (out []Cannot, err error) {
	own := make([]*season.Plan, len(l.k.Dogs))
	for _, r := range all {
		if r.Chance < kennel.CountedOn || r.Followed >= kennel.ReadyScore {
			continue
		}
		d := r.dog
		t := kennel.ReadinessWeek(r.On, l.diary.Week0)
		c := Cannot{What: fmt.Sprintf("%s in coat for %s", r.Dog, r.Show)}
		limit, spare := l.spare()
		switch {
		case t < 0:
			c.Why = fmt.Sprintf("too late: it is shown in the coat it has, %s", short(r.ShowReadiness))
		case !l.workable(d, t) && l.untouched(d) != "":
			c.Why = fmt.Sprintf("nobody may do its %s work, so it stays at %s", l.untouched(d), short(r.ShowReadiness))
		case !l.workable(d, t):
			c.Why = fmt.Sprintf("no hours: there is no day before it on which %s can be worked, so it stays at %s", r.Dog, short(r.ShowReadiness))
		case !spare:
			c.Why, c.NoReason = fmt.Sprintf("it will be %s; there was no time to find out why", short(r.ShowReadiness)), true
		case ctx.Err() != nil:
			c.Why, c.NoReason = notFound(r), true
		default:
			if own[d] == nil {
				plan, err := l.alone(ctx, d, limit)
				if err != nil {
					return nil, err
				}
				own[d] = &plan
			}
			only, err := l.aloneFor(ctx, d, t, limit)
			if err != nil {
				return nil, err
			}
			c.Why = l.whyShort(r, *own[d], only)
			if ctx.Err() != nil { // the plans alone were cut short too
				c.Why, c.NoReason = notFound(r), true
			}
		}
		if r.Cure != nil {
			c.Why += "; in coat with " + r.Cure.Words(l.opt.On)
		}
		out = append(out, c)
	}
	return out, nil
}

// notFound is said of a dog out of coat when the search was stopped before the reason was found.
func notFound(r shown) string {
	return fmt.Sprintf("it will be %s; the search was stopped before the reason was found", short(r.ShowReadiness))
}

// whyShort says why a dog is out of coat for a show, from its plans alone with all the hours: own for all that
// it is wanted for, only for this show.
func (l *layout) whyShort(r shown, own, only season.Plan) string {
	withOwn, most := l.shown(r.dog, r.show, own), l.shown(r.dog, r.show, only)
	if withOwn.Followed > most.Followed {
		most = withOwn
	}
	untouched := l.untouched(r.dog)
	switch {
	case most.Followed < kennel.ReadyScore && r.Cure != nil:
		return "hours are short: it will be " + short(r.ShowReadiness)
	case most.Followed < kennel.ReadyScore && untouched != "":
		return fmt.Sprintf("nobody may do its %s work: with all the hours available it would be %s", untouched, short(most.ShowReadiness))
	case most.Followed < kennel.ReadyScore:
		return "too late: even with all the hours available, in as many sessions as it can take, it would be " + short(most.ShowReadiness)
	case withOwn.Followed >= kennel.ReadyScore:
		return fmt.Sprintf("hours are short: with all the hours it would be %s; it will be %s", kennel.ScoreWords(withOwn.Score), short(r.ShowReadiness))
	default:
		return fmt.Sprintf("other dates come first for %s's coat: for this show alone it could be %s; it will be %s",
			r.Dog, kennel.ScoreWords(most.Score), short(r.ShowReadiness))
	}
}

// untouched are the kinds of work that the dog's coat needs and that no hands are let near, joined by "and"; empty
// when there are none, and where there are no hands at all.
func (l *layout) untouched(d int) string {
	if len(l.k.Hands) == 0 {
		return ""
	}
	var kinds []string
	for _, s := range hours.PullingSkills() {
		if !hours.AnyoneCan(l.k, s) && worked(l.pattern(d), s) {
			kinds = append(kinds, string(s))
		}
	}
	return strings.Join(kinds, " and ")
}

// short is a readiness with its worst area: "64 (ribs: 58 % is under 11 weeks)".
func short(r ShowReadiness) string {
	return fmt.Sprintf("%s (%s: %s)", kennel.ScoreWords(r.Score), r.WorstArea, r.Why)
}

// workable reports whether the dog can have a session up to the end of week t.
func (l *layout) workable(d, t int) bool {
	for _, most := range l.problem.Dogs[d].Most[:t+1] {
		if most > 0 {
			return true
		}
	}
	return false
}

// alone is the dog's plan when it has all the hours that there are, with crumbs gathered.
func (l *layout) alone(ctx context.Context, d int, limit float64) (season.Plan, error) {
	p := l.single(l.problem.Dogs[d])
	r, err := season.Solve(ctx, &p, l.asideOptions(limit))
	if err != nil {
		return season.Plan{}, fmt.Errorf("%s could not be planned alone: %w", l.k.Dogs[d].Name, err)
	}
	plan, _ := season.Gather(&p, r.Plan, l.touch())
	return replaced(season.NewPlan(&l.problem), d, plan), nil
}

// aloneFor is the plan that has the dog most ready at the end of a week when it has all the hours that there are,
// whatever becomes of the rest, and free of the rules before its other shows.
func (l *layout) aloneFor(ctx context.Context, d, week int, limit float64) (season.Plan, error) {
	one := l.asThought()
	one.k.Shows = nil
	for _, s := range l.k.Shows {
		if kennel.ReadinessWeek(s.On, l.diary.Week0) == week {
			one.k.Shows = append(one.k.Shows, s)
		}
	}
	p := l.single(onlyFor(one.dog(d), week))
	r, err := season.Solve(ctx, &p, l.asideOptions(limit))
	if err != nil {
		return season.Plan{}, fmt.Errorf("%s could not be planned for one show: %w", l.k.Dogs[d].Name, err)
	}
	return replaced(season.NewPlan(&l.problem), d, r.Plan), nil
}

// asThought is the layout for what a dog could be: it grows as is thought, and uneven work costs nothing.
func (l *layout) asThought() *layout {
	one := *l
	one.opt.GrowthSD, one.opt.GrowthSDs, one.opt.Uneven, one.agreed = 0, nil, 0, nil
	return &one
}

// onlyFor is the dog when nothing counts but how ready it is for a show at the end of a week.
func onlyFor(dog season.Dog, week int) season.Dog {
	dog.Value, dog.ShowValue = make([]float64, len(dog.Value)), make([]float64, len(dog.Value))
	dog.ShowValue[week] = 1
	dog.Shows, dog.Kept, dog.SessionCost = nil, nil, 0
	return dog
}

// single is the season of one dog without the bounds on hours that the whole string has.
func (l *layout) single(dog season.Dog) season.Problem {
	p := l.problem
	p.Dogs = []season.Dog{dog}
	p.Rows, p.Balance = nil, 0
	return p
}

// replaced is the plan with dog d as in the plan of that dog alone.
func replaced(plan season.Plan, d int, alone season.Plan) season.Plan {
	n := season.Plan{Sessions: append([][]int(nil), plan.Sessions...), Shares: append([][][]float64(nil), plan.Shares...)}
	n.Sessions[d], n.Shares[d] = alone.Sessions[0], alone.Shares[0]
	return n
}
