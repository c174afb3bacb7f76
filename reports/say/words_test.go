package say

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/optimize"
)

func TestNamesFromRightToLeftAreKeptToThemselves(t *testing.T) {
	const name = "כלב 12"
	if got, want := Plain(name), firstStrongIsolate+name+popIsolate; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	long := strings.Repeat("כלב ", 30)
	if got := Cut(Plain(long), 10); !strings.HasSuffix(got, popIsolate) || Width(got) > 10 {
		t.Errorf("a cut name must close its isolate: %q", got)
	}
}

func TestWrapKeepsEveryWordInsideTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		n := rapid.IntRange(widest, 40).Draw(t, "columns")
		lines := Wrap(s, n)
		for _, l := range lines {
			if Width(l) > n {
				t.Fatalf("%q is wider than %d", l, n)
			}
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got, want := squeeze(strings.Join(lines, " ")), squeeze(s); got != want {
			t.Fatalf("lost text: %q became %q", want, got)
		}
	})
}

func TestPercentIsNeverRoundedDown(t *testing.T) {
	for x, want := range map[float64]string{0: "0.0 %", 0.3: "0.3 %", 0.30001: "0.4 %", 12.34: "12.4 %", -1: "0.0 %"} {
		if got := percentUp(x); got != want {
			t.Errorf("percentUp(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestWhatGatheringCostIsSaidOnlyWhereItIsSomething(t *testing.T) {
	for points, want := range map[float64]string{
		-0.2: "nothing was lost by it.", 0: "nothing was lost by it.", 0.005: "nothing was lost by it.", 0.0051: "that cost 0.005 points.",
		0.2: "that cost 0.2 points.",
	} {
		if got := Gathered(optimize.Gathered{Points: points, Moved: 3}); !strings.HasSuffix(got, want) {
			t.Errorf("%v points: %q, want %q", points, got, want)
		}
	}
	if got := Gathered(optimize.Gathered{}); got != "" {
		t.Errorf("nothing gathered, but %q", got)
	}
}

func TestLengthsAreInTheKennelsUnits(t *testing.T) {
	if mm, in := Length(38.1, kennel.UnitsMillimetres), Length(38.1, kennel.UnitsInches); mm != "38 mm" || in != "1.50 in" {
		t.Errorf("%s, %s", mm, in)
	}
}

func TestAJoinedEmojiIsOneCharacterOfTwoColumns(t *testing.T) {
	const (
		family  = "👨\u200d👩\u200d👧"
		service = "🐕\u200d🦺"
		loved   = "❤\ufe0f"
	)
	for s, columns := range map[string]int{
		family: 2, service: 2, loved: 2, "🐶" + family: 4, "e\u0301": 1, "犬": 2, "Moss": 4, firstStrongIsolate + "כלב" + popIsolate: 3, "": 0,
	} {
		if got := Width(s); got != columns {
			t.Errorf("%q is %d columns wide, want %d", s, got, columns)
		}
	}
	for s, want := range map[string]string{
		family: family, service + " Moss": service + " Moss", loved: loved, "a\u200db": "a·b", "\u200d🐶": "·🐶", "🐶\u200d": "🐶·", "🐶\u200d\u202eM": "🐶··M",
	} {
		if got := Plain(s); got != want {
			t.Errorf("Plain(%q) = %q, want %q", s, got, want)
		}
	}
	if got, want := Cut("🐶"+family+service, 5), "🐶"+family+"…"; got != want {
		t.Errorf("cut to %q, want %q", got, want)
	}
	if got := Wrap(family+family+family, 4); len(got) != 2 || got[0] != family+family || got[1] != family {
		t.Errorf("wrapped to %q", got)
	}
}

func TestACutTextFitsAndClosesItsIsolate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Plain(rapid.String().Draw(t, "text"))
		n := rapid.IntRange(1, 20).Draw(t, "columns")
		got := Cut(s, n)
		if Width(got) > n {
			t.Fatalf("%q is wider than %d", got, n)
		}
		if strings.Count(got, firstStrongIsolate) != strings.Count(got, popIsolate) {
			t.Fatalf("an isolate stays open in %q", got)
		}
	})
}

// Most texts are plain already and go the short way; it must not differ from the long one.
func TestTheShortWayOfPlainIsAsTheLongOne(t *testing.T) {
	for _, s := range []string{"", " ", "Moss", "Moss  ", " Moss", "back  1 in 17", "a\tb", "a\x7fb", "a~b", "Oxbow Terrier Day, 6 Feb", "\x1b[2J"} {
		long := strings.TrimSuffix(Plain(s+"é"), "é") // which is not ASCII
		if strings.HasSuffix(s, " ") {
			long = strings.TrimSpace(long)
		}
		if got := Plain(s); got != long {
			t.Errorf("Plain(%q) = %q, want %q", s, got, long)
		}
	}
}
