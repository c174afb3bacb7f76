package check_test

import (
	"context"
	"reflect"
	"sort"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// spoiled says, for every figure of a plan, what the check calls it when it is wrong. Where by is set, that is added to
// the figure instead of 1: most such figures are only asked to be possible, because to work them out anew is to plan again.
var spoiled = map[string]struct {
	figure string
	by     float64
}{
	"On":                                       {"today", 0},
	"Week0":                                    {"first Monday", 0},
	"Season.Objective":                         {"objective", 0},
	"Season.Bound":                             {"gap", 0},
	"Season.Gap":                               {"gap", 0},
	"Season.Seconds":                           {"seconds", -1e3},
	"Season.Rounds":                            {"rounds", -1e3},
	"Season.HourPrice.Week":                    {"week", 0},
	"Season.HourPrice.PointsPerHour":           {"points an hour", -1e3},
	"Weeks.Week":                               {"Monday", 0},
	"Weeks.Hours":                              {"hours available", 0},
	"Weeks.Planned":                            {"hours planned", 0},
	"Weeks.Dogs.Sessions":                      {"minutes of set-up", 0},
	"Weeks.Dogs.Minutes":                       {"minutes of pulling", 0},
	"Weeks.Dogs.SetUp":                         {"minutes of set-up", 0},
	"Weeks.Dogs.Areas.Share":                   {"minutes", 0},
	"Weeks.Dogs.Areas.Minutes":                 {"minutes", 0},
	"Weeks.Duties.Minutes":                     {"minutes", 0},
	"Weeks.Hands.Hours":                        {"hours available", 0},
	"Weeks.Hands.Planned":                      {"hours planned", 0},
	"Weeks.Hands.MostWork":                     {"most hours of work", 0},
	"Weeks.Hands.MostPulling":                  {"most hours of pulling", 0},
	"Weeks.Hands.Given.Minutes":                {"hours planned", 0},
	"Readiness.On":                             {"day", 0},
	"Readiness.Chance":                         {"chance", 0},
	"Readiness.Score":                          {"readiness", -40},
	"Readiness.Followed":                       {"readiness if all is done", 0},
	"Readiness.Idle":                           {"readiness if left alone", 0},
	"Readiness.WorstScore":                     {"readiness of the worst area", 0},
	"Readiness.Low":                            {"readiness if things go badly", 75},
	"Readiness.High":                           {"readiness if things go well", 25},
	"Readiness.Likely":                         {"chance of being in coat", 0},
	"Readiness.Cure.Score":                     {"readiness with work that brings it in coat", 0},
	"Readiness.Cure.Work.Share":                {"share that brings it in coat", 0},
	"Readiness.Cure.Work.Minutes":              {"minutes that bring it in coat", 0},
	"Readiness.Cure.Work.By":                   {"day by which work brings it in coat", 1e4},
	"Points.Weeks":                             {"points", 0},
	"Balance":                                  {"points for the least ready", 0},
	"Outlooks.Score":                           {"readiness", 0},
	"Outlooks.Idle.From":                       {"days in coat if left alone", 0},
	"Outlooks.Idle.To":                         {"days in coat if left alone", 0},
	"Outlooks.Planned.From":                    {"days in coat with the plan", 0},
	"Outlooks.Planned.To":                      {"days in coat with the plan", 0},
	"Outlooks.Areas.Score":                     {"readiness", 0},
	"Outlooks.Areas.Ages":                      {"hair grown", 0},
	"Outlooks.Areas.Older":                     {"hair older", 0},
	"Outlooks.Areas.Ready":                     {"weeks until it shows", 0},
	"Outlooks.Areas.Over":                      {"weeks until it is too long", 0},
	"Outlooks.IdleScores":                      {"readiness if left alone", 0},
	"Outlooks.PlannedScores":                   {"readiness with the plan", 0},
	"Ways.Spells.From":                         {"days of the spell", 0},
	"Ways.Spells.To":                           {"days of the spell", 0},
	"Ways.Other.Shows.On":                      {"show of the other way", 0},
	"Ways.Other.Shows.Score":                   {"readiness beside the other way", 0},
	"Ways.Other.InCoat":                        {"weeks in coat", 0},
	"Gathered.Points":                          {"points that gathering and what is left out cost", 0},
	"Gathered.Moved":                           {"touches gathered", -1e3},
	"Tight.Week":                               {"week", 0},
	"Tight.PointsPerHour":                      {"points an hour", 0},
	"Timetable.Days.On":                        {"date", 0},
	"Timetable.Days.Hands.Hours":               {"hours available", 0},
	"Timetable.Days.Hands.Items.Start":         {"time", 1e4},
	"Timetable.Days.Hands.Items.End":           {"time", 1e4},
	"Timetable.Days.Hands.Items.Areas.Share":   {"minutes", 0},
	"Timetable.Days.Hands.Items.Areas.Minutes": {"minutes", 0},
	"Timetable.Days.Hands.Items.SetUp":         {"minutes of set-up", 0},
	"Timetable.Lost":                           {"points that gathering and what is left out cost", 0},
	"Timetable.LeftOut.Week":                   {"week", 0},
	"Timetable.LeftOut.Share":                  {"minutes left out", 0},
	"Timetable.LeftOut.Minutes":                {"minutes left out", 0},
	"Timetable.LeftOut.Points":                 {"points", -1e3},
	"Timetable.Worth.Objective":                {"gap", 0},
	"Timetable.Worth.Bound":                    {"gap", 0},
	"Timetable.Worth.Gap":                      {"gap", 0},
}

// told says what the check calls a word of a plan when it is another.
var told = map[string]string{
	"Season.HourPrice.Hands":                "points an hour",
	"Weeks.Dogs.Dog":                        "dog",
	"Weeks.Dogs.Areas.Area":                 "area",
	"Weeks.Dogs.Areas.Work":                 "kind of work",
	"Weeks.Dogs.Lift":                       "how to lift",
	"Weeks.Dogs.Tool":                       "tool",
	"Weeks.Dogs.Why":                        "what it is for",
	"Weeks.Duties.Dog":                      "dog",
	"Weeks.Duties.Name":                     "why",
	"Weeks.Duties.Why":                      "why",
	"Weeks.Duties.Work":                     "kind of work",
	"Readiness.NotDone":                     "duty that is not done",
	"Weeks.Hands.Hands":                     "hands",
	"Weeks.Hands.Given.Work":                "work given",
	"Readiness.Dog":                         "dog",
	"Readiness.Show":                        "show",
	"Readiness.WorstArea":                   "worst area",
	"Readiness.Why":                         "reason",
	"Outlooks.Dog":                          "dog",
	"Outlooks.State":                        "state",
	"Outlooks.IdleStates":                   "state if left alone",
	"Outlooks.PlannedStates":                "state with the plan",
	"Outlooks.Areas.Area":                   "area",
	"Outlooks.Areas.State":                  "state",
	"Outlooks.Areas.Why":                    "reason",
	"Readiness.Cure.Work.Area":              "area that would bring it in coat",
	"Ways.Dog":                              "dog",
	"Ways.Kind":                             "way",
	"Ways.Spells.Kind":                      "kind of spell",
	"Ways.Other.Shows.Show":                 "show of the other way",
	"Points.Dog":                            "dog",
	"Tight.Hands":                           "hands",
	"Tight.Dog":                             "dog",
	"Tight.Show":                            "show",
	"Timetable.Days.Hands.Hands":            "hands",
	"Timetable.Days.Hands.Items.Dog":        "dog",
	"Timetable.Days.Hands.Items.What":       "duty",
	"Timetable.Days.Hands.Items.Areas.Area": "area",
	"Timetable.Days.Hands.Items.Areas.Work": "kind of work",
}

// free are words that no figure stands in or that only planning again could tell.
var free = map[string]string{
	"Cannot.What":                     "which dogs are told of is checked from their readiness",
	"Cannot.Why":                      "comes from plans of the dog alone",
	"Ways.Other.Kind":                 "which way was tried",
	"Ways.Other.From":                 "when it was tried",
	"Ways.Other.Shows.Other":          "comes from a plan of the dog alone",
	"Ways.Other.OtherInCoat":          "comes from a plan of the dog alone",
	"Timetable.Days.Hands.Items.Kind": "a kind of its own has no figures",
	"Timetable.Days.Hands.Items.Lift": "as in the week",
	"Timetable.Days.Hands.Items.Tool": "as in the week",
	"Timetable.Days.Hands.Items.Why":  "as in the week",
	"Timetable.LeftOut.Dog":           "a name",
	"Timetable.LeftOut.Area":          "a name",
	"Timetable.LeftOut.Duty":          "a name",
	"Timetable.LeftOut.Why":           "in words",
}

// givenToPlan is what a plan is made from, the season in numbers that its points are worked out from, and what is said beside a plan
// that was taken: not figures of it.
var givenToPlan = []string{"Kennel", "Patterns", "Options", "Slipped", "Agreed", "Solved", "InUse"}

// checkable is a small plan with every kind of figure: two pairs of hands short of hours, a duty, shows, a day's work.
func checkable(t *testing.T) planned.Result {
	t.Helper()
	handler := kennel.Hands{Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{0.8, 0, 0.8}, StripHoursADay: 0.15}
	assistant := kennel.Hands{Name: "Assistant", Hours: [kennel.DaysAWeek]kennel.Hours{0, 1}, Does: []kennel.Skill{kennel.SkillClose, kennel.SkillDuties}}
	sorrel, moss := made.EvenDog("Sorrel", "rough", 8), made.EvenDog("Moss", "wiry", 12)
	sorrel.Duties = []kennel.Duty{{Name: "nails", Minutes: 10, Every: 3}, {Name: "bath", Minutes: 90, Before: &kennel.BeforeShow{From: 9, To: 5}}}
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 14, Hands: []kennel.Hands{handler, assistant}, Dogs: []kennel.Dog{sorrel, moss},
		Shows: []kennel.Show{made.ShowOn("Brackenmere", 75, "Sorrel", "Moss"), made.ShowOn("Fallowgate", 40, "Moss")},
	}
	opt := optimize.DefaultOptions()
	r, err := optimize.Plan(context.Background(), k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	back := planned.LeftOut{Week: r.Week0, Dog: "Moss", Area: kennel.AreaBack, Share: 0.1, Minutes: 0.1 * 2 * 120, Points: 0.1, Why: "no time"}
	r.Timetable.LeftOut = append(r.Timetable.LeftOut, back)
	r.Ways[0].Other = otherWay(r)
	return r
}

// otherWay is another way of working the first dog, told of its first show.
func otherWay(r planned.Result) *planned.Other {
	o := &planned.Other{Kind: planned.WayStripped, From: r.On, OtherInCoat: 3}
	for _, w := range r.Outlooks[0].Planned {
		o.InCoat += int(w.To-w.From+1) / kennel.DaysAWeek
	}
	for _, s := range r.Readiness {
		if s.Dog == r.Ways[0].Dog && len(o.Shows) == 0 {
			o.Shows = []planned.OtherShow{{Show: s.Show, On: s.On, Score: s.Score, Other: 41}}
		}
	}
	return o
}

// leaf is one figure or word of a plan.
type leaf struct {
	path string
	at   reflect.Value
}

// leaves lists what stands in a value, in lists and behind pointers too.
func leaves(path string, v reflect.Value) (all []leaf) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() || path == "" && strings.Contains(strings.Join(givenToPlan, " "), f.Name) {
				continue
			}
			all = append(all, leaves(strings.TrimPrefix(path+"."+f.Name, "."), v.Field(i))...)
		}
	case reflect.Slice:
		for i := range v.Len() {
			all = append(all, leaves(path, v.Index(i))...)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			all = append(all, leaves(path, v.Elem())...)
		}
	default:
		all = append(all, leaf{path, v})
	}
	return all
}

