package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	plans "tuckup/optimize/planned"
	"tuckup/reports/say"
)

// task is one thing to do on a day, for one pair of hands.
type task struct {
	Clock, Dog, What, Why, How string
	Session, Bath, Pinned      bool
	Tick                       bool   // it can be ticked off
	Done                       string // how it was done; empty = not yet
	Stopped                    bool
	Trouble                    string // what is wrong with the dog, first; empty = nothing
	Areas                      []touch
	Minutes                    int
	Duty                       string
	Link                       string // the page that writes it down otherwise
	Undo                       int64  // work to drop
	Form                       string // the identifier of the form that writes it down
}

type touch struct {
	Area    kennel.AreaName
	Words   string // the share as it is said
	Share   string // the share to the last digit
	Less    string // half of it, as it is said
	Time    string
	Outline string       // what is wanted of it
	Looks   []lookChoice // how its long layer may be seen; empty = nothing is to be seen of it, or it is done
}

// lookChoice is one way to see the long layer of an area, with the share to take then.
type lookChoice struct {
	Long kennel.LongSeen
	Take string
}

type todayPage struct {
	frame
	Day, Back, Ahead string
	Date             kennel.Date
	IsToday          bool
	Hands            string
	Everybody        []handsLink
	Tasks            []task
	Next             *task // the first that is not done
	Work             string
	Empty            string
	Agreed           bool // from what was agreed, for there is no plan yet
	Left             []string
	LeftOf           string
	Just             *justNow
	Past             bool
	LeftOut          []string
}

type handsLink struct {
	Name, Path string
	Here       bool
}

// nextForm is the identifier of the form that writes down the first task that is not done: the one under the thumb.
const nextForm = "next"

// todayPath is the page of the day.
const todayPath = "/today"

// bathDuty is what a lifting bath is called in the records of work.
const bathDuty = "lifting bath"

func (d *Desk) today(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	q := r.URL.Query()
	day := l.today
	if s := q.Get("day"); s != "" {
		if day, err = kennel.ParseDate(s); err != nil {
			return notFound("day")
		}
	}
	p := todayPage{frame: d.frame(l, r, "Today"), Day: say.WithYear(day, l.today, "Monday 2 January"), Date: day, IsToday: day == l.today, Past: day < l.today}
	if !p.IsToday {
		p.Title = say.Day(day, l.today)
	}
	p.Hands = handsFor(l, q.Get("hands"))
	at := func(day kennel.Date, hands string) string {
		v := url.Values{}
		if day != l.today {
			v.Set("day", day.String())
		}
		if hands != firstHands(l) {
			v.Set("hands", hands)
		}
		if len(v) == 0 {
			return todayPath
		}
		return todayPath + "?" + v.Encode()
	}
	p.At, p.Back, p.Ahead = at(day, p.Hands), at(day.AddDays(-1), p.Hands), at(day.AddDays(1), p.Hands)
	for _, h := range l.state.Kennel.Hands {
		p.Everybody = append(p.Everybody, handsLink{h.Name, at(day, h.Name), h.Name == p.Hands})
	}
	p.Tasks = d.tasks(l, day, p.Hands)
	wrong := troubles(l)
	for i := range p.Tasks {
		if x, ok := troubleOf(wrong, p.Tasks[i].Dog); ok && p.Tasks[i].Session {
			p.Tasks[i].Trouble = say.FirstUpper(x.Words)
		}
	}
	p.Agreed = l.plan == nil && len(p.Tasks) > 0
	for i := range p.Tasks {
		t := &p.Tasks[i]
		t.Form = fmt.Sprintf("tick-%d", i)
		if t.Tick && t.Done == "" && p.Next == nil {
			p.Next, t.Form = t, nextForm
		}
	}
	if len(p.Tasks) == 0 && l.plan != nil {
		p.Empty = "There is no work for " + p.Hands + " on this day."
		if last := l.plan.whole.LastDay(); day > last {
			p.Empty = "The days are laid out until " + say.Day(last, l.today) + "."
		}
	}
	if l.plan == nil && l.status.Running {
		p.Stream, p.Refresh = streamTo(l, p.At), true
		if len(p.Tasks) == 0 {
			p.Empty = "The day's work will be here as soon as the plan is made."
		}
	}
	if p.Just = justNowOf(l, q); p.Just != nil {
		p.Note = p.Just.Words + "."
		if said := q.Get("said"); said == "left" {
			p.Note = p.Just.Words + "."
			p.LeftOf, p.Left = leftOver(l, p.Just.Undo)
		}
	} else if saysOfWork(q) {
		p.Note = "" // what the address speaks of is not so any more
	}
	if p.IsToday {
		p.Behind = p.Plan.Behind
	}
	if l.plan != nil && p.IsToday {
		for _, x := range l.plan.Timetable.Missed() {
			if x.Week == day.Monday() {
				p.LeftOut = append(p.LeftOut, say.LeftOut(x))
			}
		}
	}
	d.render(w, http.StatusOK, "today", p)
	return nil
}

