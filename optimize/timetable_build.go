package optimize

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/planned"
	"tuckup/optimize/season"
	"tuckup/optimize/week"
)

// A break of so many minutes after so many of pulling: ten minutes in each hour of it. E3 (HSE, Assessment of Repetitive
// Tasks: at least 5 to 10 minutes; seen) and E4 (Galinsky et al. 2000: a break in each hour, no loss of output; seen).
const (
	breakAfter = 50
	breakFor   = 10
)

// leastSession is how much pulling a session that had to be cut short must keep to be worth its set-up. Common practice.
const leastSession = 8

// weekWork is one week on its way to days and hands and back.
type weekWork struct {
	l        *layout
	t        int
	p        week.Problem
	sessions []sessionWork // as in p
	duties   []dutyWork    // as in p
	pinned   []pinnedWork
	leftOut  []LeftOut                // before the days were even asked
	targets  map[int][]kennel.Minutes // dog: minutes for each of its sessions; dogs without are dealt out evenly
}

// sessionWork is one session of p.
type sessionWork struct {
	dog   int
	of    *DogWeek
	areas []AreaWork
	worth []float64 // points, by area
}

// dutyWork is one duty of p, or a lifting bath.
type dutyWork struct {
	dog     int
	name    string
	minutes kennel.Minutes
	why     string
	bath    string // why a bath is worth it; empty for a duty
}

// pinnedWork is a session that the handler fixed.
type pinnedWork struct {
	kennel.Session
	dog, hands int
	areas      []AreaWork
	setUp      kennel.Minutes
	start, end float64 // minutes after midnight, with breaks
}

// start is when a pair of hands begins a day of so many minutes, in minutes after midnight.
func (l *layout) start(minutes kennel.Minutes) float64 {
	return min(float64(l.opt.DayStart)*minutesAnHour, hoursADay*minutesAnHour-float64(minutes))
}

const hoursADay = 24

// weekWork turns week t of the plan into a problem of days and hands. jackets are the days of jacket sessions before
// this week, by dog; bathed are the dogs that had a lifting bath; targets are weekWork.targets.
func (l *layout) weekWork(t int, w *Week, price *pricer, jackets [][]kennel.Date, bathed []bool, targets map[int][]kennel.Minutes) *weekWork {
	k := &weekWork{l: l, t: t, targets: targets}
	k.p = week.Problem{
		Days: kennel.DaysAWeek, Apart: l.opt.FreeDays + 1, BreakAfter: breakAfter, Break: breakFor,
		Early: earlyWorth, SetUps: l.opt.SessionCost, Keep: l.opt.Stay, Even: evenWorth,
	}
	k.addPinned()
	k.addHands()
	for d := range l.k.Dogs {
		k.addDog(d, jackets[d])
	}
	for i := range w.Dogs {
		k.addSessions(&w.Dogs[i], float64(len(w.Dogs)-i)/float64(len(w.Dogs)), price)
	}
	k.addDuties()
	k.addBaths(bathed)
	return k
}

func (k *weekWork) day(n int) kennel.Date { return k.l.diary.monday(k.t).AddDays(n) }

func (k *weekWork) holds(d kennel.Date) bool {
	return d >= max(k.day(0), k.l.diary.on) && d <= k.day(kennel.DaysAWeek-1)
}

