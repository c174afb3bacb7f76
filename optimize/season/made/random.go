// Package made is made-up seasons in numbers, for tests and measurements.
package made

import (
	"fmt"
	"math"
	"math/rand/v2"

	"tuckup/optimize/season"
)

// Random is a made-up season for tests and benchmarks, the same for the same numbers: dogs of 4 to 8 areas over
// the weeks with shows, finish windows, closed weeks, hands away, sometimes accepted sessions, and coats that arrive
// even, staged or rolled. tight is the week's hours as a share of what every dog would take (an eighth of its coat
// and one session a week); 0.4 is short, 1.5 ample. The values are of the trade's sizes, not anybody's.
func Random(seed uint64, dogs, weeks int, tight float64) *season.Problem {
	return RandomSized(seed, dogs, 4, 8, weeks, tight)
}

// Kinds of work in random seasons.
const (
	jacketWork = iota
	closeWork
	furnishingWork
	randomKinds
)

// randomNames are of areas, by kind, in the order in which dogs get them.
var randomNames = []struct {
	name string
	kind int
}{
	{"back", jacketWork},
	{"skirt line", jacketWork},
	{"skull", closeWork},
	{"withers", jacketWork},
	{"furnishings", furnishingWork},
	{"shoulder", jacketWork},
	{"ears", closeWork},
	{"rump", jacketWork},
}

// RandomSized is Random with the fewest and the most areas of a dog (1 to 8).
func RandomSized(seed uint64, dogs, fewest, areas, weeks int, tight float64) *season.Problem {
	r := &randomiser{rand.New(rand.NewPCG(seed, 0x7ab1e))}
	p := &season.Problem{Weeks: weeks, Kinds: randomKinds, Hole: hole}
	handsAway := make([]bool, weeks)
	if weeks > 4 && r.chance(0.5) {
		handsAway[1+r.IntN(weeks-1)] = true
	}
	shown := 0
	for d := range dogs {
		dog := r.dog(fmt.Sprintf("Dog %d", d+1), r.between(fewest, areas), weeks, handsAway, r.shows)
		if dog.Shows != nil {
			shown++
		}
		p.Dogs = append(p.Dogs, dog)
	}
	if !r.chance(1. / 8) {
		p.Balance = 0.5 * float64(shown)
	}
	r.hours(p, tight, handsAway)
	return p
}

type randomiser struct{ *rand.Rand }

func (r *randomiser) chance(p float64) bool { return r.Float64() < p }

func (r *randomiser) between(low, high int) int { return low + r.IntN(high-low+1) }

func (r *randomiser) real(low, high float64) float64 { return low + (high-low)*r.Float64() }

// dog is one dog; enter gives it its values and returns the weeks of its shows.
func (r *randomiser) dog(name string, areas, weeks int, handsAway []bool, enter func(*season.Dog, int) []bool) season.Dog {
	dog := season.Dog{
		Name: name, SetUp: float64(r.between(8, 15)), SessionCost: 0.002,
		Minutes: make([]float64, weeks), Most: make([]int, weeks), Value: make([]float64, weeks),
	}
	table, aWeek := float64(5*r.between(9, 18)), r.between(1, 2)
	for t := range weeks {
		dog.Minutes[t] = table
		if !handsAway[t] && !r.chance(0.04) {
			dog.Most[t] = aWeek
		}
	}
	shows := enter(&dog, weeks)
	sum, growth, idle := 0.0, r.real(0.85, 1.15), 0
	if r.chance(0.15) {
		idle = r.between(10, 30) // weeks since anybody worked the dog
	}
	for i := range areas {
		a := r.area(i, growth, idle, weeks, shows)
		a.Weight = float64(r.between(1, 4))
		sum += a.Weight
		dog.Areas = append(dog.Areas, a)
	}
	for i := range dog.Areas {
		dog.Areas[i].Weight /= sum
		even(&dog.Areas[i], weeks)
	}
	if r.chance(0.3) {
		dog.Stay = 0.05
		for t := range min(2, weeks) {
			dog.Kept = append(dog.Kept, r.between(0, max(1, dog.Most[t])))
		}
	}
	return dog
}