// paths lists what a type can hold.
func paths(path string, t reflect.Type) (all []string) {
	switch t.Kind() {
	case reflect.Struct:
		for i := range t.NumField() {
			f := t.Field(i)
			if !f.IsExported() || path == "" && strings.Contains(strings.Join(givenToPlan, " "), f.Name) {
				continue
			}
			all = append(all, paths(strings.TrimPrefix(path+"."+f.Name, "."), f.Type)...)
		}
	case reflect.Slice, reflect.Pointer:
		all = append(all, paths(path, t.Elem())...)
	case reflect.Bool:
	default:
		all = append(all, path)
	}
	return all
}

func TestEveryFigureOfAPlanHasItsCheck(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans many kennels")
	}
	for _, path := range paths("", reflect.TypeFor[planned.Result]()) {
		_, figure := spoiled[path]
		_, word := told[path]
		_, none := free[path]
		if !figure && !word && !none {
			t.Errorf("%s of a plan is compared by nothing: check it and say here what the check calls it", path)
		}
	}
}

func TestCheckNamesTheFigureThatIsWrong(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans many kennels")
	}
	r := checkable(t)
	c := check.Plan(r)
	agrees(t, c)
	if c.Figures < 500 {
		t.Fatalf("only %d figures were compared", c.Figures)
	}
	met := map[string]bool{}
	for i, l := range leaves("", reflect.ValueOf(&r).Elem()) {
		want, ok := spoil(l)
		if !ok {
			continue
		}
		met[l.path] = true
		old := reflect.New(l.at.Type()).Elem()
		old.Set(l.at)
		change(l)
		if got := check.Plan(r).Differences; !names(got, want) {
			t.Errorf("figure %d: %s made %v: nothing says that %q is wrong, only %v", i, l.path, l.at, want, got)
		}
		l.at.Set(old)
	}
	agrees(t, check.Plan(r))
	for _, path := range append(keys(spoiled), keys(told)...) {
		if !met[path] {
			t.Errorf("the plan of the test has no %s", path)
		}
	}
}

func spoil(l leaf) (figure string, ok bool) {
	if s, ok := spoiled[l.path]; ok {
		return s.figure, true
	}
	figure, ok = told[l.path]
	return figure, ok
}

// change makes a figure another one.
func change(l leaf) {
	by := spoiled[l.path].by
	if by == 0 {
		by = 1
	}
	switch {
	case l.at.CanInt():
		l.at.SetInt(l.at.Int() + int64(by))
	case l.at.CanFloat():
		l.at.SetFloat(l.at.Float() + by)
	default:
		l.at.SetString(l.at.String() + " or so")
	}
}

func names(all []check.Difference, figure string) bool {
	for _, d := range all {
		if strings.HasPrefix(d.Figure, figure) {
			return true
		}
	}
	return false
}

func keys[V any](m map[string]V) (all []string) {
	for k := range m {
		all = append(all, k)
	}
	sort.Strings(all)
	return all
}
