// Package reports turns a plan into what people read and what other programs take in: text for a terminal, JSON,
// and CSV. It plans nothing and rounds only what it prints. Every report is deterministic: the same plan gives
// the same bytes, whatever the machine; the only field that may differ between two runs is `seconds` in the JSON.
package reports

import (
	"math"

	"tuckup/kennel"
)

// hundredths is a stretch of work in hundredths of a minute. Reports add up in it, so that totals agree with
// their parts to the last digit printed.
type hundredths int64

func hundredthsOf(m kennel.Minutes) hundredths { return hundredths(math.Round(float64(m) * 100)) }

// minutes is the stretch as a number with two decimals.
func (h hundredths) minutes() float64 { return float64(h) / 100 }

// hours is the stretch in hours with four decimals: within a fifth of a second.
func (h hundredths) hours() float64 { return rounded(float64(h)/(100*kennel.MinutesAnHour), 4) }

// rounded is x to so many decimals. Minus zero becomes zero.
func rounded(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	r := math.Round(x*p) / p
	if r == 0 {
		return 0
	}
	return r
}
