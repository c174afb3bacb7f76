package kennel

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNamesAreFoundWithoutCapitalsAndByTheirBeginning(t *testing.T) {
	names := []string{"Sorrel", "Sorrel Two", "Moss", "Mossy Bank", "Pewter", "Élan"}
	for said, want := range map[string]string{
		"Sorrel": "Sorrel", "SORREL": "Sorrel", "sorrel t": "Sorrel Two", "pew": "Pewter", " moss ": "Moss", "mossy": "Mossy Bank", "éL": "Élan",
	} {
		if got, err := Match("dog", said, names); err != nil || got != want {
			t.Errorf("%q is %q (%v), want %q", said, got, err, want)
		}
	}
	for said, try := range map[string]string{
		"sor": "one of Sorrel, Sorrel Two", "Mos": "one of Moss, Mossy Bank", "Powter": "one of Pewter, Sorrel, Moss", "": "one of ",
	} {
		_, err := Match("dog", said, names)
		var in *InputError
		if !errors.As(err, &in) || !strings.HasPrefix(in.Try, try) || strings.Count(in.Try, ",") > 2 {
			t.Errorf("%q: %v", said, err)
		}
	}
	if _, err := Match("dog", "Moss", nil); err == nil {
		t.Error("found a dog where there is none")
	}
}

func TestSharesAreReadAsTheyAreSaid(t *testing.T) {
	for said, want := range map[string]Share{
		"1/17": 1.0 / 17, "2/3": 2.0 / 3, "0.06": 0.06, ".5": 0.5, "6%": 0.06, "all": 1, "half": 0.5, "1": 1, "100%": 1, "1/1": 1,
		"1 in 17": 1.0 / 17, "about 1 in 17": 1.0 / 17, "2 in 3": 2.0 / 3, "0,06": 0.06, "6 %": 0.06, "12,5%": 0.125, "about half": 0.5, "All of it": 1,
		"0": 0, "none": 0, "0/5": 0, " 0.5 ": 0.5,
	} {
		if got, err := ParseShare(said); err != nil || math.Abs(float64(got-want)) > 1e-15 {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for _, said := range []string{"", "-1", "1/0", "2", "101%", "1/", "/2", "0x1", "1e-1", "NaN", "inf", "3/2", "one", "1/2/3", "1 in", "in 17", "1 in 0", "17 in 1"} {
		if got, err := ParseShare(said); err == nil {
			t.Errorf("%q is %v", said, got)
		}
	}
}

func TestMinutesAreReadAsTheyAreSaid(t *testing.T) {
	for said, want := range map[string]Minutes{
		"50": 50, "50m": 50, "50min": 50, "1h": 60, "1h30": 90, "1:05": 65, "1.5h": 90, "7.5": 7.5,
		"40 min": 40, "40 minutes": 40, "1 h 30": 90, "1 h 30 min": 90, "1,5 h": 90, "2 hours": 120, "7,5": 7.5,
	} {
		if got, err := ParseMinutes(said); err != nil || got != want {
			t.Errorf("%q is %v (%v), want %v", said, got, err, want)
		}
	}
	for _, said := range []string{"", "h", "-5", "1:", "1:60", "1h60", "five", ":30", "1/2"} {
		if got, err := ParseMinutes(said); err == nil {
			t.Errorf("%q is %v", said, got)
		}
	}
}

func TestWorkIsReadAsItIsSaid(t *testing.T) {
	dogs := []string{"Sorrel", "Moss", "Old Moss"}
	for said, want := range map[string]SaidWork{
		"Sorrel back 1/17 ribs 1/12, 50 min":              {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 1.0 / 17}, {AreaRibs, 1.0 / 12}}, Minutes: 50},
		"old moss skirt line 1/8, 1h10":                   {Dog: "Old Moss", Areas: []Pulled{{AreaSkirtLine, 1.0 / 8}}, Minutes: 70},
		"sor skirt-line 6% furn all 45 min":               {Dog: "Sorrel", Areas: []Pulled{{AreaSkirtLine, 0.06}, {AreaFurnishings, 1}}, Minutes: 45},
		"moss":                                            {Dog: "Moss"},
		"Sorrel back 1 in 17, ribs about 1 in 12, 1 h 10": {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 1.0 / 17}, {AreaRibs, 1.0 / 12}}, Minutes: 70},
		"Sorrel back 0,06 ribs 12,5% 50 min":              {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 0.06}, {AreaRibs, 0.125}}, Minutes: 50},
		"Sorrel back 1/10,50 min":                         {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 0.1}}, Minutes: 50},
		"Sorrel back all of it, ribs 0":                   {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 1}, {AreaRibs, 0}}},
		"Sorrel skirt line 6 %, 40 minutes":               {Dog: "Sorrel", Areas: []Pulled{{AreaSkirtLine, 0.06}}, Minutes: 40},
		"Sorrel, back half, ears 1/4, 50 min":             {Dog: "Sorrel", Areas: []Pulled{{AreaBack, 0.5}, {AreaEars, 0.25}}, Minutes: 50},
	} {
		if got, err := ParseWork(strings.Fields(said), dogs); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is %+v (%v), want %+v", said, got, err, want)
		}
		if got, err := ParseWork([]string{said}, dogs); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q in one word is %+v (%v), want %+v", said, got, err, want)
		}
	}
	for _, said := range []string{"", "rowan back 1/17", "sorrel back", "sorrel 1/17", "sorrel back 1/17 back 1/4", "sorrel t 1/4", "sorrel back 3/2"} {
		if got, err := ParseWork(strings.Fields(said), dogs); err == nil {
			t.Errorf("%q is %+v", said, got)
		}
	}
}

