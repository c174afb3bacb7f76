package kennel

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Outline is what a handler wants of one area of one dog beside its readiness: "leave the base of the neck long".
type Outline struct {
	Area  AreaName
	Note  string      // in the handler's words; may be empty where Least is given
	Least Millimetres // hair that the outline may not be shorter than, 1 to 150; 0 = none
}

// OutlineShare is how much of an area's hair makes its outline: half stays at the least length or longer whatever is pulled. Common
// practice: from half of its hair on an area counts as a hole (see Rule).
const OutlineShare Share = 0.5

// OutlineOf is what is wanted of an area of the dog; false where nothing is.
func (d Dog) OutlineOf(a AreaName) (Outline, bool) {
	i := slices.IndexFunc(d.Outlines, func(o Outline) bool { return o.Area == a })
	if i < 0 {
		return Outline{}, false
	}
	return d.Outlines[i], true
}

// LeastWeeks is how many weeks an area's hair takes to its least length on the dog, rounded up; 0 where it has none. Growth in
// millimetres is derived from the pattern's show lengths (DerivedGrowth): the area's own, else the slowest of the pattern, else the low end of
// what breed lengths and trade calendars imply (G7; derived).
func (d Dog) LeastWeeks(p Pattern, a PatternArea) Weeks {
	o, ok := d.OutlineOf(a.Name)
	if !ok || o.Least <= 0 || a.Kept {
		return 0
	}
	growth := d.Coat.Growth
	if growth <= 0 {
		growth = 1
	}
	return Weeks(math.Ceil(float64(o.Least)/(p.millimetresADay(a)*DaysAWeek*growth) - tinyGrowth))
}

// slowestHair is the low end of growth in mm a day that breed lengths and trade calendars imply (G7; derived).
const slowestHair = 0.3

func (p Pattern) millimetresADay(a PatternArea) float64 {
	if f, ok := a.DerivedGrowth(); ok {
		return f.Value
	}
	slowest := math.Inf(1)
	for _, other := range p.Areas {
		if f, ok := other.DerivedGrowth(); ok && !other.Kept {
			slowest = min(slowest, f.Value)
		}
	}
	if math.IsInf(slowest, 1) {
		return slowestHair
	}
	return slowest
}

// LeastCaps are the largest shares of an area that may be pulled in the weeks from week 0 on, so that however often they are, OutlineShare of
// its hair stays at the least length: an even part of the rest each week, less where hair that was pulled before is still shorter. nil where
// the area has no least length.
func (d Dog) LeastCaps(p Pattern, a PatternArea, c Curve, weeks int) []float64 {
	least := d.LeastWeeks(p, a)
	if least == 0 {
		return nil
	}
	caps := make([]float64, weeks)
	even := float64(1-OutlineShare) / float64(least)
	for t := range caps {
		short := max(0, c.Pulled(0)-c.Pulled(t-c.lean.Back(t, least)))
		for u := max(0, t-c.lean.Back(t, least)+1); u < t; u++ {
			short += caps[u]
		}
		if left := min(even, float64(1-OutlineShare)-short); left >= leastCap {
			caps[t] = left
		}
	}
	return caps
}

// leastCap is a share so small that it is no work.
const leastCap = 1e-3

// leastNow is how much of an area may be pulled on a day by its least length; 1 where it has none.
func (d Dog) leastNow(p Pattern, a PatternArea, on Date) Share {
	least := d.LeastWeeks(p, a)
	if least == 0 {
		return 1
	}
	by := d.grownSince(float64(least), on)
	short := Share(0)
	for _, l := range d.LayersOf(a) {
		if l.Pulled > by {
			short += l.Share
		}
	}
	return max(0, 1-OutlineShare-short)
}

// SetOutline says what is wanted of an area, in place of what was. The areas stay in the order of the trade.
func (d *Dog) SetOutline(o Outline) {
	d.DropOutline(o.Area)
	d.Outlines = append(d.Outlines, o)
	order := AreaNames()
	slices.SortStableFunc(d.Outlines, func(a, b Outline) int { return slices.Index(order, a.Area) - slices.Index(order, b.Area) })
}

// DropOutline takes back what is wanted of an area, and reports whether there was something.
func (d *Dog) DropOutline(a AreaName) (dropped bool) {
	d.Outlines, dropped = without(d.Outlines, func(o Outline) bool { return o.Area == a })
	return dropped
}

// String is the outline as ParseOutline reads it: "loin 30mm: low in loin".
func (o Outline) String() string {
	words := string(o.Area)
	if o.Least > 0 {
		words += " " + Number(float64(o.Least)) + "mm"
	}
	if o.Note != "" {
		words += ": " + o.Note
	}
	return words
}

// ParseOutline reads an outline as it is said: neck: leave the base long; loin 30mm: low in loin; or back 35mm. The error is an
// *InputError.
func ParseOutline(said string, units Units) (Outline, error) {
	head, note, noted := strings.Cut(said, ":")
	o := Outline{Note: strings.TrimSpace(note)}
	words := strings.Fields(head)
	if n := len(words); n > 1 && strings.ContainsAny(words[n-1][:1], "0123456789.") {
		least, err := ParseLength(words[n-1], units)
		if err != nil {
			return Outline{}, err
		}
		o.Least, words = least, words[:n-1]
	}
	area, err := MatchArea(strings.Join(words, " "))
	switch {
	case len(words) == 0 || noted && o.Note == "" || !noted && o.Least == 0:
		return Outline{}, &InputError{
			Field: "outline", Value: said, What: "does not say an area and what is wanted of it", Try: "neck: leave the base long, or loin 30mm: low in loin",
		}
	case err != nil:
		return Outline{}, err
	}
	o.Area = area
	return o, nil
}

func (c *checker) outlines(at string, all []Outline, p Pattern, known bool) {
	seen := map[AreaName]bool{}
	for i, o := range all {
		field := fmt.Sprintf("%s.outline[%d]", at, i)
		a, has := p.Area(o.Area)
		switch {
		case !areaKnown(o.Area):
			c.add(field+".area", string(o.Area), "is not an area of the coat", "one of "+strings.Join(words(AreaNames()), ", "))
		case seen[o.Area]:
			c.add(field+".area", string(o.Area), "appears twice", "leave one of the two out")
		case known && !has:
			c.add(field+".area", string(o.Area), "is not an area of the pattern", "one of "+strings.Join(words(p.areaNames()), ", "))
		case o.Note == "" && o.Least == 0:
			c.add(field, "", "says neither note nor least", "note: leave the base long, or least: 30")
		case o.Least != 0 && !LeastBounds.Has(float64(o.Least)):
			c.within(field+".least", float64(o.Least), LeastBounds)
		case o.Least != 0 && known && a.Kept:
			c.add(field+".least", Number(float64(o.Least)), "is a least length of hair that is never pulled", "a note instead")
		}
		seen[o.Area] = true
	}
}
