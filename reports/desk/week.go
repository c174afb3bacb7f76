package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	plans "tuckup/optimize/planned"
	"tuckup/reports/say"
)

type weekPage struct {
	frame
	Of          kennel.Date // its Monday
	Back, Ahead string      // the weeks beside it; empty = there is none
	Weeks       []weekLink  // this and the next seven
	Line        string      // the hours of the week
	Days        []weekDay
	Work        []weekDog // of a week that is not laid into days yet
	NotAt       string    // the dog that was asked for has nothing in this week
	Hands       []string
	LeftOut     []string
	Cannot      []optimize.Cannot
	Worth       string
	Moving      *movingView
	Wrong       string // why a form was not carried out that stands nowhere in this week
	Draft       *draftView
}

type weekLink struct {
	Name, Path string
	Here       bool
}

// weekDog is a dog's work in a week that is not laid into days yet.
type weekDog struct {
	Name, Path, Words, Areas, Why string
	At                            bool // it was asked for
}

type weekDay struct {
	On     kennel.Date
	Name   string
	Today  bool
	Past   bool
	Shows  []weekShow
	Notes  []string // entries that close, hands that are away
	Hands  []weekHands
	Nobody bool
	Laid   bool // the plan lays this day out
}

type weekShow struct {
	Name, Path, Dogs string
	Hoped            bool
}

type weekHands struct {
	Name               string
	Busy, There, Words string
	Part               float64 // of the hours available, 0 to 1
	Items              []weekItem
}

type weekItem struct {
	Clock, Dog, What, Why, Areas string
	Session, Pinned, Done        bool
	At                           bool   // the first of the dog that was asked for
	Did                          string // what was done of it
	Form                         *form
	Places                       []option
	Open                         bool
	Key                          string
}

// weeksAhead is how many weeks beside this one the page leads to.
const weeksAhead = 7

func (d *Desk) week(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	x, f, err := d.draftAsked(r, l, "the week")
	if err != nil {
		return err
	}
	if x != nil {
		f = nil // the panel says all of it
	}
	return d.renderWeek(w, r, l, f, x)
}

// weekAsked is the Monday of the week that a request is about: this week's, or that of a day.
func weekAsked(r *http.Request, l look) (kennel.Date, error) {
	day := l.today
	if s := r.FormValue("of"); s != "" {
		var err error
		if day, err = kennel.ParseDate(s); err != nil {
			return 0, notFound("week")
		}
	}
	monday := day.Monday()
	if last := lastWeek(l); monday < l.today.Monday() || monday > last {
		return 0, notFound("week")
	}
	return monday, nil
}

// lastWeek is the last week that the page shows: of the plan, and at least the next seven.
func lastWeek(l look) kennel.Date {
	last := l.today.Monday().AddDays(weeksAhead * kennel.DaysAWeek)
	if l.plan != nil && len(l.plan.Weeks) > 0 {
		last = max(last, l.plan.Weeks[len(l.plan.Weeks)-1].Week)
	}
	return last
}

func (d *Desk) renderWeek(w http.ResponseWriter, r *http.Request, l look, f *form, x *draft) error {
	of, err := weekAsked(r, l)
	if err != nil {
		return err
	}
	p := weekPage{frame: d.frame(l, r, "Week of "+say.Week(of, l.today)), Of: of}
	p.Behind = p.Plan.Behind
	status := http.StatusOK
	if f != nil {
		status = f.status()
	}
	p.around(l)
	if l.plan != nil {
		for _, h := range l.plan.Kennel.Hands {
			p.Hands = append(p.Hands, h.Name)
		}
		p.days(l, f)
		p.at(r.URL.Query().Get("dog"))
		p.wrong(f)
		for _, x := range l.plan.Timetable.Missed() {
			if x.Week == of {
				p.LeftOut = append(p.LeftOut, say.LeftOut(x))
			}
		}
		if of == l.today.Monday() {
			p.Cannot = l.plan.Cannot
			p.Worth = say.Worth(l.plan.Result)
		}
		if p.Moving, err = movingAsked(r, l); err != nil {
			return err
		}
	}
	if x != nil {
		p.Draft = x.view(l.state.Kennel)
		p.Refresh = p.Draft.Working
	}
	p.Stream = streamTo(l, "/week")
	p.Refresh = p.Refresh || l.plan == nil && l.status.Running
	d.render(w, status, "week", p)
	return nil
}

