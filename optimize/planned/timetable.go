package planned

import (
	"slices"

	"tuckup/kennel"
)

// Timetable is the work of the next days, by day and pair of hands.
type Timetable struct {
	Days    []Day     // every day from today on, also those without work
	LeftOut []LeftOut // what the season would have in these days and the days can't hold; the weeks don't have it
	Lost    float64   // points of the season that it would have brought
	Worth   Worth
}

// Missed are those of LeftOut that are more than a crumb.
func (t Timetable) Missed() []LeftOut {
	return slices.DeleteFunc(slices.Clone(t.LeftOut), func(l LeftOut) bool { return l.Crumb })
}

// Worth is how good a timetable is and how good any timetable could be, in the points of optimize/week.
type Worth struct {
	Objective, Bound, Gap float64 // Gap = (Bound-Objective) / max(1, |Bound|); 0 = proven best
}

// Day is one day of a timetable.
type Day struct {
	On    kennel.Date
	Hands []HandsDay // those who work, in the kennel's order
}

// HandsDay is one pair of hands on one day.
type HandsDay struct {
	Hands string
	Hours kennel.Hours // there are
	Items []Item       // in order of their start; they never overlap
}

// Item is one stretch of a day: 5-minute breaks and up, work with set-up.
type Item struct {
	Start, End kennel.Clock
	Kind       ItemKind
	Dog        string         // empty for breaks and travel
	What       string         // the duty's name, the show travelled to; empty otherwise
	Areas      []AreaWork     // of a session, in working order
	SetUp      kennel.Minutes // of a session: part of Start..End
	Lift, Tool string         // of a session, in words
	Pinned     bool
	Why        string // in a few words: "Brackenmere in 11 weeks"
}

// ItemKind is what a stretch of a day is.
type ItemKind string

// The kinds of items.
const (
	ItemSession ItemKind = "session"
	ItemDuty    ItemKind = "duty"
	ItemBath    ItemKind = "bath" // a lifting bath
	ItemBreak   ItemKind = "break"
	ItemTravel  ItemKind = "travel"
)

// LeftOut is work of the season's week that the days could not hold.
type LeftOut struct {
	Week    kennel.Date // its Monday
	Dog     string
	Area    kennel.AreaName // empty for a duty
	Duty    string
	Share   kennel.Share
	Minutes kennel.Minutes // of the area
	Crumb   bool           // too little to be said
	Points  float64        // what it was worth
	Why     string
}

// GoesOn reports whether the day's n-th item is the rest of a session that a break has cut in two. Any n will do.
func (h HandsDay) GoesOn(n int) bool {
	return n >= 2 && n < len(h.Items) && h.Items[n].Kind == ItemSession && h.Items[n].SetUp == 0 && h.Items[n-1].Kind == ItemBreak &&
		h.Items[n-2].Kind == ItemSession && h.Items[n-2].Dog == h.Items[n].Dog
}

// Whole are the day's items without its breaks, and with sessions that breaks cut into parts put together again.
func (h HandsDay) Whole() []Item {
	var whole []Item
	for n, i := range h.Shown() {
		switch {
		case i.Kind == ItemBreak:
		case h.GoesOn(n):
			last := &whole[len(whole)-1]
			last.End, last.Areas = i.End, slices.Concat(last.Areas, i.Areas)
		default:
			whole = append(whole, i)
		}
	}
	return whole
}

// Shown are the day's items as people read them: an area that a break cuts is one line, where it is begun. Items are as many as the
// day's and stand in the same places.
func (h HandsDay) Shown() []Item {
	shown := slices.Clone(h.Items)
	begun := 0 // the item that begins the session
	for n := range shown {
		if shown[n].Kind != ItemSession {
			continue
		}
		if !h.GoesOn(n) {
			begun = n
			continue
		}
		var own []AreaWork
		for _, a := range shown[n].Areas {
			if !addTo(shown[begun:n], a) {
				own = append(own, a)
			}
		}
		shown[n].Areas = own
	}
	return shown
}

// addTo adds an area's work to the item that has begun it; false where none has.
func addTo(items []Item, a AreaWork) bool {
	for n := range items {
		i := slices.IndexFunc(items[n].Areas, func(b AreaWork) bool { return b.Area == a.Area })
		if items[n].Kind == ItemSession && i >= 0 {
			items[n].Areas = slices.Clone(items[n].Areas)
			items[n].Areas[i].Share += a.Share
			items[n].Areas[i].Minutes += a.Minutes
			return true
		}
	}
	return false
}
