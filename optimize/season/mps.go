package season

import (
	"fmt"
	"io"
	"math"
	"strconv"

	"tuckup/optimize/mps"
)

// WriteMPS writes the problem as a mixed-integer program in free-format MPS, the same bytes for the same problem.
// It is a minimisation, because some readers drop a marker to maximise: the value is minus the points. The constant
// stands on the column `one`, which is fixed at 1, because readers disagree on the sign of a constant on the right
// of the objective. MODEL.md lists the names. The problem must pass Validate.
func WriteMPS(w io.Writer, p *Problem) error { return mps.Write(w, &newTableau(p, NewPlan(p)).Model) }

// WriteSolution writes a plan as `name value` lines, one for every column of the problem's model file. It refuses a
// plan with sessions in a closed week, because the file has no column for them.
func WriteSolution(w io.Writer, p *Problem, plan Plan) error {
	if err := fits(p, plan); err != nil {
		return err
	}
	for d := range p.Dogs {
		for t, z := range plan.Sessions[d] {
			if z != 0 && p.Dogs[d].Most[t] == 0 {
				return fmt.Errorf("%s, week %d: %d sessions in a week that is closed", p.Dogs[d].Name, t, z)
			}
		}
	}
	m := newTableau(p, plan)
	return mps.WriteSolution(w, &m.Model, m.values)
}

const constName = "one"

// tableau is the model file in memory, with the values of a plan.
type tableau struct {
	mps.Model
	p      *Problem
	plan   Plan
	values []float64 // of the columns, in the plan

	weekDigits int
	constant   float64
	least      int   // the column of the least show mean; -1 = none
	leastRows  []int // by dog: its row, -1 = none
}

func newTableau(p *Problem, plan Plan) *tableau {
	m := &tableau{
		Model: mps.Model{
			Name: "season", Objective: "minus_points",
			Notes: []string{
				fmt.Sprintf("Season of %d weeks, %d dogs, %d limits.", p.Weeks, len(p.Dogs), len(p.Rows)),
				fmt.Sprintf("Minimise. The value is minus the plan's points; column %s is fixed at 1 and carries the constant.", constName),
			},
		},
		p: p, plan: plan, least: -1, leastRows: make([]int, len(p.Dogs)),
		weekDigits: max(2, len(strconv.Itoa(p.Weeks-1))),
	}
	m.addLeast()
	pulls, sessions := make([][]pulled, len(p.Dogs)), make([][]int, len(p.Dogs))
	keys := mps.Names{}
	for d := range p.Dogs {
		key := keys.Unique(mps.Plain(p.Dogs[d].Name, "dog"))
		if m.least >= 0 && len(p.Dogs[d].Shows) > 0 {
			m.leastRows[d] = m.AddMost("least_"+key, 0)
			m.Put(m.leastRows[d], m.least, 1)
		}
		shows := m.addShows(d, key)
		sessions[d] = m.addSessions(d, key)
		for a := range p.Dogs[d].Areas {
			areaKey := keys.Unique(key + "_" + mps.Plain(p.Dogs[d].Areas[a].Name, "area"))
			pulls[d] = append(pulls[d], m.addArea(d, a, areaKey, shows))
		}
		m.addSessionRows(d, key, pulls[d], sessions[d])
	}
	m.addLimits(pulls, sessions)
	m.add(mps.Column{Name: constName, Low: 1, High: 1, Cost: m.constant}, 1)
	return m
}

// addLeast adds the column under every dog's show mean, if the problem asks for balance.
func (m *tableau) addLeast() {
	least, shown := leastShowMean(m.p, m.plan)
	for d := range m.leastRows {
		m.leastRows[d] = -1
	}
	if shown && m.p.Balance > 0 {
		m.least = m.add(mps.Column{
			Name: "least_show", Low: math.Inf(-1), High: math.Inf(1), Cost: -m.p.Balance,
		}, least)
	}
}

// atShows are by week a dog's readiness for shows in the file, each at most the mean and each area with what it may be
// better; -1 where no show asks for it.
type atShows struct {
	ready []int   // columns
	mean  []int   // rows
	holes [][]int // rows, by week and area; nil = no such rule
}

