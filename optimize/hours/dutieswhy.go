package hours

import (
	"fmt"
	"math"

	"tuckup/kennel"
)

// whyNot says why a duty found no day from one to another, both included.
func (p *dutyPlacer) whyNot(dog, duty int, from, to kennel.Date) string {
	if why := p.noDay(dog, duty, from, to); why != "" {
		return why
	}
	return "other duties take the hours for it"
}

// noDay says why no day from one to another, both included, could hold the duty if it were the only one: it is done in one go,
// by one pair of hands. It is empty when some day could.
func (p *dutyPlacer) noDay(dog, duty int, from, to kennel.Date) string {
	able, longest := false, kennel.Minutes(0)
	for h := range p.k.Hands {
		if !p.dutyHands(h, p.k.Dogs[dog].Duties[duty]) {
			continue
		}
		able = true
		for n := max(0, int(from-p.diary.Week0)); n < p.diary.Days() && p.diary.Date(n) <= to; n++ {
			if p.diary.Table[dog][n] {
				longest = max(longest, p.diary.Free(h, n))
			}
		}
	}
	takes := OnClock(p.k.Dogs[dog].Duties[duty].Minutes)
	switch {
	case float64(longest) >= takes-tinyMinutes:
		return ""
	case !able:
		return "no hands may do it"
	case longest == 0:
		return fmt.Sprintf("no day has %s and hands for it together", p.k.Dogs[dog].Name)
	}
	return fmt.Sprintf("it takes %.0f min at a time, and no day has more than %.4g min for it", takes, float64(longest))
}

// OnClock is how long a duty takes on the days, where nothing takes less than a minute and every minute is a whole one.
func OnClock(minutes kennel.Minutes) float64 { return math.Ceil(float64(minutes) - tinyMinutes) }

// tinyMinutes is arithmetic's part of a minute.
const tinyMinutes = 1e-6
