package kennel

import "math"

// LivingMost is the largest share of living jacket hair that is pulled in a week within the weeks that hair takes to come in before a
// show: C8 (a rolled jacket: about 1/8 a week; seen), C23 (never stripped within its ready weeks; common practice).
const LivingMost Share = 1.0 / 8

// CountedOn is the chance from which a show counts: its travelling days are kept free of table work, the coat is kept for it, and a dog
// that will not be in coat for it is named. Common practice: better odds than not.
const CountedOn = 0.5

// RestDays is for how many days before a show nothing of the jacket is pulled. Common practice: what is fresh on the day shows.
const RestDays = 2

// Near reports whether a day of the week that ends on the Sunday is nearer to the show than the weeks.
func (s Show) Near(sunday Date, weeks int) bool { return int(s.On-sunday) < DaysAWeek*weeks }

// mostLiving is the largest share of an area's living hair to pull in the week of a day. Whether the dog can still be made ready for
// a show is not asked: so near to one a person takes no more on sight.
func (k Kennel) mostLiving(d Dog, p Pattern, a PatternArea, on Date) Share {
	most := Share(1)
	if d.Coat.RollOnly {
		most = Share(p.RollMost.Value)
	}
	sunday := on.Monday().AddDays(DaysAWeek - 1)
	for _, s := range k.Shows {
		if _, in := d.AtShow(s); in || !s.Has(d.Name) || on > s.Last() {
			continue
		}
		within := func(weeks float64) bool { return s.Near(sunday, int(math.Round(weeks))) }
		if within(a.FinishWeeks.Value) {
			most = min(most, Share(a.FinishShare.Value))
		}
		switch {
		case !a.Name.Jacket():
		case on >= s.On.AddDays(-RestDays):
			return 0
		case s.Chance >= CountedOn && within(a.ReadyOn(d.Coat)):
			most = min(most, LivingMost)
		}
	}
	return most
}
