package made

import (
	"context"
	"math"
	"reflect"
	"testing"

	"tuckup/optimize/season"
)

func TestRandomStringsArePlannable(t *testing.T) {
	for seed := range uint64(60) {
		s := Shape{Dogs: 1 + int(seed%7), Weeks: 4 + int(seed*3%40), Hours: 0.4, Hands: 1 + int(seed%3)}
		p := RandomString(seed, s)
		if err := season.Validate(p); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got := season.Violations(p, season.NewPlan(p), 0); got != nil {
			t.Fatalf("seed %d: doing nothing breaks %q", seed, got)
		}
		if len(p.Dogs) != s.Dogs || p.Weeks != s.Weeks {
			t.Fatalf("seed %d: %d dogs, %d weeks, want %+v", seed, len(p.Dogs), p.Weeks, s)
		}
		if !reflect.DeepEqual(p, RandomString(seed, s)) {
			t.Fatalf("seed %d: two strings of one seed differ", seed)
		}
		for d := range p.Dogs {
			shows := 0
			for _, w := range p.Dogs[d].Shows {
				if w > 0 {
					shows++
				}
			}
			if n := len(p.Dogs[d].Areas); n != stringAreas || p.Dogs[d].Shows != nil && (shows < 2 || shows > 5) {
				t.Fatalf("seed %d, dog %d: %d areas, %d shows", seed, d, n, shows)
			}
		}
	}
}

// A string with shows of its own dogs alone, minutes by the dog and sessions of one length.
func TestScarceStrings(t *testing.T) {
	s := Shape{Dogs: 12, Weeks: 26, Hands: 1, ADog: 22, Session: 90, Own: true}
	for seed := range uint64(5) {
		p := RandomString(seed, s)
		if err := season.Validate(p); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		whole := 0
		for _, r := range p.Rows {
			if !r.Strip && r.SetUps && math.Abs(r.Capacity-12*22) < 1e-9 {
				whole++
			}
		}
		if whole != 25 { // all but the week away
			t.Errorf("seed %d: %d weeks have 22 minutes a dog", seed, whole)
		}
		weeks := map[int]int{}
		for d := range p.Dogs {
			for t, w := range p.Dogs[d].Shows {
				if w > 0 {
					weeks[t]++
				}
			}
			for week, m := range p.Dogs[d].Minutes {
				if m != 90 {
					t.Errorf("seed %d, dog %d, week %d: sessions of %v minutes", seed, d, week, m)
				}
			}
		}
		if len(weeks) < 12 { // a calendar of its own for all would have 8
			t.Errorf("seed %d: shows in %d weeks", seed, len(weeks))
		}
	}
}

// Dogs of one string meet: there are fewer weeks with shows than entries in them.
func TestRandomStringsMeetAtShows(t *testing.T) {
	p := RandomString(1, Shape{Dogs: 12, Weeks: 26, Hours: 0.4, Hands: 1})
	weeks, entries := map[int]bool{}, 0
	for d := range p.Dogs {
		for t, w := range p.Dogs[d].Shows {
			if w > 0 {
				weeks[t] = true
				entries++
			}
		}
	}
	if len(weeks) > 8 || entries < 24 {
		t.Errorf("%d entries in %d weeks", entries, len(weeks))
	}
}

// The rule of the wish is what unlimited plans take, within a sixth, on seasons of half a year; so hours of 0.4 of it
// are short, and the dogs could use them all.
func TestWishIsWhatFreeDogsTake(t *testing.T) {
	var rule, taken float64
	seeds := uint64(3)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		p := RandomString(seed, Shape{Dogs: 4, Weeks: 26, Hours: 0.4, Hands: 1})
		m, err := MeasuredWish(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		rule, taken = rule+Wish(p), taken+m
	}
	if ratio := taken / rule; ratio < 5./6 || ratio > 7./6 {
		t.Errorf("unlimited plans take %.2f of the rule's wish", ratio)
	}
}

