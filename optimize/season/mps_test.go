package season

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"tuckup/optimize/mps"
)

// mpsOf is the model file of a problem, and read back.
func mpsOf(t *testing.T, p *Problem) (string, mps.Model) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteMPS(&b, p); err != nil {
		t.Fatal(err)
	}
	m, err := mps.Read(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	return b.String(), m
}

// verified is a plan written out, read back and checked by the model file.
func verified(t *testing.T, p *Problem, m mps.Model, plan Plan) mps.Verified {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSolution(&b, p, plan); err != nil {
		t.Fatal(err)
	}
	s, err := mps.ReadSolution(&b)
	if err != nil {
		t.Fatal(err)
	}
	v, err := mps.Verify(m, s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// One dog, one area, two weeks, one show, one limit. The history is P(-1) = .5, P(0) = 1.
//
//	session: 60 (P - P before) + (10 - 40) z <= 0; in week 0 P before is 1, so 60 goes to the right
//	young:   s >= P(t) - P(t-2) - .5, with P(-2) = 0 and P(-1) = .5 on the right; the coat's last pull is in week 0
//	old:     l >= 1 - .125 - P(t) + P(t-1), charged .5 * value; in week 0 P(-1) is on the right
//	least:   mean of readiness over shows, only week 1 counts: least + .75 short + .5 long <= 1
//	one:     all readiness charged nothing: -(.25 + 2)
const goldenMPS = `* Season of 2 weeks, 1 dogs, 1 limits.
* Minimise. The value is minus the plan's points; column one is fixed at 1 and carries the constant.
NAME season
ROWS
 N minus_points
 L least_sorrel
 L mean_sorrel_01
 G pull_sorrel_back_01
 L grip_sorrel_back_00
 L grip_sorrel_back_01
 G short_sorrel_back_02_00
 G long_sorrel_back_01_00
 G short_sorrel_back_02_01
 G long_sorrel_back_01_01
 L session_sorrel_00
 L session_sorrel_01
 L hours_handler_01
COLUMNS
 least_show minus_points -0.5
 least_show least_sorrel 1
 ready_sorrel_01 mean_sorrel_01 1
 ready_sorrel_01 least_sorrel -1
 P_sorrel_back_00 pull_sorrel_back_01 -1
 P_sorrel_back_00 grip_sorrel_back_00 1
 P_sorrel_back_00 short_sorrel_back_02_00 -1
 P_sorrel_back_00 long_sorrel_back_01_00 1
 P_sorrel_back_00 long_sorrel_back_01_01 -1
 P_sorrel_back_00 session_sorrel_00 60
 P_sorrel_back_00 session_sorrel_01 -60
 P_sorrel_back_00 hours_handler_01 -60
 P_sorrel_back_01 pull_sorrel_back_01 1
 P_sorrel_back_01 grip_sorrel_back_01 1
 P_sorrel_back_01 short_sorrel_back_02_01 -1
 P_sorrel_back_01 long_sorrel_back_01_01 1
 P_sorrel_back_01 session_sorrel_01 60
 P_sorrel_back_01 hours_handler_01 60
 short_sorrel_back_02_00 minus_points 0.1875
 short_sorrel_back_02_00 short_sorrel_back_02_00 1
 long_sorrel_back_01_00 minus_points 0.125
 long_sorrel_back_01_00 long_sorrel_back_01_00 1
 short_sorrel_back_02_01 minus_points 1.5
 short_sorrel_back_02_01 short_sorrel_back_02_01 1
 short_sorrel_back_02_01 mean_sorrel_01 0.75
 long_sorrel_back_01_01 minus_points 1
 long_sorrel_back_01_01 long_sorrel_back_01_01 1
 long_sorrel_back_01_01 mean_sorrel_01 0.5
 one minus_points -2.25
 MARKER 'MARKER' 'INTORG'
 z_sorrel_00 minus_points 0.01
 z_sorrel_00 session_sorrel_00 -30
 z_sorrel_01 minus_points 0.01
 z_sorrel_01 session_sorrel_01 -30
 z_sorrel_01 hours_handler_01 10
 MARKER 'MARKER' 'INTEND'
RHS
 RHS mean_sorrel_01 1
 RHS grip_sorrel_back_00 1
 RHS grip_sorrel_back_01 1.5
 RHS short_sorrel_back_02_00 -0.5
 RHS long_sorrel_back_01_00 1.375
 RHS short_sorrel_back_02_01 -1
 RHS long_sorrel_back_01_01 0.875
 RHS session_sorrel_00 60
 RHS hours_handler_01 30
RANGES
 RANGE pull_sorrel_back_01 0.75
BOUNDS
 FR BOUND least_show
 FR BOUND ready_sorrel_01
 LO BOUND P_sorrel_back_00 1
 UP BOUND P_sorrel_back_00 1.25
 FX BOUND one 1
 UP BOUND z_sorrel_00 2
 UP BOUND z_sorrel_01 1
ENDATA
`

func goldenSeason() *Problem {
	return &Problem{
		Weeks: 2, Kinds: 1, Balance: 0.5,
		Dogs: []Dog{{
			Name: "Sorrel", SetUp: 10, Minutes: []float64{40, 40}, Most: []int{2, 1}, SessionCost: 0.01,
			Value: []float64{0.25, 2}, Shows: []float64{0, 1},
			Areas: []Area{{
				Name: "back", Weight: 1, Minutes: 60, Past: []float64{0.5, 1}, Grip: 2, Most: []float64{0.25, 0.75},
				Young: []Term{{2, 0.5, 0.25}, {2, 0.5, 0.5}, {1, 1, 9}, {9, 0, 0}}, // two are one; two can never charge
				Old:   []Term{{1, 0.125, 0.5}, {1, 1, 9}},
			}},
		}},
		Rows: []Row{{Name: "Handler", Week: 1, Capacity: 30, Kinds: 1, SetUps: true}},
	}
}

func TestWriteMPSGolden(t *testing.T) {
	got, _ := mpsOf(t, goldenSeason())
	if got != goldenMPS {
		a, b := strings.Split(got, "\n"), strings.Split(goldenMPS, "\n")
		for i := range min(len(a), len(b)) {
			if a[i] != b[i] {
				t.Fatalf("line %d: got %q, want %q\n%s", i+1, a[i], b[i], got)
			}
		}
		t.Fatalf("%d lines, want %d", len(a), len(b))
	}
}

func TestWriteSolutionGolden(t *testing.T) {
	p := goldenSeason()
	plan := NewPlan(p)
	plan.Sessions[0] = []int{0, 1}
	plan.Shares[0][0] = []float64{0, 0.25}
	// short: 1 - 0 - .5, then 1.25 - .5 - .5; long: .875 - .5, then .875 - .25; least: 1 - .75*.25 - .5*.625
	const want = `least_show 0.5
ready_sorrel_01 0.5
P_sorrel_back_00 1
P_sorrel_back_01 1.25
short_sorrel_back_02_00 0.5
long_sorrel_back_01_00 0.375
short_sorrel_back_02_01 0.25
long_sorrel_back_01_01 0.625
one 1
z_sorrel_00 0
z_sorrel_01 1
`
	var b bytes.Buffer
	if err := WriteSolution(&b, p, plan); err != nil {
		t.Fatal(err)
	}
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
	plan.Sessions[0] = nil
	if err := WriteSolution(&b, p, plan); err == nil {
		t.Error("a plan of the wrong shape was written")
	}
	p = goldenSeason()
	p.Dogs[0].Most[1] = 0
	plan.Sessions[0] = []int{0, 1}
	if err := WriteSolution(&b, p, plan); err == nil || err.Error() != "Sorrel, week 1: 1 sessions in a week that is closed" {
		t.Errorf("a session in a closed week: %v", err)
	}
}

// randomPlan is a plan that keeps the limits of each week and area by itself, and breaks others as it happens.
func randomPlan(p *Problem, rng *rand.Rand, busy float64) Plan {
	plan := NewPlan(p)
	for d := range p.Dogs {
		dog := &p.Dogs[d]
		for t := range p.Weeks {
			if dog.Most[t] == 0 || rng.Float64() > busy {
				continue
			}
			plan.Sessions[d][t] = 1 + rng.IntN(dog.Most[t])
			for a := range dog.Areas {
				plan.Shares[d][a][t] = min(dog.Areas[a].Most[t], busy*rng.Float64())
			}
		}
	}
	return plan
}

// The model file and the definition agree on any plan: the same value, and allowed by the one exactly when by the
// other.
func TestModelFileAgreesWithDefinition(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: solves seasons to their end")
	}
	rng := rand.New(rand.NewPCG(5, 6))
	allowed, broken := 0, 0
	for seed := range uint64(120) {
		p := Random(seed, int(seed%3)+1, int(seed%20)+3, []float64{0.4, 3}[seed%2])
		_, m := mpsOf(t, p)
		for _, busy := range []float64{0, 0.02, 0.1, 0.4} {
			plan := randomPlan(p, rng, busy)
			v := verified(t, p, m, plan)
			if want := -Evaluate(p, plan); !(v.Objective >= want-1e-9 && v.Objective <= want+1e-9) {
				t.Fatalf("seed %d: the model file says %.12g, the definition %.12g", seed, v.Objective, want)
			}
			says := Violations(p, plan, 1e-9)
			if (v.Violation > 1e-9) != (len(says) > 0) {
				t.Fatalf("seed %d: the model file has %s broken by %g, the definition says %q", seed, v.Worst, v.Violation, says)
			}
			if v.Fraction != 0 {
				t.Fatalf("seed %d: a whole column is off by %g", seed, v.Fraction)
			}
			if len(says) > 0 {
				broken++
			} else {
				allowed++
			}
		}
	}
	if allowed < 100 || broken < 100 {
		t.Errorf("%d plans allowed and %d not: too few of one", allowed, broken)
	}
}

// Every constraint that Violations knows stands in the model file too: what breaks one alone breaks the other.
func TestModelFileKnowsEachConstraint(t *testing.T) {
	cases := []struct {
		name string
		edit func(p *Problem, plan Plan)
		want string // row or column that is broken
	}{
		{"negative share", func(_ *Problem, plan Plan) { plan.Shares[0][1] = []float64{0.01, 0, -1e-3} }, "pull_bramble_ears_02"},
		{"negative share at once", func(_ *Problem, plan Plan) { plan.Shares[0][1][0] = -1e-3 }, "P_bramble_ears_00"},
		{"most", func(p *Problem, _ Plan) { p.Dogs[0].Areas[0].Most[2] = 0.39 }, "pull_bramble_back_02"},
		{"most at once", func(p *Problem, _ Plan) { p.Dogs[0].Areas[0].Most[0] = 0.19 }, "P_bramble_back_00"},
		{"grip", func(p *Problem, _ Plan) { p.Dogs[0].Areas[0].Grip = 2; p.Dogs[0].Areas[0].Past[0] = 0.1 }, "grip_bramble_back_00"},
		{"sessions", func(p *Problem, _ Plan) { p.Dogs[0].Minutes[2] = 21 }, "session_bramble_02"},
		{"no session", func(_ *Problem, plan Plan) { plan.Shares[1][0][1] = 0.01 }, "session_thistle_01"},
		{"closed week", func(p *Problem, plan Plan) { p.Dogs[1].Most[1] = 0; plan.Shares[1][0][1] = 0.01 }, "pull_thistle_back_01"},
		{"most sessions", func(p *Problem, _ Plan) { p.Dogs[0].Most[2] = 1 }, "z_bramble_02"},
		{"hours", func(p *Problem, _ Plan) { p.Rows[0].Capacity = 21 }, "hours_handler_00"},
		{"hand load", func(p *Problem, _ Plan) { p.Rows[1].Capacity = 23 }, "strip_handler_02"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, plan := handMade()
			_, m := mpsOf(t, p)
			if v := verified(t, p, m, plan); v.Violation > 1e-12 {
				t.Fatalf("the plan is allowed, but %s is broken by %g", v.Worst, v.Violation)
			}
			c.edit(p, plan)
			_, m = mpsOf(t, p)
			v := verified(t, p, m, plan)
			if v.Worst != c.want || v.Violation < 1e-4 {
				t.Errorf("%q is broken by %g, want %s", v.Worst, v.Violation, c.want)
			}
			if len(Violations(p, plan, 1e-9)) == 0 {
				t.Error("the definition allows it")
			}
		})
	}
}

