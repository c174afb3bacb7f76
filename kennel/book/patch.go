package book

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// patch is what a change does to the rows: those that go and those that come. A row that is changed goes as it was
// and comes as it is.
type patch struct{ before, after content }

// between is the patch that makes b of a.
func between(a, b content) (p patch) {
	for t := range tables {
		old := map[string]row{}
		for _, r := range a[t] {
			old[tables[t].key(r)] = r
		}
		for _, r := range b[t] {
			k := tables[t].key(r)
			was, there := old[k]
			delete(old, k)
			switch {
			case !there:
				p.after[t] = append(p.after[t], r)
			case !slices.Equal(was, r):
				p.before[t] = append(p.before[t], was)
				p.after[t] = append(p.after[t], r)
			}
		}
		for _, r := range a[t] {
			if _, gone := old[tables[t].key(r)]; gone {
				p.before[t] = append(p.before[t], r)
			}
		}
	}
	return p
}

// empty reports whether the patch changes nothing.
func (p patch) empty() bool {
	for t := range tables {
		if len(p.before[t])+len(p.after[t]) > 0 {
			return false
		}
	}
	return true
}

// on is the content after the patch. It is refused when a row that should go is not there as it was.
func (p patch) on(c content) (content, error) {
	var n content
	for t := range tables {
		goes, comes := map[string]row{}, map[string]row{}
		for _, r := range p.before[t] {
			goes[tables[t].key(r)] = r
		}
		for _, r := range p.after[t] {
			comes[tables[t].key(r)] = r
		}
		for _, r := range c[t] {
			k := tables[t].key(r)
			was, going := goes[k]
			now, coming := comes[k]
			switch {
			case going && !slices.Equal(was, r), coming && !going:
				return n, fmt.Errorf("a row of %s is not as the history left it", tables[t].name)
			case coming:
				n[t] = append(n[t], now)
			case !going:
				n[t] = append(n[t], r)
			}
			delete(goes, k)
			delete(comes, k)
		}
		if len(goes) > 0 {
			return n, fmt.Errorf("a row of %s is not there any more", tables[t].name)
		}
		for _, r := range p.after[t] {
			if _, new := comes[tables[t].key(r)]; new {
				n[t] = append(n[t], r)
			}
		}
		tables[t].sort(n[t])
	}
	return n, nil
}

// keepOrder gives the rows of b, whose positions count from 0, the positions that they have in a wherever these are in
// order and new rows stand behind them, so that a row that is left out moves no other.
func keepOrder(a, b content) {
	for t := range tables {
		if !tables[t].ordered() {
			continue
		}
		at := tables[t].column(position)
		old := map[string]int64{}
		for _, r := range a[t] {
			old[tables[t].key(r)], _ = r[at].(int64)
		}
		kept, last := make([]int64, len(b[t])), int64(-1)
		for i, r := range b[t] {
			n, there := old[tables[t].key(r)]
			if !there {
				n = last + 1
			}
			if n <= last {
				kept = nil
				break
			}
			kept[i], last = n, n
		}
		for i, n := range kept {
			b[t][i][at] = n
		}
	}
}

// encodeRows is rows by table as JSON: the tables in their order, each row as its columns with what was told.
func encodeRows(c content) (string, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for t := range tables {
		if len(c[t]) == 0 {
			continue
		}
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "%q:[", tables[t].name)
		for i, r := range c[t] {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := encodeRow(&b, &tables[t], r); err != nil {
				return "", err
			}
		}
		b.WriteByte(']')
	}
	b.WriteByte('}')
	return b.String(), nil
}

func encodeRow(b *bytes.Buffer, t *table, r row) error {
	b.WriteByte('{')
	first := true
	for i, c := range t.columns {
		if r[i] == nil {
			continue
		}
		v, err := json.Marshal(r[i])
		if err != nil {
			return err
		}
		if !first {
			b.WriteByte(',')
		}
		first = false
		fmt.Fprintf(b, "%q:%s", c.name, v)
	}
	b.WriteByte('}')
	return nil
}

// decodeRows reads what encodeRows wrote, also where a column has come since.
func decodeRows(data string) (c content, err error) {
	var by map[string][]map[string]json.RawMessage
	if err := json.Unmarshal([]byte(data), &by); err != nil {
		return c, fmt.Errorf("a line of the history can't be read: %w", err)
	}
	for t := range tables {
		for _, given := range by[tables[t].name] {
			r := make(row, len(tables[t].columns))
			for i, col := range tables[t].columns {
				raw, there := given[col.name]
				if !there {
					continue
				}
				if r[i], err = col.value(raw); err != nil {
					return c, fmt.Errorf("a line of the history can't be read: %w", err)
				}
			}
			c[t] = append(c[t], r)
		}
	}
	return c, nil
}

func (c column) value(raw json.RawMessage) (any, error) {
	switch c.kind {
	case whole:
		var n int64
		err := json.Unmarshal(raw, &n)
		return n, err
	case real:
		var f float64
		err := json.Unmarshal(raw, &f)
		return f, err
	}
	var s string
	err := json.Unmarshal(raw, &s)
	return s, err
}
