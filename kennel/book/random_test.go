package book

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

// names that mean something to SQL, a spreadsheet, a page or a terminal.
var names = []string{
	"Sorrel", "Moss", "Pewter", "Quill", "'; DROP TABLE dogs; --", `"quoted"`, "a,b", "NULL", "אבשלום", "𝔹🐕", "%_", "Long  name", "1", "null",
}

func someName() *rapid.Generator[string] {
	return rapid.OneOf(rapid.SampledFrom(names), rapid.StringMatching(`[A-Z][a-z]{1,6}`))
}

func someDay() *rapid.Generator[kennel.Date] {
	first, last := kennel.NewDate(1971, 1, 1), kennel.NewDate(2199, 12, 31)
	return rapid.Map(rapid.Int32Range(int32(first), int32(last)), func(d int32) kennel.Date { return kennel.Date(d) })
}

func maybe[T any](t *rapid.T, g *rapid.Generator[T], what string) (v T) {
	if rapid.Bool().Draw(t, what+" told") {
		v = g.Draw(t, what)
	}
	return v
}

func someSpan(t *rapid.T) kennel.Span {
	s := kennel.Span{From: someDay().Draw(t, "from"), To: maybe(t, someDay(), "to"), Why: maybe(t, someName(), "why")}
	if s.To != 0 && s.To < s.From {
		s.From, s.To = s.To, s.From
	}
	return s
}

func list[T any](t *rapid.T, most int, one func() T) (all []T) {
	for range rapid.IntRange(0, most).Draw(t, "how many") {
		all = append(all, one())
	}
	return all
}

func someLayers(t *rapid.T) []kennel.Layer {
	left := 1.0
	return list(t, 3, func() kennel.Layer {
		share := rapid.Float64Range(0.01, 0.5).Draw(t, "share") * left
		left -= share
		return kennel.Layer{Share: kennel.Share(share), Pulled: someDay().Draw(t, "pulled")}
	})
}

func someDog(t *rapid.T, name string) kennel.Dog {
	d := kennel.Dog{
		Name: name, Pattern: rapid.SampledFrom([]string{"wire-fox-terrier", "mine"}).Draw(t, "pattern"), Born: maybe(t, someDay(), "born"),
		Owner: maybe(t, someName(), "owner"), Coat: kennel.Coat{
			Texture: rapid.SampledFrom([]kennel.Texture{"", kennel.TextureHard, kennel.TextureSoft}).Draw(t, "texture"),
			Growth:  rapid.Float64Range(0.5, 2).Draw(t, "growth"), Pace: rapid.Float64Range(0.25, 4).Draw(t, "pace"), RollOnly: rapid.Bool().Draw(t, "roll only"),
		},
		Table:    kennel.Table{SetUp: 5, Minutes: kennel.Minutes(rapid.Float64Range(10, 180).Draw(t, "minutes")), AWeek: rapid.IntRange(0, 7).Draw(t, "a week")},
		Priority: rapid.Float64Range(0.1, 10).Draw(t, "priority"),
		Here:     list(t, 2, func() kennel.Span { return someSpan(t) }), All: someLayers(t),
	}
	for _, a := range kennel.AreaNames() {
		if layers := someLayers(t); rapid.IntRange(0, 5).Draw(t, "own") == 0 && len(layers) > 0 {
			d.Areas = append(d.Areas, kennel.AreaCoat{Area: a, Layers: layers})
		}
	}
	d.Duties = list(t, 2, func() kennel.Duty {
		duty := kennel.Duty{Name: someName().Draw(t, "duty"), Minutes: 10}
		if rapid.Bool().Draw(t, "before") {
			duty.Before = &kennel.BeforeShow{From: rapid.IntRange(0, 9).Draw(t, "days")}
		} else {
			duty.Every = 2
		}
		return duty
	})
	return d
}

func somePulled(t *rapid.T) (all []kennel.Pulled) {
	for _, a := range kennel.AreaNames() {
		if rapid.IntRange(0, 4).Draw(t, "pulled") == 0 {
			all = append(all, kennel.Pulled{Area: a, Share: kennel.Share(rapid.Float64Range(0.001, 1).Draw(t, "share"))})
		}
	}
	return all
}

// free is a name that no dog has, whatever its capitals.
func free(t *rapid.T, taken func(string) bool) string {
	name := someName().Draw(t, "name")
	for n := 2; taken(name); n++ {
		name = fmt.Sprint(name, n)
	}
	return name
}

