package optimize

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
)

// layout is a kennel laid out as numbers, with what is needed to read the answer back in words.
type layout struct {
	k       kennel.Kennel
	pats    kennel.Patterns
	opt     Options
	diary   hours.Diary
	duties  []hours.Duty
	notDone []hours.NotDone
	cannot  []Cannot
	coats   []kennel.DogCoat // by dog, as they are today
	slipped []planned.Slipped
	agreed  []planned.Agreed // work of the next weeks that stays unless leaving it pays
	problem season.Problem
}

// Problem is the kennel's season in numbers: what Plan solves and what a model file holds. Errors are
// *kennel.InputError.
func Problem(k kennel.Kennel, pats kennel.Patterns, opt Options) (*season.Problem, error) {
	l, err := layOut(k, pats, opt)
	if err != nil {
		return nil, err
	}
	return &l.problem, nil
}

func layOut(k kennel.Kennel, pats kennel.Patterns, opt Options) (*layout, error) {
	if opt.On == 0 {
		opt.On = k.PlanFrom
	}
	weeks := k.Weeks
	if weeks == 0 {
		weeks = opt.Weeks
	}
	if err := checkInput(k, pats, opt, weeks); err != nil {
		return nil, err
	}
	k = kennel.WithCare(k, pats)
	l := &layout{k: k, pats: pats, opt: opt, diary: hours.NewDiary(k, opt, int(weeks))}
	placed := hours.PlaceDuties(k, pats, l.diary, opt.Done)
	l.duties, l.notDone, l.cannot = placed.Duties, placed.NotDone, placed.Cannot
	l.cannot = append(l.cannot, l.untouchable()...)
	l.cannot = append(l.cannot, l.notInHand()...)
	l.cannot = append(l.cannot, l.inSpells()...)
	if opt.Begin != nil {
		l.slipped = opt.Begin.SlippedBy(l.diary.Week0, opt.Done)
	}
	if opt.Begin != nil && opt.Stay > 0 {
		l.agreed = opt.Begin.AgreedFrom(l.diary.Week0, min(agreedWeeks, int(weeks)), k.Dogs, opt.Done)
	}
	l.problem = season.Problem{Weeks: int(weeks), Kinds: len(hours.PullingSkills()), Hole: float64(kennel.HoleAllow) / fullScore}
	shown := 0
	for d := range k.Dogs {
		coat, err := kennel.NewDogCoat(k.Dogs[d], l.pattern(d), l.diary.Week0)
		if err != nil {
			return nil, err
		}
		l.coats = append(l.coats, coat)
		dog := l.dog(d)
		if dog.Shows != nil {
			shown++
		}
		l.problem.Dogs = append(l.problem.Dogs, dog)
	}
	l.problem.Balance = opt.Balance * float64(shown)
	for t := range l.diary.Weeks {
		l.problem.Rows = append(l.problem.Rows, l.rows(t)...)
	}
	return l, nil
}

