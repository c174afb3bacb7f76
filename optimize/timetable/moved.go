package timetable

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
)

// Moved is the plan with the session at another place of its timetable, pinned there, and nothing else changed.
func Moved(r planned.Result, s planned.SessionIn, to Place) planned.Result {
	r, item := taken(r, s)
	return put(r, item, s, to, to.Start, true)
}

// Swapped is the plan with the session and one of a full day at one another's places, the session pinned, and nothing else changed.
func Swapped(r planned.Result, s planned.SessionIn, to Place, w Swap) planned.Result {
	r, item := taken(r, s)
	r, other := taken(r, w.With)
	r = put(r, item, s, to, w.Start, true)
	return put(r, other, w.With, Place{On: s.At.On, Hands: s.At.Hands}, w.Back, w.With.Pinned)
}

// taken is the plan without the session, and an item with what was said of it.
func taken(r planned.Result, s planned.SessionIn) (planned.Result, planned.Item) {
	item := planned.Item{Kind: planned.ItemSession, Dog: s.Dog, Areas: s.Areas, SetUp: s.SetUp}
	r.Timetable.Days = slices.Clone(r.Timetable.Days)
	for d := range r.Timetable.Days {
		day := &r.Timetable.Days[d]
		day.Hands = slices.Clone(day.Hands)
		for h := range day.Hands {
			if day.On == s.At.On && day.Hands[h].Hands == s.At.Hands {
				day.Hands[h].Items = withoutSession(day.Hands[h].Items, s, &item)
			}
		}
	}
	return r, item
}

// put is the plan with the item of a session at a place.
func put(r planned.Result, item planned.Item, s planned.SessionIn, to Place, start kennel.Clock, pinned bool) planned.Result {
	pull := float64(s.Pulling())
	end := float64(start) + float64(s.SetUp) + pull + hours.BreakFor*float64(hours.Breaks(pull))
	item.Start, item.End, item.Pinned = start, kennel.Clock(end+0.5), pinned
	r.Timetable.Days = slices.Clone(r.Timetable.Days)
	for d := range r.Timetable.Days {
		day := &r.Timetable.Days[d]
		if day.On != to.On {
			continue
		}
		day.Hands = slices.Clone(day.Hands)
		h := slices.IndexFunc(day.Hands, func(x planned.HandsDay) bool { return x.Hands == to.Hands })
		if h < 0 {
			day.Hands = append(day.Hands, planned.HandsDay{Hands: to.Hands})
			h = len(day.Hands) - 1
		}
		hd := &day.Hands[h]
		hd.Items = slices.DeleteFunc(append(slices.Clone(hd.Items), item), func(i planned.Item) bool {
			return i.Kind == planned.ItemBreak && i.Start < item.End && i.End > item.Start
		})
		slices.SortStableFunc(hd.Items, func(a, b planned.Item) int { return cmp.Compare(a.Start, b.Start) })
	}
	return r
}

// Loosed is the plan with the session no longer pinned.
func Loosed(r planned.Result, s planned.SessionIn) planned.Result {
	days := slices.Clone(r.Timetable.Days)
	for d := range days {
		if days[d].On != s.At.On {
			continue
		}
		days[d].Hands = slices.Clone(days[d].Hands)
		for h := range days[d].Hands {
			hd := &days[d].Hands[h]
			hd.Items = slices.Clone(hd.Items)
			for i := range hd.Items {
				if x := &hd.Items[i]; hd.Hands == s.At.Hands && x.Kind == planned.ItemSession && x.Dog == s.Dog {
					x.Pinned = false
				}
			}
		}
	}
	r.Timetable.Days = days
	return r
}

// withoutSession are the items without those of the session; its words go to moved.
func withoutSession(items []planned.Item, s planned.SessionIn, moved *planned.Item) (left []planned.Item) {
	own := false
	for i, item := range items {
		switch {
		case item.Kind == planned.ItemSession && item.Dog == s.Dog && (item.Start == s.At.Start || own && item.SetUp == 0):
			if item.Start == s.At.Start {
				moved.Lift, moved.Tool, moved.Why = item.Lift, item.Tool, item.Why
			}
			own = true
			continue
		case own && item.Kind == planned.ItemBreak && i+1 < len(items) && items[i+1].Dog == s.Dog:
			continue
		case item.Kind != planned.ItemBreak:
			own = false
		}
		left = append(left, item)
	}
	return left
}
