package kennel

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

var week0 = NewDate(2027, 1, 4)

// pulledWeeks is a layer pulled in a week counted from week 0.
func pulledWeeks(share float64, week int) Layer {
	return Layer{Share: Share(share), Pulled: week0.AddDays(week * DaysAWeek)}
}

// someLayers draws layers that sum to 1 at the most.
func someLayers(t *rapid.T, earliest, latest int) []Layer {
	left := 1.0
	var all []Layer
	for range rapid.IntRange(0, 6).Draw(t, "layers") {
		share := left * rapid.Float64Range(0.01, 1).Draw(t, "share")
		left -= share
		l := pulledWeeks(share, rapid.IntRange(earliest, latest).Draw(t, "week"))
		l.Pulled = l.Pulled.AddDays(rapid.IntRange(0, 6).Draw(t, "day"))
		all = append(all, l)
	}
	return all
}

// hairs is an area hair by hair: layers with the week of their last pull, oldest first. What is pulled comes
// from the front and goes to the back.
type hairs []struct {
	share float64
	week  int
}

const longAgo = -1000

func newHairs(layers []Layer) hairs {
	left := 1.0
	for _, l := range layers {
		left -= float64(l.Share)
	}
	h := hairs{{left, longAgo}}
	for week := -60; week <= 60; week++ {
		for _, l := range layers {
			if WeekOf(l.Pulled, week0) == week {
				h = append(h, struct {
					share float64
					week  int
				}{float64(l.Share), week})
			}
		}
	}
	return h
}

func (h hairs) pull(share float64, week int) hairs {
	out := hairs{}
	left := share
	for _, l := range h {
		take := math.Min(left, l.share)
		left -= take
		l.share -= take
		out = append(out, l)
	}
	return append(out, struct {
		share float64
		week  int
	}{share - left, week})
}

func (h hairs) younger(week, weeks int) (sum float64) {
	for _, l := range h {
		if week-l.week < weeks {
			sum += l.share
		}
	}
	return sum
}

// The curve's ages are those of hairs that are pulled oldest first, one layer after another.
func TestCurveIsAQueueOfHairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers := someLayers(t, -40, -1)
		shares := rapid.SliceOfN(rapid.Float64Range(0, 1), 0, 12).Draw(t, "shares")
		c := NewCurve(layers, week0).With(shares)
		h := newHairs(layers)
		for week := range len(shares) + 4 {
			if week < len(shares) {
				h = h.pull(shares[week], week)
			}
			for a := 1; a < 60; a++ {
				if got, want := float64(c.Younger(week, Weeks(a))), h.younger(week, a); math.Abs(got-want) > 1e-9 {
					t.Fatalf("week %d: %.6f is younger than %d weeks, want %.6f", week, got, a, want)
				}
			}
		}
	})
}

func TestCurveNeverFallsAndWithAddsWhatIsPulled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := NewCurve(someLayers(t, -40, 10), week0) // layers after week 0 too
		shares := rapid.SliceOfN(rapid.Float64Range(0, 1), 0, 20).Draw(t, "shares")
		n := c.With(shares)
		var added float64
		for w := -50; w < 40; w++ {
			if w >= 0 && w < len(shares) {
				added += shares[w]
			}
			if math.Abs(n.Pulled(w)-c.Pulled(w)-added) > 1e-9 {
				t.Fatalf("week %d: %g, want %g and %g", w, n.Pulled(w), c.Pulled(w), added)
			}
			if c.Pulled(w) < c.Pulled(w-1) || n.Younger(w, 5) > n.Younger(w, 6) || n.Younger(w, 6) > 1 || n.Younger(w, 5) < 0 {
				t.Fatalf("week %d: the curve falls, or ages do not nest", w)
			}
		}
	})
}

func TestCurveOfNothingIsAllOldHair(t *testing.T) {
	c := NewCurve(nil, week0)
	if c.Pulled(10) != 0 || c.Younger(0, 500) != 0 {
		t.Error("something was pulled")
	}
	n := c.With([]float64{0, 0.5})
	if n.Pulled(0) != 0 || n.Pulled(1) != 0.5 || n.Pulled(9) != 0.5 || n.Younger(1, 1) != 0.5 {
		t.Errorf("got %+v", n)
	}
	if got := c.With(nil); got.Pulled(3) != 0 {
		t.Errorf("got %+v", got)
	}
}

