package tally

import (
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// However the hands' minutes were cut, no hundredth is lost and none is made.
func TestSharingOutKeepsEveryHundredth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		times := rapid.SliceOfN(rapid.Int64Range(1, 9000), 0, 12).Draw(t, "lines")
		cuts := rapid.SliceOfN(rapid.Int64Range(0, 9000), 0, 4).Draw(t, "hands")
		var lines []Line
		var want layout.Hundredths
		for _, x := range times {
			lines = append(lines, Line{Work: optimize.SetUp, Time: layout.Hundredths(x)})
			want += layout.Hundredths(x)
		}
		var hands []optimize.HandsWeek
		for _, x := range cuts {
			m := layout.Hundredths(x).Minutes()
			hands = append(hands, optimize.HandsWeek{Given: []optimize.Given{{Work: optimize.SetUp, Minutes: kennel.Minutes(m)}}})
		}
		var got layout.Hundredths
		for _, l := range shareOut(lines, hands) {
			if l.Time <= 0 {
				t.Fatalf("a line of %d hundredths", l.Time)
			}
			got += l.Time
		}
		if got != want {
			t.Fatalf("%d hundredths became %d", want, got)
		}
	})
}
