package text

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
)

func TestWhatIsWrittenReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := randomKennel(t)
		data, err := Write(k)
		if err != nil {
			t.Fatalf("not written: %v", err)
		}
		back, _, err := Read("k.yaml", data)
		if err != nil {
			t.Fatalf("not read: %v\n%s", err, data)
		}
		if !reflect.DeepEqual(k, back) {
			t.Fatalf("wrote %+v\nread  %+v\n%s", k, back, data)
		}
		again, err := Write(back)
		if err != nil || !bytes.Equal(data, again) {
			t.Fatalf("written twice: %v\n%s\n%s", err, data, again)
		}
	})
}

func TestHostileNamesAreKept(t *testing.T) {
	for _, name := range hostile {
		if strings.TrimSpace(name) == "" {
			continue
		}
		k := kennel.Kennel{Name: name, Units: kennel.UnitsInches, Hands: []kennel.Hands{{Name: name, Away: []kennel.Span{{To: 10000, Why: name}}}}}
		data, err := Write(k)
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		if back, _, err := Read("k.yaml", data); err != nil || !reflect.DeepEqual(k, back) {
			t.Errorf("%q: read %+v, %v\n%s", name, back, err, data)
		}
	}
}

// TestKennelFilesRead reads every kennel of the test data, and each as another system might have saved it.
func TestKennelFilesRead(t *testing.T) {
	files, err := filepath.Glob("../../testdata/*/*.yaml")
	if err != nil || len(files) < 7 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		k, _, err := Read(file, data)
		if err != nil {
			t.Error(err)
			continue
		}
		written, err := Write(k)
		if err != nil {
			t.Errorf("%s: %v", file, err)
		}
		back, _, err := Read(file, written)
		if err != nil || !reflect.DeepEqual(k, back) {
			t.Errorf("%s: read %+v, %v, want %+v", file, back, err, k)
		}
		saved := append([]byte("\ufeff"), bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))...)
		if other, _, err := Read(file, saved); err != nil || !reflect.DeepEqual(k, other) {
			t.Errorf("%s with CRLF and a byte order mark: %v", file, err)
		}
	}
}

func TestWhatTheFileLeavesOut(t *testing.T) {
	k, _, err := Read("k.yaml", []byte(`kennel: A
dogs:
  - {name: Bramble, pattern: border-terrier, born: 2024-02-29, areas: {skirt_line: [], back: [{share: .5, pulled: 2028-02-29}]}}
shows:
  - {name: Show, on: "2028-02-29"}
`))
	if err != nil {
		t.Fatal(err)
	}
	leap := kennel.NewDate(2028, 2, 29)
	want := kennel.Kennel{
		Name: "A", Units: kennel.UnitsMillimetres,
		Dogs: []kennel.Dog{{
			Name: "Bramble", Pattern: "border-terrier", Born: kennel.NewDate(2024, 2, 29),
			Coat: kennel.Coat{Growth: 1, Pace: 1}, Table: kennel.Table{SetUp: 12, Minutes: 75, AWeek: 2}, Priority: 1,
			Areas: []kennel.AreaCoat{
				{Area: kennel.AreaBack, Layers: []kennel.Layer{{Share: 0.5, Pulled: leap}}}, {Area: kennel.AreaSkirtLine},
			},
		}},
		Shows: []kennel.Show{{Name: "Show", On: leap, Days: 1, Weight: 1, Chance: 1}},
	}
	if !reflect.DeepEqual(k, want) {
		t.Errorf("read %+v\nwant %+v", k, want)
	}
}

