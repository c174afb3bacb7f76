package text

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

// hostile are names that mean something to a spreadsheet, a page, a terminal or YAML.
var hostile = []string{
	"<script>alert(1)</script>", "=cmd|' /C calc'!A0", "@SUM(1)", "-2+3", "אבשלום \u202eevil", "𝔹𝕣𝕒𝕞𝕓𝕝𝕖 🐕",
	`He said: "sit" # twice`, "  spaces around  ", "a,b;c", `it's \ {curly} [square] & more`, "null", "True", "yes",
	"~", "1", "1e3", "0x10", ".inf", "2027-01-04", "- a", "a: b", "a #b", "#", "'", `"`, `\`, "&a", "*a", "!a", "%a",
	"|", ">", "?", "? a", ":", "<<", "...", "---", "\ufeffb", "\u00a0", "a\u200b", "é", strings.Repeat("Long name ", 7) + "x",
}

func words() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom(hostile),
		rapid.StringMatching(`[A-Z][a-z]{1,8}( [A-Z][a-z]{1,8})?`),
		rapid.Map(rapid.String(), func(s string) string {
			return strings.Map(func(c rune) rune {
				if breaks(c) || c == '\ufffd' {
					return -1
				}
				return c
			}, string([]rune(s)[:min(len([]rune(s)), kennel.LongestName-1)])) + "x"
		}),
	).Filter(func(s string) bool { return strings.TrimSpace(s) != "" })
}

// maybe is words or nothing.
func maybe() *rapid.Generator[string] { return rapid.OneOf(rapid.Just(""), words()) }

// names are names that differ by more than their capitals.
func names(t *rapid.T, most int, of string) []string {
	return rapid.SliceOfNDistinct(words(), 0, most, func(s string) string {
		return strings.ToLower(strings.TrimSpace(s))
	}).Draw(t, of)
}

func date() *rapid.Generator[kennel.Date] {
	first, last := kennel.NewDate(1971, 1, 1), kennel.NewDate(2199, 12, 31)
	leap := rapid.SampledFrom([]kennel.Date{first, last, kennel.NewDate(2028, 2, 29), kennel.NewDate(2000, 2, 29)})
	return rapid.OneOf(leap, rapid.Map(rapid.Int32Range(int32(first), int32(last)), func(d int32) kennel.Date { return kennel.Date(d) }))
}

func maybeDate() *rapid.Generator[kennel.Date] {
	return rapid.OneOf(rapid.Just(kennel.Date(0)), date())
}

func orderedSpan(t *rapid.T, bothEnds bool) kennel.Span {
	s := kennel.Span{From: date().Draw(t, "from"), To: date().Draw(t, "to"), Why: maybe().Draw(t, "why")}
	s.From, s.To = min(s.From, s.To), max(s.From, s.To)
	if !bothEnds {
		switch rapid.IntRange(0, 2).Draw(t, "open end") {
		case 0:
			s.From = 0
		case 1:
			s.To = 0
		}
	}
	return s
}

func randomSpans(t *rapid.T) (all []kennel.Span) {
	for range rapid.IntRange(0, 2).Draw(t, "spans") {
		all = append(all, orderedSpan(t, false))
	}
	return all
}

// some draws a few of the words in their order, nil for none.
func some[T any](t *rapid.T, of []T, what string) (chosen []T) {
	for _, w := range of {
		if rapid.Bool().Draw(t, what) {
			chosen = append(chosen, w)
		}
	}
	return chosen
}

func randomLayers(t *rapid.T) (all []kennel.Layer) {
	left := 1.0
	for range rapid.IntRange(0, 4).Draw(t, "layers") {
		share := rapid.Float64Range(1e-9, 1).Draw(t, "share") * left
		if share <= 0 {
			break
		}
		left -= share
		all = append(all, kennel.Layer{Share: kennel.Share(share), Pulled: date().Draw(t, "pulled")})
	}
	return all
}

func randomDog(t *rapid.T, name string) kennel.Dog {
	setUp := rapid.Float64Range(0, 60).Draw(t, "set up")
	d := kennel.Dog{
		Name: name, Pattern: words().Draw(t, "pattern"), Born: maybeDate().Draw(t, "born"), Owner: maybe().Draw(t, "owner"),
		Coat: kennel.Coat{
			Texture:  rapid.SampledFrom([]kennel.Texture{"", kennel.TextureHard, kennel.TextureFine, kennel.TextureSoft}).Draw(t, "texture"),
			Growth:   rapid.Float64Range(0.5, 2).Draw(t, "growth"),
			Pace:     rapid.Float64Range(0.25, 4).Draw(t, "pace"),
			RollOnly: rapid.Bool().Draw(t, "roll only"),
		},
		Table: kennel.Table{
			SetUp:   kennel.Minutes(setUp),
			Minutes: kennel.Minutes(rapid.Float64Range(max(10, setUp+0.5), 180).Draw(t, "minutes")),
			AWeek:   rapid.IntRange(0, 7).Draw(t, "a week"),
		},
		Priority: rapid.Float64Range(1e-9, 1e6).Draw(t, "priority"),
		Here:     randomSpans(t),
		All:      randomLayers(t),
	}
	for _, a := range some(t, kennel.AreaNames(), "area") {
		d.Areas = append(d.Areas, kennel.AreaCoat{Area: a, Layers: randomLayers(t)})
	}
	for range rapid.IntRange(0, 2).Draw(t, "duties") {
		duty := kennel.Duty{Name: words().Draw(t, "duty"), Minutes: kennel.Minutes(rapid.Float64Range(0.01, 480).Draw(t, "duty minutes"))}
		if rapid.Bool().Draw(t, "every") {
			duty.Every = kennel.Weeks(rapid.IntRange(1, 52).Draw(t, "weeks"))
		} else {
			from := rapid.IntRange(0, 365).Draw(t, "days from")
			duty.Before = &kennel.BeforeShow{From: from, To: rapid.IntRange(0, from).Draw(t, "days to")}
		}
		d.Duties = append(d.Duties, duty)
	}
	return d
}

func randomShow(t *rapid.T, name string, dogs []string) kennel.Show {
	s := kennel.Show{
		Name: name, On: date().Draw(t, "on"), Days: rapid.IntRange(1, 14).Draw(t, "days"),
		Weight: rapid.Float64Range(1e-9, 1e6).Draw(t, "weight"),
		Chance: rapid.Float64Range(1e-9, 1).Draw(t, "chance"),
		Dogs:   some(t, dogs, "dog"),
	}
	if close := maybeDate().Draw(t, "entries close"); close <= s.On {
		s.EntriesClose = close
	}
	if rapid.Bool().Draw(t, "away") {
		away := orderedSpan(t, true)
		s.Away = &away
	}
	return s
}

// randomKennel is any kennel that a file can say.
func randomKennel(t *rapid.T) kennel.Kennel {
	k := kennel.Kennel{
		Name: words().Draw(t, "kennel"), PlanFrom: maybeDate().Draw(t, "plan from"),
		Weeks:    kennel.Weeks(rapid.OneOf(rapid.Just(0), rapid.IntRange(4, 104)).Draw(t, "weeks")),
		TimeZone: rapid.SampledFrom([]string{"", "UTC", "Europe/Dublin", "America/Argentina/Buenos_Aires"}).Draw(t, "zone"),
		Units:    rapid.SampledFrom([]kennel.Units{kennel.UnitsMillimetres, kennel.UnitsInches}).Draw(t, "units"),
	}
	for _, name := range names(t, 3, "hands") {
		h := kennel.Hands{
			Name: name, StripHoursADay: kennel.Hours(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.1, 24)).Draw(t, "strip")),
			Does: some(t, kennel.Skills(), "does"), Away: randomSpans(t),
		}
		for d := range h.Hours {
			h.Hours[d] = kennel.Hours(rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 24)).Draw(t, "hours"))
		}
		k.Hands = append(k.Hands, h)
	}
	dogs := names(t, 4, "dogs")
	for _, name := range dogs {
		k.Dogs = append(k.Dogs, randomDog(t, name))
	}
	for i, name := range names(t, 3, "shows") {
		k.Shows = append(k.Shows, randomShow(t, fmt.Sprint(name, i), dogs))
	}
	return k
}
