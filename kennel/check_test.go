package kennel

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func goodPatterns() Patterns {
	return Patterns{"plain": plainPattern(), "plane": plainPattern(), "other": plainPattern(), "last": plainPattern()}
}

func goodKennel() Kennel {
	show := NewDate(2027, 3, 20)
	return Kennel{
		Name: "Thornfield", Weeks: 26, Units: UnitsMillimetres,
		Hands: []Hands{
			{Name: "Handler", Hours: [DaysAWeek]Hours{5, 5, 4, 5, 3}, StripHoursADay: 4, Away: []Span{{From: 10, To: 12}}},
			{Name: "Assistant", Hours: [DaysAWeek]Hours{2}, Does: []Skill{SkillFurnishings, SkillDuties}},
		},
		Dogs: []Dog{
			{
				Name: "Sorrel", Pattern: "plain", Coat: Coat{Texture: TextureHard, Growth: 1, Pace: 1},
				Table: Table{SetUp: 12, Minutes: 75, AWeek: 2}, Priority: 1, Here: []Span{{From: 100}},
				All:   []Layer{pulledWeeks(1, -12)},
				Areas: []AreaCoat{{Area: AreaRibs, Layers: []Layer{pulledWeeks(0.6, -15), pulledWeeks(0.4, -5)}}},
				Duties: []Duty{
					{Name: "nails", Minutes: 10, Every: 1},
					{Name: "close trim", Minutes: 30, Before: &BeforeShow{From: 10, To: 7}},
				},
			},
			{
				Name: "Moss", Pattern: "other", Coat: Coat{Growth: 1, Pace: 1}, Table: Table{Minutes: 60, AWeek: 1},
				Priority: 2, All: []Layer{pulledWeeks(1, -3)},
			},
		},
		Shows: []Show{{
			Name: "Brackenmere Terrier Club", On: show, Days: 1, EntriesClose: show - 18, Weight: 3, Chance: 1,
			Away: &Span{From: show - 1, To: show}, Dogs: []string{"Sorrel", "Moss"},
		}},
	}
}

func TestAGoodKennelHasNoProblems(t *testing.T) {
	if err := Check(goodKennel(), goodPatterns()); err != nil {
		t.Error(err)
	}
	if all := Problems(Kennel{}, nil); all != nil {
		t.Errorf("an empty kennel: %v", all[0])
	}
	bounds := goodKennel()
	d := &bounds.Dogs[0]
	d.Coat.Growth, d.Coat.Pace, d.Table = 0.5, 4, Table{SetUp: 60, Minutes: 300, AWeek: 7}
	d.All = []Layer{pulledWeeks(1.0/3+1e-5, -1), pulledWeeks(1.0/3+1e-5, -2), pulledWeeks(1.0/3+1e-5, -3)}
	bounds.Weeks, bounds.Shows[0].Days, bounds.Shows[0].EntriesClose = 104, 14, bounds.Shows[0].On
	if err := Check(bounds, goodPatterns()); err != nil {
		t.Error(err)
	}
}

