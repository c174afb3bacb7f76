package lived

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
)

// Dog is one dog of a string.
type Dog struct {
	Name    string
	Areas   []Area
	Coats   []Coat  // what it arrives with, by area
	Growth  float64 // its true growth; who plans does not know it
	SetUp   float64 // minutes of a session before pulling begins
	Longest float64 // minutes of its longest session, with SetUp
	AWeek   int     // most sessions a week
	Care    float64 // minutes a week of care for its kept hair
}

// Show is a day on which dogs are judged.
type Show struct {
	Name   string
	Day    int // from the first day of the season, a Monday
	Weight float64
	Dogs   []int
}

// String is a string of dogs with its season and one pair of hands.
type String struct {
	Dogs  []Dog
	Shows []Show
	Weeks int
	Hours [daysAWeek]float64 // minutes of work by weekday, Monday first
	Pick  float64            // how many times as long as dead hair takes living hair
}

// What a day can hold.
const (
	breakAfter   = 50.0 // minutes of pulling, after which ..
	breakTime    = 10.0 // .. so many are a break
	freeDays     = 1    // between two sessions on a dog's jacket
	leaveAlone   = 2    // days before a show without work on the jacket
	dayTolerance = 1.0  // minutes by which clocks that go by whole minutes may miss
)

// Take is a share of one area that is to be pulled.
type Take struct {
	Area  int
	Share float64
}

// Session is a session that is to be done.
type Session struct {
	Dog     int
	Day     int
	Minutes float64 // of pulling: when they are over the session ends
	Takes   []Take  // in working order
}

// Week is what a handler sees on a Monday: everything but how the dogs grow, and what is still to come.
type Week struct {
	*String
	Week  int
	Coats [][]Coat // by dog and area
	Done  []Done   // all sessions so far
}

// Day is the first day of the week.
func (w Week) Day() int { return w.Week * daysAWeek }

// Handler says every Monday which sessions the week has.
type Handler interface {
	Monday(w Week) ([]Session, error)
}

// Done is a session that was due and what came of it.
type Done struct {
	Session
	Missed bool
	Pulled []float64 // by take
	Took   float64   // minutes of pulling
}

// Luck is what goes wrong, the same for every handler with the same seed.
type Luck struct {
	Seed   uint64
	Missed float64 // chance that a session is missed
	Lost   float64 // chance that a whole week is lost
}

// Usual luck: one session in ten is missed, and one week in 25 lost.
const (
	UsualMissed = 0.1
	UsualLost   = 1.0 / 25
)

// misses reports whether the dog's session of the day is missed.
func (l Luck) misses(dog string, day int) bool {
	return l.draw("week", day/daysAWeek) < l.Lost || l.draw(dog, day) < l.Missed
}

// draw is a number from 0 to 1 that hangs on the seed, the word and the number alone.
func (l Luck) draw(word string, n int) float64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s %d", word, n)
	return rand.New(rand.NewPCG(l.Seed, h.Sum64())).Float64()
}

// Growth draws a growth factor: lognormal about 1 with the relative standard deviation.
func (l Luck) Growth(dog string, sd float64) float64 {
	part := max(1e-9, l.draw("growth of "+dog, 0))
	return math.Exp(math.Sqrt(math.Log1p(sd*sd)) * math.Sqrt2 * math.Erfinv(2*part-1))
}

// Judged is a dog at a show.
type Judged struct {
	Dog, Show int
	Score     float64 // 0 to 100
}

// Record is what came of a season.
type Record struct {
	Judged []Judged
	Done   []Done
}

// Live lives the season with the handler's sessions. The error is the handler's, or names a session that the week can't hold.
func Live(s *String, luck Luck, h Handler) (Record, error) {
	var r Record
	coats := make([][]Coat, len(s.Dogs))
	for d := range s.Dogs {
		coats[d] = slices.Clone(s.Dogs[d].Coats)
	}
	for week := range s.Weeks {
		sessions, err := h.Monday(Week{s, week, clone(coats), r.Done})
		if err != nil {
			return r, fmt.Errorf("week %d: %w", week+1, err)
		}
		if err := s.holds(week, sessions); err != nil {
			return r, fmt.Errorf("week %d: %w", week+1, err)
		}
		for day := week * daysAWeek; day < (week+1)*daysAWeek; day++ {
			for _, x := range sessions {
				if x.Day == day {
					r.Done = append(r.Done, s.do(x, coats[x.Dog], luck))
				}
			}
			for i, show := range s.Shows {
				if show.Day != day {
					continue
				}
				for _, d := range show.Dogs {
					r.Judged = append(r.Judged, Judged{d, i, s.Dogs[d].Score(coats[d], day)})
				}
			}
		}
	}
	return r, nil
}

