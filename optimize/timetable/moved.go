package timetable

import (
	"cmp"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/planned"
	"tuckup/optimize/week"
)

// Moved is the plan with the session at another place of its timetable, pinned there, and nothing else changed.
func Moved(r planned.Result, s planned.SessionIn, to Place) planned.Result {
	pull := float64(s.Pulling())
	end := float64(to.Start) + float64(s.SetUp) + pull + hours.BreakFor*float64(week.Breaks(pull, hours.BreakAfter))
	moved := planned.Item{Start: to.Start, End: kennel.Clock(end + 0.5), Kind: planned.ItemSession, Dog: s.Dog, Areas: s.Areas, SetUp: s.SetUp, Pinned: true}
	days := slices.Clone(r.Timetable.Days)
	for d := range days {
		days[d].Hands = slices.Clone(days[d].Hands)
		for h := range days[d].Hands {
			hd := &days[d].Hands[h]
			if days[d].On == s.At.On && hd.Hands == s.At.Hands {
				hd.Items = withoutSession(hd.Items, s, &moved)
			}
		}
	}
	for d := range days {
		if days[d].On != to.On {
			continue
		}
		h := slices.IndexFunc(days[d].Hands, func(x planned.HandsDay) bool { return x.Hands == to.Hands })
		if h < 0 {
			days[d].Hands = append(days[d].Hands, planned.HandsDay{Hands: to.Hands})
			h = len(days[d].Hands) - 1
		}
		hd := &days[d].Hands[h]
		hd.Items = slices.DeleteFunc(append(slices.Clone(hd.Items), moved), func(i planned.Item) bool {
			return i.Kind == planned.ItemBreak && i.Start < moved.End && i.End > moved.Start
		})
		slices.SortStableFunc(hd.Items, func(a, b planned.Item) int { return cmp.Compare(a.Start, b.Start) })
	}
	r.Timetable.Days = days
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