// addShows adds a dog's readiness in the weeks with points for shows.
func (m *tableau) addShows(d int, key string) atShows {
	dog := &m.p.Dogs[d]
	s := atShows{unset(m.p.Weeks), unset(m.p.Weeks), make([][]int, m.p.Weeks)}
	var full float64
	for _, a := range dog.Areas {
		full += a.Weight
	}
	for t := range m.p.Weeks {
		points, inLeast := dog.showPoints(t, 0), m.leastRows[d] >= 0 && dog.Shows[t] > 0
		if points == 0 && !inLeast {
			continue
		}
		s.ready[t] = m.add(mps.Column{
			Name: m.weekly("ready_"+key, t), Low: math.Inf(-1), High: math.Inf(1), Cost: -points,
		}, ShowReadiness(m.p, m.plan, d, t))
		s.mean[t] = m.AddMost(m.weekly("mean_"+key, t), full)
		m.Put(s.mean[t], s.ready[t], 1)
		if inLeast {
			m.Put(m.leastRows[d], s.ready[t], -dog.Shows[t])
		}
		if m.p.Hole == 0 {
			continue
		}
		for a := range dog.Areas {
			row := m.AddMost(m.weekly(fmt.Sprintf("hole_%s_%d", key, a+1), t), 1+m.p.Hole)
			m.Put(row, s.ready[t], 1)
			s.holes[t] = append(s.holes[t], row)
		}
	}
	return s
}

// charge puts a charge on area a in week t where the readiness for shows bears it.
func (s atShows) charge(m *tableau, a, t, column int, weight, slope float64) {
	if s.ready[t] < 0 {
		return
	}
	m.Put(s.mean[t], column, weight*slope)
	if s.holes[t] != nil {
		m.Put(s.holes[t][a], column, slope)
	}
}

// addSessions adds a dog's sessions and what leaving accepted ones costs. Returned are columns by week, -1 = closed.
func (m *tableau) addSessions(d int, key string) []int {
	dog := &m.p.Dogs[d]
	z := make([]int, m.p.Weeks)
	for t := range z {
		z[t] = -1
		if dog.Most[t] > 0 {
			z[t] = m.add(mps.Column{
				Name: m.weekly("z_"+key, t), Whole: true, High: float64(dog.Most[t]), Cost: dog.SessionCost,
			}, float64(m.plan.Sessions[d][t]))
		}
		if t >= len(dog.Kept) || dog.Stay == 0 {
			continue
		}
		kept := float64(dog.Kept[t])
		switch {
		case z[t] < 0:
			m.constant += dog.Stay * kept
		case dog.Kept[t] == 0: // every session is one more
			m.Columns[z[t]].Cost += dog.Stay
		case dog.Kept[t] >= dog.Most[t]: // every session is one fewer left
			m.Columns[z[t]].Cost -= dog.Stay
			m.constant += dog.Stay * kept
		default:
			off := m.add(mps.Column{
				Name: m.weekly("stay_"+key, t), High: math.Inf(1), Cost: dog.Stay,
			}, math.Abs(float64(m.plan.Sessions[d][t])-kept))
			more, fewer := m.AddLeast(m.weekly("more_"+key, t), -kept), m.AddLeast(m.weekly("fewer_"+key, t), kept)
			m.Put(more, off, 1)
			m.Put(more, z[t], -1)
			m.Put(fewer, off, 1)
			m.Put(fewer, z[t], 1)
		}
	}
	return z
}

// pulled are an area's columns by week: the pull curve, and where hair is dead how much of that is.
type pulled struct{ curve, dead []int }

// addArea adds an area's pull curve, what bounds it, and its charges.
func (m *tableau) addArea(d, a int, key string, shows atShows) pulled {
	dog, area := &m.p.Dogs[d], &m.p.Dogs[d].Areas[a]
	curve, most := make([]int, m.p.Weeks), make([]float64, m.p.Weeks)
	sum := area.PastAt(0)
	for t := range curve {
		if dog.Most[t] > 0 && area.Most[t] > 0 {
			most[t] = area.Most[t] + area.Dead
		}
		c := mps.Column{Name: m.weekly("P_"+key, t), High: math.Inf(1)}
		if t == 0 {
			c.Low, c.High = sum, sum+most[0]
		}
		sum += m.plan.Shares[d][a][t]
		curve[t] = m.add(c, sum)
		if t == 0 {
			continue
		}
		r := m.AddRow(m.weekly("pull_"+key, t), 0, most[t])
		m.Put(r, curve[t], 1)
		m.Put(r, curve[t-1], -1)
	}
	for t := range curve {
		if past := area.PastAt(t) - area.PastAt(t-area.Grip); area.Grip > 0 && atMostYounger(area, most, t, area.Grip) > max(1, past) {
			r := m.AddMost(m.weekly("grip_"+key, t), max(1, past))
			m.putYounger(r, area, curve, t, area.Grip, 1)
		}
	}
	p := pulled{curve: curve}
	if area.Dead > 0 {
		p.dead = m.addDead(d, a, key, curve, most)
	}
	for t := range curve {
		if area.Room != nil && most[t] > 0 {
			m.putPulled(m.AddMost(m.weekly("room_"+key, t), area.Room[t]), area, p, t)
		}
	}
	m.addCharges(d, a, curve, most, key, shows)
	return p
}

