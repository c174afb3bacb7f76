package learn

import (
	"math"

	"tuckup/kennel"
)

// factorSteps is how finely a factor that was learned is written down: in thousandths.
const factorSteps = 1000

// Adopt writes the factors of growth and pace that are new into the kennel's dogs, and returns how many there are. Factors stay within
// what a kennel may have; dogs that the kennel does not have are passed over.
func Adopt(k *kennel.Kennel, dogs []Dog) (n int) {
	take := func(to *float64, e Estimate, least, most float64) {
		if !e.News() {
			return
		}
		*to = min(most, max(least, math.Round(e.Value*factorSteps)/factorSteps))
		n++
	}
	for _, d := range dogs {
		i, err := k.FindDog(d.Dog)
		if err != nil {
			continue
		}
		coat := &k.Dogs[i].Coat
		take(&coat.Growth, d.Growth, kennel.LeastGrowth, kennel.MostGrowth)
		take(&coat.Pace, d.Pace, kennel.LeastPace, kennel.MostPace)
	}
	return n
}
