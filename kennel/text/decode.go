package text

import (
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // zone names are checked alike on machines that have no zones of their own

	"github.com/goccy/go-yaml/ast"

	"tuckup/kennel"
)

// What a kennel file means where it says nothing.
const (
	usualFactor  = 1 // priority, growth, pace, weight, chance
	usualDays    = 1
	usualSetUp   = 12 // minutes
	usualSession = 75 // minutes
	usualAWeek   = 2
)

func (r *reader) kennel(root ast.Node) kennel.Kennel {
	m := r.value("", root, place{line: 1, column: 1}).
		mapping("kennel", "plan_from", "weeks", "time_zone", "units", "hands", "dogs", "shows")
	k := kennel.Kennel{
		Name:     m.need("kennel", "kennel: and its name").text(),
		PlanFrom: m.get("plan_from").date(),
		Weeks:    kennel.Weeks(m.get("weeks").above0(m.get("weeks").weeks())),
		TimeZone: m.get("time_zone").zone(),
		Units:    kennel.UnitsMillimetres,
	}
	if u := m.get("units"); u.given() {
		k.Units = units(u.text())
	}
	for _, v := range m.get("hands").list() {
		k.Hands = append(k.Hands, hands(v))
	}
	for _, v := range m.get("dogs").list() {
		k.Dogs = append(k.Dogs, dog(v))
	}
	for _, v := range m.get("shows").list() {
		k.Shows = append(k.Shows, show(v))
	}
	namedAlike(k)
	return k
}

// namedAlike gives the dogs of shows their names with the capitals that they have under dogs.
func namedAlike(k kennel.Kennel) {
	names := map[string]string{}
	for _, d := range k.Dogs {
		names[strings.ToLower(strings.TrimSpace(d.Name))] = d.Name
	}
	for _, s := range k.Shows {
		for i, d := range s.Dogs {
			if name, known := names[strings.ToLower(strings.TrimSpace(d))]; known {
				s.Dogs[i] = name
			}
		}
	}
}

// units are the units of lengths by their short or their long name.
func units(name string) kennel.Units {
	switch u := strings.ToLower(name); u {
	case "in", "inch", "inches":
		return kennel.UnitsInches
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return kennel.UnitsMillimetres
	}
	return kennel.Units(name)
}

// above0 refuses a 0 where leaving the line out says something else.
func (v value) above0(n int) int {
	if v.given() && n == 0 {
		v.fail("can't be 0", "a number above 0, or leave it out for the usual")
	}
	return n
}

// zone is the IANA name of a time zone.
func (v value) zone() string {
	name := v.text()
	if _, err := time.LoadLocation(name); err != nil || name == time.Local.String() {
		v.fail("is not a time zone that is known", "a continent and a town like Europe/Dublin; leave it out for the zone of this machine")
	}
	return name
}

func hands(v value) kennel.Hands {
	m := v.mapping("name", "hours", "strip_hours_a_day", "does", "away")
	h := kennel.Hands{
		Name: m.need("name", "name: and who it is").text(),
		Away: spans(m.get("away")),
	}
	days := kennel.Weekdays()
	hours := m.get("hours").mapping(days[:]...)
	for d := range h.Hours {
		h.Hours[d] = hours.get(days[d]).hours()
	}
	strip := m.get("strip_hours_a_day")
	h.StripHoursADay = strip.hours()
	if strip.given() && h.StripHoursADay == 0 {
		strip.above0(0)
	}
	does := m.get("does")
	for _, s := range does.list() {
		h.Does = append(h.Does, kennel.Skill(s.text()))
	}
	if does.given() && h.Does == nil {
		does.fail("names no work", "[jacket, close, furnishings, duties] or some of them; leave it out for all")
	}
	return h
}

func dog(v value) kennel.Dog {
	m := v.mapping("name", "pattern", "born", "owner", "coat", "table", "priority", "here", "areas", "duties")
	d := kennel.Dog{
		Name:     m.need("name", "name: and the dog's name").text(),
		Pattern:  m.need("pattern", "pattern: and one that `tuckup pattern list` names").text(),
		Born:     m.get("born").date(),
		Owner:    m.get("owner").text(),
		Priority: m.get("priority").number(usualFactor),
		Here:     spans(m.get("here")),
	}
	coat := m.get("coat").mapping("texture", "growth", "pace", "roll_only")
	d.Coat = kennel.Coat{
		Texture:  kennel.Texture(coat.get("texture").text()),
		Growth:   coat.get("growth").number(usualFactor),
		Pace:     coat.get("pace").number(usualFactor),
		RollOnly: coat.get("roll_only").yes(),
	}
	table := m.get("table").mapping("set_up", "minutes", "a_week")
	d.Table = kennel.Table{
		SetUp:   table.get("set_up").minutes(usualSetUp),
		Minutes: table.get("minutes").minutes(usualSession),
		AWeek:   table.get("a_week").whole(usualAWeek),
	}
	d.All, d.Areas = areas(m.get("areas"))
	for _, v := range m.get("duties").list() {
		d.Duties = append(d.Duties, duty(v))
	}
	return d
}

