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
	"tuckup/optimize/timetable"
	"tuckup/reports/say"
)

type weekPage struct {
	frame
	Days    []weekDay
	Hands   []string
	LeftOut []string
	Cannot  []optimize.Cannot
	Worth   string
}

type weekDay struct {
	On     kennel.Date
	Name   string
	Today  bool
	Hands  []weekHands
	Nobody bool
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
	Did                          string // what was done of it
	Form                         *form
	Places                       []option
	Open                         bool
	Key                          string
}

func (d *Desk) week(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	d.renderWeek(w, r, l, nil)
	return nil
}

func (d *Desk) renderWeek(w http.ResponseWriter, r *http.Request, l look, f *form) {
	p := weekPage{frame: d.frame(l, r, "Week")}
	p.Behind = p.Plan.Behind
	status := http.StatusOK
	if f != nil {
		status = f.status()
	}
	if l.plan != nil {
		for _, h := range l.plan.Kennel.Hands {
			p.Hands = append(p.Hands, h.Name)
		}
		for _, day := range l.plan.days(l.today) {
			if day.On >= l.today.Monday() {
				p.Days = append(p.Days, weekDayOf(l, day, f))
			}
		}
		for _, x := range l.plan.Timetable.Missed() {
			p.LeftOut = append(p.LeftOut, say.LeftOut(x))
		}
		p.Cannot = l.plan.Cannot
		p.Worth = say.Worth(l.plan.Result)
	}
	p.Stream = streamTo(l, "/week")
	p.Refresh = l.plan == nil && l.status.Running
	d.render(w, status, "week", p)
}

// streamTo is the address of the progress for a page that is opened anew when there is a first plan to show on it.
func streamTo(l look, page string) string {
	switch {
	case !l.status.Running:
		return ""
	case l.plan == nil:
		return "/progress?go=" + url.QueryEscape(page)
	}
	return "/progress"
}

