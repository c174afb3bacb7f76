package timetable

import (
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/planned"
)

// Work that is too short for the clock gets its minute from the break before it, else from what comes after it; at midnight from
// what comes before it. A dog stays at one table at a time.
func TestKeepMinutes(t *testing.T) {
	item := func(kind planned.ItemKind, dog string, from, to kennel.Clock) planned.Item {
		return planned.Item{Kind: kind, Dog: dog, Start: from, End: to}
	}
	for _, c := range []struct {
		name      string
		was, want [][]planned.Item
	}{
		{
			"from the break",
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 590), item(planned.ItemBreak, "", 590, 600), item(planned.ItemSession, "Moss", 600, 600), item(planned.ItemDuty, "Sorrel", 600, 610)}},
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 590), item(planned.ItemBreak, "", 590, 599), item(planned.ItemSession, "Moss", 599, 600), item(planned.ItemDuty, "Sorrel", 600, 610)}},
		},
		{
			"from what comes after it, up to a gap",
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 540), item(planned.ItemSession, "Sorrel", 540, 560), item(planned.ItemSession, "Bracken", 570, 580)}},
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 541), item(planned.ItemSession, "Sorrel", 541, 561), item(planned.ItemSession, "Bracken", 570, 580)}},
		},
		{
			"up to a break, which is shorter then",
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 540), item(planned.ItemSession, "Sorrel", 540, 590), item(planned.ItemBreak, "", 590, 600), item(planned.ItemSession, "Sorrel", 600, 610)}},
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 541), item(planned.ItemSession, "Sorrel", 541, 591), item(planned.ItemBreak, "", 591, 600), item(planned.ItemSession, "Sorrel", 600, 610)}},
		},
		{
			"at midnight from what comes before it",
			[][]planned.Item{{item(planned.ItemSession, "Moss", 1420, 1440), item(planned.ItemSession, "Sorrel", 1440, 1440)}},
			[][]planned.Item{{item(planned.ItemSession, "Moss", 1419, 1439), item(planned.ItemSession, "Sorrel", 1439, 1440)}},
		},
		{
			"on two tables",
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 540), item(planned.ItemSession, "Sorrel", 540, 560)}, {item(planned.ItemSession, "Sorrel", 560, 570)}},
			[][]planned.Item{{item(planned.ItemSession, "Moss", 540, 541), item(planned.ItemSession, "Sorrel", 541, 561)}, {item(planned.ItemSession, "Sorrel", 561, 571)}},
		},
		{
			"not from days of travel",
			[][]planned.Item{{item(planned.ItemTravel, "", 0, 1440), item(planned.ItemTravel, "", 0, 1440)}},
			[][]planned.Item{{item(planned.ItemTravel, "", 0, 1440), item(planned.ItemTravel, "", 0, 1440)}},
		},
	} {
		var hands []planned.HandsDay
		for h, items := range c.was {
			hands = append(hands, planned.HandsDay{Hands: []string{"Handler", "Assistant"}[h], Items: items})
		}
		keepMinutes(hands)
		for h := range hands {
			if !reflect.DeepEqual(hands[h].Items, c.want[h]) {
				t.Errorf("%s: %+v, want %+v", c.name, hands[h].Items, c.want[h])
			}
		}
	}
}
