package optimize

import (
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// shortest is the most of an area that is shorter than so many weeks' growth at the end of a week in which it is pulled.
func shortest(r Result, dog kennel.Dog, area kennel.AreaName, weeks int) (most float64) {
	shares := pulled(r, dog.Name, area)
	for t, share := range shares {
		if share == 0 {
			continue
		}
		short := 0.0
		for u := max(0, t-weeks+1); u <= t; u++ {
			short += shares[u]
		}
		for _, l := range dog.LayersOn(area) {
			if w := kennel.WeekOf(l.Pulled, r.Week0); w > t-weeks && w <= 0 {
				short += float64(l.Share)
			}
		}
		most = max(most, short)
	}
	return most
}

// A blown coat that would be stripped out keeps half of its hair at the least length where one is given, dead hair with it, and the other
// areas and dogs are worked as ever.
func TestALeastLengthIsKept(t *testing.T) {
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 20, Hands: []kennel.Hands{made.Ample()},
		Dogs:  []kennel.Dog{made.EvenDog("Moss", "rough", 40), made.EvenDog("Sorrel", "rough", 40)},
		Shows: []kennel.Show{made.ShowOn("Yarrowmead", 131, "Moss", "Sorrel")},
	}
	area := made.Patterns()["rough"].Areas[0].Name
	usual := shortest(planOf(t, k), k.Dogs[0], area, 10)
	if usual <= 0.6 {
		t.Fatalf("without a rule no more than %v of it is short", usual)
	}
	k.Dogs[0].Outlines = []kennel.Outline{{Area: area, Least: 20}} // ten weeks at 0.3 mm a day
	r := planOf(t, k)
	if most := shortest(r, k.Dogs[0], area, 10); most > 0.5+1e-5 || most == 0 {
		t.Errorf("%v of it is shorter than the least length", most)
	}
	if most := shortest(r, k.Dogs[1], area, 10); most <= 0.6 {
		t.Errorf("the other dog has no rule, and only %v of it is short", most)
	}
}

// A note changes no plan.
func TestANoteOnTheOutlineChangesNoPlan(t *testing.T) {
	k := spelled()
	was, err := Problem(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	k.Dogs[0].Outlines = []kennel.Outline{{Area: kennel.AreaWithers, Note: "leave the base long"}}
	is, err := Problem(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(was, is) {
		t.Error("it does")
	}
	if x := dogsSince(planOf(t, spelled()), spelled(), Now{On: made.Monday, Kennel: k, Patterns: made.Patterns()}); len(x) > 0 {
		t.Errorf("it is said to have changed: %v", x)
	}
	k.Dogs[0].Outlines[0].Least = 20
	if x := dogsSince(planOf(t, spelled()), spelled(), Now{On: made.Monday, Kennel: k, Patterns: made.Patterns()}); len(x) != 1 {
		t.Errorf("a least length is said to have changed: %v", x)
	}
}