// Three pairs of hands with nested skills: what the first alone may do is bound by its hours, what all may do by
// everybody's, and so for pulling alone.
func TestLimitsOfNestedHands(t *testing.T) {
	rows := limitsOf([]handPair{
		{"first", pullKinds | setUps, 100, 80},
		{"second", 1<<closeWork | 1<<furnishingWork, 40, 30},
		{"third", 1 << furnishingWork, 20, 15},
	}, 3)
	type bound struct {
		kinds  uint32
		setUps bool
		cap    float64
	}
	got := map[bound]bool{}
	for _, r := range rows {
		if r.Week != 3 || r.Strip == r.SetUps {
			t.Errorf("the row %+v", r)
		}
		got[bound{r.Kinds, r.SetUps, r.Capacity}] = true
	}
	want := map[bound]bool{ // worked out by hand: the second and third pull only, so 30 and 15 minutes of them count
		{0b001, false, 80}: true, {0b011, false, 110}: true, {0b111, false, 125}: true,
		{0b001, true, 100}: true, {0b011, true, 130}: true, {0b111, true, 145}: true,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("limits %v, want %v", got, want)
	}
}

// Where nobody else may pull, the rows are the pair's hours and its hand load.
func TestLimitsOfOnePair(t *testing.T) {
	rows := limitsOf(roomOf(200, 1), 0)
	if len(rows) != 2 || rows[0].Capacity != 150 || rows[1].Capacity != 200 || rows[0].SetUps || !rows[1].SetUps {
		t.Errorf("the rows are %+v", rows)
	}
}

// One show more changes its dogs alone: their week is worth more, its weight in their mean follows from the points, and
// they may give up only a few hairs before it.
func TestWithShowEntersTheseDogsAlone(t *testing.T) {
	p := RandomString(1, Shape{Dogs: 5, Weeks: 26, Hours: 0.4, Hands: 1})
	again := RandomString(1, Shape{Dogs: 5, Weeks: 26, Hours: 0.4, Hands: 1})
	q := WithShow(p, 12, 2, 1, 3)
	if !reflect.DeepEqual(p, again) {
		t.Fatal("the season that it comes from is changed")
	}
	if err := season.Validate(q); err != nil {
		t.Fatal(err)
	}
	for d := range p.Dogs {
		was, is := &p.Dogs[d], &q.Dogs[d]
		if d != 1 && d != 3 {
			if !reflect.DeepEqual(was, is) {
				t.Errorf("dog %d is changed", d)
			}
			continue
		}
		priority := was.Value[0]
		for _, v := range was.Value {
			priority = min(priority, v)
		}
		priority /= 0.05
		if !reflect.DeepEqual(is.Value, was.Value) {
			t.Errorf("dog %d: weeks without a show are worth %v, were %v", d, is.Value, was.Value)
		}
		shown := was.ShowValue
		if shown == nil {
			shown = make([]float64, len(was.Value))
		}
		var points float64
		for w, v := range shown {
			points += v / priority
			if w != 12 && is.ShowValue[w] != v {
				t.Errorf("dog %d, week %d: %g points became %g", d, w, v, is.ShowValue[w])
			}
		}
		near(t, "the week's points", is.ShowValue[12], shown[12]+2*priority)
		for w := range is.Shows {
			want := 0.0
			if was.Shows != nil {
				want = was.Shows[w] * points
			}
			if w == 12 {
				want += 2
			}
			near(t, "the week's weight", is.Shows[w], want/(points+2))
		}
		for a := range is.Areas {
			ar := &is.Areas[a]
			if ar.Most[12] > 0.10 || ar.Kind != closeWork && ar.Most[10] > 0.06 || ar.Name == "withers" && ar.Most[5] > 0.03 {
				t.Errorf("dog %d, %s: %v may be pulled before the show", d, ar.Name, ar.Most[5:13])
			}
			if ar.Most[13] != was.Areas[a].Most[13] || ar.Most[4] != was.Areas[a].Most[4] {
				t.Errorf("dog %d, %s: weeks apart from the show are changed", d, ar.Name)
			}
		}
	}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12) {
		t.Errorf("%s is %.15g, want %.15g", what, got, want)
	}
}
