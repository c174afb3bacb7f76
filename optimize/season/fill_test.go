package season

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// aDogAtPrices is a dog of a made-up string at random prices, with random sessions and fill prices, whose dead hair is off by
// random weeks.
func aDogAtPrices(rng *rand.Rand) *dogNets {
	p := RandomString(rng.Uint64(), Shape{Dogs: 1, Weeks: 8 + rng.IntN(12), Hours: 0.4, Hands: 1}).withClearings()
	q := newPrices(p)
	for i := range q.row {
		if rng.IntN(3) > 0 {
			q.row[i] = 0.004 * rng.Float64() * rng.Float64()
		}
	}
	q.show[0] = p.Balance * rng.Float64()
	n := newDogNets(p, 0)
	n.setPrices(p.weekPrices(q.row), q)
	for a := range n.dog.Areas {
		if n.dog.Areas[a].Dead > 0 {
			n.clearBy(a, rng.IntN(p.Weeks+1))
		}
	}
	for t := range p.Weeks {
		if most := n.dog.Most[t]; most > 0 {
			n.setSessions(t, rng.IntN(most+1))
		}
		if n.sessions[t] > 0 && rng.IntN(2) == 0 {
			n.setFill(t, 0.003*rng.Float64())
		}
	}
	return n
}

// halved is the least value over the fill prices of week t of least and more, found by halving where the sessions' room
// less the work changes its sign, and the price there.
func (n *dogNets) halved(t int, l line, value func() float64) (best, at float64) {
	low, high := l.least, 1.0
	best = math.Inf(1)
	ask := func(x float64) float64 {
		n.setFill(t, x)
		if v := value(); v < best {
			best, at = v, x
		}
		return l.roomAt(x) - n.work(t)
	}
	if ask(high) <= 0 || ask(low) >= 0 {
		return best, at
	}
	for range 60 {
		if mid := (low + high) / 2; ask(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return best, at
}

// The fill price that touching lines find is worth what halving finds, but for the care and for what the minutes that it
// may miss the room by are worth on the way to the best price.
func TestFillPricesAreNoWorseThanHalving(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	var rose, fell, lines int
	for range 1500 {
		n := aDogAtPrices(rng)
		w := rng.IntN(n.p.Weeks)
		if !n.dog.canOpen(w) || n.sessions[w] == 0 {
			continue
		}
		before, now := n.fill[w], n.value()
		l := line{dear: math.Inf(1), room: n.room(w)}
		value, care, got := n.value, balanceCare, 0.0
		if rng.IntN(2) == 0 {
			got = n.balance(w, now, math.Inf(-1))
		} else { // as a node of the branch and bound asks, from a price on
			lines++
			l.least = 0.002 * rng.Float64()
			l.dear, l.more = l.least+0.02*rng.Float64(), 2*l.room
			n.setFill(w, math.Max(l.least, before))
			before = n.fill[w]
			value = func() float64 { return n.value() - n.fill[w]*l.room + l.gain(n.fill[w]) }
			care = 1e-4 * rng.Float64()
			got = n.seekFill(w, l, fillSearch{value: value, now: value(), floor: math.Inf(-1), care: care})
		}
		if again := value(); got != again {
			t.Fatalf("the fill price is said to give %v, the nets give %v", got, again)
		}
		found := n.fill[w]
		if found < l.least {
			t.Fatalf("the fill price is %v, below %v", found, l.least)
		}
		switch {
		case found > before:
			rose++
		case found < before:
			fell++
		}
		best, at := n.halved(w, l, value)
		if got > best+care+fillSlip*math.Abs(found-at)+1e-9 {
			t.Errorf("at %v the dog is worth %v, at %v %v (care %v)", found, got, at, best, care)
		}
	}
	if rose < 50 || fell < 50 || lines < 50 {
		t.Errorf("%d fill prices rose, %d fell, %d had a least price: too few", rose, fell, lines)
	}
}

// A mix that begins with answers of other sessions comes to what one from scratch comes to, and works in open weeks only.
func TestAFitGoesOnFromOtherSessions(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 7))
	carried := 0
	for range 60 {
		n := aDogAtPrices(rng)
		n.bestMix(mixTol)
		for w := range n.p.Weeks {
			if most := n.dog.Most[w]; most > 0 && rng.IntN(3) == 0 {
				n.setSessions(w, rng.IntN(most+1))
			}
		}
		other := *n.mixes[0]
		c, v := n.bestMix(mixTol)
		if !slices.Equal(other.sessions, n.mixes[0].sessions) {
			for _, x := range n.mixes[0].asked[len(n.nets):] {
				if x != nil && slices.Contains(other.asked, x) {
					carried++
				}
			}
		}
		n.mixes = nil
		if _, fresh := n.bestMix(mixTol); math.Abs(v-fresh) > 2*mixTol {
			t.Errorf("going on it is worth %.6f, afresh %.6f", v, fresh)
		}
		for a := range c.shares {
			for w, share := range c.shares[a] {
				if share > 1e-9 && c.sessions[w] == 0 {
					t.Errorf("%g of an area is pulled in week %d, which has no session", share, w)
				}
			}
		}
	}
	if carried == 0 {
		t.Error("nothing was carried over")
	}
}
