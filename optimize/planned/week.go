package planned

import "tuckup/kennel"

// Week is the work of one week.
type Week struct {
	Week    kennel.Date // its Monday
	Hours   kennel.Hours
	Planned kennel.Hours // sessions with set-ups and duties
	Dogs    []DogWeek    // dogs with sessions, in working order: slowest-growing areas first
	Duties  []DutyWork
	Hands   []HandsWeek // hours against hours available, by pair of hands
}

// DogWeek is one dog's sessions in one week.
type DogWeek struct {
	Dog      string
	Sessions int
	Minutes  kennel.Minutes // pulling, without set-up
	SetUp    kennel.Minutes // of all its sessions together
	Areas    []AreaWork     // slowest-growing first
	Lift     string         // how to make the long layer stand up, in words
	Tool     string         // what to pull with, in words
	Why      string         // what it is for: the nearest show, or rolling
}

// AreaWork is how much of one area is pulled. A plan has tens of thousands, so that a record (Pack) knows its fields by number.
type AreaWork struct {
	Area    kennel.AreaName `cbor:"1,keyasint"`
	Share   kennel.Share    `cbor:"2,keyasint"`
	Minutes kennel.Minutes  `cbor:"3,keyasint"`
	Work    kennel.Skill    `cbor:"4,keyasint"`
	Few     bool            `cbor:"5,keyasint,omitempty"` // a few hairs: so near a show no more of the area may be pulled
}

// Words say how much of the area is pulled: "about 1 in 17", "a few hairs".
func (a AreaWork) Words() string {
	if a.Few {
		return "a few hairs"
	}
	return kennel.ShareWords(a.Share)
}

// FewHairs reports whether a share of an area is but a few hairs: no more than a touch worth making, where no more than that may be
// pulled.
func FewHairs(share, most kennel.Share, opt Options) bool {
	return most > 0 && max(share, most) <= opt.CrumbShare+tinyShare
}

// tinyShare is arithmetic's part of a share.
const tinyShare = 1e-6

// Part is so many minutes of an area's work.
func (a AreaWork) Part(minutes kennel.Minutes) AreaWork {
	if a.Minutes <= 0 {
		return a
	}
	a.Share *= kennel.Share(minutes / a.Minutes)
	a.Minutes = minutes
	return a
}

// Pulling is how long the pulling of the areas takes together.
func Pulling(areas []AreaWork) (sum kennel.Minutes) {
	for _, a := range areas {
		sum += a.Minutes
	}
	return sum
}

// DutyWork is one duty that is placed in a week.
type DutyWork struct {
	Dog, Name string
	Minutes   kennel.Minutes
	Why       string       // "every 2 weeks", or the shows that it is for
	Work      kennel.Skill `cbor:",omitempty"` // Care, Trim or duties; empty in plans of an earlier edition: by its name
}

// DutyKind is the kind of work that a duty is, as hands are given it.
func DutyKind(d kennel.Duty) kennel.Skill {
	switch d.Skill() {
	case kennel.SkillFurnishings:
		return Care
	case kennel.SkillClose:
		return Trim
	}
	return kennel.SkillDuties
}

// Kind is the kind of work that the duty is, as hands are given it.
func (d DutyWork) Kind() kennel.Skill {
	if d.Work == "" {
		return DutyKind(kennel.Duty{Name: d.Name})
	}
	return d.Work
}

// HandsWeek is one pair of hands in one week.
type HandsWeek struct {
	Hands   string
	Hours   kennel.Hours // there are
	Planned kennel.Hours // given to these hands: those that may do least are given work first
	// MostWork is how much of Hours can be work: what meals, the breaks that pulling needs, and work that was done today already leave.
	MostWork kennel.Hours
	// MostPulling is how much of Hours may be pulling: the hand load of the days worked, less what was pulled today already.
	MostPulling kennel.Hours
	Given       []Given // what Planned is made of, by kind of work; kinds with no minutes are left out
}

// Pulled is how much of the hands' planned time is pulling.
func (h HandsWeek) Pulled() kennel.Hours {
	var sum kennel.Minutes
	for _, g := range h.Given {
		if g.Work != SetUp && g.Work != Care && g.Work != Trim && g.Work != kennel.SkillDuties {
			sum += g.Minutes
		}
	}
	return kennel.Hours(sum / 60)
}

// Given is how much of one kind of work a pair of hands is given in a week.
type Given struct {
	Work    kennel.Skill // jacket, close, furnishings, duties, Care, Trim or SetUp
	Minutes kennel.Minutes
}

// Care is the work of caring for kept hair: washing, combing, tipping legs and beard.
const Care kennel.Skill = "care"

// Trim is the work of trims: duties for hands that do close work.
const Trim kennel.Skill = "trim"

// SetUp is the work of setting sessions up: fetching, brushing out, powder.
const SetUp kennel.Skill = "set-up"