// addDead adds by week how much of an area's dead hair is off: all that was pulled until it is cleared, and from then on all
// the dead hair. What is beyond it is living, and at most so much of it a week.
func (m *tableau) addDead(d, a int, key string, curve []int, most []float64) []int {
	area := &m.p.Dogs[d].Areas[a]
	dead, before, off := make([]int, len(curve)), area.PastAt(0), 0.0
	gone := deadPulled(area, m.plan.Shares[d][a])
	var living float64
	for t := range curve {
		if most[t] > 0 {
			living += area.Most[t]
		}
		off += gone[t]
		dead[t] = m.add(mps.Column{Name: m.weekly("dead_"+key, t), High: area.Dead}, off)
		cleared := 0.0
		if off >= area.Dead-clearedTol {
			cleared = 1
		}
		b := m.add(mps.Column{Name: m.weekly("cleared_"+key, t), Whole: true, High: 1}, cleared)
		some := m.AddLeast(m.weekly("some_"+key, t), before) // no more is off than was pulled
		m.Put(some, curve[t], 1)
		m.Put(some, dead[t], -1)
		all := m.AddLeast(m.weekly("all_"+key, t), 0) // all of it once the area is cleared
		m.Put(all, dead[t], 1)
		m.Put(all, b, -area.Dead)
		rest := m.AddMost(m.weekly("rest_"+key, t), before) // living hair only then
		m.Put(rest, curve[t], 1)
		m.Put(rest, dead[t], -1)
		m.Put(rest, b, -living)
		top := area.Most[t]
		if most[t] == 0 {
			top = 0
		}
		alive := m.AddMost(m.weekly("alive_"+key, t), top)
		m.Put(alive, curve[t], 1)
		m.Put(alive, dead[t], -1)
		if t > 0 {
			m.Put(alive, curve[t-1], -1)
			m.Put(alive, dead[t-1], 1)
		} else {
			m.Shift(alive, before)
		}
	}
	return dead
}

// addCharges adds a column for every charge that a week may bear: above what is short or long beyond the allowance, and
// above uneven work.
func (m *tableau) addCharges(d, a int, curve []int, most []float64, key string, shows atShows) {
	dog, area := &m.p.Dogs[d], &m.p.Dogs[d].Areas[a]
	young, old := merged(area.Young), merged(area.Old)
	share := func(t, weeks int) float64 {
		then := area.PastAt(t - weeks)
		if t-weeks >= 0 {
			then = m.values[curve[t-weeks]]
		}
		return m.values[curve[t]] - then
	}
	charge := func(name string, t, weeks int, cost, sign, rhs, value float64) int {
		v := m.add(mps.Column{
			Name: m.weekly(fmt.Sprintf("%s_%s_%02d", name, key, weeks), t), High: math.Inf(1), Cost: cost,
		}, math.Max(0, value))
		r := m.AddLeast(m.Columns[v].Name, rhs)
		m.Put(r, v, 1)
		m.putYounger(r, area, curve, t, weeks, sign)
		return v
	}
	for t := range curve {
		m.constant -= dog.Value[t] * area.Weight
		if area.Over != nil && area.Over[t] > 0 && most[t] > area.Even {
			before := 0.0 // pulled in week 0 already, which is no work of the plan
			if t == 0 {
				before = area.PastAt(0) - area.PastAt(-1)
			}
			charge("over", t, 1, area.Over[t], -1, -area.Even-before, share(t, 1)-before-area.Even)
		}
		if area.Under != nil && area.Under[t] > 0 && area.PastAt(t)-area.PastAt(t-2) < area.Even {
			charge("under", t, 2, area.Under[t], 1, area.Even, area.Even-share(t, 2))
		}
		if area.Left != nil && area.Left[t] > 0 && area.Dead > 0 {
			pulled := area.Dead + area.PastAt(0)
			v := m.add(mps.Column{Name: m.weekly("left_"+key, t), High: math.Inf(1), Cost: area.Left[t]}, math.Max(0, pulled-m.values[curve[t]]))
			r := m.AddLeast(m.Columns[v].Name, pulled)
			m.Put(r, v, 1)
			m.Put(r, curve[t], 1)
		}
		if t < len(area.Agreed) && area.Moved > 0 {
			agreed := area.PastAt(0) + area.Agreed[t]
			v := m.add(mps.Column{Name: m.weekly("moved_"+key, t), High: math.Inf(1), Cost: area.Moved}, math.Abs(m.values[curve[t]]-agreed))
			more, fewer := m.AddLeast(m.weekly("more_"+key, t), -agreed), m.AddLeast(m.weekly("fewer_"+key, t), agreed)
			m.Put(more, v, 1)
			m.Put(more, curve[t], -1)
			m.Put(fewer, v, 1)
			m.Put(fewer, curve[t], 1)
		}
		if shows.ready[t] < 0 && (area.Weight == 0 || dog.Value[t] == 0) {
			continue
		}
		for _, k := range young {
			if atMostYounger(area, most, t, k.Weeks) > k.Allow {
				v := charge("short", t, k.Weeks, dog.Value[t]*area.Weight*k.Slope, -1, -k.Allow, share(t, k.Weeks)-k.Allow)
				shows.charge(m, a, t, v, area.Weight, k.Slope)
			}
		}
		for _, k := range old {
			if area.PastAt(t)-area.PastAt(t-k.Weeks) < 1-k.Allow {
				v := charge("long", t, k.Weeks, dog.Value[t]*area.Weight*k.Slope, 1, 1-k.Allow, 1-k.Allow-share(t, k.Weeks))
				shows.charge(m, a, t, v, area.Weight, k.Slope)
			}
		}
	}
}

