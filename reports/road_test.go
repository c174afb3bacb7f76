package reports

import (
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

func roadOf(t *testing.T, born kennel.Date, ways []optimize.Spell, roll bool) []string {
	t.Helper()
	r := sample.Result()
	r.Kennel = r.Kennel.Clone()
	d := &r.Kennel.Dogs[0]
	d.Born, d.Coat.RollOnly = born, roll
	r.Ways = []optimize.Way{{Dog: d.Name, Spells: ways}}
	for i := range r.Kennel.Shows {
		r.Kennel.Shows[i].Dogs = []string{d.Name}
	}
	return say.PuppyRoad(r, *d)
}

// A puppy's road goes by its birthday and by what is planned; a grown dog has none.
func TestAPuppysRoadGoesByItsBirthdayAndThePlan(t *testing.T) {
	r := sample.Result()
	if road := roadOf(t, r.On-366, nil, false); road != nil {
		t.Errorf("a dog of a year has %q", road)
	}
	if road := roadOf(t, 0, nil, false); road != nil {
		t.Errorf("a dog without a birthday has %q", road)
	}
	born := kennel.NewDate(2026, 8, 20)
	down := []optimize.Spell{{Kind: optimize.WayStaged, From: r.On + 14, To: r.On + 41}, {Kind: optimize.WayRolled, From: r.On + 70, To: r.On + 100}}
	first := r.Kennel.Shows[0]
	for _, s := range r.Kennel.Shows {
		if s.On >= kennel.NewDate(2027, 2, 20) && (first.On < kennel.NewDate(2027, 2, 20) || s.On < first.On) {
			first = s
		}
	}
	road := strings.Join(roadOf(t, born, down, false), " ")
	for _, want := range []string{
		"To Thu 19 Aug, when it is a year old: fingers or stone, no metal knife", "the plan does so from " + say.Day(r.On+14, r.On) + " to " + say.Day(r.On+41, r.On),
		"The plan rolls it from " + say.Day(r.On+70, r.On), "It will be six months old on Sat 20 Feb", "the governing body",
		first.Name + " on " + say.Day(first.On, r.On) + ", at " + kennel.AgeWords(born, first.On),
	} {
		if !strings.Contains(road, want) {
			t.Errorf("it lacks %q: %s", want, road)
		}
	}
	if road := strings.Join(roadOf(t, born, down[1:], true), " "); !strings.Contains(road, "held to rolling") {
		t.Error(road)
	}
	if road := strings.Join(roadOf(t, born, down[1:], false), " "); !strings.Contains(road, "does not take it off at once, it rolls from") {
		t.Error(road)
	}
	if road := strings.Join(roadOf(t, born, nil, false), " "); !strings.Contains(road, "does not do so in these weeks") {
		t.Error(road)
	}
}

func TestThePlanHasThePuppysRoad(t *testing.T) {
	r := sample.Result()
	r.Kennel = r.Kennel.Clone()
	r.Kennel.Dogs[0].Born = r.On - 150
	if page := pageOf(t, Plan, r, layout.Look{}); !strings.Contains(page, "PUPPIES  the road to the first show coat") || !strings.Contains(page, "no metal knife") {
		t.Error("it does not")
	}
	r.Kennel.Dogs[0].Born = 0
	if page := pageOf(t, Plan, r, layout.Look{}); strings.Contains(page, "PUPPIES") {
		t.Error("there is no puppy")
	}
}
