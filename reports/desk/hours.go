package desk

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/say"
)

type hoursPage struct {
	frame
	Hands []handsView
	New   *handsView
	Draft *draftView
}

type handsView struct {
	Name   string
	Form   *form
	Days   []fieldView
	Skills []dogBox
	Away   []awayRow
	AwayF  *form
	Open   bool
}

type awayRow struct{ From, Words string }

func (d *Desk) hours(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	if x, f, err := d.draftAsked(r, l, "the hours"); x != nil || err != nil {
		if err == nil {
			d.renderHours(w, r, l, f, x)
		}
		return err
	}
	d.renderHours(w, r, l, nil, nil)
	return nil
}

func (d *Desk) renderHours(w http.ResponseWriter, r *http.Request, l look, f *form, x *draft) {
	p := hoursPage{frame: d.frame(l, r, "Hours")}
	for i, h := range l.state.Kennel.Hands {
		p.Hands = append(p.Hands, handsViewOf(l, h, fmt.Sprintf("hands-%d", i+1), f))
	}
	fresh := kennel.Hands{}
	if len(l.state.Kennel.Hands) == 0 {
		fresh.Name = "Handler"
	}
	v := handsViewOf(l, fresh, "hands-new", f)
	v.Open = v.Open || len(l.state.Kennel.Hands) == 0
	p.New = &v
	status := http.StatusOK
	if f != nil {
		status = f.status()
	}
	if x != nil {
		p.Draft = x.view(l.state.Kennel)
		p.Refresh = p.Draft.Working
	}
	d.render(w, status, "hours", p)
}

// handsViewOf is a pair of hands with its forms. f is the form that was sent, for whomever it is.
func handsViewOf(l look, h kennel.Hands, id string, f *form) handsView {
	was := h.Name
	if id == "hands-new" {
		was = ""
	}
	v := handsView{Name: h.Name, Form: newForm(id, l.version), AwayF: newForm(id+"-away", l.version)}
	v.Form.set("name", h.Name)
	v.Form.set("was", was)
	v.AwayF.set("was", was)
	for day, hours := range h.Hours {
		if hours > 0 {
			v.Form.set(kennel.Weekday(day).Key(), kennel.Number(float64(hours)))
		}
	}
	if h.StripHoursADay > 0 {
		v.Form.set("strip", kennel.Number(float64(h.StripHoursADay)))
	}
	does := h.Does
	if len(does) == 0 {
		does = kennel.Skills()
	}
	for _, s := range does {
		v.Form.Values.Add("does", string(s))
	}
	if f != nil && f.get("was") == was && f.get("do") != "" {
		kind := &v.Form
		if strings.HasSuffix(f.get("do"), "away") || f.get("do") == "back" {
			kind = &v.AwayF
		}
		sent := *f
		sent.ID, sent.Version = (*kind).ID, l.version
		*kind, v.Open = &sent, true
	}
	for day := range kennel.DaysAWeek {
		key := kennel.Weekday(day).Key()
		name := []string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}[day]
		v.Days = append(v.Days, newField(v.Form, key, name, "mode=decimal"))
	}
	for _, s := range kennel.Skills() {
		v.Skills = append(v.Skills, dogBox{string(s), v.Form.ID + "-does-" + string(s), slices.Contains(v.Form.Values["does"], string(s))})
	}
	for _, a := range h.Away {
		if a.To != 0 && a.To < l.today {
			continue
		}
		words := say.Day(a.From, l.today)
		if a.To != a.From {
			words += " to " + say.Day(a.To, l.today)
		}
		if a.Why != "" {
			words += ", " + a.Why
		}
		v.Away = append(v.Away, awayRow{a.From.String(), words})
	}
	return v
}

var hoursFields = map[string]string{
	"name": "name", "strip_hours_a_day": "strip", "does": "does", "to": "to", "from": "from", "mon": "mon", "tue": "tue", "wed": "wed", "thu": "thu",
	"fri": "fri", "sat": "sat", "sun": "sun", "why": "why",
}

func (d *Desk) saveHours(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "hands")
	if err != nil {
		return err
	}
	do := f.get("do")
	if do == "keep" || do == "discard" {
		return d.endDraft(w, r, l, f)
	}
	e := f.hoursEdit(strings.TrimPrefix(do, "try-"))
	if e.do == nil && !f.Bad() {
		return notFound("thing to do with hours")
	}
	if !f.Bad() {
		if strings.HasPrefix(do, "try-") {
			x, err := d.try(r.Context(), "/hours", f, e, l, hoursFields)
			if err != nil {
				return err
			}
			if x != nil {
				back(w, r, draftAddress("/hours", x.id)+"#draft", "")
				return nil
			}
		} else {
			to, err := d.save(r, f, e, "/hours", hoursFields)
			if err != nil {
				return err
			}
			if to != "" {
				lead(w, r, to)
				return nil
			}
		}
		if l, err = d.look(r.Context()); err != nil {
			return err
		}
	}
	d.renderHours(w, r, l, f, nil)
	return nil
}

