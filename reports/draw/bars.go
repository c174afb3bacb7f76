package draw

import (
	"html/template"
	"math"
	"slices"
	"strconv"

	"tuckup/kennel"
)

// Bars is a chart of hours by week, stacked, against the hours available.
type Bars struct {
	ID, Title, Desc string
	Weeks           []BarWeek
	Series          []Series // from the bottom of the stack up
	There           []float64
	ThereName       string // in the legend; empty = no line
}

// BarWeek is one week on the chart.
type BarWeek struct {
	Name string // in full, read out with each bar
	Tick string // under the bar; empty = none
}

// Series is one dog's, or one pair of hands', hours by week.
type Series struct {
	Name  string
	Hours []float64
}

// otherSeries is what the smallest series together are called where there are more than fills.
const otherSeries = "all others"

const (
	barLeft, barRight   = 30.0, 6.0
	barTop, barBottom   = 10.0, 210.0
	legendLine, swatch  = 19.0, 13.0
	legendTop           = 240.0
	mostTicks           = 5
	barPart             = 0.82 // of a week's width
	legendGap, wordsGap = 14.0, 5.0
)

type barShape struct {
	X, Y, Width, Height float64
	Fill, Title         string
}

type tickShape struct {
	X, Y float64
	Text string
}

type legendItem struct {
	X, Y, Size, TextX, TextY float64
	Fill, Text, Title        string
	Line                     bool
}

type barPicture struct {
	frame
	Left, Right, Top, Bottom float64
	Bars                     []barShape
	There                    string // path
	XTicks, YTicks           []tickShape
	Legend                   []legendItem
}

// SVG draws the chart. Hours must be finite and not negative; missing ones count as none.
func (c Bars) SVG() (template.HTML, error) {
	series := merged(c.Series, len(c.Weeks))
	p := barPicture{
		frame: newFrame(c.ID, c.Title, c.Desc, 0), Left: barLeft, Right: picWidth - barRight, Top: barTop, Bottom: barBottom,
	}
	most := 0.0
	for t := range c.Weeks {
		sum := 0.0
		for _, s := range series {
			sum += s.Hours[t]
		}
		most = max(most, sum, hourAt(c.There, t))
	}
	step, top := scale(most)
	y := func(hours float64) float64 { return barBottom - (barBottom-barTop)*hours/top }
	for i := 0; float64(i)*step <= top+step/2; i++ {
		h := float64(i) * step
		p.YTicks = append(p.YTicks, tickShape{X: barLeft - 4, Y: y(h), Text: kennel.Number(h)})
	}
	week := (picWidth - barLeft - barRight) / float64(max(1, len(c.Weeks)))
	for i := range series {
		p.use("s"+strconv.Itoa(i), fillOf(series, i))
	}
	for t, w := range c.Weeks {
		x, under := barLeft+week*(float64(t)+(1-barPart)/2), 0.0
		for i, s := range series {
			if h := s.Hours[t]; h > 0 {
				p.Bars = append(p.Bars, barShape{
					X: x, Y: y(under + h), Width: week * barPart, Height: y(under) - y(under+h),
					Fill:  p.use("s"+strconv.Itoa(i), fillOf(series, i)),
					Title: w.Name + ", " + s.Name + ": " + strconv.FormatFloat(h, 'f', 1, 64) + " h",
				})
				under += h
			}
		}
		if w.Tick != "" {
			p.XTicks = append(p.XTicks, tickShape{X: barLeft + week*(float64(t)+0.5), Y: barBottom + 16, Text: w.Tick})
		}
	}
	if c.ThereName != "" {
		p.There = thereLine(c.There, len(c.Weeks), week, y)
	}
	p.Height = p.legend(series, c.ThereName)
	return picture("bars", p)
}

func hourAt(hours []float64, t int) float64 {
	if t < len(hours) {
		return hours[t]
	}
	return 0
}

// fillOf is the fill of a series by its place; the one for all others has its own.
func fillOf(series []Series, i int) Fill {
	if series[i].Name == otherSeries && i == len(seriesFills)-1 {
		return seriesFills[len(seriesFills)-1]
	}
	return seriesFills[i%len(seriesFills)]
}

// merged makes every series as long as there are weeks, and one of those with the fewest hours where there are more
// than fills.
func merged(series []Series, weeks int) []Series {
	type sized struct {
		Series
		sum   float64
		place int
	}
	all := make([]sized, len(series))
	for i, s := range series {
		all[i] = sized{Series{s.Name, make([]float64, weeks)}, 0, i}
		for t := range weeks {
			all[i].Hours[t] = max(0, hourAt(s.Hours, t))
			all[i].sum += all[i].Hours[t]
		}
	}
	if len(all) > len(seriesFills) {
		slices.SortStableFunc(all, func(a, b sized) int {
			switch {
			case a.sum > b.sum:
				return -1
			case a.sum < b.sum:
				return 1
			}
			return 0
		})
		keep := len(seriesFills) - 1
		rest := Series{otherSeries, make([]float64, weeks)}
		for _, s := range all[keep:] {
			for t, h := range s.Hours {
				rest.Hours[t] += h
			}
		}
		all = all[:keep]
		slices.SortFunc(all, func(a, b sized) int { return a.place - b.place })
		all = append(all, sized{rest, 0, 0})
	}
	out := make([]Series, len(all))
	for i, s := range all {
		out[i] = s.Series
	}
	return out
}

// scale is a round step for an axis from 0 to at least most, and the axis's end.
func scale(most float64) (step, top float64) {
	step = math.Pow(10, math.Floor(math.Log10(max(most, 1)/mostTicks)))
	for _, f := range []float64{1, 2, 5, 10} {
		if most <= f*step*mostTicks {
			step *= f
			break
		}
	}
	return step, step * max(1, math.Ceil(most/step))
}

// thereLine is the path of the hours available: level over each week.
func thereLine(hours []float64, weeks int, week float64, y func(float64) float64) string {
	path := ""
	for t := range weeks {
		at := coordinate(y(hourAt(hours, t)))
		if t == 0 {
			path = "M" + coordinate(barLeft) + " " + at
		} else {
			path += "V" + at
		}
		path += "H" + coordinate(barLeft+week*float64(t+1))
	}
	return path
}

// legend lays the names out in lines below the chart and returns the picture's height.
func (p *barPicture) legend(series []Series, there string) float64 {
	x, y := barLeft, legendTop
	put := func(fill, name string, line bool) {
		shown := fit(name, small, picWidth/2)
		wide := swatch + wordsGap + widthOf(shown, small)
		if x > barLeft && x+wide > picWidth-barRight {
			x, y = barLeft, y+legendLine
		}
		item := legendItem{
			X: x, Y: y, Size: swatch, TextX: x + swatch + wordsGap, TextY: y + swatch - 2, Fill: fill, Text: shown, Title: name, Line: line,
		}
		p.Legend = append(p.Legend, item)
		x += wide + legendGap
	}
	for i, s := range series {
		put(p.use("s"+strconv.Itoa(i), fillOf(series, i)), s.Name, false)
	}
	if there != "" {
		put("", there, true)
	}
	return y + legendLine
}
