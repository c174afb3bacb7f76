package optimize

import (
	"context"
	"math"
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
)

// aWeekLater is the kennel on the Monday after, with all done that the plan's days said.
func aWeekLater(k kennel.Kennel, r Result) (kennel.Kennel, Options) {
	k.Dogs = slices.Clone(k.Dogs)
	monday := r.Week0.AddDays(kennel.DaysAWeek)
	for _, day := range r.Timetable.Days {
		for _, s := range day.Sessions() {
			w := kennel.Work{Dog: s.Dog, On: day.On, Hands: s.At.Hands, Minutes: s.Minutes()}
			for _, a := range s.Areas {
				w.Areas = append(w.Areas, kennel.Pulled{Area: a.Area, Share: a.Share})
			}
			for d := range k.Dogs {
				if k.Dogs[d].Name == s.Dog && day.On < monday {
					k.Dogs[d] = k.Dogs[d].Worked(r.Patterns[k.Dogs[d].Pattern], w)
				}
			}
		}
	}
	opt := DefaultOptions()
	opt.On, k.PlanFrom = monday, monday
	return k, opt
}

// movedShares is how much of the shares of three weeks is otherwise in the plan after, of all that the plan before has in them.
func movedShares(before, after Result) float64 {
	type spot struct {
		week kennel.Date
		dog  string
		area kennel.AreaName
	}
	off, sum := map[spot]float64{}, 0.0
	for _, a := range before.AgreedFrom(after.Week0, 3, after.Kennel.Dogs, nil) {
		for _, x := range a.Areas {
			off[spot{a.Week, a.Dog, x.Area}] += float64(x.Share)
			sum += float64(x.Share)
		}
	}
	for _, a := range after.AgreedFrom(after.Week0, 3, after.Kennel.Dogs, nil) {
		for _, x := range a.Areas {
			off[spot{a.Week, a.Dog, x.Area}] -= float64(x.Share)
		}
	}
	moved := 0.0
	for _, x := range off {
		moved += math.Abs(x)
	}
	return moved / sum
}

// worthOf is what the weeks of a plan are worth in a season in which nothing was agreed on.
func worthOf(t *testing.T, k kennel.Kennel, r Result, opt Options) float64 {
	t.Helper()
	opt.Begin, opt.Accepted = nil, nil
	l, err := layOut(k, r.Patterns, opt)
	if err != nil {
		t.Fatal(err)
	}
	with := *l
	with.opt.Begin = &r
	return season.Evaluate(&l.problem, *with.planBefore())
}

// swing is the most by which a promise of the plan before is otherwise in the plan after.
func swing(before, after Result) (most float64) {
	for _, s := range after.Readiness {
		for _, o := range before.Readiness {
			if o.Dog == s.Dog && o.Show == s.Show {
				most = max(most, math.Abs(float64(o.Score-s.Score)))
			}
		}
	}
	return most
}

// Followed to the letter, a plan that is made again on the Monday after keeps its shares and its promises, and is worth nearly what one
// sought afresh is.
func TestAPlanThatIsFollowedStays(t *testing.T) {
	const mostMoved, mostCost, mostSwing = 0.05, 0.002, 3
	k := made.TwoShown()
	before := planWith(t, k, func(*Options) {})
	freshly := 0.0
	for range 3 {
		var opt Options
		k, opt = aWeekLater(k, before)
		fresh, err := Plan(context.Background(), k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		freshly = max(freshly, movedShares(before, fresh))
		opt.Begin = &before
		after, err := Plan(context.Background(), k, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		if moved := movedShares(before, after); moved > mostMoved {
			t.Errorf("%s: %.1f %% of the shares are moved", after.Week0, 100*moved)
		}
		if is, was := worthOf(t, k, after, opt), worthOf(t, k, fresh, opt); is < was*(1-mostCost) {
			t.Errorf("%s: it is worth %.4f, sought afresh %.4f", after.Week0, is, was)
		}
		if s := swing(before, after); s > mostSwing {
			t.Errorf("%s: a promise swings by %.0f", after.Week0, s)
		}
		before = after
	}
	if freshly <= mostMoved {
		t.Errorf("sought afresh, only %.1f %% are moved: nothing was tried", 100*freshly)
	}
}

// A search that is cut at once still begins with the plan in use, and keeps its promises.
func TestAPlanThatIsCutShortKeepsItsPromises(t *testing.T) {
	k := made.TwoShown()
	before := planWith(t, k, func(*Options) {})
	for _, step := range []float64{0.01, 0.3, 1} {
		later, opt := aWeekLater(k, before)
		now := 0.0
		opt.Begin, opt.TimeLimit, opt.Seconds = &before, 5, func() float64 { now += step; return now }
		after, err := Plan(context.Background(), later, made.Patterns(), opt)
		if err != nil {
			t.Fatal(err)
		}
		if s := swing(before, after); s > 3 {
			t.Errorf("with %v a step a promise swings by %.0f", step, s)
		}
	}
}
