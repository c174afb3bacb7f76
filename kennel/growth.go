package kennel

// DerivedGrowth is the growth in millimetres a day that the area's show length and ready weeks imply, with the
// range that their ranges imply; false for an area without a published show length. No mm/day has been published
// for a plucked coat, so the figure is marked derived.
func (a PatternArea) DerivedGrowth() (Figure, bool) {
	if a.ShowLength == nil || a.Ready.Low <= 0 {
		return Figure{}, false
	}
	return Figure{
		Value:  a.ShowLength.Value / (a.Ready.Value * DaysAWeek),
		Low:    a.ShowLength.Low / (a.Ready.High * DaysAWeek),
		High:   a.ShowLength.High / (a.Ready.Low * DaysAWeek),
		Source: "show length over the days to ready",
		Mark:   MarkDerived,
	}, true
}
