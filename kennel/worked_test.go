package kennel

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func sumOf(layers []Layer) (sum float64) {
	for _, l := range layers {
		sum += float64(l.Share)
	}
	return sum
}

// pulls draws pulls of one area by week from week 0 on.
func pulls(t *rapid.T) []float64 {
	return rapid.SliceOfN(rapid.SampledFrom([]float64{0, 0, 0.05, 1.0 / 17, 0.3, 0.9, 1}), 1, 12).Draw(t, "pulls")
}

// The layers after work and the pull curve after the same shares tell the same coat.
func TestWorkMovesLayersAsThePullCurveDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers, shares := someLayers(t, -30, -1), pulls(t)
		dog := Dog{Name: "Sorrel", Areas: []AreaCoat{{Area: AreaRibs, Layers: layers}}}
		weeks := rapid.Permutation(weekNumbers(len(shares))).Draw(t, "told in this order")
		for _, w := range weeks {
			on := week0.AddDays(w*DaysAWeek + rapid.IntRange(0, 6).Draw(t, "day"))
			dog = dog.Worked(plainPattern(), Work{
				Dog: "Sorrel", On: on, Areas: []Pulled{{Area: AreaRibs, Share: Share(shares[w])}},
			})
		}
		got, want := NewCurve(dog.LayersOn(AreaRibs), week0), NewCurve(layers, week0).With(shares)
		last := len(shares) - 1
		for week := last; week < last+4; week++ {
			for age := Weeks(1); age < 50; age++ {
				if d := float64(got.Younger(week, age) - want.Younger(week, age)); math.Abs(d) > 1e-9 {
					t.Fatalf("week %d, under %d weeks: %v, the curve has %v", week, age, got.Younger(week, age), want.Younger(week, age))
				}
			}
		}
	})
}

func weekNumbers(n int) (all []int) {
	for i := range n {
		all = append(all, i)
	}
	return all
}

func TestWorkKeepsTheSumOfShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := someLayers(t, -30, 0)
		given := slices.Clone(before)
		dog := Dog{Name: "Sorrel", All: before}
		share := rapid.Float64Range(-0.5, 1.5).Draw(t, "share")
		after := dog.Worked(plainPattern(), Work{
			Dog: "Sorrel", On: week0.AddDays(rapid.IntRange(0, 20).Draw(t, "on")), Areas: []Pulled{{AreaRibs, Share(share)}},
		})
		if !reflect.DeepEqual(dog.All, given) || dog.Areas != nil {
			t.Fatal("the dog before the work has changed")
		}
		layers := after.LayersOn(AreaRibs)
		// What no pull is known of is pulled first: the dated sum grows by it, up to the whole area.
		want := min(max(1, sumOf(before)), sumOf(before)+min(1, max(0, share)))
		if math.Abs(sumOf(layers)-want) > 1e-9 {
			t.Fatalf("%v became %v: the sum is %v, want %v", before, layers, sumOf(layers), want)
		}
		for i, l := range layers {
			if share > 0 && (l.Share <= 0 || i > 0 && layers[i-1].Pulled >= l.Pulled) {
				t.Fatalf("%v", layers)
			}
		}
	})
}

func TestPulledShareComesFromTheLongestHair(t *testing.T) {
	const day = 7
	layer := func(share Share, daysAgo int) Layer { return Layer{Share: share, Pulled: week0.AddDays(-daysAgo)} }
	for name, c := range map[string]struct {
		before []Layer
		share  Share
		want   []Layer
	}{
		"a part of a layer":         {[]Layer{layer(0.6, 70), layer(0.4, 30)}, 0.25, []Layer{layer(0.35, 70), layer(0.4, 30), layer(0.25, -day)}},
		"one layer and a part":      {[]Layer{layer(0.4, 30), layer(0.6, 70)}, 0.75, []Layer{layer(0.25, 30), layer(0.75, -day)}},
		"undated hair before dated": {[]Layer{layer(0.5, 70)}, 0.25, []Layer{layer(0.5, 70), layer(0.25, -day)}},
		"undated hair and a part":   {[]Layer{layer(0.75, 70)}, 0.5, []Layer{layer(0.5, 70), layer(0.5, -day)}},
		"the whole area":            {[]Layer{layer(0.6, 70), layer(0.4, 30)}, 1, []Layer{layer(1, -day)}},
		"more than the whole area":  {[]Layer{layer(0.6, 70), layer(0.4, 30)}, 7, []Layer{layer(1, -day)}},
		"a second time on the day":  {[]Layer{layer(0.5, 70), layer(0.5, -day)}, 0.25, []Layer{layer(0.25, 70), layer(0.75, -day)}},
		"not a number":              {[]Layer{layer(1, 70)}, Share(math.NaN()), []Layer{layer(1, 70)}},
		"hair of which nothing was": {nil, 0.25, []Layer{layer(0.25, -day)}},
	} {
		dog := Dog{Name: "Moss", All: c.before}
		got := dog.Worked(plainPattern(), Work{Dog: "Moss", On: week0.AddDays(day), Areas: []Pulled{{AreaRibs, c.share}}})
		if l := got.LayersOn(AreaRibs); !reflect.DeepEqual(l, c.want) {
			t.Errorf("%s: %v, want %v", name, l, c.want)
		}
	}
}

