package patterns

import (
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

func TestBuiltinHasThePatternsOfTheTrade(t *testing.T) {
	want := []string{
		"affenpinscher-griffon", "airedale-terrier", "border-terrier", "cairn-terrier", "german-wirehaired-pointer",
		"giant-schnauzer", "irish-terrier", "lakeland-terrier", "miniature-schnauzer", "norfolk-norwich-terrier",
		"spinone", "standard-schnauzer", "welsh-terrier", "west-highland-white-terrier", "wire-dachshund",
		"wire-fox-terrier",
	}
	if got := Names(builtin(t)); !slices.Equal(got, want) {
		t.Fatalf("got %v", got)
	}
}

// Every area of every pattern is worth a touch: what rolling takes each second week is at least 3 minutes.
func TestRollingTouchesAreWorthMaking(t *testing.T) {
	for _, p := range builtin(t) {
		pulled := 0
		for _, a := range p.Areas {
			if !a.Kept {
				pulled++
			}
		}
		if pulled < 8 || pulled > 11 {
			t.Errorf("%s has %d areas that are pulled", p.Name, pulled)
		}
		for _, a := range p.Areas {
			if a.Kept {
				continue
			}
			if m := a.Minutes.Value * 2 / (a.Ready.Value + a.Hold.Value); m < 3 {
				t.Errorf("%s %s: %.1f minutes each second week", p.Name, a.Name, m)
			}
		}
	}
}

// The pattern's order is the working order: the lower side and the middle before the rest.
func TestSlowestAreasComeFirst(t *testing.T) {
	for _, p := range builtin(t) {
		if p.Areas[0].Name != kennel.AreaSkirtLine || p.Areas[1].Name != kennel.AreaRibs {
			t.Errorf("%s begins with %s, %s", p.Name, p.Areas[0].Name, p.Areas[1].Name)
		}
		for _, a := range p.Areas {
			if a.Name != kennel.AreaWithers && a.Name != kennel.AreaThigh && !a.Kept && a.Ready.Value > p.Areas[0].Ready.Value {
				t.Errorf("%s: %s is slower than the skirt line", p.Name, a.Name)
			}
		}
	}
}

func TestWriteThenReadIsTheSamePattern(t *testing.T) {
	for _, p := range builtin(t) {
		data, err := Write(p)
		if err != nil {
			t.Fatal(err)
		}
		back, err := Read("own.yaml", data, nil)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back[p.Name], p) || len(back) != 1 {
			t.Errorf("%s came back as %+v", p.Name, back[p.Name])
		}
	}
}

// A pattern with any figures, sources and words of one line comes back from its file.
func TestWriteThenReadKeepsAnyFigures(t *testing.T) {
	all := builtin(t)
	rows, err := builtinSources()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := copyOf(all[rapid.SampledFrom(Names(all)).Draw(t, "pattern")])
		words := rapid.StringMatching(`[^\pC\pZ]([^\pC\pZ]| )*[^\pC\pZ]`).Filter(plainWords)
		p.Title = words.Draw(t, "title")
		for _, f := range figuresOf(&p)[1:] {
			f.Source = words.Filter(func(s string) bool { _, row := rows.find(s); return !row }).Draw(t, "source")
			f.Mark = rapid.SampledFrom(marks).Draw(t, "mark")
			f.Low = f.Value * rapid.Float64Range(0.9, 1).Draw(t, "low")
			f.High = f.Value * rapid.Float64Range(1, 1.1).Draw(t, "high")
			if f.Low < 1 || f.High > 1 {
				f.Low, f.High = min(f.Value, max(1, f.Low)), f.Value
			}
		}
		data, err := Write(p)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		back, err := Read("own.yaml", data, nil)
		if err != nil || !reflect.DeepEqual(back[p.Name], p) {
			t.Fatalf("%v\n%s", err, data)
		}
	})
}

func TestOwnFileChangesOnlyWhatItNames(t *testing.T) {
	base := builtin(t)
	got, err := Read("own.yaml", []byte(`patterns:
  - name: thornfield-wires
    extends: wire-fox-terrier
    areas:
      ribs:
        ready: 14
      back:
        hold: {value: 9, source: own records, mark: seen}
`), base)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != len(base)+1 || len(base) != 16 {
		t.Fatalf("%d patterns of %d", len(got), len(base))
	}
	want := copyOf(base["wire-fox-terrier"])
	want.Name = "thornfield-wires"
	for i := range want.Areas {
		switch want.Areas[i].Name {
		case kennel.AreaRibs:
			want.Areas[i].Ready = kennel.Figure{Value: 14, Low: 14, High: 14, Source: "common practice", Mark: kennel.MarkPractice}
		case kennel.AreaBack:
			want.Areas[i].Hold = kennel.Figure{Value: 9, Low: 9, High: 9, Source: "own records", Mark: kennel.MarkSeen}
		}
	}
	if !reflect.DeepEqual(got["thornfield-wires"], want) {
		t.Errorf("got %+v", got["thornfield-wires"])
	}
}

