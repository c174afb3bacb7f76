package kennel

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// ribsOf is the area of the plain pattern that is long after 11 + 7/2 weeks.
func ribsOf(t *testing.T) PatternArea {
	t.Helper()
	a, ok := plainPattern().Area(AreaRibs)
	if !ok || a.LongAfter(Coat{}) != 14.5 || a.LongAfter(Coat{Growth: 2}) != 7.25 {
		t.Fatal(a)
	}
	return a
}

// However a look corrects the layers, they sum to what they did, the undated hair with them, and as much is long as was seen.
func TestALookMakesAsMuchLongAsWasSeen(t *testing.T) {
	ribs := ribsOf(t)
	rapid.Check(t, func(t *rapid.T) {
		layers := someLayers(t, -30, -1)
		coat := Coat{Growth: rapid.SampledFrom([]float64{0, 0.7, 1, 1.4}).Draw(t, "growth")}
		long := Share(rapid.Float64Range(0, 1).Draw(t, "long"))
		dog := Dog{Name: "Sorrel", Coat: coat, All: layers}
		on := week0.AddDays(rapid.IntRange(0, 6).Draw(t, "day"))
		after := dog.Worked(plainPattern(), Work{Dog: "Sorrel", On: on, Looks: []Look{{Area: AreaRibs, Share: long}}}).LayersOn(AreaRibs)
		if got := longShare(after, ribs.longBy(dog, on)); math.Abs(float64(got-long)) > 1e-9 {
			t.Fatalf("%v of it was seen to be long; %v became %v, of which %v is", long, layers, after, got)
		}
		if sumOf(after) > 1+1e-9 || sumOf(after) < sumOf(layers)-1e-9 {
			t.Fatalf("%v became %v", layers, after)
		}
		for _, l := range after {
			if l.Pulled > on || l.Share < 0 {
				t.Fatalf("%v", after)
			}
		}
	})
}

// The least is changed: hair far from the limit keeps its day.
func TestALookMovesTheHairNextToTheLimit(t *testing.T) {
	ribs := ribsOf(t)
	by := ribs.longBy(Dog{Coat: Coat{Growth: 1}}, week0)
	layer := func(share Share, pulled Date) Layer { return Layer{Share: share, Pulled: pulled} }
	for name, c := range map[string]struct {
		before []Layer
		long   Share
		want   []Layer
	}{
		"none":                             {[]Layer{layer(0.25, by-40), layer(0.25, by), layer(0.5, by+30)}, 0, []Layer{layer(0.5, by+1), layer(0.5, by+30)}},
		"half":                             {[]Layer{layer(0.25, by-40), layer(0.25, by), layer(0.5, by+30)}, 0.25, []Layer{layer(0.25, by-40), layer(0.25, by+1), layer(0.5, by+30)}},
		"as much":                          {[]Layer{layer(0.25, by-40), layer(0.75, by+30)}, 0.25, []Layer{layer(0.25, by-40), layer(0.75, by+30)}},
		"twice as much":                    {[]Layer{layer(0.25, by-40), layer(0.5, by+7), layer(0.25, by+30)}, 0.5, []Layer{layer(0.25, by-40), layer(0.25, by), layer(0.25, by+7), layer(0.25, by+30)}},
		"none of what no pull is known of": {[]Layer{layer(0.5, by+30)}, 0, []Layer{layer(0.5, by+1), layer(0.5, by+30)}},
		"half of it":                       {[]Layer{layer(0.5, by+30)}, 0.25, []Layer{layer(0.25, by+1), layer(0.5, by+30)}},
	} {
		dog := Dog{Name: "Moss", Coat: Coat{Growth: 1}, All: c.before}
		w := Work{Dog: "Moss", On: week0, Looks: []Look{{Area: AreaRibs, Share: c.long}, {Area: AreaTail}}}
		if got := dog.Worked(plainPattern(), w); !reflect.DeepEqual(got.LayersOn(AreaRibs), c.want) || !reflect.DeepEqual(got.All, c.before) {
			t.Errorf("%s: %v, want %v", name, got.LayersOn(AreaRibs), c.want)
		}
	}
}

