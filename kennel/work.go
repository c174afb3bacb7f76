package kennel

import "slices"

// Work is one stretch of work that was done on one dog.
type Work struct {
	Dog     string
	On      Date
	Hands   string   // who worked; empty = not told
	Minutes Minutes  // with set-up, as the handler's clock showed; > 0
	Areas   []Pulled // what was pulled; empty for a duty
	Looks   []Look   // how the long layers were seen before it, each area once; empty for a duty
	Duty    string   // the duty's name; empty for a session of pulling
	Stopped bool     // stopped early: less was done than was planned
	Note    string   // the handler's own, private
}

// Same reports whether the other is the same work, to every word.
func (w Work) Same(o Work) bool {
	return slices.Equal(w.Areas, o.Areas) && slices.Equal(w.Looks, o.Looks) && w.Dog == o.Dog && w.On == o.On && w.Hands == o.Hands && w.Minutes == o.Minutes &&
		w.Duty == o.Duty && w.Stopped == o.Stopped && w.Note == o.Note
}

// Measure is a length of hair that was taken with a rule.
type Measure struct {
	Dog    string
	On     Date
	Area   AreaName
	Length Millimetres // of the longest layer's hairs
	Note   string
}

// Showable says that hair pulled on one day was first long enough to show on another.
type Showable struct {
	Dog    string
	Area   AreaName
	Pulled Date // when that hair was pulled
	On     Date // when it was first fit to be shown
}
