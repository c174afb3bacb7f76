package book

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
)

// decode is the state that the rows tell. The error says which row no kennel can hold.
func decode(c content) (State, error) {
	d := decoder{}
	var s State
	for _, r := range c[tKennel] {
		s.Kennel = kennel.Kennel{
			Name: d.words(r[1]), PlanFrom: d.day(r[2]), Weeks: kennel.Weeks(d.whole(r[3])), TimeZone: d.words(r[4]),
			Units: kennel.Units(d.words(r[5])),
		}
	}
	s.Kennel.Hands = d.hands(c)
	s.Kennel.Dogs = d.dogs(c)
	s.Kennel.Shows = d.shows(c)
	for _, r := range c[tSeen] {
		s.Seen = append(s.Seen, Seen{Dog: d.words(r[0]), Area: d.area(r[1]), On: d.day(r[2]), Work: d.whole(r[3])})
	}
	d.work(c, &s)
	d.sessions(c, &s)
	for _, r := range c[tMeasures] {
		s.Measures = append(s.Measures, Measure{d.whole(r[0]), kennel.Measure{
			Dog: d.words(r[1]), On: d.day(r[2]), Area: kennel.AreaName(d.words(r[3])), Length: kennel.Millimetres(d.real(r[4])), Note: d.words(r[5]),
		}})
	}
	for _, r := range c[tShowables] {
		s.Showables = append(s.Showables, Showable{d.whole(r[0]), kennel.Showable{
			Dog: d.words(r[1]), Area: kennel.AreaName(d.words(r[2])), Pulled: d.day(r[3]), On: d.day(r[4]),
		}})
	}
	for _, r := range c[tAgreed] {
		s.Agreed = Agreed{On: d.day(r[1]), Change: d.whole(r[2])}
	}
	return s, d.err
}

// decoder reads values and keeps the first that can't be read.
type decoder struct{ err error }

func (d *decoder) fail(v any, what string) {
	if d.err == nil {
		d.err = fmt.Errorf("%v in the book is not %s", v, what)
	}
}

func (d *decoder) words(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return v
	}
	d.fail(v, "text")
	return ""
}

func (d *decoder) whole(v any) int64 {
	switch v := v.(type) {
	case nil:
		return 0
	case int64:
		return v
	}
	d.fail(v, "a whole number")
	return 0
}

func (d *decoder) real(v any) float64 {
	f, ok := v.(float64)
	if !ok {
		d.fail(v, "a number")
	}
	return f
}

func (d *decoder) day(v any) kennel.Date {
	s := d.words(v)
	if s == "" {
		return 0
	}
	day, err := kennel.ParseDate(s)
	if err != nil {
		d.fail(v, "a day")
	}
	return day
}

func (d *decoder) clock(v any) kennel.Clock {
	c, err := kennel.ParseClock(d.words(v))
	if err != nil {
		d.fail(v, "a time of day")
	}
	return c
}

func (d *decoder) area(v any) kennel.AreaName {
	if s := d.words(v); s != all {
		return kennel.AreaName(s)
	}
	return AllAreas
}

func (d *decoder) span(r row) kennel.Span {
	return kennel.Span{From: d.day(r[0]), To: d.day(r[1]), Why: d.words(r[2])}
}

// under gathers rows by what they belong to: the first n of their keys.
func under(rows []row, n int) map[string][]row {
	by := map[string][]row{}
	for _, r := range rows {
		k := keyOf(r[:n])
		by[k] = append(by[k], r)
	}
	return by
}

func (d *decoder) hands(c content) (all []kennel.Hands) {
	away := under(c[tHandsAway], 1)
	for _, r := range c[tHands] {
		h := kennel.Hands{Name: d.words(r[0]), StripHoursADay: kennel.Hours(d.real(r[9]))}
		for i := range h.Hours {
			h.Hours[i] = kennel.Hours(d.real(r[2+i]))
		}
		if does := d.words(r[10]); does != "" {
			for _, s := range strings.Split(does, ",") {
				h.Does = append(h.Does, kennel.Skill(s))
			}
		}
		for _, a := range away[keyOf(r[:1])] {
			h.Away = append(h.Away, d.span(a[2:]))
		}
		all = append(all, h)
	}
	return all
}

