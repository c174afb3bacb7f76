package season

import (
	"math"
	"slices"

	"tuckup/optimize/lp"
)

// A hole counts at shows: the readiness there is the least of the mean and of each area with what it may be better. Seen
// the other way round, the points of a show are shared out between the mean and the areas alone; any parts that sum to 1
// give a value that the dog does not pass, and the best of them its own. The parts are the multipliers of a dog's program
// (areamix.go).

// holePart is the part of week t's points for shows that goes by area a alone.
func (n *dogNets) holePart(t, a int) float64 {
	if n.holes == nil || n.holes[t] == nil {
		return 0
	}
	return n.holes[t][a]
}

// areaValue is what full readiness of an area is worth in week t at the present show price.
func (n *dogNets) areaValue(t, a int) float64 {
	shows, weight := n.dog.showPoints(t, n.show), n.dog.Areas[a].Weight
	if shows == 0 || n.holes == nil || n.holes[t] == nil {
		return (n.dog.Value[t] + shows) * weight
	}
	whole := 1.0
	for _, part := range n.holes[t] {
		whole -= part
	}
	return (n.dog.Value[t]+shows*max(0, whole))*weight + shows*n.holes[t][a]
}

// holeWorth is what areas may be better than the dog, at the parts.
func (n *dogNets) holeWorth() float64 {
	var s float64
	for t, parts := range n.holes {
		for _, part := range parts {
			s += n.dog.showPoints(t, n.show) * part * n.p.Hole
		}
	}
	return s
}

// setHoles sets the parts, which sum to at most 1 in each week. Parts that are the same change nothing.
func (n *dogNets) setHoles(parts [][]float64) {
	if sameParts(parts, n.holes) {
		return
	}
	n.holes = parts
	n.setShow(n.show)
	if n.minute != nil {
		for t, fill := range n.fill {
			n.setFill(t, fill)
		}
	}
}

// holeRow is a row of a dog's program: at a show in the week the mean less the area is at most what a dog may be better
// than it, and more only at the show's points.
type holeRow struct {
	week, area int
	row        int
	short      int // column: what the dog lacks of its mean in that week, one for all of the week's rows
	over       int // column that lets the row begin where it is broken; dearer than short
}

// holeEntry is a pull's entry in the row.
func (f *areaMix) holeEntry(h holeRow, x *pull) float64 {
	loss := x.loss[h.week]
	entry := -f.n.dog.Areas[x.area].Weight * loss
	if x.area == h.area {
		entry += loss
	}
	return entry
}

// holeRoom is the right-hand side of every row of a hole.
func (f *areaMix) holeRoom() float64 {
	room := f.n.p.Hole + 1
	for a := range f.n.dog.Areas {
		room -= f.n.dog.Areas[a].Weight
	}
	return room
}

// firstHoles adds the rows that had a part of the points when the dog was last asked. All areas are idle yet.
func (f *areaMix) firstHoles() {
	n := f.n
	for t := range n.holes {
		if n.holes[t] == nil || n.dog.showPoints(t, n.show) <= 0 {
			continue
		}
		lacks := 0.0
		for a := range n.nets {
			lacks += n.dog.Areas[a].Weight * f.asked[a].loss[t]
		}
		for a, part := range n.holes[t] {
			if part > 0 {
				f.addHole(t, a, f.asked[a].loss[t]-lacks > f.holeRoom())
			}
		}
	}
}

// addHoles adds the rows that the mix breaks.
func (f *areaMix) addHoles(now lp.Answer) (added bool) {
	n := f.n
	if n.p.Hole == 0 || n.dog.ShowValue == nil && n.dog.Shows == nil {
		return false
	}
	for t := range n.p.Weeks {
		if n.dog.showPoints(t, n.show) <= 0 {
			continue
		}
		loss := make([]float64, len(n.nets))
		for j, v := range now.X {
			if x := f.asked[j]; v > 0 && x != nil {
				loss[x.area] += v * x.loss[t]
			}
		}
		worst, lacks := 0, 0.0
		for a, l := range loss {
			lacks += n.dog.Areas[a].Weight * l
			if l > loss[worst] {
				worst = a
			}
		}
		short := 0.0
		for _, h := range f.holes {
			if h.week == t {
				short = now.X[h.short]
			}
		}
		known := slices.ContainsFunc(f.holes, func(h holeRow) bool { return h.week == t && h.area == worst })
		if !known && loss[worst]-lacks-short > f.holeRoom()+holeTol {
			f.addHole(t, worst, true)
			added = true
		}
	}
	return added
}

// holeTol is by how much of readiness a mix may pass a hole that has no row.
const holeTol = 1e-7

