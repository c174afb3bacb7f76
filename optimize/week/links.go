package week

// linked is what an option has in a link.
type linked struct {
	link int
	coef float64
}

// links are rows that bind days together: the sum of the coefs of the chosen options is at most most.
type links struct {
	most []float64
	of   [][]linked // option
}

func (l *links) add(most float64) int {
	l.most = append(l.most, most)
	return len(l.most) - 1
}

func (l *links) put(link, option int, coef float64) {
	l.of[option] = append(l.of[option], linked{link, coef})
}

// links are what a choice must keep beyond what each day keeps by itself (block): each item once; a dog's sessions in
// order with free days between; a session after each bath.
func (m *menu) links() *links {
	l := &links{of: make([][]linked, len(m.options))}
	for _, options := range m.items {
		if len(options) == 0 {
			continue
		}
		r := l.add(1)
		for _, c := range options {
			l.put(r, c, 1)
		}
	}
	for i := range m.p.Sessions {
		if m.before[i] != none {
			m.linkOrder(l, i)
		}
	}
	for d := range m.p.Dogs {
		m.linkJackets(l, d)
	}
	for c := range m.options {
		if o := &m.options[c]; m.bath(o.item) && !o.lifted {
			r := l.add(0)
			l.put(r, c, 1)
			for _, x := range o.lifts {
				l.put(r, x, -1)
			}
		}
	}
	return l
}

// linkOrder lets a session be placed up to a day only if the one before it is placed before that day, so many days before
// as free days between jacket sessions ask for: these rows alone describe all such pairs of days.
func (m *menu) linkOrder(l *links, i int) {
	gap := 1
	if m.allJacket(i) && m.allJacket(m.before[i]) {
		gap = m.p.Apart
	}
	last := 0
	for t := range m.p.Days {
		var now []int
		for _, c := range m.items[i] {
			if m.options[c].day <= t {
				now = append(now, c)
			}
		}
		if len(now) == last {
			continue
		}
		last = len(now)
		r := l.add(0)
		for _, c := range now {
			l.put(r, c, 1)
		}
		for _, c := range m.items[m.before[i]] {
			if m.options[c].day <= t-gap {
				l.put(r, c, -1)
			}
		}
	}
}

// linkJackets keeps the jacket sessions of a dog apart that also has others.
func (m *menu) linkJackets(l *links, d int) {
	mixed := false
	for i := range m.p.Sessions {
		mixed = mixed || m.dog(i) == d && !m.allJacket(i)
	}
	for t := 0; mixed && t < m.p.Days; t++ {
		r := -1
		for c := range m.options {
			if o := &m.options[c]; m.dog(o.item) == d && m.session(o.item) && o.jacket && o.day >= t && o.day < t+m.p.Apart {
				if r < 0 {
					r = l.add(1)
				}
				l.put(r, c, 1)
			}
		}
	}
}

// allJacket reports whether a session is a jacket session however it is done.
func (m *menu) allJacket(i int) bool {
	for _, c := range m.items[i] {
		if !m.options[c].jacket {
			return false
		}
	}
	return true
}