// merged are the terms with those of the same weeks and allowance made one, and those that charge nothing left out.
func merged(terms []Term) []Term {
	var all []Term
next:
	for _, k := range terms {
		if k.Slope == 0 {
			continue
		}
		for i := range all {
			if all[i].Weeks == k.Weeks && all[i].Allow == k.Allow {
				all[i].Slope += k.Slope
				continue next
			}
		}
		all = append(all, k)
	}
	return all
}

// atMostYounger is the most that P(t) - P(t-weeks) can come to when each week gives all that it may.
func atMostYounger(area *Area, most []float64, t, weeks int) float64 {
	share := area.PastAt(t) - area.PastAt(t-weeks)
	for s := max(0, t-weeks+1); s <= t; s++ {
		share += most[s]
	}
	return share
}

// putYounger adds sign times P(t) - P(t-weeks) to the left of a row. History goes to the right.
func (m *tableau) putYounger(row int, area *Area, curve []int, t, weeks int, sign float64) {
	m.Put(row, curve[t], sign)
	if t-weeks >= 0 {
		m.Put(row, curve[t-weeks], -sign)
	} else {
		m.Shift(row, sign*area.PastAt(t-weeks))
	}
}

// putPulled adds the minutes pulled on an area in week t to the left of a row.
func (m *tableau) putPulled(row int, area *Area, p pulled, t int) {
	m.Put(row, p.curve[t], area.Minutes)
	if t > 0 {
		m.Put(row, p.curve[t-1], -area.Minutes)
	} else {
		m.Shift(row, area.Minutes*area.PastAt(0))
	}
	if p.dead != nil {
		m.Put(row, p.dead[t], area.Loose-area.Minutes)
		if t > 0 {
			m.Put(row, p.dead[t-1], area.Minutes-area.Loose)
		}
	}
}

// addSessionRows keeps a dog's work in the time of its sessions. A closed week needs none: nothing can be pulled.
func (m *tableau) addSessionRows(d int, key string, areas []pulled, sessions []int) {
	dog := &m.p.Dogs[d]
	for t, z := range sessions {
		if z < 0 {
			continue
		}
		r := m.AddMost(m.weekly("session_"+key, t), 0)
		for a := range dog.Areas {
			m.putPulled(r, &dog.Areas[a], areas[a], t)
		}
		m.Put(r, z, dog.SetUp-dog.Minutes[t])
	}
}

// addLimits adds the week's limits of hours and hand load.
func (m *tableau) addLimits(areas [][]pulled, sessions [][]int) {
	for _, l := range m.p.Rows {
		what := "hours_"
		if l.Strip {
			what = "strip_"
		}
		r := m.AddMost(m.weekly(what+mps.Plain(l.Name, "hands"), l.Week), l.Capacity)
		for d := range m.p.Dogs {
			dog := &m.p.Dogs[d]
			if sessions[d][l.Week] < 0 {
				continue
			}
			for a := range dog.Areas {
				if l.Kinds&(1<<dog.Areas[a].Kind) != 0 {
					m.putPulled(r, &dog.Areas[a], areas[d][a], l.Week)
				}
			}
			if l.SetUps {
				m.Put(r, sessions[d][l.Week], dog.SetUp)
			}
		}
	}
}

// add adds a column with its value in the plan.
func (m *tableau) add(c mps.Column, value float64) int {
	m.values = append(m.values, value)
	return m.AddColumn(c)
}

// weekly is a name with a week, in as many digits as the last week needs and at least two.
func (m *tableau) weekly(name string, t int) string {
	return fmt.Sprintf("%s_%0*d", name, m.weekDigits, t)
}