// hoursEdit is the change that the form asks for; what is wrong is noted in it.
func (f *form) hoursEdit(do string) edit {
	was := f.get("was")
	e := edit{version: f.Version, about: func(s book.State) []fact { return handsFacts(s.Kennel, was) }}
	change := func(what string, edit func(h *kennel.Hands) error) {
		e.do = func(s *book.State) (string, error) {
			i := slices.Index(s.Kennel.HandsNames(), was)
			s.Kennel.Hands = slices.Clone(s.Kennel.Hands)
			if was == "" {
				begin(s)
				s.Kennel.Hands = append(s.Kennel.Hands, kennel.Hands{})
				i = len(s.Kennel.Hands) - 1
			}
			if i < 0 {
				return "", &kennel.InputError{Field: "name", Value: was, What: "is not in the book any more", Try: "to add them as new hands"}
			}
			err := edit(&s.Kennel.Hands[i])
			return what, err
		}
	}
	switch do {
	case "save":
		hands := f.toHands()
		change("set the hours of "+hands.Name, func(h *kennel.Hands) error {
			hands.Away = h.Away
			*h = hands
			return nil
		})
		if was != "" && was != hands.Name {
			renamed := e.do
			e.do = func(s *book.State) (string, error) {
				what, err := renamed(s)
				s.Sessions = slices.Clone(s.Sessions)
				for i := range s.Sessions {
					if s.Sessions[i].Hands == was {
						s.Sessions[i].Hands = hands.Name
					}
				}
				return what, err
			}
		}
	case "drop":
		e.do = func(s *book.State) (string, error) {
			i := slices.Index(s.Kennel.HandsNames(), was)
			if i < 0 {
				return "", notFound("pair of hands")
			}
			s.Kennel.Hands = slices.Delete(slices.Clone(s.Kennel.Hands), i, i+1)
			return "dropped the hands " + was, nil
		}
	case "away":
		span := kennel.Span{From: f.date("from", true), To: f.date("to", false), Why: f.get("why")}
		if span.To == 0 {
			span.To = span.From
		}
		if span.To < span.From {
			f.wrong("to", "is before the first day")
		}
		change(fmt.Sprintf("%s is away from %s to %s", was, span.From, span.To), func(h *kennel.Hands) error {
			h.Away = append(slices.Clone(h.Away), span)
			return nil
		})
	case "back":
		from := f.date("from", true)
		change(fmt.Sprintf("%s is not away from %s", was, from), func(h *kennel.Hands) error {
			n := len(h.Away)
			h.Away = slices.DeleteFunc(slices.Clone(h.Away), func(x kennel.Span) bool { return x.From == from })
			if len(h.Away) == n {
				return notFound("day away")
			}
			return nil
		})
	}
	return e
}

// begin gives a book that holds nothing yet what every kennel has.
func begin(s *book.State) {
	if s.Nothing() && s.Kennel.Units == "" {
		s.Kennel.Name, s.Kennel.Units = "Kennel", kennel.UnitsMillimetres
	}
}

func (f *form) toHands() (h kennel.Hands) {
	if h.Name = f.get("name"); h.Name == "" {
		f.wrong("name", "is missing")
	}
	for day := range kennel.DaysAWeek {
		key := kennel.Weekday(day).Key()
		h.Hours[day] = kennel.Hours(f.number(key, 0))
		if h.Hours[day] < 0 || h.Hours[day] > 24 {
			f.wrong(key, "must be 0 to 24")
		}
	}
	if h.StripHoursADay = kennel.Hours(f.number("strip", 0)); h.StripHoursADay < 0 || h.StripHoursADay > 24 {
		f.wrong("strip", "must be 0 to 24")
	}
	does := f.Values["does"]
	if len(does) == 0 {
		f.wrong("does", "is missing: which work these hands are let near")
	}
	if len(does) < len(kennel.Skills()) {
		for _, s := range does {
			h.Does = append(h.Does, kennel.Skill(s))
		}
	}
	return h
}

// handsFacts are what is told of a pair of hands.
func handsFacts(k kennel.Kennel, name string) (all []fact) {
	if name == "" {
		return nil
	}
	for _, h := range k.Hands {
		if h.Name != name {
			continue
		}
		for day, hours := range h.Hours {
			all = append(all, fact{kennel.Weekday(day).Key(), kennel.Number(float64(hours))})
		}
		does := []string{}
		for _, s := range h.Does {
			does = append(does, string(s))
		}
		all = append(all, fact{"pulling a day", kennel.Number(float64(h.StripHoursADay))}, fact{"does", strings.Join(does, ", ")})
		for _, a := range h.Away {
			all = append(all, fact{"away from " + a.From.String(), "to " + a.To.String() + " " + a.Why})
		}
		return all
	}
	return []fact{{name, "is not in the book"}}
}
