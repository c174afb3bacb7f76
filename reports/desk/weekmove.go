package desk

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/optimize/timetable"
	"tuckup/reports/say"
)

// The ways to move a session, as the page's address and its forms name them.
const (
	doSee  = "see"  // what changes is asked for
	doMove = "move" // to a place that is free, or changing places with another session
	doRoom = "room" // to a full day: the rest is planned around it
	toRoom = "\x1f" + doRoom
)

// movingView is what moving a session changes, before it is taken.
type movingView struct {
	Dog, Key, To string
	Words        []string
	Do, Button   string
	Of           kennel.Date
	Version      int64
}

// way is one way to move a session.
type way struct {
	place timetable.Place
	swap  *timetable.Swap
	room  bool
}

// placeOptions are the days to which a session can be moved, each way that there is, and why it can't go where it can't.
func placeOptions(l look, s optimize.SessionIn) (all []option) {
	for _, p := range l.plan.views.places(l.plan.Result, s) {
		day := p.On.Time().Format("Mon 2 Jan")
		if len(l.plan.Kennel.Hands) > 1 {
			day += ", " + p.Hands
		}
		to := placeKey(p.On, p.Hands)
		switch {
		case p.On == s.At.On && p.Hands == s.At.Hands:
			all = append(all, option{Value: to, Words: day + ": where it is"})
		case p.Why == "":
			all = append(all, option{Value: to, Words: day + ": free at " + p.Start.String()})
		case len(p.Swaps) == 0 && !p.Room:
			all = append(all, option{Value: to, Words: day + ": no, " + p.Why, Off: true})
		}
		for _, w := range p.Swaps {
			all = append(all, option{Value: swapKey(to, w), Words: fmt.Sprintf("%s: swap with %s, %s", day, w.With.Dog, say.Minutes(w.With.Minutes()))})
		}
		switch {
		case p.Full && p.Room:
			all = append(all, option{Value: to + toRoom, Words: day + ": full; make room, plan the rest around it"})
		case p.Room:
			all = append(all, option{Value: to + toRoom, Words: day + ": " + p.Why + "; plan the rest around it"})
		}
	}
	slices.SortStableFunc(all, func(a, b option) int { return btoi(a.Off) - btoi(b.Off) }) // what can't be is last
	return all
}

func swapKey(to string, w timetable.Swap) string {
	return to + "\x1f" + sessionKey(w.With.Dog, w.With.At)
}

// wayTo is the way that a form asks for; false with the reason why it can't be.
func wayTo(l look, s optimize.SessionIn, to string) (x way, why string) {
	for _, p := range l.plan.views.places(l.plan.Result, s) {
		key := placeKey(p.On, p.Hands)
		if to != key && !strings.HasPrefix(to, key+"\x1f") {
			continue
		}
		x.place = p
		switch {
		case p.On == s.At.On && p.Hands == s.At.Hands:
			x.place.Start = s.At.Start // it is pinned where it is
			return x, ""
		case to == key && p.Why == "":
			return x, ""
		case to == key+toRoom && p.Room:
			x.room = true
			return x, ""
		}
		for _, w := range p.Swaps {
			if to == swapKey(key, w) {
				x.swap, x.place.Start = &w, w.Start
				return x, ""
			}
		}
		if p.Why == "" {
			return x, "The day has changed meanwhile: it is free now."
		}
		return x, "It can't be on " + say.Day(p.On, l.today) + ": " + p.Why + "."
	}
	return x, "is not a day of the plan"
}

// movingAsked is the move that an address asks about; nil where it asks about none.
func movingAsked(r *http.Request, l look) (*movingView, error) {
	q := r.URL.Query()
	if q.Get("session") == "" {
		return nil, nil
	}
	s, err := sessionAsked(l, q.Get("session"))
	if err != nil {
		return nil, err
	}
	x, why := wayTo(l, s, q.Get("to"))
	if why != "" {
		return nil, sessionGone()
	}
	v := &movingView{Dog: s.Dog, Key: q.Get("session"), To: q.Get("to"), Words: x.words(l, s), Do: doMove, Button: "Take it", Of: s.At.On.Monday(), Version: l.version}
	if x.room {
		v.Do, v.Button = doRoom, "Plan the rest around it"
	}
	return v, nil
}

