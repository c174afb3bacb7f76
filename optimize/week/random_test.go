package week

import "math/rand/v2"

// size is how large a random week is.
type size struct{ days, hands, dogs, sessions, duties int }

// randomWeek is a made-up week: hands with full, short and free days, one of them not let near jackets, sessions that
// about fill or more than fill the days, duties with windows, baths, fixed sessions and an earlier sheet.
func randomWeek(seed uint64, s size) *Problem {
	r := rand.New(rand.NewPCG(seed, 4))
	p := &Problem{
		Days: s.days, Apart: 1 + r.IntN(3), BreakAfter: 50, Break: 10, Past: 5,
		Early: 0.002, SetUps: 0.002, Keep: 0.05 * float64(r.IntN(2)), Even: 0.0001,
	}
	hours := []float64{0, 60, 90, 120, 180, 240, 300}
	for h := range s.hands {
		hands := Hands{Does: Kind(0) | Kind(1) | Kind(2) | SkillSetUp | SkillDuties, Dear: 0.0005}
		if h > 0 && r.IntN(3) > 0 {
			hands.Does = []Skills{Kind(2) | SkillDuties, Kind(1) | Kind(2), SkillDuties, Kind(1) | Kind(2) | SkillDuties}[r.IntN(4)]
		}
		for range s.days {
			day := HandsDay{Strip: 60 * float64(1+r.IntN(4))}
			if x := hours[r.IntN(len(hours))]; x > 0 {
				day.Stretches = []Stretch{{Start: 540, Minutes: x}}
				if x > 90 && r.IntN(6) == 0 { // something fixed lies between
					day.Stretches = []Stretch{{Start: 540, Minutes: 45}, {Start: 640, Minutes: x - 80}}
				}
			}
			hands.Days = append(hands.Days, day)
		}
		p.Hands = append(p.Hands, hands)
	}
	for range s.dogs {
		d := Dog{}
		for t := range s.days {
			day := DogDay{There: r.IntN(8) > 0, Longest: float64(40 + 10*r.IntN(6)), With: -1}
			if r.IntN(15) == 0 {
				day.Fixed, day.With = true, r.IntN(s.hands+1)-1
				d.Jackets = append(d.Jackets, t)
			}
			d.Days = append(d.Days, day)
		}
		p.Dogs = append(p.Dogs, d)
	}
	for i := range s.sessions {
		x := Session{Dog: i % s.dogs, SetUp: float64(8 + 2*r.IntN(4)), Urgency: float64(r.IntN(11)) / 10}
		for range 1 + r.IntN(5) {
			m := 1 + float64(r.IntN(120))/10
			part := Part{Kind: []int{0, 0, 0, 1, 2}[r.IntN(5)], Minutes: m, Value: m * float64(1+r.IntN(40)) / 2000}
			if r.IntN(6) == 0 {
				for range s.days {
					part.Barred = append(part.Barred, r.IntN(3) == 0)
				}
			}
			x.Parts = append(x.Parts, part)
		}
		if r.IntN(3) == 0 {
			x.Kept, x.KeptDay, x.KeptBy = true, r.IntN(s.days), r.IntN(s.hands)
		}
		p.Sessions = append(p.Sessions, x)
	}
	for range s.duties {
		d := Duty{Dog: r.IntN(s.dogs), Minutes: float64(10 + 5*r.IntN(4)), Value: 2, Lifts: r.IntN(3) == 0}
		if d.Lifts {
			d.Value = 0.01
		}
		for range s.days {
			d.Days = append(d.Days, r.IntN(4) > 0)
		}
		p.Duties = append(p.Duties, d)
	}
	return p
}

// usualWeek is a made-up week as a season plan hands it over: a handler and an assistant, six days, twelve dogs, twenty
// sessions and eight duties that take the part full of the hours that there are.
func usualWeek(seed uint64, full float64) *Problem {
	r := rand.New(rand.NewPCG(seed, 7))
	const days, dogs, sessions = 6, 12, 20
	p := &Problem{Days: days, Apart: 2, BreakAfter: 50, Break: 10, Past: 5, Early: 0.002, SetUps: 0.002, Keep: 0.05, Even: 0.0001}
	for range dogs {
		d := Dog{}
		for t := range days {
			d.Days = append(d.Days, DogDay{There: t < 5 || r.IntN(3) > 0, Longest: 75, With: -1})
		}
		p.Dogs = append(p.Dogs, d)
	}
	var wanted float64
	for i := range sessions {
		x := Session{Dog: i % dogs, SetUp: float64(10 + r.IntN(6)), Urgency: 1 - float64(i%dogs)/dogs}
		for k := range 4 + r.IntN(4) {
			m := 3 + float64(r.IntN(80))/10
			kind := 0
			if k > 3 {
				kind = 1 + r.IntN(2)
			}
			x.Parts = append(x.Parts, Part{Kind: kind, Minutes: m, Value: m * (0.004 + 0.012*r.Float64()), Least: 2})
		}
		wanted += x.SetUp + x.minutes()
		p.Sessions = append(p.Sessions, x)
	}
	for i := range 8 {
		d := Duty{Dog: i, Minutes: float64(10 + 5*r.IntN(3)), Value: 2, Days: make([]bool, days)}
		if i > 5 {
			d.Lifts, d.Value, d.Minutes = true, 0.01, 20
		}
		for t := range d.Days {
			d.Days[t] = true
		}
		p.Duties = append(p.Duties, d)
	}
	handler := Hands{Does: Kind(0) | Kind(1) | Kind(2) | SkillSetUp | SkillDuties}
	assistant := Hands{Does: Kind(2) | SkillDuties}
	part := []float64{1, 1, 0.8, 1.2, 1, 0.4}
	for t := range days {
		x := float64(int(wanted/full/5.4*part[t]/15)) * 15
		handler.Days = append(handler.Days, HandsDay{Strip: 240, Stretches: []Stretch{{540, x}}})
		day := HandsDay{Strip: 240}
		if t%3 == 1 {
			day.Stretches = []Stretch{{540, 120}}
		}
		assistant.Days = append(assistant.Days, day)
	}
	p.Hands = []Hands{handler, assistant}
	return p
}