func (d *decoder) dogs(c content) (list []kennel.Dog) {
	here, layers, duties := under(c[tDogsHere], 1), under(c[tLayers], 1), under(c[tDuties], 1)
	for _, r := range c[tDogs] {
		dog := kennel.Dog{
			Name: d.words(r[0]), Pattern: d.words(r[2]), Born: d.day(r[3]), Owner: d.words(r[4]),
			Coat:     kennel.Coat{Texture: kennel.Texture(d.words(r[5])), Growth: d.real(r[6]), Pace: d.real(r[7]), RollOnly: d.whole(r[8]) != 0},
			Table:    kennel.Table{SetUp: kennel.Minutes(d.real(r[9])), Minutes: kennel.Minutes(d.real(r[10])), AWeek: int(d.whole(r[11]))},
			Priority: d.real(r[12]),
		}
		key := keyOf(r[:1])
		for _, s := range here[key] {
			dog.Here = append(dog.Here, d.span(s[2:]))
		}
		for _, l := range layers[key] {
			d.layer(&dog, l)
		}
		order := kennel.AreaNames()
		slices.SortStableFunc(dog.Areas, func(a, b kennel.AreaCoat) int {
			return cmp.Compare(slices.Index(order, a.Area), slices.Index(order, b.Area))
		})
		for _, x := range duties[key] {
			duty := kennel.Duty{Name: d.words(x[2]), Minutes: kennel.Minutes(d.real(x[3])), Every: kennel.Weeks(d.whole(x[4]))}
			if x[5] != nil {
				duty.Before = &kennel.BeforeShow{From: int(d.whole(x[5])), To: int(d.whole(x[6]))}
			}
			dog.Duties = append(dog.Duties, duty)
		}
		list = append(list, dog)
	}
	return list
}

// layer adds a layer to its area; an area's layers stand together.
func (d *decoder) layer(dog *kennel.Dog, r row) {
	layer := kennel.Layer{Share: kennel.Share(d.real(r[3])), Pulled: d.day(r[4])}
	area := d.area(r[1])
	if area == AllAreas {
		dog.All = append(dog.All, layer)
		return
	}
	if n := len(dog.Areas); n == 0 || dog.Areas[n-1].Area != area {
		dog.Areas = append(dog.Areas, kennel.AreaCoat{Area: area})
	}
	last := &dog.Areas[len(dog.Areas)-1]
	last.Layers = append(last.Layers, layer)
}

func (d *decoder) shows(c content) (list []kennel.Show) {
	dogs := under(c[tShowDogs], 2)
	for _, r := range c[tShows] {
		s := kennel.Show{
			Name: d.words(r[0]), On: d.day(r[1]), Days: int(d.whole(r[3])), EntriesClose: d.day(r[4]), Weight: d.real(r[5]), Chance: d.real(r[6]),
		}
		if d.whole(r[7]) != 0 {
			away := d.span(r[8:])
			s.Away = &away
		}
		for _, x := range dogs[keyOf(r[:2])] {
			s.Dogs = append(s.Dogs, d.words(x[3]))
		}
		list = append(list, s)
	}
	return list
}

func (d *decoder) work(c content, s *State) {
	areas := under(c[tWorkAreas], 1)
	for _, r := range c[tWork] {
		s.Work = append(s.Work, Work{d.whole(r[0]), kennel.Work{
			Dog: d.words(r[1]), On: d.day(r[2]), Hands: d.words(r[3]), Minutes: kennel.Minutes(d.real(r[4])),
			Duty: d.words(r[5]), Stopped: d.whole(r[6]) != 0, Note: d.words(r[7]), Areas: d.pulled(areas[keyOf(r[:1])]),
		}})
	}
}

func (d *decoder) sessions(c content, s *State) {
	areas := under(c[tSessionAreas], 1)
	for _, r := range c[tSessions] {
		s.Sessions = append(s.Sessions, Session{d.whole(r[0]), kennel.Session{
			Dog: d.words(r[1]), On: d.day(r[2]), Start: d.clock(r[3]), Minutes: kennel.Minutes(d.real(r[4])),
			Hands: d.words(r[5]), Pinned: d.whole(r[6]) != 0, Areas: d.pulled(areas[keyOf(r[:1])]),
		}, d.whole(r[7])})
	}
}

func (d *decoder) pulled(rows []row) (all []kennel.Pulled) {
	for _, r := range rows {
		all = append(all, kennel.Pulled{Area: kennel.AreaName(d.words(r[2])), Share: kennel.Share(d.real(r[3]))})
	}
	return all
}
