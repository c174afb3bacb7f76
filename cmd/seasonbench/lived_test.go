package main

import (
	"context"
	"io"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tuckup/optimize"
	"tuckup/optimize/lived"
)

// tiny is a kind of string that is quickly lived with.
var tiny = livedKind{name: "tiny", dogs: 1, weeks: 8, shows: 1, minutes: 150}

func TestASeasonIsPlannedAndLived(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: measures the solver on whole seasons")
	}
	pats, err := coatsAlone()
	if err != nil {
		t.Fatal(err)
	}
	a := app{out: io.Discard, err: io.Discard, now: time.Now}
	const effort = 300
	plan, first, err := a.liveOne(context.Background(), flags{effort: effort}, tiny, 3, byPlan, lived.Rule{}, nil, pats)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Scores) != 1 || plan.Sessions == 0 || len(plan.Promises) < firstShow || first == nil {
		t.Errorf("%+v", plan)
	}
	for _, p := range plan.Promises {
		if p.Came != plan.Scores[0] || p.Low > p.High || p.Dog != 0 || p.Show != 0 {
			t.Errorf("%+v", p)
		}
	}
	once, again, err := a.liveOne(context.Background(), flags{effort: effort}, tiny, 3, byBlind, lived.Rule{}, first, pats)
	if err != nil {
		t.Fatal(err)
	}
	if again != first || len(once.Promises) != 1 || once.Promises[0].Score != plan.Promises[0].Score {
		t.Errorf("planned once: %+v", once)
	}
	rule, _, err := a.liveOne(context.Background(), flags{}, tiny, 3, byThumb, lived.Rule{Round: 13, Stage: -1}, nil, pats)
	if err != nil {
		t.Fatal(err)
	}
	if len(rule.Scores) != 1 || len(rule.Promises) != 0 || rule.Rule == nil {
		t.Errorf("by rule: %+v", rule)
	}
}

// Who lives by rules of thumb has no care and no finish to do, so the plan has none either: all hours are for coats.
func TestCoatsAloneAreLivedWith(t *testing.T) {
	pats, err := coatsAlone()
	if err != nil {
		t.Fatal(err)
	}
	k := livedKennel(livedKinds[0], 1, pats)
	for _, d := range k.Dogs {
		if n := len(d.WithCare(pats[d.Pattern]).Duties); n != 0 {
			t.Errorf("%s of %s has %d duties", d.Name, k.Name, n)
		}
	}
}

// What is lived with is the kennel's own: its minutes, coats, shows; and growth that the plan does not know.
func TestTheStringIsThatOfTheKennel(t *testing.T) {
	pats, err := coatsAlone()
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range livedKinds {
		for seed := range uint64(20) {
			k := livedKennel(kind, seed, pats)
			k.Dogs[0].Coat.Growth = 1
			s := livedString(k, pats, optimize.DefaultOptions().Pick, kind.luck(seed))
			if len(s.Dogs) != kind.dogs || len(s.Shows) != kind.shows || s.Weeks != kind.weeks {
				t.Fatalf("%s: %d dogs, %d shows, %d weeks", kind.name, len(s.Dogs), len(s.Shows), s.Weeks)
			}
			minutes := 0.0
			for _, h := range s.Hours {
				minutes += h
			}
			if math.Abs(minutes-kind.minutes*float64(kind.dogs)) > 1e-6 {
				t.Errorf("%s: %v minutes a week", kind.name, minutes)
			}
			for d, dog := range s.Dogs {
				if dog.Growth == 1 || dog.SetUp <= livedSetUp {
					t.Errorf("%+v", dog)
				}
				for a, coat := range dog.Coats {
					sum := 0.0
					for _, tuft := range coat {
						sum += tuft.Share
					}
					if math.Abs(sum-1) > 1e-9 {
						t.Errorf("%s of dog %d sums to %v", dog.Areas[a].Name, d, sum)
					}
				}
			}
			for _, show := range s.Shows {
				if show.Day%7 != 5 || show.Day >= kind.weeks*7 || len(show.Dogs) == 0 {
					t.Errorf("%+v", show)
				}
			}
			if _, err := optimize.Problem(k, pats, optimize.DefaultOptions()); err != nil {
				t.Errorf("%s: %v", k.Name, err)
			}
		}
	}
}

func TestPromisesAreHeldAgainstWhatCame(t *testing.T) {
	s := summaryOf([]livedSeason{
		{Hand: byPlan, Scores: []float64{90, 70}, Sessions: 10, Missed: 2, Moved: 0.1, Seconds: 2, Promises: []promise{
			{Score: 92, Low: 85, High: 96, Likely: 0.9, Came: 90}, {Score: 80, Low: 71, High: 90, Likely: 0.6, Came: 70},
		}},
		{Hand: byPlan, Scores: []float64{100}, Sessions: 10, Moved: 0.3, Seconds: 4},
	})
	for what, x := range map[string][2]float64{
		"readiness": {s.Ready, 260. / 3}, "in coat": {s.InCoat, 2. / 3}, "missed": {s.Missed, 0.1}, "moved": {s.Moved, 0.2}, "seconds": {s.Seconds, 3},
		"error": {s.Error, -6}, "in range": {s.Inside, 0.5}, "Brier": {s.Brier, (0.01 + 0.36) / 2}, "always the mean": {s.BrierOf, 0.25},
	} {
		if math.Abs(x[0]-x[1]) > 1e-9 {
			t.Errorf("%s: %v, want %v", what, x[0], x[1])
		}
	}
}

// Seasons in the log are not lived again, and the table is of them.
func TestTheLogIsGoneOnWith(t *testing.T) {
	file := filepath.Join(t.TempDir(), "lived.jsonl")
	for _, kind := range livedKinds {
		for _, hand := range []string{byPlan, byBlind, byThumb} {
			l := livedSeason{Kind: kind.name, Seed: 5, Hand: hand, Scores: []float64{81}}
			if hand == byThumb {
				l.Rule = &lived.Rule{Round: 13, Near: 12, Stage: 2, Quiet: 3}
			}
			if err := appendLog(file, l); err != nil {
				t.Fatal(err)
			}
		}
	}
	out, said, code := runWith("--class", "lived", "--first", "5", "--solvers", "none", "--log", file)
	if code != codeDone {
		t.Fatalf("code %d: %s", code, said)
	}
	for _, want := range []string{"tight", "81.0", "comes once round in 13 weeks, puts dogs first from 12 weeks before their show"} {
		if !strings.Contains(out, want) {
			t.Errorf("the table has no %q:\n%s", want, out)
		}
	}
	if _, said, code := runWith("--class", "lived", "--log", filepath.Join(t.TempDir(), "no", "log")); code != codeUsage {
		t.Errorf("a log in a folder that is not there: code %d, %s", code, said)
	}
	if _, said, code := runWith("--effort", "-1"); code != codeUsage || !strings.Contains(said, "--effort -1") {
		t.Errorf("code %d, %s", code, said)
	}
}
