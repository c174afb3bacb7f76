package book

import (
	"cmp"
	"slices"
	"strconv"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

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

func texts(names ...string) (all []column)  { return columns(words, names) }
func wholes(names ...string) (all []column) { return columns(whole, names) }

func columns(k kind, names []string) (all []column) {
	for _, n := range names {
		all = append(all, column{n, k})
	}
	return all
}

// inList are columns with the place in the list behind the first n.
func inList(n int, all []column) []column { return slices.Insert(all, n, column{position, whole}) }

// The tables by name.
const (
	tKennel = iota
	tHands
	tHandsAway
	tDogs
	tDogsHere
	tLayers
	tDuties
	tSpells
	tOutlines
	tSeen
	tShows
	tShowDogs
	tWork
	tWorkAreas
	tWorkLooks
	tMeasures
	tShowables
	tSessions
	tSessionAreas
	tPhotos
	tPlan
	tableCount
)

// The fields that tables have columns for, in the order of the columns.
var (
	kennelFields = given(fields.Kennel)
	handsFields  = handsOf()
	dogFields    = given(fields.Dog)
	showFields   = append(given(fields.Show),
		field[kennel.Show]{"away", func(s *kennel.Show) any { return there[kennel.Span]{&s.Away} }},
		field[kennel.Show]{"away_from", func(s *kennel.Show) any { return awayPart(s, func(x *kennel.Span) any { return &x.From }) }},
		field[kennel.Show]{"away_to", func(s *kennel.Show) any { return awayPart(s, func(x *kennel.Span) any { return &x.To }) }},
		field[kennel.Show]{"away_why", func(s *kennel.Show) any { return awayPart(s, func(x *kennel.Span) any { return &x.Why }) }},
	)
	spanFields  = record[kennel.Span](nil)
	layerFields = given(fields.Layer)
	dutyFields  = append(given(fields.Duty),
		field[kennel.Duty]{"before_from", func(d *kennel.Duty) any { return beforePart(d, func(x *kennel.BeforeShow) any { return &x.From }) }},
		field[kennel.Duty]{"before_to", func(d *kennel.Duty) any { return beforePart(d, func(x *kennel.BeforeShow) any { return &x.To }) }},
	)
	spellFields    = given(fields.Spell)
	outlineFields  = given(fields.Outline)
	nameFields     = []field[string]{{"dog", func(s *string) any { return s }}}
	seenFields     = record(map[string]func(*Seen) any{"area": func(x *Seen) any { return orAll{&x.Area} }})
	workFields     = record[Work](nil)
	pulledFields   = record[kennel.Pulled](nil)
	lookFields     = record[kennel.Look](nil)
	measureFields  = record[Measure](nil)
	showableFields = record[Showable](nil)
	sessionFields  = record(map[string]func(*Session) any{"work": func(x *Session) any { return orNone{&x.Work} }})
	photoFields    = record(map[string]func(*Photo) any{"area": func(x *Photo) any { return orAll{&x.Area} }})
	planFields     = append(record[PlanInUse](nil), field[PlanInUse]{"record", func(p *PlanInUse) any { return named{&p.Result} }})
)

// handsOf are the fields of a pair of hands, with their hours in a column for each weekday.
func handsOf() (all []field[kennel.Hands]) {
	single := given(fields.Hands)
	all = append(all, single[0]) // the name
	for d, day := range kennel.Weekdays() {
		all = append(all, field[kennel.Hands]{day, func(h *kennel.Hands) any { return &h.Hours[d] }})
	}
	all = append(all, single[1:]...)
	return append(all, field[kennel.Hands]{"does", func(h *kennel.Hands) any { return skills{&h.Does} }})
}

func awayPart(s *kennel.Show, at func(*kennel.Span) any) any {
	return part[kennel.Span]{thing: &s.Away, at: at}
}

func beforePart(d *kennel.Duty, at func(*kennel.BeforeShow) any) any {
	return part[kennel.BeforeShow]{thing: &d.Before, at: at, makes: true}
}

var tables = [tableCount]table{
	tKennel:       {"kennel", "the kennel", 1, 0, append(wholes("id"), columnsOf(kennelFields)...)},
	tHands:        {"hands", "hands", 1, 1, inList(1, columnsOf(handsFields))},
	tHandsAway:    {"hands_away", "hands", 2, 1, inList(1, append(texts("hands"), columnsOf(spanFields)...))},
	tDogs:         {"dogs", "dog", 1, 1, inList(1, columnsOf(dogFields))},
	tDogsHere:     {"dogs_here", "dog", 2, 1, inList(1, append(texts("dog"), columnsOf(spanFields)...))},
	tLayers:       {"layers", "dog", 3, 1, inList(2, append(texts("dog", "area"), columnsOf(layerFields)...))},
	tDuties:       {"duties", "dog", 2, 1, inList(1, append(texts("dog"), columnsOf(dutyFields)...))},
	tSpells:       {"spells", "dog", 2, 1, inList(1, append(texts("dog"), columnsOf(spellFields)...))},
	tOutlines:     {"outlines", "dog", 2, 1, inList(1, append(texts("dog"), columnsOf(outlineFields)...))},
	tSeen:         {"seen", "dog", 2, 1, columnsOf(seenFields)},
	tShows:        {"shows", "show", 2, 2, inList(2, columnsOf(showFields))},
	tShowDogs:     {"show_dogs", "show", 3, 2, inList(2, append(texts("show", "on_day"), columnsOf(nameFields)...))},
	tWork:         {"work", "work", 1, 1, columnsOf(workFields)},
	tWorkAreas:    {"work_areas", "work", 2, 1, inList(1, append(wholes("work"), columnsOf(pulledFields)...))},
	tWorkLooks:    {"work_looks", "work", 2, 1, inList(1, append(wholes("work"), columnsOf(lookFields)...))},
	tMeasures:     {"measures", "measure", 1, 1, columnsOf(measureFields)},
	tShowables:    {"showables", "note", 1, 1, columnsOf(showableFields)},
	tSessions:     {"sessions", "session", 1, 1, columnsOf(sessionFields)},
	tSessionAreas: {"session_areas", "session", 2, 1, inList(1, append(wholes("session"), columnsOf(pulledFields)...))},
	tPhotos:       {"photos", "photo", 1, 1, columnsOf(photoFields)},
	tPlan:         {"agreed", "plan in use", 1, 0, append(wholes("id"), columnsOf(planFields)...)},
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
