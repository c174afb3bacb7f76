package season

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// jacketArea is a body area with the starting values of the trade: ready 11 weeks, hold 7.
func jacketArea(weeks int, past []float64) *Area {
	a := &Area{
		Name: "ribs", Weight: 1, Minutes: 60, Past: past, Grip: 3, Most: make([]float64, weeks),
		Young: []Term{{8, .50, .8}, {11, .60, 1.5}},
		Old:   []Term{{18, .10, .5}, {21, .20, .75}},
	}
	for t := range a.Most {
		a.Most[t] = 1
	}
	return a
}

// charged is what the area's charges and prices take with the shares pulled, straight from the definition.
func charged(a *Area, value, price, shares []float64) float64 {
	curve := func(t int) float64 {
		s := a.PastAt(t)
		for w := 0; w <= t && w < len(shares); w++ {
			s += shares[w]
		}
		return s
	}
	var sum float64
	for t := range shares {
		sum += price[t] * shares[t]
		for _, k := range a.Young {
			sum += value[t] * k.Slope * math.Max(0, curve(t)-curve(t-k.Weeks)-k.Allow)
		}
		for _, k := range a.Old {
			sum += value[t] * k.Slope * math.Max(0, 1-k.Allow-curve(t)+curve(t-k.Weeks))
		}
	}
	return sum
}

// TestAreaNetAgainstLinearProgram solves random areas both ways: as a flow and, through the linear program of the
// same charges, with gonum's simplex.
func TestAreaNetAgainstLinearProgram(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	compared := 0
	nets := some(60, 15)
	for range nets {
		weeks := 4 + rng.IntN(6)
		a := jacketArea(weeks, randomPast(rng))
		a.Young = []Term{{1 + rng.IntN(4), .5, .8}, {2 + rng.IntN(5), .6, 1.5}}
		a.Old = []Term{{4 + rng.IntN(4), .1, .5}, {6 + rng.IntN(5), .2, .75}}
		net := newAreaNet(a, weeks)
		value, price, open := make([]float64, weeks), make([]float64, weeks), make([]bool, weeks)
		for step := range 12 { // the same net goes on: warm starts must agree too
			if step%5 == 0 {
				for t := range value {
					value[t] = rng.Float64()
				}
				net.SetValue(value)
			}
			for t := range weeks {
				if rng.IntN(3) == 0 {
					price[t] = rng.Float64() * .5
					net.SetPrice(t, price[t])
				}
				if rng.IntN(3) == 0 {
					open[t] = !open[t]
					net.SetOpen(t, open[t])
				}
			}
			net.Solve()
			shares := make([]float64, weeks)
			for t := range shares {
				shares[t] = net.Step(t)
			}
			for w, s := range shares {
				if s < 0 || s > a.Most[w] || (!open[w] && s != 0) {
					t.Fatalf("week %d: share %v with open %v", w, s, open[w])
				}
			}
			got := charged(a, value, price, shares)
			if math.Abs(got-net.Minimum()) > 1e-5 {
				t.Fatalf("the curve costs %v, the flow says %v", got, net.Minimum())
			}
			want, ok := areaByLinearProgram(a, value, price, open)
			if !ok {
				continue
			}
			compared++
			if math.Abs(got-want) > 1e-5 {
				t.Fatalf("weeks %d step %d: flow %v, linear program %v", weeks, step, got, want)
			}
		}
	}
	if compared < int(nets)*10 {
		t.Fatalf("only %d of %d comparisons had an answer from gonum's simplex", compared, 12*nets)
	}
}

func randomPast(rng *rand.Rand) []float64 {
	past := make([]float64, 1+rng.IntN(15))
	var sum float64
	for i := range past {
		if rng.IntN(2) == 0 {
			sum += (1 - sum) * float64(rng.IntN(10)) / 10
		}
		past[i] = math.Round(sum*1e6) / 1e6
	}
	return past
}

