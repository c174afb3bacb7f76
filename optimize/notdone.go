package optimize

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
)

// sayNotDone says beside each show which of the dog's duties before it find no time: no week has any, or the days of its week don't.
func (l *layout) sayNotDone(all []shown, table planned.Timetable) {
	not := slices.Clone(l.notDone)
	for _, d := range l.duties {
		if len(d.Shows) > 0 && slices.ContainsFunc(table.LeftOut, func(x planned.LeftOut) bool { return l.leftOut(d, x) }) {
			for _, s := range d.Shows {
				not = append(not, hours.NotDone{Dog: d.Dog, Duty: d.Duty, Show: s})
			}
		}
	}
	for i := range all {
		x := &all[i]
		for n, duty := range l.k.Dogs[x.dog].Duties {
			if slices.ContainsFunc(not, func(m hours.NotDone) bool {
				return m.Dog == x.dog && m.Duty == n && l.k.Shows[m.Show].Name == x.Show && l.k.Shows[m.Show].On == x.On
			}) {
				x.NotDone = append(x.NotDone, duty.Name)
			}
		}
	}
}

// leftOut reports whether the days leave the duty out.
func (l *layout) leftOut(d hours.Duty, x planned.LeftOut) bool {
	dog := l.k.Dogs[d.Dog]
	return x.Dog == dog.Name && x.Duty == dog.Duties[d.Duty].Name && kennel.WeekOf(x.Week, l.diary.Week0) == d.Week
}
