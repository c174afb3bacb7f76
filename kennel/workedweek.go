package kennel

import "slices"

// DogDone is one dog's week as it was agreed and as it was done.
type DogDone struct {
	Dog           string
	Agreed, Done  int     // sessions
	AgreedMinutes Minutes // of the sessions, with set-ups, as they were agreed; where nothing says, as the pattern and the dog's pace have them
	DoneMinutes   Minutes // of the sessions, as the clock showed
	Stopped       int     // sessions that were stopped early
	Areas         []AreaDone
	Duties        []string // duties that were done, in the order in which they were
	DutyMinutes   Minutes
	Stranger      bool // not of the string (any more): the minutes agreed can't be told
}

// AreaDone is the share of an area that was agreed on for a week and the share that was pulled.
type AreaDone struct {
	Area         AreaName
	Agreed, Done Share
}

// tally is a dog's week while it is summed up.
type tally struct {
	DogDone
	agreed, pulled map[AreaName]Share
	untold         []Session // agreed without minutes
}

// WeekDone sets the sessions agreed for the Monday week of a day against the work done in it: the dogs of the string
// in their order, then others by name; dogs with neither are left out. Areas are in working order (the pattern's).
func WeekDone(k Kennel, pats Patterns, agreed []Session, done []Work, day Date) []DogDone {
	week := Span{From: day.Monday(), To: day.Monday().AddDays(DaysAWeek - 1)}
	all := map[string]*tally{}
	of := func(dog string) *tally {
		if all[dog] == nil {
			all[dog] = &tally{DogDone: DogDone{Dog: dog}, agreed: map[AreaName]Share{}, pulled: map[AreaName]Share{}}
		}
		return all[dog]
	}
	for _, s := range agreed {
		if week.Holds(s.On) {
			d := of(s.Dog)
			d.Agreed++
			add(d.agreed, s.Areas)
			d.AgreedMinutes += s.Minutes
			if s.Minutes == 0 {
				d.untold = append(d.untold, s)
			}
		}
	}
	for _, w := range done {
		switch {
		case !week.Holds(w.On):
		case w.Duty != "":
			d := of(w.Dog)
			d.Duties = append(d.Duties, w.Duty)
			d.DutyMinutes += w.Minutes
		default:
			d := of(w.Dog)
			d.Done++
			d.DoneMinutes += w.Minutes
			if w.Stopped {
				d.Stopped++
			}
			add(d.pulled, w.Areas)
		}
	}
	var out []DogDone
	for _, dog := range k.Dogs {
		if d := all[dog.Name]; d != nil {
			out = append(out, d.done(dog, pats[dog.Pattern]))
			delete(all, dog.Name)
		}
	}
	strangers := make([]string, 0, len(all))
	for name := range all {
		strangers = append(strangers, name)
	}
	slices.Sort(strangers)
	for _, name := range strangers {
		d := all[name]
		d.Stranger = true
		out = append(out, d.done(Dog{}, Pattern{}))
	}
	return out
}

func add(sum map[AreaName]Share, pulled []Pulled) {
	for _, p := range pulled {
		sum[p.Area] += p.Share
	}
}

// done lists the areas in working order and tells what the agreed sessions would have taken.
func (d *tally) done(dog Dog, p Pattern) DogDone {
	pace := dog.Coat.Pace
	if pace <= 0 {
		pace = 1
	}
	for _, s := range d.untold {
		minutes := float64(dog.SessionSetUp(p, dog.Table.Minutes))
		for _, x := range s.Areas {
			a, _ := p.Area(x.Area)
			minutes += float64(x.Share) * a.Minutes.Value * pace
		}
		d.AgreedMinutes += Minutes(minutes)
	}
	order := make([]AreaName, 0, len(p.Areas))
	for _, a := range p.Areas {
		order = append(order, a.Name)
	}
	for _, a := range AreaNames() {
		if !slices.Contains(order, a) {
			order = append(order, a)
		}
	}
	for _, a := range order {
		if d.agreed[a] > 0 || d.pulled[a] > 0 {
			d.Areas = append(d.Areas, AreaDone{Area: a, Agreed: d.agreed[a], Done: d.pulled[a]})
		}
	}
	return d.DogDone
}
