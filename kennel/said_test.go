package kennel

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestDatesWithOneMeaningAreRead(t *testing.T) {
	for said, want := range map[string]Date{
		"2027-03-20": NewDate(2027, 3, 20), "2027-3-5": NewDate(2027, 3, 5), "2027/03/20": NewDate(2027, 3, 20), "20270320": NewDate(2027, 3, 20),
		"20.3.2027": NewDate(2027, 3, 20), "12.10.2026": NewDate(2026, 10, 12), "12. 10. 2026": NewDate(2026, 10, 12),
		"20/03/2027": NewDate(2027, 3, 20), "20-3-2027": NewDate(2027, 3, 20), "03/20/2027": NewDate(2027, 3, 20), "5/5/2027": NewDate(2027, 5, 5),
		"9 November 2026": NewDate(2026, 11, 9), "9 Nov 2026": NewDate(2026, 11, 9), "November 9, 2026": NewDate(2026, 11, 9), "9-Nov-2026": NewDate(2026, 11, 9),
		"Saturday, 20th of March 2027": NewDate(2027, 3, 20), "sat 20 mar 2027": NewDate(2027, 3, 20), "1 Sept 2027": NewDate(2027, 9, 1),
		"2027\u201303\u201320": NewDate(2027, 3, 20), "\u201c2027-03-20\u201d": NewDate(2027, 3, 20), " 29 February 2028 ": NewDate(2028, 2, 29),
	} {
		if got, err := ParseDay(said); err != nil || got != want {
			t.Errorf("%q is %s (%v), want %s", said, got, err, want)
		}
	}
}

func TestOtherDatesAreRefusedWithWhatCanBeTyped(t *testing.T) {
	for said, want := range map[string]string{
		"09/11/2026":      "could be two days\nTry: 2026-11-09 for 9 November 2026, or 2026-09-11 for 11 September 2026",
		"9-11-2026":       "could be two days\nTry: 2026-11-09 for 9 November 2026, or 2026-09-11 for 11 September 2026",
		"9/11/26":         "has a year of two digits\nTry: 2026-11-09 for 9 November 2026, or 2026-09-11 for 11 September 2026",
		"27.3.26":         "has a year of two digits\nTry: 2026-03-27",
		"2027-27-03":      "has no month of that number\nTry: 2027-03-27",
		"2027-02-30":      "is not a day: February 2027 has 28\nTry: 2027-02-28",
		"31.4.2027":       "is not a day: April 2027 has 30\nTry: 2027-04-30",
		"31 April 2027":   "is not a day: April 2027 has 30\nTry: 2027-04-30",
		"Sun 20 Mar 2027": "is a Saturday\nTry: 2027-03-20, if the date is right",
		"20 March":        "has no year\nTry: the year too, like 20 March 2027",
		"1970-01-01":      "is no day of the years 1971 to 2199\nTry: a date like 2027-03-20",
		"2027-13-32":      "is not a day of any month\nTry: a date like 2027-03-20",
		"soon":            "is not a date\nTry: a date like 2027-03-20",
		"":                "is not a date\nTry: a date like 2027-03-20",
		".5 March 2026":   "is not a date\nTry: a date like 2027-03-20",
		"0 20 March 2026": "is not a date\nTry: a date like 2027-03-20",
		"2027":            "is not a date\nTry: a date like 2027-03-20",
	} {
		d, err := ParseDay(said)
		var in *InputError
		if d != 0 || !errors.As(err, &in) || in.Value != said || in.What+"\nTry: "+in.Try != want {
			t.Errorf("%q is %s, %v, want %s", said, d, err, want)
		}
	}
}

