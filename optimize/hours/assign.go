package hours

import (
	"math"
	"slices"
)

// Assign gives a week's minutes of work, by class, to the hands, those that may do least first, so that the
// hands that may do everything are kept for what only they may do. It returns the minutes given to each pair of
// hands, by class, and the minutes that found no hands.
//
// It is a maximum flow from the classes through each pair's pulling time to its working time, by shortest
// augmenting paths (Edmonds and Karp 1972). The pairs' working time is opened one pair after another; a later
// path never takes back time that an earlier pair already gives, so each pair is filled before the next is asked.
func Assign(week []Hands, work [Classes]float64) (each []Given, left float64) {
	week = onlyDuties(week, work[ClassDuties])
	g := newHandsFlow(week, work)
	order := make([]int, len(week))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return week[a].skills() - week[b].skills() })
	for _, h := range order {
		g.room[g.worker(h)][g.sink()] = week[h].Work
		for g.augment() {
		}
	}
	each = make([]Given, len(week))
	for h := range week {
		for c := range work {
			each[h][c] = g.room[g.puller(h)][c] + g.room[g.worker(h)][c]
		}
	}
	for c := range work {
		left += g.room[g.source()][c]
	}
	return each, left
}

// Given is what one pair of hands is given in a week: minutes by class.
type Given [Classes]float64

// All is the minutes of all classes together.
func (g Given) All() (minutes float64) {
	for _, m := range g {
		minutes += m
	}
	return minutes
}

// handsFlow is a flow network in residual form: room[i][j] is what may still go from i to j. Its nodes are the
// classes, then each pair's pulling time, then each pair's working time, then source and sink.
type handsFlow struct {
	room  [][]float64
	pairs int
}

func newHandsFlow(week []Hands, work [Classes]float64) handsFlow {
	g := handsFlow{pairs: len(week)}
	g.room = make([][]float64, g.sink()+1)
	for i := range g.room {
		g.room[i] = make([]float64, g.sink()+1)
	}
	for c, minutes := range work {
		g.room[g.source()][c] = minutes
		for h, pair := range week {
			switch s := Class(c).Set(); {
			case pair.Does&s == 0:
			case Pulling&s != 0:
				g.room[c][g.puller(h)] = math.Inf(1)
			default:
				g.room[c][g.worker(h)] = math.Inf(1)
			}
		}
	}
	for h, pair := range week {
		g.room[g.puller(h)][g.worker(h)] = pair.Strip
	}
	return g
}

func (g handsFlow) puller(h int) int { return int(Classes) + h }
func (g handsFlow) worker(h int) int { return int(Classes) + g.pairs + h }
func (g handsFlow) source() int      { return int(Classes) + 2*g.pairs }
func (g handsFlow) sink() int        { return g.source() + 1 }

// augment sends what it can along one shortest path with room and reports whether there was one.
func (g handsFlow) augment() bool {
	from := make([]int, len(g.room))
	for i := range from {
		from[i] = -1
	}
	from[g.source()] = g.source()
	for queue := []int{g.source()}; len(queue) > 0 && from[g.sink()] < 0; queue = queue[1:] {
		for j, room := range g.room[queue[0]] {
			if room > 0 && from[j] < 0 {
				from[j] = queue[0]
				queue = append(queue, j)
			}
		}
	}
	if from[g.sink()] < 0 {
		return false
	}
	send := math.Inf(1)
	for j := g.sink(); j != g.source(); j = from[j] {
		send = min(send, g.room[from[j]][j])
	}
	for j := g.sink(); j != g.source(); j = from[j] {
		g.room[from[j]][j] -= send
		g.room[j][from[j]] += send
	}
	return true
}
