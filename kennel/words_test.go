package kennel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestShareWords(t *testing.T) {
	for _, c := range []struct {
		share Share
		want  string
	}{
		{0, "none"},
		{-1, "none"},
		{Share(math.NaN()), "none"},
		{0.0005, "none"},
		{0.004, "about 1 in 250"},
		{0.0196, "about 1 in 50"},
		{1.0 / 34, "about 1 in 35"},
		{1.0 / 20, "about 1 in 20"},
		{0.059, "about 1 in 17"},
		{1.0 / 18, "about 1 in 18"},
		{0.125, "about 1 in 8"},
		{0.29, "about 1 in 4"},
		{0.3, "about 1 in 3"},
		{0.4, "about 1 in 3"},
		{0.43, "about half"},
		{0.5, "about half"},
		{0.64, "about 2 in 3"},
		{0.72, "about 3 in 4"},
		{0.9, "about 9 in 10"},
		{0.96, "all of it"},
		{1, "all of it"},
		{1.2, "all of it"},
	} {
		if got := ShareWords(c.share); got != c.want {
			t.Errorf("%g: %q, want %q", c.share, got, c.want)
		}
	}
}

// The words are the nearest: no other 1 in N up to 20 lies nearer to the share.
func TestShareWordsAreTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(1.0/20, 0.41).Draw(t, "share")
		n := oneIn(s)
		for m := 3; m <= 20; m++ {
			if math.Abs(s-1/float64(m)) < math.Abs(s-1/float64(n))-1e-12 {
				t.Fatalf("%g: 1 in %d, but 1 in %d is nearer", s, n, m)
			}
		}
	})
}

func TestDerivedGrowth(t *testing.T) {
	a := PatternArea{Ready: Figure{Value: 10, Low: 8, High: 12}}
	if _, ok := a.DerivedGrowth(); ok {
		t.Error("no show length, yet a growth")
	}
	a.ShowLength = &Figure{Value: 35, Low: 28, High: 42, Mark: MarkSeen}
	got, ok := a.DerivedGrowth()
	if !ok || got.Value != 0.5 || math.Abs(got.Low-28.0/84) > 1e-12 || got.High != 0.75 || got.Mark != MarkDerived || got.Source == "" {
		t.Errorf("got %+v, %v", got, ok)
	}
}

func TestNearest(t *testing.T) {
	names := []string{"spinone", "wire-fox-terrier", "welsh-terrier", "wire-dachshund"}
	got := Nearest("wire-fox-terier", names, 3)
	if len(got) != 3 || got[0] != "wire-fox-terrier" {
		t.Errorf("got %v", got)
	}
	if names[0] != "spinone" {
		t.Error("the list was sorted in place")
	}
	if got := Nearest("x", nil, 3); len(got) != 0 {
		t.Errorf("got %v", got)
	}
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"a", "", 1}, {"", "ab", 2}, {"kitten", "sitting", 3}, {"ärmel", "armel", 1}} {
		if got := edits(c.a, c.b); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestInputErrorSaysWhereWhatAndWhatToTry(t *testing.T) {
	for _, c := range []struct {
		e    InputError
		want string
	}{
		{
			InputError{File: "k.yaml", Line: 3, Column: 7, Field: "dogs[0].pattern", Value: "wirefox", What: "is not known", Try: "wire-fox-terrier"},
			"k.yaml:3:7: dogs[0].pattern \"wirefox\": is not known\nTry: wire-fox-terrier",
		},
		{InputError{Field: "dogs[0].name", What: "is missing", Try: "give a name"}, "dogs[0].name: is missing\nTry: give a name"},
		{InputError{File: "k.yaml", What: "is empty"}, "k.yaml: is empty"},
		{InputError{File: "k.yaml", Line: 2, What: "is odd"}, "k.yaml:2: is odd"},
	} {
		if got := c.e.Error(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestScoreShortOfReadyNeverReadsAsReady(t *testing.T) {
	for s, want := range map[Score]string{0: "0", 57.6: "58", 79.4: "79", 79.9999: "79", 80: "80", 80.4: "80", 99.7: "100", 100: "100"} {
		if got := ScoreWords(s); got != want {
			t.Errorf("%v: got %s, want %s", s, got, want)
		}
	}
}
