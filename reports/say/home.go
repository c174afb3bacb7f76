package say

import (
	"fmt"

	"tuckup/kennel"
)

// HomeCard is what a dog's people are given while it is not in hand.
type HomeCard struct {
	Dog, RingName, Owner string
	Days                 kennel.Span // From is the first day out of hand, To the last; zero is not known
	Do, Leave, Look      []string    // what to do, what to leave, what to look at
	Back                 string      // when it is back, and what for
}

// Home is the card of a dog for days on which it is not in hand. today is the day on which it is written. Common practice, but for what
// else is said: the bath (C15), bare skin (a grooming guide; seen), and when to see a vet (slow regrowth can be hormonal: Credille et al.
// 2001; seen for that).
func Home(k kennel.Kennel, d kennel.Dog, p kennel.Pattern, days kennel.Span, today kennel.Date) HomeCard {
	c := HomeCard{Dog: d.Name, RingName: d.RingName, Owner: d.Owner, Days: days}
	if !p.Care.None() {
		c.Do = append(c.Do, "Comb legs, beard and furnishings twice a week, down to the skin, a knot first with the fingers. Comb beard and whiskers after meals.")
	}
	c.Do = append(c.Do,
		"Go over the jacket with a soft brush once a week, the way the hair lies.",
		"Rub mud off when it is dry; rinse feet and legs with plain water, and dry them.",
		"Take a picture from the side once a week, standing, in daylight, and send it.",
	)
	c.Leave = []string{
		"No bath: it lifts the jacket, and that takes two to three weeks to lie flat again.",
		"Nothing is pulled, cut, clipped or raked, not one hair, and not by a groomer either.",
		"No oil, powder or spray in the coat.",
	}
	c.Look = []string{
		"Red, hot, broken or sore skin, a lump, pain, or hair that falls out: ask your vet first, then ring.",
		"Legs or beard that are chewed or matted: ring; what is lost there takes most of a year to come back.",
		"Where the skin is bare after stripping, keep it out of strong sun, and warm in the cold.",
	}
	for _, s := range d.Spells {
		if (days.To == 0 || s.From <= days.To) && (s.To == 0 || s.To >= max(days.From, today)) {
			c.Look = append(c.Look, spellAtHome(d.Name, s, today))
		}
	}
	c.Back = backWords(k, d, days, today)
	return c
}

// spellAtHome says of a spell what its people need.
func spellAtHome(dog string, s kennel.Spell, today kennel.Date) string {
	words := fmt.Sprintf("%s is %s from %s", dog, s.What.Words(), Day(s.From, today))
	if s.To != 0 {
		words += " to " + Day(s.To, today)
	}
	if s.What.Vet() {
		return words + ": the vet decides what it may do, and when it is worked again. Hair that is lost or soft then comes back: leave it."
	}
	return words + ": the coat may be poor for it. Leave it; say when it is over."
}

// backWords say when the dog is back, and the first show after that.
func backWords(k kennel.Kennel, d kennel.Dog, days kennel.Span, today kennel.Date) string {
	if days.To == 0 {
		return "No day is fixed on which it is back. Ring before you change anything about the coat."
	}
	back := days.To + 1
	words := "It is back on " + Day(back, today)
	var next *kennel.Show
	for i, s := range k.Shows {
		if s.Has(d.Name) && s.On >= back && (next == nil || s.On < next.On) {
			next = &k.Shows[i]
		}
	}
	if next == nil {
		return words + ". Ring if that changes."
	}
	return fmt.Sprintf("%s; its next show is %s on %s, so every day counts. Ring if that changes.", words, next.Name, Day(next.On, today))
}

// Parts are the card's lists with their headings.
func (c HomeCard) Parts() []struct {
	Title string
	Lines []string
} {
	return []struct {
		Title string
		Lines []string
	}{{"To do", c.Do}, {"To leave", c.Leave}, {"To look at", c.Look}, {"Back", []string{c.Back}}}
}

// DaysWords say when the card holds.
func (c HomeCard) DaysWords(today kennel.Date) string {
	switch {
	case c.Days.From == 0 && c.Days.To == 0:
		return "until further notice"
	case c.Days.To == 0:
		return "from " + Day(c.Days.From, today)
	case c.Days.From == 0:
		return "to " + Day(c.Days.To, today)
	}
	return Day(c.Days.From, today) + " to " + Day(c.Days.To, today)
}
