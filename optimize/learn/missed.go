package learn

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Agreed is how many sessions were agreed on for days gone by, and how many of them were done.
type Agreed struct{ Sessions, Done int }

// missedRecords is how many sessions the setting is worth. No source: a good quarter of a year of one dog.
const missedRecords = 20

const (
	leastMissed = 0.005 // of a setting: below it the records would never be believed
	mostMissed  = 0.5
)

// Missed is the part of sessions agreed on that are not done: the setting, which counts as so many sessions, with the records (a beta
// distribution). Told is the setting; Value lies in 0 to 0.5. Without records it is the setting.
func Missed(a Agreed, set float64) Estimate {
	e := Estimate{Value: set, Records: a.Sessions, Told: set}
	prior := math.Max(leastMissed, set) * missedRecords
	beta := distuv.Beta{Alpha: prior + float64(a.Sessions-a.Done), Beta: missedRecords - prior + float64(a.Done)}
	if a.Sessions > 0 {
		e.Value = math.Min(mostMissed, beta.Mean())
	}
	e.SD = beta.StdDev() / math.Max(leastMissed, e.Value)
	e.Low, e.High = beta.Quantile(tail), beta.Quantile(1-tail)
	return e
}

// tail is the chance that an estimate lies below its range, or above it.
const tail = 0.05
