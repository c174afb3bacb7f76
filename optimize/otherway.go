package optimize

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// What another way is tried with, and told of.
const (
	otherGap     = 0.01 // of its worth: near enough to tell two ways apart
	otherDiffer  = 3    // points of readiness: less is no difference between two ways
	otherShows   = 2    // shows told of
	sessionSlack = 1e-6 // sessions: arithmetic may miss a full one by so much
	stripWithin  = 8    // weeks: a jacket that can't be taken down within so many can't be stripped out
)

// others fills in what the next best way of working each dog would have brought: rolling only for a dog that is stripped or
// staged, stripping out for one that is rolled. Each is planned in the minutes that the dog has in the plan and those that
// nobody needs, beside the other dogs' work as it is. Dogs without shows ahead, those held to rolling and those at rest are
// left out, and what a time limit or the context leaves no time for.
func (l *layout) others(ctx context.Context, plan season.Plan, ways []Way) error {
	for d := range ways {
		w := &ways[d]
		limit, spare := l.spare()
		if !spare || ctx.Err() != nil {
			return nil
		}
		if w.Held || l.lastShown(d) < 0 {
			continue
		}
		var (
			o     *Other
			other season.Plan
			err   error
		)
		switch w.Kind {
		case WayStripped, WayStaged:
			o = &Other{Kind: WayRolled}
			other, err = l.onlyRolled(ctx, d, plan, limit)
		case WayRolled:
			from := l.stripFrom(d)
			if stripped, ok := l.strippedFrom(d, plan, from); ok {
				o = &Other{Kind: WayStripped, From: max(l.opt.On, l.diary.Monday(from))}
				other, err = l.restFrom(ctx, d, plan, stripped, limit)
			}
		}
		if err != nil {
			return err
		}
		if o == nil || ctx.Err() != nil { // a search cut short says nothing of the way
			continue
		}
		l.compared(d, plan, other, o)
		if len(o.Shows) > 0 || o.InCoat != o.OtherInCoat {
			w.Other = o
		}
	}
	return nil
}

// compared fills in where the two plans of dog d differ.
func (l *layout) compared(d int, plan, other season.Plan, o *Other) {
	type show struct {
		OtherShow
		worth float64
	}
	var shows []show
	var ahead []kennel.Show
	for _, s := range l.shows(d) {
		if kennel.ReadinessWeek(s.On, l.diary.Week0) >= 0 {
			ahead = append(ahead, s)
		}
	}
	is, would := l.shownAt(d, ahead, plan), l.shownAt(d, ahead, other)
	for i, s := range ahead {
		x := show{OtherShow{Show: s.Name, On: s.On, Score: is[i].Score, Other: would[i].Score}, showWorth(s)}
		if diff := math.Abs(float64(x.Score - x.Other)); diff >= otherDiffer {
			x.worth *= diff
			shows = append(shows, x)
		}
	}
	slices.SortStableFunc(shows, func(a, b show) int { return cmp.Compare(b.worth, a.worth) })
	for _, s := range shows[:min(otherShows, len(shows))] {
		o.Shows = append(o.Shows, s.OtherShow)
	}
	slices.SortStableFunc(o.Shows, func(a, b OtherShow) int { return cmp.Compare(a.On, b.On) })
	coat, otherwise := l.coats[d].With(plan.Shares[d]), l.coats[d].With(other.Shares[d])
	for t := range l.diary.Weeks {
		if coat.ShowScore(t) >= kennel.ReadyScore {
			o.InCoat++
		}
		if otherwise.ShowScore(t) >= kennel.ReadyScore {
			o.OtherInCoat++
		}
	}
}

// onlyRolled is the plan with dog d never pulled harder than rolling allows, its dead hair too. Once round the coat, dead hair and
// living take the minutes that they take together; after that all hair is living.
func (l *layout) onlyRolled(ctx context.Context, d int, plan season.Plan, limit float64) (season.Plan, error) {
	dog, most := l.problem.Dogs[d], grain(l.pattern(d).RollMost.Value)
	dog.Areas = slices.Clone(dog.Areas)
	dead := false
	for _, a := range l.jacket(d) {
		area := &dog.Areas[a.area]
		area.Most = slices.Clone(area.Most)
		for t := range area.Most {
			area.Most[t] = min(area.Most[t], most)
		}
		dead = dead || area.Dead > 0
		area.Minutes, area.Dead = area.Minutes-area.Dead*(area.Minutes-area.Loose), 0
	}
	rolled, err := l.beside(ctx, d, dog, plan, 0, limit)
	round := int(math.Ceil(1 / most))
	if err != nil || !dead || round >= l.diary.Weeks {
		return rolled, err
	}
	for _, a := range l.jacket(d) {
		dog.Areas[a.area].Minutes = l.problem.Dogs[d].Areas[a.area].Minutes
	}
	return l.beside(ctx, d, dog, rolled, round, limit)
}

