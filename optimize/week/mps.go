package week

import (
	"fmt"
	"io"
	"math"

	"tuckup/optimize/mps"
)

// WriteMPS writes the week as a mixed-integer program in free-format MPS, the same bytes for the same problem. It is a
// minimisation, because some readers drop a marker to maximise: the value is minus the points. MODEL.md lists the names.
// The error says what is wrong with the problem, or that the file could not be written.
func WriteMPS(w io.Writer, p *Problem) error {
	if err := p.Validate(); err != nil {
		return err
	}
	m := newMenu(p)
	f := &program{mps.Model{
		Name: "week", Objective: "minus_points",
		Notes: []string{
			fmt.Sprintf("Week of %d days, %d hands, %d sessions, %d duties.", p.Days, len(p.Hands), len(p.Sessions), len(p.Duties)),
			"Minimise. The value is minus the points.",
		},
	}}
	y := f.addOptions(m)
	f.addChoices(m, y)
	f.addDays(m, y)
	f.addOrder(m, y)
	f.addDuties(m, y)
	f.addLines(m, y)
	f.addShared(m, y)
	return mps.Write(w, &f.Model)
}

// program is a model file in memory.
type program struct{ mps.Model }

// optionName is like s03_d2_h0_f0, with the helper behind it: session 3 on day 2 by hands 0 in free stretch 0.
func (m *menu) optionName(c int) string {
	o := &m.options[c]
	name := fmt.Sprintf("s%02d", o.item)
	if n := len(m.p.Sessions); o.item >= n {
		name = fmt.Sprintf("u%02d", o.item-n)
	}
	name += fmt.Sprintf("_d%d_h%d_f%d", o.day, o.lead, o.loads[0].stretch)
	if o.helper >= 0 {
		name += fmt.Sprintf("_with%d", o.helper)
	}
	return name
}

// addOptions adds a column for every option.
func (f *program) addOptions(m *menu) (y []int) {
	for c := range m.options {
		y = append(y, f.AddColumn(mps.Column{Name: m.optionName(c), Cost: -m.options[c].gain, High: 1, Whole: true}))
	}
	return y
}

// addChoices lets every item take at most one option.
func (f *program) addChoices(m *menu, y []int) {
	for i, options := range m.items {
		if len(options) == 0 {
			continue
		}
		r := f.AddMost(fmt.Sprintf("once_%02d", i), 1)
		for _, c := range options {
			f.Put(r, y[c], 1)
		}
	}
}

// addDays keeps a dog's sessions on days of their own, and its jacket sessions apart.
func (f *program) addDays(m *menu, y []int) {
	for d := range m.p.Dogs {
		for t := range m.p.Days {
			day, apart := -1, -1
			for c := range m.options {
				o := &m.options[c]
				if !m.session(o.item) || m.dog(o.item) != d {
					continue
				}
				if o.day == t {
					if day < 0 {
						day = f.AddMost(fmt.Sprintf("day_%02d_%d", d, t), 1)
					}
					f.Put(day, y[c], 1)
				}
				if o.jacket && o.day >= t && o.day < t+m.p.Apart {
					if apart < 0 {
						apart = f.AddMost(fmt.Sprintf("apart_%02d_%d", d, t), 1)
					}
					f.Put(apart, y[c], 1)
				}
			}
		}
	}
}

// addOrder lets a dog's session be placed up to a day only if the one before it is placed before that day.
func (f *program) addOrder(m *menu, y []int) {
	for i := range m.p.Sessions {
		if m.before[i] == none {
			continue
		}
		for t := range m.p.Days {
			r := f.AddMost(fmt.Sprintf("order_%02d_%d", i, t), 0)
			for _, c := range m.items[i] {
				if m.options[c].day <= t {
					f.Put(r, y[c], 1)
				}
			}
			for _, c := range m.items[m.before[i]] {
				if m.options[c].day < t {
					f.Put(r, y[c], -1)
				}
			}
		}
	}
}

