// Package learn fits how fast each dog's coat grows, and how fast its coat is worked, from the handler's own records. It
// proposes and never adopts. MODEL.md beside this file states the model.
package learn

import (
	"math"

	"tuckup/kennel"
)

// Records are what was written down at the table.
type Records struct {
	Work      []Session
	Lengths   []Length
	Showables []kennel.Showable
	Looks     []Look
	Pick      float64 // minutes of living hair as a multiple of the pattern's: the setting; 0 = UsualPick
}

// Length is a length that was taken, with the day on which the hair that was measured was last pulled; zero when that
// is not known.
type Length struct {
	kennel.Measure
	Pulled kennel.Date
}

// Look is how the long layer of an area was seen, with the layers as the days of its pulls make them on that day.
type Look struct {
	kennel.Look
	Dog    string
	On     kennel.Date
	Layers []kennel.Layer
}

// Longest is when the longest hair on an area was last pulled, and whether that is known: it is not where some of the
// area's hair is older than any pull that is known of, or was pulled after the day.
func Longest(d kennel.Dog, a kennel.AreaName, on kennel.Date) (kennel.Date, bool) {
	var sum kennel.Share
	var oldest kennel.Date
	for _, l := range d.LayersOn(a) {
		sum += l.Share
		if oldest == 0 || l.Pulled < oldest {
			oldest = l.Pulled
		}
		if l.Pulled > on {
			return 0, false
		}
	}
	return oldest, sum > 1-leastUndated
}

// leastUndated is the share of an area's hair without a date below which it is what rounding left.
const leastUndated = 1e-3

// Dog is what the records say of one dog.
type Dog struct {
	Dog     string
	Growth  Estimate // growth factor: divides the pattern's ready and hold
	Areas   []Area   // with enough records of their own, in working order
	Pace    Estimate // work factor: multiplies the pattern's minutes, of living hair
	Dead    Estimate // the same with dead hair; Records are those with some
	Records []Record // all that were used, as they were told
	Unused  []Unused
	beside  beside
}

// Area is how fast one area of a dog grows.
type Area struct {
	Area   kennel.AreaName
	Growth Estimate
}

// Estimate is a factor with how sure it is.
type Estimate struct {
	Value     float64 // the most probable; the pattern's own is 1
	SD        float64 // relative standard deviation
	Low, High float64 // 9 in 10 lie between
	Records   int     // that it rests on; with none it is what the pattern's range says
	Told      float64 // what the kennel has now; 0 for an area
}

// News reports whether the records say something else than the kennel has.
func (e Estimate) News() bool {
	return e.Records > 0 && math.Abs(math.Log(e.Value/e.Told)) > leastNews
}

// leastNews is the difference of a factor (its logarithm) from which it is worth a change: half a per cent.
const leastNews = 0.005

// Record is one record that was used.
type Record struct {
	On       kennel.Date
	Area     kennel.AreaName // empty for minutes
	What     What
	Seen     float64 // mm, weeks or minutes; of a look the weeks that it bounds, or their middle
	Expected float64 // with the estimates
	Trust    float64 // 0 to 1: how much it counts; near 0 it is out of line with all else
}

// What is what a record tells.
type What string

// What records tell.
const (
	WhatLength   What = "length"   // mm
	WhatShowable What = "showable" // weeks from the pull until the hair could be shown
	WhatLook     What = "look"     // weeks from the pull until hair is of the long layer
	WhatMinutes  What = "minutes"  // of a session with its set-up
)

// Unused is a record that says nothing, and why.
type Unused struct {
	On   kennel.Date
	Area kennel.AreaName
	What What
	Why  string
}

// The scatter that records usually have, as standard deviations. No source: a rule held to hair is good to a
// millimetre or two, hair of one day's pull differs by a tenth, coats are looked at weekly, and what is long is told by eye.
const (
	lengthError    = 1.5  // mm
	lengthScatter  = 0.10 // of the length
	showableError  = 0.5  // weeks
	showableSpread = 0.08 // of the weeks
	lookError      = 1.0  // weeks
	lookSpread     = 0.10 // of the weeks
	minutesError   = 4.0  // minutes
	minutesScatter = 0.15 // of the pulling
)

// The priors that no pattern gives. No source.
const (
	areaSD     = 0.05               // of an area's growth around its dog's
	lagPart    = 0.1                // of ready: the weeks before a pulled hair shows at all
	lagSD      = 0.5                // of the lag's logarithm
	lengthSD   = 0.03               // least of a show length's logarithm
	ownRecords = 3                  // from so many records on an area is told apart
	tenthToSD  = 1.2815515655446004 // standard deviations from the median to where a tenth lies beyond
	twentieth  = 1.6448536269514722 // .. a twentieth
)

