// Package lived lives seasons: every day what was planned is done or missed, hair grows as fast as it truly does, and the shows
// are judged. It is what plans are measured by, so it knows the coat by numbers and its own bookkeeping alone and shares no code
// with what makes plans.
package lived

const daysAWeek = 7

// Area is one area of a dog in numbers, as its pattern has it.
type Area struct {
	Name    string
	Weight  float64 // part of the dog's readiness
	Ready   float64 // weeks from the pull until the hair shows
	Hold    float64 // weeks that it then stays right
	Grip    float64 // weeks below which hair can't be gripped
	Minutes float64 // of the whole area when all of its hair is dead
	Kept    bool    // never pulled and always right
	Jacket  bool    // part of the body coat
}

// Tuft is hair of one age on an area.
type Tuft struct {
	Share  float64 // of the area's hair
	Pulled int     // the day on which it was last pulled; 0 is the first day of the season, days before it are negative
}

// Coat is the hair of one area, oldest first; the shares sum to 1.
type Coat []Tuft

// How ready an area is, of a body coat with ready 11 and hold 7 weeks: hair younger than 8 and than 11 weeks, and hair not younger
// than 18, 21 and 25, is charged for beyond an allowance. The weeks grow with ready and hold and are divided by growth.
const (
	holePart, holeAllow, holeSlope    = 8.0 / 11, 0.50, 0.8
	shortAllow, shortSlope            = 0.60, 1.5
	longAllow, longSlope              = 0.10, 0.5
	blownPart, blownAllow, blownSlope = 10.0 / 7, 0.20, 0.75
	deadPart, deadAllow, deadSlope    = 2.0, 0.03, 1.5
)

// aboveWorst is how far a dog may be ahead of its worst area at a show, in points.
const aboveWorst = 30

// younger is the share of the coat that was pulled less than so many weeks before the end of the day.
func (c Coat) younger(day int, weeks float64) (sum float64) {
	for _, t := range c {
		if float64(day-t.Pulled) < daysAWeek*weeks {
			sum += t.Share
		}
	}
	return min(1, sum)
}

// score is how ready the area is at the end of a day, 0 to 100, on a dog with the growth.
func (a *Area) score(c Coat, day int, growth float64) float64 {
	if a.Kept {
		return 100
	}
	charge := 0.0
	young := func(weeks, allow, slope float64) { charge += slope * max(0, c.younger(day, weeks/growth)-allow) }
	old := func(weeks, allow, slope float64) { charge += slope * max(0, 1-c.younger(day, weeks/growth)-allow) }
	young(holePart*a.Ready, holeAllow, holeSlope)
	young(a.Ready, shortAllow, shortSlope)
	old(a.Ready+a.Hold, longAllow, longSlope)
	old(a.Ready+blownPart*a.Hold, blownAllow, blownSlope)
	old(a.deadWeeks(), deadAllow, deadSlope)
	return 100 * max(0, 1-charge)
}

// deadWeeks is the age from which the area's hair is dead on a dog of usual growth.
func (a *Area) deadWeeks() float64 { return a.Ready + deadPart*a.Hold }

// pull takes up to a share of the coat in at most so many minutes, oldest hair first: dead hair comes off at once, living hair is picked
// and takes pick times as long. Hair that is too short to grip stays, and so does what lies under it. It returns the coat as it is then, what was
// pulled, and the minutes that it took.
func (a *Area) pull(c Coat, day int, growth, share, minutes, pick float64) (after Coat, pulled, took float64) {
	left := 0
	for left < len(c) {
		t := c[left]
		age := float64(day-t.Pulled) / daysAWeek * growth
		cost := a.Minutes
		if age < a.deadWeeks() {
			cost *= pick
		}
		take := min(t.Share, share-pulled)
		if cost > 0 {
			take = min(take, (minutes-took)/cost)
		}
		if age < a.Grip || take <= leastTuft {
			break
		}
		pulled, took = pulled+take, took+take*cost
		if rest := t.Share - take; rest > leastTuft {
			after = append(after, Tuft{rest, t.Pulled})
			left++
			break
		}
		left++
	}
	after = append(after, c[left:]...)
	if pulled > 0 {
		after = append(after, Tuft{pulled, day})
	}
	return after, pulled, took
}

// leastTuft is the share below which hair is arithmetic's.
const leastTuft = 1e-9

// Dead is the share of the coat that is dead at the end of the day on a dog with the growth.
func (a *Area) Dead(c Coat, day int, growth float64) float64 {
	return 1 - c.younger(day, a.deadWeeks()/growth)
}
