package timetable

import (
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// leastPiece is the least stretch of work for which an area is cut in two between sessions: less is not worth coming
// back for. Common practice, minutes.
const leastPiece = 5

// nearCut is how far from even, as a part of it, a session may be so that no area is cut. Common practice.
const nearCut = 0.25

// split deals a dog's work of a week out to n sessions of at most longest minutes: in working order, so that the first
// session has the slowest areas, evenly, and with as few areas cut in two as that allows.
func split(areas []planned.AreaWork, n int, longest kennel.Minutes) [][]planned.AreaWork {
	areas = append([]planned.AreaWork(nil), areas...)
	left := planned.Pulling(areas)
	sessions := make([][]planned.AreaWork, 0, n)
	for ; n > 1 && len(areas) > 0; n-- {
		even := left / kennel.Minutes(n)
		least := left - longest*kennel.Minutes(n-1) // or the others could not hold the rest
		var session []planned.AreaWork
		session, areas = cut(areas, even, max(even*(1-nearCut), least), min(even*(1+nearCut), longest), least)
		left -= planned.Pulling(session)
		sessions = append(sessions, session)
	}
	if len(areas) > 0 {
		sessions = append(sessions, areas)
	}
	return sessions
}

// splitBy deals a dog's work out to sessions of about so many minutes each; what is left over is one session more.
func splitBy(areas []planned.AreaWork, targets []kennel.Minutes, longest kennel.Minutes) (sessions [][]planned.AreaWork) {
	areas = append([]planned.AreaWork(nil), areas...)
	for _, target := range targets {
		if len(areas) == 0 || target < leastPiece {
			continue
		}
		if planned.Pulling(areas) <= target+tinyMinutes {
			break
		}
		var session []planned.AreaWork
		session, areas = cut(areas, target, target*(1-nearCut/2), target, 0)
		sessions = append(sessions, session)
	}
	for left := planned.Pulling(areas); left > tinyMinutes; left = planned.Pulling(areas) { // no session is longer than may be
		var session []planned.AreaWork
		session, areas = areas, nil
		if left > longest+tinyMinutes {
			session, areas = cut(session, longest, longest*(1-nearCut), longest, 0)
		}
		sessions = append(sessions, session)
	}
	return sessions
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

// cut takes about even minutes from the front: at the end of an area if that is between low and high, else within one,
// with pieces worth doing: an area that is too short for two of them is only cut where least or high leave no other way.
func cut(areas []planned.AreaWork, even, low, high, least kennel.Minutes) (session, rest []planned.AreaWork) {
	best, at := kennel.Minutes(math.Inf(1)), -1
	var sum kennel.Minutes
	for i, a := range areas {
		sum += a.Minutes
		if off := max(sum-even, even-sum); sum >= low && sum <= high && off < best {
			best, at = off, i
		}
	}
	if at >= 0 {
		return areas[: at+1 : at+1], areas[at+1:]
	}
	sum = 0
	for i, a := range areas {
		if sum+a.Minutes <= even && i < len(areas)-1 {
			sum += a.Minutes
			continue
		}
		if short := a.Minutes < 2*leastPiece; short && i > 0 && sum >= least {
			return areas[:i:i], areas[i:]
		} else if short && sum+a.Minutes <= high {
			return areas[: i+1 : i+1], areas[i+1:]
		}
		first := even - sum
		if a.Minutes >= 2*leastPiece {
			first = min(max(first, leastPiece), a.Minutes-leastPiece)
		}
		first = min(max(first, low-sum), high-sum)
		one, two := a.Part(first), a.Part(a.Minutes-first)
		session = slices.Concat(areas[:i], []planned.AreaWork{one})
		return session, append([]planned.AreaWork{two}, areas[i+1:]...)
	}
	return areas, nil
}
