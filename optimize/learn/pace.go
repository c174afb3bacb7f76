package learn

import (
	"math"

	"tuckup/kennel"
)

// Session is a session of pulling that was done.
type Session struct {
	kennel.Work
	Dead map[kennel.AreaName]kennel.Share // of each area, as Dead has it; areas that are not named gave up living hair
}

// Dead is how much of a pulled share was dead hair, which goes first: hair is dead from the pattern's ready and two holds on, and
// so is hair that no pull is known of. before is the dog as it came to the table; where nothing is known to be on the area, or it
// was pulled after the day, nothing is.
func Dead(before kennel.Dog, p kennel.Pattern, pulled kennel.Pulled, on kennel.Date) kennel.Share {
	a, ok := p.Area(pulled.Area)
	layers, rule := before.LayersOf(a), a.RuleFor(before.Coat.Growth)
	if !ok || rule.Dead == 0 || len(layers) == 0 {
		return 0
	}
	dead := kennel.Share(1)
	for _, l := range layers {
		if l.Pulled > on {
			return 0
		}
		if l.Pulled > on.AddDays(-kennel.DaysAWeek*int(rule.Dead)) {
			dead -= l.Share
		}
	}
	return min(pulled.Share, max(0, dead))
}

// UsualPick is what living hair takes, as a multiple of a full strip's minutes, where no setting says so. Common practice: 1.5 to 3.
const UsualPick = 2.0

const (
	leastPick = 1.5
	mostPick  = 3.0
)

// pickSD is how unsure the logarithm of the pick is.
func pickSD() float64 { return math.Log(mostPick/leastPick) / (2 * tenthToSD) }

// beside is what one dog's records say of the pick: for Pick.
type beside struct{ sum, weight, pick float64 }

// paceFit is the fit of how fast one dog's coat is worked. Its parameters are logarithms: of the pace with dead hair, and of
// the pace with living hair beside it.
type paceFit struct {
	model
	pattern kennel.Pattern
	setUp   float64 // minutes of a session before pulling begins, with the look over the whole dog
	pick    float64
	dead    int // records with dead hair
}

// The parameters of a pace fit.
const (
	deadPace = iota
	livingBeside
)

func newPace(dog kennel.Dog, p kennel.Pattern, pick float64) *paceFit {
	minutes := func(a kennel.PatternArea) kennel.Figure { return a.Minutes }
	if pick <= 0 {
		pick = UsualPick
	}
	return &paceFit{
		model:   model{priorSD: []float64{meanSD(p, minutes, minutes), pickSD()}},
		pattern: p, setUp: float64(dog.SessionSetUp(p, dog.Table.Minutes)), pick: pick,
	}
}

// add adds a session that was timed. why is empty when it is used.
func (f *paceFit) add(s Session) (r Record, why string) {
	r = Record{On: s.On, What: WhatMinutes, Seen: float64(s.Minutes)}
	var living, dead float64 // minutes by the pattern
	for _, x := range s.Areas {
		a, ok := f.pattern.Area(x.Area)
		if !ok {
			return r, "it worked on the " + string(x.Area) + ", which its pattern does not have"
		}
		of := min(x.Share, s.Dead[x.Area])
		dead += float64(of) * a.Minutes.Value
		living += float64(x.Share-of) * a.Minutes.Value * f.pick
	}
	switch {
	case !(s.Minutes > 0):
		return r, "nobody looked at the clock"
	case !(living+dead > 0):
		return r, "nothing was pulled"
	}
	if dead > 0 {
		f.dead++
	}
	f.records = append(f.records, observation{
		kind: paces, seen: float64(s.Minutes), scale: math.Hypot(minutesError, minutesScatter*(living+dead)),
		predict: func(p []float64) float64 {
			return f.setUp + math.Exp(p[deadPace])*(dead+math.Exp(p[livingBeside])*living)
		},
	})
	return r, ""
}

// estimates are the dog's pace with living hair and with dead hair.
func (f *paceFit) estimates(at fitted) (living, dead Estimate) {
	return estimate(at, len(f.records), deadPace, livingBeside), estimate(at, f.dead, deadPace)
}

// besides is what the dog's records say of the minutes of living hair beside those of dead hair: the mean of its logarithm beside
// the setting times what that weighs, and what it weighs without the prior.
func (f *paceFit) besides(at fitted) beside {
	mean, sd := at.combined(livingBeside)
	prior := f.priorSD[livingBeside]
	return beside{sum: mean / (sd * sd), weight: 1/(sd*sd) - 1/(prior*prior), pick: f.pick}
}

// Pick is what the records of all dogs together say living hair takes, as a multiple of a full strip's minutes. It is taken to be
// the same on every dog; Told is the setting. Records are those with dead hair: without them nothing can be said.
func Pick(dogs []Dog) Estimate {
	prior := pickSD()
	weight, sum, records, pick := 1/(prior*prior), 0.0, 0, UsualPick
	for _, d := range dogs {
		sum += d.beside.sum
		weight += max(0, d.beside.weight)
		records += d.Dead.Records
		if d.beside.pick > 0 {
			pick = d.beside.pick
		}
	}
	e := lognormal(math.Log(pick)+sum/weight, math.Sqrt(1/weight), records)
	e.Told = pick
	return e
}
