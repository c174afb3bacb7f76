package desk

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
)

// shown is a plan in which dogs are so ready at shows; a show is a name, its day counts from Monday.
func shown(rows ...optimize.ShowReadiness) optimize.Result {
	r := optimize.Result{On: monday, Week0: monday, Weeks: make([]optimize.Week, 8)}
	for i, x := range rows {
		x.Chance, x.On = 1, monday.AddDays(19+7*len(x.Show))
		rows[i] = x
	}
	r.Readiness = rows
	return r
}

func at(dog, show string, score kennel.Score) optimize.ShowReadiness {
	return optimize.ShowReadiness{Dog: dog, Show: show, Score: score}
}

// First what breaks, then who pays most, at which show; little differences are apart, and so is what is new.
func TestWhatBreaksIsSaidBeforeWhoPays(t *testing.T) {
	before := shown(at("Juniper", "Oxbow", 99), at("Tansy", "Ferrydown", 91), at("Moss", "Oxbow", 60), at("Quill", "Oxbow", 85), at("Sorrel", "Oxbow", 97), at("Flint", "Oxbow", 70), at("Rowan", "Oxbow", 88))
	after := shown(at("Juniper", "Oxbow", 66), at("Tansy", "Ferrydown", 85), at("Moss", "Oxbow", 55), at("Quill", "Oxbow", 84), at("Sorrel", "Oxbow", 97), at("Flint", "Oxbow", 90),
		at("Tansy", "Brackenmere", 50))
	after.Cannot = []optimize.Cannot{
		{What: "Juniper in coat for Oxbow", Why: "hours are short"}, {What: "Tansy in coat for Brackenmere", Why: "too late"}, {What: "close trim of Tansy", Why: "no hours before 2027-02-10"},
	}
	after.Timetable.LeftOut = []optimize.LeftOut{{Week: monday, Dog: "Ember", Area: kennel.AreaBack, Share: 0.1, Minutes: 12, Why: "no time is left"}}
	v := newChangesView(before, after)
	if len(v.Breaks) != 3 || !strings.Contains(v.Breaks[0], "Juniper not in coat for Oxbow") || !strings.Contains(v.Breaks[0], "66, before 99; hours are short") ||
		v.Breaks[1] != "close trim of Tansy: no hours before Wed 10 Feb" || !strings.Contains(v.Breaks[2], "Left out: Ember") {
		t.Errorf("what breaks: %q", v.Breaks)
	}
	rows := func(all []readyView) (words []string) {
		for _, x := range all {
			words = append(words, fmt.Sprintf("%s %s %s %s %s", x.Dog, x.Show, x.Before, x.After, x.Change))
		}
		return words
	}
	for _, c := range []struct {
		what string
		got  []readyView
		want []string
	}{
		{"who pays", v.Pays, []string{"Juniper Oxbow 99 66 −33", "Tansy Ferrydown 91 85 −6", "Moss Oxbow 60 55 −5"}},
		{"who gains", v.Gains, []string{"Flint Oxbow 70 90 +20"}},
		{"little", v.Little, []string{"Quill Oxbow 85 84 −1"}},
		{"new", v.New, []string{"Tansy Brackenmere - 50 +50"}},
		{"gone", v.Gone, []string{"Rowan Oxbow 88 - −88"}},
	} {
		if got := rows(c.got); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
	if v.Same != 1 || !v.New[0].Bad || v.New[0].Why != "too late" {
		t.Errorf("%d as before; new: %+v", v.Same, v.New)
	}
}

// The same plan twice breaks nothing.
func TestTheSamePlanBreaksNothing(t *testing.T) {
	r := opened(t).use().Result
	v := newChangesView(r, r)
	if len(v.Breaks)+len(v.Pays)+len(v.Gains)+len(v.Little)+len(v.New)+len(v.Gone) != 0 || v.Same != len(r.Readiness) {
		t.Errorf("%+v", v)
	}
}
