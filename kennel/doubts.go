package kennel

import (
	"fmt"
	"strconv"
	"strings"
)

// Doubts are what a kennel says that may be right, but that is to be looked at once: layers that leave a part of an area out,
// which counts as hair that is older than any pull, so as overlong; a dog that stands on the table for very long, or is very
// young on the day of a show; hands that pull for very long. Fields are paths like dogs[2].areas.all.
func Doubts(k Kennel) (all []*InputError) {
	for i, h := range k.Hands {
		if h.StripHoursADay > LimitsBegin {
			all = append(all, &InputError{
				Field: fmt.Sprintf("hands[%d].strip_hours_a_day", i), Value: fmt.Sprintf("%g", float64(h.StripHoursADay)),
				What: fmt.Sprintf("limits for hand work begin to apply at %d hours a day; that is not where it is safe", LimitsBegin),
				Try:  fmt.Sprintf("%d or fewer, and stop when the hands ache", LimitsBegin),
			})
		}
	}
	for i, d := range k.Dogs {
		at := fmt.Sprintf("dogs[%d].", i)
		if d.Table.Minutes > longOnTable {
			all = append(all, &InputError{
				Field: at + "table.minutes", Value: fmt.Sprintf("%g", float64(d.Table.Minutes)),
				What: "is more than 3 hours on the table in a day, the most of one salon (second-hand); no governing body is known to set a limit",
				Try:  fmt.Sprintf("%d or fewer", longOnTable),
			})
		}
		all = append(all, leftOut(at+"areas.all", d.All)...)
		for _, a := range d.Areas {
			if a.Area != AreaFurnishings { // what is lost of them is no layer of the whole
				all = append(all, leftOut(at+"areas."+string(a.Area), a.Layers)...)
			}
		}
	}
	for _, y := range TooYoung(k) {
		all = append(all, &InputError{
			Field: y.field, Value: y.Dog, What: y.Words(), Try: "a show on " + y.From.String() + " or later, or another dog",
		})
	}
	for _, x := range ShowsInSpells(k, k.PlanFrom) {
		all = append(all, &InputError{
			Field: x.field, Value: x.Dog, What: x.Words(Date.String), Try: "another dog, or other days of the spell",
		})
	}
	return all
}

// Damaged are the kept areas of dogs whose layers say that hair was pulled or lost: it is damage, for kept hair is never
// pulled. Fields are paths like dogs[2].areas.furnishings.
func Damaged(k Kennel, pats Patterns) (all []*InputError) {
	for i, d := range k.Dogs {
		for _, a := range pats[d.Pattern].Areas {
			layers := d.LayersOf(a)
			if !a.Kept || len(layers) == 0 {
				continue
			}
			all = append(all, &InputError{
				Field: fmt.Sprintf("dogs[%d].areas.%s", i, a.Name), Value: LostWords(layers),
				What: "is understood as damage; kept hair is never pulled, and takes most of a year to come back",
				Try:  "the share that was really lost, or no line for " + string(a.Name) + " if nothing was",
			})
		}
	}
	return all
}

// LostWords are the layers of kept hair as what they are: 40 % lost on 2026-10-12.
func LostWords(layers []Layer) string {
	lost := make([]string, len(layers))
	for i, l := range layers {
		lost[i] = fmt.Sprintf("%.0f %% lost on %s", 100*float64(l.Share), l.Pulled)
	}
	return strings.Join(lost, ", ")
}

// LimitsBegin is from how many hours of hand work a day limits for it begin to apply (E1: ACGIH hand activity TLV; seen). They were
// lowered in 2018, so it is not where such work is safe (E1b: an ergonomist's page on the revision; seen as an excerpt).
const LimitsBegin = 4

// longOnTable is how many minutes a dog is on the table in a day at most in one salon (C13; second-hand). No limit of a governing
// body was found (E5).
const longOnTable = 180

func leftOut(field string, layers []Layer) []*InputError {
	rest := RestOf(layers)
	if rest == 0 {
		return nil
	}
	words := strconv.FormatFloat(float64(rest), 'g', 2, 64)
	return []*InputError{{
		Field: field, Value: strconv.FormatFloat(1-float64(rest), 'g', 6, 64),
		What: "is what the shares sum to; the other " + words + " counts as longer than any pull that is known of",
		Try:  "a share of " + words + " with its day too, if it is known",
	}}
}

// RestOf is the part of an area that its layers leave out, 0 where they leave out none, or where there are no layers.
func RestOf(layers []Layer) Share {
	if len(layers) == 0 {
		return 0
	}
	rest := Share(1)
	for _, l := range layers {
		rest -= l.Share
	}
	if rest < leastRest {
		return 0
	}
	return rest
}

// leastRest is a part so small that thirds written in decimals leave it out.
const leastRest = 0.005
