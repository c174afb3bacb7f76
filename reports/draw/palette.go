package draw

import "tuckup/kennel"

// Fill is a colour with the lines of a pattern on it.
type Fill struct {
	Colour string // sRGB, #rrggbb
	Line   string // colour of the pattern's lines
	Lines  string // path of the pattern in a square of Side; empty = plain
}

// Side is the side of the square that a pattern repeats.
func (Fill) Side() float64 { return 8 }

// The patterns. Each crosses the edge of its square so that it runs on in the next.
const (
	dots    = "M1.2 2h1.6M5.2 6h1.6"
	plain   = ""
	rising  = "M-1 1l2 -2M0 8L8 0M7 9l2 -2"
	crossed = "M0 8L8 0M0 0L8 8"
	falling = "M-1 7l2 2M0 0L8 8M7 -1l2 2"
	upright = "M4 0V8"
	level   = "M0 4H8"
	rungs   = "M0 2H8M0 6H4"
)

// stateFills are the fills of the coat's states: from light to dark they are coming in, going over, in coat, blown,
// far enough apart to be told by lightness alone.
var stateFills = map[kennel.State]Fill{
	kennel.StateComingIn:  {Colour: "#eff3d0", Line: "#7d8450", Lines: dots},
	kennel.StateInCoat:    {Colour: "#74bda3", Line: "#74bda3", Lines: plain},
	kennel.StateGoingOver: {Colour: "#f0c568", Line: "#a07a1c", Lines: rising},
	kennel.StateBlown:     {Colour: "#cc7a5c", Line: "#8c4429", Lines: crossed},
}

// notWorked fills an area that the dog's pattern does not have.
var notWorked = Fill{Colour: paper, Line: paper, Lines: plain}

// States lists the states in the order in which a coat left alone passes through them.
func States() []kennel.State {
	return []kennel.State{kennel.StateComingIn, kennel.StateInCoat, kennel.StateGoingOver, kennel.StateBlown}
}

// StateFill is the fill of a state; one that is not known is white.
func StateFill(s kennel.State) Fill {
	if f, ok := stateFills[s]; ok {
		return f
	}
	return notWorked
}

// Letter stands for a state where its words do not fit.
func Letter(s kennel.State) string {
	switch s {
	case kennel.StateComingIn:
		return "C"
	case kennel.StateInCoat:
		return "I"
	case kennel.StateGoingOver:
		return "O"
	case kennel.StateBlown:
		return "B"
	}
	return ""
}

// seriesFills tell the dogs of a stacked chart apart: neighbours differ in lightness, and fills of like lightness in
// pattern. The last is for all that have none of their own.
var seriesFills = []Fill{
	{Colour: "#2f6f73", Line: "#2f6f73", Lines: plain},
	{Colour: "#f2d492", Line: "#9a7320", Lines: rising},
	{Colour: "#8d9b3f", Line: "#8d9b3f", Lines: plain},
	{Colour: "#d9e8ee", Line: "#5f8796", Lines: dots},
	{Colour: "#4f2b21", Line: "#4f2b21", Lines: plain},
	{Colour: "#e9b7a4", Line: "#96543c", Lines: level},
	{Colour: "#6a6f94", Line: "#dadcec", Lines: upright},
	{Colour: "#cdbfdb", Line: "#6d5384", Lines: falling},
	{Colour: "#5b6f86", Line: "#d5dde6", Lines: rungs},
	{Colour: "#ffffff", Line: "#4d5651", Lines: crossed},
}
