package filled

import (
	"strings"
	"time"

	"tuckup/kennel"
)

func day(month time.Month, d int) kennel.Date { return kennel.NewDate(2027, month, d) }

// KennelValues are values for the fields of a kennel: none is what a field has by default, and the checks of the kennel hold for
// what they make.
func KennelValues() Values {
	return Values{
		"kennel.Kennel.Name":     {"Thornfield", "", "Marlow Lodge"},
		"kennel.Kennel.PlanFrom": {day(1, 4), Empty, day(2, 1)},
		"kennel.Kennel.Weeks":    {20, 0, 30},
		"kennel.Kennel.TimeZone": {"Europe/Dublin", "", "Pacific/Auckland"},
		"kennel.Kennel.Units":    {"in", "", "mm"},
		"kennel.Kennel.Dates":    {"month-first", "", "iso"},

		"kennel.Hands.Name":           {"Handler", "Assistant", "Apprentice"},
		"kennel.Hands.Hours":          {[kennel.DaysAWeek]kennel.Hours{1, 2, 3, 4, 5, 6, 7}, [kennel.DaysAWeek]kennel.Hours{1.5, 1, 1, 1, 1, 1, 1}, [kennel.DaysAWeek]kennel.Hours{7, 6, 5, 4.25, 3, 2, 1}},
		"kennel.Hands.StripHoursADay": {3.5, 2, 1.5},
		"kennel.Hands.Does": {
			[]kennel.Skill{kennel.SkillJacket, kennel.SkillDuties},
			[]kennel.Skill{kennel.SkillClose},
			[]kennel.Skill{kennel.SkillFurnishings, kennel.SkillDuties},
		},

		"kennel.Dog.Name":      {"Sorrel", "Moss", "Bracken"},
		"kennel.Dog.Pattern":   {"wire-fox-terrier", "border-terrier", "welsh-terrier"},
		"kennel.Dog.Born":      {day(1, 1) - 900, day(1, 1) - 1200, day(1, 1) - 1500},
		"kennel.Dog.Owner":     {"R. Calloway", "T. Marsh", "the handler"},
		"kennel.Dog.RingName":  {"Thornfield Autumn Gold", "Thornfield Still Water", "Thornfield High Wind"},
		"kennel.Dog.Priority":  {1.5, 0.75, 2.25},
		"kennel.Coat.Texture":  {"fine", "soft", "hard"},
		"kennel.Coat.Growth":   {1.25, 0.75, 1.5},
		"kennel.Coat.Pace":     {1.125, 0.875, 2},
		"kennel.Coat.RollOnly": {true, false, false},
		"kennel.Table.SetUp":   {9, 14, 11.5},
		"kennel.Table.Minutes": {60, 80, 92.5},
		"kennel.Table.AWeek":   {3, 4, 5},

		"kennel.Layer.Share":   {0.5, 0.25, 0.375},
		"kennel.Layer.Pulled":  {day(1, 1) - 60, day(1, 1) - 30, day(1, 1) - 90},
		"kennel.AreaCoat.Area": {"back", "ribs", "neck", "shoulder"}, // in the order of the trade

		"kennel.Outline.Area":  {"back", "neck", "ribs", "shoulder"}, // in the order of the trade
		"kennel.Outline.Note":  {"leave it", "leave the base long", "fill it"},
		"kennel.Outline.Least": {30, 25.5, 20},

		"kennel.Spell.From":   {day(2, 3), day(3, 4), day(4, 5)},
		"kennel.Spell.To":     {day(2, 24), day(3, 25), day(4, 26)},
		"kennel.Spell.What":   {"season", "illness", "other"},
		"kennel.Spell.Growth": {0.75, 0.5, 0.875},
		"kennel.Spell.Table":  {"no", "yes", "no"},

		"kennel.Duty.Name":       {"nails", "close trim", "bath"},
		"kennel.Duty.Minutes":    {10, 30, 20},
		"kennel.Duty.Every":      {2, Empty, 3, Empty},
		"kennel.Duty.Before":     {Empty, Inside, Empty, Inside},
		"kennel.Duty.Work":       {"close", "furnishings", "duties"},
		"kennel.Duty.LeaveOut":   {false, true, true, false},
		"kennel.Duty.Done":       {day(1, 1) - 7, day(1, 1) - 21, day(1, 1) - 14},
		"kennel.BeforeShow.From": {12, 10, 9},
		"kennel.BeforeShow.To":   {8, 7, 6},

		"kennel.Show.Name":         {"Brackenmere", "Yarrowmead", "Fallowgate"},
		"kennel.Show.On":           {day(4, 10), day(5, 1), day(6, 5)},
		"kennel.Show.Days":         {2, 3, 4},
		"kennel.Show.EntriesClose": {day(3, 1), day(3, 8), day(3, 15)},
		"kennel.Show.Weight":       {3, 2, 1.5},
		"kennel.Show.Chance":       {0.5, 0.25, 0.75},
		"kennel.Show.Dogs":         {[]string{"Sorrel", "Moss"}, []string{"Sorrel"}, []string{"Bracken"}},

		"kennel.Span.From": {day(2, 1), day(3, 1), day(2, 8)},
		"kennel.Span.To":   {day(2, 5), day(3, 5), day(2, 12)},
		"kennel.Span.Why":  {"shows abroad", "a holiday", "with its owner"},
	}
}

