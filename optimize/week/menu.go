package week

import (
	"cmp"
	"math"
)

// menu is a problem with everything that each session and duty may choose from written out. Items are the sessions,
// then the duties; an item takes one of its options or none.
type menu struct {
	p       *Problem
	lines   []line    // hands' days
	free    []stretch // free stretches
	at      [][]int   // hands, day: line, -1 = no time
	options []option
	items   [][]int // item: its options
	second  []int   // day: the hands that take shared dogs second, -1 = nobody
	before  []int   // item: the dog's session before it that must be placed, and earlier; none for others
	after   []int   // item: the one that it is before; none for others
	filling filling // working memory of worth
}

// line is one pair of hands on one day.
type line struct {
	hands, day int
	strip      float64
	even       float64 // minutes up to which a day is no fuller than its even share
	free       []int   // stretches
}

// stretch is free time of a line.
type stretch struct {
	line           int
	start, minutes float64
}

// option is one way to do an item.
type option struct {
	item, day int
	lead      int // the hands that begin; of a duty the only ones
	helper    int // the hands that do what they can of a session that is shared; -1 = nobody
	gain      float64
	loads     []load
	shared    [2]float64 // full minutes with breaks, of the one who is first and of the one who is second
	first     int        // of a shared session: the hands that take the dog first
	jacket    bool
	against   []int // options of other items that can't be taken beside it
	lifts     []int // of a lifting bath: one of these is needed beside it ..
	lifted    bool  // .. unless a fixed session follows it
}

// load is what an option asks of a stretch.
type load struct {
	stretch int
	other   float64 // set-up or duty
	parts   []int   // of the session
	pieces  []piece // the parts, by what a minute of them is worth
}

func newMenu(p *Problem) *menu {
	m := &menu{p: p, items: make([][]int, len(p.Sessions)+len(p.Duties))}
	m.addLines()
	for i := range p.Sessions {
		m.addSession(i)
	}
	for i := range p.Duties {
		m.addDuty(i)
	}
	m.addChains()
	m.addConflicts()
	m.sortPieces()
	return m
}

// addChains puts each dog's sessions in order. One that can't be placed at all is passed over.
func (m *menu) addChains() {
	m.before, m.after = empty(len(m.items)), empty(len(m.items))
	last := empty(len(m.p.Dogs))
	for i := range m.p.Sessions {
		if len(m.items[i]) == 0 {
			continue
		}
		d := m.dog(i)
		if m.before[i] = last[d]; last[d] != none {
			m.after[last[d]] = i
		}
		last[d] = i
	}
}

// inOrder reports whether item i's place goes with those of the sessions before and after it.
func (m *menu) inOrder(i int, chosen []int) bool {
	follows := func(earlier, later int) bool {
		if earlier == none || later == none || chosen[later] == none {
			return true
		}
		return chosen[earlier] != none && m.options[chosen[earlier]].day < m.options[chosen[later]].day
	}
	return follows(m.before[i], i) && follows(i, m.after[i])
}

// addLines lists the hands' days. Everybody's even share of a day is the part of it that all the work wanted is of
// all the time there is.
func (m *menu) addLines() {
	p := m.p
	var wanted, there float64
	for i := range p.Sessions {
		wanted += p.Sessions[i].SetUp + p.Sessions[i].minutes()
	}
	for _, d := range p.Duties {
		wanted += d.Minutes
	}
	m.second = make([]int, p.Days)
	longest := make([]float64, p.Days)
	for t := range m.second {
		m.second[t] = -1
	}
	for h := range p.Hands {
		m.at = append(m.at, make([]int, p.Days))
		for t, day := range p.Hands[h].Days {
			m.at[h][t] = -1
			l := line{hands: h, day: t, strip: day.Strip}
			for _, s := range day.Stretches {
				if s.Minutes > 0 {
					l.free = append(l.free, len(m.free))
					m.free = append(m.free, stretch{len(m.lines), s.Start, s.Minutes})
					l.even += s.Minutes
				}
			}
			if len(l.free) == 0 {
				continue
			}
			there += l.even
			m.at[h][t] = len(m.lines)
			if len(l.free) == 1 && l.even > longest[t] {
				m.second[t], longest[t] = h, l.even
			}
			m.lines = append(m.lines, l)
		}
	}
	for i := range m.lines {
		m.lines[i].even *= math.Min(1, wanted/math.Max(there, 1))
	}
}

// addSession lists a session's options: every day, every pair of hands that may lead it, alone or with a helper.
func (m *menu) addSession(i int) {
	p, s := m.p, &m.p.Sessions[i]
	for t, day := range p.Dogs[s.Dog].Days {
		if !day.There || day.Fixed || s.SetUp+s.minutes() > day.Longest+slack {
			continue
		}
		for h := range p.Hands {
			if m.at[h][t] < 0 {
				continue
			}
			lead := m.able(i, h, t, nil)
			if len(lead) == 0 || p.Hands[h].Does&SkillSetUp == 0 && len(lead) < len(s.Parts) {
				continue
			}
			for _, f := range m.lines[m.at[h][t]].free {
				m.addOption(option{item: i, day: t, lead: h, helper: -1, loads: []load{{stretch: f, other: s.SetUp, parts: lead}}})
			}
			for g := range p.Hands {
				if g == h || m.at[g][t] < 0 || m.second[t] != g && m.second[t] != h {
					continue
				}
				mine, theirs := m.line(h, t), m.line(g, t)
				helped := m.able(i, g, t, nil)
				lead := m.able(i, h, t, helped)
				if len(helped) == 0 || len(lead) == 0 || len(mine.free) > 1 || len(theirs.free) > 1 {
					continue
				}
				m.addShared(option{item: i, day: t, lead: h, helper: g, loads: []load{
					{stretch: mine.free[0], other: s.SetUp, parts: lead}, {stretch: theirs.free[0], parts: helped},
				}})
			}
		}
	}
}

