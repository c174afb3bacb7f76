package draw

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"tuckup/kennel"
)

// Hair is a bit of coat as it looks when the hair is lifted against the light: a line of skin, and the hair on it by the
// state of the coat.
type Hair struct {
	ID, Title, Desc string
	State           kennel.State
}

const (
	hairWidth, hairHeight = 120.0, 52.0
	hairSkin              = 42.0 // how far down the skin is
	hairStep              = 5.0  // from one hair to the next
	hairSide              = 12.0
)

// growth is how the hair of a state is drawn.
type growth struct {
	long, lean, bend float64 // along the skin and up, and how far the tip bends down again, in the picture's units
	each             int     // one hair in how many is left out; 0 = none
}

var growths = map[kennel.State]growth{
	kennel.StateComingIn:  {long: 7, lean: 0.5},
	kennel.StateInCoat:    {long: 15, lean: 1.1},
	kennel.StateGoingOver: {long: 24, lean: 0.9, bend: 7},
	kennel.StateBlown:     {long: 33, lean: 0.6, bend: 15, each: 3},
}

type hairPicture struct {
	frame
	Skin, Left, Right float64
	Hairs             string
	Fill              string
}

// SVG draws the hair.
func (h Hair) SVG() (template.HTML, error) {
	p := hairPicture{frame: newFrame(h.ID, h.Title, h.Desc, hairHeight), Skin: hairSkin, Left: 2, Right: hairWidth - 2}
	p.Width = hairWidth
	p.Fill = p.use("c"+Letter(h.State), StateFill(h.State))
	g := growths[h.State]
	var b strings.Builder
	for i, x := 0, hairSide; x < hairWidth-hairSide; i, x = i+1, x+hairStep {
		if g.each > 0 && i%g.each == g.each-1 {
			continue
		}
		// Hairs of one pull differ a little; a blown coat stands off every way.
		sway := math.Sin(float64(7*i)) * g.long / 12
		if g.bend > 2*hairStep {
			sway *= 3
		}
		dx, dy := g.lean*g.long+sway, g.long
		fmt.Fprintf(&b, "M%s %sq%s %s %s %s", coordinate(x-dx/3), coordinate(hairSkin),
			coordinate(dx/3), coordinate(-dy), coordinate(dx), coordinate(g.bend-dy))
	}
	p.Hairs = b.String()
	return picture("hair", p)
}
