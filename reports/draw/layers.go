package draw

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Layers is a histogram of the ages of one area's hair.
type Layers struct {
	ID, Title, Desc string
	Shares          []float64 // of the hairs: Shares[a] is a weeks old; 0 to 1
	Older           float64   // older than all of these
	Ready, Over     int       // weeks from which hair shows, and from which it is too long
}

const (
	layersWidth  = 200.0
	layersHeight = 96.0
	layersFoot   = 76.0
	layersTop    = 18.0
	layersSide   = 4.0
)

type layersPicture struct {
	frame
	Bars        []barShape
	Ready, Over float64
	Top, Foot   float64
	Left, Right float64
	Ticks       []tickShape
	ReadyLabel  tickShape
	OverLabel   tickShape
}

// SVG draws the histogram: the younger hair to the left.
func (l Layers) SVG() (template.HTML, error) {
	p := layersPicture{
		frame: newFrame(l.ID, l.Title, l.Desc, layersHeight), Top: layersTop, Foot: layersFoot, Left: layersSide, Right: layersWidth - layersSide,
	}
	p.Width = layersWidth
	columns := len(l.Shares) + 1
	step := (layersWidth - 2*layersSide) / float64(columns)
	most := l.Older
	for _, s := range l.Shares {
		most = max(most, s)
	}
	bar := func(a int, share float64, name string) {
		if share <= 0 || most <= 0 {
			return
		}
		s := kennel.StateInCoat
		switch {
		case a < l.Ready:
			s = kennel.StateComingIn
		case a >= l.Over:
			s = kennel.StateGoingOver
		}
		h := (layersFoot - layersTop) * share / most
		p.Bars = append(p.Bars, barShape{
			X: layersSide + step*float64(a), Y: layersFoot - h, Width: step * 0.9, Height: h,
			Fill: p.use("c"+Letter(s), StateFill(s)), Title: fmt.Sprintf("%s: %.0f %%", name, math.Round(100*share)),
		})
	}
	for a, s := range l.Shares {
		bar(a, s, weeksOld(a))
	}
	bar(len(l.Shares), l.Older, strconv.Itoa(len(l.Shares))+" weeks old and more")
	at := func(a int) float64 { return layersSide + step*float64(min(a, columns)) }
	p.Ready, p.Over = at(l.Ready), at(l.Over)
	label := "shows at " + strconv.Itoa(l.Ready) + " weeks"
	half := widthOf(label, small) / 2
	p.ReadyLabel = tickShape{X: min(max(p.Ready, half+layersSide), layersWidth-half-layersSide), Y: layersTop - 5, Text: label}
	for _, a := range []int{l.Ready, l.Over} {
		p.Ticks = append(p.Ticks, tickShape{X: at(a), Y: layersFoot + 14, Text: strconv.Itoa(a)})
	}
	return picture("layers", p)
}

func weeksOld(a int) string {
	switch a {
	case 0:
		return "pulled within a week"
	case 1:
		return "1 week old"
	}
	return strconv.Itoa(a) + " weeks old"
}

// LayersWords says a histogram in a sentence.
func LayersWords(l Layers) string {
	var young, right, over float64
	for a, s := range l.Shares {
		switch {
		case a < l.Ready:
			young += s
		case a < l.Over:
			right += s
		default:
			over += s
		}
	}
	over += l.Older
	var parts []string
	for _, p := range []struct {
		share float64
		words string
	}{
		{young, fmt.Sprintf("under %d weeks, not yet long enough to show", l.Ready)},
		{right, "long enough to show"},
		{over, fmt.Sprintf("%d weeks and more, too long", l.Over)},
	} {
		if p.share > 0 {
			parts = append(parts, fmt.Sprintf("%.0f %% is %s", math.Round(100*p.share), p.words))
		}
	}
	return strings.Join(parts, "; ") + "."
}
