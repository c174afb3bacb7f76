package desk

import (
	"math"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	plans "tuckup/optimize/planned"
)

// What one tap says of an area on Today: that less of it was done than planned, or that it was left. Nothing said is done as
// planned.
const (
	didLess = "less"
	didLeft = "left"
)

// lessPart is how much of what was planned was done where somebody taps less: half of it, as the share beside the word says.
const lessPart = 0.5

// doTick writes a session down as planned, but for what was tapped; doStop and the name of an area write it down up to and with that
// area.
const (
	doTick = "tick"
	doStop = "stop "
)

// taps is what was tapped on the card of a session.
type taps struct {
	on      bool            // the form is that of a card
	after   kennel.AreaName // it was stopped after this area; empty = it was not stopped
	planned []optimize.AreaWork
}

// tapped reads what was tapped.
func (f *form) tapped(planned []optimize.AreaWork) taps {
	do := f.get("do")
	after, stopped := strings.CutPrefix(do, doStop)
	t := taps{on: do == doTick || stopped, planned: planned}
	if stopped {
		t.after = kennel.AreaName(after)
		if t.place(t.after) < 0 {
			f.wrong("", "The "+after+" is not planned for this session.")
		}
	}
	return t
}

// place is where an area is in the working order; -1 when it is not planned.
func (t taps) place(a kennel.AreaName) int {
	return slices.IndexFunc(t.planned, func(p optimize.AreaWork) bool { return p.Area == a })
}

// share is how much of an area was pulled: what stood beside what was tapped.
func (t taps) share(f *form, a kennel.AreaName, long kennel.LongSeen, h kennel.LongHair, share kennel.Share) kennel.Share {
	if !t.on {
		return share
	}
	past := t.after != "" && (t.place(a) < 0 || t.place(a) > t.place(t.after))
	did := f.get("did." + string(a))
	switch {
	case past || did == didLeft:
		return 0
	case did == didLess:
		return lessPart * plans.ShareOf(t.planned, a)
	case did != "":
		f.wrong("", "What was done of the "+string(a)+" is neither less nor left.")
	case long != "":
		return h.Take(long, share)
	}
	return share
}

// minutes are how long a session took of which nobody said so: what was planned, less the time of what was not pulled. At least 1.
func (t taps) minutes(total kennel.Minutes, pulled []kennel.Pulled) kennel.Minutes {
	for _, p := range t.planned {
		done := kennel.Share(0)
		for _, x := range pulled {
			if x.Area == p.Area {
				done = x.Share
			}
		}
		if p.Share > 0 {
			total -= p.Minutes * kennel.Minutes(1-done/p.Share)
		}
	}
	return max(1, kennel.Minutes(math.Round(float64(total))))
}