func TestLayerOfWeekZeroCountsFromItsEnd(t *testing.T) {
	c := NewCurve([]Layer{{Share: 0.25, Pulled: week0.AddDays(6)}, {Share: 0.75, Pulled: week0.AddDays(-1)}}, week0)
	if c.Pulled(-2) != 0 || c.Pulled(-1) != 0.75 || c.Pulled(0) != 1 {
		t.Errorf("got %+v", c)
	}
	if got := c.Younger(0, 1); got != 0.25 {
		t.Errorf("%g is younger than a week", got)
	}
}

func TestLayerYetToComeCountsOnlyFromItsWeek(t *testing.T) {
	c := NewCurve([]Layer{pulledWeeks(0.5, -20), pulledWeeks(0.5, 3)}, week0)
	n := c.With([]float64{0.25})
	for _, x := range []struct {
		week int
		want float64
	}{{-21, 0}, {-20, 0.5}, {0, 0.75}, {2, 0.75}, {3, 1.25}, {9, 1.25}} {
		if got := n.Pulled(x.week); got != x.want {
			t.Errorf("week %d: %g, want %g", x.week, got, x.want)
		}
	}
	if got := c.Younger(2, 10); got != 0 {
		t.Errorf("%g is young before it is pulled", got)
	}
}

func jacketRule() Rule { return NewRule(11, 7, 1) }

// The starting values of a body area, ready 11 and hold 7; common practice put into numbers.
func TestRuleOfABodyArea(t *testing.T) {
	r := jacketRule()
	want := Rule{
		Ready: 11, Hold: 7, Dead: 25,
		Young: []Term{{8, .50, .8}, {11, .60, 1.5}},
		Old:   []Term{{18, .10, .5}, {21, .20, .75}, {25, .03, 1.5}},
	}
	if !reflect.DeepEqual(r, want) {
		t.Errorf("got %+v", r)
	}
}

func TestGrowthDividesTheWeeks(t *testing.T) {
	if r := NewRule(12, 8, 2); r.Ready != 6 || r.Hold != 4 || r.Old[0].Weeks != 10 {
		t.Errorf("twice as fast: %+v", r)
	}
	if r := NewRule(10, 6, 0.5); r.Ready != 20 || r.Hold != 12 || r.Old[0].Weeks != 32 {
		t.Errorf("half as fast: %+v", r)
	}
	if r := NewRule(11, 7, 0); r.Ready != 11 {
		t.Errorf("growth not told: %+v", r)
	}
	if r := NewRule(1, 1, 2); r.Ready != 1 || r.Young[0].Weeks != 1 {
		t.Errorf("thresholds are a week at least: %+v", r)
	}
	rapid.Check(t, func(t *rapid.T) {
		ready, hold := rapid.Float64Range(2, 16).Draw(t, "ready"), rapid.Float64Range(2, 12).Draw(t, "hold")
		slow := rapid.Float64Range(0.5, 2).Draw(t, "slow")
		fast := rapid.Float64Range(slow, 2).Draw(t, "fast")
		s, f := NewRule(ready, hold, slow), NewRule(ready, hold, fast)
		if f.Ready > s.Ready || f.Hold > s.Hold || f.Old[1].Weeks > s.Old[1].Weeks || f.Dead > s.Dead {
			t.Fatalf("faster growth takes longer: %+v, %+v", f, s)
		}
	})
}

// An area that is stripped to the undercoat is out of coat for about 10 weeks, right, then going over, then blown.
func TestStrippedAreaIsOutOfCoatForAboutTenWeeks(t *testing.T) {
	r, c := jacketRule(), NewCurve([]Layer{pulledWeeks(1, 0)}, week0)
	out := 0
	for r.Score(c, out) < ReadyScore {
		if s := r.State(c, out); s != StateComingIn {
			t.Errorf("week %d: %s", out, s)
		}
		out++
	}
	if out < 9 || out > 11 {
		t.Errorf("out of coat for %d weeks", out)
	}
	for _, x := range []struct {
		week  int
		state State
		why   string
	}{
		{0, StateComingIn, "100 % is under 11 weeks"},
		{11, StateInCoat, "right"},
		{17, StateInCoat, "right"},
		{18, StateGoingOver, "100 % is over 18 weeks"},
		{21, StateBlown, "100 % is over 21 weeks"},
		{60, StateBlown, "100 % is over 25 weeks"},
	} {
		if s, why := r.State(c, x.week), r.Why(c, x.week); s != x.state || why != x.why {
			t.Errorf("week %d: %s, %s; want %s, %s", x.week, s, why, x.state, x.why)
		}
	}
}