// shows gives a dog its values: standing 0.05 a week and 2 to 5 shows of weight 1 to 3; one dog in ten has no shows.
// The weeks of the shows are returned.
func (r *randomiser) shows(dog *season.Dog, weeks int) []bool {
	return r.enter(dog, weeks, func() (at []meeting) {
		for range min(r.between(2, 5), weeks) {
			m := meeting{week: r.IntN(weeks), points: float64(r.between(1, 3))}
			if r.chance(0.25) {
				m.points *= 0.5 // hoped for
			}
			at = append(at, m)
		}
		return at
	})
}

// enter gives a dog its values and enters it at the shows that are drawn for it; their weeks are returned.
func (r *randomiser) enter(dog *season.Dog, weeks int, draw func() []meeting) []bool {
	at := make([]bool, weeks)
	priority := r.real(0.8, 1.2)
	for t := range weeks {
		dog.Value[t] = standingPart * priority
	}
	if r.chance(0.1) {
		return at
	}
	dog.Shows, dog.ShowValue = make([]float64, weeks), make([]float64, weeks)
	var sum float64
	for _, m := range draw() {
		at[m.week] = true
		dog.ShowValue[m.week] += priority * m.points
		dog.Shows[m.week] += m.points
		sum += m.points
	}
	for t := range dog.Shows {
		dog.Shows[t] /= sum
	}
	return at
}

const (
	hole       = 0.3   // by how much a dog may be readier than its worst area at shows
	pick       = 2     // times as long as dead hair takes living hair
	rollMost   = 0.125 // of living jacket hair in a week within its ready weeks of a show
	unevenPart = 0.05  // points for a unit of a whole coat
	spread     = 1.1   // a dog grows so many times faster or slower than thought in one case of three each
)

// standingPart is what being ready is worth in a week without a show, of a point at a show.
const standingPart = 0.05

// finishOf is in how many weeks before a show, its own among them, an area may give up only a few hairs.
func finishOf(name string, kind int) (weeks int, few float64) {
	switch {
	case name == "withers":
		return 8, 0.03
	case kind == closeWork:
		return 1, 0.10
	}
	return 3, 0.06
}

func (r *randomiser) area(i int, growth float64, idle, weeks int, shows []bool) season.Area {
	n := randomNames[i]
	a := season.Area{Name: n.name, Kind: n.kind, Most: make([]float64, weeks)}
	var ready, hold float64
	finish, few := finishOf(n.name, n.kind)
	switch n.kind {
	case jacketWork:
		ready, hold, a.Minutes = float64(r.between(9, 13)), float64(r.between(6, 11)), float64(5*r.between(8, 24))
	case closeWork:
		ready, hold, a.Minutes = float64(r.between(4, 6)), float64(r.between(4, 6)), float64(5*r.between(3, 9))
	default:
		ready, hold, a.Minutes = float64(r.between(7, 10)), float64(r.between(5, 8)), float64(5*r.between(4, 12))
	}
	a.Loose = a.Minutes
	a.Minutes *= pick
	// The trade's starting rule for ready 11 and hold 7 weeks, scaled; see MODEL.md.
	for _, g := range []float64{growth / spread, growth, growth * spread} {
		term := func(weeks, allow, slope float64) season.Term {
			return season.Term{Weeks: int(max(1, math.Round(weeks/g))), Allow: allow, Slope: slope / 3}
		}
		a.Young = append(a.Young, term(ready*8/11, 0.50, 0.8), term(ready, 0.60, 1.5))
		a.Old = append(a.Old, term(ready+hold, 0.10, 0.5), term(ready+hold*10/7, 0.20, 0.75), term(ready+2*hold, 0.03, 1.5))
	}
	if !r.chance(0.1) {
		a.Grip = int(max(1, math.Round(ready/3/growth)))
	}
	every := 1.0
	if r.chance(0.1) {
		every = 0.125 // roll only
	}
	for t := range weeks {
		a.Most[t] = every
		for s := t; s < min(weeks, t+finish); s++ {
			if shows[s] {
				a.Most[t] = min(every, few)
			}
		}
		for s := t; s < min(weeks, t+int(math.Round(ready/growth))); s++ {
			if shows[s] && n.kind == jacketWork {
				a.Most[t] = min(a.Most[t], rollMost)
			}
		}
	}
	a.Past = r.past(ready, idle)
	a.Dead = math.Round(1e6*math.Max(0, 1-a.PastAt(0)+a.PastAt(-int(math.Round((ready+2*hold)/growth))))) / 1e6
	if n.kind == jacketWork {
		a.Even = growth / (ready + hold/2)
	}
	return a
}

