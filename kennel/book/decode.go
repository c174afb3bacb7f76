package book

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// decode is the state that the rows tell, but for the plan's record, which they only name. The error says which row no kennel can hold.
func decode(c content) (State, error) {
	d := decoder{}
	var s State
	for _, r := range c[tKennel] {
		read(&d, kennelFields, r[1:], &s.Kennel)
	}
	k := &s.Kennel
	k.Hands = decodeList(&d, tHands, handsFields, c[tHands], fields.Hands.Usual)
	away := under(c[tHandsAway], 1)
	for i := range k.Hands {
		k.Hands[i].Away = decodeList(&d, tHandsAway, spanFields, away[keyOf(c[tHands][i][:1])], none)
	}
	d.dogs(c, k)
	k.Shows = decodeList(&d, tShows, showFields, c[tShows], fields.Show.Usual)
	dogs := under(c[tShowDogs], 2)
	for i := range k.Shows {
		k.Shows[i].Dogs = decodeList(&d, tShowDogs, nameFields, dogs[keyOf(c[tShows][i][:2])], none)
	}
	s.Seen = decodeList(&d, tSeen, seenFields, c[tSeen], none)
	s.Work = decodeList(&d, tWork, workFields, c[tWork], none)
	areas, looks := under(c[tWorkAreas], 1), under(c[tWorkLooks], 1)
	for i := range s.Work {
		of := keyOf(c[tWork][i][:1])
		s.Work[i].Areas = decodeList(&d, tWorkAreas, pulledFields, areas[of], none)
		s.Work[i].Looks = decodeList(&d, tWorkLooks, lookFields, looks[of], none)
	}
	s.Sessions = decodeList(&d, tSessions, sessionFields, c[tSessions], none)
	areas = under(c[tSessionAreas], 1)
	for i := range s.Sessions {
		s.Sessions[i].Areas = decodeList(&d, tSessionAreas, pulledFields, areas[keyOf(c[tSessions][i][:1])], none)
	}
	s.Photos = decodeList(&d, tPhotos, photoFields, c[tPhotos], none)
	s.Measures = decodeList(&d, tMeasures, measureFields, c[tMeasures], none)
	s.Showables = decodeList(&d, tShowables, showableFields, c[tShowables], none)
	for _, r := range c[tPlan] {
		read(&d, planFields, r[1:], &s.Plan)
	}
	return s, d.err
}

// none is a thing of which nothing was given.
func none[T any]() (x T) { return x }

// decodeList is the list that the rows of a table are: what belongs to one thing, or all of it. The place in the list is no field.
func decodeList[T any](d *decoder, t int, fields []field[T], rows []row, usual func() T) (list []T) {
	first, place := len(tables[t].columns)-len(fields), tables[t].column(position)
	for _, r := range rows {
		if place >= first {
			r = slices.Concat(r[:place], r[place+1:])
		}
		x := usual()
		read(d, fields, r[len(r)-len(fields):], &x)
		list = append(list, x)
	}
	return list
}

// under gathers rows by what they belong to: the first n of their keys.
func under(rows []row, n int) map[string][]row {
	by := map[string][]row{}
	for _, r := range rows {
		k := keyOf(r[:n])
		by[k] = append(by[k], r)
	}
	return by
}

func (d *decoder) dogs(c content, k *kennel.Kennel) {
	k.Dogs = decodeList(d, tDogs, dogFields, c[tDogs], fields.Dog.Usual)
	here, layers, duties := under(c[tDogsHere], 1), under(c[tLayers], 1), under(c[tDuties], 1)
	spells, outlines := under(c[tSpells], 1), under(c[tOutlines], 1)
	order := kennel.AreaNames()
	for i := range k.Dogs {
		dog, name := &k.Dogs[i], keyOf(c[tDogs][i][:1])
		dog.Here = decodeList(d, tDogsHere, spanFields, here[name], none)
		dog.Duties = decodeList(d, tDuties, dutyFields, duties[name], none)
		dog.Outlines = decodeList(d, tOutlines, outlineFields, outlines[name], none)
		dog.Spells = decodeList(d, tSpells, spellFields, spells[name], fields.Spell.Usual)
		for rows := layers[name]; len(rows) > 0; {
			area := d.words(rows[0][1])
			n := slices.IndexFunc(rows, func(r row) bool { return r[1] != rows[0][1] })
			if n < 0 {
				n = len(rows)
			}
			coat := kennel.AreaCoat{Area: kennel.AreaName(area), Layers: decodeList(d, tLayers, layerFields, rows[:n], none)}
			if rows = rows[n:]; area == all {
				dog.All = coat.Layers
			} else {
				dog.Areas = append(dog.Areas, coat)
			}
		}
		slices.SortStableFunc(dog.Areas, func(a, b kennel.AreaCoat) int {
			return cmp.Compare(slices.Index(order, a.Area), slices.Index(order, b.Area))
		})
	}
}
