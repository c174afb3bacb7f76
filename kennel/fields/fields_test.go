package fields

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/filled"
)

// complete fails for each field of a thing that its description leaves out.
func complete[T any](t *testing.T, thing Thing[T], full T) {
	t.Helper()
	var copied T
	for _, f := range thing.Fields {
		if areas, ok := f.At(&full).(*Areas); ok {
			to := f.At(&copied).(*Areas)
			*to.All, *to.Named = *areas.All, *areas.Named
			continue
		}
		if f.Kind() == Many {
			reflect.ValueOf(f.At(&copied)).Elem().Set(reflect.ValueOf(f.Get(&full)).Elem())
			continue
		}
		f.Set(&copied, f.Get(&full))
		if f.Text(&copied) != f.Text(&full) || f.Text(&full) == "" {
			t.Errorf("%s: %s is %q, not %q", thing.Is, f.Key, f.Text(&copied), f.Text(&full))
		}
	}
	for _, lost := range filled.Differences(full, copied) {
		t.Errorf("%s: %s", thing.Is, lost)
	}
}

func TestEveryFieldIsDescribed(t *testing.T) {
	k, err := filled.Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	complete(t, Kennel, k)
	complete(t, Hands, k.Hands[0])
	complete(t, Dog, k.Dogs[0])
	complete(t, Layer, k.Dogs[0].All[0])
	every, before := k.Dogs[0].Duties[0], k.Dogs[0].Duties[1]
	every.Before = before.Before
	complete(t, Duty, every)
	complete(t, Outline, k.Dogs[0].Outlines[0])
	complete(t, Spell, k.Dogs[0].Spells[0])
	complete(t, Show, k.Shows[0])
}

// described fails for a description that says too little to make a table, a flag or a form of it.
func described[T any](t *testing.T, thing Thing[T]) {
	t.Helper()
	names := map[string]bool{}
	usual := thing.Usual()
	for _, f := range thing.Fields {
		if f.Says == "" || strings.Contains(f.Says, "|") {
			t.Errorf("%s: %s says %q", thing.Is, f.Key, f.Says)
		}
		if f.defaultWords(&usual) == "" {
			t.Errorf("%s: nothing says what %s is by default", thing.Is, f.Key)
		}
		if names[f.Name()] {
			t.Errorf("%s: two fields are called %s", thing.Is, f.Name())
		}
		names[f.Name()] = true
		if v, number := f.number(&usual); number && f.Need == "" && v != 0 && !f.Bounds.Has(v) {
			t.Errorf("%s: the usual %s, %v, is not %s", thing.Is, f.Key, v, f.Bounds.Words())
		}
	}
}

func (f Field[T]) number(of *T) (float64, bool) {
	switch f.Kind() {
	case Number:
		return f.Get(of).(float64), true
	case Whole:
		return float64(f.Get(of).(int)), true
	}
	return 0, false
}

func TestEveryFieldSaysWhatItIs(t *testing.T) {
	described(t, Kennel)
	described(t, Hands)
	described(t, Dog)
	described(t, Layer)
	described(t, Duty)
	described(t, Outline)
	described(t, Spell)
	described(t, Show)
}

// limited fails for each text of a thing that may be of any length.
func limited[T any](t *testing.T, thing Thing[T], in func(T) kennel.Kennel) {
	t.Helper()
	for _, f := range thing.Single() {
		switch f.Key {
		case "pattern", "coat.texture", "time_zone", "units", "dates", "area", "work": // one of a few words
			continue
		}
		if f.Kind() != Words {
			continue
		}
		x := thing.Usual()
		f.Set(&x, strings.Repeat("a", kennel.LongestNote+1))
		if len(kennel.TooLong(in(x), func(string) bool { return false })) == 0 {
			t.Errorf("%s: %s may be of any length", thing.Is, f.Key)
		}
	}
}

func TestEveryTextHasALimit(t *testing.T) {
	limited(t, Kennel, func(k kennel.Kennel) kennel.Kennel { return k })
	limited(t, Hands, func(h kennel.Hands) kennel.Kennel { return kennel.Kennel{Hands: []kennel.Hands{h}} })
	limited(t, Dog, func(d kennel.Dog) kennel.Kennel { return kennel.Kennel{Dogs: []kennel.Dog{d}} })
	limited(t, Outline, func(o kennel.Outline) kennel.Kennel {
		return kennel.Kennel{Dogs: []kennel.Dog{{Outlines: []kennel.Outline{o}}}}
	})
	limited(t, Duty, func(d kennel.Duty) kennel.Kennel {
		return kennel.Kennel{Dogs: []kennel.Dog{{Duties: []kennel.Duty{d}}}}
	})
	limited(t, Show, func(s kennel.Show) kennel.Kennel { return kennel.Kennel{Shows: []kennel.Show{s}} })
}

func TestKeysStandInTheirGroups(t *testing.T) {
	if got, want := Dog.Keys(""), []string{"name", "pattern", "born", "ring_name", "owner", "coat", "table", "priority", "here", "areas", "outline", "spells", "duties"}; !slices.Equal(got, want) {
		t.Errorf("got %v", got)
	}
	if got, want := Dog.Keys("table"), []string{"set_up", "minutes", "a_week"}; !slices.Equal(got, want) {
		t.Errorf("got %v", got)
	}
	if f := Dog.Named("set_up"); f.Key != "table.set_up" || f.Flag() != "set-up" || f.Group() != "table" || f.Kind() != Number {
		t.Errorf("got %+v", f)
	}
}

func TestWhatIsNotGivenIsSilent(t *testing.T) {
	usual := kennel.UsualDog()
	d := usual
	for name, silent := range map[string]bool{"owner": true, "roll_only": true, "growth": false, "a_week": false, "here": true} {
		if f := Dog.Named(name); f.Silent(&d, &usual) != silent {
			t.Errorf("%s is silent: %v", name, !silent)
		}
	}
	d.Table.AWeek = 0 // is said, because two is usual
	if f := Dog.Named("a_week"); f.Silent(&d, &usual) {
		t.Error("no sessions a week are silent")
	}
	d.Owner = "R. Calloway"
	if f := Dog.Named("owner"); f.Silent(&d, &usual) {
		t.Error("an owner is silent")
	}
}

func TestTablesAndHelpSayTheRange(t *testing.T) {
	for _, row := range []string{
		"| a dog | what it says | range | default |",
		"| `name` | its name |  | required |",
		"| `table.set_up` | fetching, brushing out, powder: for each session | 0 to 60 minutes | 12 |",
		"| `coat.roll_only` | never more than a rolling share of an area in a week | `true` or `false` | `false` |",
	} {
		if !strings.Contains(Dog.Table(), row+"\n") {
			t.Errorf("no row %q in\n%s", row, Dog.Table())
		}
	}
	if got := Dog.Named("growth").Help(); got != "growth factor: 1.1 comes in, and goes over, a tenth sooner; 0.5 to 2" {
		t.Errorf("got %q", got)
	}
}
