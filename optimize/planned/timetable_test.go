package planned

import (
	"math"
	"testing"

	"tuckup/kennel"
)

// cut is a day on which breaks cut a session of Moss, once inside the ribs and once inside the ears.
func cut() HandsDay {
	session := func(start kennel.Clock, setUp kennel.Minutes, areas ...AreaWork) Item {
		i := Item{Kind: ItemSession, Dog: "Moss", Start: start, End: start + kennel.Clock(setUp+Pulling(areas)), SetUp: setUp, Areas: areas}
		return i
	}
	work := func(area kennel.AreaName, minutes kennel.Minutes) AreaWork {
		return AreaWork{Area: area, Minutes: minutes, Share: kennel.Share(minutes) / 100}
	}
	pause := func(start kennel.Clock) Item { return Item{Kind: ItemBreak, Start: start, End: start + 10} }
	return HandsDay{Hands: "Handler", Items: []Item{
		session(540, 10, work(kennel.AreaRibs, 50)), pause(600), session(610, 0, work(kennel.AreaRibs, 1), work(kennel.AreaEars, 49)),
		pause(660), session(670, 0, work(kennel.AreaEars, 1)),
		{Kind: ItemDuty, Dog: "Moss", What: "nails", Start: 671, End: 680},
		session(690, 10, work(kennel.AreaRibs, 20)), // as another session: it is set up
	}}
}

func TestAnAreaThatABreakCutsIsOneLine(t *testing.T) {
	type line struct {
		at      int
		area    kennel.AreaName
		minutes kennel.Minutes
	}
	linesOf := func(items []Item) (all []line) {
		for n, i := range items {
			for _, a := range i.Areas {
				if math.Abs(float64(a.Share)*100-float64(a.Minutes)) > 1e-9 {
					t.Errorf("%v of %v minutes", a.Share, a.Minutes)
				}
				all = append(all, line{n, a.Area, a.Minutes})
			}
		}
		return all
	}
	same := func(name string, got, want []line) {
		t.Helper()
		if len(got) != len(want) {
			t.Fatalf("%s: %v, want %v", name, got, want)
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s: %v, want %v", name, got[i], want[i])
			}
		}
	}
	h := cut()
	same("shown", linesOf(h.Shown()), []line{{0, kennel.AreaRibs, 51}, {2, kennel.AreaEars, 50}, {6, kennel.AreaRibs, 20}})
	same("whole", linesOf(h.Whole()), []line{{0, kennel.AreaRibs, 51}, {0, kennel.AreaEars, 50}, {2, kennel.AreaRibs, 20}})
	same("the items as they were", linesOf(h.Items), linesOf(cut().Items))
}
