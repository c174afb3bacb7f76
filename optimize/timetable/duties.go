package timetable

import (
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
		switch c := hours.DutyClass(duty); c {
		case hours.ClassCare:
			d.Needs = week.SkillCare
		case hours.ClassTrim:
			d.Needs = week.Kind(int(hours.ClassClose))
		}
		for n := range d.Days {
			d.Days[n] = k.day(n) >= max(placed.From, k.l.Diary.On) && k.day(n) <= placed.To
		}
		if duty.Before != nil {
			d.Value = showDutyWorth
		}
		k.p.Duties = append(k.p.Duties, d)
		k.duties = append(k.duties, dutyWork{dog: placed.Dog, name: duty.Name, minutes: duty.Minutes, why: placed.Words(k.l.Kennel.Shows, func(s kennel.Show) string { return shortShow(k.l.Kennel, s) }), shows: placed.Shows})
	}
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
