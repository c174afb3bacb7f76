package learn

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestWithoutRecordsMissedIsTheSetting(t *testing.T) {
	for _, set := range []float64{0, 0.1, 0.5} {
		e := Missed(Agreed{}, set)
		if e.Value != set || e.Told != set || e.Records != 0 || e.High <= e.Low {
			t.Errorf("%v: %+v", set, e)
		}
	}
}

func TestMissedMovesFromTheSettingToTheRecords(t *testing.T) {
	last := Missed(Agreed{}, 0.1)
	for _, n := range []int{10, 40, 200, 2000} {
		e := Missed(Agreed{Sessions: n, Done: n * 7 / 10}, 0.1)
		if e.Value <= last.Value || e.Value > 0.3 || e.Records != n {
			t.Errorf("%d sessions, three in ten missed: %+v", n, e)
		}
		last = e
	}
	if math.Abs(last.Value-0.3) > 0.01 || last.High-last.Low > 0.05 {
		t.Errorf("after many sessions: %+v", last)
	}
}

// The range holds the part that is truly missed about 9 times in 10 when dogs are like the setting says.
func TestMissedRangeHoldsThePlantedPart(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	in := 0
	const runs = 400
	for range runs {
		done, sessions := 0, 60
		for range sessions {
			if random.Float64() >= 0.14 {
				done++
			}
		}
		if e := Missed(Agreed{Sessions: sessions, Done: done}, 0.1); e.Low <= 0.14 && 0.14 <= e.High {
			in++
		}
	}
	if part := float64(in) / runs; part < 0.85 || part > 0.99 {
		t.Errorf("the range holds the planted part in %.0f of 100", 100*part)
	}
}