func firstHands(l look) string {
	if len(l.state.Kennel.Hands) == 0 {
		return ""
	}
	return l.state.Kennel.Hands[0].Name
}

// handsFor are the hands that were asked for, else the first.
func handsFor(l look, asked string) string {
	for _, h := range l.state.Kennel.Hands {
		if h.Name == asked {
			return asked
		}
	}
	return firstHands(l)
}

// tasks are what is to be done on the day by the hands, and what was done of it.
func (d *Desk) tasks(l look, day kennel.Date, hands string) (all []task) {
	done := l.state.Work
	taken := map[int64]bool{}
	find := func(dog, duty string) *book.Work {
		for i := range done {
			w := &done[i]
			if w.On == day && w.Dog == dog && w.Duty == duty && !taken[w.ID] { // whoever did it
				taken[w.ID] = true
				return w
			}
		}
		return nil
	}
	for _, i := range dayItems(l, day, hands) {
		t := newTask(i, day, hands, l.today)
		for n := range t.Areas {
			t.Areas[n].Outline = say.OutlineOn(l.state.Kennel, i.Dog, t.Areas[n].Area)
		}
		if t.Tick {
			if w := find(i.Dog, t.Duty); w != nil {
				t.Done, t.Stopped, t.Undo = doneWords(w.Work), w.Stopped, w.ID
			} else if t.Session {
				t.addLooks(i.Areas, l.state.LongHair(d.opt.Patterns, i.Dog, day))
			}
		}
		all = append(all, t)
	}
	for _, w := range done {
		if w.On == day && !taken[w.ID] && w.Hands == hands {
			all = append(all, task{Dog: w.Dog, What: say.Work(w.Work), Duty: w.Duty, Tick: true, Done: doneWords(w.Work), Stopped: w.Stopped, Undo: w.ID})
		}
	}
	return all
}

// dayItems are the stretches of the day for the hands: the plan's, else what was agreed.
func dayItems(l look, day kennel.Date, hands string) []optimize.Item {
	if l.plan == nil {
		return agreedItems(l, day, hands)
	}
	for _, d := range l.plan.days(l.today) {
		if d.On != day {
			continue
		}
		for _, h := range d.Hands {
			if h.Hands == hands {
				return h.Whole()
			}
		}
	}
	if day < l.plan.whole.On {
		return agreedItems(l, day, hands)
	}
	return nil
}

func agreedItems(l look, day kennel.Date, hands string) (items []optimize.Item) {
	for _, s := range l.state.Sessions {
		if s.On != day || s.Hands != hands && s.Hands != "" {
			continue
		}
		i := optimize.Item{Kind: optimize.ItemSession, Dog: s.Dog, Start: s.Start, End: s.Start + kennel.Clock(s.Minutes), Pinned: s.Pinned}
		for _, a := range s.Areas {
			i.Areas = append(i.Areas, optimize.AreaWork{Area: a.Area, Share: a.Share})
		}
		items = append(items, i)
	}
	slices.SortStableFunc(items, func(a, b optimize.Item) int { return int(a.Start - b.Start) })
	return items
}

