package book

// all is the area of layers, and of a look at the coat, that hold for every area without its own.
const all = "all"

// encode is the state as rows. Positions count from 0 in each list.
func encode(s State) content {
	var c content
	k := s.Kennel
	if k.Name != "" || k.PlanFrom != 0 || k.Weeks != 0 || k.TimeZone != "" || k.Units != "" || k.Dates != "" {
		c.add(tKennel, rowOf(kennelFields, &k, int64(1)))
	}
	encodeList(&c, tHands, handsFields, k.Hands)
	for _, h := range k.Hands {
		encodeList(&c, tHandsAway, spanFields, h.Away, h.Name)
	}
	encodeList(&c, tDogs, dogFields, k.Dogs)
	for _, d := range k.Dogs {
		encodeList(&c, tDogsHere, spanFields, d.Here, d.Name)
		encodeList(&c, tLayers, layerFields, d.All, d.Name, all)
		for _, a := range d.Areas {
			encodeList(&c, tLayers, layerFields, a.Layers, d.Name, string(a.Area))
		}
		encodeList(&c, tDuties, dutyFields, d.Duties, d.Name)
		encodeList(&c, tOutlines, outlineFields, d.Outlines, d.Name)
		encodeList(&c, tSpells, spellFields, d.Spells, d.Name)
	}
	encodeList(&c, tSeen, seenFields, s.Seen)
	encodeList(&c, tShows, showFields, k.Shows)
	for _, x := range k.Shows {
		encodeList(&c, tShowDogs, nameFields, x.Dogs, x.Name, x.On.String())
	}
	encodeList(&c, tWork, workFields, s.Work)
	for _, w := range s.Work {
		encodeList(&c, tWorkAreas, pulledFields, w.Areas, w.ID)
		encodeList(&c, tWorkLooks, lookFields, w.Looks, w.ID)
	}
	encodeList(&c, tMeasures, measureFields, s.Measures)
	encodeList(&c, tShowables, showableFields, s.Showables)
	encodeList(&c, tSessions, sessionFields, s.Sessions)
	for _, x := range s.Sessions {
		encodeList(&c, tSessionAreas, pulledFields, x.Areas, x.ID)
	}
	encodeList(&c, tPhotos, photoFields, s.Photos)
	if s.Plan.On != 0 || s.Plan.Change != 0 || s.Plan.Result != nil {
		c.add(tPlan, rowOf(planFields, &s.Plan, int64(1)))
	}
	return c
}

// encodeList adds a row for each thing of a list, behind the values of whom it belongs to, with its place where the table has one.
func encodeList[T any](c *content, t int, fields []field[T], list []T, of ...any) {
	place := tables[t].column(position)
	for i := range list {
		r := rowOf(fields, &list[i], of...)
		if place >= 0 {
			r = append(r, nil)
			copy(r[place+1:], r[place:])
			r[place] = int64(i)
		}
		c.add(t, r)
	}
}

// add adds a row. What tells it from others is never nothing.
func (c *content) add(t int, r row) {
	for i, col := range tables[t].columns[:tables[t].keys] {
		if r[i] == nil && col.kind == words {
			r[i] = ""
		}
	}
	c[t] = append(c[t], r)
}