// stripFrom is the week from which to strip a dog out: so that its jacket is right for the show that is worth most to it, or
// as soon as it can be worked where that would be over.
func (l *layout) stripFrom(d int) int {
	ready := kennel.Weeks(0)
	for _, a := range l.jacket(d) {
		ready = max(ready, l.coats[d].Areas[a.area].Rule.Ready)
	}
	var most float64
	week := 0
	for _, s := range l.shows(d) {
		if worth := showWorth(s); worth > most {
			most, week = worth, kennel.ReadinessWeek(s.On, l.diary.Week0)-int(ready)-atOnceWeeks
		}
	}
	week = max(0, week)
	for week < l.diary.Weeks-1 && l.problem.Dogs[d].Most[week] == 0 {
		week++
	}
	return week
}

// stripped is a dog whose jacket has been taken down.
type stripped struct {
	shares   [][]float64 // of the weeks before next, and nothing after them
	sessions []int
	next     int // the week after the last of the strip
}

// strippedFrom takes dog d's jacket down from a week on, as fast as its sessions allow in the minutes that all other dogs
// leave: the areas that come back slowest first, no hair that is too short to grip, no more than the rules near a show allow.
// Its other areas are worked as in the plan. It is false where the jacket can't be taken down.
func (l *layout) strippedFrom(d int, plan season.Plan, from int) (s stripped, ok bool) {
	dog := &l.problem.Dogs[d]
	for a := range dog.Areas {
		s.shares = append(s.shares, slices.Clone(plan.Shares[d][a]))
	}
	s.sessions = slices.Clone(plan.Sessions[d])
	jacket := l.jacket(d)
	left := map[int]float64{}
	for _, a := range jacket {
		clear(s.shares[a.area][from:])
		left[a.area] = 1 - l.since(d, a.area, s.shares[a.area], from)
	}
	for t := from; t < min(from+stripWithin, l.diary.Weeks); t++ {
		sessions, room := l.roomIn(d, plan, s.shares, t)
		s.sessions[t] = max(s.sessions[t], sessions)
		down := true
		for _, a := range jacket {
			area := &dog.Areas[a.area]
			share := min(left[a.area], area.MostIn(t, s.shares[a.area]), 1-l.since(d, a.area, s.shares[a.area], t))
			share = min(share, area.ShareIn(t, s.shares[a.area], room))
			if share = max(0, share); share > 0 {
				s.shares[a.area][t] = share
				left[a.area] -= share
				room -= area.MinutesIn(t, s.shares[a.area])
			}
			down = down && left[a.area] < touchShare
		}
		if down {
			s.next = t + 1
			for a := range s.shares {
				clear(s.shares[a][s.next:])
			}
			return s, true
		}
	}
	return s, false
}

// since is the share of an area that is too short to grip in week t, by what was pulled up to the week before.
func (l *layout) since(d, a int, shares []float64, t int) float64 {
	area := &l.problem.Dogs[d].Areas[a]
	if area.Grip == 0 {
		return 0
	}
	young := area.PastAt(t-1) - area.PastAt(t-area.Grip)
	for u := max(0, t-area.Grip+1); u < t; u++ {
		young += shares[u]
	}
	return min(1, young)
}

// roomIn is how many sessions dog d can have in week t in the minutes that all other dogs leave, and the minutes of jacket work
// that they hold beside its other areas.
func (l *layout) roomIn(d int, plan season.Plan, shares [][]float64, t int) (sessions int, room float64) {
	dog := &l.problem.Dogs[d]
	jacket := map[int]bool{}
	for _, a := range l.jacket(d) {
		jacket[a.area] = true
	}
	best := 0.0
	for z := 1; z <= dog.Most[t]; z++ {
		room := float64(z) * (dog.Minutes[t] - dog.SetUp)
		for a := range dog.Areas {
			if !jacket[a] {
				room -= dog.Areas[a].MinutesIn(t, shares[a])
			}
		}
		for _, row := range l.problem.Rows {
			if row.Week != t {
				continue
			}
			minutes, pulls := left(l, plan, row, []int{d}), false
			for a := range dog.Areas {
				if row.Kinds>>dog.Areas[a].Kind&1 == 0 {
					continue
				}
				if pulls = pulls || jacket[a]; !jacket[a] {
					minutes -= dog.Areas[a].MinutesIn(t, shares[a])
				}
			}
			if row.SetUps {
				minutes -= float64(z) * dog.SetUp
			}
			if pulls || row.SetUps && minutes < 0 {
				room = min(room, minutes)
			}
		}
		if room > best {
			sessions, best = z, room
		}
	}
	return sessions, best
}

