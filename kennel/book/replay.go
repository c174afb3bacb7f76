package book

import (
	"fmt"
	"slices"
	"strings"
)

// replay is what the tables must hold when the lines of the history are carried out one after the other.
type replay struct{ rows [tableCount]map[string]row }

func newReplay() *replay {
	r := &replay{}
	for t := range r.rows {
		r.rows[t] = map[string]row{}
	}
	return r
}

// carry carries one line out and says where it can't be. What it says came is kept even then, so that the next line is
// held against it.
func (r *replay) carry(l link) (wrong []string) {
	before, err := decodeRows(l.before)
	if err != nil {
		return []string{fmt.Sprintf("change %d: %v", l.id, err)}
	}
	after, err := decodeRows(l.after)
	if err != nil {
		return []string{fmt.Sprintf("change %d: %v", l.id, err)}
	}
	for t := range tables {
		for _, x := range before[t] {
			k := tables[t].key(x)
			if was, there := r.rows[t][k]; !there || !slices.Equal(was, x) {
				wrong = append(wrong, fmt.Sprintf("change %d takes away %s as no earlier change left it", l.id, tables[t].label(x)))
			}
			delete(r.rows[t], k)
		}
		for _, x := range after[t] {
			k := tables[t].key(x)
			if _, there := r.rows[t][k]; there {
				wrong = append(wrong, fmt.Sprintf("change %d adds %s, which is there already", l.id, tables[t].label(x)))
			}
			r.rows[t][k] = x
		}
	}
	return wrong
}

// against says in which rows the tables are not as the history left them.
func (r *replay) against(c content) (wrong []string) {
	for t := range tables {
		var kept []row
		for _, x := range r.rows[t] {
			kept = append(kept, x)
		}
		slices.SortFunc(kept, func(a, b row) int { return strings.Compare(tables[t].key(a), tables[t].key(b)) })
		var left, now content
		left[t], now[t] = kept, c[t]
		for _, d := range between(left, now).differences() {
			w := fmt.Sprintf("%s is not as the history left it", d.Thing)
			switch {
			case t != owners[t]:
				w += ": " + parts[t]
			case d.Kind == DifferenceNew:
				w += ": no change added it"
			case d.Kind == DifferenceGone:
				w += ": no change took it away"
			case len(d.What) > 0:
				w += ": " + strings.Join(d.What, ", ")
			}
			wrong = append(wrong, w)
		}
	}
	return wrong
}
