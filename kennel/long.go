package kennel

import (
	"cmp"
	"slices"
)

// LongSeen is how much long hair an area was seen to have before it was pulled, beside what was expected of it.
type LongSeen string

// What may be seen of the long layer.
const (
	LongNone     LongSeen = "none"        // nothing is longer than the rest
	LongThin     LongSeen = "thin"        // about half of what was expected
	LongExpected LongSeen = "as expected" // about what was expected
	LongThick    LongSeen = "thick"       // about twice what was expected
)

// LongSeens lists what may be seen, from least to most.
func LongSeens() []LongSeen { return []LongSeen{LongNone, LongThin, LongExpected, LongThick} }

// Look is what was seen of the long layer of one area on one day, before anything of it was pulled that day.
type Look struct {
	Area  AreaName
	Long  LongSeen
	Share Share // of the area's hair that is long by what was seen, 0 to 1
}

// Thin is half, thick is twice: nobody sees it finer by eye. Common practice, no source.
const (
	thinPart  = 0.5
	thickPart = 2.0
)

// LongAfter is how many weeks after the pull the area's hair is of the long layer on a coat: half way through its hold, the age at which
// a coat that is rolled evenly gives it up.
func (a PatternArea) LongAfter(c Coat) float64 {
	weeks := a.Ready.Value + a.Hold.Value/2
	if c.Growth > 0 {
		weeks /= c.Growth
	}
	return weeks
}

// LongHair is the long layer of one area on a day as its layers have it, and what the rules let be pulled.
type LongHair struct {
	Share Share // of the area's hair that is long
	Week  Share // of the area's hair that becomes long in a week where it is rolled evenly
	Most  Share // largest share that may be pulled in the rest of the week
}

// LongHair is the long layer of an area of the dog on a day: the dog as it comes to the table. Work done in the week of the day counts
// against the most that may be pulled. Kept hair has no long layer.
func (k Kennel) LongHair(d Dog, p Pattern, a PatternArea, done []Work, on Date) LongHair {
	if a.Kept {
		return LongHair{}
	}
	layers := d.LayersOf(a)
	h := LongHair{Share: longShare(layers, a.longBy(d, on)), Week: Share(min(1, 1/a.LongAfter(d.Coat)))}
	dead := olderShare(layers, d.grownSince(float64(a.RuleFor(d.Coat.Growth).Dead), on))
	h.Most = min(1, k.mostLiving(d, p, a, on)+dead)
	h.Most = min(h.Most, d.leastNow(p, a, on))
	for _, w := range done {
		if w.Dog == d.Name && w.On >= on.Monday() && w.On <= on {
			for _, x := range w.Areas {
				if x.Area == a.Name {
					h.Most = max(0, h.Most-x.Share)
				}
			}
		}
	}
	return h
}

// longBy is the last day on which hair was pulled that is long on a day.
func (a PatternArea) longBy(d Dog, on Date) Date {
	return d.grownSince(a.LongAfter(d.Coat), on)
}

// olderShare is the share of hair that was pulled up to a day, or of which no pull is known.
func olderShare(layers []Layer, by Date) Share {
	older := Share(1)
	for _, l := range layers {
		if l.Pulled > by {
			older -= l.Share
		}
	}
	return max(0, older)
}

// longShare is that share where it is more than what rounding left.
func longShare(layers []Layer, by Date) Share {
	if s := olderShare(layers, by); s > leastLayer {
		return s
	}
	return 0
}

// Seen is the share of the area's hair that is long by what was seen. Where none was expected, thick is what becomes long in a week.
func (h LongHair) Seen(l LongSeen) Share {
	switch l {
	case LongNone:
		return 0
	case LongThin:
		return thinPart * cmp.Or(h.Share, h.Week)
	case LongThick:
		return min(1, max(thickPart*h.Share, h.Week))
	}
	return h.Share
}

// Take is the share to pull where so much was planned: none where nothing is long; half where it is thin; up to twice where it is
// thick, as far as hair is long and the rules allow.
func (h LongHair) Take(l LongSeen, planned Share) Share {
	switch l {
	case LongNone:
		return 0
	case LongThin:
		return thinPart * planned
	case LongThick:
		return max(planned, min(thickPart*planned, h.Seen(l), h.Most))
	}
	return planned
}

// seenOn are the layers as a look on a day corrects them: as much of the hair is long as was seen, by the least that makes it so. Long hair
// that was not seen is a day short of long, the youngest of it first; where more was seen, the hair next to it is long on the day.
func (a PatternArea) seenOn(layers []Layer, d Dog, on Date, long Share) []Layer {
	by := a.longBy(d, on)
	all := slices.Clone(layers)
	var sum Share
	for _, l := range layers {
		sum += l.Share
	}
	if sum < 1-leastLayer {
		all = append(all, Layer{Share: 1 - sum}) // no pull of it is known
	}
	slices.SortStableFunc(all, func(x, y Layer) int { return cmp.Compare(x.Pulled, y.Pulled) })
	var corrected []Layer
	put := func(share Share, pulled Date) {
		switch n := len(corrected); {
		case share <= leastLayer || pulled == 0: // of hair without a pull there is no line
		case n > 0 && corrected[n-1].Pulled == pulled:
			corrected[n-1].Share += share
		default:
			corrected = append(corrected, Layer{Share: share, Pulled: pulled})
		}
	}
	for _, l := range all {
		is := min(l.Share, max(0, long)) // the part of it that was seen to be long
		long -= is
		put(is, min(l.Pulled, by))
		put(l.Share-is, max(l.Pulled, by+1))
	}
	return corrected
}