// addPinned lists the sessions that the handler fixed in this week, by time.
func (k *weekWork) addPinned() {
	for _, s := range k.l.opt.Accepted {
		d, h := k.l.dogIndex(s.Dog), k.l.handsIndex(s.Hands)
		if !s.Pinned || !k.holds(s.On) || d < 0 || h < 0 || k.doneOn(d, s.On) {
			continue
		}
		p := pinnedWork{Session: s, dog: d, hands: h, setUp: k.l.k.Dogs[d].Table.SetUp, start: float64(s.Start)}
		for _, a := range s.Areas {
			if i := k.l.areaIndex(d, a.Area); i >= 0 && a.Share > 0 {
				p.areas = append(p.areas, AreaWork{
					Area: a.Area, Share: a.Share, Work: k.l.pattern(d).Areas[i].Work,
					Minutes: kennel.Minutes(float64(a.Share) * k.l.problem.Dogs[d].Areas[i].Minutes),
				})
			}
		}
		pull := float64(planned.Pulling(p.areas))
		p.end = p.start + float64(p.setUp) + pull + breakFor*float64(week.Breaks(pull, breakAfter))
		k.pinned = append(k.pinned, p)
	}
	slices.SortStableFunc(k.pinned, func(a, b pinnedWork) int { return cmp.Or(cmp.Compare(a.On, b.On), cmp.Compare(a.start, b.start)) })
}

func (l *layout) dogIndex(name string) int {
	return slices.IndexFunc(l.k.Dogs, func(d kennel.Dog) bool { return d.Name == name })
}

func (l *layout) handsIndex(name string) int {
	return slices.IndexFunc(l.k.Hands, func(h kennel.Hands) bool { return h.Name == name })
}

// doneOn reports whether the dog had a session of pulling on the day.
func (k *weekWork) doneOn(d int, day kennel.Date) bool {
	return slices.ContainsFunc(k.l.opt.Done, func(w kennel.Work) bool {
		return w.Duty == "" && w.Dog == k.l.k.Dogs[d].Name && w.On == day
	})
}

// addHands lists each pair of hands' free time: its hours less what was done today already and less pinned sessions,
// with a rest on both sides of these.
func (k *weekWork) addHands() {
	for h, hands := range k.l.k.Hands {
		out := week.Hands{Does: skillsOf(classesOf(hands, k.l.setUp))}
		if hands.Can(kennel.SkillJacket) {
			out.Dear = dearWorth
		}
		for n := range kennel.DaysAWeek {
			there := k.l.diary.presence[h][k.t*kennel.DaysAWeek+n]
			strip := float64(k.l.diary.strip[h][k.t*kennel.DaysAWeek+n])
			from := k.l.start(there)
			to := from + float64(there)
			if k.day(n) == k.l.diary.on {
				from += k.l.diary.spent[h].work
				strip -= k.l.diary.spent[h].strip
			}
			day := week.HandsDay{}
			for _, p := range k.pinned {
				if p.hands == h && p.On == k.day(n) {
					day.Stretches = append(day.Stretches, week.Stretch{Start: from, Minutes: min(to, p.start-breakFor) - from})
					from = max(from, p.end+breakFor)
					strip -= float64(planned.Pulling(p.areas))
				}
			}
			day.Stretches = append(day.Stretches, week.Stretch{Start: from, Minutes: to - from})
			day.Stretches = slices.DeleteFunc(day.Stretches, func(s week.Stretch) bool { return s.Minutes <= 0 })
			day.Strip = max(0, strip)
			out.Days = append(out.Days, day)
		}
		k.p.Hands = append(k.p.Hands, out)
	}
}

// skillsOf are the classes of work that hands may do, as package week knows them.
func skillsOf(s classSet) (skills week.Skills) {
	for c := range classes {
		switch {
		case !s.has(c):
		case c == classSetUp:
			skills |= week.SkillSetUp
		case c == classDuties:
			skills |= week.SkillDuties
		default:
			skills |= week.Kind(int(c))
		}
	}
	return skills
}

func (k *weekWork) addDog(d int, jackets []kennel.Date) {
	out := week.Dog{}
	for n := range kennel.DaysAWeek {
		day := week.DogDay{There: k.l.diary.table[d][k.t*kennel.DaysAWeek+n], Longest: k.l.problem.Dogs[d].Minutes[k.t], With: -1}
		day.Fixed = k.doneOn(d, k.day(n))
		for _, p := range k.pinned {
			if p.dog == d && p.On == k.day(n) {
				day.Fixed, day.With = true, p.hands
				if jacket(p.areas) {
					out.Jackets = append(out.Jackets, n)
				}
			}
		}
		out.Days = append(out.Days, day)
	}
	for _, on := range jackets {
		out.Jackets = append(out.Jackets, int(on-k.day(0)))
	}
	k.p.Dogs = append(k.p.Dogs, out)
}

