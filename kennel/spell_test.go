package kennel

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func someSpell(t *rapid.T) Spell {
	s := Spell{
		From: week0.AddDays(rapid.IntRange(-150, 150).Draw(t, "from")), What: rapid.SampledFrom(SpellKinds()).Draw(t, "what"),
		Growth: rapid.SampledFrom([]float64{0.1, 0.5, 0.75, 1, 1.5}).Draw(t, "growth"), Table: rapid.SampledFrom([]Answer{"", AnswerYes, AnswerNo}).Draw(t, "table"),
	}
	if rapid.Bool().Draw(t, "ends") {
		s.To = s.From.AddDays(rapid.IntRange(0, 60).Draw(t, "days"))
	}
	return s
}

func TestASpellReadsBackAsItIsSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := someSpell(t)
		if back, err := ParseSpell(s.String()); err != nil || back != s {
			t.Fatalf("%q is read as %+v (%v)", s, back, err)
		}
	})
	for said, want := range map[string]Spell{
		"Season from 1 March 2027 to 21 March 2027": {From: NewDate(2027, 3, 1), To: NewDate(2027, 3, 21), What: SpellSeason, Growth: 1},
		"illness 2027-03-01 table yes":              {From: NewDate(2027, 3, 1), What: SpellIllness, Growth: 1, Table: AnswerYes},
		"other 2027-03-01 growth 1.2":               {From: NewDate(2027, 3, 1), What: SpellOther, Growth: 1.2},
	} {
		if got, err := ParseSpell(said); err != nil || got != want {
			t.Errorf("%q: %+v, %v", said, got, err)
		}
	}
	for said, what := range map[string]string{
		"": "does not begin with", "heat 2027-03-01": "does not begin with", "season": "its first day", "season soon": "soon where a date",
		"season 2027-03-01 2027-03-02 2027-03-03": "more than two days", "season 2027-03-01 growth": "growth  where", "season 2027-03-01 table perhaps": "perhaps where yes or no",
	} {
		if got, err := ParseSpell(said); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%q: %+v, %v", said, got, err)
		}
	}
}

// A day of a spell counts for what the coat grows in it: weeks of growth agree with the sum day by day.
func TestCoatsAgeByTheDaysOfTheirSpells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dog := Dog{Spells: []Spell{someSpell(t), someSpell(t)}}
		lean := dog.Lean(week0)
		grown := func(from, to int) (weeks float64) { // from the end of one week to that of another
			for day := week0.AddDays(7*from + 7); day < week0.AddDays(7*to+7); day++ {
				today := 1.0
				for _, s := range dog.Spells {
					if day >= s.From && (s.To == 0 || day <= s.To) {
						today *= s.Growth
					}
				}
				weeks += today / 7
			}
			return weeks
		}
		from := rapid.IntRange(-40, 20).Draw(t, "pulled")
		to := from + rapid.IntRange(0, 40).Draw(t, "weeks")
		if is := lean.Between(from, to); math.Abs(is-grown(from, to)) > 1e-6 {
			t.Fatalf("from week %d to %d it grows %v, should be %v", from, to, is, grown(from, to))
		}
		if is := dog.WeeksGrown(week0.AddDays(7*from+6), week0.AddDays(7*to+6)); math.Abs(is-grown(from, to)) > 1e-6 {
			t.Fatalf("by days it grows %v, should be %v", is, grown(from, to))
		}
		weeks := Weeks(rapid.IntRange(1, 25).Draw(t, "old"))
		back := lean.Back(to, weeks)
		if grown(to-back, to) < float64(weeks)-1e-6 || grown(to-back+1, to) >= float64(weeks) {
			t.Fatalf("%d weeks' growth before week %d lie %d weeks back: %v, and one less %v", weeks, to, back, grown(to-back, to), grown(to-back+1, to))
		}
		if age := lean.Age(from, to); math.Abs(math.Floor(grown(from, to)+1e-6)-float64(age)) > 0 {
			t.Fatalf("hair of week %d is %d weeks old at week %d, should be %v", from, age, to, grown(from, to))
		}
	})
}

// A coat stripped now comes in two weeks later after four weeks in which it grows half as fast, and nothing else changes.
func TestASlowSpellBringsACoatInLater(t *testing.T) {
	dog := Dog{Name: "Moss", Coat: Coat{Growth: 1}, All: []Layer{{1, week0}}}
	ready := func(d Dog) int {
		coat, err := NewDogCoat(d, plainPattern(), week0)
		if err != nil {
			t.Fatal(err)
		}
		for week := range 60 {
			if coat.Areas[0].Score(week) >= ReadyScore {
				return week
			}
		}
		t.Fatal("it never comes in")
		return 0
	}
	usual := ready(dog)
	slow := dog
	slow.Spells = []Spell{{From: week0 + 14, To: week0 + 41, What: SpellSeason, Growth: 0.5}}
	if got := ready(slow); got != usual+2 {
		t.Errorf("in coat in week %d, without the spell in week %d", got, usual)
	}
	slow.Spells[0].From, slow.Spells[0].To = week0+7*40, week0+7*44
	if got := ready(slow); got != usual {
		t.Errorf("a spell long after changes week %d to %d", usual, got)
	}
}

func TestTheVetDecidesUnlessSomebodySaidOtherwise(t *testing.T) {
	for _, kind := range SpellKinds() {
		for table, want := range map[Answer]bool{"": !kind.Vet(), AnswerYes: true, AnswerNo: false} {
			d := Dog{Spells: []Spell{{From: week0, To: week0 + 6, What: kind, Growth: 1, Table: table}}}
			if got := d.Stands(week0 + 3); got != want {
				t.Errorf("%s, table %q: stands is %t", kind, table, got)
			}
			if !d.Stands(week0-1) || !d.Stands(week0+7) {
				t.Errorf("%s, table %q: not at the table on other days", kind, table)
			}
		}
	}
}

func TestShowsInSpellsAreAskedAbout(t *testing.T) {
	k := Kennel{
		Dogs: []Dog{{Name: "Moss", Spells: []Spell{{From: week0 + 10, To: week0 + 30, What: SpellSeason, Growth: 1}}}, {Name: "Sorrel", Spells: []Spell{{From: week0 + 20, What: SpellIllness, Growth: 1}}}},
		Shows: []Show{
			{Name: "Brackenmere", On: week0 + 9, Days: 2, Chance: 1, Dogs: []string{"Sorrel", "Moss"}}, {Name: "Yarrowmead", On: week0 + 50, Days: 1, Chance: 0.4, Dogs: []string{"Sorrel", "Moss"}},
		},
	}
	var got []string
	for _, x := range ShowsInSpells(k, week0) {
		got = append(got, x.Show.Name+": "+x.Words(Date.String))
	}
	want := []string{
		"Brackenmere: Moss is in season then (1970-01-15 to 1970-02-04), and nobody can count on its coat: nothing is pulled for it; it is entered: withdraw it, or change the days of the spell if it will be shown",
		"Yarrowmead: Sorrel is ill then (from 1970-01-25 on), and nobody can count on its coat: nothing is pulled for it; the vet decides",
	}
	if len(got) == 2 {
		for i := range want {
			want[i] = strings.NewReplacer("1970-01-15", (week0 + 10).String(), "1970-02-04", (week0 + 30).String(), "1970-01-25", (week0 + 20).String()).Replace(want[i])
		}
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%q", got)
	}
	if doubts := Doubts(k); len(doubts) != 2 || doubts[0].Field != "shows[0].dogs[1]" {
		t.Errorf("%v", doubts)
	}
}
