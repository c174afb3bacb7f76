package season

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// WriteMPS writes the problem as a mixed-integer program in free-format MPS, the same bytes for the same problem.
// It is a minimisation, because some readers drop a marker to maximise: the value is minus the points. The constant
// stands on the column `one`, which is fixed at 1, because readers disagree on the sign of a constant on the right
// of the objective. MODEL.md lists the names. The problem must pass Validate.
func WriteMPS(w io.Writer, p *Problem) error {
	m := newTableau(p, NewPlan(p))
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "* Season of %d weeks, %d dogs, %d limits.\n", p.Weeks, len(p.Dogs), len(p.Rows))
	fmt.Fprintf(b, "* Minimise. The value is minus the plan's points; column %s is fixed at 1 and carries the constant.\n", constName)
	fmt.Fprintf(b, "NAME season\nROWS\n N %s\n", objectiveName)
	for _, r := range m.rows {
		fmt.Fprintf(b, " %c %s\n", r.sense, r.name)
	}
	b.WriteString("COLUMNS\n")
	m.writeColumns(b, false)
	b.WriteString(" MARKER 'MARKER' 'INTORG'\n")
	m.writeColumns(b, true)
	b.WriteString(" MARKER 'MARKER' 'INTEND'\n")
	b.WriteString("RHS\n")
	for _, r := range m.rows {
		if r.rhs != 0 {
			fmt.Fprintf(b, " RHS %s %s\n", r.name, number(r.rhs))
		}
	}
	b.WriteString("RANGES\n")
	for _, r := range m.rows {
		if r.span > 0 {
			fmt.Fprintf(b, " RANGE %s %s\n", r.name, number(r.span))
		}
	}
	b.WriteString("BOUNDS\n")
	for _, c := range m.vars {
		switch {
		case c.low == c.high:
			fmt.Fprintf(b, " FX BOUND %s %s\n", c.name, number(c.low))
		case math.IsInf(c.low, -1):
			fmt.Fprintf(b, " FR BOUND %s\n", c.name)
		default:
			if c.low != 0 {
				fmt.Fprintf(b, " LO BOUND %s %s\n", c.name, number(c.low))
			}
			if !math.IsInf(c.high, 1) {
				fmt.Fprintf(b, " UP BOUND %s %s\n", c.name, number(c.high))
			}
		}
	}
	b.WriteString("ENDATA\n")
	return b.Flush()
}

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
	b := bufio.NewWriter(w)
	for _, c := range newTableau(p, plan).vars {
		fmt.Fprintf(b, "%s %s\n", c.name, number(c.value))
	}
	return b.Flush()
}

const (
	objectiveName = "minus_points"
	constName     = "one"
)

// tableau is the model file in memory, with the values of a plan.
type tableau struct {
	p    *Problem
	plan Plan
	vars []tabVar
	rows []tabRow

	weekDigits int
	taken      map[string]bool // names of columns
	takenRows  map[string]bool
	constant   float64
	least      int   // the column of the least show mean; -1 = none
	leastRows  []int // by dog: its row, -1 = none
}

type tabVar struct {
	name      string
	whole     bool
	low, high float64
	cost      float64
	value     float64 // in the plan
	rows      []int
	coef      []float64
}

type tabRow struct {
	name  string
	sense byte // L, G or E
	rhs   float64
	span  float64 // of a G row: it is at most rhs + span; 0 = no limit
}

func newTableau(p *Problem, plan Plan) *tableau {
	m := &tableau{
		p: p, plan: plan, taken: map[string]bool{}, takenRows: map[string]bool{objectiveName: true},
		least: -1, leastRows: make([]int, len(p.Dogs)),
		weekDigits: max(2, len(strconv.Itoa(p.Weeks-1))),
	}
	m.addLeast()
	pulls, sessions := make([][][]int, len(p.Dogs)), make([][]int, len(p.Dogs))
	keys := map[string]bool{}
	for d := range p.Dogs {
		key := unique(keys, plain(p.Dogs[d].Name, "dog"))
		if m.least >= 0 && len(p.Dogs[d].Shows) > 0 {
			m.leastRows[d] = m.addRow("least_"+key, 'L', m.showConstant(d))
			m.put(m.leastRows[d], m.least, 1)
		}
		sessions[d] = m.addSessions(d, key)
		for a := range p.Dogs[d].Areas {
			areaKey := unique(keys, key+"_"+plain(p.Dogs[d].Areas[a].Name, "area"))
			pulls[d] = append(pulls[d], m.addArea(d, a, areaKey))
		}
		m.addSessionRows(d, key, pulls[d], sessions[d])
	}
	m.addLimits(pulls, sessions)
	one := m.addVar(tabVar{name: constName, low: 1, high: 1, value: 1})
	m.vars[one].cost = m.constant
	slices.SortStableFunc(m.vars, func(a, b tabVar) int { // whole columns last, between one pair of markers
		switch {
		case a.whole == b.whole:
			return 0
		case a.whole:
			return 1
		}
		return -1
	})
	return m
}

