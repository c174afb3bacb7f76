package timetable

import (
	"cmp"
	"math"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// clock is a time in minutes after midnight, to the minute.
func clock(minutes float64) kennel.Clock { return kennel.Clock(math.Round(minutes)) }

// midnight is the end of a day.
const midnight = kennel.Clock(hoursADay * minutesAnHour)

// keepMinutes gives what takes less than a minute of a day a whole one: from the break before it, else what comes after it
// begins later, and where that would run past midnight all begins earlier. Nobody, and no dog, is in two places then.
func keepMinutes(hands []planned.HandsDay) {
	var all []placed
	for h := range hands {
		for i := range hands[h].Items {
			it := &hands[h].Items[i]
			if it.Start >= it.End && i > 0 && hands[h].Items[i-1].Kind == planned.ItemBreak {
				it.Start = it.End - 1
				hands[h].Items[i-1].End = min(hands[h].Items[i-1].End, it.Start)
			}
			if it.Kind != planned.ItemTravel {
				all = append(all, placed{it, hands[h].Hands})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b placed) int { return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.End, b.End)) })
	free := map[string]kennel.Clock{} // from when hands and dogs have nothing to do
	for _, x := range all {
		x.begin(max(x.Start, free["hands "+x.hands], free["dog "+x.Dog]))
		free["hands "+x.hands] = x.End
		if x.Dog != "" {
			free["dog "+x.Dog] = x.End
		}
	}
	busy := map[string]kennel.Clock{} // minutes before midnight from which hands and dogs have something to do
	for _, x := range slices.Backward(all) {
		x.end(midnight - max(busy["hands "+x.hands], busy["dog "+x.Dog]))
		busy["hands "+x.hands] = midnight - x.Start
		if x.Dog != "" {
			busy["dog "+x.Dog] = midnight - x.Start
		}
	}
}

// placed is a stretch of a day with the hands that it is for.
type placed struct {
	*planned.Item
	hands string
}

// takes is how long the stretch takes at least; a break gives its time to others.
func (x placed) takes() kennel.Clock {
	if x.Kind == planned.ItemBreak {
		return 1
	}
	return max(1, x.End-x.Start)
}

// begin moves the start to a time that is not before it.
func (x placed) begin(at kennel.Clock) {
	takes := x.takes()
	x.Start, x.End = at, max(x.End, at+takes)
}

// end moves the end to a time where it would be after it.
func (x placed) end(at kennel.Clock) {
	if takes := x.takes(); x.End > at {
		x.Start, x.End = min(x.Start, at-takes), at
	}
}
