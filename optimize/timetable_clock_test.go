package optimize

import (
	"reflect"
	"testing"

	"tuckup/kennel"
)

// Work that is too short for the clock gets its minute from the break before it, else from what comes after it; at midnight from
// what comes before it. A dog stays at one table at a time.
func TestKeepMinutes(t *testing.T) {
	item := func(kind ItemKind, dog string, from, to kennel.Clock) Item {
		return Item{Kind: kind, Dog: dog, Start: from, End: to}
	}
	for _, c := range []struct {
		name      string
		was, want [][]Item
	}{
		{
			"from the break",
			[][]Item{{item(ItemSession, "Moss", 540, 590), item(ItemBreak, "", 590, 600), item(ItemSession, "Moss", 600, 600), item(ItemDuty, "Sorrel", 600, 610)}},
			[][]Item{{item(ItemSession, "Moss", 540, 590), item(ItemBreak, "", 590, 599), item(ItemSession, "Moss", 599, 600), item(ItemDuty, "Sorrel", 600, 610)}},
		},
		{
			"from what comes after it, up to a gap",
			[][]Item{{item(ItemSession, "Moss", 540, 540), item(ItemSession, "Sorrel", 540, 560), item(ItemSession, "Bracken", 570, 580)}},
			[][]Item{{item(ItemSession, "Moss", 540, 541), item(ItemSession, "Sorrel", 541, 561), item(ItemSession, "Bracken", 570, 580)}},
		},
		{
			"up to a break, which is shorter then",
			[][]Item{{item(ItemSession, "Moss", 540, 540), item(ItemSession, "Sorrel", 540, 590), item(ItemBreak, "", 590, 600), item(ItemSession, "Sorrel", 600, 610)}},
			[][]Item{{item(ItemSession, "Moss", 540, 541), item(ItemSession, "Sorrel", 541, 591), item(ItemBreak, "", 591, 600), item(ItemSession, "Sorrel", 600, 610)}},
		},
		{
			"at midnight from what comes before it",
			[][]Item{{item(ItemSession, "Moss", 1420, 1440), item(ItemSession, "Sorrel", 1440, 1440)}},
			[][]Item{{item(ItemSession, "Moss", 1419, 1439), item(ItemSession, "Sorrel", 1439, 1440)}},
		},
		{
			"on two tables",
			[][]Item{{item(ItemSession, "Moss", 540, 540), item(ItemSession, "Sorrel", 540, 560)}, {item(ItemSession, "Sorrel", 560, 570)}},
			[][]Item{{item(ItemSession, "Moss", 540, 541), item(ItemSession, "Sorrel", 541, 561)}, {item(ItemSession, "Sorrel", 561, 571)}},
		},
		{
			"not from days of travel",
			[][]Item{{item(ItemTravel, "", 0, 1440), item(ItemTravel, "", 0, 1440)}},
			[][]Item{{item(ItemTravel, "", 0, 1440), item(ItemTravel, "", 0, 1440)}},
		},
	} {
		var hands []HandsDay
		for h, items := range c.was {
			hands = append(hands, HandsDay{Hands: []string{"Handler", "Assistant"}[h], Items: items})
		}
		keepMinutes(hands)
		for h := range hands {
			if !reflect.DeepEqual(hands[h].Items, c.want[h]) {
				t.Errorf("%s: %+v, want %+v", c.name, hands[h].Items, c.want[h])
			}
		}
	}
}