// areas are the layers on every area that is not named, and on those that are, in the order of the trade.
func areas(v value) (all []kennel.Layer, named []kennel.AreaCoat) {
	const every = "all"
	known := []string{every}
	for _, a := range kennel.AreaNames() {
		known = append(known, string(a))
	}
	keys, values := v.pairs()
	seen := map[string]bool{}
	for i, key := range keys {
		area := strings.NewReplacer("-", " ", "_", " ").Replace(key)
		at := values[i]
		switch {
		case !slices.Contains(known, area):
			at.unknown("is not an area of the coat", kennel.Nearest(area, known, nearAreas), known)
			continue
		case seen[area]:
			at.at = at.key
			at.fail("is there twice", "leave one of the two out")
			continue
		}
		seen[area] = true
		at = v.r.value(join(v.path, area), at.node, at.key)
		if area == every {
			all = layers(at)
		} else {
			named = append(named, kennel.AreaCoat{Area: kennel.AreaName(area), Layers: layers(at)})
		}
	}
	order := kennel.AreaNames()
	slices.SortFunc(named, func(a, b kennel.AreaCoat) int {
		return slices.Index(order, a.Area) - slices.Index(order, b.Area)
	})
	return all, named
}

func layers(v value) (all []kennel.Layer) {
	for _, item := range v.list() {
		m := item.mapping("share", "pulled")
		all = append(all, kennel.Layer{
			Share:  m.need("share", "share: and a part of the area, above 0, at most 1").share(),
			Pulled: m.need("pulled", "pulled: and a date like 2027-03-20").date(),
		})
	}
	return all
}

func duty(v value) kennel.Duty {
	m := v.mapping("name", "minutes", "every", "before_show")
	d := kennel.Duty{
		Name:    m.need("name", "name: and what it is, like nails").text(),
		Minutes: m.need("minutes", "minutes: and how long it takes, like 10").minutes(0),
	}
	every, before := m.get("every"), m.get("before_show")
	if every.given() {
		days := every.days()
		if days%kennel.DaysAWeek != 0 {
			every.fail("is not a number of whole weeks", "weeks like 2w")
		}
		d.Every = kennel.Weeks(every.above0(days) / kennel.DaysAWeek)
	}
	if before.given() {
		m := before.mapping("from", "to")
		d.Before = &kennel.BeforeShow{
			From: m.need("from", "from: and days before the show, like 10d").days(),
			To:   m.need("to", "to: and days before the show, like 7d").days(),
		}
	}
	return d
}

func show(v value) kennel.Show {
	m := v.mapping("name", "on", "days", "entries_close", "weight", "chance", "away", "dogs")
	s := kennel.Show{
		Name:         m.need("name", "name: and the show's name").text(),
		On:           m.need("on", "on: and a date like 2027-03-20").date(),
		Days:         m.get("days").whole(usualDays),
		EntriesClose: m.get("entries_close").date(),
		Weight:       m.get("weight").number(usualFactor),
		Chance:       m.get("chance").chance(usualFactor),
	}
	if away := m.get("away"); away.given() {
		span := span(away, "from", "to")
		s.Away = &span
	}
	for _, d := range m.get("dogs").list() {
		s.Dogs = append(s.Dogs, d.text())
	}
	return s
}

func spans(v value) (all []kennel.Span) {
	for _, item := range v.list() {
		all = append(all, span(item))
	}
	return all
}

// span is a run of days. It has one end at least, and those that it needs.
func span(v value, needs ...string) kennel.Span {
	m := v.mapping("from", "to", "why")
	for _, key := range needs {
		m.need(key, key+": and a date like 2027-03-20")
	}
	from, to := m.get("from"), m.get("to")
	if m.sound && !from.given() && !to.given() {
		v.fail("has neither from nor to", "{from: 2027-02-11, to: 2027-02-15}")
	}
	return kennel.Span{From: from.date(), To: to.date(), Why: m.get("why").text()}
}
