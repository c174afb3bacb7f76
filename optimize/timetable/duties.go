package timetable

import (
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// addDuties lists the week's duties, each on the days on which it may be done.
func (k *weekWork) addDuties() {
	for _, placed := range k.l.Duties {
		dog := k.l.Kennel.Dogs[placed.Dog]
		duty := dog.Duties[placed.Duty]
		if placed.Week != k.t {
			continue
		}
		d := week.Duty{Dog: placed.Dog, Minutes: hours.OnClock(duty.Minutes), Value: regularDutyWorth, Days: make([]bool, kennel.DaysAWeek)}
		if hours.DutyClass(duty) == hours.ClassCare {
			d.Needs = week.SkillCare
		}
		for n := range d.Days {
			d.Days[n] = k.day(n) >= k.l.Diary.On
			if duty.Before != nil {
				d.Days[n] = d.Days[n] && k.l.inWindow(placed.Dog, duty, k.day(n))
				d.Value = showDutyWorth
			}
		}
		k.p.Duties = append(k.p.Duties, d)
		k.duties = append(k.duties, dutyWork{dog: placed.Dog, name: duty.Name, minutes: duty.Minutes, why: k.l.dutyWhy(placed)})
	}
}

// inWindow reports whether the day is one for a duty before some show of the dog.
func (l *Season) inWindow(d int, duty kennel.Duty, day kennel.Date) bool {
	return slices.ContainsFunc(l.Kennel.Shows, func(s kennel.Show) bool {
		return s.Has(l.Kennel.Dogs[d].Name) && day >= s.On.AddDays(-duty.Before.From) && day <= s.On.AddDays(-duty.Before.To)
	})
}

// dutyWhy says in a few words what a duty is for.
func (l *Season) dutyWhy(p hours.Duty) string {
	for _, s := range l.Kennel.Shows {
		if p.Why == "for "+s.Name {
			return "for " + shortShow(l.Kennel, s)
		}
	}
	return p.Why
}

// addBaths asks for a lifting bath before the first session of a dog that is worth one.
func (k *weekWork) addBaths(bathed []bool) {
	asked := make([]bool, len(k.l.Kennel.Dogs))
	for i, s := range k.sessions {
		if asked[s.dog] || bathed[s.dog] || !jacket(s.areas) {
			continue
		}
		worth := k.l.bathWorth(s.dog, k.t, planned.Pulling(s.areas))
		if worth == "" || k.l.Options.BathTime <= 0 {
			continue
		}
		asked[s.dog] = true
		k.p.Duties = append(k.p.Duties, week.Duty{
			Dog: k.p.Sessions[i].Dog, Minutes: hours.OnClock(k.l.Options.BathTime), Value: bathWorth, Lifts: true, Days: k.l.bathDays(s.dog, k.t),
		})
		k.duties = append(k.duties, dutyWork{dog: s.dog, name: liftingBath, minutes: k.l.Options.BathTime, bath: worth})
	}
}
