package check_test

import (
	"context"
	"os"
	"strconv"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/optimize"
	"tuckup/optimize/check"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// kennelsHeld is how many random kennels are planned; TUCKUP_KENNELS asks for more.
const kennelsHeld = 16

// Where whole days are worked, the days hold the season: over all kennels at most 0.5 % of the minutes planned for two weeks is left out,
// and what the weeks say is what their days do. Every second kennel has the dogs' own patterns, with more areas than sessions.
func TestTheDaysHoldTheSeason(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans many kennels")
	}
	const most = 0.005
	kennels := kennelsHeld
	if n, err := strconv.Atoi(os.Getenv("TUCKUP_KENNELS")); err == nil {
		kennels = n
	}
	own, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	breeds := []string{"border-terrier", "lakeland-terrier", "cairn-terrier", "standard-schnauzer"}
	var all, left kennel.Minutes
	for seed := range kennels {
		k, pats := made.WholeDays().Example(seed), made.Patterns()
		if seed%2 == 1 {
			pats = own
			for d := range k.Dogs {
				k.Dogs[d].Pattern, k.Dogs[d].Areas, k.Dogs[d].Outlines = breeds[(seed+d)%len(breeds)], nil, nil
			}
		}
		opt := optimize.DefaultOptions()
		opt.Days = 14
		r, err := optimize.Plan(context.Background(), k, pats, opt)
		if err != nil {
			t.Fatalf("kennel %d: %v", seed, err)
		}
		for _, d := range check.Plan(r).Differences {
			t.Errorf("kennel %d: %v", seed, d)
		}
		for _, day := range r.Timetable.Days {
			for _, s := range day.Sessions() {
				all += planned.Pulling(s.Areas)
			}
		}
		for _, x := range r.Timetable.LeftOut {
			left, all = left+x.Minutes, all+x.Minutes
			if x.Area != "" && !x.Crumb {
				t.Logf("kennel %d: %.1f minutes of the %s of %s are left out: %s", seed, float64(x.Minutes), x.Area, x.Dog, x.Why)
			}
		}
	}
	if float64(left) > most*float64(all) || all == 0 {
		t.Errorf("%.0f of %.0f minutes are left out, want at most %v of them", float64(left), float64(all), most)
	}
}
