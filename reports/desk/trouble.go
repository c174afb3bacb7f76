package desk

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// trouble is one thing that is wrong, with the one thing to do about it.
type trouble struct {
	Dog, Path string // empty = it is about the string
	Words     string
	Why       string      // the reason in full, where Words has only its beginning; empty = they say all
	On        kennel.Date // of the show; 0 = none
	Show      string      // key of the show that the dog is better left out of; empty = that is not what to do
	Do, To    string      // a link: its words and its address; empty = none
	Version   int64       // of the book that is looked at
}

// mostTroubles is how many lines of trouble a page begins with; the others are folded.
const mostTroubles = 3

// troubles are what is wrong with the plan in use, the nearest show first, then what else cannot be met, then the week that is short of hours.
func troubles(l look) (all []trouble) {
	if l.plan == nil {
		return nil
	}
	reasons := slices.Clone(l.plan.Cannot)
	reason := func(what string) string {
		i := slices.IndexFunc(reasons, func(c optimize.Cannot) bool { return c.What == what })
		if i < 0 {
			return ""
		}
		why := reasons[i].Why
		reasons = slices.Delete(reasons, i, i+1)
		return why
	}
	for _, x := range l.plan.Readiness {
		if !notReady(x) || x.Chance < kennel.CountedOn {
			continue
		}
		t := trouble{Dog: x.Dog, Path: dogPath(x.Dog), On: x.On}
		t.Words = fmt.Sprintf("not in coat for %s (%s), %s", x.Show, say.Day(x.On, l.today), kennel.ScoreWords(x.Score))
		t.Why = reason(inCoatFor(x))
		if why := shortReason(t.Why); why != "" {
			t.Words += ": " + why
		}
		if x.Cure != nil {
			t.Words += "; in coat with " + say.Cure(x.Cure, l.today)
		} else if from := inCoatFrom(l, x); from != 0 {
			t.Words += "; in coat from " + say.Week(from, l.today)
		}
		switch s, ok := showOf(l.state.Kennel, x); {
		case x.Cure != nil:
			t.Do, t.To = "See what it takes", dogPath(x.Dog)
		case ok:
			t.Show = showKey(s)
		}
		all = append(all, t)
	}
	for _, c := range reasons {
		all = append(all, trouble{Words: c.What + ": " + c.Why, Do: "Plan", To: "/plan"})
	}
	if t := l.plan.Tight; t != nil {
		all = append(all, trouble{Words: strings.TrimSuffix(say.Tight(l.plan.Result), "."), Do: "Hours", To: "/hours"})
	}
	for i := range all {
		all[i].Version = l.version
	}
	return all
}

// shortReason is the beginning of a reason, "too late"; empty where it begins with figures, which are said already.
func shortReason(why string) string {
	why, _, _ = strings.Cut(why, ":")
	if strings.Contains(why, "(") {
		return ""
	}
	return why
}

// inCoatFrom is the first day after a show on which the dog is in coat with the plan; 0 = none.
func inCoatFrom(l look, x optimize.ShowReadiness) kennel.Date {
	for _, o := range l.plan.Outlooks {
		if o.Dog != x.Dog {
			continue
		}
		for _, w := range o.Planned {
			if w.From > x.On {
				return w.From
			}
		}
	}
	return 0
}

// notReady reports whether a dog is expected to be out of coat at a show.
func notReady(x optimize.ShowReadiness) bool { return x.Score < kennel.ReadyScore }

// inCoatFor is what a plan calls a dog's being in coat for a show.
func inCoatFor(x optimize.ShowReadiness) string { return x.Dog + " in coat for " + x.Show }

// whyNotMet is why a dog can't be in coat for a show: what the plan says, else its worst area.
func whyNotMet(r optimize.Result, x optimize.ShowReadiness) string {
	for _, c := range r.Cannot {
		if c.What == inCoatFor(x) {
			return c.Why
		}
	}
	why := say.WorstAt(x)
	if x.Cure != nil {
		why += "; in coat with " + x.Cure.Words(r.On)
	}
	return why
}

// showOf is the show of the book that a readiness is for.
func showOf(k kennel.Kennel, x optimize.ShowReadiness) (kennel.Show, bool) {
	for _, s := range k.Shows {
		if s.Name == x.Show && s.On == x.On {
			return s, true
		}
	}
	return kennel.Show{}, false
}

// troublesOf are the troubles of the dog.
func troublesOf(all []trouble, dog string) (own []trouble) {
	for _, t := range all {
		if t.Dog == dog {
			own = append(own, t)
		}
	}
	return own
}

// troubleOf is the first trouble of the dog.
func troubleOf(all []trouble, dog string) (trouble, bool) {
	i := slices.IndexFunc(all, func(t trouble) bool { return t.Dog == dog })
	if i < 0 {
		return trouble{}, false
	}
	return all[i], true
}
