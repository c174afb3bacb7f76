package hours

import (
	"reflect"
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// finishPatterns are a pattern with two lines before a show: one that lasts to the next weekend, and one that does not.
func finishPatterns() kennel.Patterns {
	of := func(v float64) kennel.Figure { return kennel.Figure{Value: v, Low: v, High: v} }
	return kennel.Patterns{"fox": {Name: "fox", Finish: []kennel.FinishLine{
		{Name: "ears", Work: kennel.SkillClose, Minutes: of(20), From: of(14), To: of(7), Lasts: of(17)},
		{Name: "legs washed", Work: kennel.SkillFurnishings, Minutes: of(15), From: of(3), To: of(1), Lasts: of(3)},
	}}}
}

// finishKennel is Sorrel and two people on weekdays: one who does all, one who does duties and furnishings.
func finishKennel(shows ...kennel.Show) kennel.Kennel {
	return kennel.Kennel{
		Hands: []kennel.Hands{
			{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{3, 3, 3, 3, 3}},
			{Name: "Assistant", Hours: [kennel.DaysAWeek]kennel.Hours{1, 1, 1, 1, 1}, Does: []kennel.Skill{kennel.SkillDuties, kennel.SkillFurnishings}},
		},
		Dogs:  []kennel.Dog{{Name: "Sorrel", Pattern: "fox"}},
		Shows: shows,
	}
}

// placeFinish places what the pattern brings for the kennel planned from the Monday on.
func placeFinish(k kennel.Kennel, done ...kennel.Work) Placed {
	k = kennel.WithCare(k, finishPatterns())
	return PlaceDuties(k, finishPatterns(), NewDiary(k, planned.Options{On: made.Monday, StripHours: 4}, 8), done)
}

// What is done for one show and still right at the next is done once, on days that are good for both, and says so.
func TestTwoShowsOnNeighbouringWeekendsShareWhatLasts(t *testing.T) {
	placed := placeFinish(finishKennel(made.ShowOn("Brackenmere", 26, "Sorrel"), made.ShowOn("Dunmarrow", 33, "Sorrel")))
	want := []Duty{ // ears: 12 to 19 days on for the first, from 16 on for both
		{Duty: 0, Week: 2, From: made.Monday.AddDays(16), To: made.Monday.AddDays(19), Shows: []int{0, 1}},
		{Duty: 1, Week: 3, From: made.Monday.AddDays(23), To: made.Monday.AddDays(25), Shows: []int{0}},
		{Duty: 1, Week: 4, From: made.Monday.AddDays(30), To: made.Monday.AddDays(32), Shows: []int{1}},
	}
	if !reflect.DeepEqual(placed.Duties, want) || len(placed.Cannot)+len(placed.NotDone) != 0 {
		t.Errorf("placed %+v, %+v", placed.Duties, placed.Cannot)
	}
	if why := placed.Duties[0].Words(finishKennel(made.ShowOn("Brackenmere", 26), made.ShowOn("Dunmarrow", 33)).Shows, func(s kennel.Show) string { return s.Name }); why != "for Brackenmere and Dunmarrow" {
		t.Errorf("it says %q", why)
	}
}

// A show that more likely than not is missed brings no finishing; a duty of the kennel's own is for any show.
func TestOnlyShowsThatCountAreFinishedFor(t *testing.T) {
	hoped := made.ShowOn("Brackenmere", 26, "Sorrel")
	for chance, n := range map[float64]int{0.3: 0, 0.5: 2, 1: 2} {
		hoped.Chance = chance
		if placed := placeFinish(finishKennel(hoped)); len(placed.Duties) != n {
			t.Errorf("chance %g: %+v", chance, placed.Duties)
		}
	}
	k := finishKennel(hoped)
	hoped.Chance, k.Shows[0].Chance = 0.3, 0.3
	k.Dogs[0].Duties = []kennel.Duty{{Name: "bath", Minutes: 20, Before: &kennel.BeforeShow{From: 9, To: 5}}}
	if placed := placeFinish(k); len(placed.Duties) != 1 {
		t.Errorf("a bath of the kennel's own: %+v", placed.Duties)
	}
}

// The care that comes round is part of what is done on the legs before a show: not both in one week.
func TestCareIsPartOfTheFinish(t *testing.T) {
	pats := finishPatterns()
	fox := pats["fox"]
	fox.Undercoat = kennel.Care{Minutes: fox.Finish[0].Minutes, Every: kennel.Figure{Value: 1}}
	pats["fox"] = fox
	k := finishKennel(made.ShowOn("Brackenmere", 19, "Sorrel"))
	k.Dogs[0].Duties = []kennel.Duty{{Name: "comb the beard", Minutes: 5, Every: 1}} // of the kennel's own: it stays
	k.Dogs = append(k.Dogs, kennel.Dog{Name: "Moss", Duties: slices.Repeat([]kennel.Duty{{Name: "nails", Minutes: 1, Before: &kennel.BeforeShow{From: 9, To: 1}}}, 5)})
	k.Shows[0].Dogs = append(k.Shows[0].Dogs, "Moss")
	k = kennel.WithCare(k, pats)
	weeks := map[string][]int{}
	for _, d := range PlaceDuties(k, pats, NewDiary(k, planned.Options{On: made.Monday, StripHours: 4}, 4), nil).Duties {
		if d.Dog != 0 {
			continue
		}
		name := k.Dogs[0].Duties[d.Duty].Name
		weeks[name] = append(weeks[name], d.Week)
	}
	want := map[string][]int{"comb the beard": {0, 1, 2, 3}, "undercoat": {0, 1, 3}, "legs washed": {2}, "ears": {0}}
	if got := weeks["ears"]; len(got) == 1 {
		want["ears"] = got
	}
	if !reflect.DeepEqual(weeks, want) {
		t.Errorf("%v, want %v", weeks, want)
	}
}

// What each person has of a day is counted: duties for shows that would fit one by one, and not together, are not all promised.
func TestDutiesBeforeShowsFitTheirDaysTogether(t *testing.T) {
	k := finishKennel(made.ShowOn("Brackenmere", 25, "Sorrel", "Moss", "Fen"))
	k.Hands = k.Hands[1:] // an hour a day, no trims
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{0, 0, 0, 0.5, 3}
	for _, name := range []string{"Moss", "Fen"} {
		k.Dogs = append(k.Dogs, kennel.Dog{Name: name, Pattern: "fox"})
	}
	placed := placeFinish(k) // washed on Thursday only: half an hour for three times 15 minutes, show on Friday
	washed := 0
	for _, d := range placed.Duties {
		if d.Duty == 1 {
			washed++
		}
	}
	not := map[int]int{}
	for _, n := range placed.NotDone {
		not[n.Duty]++
	}
	if washed != 2 || not[1] != 1 || not[0] != 3 {
		t.Errorf("%d washed, not done: %+v, %+v", washed, placed.NotDone, placed.Cannot)
	}
}

// What was done, as the records or the file say it, is not done again while it lasts, by its own name or as part of more.
func TestFinishingThatIsDoneIsNotPlannedAgain(t *testing.T) {
	for name, c := range map[string]struct {
		done []kennel.Work
		file []kennel.Duty
		want int
	}{
		"nothing done":        {nil, nil, 2},
		"ears in a record":    {[]kennel.Work{{Dog: "Sorrel", Duty: "ears", On: made.Monday - 3, Minutes: 20}}, nil, 1},
		"ears among others":   {[]kennel.Work{{Dog: "Sorrel", Duty: "Ears, cheeks", On: made.Monday - 3, Minutes: 20}}, nil, 1},
		"ears in the file":    {nil, []kennel.Duty{{Name: "ears", Done: made.Monday - 3}}, 1},
		"ears too long ago":   {nil, []kennel.Duty{{Name: "ears", Done: made.Monday - 6}}, 2},
		"another dog's":       {[]kennel.Work{{Dog: "Moss", Duty: "ears", On: made.Monday - 3, Minutes: 20}}, nil, 2},
		"left out":            {nil, []kennel.Duty{{Name: "ears", LeaveOut: true}}, 1},
		"a duty of that name": {nil, []kennel.Duty{{Name: "Ears", Minutes: 9, Every: 8}}, 2},
	} {
		k := finishKennel(made.ShowOn("Brackenmere", 12, "Sorrel"))
		k.Dogs[0].Duties = c.file
		if placed := placeFinish(k, c.done...); len(placed.Duties) != c.want || len(placed.Cannot) != 0 {
			t.Errorf("%s: %+v, %+v", name, placed.Duties, placed.Cannot)
		}
	}
}

// A bath that lifts the coat comes on no day within two weeks of a show: late it is left out, and the show says so. One bath is for two
// shows where the first bars all days before the second.
func TestABathThatLiftsNeverComesNearAShow(t *testing.T) {
	bath := func(from, to int) []kennel.Duty {
		return []kennel.Duty{{Name: "bath", Minutes: 20, Before: &kennel.BeforeShow{From: from, To: to}}}
	}
	lifting := []kennel.Duty{{Name: "lifting bath", Minutes: 20, Before: &kennel.BeforeShow{From: 9, To: 2}}}
	round := []kennel.Duty{{Name: "lifting bath", Minutes: 20, Every: 1}}
	for name, c := range map[string]struct {
		duties []kennel.Duty
		shows  []int // days from the Monday
		done   []kennel.Work
		baths  []int // weeks
		not    int
	}{
		"in time":                        {bath(21, 15), []int{26}, nil, []int{1}, 0},
		"late":                           {bath(21, 15), []int{12}, nil, nil, 1},
		"late, while there are days":     {bath(40, 36), []int{20}, nil, []int{0}, 0},
		"near as the handler wants it":   {bath(9, 5), []int{12}, nil, []int{0}, 0},
		"by its name":                    {lifting, []int{26}, nil, nil, 1},
		"between two shows":              {bath(21, 15), []int{26, 33}, nil, []int{1}, 0},
		"three shows":                    {bath(21, 15), []int{26, 33, 40}, nil, []int{1}, 0},
		"after the first of two":         {bath(21, 15), []int{26, 46}, nil, []int{1, 4}, 0},
		"done for the first":             {bath(21, 15), []int{12, 19}, []kennel.Work{{Dog: "Sorrel", Duty: "bath", On: made.Monday - 4}}, nil, 0},
		"done too long before the first": {bath(21, 15), []int{12, 19}, []kennel.Work{{Dog: "Sorrel", Duty: "bath", On: made.Monday - 20}}, nil, 2},
		"every week":                     {round, []int{26}, nil, []int{0, 1, 4, 5, 6, 7}, 0},
	} {
		k := kennel.Kennel{Hands: finishKennel().Hands, Dogs: []kennel.Dog{{Name: "Sorrel", Duties: c.duties}}}
		for n, day := range c.shows {
			k.Shows = append(k.Shows, made.ShowOn([]string{"Brackenmere", "Dunmarrow", "Ashgillan"}[n], day, "Sorrel"))
		}
		placed := PlaceDuties(k, nil, NewDiary(k, planned.Options{On: made.Monday, StripHours: 4}, 8), c.done)
		var weeks []int
		for _, d := range placed.Duties {
			weeks = append(weeks, d.Week)
			for _, s := range k.Shows {
				if c.duties[0].Lifts() && d.To >= s.On-kennel.NoBathDays && d.From <= s.Last() {
					t.Errorf("%s: a bath from %s to %s, %s is on %s", name, d.From, d.To, s.Name, s.On)
				}
			}
		}
		if !slices.Equal(weeks, c.baths) || len(placed.NotDone) != c.not || len(placed.Cannot) != c.not {
			t.Errorf("%s: baths in weeks %v, want %v; not done %v, %v", name, weeks, c.baths, placed.NotDone, placed.Cannot)
		}
	}
}