// What is seen is seen before the pull: what is pulled then comes off the corrected layers.
func TestALookComesBeforeThePull(t *testing.T) {
	by := ribsOf(t).longBy(Dog{}, week0)
	dog := Dog{Name: "Moss", All: []Layer{{0.5, by - 40}, {0.5, by + 30}}}
	w := Work{Dog: "Moss", On: week0, Looks: []Look{{AreaRibs, LongThin, 0.25}}, Areas: []Pulled{{AreaRibs, 0.25}}}
	want := []Layer{{0.25, by + 1}, {0.5, by + 30}, {0.25, week0}}
	if got := dog.Worked(plainPattern(), w).LayersOn(AreaRibs); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestKeptHairHasNoLongLayer(t *testing.T) {
	p := keptPattern()
	a, _ := p.Area(AreaFurnishings)
	if !a.Kept {
		t.Fatal("the pattern keeps nothing")
	}
	dog := Dog{Name: "Moss", All: []Layer{{1, week0 - 300}}}
	if got := dog.Worked(p, Work{Dog: "Moss", On: week0, Looks: []Look{{Area: AreaFurnishings, Share: 0}}}); got.Areas != nil {
		t.Errorf("%+v", got)
	}
	if h := (Kennel{}).LongHair(dog, p, a, nil, week0); h != (LongHair{}) {
		t.Errorf("%+v", h)
	}
}

// What is seen decides the share: none leaves the area, thin halves it, thick takes up to twice as much, but only long hair and what the
// rules allow, and never less than was planned.
func TestTheShareFollowsFromWhatIsSeen(t *testing.T) {
	const planned = 0.06
	for name, c := range map[string]struct {
		hair LongHair
		long LongSeen
		want Share
	}{
		"none":                            {LongHair{0.1, 0.07, 1}, LongNone, 0},
		"thin":                            {LongHair{0.1, 0.07, 1}, LongThin, planned / 2},
		"as expected":                     {LongHair{0.1, 0.07, 1}, LongExpected, planned},
		"nobody looked":                   {LongHair{0.1, 0.07, 1}, "", planned},
		"thick":                           {LongHair{0.1, 0.07, 1}, LongThick, 2 * planned},
		"thick, a little of it long":      {LongHair{0.05, 0.07, 1}, LongThick, 0.1},
		"thick where none was expected":   {LongHair{0, 0.07, 1}, LongThick, 0.07},
		"thick near a show":               {LongHair{0.1, 0.07, 0.08}, LongThick, 0.08},
		"thick, no more than was planned": {LongHair{0.1, 0.07, 0.02}, LongThick, planned},
		"thick where little becomes long": {LongHair{0, 0.01, 1}, LongThick, planned},
	} {
		if got := c.hair.Take(c.long, planned); math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	for long, want := range map[LongSeen]Share{LongNone: 0, LongThin: 0.4, LongExpected: 0.8, LongThick: 1} {
		if got := (LongHair{Share: 0.8, Week: 0.07}).Seen(long); got != want {
			t.Errorf("%s of 0.8 is %v", long, got)
		}
	}
	if got := (LongHair{Week: 0.07}).Seen(LongThin); got != 0.035 {
		t.Errorf("thin where none was expected is %v", got)
	}
}

// The most that may be pulled more of: an eighth of the living jacket near a show, the few hairs of its last weeks, none just before it.
func TestTheRulesNearAShowLimitWhatIsTaken(t *testing.T) {
	p := plainPattern()
	p.RollMost = figureOf(0.2)
	for i := range p.Areas {
		p.Areas[i].FinishWeeks, p.Areas[i].FinishShare = figureOf(2), figureOf(0.03)
	}
	ribs, _ := p.Area(AreaRibs)
	ears, _ := p.Area(AreaEars)
	dog := Dog{Name: "Moss", Coat: Coat{Growth: 1}, All: []Layer{{1, week0 - 42}}}
	show := func(days int, chance float64) Kennel {
		return Kennel{Shows: []Show{{Name: "Ferrydown", On: week0.AddDays(days), Days: 1, Chance: chance, Dogs: []string{"Moss"}}}}
	}
	for name, c := range map[string]struct {
		k    Kennel
		a    PatternArea
		done []Work
		dog  Dog
		want Share
	}{
		"no show":                {Kennel{}, ribs, nil, dog, 1},
		"a show far off":         {show(7*11+6, 1), ribs, nil, dog, 1},
		"within its ready weeks": {show(7*11+5, 1), ribs, nil, dog, LivingMost},
		"hardly hoped for":       {show(7*11+5, 0.4), ribs, nil, dog, 1},
		"not of the jacket":      {show(7*3, 1), ears, nil, dog, 1},
		"its last weeks":         {show(13, 1), ears, nil, dog, 0.03},
		"just before it":         {show(2, 1), ribs, nil, dog, 0},
		"another dog's":          {Kennel{Shows: []Show{{On: week0 + 1, Days: 1, Chance: 1, Dogs: []string{"Quill"}}}}, ribs, nil, dog, 1},
		"over":                   {show(-2, 1), ribs, nil, dog, 1},
		"only rolled":            {Kennel{}, ribs, nil, Dog{Name: "Moss", Coat: Coat{Growth: 1, RollOnly: true}, All: dog.All}, 0.2},
		"dead hair beside it":    {show(70, 1), ribs, nil, Dog{Name: "Moss", Coat: Coat{Growth: 1}, All: []Layer{{0.4, week0 - 7*25}, {0.6, week0 - 7}}}, LivingMost + 0.4},
		"a part is pulled this week": {show(70, 1), ribs, []Work{
			{Dog: "Moss", On: week0, Areas: []Pulled{{AreaRibs, 0.1}, {AreaEars, 0.2}}},
			{Dog: "Quill", On: week0, Areas: []Pulled{{AreaRibs, 0.1}}},
			{Dog: "Moss", On: week0 - 1, Areas: []Pulled{{AreaRibs, 0.1}}},
		}, dog, 0.025},
	} {
		if got := c.k.LongHair(c.dog, p, c.a, c.done, week0).Most; math.Abs(float64(got-c.want)) > 1e-12 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}