// around are the weeks beside the one that is shown, and its hours.
func (p *weekPage) around(l look) {
	this := l.today.Monday()
	for n := range weeksAhead + 1 {
		monday := this.AddDays(n * kennel.DaysAWeek)
		p.Weeks = append(p.Weeks, weekLink{say.WithYear(monday, l.today, "2 Jan"), weekPath(monday, ""), monday == p.Of})
	}
	if p.Of > this {
		p.Back = weekPath(p.Of.AddDays(-kennel.DaysAWeek), "")
	}
	if next := p.Of.AddDays(kennel.DaysAWeek); next <= lastWeek(l) {
		p.Ahead = weekPath(next, "")
	}
	if w, ok := weekOf(l, p.Of); ok {
		p.Line = fmt.Sprintf("%.1f of %.1f hours planned", float64(w.Planned), float64(w.Hours))
		if say.FullWeek(l.plan.Result, w) {
			p.Line += ", full"
		}
	}
}

// weekOf is the plan's week that begins on the Monday.
func weekOf(l look, monday kennel.Date) (optimize.Week, bool) {
	if l.plan == nil {
		return optimize.Week{}, false
	}
	i := slices.IndexFunc(l.plan.Weeks, func(w optimize.Week) bool { return w.Week == monday })
	if i < 0 {
		return optimize.Week{}, false
	}
	return l.plan.Weeks[i], true
}

// days are the seven days of the week with what is planned and done on them, and the week's work where it is not laid into days yet.
func (p *weekPage) days(l look, f *form) {
	laid := map[kennel.Date]optimize.Day{}
	for _, day := range l.plan.days(l.today) {
		laid[day.On] = day
	}
	any := false
	for n := range kennel.DaysAWeek {
		on := p.Of.AddDays(n)
		day, ok := laid[on]
		any = any || ok
		day.On = on
		v := weekDayOf(l, day, f)
		v.Laid = ok
		v.Nobody = ok && len(v.Hands) == 0
		p.Days = append(p.Days, v)
	}
	if w, ok := weekOf(l, p.Of); ok && !any {
		p.Work = weekDogs(l, w)
	}
}

// weekDogs is the work of a week, dog by dog.
func weekDogs(l look, w optimize.Week) (all []weekDog) {
	for _, x := range w.Dogs {
		all = append(all, weekDog{
			Name: x.Dog, Path: dogPath(x.Dog), Words: say.Plural(x.Sessions, "session") + ", " + say.Minutes(x.Minutes+x.SetUp), Areas: areaWords(l, x.Dog, x.Areas), Why: whyWords(x.Why, x.Areas),
		})
	}
	for _, x := range w.Duties {
		all = append(all, weekDog{Name: x.Dog, Path: dogPath(x.Dog), Words: x.Name + ", " + say.Minutes(x.Minutes), Why: x.Why})
	}
	return all
}

// wrong says what is wrong with a form whose session is not in the week any more.
func (p *weekPage) wrong(f *form) {
	if f == nil || !f.Bad() {
		return
	}
	for _, d := range p.Days {
		for _, h := range d.Hands {
			if slices.ContainsFunc(h.Items, func(i weekItem) bool { return i.Open }) {
				return
			}
		}
	}
	p.Wrong = "Nothing was changed: the sessions were changed by somebody else in the meantime."
	for _, e := range f.Errors {
		p.Wrong = say.FirstUpper(e)
	}
}

// at marks the first work of the dog that was asked for.
func (p *weekPage) at(dog string) {
	if dog == "" {
		return
	}
	for d := range p.Days {
		for h := range p.Days[d].Hands {
			for i := range p.Days[d].Hands[h].Items {
				if x := &p.Days[d].Hands[h].Items[i]; x.Dog == dog {
					x.At = true
					return
				}
			}
		}
	}
	for i := range p.Work {
		if p.Work[i].Name == dog {
			p.Work[i].At = true
			return
		}
	}
	p.NotAt = dog
}

// streamTo is the address of the progress for a page that is opened anew when there is a first plan to show on it.
func streamTo(l look, page string) string {
	switch {
	case !l.status.Running:
		return ""
	case l.plan == nil:
		return "/progress?go=" + url.QueryEscape(page)
	}
	return streamOf(l.status)
}