// able are the parts of session i that hands h may do on day t, without those that others do.
func (m *menu) able(i, h, t int, others []int) (parts []int) {
next:
	for a := range m.p.Sessions[i].Parts {
		if part := &m.p.Sessions[i].Parts[a]; m.p.Hands[h].Does&Kind(part.Kind) == 0 || part.barred(t) {
			continue
		}
		for _, o := range others {
			if o == a {
				continue next
			}
		}
		parts = append(parts, a)
	}
	return parts
}

func (m *menu) line(h, t int) *line { return &m.lines[m.at[h][t]] }

// addShared adds an option in which two pairs of hands work on the dog, one after the other: the one with the longest
// day is second, so that the dog is never asked for twice at one time. See MODEL.md, "Shared sessions".
func (m *menu) addShared(o option) {
	first, second := 0, 1
	o.first = o.lead
	if m.second[o.day] == o.lead {
		first, second, o.first = 1, 0, o.helper
	}
	o.shared = [2]float64{m.withBreaks(o.item, o.loads[first]), m.withBreaks(o.item, o.loads[second])}
	m.addOption(o)
}

// withBreaks are the minutes of a load, uncut, with as many breaks as it can need.
func (m *menu) withBreaks(i int, l load) float64 {
	sum := l.other
	for _, a := range l.parts {
		sum += m.p.Sessions[i].Parts[a].Minutes * (1 + m.p.Break/m.p.BreakAfter)
	}
	return sum
}

func (m *menu) addOption(o option) {
	s := &m.p.Sessions[o.item]
	o.gain = m.p.Early*s.Urgency*float64(m.p.Days-o.day) - m.p.SetUps
	if s.Kept && s.KeptDay == o.day && s.KeptBy == o.lead {
		o.gain += m.p.Keep
	}
	for _, l := range o.loads {
		for _, a := range l.parts {
			o.jacket = o.jacket || s.Parts[a].Kind == JacketKind
		}
		if l.other > m.free[l.stretch].minutes+slack {
			return
		}
	}
	if o.jacket {
		for _, t := range m.p.Dogs[s.Dog].Jackets {
			if apart(t, o.day) < m.p.Apart {
				return
			}
		}
	}
	m.push(o)
}

func (m *menu) push(o option) {
	m.items[o.item] = append(m.items[o.item], len(m.options))
	m.options = append(m.options, o)
}

func apart(a, b int) int { return max(a-b, b-a) }

// addDuty lists a duty's options.
func (m *menu) addDuty(i int) {
	p, d := m.p, &m.p.Duties[i]
	for t, day := range p.Dogs[d.Dog].Days {
		if !day.There || !d.Days[t] || day.Fixed && d.Lifts {
			continue
		}
		lifted := false
		for _, j := range p.Dogs[d.Dog].Jackets {
			lifted = lifted || j > t && j <= t+liftDays
		}
		for h := range p.Hands {
			if m.at[h][t] < 0 || p.Hands[h].Does&cmp.Or(d.Needs, SkillDuties) == 0 || day.Fixed && day.With != h {
				continue
			}
			for _, f := range m.line(h, t).free {
				if d.Minutes <= m.free[f].minutes+slack {
					m.push(option{
						item: len(p.Sessions) + i, day: t, lead: h, helper: -1, gain: d.Value - p.Hands[h].Dear*d.Minutes,
						loads: []load{{stretch: f, other: d.Minutes}}, lifted: lifted,
					})
				}
			}
		}
	}
}

func (m *menu) dog(i int) int {
	if n := len(m.p.Sessions); i >= n {
		return m.p.Duties[i-n].Dog
	}
	return m.p.Sessions[i].Dog
}

func (m *menu) session(i int) bool { return i < len(m.p.Sessions) }

func (m *menu) bath(i int) bool { return !m.session(i) && m.p.Duties[i-len(m.p.Sessions)].Lifts }

// addConflicts lists, for each option, those of the same dog that can't be taken beside it, and what a bath needs.
func (m *menu) addConflicts() {
	for a := range m.options {
		for b := range m.options {
			x, y := &m.options[a], &m.options[b]
			if x.item == y.item || m.dog(x.item) != m.dog(y.item) {
				continue
			}
			if !m.together(x, y) {
				x.against = append(x.against, b)
			}
			if m.bath(x.item) && m.session(y.item) && y.jacket && y.day > x.day && y.day <= x.day+liftDays {
				x.lifts = append(x.lifts, b)
			}
		}
	}
}

// together reports whether two options of one dog can both be taken.
func (m *menu) together(a, b *option) bool {
	if m.session(a.item) && m.session(b.item) {
		if (a.item < b.item) != (a.day < b.day) {
			return false // a dog's sessions are in order: its slowest areas first
		}
		return a.day != b.day && (!a.jacket || !b.jacket || apart(a.day, b.day) >= m.p.Apart)
	}
	if a.day != b.day {
		return true
	}
	if m.session(b.item) {
		a, b = b, a
	}
	if m.session(a.item) && m.bath(b.item) {
		return false
	}
	return a.lead == b.lead && a.helper < 0
}
