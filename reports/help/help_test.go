package help

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/kennel/text"
	"tuckup/testdata/demo"
)

func builtin(t *testing.T) kennel.Patterns {
	t.Helper()
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func words(t *testing.T, ps kennel.Patterns, name string) string {
	t.Helper()
	p, ok := Find(ps, name)
	if !ok {
		t.Fatalf("there is no page %s", name)
	}
	var b strings.Builder
	if err := p.Text(&b, 96); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestEveryPageIsShortAndKeepsToItsWidth(t *testing.T) {
	ps := builtin(t)
	var names []string
	for _, p := range Pages(ps) {
		names = append(names, p.Name)
		for line := range strings.Lines(words(t, ps, p.Name)) {
			if len([]rune(strings.TrimRight(line, "\n"))) > 96 {
				t.Errorf("%s: %q is too long", p.Name, line)
			}
		}
		if n := strings.Count(words(t, ps, p.Name), "\n"); n > 35 {
			t.Errorf("%s has %d lines, more than a screen", p.Name, n)
		}
	}
	if !slices.Equal(names, Names()) {
		t.Errorf("the pages are %q", names)
	}
}

// The figures are those that plans are made with: when a pattern is another, so is what the page says.
func TestTheFiguresAreThoseOfThePattern(t *testing.T) {
	ps := builtin(t)
	p := ps["wire-fox-terrier"]
	p.Areas = slices.Clone(p.Areas)
	for i := range p.Areas {
		p.Areas[i].Ready.Value, p.Areas[i].Hold.Value, p.Areas[i].FinishWeeks.Value = 40, 30, 20
	}
	p.RollMost.Value = 0.25
	other := kennel.Patterns{"wire-fox-terrier": p}
	for name, want := range map[string][]string{
		"coat": {"after 40 weeks", "right for 30 weeks", "below 40 weeks", "from 70 weeks", "from 100 weeks"}, "shows": {"the last 20 weeks"}, "rolling": {"from 40 to 70 weeks", "1 in 70 of it", "1 in 4 of an area"},
	} {
		got := strings.Join(strings.Fields(words(t, other, name)), " ")
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s does not say %q: %s", name, w, got)
			}
		}
		if got == strings.Join(strings.Fields(words(t, ps, name)), " ") {
			t.Errorf("%s says the same of another pattern", name)
		}
	}
	got := strings.Join(strings.Fields(words(t, ps, "coat")), " ")
	for _, want := range []string{"From 80 a dog is in coat", "no more than 30 points above"} {
		if !strings.Contains(got, want) {
			t.Errorf("coat does not say %q", want)
		}
	}
}

// What is said of the made-up string is so.
func TestTheDogsOfThePagesAreThoseOfTheMadeUpString(t *testing.T) {
	k, _, err := text.Read("demo", demo.Kennel)
	if err != nil {
		t.Fatal(err)
	}
	i, err := k.FindDog("Sorrel")
	if err != nil || k.Dogs[i].Pattern != "wire-fox-terrier" {
		t.Errorf("Sorrel is a %s: %v", k.Dogs[i].Pattern, err)
	}
	plan, err := os.ReadFile("../../testdata/golden/plan.txt")
	if err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`(?s)CANNOT BE MET.*\bMoss\b`).Match(plan) {
		t.Error("Moss is not among what cannot be met")
	}
}
