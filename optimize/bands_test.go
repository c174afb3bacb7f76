package optimize

import (
	"context"
	"math"
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/text"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
	"tuckup/testdata/demo"
)

// bandedDog is a dog pulled in layers, planned for two shows, with growth as unsure as told and nothing missed.
func bandedDog(t *testing.T, sd float64) Result {
	t.Helper()
	opt := DefaultOptions()
	opt.GrowthSD, opt.Missed = sd, 0
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Sorrel", "rough", 6)},
		Shows: []kennel.Show{made.ShowOn("Early", 33, "Sorrel"), made.ShowOn("Late", 96, "Sorrel")},
	}
	r, err := Plan(context.Background(), k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestBandWidensAsGrowthIsLessSure(t *testing.T) {
	var last kennel.Score = -1
	for _, sd := range []float64{0, 0.05, 0.1, 0.3} {
		for _, s := range bandedDog(t, sd).Readiness[1:] {
			if s.High-s.Low < last || sd > 0 && s.High == s.Low {
				t.Errorf("sd %v: %v to %v", sd, s.Low, s.High)
			}
			last = s.High - s.Low
		}
	}
}

func TestWithGrowthKnownTheBandIsTheScore(t *testing.T) {
	for _, s := range bandedDog(t, 0).Readiness {
		want := 0.0
		if s.Followed >= kennel.ReadyScore {
			want = 1
		}
		if math.Abs(float64(s.Score-s.Followed)) > 1e-9 || s.Low != s.Followed || s.High != s.Followed || math.Abs(s.Likely-want) > 1e-9 {
			t.Errorf("%+v", s)
		}
	}
}

// The draws are checked against the same readiness worked out growth by growth over the whole distribution.
func TestBandIsThatOfALognormalGrowth(t *testing.T) {
	r := bandedDog(t, 0.1)
	l, err := layOut(r.Kennel, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	plan := season.NewPlan(&l.problem)
	for i, area := range l.coats[0].Areas {
		copy(plan.Shares[0][i], pulled(r, "Sorrel", area.Name))
	}
	sigma := math.Sqrt(math.Log(1.01))
	for _, s := range r.Readiness {
		var scores []kennel.Score
		var likely, mean float64
		const n = 20001
		for i := range n {
			growth := math.Exp(sigma * math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/n-1))
			dog := r.Kennel.Dogs[0]
			dog.Coat.Growth = growth
			coat, err := kennel.NewDogCoat(dog, made.Patterns()["rough"], l.diary.Week0)
			if err != nil {
				t.Fatal(err)
			}
			score := coat.With(plan.Shares[0]).ShowScore(kennel.ReadinessWeek(s.On, l.diary.Week0))
			scores = append(scores, score)
			mean += float64(score) / n
			if score >= kennel.ReadyScore {
				likely += 1.0 / n
			}
		}
		slices.Sort(scores)
		if math.Abs(mean-float64(s.Score)) > 0.1 {
			t.Errorf("%s: readiness %v in the mean, want %v", s.Show, s.Score, mean)
		}
		if math.Abs(likely-s.Likely) > 0.01 {
			t.Errorf("%s: chance %v, want %v", s.Show, s.Likely, likely)
		}
		for _, c := range []struct {
			part float64
			got  kennel.Score
		}{{0.1, s.Low}, {0.9, s.High}} {
			if low, high := scores[int((c.part-0.01)*n)], scores[int((c.part+0.01)*n)]; c.got < low-1e-9 || c.got > high+1e-9 {
				t.Errorf("%s: %v of the dogs are below %v, want between %v and %v", s.Show, c.part, c.got, low, high)
			}
		}
	}
}

// Draws belong to the dog: they are the same whoever else is in the string.
func TestDrawsOfADogDoNotHangOnOthers(t *testing.T) {
	one := kennel.Kennel{PlanFrom: made.Monday, Weeks: 8, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 3)}}
	two := one
	two.Dogs = []kennel.Dog{made.EvenDog("Sorrel", "rough", 3), made.EvenDog("Moss", "wiry", 9)}
	growths := func(k kennel.Kennel, d int, opt Options) []float64 {
		l, err := layOut(k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		return l.growths(d)
	}
	opt := DefaultOptions()
	moss := growths(one, 0, opt)
	if !slices.Equal(moss, growths(two, 1, opt)) {
		t.Error("another dog changes the draws")
	}
	if slices.Equal(moss, growths(two, 0, opt)) {
		t.Error("two dogs have the same draws")
	}
	opt.Seed++
	if slices.Equal(moss, growths(one, 0, opt)) {
		t.Error("the seed does not count")
	}
	opt.GrowthSDs = map[string]float64{"Moss": 0.01}
	var least, most float64 = 9, 0
	for _, g := range growths(two, 1, opt) {
		least, most = min(least, g), max(most, g)
	}
	if least < 0.96 || most > 1.04 {
		t.Errorf("a dog that is known to 1 %% grows %v to %v", least, most)
	}
}

// The demo's bands, all dogs and shows: to take under half a second.
func BenchmarkBandsOfTheDemo(b *testing.B) {
	k, _, err := text.Read("demo", demo.Kennel)
	if err != nil {
		b.Fatal(err)
	}
	pats := builtin(b)
	l, err := layOut(k, pats, DefaultOptions())
	if err != nil {
		b.Fatal(err)
	}
	plan := season.NewPlan(&l.problem)
	for b.Loop() {
		l.readiness(plan)
	}
}
