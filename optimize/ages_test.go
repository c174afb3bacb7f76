package optimize

import (
	"math"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// Kept hair is never too long; its ages tell what was lost.
func TestAgesOfKeptHairTellWhatWasLost(t *testing.T) {
	a := kennel.PatternArea{Name: kennel.AreaFurnishings, Kept: true}
	a.Ready.Value, a.Hold.Value = 40, 52
	curve := kennel.NewCurve([]kennel.Layer{{Share: 0.25, Pulled: made.Monday.AddDays(-20 * 7)}}, made.Monday)
	o := areaOutlook(kennel.AreaCoatNow{PatternArea: a, Rule: a.RuleFor(1), Curve: curve}, 0)
	if o.Over != 0 || o.Ready != 40 || len(o.Ages) < 40 || o.Ages[20] != 0.25 || o.Older != 0.75 {
		t.Errorf("%+v", o)
	}
}

// A layer stands at its age in weeks, hair that nobody pulled is older than all, and all of it adds up to the whole.
func TestAgesOfHairAreThoseOfItsLayers(t *testing.T) {
	week0 := kennel.NewDate(2027, 1, 4)
	layers := []kennel.Layer{{Share: 0.25, Pulled: week0.AddDays(-21)}, {Share: 0.5, Pulled: week0.AddDays(-70)}}
	o := areaOutlook(kennel.AreaCoatNow{Rule: kennel.NewRule(11, 7, 1), Curve: kennel.NewCurve(layers, week0)}, 0)
	sum := o.Older
	for age, share := range o.Ages {
		sum += share
		want := map[int]kennel.Share{3: 0.25, 10: 0.5}[age]
		if math.Abs(float64(share-want)) > 1e-9 {
			t.Errorf("%v is %d weeks old, want %v", share, age, want)
		}
	}
	if math.Abs(float64(o.Older-0.25)) > 1e-9 || math.Abs(float64(sum-1)) > 1e-9 || o.Ready != 11 || o.Over != 18 {
		t.Errorf("older %v, all %v, ready %d, over %d", o.Older, sum, o.Ready, o.Over)
	}
}
