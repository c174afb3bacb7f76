package optimize

import (
	"math/bits"
	"slices"

	"tuckup/kennel"
)

// class is a kind of work as the hours see it: the three kinds of pulling, which tire the hands, then the
// set-ups of sessions and the duties, which only take time.
type class int

const (
	classJacket class = iota
	classClose
	classFurnishings
	classSetUp
	classDuties
	classes // how many there are
)

// classSet is a set of classes, bit c for class c.
type classSet uint8

func (c class) set() classSet { return 1 << c }

func (s classSet) has(c class) bool { return s&c.set() != 0 }

// size is the number of classes in s.
func (s classSet) size() int { return bits.OnesCount8(uint8(s)) }

const (
	pulling = classSet(1<<classJacket | 1<<classClose | 1<<classFurnishings)
	timed   = classSet(1<<classSetUp | 1<<classDuties)
)

// pullingSkills are the kinds of pulling in the order of their classes, the hardest to be let near first.
func pullingSkills() []kennel.Skill {
	return []kennel.Skill{kennel.SkillJacket, kennel.SkillClose, kennel.SkillFurnishings}
}

// classOf is the class of pulling of a kind of work.
func classOf(work kennel.Skill) class {
	for c, s := range pullingSkills() {
		if s == work {
			return class(c)
		}
	}
	return classJacket
}

// skill is the kind of work that people call the class.
func (c class) skill() kennel.Skill {
	switch c {
	case classSetUp:
		return SetUp
	case classDuties:
		return kennel.SkillDuties
	}
	return pullingSkills()[c]
}

// setUpSkill is the kind of work that hands must be let near to set a session up. The one who fetches and
// brushes out a dog is taken to be the one who works the jacket: that is the least time there can be for it,
// so a plan never counts on an assistant to start a session. Where nobody works jackets, it is the next kind.
func setUpSkill(k kennel.Kennel) kennel.Skill {
	for _, s := range pullingSkills() {
		if anyoneCan(k, s) {
			return s
		}
	}
	return kennel.SkillJacket
}

func anyoneCan(k kennel.Kennel, s kennel.Skill) bool {
	for _, h := range k.Hands {
		if h.Can(s) {
			return true
		}
	}
	return false
}

func classesOf(h kennel.Hands, setUp kennel.Skill) classSet {
	var s classSet
	for c, skill := range pullingSkills() {
		if h.Can(skill) {
			s |= class(c).set()
		}
	}
	if h.Can(setUp) {
		s |= classSetUp.set()
	}
	if h.Can(kennel.SkillDuties) {
		s |= classDuties.set()
	}
	return s
}

// hands is one pair of hands in one week.
type hands struct {
	name  string
	does  classSet
	there float64 // minutes that they are there
	free  float64 // minutes of there that are not worked yet
	work  float64 // minutes of work of any kind: what breaks leave of free
	strip float64 // minutes of pulling
}

// share is what these hands add to the most that can be done of the classes in s: all their time when they may
// do something in s that only takes time, their pulling time when they may pull something in s, else nothing.
func (h hands) share(s classSet) float64 {
	switch does := s & h.does; {
	case does&timed != 0:
		return h.work
	case does&pulling != 0:
		return min(h.work, h.strip)
	}
	return 0
}

// dutyTime is the time of those hands that may do duties, when they pull as well and when they do nothing else: then they
// need no breaks.
func dutyTime(week []hands) (beside, alone float64) {
	for _, h := range week {
		if h.does.has(classDuties) {
			beside += h.work
			alone += h.free
		}
	}
	return beside, alone
}

// onlyDuties are the hands of a week with so many minutes of duties. Where these take more than what breaks leave, the hands
// that may do duties do nothing else in that week.
func onlyDuties(week []hands, duties float64) []hands {
	if beside, _ := dutyTime(week); duties <= beside {
		return week
	}
	week = slices.Clone(week)
	for i := range week {
		if week[i].does.has(classDuties) {
			week[i].does, week[i].work = classDuties.set(), week[i].free
		}
	}
	return week
}

// skills is how many classes these hands may do.
func (h hands) skills() int { return h.does.size() }