// even charges uneven work of the jacket; the area's weight must be set.
func even(a *season.Area, weeks int) {
	if a.Even == 0 {
		return
	}
	a.Over, a.Under = make([]float64, weeks), make([]float64, weeks)
	for t := range weeks {
		a.Over[t], a.Under[t] = unevenPart*a.Weight, unevenPart*a.Weight
	}
	if a.Dead > 0 {
		a.Left = make([]float64, weeks)
		for t := range min(weeks, 8) {
			a.Left[t] = 2 * unevenPart * a.Weight
		}
	}
}

// past is a coat as it arrives: all of one age, staged in a few layers, or rolled. Rarely it was gone over twice.
func (r *randomiser) past(ready float64, idle int) []float64 {
	longest := 30
	pulled := make([]float64, longest+1) // by age in weeks
	switch r.IntN(4) {
	case 0:
		pulled[r.between(0, 20)] = 1
	case 1, 2:
		left := 24
		for left > 0 {
			n := min(left, r.between(2, 12))
			pulled[r.IntN(26)] += float64(n) / 24
			left -= n
		}
	default:
		every := r.between(1, 2)
		share := float64(every) / math.Round(1.6*ready)
		for age, left := 0, 1.0; left > 0 && age <= longest; age += every {
			pulled[age] = min(share, left)
			left -= pulled[age]
		}
	}
	if r.chance(0.05) {
		pulled[r.IntN(3)] += 0.25
	}
	pulled = append(make([]float64, idle), pulled...)
	longest += idle
	past := make([]float64, longest+1)
	var sum float64
	for i := range past {
		sum += pulled[longest-i]
		past[i] = sum
	}
	return past
}

// hours gives each week one limit of hours for all work with set-ups, one of hand load, and, where a second pair of
// hands is kept from the jackets, one of the first pair's hours for them.
func (r *randomiser) hours(p *season.Problem, tight float64, away []bool) {
	second := r.chance(0.4)
	for t := range p.Weeks {
		var wish float64
		for _, dog := range p.Dogs {
			wish += dog.SetUp
			for _, a := range dog.Areas {
				wish += a.Minutes / 8
			}
		}
		hours := math.Round(tight * wish * r.real(0.8, 1.2))
		if away[t] {
			hours = 0
		}
		p.Rows = append(
			p.Rows,
			season.Row{Name: "all hands", Week: t, Capacity: hours, Kinds: 1<<randomKinds - 1, SetUps: true},
			season.Row{
				Name: "all hands", Week: t, Capacity: math.Round(hours * 0.7),
				Kinds: 1<<jacketWork | 1<<closeWork, Strip: true,
			},
		)
		if second {
			p.Rows = append(p.Rows, season.Row{
				Name: "first hands", Week: t, Capacity: math.Round(hours * 0.5), Kinds: 1 << jacketWork,
			})
		}
	}
}