// RecordValues are values for work, measures, notes and sessions.
func RecordValues() Values {
	return Values{
		"kennel.Work.Dog":     {"Sorrel", "Moss", "Moss"},
		"kennel.Work.On":      {day(1, 5), day(1, 6), day(1, 7)},
		"kennel.Work.Hands":   {"Handler", "Assistant", "Apprentice"},
		"kennel.Work.Minutes": {40, 12.5, 33},
		"kennel.Work.Areas":   {Inside, Empty, Inside, Empty},
		"kennel.Work.Looks":   {Inside, Empty, Inside, Empty},
		"kennel.Work.Duty":    {Empty, "nails", Empty, "close trim"},
		"kennel.Work.Stopped": {true, false, false},
		"kennel.Work.Note":    {"fussy today", "quiet", "a warm day"},

		"kennel.Pulled.Area":  {"back", "ribs", "neck", "shoulder"},
		"kennel.Pulled.Share": {0.0625, 0.125, 0.25},

		"kennel.Look.Area":  {"ribs", "neck", "back", "shoulder"},
		"kennel.Look.Long":  {"thin", "thick", "as expected"},
		"kennel.Look.Share": {0.03125, 0.5, 0.25},

		"kennel.Measure.Dog":    {"Sorrel", "Moss", "Moss"},
		"kennel.Measure.On":     {day(1, 8), day(1, 9), day(1, 10)},
		"kennel.Measure.Area":   {"back", "ribs", "neck"},
		"kennel.Measure.Length": {31.5, 28, 22},
		"kennel.Measure.Note":   {"wet", "dry", "by lamplight"},

		"kennel.Showable.Dog":    {"Sorrel", "Moss", "Moss"},
		"kennel.Showable.Area":   {"back", "ribs", "neck"},
		"kennel.Showable.Pulled": {day(1, 1) - 80, day(1, 1) - 70, day(1, 1) - 75},
		"kennel.Showable.On":     {day(1, 11), day(1, 12), day(1, 13)},

		"kennel.Photo.Dog":    {"Sorrel", "Moss", "Moss"},
		"kennel.Photo.On":     {day(1, 14), day(1, 15), day(1, 16)},
		"kennel.Photo.Area":   {"back", Empty, "ribs"},
		"kennel.Photo.Digest": {strings.Repeat("0a", 32), strings.Repeat("1b", 32), strings.Repeat("2c", 32)},
		"kennel.Photo.Note":   {"by the window", "in the yard", "wet"},

		"kennel.Session.Dog":     {"Sorrel", "Moss", "Moss"},
		"kennel.Session.On":      {day(1, 18), day(1, 19), day(1, 20)},
		"kennel.Session.Start":   {545, 600, 615},
		"kennel.Session.Minutes": {55, 45, 50},
		"kennel.Session.Hands":   {"Handler", "Assistant", "Apprentice"},
		"kennel.Session.Areas":   {Inside, Inside, Inside},
		"kennel.Session.Pinned":  {true, false, false},
	}
}

// Kennel is a kennel of which every field is set. Another round sets each field to another value.
func Kennel(round int) (k kennel.Kennel, err error) {
	err = Fill(&k, KennelValues(), round)
	if round > 0 { // the dogs have other names then
		for i := range k.Shows {
			k.Shows[i].Dogs = k.DogNames()[i:]
		}
	}
	return k, err
}