// Accepted sessions come in four forms in the model file: none accepted, as many as are possible or more, closed
// weeks, and in between.
func TestModelFileOfAcceptedSessions(t *testing.T) {
	p, plan := handMade()
	p.Dogs[0].Most = []int{2, 3, 2}
	for _, kept := range [][]int{{0, 0, 0}, {1, 2, 1}, {2, 3, 2}, {3, 4, 5}, {1}} {
		p.Dogs[0].Kept = kept
		_, m := mpsOf(t, p)
		near(t, "minus the objective", verified(t, p, m, plan).Objective, -Evaluate(p, plan))
	}
	p.Dogs[0].Most[1] = 0
	p.Dogs[0].Kept = []int{1, 2, 1}
	_, m := mpsOf(t, p)
	near(t, "minus the objective", verified(t, p, m, plan).Objective, -Evaluate(p, plan))
}

// The columns that only keep account (charges, departures from accepted sessions, the least show mean) stand at what
// the definition says: none can be better by a thousandth without breaking its row or its bound.
func TestModelFileKeepsAccount(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 9))
	account := regexp.MustCompile(`^(short|long|stay|least)_`)
	tried := map[string]int{}
	for seed := range uint64(60) {
		p := Random(seed, 2, 6, 3)
		for d := range p.Dogs {
			dog := &p.Dogs[d]
			dog.Stay, dog.Kept = 0.05, nil
			for t := range p.Weeks {
				dog.Kept = append(dog.Kept, rng.IntN(4))
				if dog.Most[t] > 0 {
					dog.Most[t] = 3
				}
				if seed%2 == 0 { // only the least show mean is left to charge for
					dog.Value[t] = 0
				}
			}
		}
		_, m := mpsOf(t, p)
		var b bytes.Buffer
		if err := WriteSolution(&b, p, randomPlan(p, rng, 0.1)); err != nil {
			t.Fatal(err)
		}
		s, err := mps.ReadSolution(&b)
		if err != nil {
			t.Fatal(err)
		}
		before, err := mps.Verify(m, s)
		if err != nil {
			t.Fatal(err)
		}
		if before.Violation > 1e-9 {
			continue
		}
		for _, c := range m.Columns {
			if !account.MatchString(c.Name) {
				continue
			}
			better := -1e-3
			if c.Cost < 0 {
				better = 1e-3
			}
			was := s[c.Name]
			s[c.Name] = was + better
			after, err := mps.Verify(m, s)
			if err != nil {
				t.Fatal(err)
			}
			if after.Violation < 1e-6 {
				t.Errorf("seed %d: %s can be %g instead of %g", seed, c.Name, s[c.Name], was)
			}
			s[c.Name] = was
			if was != 0 {
				tried[account.FindStringSubmatch(c.Name)[1]]++
			}
		}
	}
	for _, kind := range []string{"short", "long", "stay", "least"} {
		if tried[kind] < 20 {
			t.Errorf("only %d columns %s were tried away from 0", tried[kind], kind)
		}
	}
}