func jacket(areas []AreaWork) bool {
	return slices.ContainsFunc(areas, func(a AreaWork) bool { return a.Work == kennel.SkillJacket })
}

// addSessions deals a dog's week out to sessions. What pinned sessions pull is not pulled again.
func (k *weekWork) addSessions(dw *DogWeek, urgency float64, price *pricer) {
	d := k.l.dogIndex(dw.Dog)
	areas, n := k.unpinned(d, dw)
	if len(areas) == 0 {
		return
	}
	setUp := dw.SetUp / kennel.Minutes(max(1, dw.Sessions))
	longest := kennel.Minutes(k.l.problem.Dogs[d].Minutes[k.t]) - setUp
	if n <= 0 {
		k.leave(d, areas, price, "its sessions of the week are pinned to other work")
		return
	}
	if most := k.jacketDays(d); jacket(areas) && most < n && most > 0 && planned.Pulling(areas) <= longest*kennel.Minutes(most) {
		n = most
	}
	kept := k.kept(dw.Dog)
	parts := split(areas, n, longest)
	if targets, ok := k.targets[d]; ok {
		parts = splitBy(areas, targets, longest)
	}
	for i, part := range parts {
		s := week.Session{Dog: d, SetUp: float64(setUp), Urgency: urgency - sessionStep*float64(i), Least: leastSession}
		w := sessionWork{dog: d, of: dw, areas: part}
		for _, a := range part {
			points := k.worth(d, a, price)
			w.worth = append(w.worth, points)
			full := k.l.problem.Dogs[d].Areas[k.l.areaIndex(d, a.Area)].Minutes
			s.Parts = append(s.Parts, week.Part{
				Kind: int(classOf(a.Work)), Minutes: float64(a.Minutes), Value: max(points, k.leastWorth(d, a)),
				Least: min(float64(k.l.opt.CrumbTime), float64(k.l.opt.CrumbShare)*full),
			})
		}
		if i < len(kept) {
			s.Kept, s.KeptDay, s.KeptBy = true, int(kept[i].On-k.day(0)), k.l.handsIndex(kept[i].Hands)
		}
		k.p.Sessions = append(k.p.Sessions, s)
		k.sessions = append(k.sessions, w)
	}
}

// sessionStep is how much less a dog's later session presses than the one before it, which has slower areas.
const sessionStep = 0.01

// leastWorth is what work that could wait for nothing is worth: slow areas a little more than quick ones.
func (k *weekWork) leastWorth(d int, a AreaWork) float64 {
	return leastWorth * float64(a.Minutes) * (1 + k.l.ready(d, k.l.areaIndex(d, a.Area))/slowest)
}

// worth is the part of an area's points of the week that this much of it has.
func (k *weekWork) worth(d int, a AreaWork, price *pricer) float64 {
	i := k.l.areaIndex(d, a.Area)
	return price.points(d, i, k.t) * float64(a.Share) / price.plan.Shares[d][i][k.t]
}

// unpinned is what is left of a dog's week beside its pinned sessions, and in how many sessions.
func (k *weekWork) unpinned(d int, dw *DogWeek) (areas []AreaWork, sessions int) {
	sessions = dw.Sessions
	areas = append(areas, dw.Areas...)
	for _, p := range k.pinned {
		if p.dog != d {
			continue
		}
		sessions--
		for _, done := range p.areas {
			for i := range areas {
				if areas[i].Area == done.Area && areas[i].Share > 0 {
					areas[i] = areas[i].Part(max(0, areas[i].Minutes*kennel.Minutes(1-done.Share/areas[i].Share)))
				}
			}
		}
		areas = slices.DeleteFunc(areas, func(a AreaWork) bool { return a.Minutes < tinyMinutes })
	}
	return areas, sessions
}