// A file that was written before hair could be kept keeps its furnishings all the same, and takes the usual look; care is
// read and written, and stays with patterns that extend its own.
func TestKeptHairLookAndCareAreRead(t *testing.T) {
	const area = "{work: jacket, weight: 0.6, ready: 11, hold: 7, grip: 4, minutes: 60, finish: {weeks: 3, share: 0.06}}"
	got, err := Read("own.yaml", []byte(`patterns:
  - name: before
    title: Before
    texture: hard
    roll_most: 0.1
    areas:
      ribs: `+area+`
      furnishings: {work: furnishings, weight: 0.4, ready: 8, hold: 12, grip: 3, minutes: 60, finish: {weeks: 2, share: 0.08}}
  - name: cared-for
    extends: before
    look: 9
    care: {minutes: 15, every: {value: 2, low: 1, high: 3}}
  - name: brows
    extends: cared-for
    areas:
      ribs: {kept: true}
`), nil)
	if err != nil {
		t.Fatal(err)
	}
	before, cared, brows := got["before"], got["cared-for"], got["brows"]
	if !areaOf(t, before, "furnishings").Kept || areaOf(t, before, "ribs").Kept || before.Look.Value != 12 || !before.Care.None() {
		t.Errorf("before: %+v", before)
	}
	if cared.Look.Value != 9 || cared.Care.Minutes.Value != 15 || cared.Care.Every.Value != 2 || cared.Care.Every.High != 3 {
		t.Errorf("cared for: %+v", cared)
	}
	if !areaOf(t, brows, "ribs").Kept || areaOf(t, cared, "ribs").Kept || brows.Care != cared.Care {
		t.Errorf("brows: %+v", brows)
	}
	for _, p := range got {
		data, err := Write(p)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Read("own.yaml", data, nil); err != nil || !reflect.DeepEqual(back[p.Name], p) {
			t.Errorf("%v\n%s", err, data)
		}
	}
}

// Changing a pattern in place must not reach into the patterns that were handed in.
func TestReadLeavesTheBaseAlone(t *testing.T) {
	base, again := builtin(t), builtin(t)
	got, err := Read("own.yaml", []byte(`patterns:
  - name: wire-fox-terrier
    extends: wire-fox-terrier
    areas: {ribs: {show_length: 30}}
`), base)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(base, again) {
		t.Error("the base was changed")
	}
	if l := areaOf(t, got["wire-fox-terrier"], "ribs").ShowLength; l == nil || l.Value != 30 {
		t.Errorf("show length %v", l)
	}
}