// edits are random changes that people make, by name.
var edits = []struct {
	name string
	edit func(*rapid.T, *State)
}{
	{"settings", func(t *rapid.T, s *State) {
		s.Kennel.Name, s.Kennel.PlanFrom = someName().Draw(t, "kennel"), maybe(t, someDay(), "plan from")
		s.Kennel.Weeks, s.Kennel.Units = kennel.Weeks(rapid.IntRange(4, 104).Draw(t, "weeks")), kennel.UnitsInches
	}},
	{"dog add", func(t *rapid.T, s *State) {
		name := free(t, func(n string) bool { return slices.ContainsFunc(s.Kennel.Dogs, sameName(n)) })
		at := rapid.SampledFrom([]int{0, len(s.Kennel.Dogs)}).Draw(t, "place")
		s.Kennel.Dogs = slices.Insert(s.Kennel.Dogs, at, someDog(t, name))
		s.Looked(name, AllAreas, someDay().Draw(t, "looked"))
	}},
	{"dog edit", func(t *rapid.T, s *State) {
		for i := range s.Kennel.Dogs {
			if rapid.Bool().Draw(t, "this") {
				s.Kennel.Dogs[i] = someDog(t, s.Kennel.Dogs[i].Name)
			}
		}
	}},
	{"dog gone", func(t *rapid.T, s *State) {
		if n := len(s.Kennel.Dogs); n > 0 {
			dropDog(s, s.Kennel.Dogs[rapid.IntRange(0, n-1).Draw(t, "dog")].Name)
		}
	}},
	{"order", func(_ *rapid.T, s *State) { slices.Reverse(s.Kennel.Dogs); slices.Reverse(s.Kennel.Shows) }},
	{"hands", func(t *rapid.T, s *State) {
		s.Kennel.Hands = []kennel.Hands{{Name: "Handler", StripHoursADay: 4}, {Name: someName().Draw(t, "hands") + " II", Does: []kennel.Skill{kennel.SkillClose, kennel.SkillDuties}}}
		for i := range s.Kennel.Hands[0].Hours {
			s.Kennel.Hands[0].Hours[i] = kennel.Hours(rapid.Float64Range(0, 24).Draw(t, "hours"))
		}
		s.Kennel.Hands[1].Away = list(t, 3, func() kennel.Span { return someSpan(t) })
	}},
	{"show add", func(t *rapid.T, s *State) {
		show := kennel.Show{Name: fmt.Sprint(someName().Draw(t, "show"), len(s.Kennel.Shows)), On: someDay().Draw(t, "on"), Days: 2, Weight: 1.5, Chance: 0.25}
		if rapid.Bool().Draw(t, "away") {
			away := someSpan(t)
			show.Away = &away
		}
		for _, d := range s.Kennel.Dogs {
			if rapid.Bool().Draw(t, "shown") {
				show.Dogs = append(show.Dogs, d.Name)
			}
		}
		s.Kennel.Shows = append(s.Kennel.Shows, show)
	}},
	{"show drop", func(t *rapid.T, s *State) {
		if n := len(s.Kennel.Shows); n > 0 {
			i := rapid.IntRange(0, n-1).Draw(t, "show")
			s.Kennel.Shows = slices.Delete(s.Kennel.Shows, i, i+1)
		}
	}},
	{"work", func(t *rapid.T, s *State) {
		for _, d := range s.Kennel.Dogs {
			s.Work = append(s.Work, Work{Work: kennel.Work{
				Dog: d.Name, On: someDay().Draw(t, "on"), Minutes: 50, Areas: somePulled(t), Stopped: rapid.Bool().Draw(t, "stopped"), Note: maybe(t, someName(), "note"),
			}})
			s.Sessions = append(s.Sessions, Session{Session: kennel.Session{
				Dog: d.Name, On: someDay().Draw(t, "on"), Start: 545, Minutes: 45, Hands: "Handler", Areas: somePulled(t), Pinned: rapid.Bool().Draw(t, "pinned"),
			}})
		}
	}},
	{"plan in use", func(t *rapid.T, s *State) {
		s.Plan = PlanInUse{On: someDay().Draw(t, "on"), Change: 7, Result: []byte(rapid.SampledFrom([]string{"spring", "summer"}).Draw(t, "record"))}
	}},
	{"work gone", func(t *rapid.T, s *State) {
		if n := len(s.Work); n > 0 {
			s.DropWork(s.Work[rapid.IntRange(0, n-1).Draw(t, "work")].ID)
		}
	}},
	{"measures", func(t *rapid.T, s *State) {
		for _, d := range s.Kennel.Dogs {
			s.Measures = append(s.Measures, Measure{Measure: kennel.Measure{Dog: d.Name, On: someDay().Draw(t, "on"), Area: kennel.AreaBack, Length: 31.5}})
			on := someDay().Draw(t, "on")
			s.Showables = append(s.Showables, Showable{Showable: kennel.Showable{Dog: d.Name, On: on, Area: kennel.AreaRibs, Pulled: max(on-1, 365)}})
			s.Looked(d.Name, kennel.AreaBack, on)
		}
	}},
}

// dropDog takes a dog out of the book with all that is written of it.
func dropDog(s *State, name string) {
	s.Kennel.Dogs = slices.DeleteFunc(slices.Clone(s.Kennel.Dogs), func(d kennel.Dog) bool { return d.Name == name })
	s.Kennel.Shows = slices.Clone(s.Kennel.Shows)
	for i := range s.Kennel.Shows {
		show := &s.Kennel.Shows[i]
		if show.Has(name) {
			show.Dogs = slices.DeleteFunc(slices.Clone(show.Dogs), func(d string) bool { return d == name })
		}
	}
	s.onlyOf(func(dog string) bool { return dog != name })
}