// do does a session on the coats of its dog, unless it is missed.
func (s *String) do(x Session, coats []Coat, luck Luck) Done {
	dog := &s.Dogs[x.Dog]
	done := Done{Session: x, Pulled: make([]float64, len(x.Takes)), Missed: luck.misses(dog.Name, x.Day)}
	if done.Missed {
		return done
	}
	for i, take := range x.Takes {
		var took float64
		a := take.Area
		coats[a], done.Pulled[i], took = dog.Areas[a].pull(coats[a], x.Day, dog.Growth, take.Share, x.Minutes-done.Took, s.Pick)
		done.Took += took
	}
	return done
}

// Score is how ready the dog is for a show at the end of the day, 0 to 100: the weighted mean of its areas, but no more than so much above the
// worst, for a judge sees the hole.
func (d *Dog) Score(coats []Coat, day int) float64 {
	var sum, weights float64
	worst := math.Inf(1)
	for i := range d.Areas {
		score := d.Areas[i].score(coats[i], day, d.Growth)
		sum += d.Areas[i].Weight * score
		weights += d.Areas[i].Weight
		worst = min(worst, score)
	}
	return min(sum/weights, worst+aboveWorst)
}

// holds refuses sessions that the days of the week can't hold.
func (s *String) holds(week int, sessions []Session) error {
	var used [daysAWeek]float64
	var pulling [daysAWeek]float64
	count := make([]int, len(s.Dogs))
	for i, x := range sessions {
		dog := &s.Dogs[x.Dog]
		n := x.Day - week*daysAWeek
		if n < 0 || n >= daysAWeek {
			return fmt.Errorf("a session of %s on day %d lies outside the week", dog.Name, x.Day)
		}
		used[n] += dog.SetUp + x.Minutes
		pulling[n] += x.Minutes
		if count[x.Dog]++; count[x.Dog] > dog.AWeek {
			return fmt.Errorf("%s has %d sessions", dog.Name, count[x.Dog])
		}
		if dog.SetUp+x.Minutes > dog.Longest+dayTolerance {
			return fmt.Errorf("%s is on the table for %.0f minutes on day %d", dog.Name, dog.SetUp+x.Minutes, x.Day)
		}
		for _, y := range sessions[:i] {
			if apart := max(x.Day-y.Day, y.Day-x.Day); x.Dog == y.Dog && apart <= freeDays && dog.jacket(x) && dog.jacket(y) {
				return fmt.Errorf("the sessions of %s on days %d and %d are too near", dog.Name, y.Day, x.Day)
			}
		}
	}
	for n := range used {
		if need := used[n] + Breaks(pulling[n]); need > s.Hours[n]+dayTolerance {
			return fmt.Errorf("day %d holds %.0f minutes and should hold %.0f", n+1, s.Hours[n], need)
		}
	}
	return nil
}

// jacket reports whether the session works on the dog's jacket.
func (d *Dog) jacket(x Session) bool {
	return slices.ContainsFunc(x.Takes, func(t Take) bool { return d.Areas[t.Area].Jacket })
}

// Breaks are the minutes of breaks that so many minutes of pulling need, without one after the last.
func Breaks(pulling float64) float64 {
	return breakTime * max(0, math.Ceil((pulling-dayTolerance)/breakAfter)-1)
}

func clone(coats [][]Coat) [][]Coat {
	all := make([][]Coat, len(coats))
	for d := range coats {
		all[d] = slices.Clone(coats[d])
	}
	return all
}

// next is the number of days to the dog's next show; very many when it has none.
func (s *String) next(dog, day int) int {
	least := math.MaxInt32
	for _, show := range s.Shows {
		if show.Day >= day && slices.Contains(show.Dogs, dog) {
			least = min(least, show.Day-day)
		}
	}
	return least
}