// Each case spoils one thing of a good kennel and must be told of just that.
func TestProblemsNameTheFieldTheValueAndWhatToTry(t *testing.T) {
	for _, c := range []struct {
		spoil              func(*Kennel)
		field, value, what string
		try                string
	}{
		{func(k *Kennel) { k.Weeks = 3 }, "weeks", "3", "out of range", "4 to 104"},
		{func(k *Kennel) { k.Weeks = 105 }, "weeks", "105", "out of range", "4 to 104"},
		{func(k *Kennel) { k.Units = "yd" }, "units", "yd", "not known", "mm, in"},
		{func(k *Kennel) { k.Hands[1].Name = " " }, "hands[1].name", " ", "missing", "name"},
		{func(k *Kennel) { k.Hands[1].Name = "HANDLER" }, "hands[1].name", "HANDLER", "twice", "another"},
		{func(k *Kennel) { k.Hands[0].Hours[2] = 25 }, "hands[0].hours.wed", "25", "out of range", "0 to 24"},
		{func(k *Kennel) { k.Hands[0].Hours[6] = -1 }, "hands[0].hours.sun", "-1", "out of range", "0 to 24"},
		{func(k *Kennel) { k.Hands[0].StripHoursADay = 30 }, "hands[0].strip_hours_a_day", "30", "out of range", "0 to 24"},
		{func(k *Kennel) { k.Hands[1].Does[1] = "bathing" }, "hands[1].does[1]", "bathing", "not known", "jacket"},
		{func(k *Kennel) { k.Hands[0].Away[0].From = 20 }, "hands[0].away[0].to", "1970-01-13", "before from", "or later"},
		{func(k *Kennel) { k.Dogs[1].Name = ""; k.Shows[0].Dogs = nil }, "dogs[1].name", "", "missing", "name"},
		{func(k *Kennel) { k.Dogs[1].Name = "sorrel"; k.Shows[0].Dogs = nil }, "dogs[1].name", "sorrel", "twice", "another"},
		{func(k *Kennel) { k.Dogs[0].Pattern = "plaid" }, "dogs[0].pattern", "plaid", "not a pattern", "one of plain, plane, "},
		{func(k *Kennel) { k.Dogs[0].Coat.Texture = "woolly" }, "dogs[0].coat.texture", "woolly", "not known", "hard, fine, soft"},
		{func(k *Kennel) { k.Dogs[0].Coat.Growth = 0.4 }, "dogs[0].coat.growth", "0.4", "out of range", "0.5 to 2"},
		{func(k *Kennel) { k.Dogs[0].Coat.Growth = math.NaN() }, "dogs[0].coat.growth", "NaN", "out of range", "0.5 to 2"},
		{func(k *Kennel) { k.Dogs[0].Coat.Pace = 5 }, "dogs[0].coat.pace", "5", "out of range", "0.25 to 4"},
		{func(k *Kennel) { k.Dogs[0].Table.SetUp = 61 }, "dogs[0].table.set_up", "61", "out of range", "0 to 60"},
		{func(k *Kennel) { k.Dogs[0].Table.Minutes = 301 }, "dogs[0].table.minutes", "301", "out of range", "10 to 300"},
		{func(k *Kennel) { k.Dogs[0].Table = Table{SetUp: 30, Minutes: 30} }, "dogs[0].table.set_up", "30", "no time", "fewer"},
		{func(k *Kennel) { k.Dogs[0].Table.AWeek = 8 }, "dogs[0].table.a_week", "8", "out of range", "0 to 7"},
		{func(k *Kennel) { k.Dogs[0].Priority = 0 }, "dogs[0].priority", "0", "out of range", "above 0"},
		{func(k *Kennel) { k.Dogs[0].Priority = math.Inf(1) }, "dogs[0].priority", "+Inf", "out of range", "above 0"},
		{func(k *Kennel) { k.Dogs[0].Here[0].To = 99 }, "dogs[0].here[0].to", "1970-04-10", "before from", "or later"},
		{func(k *Kennel) { k.Dogs[0].All[0].Share = 0 }, "dogs[0].areas.all[0].share", "0", "out of range", "at most 1"},
		{func(k *Kennel) { k.Dogs[0].All[0].Pulled = 0 }, "dogs[0].areas.all[0].pulled", "", "missing", "date"},
		{func(k *Kennel) { k.Dogs[0].Areas[0].Layers[0].Share = 0.601 }, "dogs[0].areas.ribs", "1.001", "more than the whole", "sum to 1"},
		{func(k *Kennel) { k.Dogs[0].Areas[0].Area = "belly" }, "dogs[0].areas.belly", "", "not an area of the coat", "back"},
		{func(k *Kennel) { k.Dogs[0].Areas[0].Area = AreaTail }, "dogs[0].areas.tail", "", "not an area of the pattern plain", "ribs, withers, ears"},
		{func(k *Kennel) { k.Dogs[0].Areas = append(k.Dogs[0].Areas, k.Dogs[0].Areas[0]) }, "dogs[0].areas.ribs", "", "twice", "leave one"},
		{func(k *Kennel) { k.Dogs[0].All = nil }, "dogs[0].areas", "", "withers of Sorrel", "all: "},
		{func(k *Kennel) { k.Dogs[0].Duties[0].Name = "" }, "dogs[0].duties[0].name", "", "missing", "name"},
		{func(k *Kennel) { k.Dogs[0].Duties[0].Minutes = 0 }, "dogs[0].duties[0].minutes", "0", "out of range", "above 0"},
		{func(k *Kennel) { k.Dogs[0].Duties[0].Every = 53 }, "dogs[0].duties[0].every", "53", "out of range", "1 to 52"},
		{func(k *Kennel) { k.Dogs[0].Duties[0].Every = 0 }, "dogs[0].duties[0]", "", "either", "every"},
		{func(k *Kennel) { k.Dogs[0].Duties[1].Every = 2 }, "dogs[0].duties[1]", "", "either", "every"},
		{func(k *Kennel) { k.Dogs[0].Duties[1].Before.To = 11 }, "dogs[0].duties[1].before_show.to", "11", "out of range", "from"},
		{func(k *Kennel) { k.Dogs[0].Duties[1].Before = &BeforeShow{From: 400} }, "dogs[0].duties[1].before_show.from", "400", "out of range", "365"},
		{func(k *Kennel) { k.Shows[0].Name = "" }, "shows[0].name", "", "missing", "name"},
		{func(k *Kennel) { k.Shows = append(k.Shows, k.Shows[0]) }, "shows[1].name", "Brackenmere Terrier Club", "same day", "leave one"},
		{func(k *Kennel) { k.Shows[0].On = 0; k.Shows[0].EntriesClose = 0 }, "shows[0].on", "", "missing", "date"},
		{func(k *Kennel) { k.Shows[0].Days = 15 }, "shows[0].days", "15", "out of range", "1 to 14"},
		{func(k *Kennel) { k.Shows[0].EntriesClose = k.Shows[0].On + 1 }, "shows[0].entries_close", "2027-03-21", "after the show", "2027-03-20"},
		{func(k *Kennel) { k.Shows[0].Weight = -1 }, "shows[0].weight", "-1", "out of range", "above 0"},
		{func(k *Kennel) { k.Shows[0].Chance = 1.1 }, "shows[0].chance", "1.1", "out of range", "at most 1"},
		{func(k *Kennel) { k.Shows[0].Chance = 0 }, "shows[0].chance", "0", "out of range", "at most 1"},
		{func(k *Kennel) { k.Shows[0].Away.From = k.Shows[0].On + 1 }, "shows[0].away.to", "2027-03-20", "before from", "or later"},
		{func(k *Kennel) { k.Shows[0].Dogs[0] = "Sorel" }, "shows[0].dogs[0]", "Sorel", "not a dog", "one of Sorrel"},
		{func(k *Kennel) { k.Shows[0].Dogs[1] = "Sorrel" }, "shows[0].dogs[1]", "Sorrel", "twice", "once"},
	} {
		t.Run(c.field+" "+c.value, func(t *testing.T) {
			k := goodKennel()
			c.spoil(&k)
			all := Problems(k, goodPatterns())
			if len(all) != 1 {
				t.Fatalf("%d problems: %v", len(all), all)
			}
			e := all[0]
			if e.Field != c.field || e.Value != c.value || !strings.Contains(e.What, c.what) || !strings.Contains(e.Try, c.try) {
				t.Errorf("got %#v", e)
			}
			var in *InputError
			if err := Check(k, goodPatterns()); !errors.As(err, &in) || *in != *e {
				t.Errorf("Check says %v", err)
			}
		})
	}
}

func TestNameThatIsMissingIsNotSuggested(t *testing.T) {
	k := goodKennel()
	k.Dogs[1].Name = ""
	if all := Problems(k, goodPatterns()); len(all) != 2 || all[1].Try != "one of Sorrel" {
		t.Errorf("got %v", all)
	}
}

func TestShowOfNoDogsInTheKennelSaysToListThem(t *testing.T) {
	k := goodKennel()
	k.Dogs = nil
	all := Problems(k, goodPatterns())
	if len(all) != 2 || !strings.Contains(all[0].Try, "under dogs:") {
		t.Errorf("got %v", all)
	}
}