// areaByLinearProgram is the least cost by gonum's simplex, if it finds one: variables are shares and charges.
func areaByLinearProgram(a *Area, value, price []float64, open []bool) (float64, bool) {
	weeks := len(value)
	type row struct {
		coef map[int]float64
		rhs  float64
	}
	var rows []row // coef x <= rhs
	cost := append([]float64(nil), price...)
	diff := func(t, w int, sign float64) map[int]float64 {
		m := map[int]float64{}
		for s := max(0, t-w+1); s <= t; s++ {
			m[s] += sign
		}
		return m
	}
	for w := range weeks {
		most := a.Most[w]
		if !open[w] {
			most = 0
		}
		rows = append(rows, row{map[int]float64{w: 1}, most})
		rows = append(rows, row{diff(w, a.Grip, 1), math.Max(0, 1-(a.PastAt(w)-a.PastAt(w-a.Grip)))})
		charge := func(m map[int]float64, free, slope float64) {
			m[len(cost)] = -1
			cost = append(cost, value[w]*slope)
			rows = append(rows, row{m, free})
		}
		for _, k := range a.Young {
			charge(diff(w, k.Weeks, 1), k.Allow-(a.PastAt(w)-a.PastAt(w-k.Weeks)), k.Slope)
		}
		for _, k := range a.Old {
			charge(diff(w, k.Weeks, -1), k.Allow-1+(a.PastAt(w)-a.PastAt(w-k.Weeks)), k.Slope)
		}
	}
	n := len(cost)
	A := mat.NewDense(len(rows), n+len(rows), nil)
	b := make([]float64, len(rows))
	c := append(cost, make([]float64, len(rows))...)
	for i, r := range rows {
		for j, v := range r.coef {
			A.Set(i, j, v)
		}
		A.Set(i, n+i, 1)
		b[i] = r.rhs + 1e-9*float64(i+1) // keeps gonum's simplex out of degenerate corners
		if b[i] < 0 {
			b[i] = -b[i]
			for j := range n + len(rows) {
				A.Set(i, j, -A.At(i, j))
			}
		}
	}
	opt, _, err := lp.Simplex(c, A, b, 0, nil)
	return opt, err == nil
}

// TestEvenCoatIsStartedAndRolled holds the behaviour that the trade expects of one area with no limit on hours: an
// even, 10-week-old coat is started at once, dips once, and then rolls for ever at about 1/18 a week.
func TestEvenCoatIsStartedAndRolled(t *testing.T) {
	const weeks = 78
	past := make([]float64, 12)
	for i := range past {
		past[i] = 1 // ten weeks old when week 0 begins
	}
	a := jacketArea(weeks, past)
	net := newAreaNet(a, weeks)
	value := make([]float64, weeks)
	for w := range value {
		value[w] = 1
	}
	net.SetValue(value)
	for w := range weeks {
		net.SetOpen(w, true)
	}
	net.Solve()
	curve := func(w int) float64 {
		s := a.PastAt(w)
		for x := 0; x <= w; x++ {
			s += net.Step(x)
		}
		return s
	}
	ready := func(w int) float64 {
		one, sh := make([]float64, weeks), make([]float64, weeks)
		one[w] = 1
		for x := range sh {
			sh[x] = net.Step(x)
		}
		return 100 * (1 - charged(a, one, make([]float64, weeks), sh))
	}
	if got := net.Step(0); got < .1 || got > .35 {
		t.Errorf("the first week takes %.3f, want about 1/5", got)
	}
	low := 100.0
	for w := 1; w < 26; w++ {
		low = math.Min(low, ready(w))
	}
	if low < 65 || low > 95 {
		t.Errorf("the coat dips to %.1f, want about 85", low)
	}
	rate := (curve(60) - curve(20)) / 40
	if rate < 1/22.0 || rate > 1/14.0 {
		t.Errorf("it rolls at 1 in %.1f a week, want about 1 in 18", 1/rate)
	}
	for w := 26; w < 52; w++ {
		if r := ready(w); r < 97 {
			t.Errorf("week %d: readiness %.1f while rolling, want full", w, r)
		}
	}
	t.Logf("first %.3f %.3f %.3f, dip %.1f, rolling 1 in %.1f", net.Step(0), net.Step(1), net.Step(2), low, 1/rate)
}
