package lived

import (
	"math"
	"math/rand/v2"
	"testing"
)

// body is a body area with ready 11 and hold 7 weeks; a strip of it takes 100 minutes.
func body() *Area {
	return &Area{Name: "ribs", Weight: 1, Ready: 11, Hold: 7, Grip: 4, Minutes: 100, Jacket: true}
}

// weeks is a tuft that was pulled so many weeks before day 0.
func weeks(share float64, ago int) Tuft { return Tuft{share, -daysAWeek * ago} }

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// The readiness of a body area by its weeks: 8 and 11 of the short, 18, 21 and 25 of the long.
func TestReadinessByAge(t *testing.T) {
	for name, c := range map[string]struct {
		coat   Coat
		growth float64
		want   float64
	}{
		"all right":                           {Coat{weeks(1, 14)}, 1, 100},
		"all too long":                        {Coat{weeks(1, 19)}, 1, 55},
		"blown":                               {Coat{weeks(1, 22)}, 1, 0},
		"all short, no hole":                  {Coat{weeks(1, 9)}, 1, 40},
		"all of it a hole":                    {Coat{weeks(1, 7)}, 1, 0},
		"a dead tuft":                         {Coat{weeks(0.2, 30), weeks(0.8, 12)}, 1, 100 * (1 - 0.5*0.1 - 1.5*0.17)},
		"fast growth makes 9 weeks 11":        {Coat{weeks(1, 9)}, 11.0 / 9, 100},
		"slow growth makes 12 weeks too few":  {Coat{weeks(1, 12)}, 0.9, 40},
		"rolled evenly":                       {Coat{weeks(0.25, 16), weeks(0.25, 12), weeks(0.25, 8), weeks(0.25, 4)}, 1, 100},
		"six in ten under eleven are allowed": {Coat{weeks(0.4, 12), weeks(0.6, 9)}, 1, 100},
	} {
		a := body()
		near(t, name, a.score(c.coat, 0, c.growth), c.want)
	}
	kept := &Area{Kept: true}
	near(t, "kept hair", kept.score(nil, 0, 1), 100)
}

func TestADogIsNoBetterThanItsWorstAreaAndThirty(t *testing.T) {
	d := Dog{Growth: 1, Areas: []Area{*body(), *body()}}
	d.Areas[0].Weight, d.Areas[1].Weight = 0.9, 0.1
	near(t, "a hole", d.Score([]Coat{{weeks(1, 14)}, {weeks(1, 2)}}, 0), 30)
	near(t, "30 above what is too long", d.Score([]Coat{{weeks(1, 14)}, {weeks(1, 19)}}, 0), 85)
	d.Areas[0].Weight, d.Areas[1].Weight = 0.5, 0.5
	near(t, "no hole", d.Score([]Coat{{weeks(1, 14)}, {weeks(1, 14)}}, 0), 100)
}

// The oldest hair goes first, dead hair at a strip's rate, and what can't be gripped keeps what lies under it.
func TestPulling(t *testing.T) {
	coat := Coat{weeks(0.2, 30), weeks(0.5, 12), weeks(0.3, 2)}
	for name, c := range map[string]struct {
		share, minutes float64
		pulled, took   float64
		left           Coat
	}{
		"a part of the dead hair": {0.1, 1000, 0.1, 10, Coat{weeks(0.1, 30), weeks(0.5, 12), weeks(0.3, 2), weeks(0.1, 0)}},
		"dead and living":         {0.4, 1000, 0.4, 20 + 40, Coat{weeks(0.3, 12), weeks(0.3, 2), weeks(0.4, 0)}},
		"all that can be gripped": {1, 1000, 0.7, 20 + 100, Coat{weeks(0.3, 2), weeks(0.7, 0)}},
		"the minutes are over":    {1, 30, 0.25, 30, Coat{weeks(0.45, 12), weeks(0.3, 2), weeks(0.25, 0)}},
		"no minutes":              {1, 0, 0, 0, coat},
		"nothing wanted":          {0, 1000, 0, 0, coat},
	} {
		left, pulled, took := body().pull(coat, 0, 1, c.share, c.minutes, 2)
		near(t, name+": pulled", pulled, c.pulled)
		near(t, name+": minutes", took, c.took)
		if len(left) != len(c.left) {
			t.Errorf("%s: %v, want %v", name, left, c.left)
			continue
		}
		for i := range left {
			near(t, name+": share", left[i].Share, c.left[i].Share)
			if left[i].Pulled != c.left[i].Pulled {
				t.Errorf("%s: %v, want %v", name, left, c.left)
			}
		}
	}
	if left, pulled, _ := body().pull(Coat{weeks(1, 3)}, 0, 1.4, 1, 1000, 2); pulled != 1 || len(left) != 1 {
		t.Error("hair that grows fast can't be gripped after 3 weeks")
	}
}

// Whatever is pulled, an area stays an area: its shares sum to 1, oldest first.
func TestPullingLosesNoHair(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		coat := Coat{weeks(0.3, 30), weeks(0.4, 15), weeks(0.3, 6)}
		for day := range 100 {
			if random.Float64() < 0.3 {
				coat, _, _ = body().pull(coat, day, 0.7+0.6*random.Float64(), random.Float64(), 60*random.Float64(), 2)
			}
			sum := 0.0
			for i, tuft := range coat {
				sum += tuft.Share
				if tuft.Share <= 0 || i > 0 && tuft.Pulled < coat[i-1].Pulled {
					t.Fatalf("%v", coat)
				}
			}
			if math.Abs(sum-1) > 1e-6 {
				t.Fatalf("%v sums to %v", coat, sum)
			}
		}
	}
}