func TestBadPatternFilesSayWhereAndWhatToTry(t *testing.T) {
	const head = "patterns:\n  - name: own\n    extends: wire-fox-terrier\n    areas:\n"
	cases := []struct {
		name, file   string
		line, column int
		field, value string
		what, try    string
	}{
		{"nothing", "", 1, 1, "", "", "should hold one document", "patterns:"},
		{"two documents", "patterns: []\n---\npatterns: []\n", 1, 1, "", "", "should hold one document", "patterns:"},
		{"not YAML", "patterns: [\n", 1, 11, "", "", "", "brackets"},
		{"no list", "patterns: 3\n", 1, 9, "patterns", "", "list of patterns", "- name"},
		{"empty list", "patterns: []\n", 1, 9, "patterns", "", "list of patterns", "- name"},
		{"strange key at the top", "breeds: []\n", 1, 1, "breeds", "", "not a key", "patterns"},
		{"list of words", "patterns: [schnauzer]\n", 1, 12, "patterns[0]", "schnauzer", "keys and values", "KEY: VALUE"},
		{"unknown base", "patterns:\n  - name: own\n    extends: wire-fox-terier\n", 3, 14, "patterns[0].extends", "wire-fox-terier", "not a pattern", "wire-fox-terrier, "},
		{"no name", "patterns:\n  - extends: spinone\n", 2, 0, "patterns[0].name", "", "missing", "name:"},
		{"capitals in the name", "patterns:\n  - name: Own\n    extends: spinone\n", 2, 11, "patterns[0].name", "Own", "small letters", "wire-fox-terrier"},
		{"number as title", "patterns:\n  - name: own\n    title: 3\n    extends: spinone\n", 3, 12, "patterns[0].title", "3", "words", "quotes"},
		{"empty pattern", "patterns:\n  - name: own\n", 2, 0, "patterns[0].title", "", "missing", "title:"},
		{"same name twice", "patterns:\n  - {name: own, extends: spinone}\n  - {name: own, extends: spinone}\n", 3, 0, "patterns[1].name", "own", "twice", "another name"},
		{"strange legs", "patterns:\n  - {name: own, extends: spinone, legs: odd}\n", 2, 41, "patterns[0].legs", "odd", "not one of", "long, short"},
		{"strange texture", "patterns:\n  - {name: own, extends: spinone, texture: woolly}\n", 2, 44, "patterns[0].texture", "woolly", "not one of", "hard, fine, soft"},
		{"roll_most too large", "patterns:\n  - {name: own, extends: spinone, roll_most: 1.5}\n", 2, 46, "patterns[0].roll_most", "1.5", "out of range", "0.01 to 1"},
		{"strange area", head + "      belly: {ready: 3}\n", 5, 7, "patterns[0].areas.belly", "", "not an area", "ribs"},
		{"strange key of an area", head + "      ribs: {redy: 3}\n", 5, 14, "patterns[0].areas.ribs.redy", "", "not a key", "ready"},
		{"key twice", head + "      ribs:\n        ready: 3\n        ready: 4\n", 7, 9, "", "", "already defined", ""},
		{"key twice on one line", head + "      ribs: {ready: 3, ready: 4}\n", 5, 24, "", "", "already defined", ""},
		{"area twice", head + "      ribs: {ready: 3}\n      ribs: {ready: 4}\n", 6, 7, "", "", "already defined", ""},
		{"words for a number", head + "      ribs: {ready: soon}\n", 5, 21, "patterns[0].areas.ribs.ready", "soon", "not a number", "1 to 52 (weeks)"},
		{"quoted number", head + "      ribs: {ready: \"12\"}\n", 5, 21, "patterns[0].areas.ribs.ready", "12", "not a number", "1 to 52"},
		{"no number", head + "      ribs: {ready: .nan}\n", 5, 21, "patterns[0].areas.ribs.ready", ".nan", "not a number", "1 to 52"},
		{"ready out of range", head + "      ribs: {ready: 0}\n", 5, 21, "patterns[0].areas.ribs.ready", "0", "out of range", "1 to 52"},
		{"hold out of range", head + "      ribs: {hold: 53}\n", 5, 20, "patterns[0].areas.ribs.hold", "53", "out of range", "1 to 52"},
		{"grip out of range", head + "      ribs: {grip: -1}\n", 5, 20, "patterns[0].areas.ribs.grip", "-1", "out of range", "0 to 26"},
		{"grip above ready", head + "      ribs: {grip: 13}\n", 5, 7, "patterns[0].areas.ribs.grip", "13", "never be gripped", "below ready"},
		{"minutes out of range", head + "      ribs: {minutes: 0.5}\n", 5, 23, "patterns[0].areas.ribs.minutes", "0.5", "out of range", "minutes"},
		{"weight out of range", head + "      ribs: {weight: 0}\n", 5, 22, "patterns[0].areas.ribs.weight", "0", "out of range", "0.001 to 1"},
		{"weights off", head + "      ribs: {weight: 0.5}\n", 0, 0, "patterns[0].areas", "", "the weights sum to 1.36", "sum to 1"},
		{"length out of range", head + "      ribs: {show_length: 0}\n", 5, 27, "patterns[0].areas.ribs.show_length", "0", "out of range", "millimetres"},
		{"half a finish", head + "      ribs: {finish: {weeks: 3}}\n", 5, 0, "patterns[0].areas.ribs.finish.share", "", "missing", "share:"},
		{"finish share out of range", head + "      ribs: {finish: {weeks: 3, share: 2}}\n", 5, 40, "patterns[0].areas.ribs.finish.share", "2", "out of range", "0 to 1"},
		{"kept in doubt", head + "      ribs: {kept: maybe}\n", 5, 20, "patterns[0].areas.ribs.kept", "maybe", "true or false", "true"},
		{"furnishings not kept", head + "      furnishings: {kept: false}\n", 5, 27, "patterns[0].areas.furnishings.kept", "false", "furnishings are kept", "kept: true"},
		{"care without its weeks", "patterns:\n  - name: own\n    extends: wire-fox-terrier\n    care: {minutes: 15}\n", 4, 0, "patterns[0].care.every", "", "is missing", "every"},
		{"look of an hour and more", "patterns:\n  - name: own\n    extends: wire-fox-terrier\n    look: 61\n", 4, 11, "patterns[0].look", "61", "out of range", "0 to 60"},
		{"strange work", head + "      ribs: {work: duties}\n", 5, 20, "patterns[0].areas.ribs.work", "duties", "not one of", "jacket, close, furnishings"},
		{"half a new area", head + "      tail: {work: close}\n", 5, 7, "patterns[0].areas.tail.weight", "", "missing", "weight:"},
		{"value outside its range", head + "      ribs: {ready: {value: 9, low: 10, high: 12}}\n", 5, 29, "patterns[0].areas.ribs.ready.value", "9", "outside its range 10 to 12", "low <= value <= high"},
		{"no value", head + "      ribs: {ready: {low: 10, high: 12}}\n", 5, 0, "patterns[0].areas.ribs.ready.value", "", "missing", "value:"},
		{"source without mark", head + "      ribs: {ready: {value: 9, source: C2}}\n", 5, 0, "patterns[0].areas.ribs.ready.mark", "", "missing", "mark:"},
		{"strange mark", head + "      ribs: {ready: {value: 9, source: C2, mark: sure}}\n", 5, 50, "patterns[0].areas.ribs.ready.mark", "sure", "not one of", "seen, within, second-hand"},
		{"mark raised", head + "      ribs: {ready: {value: 9, source: B10, mark: seen}}\n", 5, 51, "patterns[0].areas.ribs.ready.mark", "seen", "better than the source's own", "memory"},
		{"mark of two rows raised", head + "      ribs: {ready: {value: 9, source: \"C1, B10\", mark: seen}}\n", 5, 57, "patterns[0].areas.ribs.ready.mark", "seen", "better than the source's own", "memory"},
		{"practice raised", head + "      ribs: {ready: {value: 9, source: common practice, mark: seen}}\n", 5, 63, "patterns[0].areas.ribs.ready.mark", "seen", "better", "common practice"},
		{"anchor", head + "      ribs: &a {ready: 12}\n", 5, 0, "patterns[0].areas.ribs", "", "keys and values", ""},
	}
	base := builtin(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := Read("own.yaml", []byte(c.file), base)
			var e *kennel.InputError
			if !errors.As(err, &e) {
				t.Fatalf("got %v, %v", len(got), err)
			}
			t.Log(e)
			if got != nil || e.File != "own.yaml" || e.Line == 0 || e.Try == "" || e.What == "" {
				t.Errorf("got %#v", e)
			}
			if (c.line > 0 && e.Line != c.line) || (c.column > 0 && e.Column != c.column) {
				t.Errorf("at %d:%d, want %d:%d", e.Line, e.Column, c.line, c.column)
			}
			if e.Field != c.field || (c.value != "" && e.Value != c.value) {
				t.Errorf("field %q value %q, want %q %q", e.Field, e.Value, c.field, c.value)
			}
			if !strings.Contains(e.What, c.what) || !strings.Contains(e.Try, c.try) {
				t.Errorf("what %q try %q, want %q %q", e.What, e.Try, c.what, c.try)
			}
		})
	}
}