// addLeast adds the column under every dog's show mean, if the problem asks for balance.
func (m *tableau) addLeast() {
	least, shown := leastShowMean(m.p, m.plan)
	for d := range m.leastRows {
		m.leastRows[d] = -1
	}
	if shown && m.p.Balance > 0 {
		m.least = m.addVar(tabVar{
			name: "least_show", low: math.Inf(-1), high: math.Inf(1), cost: -m.p.Balance, value: least,
		})
	}
}

// showConstant is the show mean of a dog whose areas are all charged nothing.
func (m *tableau) showConstant(d int) float64 {
	var weights, full float64
	for _, w := range m.p.Dogs[d].Shows {
		weights += w
	}
	for _, a := range m.p.Dogs[d].Areas {
		full += a.Weight
	}
	return weights * full
}

// addSessions adds a dog's sessions and what leaving accepted ones costs. Returned are columns by week, -1 = closed.
func (m *tableau) addSessions(d int, key string) []int {
	dog := &m.p.Dogs[d]
	z := make([]int, m.p.Weeks)
	for t := range z {
		z[t] = -1
		if dog.Most[t] > 0 {
			z[t] = m.addVar(tabVar{
				name: m.weekly("z_"+key, t), whole: true, high: float64(dog.Most[t]),
				cost: dog.SessionCost, value: float64(m.plan.Sessions[d][t]),
			})
		}
		if t >= len(dog.Kept) || dog.Stay == 0 {
			continue
		}
		kept := float64(dog.Kept[t])
		switch {
		case z[t] < 0:
			m.constant += dog.Stay * kept
		case dog.Kept[t] == 0: // every session is one more
			m.vars[z[t]].cost += dog.Stay
		case dog.Kept[t] >= dog.Most[t]: // every session is one fewer left
			m.vars[z[t]].cost -= dog.Stay
			m.constant += dog.Stay * kept
		default:
			off := m.addVar(tabVar{
				name: m.weekly("stay_"+key, t), high: math.Inf(1), cost: dog.Stay,
				value: math.Abs(float64(m.plan.Sessions[d][t]) - kept),
			})
			more, fewer := m.addRow(m.weekly("more_"+key, t), 'G', -kept), m.addRow(m.weekly("fewer_"+key, t), 'G', kept)
			m.put(more, off, 1)
			m.put(more, z[t], -1)
			m.put(fewer, off, 1)
			m.put(fewer, z[t], 1)
		}
	}
	return z
}

// addArea adds an area's pull curve, what bounds it, and its charges. Returned are the curve's columns by week.
func (m *tableau) addArea(d, a int, key string) []int {
	dog, area := &m.p.Dogs[d], &m.p.Dogs[d].Areas[a]
	curve, most := make([]int, m.p.Weeks), make([]float64, m.p.Weeks)
	sum := area.PastAt(0)
	for t := range curve {
		if dog.Most[t] > 0 {
			most[t] = area.Most[t]
		}
		v := tabVar{name: m.weekly("P_"+key, t), high: math.Inf(1)}
		if t == 0 {
			v.low, v.high = sum, sum+most[0]
		}
		sum += m.plan.Shares[d][a][t]
		v.value = sum
		curve[t] = m.addVar(v)
		if t == 0 {
			continue
		}
		sense := byte('G')
		if most[t] == 0 {
			sense = 'E'
		}
		r := m.addRow(m.weekly("pull_"+key, t), sense, 0)
		m.rows[r].span = most[t]
		m.put(r, curve[t], 1)
		m.put(r, curve[t-1], -1)
	}
	for t := range curve {
		if past := area.PastAt(t) - area.PastAt(t-area.Grip); area.Grip > 0 && atMostYounger(area, most, t, area.Grip) > max(1, past) {
			r := m.addRow(m.weekly("grip_"+key, t), 'L', max(1, past))
			m.putYounger(r, area, curve, t, area.Grip, 1)
		}
	}
	m.addCharges(d, area, curve, most, key)
	return curve
}

