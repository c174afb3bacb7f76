package kennel

// farDays is for how many days before and after a day it is looked at whether a dog is in hand.
const farDays = 2 * 366

// InHand reports whether the dog is in hand on the day, at the table or travelling.
func (d Dog) InHand(on Date) bool {
	for _, s := range d.Here {
		if s.Holds(on) {
			return true
		}
	}
	return len(d.Here) == 0
}

// AtHome are the days from a day on in which the dog is not in hand: the run that holds the day, or else the next. Without a From it
// went, and without a To it comes back, further off than two years, or never; false is a dog that is in hand all that time.
func (d Dog) AtHome(on Date) (days Span, is bool) {
	first := on
	for d.InHand(first) {
		if first++; first-on > farDays {
			return Span{}, false
		}
	}
	days.From = first
	for first == on && !d.InHand(days.From-1) {
		if days.From--; on-days.From > farDays {
			days.From = 0
			break
		}
	}
	for day := first; day-on <= farDays; day++ {
		if d.InHand(day) {
			days.To = day - 1
			break
		}
	}
	return days, true
}
