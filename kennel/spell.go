package kennel

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Spell is a run of days in which a dog is not as it usually is: in season, whelping, ill, hurt. Nobody counts on its coat in these days
// (C16: coat poor, don't count on it; second-hand).
type Spell struct {
	From, To Date // both included; a zero To is until further notice
	What     SpellKind
	Growth   float64 // how fast the coat grows in these days, 0.1 to 1.5 of as fast as ever; no figure is published, so it is the handler's
	Table    Answer  // whether the dog may be worked at the table in these days; "" = as the kind has it
}

// SpellKind is why a dog is not as usual.
type SpellKind string

// The kinds of spells.
const (
	SpellSeason   SpellKind = "season"
	SpellWhelping SpellKind = "whelping"
	SpellIllness  SpellKind = "illness"
	SpellInjury   SpellKind = "injury"
	SpellOther    SpellKind = "other"
)

// SpellKinds lists the kinds.
func SpellKinds() []SpellKind {
	return []SpellKind{SpellSeason, SpellWhelping, SpellIllness, SpellInjury, SpellOther}
}

// Vet reports whether the vet decides when such a dog is worked again.
func (k SpellKind) Vet() bool { return k == SpellWhelping || k == SpellIllness || k == SpellInjury }

// Words say it of a dog: "in season", "whelping", "ill".
func (k SpellKind) Words() string {
	switch k {
	case SpellSeason:
		return "in season"
	case SpellWhelping:
		return "in whelp or nursing"
	case SpellIllness:
		return "ill"
	case SpellInjury:
		return "hurt"
	}
	return "not as usual"
}

// Answer is yes, no, or nothing said.
type Answer string

// The answers.
const (
	AnswerYes Answer = "yes"
	AnswerNo  Answer = "no"
)

// UsualSpell is a spell of which nothing is said yet: the coat grows as ever.
func UsualSpell() Spell { return Spell{Growth: 1} }

// Holds reports whether the day lies in the spell.
func (s Spell) Holds(d Date) bool { return d >= s.From && (s.To == 0 || d <= s.To) }

// Stands reports whether the dog may be worked at the table in these days: as was said, else not where the vet decides.
func (s Spell) Stands() bool {
	if s.Table != "" {
		return s.Table == AnswerYes
	}
	return !s.What.Vet()
}

// String is the spell as ParseSpell reads it: "season 2027-03-01 2027-03-21 growth 0.8 table no".
func (s Spell) String() string {
	words := []string{string(s.What), s.From.String()}
	if s.To != 0 {
		words = append(words, s.To.String())
	}
	if s.Growth != UsualSpell().Growth {
		words = append(words, "growth", Number(s.Growth))
	}
	if s.Table != "" {
		words = append(words, "table", string(s.Table))
	}
	return strings.Join(words, " ")
}

// ParseSpell reads a spell as it is said: season 2027-03-01 2027-03-21 growth 0.8 table no. A spell without a second day has no end
// yet. The error is an *InputError.
func ParseSpell(said string) (Spell, error) {
	s := UsualSpell()
	wrong := func(what string) (Spell, error) {
		return Spell{}, &InputError{Field: "spell", Value: said, What: what, Try: "a spell like season 2027-03-01 2027-03-21 growth 0.8, or illness 2027-03-01 table no"}
	}
	w := phrases([]string{said})
	if len(w) == 0 || !slices.Contains(SpellKinds(), SpellKind(folded(w[0]))) {
		return wrong("does not begin with season, whelping, illness, injury or other")
	}
	s.What, w = SpellKind(folded(w[0])), w[1:]
	for len(w) > 0 {
		value := ""
		if len(w) > 1 {
			value = w[1]
		}
		switch word := folded(w[0]); word {
		case "from", "to":
			w = w[1:]
		case "growth":
			g, err := ParseNumber(value)
			if err != nil {
				return wrong("says growth " + value + " where a number like 0.8 belongs")
			}
			s.Growth, w = g, w[2:]
		case "table":
			a, err := ParseAnswer(value)
			if err != nil {
				return wrong("says table " + value + " where yes or no belongs")
			}
			s.Table, w = a, w[2:]
		default:
			d, n, err := dayAhead(w)
			switch {
			case err != nil:
				return wrong("says " + w[0] + " where a date like 2027-03-20 belongs")
			case s.From == 0:
				s.From = d
			case s.To == 0:
				s.To = d
			default:
				return wrong("has more than two days")
			}
			w = w[n:]
		}
	}
	if s.From == 0 {
		return wrong("does not say its first day")
	}
	return s, nil
}

