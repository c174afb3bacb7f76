package check_test

import (
	"context"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
)

// A plan that undercuts a least length is found out, and so is one that works a dog in a spell that forbids it.
func TestAPlanAgainstAnOutlineOrASpellIsFoundOut(t *testing.T) {
	k := made.TwoShown()
	k.Dogs[0].All[0].Pulled = made.Monday - 300
	r, err := optimize.Plan(context.Background(), k, made.Patterns(), optimize.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	agrees(t, check.Plan(r))
	for _, c := range []struct {
		figure string
		tamper func(*kennel.Dog)
	}{
		{"hair shorter than the outline's least length", func(d *kennel.Dog) {
			d.Outlines = []kennel.Outline{{Area: made.Patterns()[d.Pattern].Areas[0].Name, Least: 20}}
		}},
		{"sessions", func(d *kennel.Dog) {
			d.Spells = []kennel.Spell{{From: made.Monday, To: made.Monday + 111, What: kennel.SpellIllness, Growth: 1}}
		}},
		{"readiness", func(d *kennel.Dog) {
			d.Spells = []kennel.Spell{{From: made.Monday + 7, To: made.Monday + 27, What: kennel.SpellSeason, Growth: 0.3}}
		}},
	} {
		other := r
		other.Kennel = k.Clone()
		c.tamper(&other.Kennel.Dogs[0])
		found := false
		for _, d := range check.Plan(other).Differences {
			found = found || strings.Contains(d.Figure, c.figure)
		}
		if !found {
			t.Errorf("nothing says that %s is wrong", c.figure)
		}
	}
}
