package week

import "math"

const (
	firstLooks = 3000    // in a mode of a day, in the first rounds
	moreLooks  = 10      // times as many where nothing was found
	mostLooks  = 1000000 // after which a day's bound is left as it is
	newWorks   = 3       // of a day in a round
	smooth     = 0.6     // part of the best prices in the next ones (Wentges 1997)
	leastPart  = 0.1     // of them that is still tried
	branchAt   = 0.1     // part of what is open that more rounds could close, below which branching closes it sooner
	dayShare   = 4       // what is open may be so many times what all days together leave open
	barCost    = 100     // points that a column costs that goes against what is decided
)

// add adds a day's work to the mix.
func (s *search) add(k int, options []int) {
	c := column{block: k, options: options}
	for _, o := range options {
	next:
		for _, l := range s.links.of[o] {
			for n, r := range c.rows {
				if r == l.link {
					c.coef[n] += l.coef
					continue next
				}
			}
			c.rows, c.coef = append(c.rows, l.link), append(c.coef, l.coef)
		}
	}
	c.rows, c.coef = append(c.rows, len(s.links.most)+k), append(c.coef, 1)
	for _, li := range s.blocks[k].lines {
		v, _ := s.m.worth(li, options, nil)
		c.pull += v
	}
	s.recost(&c)
	s.lp.add(c)
}

// addChoice adds the days of a choice.
func (s *search) addChoice(chosen []int) {
	for k, b := range s.blocks {
		var here []int
		for _, c := range chosen {
			if c != none && s.m.options[c].day == b.day {
				here = append(here, c)
			}
		}
		if len(here) > 0 {
			s.add(k, here)
		}
	}
}

// recost is what a column is worth where so much is decided.
func (s *search) recost(c *column) {
	c.cost = c.pull
	for _, o := range c.options {
		c.cost += s.m.options[o].gain + s.bonus[s.m.options[o].item]
		if s.barred[o] > 0 {
			c.cost -= barCost
		}
	}
}

// price computes what options gain with the links priced, and returns what the prices cost. What must be placed has a bonus
// that is taken off again.
func (s *search) price(prices []float64) (cost float64) {
	for r, most := range s.links.most {
		cost += prices[r] * most
	}
	for _, b := range s.bonus {
		cost -= b
	}
	for c := range s.m.options {
		g := s.m.options[c].gain + s.bonus[s.m.options[c].item]
		for _, l := range s.links.of[c] {
			g -= prices[l.link] * l.coef
		}
		s.gain[c] = g
	}
	return cost
}

// known is what the best column of each day is worth at the gains.
func (s *search) known(tops []float64) {
	clear(tops)
next:
	for j := range s.lp.columns {
		c := &s.lp.columns[j]
		v := c.pull
		for _, o := range c.options {
			if s.barred[o] > 0 {
				continue next
			}
			v += s.gain[o]
		}
		tops[c.block] = max(tops[c.block], v)
	}
}

// bound adds works of days to the mix (column generation, Dantzig and Wolfe 1960) and returns what no choice of the node is
// worth more than: at any prices of the links it is their cost and each day's best work. It ends when the best choice
// can't be beaten by more than within, when no day has better work, and, unless all the way is asked for, when
// branching closes more.
func (s *search) bound(wholeWay bool) (low float64) {
	low = math.Inf(1)
	prices, center := make([]float64, len(s.links.most)), make([]float64, len(s.links.most))
	tops := make([]float64, len(s.blocks))
	part, looks := 0.0, firstLooks
	for {
		s.lp.solve()
		mix := s.lp.value
		for _, b := range s.bonus {
			mix -= b
		}
		for r := range prices {
			prices[r] = part*center[r] + (1-part)*max(0, s.lp.prices[r])
		}
		sum := s.price(prices)
		s.known(tops)
		added, all := 0, true
		for k, b := range s.blocks {
			b.limit = b.steps + s.opt.Steps - s.steps()
			value, found, ok := b.best(s.gain, s.barred, tops[k]+s.opt.Within/float64(dayShare*len(s.blocks)), looks)
			sum += value
			all = all && ok
			for n := max(0, len(found)-newWorks); n < len(found); n++ {
				s.add(k, found[n])
				added++
			}
		}
		if math.IsInf(low, 1) {
			part = smooth
		}
		if sum < low {
			low = sum
			copy(center, prices)
		}
		if s.beaten(low) || !wholeWay && low-mix < branchAt*(low-s.bestValue) || s.late() {
			return low
		}
		switch {
		case added > 0:
		case part > 0:
			if part /= 2; part < leastPart {
				part = 0
			}
		case all || looks > mostLooks:
			return low
		default:
			looks *= moreLooks
		}
	}
}