func TestModelFileIsTheSameBytes(t *testing.T) {
	p := Random(11, 3, 12, 0.4)
	first, _ := mpsOf(t, p)
	for range 5 {
		if again, _ := mpsOf(t, p); again != first {
			t.Fatal("two files of one problem differ")
		}
	}
}

// Names that look alike, are empty or in other letters stay apart and plain.
func TestModelFileNames(t *testing.T) {
	p := Random(11, 8, 4, 0.4)
	for i, n := range []string{"A b", "a_B", "a", "", "", "Zoë-Å", "A", strings.Repeat("long ", 40)} {
		p.Dogs[i].Name = n
	}
	for i, n := range []string{"b 1", "B-1", "!", "?"} {
		p.Dogs[2].Areas[i].Name = n
	}
	p.Rows[0].Name = "Jo's\nhands"
	text, m := mpsOf(t, p)
	seen := map[string]bool{}
	fine := regexp.MustCompile(`^([PzN]|short|long|over|under|left|dead|cleared|ready|stay|least|one)[a-z0-9_]{0,100}$`)
	for _, c := range m.Columns {
		if seen[c.Name] || !fine.MatchString(c.Name) {
			t.Errorf("column %q appears twice or not plain", c.Name)
		}
		seen[c.Name] = true
	}
	for _, want := range []string{
		"P_a_b_back_03", "P_a_b_2_back_03", "P_a_b_1_00", "P_a_b_1_2_00", "z_dog_00", "z_dog_2_00", "z_zo_02", "z_a_2_00", "P_a_area_00", "P_a_area_2_00",
	} {
		if !seen[want] && !strings.HasPrefix(want, "z_") {
			t.Errorf("no column %s", want)
		}
	}
	if !strings.Contains(text, " L hours_jo_s_hands_00\n") {
		t.Error("no row hours_jo_s_hands_00")
	}
	wide, _ := mpsOf(t, Random(1, 1, 101, 0.4))
	if !strings.Contains(wide, " P_dog_1_back_007 ") {
		t.Error("101 weeks, but week 7 is not 007")
	}
}