// tinyMinutes is arithmetic's part of a minute.
const tinyMinutes = 1e-6

// jacketDays is how many days with a free day between, or as many as are asked for, the dog has for jacket sessions.
func (k *weekWork) jacketDays(d int) (count int) {
	next := -k.p.Days
	free := func(n int) bool {
		for _, j := range k.p.Dogs[d].Jackets {
			if max(j-n, n-j) < k.p.Apart {
				return false
			}
		}
		return true
	}
	for n, day := range k.p.Dogs[d].Days {
		if n >= next && day.There && !day.Fixed && free(n) && k.jacketHands(n) {
			count++
			next = n + k.p.Apart
		}
	}
	return count
}

func (k *weekWork) jacketHands(n int) bool {
	return slices.ContainsFunc(k.p.Hands, func(h week.Hands) bool {
		return h.Does&week.Kind(week.JacketKind) != 0 && h.Does&week.SkillSetUp != 0 && len(h.Days[n].Stretches) > 0
	})
}

// kept are the dog's sessions of this week on the sheet that was handed out, by day; pinned ones are not among them.
func (k *weekWork) kept(dog string) (kept []kennel.Session) {
	for _, s := range k.l.opt.Accepted {
		if s.Dog == dog && !s.Pinned && k.holds(s.On) {
			kept = append(kept, s)
		}
	}
	slices.SortStableFunc(kept, func(a, b kennel.Session) int { return cmp.Compare(a.On, b.On) })
	return kept
}

// addDuties lists the week's duties, each on the days on which it may be done.
func (k *weekWork) addDuties() {
	for _, placed := range k.l.duties {
		dog := k.l.k.Dogs[placed.dog]
		duty := dog.Duties[placed.duty]
		if placed.week != k.t {
			continue
		}
		d := week.Duty{Dog: placed.dog, Minutes: onClock(duty.Minutes), Value: regularDutyWorth, Days: make([]bool, kennel.DaysAWeek)}
		for n := range d.Days {
			d.Days[n] = k.day(n) >= k.l.diary.on
			if duty.Before != nil {
				d.Days[n] = d.Days[n] && k.l.inWindow(placed.dog, duty, k.day(n))
				d.Value = showDutyWorth
			}
		}
		k.p.Duties = append(k.p.Duties, d)
		k.duties = append(k.duties, dutyWork{dog: placed.dog, name: duty.Name, minutes: duty.Minutes, why: k.l.dutyWhy(placed)})
	}
}

// inWindow reports whether the day is one for a duty before some show of the dog.
func (l *layout) inWindow(d int, duty kennel.Duty, day kennel.Date) bool {
	return slices.ContainsFunc(l.k.Shows, func(s kennel.Show) bool {
		return s.Has(l.k.Dogs[d].Name) && day >= s.On.AddDays(-duty.Before.From) && day <= s.On.AddDays(-duty.Before.To)
	})
}

// dutyWhy says in a few words what a duty is for.
func (l *layout) dutyWhy(p placedDuty) string {
	for _, s := range l.k.Shows {
		if p.why == "for "+s.Name {
			return "for " + shortShow(l.k, s)
		}
	}
	return p.why
}

