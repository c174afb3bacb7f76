package kennel

import (
	"strings"
	"testing"
)

func doubtAt(all []*InputError, field string) *InputError {
	for _, d := range all {
		if d.Field == field {
			return d
		}
	}
	return nil
}

func TestHandsThatPullForMoreThanFourHoursAreDoubted(t *testing.T) {
	k := goodKennel()
	if d := doubtAt(Doubts(k), "hands[0].strip_hours_a_day"); d != nil {
		t.Errorf("4 hours: %v", d)
	}
	k.Hands[0].StripHoursADay = 4.5
	d := doubtAt(Doubts(k), "hands[0].strip_hours_a_day")
	if d == nil || !strings.Contains(d.What, "begin to apply at 4 hours a day; that is not where it is safe") {
		t.Errorf("4.5 hours: %v", d)
	}
}

func TestMoreThanThreeHoursOnTheTableAreDoubted(t *testing.T) {
	k := goodKennel()
	for minutes, want := range map[Minutes]bool{180: false, 181: true, 240: true} {
		k.Dogs[1].Table.Minutes = minutes
		if err := Check(k, goodPatterns()); err != nil {
			t.Errorf("%g minutes: %v", float64(minutes), err)
		}
		d := doubtAt(Doubts(k), "dogs[1].table.minutes")
		if (d != nil) != want || d != nil && !strings.Contains(d.What, "one salon (second-hand)") {
			t.Errorf("%g minutes: %v", float64(minutes), d)
		}
	}
}

func TestADogUnderSixMonthsAtAShowIsDoubted(t *testing.T) {
	k := goodKennel()
	on := k.Shows[0].On // 20 March 2027
	for born, want := range map[Date]string{
		0:                         "",
		NewDate(2026, 9, 20):      "",
		NewDate(2026, 9, 21):      "Moss is 5 months old on the day; UK schedules don't take puppies under six months: see the governing body's rules",
		NewDate(2027, 2, 10):      "Moss is 1 month old on the day; UK schedules",
		on:                        "Moss is under a month old on the day",
		on.AddDays(1):             "",
		NewDate(2026, 9, 30):      "Moss is 5 months old",
		NewDate(2026, 10, 20):     "Moss is 5 months old",
		NewDate(2026, 10, 20) + 1: "Moss is 4 months old",
	} {
		k.Dogs[1].Born = born
		d := doubtAt(Doubts(k), "shows[0].dogs[1]")
		if (d != nil) != (want != "") || d != nil && !strings.HasPrefix(d.What, want) {
			t.Errorf("born %s: %v, want %q", born, d, want)
		}
	}
}

// Layers of kept hair in files of before are understood as damage, and said so; nothing is said of a part that they leave out.
func TestDamageToKeptHairIsSaid(t *testing.T) {
	on := NewDate(2026, 10, 12)
	pats := Patterns{"kept": keptPattern()}
	k := Kennel{Dogs: []Dog{
		{Name: "Moss", Pattern: "kept", All: []Layer{{1, on}}},
		{Name: "Sorrel", Pattern: "kept", All: []Layer{{1, on}}, Areas: []AreaCoat{{AreaFurnishings, []Layer{{0.4, on}, {0.1, on - 30}}}}},
	}}
	if d := Doubts(k); len(d) != 0 {
		t.Errorf("doubts: %v", d)
	}
	d := Damaged(k, pats)
	if len(d) != 1 || d[0].Field != "dogs[1].areas.furnishings" || d[0].Value != "40 % lost on 2026-10-12, 10 % lost on 2026-09-12" ||
		!strings.Contains(d[0].What, "damage") || !strings.Contains(d[0].Try, "no line for furnishings") {
		t.Errorf("%v", d)
	}
	k.Dogs[1].SetLayers(AreaFurnishings, nil)
	if d := Damaged(k, pats); len(d) != 0 || len(k.Dogs[1].Areas) != 0 {
		t.Errorf("whole again: %v, %v", d, k.Dogs[1].Areas)
	}
}

func TestFurnishingsMayBeWhole(t *testing.T) {
	for _, said := range []string{"whole", " Whole "} {
		if layers, err := ParseCoat(AreaFurnishings, []string{said}); err != nil || len(layers) != 0 {
			t.Errorf("%q: %v, %v", said, layers, err)
		}
	}
	if _, err := ParseCoat(AreaBack, []string{"whole"}); err == nil {
		t.Error("a back of one length has a day")
	}
	if layers, err := ParseCoat(AreaFurnishings, []string{"0.2", "2026-10-12"}); err != nil || len(layers) != 1 {
		t.Errorf("%v, %v", layers, err)
	}
}