// words say what the move changes.
func (x way) words(l look, s optimize.SessionIn) (all []string) {
	at := func(on kennel.Date, start kennel.Clock, hands string) string {
		words := say.Day(on, l.today) + " at " + start.String()
		if len(l.plan.Kennel.Hands) > 1 {
			words += " with " + hands
		}
		return words
	}
	p := x.place
	if p.On == s.At.On && p.Hands == s.At.Hands {
		return []string{fmt.Sprintf("%s stays on %s and is pinned: no plan moves it.", s.Dog, at(s.At.On, s.At.Start, s.At.Hands))}
	}
	all = append(all, fmt.Sprintf("%s, %s, goes from %s to %s and is pinned there.", s.Dog, say.Minutes(s.Minutes()), at(s.At.On, s.At.Start, s.At.Hands), at(p.On, p.Start, p.Hands)))
	switch {
	case x.room:
		words := say.FirstUpper(p.Why) + "."
		if p.Full {
			words = "That day is full: " + p.Why + "."
		}
		all = append(all, words+" The rest is planned around it; what moves and what falls out you see before you take it.")
		if others := othersOn(l, p, s.Dog); len(others) > 0 {
			all = append(all, "On that day now: "+strings.Join(others, ", ")+".")
		}
		return all
	case x.swap != nil:
		w := x.swap.With
		all = append(all, fmt.Sprintf("%s, %s, goes from %s to %s.", w.Dog, say.Minutes(w.Minutes()), at(w.At.On, w.At.Start, w.At.Hands), at(s.At.On, x.swap.Back, s.At.Hands)))
	}
	all = append(all, "Nothing falls out, and nothing else moves.")
	all = append(all, x.costs(l, s)...)
	if bath := bathBefore(l, s); bath != 0 && p.On != s.At.On {
		all = append(all, "Its lifting bath stays on "+say.Day(bath, l.today)+" until you plan again.")
	}
	return all
}

// costs say which dog is less or more ready for which show when the move is made, what is lost first.
func (x way) costs(l look, s optimize.SessionIn) (all []string) {
	shifts := []timetable.Shift{{Session: s, To: x.place.On}}
	if x.swap != nil {
		shifts = append(shifts, timetable.Shift{Session: x.swap.With, To: s.At.On})
	}
	costs := timetable.Costs(l.plan.Result, shifts...)
	if len(costs) == 0 {
		return []string{"Every dog is as ready for its shows as before."}
	}
	slices.SortStableFunc(costs, func(a, b timetable.Cost) int { return cmp.Compare(a.After-a.Before, b.After-b.Before) })
	for _, c := range costs {
		words := fmt.Sprintf("%s for %s (%s): ready %s, before %s", c.Dog, c.Show, say.Day(c.On, l.today), kennel.ScoreWords(c.After), kennel.ScoreWords(c.Before))
		switch ready := c.After >= kennel.ReadyScore; {
		case !ready && c.Before >= kennel.ReadyScore:
			words += "; not in coat any more"
		case ready && c.Before < kennel.ReadyScore:
			words += "; in coat then"
		}
		all = append(all, words+".")
	}
	return all
}

// othersOn is what else the hands have on the day of a place.
func othersOn(l look, p timetable.Place, but string) (all []string) {
	for _, d := range l.plan.Timetable.Days {
		for _, s := range d.Sessions() {
			if d.On == p.On && s.At.Hands == p.Hands && s.Dog != but {
				all = append(all, s.Dog+" "+say.Minutes(s.Minutes()))
			}
		}
	}
	return all
}

// bathBefore is the day of the lifting bath for a session; 0 = there is none.
func bathBefore(l look, s optimize.SessionIn) kennel.Date {
	const before = 2 // days
	for _, d := range l.plan.Timetable.Days {
		if d.On < s.At.On.AddDays(-before) || d.On >= s.At.On {
			continue
		}
		for _, h := range d.Hands {
			for _, i := range h.Items {
				if i.Kind == optimize.ItemBath && i.Dog == s.Dog {
					return d.On
				}
			}
		}
	}
	return 0
}

// sessionAsked is the session with the key.
func sessionAsked(l look, key string) (optimize.SessionIn, error) {
	dog, at, ok := readSessionKey(key)
	if !ok || l.plan == nil {
		return optimize.SessionIn{}, notFound("session")
	}
	s, ok := l.plan.Timetable.SessionAt(dog, at)
	if !ok {
		return s, sessionGone()
	}
	return s, nil
}

