package book

import (
	"cmp"
	"slices"
	"strconv"
)

// kind is what a column holds.
type kind int

const (
	words kind = iota
	whole
	real
)

type column struct {
	name string
	kind kind
}

// table is one table of the book: its columns, the first keys of which tell a row from all others.
type table struct {
	name    string
	thing   string // what one row belongs to, in words
	keys    int
	named   int // how many of the keys name the thing
	columns []column
}

// position is the column that keeps the order that people gave. A table ordered by its own key has none.
const position = "position"

func texts(names ...string) (all []column)   { return columns(words, names) }
func numbers(names ...string) (all []column) { return columns(real, names) }
func wholes(names ...string) (all []column)  { return columns(whole, names) }

func columns(k kind, names []string) (all []column) {
	for _, n := range names {
		all = append(all, column{n, k})
	}
	return all
}

func cols(parts ...[]column) (all []column) {
	for _, p := range parts {
		all = append(all, p...)
	}
	return all
}

// The tables by name. Columns stand in the order in which encode and decode speak of them.
const (
	tKennel = iota
	tHands
	tHandsAway
	tDogs
	tDogsHere
	tLayers
	tDuties
	tSeen
	tShows
	tShowDogs
	tWork
	tWorkAreas
	tMeasures
	tShowables
	tSessions
	tSessionAreas
	tAgreed
	tableCount
)

var tables = [tableCount]table{
	tKennel: {"kennel", "the kennel", 1, 0, cols(wholes("id"), texts("name", "plan_from"), wholes("weeks"), texts("time_zone", "units"))},
	tHands: {"hands", "hands", 1, 1, cols(texts("name"), wholes(position),
		numbers("mon", "tue", "wed", "thu", "fri", "sat", "sun", "strip_hours_a_day"), texts("does"))},
	tHandsAway: {"hands_away", "hands", 2, 1, cols(texts("hands"), wholes(position), texts("from_day", "to_day", "why"))},
	tDogs: {"dogs", "dog", 1, 1, cols(texts("name"), wholes(position), texts("pattern", "born", "owner", "texture"), numbers("growth", "pace"),
		wholes("roll_only"), numbers("set_up", "minutes"), wholes("a_week"), numbers("priority"))},
	tDogsHere:     {"dogs_here", "dog", 2, 1, cols(texts("dog"), wholes(position), texts("from_day", "to_day", "why"))},
	tLayers:       {"layers", "dog", 3, 1, cols(texts("dog", "area"), wholes(position), numbers("share"), texts("pulled"))},
	tDuties:       {"duties", "dog", 2, 1, cols(texts("dog"), wholes(position), texts("name"), numbers("minutes"), wholes("every", "before_from", "before_to"))},
	tSeen:         {"seen", "dog", 2, 1, cols(texts("dog", "area", "on_day"), wholes("work"))},
	tShows:        {"shows", "show", 2, 2, cols(texts("name", "on_day"), wholes(position, "days"), texts("entries_close"), numbers("weight", "chance"), wholes("away"), texts("away_from", "away_to", "away_why"))},
	tShowDogs:     {"show_dogs", "show", 3, 2, cols(texts("show", "on_day"), wholes(position), texts("dog"))},
	tWork:         {"work", "work", 1, 1, cols(wholes("id"), texts("dog", "on_day", "hands"), numbers("minutes"), texts("duty"), wholes("stopped"), texts("note"))},
	tWorkAreas:    {"work_areas", "work", 2, 1, cols(wholes("work", position), texts("area"), numbers("share"))},
	tMeasures:     {"measures", "measure", 1, 1, cols(wholes("id"), texts("dog", "on_day", "area"), numbers("length_mm"), texts("note"))},
	tShowables:    {"showables", "note", 1, 1, cols(wholes("id"), texts("dog", "area", "pulled", "on_day"))},
	tSessions:     {"sessions", "session", 1, 1, cols(wholes("id"), texts("dog", "on_day", "start"), numbers("minutes"), texts("hands"), wholes("pinned", "work"))},
	tSessionAreas: {"session_areas", "session", 2, 1, cols(wholes("session", position), texts("area"), numbers("share"))},
	tAgreed:       {"agreed", "the agreement", 1, 0, cols(wholes("id"), texts("on_day"), wholes("change"))},
}

// row is the values of one row in the order of its table's columns: string, int64, float64, or nil for what was not
// told.
type row []any

// content is all rows of all tables, each table in its order.
type content [tableCount][]row

// key tells a row of the table from all its others.
func (t *table) key(r row) string { return keyOf(r[:t.keys]) }

// keyOf is one text for several values, different for different ones.
func keyOf(values []any) string {
	var b []byte
	for _, v := range values {
		switch v := v.(type) {
		case string:
			b = strconv.AppendQuote(b, v)
		case int64:
			b = strconv.AppendInt(b, v, 10)
		}
		b = append(b, ' ')
	}
	return string(b)
}

// column is the place of a column, -1 when the table has none of that name.
func (t *table) column(name string) int {
	for i, c := range t.columns {
		if c.name == name {
			return i
		}
	}
	return -1
}

// ordered reports whether the table's own rows have an order that is not part of their key.
func (t *table) ordered() bool { return t.column(position) >= t.keys }

// order lists the columns that the table's rows are ordered by.
func (t *table) order() []int {
	if t.ordered() {
		return []int{t.column(position)}
	}
	all := make([]int, t.keys)
	for i := range all {
		all[i] = i
	}
	return all
}

// sort orders rows of the table as the book gives them.
func (t *table) sort(rows []row) {
	by := t.order()
	slices.SortStableFunc(rows, func(a, b row) int {
		for _, i := range by {
			if c := compare(a[i], b[i]); c != 0 {
				return c
			}
		}
		return 0
	})
}

// compare orders two values of one column of a key, text by its bytes as the book does.
func compare(a, b any) int {
	switch a := a.(type) {
	case int64:
		b, _ := b.(int64)
		return cmp.Compare(a, b)
	case string:
		b, _ := b.(string)
		return cmp.Compare(a, b)
	}
	return 0
}