// What comes with the program gives every figure its range and a row of the list.
func TestOwnPatternsAreHeldToMore(t *testing.T) {
	const head = "patterns:\n  - name: own\n    extends: wire-fox-terrier\n    areas:\n      ribs: {ready: "
	rows, err := builtinSources()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ figure, what string }{
		{"12", "no range"},
		{"{value: 12}", "missing"},
		{"{value: 12, low: 11}", "missing"},
		{"{value: 12, low: 11, high: 13, source: hearsay, mark: memory}", "not a row"},
	} {
		r := reader{file: "own.yaml", rows: rows, complete: true}
		_, err := r.read([]byte(head+c.figure+"}\n"), builtin(t))
		if err == nil || !strings.Contains(err.Error(), c.what) {
			t.Errorf("%s: %v", c.figure, err)
		}
	}
}

func TestSourcesWithoutMarkAreRefused(t *testing.T) {
	if _, err := readSources([]byte("sources:\n  C1: {fact: a, source: b}\n")); err == nil {
		t.Error("no error")
	}
	if _, err := readSources([]byte("sources:\n  C1: {fact: a, source: b, mark: certain}\n")); err == nil {
		t.Error("no error")
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("patterns:\n  - name: own\n    extends: wire-fox-terrier\n    areas:\n      ribs: {ready: 14}\n"))
	f.Add([]byte(`patterns:
  - name: own
    title: "Own \"wire\""
    texture: soft
    roll_most: 0.1
    areas:
      ribs:
        work: jacket
        weight: 1
        ready: {value: 11, low: 10, high: 12, source: "C3, C4", mark: derived}
        hold: {value: 7, source: ours, mark: memory}
        grip: 2.5
        minutes: 60
        finish: {weeks: 3, share: 0.05}
        show_length: 1e2
`))
	base := builtin(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := Read("own.yaml", data, base)
		if err != nil {
			var e *kennel.InputError
			if !errors.As(err, &e) || e.Try == "" || e.What == "" {
				t.Fatalf("%#v", err)
			}
			return
		}
		for _, n := range Names(got) {
			if reflect.DeepEqual(got[n], base[n]) {
				continue
			}
			out, err := Write(got[n])
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			back, err := Read("own.yaml", out, nil)
			if err != nil || !reflect.DeepEqual(back[n], got[n]) {
				t.Fatalf("%v\n%s", err, out)
			}
		}
	})
}
