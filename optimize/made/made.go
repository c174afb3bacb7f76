// Package made is made-up kennels for tests of planning: two small patterns, dogs, hands and shows that are quickly said, and
// random kennels.
package made

import (
	"fmt"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

// figure is an invented number of a test pattern.
func figure(v float64) kennel.Figure {
	return kennel.Figure{Value: v, Low: v, High: v, Source: "invented for tests", Mark: kennel.MarkPractice}
}

func testArea(name kennel.AreaName, work kennel.Skill, weight, ready, hold, grip, minutes, finishWeeks, finishShare float64) kennel.PatternArea {
	return kennel.PatternArea{
		Name: name, Work: work, Weight: figure(weight), Ready: figure(ready), Hold: figure(hold), Grip: figure(grip),
		Minutes: figure(minutes), FinishWeeks: figure(finishWeeks), FinishShare: figure(finishShare),
	}
}

// finished is the rough pattern with lines of every kind before shows, one at them, and undercoat. What it says of the coat is the same.
func finished(p kennel.Pattern) kennel.Pattern {
	line := func(name string, work kennel.Skill, minutes, from, to, lasts float64) kennel.FinishLine {
		return kennel.FinishLine{Name: name, Work: work, Minutes: figure(minutes), From: figure(from), To: figure(to), Lasts: figure(lasts)}
	}
	p.Name, p.Title = "finished", "Finished"
	p.Undercoat = kennel.Care{Minutes: figure(8), Every: figure(2)}
	p.Finish = []kennel.FinishLine{
		line("cheeks", kennel.SkillClose, 12, 14, 7, 17), line("throat", kennel.SkillClose, 8, 14, 7, 14),
		line("feet", kennel.SkillDuties, 12, 7, 2, 10), line("nails", kennel.SkillDuties, 8, 7, 2, 10),
		line("legs washed", kennel.SkillFurnishings, 15, 3, 1, 3), line("combed out", kennel.SkillClose, 10, 0, 0, 0),
	}
	return p
}

// Patterns are two small invented patterns with every kind of work, and one of them with what is done before shows. The withers' finish rule is C14 (common
// practice): work hard only with two months or more in hand, then a few hairs at a time.
func Patterns() kennel.Patterns {
	all := kennel.Patterns{
		"rough": {
			Name: "rough", Title: "Rough", Texture: kennel.TextureHard, RollMost: figure(0.15),
			Areas: []kennel.PatternArea{
				testArea(kennel.AreaRibs, kennel.SkillJacket, 0.5, 11, 7, 5, 150, 3, 0.06),
				testArea(kennel.AreaWithers, kennel.SkillJacket, 0.3, 12, 7, 5, 60, 8, 0.03),
				testArea(kennel.AreaEars, kennel.SkillClose, 0.2, 2, 3, 1, 15, 0, 1),
			},
		},
		"wiry": {
			Name: "wiry", Title: "Wiry", Texture: kennel.TextureHard, RollMost: figure(0.1),
			Areas: []kennel.PatternArea{
				testArea(kennel.AreaBack, kennel.SkillJacket, 0.6, 9, 6, 4, 120, 3, 0.05),
				testArea(kennel.AreaFurnishings, kennel.SkillFurnishings, 0.4, 10, 8, 4, 40, 2, 0.05),
			},
		},
	}
	all["finished"] = finished(all["rough"])
	return all
}

// Monday is a Monday in a leap year; the seasons drawn from it run over 29 February.
var Monday = kennel.NewDate(2028, 1, 3)

// Kennel draws a small kennel with any mix of what a kennel file can say, and the day to plan from.
func Kennel() *rapid.Generator[kennel.Kennel] {
	return rapid.Custom(func(t *rapid.T) kennel.Kennel {
		k := kennel.Kennel{
			Name: "Fellside", Weeks: kennel.Weeks(rapid.SampledFrom([]int{12, 16, 20, 14, 8, 4}).Draw(t, "weeks")),
			PlanFrom: Monday.AddDays(rapid.IntRange(0, 6).Draw(t, "from")),
		}
		for i := range rapid.SampledFrom([]int{2, 1, 3, 1, 2, 1, 3, 0}).Draw(t, "hands") {
			k.Hands = append(k.Hands, someHand(t, i))
		}
		for i := range rapid.SampledFrom([]int{3, 2, 3, 3, 1, 3, 2, 0}).Draw(t, "dogs") {
			k.Dogs = append(k.Dogs, Dog(t, i, k.PlanFrom))
		}
		if len(k.Dogs) > 0 {
			for i := range rapid.SampledFrom([]int{2, 3, 4, 1, 0}).Draw(t, "shows") {
				k.Shows = append(k.Shows, Show(t, i, k))
			}
		}
		return k
	})
}

func someHand(t *rapid.T, i int) kennel.Hands {
	h := kennel.Hands{Name: []string{"Handler", "Assistant", "Trainee"}[i]}
	for day := range h.Hours {
		h.Hours[day] = kennel.Hours(rapid.SampledFrom([]float64{0.5, 0, 0, 1, 0, 0, 0.5, 4}).Draw(t, "hours"))
	}
	h.StripHoursADay = kennel.Hours(rapid.SampledFrom([]float64{0, 0, 0.5, 4}).Draw(t, "strip hours"))
	h.Does = rapid.SampledFrom([][]kennel.Skill{
		nil,
		nil,
		nil,
		nil,
		nil,
		nil,
		{kennel.SkillClose, kennel.SkillFurnishings, kennel.SkillDuties},
		{kennel.SkillJacket, kennel.SkillDuties},
		{kennel.SkillDuties},
	}).Draw(t, "does")
	if rapid.IntRange(0, 3).Draw(t, "away") == 3 {
		h.Away = []kennel.Span{Span(t)}
	}
	return h
}

// Span draws some days in the first months.
func Span(t *rapid.T) kennel.Span {
	from := Monday.AddDays(rapid.IntRange(0, 60).Draw(t, "span from"))
	return kennel.Span{From: from, To: from.AddDays(rapid.IntRange(0, 20).Draw(t, "span days"))}
}

// Dog draws a dog of one of the patterns, with up to two duties, whose hair was pulled before the day.
func Dog(t *rapid.T, i int, on kennel.Date) kennel.Dog {
	dog := kennel.Dog{
		Name:     []string{"Sorrel", "Moss", "Bracken"}[i],
		Pattern:  rapid.SampledFrom([]string{"rough", "wiry", "finished"}).Draw(t, "pattern"),
		Priority: rapid.SampledFrom([]float64{1, 0.5, 2}).Draw(t, "priority"),
		Coat: kennel.Coat{
			Texture: kennel.TextureHard, Growth: rapid.SampledFrom([]float64{1, 0.8, 1.3}).Draw(t, "growth"),
			Pace: rapid.SampledFrom([]float64{1, 0.7, 1.5}).Draw(t, "pace"), RollOnly: rapid.Bool().Draw(t, "roll only"),
		},
		Table: kennel.Table{
			SetUp:   kennel.Minutes(rapid.SampledFrom([]int{10, 5, 0, 10, 5, 30}).Draw(t, "set-up")),
			Minutes: kennel.Minutes(rapid.SampledFrom([]int{60, 40, 90}).Draw(t, "table")),
			AWeek:   rapid.SampledFrom([]int{2, 1, 3, 2, 1, 3, 2, 0}).Draw(t, "a week"),
		},
		All: someLayers(t, on),
	}
	if rapid.IntRange(0, 2).Draw(t, "born") == 2 {
		dog.Born = on.AddDays(-rapid.IntRange(200, 500).Draw(t, "age"))
	}
	if rapid.IntRange(0, 3).Draw(t, "here") == 3 {
		dog.Here = []kennel.Span{Span(t)}
	}
	if rapid.Bool().Draw(t, "own layers") {
		dog.Areas = []kennel.AreaCoat{{Area: Patterns()[dog.Pattern].Areas[0].Name, Layers: someLayers(t, on)}}
	}
	if rapid.Bool().Draw(t, "regular duty") {
		dog.Duties = append(dog.Duties, kennel.Duty{
			Name: rapid.SampledFrom([]string{"nails", "lifting bath"}).Draw(t, "regular"), Minutes: kennel.Minutes(rapid.IntRange(5, 60).Draw(t, "minutes")),
			Every: kennel.Weeks(rapid.IntRange(1, 5).Draw(t, "every")),
		})
	}
	if rapid.Bool().Draw(t, "duty for shows") {
		to := rapid.IntRange(0, 18).Draw(t, "to")
		dog.Duties = append(dog.Duties, kennel.Duty{
			Name: rapid.SampledFrom([]string{"close trim", "bath"}).Draw(t, "of"), Minutes: kennel.Minutes(rapid.IntRange(5, 60).Draw(t, "minutes")),
			Before: &kennel.BeforeShow{From: to + rapid.IntRange(0, 6).Draw(t, "days"), To: to},
		})
	}
	if rapid.IntRange(0, 2).Draw(t, "outline") == 2 {
		area := rapid.SampledFrom(Patterns()[dog.Pattern].Areas).Draw(t, "outlined")
		o := kennel.Outline{Area: area.Name, Note: "low here"}
		if !area.Kept {
			o.Least = kennel.Millimetres(rapid.SampledFrom([]float64{10, 20, 4, 30}).Draw(t, "least"))
		}
		dog.Outlines = []kennel.Outline{o}
	}
	if rapid.IntRange(0, 2).Draw(t, "spell") == 2 {
		dog.Spells = append(dog.Spells, Spell(t))
	}
	return dog
}

// Spell draws a spell of the months before and after Monday; some have no end.
func Spell(t *rapid.T) kennel.Spell {
	from := Monday.AddDays(rapid.IntRange(-60, 80).Draw(t, "spell from"))
	s := kennel.Spell{
		From: from, To: from.AddDays(rapid.IntRange(0, 50).Draw(t, "spell days")), What: rapid.SampledFrom(kennel.SpellKinds()).Draw(t, "spell"),
		Growth: rapid.SampledFrom([]float64{0.5, 1, 0.8, 0.1, 1.5}).Draw(t, "spell's growth"),
		Table:  rapid.SampledFrom([]kennel.Answer{"", kennel.AnswerYes, kennel.AnswerNo}).Draw(t, "table"),
	}
	if rapid.IntRange(0, 4).Draw(t, "spell ends") == 4 {
		s.To = 0
	}
	return s
}

// someLayers draws layers in tenths of an area, none pulled after today.
func someLayers(t *rapid.T, on kennel.Date) (layers []kennel.Layer) {
	for left := 10; left > 0 && len(layers) < 3; {
		n := rapid.IntRange(1, left).Draw(t, "tenths")
		layers = append(layers, kennel.Layer{
			Share: kennel.Share(n) / 10, Pulled: on.AddDays(-rapid.IntRange(0, 200).Draw(t, "days ago")),
		})
		left -= n
	}
	return layers
}

// Show draws a show of the kennel's dogs, up to four months ahead or just over.
func Show(t *rapid.T, i int, k kennel.Kennel) kennel.Show {
	s := kennel.Show{
		Name: fmt.Sprintf("Show %d", i+1), On: Monday.AddDays(rapid.SampledFrom([]int{70, 60, 40, 20, 100, 0, -20}).Draw(t, "about") + rapid.IntRange(0, 20).Draw(t, "on")),
		Days: rapid.IntRange(1, 3).Draw(t, "show days"), Weight: rapid.SampledFrom([]float64{1, 3}).Draw(t, "weight"),
		Chance: rapid.SampledFrom([]float64{1, 0.5, 0.2}).Draw(t, "chance"),
	}
	if rapid.Bool().Draw(t, "travel") {
		s.Away = &kennel.Span{From: s.On.AddDays(-2), To: s.Last().AddDays(1)}
	}
	first := rapid.IntRange(0, len(k.Dogs)-1).Draw(t, "first dog")
	for _, dog := range k.Dogs[first:] {
		s.Dogs = append(s.Dogs, dog.Name)
	}
	return s
}

// Ample are hands with more hours than any dog of the tests takes.
func Ample() kennel.Hands {
	return kennel.Hands{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{5, 5, 5, 5, 5}, StripHoursADay: 4}
}

// EvenDog is a dog of a pattern whose whole coat was pulled so many weeks before Monday.
func EvenDog(name, pattern string, weeksAgo int) kennel.Dog {
	return kennel.Dog{
		Name: name, Pattern: pattern, Priority: 1, Coat: kennel.Coat{Growth: 1, Pace: 1},
		Table: kennel.Table{SetUp: 10, Minutes: 90, AWeek: 3},
		All:   []kennel.Layer{{Share: 1, Pulled: Monday.AddDays(-7 * weeksAgo)}},
	}
}

// ShowOn is an entered show of one day, so many days after Monday, for dogs named by hand.
func ShowOn(name string, days int, dogs ...string) kennel.Show {
	return kennel.Show{Name: name, On: Monday.AddDays(days), Days: 1, Weight: 1, Chance: 1, Dogs: dogs}
}

// TwoShown are two dogs, one of them with a show, and hours that are short.
func TwoShown() kennel.Kennel {
	return kennel.Kennel{
		PlanFrom: Monday, Weeks: 16, Hands: []kennel.Hands{{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{1, 0, 1}, StripHoursADay: 4}},
		Dogs:  []kennel.Dog{EvenDog("Moss", "rough", 8), EvenDog("Sorrel", "wiry", 11)},
		Shows: []kennel.Show{ShowOn("Brackenmere", 70, "Moss")},
	}
}

// WholeDays draws a small kennel like Kennel, but whose hands work whole days: every second weekday or more, for four to eight hours.
func WholeDays() *rapid.Generator[kennel.Kennel] {
	return rapid.Custom(func(t *rapid.T) kennel.Kennel {
		k := kennel.Kennel{
			Name: "Fellside", Weeks: kennel.Weeks(rapid.SampledFrom([]int{8, 7, 6}).Draw(t, "weeks")),
			PlanFrom: Monday.AddDays(rapid.IntRange(0, 6).Draw(t, "from")),
		}
		for i := range rapid.SampledFrom([]int{1, 2}).Draw(t, "hands") {
			h := someHand(t, i)
			for day := range h.Hours {
				h.Hours[day] = 0
				if days := rapid.IntRange(0, 6).Draw(t, "works"); day < 5 && days > 1 || days == 6 {
					h.Hours[day] = kennel.Hours(rapid.SampledFrom([]float64{4, 5, 6, 7, 8}).Draw(t, "whole day"))
				}
			}
			h.StripHoursADay = kennel.Hours(rapid.SampledFrom([]float64{0, 4, 3}).Draw(t, "strip a day"))
			if i == 0 {
				h.Does = nil
			}
			k.Hands = append(k.Hands, h)
		}
		for i := range rapid.IntRange(1, 3).Draw(t, "dogs") {
			dog := Dog(t, i, k.PlanFrom)
			dog.Table.AWeek = rapid.IntRange(1, 5).Draw(t, "sessions a week")
			dog.Table.Minutes = kennel.Minutes(rapid.SampledFrom([]int{60, 20, 40, 90}).Draw(t, "at the table"))
			dog.Table.SetUp = min(dog.Table.SetUp, 10)
			k.Dogs = append(k.Dogs, dog)
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "shows") {
			k.Shows = append(k.Shows, Show(t, i, k))
		}
		return k
	})
}