func TestWorkTouchesOnlyWhatItNames(t *testing.T) {
	all := []Layer{pulledWeeks(1, -10)}
	dog := Dog{Name: "Moss", All: all, Areas: []AreaCoat{{AreaBack, all}, {AreaEars, all}}}
	w := Work{Dog: "Moss", On: week0, Areas: []Pulled{{AreaRibs, 0.1}, {AreaTail, 0.1}}}
	got := dog.Worked(plainPattern(), w)
	want := []AreaCoat{{AreaBack, all}, {AreaRibs, []Layer{pulledWeeks(0.9, -10), pulledWeeks(0.1, 0)}}, {AreaEars, all}}
	if !reflect.DeepEqual(got.Areas, want) || !reflect.DeepEqual(got.All, all) {
		t.Errorf("%+v", got)
	}
	if len(dog.Areas) != 2 {
		t.Errorf("the dog before the work has changed: %+v", dog)
	}
	w.Dog = "Sorrel"
	if got := dog.Worked(plainPattern(), w); !reflect.DeepEqual(got, dog) {
		t.Errorf("another dog's work changed %+v", got)
	}
}

func TestWeekDoneSetsWorkAgainstWhatWasAgreed(t *testing.T) {
	const ribs = 150
	plain := plainPattern()
	plain.Areas[0].Minutes = figureOf(ribs)
	plain.Look = figureOf(8)
	pats := Patterns{"plain": plain}
	k := Kennel{Dogs: []Dog{
		{Name: "Moss", Pattern: "plain", Table: Table{SetUp: 10}, Coat: Coat{Pace: 2}},
		{Name: "Idle", Pattern: "plain"},
		{Name: "Sorrel", Pattern: "plain"},
	}}
	agreed := []Session{
		{Dog: "Moss", On: week0, Areas: []Pulled{{AreaRibs, 0.1}}},
		{Dog: "Moss", On: week0.AddDays(6), Areas: []Pulled{{AreaRibs, 0.1}, {AreaTail, 0.2}}},
		{Dog: "Sorrel", On: week0.AddDays(1), Minutes: 45, Areas: []Pulled{{AreaEars, 0.5}}}, // its minutes were agreed
		{Dog: "Moss", On: week0.AddDays(7), Areas: []Pulled{{AreaRibs, 0.1}}},                // next week
	}
	done := []Work{
		{Dog: "Gone", On: week0, Minutes: 20, Areas: []Pulled{{AreaBack, 0.1}}},
		{Dog: "Moss", On: week0.AddDays(2), Minutes: 40, Stopped: true, Areas: []Pulled{{AreaRibs, 0.15}}},
		{Dog: "Moss", On: week0.AddDays(3), Minutes: 15, Duty: "nails"},
		{Dog: "Sorrel", On: week0.AddDays(4), Minutes: 30, Areas: []Pulled{{AreaEars, 1}}},
		{Dog: "Sorrel", On: week0.AddDays(-1), Minutes: 30, Areas: []Pulled{{AreaEars, 1}}}, // last week
	}
	got := WeekDone(k, pats, agreed, done, week0.AddDays(3))
	want := []DogDone{
		{
			Dog: "Moss", Agreed: 2, Done: 1, Stopped: 1, AgreedMinutes: Minutes(20 + 2*8 + 2*0.2*ribs), DoneMinutes: 40,
			Areas: []AreaDone{{AreaRibs, 0.2, 0.15}, {AreaTail, 0.2, 0}}, Duties: []string{"nails"}, DutyMinutes: 15,
		},
		{Dog: "Sorrel", Agreed: 1, AgreedMinutes: 45, Done: 1, DoneMinutes: 30, Areas: []AreaDone{{AreaEars, 0.5, 1}}},
		{Dog: "Gone", Done: 1, DoneMinutes: 20, Areas: []AreaDone{{AreaBack, 0, 0.1}}, Stranger: true},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}
