package layout

import (
	"fmt"
	"math"
	"strconv"

	"tuckup/kennel"
)

// Hundredths is a stretch of work in hundredths of a minute. Reports add up in it, so that totals agree with
// their parts to the last digit printed.
type Hundredths int64

// HundredthsOf is the nearest to a stretch of work.
func HundredthsOf(m kennel.Minutes) Hundredths { return Hundredths(math.Round(float64(m) * 100)) }

// Minutes is the stretch as a number with two decimals.
func (h Hundredths) Minutes() float64 { return float64(h) / 100 }

// Hours is the stretch in hours with four decimals: within a fifth of a second.
func (h Hundredths) Hours() float64 { return Rounded(float64(h)/(100*kennel.MinutesAnHour), 4) }

// HoursWords are hours with two decimals.
func HoursWords(h Hundredths) string {
	return fmt.Sprintf("%.2f", float64(h)/(100*kennel.MinutesAnHour))
}

// Rounded is x to so many decimals. Minus zero becomes zero.
func Rounded(x float64, decimals int) float64 {
	p := math.Pow10(decimals)
	r := math.Round(x*p) / p
	if r == 0 {
		return 0
	}
	return r
}

// Chance is a chance as CSV and JSON have it: only what is certain is 0 or 1.
func Chance(x float64) float64 {
	least := math.Pow10(-ChanceDecimals)
	if x <= 0 || x >= 1 {
		return x
	}
	return min(max(Rounded(x, ChanceDecimals), least), 1-least)
}

// Number is Rounded with all its decimals, so that CSV and JSON never differ in the last one; kennel.Number is as short as it can be.
func Number(x float64, decimals int) string {
	return strconv.FormatFloat(Rounded(x, decimals), 'f', decimals, 64)
}

// Points are the points of a readiness as JSON has them.
func Points(s kennel.Score) float64 { return Rounded(float64(s), ScoreDecimals) }
