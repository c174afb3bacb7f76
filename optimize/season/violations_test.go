package season

import (
	"math"
	"strings"
	"testing"
)

// Each case breaks one constraint of the hand-made season by little and must be told of that one alone; at the limit,
// or with a wider tolerance, the plan is allowed.
func TestViolationsEachConstraintAlone(t *testing.T) {
	const little = 1e-4
	cases := []struct {
		name string
		edit func(p *Problem, plan Plan, by float64) // by: how far over the limit
		want string
	}{
		{"negative share", func(_ *Problem, plan Plan, by float64) {
			plan.Shares[0][1][2] = -by
		}, "Bramble, ears, week 2: a negative share is pulled, -0.0001"},
		{"most of the area", func(p *Problem, _ Plan, by float64) {
			p.Dogs[0].Areas[0].Most[2] = 0.4 - by
		}, "Bramble, back, week 2: 0.4 is pulled, but at most 0.3999 may be"},
		{"minutes of an area", func(p *Problem, _ Plan, by float64) {
			p.Dogs[0].Areas[0].Room = []float64{24, 24, 24 - 24*by}
		}, "Bramble, back, week 2: 24 minutes are pulled, but there are at most 23.9976 for it"},
		{"grip age, in the season", func(p *Problem, plan Plan, by float64) {
			p.Dogs[0].Areas[0].Grip = 1
			p.Dogs[0].Areas[0].Past = []float64{0, 0, 0}
			p.Dogs[0].Minutes[2] = 300
			p.Rows[1].Capacity = 300
			p.Dogs[0].Areas[0].Most[2] = 2
			plan.Shares[0][0][2] = 1 + by
		}, "Bramble, back, week 2: hair under 1 weeks would be pulled: 1.0001 of the area in that time, but at most 1 can be"},
		// P(0)-P(-2) = .75 of history and what week 0 adds.
		{"grip age, with history", func(p *Problem, _ Plan, by float64) {
			p.Dogs[0].Areas[0].Grip = 2
			p.Dogs[0].Areas[0].Past = []float64{0.2, 0.5, 1 + by}
		}, "Bramble, back, week 0: hair under 2 weeks would be pulled: 1.0001 of the area in that time, but at most 1 can be"},
		{"time of the sessions", func(p *Problem, _ Plan, by float64) {
			p.Dogs[0].Minutes[2] = 22 - 22*by // .4*60 + 2*10 = 44 minutes in 2 sessions
		}, "Bramble, week 2: 24 minutes of pulling and 20 of set-up, but its sessions have 43.9956"},
		{"pulling without a session", func(_ *Problem, plan Plan, by float64) {
			plan.Shares[1][0][1] = by / 60
		}, "Thistle, week 1: 0.0001 minutes of pulling and 0 of set-up, but its sessions have 0"},
		{"hours with set-ups", func(p *Problem, _ Plan, by float64) {
			p.Rows[0].Capacity = 22 - 22*by // .2*60 + 10
		}, "Handler, week 0, hours: 22 minutes are planned, but there are 21.9978"},
		{"hand load of a kind", func(p *Problem, plan Plan, by float64) {
			plan.Shares[0][1][2] = 0.1 // ears are of another kind and don't count
			p.Rows[1].Capacity = 24 - 24*by
		}, "Handler, week 2, hand load: 24 minutes are planned, but there are 23.9976"},
		{"hours of two dogs", func(p *Problem, plan Plan, by float64) {
			plan.Sessions[1][0] = 1
			plan.Shares[1][0][0] = 0.5
			p.Rows[0].Capacity = 52 - 52*by // 22 + .5*60
		}, "Handler, week 0, hours: 52 minutes are planned, but there are 51.9948"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, plan := handMade()
			c.edit(p, plan, little)
			if err := Validate(p); err != nil {
				t.Fatalf("the case is malformed: %v", err)
			}
			got := Violations(p, plan, little/2)
			if len(got) != 1 || got[0] != c.want {
				t.Errorf("got %q\nwant %q", got, c.want)
			}
			if got := Violations(p, plan, 2*little); got != nil {
				t.Errorf("within the tolerance, but %q", got)
			}
			p, plan = handMade()
			c.edit(p, plan, 0)
			if got := Violations(p, plan, 1e-12); got != nil {
				t.Errorf("at the limit, but %q", got)
			}
		})
	}
}

