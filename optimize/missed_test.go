package optimize

import (
	"math"
	"math/rand/v2"
	"testing"

	"tuckup/optimize/season"
)

// followed is a follower of a dog with one area whose plan takes a tenth of it in one session of each week.
func followed(spare float64, most int) *follower {
	const weeks = 4
	dog := &season.Dog{SetUp: 10}
	area := season.Area{Minutes: 200, Loose: 100}
	f := &follower{dog: dog, owed: make([]float64, 1), dead: make([]float64, 1)}
	var shares []float64
	for range weeks {
		area.Most = append(area.Most, 0.25)
		shares = append(shares, 0.1)
		f.sessions, f.spare = append(f.sessions, 1), append(f.spare, spare)
		dog.Minutes, dog.Most = append(dog.Minutes, 40), append(dog.Most, most)
	}
	dog.Areas = []season.Area{area}
	f.shares, f.done = [][]float64{shares}, [][]float64{make([]float64, weeks)}
	return f
}

var missesSecond = []weekLuck{{}, {true}, {}, {}}

func TestWhatIsMissedIsCaughtUpAsFarAsThereIsTime(t *testing.T) {
	for name, c := range map[string]struct {
		spare float64
		most  int
		luck  []weekLuck
		want  []float64
	}{
		"nothing missed":            {0, 1, make([]weekLuck, 4), []float64{0.1, 0.1, 0.1, 0.1}},
		"no time":                   {0, 1, missesSecond, []float64{0.1, 0, 0.1, 0.1}},
		"longer sessions":           {60, 1, missesSecond, []float64{0.1, 0, 0.15, 0.15}},
		"hours for less than that":  {4, 1, missesSecond, []float64{0.1, 0, 0.12, 0.12}},
		"too little for a session":  {60, 2, missesSecond, []float64{0.1, 0, 0.15, 0.15}},
		"a session more":            {60, 2, []weekLuck{{true}, {true}, {}, {}}, []float64{0, 0, 0.25, 0.15}},
		"it can have no more":       {60, 1, []weekLuck{{true}, {true}, {}, {}}, []float64{0, 0, 0.15, 0.15}},
		"the one put in is missed":  {60, 2, []weekLuck{{true}, {true}, {false, true}, {}}, []float64{0, 0, 0.15, 0.25}},
		"no more than the rules":    {200, 7, []weekLuck{{true}, {true}, {}, {}}, []float64{0, 0, 0.25, 0.15}},
		"all of it":                 {60, 2, []weekLuck{{true}, {true}, {true, true}, {true, true}}, []float64{0, 0, 0, 0}},
		"the week with two is lost": {60, 2, []weekLuck{{}, {true}, {true, true}, {}}, []float64{0.1, 0, 0, 0.25}},
	} {
		got := followed(c.spare, c.most).follow(c.luck, 3)[0]
		for week, want := range c.want {
			if math.Abs(got[week]-want) > 1e-9 {
				t.Errorf("%s: %v, want %v", name, got, c.want)
				break
			}
		}
	}
}

// Dead hair that was to come off in a missed session still comes off at a strip's rate.
func TestDeadHairThatWasMissedIsStillCheap(t *testing.T) {
	f := followed(0, 1)
	f.dog.Areas[0].Dead = 0.4
	for week := range f.shares[0] {
		f.shares[0][week] = 0.2
	}
	got := f.follow([]weekLuck{{true}, {}, {}, {}}, 3)[0]
	for week, want := range []float64{0, 0.2, 0.2, 0.15} { // the last is living hair, of which a session holds 30 minutes
		if math.Abs(got[week]-want) > 1e-9 {
			t.Fatalf("%v", got)
		}
	}
}

func TestAsMuchIsMissedAsIsSaid(t *testing.T) {
	for _, missed := range []float64{0, 0.1, 0.5} {
		l := layout{opt: Options{Missed: missed}}
		l.diary.Weeks = 20000
		n, weeks := 0, 0
		for _, week := range l.luck(rand.New(rand.NewPCG(1, 2))) {
			all := true
			for _, gone := range week {
				if gone {
					n++
				}
				all = all && gone
			}
			if all {
				weeks++
			}
		}
		if part := float64(n) / 20000 / 7; math.Abs(part-missed) > 0.01 {
			t.Errorf("%v of the sessions are missed, want %v", part, missed)
		}
		if part := float64(weeks) / 20000; math.Abs(part-lostPart*missed) > 0.01 {
			t.Errorf("%v of the weeks are lost, want %v", part, lostPart*missed)
		}
	}
}
