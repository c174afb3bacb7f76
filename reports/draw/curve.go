package draw

import "strings"

// point is a place in the drawing of a dog.
type point struct{ x, y float64 }

// curve is a closed path that runs smoothly through the points: a Catmull-Rom spline (Catmull and Rom 1974; memory)
// as cubic Bézier curves, with a sixth of the way between a point's neighbours as its handles. There are at least two
// points.
func curve(ps []point) string {
	n := len(ps)
	at := func(i int) point { return ps[(i+n)%n] }
	var b strings.Builder
	put := func(command string, points ...point) {
		b.WriteString(command)
		for i, p := range points {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(coordinate(p.x) + " " + coordinate(p.y))
		}
	}
	put("M", at(0))
	for i := range n {
		p0, p1, p2, p3 := at(i-1), at(i), at(i+1), at(i+2)
		put("C", point{p1.x + (p2.x-p0.x)/6, p1.y + (p2.y-p0.y)/6}, point{p2.x - (p3.x-p1.x)/6, p2.y - (p3.y-p1.y)/6}, p2)
	}
	b.WriteByte('Z')
	return b.String()
}

// bend is a line with as many stretches as it has knots: what lies between two knots moves in proportion.
type bend [][2]float64 // from, to; rising

func (b bend) of(x float64) float64 {
	if len(b) == 0 {
		return x
	}
	if x <= b[0][0] {
		return x + b[0][1] - b[0][0]
	}
	for i := 1; i < len(b); i++ {
		if x <= b[i][0] {
			p, q := b[i-1], b[i]
			return p[1] + (x-p[0])*(q[1]-p[1])/(q[0]-p[0])
		}
	}
	end := b[len(b)-1]
	return x + end[1] - end[0]
}
