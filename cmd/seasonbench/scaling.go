package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/gonum/stat"
)

// fit is how seconds grow with a size: seconds = Seconds1 * size^Slope, by least squares of the logarithms.
type fit struct {
	Against  string    `json:"against"` // dogs or weeks
	Sizes    []float64 `json:"sizes"`
	Seconds  []float64 `json:"seconds"`
	Slope    float64   `json:"slope"`
	Seconds1 float64   `json:"seconds_at_one"`
}

// fits are the fits that the class scaling has seasons for: against dogs at 26 weeks, against weeks at 10 dogs.
func fits(all []result) (out []fit) {
	dogs, weeks := fit{Against: "dogs"}, fit{Against: "weeks"}
	for _, r := range all {
		if r.Class != scaling {
			continue
		}
		if r.Shape.Weeks == 26 {
			dogs.add(float64(r.Shape.Dogs), r.Ours.Seconds)
		}
		if r.Shape.Dogs == 10 {
			weeks.add(float64(r.Shape.Weeks), r.Ours.Seconds)
		}
	}
	for _, f := range []fit{dogs, weeks} {
		if f.compute() {
			out = append(out, f)
		}
	}
	return out
}

func (f *fit) add(size, seconds float64) {
	f.Sizes, f.Seconds = append(f.Sizes, size), append(f.Seconds, max(seconds, 1e-6))
}

// compute fits the line; false where there are no two sizes.
func (f *fit) compute() bool {
	x, y := logs(f.Sizes), logs(f.Seconds)
	if len(x) < 2 || stat.Variance(x, nil) == 0 {
		return false
	}
	a, b := stat.LinearRegression(x, y, nil, false)
	f.Seconds1, f.Slope = math.Exp(a), b
	return true
}

func logs(v []float64) []float64 {
	l := make([]float64, len(v))
	for i, x := range v {
		l[i] = math.Log(x)
	}
	return l
}

func (f fit) at(size float64) float64 { return f.Seconds1 * math.Pow(size, f.Slope) }

// The chart's size in characters.
const (
	chartWide = 56
	chartHigh = 10
)

// draw draws seconds against size, both on logarithmic scales: o measured, . the fitted line.
func (f fit) draw(w io.Writer) {
	least, most := f.Sizes[0], f.Sizes[0]
	low, high := f.Seconds[0], f.Seconds[0]
	for i, s := range f.Sizes {
		least, most = min(least, s), max(most, s)
		low, high = min(low, f.Seconds[i]), max(high, f.Seconds[i])
	}
	low, high = min(low, f.at(least), f.at(most)), max(high, f.at(least), f.at(most))
	var grid [chartHigh][]byte
	for i := range grid {
		grid[i] = []byte(strings.Repeat(" ", chartWide))
	}
	put := func(size, seconds float64, mark byte) {
		x := place(size, least, most, chartWide)
		y := chartHigh - 1 - place(seconds, low, high, chartHigh)
		grid[y][x] = mark
	}
	for i := range chartWide {
		size := least * math.Pow(most/least, float64(i)/(chartWide-1))
		put(size, f.at(size), '.')
	}
	for i, s := range f.Sizes {
		put(s, f.Seconds[i], 'o')
	}
	fmt.Fprintf(w, "\nSeconds against %s, both scales logarithmic (o measured, . fitted): slope %.2f\n", f.Against, f.Slope)
	for i, line := range grid {
		label := ""
		switch i {
		case 0:
			label = fmt.Sprintf("%.3g s", high)
		case chartHigh - 1:
			label = fmt.Sprintf("%.3g s", low)
		}
		fmt.Fprintf(w, "%9s |%s\n", label, strings.TrimRight(string(line), " "))
	}
	fmt.Fprintf(w, "%9s +%s\n%9s  %-*g%g\n", "", strings.Repeat("-", chartWide), "", chartWide-len(fmt.Sprint(most)), least, most)
}

// place is where x stands between two values on a logarithmic scale of n places.
func place(x, low, high float64, n int) int {
	if high <= low {
		return 0
	}
	return min(n-1, max(0, int(math.Round(float64(n-1)*math.Log(x/low)/math.Log(high/low)))))
}
