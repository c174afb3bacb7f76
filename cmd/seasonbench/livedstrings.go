package main

import (
	"fmt"
	"math/rand/v2"

	"tuckup/kennel"
	"tuckup/optimize/lived"
)

// livedKind is a kind of string that is lived with.
type livedKind struct {
	name, says string
	dogs       int
	weeks      int
	shows      int
	minutes    float64 // of the hands, by dog and week
}

var livedKinds = []livedKind{
	{"small", "2 dogs, 16 weeks, 150 minutes a dog and week", 2, 16, 3, 150},
	{"medium", "3 dogs, 18 weeks, 110 minutes a dog and week", 3, 18, 4, 110},
	{"tight", "4 dogs, 18 weeks, 75 minutes a dog and week", 4, 18, 4, 75},
}

// luck is what goes wrong in a season of the kind, and how its dogs grow.
func (kind livedKind) luck(seed uint64) lived.Luck {
	return lived.Luck{Seed: seed*1000 + uint64(kind.dogs*100+kind.weeks), Missed: lived.UsualMissed, Lost: lived.UsualLost}
}

// livedMonday is the first day of every lived season: a Monday.
var livedMonday = kennel.NewDate(2027, 1, 4)

// livedSD is how far a dog's true growth lies from what its pattern says: relative standard deviation.
const livedSD = 0.1

const (
	livedWorkdays = 5
	livedTable    = 75 // minutes of the longest session
	livedSetUp    = 10
	firstShow     = 5 // the week of the earliest show that is drawn
	dogGoes       = 0.6
)

// livedKennel makes a string of the kind from a seed: dogs of any pattern whose coats are in layers, of one or two lengths, or blown; shows
// on Saturdays, each for some of the dogs.
func livedKennel(kind livedKind, seed uint64, pats kennel.Patterns) kennel.Kennel {
	random := rand.New(rand.NewPCG(seed, uint64(kind.dogs*1000+kind.weeks)))
	k := kennel.Kennel{Name: fmt.Sprintf("%s %d", kind.name, seed), PlanFrom: livedMonday, Weeks: kennel.Weeks(kind.weeks)}
	hands := kennel.Hands{Name: "Handler", StripHoursADay: 4}
	for n := range livedWorkdays {
		hands.Hours[n] = kennel.Hours(kind.minutes * float64(kind.dogs) / livedWorkdays / 60)
	}
	k.Hands = []kennel.Hands{hands}
	names := pats.Names()
	for d := range kind.dogs {
		k.Dogs = append(k.Dogs, kennel.Dog{
			Name: fmt.Sprintf("Dog %d", d+1), Pattern: names[random.IntN(len(names))], Priority: 1,
			Coat:  kennel.Coat{Texture: kennel.TextureHard, Growth: 1, Pace: 1},
			Table: kennel.Table{SetUp: livedSetUp, Minutes: livedTable, AWeek: 2 + random.IntN(2)},
			All:   livedCoat(random),
		})
	}
	for i := range kind.shows {
		week := firstShow + (kind.weeks-firstShow)*i/kind.shows + random.IntN((kind.weeks-firstShow)/kind.shows)
		show := kennel.Show{
			Name: fmt.Sprintf("Show %d", i+1), On: livedMonday.AddDays(week*kennel.DaysAWeek + int(kennel.Saturday)), Days: 1,
			Weight: float64(1 + random.IntN(3)), Chance: 1,
		}
		for d := range k.Dogs {
			if random.Float64() < dogGoes {
				show.Dogs = append(show.Dogs, k.Dogs[d].Name)
			}
		}
		if len(show.Dogs) == 0 {
			show.Dogs = []string{k.Dogs[random.IntN(len(k.Dogs))].Name}
		}
		k.Shows = append(k.Shows, show)
	}
	return k
}

// livedCoat draws what a dog arrives with.
func livedCoat(random *rand.Rand) (layers []kennel.Layer) {
	weeksAgo := func(weeks float64) kennel.Date { return livedMonday.AddDays(-int(weeks * kennel.DaysAWeek)) }
	switch random.IntN(8) {
	case 0, 1, 2, 3: // rolled
		for i := range 9 {
			layers = append(layers, kennel.Layer{Share: 1. / 9, Pulled: weeksAgo(float64(17 - 2*i))})
		}
	case 4, 5: // of one length
		layers = []kennel.Layer{{Share: 1, Pulled: weeksAgo(4 + 12*random.Float64())}}
	case 6: // of two lengths
		layers = []kennel.Layer{{Share: 0.5, Pulled: weeksAgo(12 + 8*random.Float64())}, {Share: 0.5, Pulled: weeksAgo(3 + 6*random.Float64())}}
	default: // blown
		layers = []kennel.Layer{{Share: 1, Pulled: weeksAgo(26 + 14*random.Float64())}}
	}
	return layers
}

// livedString is the string as it is lived with: its numbers alone, and the growth that each dog truly has.
func livedString(k kennel.Kennel, pats kennel.Patterns, pick float64, luck lived.Luck) *lived.String {
	s := &lived.String{Weeks: int(k.Weeks), Pick: pick}
	for n, h := range k.Hands[0].Hours {
		s.Hours[n] = float64(h) * 60
	}
	index := map[string]int{}
	for d, dog := range k.Dogs {
		p := pats[dog.Pattern]
		index[dog.Name] = d
		x := lived.Dog{
			Name: dog.Name, Growth: luck.Growth(dog.Name, livedSD), SetUp: float64(dog.SessionSetUp(p, dog.Table.Minutes)),
			Longest: float64(dog.Table.Minutes), AWeek: dog.Table.AWeek,
		}
		if !p.Care.None() {
			x.Care = p.Care.Minutes.Value / max(1, p.Care.Every.Value)
		}
		for _, a := range p.Areas {
			x.Areas = append(x.Areas, lived.Area{
				Name: string(a.Name), Weight: a.Weight.Value, Ready: a.Ready.Value, Hold: a.Hold.Value, Grip: a.Grip.Value,
				Minutes: a.Minutes.Value, Kept: a.Kept, Jacket: a.Name.Jacket(),
			})
			var coat lived.Coat
			for _, l := range dog.All {
				coat = append(coat, lived.Tuft{Share: float64(l.Share), Pulled: int(l.Pulled - livedMonday)})
			}
			x.Coats = append(x.Coats, coat)
		}
		s.Dogs = append(s.Dogs, x)
	}
	for _, show := range k.Shows {
		x := lived.Show{Name: show.Name, Day: int(show.On - livedMonday), Weight: show.Weight}
		for _, name := range show.Dogs {
			x.Dogs = append(x.Dogs, index[name])
		}
		s.Shows = append(s.Shows, x)
	}
	return s
}
