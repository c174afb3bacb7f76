package text

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"
	_ "time/tzdata" // zone names are checked alike on machines that have no zones of their own

	"github.com/goccy/go-yaml/ast"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

func (r *reader) kennel(root ast.Node) kennel.Kennel {
	k := thing(r.value("", root, place{line: 1, column: 1}), fields.Kennel)
	namedAlike(k)
	return k
}

// thing reads a thing field by field; what the file leaves out is as it is in the usual one.
func thing[T any](v value, t fields.Thing[T]) T {
	x, usual := t.Usual(), t.Usual()
	groups := map[string]mapping{"": v.mapping(t.Keys("")...)}
	for _, f := range t.Fields {
		g := f.Group()
		if _, there := groups[g]; !there {
			groups[g] = groups[""].get(g).mapping(t.Keys(g)...)
		}
		key := strings.TrimPrefix(f.Key, g+".")
		at := groups[g].get(key)
		if f.Need != "" {
			at = groups[g].need(key, key+": and "+f.Need)
		}
		if f.Kind() == fields.Many {
			several(at, f.Get(&x))
		} else if at.given() {
			f.Set(&x, single(at, f, &usual))
		}
	}
	return x
}

// single reads a field that is a single value.
func single[T any](v value, f fields.Field[T], usual *T) any {
	missing := f.Get(usual)
	switch f.At(usual).(type) {
	case *string, *kennel.Texture, *kennel.SpellKind:
		if f.Key == "time_zone" {
			return v.zone()
		}
		return v.text()
	case *kennel.Units:
		units, _ := f.Reading().Read(v.text()) // any word is read, and checked with the kennel
		return units
	}
	how := f.Reading()
	x := read(v, how.Want, how.Try, missing, how.Read)
	if f.Need == "" && f.Kind() != fields.Yes && f.Kind() != fields.Day && reflect.ValueOf(x).IsZero() && f.Silent(usual, usual) {
		v.fail("can't be 0", "a number above 0, or leave it out for the usual")
	}
	return x
}

// several reads a field that is a list or a thing of its own into what it points to.
func several(v value, to any) {
	switch to := to.(type) {
	case *[]kennel.Hands:
		*to = listOf(v, fields.Hands)
	case *[]kennel.Dog:
		*to = listOf(v, fields.Dog)
	case *[]kennel.Show:
		*to = listOf(v, fields.Show)
	case *[]kennel.Duty:
		*to = listOf(v, fields.Duty)
	case *[]kennel.Outline:
		*to = listOf(v, fields.Outline)
	case *[]kennel.Spell:
		*to = listOf(v, fields.Spell)
	case *fields.Areas:
		*to.All, *to.Named = areas(v)
	case *[kennel.DaysAWeek]kennel.Hours:
		days := kennel.Weekdays()
		hours := v.mapping(days[:]...)
		for d := range to {
			to[d] = hours.get(days[d]).hours()
		}
	case *[]kennel.Skill:
		for _, s := range v.list() {
			*to = append(*to, kennel.Skill(s.text()))
		}
		if v.given() && *to == nil {
			v.fail("names no work", "[jacket, close, furnishings, duties] or some of them; leave it out for all")
		}
	case *[]string:
		for _, s := range v.list() {
			*to = append(*to, s.text())
		}
	case *[]kennel.Span:
		for _, item := range v.list() {
			*to = append(*to, span(item))
		}
	case **kennel.Span:
		if v.given() {
			days := span(v, "from", "to")
			*to = &days
		}
	case **kennel.BeforeShow:
		if v.given() {
			m := v.mapping("from", "to")
			*to = &kennel.BeforeShow{
				From: m.need("from", "from: and days before the show, like 10d").days(),
				To:   m.need("to", "to: and days before the show, like 7d").days(),
			}
		}
	default:
		panic(fmt.Sprintf("%s: nothing reads a %T", v.path, to)) // a field of a new kind: TestNoFieldIsLostInAKennelFile meets it
	}
}

func listOf[T any](v value, t fields.Thing[T]) (all []T) {
	for _, item := range v.list() {
		all = append(all, thing(item, t))
	}
	return all
}

// namedAlike gives the dogs of shows their names with the capitals that they have under dogs.
func namedAlike(k kennel.Kennel) {
	names := map[string]string{}
	for _, d := range k.Dogs {
		names[strings.ToLower(strings.TrimSpace(d.Name))] = d.Name
	}
	for _, s := range k.Shows {
		for i, d := range s.Dogs {
			if name, known := names[strings.ToLower(strings.TrimSpace(d))]; known {
				s.Dogs[i] = name
			}
		}
	}
}

// zone is the IANA name of a time zone.
func (v value) zone() string {
	name := v.text()
	if _, err := time.LoadLocation(name); err != nil || name == time.Local.String() {
		v.fail("is not a time zone that is known", "a continent and a town like Europe/Dublin; leave it out for the zone of this machine")
	}
	return name
}

// areas are the layers on every area that is not named, and on those that are, in the order of the trade.
func areas(v value) (all []kennel.Layer, named []kennel.AreaCoat) {
	const every = "all"
	known := []string{every}
	for _, a := range kennel.AreaNames() {
		known = append(known, string(a))
	}
	keys, values := v.pairs()
	seen := map[string]bool{}
	for i, key := range keys {
		area := strings.NewReplacer("-", " ", "_", " ").Replace(key)
		at := values[i]
		switch {
		case !slices.Contains(known, area):
			at.unknown("is not an area of the coat", kennel.Nearest(area, known, nearAreas), known)
			continue
		case seen[area]:
			at.at = at.key
			at.fail("appears twice", "leave one of the two out")
			continue
		}
		seen[area] = true
		at = v.r.value(join(v.path, area), at.node, at.key)
		if area == every {
			all = listOf(at, fields.Layer)
		} else {
			named = append(named, kennel.AreaCoat{Area: kennel.AreaName(area), Layers: listOf(at, fields.Layer)})
		}
	}
	order := kennel.AreaNames()
	slices.SortFunc(named, func(a, b kennel.AreaCoat) int {
		return slices.Index(order, a.Area) - slices.Index(order, b.Area)
	})
	return all, named
}

// span is a run of days. It has one end at least, and those that it needs.
func span(v value, needs ...string) kennel.Span {
	m := v.mapping("from", "to", "why")
	for _, key := range needs {
		m.need(key, key+": and a date like 2027-03-20")
	}
	from, to := m.get("from"), m.get("to")
	if m.sound && !from.given() && !to.given() {
		v.fail("has neither from nor to", "{from: 2027-02-11, to: 2027-02-15}")
	}
	return kennel.Span{From: from.date(), To: to.date(), Why: m.get("why").text()}
}
