package optimize

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// How a dog grows is an estimate. Around it growth is taken to be lognormal, its median the estimate; what a draw of it
// makes of the coat goes through the same readiness as everything else, with the plan's pulling as it is.
const (
	draws    = 600 // of each dog's growth
	lowPart  = 0.1 // part of the draws below a band ..
	highPart = 0.9 // .. and below its upper end
)

// band is what the draws of a dog's growth make of its readiness on one day.
type band struct {
	low, high kennel.Score // a tenth of the draws is below low, a tenth above high
	likely    float64      // part of the draws that is in coat
}

// bands fills in how sure each readiness of the plan is.
func (l *layout) bands(plan season.Plan, all []shown) {
	for d := range l.k.Dogs {
		var at []int
		var weeks []int
		for i := range all {
			if all[i].dog == d {
				at = append(at, i)
				weeks = append(weeks, kennel.ReadinessWeek(all[i].On, l.diary.Week0))
			}
		}
		for j, b := range l.bandsOf(d, plan, weeks) {
			s := &all[at[j]]
			s.Low, s.High, s.Likely = b.low, b.high, b.likely
		}
	}
}

// bandsOf are dog d's bands at the ends of the weeks, as for a show then.
func (l *layout) bandsOf(d int, plan season.Plan, weeks []int) []band {
	if len(weeks) == 0 {
		return nil
	}
	coat := l.coats[d].With(plan.Shares[d])
	scores := make([][]kennel.Score, len(weeks))
	for _, growth := range l.growths(d) {
		grown := coat.Growing(growth)
		for i, t := range weeks {
			scores[i] = append(scores[i], whole(grown.ShowScore(t)))
		}
	}
	bands := make([]band, len(weeks))
	for i, s := range scores {
		bands[i] = bandOf(s)
	}
	return bands
}

func bandOf(scores []kennel.Score) (b band) {
	slices.Sort(scores)
	n := float64(len(scores))
	b.low, b.high = scores[int(lowPart*n)], scores[int(math.Ceil(highPart*n))-1]
	for _, s := range scores {
		if s >= kennel.ReadyScore {
			b.likely += 1 / n
		}
	}
	b.likely = min(1, b.likely)
	return b
}

// growths are the draws of dog d's growth. They are the same in every plan with the same seed, whatever other dogs there
// are, so that two plans differ by what they do and not by the draw; and one lies in each of so many equal parts of the
// distribution (stratified sampling), so that few tell as much as many.
func (l *layout) growths(d int) []float64 {
	dog := l.k.Dogs[d]
	name := fnv.New64a()
	name.Write([]byte(dog.Name))
	random := rand.New(rand.NewPCG(l.opt.Seed, name.Sum64()))
	spread := lognormalSpread(growthSD(l.opt, dog.Name))
	all := make([]float64, draws)
	for i := range all {
		part := (float64(i) + random.Float64()) / draws
		part = min(max(part, leastPart), 1-leastPart)
		all[i] = factor(dog.Coat.Growth) * math.Exp(spread*normalQuantile(part))
	}
	return all
}

// leastPart keeps a draw from being infinite.
const leastPart = 1e-9

// normalQuantile is below which the part of a standard normal distribution lies.
func normalQuantile(part float64) float64 { return math.Sqrt2 * math.Erfinv(2*part-1) }

// lognormalSpread is the standard deviation of the logarithm of what has the relative standard deviation.
func lognormalSpread(sd float64) float64 { return math.Sqrt(math.Log1p(sd * sd)) }

// growthSD is how unsure the dog's growth is: its own records' say, else the usual.
func growthSD(o Options, dog string) float64 {
	sd, ok := o.GrowthSDs[dog]
	if !ok {
		sd = o.GrowthSD
	}
	return max(0, sd)
}
