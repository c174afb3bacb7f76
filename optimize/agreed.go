package optimize

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// A plan that is remade keeps to the work of the next weeks in the plan that it begins with, unless leaving it pays: people have
// it on the wall.

// agreedWeeks are the weeks, with the one under way, whose sessions and shares stay.
const agreedWeeks = 4

// movedWorth is what a whole dog moved by a week costs, of what a session more or fewer does.
const movedWorth = 8

// keepAgreed charges dog d for leaving the work that was agreed on.
func (l *layout) keepAgreed(d int, dog *season.Dog) {
	name := l.k.Dogs[d].Name
	for _, a := range l.agreed {
		if a.Dog != name {
			continue
		}
		if t := kennel.WeekOf(a.Week, l.diary.Week0); t >= len(dog.Kept) {
			dog.Kept = append(dog.Kept, a.Sessions)
		}
		for i := range dog.Areas {
			area := &dog.Areas[i]
			share := 0.0
			for _, x := range a.Areas {
				if string(x.Area) == area.Name {
					share += float64(x.Share)
				}
			}
			if n := len(area.Agreed); n > 0 {
				share += area.Agreed[n-1]
			}
			area.Agreed = append(area.Agreed, share)
			area.Moved = movedWorth * l.opt.Stay * area.Weight
		}
	}
	for i := range dog.Areas {
		if area := &dog.Areas[i]; area.Moved == 0 || slices.Max(append(slices.Clone(area.Most), 0)) == 0 { // kept hair is never pulled
			area.Agreed, area.Moved = nil, 0
		}
	}
}
