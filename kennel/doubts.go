package kennel

import (
	"fmt"
	"strconv"
)

// Doubts are what a kennel says that may be right, but hardly anybody means: layers that leave a part of an area out. It
// counts as hair that is older than any pull, so as overlong. Fields are paths like dogs[2].areas.all.
func Doubts(k Kennel) (all []*InputError) {
	for i, d := range k.Dogs {
		at := fmt.Sprintf("dogs[%d].areas.", i)
		all = append(all, leftOut(at+"all", d.All)...)
		for _, a := range d.Areas {
			all = append(all, leftOut(at+string(a.Area), a.Layers)...)
		}
	}
	return all
}

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
