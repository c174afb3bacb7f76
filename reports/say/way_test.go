package say

import (
	"testing"
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
)

func TestHowADogIsWorkedIsALine(t *testing.T) {
	day := func(month time.Month, d int) kennel.Date { return kennel.NewDate(2027, month, d) }
	today := day(1, 5)
	strip := optimize.Spell{Kind: optimize.WayStripped, From: today, To: day(2, 7)}
	roll := optimize.Spell{Kind: optimize.WayRolled, From: day(4, 12), To: day(6, 20)}
	yarrow, moor := optimize.OtherShow{Show: "Yarrowmead", On: day(5, 1), Score: 93, Other: 71}, optimize.OtherShow{Show: "Moorgate", On: day(5, 20), Score: 90, Other: 68}
	for _, c := range []struct {
		way  optimize.Way
		want string
	}{
		{optimize.Way{}, "nothing of the jacket to pull"},
		{optimize.Way{Kind: optimize.WayRested, LetGo: true}, "let go: little or nothing of the jacket is pulled, and by the end of these weeks it is out of coat"},
		{optimize.Way{Spells: []optimize.Spell{{Kind: optimize.WayRolled, From: today, To: day(6, 20)}}}, "roll week after week"},
		{
			optimize.Way{Held: true, Kind: optimize.WayRolled, Spells: []optimize.Spell{{Kind: optimize.WayRolled, From: today, To: day(6, 20)}}},
			"roll week after week (held to rolling)",
		},
		{optimize.Way{Held: true, Kind: optimize.WayStripped, Spells: []optimize.Spell{strip}}, "strip out now, to 7 February (living hair held to rolling)"},
		{
			optimize.Way{Spells: []optimize.Spell{strip, {Kind: optimize.WayRested, From: day(2, 8), To: day(4, 11)}, roll}, Other: &optimize.Other{Kind: optimize.WayRolled, Shows: []optimize.OtherShow{yarrow}}},
			"strip out now, to 7 February; rest from 8 February to 11 April; roll from 12 April. 93 at Yarrowmead; rolling only: 71",
		},
		{
			optimize.Way{Spells: []optimize.Spell{{Kind: optimize.WayStaged, From: day(3, 8), To: day(3, 28)}}, Other: &optimize.Other{Kind: optimize.WayRolled, Shows: []optimize.OtherShow{yarrow, moor}, InCoat: 9, OtherInCoat: 8}},
			"take down area by area from 8 to 28 March. 93 at Yarrowmead, 90 at Moorgate; rolling only: 71 and 68, 1 week fewer in coat",
		},
		{
			optimize.Way{Spells: []optimize.Spell{{Kind: optimize.WayRolled, From: today, To: day(6, 20)}}, Other: &optimize.Other{Kind: optimize.WayStripped, From: day(2, 8), InCoat: 25, OtherInCoat: 15}},
			"roll week after week. Strip out from 8 February: as ready at its shows, 10 weeks fewer in coat",
		},
		{
			optimize.Way{Spells: []optimize.Spell{roll}, Other: &optimize.Other{Kind: optimize.WayStripped, From: today, Shows: []optimize.OtherShow{yarrow}}},
			"roll from 12 April. 93 at Yarrowmead; strip out now: 71",
		},
	} {
		if got := Way(c.way, today); got != c.want {
			t.Errorf("%q\nwant %q", got, c.want)
		}
	}
}