func weekDayOf(l look, day optimize.Day, f *form) weekDay {
	v := weekDay{On: day.On, Name: day.On.Time().Format("Monday 2 January"), Today: day.On == l.today}
	sessions := day.Sessions()
	for _, h := range day.Hands {
		wh := weekHands{Name: h.Hands, There: hoursWords(float64(h.Hours))}
		busy := 0.0
		for _, i := range h.Whole() {
			if i.Dog != "" && i.Kind != optimize.ItemTravel {
				busy += float64(i.End-i.Start) / kennel.MinutesAnHour
			}
			item := weekItem{Clock: say.Clock(i), Dog: i.Dog, Why: i.Why, Pinned: i.Pinned}
			switch i.Kind {
			case optimize.ItemSession:
				item.session(l, sessions, i, h.Hands, day.On, f)
			case optimize.ItemTravel:
				item.Dog, item.What = "", "Travel: "+i.What
			case optimize.ItemBath:
				item.What = "lifting bath"
			default:
				item.What = i.What
			}
			wh.Items = append(wh.Items, item)
		}
		wh.Busy = hoursWords(busy)
		if h.Hours > 0 {
			wh.Part = min(1, busy/float64(h.Hours))
		}
		v.Hands = append(v.Hands, wh)
	}
	v.Nobody = len(v.Hands) == 0
	return v
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
	w.Session = true
	var parts []string
	for _, a := range touches(i.Areas) {
		words := string(a.Area) + " " + strings.TrimPrefix(a.Words, "about ")
		if wanted := say.OutlineOn(l.state.Kennel, i.Dog, a.Area); wanted != "" {
			words += " (" + wanted + ")"
		}
		parts = append(parts, words)
	}
	w.Areas = strings.Join(parts, ", ")
	at := optimize.SessionAt{On: on, Start: i.Start, Hands: hands}
	n := slices.IndexFunc(sessions, func(s optimize.SessionIn) bool { return s.Dog == i.Dog && s.At == at })
	if n < 0 {
		return
	}
	for _, x := range l.state.Work {
		if x.Dog == i.Dog && x.On == on && x.Duty == "" {
			w.Done, w.Did = true, say.Work(x.Work)+", "+say.Minutes(x.Minutes)
		}
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
	for _, p := range l.plan.views.places(l.plan.Result, sessions[n]) {
		o := option{Value: placeKey(p.On, p.Hands), Words: p.On.Time().Format("Mon 2 Jan")}
		if len(l.plan.Kennel.Hands) > 1 {
			o.Words += ", " + p.Hands
		}
		switch {
		case p.On == on && p.Hands == hands:
			o.Words += ": where it is"
		case p.Why != "":
			o.Words += ": no, " + p.Why
			o.Off = true
		default:
			o.Words += " at " + p.Start.String()
		}
		w.Places = append(w.Places, o)
	}
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

func (d *Desk) saveWeek(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "move")
	if err != nil {
		return err
	}
	dog, at, ok := readSessionKey(f.get("session"))
	if !ok || l.plan == nil {
		return notFound("session")
	}
	s, ok := l.plan.Timetable.SessionAt(dog, at)
	if !ok {
		return sessionGone()
	}
	if f.get("do") == "loose" {
		return d.rearrange(w, r, f, s, s.At.On, "/week", "loosed", fmt.Sprintf("unpinned the session of %s on %s", s.Dog, s.At.On), func(b *book.State) error {
			for i := range b.Sessions {
				if x := &b.Sessions[i]; x.Work == 0 && x.Dog == s.Dog && x.On == s.At.On {
					x.Pinned = false
				}
			}
			return inPlan(b, func(use optimize.Result) (optimize.Result, bool) { return timetable.Loosed(use, s), true })
		})
	}
	to, ok := placeOf(l, s, f)
	if !ok {
		f.Version = l.version
		d.renderWeek(w, r, l, f)
		return nil
	}
	session := kennel.Session{Dog: s.Dog, On: to.On, Start: to.Start, Minutes: s.Minutes(), Hands: to.Hands, Pinned: true}
	for _, a := range s.Areas {
		session.Areas = append(session.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
	}
	what := fmt.Sprintf("pinned the session of %s on %s at %s", s.Dog, to.On, to.Start)
	if to.On != at.On || to.Hands != at.Hands {
		what = fmt.Sprintf("moved the session of %s from %s to %s at %s", s.Dog, at.On, to.On, to.Start)
	}
	return d.rearrange(w, r, f, s, to.On, "/week#"+to.On.String(), "moved", what, func(b *book.State) error {
		b.Sessions = append(withoutSession(b.Sessions, s), book.Session{Session: session})
		return inPlan(b, func(use optimize.Result) (optimize.Result, bool) {
			_, there := use.Timetable.SessionAt(s.Dog, s.At)
			return timetable.Moved(use, s, to), there
		})
	})
}

// rearrange changes one session of the plan in use, in the book's sessions and in the plan.
func (d *Desk) rearrange(w http.ResponseWriter, r *http.Request, f *form, s optimize.SessionIn, to kennel.Date, page, said, what string, do func(*book.State) error) error {
	done, conflict, err := d.carry(r.Context(), edit{
		version: f.Version,
		key:     f.Key,
		lands:   func(book.Done) string { return address(r, page, said) },
		about:   func(b book.State) []fact { return sessionFacts(b, s.Dog, s.At.On, to) },
		do: func(b *book.State) (string, error) {
			b.Sessions = slices.Clone(b.Sessions)
			return what, do(b)
		},
	})
	switch {
	case conflict != nil:
		f.Conflict = conflict
	case err != nil:
		if err := f.take(err, nil); err != nil {
			return err
		}
	default:
		lead(w, r, done.Answer)
		return nil
	}
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	d.renderWeek(w, r, l, f)
	return nil
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

// placeOf is where the form wants the session; false, with the reason in the form, when it can't be there.
func placeOf(l look, s optimize.SessionIn, f *form) (timetable.Place, bool) {
	for _, p := range l.plan.views.places(l.plan.Result, s) {
		switch {
		case placeKey(p.On, p.Hands) != f.get("to"):
		case p.On == s.At.On && p.Hands == s.At.Hands:
			p.Start = s.At.Start
			return p, true // it is pinned where it is
		case p.Why != "":
			f.wrong("to", "It can't be on "+say.Day(p.On, l.today)+": "+p.Why+".")
			return p, false
		default:
			return p, true
		}
	}
	f.wrong("to", "is not a day of the plan")
	return timetable.Place{}, false
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