func TestViolationsOfWholeNumbersAndShapes(t *testing.T) {
	cases := []struct {
		name string
		edit func(p *Problem, plan *Plan)
		want string
	}{
		{"too many sessions", func(p *Problem, _ *Plan) { p.Dogs[0].Most[2] = 1 }, "Bramble, week 2: 2 sessions, but 0 to 1 are possible"},
		{"negative sessions", func(_ *Problem, plan *Plan) { plan.Sessions[1][0] = -1 }, "Thistle, week 0: -1 sessions"},
		{"closed week", func(p *Problem, _ *Plan) { p.Dogs[0].Most[0] = 0 }, "Bramble, week 0: 1 sessions, but 0 to 0"},
		{"not a number", func(_ *Problem, plan *Plan) { plan.Shares[0][1][1] = math.NaN() }, "Bramble, ears, week 1: the share pulled is not a number"},
		{"dogs", func(_ *Problem, plan *Plan) { plan.Sessions = plan.Sessions[:1] }, "the plan has sessions of 1 and shares of 2 dogs, the problem has 2"},
		{"areas", func(_ *Problem, plan *Plan) { plan.Shares[0] = plan.Shares[0][:1] }, "Bramble: the plan has 1 areas, the problem has 2"},
		{"weeks of sessions", func(_ *Problem, plan *Plan) { plan.Sessions[0] = nil }, "Bramble: the plan has sessions of 0 weeks, the problem has 3"},
		{"weeks of shares", func(_ *Problem, plan *Plan) { plan.Shares[0][1] = nil }, "Bramble, ears: the plan has shares of 0 weeks, the problem has 3"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, plan := handMade()
			if got := Violations(p, plan, 0); got != nil {
				t.Fatalf("the plan is allowed, but %q", got)
			}
			c.edit(p, &plan)
			if got := strings.Join(Violations(p, plan, 1e-9), "\n"); !strings.Contains(got, c.want) {
				t.Errorf("got %q\nwant %q", got, c.want)
			}
		})
	}
}

