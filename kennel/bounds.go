package kennel

import "fmt"

// Bounds is a range that a number has to be in.
type Bounds struct {
	Least, Most float64
	Above       bool   // Least is not in the range itself; Most is then left unsaid where it is no real limit
	Unit        string // what is counted, like minutes
	Note        string // what else to say, like "1 is usual"
}

// noLimit is the most that a number without a real limit may be.
const noLimit = 1e6

// Has reports whether the number is in the range; NaN never is.
func (b Bounds) Has(v float64) bool { return v >= b.Least && v <= b.Most && !(b.Above && v == b.Least) }

// span are the ends of the range, with the words before the lower end and, where that is not in the range, the upper one.
func (b Bounds) span(from, most string) string {
	switch {
	case !b.Above:
		return fmt.Sprintf("%s%g to %g", from, b.Least, b.Most)
	case b.Most >= noLimit:
		return fmt.Sprintf("above %g", b.Least)
	default:
		return fmt.Sprintf("above %g, %s %g", b.Least, most, b.Most)
	}
}

// Words are the range in short, like "0 to 60 minutes" or "above 0, to 1".
func (b Bounds) Words() string {
	words := b.span("", "to")
	if b.Unit != "" {
		words += " " + b.Unit
	}
	return words
}

// try says what to give, like "a number from 0 to 60 (minutes)".
func (b Bounds) try() string {
	words := "a number " + b.span("from ", "at most")
	if b.Unit != "" {
		words += " (" + b.Unit + ")"
	}
	if b.Note != "" {
		words += "; " + b.Note
	}
	return words
}

// The bounds of a dog's factors: no coat of the trade is known to be further from its pattern. Common practice.
const (
	LeastGrowth = 0.5
	MostGrowth  = 2.0
	LeastPace   = 0.25
	MostPace    = 4.0
)

const usualIsOne = "1 is usual"

// The ranges of what people give. Those of a dog's table are common practice, without a source.
var (
	SeasonBounds   = Bounds{Least: 4, Most: 104, Unit: "weeks"}
	HoursBounds    = Bounds{Least: 0, Most: 24, Unit: "hours"}
	GrowthBounds   = Bounds{Least: LeastGrowth, Most: MostGrowth, Note: usualIsOne}
	PaceBounds     = Bounds{Least: LeastPace, Most: MostPace, Note: usualIsOne}
	WeightBounds   = Bounds{Above: true, Most: noLimit, Note: usualIsOne}
	SetUpBounds    = Bounds{Least: 0, Most: 60, Unit: "minutes"}
	SessionBounds  = Bounds{Least: 10, Most: 300, Unit: "minutes"}
	AWeekBounds    = Bounds{Least: 0, Most: 7, Unit: "sessions"}
	ShareBounds    = Bounds{Above: true, Most: 1}
	DutyBounds     = Bounds{Above: true, Most: 480, Unit: "minutes"}
	EveryBounds    = Bounds{Least: 1, Most: 52, Unit: "weeks"}
	BeforeBounds   = Bounds{Least: 0, Most: 365, Unit: "days"}
	ShowDaysBounds = Bounds{Least: 1, Most: 14, Unit: "days"}
	SpellBounds    = Bounds{Least: 0.1, Most: 1.5, Note: "1 = as ever"}
	LeastBounds    = Bounds{Least: 1, Most: 150, Unit: "mm"}
	ChanceBounds   = Bounds{Above: true, Most: 1, Note: "1 = entered"}
)
