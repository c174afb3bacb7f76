package kennel

import (
	"cmp"
	"math"
	"slices"
)

// Tip is the largest share of kept hair that may be taken in one go and leaves no gap: a few hairs that stick out.
// Common practice, no source.
const Tip Share = 0.02

// leastLayer is the share of an area below which a layer is what rounding left of one that was pulled.
const leastLayer Share = 1e-12

// Worked is the dog after the work. What was seen before it corrects the layers on the day (seenOn); then every share that was pulled takes the longest hair of its area first, whatever
// layers that are, and adds a layer pulled on the day. Hair older than any pull that is known of (what the layers lack
// to 1) goes before all others. Work on another dog, areas that the pattern does not have and shares that are no more
// than 0 change nothing; a share above 1 is the whole area. Of kept hair a tip changes nothing, and more than that is
// lost. Pulls may be written down in any order, the coat is the same; what was seen holds for the layers that there are.
func (d Dog) Worked(p Pattern, w Work) Dog {
	if w.Dog != d.Name {
		return d
	}
	d.Areas = slices.Clone(d.Areas)
	for _, x := range w.Looks {
		a, ok := p.Area(x.Area)
		layers := d.LayersOf(a)
		if !ok || a.Kept || math.Abs(float64(longShare(layers, a.longBy(d, w.On))-x.Share)) <= float64(leastLayer) {
			continue
		}
		d.setLayers(x.Area, a.seenOn(layers, d, w.On, x.Share))
	}
	for _, a := range w.Areas {
		of, ok := p.Area(a.Area)
		if !ok || !(a.Share > 0) || of.Kept && a.Share <= Tip {
			continue
		}
		d.setLayers(a.Area, pulledOn(d.LayersOf(of), min(a.Share, 1), w.On))
	}
	return d
}

// setLayers puts layers on an area, which from now on has its own. d.Areas must not be shared.
func (d *Dog) setLayers(a AreaName, layers []Layer) {
	own := AreaCoat{Area: a, Layers: layers}
	if i := slices.IndexFunc(d.Areas, func(c AreaCoat) bool { return c.Area == a }); i >= 0 {
		d.Areas[i] = own
		return
	}
	order := AreaNames()
	i := slices.IndexFunc(d.Areas, func(c AreaCoat) bool {
		return slices.Index(order, c.Area) > slices.Index(order, a)
	})
	if i < 0 {
		i = len(d.Areas)
	}
	d.Areas = slices.Insert(d.Areas, i, own)
}

// pulledOn is what is left of the layers, oldest first, after a share was pulled on the day. The area is a queue: the
// new layer goes in by its date, and as much as makes room for it goes out at the old end.
func pulledOn(layers []Layer, share Share, on Date) []Layer {
	var sum Share
	for _, l := range layers {
		sum += l.Share
	}
	out := share - max(0, 1-sum) // what dated hair gives up, after the hair that no pull is known of
	all := append(slices.Clone(layers), Layer{Share: share, Pulled: on})
	slices.SortStableFunc(all, func(a, b Layer) int { return cmp.Compare(a.Pulled, b.Pulled) })
	var left []Layer
	for _, l := range all {
		gone := min(l.Share, max(0, out))
		out -= gone
		l.Share -= gone
		switch n := len(left); {
		case l.Share <= leastLayer:
		case n > 0 && left[n-1].Pulled == l.Pulled:
			left[n-1].Share += l.Share
		default:
			left = append(left, l)
		}
	}
	return left
}
