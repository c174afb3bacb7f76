package made

import (
	"reflect"
	"testing"

	"tuckup/optimize/season"
)

func TestRandomSeasonsArePlannable(t *testing.T) {
	var closed, kept, noShows, finish, rowsThree, broken, noBalance, noHours int
	for seed := range uint64(200) {
		dogs, weeks := int(seed%5)+1, int(seed%23)+3
		p := Random(seed, dogs, weeks, 0.4)
		if err := season.Validate(p); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got := season.Violations(p, season.NewPlan(p), 0); got != nil {
			t.Fatalf("seed %d: doing nothing breaks %q", seed, got)
		}
		if len(p.Dogs) != dogs || p.Weeks != weeks {
			t.Fatalf("seed %d: %d dogs and %d weeks, want %d and %d", seed, len(p.Dogs), p.Weeks, dogs, weeks)
		}
		if p.Balance == 0 {
			noBalance++
		}
		if len(p.Rows) == 3*weeks {
			rowsThree++
		}
		for _, r := range p.Rows {
			if r.Capacity == 0 {
				noHours++
			}
		}
		for _, dog := range p.Dogs {
			if n := len(dog.Areas); n < 4 || n > 8 {
				t.Fatalf("seed %d: %d areas", seed, n)
			}
			if dog.Kept != nil {
				kept++
			}
			if dog.Shows == nil {
				noShows++
			}
			for t := range dog.Most {
				if dog.Most[t] == 0 {
					closed++
				}
			}
			for i := range dog.Areas {
				a := &dog.Areas[i]
				if a.Most[0] < 0.125 {
					finish++
				}
				if a.Grip > 0 && a.PastAt(0)-a.PastAt(-a.Grip) > 1 {
					broken++
				}
			}
		}
	}
	for what, n := range map[string]int{
		"closed weeks": closed, "accepted sessions": kept, "dogs without shows": noShows, "finish windows": finish,
		"second hands": rowsThree, "histories that break the grip rule": broken, "seasons without balance": noBalance,
		"weeks without hours": noHours,
	} {
		if n == 0 {
			t.Errorf("no %s in 200 random seasons", what)
		}
	}
}

func TestRandomIsTheSameForTheSameSeed(t *testing.T) {
	if !reflect.DeepEqual(Random(7, 4, 20, 0.4), Random(7, 4, 20, 0.4)) {
		t.Error("two seasons of one seed differ")
	}
	if reflect.DeepEqual(Random(7, 4, 20, 0.4), Random(8, 4, 20, 0.4)) {
		t.Error("the seasons of two seeds are the same")
	}
}

// Twice the tightness is twice the hours, up to whole minutes.
func TestRandomHoursFollowTightness(t *testing.T) {
	short, ample := Random(3, 4, 20, 0.4), Random(3, 4, 20, 0.8)
	var a, b float64
	for i, r := range short.Rows {
		a, b = a+r.Capacity, b+ample.Rows[i].Capacity
	}
	if a == 0 || b < 1.99*a || b > 2.01*a {
		t.Errorf("hours are %g and %g minutes", a, b)
	}
}