// addCharges adds a column for every charge that a week's readiness may bear: above what is short or long beyond
// the allowance.
func (m *tableau) addCharges(d int, area *Area, curve []int, most []float64, key string) {
	dog := &m.p.Dogs[d]
	young, old := merged(area.Young), merged(area.Old)
	for t := range curve {
		m.constant -= dog.Value[t] * area.Weight
		inLeast := m.leastRows[d] >= 0 && dog.Shows[t] > 0
		if area.Weight == 0 || dog.Value[t] == 0 && !inLeast {
			continue
		}
		charge := func(name string, k Term, sign, rhs, value float64) {
			v := m.addVar(tabVar{
				name: m.weekly(fmt.Sprintf("%s_%s_%02d", name, key, k.Weeks), t), high: math.Inf(1),
				cost: dog.Value[t] * area.Weight * k.Slope, value: math.Max(0, value),
			})
			r := m.addRow(m.vars[v].name, 'G', rhs)
			m.put(r, v, 1)
			m.putYounger(r, area, curve, t, k.Weeks, sign)
			if inLeast {
				m.put(m.leastRows[d], v, dog.Shows[t]*area.Weight*k.Slope)
			}
		}
		share := func(weeks int) float64 {
			then := area.PastAt(t - weeks)
			if t-weeks >= 0 {
				then = m.vars[curve[t-weeks]].value
			}
			return m.vars[curve[t]].value - then
		}
		for _, k := range young {
			if atMostYounger(area, most, t, k.Weeks) > k.Allow {
				charge("short", k, -1, -k.Allow, share(k.Weeks)-k.Allow)
			}
		}
		for _, k := range old {
			if area.PastAt(t)-area.PastAt(t-k.Weeks) < 1-k.Allow {
				charge("long", k, 1, 1-k.Allow, 1-k.Allow-share(k.Weeks))
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
	m.put(row, curve[t], sign)
	if t-weeks >= 0 {
		m.put(row, curve[t-weeks], -sign)
	} else {
		m.rows[row].rhs += sign * area.PastAt(t-weeks)
	}
}

// putPulled adds the minutes pulled on an area in week t to the left of a row.
func (m *tableau) putPulled(row int, area *Area, curve []int, t int) {
	m.put(row, curve[t], area.Minutes)
	if t > 0 {
		m.put(row, curve[t-1], -area.Minutes)
	} else {
		m.rows[row].rhs += area.Minutes * area.PastAt(0)
	}
}

// addSessionRows keeps a dog's work in the time of its sessions. A closed week needs none: nothing can be pulled.
func (m *tableau) addSessionRows(d int, key string, curves [][]int, sessions []int) {
	dog := &m.p.Dogs[d]
	for t, z := range sessions {
		if z < 0 {
			continue
		}
		r := m.addRow(m.weekly("session_"+key, t), 'L', 0)
		for a := range dog.Areas {
			m.putPulled(r, &dog.Areas[a], curves[a], t)
		}
		m.put(r, z, dog.SetUp-dog.Minutes[t])
	}
}

// addLimits adds the week's limits of hours and hand load.
func (m *tableau) addLimits(curves [][][]int, sessions [][]int) {
	for _, l := range m.p.Rows {
		what := "hours_"
		if l.Strip {
			what = "strip_"
		}
		r := m.addRow(m.weekly(what+plain(l.Name, "hands"), l.Week), 'L', l.Capacity)
		for d := range m.p.Dogs {
			dog := &m.p.Dogs[d]
			if sessions[d][l.Week] < 0 {
				continue
			}
			for a := range dog.Areas {
				if l.Kinds&(1<<dog.Areas[a].Kind) != 0 {
					m.putPulled(r, &dog.Areas[a], curves[d][a], l.Week)
				}
			}
			if l.SetUps {
				m.put(r, sessions[d][l.Week], dog.SetUp)
			}
		}
	}
}

func (m *tableau) addVar(v tabVar) int {
	v.name = unique(m.taken, v.name)
	m.vars = append(m.vars, v)
	return len(m.vars) - 1
}

// addRow adds a row. Row names have a list of their own: a charge's row has the name of its column.
func (m *tableau) addRow(name string, sense byte, rhs float64) int {
	m.rows = append(m.rows, tabRow{name: unique(m.takenRows, name), sense: sense, rhs: rhs})
	return len(m.rows) - 1
}

func (m *tableau) put(row, v int, coef float64) {
	if coef != 0 {
		m.vars[v].rows = append(m.vars[v].rows, row)
		m.vars[v].coef = append(m.vars[v].coef, coef)
	}
}

func (m *tableau) writeColumns(b *bufio.Writer, whole bool) {
	for _, v := range m.vars {
		if v.whole != whole {
			continue
		}
		if v.cost != 0 || len(v.rows) == 0 { // a column is known by its entries: it needs one
			fmt.Fprintf(b, " %s %s %s\n", v.name, objectiveName, number(v.cost))
		}
		for i, r := range v.rows {
			fmt.Fprintf(b, " %s %s %s\n", v.name, m.rows[r].name, number(v.coef[i]))
		}
	}
}

// weekly is a name with a week, in as many digits as the last week needs and at least two.
func (m *tableau) weekly(name string, t int) string {
	return fmt.Sprintf("%s_%0*d", name, m.weekDigits, t)
}

// plain is a name in lower-case letters, digits and single underscores; or the other word when nothing is left.
func plain(name, otherwise string) string {
	const longest = 40 // readers bound the length of names
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case b.Len() >= longest:
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "_"):
			b.WriteByte('_')
		}
	}
	if s := strings.TrimSuffix(b.String(), "_"); s != "" {
		return s
	}
	return otherwise
}

// unique is a name that isn't taken yet, with a number behind it if need be; it is taken now.
func unique(taken map[string]bool, name string) string {
	s := name
	for i := 2; taken[s]; i++ {
		s = name + "_" + strconv.Itoa(i)
	}
	taken[s] = true
	return s
}

// number is x in the fewest digits that read back as x.
func number(x float64) string {
	return strconv.FormatFloat(x, 'g', -1, 64)
}