// Whatever is said, reading it ends in work that holds together or in an error that says what to try.
func TestNoWordsBreakTheReadingOfWork(t *testing.T) {
	word := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"sor", "back", "skirt", "line", "1/17", "all", "half", ",", "50", "min", "6%", "1", "in", "0,5", "h"}))
	rapid.Check(t, func(t *rapid.T) {
		w, err := ParseWork(rapid.SliceOfN(word, 0, 8).Draw(t, "said"), []string{"Sorrel", "Moss"})
		var in *InputError
		switch {
		case err == nil:
			for _, p := range w.Areas {
				if !(p.Share >= 0 && p.Share <= 1) || !slices.Contains(AreaNames(), p.Area) {
					t.Fatalf("read %+v", w)
				}
			}
			if !(w.Minutes >= 0) {
				t.Fatalf("read %+v", w)
			}
		case !errors.As(err, &in) || in.Try == "":
			t.Fatalf("%v has nothing to try", err)
		}
	})
}

func TestLayersAndHoursAndDutiesAreReadAsTheyAreSaid(t *testing.T) {
	a, b := NewDate(2026, 9, 20), NewDate(2026, 12, 1)
	layers, err := ParseLayers(strings.Fields("0.6 2026-09-20 0.4 2026-12-01"))
	if err != nil || !slices.Equal(layers, []Layer{{0.6, a}, {0.4, b}}) {
		t.Errorf("%v %v", layers, err)
	}
	if layers, err = ParseLayers([]string{"2026-12-01"}); err != nil || !slices.Equal(layers, []Layer{{1, b}}) {
		t.Errorf("%v %v", layers, err)
	}
	for _, said := range []string{"0,6 20 September 2026 0,4 1.12.2026", "60% 2026-9-20 2 in 5 Dec 1, 2026", "0.6 Sunday 20th September 2026 40 % 2026-12-01"} {
		if layers, err = ParseLayers(strings.Fields(said)); err != nil || !slices.Equal(layers, []Layer{{0.6, a}, {0.4, b}}) {
			t.Errorf("%q: %v %v", said, layers, err)
		}
	}
	for _, bad := range []string{"", "0.6", "soon", "0 2026-09-20", "09/11/2026", "0.5 9 November", "0.6 0.4", "0.6 2026-09-20 0.4", "2 2026-09-20", "0.6 2026-02-30"} {
		if layers, err := ParseLayers(strings.Fields(bad)); err == nil {
			t.Errorf("%q is %v", bad, layers)
		}
	}
	hours, err := ParseHours(strings.Fields("mon=5 tuesday=4 fri=2.5"))
	if err != nil || hours != [DaysAWeek]Hours{5, 4, 0, 0, 2.5} {
		t.Errorf("%v %v", hours, err)
	}
	for _, said := range []string{"mon 2h tue 1:30 fri 2,5", "mon=2 tue=1h30 fri=2.5", "Monday: 2 hours tue: 90 min fri 2.5"} {
		if hours, err = ParseHours(strings.Fields(said)); err != nil || hours != [DaysAWeek]Hours{2, 1.5, 0, 0, 2.5} {
			t.Errorf("%q: %v %v", said, hours, err)
		}
	}
	if hours, err = ParseHours([]string{"3"}); err != nil || hours != [DaysAWeek]Hours{3, 3, 3, 3, 3} {
		t.Errorf("%v %v", hours, err)
	}
	for _, bad := range []string{"", "mon", "mo=3", "mon=x", "mon=3 monday=4", "3 4", "=3", "mon=-1", "mon 9-11", "mon 2 tue", "2h mon", "mon two"} {
		if hours, err := ParseHours(strings.Fields(bad)); err == nil {
			t.Errorf("%q is %v", bad, hours)
		}
	}
	for said, want := range map[string]Duty{
		"nails 10 every 2w":            {Name: "nails", Minutes: 10, Every: 2},
		"close trim 30 before 10d 1w":  {Name: "close trim", Minutes: 30, Before: &BeforeShow{From: 10, To: 7}},
		"nails 10 min every 2 weeks":   {Name: "nails", Minutes: 10, Every: 2},
		"bath 1 h before 3 days 1 day": {Name: "bath", Minutes: 60, Before: &BeforeShow{From: 3, To: 1}},

		"nails 10":                                    {Name: "nails", Minutes: 10},
		"feet, belly out":                             {Name: "feet, belly", LeaveOut: true},
		"under the tail 6 min done 2027-01-04":        {Name: "under the tail", Minutes: 6, Done: NewDate(2027, 1, 4)},
		"feet done 2027-01-04":                        {Name: "feet", Done: NewDate(2027, 1, 4)},
		"ears 10 before 14d 7d by clo":                {Name: "ears", Minutes: 10, Before: &BeforeShow{From: 14, To: 7}, Work: SkillClose},
		"nails 10 every 2w done 2027-01-04":           {Name: "nails", Minutes: 10, Every: 2, Done: NewDate(2027, 1, 4)},
		"close trim 30 before 10d 7d done 2027-01-04": {Name: "close trim", Minutes: 30, Before: &BeforeShow{From: 10, To: 7}, Done: NewDate(2027, 1, 4)},
	} {
		if got, err := ParseDuty(said); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is %+v (%v)", said, got, err)
		}
	}
	for _, bad := range []string{"", "nails", "nails every 2w", "nails 10 every 3d", "nails 10 every 2", "nails 10 every", "nails 10 before 3d", "10 every 2w", "nails 10 every 99999w", "nails 10 every 2w done", "nails 10 every 2w done soon", "done 2027-01-04", "out", "nails 10 every 2w by", "nails 10 every 2w by jacket"} {
		if got, err := ParseDuty(bad); err == nil {
			t.Errorf("%q is %+v", bad, got)
		}
	}
}

