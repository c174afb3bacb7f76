package optimize

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/season"
)

// How a dog grows is an estimate, and not all that is planned is done. Growth is taken to be lognormal, its median the estimate; sessions are
// missed and caught up as missed.go says. What a draw of both makes of the coat goes through the same readiness as everything else.
const (
	draws    = 400 // of each dog's growth and missed sessions
	lowPart  = 0.1 // part of the draws below a band ..
	highPart = 0.9 // .. and below its upper end
)

// band is what the draws make of a dog's readiness on one day.
type band struct {
	mean      kennel.Score // what is promised
	low, high kennel.Score // a tenth of the draws is below low, a tenth above high
	likely    float64      // part of the draws that is in coat
}

// bandsOf are dog d's bands at the ends of the weeks, as for a show then.
func (l *layout) bandsOf(d int, plan season.Plan, weeks []int) []band {
	if len(weeks) == 0 {
		return nil
	}
	scores := make([][]kennel.Score, len(weeks))
	random := l.random(d, lucky)
	f := l.follows(d, plan, l.minutesOver(plan))
	for _, growth := range l.growths(d) {
		coat := l.coats[d].With(f.follow(l.luck(random), slices.Max(weeks))).Growing(growth)
		for i, t := range weeks {
			scores[i] = append(scores[i], whole(coat.ShowScore(t)))
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
		b.mean += s / kennel.Score(n)
		if s >= kennel.ReadyScore {
			b.likely += 1 / n
		}
	}
	b.mean, b.likely = whole(b.mean), min(1, b.likely)
	return b
}

// growths are the draws of dog d's growth. They are the same in every plan with the same seed, whatever other dogs there
// are, so that two plans differ by what they do and not by the draw; and one lies in each of so many equal parts of the
// distribution (stratified sampling), so that few tell as much as many.
func (l *layout) growths(d int) []float64 {
	dog, random := l.k.Dogs[d], l.random(d, growing)
	spread := lognormalSpread(growthSD(l.opt, dog.Name))
	all := make([]float64, draws)
	for i := range all {
		part := (float64(i) + random.Float64()) / draws
		part = min(max(part, leastPart), 1-leastPart)
		all[i] = factor(dog.Coat.Growth) * math.Exp(spread*normalQuantile(part))
	}
	return all
}

// What a dog's random numbers are for.
const (
	growing = ""
	lucky   = "\n"
)

// random are a dog's random numbers for one thing, the same in every plan with the same seed.
func (l *layout) random(d int, what string) *rand.Rand {
	name := fnv.New64a()
	name.Write([]byte(l.k.Dogs[d].Name + what))
	return rand.New(rand.NewPCG(l.opt.Seed, name.Sum64()))
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
