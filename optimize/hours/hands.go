package hours

import (
	"math/bits"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Class is a kind of work as the hours see it: the three kinds of pulling, which tire the hands, then the
// set-ups of sessions, the care of kept hair, trims and the other duties, which only take time.
type Class int

// The classes.
const (
	ClassJacket Class = iota
	ClassClose
	ClassFurnishings
	ClassSetUp
	ClassCare
	ClassTrim // a duty for hands that do close work
	ClassDuties
	Classes // how many there are
)

// ClassSet is a set of classes, bit c for class c.
type ClassSet uint8

// Set is the set of this class alone.
func (c Class) Set() ClassSet { return 1 << c }

// Has reports whether the class is in the set.
func (s ClassSet) Has(c Class) bool { return s&c.Set() != 0 }

// size is the number of classes in s.
func (s ClassSet) size() int { return bits.OnesCount8(uint8(s)) }

// Pulling is the classes that tire the hands.
const (
	Pulling = ClassSet(1<<ClassJacket | 1<<ClassClose | 1<<ClassFurnishings)
	timed   = ClassSet(1<<ClassSetUp | 1<<ClassCare | 1<<ClassTrim | 1<<ClassDuties)
	fixed   = ClassSet(1<<ClassCare | 1<<ClassTrim | 1<<ClassDuties)
)

// PullingSkills are the kinds of pulling in the order of their classes, the hardest to be let near first.
func PullingSkills() []kennel.Skill {
	return []kennel.Skill{kennel.SkillJacket, kennel.SkillClose, kennel.SkillFurnishings}
}

// ClassOf is the class of pulling of a kind of work.
func ClassOf(work kennel.Skill) Class {
	for c, s := range PullingSkills() {
		if s == work {
			return Class(c)
		}
	}
	return ClassJacket
}

// Skill is the kind of work that people call the class.
func (c Class) Skill() kennel.Skill {
	switch c {
	case ClassSetUp:
		return planned.SetUp
	case ClassCare:
		return planned.Care
	case ClassTrim:
		return planned.Trim
	case ClassDuties:
		return kennel.SkillDuties
	}
	return PullingSkills()[c]
}

// setUpSkill is the kind of work that hands must be let near to set a session up. The one who fetches and
// brushes out a dog is taken to be the one who works the jacket: that is the least time there can be for it,
// so a plan never counts on an assistant to start a session. Where nobody works jackets, it is the next kind.
func setUpSkill(k kennel.Kennel) kennel.Skill {
	for _, s := range PullingSkills() {
		if AnyoneCan(k, s) {
			return s
		}
	}
	return kennel.SkillJacket
}

// AnyoneCan reports whether some hands of the kennel may do the kind of work.
func AnyoneCan(k kennel.Kennel, s kennel.Skill) bool {
	for _, h := range k.Hands {
		if h.Can(s) {
			return true
		}
	}
	return false
}

// ClassesOf are the classes of work that the hands may do, where sessions are set up by hands of the kind setUp.
func ClassesOf(h kennel.Hands, setUp kennel.Skill) ClassSet {
	var s ClassSet
	for c, skill := range PullingSkills() {
		if h.Can(skill) {
			s |= Class(c).Set()
		}
	}
	if h.Can(setUp) {
		s |= ClassSetUp.Set()
	}
	if h.Can(kennel.SkillClose) {
		s |= ClassTrim.Set()
	}
	if h.Can(kennel.SkillDuties) {
		s |= ClassDuties.Set()
	}
	if h.Can(kennel.SkillDuties) || h.Can(kennel.SkillFurnishings) {
		s |= ClassCare.Set()
	}
	return s
}

// Hands is one pair of hands in one week; minutes.
type Hands struct {
	Name  string
	Does  ClassSet
	There float64 // minutes that they are there
	Free  float64 // minutes of There that are not worked yet
	Work  float64 // minutes of work of any kind: what breaks leave of Free
	Strip float64 // minutes of pulling
}

// share is what these hands add to the most that can be done of the classes in s: all their time when they may
// do something in s that only takes time, their pulling time when they may pull something in s, else nothing.
func (h Hands) share(s ClassSet) float64 {
	switch does := s & h.Does; {
	case does&timed != 0:
		return h.Work
	case does&Pulling != 0:
		return min(h.Work, h.Strip)
	}
	return 0
}

// dutyTime is the time of those hands that may do duties, when they pull as well and when they do nothing else: then they
// need no breaks.
func dutyTime(week []Hands) (beside, alone float64) {
	for _, h := range week {
		if h.Does.Has(ClassDuties) {
			beside += h.Work
			alone += h.Free
		}
	}
	return beside, alone
}

// Fixed are the minutes of a week that are given to it before any pulling.
type Fixed struct{ Duties, Care, Trim float64 }

// Add counts a duty.
func (f *Fixed) Add(d kennel.Duty) { f.add(DutyClass(d), float64(d.Minutes)) }

func (f *Fixed) add(c Class, minutes float64) {
	switch c {
	case ClassCare:
		f.Care += minutes
	case ClassTrim:
		f.Trim += minutes
	default:
		f.Duties += minutes
	}
}

// of are the minutes of the classes in the set.
func (f Fixed) of(s ClassSet) (minutes float64) {
	for c, m := range map[Class]float64{ClassCare: f.Care, ClassTrim: f.Trim, ClassDuties: f.Duties} {
		if s.Has(c) {
			minutes += m
		}
	}
	return minutes
}

// DutyClass is the class of work that a duty is.
func DutyClass(d kennel.Duty) Class {
	switch d.Skill() {
	case kennel.SkillFurnishings:
		return ClassCare
	case kennel.SkillClose:
		return ClassTrim
	}
	return ClassDuties
}

// fixedSets are all sets of the classes that are fixed, the empty one first.
func fixedSets() (all []ClassSet) {
	for s := ClassSet(0); s < 1<<Classes; s++ {
		if s&^fixed == 0 {
			all = append(all, s)
		}
	}
	return all
}

// fits reports whether the hands of a week have time for what is fixed: no set of it takes more than the hands have that may do
// something of it.
func (f Fixed) fits(week []Hands) bool {
	week = onlyDuties(week, f.Duties)
	for _, s := range fixedSets() {
		if f.of(s) > shares(week, s)+tinyMinutes {
			return false
		}
	}
	return true
}

// shares is the most that can be done of the classes in s.
func shares(week []Hands, s ClassSet) (minutes float64) {
	for _, h := range week {
		minutes += h.share(s)
	}
	return minutes
}

// onlyDuties are the hands of a week with so many minutes of duties. Where these take more than what breaks leave, the hands
// that may do duties do nothing else in that week but duties, trims and the care of kept hair.
func onlyDuties(week []Hands, duties float64) []Hands {
	if beside, _ := dutyTime(week); duties <= beside {
		return week
	}
	week = slices.Clone(week)
	for i := range week {
		if week[i].Does.Has(ClassDuties) {
			week[i].Does, week[i].Work = week[i].Does&fixed, week[i].Free
		}
	}
	return week
}

// skills is how many classes these hands may do.
func (h Hands) skills() int { return h.Does.size() }
