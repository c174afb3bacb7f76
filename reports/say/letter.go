package say

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Letter is what an owner is written of one dog. Every figure is the plan's, the one that its shows have everywhere else.
type Letter struct {
	How    string                   // how the dog is today
	Next   string                   // what comes: how it is worked, and its next show with and without the work
	Decide string                   // which entries are to be decided on, and what we would do
	Shows  []optimize.ShowReadiness // by date, the first of them
	More   string                   // how many shows are not among them; empty for none
	Cannot []string                 // what can't be met, and why
}

// What a page holds of a letter, however much there is.
const (
	mostLetterShows = 10
	showLetters     = 700 // of the lines of its shows, about
	mostToDecide    = 3
	mostCannot      = 3
)

// lettersAhead is how many days ahead an owner is asked to decide on entries.
const lettersAhead = 8 * kennel.DaysAWeek

// Letters is how many letters the letter has, about: of a show the line that it stands on.
func (l Letter) Letters() (sum int) {
	for _, s := range append([]string{l.How, l.Next, l.Decide, l.More}, l.Cannot...) {
		sum += Width(s)
	}
	for _, x := range l.Shows {
		sum += lineOf(x)
	}
	return sum
}

// lineOf is how many letters the line of a show has, about: its name, its day and how likely it is.
func lineOf(x optimize.ShowReadiness) int {
	const day = 40
	return day + Width(x.Show)
}

// LetterOf is the letter of a dog of the plan's kennel.
func LetterOf(r optimize.Result, d kennel.Dog) Letter {
	l := Letter{How: letterHow(r, d), Cannot: letterCannot(r, d.Name)}
	for _, x := range r.Readiness {
		if x.Dog == d.Name {
			l.Shows = append(l.Shows, x)
		}
	}
	l.Next, l.Decide = letterNext(r, d, l.Shows), letterDecide(r, d, l.Shows)
	listed, letters := 0, 0
	for _, x := range l.Shows[:min(len(l.Shows), mostLetterShows)] {
		if letters += lineOf(x); letters <= showLetters {
			listed++
		}
	}
	if n := len(l.Shows); n > listed {
		l.More = fmt.Sprintf("And %s, the last on %s.", Plural(n-listed, "more show"), Day(l.Shows[n-1].On, r.On))
		l.Shows = l.Shows[:listed]
	}
	return l
}

func letterHow(r optimize.Result, d kennel.Dog) string {
	i := slices.IndexFunc(r.Outlooks, func(o optimize.Outlook) bool { return o.Dog == d.Name })
	if i < 0 {
		return d.Name + " is not in the plan yet."
	}
	o := r.Outlooks[i]
	s := fmt.Sprintf("%s is %s today, %s of 100", d.Name, o.State, kennel.ScoreWords(o.Score))
	if worst := WorstArea(o); worst.Area != "" && worst.Score < AllRight {
		s += fmt.Sprintf("; furthest from right: %s (%s)", worst.Area, worst.Why)
	}
	if o.State != kennel.StateInCoat && len(o.Planned) > 0 && o.Planned[0].From > r.On {
		s += "; with the work it is in coat from " + Day(o.Planned[0].From, r.On)
	}
	if spell, in := d.SpellOn(r.On, r.On); in {
		s += "; it is " + spell.What.Words()
		if spell.What.Vet() {
			s += ", and the vet decides when it is worked again"
		}
	}
	return s + "."
}

func letterNext(r optimize.Result, d kennel.Dog, shows []optimize.ShowReadiness) string {
	var s string
	for _, w := range r.Ways {
		if w.Dog == d.Name {
			s = "The plan for its jacket: " + Way(w, r.On)
		}
	}
	if len(shows) == 0 {
		return joined(s, "There is no show in these weeks that it is worked for.")
	}
	next := shows[0] // they are by date
	return joined(s, fmt.Sprintf("Next is %s on %s: %s with the work, %s if it were left alone.",
		next.Show, Day(next.On, r.On), kennel.ScoreWords(next.Score), kennel.ScoreWords(next.Idle)))
}

// joined puts two sentences behind one another; the first may be empty or lack its full stop.
func joined(first, second string) string {
	if first == "" {
		return second
	}
	return strings.TrimSuffix(first, ".") + ". " + second
}

func letterDecide(r optimize.Result, d kennel.Dog, shows []optimize.ShowReadiness) string {
	var all []string
	for _, x := range kennel.ShowsInSpells(r.Kennel, r.On) {
		if x.Dog == d.Name && x.Show.Entered() {
			all = append(all, fmt.Sprintf("whether it is withdrawn from %s on %s, for it is %s then", x.Show.Name, Day(x.Show.On, r.On), x.Spell.What.Words()))
		}
	}
	for _, s := range r.Kennel.Shows {
		last, by := s.EntriesClose, "by "+Day(s.EntriesClose, r.On)
		if last == 0 {
			last, by = s.On, "on "+Day(s.On, r.On)+", closing day not given"
		}
		if !s.Has(d.Name) || s.Entered() || last < r.On || last > r.On.AddDays(lettersAhead) {
			continue
		}
		for _, x := range shows {
			if x.Show != s.Name || x.On != s.On {
				continue
			}
			words := "leave it out"
			if x.Score >= kennel.ReadyScore {
				words = "enter"
			}
			all = append(all, fmt.Sprintf("%s %s (%s: we would %s)", s.Name, by, kennel.ScoreWords(x.Score), words))
		}
	}
	if len(all) == 0 {
		return "There is no entry to decide on in the next eight weeks."
	}
	if n := len(all); n > mostToDecide {
		all = append(all[:mostToDecide:mostToDecide], fmt.Sprintf("and on %d more", n-mostToDecide))
	}
	return "To decide: " + strings.Join(all, "; ") + "."
}

func letterCannot(r optimize.Result, dog string) (all []string) {
	for _, c := range r.Cannot {
		about := strings.HasSuffix(c.What, " of "+dog)
		for _, s := range r.Kennel.Shows {
			about = about || c.What == dog+" in coat for "+s.Name || c.What == dog+" at "+s.Name
		}
		if words := FirstUpper(strings.TrimPrefix(c.What, dog+" ")) + ": " + c.Why; about && !slices.Contains(all, words) {
			all = append(all, words)
		}
	}
	if n := len(all); n > mostCannot {
		all = append(all[:mostCannot:mostCannot], fmt.Sprintf("And %d more.", n-mostCannot))
	}
	return all
}

// LetterFoot says what the figures mean and what they can't promise.
func LetterFoot() []string {
	return []string{
		"Readiness runs from 0 to 100; from 80 on a dog is in coat. The figures count on some work being missed, as some always is; the ribbon shows the coat if all is done. " +
			"They are what to expect, not a promise: coats, weather and dogs have their own ways.",
		"If you see sore, hot or broken skin, a lump, or hair that falls out, please ask your vet first.",
	}
}