// Fit says what the records tell of every dog of the string, in its order. A dog without records gets what its pattern's
// ranges say. The only error is a fit that numbers can't settle, which names the dog.
func Fit(k kennel.Kennel, pats kennel.Patterns, r Records) ([]Dog, error) {
	all := make([]Dog, 0, len(k.Dogs))
	for _, dog := range k.Dogs {
		d, err := fitDog(dog, pats[dog.Pattern], r)
		if err != nil {
			return nil, &kennel.InputError{
				Field: "dog", Value: dog.Name, What: "nothing can be learned from its records: " + err.Error(),
				Try: "tuckup work list and measure list, and correct what is wrong there",
			}
		}
		all = append(all, d)
	}
	return all, nil
}

func fitDog(dog kennel.Dog, p kennel.Pattern, r Records) (Dog, error) {
	out := Dog{Dog: dog.Name}
	g := newGrowth(dog, p)
	for _, l := range r.Lengths {
		if l.Dog == dog.Name {
			out.note(g.addLength(l))
		}
	}
	for _, s := range r.Showables {
		if s.Dog == dog.Name {
			out.note(g.addShowable(s))
		}
	}
	for _, x := range r.Looks {
		if x.Dog == dog.Name {
			out.note(g.addLook(x))
		}
	}
	f, err := g.fit()
	if err != nil {
		return out, err
	}
	out.Growth, out.Areas = g.estimates(f)
	out.Growth.Told = told(dog.Coat.Growth)
	out.finish(0, g.model, f)

	pace := newPace(dog, p, r.Pick)
	first := len(out.Records)
	for _, w := range r.Work {
		if w.Dog == dog.Name && w.Duty == "" {
			out.note(pace.add(w))
		}
	}
	f, err = pace.fit()
	if err != nil {
		return out, err
	}
	out.Pace, out.Dead = pace.estimates(f)
	out.Pace.Told = told(dog.Coat.Pace)
	out.beside = pace.besides(f)
	out.finish(first, pace.model, f)
	return out, nil
}

// told is a factor of the kennel, 1 where none is told.
func told(f float64) float64 {
	if f <= 0 {
		return 1
	}
	return f
}

// note keeps a record that is used, or why it is not.
func (d *Dog) note(r Record, why string) {
	if why != "" {
		d.Unused = append(d.Unused, Unused{On: r.On, Area: r.Area, What: r.What, Why: why})
		return
	}
	d.Records = append(d.Records, r)
}

// finish sets the records from first on against what the fit expects of them.
func (d *Dog) finish(first int, m model, f fitted) {
	for i, o := range m.records {
		r := &d.Records[first+i]
		r.Expected = o.predict(f.at)
		switch o.kind {
		case showables:
			r.Expected = math.Exp(r.Expected)
		case looks:
			r.Seen, r.Expected = math.Exp(o.seen), math.Exp(r.Expected)
		}
		r.Trust = min(1, f.weights[i])
	}
}

// estimate is the factor whose logarithm is the sum of some parameters.
func estimate(f fitted, records int, parameters ...int) Estimate {
	mean, sd := f.combined(parameters...)
	return lognormal(mean, sd, records)
}

// lognormal is the factor whose logarithm has the mean and the standard deviation.
func lognormal(mean, sd float64, records int) Estimate {
	return Estimate{
		Value: math.Exp(mean), SD: math.Sqrt(math.Expm1(sd * sd)), Low: math.Exp(mean - twentieth*sd),
		High: math.Exp(mean + twentieth*sd), Records: records,
	}
}

// rangeSD is the standard deviation of a number's logarithm when its range holds 8 in 10.
func rangeSD(f kennel.Figure) float64 {
	if f.Low <= 0 || f.High <= f.Low {
		return 0
	}
	return math.Log(f.High/f.Low) / (2 * tenthToSD)
}

// meanSD is the mean standard deviation of the logarithm of a number of each area that is pulled, weighted.
func meanSD(p kennel.Pattern, of, weight func(kennel.PatternArea) kennel.Figure) float64 {
	var sum, weights float64
	for _, a := range p.Areas {
		if a.Kept {
			continue
		}
		sum += rangeSD(of(a)) * weight(a).Value
		weights += weight(a).Value
	}
	if sum <= 0 {
		return usualSD
	}
	return sum / weights
}

// usualSD stands for the range of a pattern that gives none.
const usualSD = 0.1

// GrowthSDs is how unsure the growth of each dog with records is, about what the kennel has for it: the fit's own
// standard deviation, and how far the kennel's factor is from the fit.
func GrowthSDs(dogs []Dog) map[string]float64 {
	var sds map[string]float64 // nil where no dog has records: as if there were no book
	for _, d := range dogs {
		if d.Growth.Records > 0 {
			if sds == nil {
				sds = map[string]float64{}
			}
			sds[d.Dog] = math.Hypot(d.Growth.SD, math.Log(d.Growth.Value/d.Growth.Told))
		}
	}
	return sds
}