func weekDayOf(l look, day optimize.Day, f *form) weekDay {
	v := weekDay{On: day.On, Name: day.On.Time().Format("Monday 2 January"), Today: day.On == l.today, Past: day.On < l.today}
	v.head(l)
	sessions := day.Sessions()
	done := doneOn(l, day.On)
	for _, h := range day.Hands {
		wh := weekHands{Name: h.Hands, There: hoursWords(float64(h.Hours))}
		busy := 0.0
		for _, i := range h.Whole() {
			if i.Dog != "" && i.Kind != optimize.ItemTravel {
				busy += float64(i.End-i.Start) / kennel.MinutesAnHour
			}
			item := weekItem{Clock: say.Clock(i), Dog: i.Dog, Why: i.Why, Pinned: i.Pinned}
			duty := ""
			switch i.Kind {
			case optimize.ItemSession:
			case optimize.ItemTravel:
				item.Dog, item.What = "", "Travel: "+i.What
			case optimize.ItemBath:
				item.What, duty = "lifting bath", bathDuty
			default:
				item.What, duty = i.What, i.What
			}
			if item.Dog != "" {
				item.done(done.take(i.Dog, duty))
			}
			if i.Kind == optimize.ItemSession {
				item.session(l, sessions, i, h.Hands, day.On, f)
			}
			wh.Items = append(wh.Items, item)
		}
		wh.Busy = hoursWords(busy)
		if h.Hours > 0 {
			wh.Part = min(1, busy/float64(h.Hours))
		}
		v.Hands = append(v.Hands, wh)
	}
	for _, w := range done.left() {
		v.unplanned(w)
	}
	return v
}

// head is what is at the head of a day: its shows, entries that close, hands that are away.
func (v *weekDay) head(l look) {
	for _, s := range l.state.Kennel.Shows {
		if v.On >= s.On && v.On <= s.Last() {
			v.Shows = append(v.Shows, weekShow{s.Name, showPath(s), strings.Join(s.Dogs, ", "), !s.Entered()})
		}
		if s.EntriesClose == v.On {
			v.Notes = append(v.Notes, "Entries close for "+s.Name)
		}
	}
	for _, h := range l.state.Kennel.Hands {
		for _, s := range h.Away {
			if s.Holds(v.On) {
				v.Notes = append(v.Notes, awayWords(h.Name+" is away", s, kennel.DaysAWeek))
			}
		}
	}
}

// dayDone is the work of a day that is written down and not shown yet.
type dayDone struct{ work []book.Work }

func doneOn(l look, on kennel.Date) *dayDone {
	d := &dayDone{}
	for _, w := range l.state.Work {
		if w.On == on {
			d.work = append(d.work, w)
		}
	}
	return d
}

// take is the work on the dog, of a duty or of a session, whoever did it; nil for none.
func (d *dayDone) take(dog, duty string) *book.Work {
	i := slices.IndexFunc(d.work, func(w book.Work) bool { return w.Dog == dog && w.Duty == duty })
	if i < 0 {
		return nil
	}
	w := d.work[i]
	d.work = slices.Delete(d.work, i, i+1)
	return &w
}

func (d *dayDone) left() []book.Work { return d.work }

// done says what was really taken.
func (w *weekItem) done(work *book.Work) {
	if work == nil {
		return
	}
	w.Done, w.Did = true, say.Work(work.Work)+", "+say.Minutes(work.Minutes)
	if work.Stopped {
		w.Did += ", stopped early"
	}
}

// unplanned adds work that the plan did not have on the day.
func (v *weekDay) unplanned(w book.Work) {
	h := slices.IndexFunc(v.Hands, func(x weekHands) bool { return x.Name == w.Hands })
	if h < 0 {
		v.Hands = append(v.Hands, weekHands{Name: w.Hands})
		h = len(v.Hands) - 1
	}
	item := weekItem{Dog: w.Dog}
	item.done(&w)
	v.Hands[h].Items = append(v.Hands[h].Items, item)
}