// checkInput refuses what no plan can be made from.
func checkInput(k kennel.Kennel, pats kennel.Patterns, opt Options, weeks kennel.Weeks) error {
	if err := kennel.Check(k, pats); err != nil {
		return err
	}
	if opt.On == 0 {
		return &kennel.InputError{Field: "plan_from", What: "no day to plan from", Try: "a date like 2027-01-04"}
	}
	if weeks < leastWeeks || weeks > mostWeeks {
		return &kennel.InputError{
			Field: "weeks", Value: strconv.Itoa(int(weeks)), What: "a season that can't be planned",
			Try: fmt.Sprintf("%d to %d weeks", leastWeeks, mostWeeks),
		}
	}
	for d, dog := range k.Dogs {
		at := fmt.Sprintf("dogs[%d]", d)
		if dog.Born > opt.On {
			return &kennel.InputError{
				Field: at + ".born", Value: dog.Born.String(), What: fmt.Sprintf("is after %s, the day planned from", opt.On),
				Try: "the day on which it was born, or a later first day of the plan",
			}
		}
		if err := checkLayers(at+".areas.all", dog.All, opt.On); err != nil {
			return err
		}
		for _, a := range dog.Areas {
			if err := checkLayers(at+".areas."+string(a.Area), a.Layers, opt.On); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkLayers refuses hair that was pulled after today.
func checkLayers(field string, layers []kennel.Layer, on kennel.Date) error {
	for i, l := range layers {
		if l.Pulled > on {
			return &kennel.InputError{
				Field: fmt.Sprintf("%s[%d].pulled", field, i), Value: l.Pulled.String(),
				What: fmt.Sprintf("is after %s, the day planned from", on),
				Try:  "the day on which it was pulled, or a later first day of the plan",
			}
		}
	}
	return nil
}

// untouchable names the work that no hands are let near.
func (l *layout) untouchable() (out []Cannot) {
	if len(l.k.Hands) == 0 && len(l.k.Dogs) > 0 {
		return []Cannot{{What: "any work on the dogs", Why: "the kennel names no hands"}}
	}
	for _, s := range hours.PullingSkills() {
		if hours.AnyoneCan(l.k, s) {
			continue
		}
		for _, dog := range l.k.Dogs {
			if worked(l.pats[dog.Pattern], s) {
				out = append(out, Cannot{
					What: fmt.Sprintf("%s work of %s", s, dog.Name), Why: "nobody may do it",
				})
			}
		}
	}
	return out
}

func worked(p kennel.Pattern, s kennel.Skill) bool {
	for _, a := range p.Areas {
		if a.Work == s {
			return true
		}
	}
	return false
}

// dog is one dog in numbers.
func (l *layout) dog(d int) season.Dog {
	dog := l.k.Dogs[d]
	out := season.Dog{
		Name: dog.Name, SetUp: float64(l.setUp(d)), SessionCost: l.opt.SessionCost, Stay: l.opt.Stay,
		Value: make([]float64, l.diary.Weeks),
	}
	out.Minutes, out.Most = l.sessions(d)
	out.Kept = l.kept(dog.Name)
	for t := range out.Value {
		out.Value[t] = dog.Priority * l.opt.Standing
	}
	var shows []float64
	var sum float64
	for _, s := range l.shows(d) {
		t := kennel.ReadinessWeek(s.On, l.diary.Week0)
		if t < 0 {
			continue // the week under way can't change it
		}
		if shows == nil {
			shows, out.ShowValue = make([]float64, l.diary.Weeks), make([]float64, l.diary.Weeks)
		}
		points := showWorth(s)
		out.ShowValue[t] += dog.Priority * points
		shows[t] += points
		sum += points
	}
	if sum > 0 {
		for t := range shows {
			shows[t] /= sum
		}
		out.Shows = shows
	}
	at := l.countedAt(&out)
	for _, a := range l.coats[d].Areas {
		out.Areas = append(out.Areas, l.area(d, a, at))
	}
	l.inOneSession(&out)
	l.keepJacket(d, &out)
	l.keepLeast(d, &out)
	l.evenWork(d, &out)
	l.deadLeft(d, &out)
	l.keepAgreed(d, &out)
	return out
}

// inOneSession bounds an area's minutes of a week by one session: the days work an area in no two of them.
func (l *layout) inOneSession(dog *season.Dog) {
	if !slices.ContainsFunc(dog.Most, func(z int) bool { return z > 1 }) {
		return
	}
	for i := range dog.Areas {
		area := &dog.Areas[i]
		area.Room = make([]float64, len(dog.Minutes))
		for t, m := range dog.Minutes {
			area.Room[t] = roomOf(area, m-dog.SetUp)
		}
	}
}

// roomOf is so many minutes of an area, as a whole number of millionths of it: what the season counts in.
func roomOf(area *season.Area, minutes float64) float64 {
	return math.Floor(max(0, minutes)/area.Minutes*1e6+tinyShare) / 1e6 * area.Minutes
}

// fullScore is the score of a dog that is fully ready.
const fullScore = 100

// setUp is what a session of the dog takes beside the pulling: setting it up, and looking over the whole dog.
func (l *layout) setUp(d int) kennel.Minutes {
	dog := l.k.Dogs[d]
	longest := dog.Table.Minutes
	if dog.Puppy(l.opt.On) {
		longest = min(longest, l.opt.PuppyTable)
	}
	return dog.SessionSetUp(l.pattern(d), longest)
}

// shows are the shows that the dog can be shown at from today to the end of the season, in the kennel's order.
func (l *layout) shows(d int) (shows []kennel.Show) {
	dog := l.k.Dogs[d]
	for _, s := range l.k.Shows {
		if l.ahead(s) && hours.Goes(dog, s) {
			shows = append(shows, s)
		}
	}
	return shows
}

// ahead reports whether the show is still to come and judged on a coat of the season planned.
func (l *layout) ahead(s kennel.Show) bool {
	return s.On >= l.opt.On && kennel.ReadinessWeek(s.On, l.diary.Week0) < l.diary.Weeks
}

// sessions are the longest session and the most sessions of each week. There is at most one session a day, on
// days on which the dog is at the table and some hands that set sessions up are at work, with free days between.
func (l *layout) sessions(d int) (minutes []float64, most []int) {
	dog := l.k.Dogs[d]
	able := func(h int) bool { return l.k.Hands[h].Can(l.diary.SetUp) }
	for t := range l.diary.Weeks {
		longest := dog.Table.Minutes
		if dog.Puppy(l.diary.Monday(t)) {
			longest = min(longest, l.opt.PuppyTable)
		}
		longest = min(longest, l.diary.Longest(d, t, able)) // no session is longer than a day
		n := 0
		if longest > l.setUp(d) {
			done := l.sessionsDone(dog.Name, t)
			n = max(0, min(dog.Table.AWeek-len(done), l.diary.ApartDays(d, t, l.opt.FreeDays, done, able)))
		}
		minutes = append(minutes, float64(longest))
		most = append(most, n)
	}
	return minutes, most
}

// sessionsDone are the days of week t up to today on which the dog was pulled already.
func (l *layout) sessionsDone(dog string, t int) (days []kennel.Date) {
	for _, w := range l.opt.Done {
		if w.Dog == dog && w.Duty == "" && kennel.WeekOf(w.On, l.diary.Week0) == t && w.On <= l.diary.On && !slices.Contains(days, w.On) {
			days = append(days, w.On)
		}
	}
	return days
}

// kept counts the dog's agreed sessions in each week up to the last in which any dog has one; nil when none is agreed.
func (l *layout) kept(dog string) []int {
	weeks := 0
	for _, s := range l.opt.Accepted {
		if s.On >= l.opt.On && s.On < l.opt.On.AddDays(planned.AgreedDays) {
			weeks = max(weeks, kennel.WeekOf(s.On, l.diary.Week0)+1)
		}
	}
	if weeks == 0 {
		return nil
	}
	kept := make([]int, min(weeks, l.diary.Weeks))
	for _, s := range l.opt.Accepted {
		if t := kennel.WeekOf(s.On, l.diary.Week0); s.Dog == dog && s.On >= l.opt.On && t < len(kept) {
			kept[t]++
		}
	}
	return kept
}

// factor is a growth or work factor, 1 where none is told.
func factor(f float64) float64 {
	if f <= 0 {
		return 1
	}
	return f
}

// grain rounds a share to a millionth, so that sums of shares compare as they should.
func grain(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// rows are the bounds of week t on the minutes of all dogs together. Bounds that all the dogs' sessions of the
// week could not reach are left out.
func (l *layout) rows(t int) (rows []season.Row) {
	var used hours.ClassSet
	for _, dog := range l.problem.Dogs {
		if dog.Most[t] == 0 {
			continue
		}
		for _, a := range dog.Areas {
			if a.Most[t] > 0 {
				used |= hours.Class(a.Kind).Set() | hours.ClassSetUp.Set()
			}
		}
	}
	for _, b := range hours.Limits(l.diary.HandsIn(t), used, l.fixed(t)) {
		row := season.Row{
			Name: b.Names, Week: t, Capacity: b.Capacity, Kinds: uint32(b.Set & hours.Pulling),
			SetUps: b.Set.Has(hours.ClassSetUp), Strip: b.Strip,
		}
		if most(l.problem.Dogs, row) > row.Capacity {
			rows = append(rows, row)
		}
	}
	return rows
}

// most is as much as all the dogs' sessions of the row's week could ask of it.
func most(dogs []season.Dog, row season.Row) (sum float64) {
	for _, dog := range dogs {
		sessions := float64(dog.Most[row.Week])
		var pull float64
		for _, a := range dog.Areas {
			if row.Kinds>>a.Kind&1 == 1 {
				if pull += a.Minutes * a.Most[row.Week]; a.Most[row.Week] > 0 {
					pull += a.Loose * a.Dead
				}
			}
		}
		sum += min(pull, sessions*(dog.Minutes[row.Week]-dog.SetUp))
		if row.SetUps {
			sum += sessions * dog.SetUp
		}
	}
	return sum
}

// fixed is what the duties of week t take.
func (l *layout) fixed(t int) (fixed hours.Fixed) {
	for _, p := range l.duties {
		if p.Week == t {
			fixed.Add(l.k.Dogs[p.Dog].Duties[p.Duty])
		}
	}
	return fixed
}