func stringOfTwo() Kennel {
	on := NewDate(2027, 3, 20)
	return Kennel{
		Hands: []Hands{{Name: "Handler", Does: []Skill{SkillClose}, Away: []Span{{From: on}}}},
		Dogs: []Dog{
			{Name: "Sorrel", All: []Layer{{1, on - 90}}, Areas: []AreaCoat{{AreaBack, []Layer{{1, on - 60}}}}, Duties: []Duty{{Name: "trim", Before: &BeforeShow{From: 3}}}, Here: []Span{{From: on - 100}}},
			{Name: "Moss"},
		},
		Shows: []Show{
			{Name: "Brackenmere", On: on, Days: 2, EntriesClose: on - 18, Away: &Span{From: on - 1, To: on + 1}, Dogs: []string{"Sorrel", "Moss"}},
			{Name: "Brackenmere", On: on + 364, Days: 1, Dogs: []string{"Moss"}},
		},
	}
}

func TestAClonedKennelSharesNothing(t *testing.T) {
	k := stringOfTwo()
	c := k.Clone()
	if !reflect.DeepEqual(k, c) {
		t.Fatalf("%+v", c)
	}
	c.Hands[0].Does[0], c.Hands[0].Away[0].From = SkillJacket, 1
	c.Dogs[0].All[0].Share, c.Dogs[0].Areas[0].Layers[0].Share, c.Dogs[0].Duties[0].Before.From, c.Dogs[0].Here[0].From = 0.1, 0.1, 9, 1
	c.Shows[0].Dogs[0], c.Shows[0].Away.From = "Rowan", 1
	if !reflect.DeepEqual(k, stringOfTwo()) {
		t.Errorf("a change of the copy changed the kennel: %+v", k)
	}
}

