package optimize

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
	"tuckup/optimize/season"
)

// numbers is a kennel of two dogs of which one is shown three times, laid out over six weeks.
func numbers(t *testing.T) (kennel.Kennel, *season.Problem) {
	t.Helper()
	sorrel := made.EvenDog("Sorrel", "rough", 10)
	sorrel.Priority = 2
	sorrel.Coat = kennel.Coat{Growth: 1.3, Pace: 1.5}
	sorrel.Areas = []kennel.AreaCoat{{Area: kennel.AreaRibs, Layers: []kennel.Layer{
		{Share: 0.25, Pulled: made.Monday.AddDays(-15)}, {Share: 0.5, Pulled: made.Monday.AddDays(-8)}, {Share: 0.125, Pulled: made.Monday},
	}}}
	early := made.ShowOn("Early", 1, "Sorrel") // a Tuesday: judged on the coat of the week before
	first := made.ShowOn("First", 19, "Sorrel")
	first.Weight, first.Days = 3, 2
	second := made.ShowOn("Second", 30, "Sorrel") // a Wednesday of week 4: judged on the coat of week 3
	second.Chance = 0.5
	second.Away = &kennel.Span{From: made.Monday.AddDays(28), To: made.Monday.AddDays(32)}
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 6, Hands: []kennel.Hands{made.Ample()},
		Dogs: []kennel.Dog{sorrel, made.EvenDog("Moss", "wiry", 3)}, Shows: []kennel.Show{early, first, second},
	}
	p, err := Problem(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return k, p
}

func near(got, want []float64) bool {
	if len(got) != len(want) {
		return false
	}
	for i := range got {
		if math.Abs(got[i]-want[i]) > 1e-9 {
			return false
		}
	}
	return true
}

func TestWorthOfReadinessIsStandingAndShows(t *testing.T) {
	_, p := numbers(t)
	const standing, priority = 0.05, 2
	always := priority * standing
	if want := []float64{always, always, always, always, always, always}; !near(p.Dogs[0].Value, want) {
		t.Errorf("value %v, want %v", p.Dogs[0].Value, want)
	}
	if want := []float64{0, 0, priority * 3 * 2, priority * 0.5, 0, 0}; !near(p.Dogs[0].ShowValue, want) {
		t.Errorf("show value %v, want %v", p.Dogs[0].ShowValue, want)
	}
	if p.Hole != 0.3 {
		t.Errorf("a dog may be %v readier than its worst area, want 0.3", p.Hole)
	}
	if want := []float64{0, 0, 6 / 6.5, 0.5 / 6.5, 0, 0}; !near(p.Dogs[0].Shows, want) {
		t.Errorf("shows %v, want %v", p.Dogs[0].Shows, want)
	}
	if want := []float64{standing, standing, standing, standing, standing, standing}; !near(p.Dogs[1].Value, want) || p.Dogs[1].Shows != nil || p.Dogs[1].ShowValue != nil {
		t.Errorf("a dog without shows is worth %v, shows %v", p.Dogs[1].Value, p.Dogs[1].Shows)
	}
	if p.Balance != 0.5 {
		t.Errorf("balance %v, want 0.5 for one dog shown", p.Balance)
	}
}

