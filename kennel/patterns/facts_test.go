package patterns

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
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
	Ranges      []fact
	Shoulder    []fact
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

// patternOf returns the pattern.
func patternOf(t testing.TB, name string) kennel.Pattern {
	t.Helper()
	p, ok := builtin(t)[name]
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
			if coat.ShowScore(w) >= kennel.ReadyScore {
				ready++
			}
			if s := coat.ShowScore(w); w >= f.BlownBy && s >= f.BlownBelow {
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
			mark := kennel.Mark(row.Mark)
			if mark == kennel.MarkSeen && row.From < row.To {
				mark = kennel.MarkWithin
			}
			if l.Low != row.From || l.High != row.To || l.Source != row.Source+" ["+row.Row+"]" || l.Mark != mark {
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

// stripHours is how long it takes to strip a dog of the pattern: what is kept stays on.
func stripHours(p kennel.Pattern) (hours float64) {
	for _, a := range p.Areas {
		if !a.Kept {
			hours += a.Minutes.Value / 60
		}
	}
	return hours
}

// F9, second half: a terrier's full strip takes the published hours; a toy takes less than any terrier, and a big dog
// more than the small one of its kind.
func TestHoursOfAFullStripAreThePublishedOnes(t *testing.T) {
	least := math.Inf(1)
	for _, f := range published(t).StripHours {
		for _, name := range f.Patterns {
			hours := stripHours(patternOf(t, name))
			if hours < f.From || hours > f.To {
				t.Errorf("%v: %s takes %.1f h, want %g to %g", f, name, hours, f.From, f.To)
			}
			least = min(least, hours)
		}
	}
	if toy := stripHours(patternOf(t, "affenpinscher-griffon")); toy >= least {
		t.Errorf("a toy takes %.1f h, the quickest terrier %.1f", toy, least)
	}
	for _, bySize := range [][]string{
		{"miniature-schnauzer", "standard-schnauzer", "giant-schnauzer"},
		{"welsh-terrier", "airedale-terrier"},
		{"wire-fox-terrier", "german-wirehaired-pointer", "spinone"},
	} {
		for i, name := range bySize[1:] {
			if a, b := patternOf(t, bySize[i]), patternOf(t, name); stripHours(a) >= stripHours(b) || a.Look.Value > b.Look.Value {
				t.Errorf("%s takes %.1f h and %g minutes to look over, %s %.1f h and %g", a.Name, stripHours(a), a.Look.Value, b.Name, stripHours(b), b.Look.Value)
			}
		}
	}
}

// What is published of a breed that its pattern does not follow lies at least within the pattern's range.
func TestRangesHoldThePublishedWeeks(t *testing.T) {
	rows := published(t).Ranges
	if len(rows) == 0 {
		t.Fatal("no rows")
	}
	for _, f := range rows {
		for _, name := range f.Areas {
			ready := areaOf(t, patternOf(t, f.Pattern), name).Ready
			if ready.Low > f.To || ready.High < f.From || !strings.Contains(ready.Source, "["+f.Row+"]") {
				t.Errorf("%v: %s is ready after %+v, want a range that holds %g to %g", f, name, ready, f.From, f.To)
			}
		}
	}
}

// F10: furnishings are kept in every pattern that has them, come back in most of a year, and are no part of what "all"
// says of a dog. A pattern has care for them, and only then.
func TestFurnishingsAreKept(t *testing.T) {
	count := 0
	for _, p := range builtin(t) {
		kept := false
		d := kennel.Dog{Name: "Sorrel", All: []kennel.Layer{{Share: 1, Pulled: week0}}}
		coat, err := kennel.NewDogCoat(d, p, week0)
		if err != nil {
			t.Fatal(err)
		}
		for i, a := range p.Areas {
			if a.Kept != (a.Name == kennel.AreaFurnishings) {
				t.Errorf("%s: %s is kept: %v", p.Name, a.Name, a.Kept)
			}
			if !a.Kept {
				continue
			}
			kept = true
			count++
			if a.Ready.Value < 35 || a.Ready.Value > 45 {
				t.Errorf("%s: its furnishings are back after %g weeks", p.Name, a.Ready.Value)
			}
			if s := coat.Areas[i].Score(0); s != 100 {
				t.Errorf("%s: the furnishings of a dog of which all is stripped stand at %.0f", p.Name, s)
			}
		}
		if kept == p.Care.None() {
			t.Errorf("%s has kept hair: %v, care: %+v", p.Name, kept, p.Care)
		}
		if p.Look.Value < 8 || p.Look.Value > 18 {
			t.Errorf("%s takes %g minutes to look over", p.Name, p.Look.Value)
		}
	}
	if count == 0 {
		t.Error("nothing is kept")
	}
}

// F14: whatever the coat, no dog of any pattern is in coat for a show with an area under 50.
func TestNoDogIsInCoatWithAHole(t *testing.T) {
	held := 0
	for _, p := range builtin(t) {
		for ago := 0; ago < 60; ago++ {
			for _, a := range p.Areas {
				d := kennel.Dog{Name: "Sorrel", All: []kennel.Layer{{Share: 1, Pulled: week0.AddDays(-13 * kennel.DaysAWeek)}}}
				d.Areas = []kennel.AreaCoat{{Area: a.Name, Layers: []kennel.Layer{{Share: 1, Pulled: week0.AddDays(-ago * kennel.DaysAWeek)}}}}
				coat, err := kennel.NewDogCoat(d, p, week0)
				if err != nil {
					t.Fatal(err)
				}
				_, worst, _ := coat.Worst(0)
				if in := coat.ShowScore(0) >= kennel.ReadyScore; in != (coat.State(0) == kennel.StateInCoat) || in && worst < 50 {
					t.Fatalf("%s, %s pulled %d weeks ago: %.0f, %s, worst area %.0f", p.Name, a.Name, ago, coat.ShowScore(0), coat.State(0), worst)
				}
				if coat.Score(0) >= kennel.ReadyScore && worst < 50 {
					held++
				}
			}
		}
	}
	if held == 0 {
		t.Error("no coat was found that only its hole holds down")
	}
}

// F15: only a value that stands in its source is marked seen; one that was chosen inside a range that was seen is marked
// within, with that range.
func TestMarksSayNoMoreThanWasSeen(t *testing.T) {
	stands := map[string][]float64{ // single values, as the source has them
		"B12": {51}, "C2": {6, 4}, "C3": {12}, "C4": {4, 3, 2}, "C5": {12}, "C6": {2}, "C8": {0.125},
	}
	ranges := map[string][][2]float64{ // from and to, as the source has them; of several sources the least and the most
		"B1": {{19, 51}}, "B6": {{25.4, 50.8}}, "C2": {{8, 10}, {4, 5}}, "C4": {{6, 7}}, "C3, C4": {{6, 12}}, "C18": {{10, 11}}, "C1, C18": {{10, 12}},
	}
	row := regexp.MustCompile(`\[([A-Z]+[0-9]+b?)\]`)
	seen := map[kennel.Mark]int{}
	for _, p := range builtin(t) {
		for _, f := range p.Figures() {
			var ids []string
			for _, m := range row.FindAllStringSubmatch(f.Source, -1) {
				ids = append(ids, m[1])
			}
			seen[f.Mark]++
			switch f.Mark {
			case kennel.MarkSeen:
				if !slices.ContainsFunc(ids, func(id string) bool { return slices.Contains(stands[id], f.Value) }) {
					t.Errorf("%s %s %s: %g is marked seen, but stands in none of %v", p.Name, f.Area, f.Name, f.Value, ids)
				}
			case kennel.MarkWithin:
				if !slices.Contains(ranges[strings.Join(ids, ", ")], [2]float64{f.Low, f.High}) {
					t.Errorf("%s %s %s: %g to %g is marked within %v", p.Name, f.Area, f.Name, f.Low, f.High, ids)
				}
			}
		}
	}
	if seen[kennel.MarkSeen] == 0 || seen[kennel.MarkWithin] == 0 {
		t.Errorf("marks: %v", seen)
	}
}

// F16: a shoulder is ready after what is published of its breed, or else no later than the back, beside which it is shown
// shorter or as long, and then its range reaches the three months of G10.
func TestShouldersAreDecided(t *testing.T) {
	g10 := published(t).Shoulder[0]
	for _, p := range builtin(t) {
		shoulder, back := areaOf(t, p, "shoulder"), areaOf(t, p, "back")
		if shoulder.Ready.Value > back.Ready.Value || shoulder.Ready.Value < 8 {
			t.Errorf("%s: the shoulder is ready after %g weeks, the back after %g", p.Name, shoulder.Ready.Value, back.Ready.Value)
		}
		if a, b := shoulder.ShowLength, back.ShowLength; a != nil && b != nil && a.Value > b.Value {
			t.Errorf("%s: the shoulder is shown at %g mm, the back at %g", p.Name, a.Value, b.Value)
		}
		if shoulder.Ready.Mark != kennel.MarkPractice {
			continue // published of the breed
		}
		if shoulder.Ready.High < g10.From || !strings.Contains(shoulder.Ready.Source, "["+g10.Row+"]") {
			t.Errorf("%v: %s has %+v", g10, p.Name, shoulder.Ready)
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
		"B12": {"giant-schnauzer"}, "B13": {"airedale-terrier"}, "C17": {"welsh-terrier"}, "C18": {"miniature-schnauzer"}, "C19": {"wire-fox-terrier"},
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
