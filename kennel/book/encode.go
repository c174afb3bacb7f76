package book

import (
	"strings"

	"tuckup/kennel"
)

// all is the area of layers, and of a look at the coat, that hold for every area without its own.
const all = "all"

// encode is the state as rows. Positions count from 0 in each list.
func encode(s State) content {
	var c content
	k := s.Kennel
	if k.Name != "" || k.PlanFrom != 0 || k.Weeks != 0 || k.TimeZone != "" || k.Units != "" {
		c.add(tKennel, int64(1), told(k.Name), day(k.PlanFrom), int64(k.Weeks), told(k.TimeZone), told(string(k.Units)))
	}
	for i, h := range k.Hands {
		c.hands(i, h)
	}
	for i, d := range k.Dogs {
		c.dog(i, d)
	}
	for _, x := range s.Seen {
		c.add(tSeen, x.Dog, areaWord(x.Area), day(x.On), x.Work)
	}
	for i, s := range k.Shows {
		c.show(i, s)
	}
	for _, w := range s.Work {
		c.add(tWork, w.ID, w.Dog, day(w.On), told(w.Hands), float64(w.Minutes), told(w.Duty), yes(w.Stopped), told(w.Note))
		for j, a := range w.Areas {
			c.add(tWorkAreas, w.ID, int64(j), string(a.Area), float64(a.Share))
		}
	}
	for _, m := range s.Measures {
		c.add(tMeasures, m.ID, m.Dog, day(m.On), string(m.Area), float64(m.Length), told(m.Note))
	}
	for _, x := range s.Showables {
		c.add(tShowables, x.ID, x.Dog, string(x.Area), day(x.Pulled), day(x.On))
	}
	for _, x := range s.Sessions {
		c.add(tSessions, x.ID, x.Dog, day(x.On), x.Start.String(), float64(x.Minutes), told(x.Hands), yes(x.Pinned), number(x.Work))
		for j, a := range x.Areas {
			c.add(tSessionAreas, x.ID, int64(j), string(a.Area), float64(a.Share))
		}
	}
	if s.Agreed != (Agreed{}) {
		c.add(tAgreed, int64(1), day(s.Agreed.On), s.Agreed.Change)
	}
	return c
}

func (c *content) add(t int, values ...any) { c[t] = append(c[t], values) }

func (c *content) hands(i int, h kennel.Hands) {
	r := row{h.Name, int64(i)}
	for _, hours := range h.Hours {
		r = append(r, float64(hours))
	}
	does := make([]string, len(h.Does))
	for j, d := range h.Does {
		does[j] = string(d)
	}
	c.add(tHands, append(r, float64(h.StripHoursADay), told(strings.Join(does, ",")))...)
	for j, s := range h.Away {
		c.add(tHandsAway, h.Name, int64(j), day(s.From), day(s.To), told(s.Why))
	}
}

func (c *content) dog(i int, d kennel.Dog) {
	c.add(tDogs, d.Name, int64(i), told(d.Pattern), day(d.Born), told(d.Owner), told(string(d.Coat.Texture)), d.Coat.Growth, d.Coat.Pace,
		yes(d.Coat.RollOnly), float64(d.Table.SetUp), float64(d.Table.Minutes), int64(d.Table.AWeek), d.Priority)
	for j, s := range d.Here {
		c.add(tDogsHere, d.Name, int64(j), day(s.From), day(s.To), told(s.Why))
	}
	c.layers(d.Name, kennel.AreaCoat{Area: AllAreas, Layers: d.All})
	for _, a := range d.Areas {
		c.layers(d.Name, a)
	}
	for j, x := range d.Duties {
		r := row{d.Name, int64(j), told(x.Name), float64(x.Minutes), int64(x.Every), nil, nil}
		if x.Before != nil {
			r[5], r[6] = int64(x.Before.From), int64(x.Before.To)
		}
		c.add(tDuties, r...)
	}
}

func (c *content) layers(dog string, a kennel.AreaCoat) {
	for j, l := range a.Layers {
		c.add(tLayers, dog, areaWord(a.Area), int64(j), float64(l.Share), day(l.Pulled))
	}
}

func (c *content) show(i int, s kennel.Show) {
	away := kennel.Span{}
	if s.Away != nil {
		away = *s.Away
	}
	c.add(tShows, s.Name, day(s.On), int64(i), int64(s.Days), day(s.EntriesClose), s.Weight, s.Chance, yes(s.Away != nil),
		day(away.From), day(away.To), told(away.Why))
	for j, d := range s.Dogs {
		c.add(tShowDogs, s.Name, day(s.On), int64(j), d)
	}
}

// told is text, nil where there is none.
func told(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// number is a number of the book, nil for none.
func number(n int64) any {
	if n == 0 {
		return nil
	}
	return n
}

func day(d kennel.Date) any { return told(d.String()) }

func yes(b bool) any {
	if b {
		return int64(1)
	}
	return int64(0)
}

func areaWord(a kennel.AreaName) any {
	if a == AllAreas {
		return all
	}
	return string(a)
}
