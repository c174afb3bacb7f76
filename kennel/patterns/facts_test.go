package patterns

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/goccy/go-yaml"

	"tuckup/kennel"
)

// factsFile holds the published values, each with row, source and mark.
const factsFile = "../../testdata/facts.yaml"

// fact is one row; which fields a row has is told by the list that it stands in.
type fact struct {
	Row, Source, Mark string
	Fact              string
	Pattern, Part     string
	Patterns, Areas   []string
	From, To          float64
	Weeks, Share      float64
	FirstReady        struct{ From, To int } `yaml:"first_ready"`
	WeeksReady        struct{ From, To int } `yaml:"weeks_ready"`
	BlownBy           int                    `yaml:"blown_by"`
	BlownBelow        kennel.Score           `yaml:"blown_below"`
	ShareOneIn        int                    `yaml:"share_one_in"`
	EstablishedWeeks  int                    `yaml:"established_weeks"`
	NoBathDays        int                    `yaml:"no_bath_days"`
	WarnDays          int                    `yaml:"warn_days"`
	PullWithin        int                    `yaml:"pull_within_days"`
}

// String names the row with its source and mark, for messages.
func (f fact) String() string {
	return fmt.Sprintf("%s (%s; %s) %s %s %s", f.Row, f.Source, f.Mark, f.Pattern, strings.Join(f.Patterns, " "), f.Part)
}

type facts struct {
	StripOut    []fact `yaml:"strip_out"`
	Staged      []fact
	Rolling     []fact
	ThighReady  []fact `yaml:"thigh_ready"`
	ShowLength  []fact `yaml:"show_length"`
	Growth      []fact
	StripHours  []fact `yaml:"strip_hours"`
	Withers     []fact
	LiftingBath []fact `yaml:"lifting_bath"`
}

func published(t *testing.T) facts {
	t.Helper()
	data, err := os.ReadFile(factsFile)
	if err != nil {
		t.Fatal(err)
	}
	var f facts
	if err := yaml.UnmarshalWithOptions(data, &f, yaml.Strict()); err != nil {
		t.Fatal(err)
	}
	return f
}