// addBaths asks for a lifting bath before the first session of a dog that is worth one.
func (k *weekWork) addBaths(bathed []bool) {
	asked := make([]bool, len(k.l.k.Dogs))
	for i, s := range k.sessions {
		if asked[s.dog] || bathed[s.dog] || !jacket(s.areas) {
			continue
		}
		worth := k.l.bathWorth(s.dog, planned.Pulling(s.areas))
		if worth == "" || k.l.opt.BathTime <= 0 {
			continue
		}
		asked[s.dog] = true
		k.p.Duties = append(k.p.Duties, week.Duty{
			Dog: k.p.Sessions[i].Dog, Minutes: onClock(k.l.opt.BathTime), Value: bathWorth, Lifts: true, Days: k.l.bathDays(s.dog, k.t),
		})
		k.duties = append(k.duties, dutyWork{dog: s.dog, name: liftingBath, minutes: k.l.opt.BathTime, bath: worth})
	}
}

// leave reports work that can't even be asked for.
func (k *weekWork) leave(d int, areas []AreaWork, price *pricer, why string) {
	for _, a := range areas {
		k.leftOut = append(k.leftOut, LeftOut{
			Week: k.day(0), Dog: k.l.k.Dogs[d].Name, Area: a.Area, Share: a.Share, Points: k.worth(d, a, price), Why: why,
		})
	}
}

// How long a week is searched: about a tenth of a second, the same for every plan, so that it is the same week each time.
const (
	weekNodes = 1000
	weekSteps = 200000
	weekTries = 20000
)

func (k *weekWork) solve() (week.Result, error) {
	return week.Solve(&k.p, week.Options{Nodes: weekNodes, Steps: weekSteps, Tries: weekTries, Within: week.DefaultWithin})
}

// timetable lays the next days out: each week by itself, in order, with what the week before left standing.
func (l *layout) timetable(solved season.Result, plan season.Plan, weeks []Week) (Timetable, error) {
	var table Timetable
	if l.opt.Days <= 0 {
		return table, nil
	}
	last := l.diary.on.AddDays(l.opt.Days - 1).Monday()
	price := l.newPricer(solved, plan)
	jackets, bathed := l.pastJackets(), make([]bool, len(l.k.Dogs))
	for t := 0; t < l.diary.weeks && l.diary.monday(t) <= last; t++ {
		k := l.weekWork(t, &weeks[t], price, jackets, bathed, nil)
		r, err := k.solve()
		if err != nil {
			return Timetable{}, err
		}
		if targets := k.retarget(&r); len(targets) > 0 {
			k2 := l.weekWork(t, &weeks[t], price, jackets, bathed, targets)
			r2, err := k2.solve()
			if err != nil {
				return Timetable{}, err
			}
			if r2.Objective > r.Objective {
				k, r = k2, r2
			}
		}
		k.read(&table, &r)
		k.remember(&r, jackets, bathed)
	}
	w := &table.Worth
	w.Gap = (w.Bound - w.Objective) / max(1, w.Bound, -w.Bound)
	return table, nil
}

// pastJackets are the days of the jacket sessions that were done lately, by dog.
func (l *layout) pastJackets() [][]kennel.Date {
	days := make([][]kennel.Date, len(l.k.Dogs))
	for _, w := range l.opt.Done {
		d := l.dogIndex(w.Dog)
		if d < 0 || w.Duty != "" {
			continue
		}
		for _, a := range w.Areas {
			if i := l.areaIndex(d, a.Area); i >= 0 && l.pattern(d).Areas[i].Work == kennel.SkillJacket {
				days[d] = append(days[d], w.On)
				break
			}
		}
	}
	return days
}

// remember keeps what the next week must know of this one.
func (k *weekWork) remember(r *week.Result, jackets [][]kennel.Date, bathed []bool) {
	for i, s := range r.Sessions {
		if s.Placed && jacket(k.sessions[i].areas) {
			jackets[k.sessions[i].dog] = append(jackets[k.sessions[i].dog], k.day(s.Day))
		}
	}
	for _, p := range k.pinned {
		if jacket(p.areas) {
			jackets[p.dog] = append(jackets[p.dog], p.On)
		}
	}
	for i, d := range r.Duties {
		if d.Placed && k.duties[i].bath != "" {
			bathed[k.duties[i].dog] = true
		}
	}
}
