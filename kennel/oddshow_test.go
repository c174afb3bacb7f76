package kennel

import (
	"testing"

	"pgregory.net/rapid"
)

func TestAShowThatIsPastOrNamesNoDogIsOdd(t *testing.T) {
	for _, c := range []struct {
		name, on, today, likely, why string
		days                         int
		chance                       float64
		dogs                         []string
		asked, ignored, slip         bool
	}{
		{"ahead", "2027-03-20", "2027-01-05", "", "", 1, 1, []string{"Sorrel"}, false, false, false},
		{"today", "2027-01-05", "2027-01-05", "", "", 1, 1, []string{"Sorrel"}, false, false, false},
		{"its last day is today", "2027-01-04", "2027-01-05", "", "", 2, 1, []string{"Sorrel"}, false, false, false},
		{"over yesterday", "2027-01-04", "2027-01-05", "", "was yesterday", 1, 1, []string{"Sorrel"}, true, true, false},
		{"held lately", "2026-12-06", "2027-01-05", "", "was 4 weeks ago", 1, 1, []string{"Sorrel"}, true, true, false},
		{"the slip of January", "2026-03-20", "2027-01-05", "2027-03-20", "was 10 months ago", 1, 1, []string{"Sorrel"}, true, true, true},
		{"likely next year", "2026-12-05", "2027-02-01", "2027-12-05", "was 8 weeks ago", 1, 1, []string{"Sorrel"}, true, true, true},
		{"two years before", "2025-03-20", "2027-01-05", "2027-03-20", "was 22 months ago", 1, 1, []string{"Sorrel"}, true, true, false},
		{"29 February", "2024-02-29", "2027-01-05", "2028-02-29", "was 3 years ago", 1, 1, []string{"Sorrel"}, true, true, false},
		{"at the end of dates", "2199-01-05", "2199-12-05", "", "was 11 months ago", 1, 1, []string{"Sorrel"}, true, true, false},
		{"no dogs", "2027-03-20", "2027-01-05", "", "names no dog, so no dog is prepared for it", 1, 1, nil, true, true, false},
		{"no dogs yet", "2027-03-20", "2027-01-05", "", "names no dog yet, so no dog is prepared for it", 1, 0.5, nil, false, true, false},
		{"past and no dogs", "2026-03-20", "2027-01-05", "2027-03-20", "was 10 months ago, and names no dog", 1, 1, nil, true, true, true},
	} {
		show := Show{Name: c.name, On: date(t, c.on), Days: c.days, Chance: c.chance, Dogs: c.dogs}
		o := show.Odd(date(t, c.today))
		if o.Likely.String() != c.likely || o.Why() != c.why || o.Asked() != c.asked || o.Ignored() != c.ignored || o.Slip(show.On) != c.slip {
			t.Errorf("%s: likely %q, why %q, asked %v, ignored %v, slip %v; want %+v", c.name, o.Likely, o.Why(), o.Asked(), o.Ignored(), o.Slip(show.On), c)
		}
	}
}

func TestOnlyWhatWasNotOddBeforeIsAskedAbout(t *testing.T) {
	today := date(t, "2027-01-05")
	show := func(on string, chance float64, dogs ...string) Odd {
		return Show{On: date(t, on), Days: 1, Chance: chance, Dogs: dogs}.Odd(today)
	}
	for _, c := range []struct {
		name     string
		was, now Odd
		asked    bool
	}{
		{"ahead stays ahead", show("2027-03-20", 1, "Sorrel"), show("2027-03-21", 1, "Sorrel"), false},
		{"past stays as it is", show("2026-03-20", 1, "Sorrel"), show("2026-03-20", 0.5, "Sorrel"), false},
		{"moved into the past", show("2027-03-20", 1, "Sorrel"), show("2026-03-20", 1, "Sorrel"), true},
		{"moved within the past", show("2026-03-20", 1, "Sorrel"), show("2026-03-21", 1, "Sorrel"), true},
		{"moved ahead", show("2026-03-20", 1, "Sorrel"), show("2027-03-20", 1, "Sorrel"), false},
		{"its dogs are gone", show("2027-03-20", 1, "Sorrel"), show("2027-03-20", 1), true},
		{"it never had any", show("2027-03-20", 1), show("2027-03-21", 1), false},
		{"entered, and still without", show("2027-03-20", 0.5), show("2027-03-20", 1), true},
		{"hoped for only", show("2027-03-20", 1, "Sorrel"), show("2027-03-20", 0.5), false},
	} {
		if got := c.now.AskedAfter(c.was); got != c.asked {
			t.Errorf("%s: asked %v", c.name, got)
		}
	}
}

// The date that was likely meant is ahead, is the same day of the year, and is not odd any more.
func TestTheLikelyDateIsTheSameDayAhead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, last := NewDate(1971, 1, 1), NewDate(2190, 1, 1)
		today := Date(rapid.IntRange(int(first), int(last)).Draw(t, "today"))
		show := Show{On: Date(rapid.IntRange(int(first), int(last)).Draw(t, "on")), Days: rapid.IntRange(1, 14).Draw(t, "days"), Chance: 1, Dogs: []string{"Sorrel"}}
		o := show.Odd(today)
		if o.Past != (show.Last() < today) || (o.Likely != 0) != (o.Over > RecentDays) {
			t.Fatalf("%+v", o)
		}
		if o.Likely == 0 {
			return
		}
		if show.On.Time().Format("01-02") != o.Likely.Time().Format("01-02") || o.Likely < today {
			t.Fatalf("%s on %s: %s is likely", show.On, today, o.Likely)
		}
		show.MoveTo(o.Likely)
		if show.Odd(today).Asked() {
			t.Fatalf("%s is asked about again", o.Likely)
		}
	})
}

func date(t *testing.T, s string) Date {
	t.Helper()
	d, err := ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
