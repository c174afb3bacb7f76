package season

import (
	"math/rand/v2"
	"testing"
)

// Dogs that are asked with one node have good sessions for their prices, in a string where holes cost much: of what they can gain
// at most by the bound, which nothing passes, they reach three quarters.
func TestADogAskedOnceHasGoodSessions(t *testing.T) {
	p := RandomString(11, Shape{Dogs: 10, Weeks: 20, Hours: 0.4, Hands: 1}).withClearings()
	rng := rand.New(rand.NewPCG(7, 9))
	q := newPrices(p)
	for i := range q.row {
		q.row[i] = p.meanPrice() * (0.2 + 0.4*rng.Float64())
	}
	w := p.weekPrices(q.row)
	var most, got, idle float64
	for d := range p.Dogs {
		n := newDogNets(p, d)
		n.setPrices(w, q)
		most += n.highest(nil, 1e-3, rootNodes)
		c, v := n.bestMix(mixTol)
		if !c.fits(p, n.sessions) {
			t.Errorf("dog %d: the sessions %d don't hold the work", d, n.sessions)
		}
		got += v
		idle += n.lagrangian(idleColumn(p, d, nil))
	}
	if part := (got - idle) / (most - idle); part < 0.72 || part > 1 {
		t.Errorf("the dogs reach %.4f, %.4f at most, idle %.4f: %.4f of it", got, most, idle, part)
	}
}