func TestAreaInNumbers(t *testing.T) {
	_, p := numbers(t)
	ribs := p.Dogs[0].Areas[0]
	want := season.Area{
		Name: "ribs", Kind: 0, Weight: 0.5, Minutes: 150 * 1.5 * 2, Loose: 150 * 1.5, Past: []float64{0.25, 0.75, 0.75, 0.875},
		Dead: 0.125,                                                                  // of which no pull is known
		Grip: 4,                                                                      // 5 weeks over a growth of 1.3, rounded up
		Most: []float64{0.06, 0.06, 0.06, 0.06, 0, 1},                                // in week 4 the handler is away with the dog
		Even: 0.089655, Over: []float64{0, 0, 0, 0, 0, 0}, Under: make([]float64, 6), // a show is always near
	}
	for _, growth := range []float64{1.3 / 1.1013, 1.3, 1.3 * 1.1013} { // exp(0.0998 x 0.9674): the middles of the thirds of a lognormal
		rule := kennel.NewRule(11, 7, growth)
		for _, k := range rule.Young {
			want.Young = append(want.Young, season.Term{Weeks: int(k.Weeks), Allow: float64(k.Allow), Slope: k.Slope / 3})
		}
		for _, k := range rule.Old {
			want.Old = append(want.Old, season.Term{Weeks: int(k.Weeks), Allow: float64(k.Allow), Slope: k.Slope / 3})
		}
	}
	for weeks := 1; weeks <= 3; weeks++ { // what is fresh
		want.Young = append(want.Young, season.Term{Weeks: weeks, Slope: 0.08})
	}
	want.Left = ribs.Left
	for week, room := range ribs.Room { // one session, in whole millionths of the area
		one := 80.0
		if week == 4 {
			one = 0
		}
		if room > one || room < one-ribs.Minutes*1e-6 {
			t.Errorf("week %d has room for %v minutes, want %v", week, room, one)
		}
	}
	if want.Room = ribs.Room; len(ribs.Room) != p.Weeks {
		t.Errorf("%d weeks of room", len(ribs.Room))
	}
	if !reflect.DeepEqual(ribs, want) {
		t.Errorf("\n%+v, want\n%+v", ribs, want)
	}
}

// Too much work of a jacket costs three times what too little does, of all but the weeks that it can't be worked in. A dog without shows has
// no last weeks, and nothing of it is too fresh.
func TestUnevenWorkInNumbers(t *testing.T) {
	_, p := numbers(t)
	back := p.Dogs[1].Areas[slices.IndexFunc(p.Dogs[1].Areas, func(a season.Area) bool { return a.Name == "back" })]
	each := 0.05 * back.Weight
	if want := []float64{each, each, each, each, 0, each}; !near(back.Under, want) {
		t.Errorf("too little work costs %v, want %v", back.Under, want)
	}
	if want := slices.Repeat([]float64{3 * each}, 6); !near(back.Over, want) {
		t.Errorf("too much work costs %v, want %v", back.Over, want)
	}
	if slices.ContainsFunc(back.Young, func(k season.Term) bool { return k.Weeks <= 3 }) {
		t.Errorf("hair is too fresh: %+v", back.Young)
	}
}

func TestSessionsInNumbers(t *testing.T) {
	_, p := numbers(t)
	// At most 3 a week. Sorrel is at the shows with the handler on Tuesday of week 0, on Saturday and Sunday of week
	// 2, and from Monday to Friday of week 4. Its jacket is left alone on the last two days before each.
	if want := []int{2, 3, 2, 3, 0, 3}; !reflect.DeepEqual(p.Dogs[0].Most, want) {
		t.Errorf("sessions %v, want %v", p.Dogs[0].Most, want)
	}
	if want := []int{3, 3, 3, 3, 0, 3}; !reflect.DeepEqual(p.Dogs[1].Most, want) {
		t.Errorf("sessions %v, want %v", p.Dogs[1].Most, want)
	}
	k, _ := numbers(t)
	k.Hands = append(k.Hands, kennel.Hands{Name: "Assistant", Hours: made.Ample().Hours}) // stays at home
	p, err := Problem(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	if p.Dogs[0].Most[4] != 0 || p.Dogs[1].Most[4] != 3 {
		t.Errorf("%d sessions of the dog that travels, %d of the one that stays; want 0 and 3", p.Dogs[0].Most[4], p.Dogs[1].Most[4])
	}
}

func TestDutiesAreTakenOffTheHours(t *testing.T) {
	k, _ := numbers(t)
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{1}
	k.Dogs[1].Duties = []kennel.Duty{{Name: "nails", Minutes: 25, Every: 1}}
	p, err := Problem(k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, row := range p.Rows {
		if row.Week == 1 && row.SetUps {
			found = true
			if row.Capacity != 35 || row.Name != "Handler" || row.Strip {
				t.Errorf("%+v, want the handler's 60 minutes less 25 for nails", row)
			}
		}
	}
	if !found {
		t.Errorf("no row for the hours of week 1: %+v", p.Rows)
	}
}
