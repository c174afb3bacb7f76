package check

import "tuckup/kennel"

// Baths that lift a coat, and the shows that keep them away.

// barsBath is the first of the shows that keep a bath of dog d away from the day, -1 where none does.
func (c *checker) barsBath(d int, day kennel.Date) (show int) {
	show = -1
	for i, s := range c.k.Shows {
		if c.wentTo(d, s) && s.Chance >= countedOn && s.On-noBathDays <= day && day < s.On+kennel.Date(max(s.Days, 1)) && (show < 0 || s.On < c.k.Shows[show].On) {
			show = i
		}
	}
	return show
}

// bathFor is the show for which a duty before another is done: that other, but for a bath where an earlier show bars all of its days.
func (c *checker) bathFor(d int, duty kennel.Duty, s kennel.Show) kennel.Show {
	if !duty.Lifts() {
		return s
	}
	of := s
	for day := s.On - max(kennel.Date(duty.Before.To), noBathDays+1); ; day = of.On - noBathDays - 1 {
		if day < s.On-kennel.Date(duty.Before.From) {
			return of
		}
		n := c.barsBath(d, day)
		if n < 0 {
			return s
		}
		of = c.k.Shows[n]
	}
}

// anyBarBath reports whether shows keep baths away from days of week t.
func (c *checker) anyBarBath(d, t int) bool {
	return c.barsBath(d, c.monday(t)) >= 0 || c.barsBath(d, c.monday(t+1)-1) >= 0
}
