package season

import (
	"math"
	"math/rand/v2"
	"testing"
)

// While no week of clearing is decided, each area takes what it takes with the best of them: windows that are left out at
// earlier prices have no better week, whatever prices, parts of holes, levies and open weeks come after one another.
func TestWindowsLeaveOutNoBetterWeekOfClearing(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	asked, left, never := 0, 0, 0
	for range 12 {
		n := aDogAtPrices(rng)
		if !n.dog.hasDead() {
			continue
		}
		n.relaxDead(true)
		for range 12 {
			switch rng.IntN(4) {
			case 0:
				n.setShow(n.p.Balance * rng.Float64())
			case 1:
				w := rng.IntN(n.p.Weeks)
				n.setSessions(w, rng.IntN(n.dog.Most[w]+1))
			}
			for w := range n.p.Weeks {
				for a := range n.nets {
					n.levies[a][w] = 0.01 * rng.Float64() * float64(rng.IntN(2))
				}
				if rng.IntN(3) == 0 {
					n.setFill(w, math.Max(0, n.fill[w]+0.001*(rng.Float64()-0.5)))
				} else {
					n.setFill(w, n.fill[w])
				}
			}
			n.areasCost()
			for a := range n.nets {
				if n.dog.Areas[a].Dead == 0 {
					continue
				}
				best := math.Inf(1)
				for week := range n.p.Weeks + 1 {
					best = math.Min(best, n.clearedMinimum(a, week))
				}
				if got := n.nets[a].Minimum(); math.Abs(got-best) > 1e-6 {
					t.Fatalf("area %d takes %.9f at least, by its windows %.9f in week %d", a, best, got, n.chosen[a].from)
				}
				asked++
				for _, w := range n.windows[a] {
					if w.parts == nil {
						continue
					}
					for _, x := range w.parts {
						if x.net == nil {
							left++
						}
					}
				}
				if n.chosen[a].from == n.p.Weeks {
					never++
				}
			}
		}
	}
	if asked < 200 || left < 200 || never == 0 || never == asked {
		t.Errorf("%d areas asked, %d weeks left out, %d areas never cleared: too few", asked, left, never)
	}
}

// clearedMinimum is what an area takes at the present prices when it is cleared by the end of the week, by a net of its own.
func (n *dogNets) clearedMinimum(a, week int) float64 {
	area := n.dog.Areas[a]
	if week < n.p.Weeks && (area.Most[week] == 0 || !n.dog.canOpen(week)) {
		return math.Inf(1)
	}
	area.cleared = 1 + week
	net := newAreaNet(&area, n.p.Weeks)
	net.SetValue(n.areaValues(a))
	for t, z := range n.sessions {
		minute := n.minutePrice(a, t)
		price := area.Minutes * minute
		if t <= week {
			price = area.Loose * minute
		}
		if reach := area.reach(t); reach > 0 {
			price += n.levies[a][t] / reach
		}
		net.SetOpen(t, z > 0)
		net.SetPrice(t, price)
		if t == week {
			net.SetCharge(0, (area.Minutes-area.Loose)*minute)
		}
	}
	net.Solve()
	return net.Minimum()
}