// Where history alone has more than the whole area within the grip age, doing nothing is allowed and pulling isn't.
func TestGripBrokenByHistory(t *testing.T) {
	p, _ := handMade()
	p.Dogs[0].Areas[0].Past = []float64{0.5, 1.5, 2}
	p.Dogs[0].Areas[0].Grip = 2
	plan := NewPlan(p)
	if got := Violations(p, plan, 0); got != nil {
		t.Fatalf("doing nothing: %q", got)
	}
	plan.Sessions[0][0] = 1
	plan.Shares[0][0][0] = 0.1
	want := "Bramble, back, week 0: hair under 2 weeks would be pulled: 1.6 of the area in that time, but at most 1.5 can be"
	if got := Violations(p, plan, 1e-9); len(got) != 1 || got[0] != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestValidateNamesEveryFault(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	cases := []struct {
		edit func(p *Problem)
		want string
	}{
		{func(p *Problem) { p.Weeks = 0 }, "the season: has 0 weeks, needs at least 1"},
		{func(p *Problem) { p.Kinds = 0 }, "the season: has 0 kinds of work"},
		{func(p *Problem) { p.Kinds = 33 }, "the season: has 33 kinds of work"},
		{func(p *Problem) { p.Balance = -1 }, "the season: balance is -1"},
		{func(p *Problem) { p.Balance = nan }, "the season: balance is NaN"},
		{func(p *Problem) { p.Rows[1].Week = 3 }, "limit 1 (Handler): is on week 3 of 0 to 2"},
		{func(p *Problem) { p.Rows[1].Week = -1 }, "limit 1 (Handler): is on week -1 of 0 to 2"},
		{func(p *Problem) { p.Rows[0].Capacity = -5 }, "limit 0 (Handler): capacity is -5"},
		{func(p *Problem) { p.Rows[0].Capacity = nan }, "limit 0 (Handler): capacity is NaN"},
		{func(p *Problem) { p.Rows[0].Capacity = inf }, "limit 0 (Handler): capacity is +Inf"},
		{func(p *Problem) { p.Rows[0].Kinds = 0b100 }, "limit 0 (Handler): counts kinds 0b100, but there are only 2"},
		{func(p *Problem) { p.Dogs[1].SetUp = -1 }, "dog 1 (Thistle): set-up is -1"},
		{func(p *Problem) { p.Dogs[1].SessionCost = nan }, "dog 1 (Thistle): session cost is NaN"},
		{func(p *Problem) { p.Dogs[1].Stay = inf }, "dog 1 (Thistle): stay is +Inf"},
		{func(p *Problem) { p.Dogs[1].Minutes = nil }, "dog 1 (Thistle): minutes: 0 weeks, the season has 3"},
		{func(p *Problem) { p.Dogs[1].Minutes[2] = nan }, "dog 1 (Thistle): minutes of week 2 is NaN"},
		{func(p *Problem) { p.Dogs[1].Value[0] = -1 }, "dog 1 (Thistle): value of week 0 is -1"},
		{func(p *Problem) { p.Dogs[1].Value = p.Dogs[1].Value[:2] }, "dog 1 (Thistle): value: 2 weeks"},
		{func(p *Problem) { p.Dogs[1].Most = nil }, "dog 1 (Thistle): most sessions: 0 weeks"},
		{func(p *Problem) { p.Dogs[1].Most[1] = -2 }, "dog 1 (Thistle): most sessions of week 1 is -2"},
		{func(p *Problem) { p.Dogs[0].Kept = make([]int, 4) }, "dog 0 (Bramble): accepted sessions: 4 weeks"},
		{func(p *Problem) { p.Dogs[0].Kept[1] = -1 }, "dog 0 (Bramble): accepted sessions of week 1 is -1"},
		{func(p *Problem) { p.Dogs[0].Shows = []float64{1} }, "dog 0 (Bramble): show weights: 1 weeks"},
		{func(p *Problem) { p.Dogs[0].Shows[0] = 0.5 }, "dog 0 (Bramble): show weights sum to 1.25, not 1"},
		{func(p *Problem) { p.Dogs[0].Shows[0] = nan }, "dog 0 (Bramble): show weights sum to NaN, not 1"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Weight = 0.5 }, "dog 0 (Bramble): areas weigh 1.25 together, more than 1"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Kind = 2 }, "dog 0 (Bramble), area 1 (ears): is of kind 2 of 0 to 1"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Kind = -1 }, "dog 0 (Bramble), area 1 (ears): is of kind -1"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Weight = -1 }, "area 1 (ears): weight is -1"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Minutes = 0 }, "area 1 (ears): minutes are 0"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Minutes = inf }, "area 1 (ears): minutes is +Inf"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Grip = -1 }, "area 1 (ears): grip is -1 weeks"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Most = nil }, "area 1 (ears): largest share: 0 weeks"},
		{func(p *Problem) { p.Dogs[0].Areas[1].Most[0] = nan }, "area 1 (ears): largest share of week 0 is NaN"},
		{func(p *Problem) { p.Dogs[0].Areas[0].Past[2] = 0.4 }, "area 0 (back): past falls from 0.5 to 0.4 at 2"},
		{func(p *Problem) { p.Dogs[0].Areas[0].Past[0] = nan }, "area 0 (back): past is NaN"},
		{func(p *Problem) { p.Dogs[0].Areas[0].Young[0].Weeks = 0 }, "area 0 (back): a term has 0 weeks"},
		{func(p *Problem) { p.Dogs[0].Areas[0].Young[0].Allow = nan }, "area 0 (back): allow is NaN"},
		{func(p *Problem) { p.Dogs[0].Areas[0].Old[0].Slope = -1 }, "area 0 (back): slope is -1"},
	}
	p, _ := handMade()
	if err := Validate(p); err != nil {
		t.Fatalf("the hand-made season: %v", err)
	}
	for _, c := range cases {
		p, _ := handMade()
		c.edit(p)
		if err := Validate(p); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("got %v\nwant %q", err, c.want)
		}
	}
	p.Dogs[0].SetUp, p.Rows[0].Capacity = -1, -1
	if err := Validate(p); err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("two faults, but %v", err)
	}
}