// ParseAnswer reads yes or no. The error is an *InputError.
func ParseAnswer(said string) (Answer, error) {
	switch folded(Unquoted(said)) {
	case "yes", "true":
		return AnswerYes, nil
	case "no", "false":
		return AnswerNo, nil
	}
	return "", &InputError{Field: "answer", Value: said, What: "is neither yes nor no", Try: "yes or no, or leave it out"}
}

// Stands reports whether the dog may be worked at the table on a day: it is in no spell that forbids it.
func (d Dog) Stands(on Date) bool {
	return !slices.ContainsFunc(d.Spells, func(s Spell) bool { return s.Holds(on) && !s.Stands() })
}

// SpellOn is the first spell that holds a day from one to another, both included.
func (d Dog) SpellOn(from, to Date) (Spell, bool) {
	i := slices.IndexFunc(d.Spells, func(s Spell) bool { return s.From <= to && (s.To == 0 || s.To >= from) })
	if i < 0 {
		return Spell{}, false
	}
	return d.Spells[i], true
}

// AtShow is the spell that the dog is in on a day of the show.
func (d Dog) AtShow(s Show) (Spell, bool) { return d.SpellOn(s.On, s.Last()) }

// growthOn is how fast the coat grows on a day, 1 = as ever.
func (d Dog) growthOn(on Date) float64 {
	g := 1.0
	for _, s := range d.Spells {
		if s.Holds(on) && s.Growth > 0 {
			g *= s.Growth
		}
	}
	return g
}

// grownSince is the day since when a coat has grown so many weeks as it grows without spells, seen from a day.
func (d Dog) grownSince(weeks float64, on Date) Date {
	days := DaysAWeek * weeks
	if len(d.Spells) == 0 {
		return on.AddDays(-int(math.Round(days)))
	}
	since := on
	for ; days >= 0.5 && on-since < longestGrown; since-- {
		days -= d.growthOn(since)
	}
	return since
}

// longestGrown is for how many days a coat is followed back. No hair is older and of interest.
const longestGrown = 10 * 366

// WeeksGrown is how many weeks' growth, as it is without spells, a coat has from the evening of a day to that of another.
func (d Dog) WeeksGrown(from, to Date) float64 {
	days := float64(to - from)
	if len(d.Spells) > 0 && to-from < longestGrown {
		days = 0
		for day := from + 1; day <= to; day++ {
			days += d.growthOn(day)
		}
	}
	return days / DaysAWeek
}

// InSpell is a dog named for a show in the days of a spell.
type InSpell struct {
	Dog   string
	Show  Show
	Spell Spell

	field string
}

// ShowsInSpells are the shows from a day on at which a dog that is named for them is in a spell, by show and dog.
func ShowsInSpells(k Kennel, from Date) (all []InSpell) {
	for i, s := range k.Shows {
		if s.Last() < from {
			continue
		}
		for j, name := range s.Dogs {
			for _, d := range k.Dogs {
				if spell, in := d.AtShow(s); in && d.Name == name {
					all = append(all, InSpell{name, s, spell, fmt.Sprintf("shows[%d].dogs[%d]", i, j)})
				}
			}
		}
	}
	return all
}

// Words say what is to be decided: "Moss is in season then (1 March to 21 March): ..". day writes a day.
func (x InSpell) Words(day func(Date) string) string {
	days := "from " + day(x.Spell.From) + " on"
	if x.Spell.To != 0 {
		days = day(x.Spell.From) + " to " + day(x.Spell.To)
	}
	ask := "nothing is pulled for it"
	if x.Show.Entered() {
		ask += "; it is entered: withdraw it, or change the days of the spell if it will be shown"
	}
	if x.Spell.What.Vet() {
		ask += "; the vet decides"
	}
	return fmt.Sprintf("%s is %s then (%s), and nobody can count on its coat: %s", x.Dog, x.Spell.What.Words(), days, ask)
}
