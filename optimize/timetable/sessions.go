package timetable

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// leastSession is how much pulling a session that had to be cut short must keep to be worth its set-up. Common practice.
const leastSession = 8

// addSessions deals a dog's week out to sessions. What pinned sessions pull is not pulled again.
func (k *weekWork) addSessions(dw *planned.DogWeek, urgency float64, price *pricer) {
	d := k.l.dogIndex(dw.Dog)
	areas, n := k.unpinned(d, dw)
	if len(areas) == 0 {
		return
	}
	setUp := dw.SetUp / kennel.Minutes(max(1, dw.Sessions))
	longest := kennel.Minutes(k.l.Problem.Dogs[d].Minutes[k.t]) - setUp
	if n <= 0 {
		k.leave(d, areas, price, "its sessions of the week are pinned to other work")
		return
	}
	if most := k.jacketDays(d); jacket(areas) && most < n && most > 0 && planned.Pulling(areas) <= longest*kennel.Minutes(most) {
		n = most
	}
	first := k.goesFirst(d)
	slices.SortStableFunc(areas, func(a, b planned.AreaWork) int {
		switch x, y := first(a) > 0, first(b) > 0; {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	})
	if k.showNear(d) { // what may be done on any day comes last
		slices.SortStableFunc(areas, func(a, b planned.AreaWork) int { return cmp.Compare(hours.ClassOf(a.Work), hours.ClassOf(b.Work)) })
	}
	aims := k.targets[d]
	if left := planned.Pulling(areas) - sum(aims); len(aims) == 0 {
		aims = even(areas, n)
	} else if len(aims) < n && left > tinyMinutes {
		aims = append(slices.Clone(aims), left)
	}
	kept := k.kept(dw.Dog)
	parts, over := deal(areas, aims, longest, func(a planned.AreaWork) kennel.Minutes {
		if first(a) > 0 {
			return a.Minutes
		}
		return k.least(a)
	}, func(a planned.AreaWork) bool { return first(a) > 0 })
	k.leave(d, over, price, "its sessions of the week are full, and an area is not cut in two")
	for i, part := range parts {
		s := week.Session{Dog: d, SetUp: float64(setUp), Urgency: urgency - sessionStep*float64(i), Least: leastSession}
		w := sessionWork{dog: d, of: dw, areas: part}
		if first(part[0]) > 0 {
			s.Urgency++
			w.first = firstWords(part, first)
		}
		for _, a := range part {
			points := k.worth(d, a, price)
			w.worth = append(w.worth, points)
			barred, why := k.barred(d, a)
			w.barred = append(w.barred, why)
			s.Parts = append(s.Parts, week.Part{
				Kind: int(hours.ClassOf(a.Work)), Minutes: float64(a.Minutes), Value: max(points, k.leastWorth(d, a)) + firstWorth*min(1, float64(first(a))),
				Least: float64(k.least(a)), Barred: barred,
			})
		}
		if i < len(kept) {
			s.Kept, s.KeptDay, s.KeptBy = true, int(kept[i].On-k.day(0)), k.l.handsIndex(kept[i].Hands)
		}
		k.p.Sessions = append(k.p.Sessions, s)
		k.sessions = append(k.sessions, w)
	}
}

// goesFirst says for how many weeks running an area of the dog has been left out, where it goes first for that in this week; else 0.
func (k *weekWork) goesFirst(d int) func(planned.AreaWork) (weeks int) {
	return func(a planned.AreaWork) int {
		i := slices.IndexFunc(k.l.Slipped, func(s planned.Slipped) bool { return s.Dog == k.l.Kennel.Dogs[d].Name && s.Area == a.Area })
		if k.t > 0 || i < 0 || !k.l.Slipped[i].GoesFirst() {
			return 0
		}
		return k.l.Slipped[i].Weeks
	}
}

// firstWords say which areas go first in a session: "ribs and ears first, left out 2 weeks running".
func firstWords(areas []planned.AreaWork, first func(planned.AreaWork) int) string {
	var names []string
	weeks := 0
	for _, a := range areas {
		if n := first(a); n > 0 {
			names = append(names, string(a.Area))
			weeks = max(weeks, n)
		}
	}
	return fmt.Sprintf("%s first, left out %d weeks running", strings.Join(names, " and "), weeks)
}

// least is how long an area that is cut short must still be worked to be a touch worth making: as long as one is by its share and by
// its minutes.
func (k *weekWork) least(a planned.AreaWork) kennel.Minutes {
	return min(max(k.l.Options.CrumbTime, a.Minutes*kennel.Minutes(k.l.Options.CrumbShare/a.Share)), a.Minutes)
}

// sessionStep is how much less a dog's later session presses than the one before it, which has slower areas.
const sessionStep = 0.01

// leastWorth is what work that could wait for nothing is worth: slow areas a little more than quick ones.
func (k *weekWork) leastWorth(d int, a planned.AreaWork) float64 {
	return leastWorth * float64(a.Minutes) * (1 + k.l.pattern(d).Areas[k.l.areaIndex(d, a.Area)].ReadyOn(k.l.Kennel.Dogs[d].Coat)/slowest)
}

// worth is the part of an area's points of the week that this much of it has.
func (k *weekWork) worth(d int, a planned.AreaWork, price *pricer) float64 {
	i := k.l.areaIndex(d, a.Area)
	return price.points(d, i, k.t) * float64(a.Share) / price.plan.Shares[d][i][k.t]
}

// unpinned is what is left of a dog's week beside its pinned sessions, and in how many sessions.
func (k *weekWork) unpinned(d int, dw *planned.DogWeek) (areas []planned.AreaWork, sessions int) {
	sessions = dw.Sessions
	areas = append(areas, dw.Areas...)
	for _, p := range k.pinned {
		if p.dog != d {
			continue
		}
		sessions--
		for _, done := range p.areas {
			for i := range areas {
				if areas[i].Area == done.Area && areas[i].Share > 0 {
					areas[i] = areas[i].Part(max(0, areas[i].Minutes*kennel.Minutes(1-done.Share/areas[i].Share)))
				}
			}
		}
		areas = slices.DeleteFunc(areas, func(a planned.AreaWork) bool { return a.Minutes < tinyMinutes })
	}
	return areas, sessions
}

// tinyMinutes is arithmetic's part of a minute.
const tinyMinutes = 1e-6

// jacketDays is how many days with a free day between, or as many as are asked for, the dog has for jacket sessions.
func (k *weekWork) jacketDays(d int) (count int) {
	next := -k.p.Days
	free := func(n int) bool {
		for _, j := range k.p.Dogs[d].Jackets {
			if max(j-n, n-j) < k.p.Apart {
				return false
			}
		}
		return true
	}
	for n, day := range k.p.Dogs[d].Days {
		if _, near := k.l.Diary.BeforeShow(d, k.day(n)); n >= next && day.There && !day.Fixed && !near && free(n) && k.jacketHands(n) {
			count++
			next = n + k.p.Apart
		}
	}
	return count
}

func (k *weekWork) jacketHands(n int) bool {
	return slices.ContainsFunc(k.p.Hands, func(h week.Hands) bool {
		return h.Does&week.Kind(week.JacketKind) != 0 && h.Does&week.SkillSetUp != 0 && len(h.Days[n].Stretches) > 0
	})
}

// kept are the dog's sessions of this week on the sheet that was handed out, by day; pinned ones are not among them.
func (k *weekWork) kept(dog string) (kept []kennel.Session) {
	for _, s := range k.l.Options.Accepted {
		if s.Dog == dog && !s.Pinned && k.holds(s.On) {
			kept = append(kept, s)
		}
	}
	slices.SortStableFunc(kept, func(a, b kennel.Session) int { return cmp.Compare(a.On, b.On) })
	return kept
}

// leave reports work that can't even be asked for.
func (k *weekWork) leave(d int, areas []planned.AreaWork, price *pricer, why string) {
	for _, a := range areas {
		k.leftOut = append(k.leftOut, planned.LeftOut{
			Week: k.day(0), Dog: k.l.Kennel.Dogs[d].Name, Area: a.Area, Share: a.Share, Minutes: a.Minutes, Points: k.worth(d, a, price), Why: why,
		})
	}
}
