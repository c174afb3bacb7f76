package sample

import (
	"fmt"
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Timetable is a week made by hand, from the day given: a day with a bath, a session, a break and another
// session for two pairs of hands, a day with a duty, days without work, and a journey.
func Timetable(from kennel.Date) optimize.Timetable {
	clock := func(h, m int) kennel.Clock { return kennel.Clock(h*60 + m) }
	sorrel := optimize.Item{
		Start: clock(9, 0), End: clock(9, 43), Kind: optimize.ItemSession, Dog: "Sorrel",
		Areas: []optimize.AreaWork{
			{Area: kennel.AreaSkirtLine, Share: 1. / 17, Minutes: 10.005, Work: kennel.SkillJacket},
			{Area: kennel.AreaEars, Share: 0.125, Minutes: 20.333333, Work: kennel.SkillClose},
		},
		SetUp: 12, Lift: "back-comb with powder", Tool: "fingers and stone", Why: "Brackenmere in 10 weeks",
	}
	moss := optimize.Item{
		Start: clock(10, 0), End: clock(10, 46), Kind: optimize.ItemSession, Dog: "Moss",
		Areas: []optimize.AreaWork{{Area: kennel.AreaBack, Share: 0.2, Minutes: 33.3333335, Work: kennel.SkillJacket}},
		SetUp: 12, Pinned: true, Why: "keep rolling",
	}
	nails := func(dog string, start int) optimize.Item {
		return optimize.Item{
			Start: clock(start, 0), End: clock(start, 10), Kind: optimize.ItemDuty, Dog: dog, What: "nails", Why: "every week",
		}
	}
	again := sorrel
	again.Areas = []optimize.AreaWork{{Area: kennel.AreaRibs, Share: 0.25, Minutes: 20, Work: kennel.SkillJacket}}
	t := optimize.Timetable{
		LeftOut: []optimize.LeftOut{
			{Week: from.Monday(), Dog: "Moss", Area: kennel.AreaRibs, Share: 0.05, Points: 0.0123, Why: "no hours left on its days"},
			{Week: from.Monday(), Dog: "Moss", Duty: "beard bath", Points: 0, Why: "Assistant is away"},
		},
		Worth: optimize.Worth{Objective: 12.5, Bound: 12.6, Gap: 0.1 / 12.6},
	}
	for i := range 7 {
		d := optimize.Day{On: from.AddDays(i)}
		switch i {
		case 0:
			d.Hands = []optimize.HandsDay{
				{Hands: "Handler", Hours: 5, Items: []optimize.Item{
					sorrel, {Start: clock(9, 43), End: clock(9, 53), Kind: optimize.ItemBreak}, moss,
				}},
				{Hands: "Assistant", Hours: 1, Items: []optimize.Item{nails("Sorrel", 11), {
					Start: clock(11, 20), End: clock(11, 50), Kind: optimize.ItemBath, Dog: "Sorrel", Why: "coat all of one length",
				}}},
			}
		case 1:
			d.Hands = []optimize.HandsDay{{Hands: "Handler", Hours: 2, Items: []optimize.Item{nails("Moss", 9)}}, {Hands: "Assistant", Hours: 1}}
		case 2:
			d.Hands = []optimize.HandsDay{{Hands: "Handler", Hours: 2, Items: []optimize.Item{again}}}
		case 4:
			d.Hands = []optimize.HandsDay{{Hands: "Handler", Items: []optimize.Item{
				{Start: 0, End: clock(24, 0), Kind: optimize.ItemTravel, What: "Fallowgate Open"},
			}}}
		case 6:
			d.Hands = []optimize.HandsDay{{Hands: "Handler", Hours: 2, Items: []optimize.Item{moss}}}
		}
		t.Days = append(t.Days, d)
	}
	return t
}

// BrokenSession is the sample with a session that a break cuts in two.
func BrokenSession() optimize.Result {
	r := Result()
	hands := &r.Timetable.Days[0].Hands[0]
	rest := hands.Items[0]
	rest.Start, rest.End, rest.SetUp = hands.Items[2].Start, hands.Items[2].Start+20, 0
	rest.Areas = []optimize.AreaWork{{Area: kennel.AreaBack, Share: 0.2, Minutes: 20, Work: kennel.SkillJacket}}
	hands.Items[2] = rest
	return r
}

// RenameTimetable gives every dog, duty, show, reason and pair of hands a name.
func RenameTimetable(t *optimize.Timetable, name string) {
	for d := range t.Days {
		for h := range t.Days[d].Hands {
			hands := &t.Days[d].Hands[h]
			hands.Hands = name + hands.Hands
			for i := range hands.Items {
				item := &hands.Items[i]
				item.Why, item.Lift, item.Tool = name, name, name
				if item.Dog != "" {
					item.Dog = name + item.Dog
				}
				if item.What != "" {
					item.What = name + item.What
				}
			}
		}
	}
	for i := range t.LeftOut {
		t.LeftOut[i].Dog, t.LeftOut[i].Why = name+t.LeftOut[i].Dog, name
		if t.LeftOut[i].Duty != "" {
			t.LeftOut[i].Duty = name
		}
	}
}

// FullWeek is a week of a string of twelve: each dog has two sessions of seven areas, two a day for two pairs of hands,
// with duties, breaks, a bath, a journey, and some work left out.
func FullWeek() optimize.Result {
	names := []string{
		"Alder", "Bramble", "Clover", "Dunlin", "Elder", "Fennel", "Gorse", "Heron", "Ivy", "Juniper", "Kestrel", "Lark",
	}
	areas := []kennel.AreaName{
		kennel.AreaSkirtLine, kennel.AreaRibs, kennel.AreaBack, kennel.AreaWithers, kennel.AreaShoulder, kennel.AreaRump, kennel.AreaNeck,
	}
	r := optimize.Result{
		Kennel: kennel.Kennel{Name: "Thornfield", TimeZone: "Europe/Dublin", Hands: []kennel.Hands{{Name: "Handler"}, {Name: "Assistant"}}},
		On:     Date(time.January, 4), Week0: Date(time.January, 4),
		Cannot: []optimize.Cannot{{What: "Lark in coat for Wendlemoor Terrier Show", Why: "too late: even with all the hours available it would be 26 (skirt line: 100 % is under 10 weeks)"}},
	}
	session := func(n int, start kennel.Clock) optimize.Item {
		i := optimize.Item{
			Start: start, End: start + 65, Kind: optimize.ItemSession, Dog: names[n%len(names)], SetUp: 12,
			Lift: "lifting bath left to dry, pull within 2 days", Tool: "fingers or a dull knife",
			Why: fmt.Sprintf("Brackenmere in %d weeks", 2+n%11),
		}
		for a, area := range areas {
			i.Areas = append(i.Areas, optimize.AreaWork{
				Area: area, Share: kennel.Share(1 / float64(4+(n+a)%14)), Minutes: kennel.Minutes(5 + (n+a)%6), Work: kennel.SkillJacket,
			})
		}
		return i
	}
	for day := range 7 {
		d := optimize.Day{On: r.On.AddDays(day)}
		switch {
		case day < 6:
			for h, hands := range []string{"Handler", "Assistant"} {
				first := session(4*day+2*h, 9*60)
				second := session(4*day+2*h+1, 10*60+15)
				d.Hands = append(d.Hands, optimize.HandsDay{Hands: hands, Hours: 4, Items: []optimize.Item{
					first,
					{Start: 10*60 + 5, End: 10*60 + 15, Kind: optimize.ItemBreak},
					second,
					{Start: 11*60 + 20, End: 11*60 + 30, Kind: optimize.ItemBreak},
					{Start: 11*60 + 30, End: 11*60 + 40, Kind: optimize.ItemDuty, Dog: names[(2*day+h)%12], What: "nails", Why: "every 2 weeks"},
					{Start: 11*60 + 40, End: 12*60 + 10, Kind: optimize.ItemBath, Dog: names[(4*day+2*h+5)%12], Why: "coat all of one length"},
				}})
			}
		default:
			d.Hands = []optimize.HandsDay{{Hands: "Handler", Items: []optimize.Item{
				{Start: 0, End: 24 * 60, Kind: optimize.ItemTravel, What: "Lissadrum Show of All Terriers"},
			}}}
		}
		r.Timetable.Days = append(r.Timetable.Days, d)
	}
	r.Timetable.LeftOut = []optimize.LeftOut{
		{Week: r.On, Dog: "Lark", Area: kennel.AreaRibs, Share: 0.05, Points: 0.01, Why: "no hours left on its days"},
		{Week: r.On, Dog: "Ivy", Area: kennel.AreaRump, Share: 0.08, Points: 0.004, Why: "no hours left on its days"},
	}
	return r
}
