package timetable

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// slack is for arithmetic.
const slack = 1e-6

func TestDealingKeepsAreasWholeAndLosesNothing(t *testing.T) {
	crumb := func(a planned.AreaWork) kennel.Minutes { return min(3, a.Minutes) }
	rapid.Check(t, func(t *rapid.T) {
		var areas []planned.AreaWork
		want := map[kennel.AreaName]kennel.Minutes{}
		for i := range rapid.IntRange(1, 9).Draw(t, "areas") {
			m := kennel.Minutes(rapid.Float64Range(1, 30).Draw(t, "minutes"))
			areas = append(areas, planned.AreaWork{Area: kennel.AreaNames()[i], Minutes: m, Share: kennel.Share(m / 100)})
			want[kennel.AreaNames()[i]] = m
		}
		n := rapid.IntRange(1, 4).Draw(t, "sessions")
		longest := max(planned.Pulling(areas)/kennel.Minutes(n)*kennel.Minutes(rapid.Float64Range(0.7, 2).Draw(t, "room")), 1)
		sessions, over := deal(areas, even(areas, n), longest, crumb, none)
		if len(sessions) > n {
			t.Fatalf("%d sessions, want %d at most", len(sessions), n)
		}
		in := map[kennel.AreaName]int{}
		for _, s := range sessions {
			if planned.Pulling(s) > longest+slack {
				t.Fatalf("%v minutes in a session, at most %v", planned.Pulling(s), longest)
			}
			for _, a := range s {
				if in[a.Area]++; in[a.Area] > 1 {
					t.Fatalf("%s in two sessions: %v", a.Area, sessions)
				}
				if a.Minutes < min(3, want[a.Area])-slack {
					t.Fatalf("%s: a crumb of %v minutes", a.Area, a.Minutes)
				}
			}
		}
		got := map[kennel.AreaName]kennel.Minutes{}
		for _, list := range append(sessions, over) {
			for _, a := range list {
				got[a.Area] += a.Minutes
				if math.Abs(float64(a.Share)*100-float64(a.Minutes)) > slack {
					t.Fatalf("%v of %v minutes", a.Share, a.Minutes)
				}
			}
		}
		for area, m := range want {
			if math.Abs(float64(got[area]-m)) > slack {
				t.Fatalf("%s: %v minutes of %v", area, got[area], m)
			}
		}
		if planned.Pulling(areas) <= longest && len(over) > 0 {
			t.Fatalf("all fits in one session, and %v is left over", over)
		}
	})
}

func TestAreasChangeSessionsBeforeAnyIsCutShort(t *testing.T) {
	var areas []planned.AreaWork
	for i, m := range []kennel.Minutes{30, 20, 30, 20} { // in working order 50 and 50; 30, 30, 20, 20 would not fit
		areas = append(areas, planned.AreaWork{Area: kennel.AreaNames()[i], Minutes: m, Share: kennel.Share(m / 100)})
	}
	areas[1], areas[2] = areas[2], areas[1]
	sessions, over := deal(areas, even(areas, 2), 50, func(planned.AreaWork) kennel.Minutes { return 3 }, none)
	if len(over) > 0 || len(sessions) != 2 || planned.Pulling(sessions[0]) != 50 {
		t.Errorf("%v, and %v left over", sessions, over)
	}
}

func none(planned.AreaWork) bool { return false }

// What was left out twice running is the last to be left out of a session that is too full, however short it is.
func TestWhatGoesFirstIsNotLeftOut(t *testing.T) {
	areas := []planned.AreaWork{{Area: kennel.AreaEars, Minutes: 4}, {Area: kennel.AreaRibs, Minutes: 20}, {Area: kennel.AreaBack, Minutes: 20}}
	least := func(a planned.AreaWork) kennel.Minutes { return a.Minutes }
	for name, c := range map[string]struct {
		first func(planned.AreaWork) bool
		left  kennel.AreaName
	}{
		"none": {none, kennel.AreaEars},
		"ears": {func(a planned.AreaWork) bool { return a.Area == kennel.AreaEars }, kennel.AreaRibs},
	} {
		_, over := deal(areas, []kennel.Minutes{44}, 40, least, c.first)
		if len(over) == 0 || over[0].Area != c.left {
			t.Errorf("%s first: %+v is left out", name, over)
		}
	}
}
