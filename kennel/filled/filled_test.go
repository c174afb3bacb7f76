package filled

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
)

func TestAFilledKennelCanBePlannedAndHasNoEmptyField(t *testing.T) {
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	for round := range 2 {
		k, err := Kennel(round)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range kennel.Problems(k, ps) {
			t.Errorf("round %d: %v", round, p)
		}
	}
	filledOnce(t, KennelValues(), &kennel.Kennel{})
	filledOnce(t, RecordValues(), &struct {
		Work      []kennel.Work
		Measures  []kennel.Measure
		Showables []kennel.Showable
		Sessions  []kennel.Session
		Photos    []kennel.Photo
	}{})
}

// filledOnce fails for each field that is empty wherever it stands in the thing, and for each value that no field has.
func filledOnce(t *testing.T, values Values, thing any) {
	t.Helper()
	full := map[string]bool{}
	f := filler{values: values, at: func(_, key string, v reflect.Value) { full[key] = full[key] || !v.IsZero() }}
	v := reflect.ValueOf(thing).Elem()
	f.inside("", v.Type().String(), v, 0)
	for _, err := range f.wrong {
		t.Error(err)
	}
	for key, said := range values {
		inside := slices.Contains(said, any(Inside))
		if !full[key] && !inside {
			t.Errorf("%s is empty everywhere, or is no field", key)
		}
	}
}

func TestAFieldWithoutAValueIsNamed(t *testing.T) {
	values := KennelValues()
	delete(values, "kennel.Coat.Pace")
	var k kennel.Kennel
	if err := Fill(&k, values, 0); err == nil || !strings.Contains(err.Error(), "kennel.Coat.Pace has no value") {
		t.Errorf("got %v", err)
	}
	var hidden struct{ At struct{ inside int } }
	if err := Fill(&hidden, Values{}, 0); err == nil || !strings.Contains(err.Error(), "inside can't be set") {
		t.Errorf("got %v", err)
	}
}

func TestEachChangesOneFieldOnly(t *testing.T) {
	all, err := Each[kennel.Kennel](KennelValues())
	if err != nil {
		t.Fatal(err)
	}
	var first kennel.Kennel
	if err := Fill(&first, KennelValues(), 0); err != nil {
		t.Fatal(err)
	}
	met := map[string]bool{}
	for _, one := range all {
		met[one.Key] = true
		d := Differences(first, one.Thing)
		if len(d) == 0 {
			t.Errorf("%s is as it was", one.Path)
		}
		for _, x := range d {
			if !strings.HasPrefix(x, one.Path) {
				t.Errorf("%s: %s", one.Path, x)
			}
		}
	}
	for key := range maps.Keys(KennelValues()) {
		if !met[key] && key != "kennel.Duty.Before" { // what is in it changes
			t.Errorf("%s is never changed", key)
		}
	}
}

func TestDifferencesNameWhatIsLost(t *testing.T) {
	k, err := Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	lost := k.Clone()
	lost.Dogs[1].Owner, lost.Shows[0].Away, lost.Hands[0].Does = "", nil, nil
	got := Differences(k, lost)
	want := []string{"Hands[0].Does: 2 became 0: []", "Dogs[1].Owner: T. Marsh became nothing"}
	if len(got) != 3 || got[0] != want[0] || got[1] != want[1] || !strings.HasPrefix(got[2], "Shows[0].Away: ") {
		t.Errorf("got %q", got)
	}
	if got := Differences(k, k.Clone()); got != nil {
		t.Errorf("a copy differs: %q", got)
	}
}