func (d *Desk) saveWeek(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "move")
	if err != nil {
		return err
	}
	if do := f.get("do"); do == "keep" || do == "discard" {
		return d.endDraft(w, r, l, f)
	}
	s, err := sessionAsked(l, f.get("session"))
	if err != nil {
		return err
	}
	if f.get("do") == "loose" {
		about := func(b book.State) []fact { return sessionFacts(b, s.Dog, s.At.On) }
		what := fmt.Sprintf("unpinned the session of %s on %s", s.Dog, s.At.On)
		return d.rearrange(w, r, f, about, weekPath(s.At.On.Monday(), ""), "loosed", what, func(b *book.State) error {
			for i := range b.Sessions {
				if x := &b.Sessions[i]; x.Work == 0 && x.Dog == s.Dog && x.On == s.At.On {
					x.Pinned = false
				}
			}
			return inPlan(b, func(use optimize.Result) (optimize.Result, bool) { return timetable.Loosed(use, s), true })
		})
	}
	x, why := wayTo(l, s, f.get("to"))
	if why != "" {
		f.wrong("to", why)
		f.Version = l.version
		return d.renderWeek(w, r, l, f, nil)
	}
	switch f.get("do") {
	case doSee:
		q := url.Values{"of": {s.At.On.Monday().String()}, "session": {f.get("session")}, "to": {f.get("to")}}
		back(w, r, "/week?"+q.Encode()+"#moving", "")
		return nil
	case doRoom:
		return d.makeRoom(w, r, f, l, s, x)
	}
	return d.moveSession(w, r, f, s, x)
}

// facts are the sessions that a move is about.
func (x way) facts(s optimize.SessionIn) func(book.State) []fact {
	return func(b book.State) []fact {
		all := sessionFacts(b, s.Dog, s.At.On, x.place.On)
		if x.swap != nil {
			all = append(all, sessionFacts(b, x.swap.With.Dog, s.At.On, x.place.On)...)
		}
		return all
	}
}

// session is a session of the plan as the book keeps it, at another place.
func sessionTo(s optimize.SessionIn, on kennel.Date, start kennel.Clock, hands string, pinned bool) book.Session {
	x := kennel.Session{Dog: s.Dog, On: on, Start: start, Minutes: s.Minutes(), Hands: hands, Pinned: pinned}
	for _, a := range s.Areas {
		x.Areas = append(x.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
	}
	return book.Session{Session: x}
}

// moveSession moves a session in the plan in use: to a free place, or changing places with another.
func (d *Desk) moveSession(w http.ResponseWriter, r *http.Request, f *form, s optimize.SessionIn, x way) error {
	to := x.place
	what := fmt.Sprintf("pinned the session of %s on %s at %s", s.Dog, to.On, to.Start)
	if to.On != s.At.On || to.Hands != s.At.Hands {
		what = fmt.Sprintf("moved the session of %s from %s to %s at %s", s.Dog, s.At.On, to.On, to.Start)
	}
	if x.swap != nil {
		what += fmt.Sprintf(", and that of %s to %s at %s", x.swap.With.Dog, s.At.On, x.swap.Back)
	}
	page := weekPath(to.On.Monday(), "") + "#" + to.On.String()
	return d.rearrange(w, r, f, x.facts(s), page, "moved", what, func(b *book.State) error {
		b.Sessions = withoutSession(b.Sessions, s)
		if x.swap != nil {
			b.Sessions = append(withoutSession(b.Sessions, x.swap.With), sessionTo(x.swap.With, s.At.On, x.swap.Back, s.At.Hands, false))
		}
		b.Sessions = append(b.Sessions, sessionTo(s, to.On, to.Start, to.Hands, true))
		return inPlan(b, func(use optimize.Result) (optimize.Result, bool) {
			_, there := use.Timetable.SessionAt(s.Dog, s.At)
			if x.swap == nil {
				return timetable.Moved(use, s, to), there
			}
			_, both := use.Timetable.SessionAt(x.swap.With.Dog, x.swap.With.At)
			return timetable.Swapped(use, s, to, *x.swap), there && both
		})
	})
}

// makeRoom plans the string with the session pinned on a full day, for a look at what that brings.
func (d *Desk) makeRoom(w http.ResponseWriter, r *http.Request, f *form, l look, s optimize.SessionIn, x way) error {
	e := edit{version: f.Version, about: x.facts(s), do: func(b *book.State) (string, error) {
		b.Sessions = append(withoutSession(slices.Clone(b.Sessions), s), sessionTo(s, x.place.On, x.place.Start, x.place.Hands, true))
		return fmt.Sprintf("moved the session of %s from %s to %s and planned the rest around it", s.Dog, s.At.On, x.place.On), nil
	}}
	made, err := d.try(r.Context(), weekPath(s.At.On.Monday(), ""), f, e, l, nil)
	if err != nil {
		return err
	}
	if made == nil {
		return d.renderWeek(w, r, l, f, nil)
	}
	back(w, r, draftAddress(made.page, made.id)+"#draft", "")
	return nil
}

// rearrange changes sessions of the plan in use, in the book's sessions and in the plan.
func (d *Desk) rearrange(w http.ResponseWriter, r *http.Request, f *form, about func(book.State) []fact, page, said, what string, do func(*book.State) error) error {
	done, conflict, err := d.carry(r.Context(), edit{
		version: f.Version,
		key:     f.Key,
		lands:   func(book.Done) string { return address(r, page, said) },
		about:   about,
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
	return d.renderWeek(w, r, l, f, nil)
}
