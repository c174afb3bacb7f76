package desk

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
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
	Fields []fieldView // but for the name, which stands above the days
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
	fillFields(v.Form, fields.Hands, h)
	v.Form.set("was", was)
	v.AwayF.set("was", was)
	for day, hours := range h.Hours {
		if hours > 0 {
			v.Form.set(kennel.Weekday(day).Key(), kennel.Number(float64(hours)))
		}
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
	v.Days = weekdayFields(v.Form)
	v.Fields = fieldViews(v.Form, fields.Hands.Only("strip_hours_a_day"))
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