// areaWords are areas of a dog with their shares, and what is wanted of them, in a line.
func areaWords(l look, dog string, areas []optimize.AreaWork) string {
	var parts []string
	for _, a := range touches(areas) {
		words := string(a.Area) + " " + strings.TrimPrefix(a.Words, "about ")
		if wanted := say.OutlineOn(l.state.Kennel, dog, a.Area); wanted != "" {
			words += " (" + wanted + ")"
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

// whyWords say in about six words why a session is: "Yarrowmead in 14 weeks; skirt line first".
func whyWords(why string, areas []optimize.AreaWork) string {
	if len(areas) < 2 {
		return why
	}
	first := string(areas[0].Area) + " first"
	if why == "" {
		return say.FirstUpper(first)
	}
	return why + "; " + first
}

// hoursWords is a stretch of time like 2 h 05.
func hoursWords(h float64) string {
	m := int(h*kennel.MinutesAnHour + 0.5)
	if m < kennel.MinutesAnHour {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d", m/kennel.MinutesAnHour, m%kennel.MinutesAnHour)
}

// session completes a session with the days it could be moved to.
func (w *weekItem) session(l look, sessions []optimize.SessionIn, i optimize.Item, hands string, on kennel.Date, f *form) {
	w.Session, w.Areas, w.Why = true, areaWords(l, i.Dog, i.Areas), whyWords(i.Why, i.Areas)
	at := optimize.SessionAt{On: on, Start: i.Start, Hands: hands}
	n := slices.IndexFunc(sessions, func(s optimize.SessionIn) bool { return s.Dog == i.Dog && s.At == at })
	if n < 0 {
		return
	}
	if w.Done || on < l.today {
		return
	}
	w.Key = sessionKey(i.Dog, at)
	w.Form = newForm(fmt.Sprintf("move-%s-%d-%d", on, i.Start, slices.Index(l.state.Kennel.DogNames(), i.Dog)), l.version)
	w.Form.set("to", placeKey(on, hands))
	if f != nil && f.get("session") == w.Key {
		f.ID, f.Version = w.Form.ID, l.version
		w.Form, w.Open = f, true
	}
	w.Places = placeOptions(l, sessions[n])
}

func placeKey(on kennel.Date, hands string) string { return on.String() + " " + hands }

// sessionKey names a session of the timetable.
func sessionKey(dog string, at optimize.SessionAt) string {
	return strings.Join([]string{at.On.String(), at.Start.String(), at.Hands, dog}, "\x1f")
}

func readSessionKey(key string) (dog string, at optimize.SessionAt, ok bool) {
	parts := strings.Split(key, "\x1f")
	if len(parts) != 4 {
		return "", at, false
	}
	on, errOn := kennel.ParseDate(parts[0])
	start, errStart := kennel.ParseClock(parts[1])
	return parts[3], optimize.SessionAt{On: on, Start: start, Hands: parts[2]}, errOn == nil && errStart == nil
}

// inPlan changes the plan in use itself, where the book keeps one; it stays the plan of the day that it was made on.
func inPlan(b *book.State, change func(optimize.Result) (optimize.Result, bool)) error {
	if b.Plan.Result == nil {
		return nil
	}
	use, err := plans.Unpack(b.Plan.Result)
	if err != nil {
		return err
	}
	changed, there := change(use)
	if !there {
		return sessionGone()
	}
	b.Plan.Result, err = changed.Pack()
	return err
}

func sessionGone() error {
	return &statusError{http.StatusConflict, "That session is no longer where it was: the plan was changed in the meantime.", "the page again"}
}

// withoutSession takes what was agreed for a session of the plan out.
func withoutSession(all []book.Session, s optimize.SessionIn) []book.Session {
	return slices.DeleteFunc(slices.Clone(all), func(x book.Session) bool {
		return x.Work == 0 && x.Dog == s.Dog && x.On == s.At.On && (x.Start == s.At.Start || x.Pinned)
	})
}

// sessionFacts are the sessions of a dog that were agreed for two days.
func sessionFacts(s book.State, dog string, days ...kennel.Date) (all []fact) {
	for _, x := range s.Sessions {
		if x.Dog == dog && slices.Contains(days, x.On) {
			words := fmt.Sprintf("%s with %s", x.Start, x.Hands)
			if x.Pinned {
				words += ", pinned"
			}
			if x.Work != 0 {
				words += ", done"
			}
			all = append(all, fact{fmt.Sprintf("%s on %s", dog, x.On), words})
		}
	}
	return all
}
