package optimize

import "tuckup/kennel"

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
