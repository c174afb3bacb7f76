package kennel

// RingMinutes is how long the dog is worked on each day of a show, before the ring.
func (d Dog) RingMinutes(p Pattern) (sum Minutes) {
	for _, x := range d.AtRing(p) {
		sum += x.Minutes
	}
	return sum
}

// PackForAll is what is packed for any show, whatever the dogs. Common practice, no source.
func PackForAll() []string {
	return []string{"entry passes and papers", "show leads", "water and bowls", "bench or crate covers", "table and apron", "bags and towels"}
}