func TestAreaRolledEvenlyIsRight(t *testing.T) {
	var layers []Layer
	for w := -17; w <= 0; w++ {
		layers = append(layers, pulledWeeks(1.0/18, w))
	}
	r, c := jacketRule(), NewCurve(layers, week0)
	if s := r.Score(c, 0); math.Abs(float64(s-98.33)) > 0.01 { // 11/18 is a hair's breadth above the 60 % allowed
		t.Errorf("readiness %.2f", s)
	}
	if s := r.State(c, 0); s != StateInCoat {
		t.Errorf("%s", s)
	}
}

func TestWhyNamesTheLargestCharge(t *testing.T) {
	r := jacketRule()
	short := NewCurve([]Layer{pulledWeeks(0.7, -5), pulledWeeks(0.3, -15)}, week0)
	if got := r.Why(short, 0); got != "70 % is under 8 weeks" { // 0.8*0.2 = 0.16 against 1.5*0.1 = 0.15
		t.Error(got)
	}
	long := NewCurve([]Layer{pulledWeeks(0.28, -5), pulledWeeks(0.72, -19)}, week0)
	if got := r.Why(long, 0); got != "72 % is over 18 weeks" {
		t.Error(got)
	}
	if got := r.Why(NewCurve(nil, week0), 0); got != "100 % is over 25 weeks" {
		t.Error(got)
	}
}

// Dead hair weighs on a coat that is right but for it, and falls away with the dog's growth like every age.
func TestDeadHairIsChargedFor(t *testing.T) {
	r := jacketRule()
	tuft := NewCurve([]Layer{pulledWeeks(0.8, -14), pulledWeeks(0.2, -46)}, week0)
	// over 18: 0.5*(0.2-0.1) = 0.05; over 21: 0.75*0; dead: 1.5*(0.2-0.03) = 0.255
	if s := r.Score(tuft, 0); math.Abs(float64(s-69.5)) > 1e-6 {
		t.Errorf("a fifth of the hair is dead: readiness %.2f", s)
	}
	if d := r.DeadShare(tuft, 0); math.Abs(float64(d-0.2)) > 1e-9 {
		t.Errorf("dead share %g", d)
	}
	if d := NewRule(11, 7, 0.5).DeadShare(tuft, 0); math.Abs(float64(d)) > 1e-9 {
		t.Errorf("on a dog that grows half as fast it is dead from 50 weeks on: %g", d)
	}
}

// A coat with a hole in it and old hair beside it goes by the larger charge.
func TestStateGoesByTheLargerCharge(t *testing.T) {
	r := jacketRule()
	for _, x := range []struct {
		young float64
		want  State
	}{{0.9, StateComingIn}, {0.7, StateGoingOver}, {0.35, StateBlown}, {0.55, StateGoingOver}} {
		c := NewCurve([]Layer{pulledWeeks(x.young, -9), pulledWeeks(1-x.young, -30)}, week0)
		if got := r.State(c, 0); got != x.want {
			t.Errorf("%.0f %% is 9 weeks old, the rest 30: %s (%.0f), want %s", 100*x.young, got, r.Score(c, 0), x.want)
		}
	}
}

func TestScoreStaysWithinItsRangeAndStateFollowsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := NewRule(rapid.Float64Range(1, 16).Draw(t, "ready"), rapid.Float64Range(1, 12).Draw(t, "hold"), rapid.Float64Range(0.5, 2).Draw(t, "growth"))
		c := NewCurve(someLayers(t, -60, 5), week0)
		w := rapid.IntRange(-5, 40).Draw(t, "week")
		s := r.Score(c, w)
		if !(s >= 0 && s <= 100) || (s >= ReadyScore) != (r.State(c, w) == StateInCoat) {
			t.Fatalf("%.1f is %s", s, r.State(c, w))
		}
		if (r.Why(c, w) == "right") != (s > 100-1e-5) {
			t.Fatalf("%.6f because %s", s, r.Why(c, w))
		}
	})
}