func TestARetiredDogKeepsItsShowsUpToItsLastDay(t *testing.T) {
	k := stringOfTwo()
	last := NewDate(2027, 4, 1)
	off, err := k.Retire("moss", last)
	if err != nil || len(off) != 1 || off[0].On != k.Shows[1].On {
		t.Fatalf("off %v (%v)", off, err)
	}
	if !k.Shows[0].Has("Moss") || k.Shows[1].Has("Moss") || !k.Dogs[1].Gone(last+1) || k.Dogs[1].Gone(last) {
		t.Errorf("%+v", k)
	}
	if _, err := k.Retire("Sorrel", NewDate(2020, 1, 1)); err == nil {
		t.Error("a dog left before it came")
	}
	now := k.InHand(last + 1)
	if len(now.Dogs) != 1 || len(now.Shows) != 1 || now.Dogs[0].Name != "Sorrel" {
		t.Errorf("in hand %+v", now)
	}
	if len(k.Dogs) != 2 || len(k.Shows) != 2 {
		t.Errorf("the kennel itself lost %+v", k)
	}
}

func TestAShowThatMovesTakesItsDaysWithIt(t *testing.T) {
	k := stringOfTwo()
	away := k.Shows[0].Away
	k.Shows[0].MoveTo(k.Shows[0].On + 7)
	s, was := k.Shows[0], stringOfTwo().Shows[0]
	if s.EntriesClose != was.EntriesClose+7 || s.Away.From != was.Away.From+7 || s.Away.To != was.Away.To+7 || away.From != was.Away.From {
		t.Errorf("%+v", s)
	}
}

func TestAShowIsFoundByItsDayWhereItsNameIsHeldTwice(t *testing.T) {
	k := stringOfTwo()
	if _, err := k.FindShow("brack", 0); err == nil {
		t.Error("one of two was taken")
	}
	if i, err := k.FindShow("brack", k.Shows[1].On); err != nil || i != 1 {
		t.Error(i, err)
	}
	if _, err := k.FindShow("brack", 20000); err == nil {
		t.Error("found on a day without it")
	}
}

func TestARenamedDogKeepsItsShows(t *testing.T) {
	k := stringOfTwo()
	k.Rename("Moss", "Fern")
	if k.Dogs[1].Name != "Fern" || !k.Shows[0].Has("Fern") || !k.Shows[1].Has("Fern") || k.Shows[0].Has("Moss") {
		t.Errorf("%+v", k)
	}
}
