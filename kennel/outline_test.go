package kennel

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestAnOutlineReadsBackAsItIsSaid(t *testing.T) {
	for said, want := range map[string]Outline{
		"neck: leave the base long":        {AreaNeck, "leave the base long", 0},
		"loin 30mm: low in loin: stay off": {AreaLoin, "low in loin: stay off", 30},
		"Skirt-line 1.25in":                {AreaSkirtLine, "", 31.75},
		"back 35":                          {AreaBack, "", 35},
	} {
		got, err := ParseOutline(said, UnitsMillimetres)
		if err != nil || got != want {
			t.Errorf("%q: %+v, %v", said, got, err)
		}
		if back, err := ParseOutline(got.String(), UnitsInches); err != nil || back != got {
			t.Errorf("%q became %q, and that %+v (%v)", said, got, back, err)
		}
	}
	for said, what := range map[string]string{
		"": "does not say", "neck": "does not say", "neck:": "does not say", ": long": "does not say", "wing: long": "is not known", "neck 5m: x": "is not a length",
	} {
		if got, err := ParseOutline(said, UnitsMillimetres); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%q: %+v, %v", said, got, err)
		}
	}
}

// However a coat is pulled inside the caps, half of the area's hair stays at the least length or longer in every week in which it is pulled.
func TestTheCapsKeepTheLeastLength(t *testing.T) {
	p := plainPattern()
	area := p.Areas[0]
	rapid.Check(t, func(t *rapid.T) {
		dog := Dog{
			Name: "Sorrel", Coat: Coat{Growth: rapid.SampledFrom([]float64{0.7, 1, 1.4}).Draw(t, "growth")}, All: someLayers(t, -30, 0),
			Outlines: []Outline{{Area: area.Name, Least: Millimetres(rapid.SampledFrom([]float64{5, 12, 20, 40}).Draw(t, "least"))}},
		}
		if rapid.Bool().Draw(t, "spell") {
			dog.Spells = []Spell{someSpell(t)}
		}
		const weeks = 30
		curve := NewCurve(dog.LayersOf(area), week0).On(dog.Lean(week0))
		caps := dog.LeastCaps(p, area, curve, weeks)
		least := dog.LeastWeeks(p, area)
		pulled := make([]float64, weeks)
		for week, most := range caps {
			pulled[week] = most * rapid.SampledFrom([]float64{1, 1, 0.5, 0}).Draw(t, "part")
		}
		after, any := curve.With(pulled), false
		for week := range weeks {
			if short := after.Younger(week, least); pulled[week] > 0 && short > OutlineShare+1e-9 {
				t.Fatalf("week %d: %v of it is under %d weeks", week, short, least)
			}
			any = any || caps[week] > 0
		}
		if !any && len(dog.Spells) == 0 {
			t.Fatalf("it may never be pulled: %v", caps)
		}
	})
}

func TestAtTheTableNoMoreIsTakenThanTheOutlineAllows(t *testing.T) {
	p := plainPattern()
	area := p.Areas[0]
	dog := Dog{Name: "Sorrel", All: []Layer{{0.6, week0 - 300}, {0.4, week0 - 7}}}
	k := Kennel{Dogs: []Dog{dog}}
	if most := k.LongHair(dog, p, area, nil, week0).Most; most != 1 {
		t.Errorf("without a least length %v may be taken", most)
	}
	dog.Outlines = []Outline{{Area: area.Name, Least: 20}}
	if most := k.LongHair(dog, p, area, nil, week0).Most; most < 0.0999 || most > 0.1001 {
		t.Errorf("%v may be taken where 0.4 of it is short already", most)
	}
}

func TestWeeksOfALeastLengthAreDerivedFromThePattern(t *testing.T) {
	length := Figure{Value: 40, Low: 40, High: 40}
	area := func(name AreaName, ready float64, show *Figure) PatternArea {
		return PatternArea{Name: name, Ready: Figure{Value: ready, Low: ready, High: ready}, ShowLength: show}
	}
	p := Pattern{Areas: []PatternArea{area(AreaBack, 10, &length), area(AreaLoin, 20, &length), area(AreaNeck, 8, nil)}}
	dog := Dog{Coat: Coat{Growth: 1}, Outlines: []Outline{{Area: AreaBack, Least: 20}, {Area: AreaLoin, Least: 20}, {Area: AreaNeck, Least: 20}}}
	for i, want := range []Weeks{5, 10, 10} { // the neck by the slowest of the pattern
		if got := dog.LeastWeeks(p, p.Areas[i]); got != want {
			t.Errorf("%s: %d weeks, want %d", p.Areas[i].Name, got, want)
		}
	}
	if got := dog.LeastWeeks(Pattern{}, area(AreaNeck, 8, nil)); got != 10 { // 20 mm at 0.3 mm a day
		t.Errorf("without any length: %d weeks", got)
	}
	dog.Coat.Growth = 2
	if got := dog.LeastWeeks(p, p.Areas[0]); got != 3 {
		t.Errorf("twice as fast: %d weeks", got)
	}
}
