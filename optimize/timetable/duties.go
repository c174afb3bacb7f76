package timetable

import (
	"strings"

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
			d.Days[n] = k.day(n) >= max(placed.From, k.l.Diary.On) && k.day(n) <= placed.To
		}
		if duty.Before != nil {
			d.Value = showDutyWorth
		}
		k.p.Duties = append(k.p.Duties, d)
		k.duties = append(k.duties, dutyWork{dog: placed.Dog, name: duty.Name, minutes: duty.Minutes, why: k.l.dutyWhy(placed)})
	}
}

// dutyWhy says in a few words what a duty is for.
func (l *Season) dutyWhy(p hours.Duty) string {
	why, late := strings.CutSuffix(p.Why, hours.Late)
	for _, s := range l.Kennel.Shows {
		switch {
		case why != "for "+s.Name:
		case late:
			return "for " + shortShow(l.Kennel, s) + hours.Late
		default:
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
