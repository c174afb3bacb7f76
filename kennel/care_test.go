package kennel

import (
	"math"
	"reflect"
	"testing"
)

// keptPattern is a jacket with furnishings, which want care every other week.
func keptPattern() Pattern {
	legs := areaWith(AreaFurnishings, 0.3, 40, 52)
	legs.Work, legs.Kept = SkillFurnishings, true
	return Pattern{
		Name: "kept", Areas: []PatternArea{areaWith(AreaRibs, 0.7, 11, 7), legs},
		Care: Care{Minutes: figureOf(15), Every: figureOf(2)},
	}
}

// What is said of all areas says nothing of kept hair: without a line of its own it is whole, however long ago.
func TestKeptHairIsWholeUnlessDamageIsNamed(t *testing.T) {
	p := keptPattern()
	for _, all := range [][]Layer{{pulledWeeks(1, 0)}, {pulledWeeks(1, -80)}, {pulledWeeks(0.5, -3)}} {
		c, err := NewDogCoat(Dog{All: all}, p, week0)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range []int{-1, 0, 30, 200} {
			if s := c.Areas[1].Score(w); s != 100 {
				t.Errorf("%v: furnishings %.0f in week %d", all, s, w)
			}
			if d := c.Areas[1].Rule.DeadShare(c.Areas[1].Curve, w); d != 0 {
				t.Errorf("%v: %g of it is dead in week %d", all, d, w)
			}
		}
	}
	if _, err := NewDogCoat(Dog{All: nil}, p, week0); err == nil {
		t.Error("ribs of which nothing is known were taken")
	}
}

// What was lost is missed for most of a year, and comes back.
func TestLostKeptHairComesBackInMostOfAYear(t *testing.T) {
	c, err := NewDogCoat(Dog{All: []Layer{pulledWeeks(1, -14)}, Areas: []AreaCoat{{AreaFurnishings, []Layer{pulledWeeks(0.4, 0)}}}}, keptPattern(), week0)
	if err != nil {
		t.Fatal(err)
	}
	// 0.8*(0.4-0.05) + 1.0*(0.4-0.05) = 0.63 until 29 weeks, then 0.35 until 40
	for week, want := range map[int]float64{0: 37, 28: 37, 29: 65, 39: 65, 40: 100, 150: 100} {
		if s := c.Areas[1].Score(week); math.Abs(float64(s)-want) > 1e-9 {
			t.Errorf("week %d: %.1f, want %.0f", week, s, want)
		}
	}
	if area, _, why := c.Worst(5); area != AreaFurnishings || why != "40 % is not back yet" {
		t.Errorf("worst is %s: %s", area, why)
	}
	if s := c.ShowScore(0); math.Abs(float64(s)-67) > 1e-9 {
		t.Errorf("with two fifths of its legs gone it is %.1f at a show", s)
	}
}

// A tip leaves no gap; more than that is lost from the longest, and none of it is ever a jacket's layer.
func TestWorkOnKeptHairIsATipOrALoss(t *testing.T) {
	d := Dog{Name: "Moss", All: []Layer{pulledWeeks(1, -14)}}
	work := func(share Share) Work {
		return Work{Dog: "Moss", On: week0, Areas: []Pulled{{AreaFurnishings, share}}}
	}
	if got := d.Worked(keptPattern(), work(0.02)); len(got.Areas) != 0 {
		t.Errorf("a tip left %v", got.Areas)
	}
	got := d.Worked(keptPattern(), work(0.25))
	if want := []AreaCoat{{AreaFurnishings, []Layer{{0.25, week0}}}}; !reflect.DeepEqual(got.Areas, want) {
		t.Errorf("a quarter pulled left %v, want %v", got.Areas, want)
	}
}

func TestCareIsADutyOfDogsWithKeptHair(t *testing.T) {
	pats := Patterns{"kept": keptPattern(), "plain": plainPattern()}
	nails := Duty{Name: "nails", Minutes: 10, Every: 3}
	own := Duty{Name: "Wash Legs & beard", Minutes: 30, Every: 1}
	k := Kennel{Dogs: []Dog{
		{Name: "Moss", Pattern: "kept", Duties: []Duty{nails}},
		{Name: "Sorrel", Pattern: "kept", Duties: []Duty{own}},
		{Name: "Tansy", Pattern: "plain", Duties: []Duty{nails}},
		{Name: "Rowan", Pattern: "unknown"},
	}}
	before := k.Clone()
	got := WithCare(k, pats)
	care := Duty{Name: "legs and beard", Minutes: 15, Every: 2, Work: SkillFurnishings}
	for i, want := range [][]Duty{{nails, care}, {own}, {nails}, nil} {
		if !reflect.DeepEqual(got.Dogs[i].Duties, want) {
			t.Errorf("%s has %v, want %v", k.Dogs[i].Name, got.Dogs[i].Duties, want)
		}
	}
	if !reflect.DeepEqual(k, before) {
		t.Error("the kennel itself was changed")
	}
	if again := WithCare(got, pats); !reflect.DeepEqual(again, got) {
		t.Errorf("twice is not once: %v", again)
	}
	if care.Skill() != SkillFurnishings || own.Skill() != SkillFurnishings || nails.Skill() != SkillDuties {
		t.Error("care is the work of hands that do furnishings, other duties are not")
	}
	for name, care := range map[string]bool{"furnishings": true, "comb the legs": true, "beard": true, "bath": false, "elegant finish": false, "leg hair": true} {
		if (Duty{Name: name}).Care() != care {
			t.Errorf("%q is care: %v", name, !care)
		}
	}
}

// Of kept hair only what counts is shown: its part of the dog, and the weeks in which a loss comes back.
func TestFiguresOfKeptHairAreThoseThatCount(t *testing.T) {
	var names, care []string
	for _, f := range keptPattern().Figures() {
		switch f.Area {
		case AreaFurnishings:
			names = append(names, f.Name)
		case "":
			care = append(care, f.Name)
		}
	}
	if !reflect.DeepEqual(names, []string{"weight", "ready"}) || !reflect.DeepEqual(care, []string{"roll_most", "look", "care.minutes", "care.every"}) {
		t.Errorf("%v, %v", names, care)
	}
}
