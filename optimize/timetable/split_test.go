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

func TestSplittingCutsFewAreasAndLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var areas []planned.AreaWork
		for i := range rapid.IntRange(1, 9).Draw(t, "areas") {
			m := kennel.Minutes(rapid.Float64Range(1, 30).Draw(t, "minutes"))
			areas = append(areas, planned.AreaWork{Area: kennel.AreaNames()[i], Minutes: m, Share: kennel.Share(m / 100)})
		}
		n := rapid.IntRange(1, 4).Draw(t, "sessions")
		longest := max(planned.Pulling(areas)/kennel.Minutes(n)*kennel.Minutes(rapid.Float64Range(1, 2).Draw(t, "room")), 1)
		var sum kennel.Minutes
		var share kennel.Share
		pieces := 0
		for _, s := range split(areas, n, longest) {
			if planned.Pulling(s) > longest+slack {
				t.Fatalf("%v minutes in a session, at most %v", planned.Pulling(s), longest)
			}
			sum += planned.Pulling(s)
			for _, a := range s {
				share += a.Share
			}
			pieces += len(s)
		}
		if math.Abs(float64(sum-planned.Pulling(areas))) > slack || math.Abs(float64(share)-float64(planned.Pulling(areas))/100) > slack {
			t.Fatalf("%v minutes of %v, share %v", sum, planned.Pulling(areas), share)
		}
		if pieces > len(areas)+n-1 {
			t.Fatalf("%d pieces of %d areas in %d sessions", pieces, len(areas), n)
		}
	})
}
