package desk

import (
	"net/http"
	"slices"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/reports/desk/assets"
)

type beginKennelPage struct {
	beginPage
	Form   *form
	Days   []fieldView
	More   int    // other pairs of hands
	Script string // address of the script that guesses the time zone
}

// kennelFields are the names that the form has for what the book says of kennel and hands.
var kennelFields = map[string]string{"kennel": "kennel", "time_zone": "time_zone", "name": "name", "hours": "mon"}

func (d *Desk) beginKennel(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	f := newForm("kennel", l.version)
	k := l.state.Kennel
	f.set("kennel", k.Name)
	if l.state.Nothing() || k.Name == book.UsualName {
		f.set("kennel", "")
	}
	f.set("time_zone", k.TimeZone)
	h := kennel.Hands{Name: "Handler"}
	if len(k.Hands) > 0 {
		h = k.Hands[0]
	}
	f.set("name", h.Name)
	for day, hours := range h.Hours {
		if hours > 0 {
			f.set(kennel.Weekday(day).Key(), kennel.Number(float64(hours)))
		}
	}
	d.renderBeginKennel(w, r, l, f)
	return nil
}

func (d *Desk) renderBeginKennel(w http.ResponseWriter, r *http.Request, l look, f *form) {
	d.render(w, f.status(), "beginkennel", beginKennelPage{
		beginPage: d.beginning(l, r, stepKennel), Form: f, Days: weekdayFields(f), More: max(0, len(l.state.Kennel.Hands)-1), Script: assets.Path("zone.js"),
	})
}

// kennelFacts are what the first step asks.
func kennelFacts(s book.State) []fact {
	all := []fact{{"kennel", s.Kennel.Name}, {"time zone", s.Kennel.TimeZone}}
	if len(s.Kennel.Hands) > 0 {
		all = append(all, factsOf(fields.Hands, s.Kennel.Hands[0])...)
	}
	return all
}

func (d *Desk) saveBeginKennel(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "kennel")
	if err != nil {
		return err
	}
	name, zone := f.get("kennel"), f.get("time_zone")
	if name == "" {
		f.wrong("kennel", "is missing: it is printed on every sheet and letter")
	}
	if _, err := time.LoadLocation(zone); err != nil || zone == time.Local.String() {
		f.wrong("time_zone", "is not a time zone. Try: a name like Europe/Dublin, or leave it empty for this computer's")
	}
	if f.get("name") == "" {
		f.wrong("name", "is missing: who does the work")
	}
	hours := f.weekHours()
	if hours == [kennel.DaysAWeek]kennel.Hours{} && !f.Bad() {
		f.wrong("mon", "no day has any hours, so nothing could be planned. Try: 2 on a day you work")
	}
	if !f.Bad() {
		now, done, err := d.saved(w, r, f, edit{
			version: f.Version, about: kennelFacts,
			do: func(s *book.State) (string, error) {
				s.Begin()
				s.Kennel.Name, s.Kennel.TimeZone = name, zone
				s.Kennel.Hands = slices.Clone(s.Kennel.Hands)
				if len(s.Kennel.Hands) == 0 {
					s.Kennel.Hands = append(s.Kennel.Hands, kennel.Hands{Name: f.get("name")})
				}
				if was := s.Kennel.Hands[0].Name; was != f.get("name") {
					renameHands(s, was, f.get("name"))
				}
				s.Kennel.Hands[0].Hours = hours
				return "set the kennel " + name + " and the hours of " + f.get("name"), nil
			},
		}, beginNames[stepDogs].path, kennelFields)
		if err != nil || done {
			return err
		}
		l = now
	}
	f.Version = l.version
	d.renderBeginKennel(w, r, l, f)
	return nil
}