func builtin(t testing.TB) kennel.Patterns {
	t.Helper()
	all, err := Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

var readOnce = sync.OnceValues(Builtin)

// patternOf returns the pattern, for reading only.
func patternOf(t testing.TB, name string) kennel.Pattern {
	t.Helper()
	all, err := readOnce()
	if err != nil {
		t.Fatal(err)
	}
	p, ok := all[name]
	if !ok {
		t.Fatalf("no pattern %q", name)
	}
	return p
}

func areaOf(t testing.TB, p kennel.Pattern, name string) kennel.PatternArea {
	t.Helper()
	a, ok := p.Area(kennel.AreaName(name))
	if !ok {
		t.Fatalf("%s has no %q", p.Name, name)
	}
	return a
}

var week0 = kennel.NewDate(2027, 1, 4)

// F1: a jacket that is stripped all at once comes in, holds and blows when the published calendar says so.
func TestStrippedJacketKeepsThePublishedCalendar(t *testing.T) {
	all := published(t).StripOut
	if len(all) == 0 {
		t.Fatal("no rows")
	}
	for _, f := range all {
		p := patternOf(t, f.Pattern)
		p.Areas = slices.DeleteFunc(slices.Clone(p.Areas), func(a kennel.PatternArea) bool { return !a.Name.Jacket() })
		coat, err := kennel.NewDogCoat(kennel.Dog{Name: "Sorrel", All: []kennel.Layer{{Share: 1, Pulled: week0}}}, p, week0)
		if err != nil {
			t.Fatal(err)
		}
		first, ok := coat.Earliest(0, 52)
		if !ok || first < f.FirstReady.From || first > f.FirstReady.To {
			t.Errorf("%v: in coat from week %d (%v), want %v", f, first, ok, f.FirstReady)
		}
		ready := 0
		for w := range 53 {
			if coat.Score(w) >= kennel.ReadyScore {
				ready++
			}
			if s := coat.Score(w); w >= f.BlownBy && s >= f.BlownBelow {
				t.Errorf("%v: readiness %.0f in week %d, want below %.0f", f, s, w, f.BlownBelow)
			}
		}
		if ready < f.WeeksReady.From || ready > f.WeeksReady.To {
			t.Errorf("%v: in coat for %d weeks, want %v", f, ready, f.WeeksReady)
		}
		if s := coat.State(f.BlownBy); s != kennel.StateBlown {
			t.Errorf("%v: %s in week %d, want blown", f, s, f.BlownBy)
		}
	}
}

// latestStrip is how many weeks before a show the area can be taken down whole at the latest and be fully ready:
// the finish rule must let it go, and its readiness on the day must be full. -1 when there is no such week.
func latestStrip(a kennel.PatternArea) int {
	rule := kennel.NewRule(a.Ready.Value, a.Hold.Value, 1)
	old := kennel.NewCurve([]kennel.Layer{{Share: 1, Pulled: week0.AddDays(-40 * kennel.DaysAWeek)}}, week0)
	for before := range 53 {
		held := float64(before) <= a.FinishWeeks.Value && a.FinishShare.Value < 1
		if !held && rule.Score(old.With([]float64{1}), before) >= 100-1e-9 {
			return before
		}
	}
	return -1
}

// F2: the latest week in which an area can be taken down whole lies in its published range.
func TestStagedStripLiesInThePublishedWeeks(t *testing.T) {
	all := published(t).Staged
	seen := map[string]bool{}
	for _, f := range all {
		seen[f.Pattern] = true
		p := patternOf(t, f.Pattern)
		for _, name := range f.Areas {
			got := latestStrip(areaOf(t, p, name))
			if float64(got) < f.From || float64(got) > f.To {
				t.Errorf("%v: %s can be taken down %d weeks before, want %g to %g", f, name, got, f.From, f.To)
			}
		}
	}
	for _, name := range []string{"lakeland-terrier", "giant-schnauzer", "norfolk-norwich-terrier", "miniature-schnauzer"} {
		if !seen[name] {
			t.Errorf("no row for %s", name)
		}
	}
}

// F4: the thigh is ready within the published weeks of regrowth.
func TestThighIsReadyWithinTheMeasuredRegrowth(t *testing.T) {
	for _, f := range published(t).ThighReady {
		if len(f.Patterns) == 0 {
			t.Fatalf("%v: no pattern", f)
		}
		for _, name := range f.Patterns {
			ready := areaOf(t, patternOf(t, name), "thigh").Ready
			if ready.Value < f.From || ready.Value > f.To || !strings.Contains(ready.Source, "["+f.Row+"]") {
				t.Errorf("%v: thigh of %s ready after %+v, want %g to %g", f, name, ready, f.From, f.To)
			}
		}
	}
}

// F5: show lengths equal their rows with source and mark, every pattern's length has a row, and the growth that
// follows lies in the derived range and says that it is derived.
func TestShowLengthsEqualTheStandardsAndGrowthIsDerived(t *testing.T) {
	f := published(t)
	if len(f.Growth) != 1 {
		t.Fatalf("%d rows of growth", len(f.Growth))
	}
	g7 := f.Growth[0]
	covered := map[string]bool{}
	for _, row := range f.ShowLength {
		p := patternOf(t, row.Pattern)
		for _, name := range row.Areas {
			covered[row.Pattern+" "+name] = true
			l := areaOf(t, p, name).ShowLength
			if l == nil {
				t.Errorf("%v: %s has no show length", row, name)
				continue
			}
			if l.Low != row.From || l.High != row.To || l.Source != row.Source+" ["+row.Row+"]" || string(l.Mark) != row.Mark {
				t.Errorf("%v: %s has %+v, want %g to %g", row, name, *l, row.From, row.To)
			}
		}
	}
	for _, p := range builtin(t) {
		for _, a := range p.Areas {
			rate, ok := a.DerivedGrowth()
			if ok != (a.ShowLength != nil) || ok != covered[p.Name+" "+string(a.Name)] {
				t.Errorf("%s %s: growth %v, show length %v, row %v", p.Name, a.Name, ok, a.ShowLength, covered[p.Name+" "+string(a.Name)])
			}
			if ok && (rate.Value < g7.From || rate.Value > g7.To || rate.Mark != kennel.MarkDerived) {
				t.Errorf("%v: %s %s grows %.3f mm a day (%s), want %g to %g, derived", g7, p.Name, a.Name, rate.Value, rate.Mark, g7.From, g7.To)
			}
		}
	}
}

func TestHoursOfAFullStripAreThePublishedOnes(t *testing.T) {
	for _, f := range published(t).StripHours {
		for _, name := range f.Patterns {
			var hours float64
			for _, a := range patternOf(t, name).Areas {
				hours += a.Minutes.Value / 60
			}
			if hours < f.From || hours > f.To {
				t.Errorf("%v: %s takes %.1f h, want %g to %g", f, name, hours, f.From, f.To)
			}
		}
	}
}

// C14: the withers need the longest hair, and near a show give up only a few hairs.
func TestWithersNeedTheLongestHair(t *testing.T) {
	f := published(t).Withers[0]
	for _, p := range builtin(t) {
		w := areaOf(t, p, "withers")
		if w.FinishWeeks.Value != f.Weeks || w.FinishShare.Value != f.Share {
			t.Errorf("%v: %s finishes its withers %g weeks before at %g", f, p.Name, w.FinishWeeks.Value, w.FinishShare.Value)
		}
		for _, a := range p.Areas {
			top := a.Name == kennel.AreaBack || a.Name == kennel.AreaRump || a.Name == kennel.AreaShoulder || a.Name == kennel.AreaNeck
			if top && (a.Ready.Value > w.Ready.Value || a.Hold.Value > w.Hold.Value) {
				t.Errorf("%s: the %s is ready after %g and holds %g weeks, the withers %g and %g",
					p.Name, a.Name, a.Ready.Value, a.Hold.Value, w.Ready.Value, w.Hold.Value)
			}
		}
	}
}

// roll_most lies between the pace at which a jacket is built, C8, and the older rule of thumb, C10.
func TestRollMostLiesInThePublishedPaces(t *testing.T) {
	rows := published(t).Rolling
	least, most := math.Inf(1), 0.0
	for _, r := range rows {
		least, most = min(least, 1/float64(r.ShareOneIn)), max(most, 1/float64(r.ShareOneIn))
	}
	for _, p := range builtin(t) {
		if v := p.RollMost.Value; v < least || v > most {
			t.Errorf("%s gives up %g a week, want %g to %g", p.Name, v, least, most)
		}
	}
}

// A row about one breed keeps its mark only on that breed's pattern; elsewhere it is common practice.
func TestRowsOfOneBreedAttestOnlyItsPattern(t *testing.T) {
	breeds := map[string][]string{
		"B1": {"standard-schnauzer"}, "B2": {"wire-fox-terrier"}, "B3": {"west-highland-white-terrier"},
		"B4": {"norfolk-norwich-terrier"}, "B5": {"affenpinscher-griffon"}, "B6": {"german-wirehaired-pointer"},
		"B8": {"spinone"}, "B10": {"lakeland-terrier"}, "C1": {"miniature-schnauzer"}, "C2": {"lakeland-terrier"},
		"C3": {"giant-schnauzer"}, "C4": {"giant-schnauzer"}, "C5": {"norfolk-norwich-terrier"}, "C8": {"miniature-schnauzer"},
	}
	found := map[string]bool{}
	for _, p := range builtin(t) {
		for _, f := range figuresOf(&p) {
			for row, of := range breeds {
				if !strings.Contains(f.Source, "["+row+"]") {
					continue
				}
				found[row] = true
				if f.Mark != kennel.MarkPractice && !slices.Contains(of, p.Name) {
					t.Errorf("%s has %+v from %s, a row about %v", p.Name, *f, row, of)
				}
			}
		}
	}
	for row := range breeds {
		if !found[row] {
			t.Errorf("no figure names %s", row)
		}
	}
}

// figuresOf points at every figure of a pattern.
func figuresOf(p *kennel.Pattern) []*kennel.Figure {
	all := []*kennel.Figure{&p.RollMost, &p.Look}
	if !p.Care.None() {
		all = append(all, &p.Care.Minutes, &p.Care.Every)
	}
	for i := range p.Areas {
		a := &p.Areas[i]
		all = append(all, &a.Weight, &a.Ready, &a.Hold, &a.Grip, &a.Minutes, &a.FinishWeeks, &a.FinishShare)
		if a.ShowLength != nil {
			all = append(all, a.ShowLength)
		}
	}
	return all
}

// C15: no lifting bath within 14 days of a show, a warning within 21, and pull within 2 days of one.
func TestLiftingBathKeepsItsDistanceFromShows(t *testing.T) {
	f := published(t).LiftingBath[0]
	p := patternOf(t, "wire-fox-terrier")
	d := kennel.Dog{Coat: kennel.Coat{Texture: kennel.TextureHard}}
	for days := 0; days < 60; days++ {
		words := kennel.Lift(d, p, week0.AddDays(days), week0)
		nearest := days - (kennel.DaysAWeek - 1) // from the last day of the week of work
		bath := strings.HasPrefix(words, "lifting bath")
		warned := strings.Contains(words, "may not lie flat")
		if want := nearest > f.WarnDays; bath != want {
			t.Errorf("%v: show %d days after the week: %q", f, nearest, words)
		}
		if want := nearest > f.NoBathDays && nearest <= f.WarnDays; warned != want {
			t.Errorf("%v: show %d days after the week: %q", f, nearest, words)
		}
		if bath && !strings.Contains(words, fmt.Sprintf("within %d days", f.PullWithin)) {
			t.Errorf("%v: %q", f, words)
		}
	}
}