// addHole adds a row for the area in week t. One that the basis breaks begins with the column that lets it be broken.
func (f *areaMix) addHole(t, a int, broken bool) {
	h := holeRow{week: t, area: a, short: -1}
	for _, o := range f.holes {
		if o.week == t {
			h.short = o.short
		}
	}
	var begin int
	h.row, begin = f.prog.AddLimit(f.holeRoom())
	for j, x := range f.asked {
		if x != nil {
			f.prog.Cols[j].Add(h.row, f.holeEntry(h, x))
		}
	}
	if h.short < 0 {
		h.short = f.prog.AddCol(lp.Col{})
	}
	f.prog.Cols[h.short].Add(h.row, -1)
	h.over = f.prog.AddCol(lp.Col{})
	f.prog.Cols[h.over].Add(h.row, -1)
	f.holes = append(f.holes, h)
	f.pad()
	f.priceHoles()
	if broken {
		begin = h.over
	}
	f.basis = append(f.basis, begin)
}

// priceHoles sets what lacking a show's points costs.
func (f *areaMix) priceHoles() {
	for _, h := range f.holes {
		points := f.n.dog.showPoints(h.week, f.n.show)
		f.prog.Cols[h.short].Gain, f.prog.Cols[h.over].Gain = -points, -overHole*points-holeTol
	}
}

// overHole is how many times dearer it is to break a row than to lack its points.
const overHole = 4

// setHoles sets the nets' parts to the program's multipliers, mixed with the best parts so far.
func (f *areaMix) setHoles(now lp.Answer, best [][]float64, part float64) {
	if len(f.holes) == 0 {
		return
	}
	n := f.n
	parts := make([][]float64, n.p.Weeks)
	of := func(t int) []float64 {
		if parts[t] == nil {
			parts[t] = make([]float64, len(n.nets))
		}
		return parts[t]
	}
	for t := range best {
		for a, v := range best[t] {
			if v > 0 && part > 0 {
				of(t)[a] += part * v
			}
		}
	}
	for _, h := range f.holes {
		if points := n.dog.showPoints(h.week, n.show); points > 0 {
			of(h.week)[h.area] += (1 - part) * math.Max(0, now.Y[h.row]) / points
		}
	}
	for t := range parts {
		sum := 0.0
		for _, v := range parts[t] {
			sum += v
		}
		for a := range parts[t] {
			parts[t][a] /= math.Max(1, sum)
		}
	}
	n.setHoles(parts)
}

// sameParts reports whether both share out all points in the same way; weeks that are left out go by the mean.
func sameParts(x, y [][]float64) bool {
	at := func(parts [][]float64, t, a int) float64 {
		if t >= len(parts) || a >= len(parts[t]) {
			return 0
		}
		return parts[t][a]
	}
	for t := range max(len(x), len(y)) {
		areas := 0
		for _, parts := range [][][]float64{x, y} {
			if t < len(parts) {
				areas = max(areas, len(parts[t]))
			}
		}
		for a := range areas {
			if at(x, t, a) != at(y, t, a) {
				return false
			}
		}
	}
	return true
}

// holed reports whether a hole counts in the nets' answer, or did when the parts were sought last.
func (n *dogNets) holed() bool {
	if n.p.Hole == 0 {
		return false
	}
	weeks := n.showWeeks()
	for _, t := range weeks {
		for a := range n.nets {
			if n.holePart(t, a) > 0 {
				return true
			}
		}
	}
	return n.holeGap() > holeTol
}

// holeGap is by how much the nets' answer is worth less than the parts of its holes say, points.
func (n *dogNets) holeGap() (points float64) {
	if n.p.Hole == 0 {
		return 0
	}
	weeks := n.showWeeks()
	mean, worst, said := make([]float64, len(weeks)), make([]float64, len(weeks)), make([]float64, len(weeks))
	for i := range worst {
		worst[i] = math.Inf(1)
	}
	shares := make([]float64, n.p.Weeks)
	for a, net := range n.nets {
		area := &n.dog.Areas[a]
		for t := range shares {
			shares[t] = net.Step(t)
		}
		loss := area.losses(shares)
		for i, t := range weeks {
			ready := 1 - loss[t]
			mean[i] += area.Weight * ready
			worst[i] = math.Min(worst[i], ready+n.p.Hole)
			said[i] += n.holePart(t, a) * (ready + n.p.Hole)
		}
	}
	for i, t := range weeks {
		whole := 1.0
		for a := range n.nets {
			whole -= n.holePart(t, a)
		}
		said[i] += math.Max(0, whole) * mean[i]
		points += n.dog.showPoints(t, n.show) * math.Max(0, said[i]-math.Min(mean[i], worst[i]))
	}
	return points
}

// showWeeks are the weeks with points for shows at the present show price.
func (n *dogNets) showWeeks() (weeks []int) {
	for t := range n.p.Weeks {
		if n.dog.showPoints(t, n.show) > 0 {
			weeks = append(weeks, t)
		}
	}
	return weeks
}
