package optimize

import "tuckup/kennel"

// pastOver is for how many weeks beyond the age at which hair is too long ages are told one by one.
const pastOver = 8

// areaOutlook is how an area stands at the end of week t, with the ages of its hair.
func areaOutlook(a kennel.AreaCoatNow, t int) AreaOutlook {
	o := AreaOutlook{
		Area: a.Name, State: a.State(t), Score: a.Score(t), Why: a.Why(t),
		Ready: a.Rule.Ready, Over: a.Rule.Ready + a.Rule.Hold,
	}
	if a.Kept {
		o.Over = 0
	}
	var younger kennel.Share
	for age := kennel.Weeks(1); age <= max(o.Ready, o.Over)+pastOver; age++ {
		all := a.Curve.Younger(t, age)
		o.Ages = append(o.Ages, max(0, all-younger))
		younger = all
	}
	o.Older = max(0, 1-younger)
	return o
}
