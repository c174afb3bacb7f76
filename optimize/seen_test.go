package optimize

import (
	"context"
	"reflect"
	"slices"
	"sync"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

var seenOn = kennel.NewDate(2027, 1, 4)

// seenPlan is a plan of two dogs over six weeks, made once, and what it is looked at with on the day that it was made.
var seenPlan = sync.OnceValues(func() (Result, Now) {
	on := seenOn
	k := kennel.Kennel{Name: "Fellside", Weeks: 6, Hands: []kennel.Hands{{Name: "Maeve", Hours: [7]kennel.Hours{3, 0, 3, 0, 3}}}}
	for i, pattern := range []string{"rough", "wiry"} {
		d := kennel.UsualDog()
		d.Name, d.Pattern, d.All = []string{"Moss", "Sorrel"}[i], pattern, []kennel.Layer{{Share: 0.5, Pulled: on - 70}, {Share: 0.5, Pulled: on - 21}}
		d.Duties = []kennel.Duty{{Name: "nails", Minutes: 10, Every: 1}}
		k.Dogs = append(k.Dogs, d)
	}
	k.Shows = []kennel.Show{
		{Name: "Brackenmere", On: on + 3, Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Moss"}},
		{Name: "Yarrowmead", On: on + 33, Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Moss", "Sorrel"}},
	}
	opt := DefaultOptions()
	opt.On = on
	pats := made.Patterns()
	r, err := Plan(context.Background(), k, pats, opt)
	if err != nil {
		panic(err)
	}
	return r, Now{On: on, Kennel: k, Patterns: pats, Options: opt}
})

// firstSession is the first session of the plan, as work that was done.
func firstSession(t *testing.T, r Result) kennel.Work {
	t.Helper()
	for _, s := range r.SessionsAhead() {
		return kennel.Work{Dog: s.Dog, On: s.On, Minutes: s.Minutes, Areas: s.Areas}
	}
	t.Fatal("no dog is pulled")
	return kennel.Work{}
}

func TestAPlanIsSeenOnItsDayAsItIs(t *testing.T) {
	r, now := seenPlan()
	seen := Seen(r, now)
	if u := seen.InUse; u == nil || len(u.Since)+len(u.Behind) != 0 || u.From != seenOn || u.Ended(seenOn) {
		t.Errorf("beside it is said %+v", u)
	}
	seen.InUse, seen.Solved = nil, r.Solved
	if !reflect.DeepEqual(seen, r) {
		t.Errorf("seen as\n%+v\nnot\n%+v", seen, r)
	}
}

// On a later day what is over is gone, what was done of the day too, and the coats are those of the day.
func TestAPlanIsSeenLaterWithoutWhatIsOver(t *testing.T) {
	r, now := seenPlan()
	w := firstSession(t, r)
	now.On, now.Done = w.On, []kennel.Work{w, {Dog: "Moss", On: w.On, Duty: "nails", Minutes: 10}}
	i, _ := now.Kennel.FindDog(w.Dog)
	now.Kennel.Dogs = slices.Clone(now.Kennel.Dogs)
	now.Kennel.Dogs[i] = now.Kennel.Dogs[i].Worked(now.Patterns[now.Kennel.Dogs[i].Pattern], w)
	seen := Seen(r, now)
	for _, d := range seen.Timetable.Days {
		if d.On < w.On {
			t.Errorf("%s is gone by", d.On)
		}
		for _, s := range d.Sessions() {
			if s.Dog == w.Dog && d.On == w.On {
				t.Errorf("%s is done", s.Dog)
			}
		}
		for _, h := range d.Hands {
			for _, i := range h.Items {
				if d.On == w.On && i.Dog == "Moss" && i.What == "nails" {
					t.Error("Moss's nails are done")
				}
			}
		}
	}
	if len(seen.InUse.Since)+len(seen.InUse.Behind) != 0 {
		t.Errorf("what was done as planned is said to be news: %+v", seen.InUse)
	}
	now.On = seenOn + 8
	seen = Seen(r, now)
	if seen.Week0 != seenOn+7 || len(seen.Weeks) != len(r.Weeks)-1 || seen.Weeks[0].Week != seenOn+7 || len(seen.Points[0].Weeks) != len(seen.Weeks) ||
		len(seen.Outlooks[0].PlannedScores) != len(seen.Weeks) {
		t.Errorf("a week later it begins on %s with %d weeks", seen.Week0, len(seen.Weeks))
	}
	for _, s := range seen.Readiness {
		if s.Show == "Brackenmere" {
			t.Error("Brackenmere is over")
		}
	}
	if len(seen.Readiness) != 2 || len(r.Readiness) != 3 {
		t.Errorf("%d of %d shows are ahead", len(seen.Readiness), len(r.Readiness))
	}
	later := now
	later.Options.On = now.On
	fresh, err := Plan(context.Background(), now.Kennel.InHand(now.On), now.Patterns, later.Options)
	if err != nil {
		t.Fatal(err)
	}
	for d := range fresh.Outlooks {
		if got, want := seen.Outlooks[d], fresh.Outlooks[d]; got.State != want.State || got.Score != want.Score || !reflect.DeepEqual(got.Areas, want.Areas) {
			t.Errorf("%s is seen as\n%+v\na plan of that day sees\n%+v", got.Dog, got.Areas, want.Areas)
		}
	}
}

// Each kind of change is said in words, and only it.
func TestWhatHasChangedSinceAPlanWasMadeIsSaid(t *testing.T) {
	r, as := seenPlan()
	w := firstSession(t, r)
	for want, change := range map[string]func(*Now){
		"Ferrydown on 20 February is new": func(n *Now) {
			n.Kennel.Shows = append(n.Kennel.Shows, kennel.Show{Name: "Ferrydown", On: seenOn + 47, Days: 1, Weight: 1, Chance: 1})
		},
		"Yarrowmead on 6 February was dropped": func(n *Now) { n.Kennel.Shows = n.Kennel.Shows[:1] },
		"Yarrowmead moved to 7 February":       func(n *Now) { n.Kennel.Shows[1].On++ },
		"Yarrowmead on 6 February was changed": func(n *Now) { n.Kennel.Shows[1].Weight = 3 },
		"Sorrel is gone": func(n *Now) {
			n.Kennel.Dogs = n.Kennel.Dogs[:1]
		},
		"Hazel is new": func(n *Now) {
			d := n.Kennel.Dogs[0]
			d.Name = "Hazel"
			n.Kennel.Dogs = append(n.Kennel.Dogs, d)
		},
		"Moss was changed":            func(n *Now) { n.Kennel.Dogs[0].Priority = 2 },
		"the coat of Moss":            func(n *Now) { n.Kennel.Dogs[0].All = []kennel.Layer{{Share: 1, Pulled: seenOn - 30}} },
		"hours or days away of Maeve": func(n *Now) { n.Kennel.Hands[0].Hours[1] = 2 },
		"Jonas is new":                func(n *Now) { n.Kennel.Hands = append(n.Kennel.Hands, kennel.Hands{Name: "Jonas"}) },
		"the length of the season":    func(n *Now) { n.Kennel.Weeks = 8 },
		"settings":                    func(n *Now) { n.Options.Balance = 3 },
		"work on Moss that was not planned": func(n *Now) {
			n.work(kennel.Work{Dog: "Moss", On: seenOn + 1, Minutes: 60, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.4}}})
		},
		"":    func(n *Now) { n.Kennel.Dogs[0].Owner = "R. Calloway" },
		" ":   func(n *Now) { n.On = w.On; n.work(w) },
		"  ":  func(n *Now) { n.On = seenOn + 10; n.Kennel = n.Kennel.InHand(n.On) },
		"   ": func(n *Now) { n.Options.Seed, n.Options.TimeLimit, n.Options.Missed = 5, 60, 0.12 },
	} {
		now := as
		now.Kennel = now.Kennel.Clone()
		change(&now)
		got := Seen(r, now).InUse.Since
		if want = trimmed(want); want == "" && len(got) != 0 || want != "" && !slices.Equal(got, []string{want}) {
			t.Errorf("said %q, not %q", got, want)
		}
	}
}

func trimmed(s string) string {
	for len(s) > 0 && s[0] == ' ' {
		s = s[1:]
	}
	return s
}

// work does work, as a book would.
func (n *Now) work(w kennel.Work) {
	n.Done = append(n.Done, w)
	n.On = max(n.On, w.On)
	i, _ := n.Kennel.FindDog(w.Dog)
	n.Kennel.Dogs[i] = n.Kennel.Dogs[i].Worked(n.Patterns[n.Kennel.Dogs[i].Pattern], w)
}
