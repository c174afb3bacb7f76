package draw

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// darkRules are the colours that the desk's style sheet draws in the dark instead of those of a picture, by what is drawn and by the colour.
func darkRules(t *testing.T) (ground string, rules map[string]string) {
	t.Helper()
	data, err := os.ReadFile("../desk/assets/desk.css")
	if err != nil {
		t.Fatal(err)
	}
	_, dark, ok := strings.Cut(string(data), "@media screen and (prefers-color-scheme: dark)")
	if !ok {
		t.Fatal("the style sheet knows no dark")
	}
	vars := map[string]string{}
	for _, m := range regexp.MustCompile(`(--[a-z-]+): (#[0-9a-f]{6})[;}\s]`).FindAllStringSubmatch(dark, -1) {
		vars[m[1]] = m[2]
	}
	rules = map[string]string{}
	for _, m := range regexp.MustCompile(`\[(fill|stroke)="(#[0-9a-f]{6})"\] \{ (?:fill|stroke): (?:var\((--[a-z-]+)\)|(#[0-9a-f]{6}));? \}`).FindAllStringSubmatch(dark, -1) {
		rules[m[1]+m[2]] = vars[m[3]] + m[4]
	}
	return vars["--paper"], rules
}

// In the dark every colour of a picture but those of a chart's dogs is drawn in another, on which light words and lines stand out as well.
func TestInTheDarkWordsAndLinesStandOutFromWhatTheyAreOn(t *testing.T) {
	ground, rules := darkRules(t)
	is := func(what, colour string) light {
		t.Helper()
		c, ok := rules[what+colour]
		if !ok {
			t.Fatalf("in the dark nothing is drawn instead of %s %s", what, colour)
		}
		return lightOf(t, c)
	}
	words, soft, paperNow := is("fill", ink), is("fill", softInk), is("fill", paper)
	is("stroke", ink)
	is("stroke", softInk)
	is("stroke", paper)
	for name, on := range map[string]light{"the ground": lightOf(t, ground), "paper": paperNow, "the tint": is("fill", tint)} {
		if c := contrast(words, on); c < 7 {
			t.Errorf("words on %s: %.1f", name, c)
		}
		if c := contrast(soft, on); c < 4.5 {
			t.Errorf("soft words on %s: %.1f", name, c)
		}
	}
	states := States()
	for i, s := range states {
		f := StateFill(s)
		on := is("fill", f.Colour)
		if c := contrast(words, on); c < 4.5 {
			t.Errorf("words on %s: %.1f", s, c)
		}
		if f.Lines != "" {
			if c := contrast(is("stroke", f.Line), on); c < 1.5 {
				t.Errorf("the lines of %s: %.1f", s, c)
			}
		}
		for _, other := range states[:i] {
			if d := apart(on, is("fill", StateFill(other).Colour)); d < 10 {
				t.Errorf("%s and %s are %.1f apart", s, other, d)
			}
		}
	}
}
