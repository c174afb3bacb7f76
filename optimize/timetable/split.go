package timetable

import (
	"math"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// leastPiece is the least time to spare in a session for which a dog's work is dealt out anew. Common practice, minutes.
const leastPiece = 5

// deal gives a dog's areas of a week to sessions, each area whole to one of them: in working order, so that the first session has
// the slowest areas, each session near the minutes aimed at and none above the longest. What no session has room for is taken off the
// largest areas, and is returned as over; nothing is left of an area of which less than a touch worth making would be, and what goes
// first is the last to be left out.
func deal(areas []planned.AreaWork, aims []kennel.Minutes, longest kennel.Minutes, least func(planned.AreaWork) kennel.Minutes, first func(planned.AreaWork) bool) (sessions [][]planned.AreaWork, over []planned.AreaWork) {
	d := dealer{areas: areas, aims: aims, longest: longest}
	in := d.inOrder()
	if d.above(in) > tinyMinutes {
		d.fitIn(in)
	}
	for _, session := range d.sessions(in) {
		kept, cut := trim(session, longest, least, first)
		over = append(over, cut...)
		if len(kept) > 0 {
			sessions = append(sessions, kept)
		}
	}
	return sessions, over
}

// even are n equal aims for the areas.
func even(areas []planned.AreaWork, n int) []kennel.Minutes {
	aims := make([]kennel.Minutes, n)
	for i := range aims {
		aims[i] = planned.Pulling(areas) / kennel.Minutes(n)
	}
	return aims
}

func sum(all []kennel.Minutes) (sum kennel.Minutes) {
	for _, m := range all {
		sum += m
	}
	return sum
}

type dealer struct {
	areas   []planned.AreaWork
	aims    []kennel.Minutes
	longest kennel.Minutes
}

// inOrder says which session each area goes to when sessions are runs of areas in working order: those with the least minutes above
// the longest, then nearest to the aims.
func (d *dealer) inOrder() []int {
	type best struct {
		above, off float64
		from       int
	}
	n, m := len(d.areas), len(d.aims)
	table := make([][]best, m+1)
	for s := range table {
		table[s] = make([]best, n+1)
		for a := range table[s] {
			table[s][a] = best{math.Inf(1), math.Inf(1), 0}
		}
	}
	table[0][0] = best{}
	for s := 1; s <= m; s++ {
		for to := 0; to <= n; to++ {
			for from := 0; from <= to; from++ {
				before := table[s-1][from]
				sum := planned.Pulling(d.areas[from:to])
				off := float64(sum - d.aims[s-1])
				next := best{before.above + float64(max(0, sum-d.longest)), before.off + off*off, from}
				now := table[s][to]
				if next.above < now.above-tinyMinutes || next.above < now.above+tinyMinutes && next.off < now.off-tinyMinutes {
					table[s][to] = next
				}
			}
		}
	}
	in := make([]int, n)
	for s, to := m, n; s > 0; s-- {
		from := table[s][to].from
		for a := from; a < to; a++ {
			in[a] = s - 1
		}
		to = from
	}
	return in
}

// above is how many minutes of all sessions are above the longest.
func (d *dealer) above(in []int) (sum float64) {
	minutes := make([]kennel.Minutes, len(d.aims))
	for a, s := range in {
		minutes[s] += d.areas[a].Minutes
	}
	for _, m := range minutes {
		sum += float64(max(0, m-d.longest))
	}
	return sum
}

// fitIn moves areas to other sessions, and changes two for one another, while less is above the longest.
func (d *dealer) fitIn(in []int) {
	for again := true; again; {
		again = false
		now := d.above(in)
		try := func(change, back func()) {
			if again || now <= tinyMinutes {
				return
			}
			if change(); d.above(in) < now-tinyMinutes {
				again = true
			} else {
				back()
			}
		}
		for a := range in {
			was := in[a]
			for s := range d.aims {
				try(func() { in[a] = s }, func() { in[a] = was })
			}
			for b := range a {
				swap := func() { in[a], in[b] = in[b], in[a] }
				try(swap, swap)
			}
		}
	}
}

// sessions are the areas of each session, in working order; the session with the slowest areas first.
func (d *dealer) sessions(in []int) (all [][]planned.AreaWork) {
	place := map[int]int{}
	for a, s := range in {
		if _, ok := place[s]; !ok {
			place[s] = len(all)
			all = append(all, nil)
		}
		all[place[s]] = append(all[place[s]], d.areas[a])
	}
	return all
}

// trim takes off a session what is above the longest: off its longest area each time, but nothing below a touch worth making; where
// that is not enough, its shortest area is left out.
func trim(session []planned.AreaWork, longest kennel.Minutes, least func(planned.AreaWork) kennel.Minutes, first func(planned.AreaWork) bool) (kept, over []planned.AreaWork) {
	kept = append(kept, session...)
	for excess := planned.Pulling(kept) - longest; excess > tinyMinutes && len(kept) > 0; excess = planned.Pulling(kept) - longest {
		long, short := 0, 0
		for a := range kept {
			if kept[a].Minutes > kept[long].Minutes {
				long = a
			}
			if x, y := first(kept[a]), first(kept[short]); x == y && kept[a].Minutes < kept[short].Minutes || !x && y {
				short = a
			}
		}
		off := min(excess, kept[long].Minutes-least(kept[long]))
		if off <= tinyMinutes {
			over = append(over, kept[short])
			kept = append(kept[:short], kept[short+1:]...)
			continue
		}
		over = append(over, kept[long].Part(off))
		kept[long] = kept[long].Part(kept[long].Minutes - off)
	}
	return kept, over
}

// retarget says how long each session of a dog should be where work of it was left out while another of its sessions has
// time to spare: the minutes that placed sessions have and could have.
func (k *weekWork) retarget(r *week.Result) map[int][]kennel.Minutes {
	targets, missing, again := map[int][]kennel.Minutes{}, map[int]float64{}, map[int]bool{}
	for i, s := range r.Sessions {
		d := k.sessions[i].dog
		var pull float64
		for a, x := range s.Minutes {
			pull += x
			missing[d] += k.p.Sessions[i].Parts[a].Minutes - x
		}
		if !s.Placed {
			continue
		}
		room := min(k.spare(r, s.Hands, s.Day), k.p.Dogs[d].Days[s.Day].Longest-k.p.Sessions[i].SetUp-pull)
		if s.Helper < 0 && room >= leastPiece {
			pull += room
			again[d] = true
		}
		targets[d] = append(targets[d], kennel.Minutes(pull))
	}
	for d := range k.l.Kennel.Dogs {
		if !again[d] || missing[d] < leastPiece {
			delete(targets, d)
		}
	}
	return targets
}

// spare is how much time a pair of hands has left on a day, a break kept free.
func (k *weekWork) spare(r *week.Result, h, n int) float64 {
	day := k.p.Hands[h].Days[n]
	spare, strip := -float64(hours.BreakFor), day.Strip
	for _, s := range day.Stretches {
		spare += s.Minutes
	}
	for _, l := range r.Lines {
		if l.Hands != h || l.Day != n {
			continue
		}
		for _, it := range l.Items {
			spare -= it.End - it.Start
			for _, d := range it.Parts {
				strip -= d.Minutes
			}
		}
	}
	return min(spare, strip)
}
