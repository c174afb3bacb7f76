package book

import (
	"fmt"
	"slices"
	"strings"
)

// Difference is what a change does to one thing, in words.
type Difference struct {
	Kind  DifferenceKind
	Thing string   // like "dog Sorrel"
	What  []string // of a changed thing: what changed, like "priority 1 -> 1.2"
}

// DifferenceKind is what happens to a thing.
type DifferenceKind string

// The kinds.
const (
	DifferenceNew     DifferenceKind = "new"
	DifferenceGone    DifferenceKind = "gone"
	DifferenceChanged DifferenceKind = "changed"
)

// String is one line.
func (d Difference) String() string {
	s := string(d.Kind) + " " + d.Thing
	if len(d.What) > 0 {
		s += ": " + strings.Join(d.What, ", ")
	}
	return s
}

// owners says which table's rows are the things that a table's rows belong to.
var owners = [tableCount]int{
	tKennel: tKennel, tHands: tHands, tHandsAway: tHands, tDogs: tDogs, tDogsHere: tDogs, tLayers: tDogs, tDuties: tDogs, tSpells: tDogs, tOutlines: tDogs,
	tSeen: tDogs, tShows: tShows, tShowDogs: tShows, tWork: tWork, tWorkAreas: tWork, tWorkLooks: tWork, tMeasures: tMeasures,
	tShowables: tShowables, tSessions: tSessions, tSessionAreas: tSessions, tPhotos: tPhotos, tPlan: tPlan,
}

// parts are what the rows of tables that belong to a thing are called.
var parts = map[int]string{
	tHandsAway: "days away", tDogsHere: "days in hand", tLayers: "coat", tDuties: "duties", tSpells: "spells", tOutlines: "outline", tSeen: "when the coat was looked at",
	tShowDogs: "dogs", tWorkAreas: "areas", tWorkLooks: "what was seen", tSessionAreas: "areas",
}

// differences says in words what the patch does, in the order of the tables.
func (p patch) differences() (all []Difference) {
	at := map[string]int{}
	for t := range tables {
		own := owners[t]
		named := tables[t].named
		note := func(rows []row, kind DifferenceKind, what func(row) []string) {
			for _, r := range rows {
				key := fmt.Sprint(own, " ", keyOf(r[:named]))
				i, there := at[key]
				if !there {
					i = len(all)
					at[key] = i
					d := Difference{Kind: kind, Thing: tables[t].label(r)}
					if t != own {
						d.Kind = DifferenceChanged
					}
					all = append(all, d)
				}
				if all[i].Kind == DifferenceChanged {
					for _, w := range what(r) {
						if !slices.Contains(all[i].What, w) {
							all[i].What = append(all[i].What, w)
						}
					}
				}
			}
		}
		was := map[string]row{}
		for _, r := range p.before[t] {
			was[tables[t].key(r)] = r
		}
		var changed, came []row
		for _, r := range p.after[t] {
			if _, there := was[tables[t].key(r)]; there && t == own {
				changed = append(changed, r)
			} else {
				came = append(came, r)
			}
		}
		for _, r := range slices.Concat(changed, came) {
			delete(was, tables[t].key(r))
		}
		var gone []row
		for _, r := range p.before[t] {
			if _, left := was[tables[t].key(r)]; left {
				gone = append(gone, r)
			}
		}
		part := func(row) []string { return []string{parts[t]} }
		old := map[string]row{}
		for _, r := range p.before[t] {
			old[tables[t].key(r)] = r
		}
		note(changed, DifferenceChanged, func(r row) []string { return tables[t].changes(old[tables[t].key(r)], r) })
		note(came, DifferenceNew, part)
		note(gone, DifferenceGone, part)
	}
	return all
}

// label names the thing that a row belongs to.
func (t *table) label(r row) string {
	switch {
	case t.named == 0:
		return t.thing
	case t.thing == "show":
		return fmt.Sprintf("show %v on %v", r[0], r[1])
	case t.named == 1 && t.columns[0].kind == whole && t.column("dog") > 0:
		return fmt.Sprintf("%s %v of %v", t.thing, r[0], r[t.column("dog")])
	}
	return fmt.Sprintf("%s %v", t.thing, r[0])
}

// changes are the columns in which two rows differ, with both values.
func (t *table) changes(a, b row) (all []string) {
	for i, c := range t.columns {
		switch {
		case i >= len(a) || a[i] == b[i]:
		case t.name == tables[tPlan].name && c.name != called["on"]: // the numbers that the book knows a plan by say nothing to people
		case c.name == position:
			all = append(all, "place in the list")
		default:
			all = append(all, fmt.Sprintf("%s %s -> %s", strings.ReplaceAll(c.name, "_", " "), shown(a[i]), shown(b[i])))
		}
	}
	return all
}

func shown(v any) string {
	if v == nil {
		return "not set"
	}
	return fmt.Sprint(v)
}