// addDuties keeps a dog with one pair of hands on a day with duties, a bath from a day with a session, and a session
// after every bath.
func (f *program) addDuties(m *menu, y []int) {
	for c := range m.options {
		o := &m.options[c]
		if m.session(o.item) {
			continue
		}
		sessions := f.AddMost("beside_"+m.optionName(c), 1)
		f.Put(sessions, y[c], 1)
		follow := -1
		if m.bath(o.item) && !o.lifted {
			follow = f.AddMost("follow_"+m.optionName(c), 0)
			f.Put(follow, y[c], 1)
		}
		duties := map[int]int{}
		for e := range m.options {
			x := &m.options[e]
			if m.dog(x.item) != m.dog(o.item) {
				continue
			}
			switch {
			case m.session(x.item) && x.day == o.day && (m.bath(o.item) || x.helper >= 0 || x.lead != o.lead):
				f.Put(sessions, y[e], 1)
			case follow >= 0 && m.session(x.item) && x.jacket && x.day > o.day && x.day <= o.day+liftDays:
				f.Put(follow, y[e], -1)
			case !m.session(x.item) && x.item > o.item && x.day == o.day && x.lead != o.lead:
				r, ok := duties[x.item]
				if !ok {
					r = f.AddMost(fmt.Sprintf("hands_%s_%02d", m.optionName(c), x.item), 1)
					f.Put(r, y[c], 1)
					duties[x.item] = r
				}
				f.Put(r, y[e], 1)
			}
		}
	}
}

// addLines keeps hands within their time with breaks, and within their hand load, and counts what is above their even
// share. A part's minutes are a column for each option that has it.
func (f *program) addLines(m *menu, y []int) {
	time, pull := make([]int, len(m.free)), make([]int, len(m.free))
	strip, even := make([]int, len(m.lines)), make([]int, len(m.lines))
	for li := range m.lines {
		l := &m.lines[li]
		at := fmt.Sprintf("h%d_d%d", l.hands, l.day)
		strip[li] = f.AddMost("strip_"+at, l.strip)
		even[li] = f.AddMost("even_"+at, l.even)
		f.Put(even[li], f.AddColumn(mps.Column{Name: "over_" + at, Cost: m.p.Even, High: math.Inf(1)}), -1)
		for _, s := range l.free {
			name := fmt.Sprintf("%s_f%d", at, s)
			time[s] = f.AddMost("time_"+name, m.free[s].minutes)
			pull[s] = f.AddMost("pull_"+name, m.p.BreakAfter)
			n := f.AddColumn(mps.Column{Name: "breaks_" + name, High: math.Ceil(m.free[s].minutes / m.p.BreakAfter), Whole: true})
			f.Put(time[s], n, m.p.Break)
			f.Put(pull[s], n, -m.p.BreakAfter)
		}
	}
	for c := range m.options {
		o := &m.options[c]
		for _, ld := range o.loads {
			li := m.free[ld.stretch].line
			if ld.other > 0 {
				f.Put(time[ld.stretch], y[c], ld.other)
				f.Put(even[li], y[c], ld.other)
			}
			for _, a := range ld.parts {
				part := m.p.Sessions[o.item].Parts[a]
				name := fmt.Sprintf("%s_p%d", m.optionName(c), a)
				x := f.AddColumn(mps.Column{Name: name, Cost: -m.p.worth(&part, m.lines[li].hands) / part.Minutes, High: part.Minutes})
				for _, r := range []int{time[ld.stretch], pull[ld.stretch], strip[li], even[li]} {
					f.Put(r, x, 1)
				}
				r := f.AddMost("of_"+name, 0)
				f.Put(r, x, 1)
				f.Put(r, y[c], -part.Minutes)
			}
		}
	}
}

// addShared keeps time for dogs that two pairs of hands work one after the other.
func (f *program) addShared(m *menu, y []int) {
	for t := range m.p.Days {
		for g := range m.p.Hands {
			r := -1
			for c := range m.options {
				if o := &m.options[c]; o.helper >= 0 && o.day == t && o.first == g {
					if r < 0 {
						r = f.AddMost(fmt.Sprintf("shared_h%d_d%d", g, t), m.sharedRoom(t))
					}
				}
			}
			for c := range m.options {
				o := &m.options[c]
				if r < 0 || o.helper < 0 || o.day != t {
					continue
				}
				minutes := o.shared[1]
				if o.first == g {
					minutes += o.shared[0]
				}
				f.Put(r, y[c], minutes)
			}
		}
	}
}
