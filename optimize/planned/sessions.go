package planned

import (
	"slices"

	"tuckup/kennel"
)

// SessionAt is when a session is: its day, start and hands where a timetable tells them, else the week's Monday.
type SessionAt struct {
	On    kennel.Date
	Start kennel.Clock
	Hands string // empty = only the week is known
}

// SessionIn is a session of the timetable with all its parts: breaks cut a session into several items.
type SessionIn struct {
	Dog   string
	At    SessionAt
	End   kennel.Clock
	SetUp kennel.Minutes
	Areas []AreaWork // each once, in working order

	Pinned bool
}

// Pulling is how long the session's pulling takes.
func (s SessionIn) Pulling() kennel.Minutes { return Pulling(s.Areas) }

// Minutes is how long the session takes with its set-up and without breaks.
func (s SessionIn) Minutes() kennel.Minutes { return s.SetUp + s.Pulling() }

// Sessions are the sessions of a day of the timetable, by hands and start.
func (d Day) Sessions() (all []SessionIn) {
	for _, h := range d.Hands {
		open := -1 // the session that the next item may go on with
		for n, item := range h.Items {
			switch {
			case item.Kind == ItemBreak:
				continue
			case item.Kind != ItemSession:
				open = -1
				continue
			case open >= 0 && h.GoesOn(n):
			default:
				all = append(all, SessionIn{
					Dog: item.Dog, At: SessionAt{On: d.On, Start: item.Start, Hands: h.Hands}, SetUp: item.SetUp, Pinned: item.Pinned,
				})
				open = len(all) - 1
			}
			all[open].End = item.End
			all[open].add(item.Areas)
		}
	}
	return all
}

// add puts areas to those of the session, each once.
func (s *SessionIn) add(areas []AreaWork) {
	for _, a := range areas {
		if i := slices.IndexFunc(s.Areas, func(b AreaWork) bool { return b.Area == a.Area }); i >= 0 {
			s.Areas[i].Share += a.Share
			s.Areas[i].Minutes += a.Minutes
			continue
		}
		s.Areas = append(s.Areas, a)
	}
}

// SessionAt finds the session of the dog in the timetable; false when there is none.
func (t Timetable) SessionAt(dog string, at SessionAt) (SessionIn, bool) {
	for _, d := range t.Days {
		if d.On != at.On {
			continue
		}
		for _, s := range d.Sessions() {
			if s.Dog == dog && s.At == at {
				return s, true
			}
		}
	}
	return SessionIn{}, false
}

// AgreedDays is how many days of a plan are agreed on: those in which a later plan keeps to them.
const AgreedDays = 14

// SessionsAhead are the sessions of the plan's coming days as they are agreed on, in the order of days, hands and start.
func (r Result) SessionsAhead() (all []kennel.Session) {
	for _, day := range r.Timetable.Days {
		if day.On >= r.On.AddDays(AgreedDays) {
			break
		}
		for _, x := range day.Sessions() {
			s := kennel.Session{
				Dog: x.Dog, On: day.On, Start: x.At.Start, Minutes: kennel.Minutes(x.End - x.At.Start), Hands: x.At.Hands, Pinned: x.Pinned,
			}
			for _, area := range x.Areas {
				s.Areas = append(s.Areas, kennel.Pulled{Area: area.Area, Share: area.Share})
			}
			all = append(all, s)
		}
	}
	return all
}