func TestLocatePlacesATroubleFoundLater(t *testing.T) {
	_, places, err := Read("k.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ field, want string }{
		{"dogs[0].pattern", `k.yaml:14:14: dogs[0].pattern "wire-fox-terrier": x`},
		{"dogs[0].coat.growth", `k.yaml:17:35: dogs[0].coat.growth "1.0": x`},
		{"dogs[0].areas.skirt line", `k.yaml:23:19: dogs[0].areas.skirt line: x`},
		{"dogs[0].areas.tail", `k.yaml:22:7: dogs[0].areas.tail: x`},
		{"shows[0].away.from", `k.yaml:39:18: shows[0].away.from "2027-03-19": x`},
		{"nowhere", `k.yaml:1:1: nowhere: x`},
	} {
		err := places.Locate(&kennel.InputError{Field: c.field, What: "x"})
		if err.Error() != c.want {
			t.Errorf("%q, want %q", err, c.want)
		}
	}
	other := errors.New("other")
	if got := places.Locate(other); !errors.Is(got, other) {
		t.Errorf("%v became %v", other, got)
	}
	if got := places.Locate(nil); got != nil {
		t.Errorf("nothing became %v", got)
	}
}

func TestWriteRefusesWhatReadRefuses(t *testing.T) {
	good := kennel.Dog{Name: "Bramble", Pattern: "x", Coat: kennel.Coat{Growth: 1, Pace: 1}, Table: kennel.Table{SetUp: 12, Minutes: 75}, Priority: 1}
	for field, spoil := range map[string]func(*kennel.Kennel){
		"kennel":              func(k *kennel.Kennel) { k.Name = "" },
		"hands[0].name":       func(k *kennel.Kennel) { k.Hands = []kennel.Hands{{Name: "a\nb"}} },
		"dogs[0].coat.growth": func(k *kennel.Kennel) { k.Dogs[0].Coat.Growth = 0 },
		"shows[0].dogs[0]": func(k *kennel.Kennel) {
			k.Shows = []kennel.Show{{Name: "S", On: 1e4, Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Thorn"}}}
		},
		"dogs[0].areas.wing": func(k *kennel.Kennel) { k.Dogs[0].Areas = []kennel.AreaCoat{{Area: "wing"}} },
		"dogs[0].duties[0]":  func(k *kennel.Kennel) { k.Dogs[0].Duties = []kennel.Duty{{Name: "nails"}} },
		"shows[0].away.to": func(k *kennel.Kennel) {
			k.Shows = []kennel.Show{{Name: "S", On: 1e4, Days: 1, Weight: 1, Chance: 1, Away: &kennel.Span{From: 1e4}}}
		},
		"dogs[0].here[0]":  func(k *kennel.Kennel) { k.Dogs[0].Here = []kennel.Span{{}} },
		"weeks":            func(k *kennel.Kennel) { k.Weeks = 3 },
		"time_zone":        func(k *kennel.Kennel) { k.TimeZone = "Nowhere" },
		"hands[0].does[0]": func(k *kennel.Kennel) { k.Hands = []kennel.Hands{{Name: "a", Does: []kennel.Skill{"cook"}}} },
	} {
		k := kennel.Kennel{Name: "A", Dogs: []kennel.Dog{good}}
		spoil(&k)
		data, err := Write(k)
		var in *kennel.InputError
		if !errors.As(err, &in) || in.Field != field || in.Line != 0 || in.File != "" || data != nil {
			t.Errorf("%s: %v\n%s", field, err, data)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(whole))
	for _, c := range badCases {
		f.Add([]byte(strings.Replace(whole, c.good, strings.Replace(c.bad, "^", "", 1), 1)))
	}
	for _, c := range misplaced {
		f.Add([]byte(strings.Replace(c.bad, "^", "", 1)))
	}
	for _, name := range hostile {
		f.Add([]byte("kennel: " + name + "\n"))
		f.Add([]byte("kennel: " + quote(name) + "\n"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		k, _, err := Read("k.yaml", data)
		if err != nil {
			var in *kennel.InputError
			if !errors.As(err, &in) || in.What == "" || in.Try == "" {
				t.Fatalf("%#v", err)
			}
			return
		}
		written, err := Write(k)
		if err != nil {
			t.Fatalf("read but not written: %v", err)
		}
		back, _, err := Read("k.yaml", written)
		if err != nil || !reflect.DeepEqual(k, back) {
			t.Fatalf("wrote %+v\nread  %+v, %v\n%s", k, back, err, written)
		}
	})
}