func TestNumbersAreReadWithEitherComma(t *testing.T) {
	for said, want := range map[string]float64{"2": 2, "0.5": 0.5, "0,5": 0.5, "2,25": 2.25, "0,125": 0.125, ".5": 0.5, ",5": 0.5, "-1": -1, "1e-3": 0.001, "-0": 0, "\u201c2,5\u201d": 2.5} {
		if got, err := ParseNumber(said); err != nil || got != want || math.Signbit(got) != (want < 0) {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for said, try := range map[string]string{
		"1,500": "1.500, or 1500 without the comma", "1,5,5": "a number", "1.5,5": "a number", "026": "a number", "0x1": "a number", "inf": "a number", "2h": "a number", "": "a number",
	} {
		_, err := ParseNumber(said)
		var in *InputError
		if !errors.As(err, &in) || !strings.HasPrefix(in.Try, try) {
			t.Errorf("%q: %v", said, err)
		}
	}
}

func TestHoursChancesAndDaysAreReadAsTheyAreSaid(t *testing.T) {
	for said, want := range map[string]Hours{"2": 2, "2.5": 2.5, "2,5": 2.5, "2h": 2, "2 hours": 2, "1:30": 1.5, "1h30": 1.5, "90 min": 1.5, "0": 0} {
		if got, err := ParseHourCount(said); err != nil || got != want {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for said, try := range map[string]string{"9-11": "2", "9:00-11:30": "2.5", "two": "hours like", "-1": "hours like", "11-9": "hours like", "": "hours like"} {
		_, err := ParseHourCount(said)
		var in *InputError
		if !errors.As(err, &in) || !strings.HasPrefix(in.Try, try) {
			t.Errorf("%q: %v", said, err)
		}
	}
	for said, want := range map[string]float64{"0.6": 0.6, "0,6": 0.6, "60%": 0.6, "60 %": 0.6, "1": 1, "1 in 2": 0.5} {
		if got, err := ParseChance(said); err != nil || math.Abs(got-want) > 1e-15 {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for said, try := range map[string]string{"60": "60%, or a chance", "perhaps": "a chance", "101%": "a chance", "-0.5": "a chance"} {
		_, err := ParseChance(said)
		var in *InputError
		if !errors.As(err, &in) || !strings.HasPrefix(in.Try, try) {
			t.Errorf("%q: %v", said, err)
		}
	}
	for said, want := range map[string]int{"10d": 10, "10 days": 10, "2w": 14, "2 weeks": 14, "1 day": 1, "0d": 0} {
		if got, err := ParseDays(said); err != nil || got != want {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for said, try := range map[string]string{"2": "2w for weeks, or 2d for days", "soon": "days like 10d", "99999w": "days like 10d", "-2d": "days like 10d"} {
		_, err := ParseDays(said)
		var in *InputError
		if !errors.As(err, &in) || !strings.HasPrefix(in.Try, try) {
			t.Errorf("%q: %v", said, err)
		}
	}
}

func TestALengthThatNoHairHasIsAskedAbout(t *testing.T) {
	for said, want := range map[string]Millimetres{"32": 32, "32 mm": 32, "3.2cm": 32, "3,2 cm": 32, "320mm": 320, "2in": 50.8, `2"`: 50.8, "150": 150} {
		if got, err := ParseLength(said, UnitsMillimetres); err != nil || math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for _, c := range []struct {
		said  string
		units Units
		want  string
	}{
		{"320", UnitsMillimetres, "would be 32 cm, and no hair of these coats is as long\nTry: 32mm if that was meant, or 320mm if it is right"},
		{"320", "", "would be 32 cm, and no hair of these coats is as long\nTry: 32mm if that was meant, or 320mm if it is right"},
		{"32", UnitsInches, "would be 81 cm, and no hair of these coats is as long\nTry: 32mm if that was meant, or 32in if it is right"},
		{"long", UnitsMillimetres, "is not a length\nTry: a length like 32, 32mm or 1.25in"},
		{"0mm", UnitsMillimetres, "is not a length\nTry: a length like 32, 32mm or 1.25in"},
	} {
		_, err := ParseLength(c.said, c.units)
		var in *InputError
		if !errors.As(err, &in) || in.What+"\nTry: "+in.Try != c.want {
			t.Errorf("%q: %v, want %s", c.said, err, c.want)
		}
	}
}

func TestQuotesOfAWordProcessorAreTakenOff(t *testing.T) {
	for said, want := range map[string]string{
		"\u201cMillbrook Day\u201d": "Millbrook Day", "\u201eMillbrook\u201c": "Millbrook", "\u2018A\u2019": "A", `"A"`: "A", "\u00abA\u00bb": "A",
		"\u201cOld\u201d Moss": "\u201cOld\u201d Moss", "Moss\u2019s": "Moss\u2019s", "\u201cOld\u201d and \u201cNew\u201d": "\u201cOld\u201d and \u201cNew\u201d", "": "", "\u201c": "\u201c",
	} {
		if got := Unquoted(said); got != want {
			t.Errorf("%q is %q, want %q", said, got, want)
		}
	}
}

// readOrRefused holds an error to what a person can use.
func readOrRefused(t *testing.T, err error) bool {
	t.Helper()
	var in *InputError
	if err != nil && (!errors.As(err, &in) || in.What == "" || in.Try == "" || in.Field == "") {
		t.Fatalf("%#v", err)
	}
	return err == nil
}

func FuzzParseWork(f *testing.F) {
	for _, said := range []string{"Sorrel back 1/17 ribs 1 in 12, 50 min", "old moss skirt line 0,06, 1h10", "sor furnishings about half 45 min", "Sorrel, back all of it, ears 12,5% 1 h 30 min"} {
		f.Add(said)
	}
	f.Fuzz(func(t *testing.T, said string) {
		w, err := ParseWork([]string{said}, []string{"Sorrel", "Old Moss"})
		if !readOrRefused(t, err) {
			return
		}
		seen := map[AreaName]bool{}
		for _, p := range w.Areas {
			if !(p.Share >= 0 && p.Share <= 1) || !areaKnown(p.Area) || seen[p.Area] {
				t.Errorf("%q is %+v", said, w)
			}
			seen[p.Area] = true
		}
		if !(w.Minutes >= 0) || math.IsInf(float64(w.Minutes), 0) || w.Dog != "Sorrel" && w.Dog != "Old Moss" {
			t.Errorf("%q is %+v", said, w)
		}
	})
}

func FuzzParseLayers(f *testing.F) {
	for _, said := range []string{"0.6 2026-09-20 0.4 2026-12-01", "9 November 2026", "60 % 20.9.2026 2 in 5 Dec 1, 2026", "half 09/11/2026"} {
		f.Add(said)
	}
	f.Fuzz(func(t *testing.T, said string) {
		layers, err := ParseLayers(strings.Fields(said))
		if !readOrRefused(t, err) {
			return
		}
		for _, l := range layers {
			if !(l.Share > 0 && l.Share <= 1) || l.Pulled < NewDate(firstYear, 1, 1) || l.Pulled > NewDate(lastYear, 12, 31) {
				t.Errorf("%q is %+v", said, layers)
			}
		}
		if len(layers) == 0 {
			t.Errorf("%q is nothing", said)
		}
	})
}

func FuzzParseHours(f *testing.F) {
	for _, said := range []string{"mon=5 tue=1:30", "mon 2h tue 2,5", "3", "Monday: 2 hours tue 90 min", "mon 9-11"} {
		f.Add(said)
	}
	f.Fuzz(func(t *testing.T, said string) {
		hours, err := ParseHours(strings.Fields(said))
		if !readOrRefused(t, err) {
			return
		}
		for _, h := range hours {
			if !(h >= 0) || math.IsInf(float64(h), 0) {
				t.Errorf("%q is %v", said, hours)
			}
		}
	})
}

func FuzzParseDuty(f *testing.F) {
	for _, said := range []string{"nails 10 every 2w", "close trim 30 before 10d 7d", "bath 1 h before 3 days 1 day", "nails 10 min every 2 weeks", "nails 10 every 2w done 2027-01-04", "feet 15", "feet, belly out", "ears 10 before 14d 7d by close"} {
		f.Add(said)
	}
	f.Fuzz(func(t *testing.T, said string) {
		d, err := ParseDuty(said)
		if !readOrRefused(t, err) {
			return
		}
		if strings.TrimSpace(d.Name) == "" || !(d.Minutes >= 0) || math.IsInf(float64(d.Minutes), 0) || d.Every < 0 || d.Before != nil && (d.Before.From < 0 || d.Before.To < 0) {
			t.Errorf("%q is %+v", said, d)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, said := range []string{"32", "32mm", "3,2 cm", "1.25in", `1"`, "320"} {
		f.Add(said, false)
		f.Add(said, true)
	}
	f.Fuzz(func(t *testing.T, said string, inches bool) {
		units := UnitsMillimetres
		if inches {
			units = UnitsInches
		}
		length, err := ParseLength(said, units)
		if readOrRefused(t, err) && (!(length > 0) || math.IsInf(float64(length), 0)) {
			t.Errorf("%q is %v", said, length)
		}
	})
}

func FuzzParseDay(f *testing.F) {
	for _, said := range []string{"2027-03-20", "20.3.2027", "09/11/2026", "Sat 20th of March 2027", "9/11/26"} {
		f.Add(said)
	}
	f.Fuzz(func(t *testing.T, said string) {
		d, err := ParseDay(said)
		if !readOrRefused(t, err) {
			return
		}
		if back, err := ParseDay(d.String()); err != nil || back != d || d == 0 {
			t.Errorf("%q is %s, read back %s (%v)", said, d, back, err)
		}
	})
}
