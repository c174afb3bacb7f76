package kennel

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func figureOf(v float64) Figure { return Figure{Value: v, Low: v, High: v, Mark: MarkPractice} }

func areaWith(name AreaName, weight, ready, hold float64) PatternArea {
	return PatternArea{Name: name, Work: SkillJacket, Weight: figureOf(weight), Ready: figureOf(ready), Hold: figureOf(hold)}
}

// plainPattern has a body of half the weight and two lesser areas.
func plainPattern() Pattern {
	return Pattern{Name: "plain", Texture: TextureHard, Areas: []PatternArea{
		areaWith(AreaRibs, 0.5, 11, 7), areaWith(AreaWithers, 0.2, 13, 11), areaWith(AreaEars, 0.3, 3, 4),
	}}
}

func coatOf(t *testing.T, d Dog) DogCoat {
	t.Helper()
	c, err := NewDogCoat(d, plainPattern(), week0)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestDogScoreIsTheWeightedMeanWithItsWorstArea(t *testing.T) {
	c := coatOf(t, Dog{Name: "Moss", All: []Layer{pulledWeeks(1, -14)}, Areas: []AreaCoat{
		{Area: AreaEars, Layers: []Layer{pulledWeeks(1, 0)}},
	}})
	ears, _ := c.Areas[2].Score(0), 0
	if ears >= 100 || c.Areas[0].Score(0) != 100 || c.Areas[1].Score(0) != 100 {
		t.Fatalf("ears %.0f ribs %.0f withers %.0f", ears, c.Areas[0].Score(0), c.Areas[1].Score(0))
	}
	if got, want := c.Score(0), 70+0.3*ears; math.Abs(float64(got-want)) > 1e-9 {
		t.Errorf("readiness %.2f, want %.2f", got, want)
	}
	area, score, why := c.Worst(0)
	if area != AreaEars || score != ears || why != "100 % is under 3 weeks" {
		t.Errorf("worst is %s %.0f, %s", area, score, why)
	}
}

// A judge sees the hole: ears that were stripped bald hold a dog down however right the rest is.
func TestAHoleCountsAtAShow(t *testing.T) {
	c := coatOf(t, Dog{Name: "Moss", All: []Layer{pulledWeeks(1, -14)}, Areas: []AreaCoat{
		{Area: AreaEars, Layers: []Layer{pulledWeeks(1, 0)}},
	}})
	c.Areas[2].Weight = figureOf(0.05) // the mean is 95 and more
	ears := c.Areas[2].Score(0)
	if ears >= 50 || c.Score(0) < 90 {
		t.Fatalf("ears %.0f, mean %.0f", ears, c.Score(0))
	}
	if got := c.ShowScore(0); got != ears+30 {
		t.Errorf("at a show %.1f, want %.1f", got, ears+30)
	}
	if s := c.State(0); s != StateComingIn {
		t.Errorf("with bald ears it is %s", s)
	}
	even := coatOf(t, Dog{All: []Layer{pulledWeeks(1, -14)}, Areas: []AreaCoat{{AreaEars, []Layer{pulledWeeks(1, -5)}}}})
	if even.ShowScore(0) != even.Score(0) || even.Score(0) < 99 {
		t.Errorf("without a hole %.1f at a show, %.1f else", even.ShowScore(0), even.Score(0))
	}
}

func TestWorstOfEqualsIsTheFirst(t *testing.T) {
	c := coatOf(t, Dog{All: []Layer{pulledWeeks(1, -90)}})
	if area, score, _ := c.Worst(0); area != AreaRibs || score != 0 {
		t.Errorf("worst is %s %.0f", area, score)
	}
}

func TestGrowthOfTheDogCounts(t *testing.T) {
	layers := []Layer{pulledWeeks(1, -7)}
	slow := coatOf(t, Dog{All: layers, Coat: Coat{Growth: 1}})
	fast := coatOf(t, Dog{All: layers, Coat: Coat{Growth: 2}})
	if s, f := slow.Areas[0].Score(0), fast.Areas[0].Score(0); s >= ReadyScore || f != 100 {
		t.Errorf("ribs after 7 weeks: %.0f, twice as fast %.0f", s, f)
	}
}

func TestAreaWithoutLayersTakesAllOfThem(t *testing.T) {
	all := []Layer{pulledWeeks(1, -12)}
	d := Dog{All: all, Areas: []AreaCoat{{Area: AreaRibs}, {Area: AreaEars, Layers: []Layer{pulledWeeks(1, -3)}}}}
	if got := d.LayersOn(AreaRibs); len(got) != 1 || got[0] != all[0] {
		t.Errorf("ribs: %v", got)
	}
	if got := d.LayersOn(AreaEars); got[0] != pulledWeeks(1, -3) {
		t.Errorf("ears: %v", got)
	}
}

func TestAreaOfWhichNothingIsKnownIsRefused(t *testing.T) {
	d := Dog{Name: "Moss", Areas: []AreaCoat{{Area: AreaRibs, Layers: []Layer{pulledWeeks(1, -12)}}}}
	_, err := NewDogCoat(d, plainPattern(), week0)
	var e *InputError
	if !errors.As(err, &e) || !strings.Contains(e.What, "withers") || !strings.Contains(e.What, "Moss") || e.Try == "" {
		t.Errorf("got %v", err)
	}
}

// Stripped in one go, a dog has one window, of whole weeks, and its states follow one another.
func TestWindowsAreWholeWeeks(t *testing.T) {
	p := Pattern{Areas: []PatternArea{areaWith(AreaRibs, 1, 11, 7)}}
	c, err := NewDogCoat(Dog{All: []Layer{pulledWeeks(1, 0)}}, p, week0)
	if err != nil {
		t.Fatal(err)
	}
	want := Window{From: week0.AddDays(11 * 7), To: week0.AddDays(17*7 + 6)}
	if got := c.Windows(0, 40); len(got) != 1 || got[0] != want {
		t.Errorf("windows %v, want %v", got, want)
	}
	if got := c.Windows(13, 14); len(got) != 1 || got[0].From != week0.AddDays(13*7) || got[0].To != week0.AddDays(14*7+6) {
		t.Errorf("clipped: %v", got)
	}
	if got := c.Windows(18, 60); got != nil {
		t.Errorf("after it: %v", got)
	}
	if w, ok := c.Earliest(0, 40); w != 11 || !ok {
		t.Errorf("earliest %d, %v", w, ok)
	}
	if _, ok := c.Earliest(18, 60); ok {
		t.Error("earliest after it")
	}
	for w, s := range map[int]State{5: StateComingIn, 12: StateInCoat, 19: StateGoingOver, 25: StateBlown} {
		if got := c.State(w); got != s {
			t.Errorf("week %d: %s, want %s", w, got, s)
		}
	}
}

func TestTwoWindowsWhenTheCoatDips(t *testing.T) {
	p := Pattern{Areas: []PatternArea{areaWith(AreaRibs, 1, 4, 4)}}
	c, err := NewDogCoat(Dog{All: []Layer{pulledWeeks(1, -4)}}, p, week0)
	if err != nil {
		t.Fatal(err)
	}
	c = c.With([][]float64{{0, 0, 0, 1}})
	got := c.Windows(0, 12)
	if len(got) != 2 || got[0].From != week0 || got[0].To != week0.AddDays(2*7+6) || got[1].From != week0.AddDays(7*7) {
		t.Errorf("windows %v", got)
	}
}

// Every week lies in a window exactly when the dog is in coat at its end.
func TestWindowsHoldExactlyTheWeeksInCoat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := NewDogCoat(Dog{All: append(someLayers(t, -30, 0), pulledWeeks(0.001, -31))}, plainPattern(), week0)
		if err != nil {
			t.Fatal(err)
		}
		shares := make([][]float64, 3)
		for i := range shares {
			shares[i] = rapid.SliceOfN(rapid.Float64Range(0, 0.4), 0, 20).Draw(t, "shares")
		}
		c = c.With(shares)
		windows := c.Windows(0, 30)
		for w := range 31 {
			in := false
			for i, x := range windows {
				in = in || WeekOf(x.From, week0) <= w && w <= WeekOf(x.To, week0)
				if i > 0 && x.From <= windows[i-1].To.AddDays(1) {
					t.Fatalf("windows touch: %v", windows)
				}
			}
			if in != (c.ShowScore(w) >= ReadyScore) || in != (c.State(w) == StateInCoat) {
				t.Fatalf("week %d: %.1f, %s, windows %v", w, c.ShowScore(w), c.State(w), windows)
			}
			for _, a := range c.Areas {
				if in && a.Score(w) < 50-1e-9 {
					t.Fatalf("week %d: in coat with %s at %.0f", w, a.Name, a.Score(w))
				}
			}
		}
	})
}

func TestWithLeavesTheCoatAlone(t *testing.T) {
	c := coatOf(t, Dog{All: []Layer{pulledWeeks(1, -12)}})
	before := c.Score(0)
	n := c.With([][]float64{{1}})
	if c.Score(0) != before || n.Areas[0].Score(0) >= before || n.Areas[2].Curve.Pulled(0) != c.Areas[2].Curve.Pulled(0) {
		t.Errorf("before %.0f, after %.0f, new %.0f", before, c.Score(0), n.Score(0))
	}
}

func TestCoatOfNoAreas(t *testing.T) {
	var c DogCoat
	if area, score, why := c.Worst(0); area != "" || score != 0 || why != "" || c.Score(0) != 0 {
		t.Errorf("%s %.0f %s", area, score, why)
	}
}
