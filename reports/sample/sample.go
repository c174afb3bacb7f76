// Package sample has plans made by hand for the tests of reports, and names that try to do harm.
package sample

import (
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Names that try to do harm: a terminal's codes, a spreadsheet's formulas, text written right to left, a name far
// too long.
const (
	TerminalName = "Bad\x1b[2J\x1b]0;x\x07Dog\u202e\u009b31m"
	FormulaName  = "=cmd|' /C calc'!A0,\"x\"\r\ny"
	HebrewName   = "כלב 12"
	LongName     = "Averyveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryveryverylongnameindeed of 犬犬犬犬犬犬犬犬犬犬犬犬犬犬犬犬"
)

// Date is a day of 2027, the year of the sample.
func Date(month time.Month, day int) kennel.Date { return kennel.NewDate(2027, month, day) }

// Result is a small plan of two weeks, made by hand.
func Result() optimize.Result {
	return optimize.Result{
		Kennel: kennel.Kennel{
			Name:  "Thornfield",
			Hands: []kennel.Hands{{Name: "Handler"}, {Name: "Assistant"}},
			Dogs:  []kennel.Dog{{Name: "Sorrel", Owner: "R. Calloway"}, {Name: "Moss", Owner: ""}},
			Shows: []kennel.Show{{Name: "Fallowgate Open", On: kennel.NewDate(2028, 1, 8), EntriesClose: Date(12, 20), Chance: 0.5}, {Name: "Ashgillan Show", On: kennel.NewDate(2028, 2, 5), Dogs: []string{"Moss"}}},
		},
		On: Date(1, 5), Week0: Date(1, 4),
		Season: optimize.Season{
			Objective: 41.2, Bound: 41.3, Gap: 0.1 / 41.3, Seconds: 1.23456, Rounds: 30,
			HourPrice: []optimize.HourPrice{{Week: Date(1, 11), Hands: "Handler", PointsPerHour: 0.41234567}},
		},
		Weeks: []optimize.Week{
			{
				Week: Date(1, 4), Hours: 27, Planned: (10.005 + 20.333333 + 12 + 12 + 33.3333335 + 10 + 10) / 60,
				Dogs: []optimize.DogWeek{
					{
						Dog: "Sorrel", Sessions: 1, Minutes: 30.338333, SetUp: 12,
						Areas: []optimize.AreaWork{
							{Area: kennel.AreaSkirtLine, Share: 1. / 17, Minutes: 10.005, Work: kennel.SkillJacket},
							{Area: kennel.AreaEars, Share: 0.125, Minutes: 20.333333, Work: kennel.SkillClose},
						},
						Lift: "back-comb with powder", Tool: "fingers and stone", Why: "Brackenmere Terrier Club in 10 weeks",
					},
					{
						Dog: "Moss", Sessions: 1, Minutes: 33.3333335, SetUp: 12,
						Areas: []optimize.AreaWork{{Area: kennel.AreaBack, Share: 0.2, Minutes: 33.3333335, Work: kennel.SkillJacket}},
						Why:   "keep rolling",
					},
				},
				Duties: []optimize.DutyWork{
					{Dog: "Sorrel", Name: "nails", Minutes: 10, Why: "every week"},
					{Dog: "Moss", Name: "nails", Minutes: 10, Why: "every week"},
				},
				Hands: []optimize.HandsWeek{
					{
						Hands: "Handler", Hours: 22, Planned: (30 + 24) / 60.,
						Given: []optimize.Given{{Work: kennel.SkillJacket, Minutes: 43.3383335}, {Work: optimize.SetUp, Minutes: 24}, {Work: kennel.SkillClose, Minutes: 5}},
					},
					{
						Hands: "Assistant", Hours: 5, Planned: 35 / 60.,
						Given: []optimize.Given{{Work: kennel.SkillClose, Minutes: 15.333333}, {Work: kennel.SkillDuties, Minutes: 20}},
					},
				},
			},
			{Week: Date(1, 11), Hours: 0, Hands: []optimize.HandsWeek{{Hands: "Handler"}}},
		},
		Readiness: []optimize.ShowReadiness{
			{
				Dog: "Sorrel", Show: "Brackenmere Terrier Club", On: Date(3, 20), Chance: 1, Score: 91.6, Idle: 20, Low: 83.6, High: 97, Likely: 0.93333,
				WorstArea: kennel.AreaRibs, WorstScore: 71.2, Why: "58 % is under 11 weeks",
				Cure: &optimize.Cure{
					Work:  []optimize.CureWork{{Area: kennel.AreaSkull, Share: 0.5, Minutes: 15, By: Date(3, 2)}, {Area: kennel.AreaEars, Share: 1, Minutes: 30, By: Date(2, 27)}},
					Score: 84,
				},
				NotDone: []string{"feet, belly", "tail"},
			},
			{Dog: "Moss", Show: "Brackenmere Terrier Club", On: Date(3, 20), Chance: 1, Score: 88, Low: 79.4, High: 91, Likely: 0.999, WorstArea: kennel.AreaBack, WorstScore: 80},
			{Dog: "Moss", Show: "Fallowgate Open", On: kennel.NewDate(2028, 1, 8), Chance: 0.5, Score: 100, Low: 100, High: 100, Likely: 1, WorstArea: kennel.AreaBack, WorstScore: 99.6},
		},
		Outlooks: []optimize.Outlook{
			{
				Dog: "Sorrel", State: kennel.StateInCoat, Score: 90,
				Idle:    []kennel.Window{{From: Date(1, 5), To: Date(2, 1)}},
				Planned: []kennel.Window{{From: Date(1, 5), To: Date(2, 14)}, {From: Date(3, 1), To: Date(6, 30)}},
				Areas: []optimize.AreaOutlook{
					{Area: kennel.AreaBack, State: kennel.StateInCoat, Score: 95, Why: "12 % is over 18 weeks"},
					{Area: kennel.AreaRibs, State: kennel.StateComingIn, Score: 70, Why: "58 % is under 11 weeks"},
				},
				IdleScores: []kennel.Score{90, 85}, PlannedScores: []kennel.Score{90, 95},
			},
			{Dog: "Moss", State: kennel.StateBlown, Score: 5},
		},
		Ways: []optimize.Way{
			{Dog: "Sorrel", Kind: optimize.WayRolled, Held: true, Spells: []optimize.Spell{{Kind: optimize.WayRolled, From: Date(1, 5), To: Date(1, 17)}}},
			{
				Dog: "Moss", Kind: optimize.WayStripped,
				Spells: []optimize.Spell{{Kind: optimize.WayStripped, From: Date(1, 5), To: Date(1, 10)}, {Kind: optimize.WayRested, From: Date(1, 11), To: Date(1, 17)}},
				Other: &optimize.Other{
					Kind: optimize.WayRolled, Shows: []optimize.OtherShow{{Show: "Brackenmere Terrier Club", On: Date(3, 20), Score: 88, Other: 61.4}}, InCoat: 1, OtherInCoat: 1,
				},
			},
		},
		Cannot:    []optimize.Cannot{{What: "Moss at Fallowgate Open", Why: "its ribs need 11 weeks and there are 9"}},
		Timetable: Timetable(Date(1, 5)),
		Gathered:  optimize.Gathered{Points: 0.05, Moved: 12},
		Tight:     &optimize.Tight{Week: Date(3, 8), Hands: "Handler", PointsPerHour: 0.41, Dog: "Moss", Show: "Brackenmere Terrier Club"},
	}
}

// Hostile is the sample with every name turned into one that tries to do harm.
func Hostile(name string) optimize.Result {
	r := Result()
	r.Kennel.Name = name
	for i := range r.Kennel.Dogs {
		r.Kennel.Dogs[i].Name = name + r.Kennel.Dogs[i].Name
		r.Kennel.Dogs[i].Owner = name
	}
	for w := range r.Weeks {
		for d := range r.Weeks[w].Dogs {
			dog := &r.Weeks[w].Dogs[d]
			dog.Dog = name + dog.Dog
			dog.Why, dog.Lift, dog.Tool = name, name, name
		}
		for d := range r.Weeks[w].Duties {
			r.Weeks[w].Duties[d].Dog = name + r.Weeks[w].Duties[d].Dog
			r.Weeks[w].Duties[d].Name = name
		}
		for h := range r.Weeks[w].Hands {
			r.Weeks[w].Hands[h].Hands = name + r.Weeks[w].Hands[h].Hands
		}
	}
	for i := range r.Readiness {
		r.Readiness[i].Show, r.Readiness[i].Dog = name, name
	}
	for i := range r.Outlooks {
		r.Outlooks[i].Dog = name
	}
	for i := range r.Ways {
		r.Ways[i].Dog = name
	}
	r.Ways[1].Other.Shows[0].Show = name
	RenameTimetable(&r.Timetable, name)
	r.Cannot[0] = optimize.Cannot{What: name, Why: name}
	r.Tight.Dog, r.Tight.Show, r.Tight.Hands = name, name, name
	return r
}
