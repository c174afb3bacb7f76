package sample

import (
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// ScriptName is a name that a browser would run.
const ScriptName = `<script>alert("x")</script>'><img src=x onerror=alert(1)>&amp;`

// HostileNames are what people may call a dog, a show or themselves.
var HostileNames = []string{ScriptName, FormulaName, TerminalName, HebrewName, LongName, strings.Repeat("ab ", 67), "犬🐕\U0001F9AE", `"quoted" & 'so'`, ""}

// Pictured is the sample with coats that pictures can be drawn of, and a pattern whose source is told.
func Pictured(r optimize.Result) optimize.Result {
	r.Patterns = kennel.Patterns{"own": {
		Name: "own", Title: "Own " + r.Kennel.Name, RollMost: kennel.Figure{Value: 0.1, Source: "said by " + r.Kennel.Name, Mark: kennel.MarkMemory},
	}}
	for i := range r.Kennel.Dogs {
		r.Kennel.Dogs[i].Pattern = "own"
	}
	for i := range r.Outlooks {
		o := &r.Outlooks[i]
		o.Dog = r.Kennel.Dogs[i].Name
		o.IdleStates = []kennel.State{kennel.StateInCoat, kennel.StateGoingOver}
		o.PlannedStates = []kennel.State{kennel.StateComingIn, kennel.StateInCoat}
		for j := range o.Areas {
			o.Areas[j].Ages = []kennel.Share{0, 0.3, 0, 0.5}
			o.Areas[j].Older, o.Areas[j].Ready, o.Areas[j].Over = 0.2, 2, 4
		}
	}
	return r
}

// Entries are advice on two shows, for a dog of this name.
func Entries(name string) []optimize.Entry {
	return []optimize.Entry{
		{
			Show: name, Dog: name, On: Date(3, 20), Closes: Date(3, 2), Chance: 0.5, Named: true, Score: 91.4, Low: 80, High: 95, Likely: 0.91,
			WorstArea: kennel.AreaRibs, WorstScore: 60, Why: "58 % is under 11 weeks", Gain: 0.7, Own: 0.9, Hours: 2.5,
			Dogs: []optimize.DogChange{{Dog: name, Before: 2, After: 1.8}}, Out: []optimize.OutOfCoat{{Dog: name, Show: name, Before: 81, After: 79}},
			Advice: optimize.AdviceWait, Reason: name + " would no longer be in coat",
		},
		{
			Show: "Brackenmere Terrier Club", Dog: name, On: Date(3, 27), Closes: Date(3, 3), Chance: 0.5, Score: 45, Low: 40, High: 51, Likely: 0.02,
			WorstArea: kennel.AreaEars, WorstScore: 0, Why: "100 % is over 8 weeks", Gain: 0.2,
			Cure:   &optimize.Cure{Work: []optimize.CureWork{{Area: kennel.AreaEars, Share: 1, Minutes: 30, By: Date(2, 27)}}, Score: 91},
			Advice: optimize.AdviceWork, Reason: "2 % likely to be in coat (ears: 100 % is over 8 weeks)",
		},
		{Show: "Far off", Dog: name, On: Date(12, 20), Chance: 0.3, Advice: optimize.AdviceWait, Reason: "it is after the weeks planned"},
	}
}
