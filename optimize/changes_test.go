package optimize

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

// pay are the dogs that lose, those who lose most first.
func pay(c Changes) (dogs []DogChange) {
	for _, d := range c.Dogs {
		if d.Gain() < -leastPoints {
			dogs = append(dogs, d)
		}
	}
	return dogs
}

func aPlanAgainstItselfHasNoChanges(t *rapid.T, _ kennel.Kennel, r Result) {
	c := Compare(r, r)
	if len(c.Sessions)+len(c.Shares)+len(c.NewlyCannot)+len(c.NoLongerCannot)+len(pay(c)) > 0 || c.Gain() != 0 {
		t.Fatalf("%+v", c)
	}
	if len(c.Hours) != len(r.Weeks) || len(c.Readiness) != len(r.Readiness) || len(c.Dogs) != len(r.Kennel.Dogs) {
		t.Fatalf("%d weeks, %d of readiness, %d dogs", len(c.Hours), len(c.Readiness), len(c.Dogs))
	}
	if want := r.Season.Objective - r.Gathered.Points - r.Timetable.Lost; math.Abs(c.PointsAfter-want) > 1e-9*max(1, math.Abs(want)) {
		t.Fatalf("the dogs' points and the balance sum to %v, the plan is worth %v", c.PointsAfter, want)
	}
}

func twoDogs() kennel.Kennel {
	h := made.Ample()
	h.Hours = [kennel.DaysAWeek]kennel.Hours{0.4}
	return kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{h},
		Dogs:  []kennel.Dog{made.EvenDog("Sorrel", "rough", 30), made.EvenDog("Moss", "wiry", 20)},
		Shows: []kennel.Show{made.ShowOn("Brackenmere", 100, "Sorrel")},
	}
}

// A show for one dog takes hours from the other, who pays.
func TestAddedShowIsPaidForByTheOtherDog(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := twoDogs()
	k.Hands[0].Hours[0] = 0.5 // so that there is something to take
	before := plan(t, k, made.Patterns())
	k.Shows = append(k.Shows, made.ShowOn("Yarrowmead", 103, "Sorrel"))
	k.Shows[1].Weight = 9
	after := plan(t, k, made.Patterns())
	c := Compare(before, after)
	if len(c.Readiness) != 2 || !c.Readiness[0].InBefore || c.Readiness[1].InBefore || !c.Readiness[1].InAfter {
		t.Errorf("%+v", c.Readiness)
	}
	if pay := pay(c); len(pay) != 1 || pay[0].Dog != "Moss" || c.Dogs[0].Dog != "Moss" || c.Dogs[1].Gain() <= 0 {
		t.Errorf("%+v", c.Dogs)
	}
	if len(c.Shares) == 0 {
		t.Error("no share has changed")
	}
	for _, s := range c.Shares {
		if w := kennel.WeekOf(s.Week, before.Week0); pulled(before, s.Dog, s.Area)[w] != float64(s.Before) ||
			pulled(after, s.Dog, s.Area)[w] != float64(s.After) {
			t.Errorf("%+v is not what the plans have", s)
		}
	}
}

func TestMissedWeekCostsPoints(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := twoDogs()
	r := plan(t, k, made.Patterns())
	k.Hands[0].Away = []kennel.Span{{From: made.Monday, To: made.Monday.AddDays(6)}}
	c := Compare(r, plan(t, k, made.Patterns()))
	if c.Gain() >= 0 || len(pay(c)) == 0 {
		t.Errorf("missing a week gains %v, %+v", c.Gain(), c.Dogs)
	}
	if h := c.Hours[0]; h.ThereBefore != 0.4 || h.ThereAfter != 0 || h.Before == 0 || h.After != 0 {
		t.Errorf("%+v", h)
	}
}