func newTask(i optimize.Item, day kennel.Date, hands string, today kennel.Date) task {
	t := task{Clock: say.Clock(i), Dog: i.Dog, Why: i.Why, Pinned: i.Pinned}
	switch i.Kind {
	case optimize.ItemSession:
		t.Session, t.Tick = true, true
		if i.Lift != "" || i.Tool != "" || i.SetUp > 0 {
			t.How = say.How(i)
		}
		t.Areas = touches(i.Areas)
		minutes := i.SetUp
		for _, a := range i.Areas {
			minutes += a.Minutes
		}
		t.Minutes = int(float64(minutes) + 0.5)
		if t.Minutes == 0 {
			t.Minutes = int(i.End - i.Start)
		}
	case optimize.ItemDuty:
		t.What, t.Duty, t.Tick, t.Minutes = i.What, i.What, true, int(i.End-i.Start)
	case optimize.ItemBath:
		t.What, t.Duty, t.Tick, t.Bath, t.Minutes = "lifting bath, left to dry", bathDuty, true, true, int(i.End-i.Start)
	case optimize.ItemTravel:
		t.Dog, t.What = "", "Travel: "+i.What
	}
	t.Tick = t.Tick && day <= today
	if t.Session {
		v := url.Values{"dog": {i.Dog}, "on": {day.String()}, "hands": {hands}}
		t.Link = "/work?" + v.Encode()
	}
	return t
}

// touches are the areas of a session, each once.
func touches(areas []optimize.AreaWork) (all []touch) {
	var s []optimize.AreaWork
	for _, a := range areas {
		if n := slices.IndexFunc(s, func(b optimize.AreaWork) bool { return b.Area == a.Area }); n >= 0 {
			s[n].Share += a.Share
			s[n].Minutes += a.Minutes
			continue
		}
		s = append(s, a)
	}
	for _, a := range s {
		t := touch{Area: a.Area, Words: strings.TrimPrefix(a.Words(), "about "), Share: strconv.FormatFloat(float64(a.Share), 'g', -1, 64), Less: shareWords(lessPart * a.Share)}
		if a.Minutes > 0 && !a.Few {
			t.Time = say.Minutes(a.Minutes)
		}
		all = append(all, t)
	}
	return all
}

// addLooks are the ways in which the long layers of the areas may be seen.
func (t *task) addLooks(areas []optimize.AreaWork, hair map[kennel.AreaName]kennel.LongHair) {
	for i := range t.Areas {
		x := &t.Areas[i]
		h, there := hair[x.Area]
		if !there {
			continue
		}
		for _, long := range kennel.LongSeens() {
			take := shareWords(h.Take(long, plans.ShareOf(areas, x.Area)))
			if long == kennel.LongNone {
				take = "leave it"
			}
			x.Looks = append(x.Looks, lookChoice{long, take})
		}
	}
}

func doneWords(w kennel.Work) string {
	words := "Done in " + say.Minutes(w.Minutes)
	if w.Stopped {
		words = "Stopped early after " + say.Minutes(w.Minutes)
	}
	if len(w.Looks) > 0 {
		words += "; long layer seen: " + say.Looks(w.Looks)
	}
	if w.Note != "" {
		words += ": " + w.Note
	}
	return words
}

// leftOver says what of its session a stretch of work left.
func leftOver(l look, id int64) (dog string, left []string) {
	for _, w := range l.state.Work {
		if w.ID != id {
			continue
		}
		for _, a := range plannedFor(l, w.Dog, w.On, w.Hands) {
			share := a.Share
			for _, p := range w.Areas {
				if p.Area == a.Area {
					share -= p.Share
				}
			}
			if share > leastShare {
				left = append(left, fmt.Sprintf("%s, %s", a.Area, kennel.ShareWords(share)))
			}
		}
		return w.Dog, left
	}
	return "", nil
}

// leastShare is less than anybody can pull.
const leastShare = 0.001

// plannedFor is what was to be pulled on the dog on the day, by the plan or by what was agreed.
func plannedFor(l look, dog string, on kennel.Date, hands string) (areas []optimize.AreaWork) {
	for _, i := range dayItems(l, on, hands) {
		if i.Kind == optimize.ItemSession && i.Dog == dog {
			areas = append(areas, i.Areas...)
		}
	}
	var sum optimize.SessionIn
	for _, a := range areas {
		n := slices.IndexFunc(sum.Areas, func(b optimize.AreaWork) bool { return b.Area == a.Area })
		if n >= 0 {
			sum.Areas[n].Share += a.Share
			sum.Areas[n].Minutes += a.Minutes
			continue
		}
		sum.Areas = append(sum.Areas, a)
	}
	return sum.Areas
}