// restFrom is the plan with dog d stripped, and planned anew from the week after it.
func (l *layout) restFrom(ctx context.Context, d int, plan season.Plan, s stripped, limit float64) (season.Plan, error) {
	before := replaced(plan, d, season.Plan{Sessions: [][]int{s.sessions}, Shares: [][][]float64{s.shares}})
	if s.next >= l.diary.Weeks {
		return before, nil
	}
	return l.beside(ctx, d, l.problem.Dogs[d], before, s.next, limit)
}

// beside is the plan with one dog planned again from a week on, in the minutes that all others leave; before that week, and for
// all others, it is the plan given. The dog's sessions are taken to be filled, so that what one takes beside the pulling is a part of every
// minute: that leaves no sessions to search for, and is over in a moment.
func (l *layout) beside(ctx context.Context, d int, dog season.Dog, plan season.Plan, from int, limit float64) (season.Plan, error) {
	p := season.Problem{
		Weeks: l.problem.Weeks - from, Kinds: l.problem.Kinds, Hole: l.problem.Hole, Dogs: []season.Dog{later(l.usual(d, dog), plan.Shares[d], from)},
	}
	for _, row := range l.problem.Rows {
		if row.Week < from {
			continue
		}
		row.Capacity = max(0, left(l, plan, row, []int{d}))
		if row.SetUps && dog.Minutes[row.Week] > 0 {
			row.Capacity *= max(0, dog.Minutes[row.Week]-dog.SetUp) / dog.Minutes[row.Week]
		}
		row.Week -= from
		row.SetUps = false
		p.Rows = append(p.Rows, row)
	}
	filled := &p.Dogs[0]
	filled.Minutes = slices.Clone(filled.Minutes)
	for t := range filled.Minutes {
		filled.Minutes[t] = max(0, filled.Minutes[t]-filled.SetUp)
	}
	filled.SetUp, filled.SessionCost = 0, 0
	opt := l.asideOptions(limit)
	opt.Gap = otherGap
	r, err := season.Solve(ctx, &p, opt)
	if err != nil {
		return season.Plan{}, fmt.Errorf("%s could not be planned another way: %w", dog.Name, err)
	}
	alone := season.NewPlan(&season.Problem{Weeks: l.problem.Weeks, Dogs: []season.Dog{dog}})
	copy(alone.Sessions[0], plan.Sessions[d][:from])
	for a := range alone.Shares[0] {
		copy(alone.Shares[0][a], plan.Shares[d][a][:from])
		copy(alone.Shares[0][a][from:], r.Plan.Shares[0][a])
	}
	for t := from; t < l.problem.Weeks; t++ {
		var work float64
		for a := range dog.Areas {
			work += dog.Areas[a].MinutesIn(t, alone.Shares[0][a])
		}
		if work > 0 {
			alone.Sessions[0][t] = int(math.Ceil(work/(dog.Minutes[t]-dog.SetUp) - sessionSlack))
		}
	}
	return replaced(plan, d, alone), nil
}

// usual is dog d planned for the growth that it is thought to have alone, and for readiness alone, however uneven the work: what
// two ways are compared by, and far quicker.
func (l *layout) usual(d int, dog season.Dog) season.Dog {
	dog.Areas = slices.Clone(dog.Areas)
	for a := range dog.Areas {
		area, rule := &dog.Areas[a], l.coats[d].Areas[a].Rule
		area.Young, area.Old, area.Over, area.Under, area.Left, area.Agreed = terms(rule.Young, 1), terms(rule.Old, 1), nil, nil, nil, nil
	}
	return dog
}

// later is the dog as it is when the season begins so many weeks later, with what was pulled until then.
func later(dog season.Dog, shares [][]float64, from int) season.Dog {
	dog.Kept, dog.Stay = nil, 0
	dog.Minutes, dog.Most, dog.Value = dog.Minutes[from:], dog.Most[from:], dog.Value[from:]
	dog.Shows = nil // the least mean of the string is not at stake
	if dog.ShowValue != nil {
		dog.ShowValue = dog.ShowValue[from:]
	}
	dog.Areas = slices.Clone(dog.Areas)
	for a := range dog.Areas {
		area := &dog.Areas[a]
		area.Most = area.Most[from:]
		if area.Room != nil {
			area.Room = area.Room[from:]
		}
		if area.Over != nil {
			area.Over, area.Under = area.Over[from:], area.Under[from:]
		}
		area.Agreed = nil
		if area.Left != nil {
			area.Left = area.Left[from:]
		}
		past := slices.Clone(area.Past)
		sum := area.PastAt(0)
		for t := range from {
			sum += shares[a][t]
			if t > 0 || len(past) == 0 {
				past = append(past, sum)
			} else {
				past[len(past)-1] = sum
			}
		}
		if from > 0 {
			past = append(past, sum) // of its first week, in which nothing is pulled yet
		}
		area.Dead = max(0, area.Dead-(sum-area.PastAt(0)))
		area.Past = past
	}
	return dog
}