func TestDogThatArrivesIsInTheLaterPlanOnly(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := twoDogs()
	before := plan(t, k, made.Patterns())
	k.Dogs = append(k.Dogs, made.EvenDog("Tansy", "rough", 6))
	c := Compare(before, plan(t, k, made.Patterns()))
	var tansy DogChange
	for _, d := range c.Dogs {
		if d.Dog == "Tansy" {
			tansy = d
		}
	}
	if tansy.InBefore || !tansy.InAfter || tansy.Before != 0 || tansy.After <= 0 {
		t.Errorf("%+v", tansy)
	}
}

// Plans of different first days are compared over the weeks that both hold; what was done counts in its week.
func TestWorkDoneCountsInItsWeek(t *testing.T) {
	week := func(on kennel.Date, share kennel.Share) Week {
		w := Week{Week: on, Hours: 5}
		if share > 0 {
			w.Planned = 1
			w.Dogs = []DogWeek{{Dog: "Moss", Sessions: 1, Areas: []AreaWork{{Area: kennel.AreaRibs, Share: share}}}}
		}
		return w
	}
	k := kennel.Kennel{Dogs: []kennel.Dog{{Name: "Moss", Pattern: "rough"}}}
	points := func(weeks ...float64) []DogPoints { return []DogPoints{{Dog: "Moss", Weeks: weeks}} }
	before := Result{
		Kennel: k, Patterns: made.Patterns(), On: made.Monday, Week0: made.Monday, Points: points(1, 2, 4),
		Weeks:     []Week{week(made.Monday, 0.3), week(made.Monday+7, 0.1), week(made.Monday+14, 0.2)},
		Readiness: []ShowReadiness{{Dog: "Moss", Show: "Past", On: made.Monday + 5, Score: 80}, {Dog: "Moss", Show: "Next", On: made.Monday + 12, Score: 80}},
	}
	after := Result{
		Kennel: k, Patterns: made.Patterns(), On: made.Monday + 9, Week0: made.Monday + 7, Points: points(16, 8, 32),
		Weeks: []Week{week(made.Monday+7, 0), week(made.Monday+14, 0.2), week(made.Monday+21, 0.5)},
		Options: Options{Done: []kennel.Work{
			{Dog: "Moss", On: made.Monday + 8, Minutes: 60, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 0.1}}},
			{Dog: "Moss", On: made.Monday + 8, Minutes: 30, Duty: "nails"},
		}},
		Readiness: []ShowReadiness{{Dog: "Moss", Show: "Next", On: made.Monday + 12, Score: 70}},
	}
	c := Compare(before, after)
	if c.From != made.Monday+7 || c.Weeks != 2 || len(c.Shares) != 0 || len(c.Sessions) != 0 {
		t.Errorf("%+v", c)
	}
	if want := []HoursChange{{made.Monday + 7, 1, 1.5, 5, 6.5}, {made.Monday + 14, 1, 1, 5, 5}}; !reflect.DeepEqual(c.Hours, want) {
		t.Errorf("%+v", c.Hours)
	}
	if d := c.Dogs[0]; d.Before != 6 || d.After != 24 {
		t.Errorf("%+v", d)
	}
	if len(c.Readiness) != 1 || c.Readiness[0].Before != 80 || c.Readiness[0].After != 70 {
		t.Errorf("%+v", c.Readiness)
	}
	after.Options.Done = nil
	if c := Compare(before, after); len(c.Shares) != 1 || c.Shares[0].After != 0 || len(c.Sessions) != 1 || c.Sessions[0].Kind != SessionDropped {
		t.Errorf("without the work that was done: %+v", c)
	}
}

