package optimize

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// What the ways of working a jacket are told apart by. Common practice.
const (
	downWeeks   = 4    // an area is taken down when within so many weeks ..
	downShare   = 0.4  // .. at least this share of it is pulled, and more than rolling allows in them
	jacketDown  = 0.5  // of the jacket's work: as much in areas that are taken down, and the jacket is
	atOnceWeeks = 3    // a jacket that is down within so many weeks is stripped out ..
	deadWeeks   = 8    // .. and one that is mostly dead, within so many
	restWeeks   = 4    // so many weeks without work on the jacket are a rest
	touchShare  = 0.01 // of the jacket: less in a week is tidying
	spellShare  = 0.1  // of the jacket: less in a run of weeks is not rolling
)

// ways are how each dog's jacket is worked, in the kennel's order.
func (l *layout) ways(plan season.Plan) (all []Way) {
	for d, dog := range l.k.Dogs {
		w := Way{Dog: dog.Name, Kind: WayRested, Held: dog.Coat.RollOnly, Spells: l.spells(d, plan)}
		for _, s := range w.Spells {
			if slices.Index(heaviestFirst, s.Kind) < slices.Index(heaviestFirst, w.Kind) {
				w.Kind = s.Kind
			}
		}
		coat := l.coats[d].With(plan.Shares[d])
		w.LetGo = w.Kind == WayRested && coat.ShowScore(l.diary.Weeks-1) < kennel.ReadyScore
		all = append(all, w)
	}
	return all
}

var heaviestFirst = []WayKind{WayStripped, WayStaged, WayRolled, WayRested}

// jacketArea is an area of a dog's jacket.
type jacketArea struct {
	area int
	part float64 // of the jacket's work, 0 to 1
	dead float64 // share of the area that is dead when the plan begins
}

// jacket are the areas of the dog's body coat.
func (l *layout) jacket(d int) (areas []jacketArea) {
	var all float64
	for i, a := range l.coats[d].Areas {
		if a.Name.Jacket() {
			areas = append(areas, jacketArea{i, a.Minutes.Value, l.problem.Dogs[d].Areas[i].Dead})
			all += a.Minutes.Value
		}
	}
	for i := range areas {
		areas[i].part /= max(all, 1)
	}
	return areas
}

// stretch is a run of weeks, both included.
type stretch struct {
	from, to int
	kind     WayKind
}

// spells are the runs of weeks in which dog d's jacket is worked one way.
func (l *layout) spells(d int, plan season.Plan) (spells []Spell) {
	jacket := l.jacket(d)
	take := make([]float64, l.diary.Weeks) // by week, of the jacket
	for _, a := range jacket {
		for t, share := range plan.Shares[d][a.area] {
			take[t] += a.part * share
		}
	}
	all := takenDown(jacket, plan.Shares[d], l.pattern(d).RollMost.Value)
	heavy := func(t int) bool {
		return slices.ContainsFunc(all, func(s stretch) bool { return s.from <= t && t <= s.to })
	}
	var last *stretch // the rolling under way
	gap := 0          // weeks since in which it could have gone on and did not
	for t := range take {
		switch {
		case heavy(t):
			last = nil
		case take[t] < touchShare:
			if l.problem.Dogs[d].Most[t] > 0 {
				gap++
			}
		case last != nil && gap < restWeeks:
			last.to, gap = t, 0
			all[len(all)-1] = *last
		default:
			last, gap = &stretch{t, t, WayRolled}, 0
			all = append(all, *last)
		}
	}
	all = slices.DeleteFunc(all, func(s stretch) bool {
		var sum float64
		for _, share := range take[s.from : s.to+1] {
			sum += share
		}
		return s.kind == WayRolled && sum < spellShare
	})
	slices.SortFunc(all, func(a, b stretch) int { return cmp.Compare(a.from, b.from) })
	return l.dated(l.rests(d, all))
}

// takenDown are the runs of weeks in which the jacket is taken down, staged or stripped out. rolled is the largest share of an area
// that rolling takes in a week.
func takenDown(jacket []jacketArea, shares [][]float64, rolled float64) (all []stretch) {
	type down struct {
		stretch
		jacketArea
		pulled float64
	}
	var downs []down
	for _, a := range jacket {
		of := shares[a.area]
		for t := 0; t < len(of); t++ {
			var sum float64
			for u := t; u < min(t+downWeeks, len(of)) && of[t] >= touchShare; u++ {
				if sum += of[u]; sum > max(downShare, rolled*float64(u-t+1))+touchShare {
					downs = append(downs, down{stretch{from: t, to: u}, a, sum})
					t = u
					break
				}
			}
		}
	}
	slices.SortStableFunc(downs, func(a, b down) int { return cmp.Compare(a.from, b.from) })
	for len(downs) > 0 {
		run := stretch{from: downs[0].from, to: downs[0].to}
		n := 1
		for n < len(downs) && downs[n].from <= run.to+downWeeks {
			run.to = max(run.to, downs[n].to)
			n++
		}
		var part, dead, pulled float64
		for _, x := range downs[:n] {
			part += x.part
			dead += x.part * min(x.dead, x.pulled)
			pulled += x.part * x.pulled
		}
		downs = downs[n:]
		if part < jacketDown {
			continue
		}
		run.kind = WayStaged
		if weeks := run.to - run.from + 1; weeks <= atOnceWeeks || weeks <= deadWeeks && dead >= jacketDown*pulled {
			run.kind = WayStripped
		}
		all = append(all, run)
	}
	return all
}

// rests puts the rests between stretches of work. What lies behind the last one is a rest when the dog was stripped or is
// still to be shown.
func (l *layout) rests(d int, worked []stretch) (all []stretch) {
	add := func(from, to int) {
		open := 0
		for t := from; t <= to; t++ {
			if l.problem.Dogs[d].Most[t] > 0 {
				open++
			}
		}
		if open >= restWeeks {
			all = append(all, stretch{from, to, WayRested})
		}
	}
	next := 0
	for _, s := range worked {
		add(next, s.from-1)
		all = append(all, s)
		next = s.to + 1
	}
	if n := len(worked); n > 0 {
		end := l.lastShown(d)
		if worked[n-1].kind != WayRolled {
			end = l.diary.Weeks - 1
		}
		add(next, end)
	}
	return all
}

// lastShown is the week of the dog's last show; -1 when it has none.
func (l *layout) lastShown(d int) int {
	week := -1
	for _, s := range l.shows(d) {
		week = max(week, kennel.ReadinessWeek(s.On, l.diary.Week0))
	}
	return week
}

// dated are stretches by their days.
func (l *layout) dated(all []stretch) (spells []Spell) {
	for _, s := range all {
		spells = append(spells, Spell{
			Kind: s.kind, From: max(l.opt.On, l.diary.Monday(s.from)), To: l.diary.Monday(s.to + 1).AddDays(-1),
		})
	}
	return spells
}