func TestSessionsAreMovedAddedAndDropped(t *testing.T) {
	at := func(day int, start kennel.Clock, hands string) SessionAt {
		return SessionAt{On: made.Monday.AddDays(day), Start: start, Hands: hands}
	}
	const nine, ten = 9 * 60, 10 * 60
	for name, c := range map[string]struct {
		was, is []SessionAt
		want    []SessionChange
	}{
		"the same":          {[]SessionAt{at(0, nine, "A")}, []SessionAt{at(0, nine, "A")}, nil},
		"later in the day":  {[]SessionAt{at(0, nine, "A")}, []SessionAt{at(0, ten, "A")}, []SessionChange{{"Moss", SessionMoved, at(0, nine, "A"), at(0, ten, "A")}}},
		"other hands":       {[]SessionAt{at(0, nine, "A")}, []SessionAt{at(0, nine, "B")}, []SessionChange{{"Moss", SessionMoved, at(0, nine, "A"), at(0, nine, "B")}}},
		"a week on":         {[]SessionAt{at(0, nine, "A")}, []SessionAt{at(7, nine, "A")}, []SessionChange{{"Moss", SessionMoved, at(0, nine, "A"), at(7, nine, "A")}}},
		"eight days on":     {[]SessionAt{at(0, nine, "A")}, []SessionAt{at(8, nine, "A")}, []SessionChange{{"Moss", SessionDropped, at(0, nine, "A"), SessionAt{}}, {"Moss", SessionAdded, SessionAt{}, at(8, nine, "A")}}},
		"one of two stands": {[]SessionAt{at(0, nine, "A"), at(2, nine, "A")}, []SessionAt{at(2, nine, "A"), at(4, nine, "A")}, []SessionChange{{"Moss", SessionMoved, at(0, nine, "A"), at(4, nine, "A")}}},
		"one more":          {[]SessionAt{at(2, nine, "A")}, []SessionAt{at(2, nine, "A"), at(4, nine, "A")}, []SessionChange{{"Moss", SessionAdded, SessionAt{}, at(4, nine, "A")}}},
		"one less":          {[]SessionAt{at(2, nine, "A"), at(4, nine, "A")}, []SessionAt{at(2, nine, "A")}, []SessionChange{{"Moss", SessionDropped, at(4, nine, "A"), SessionAt{}}}},
	} {
		if got := pair("Moss", c.was, c.is); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Where both timetables hold a week its sessions are told to the day, past days left out; else by week.
func TestSessionsAreToldToTheDayWhereBothTimetablesHoldTheWeek(t *testing.T) {
	k := kennel.Kennel{Dogs: []kennel.Dog{{Name: "Moss", Pattern: "rough"}}}
	make := func(on kennel.Date, sessions ...kennel.Date) Result {
		r := Result{Kennel: k, On: on, Week0: made.Monday, Weeks: []Week{{Week: made.Monday}, {Week: made.Monday + 7}}}
		for d := on; d < made.Monday+9; d++ {
			day := Day{On: d}
			for _, s := range sessions {
				if s == d {
					day.Hands = []HandsDay{{Hands: "A", Items: []Item{{Start: 540, Kind: ItemSession, Dog: "Moss"}, {Start: 600, Kind: ItemBreak}, {Start: 610, Kind: ItemSession, Dog: "Moss"}}}}
				}
			}
			r.Timetable.Days = append(r.Timetable.Days, day)
		}
		for _, s := range sessions {
			w := &r.Weeks[kennel.WeekOf(s, made.Monday)]
			w.Dogs = append(w.Dogs, DogWeek{Dog: "Moss", Sessions: 1})
		}
		return r
	}
	before, after := make(made.Monday, made.Monday, made.Monday+2, made.Monday+8), make(made.Monday+1, made.Monday+3, made.Monday+8)
	c := Compare(before, after)
	want := []SessionChange{{
		Dog: "Moss", Kind: SessionMoved,
		From: SessionAt{On: made.Monday + 2, Start: 540, Hands: "A"}, To: SessionAt{On: made.Monday + 3, Start: 540, Hands: "A"},
	}}
	if !reflect.DeepEqual(c.Sessions, want) {
		t.Errorf("%+v", c.Sessions)
	}
	before.Timetable, after.Timetable = Timetable{}, Timetable{}
	want = []SessionChange{{"Moss", SessionDropped, SessionAt{On: made.Monday}, SessionAt{}}}
	if c := Compare(before, after); !reflect.DeepEqual(c.Sessions, want) {
		t.Errorf("by week: %+v", c.Sessions)
	}
}
