package list

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/filled"
	"tuckup/kennel/text"
	"tuckup/reports/sample"
)

// Every field shows in the lists: with another value in it, the list is another.
func TestNoFieldIsLeftOutOfTheLists(t *testing.T) {
	type record struct{ Rows []WorkRow }
	dogFields := map[string]string{
		"kennel.Span.From": "a row of the table has no room for runs of days", "kennel.Span.To": "as from", "kennel.Span.Why": "as from",
		"kennel.Layer.Share": "coats are listed dog by dog", "kennel.Layer.Pulled": "as share", "kennel.AreaCoat.Area": "as share",
		"kennel.Duty.Name": "duties are listed dog by dog", "kennel.Duty.Minutes": "as name", "kennel.Duty.Every": "as name",
		"kennel.Outline.Area": "a row has no room for notes", "kennel.Outline.Note": "as area", "kennel.Outline.Least": "as area",
		"kennel.Duty.Work": "as name", "kennel.Duty.LeaveOut": "as name", "kennel.Duty.Done": "as name", "kennel.BeforeShow.From": "as name", "kennel.BeforeShow.To": "as name",
	}
	inJSON := maps.Clone(dogFields)
	for _, key := range []string{"kennel.Span.From", "kennel.Span.To", "kennel.Span.Why", "kennel.Outline.Area", "kennel.Outline.Note", "kennel.Outline.Least"} {
		delete(inJSON, key)
	}
	for _, c := range []struct {
		name   string
		within string // the paths that the list is about
		list   func(io.Writer, kennel.Kennel) error
		not    map[string]string // fields that it leaves out, and why
	}{
		{"dogs in JSON", "Dogs", DogsJSON, inJSON},
		{"dogs in CSV", "Dogs", DogsCSV, dogFields},
		{"a dog in JSON", "Dogs[0]", func(w io.Writer, k kennel.Kennel) error { return DogJSON(w, DogRecord{Dog: k.Dogs[0]}) }, nil},
		{"its shows in JSON", "Shows", func(w io.Writer, k kennel.Kennel) error { return DogJSON(w, DogRecord{Shows: k.Shows}) }, nil},
		{"shows in JSON", "Shows", func(w io.Writer, k kennel.Kennel) error { return ShowsJSON(w, k, sample.Date(1, 4)) }, nil},
		{"shows in CSV", "Shows", ShowsCSV, map[string]string{"kennel.Span.Why": "a table has no column for the note on travelling"}},
		{"hours in JSON", "Hands", HoursJSON, nil},
		{"hours in CSV", "Hands", HoursCSV, nil},
	} {
		first, err := filled.Kennel(0)
		if err != nil {
			t.Fatal(err)
		}
		was, met := listed(t, func(w io.Writer) error { return c.list(w, first) }), map[string]bool{}
		all, err := filled.Each[kennel.Kennel](filled.KennelValues())
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range all {
			if strings.HasPrefix(one.Path, c.within) {
				is := listed(t, func(w io.Writer) error { return c.list(w, one.Thing) })
				inList(t, c.name, one.Path, one.Key, was != is, c.not, met)
			}
		}
		needed(t, c.name, c.not, met)
	}
	values := filled.RecordValues()
	values["list.WorkRow.ID"] = []any{int64(7), int64(8), int64(9)}
	all, err := filled.Each[record](values)
	if err != nil {
		t.Fatal(err)
	}
	var first record
	if err := filled.Fill(&first, values, 0); err != nil {
		t.Fatal(err)
	}
	for name, list := range map[string]func(io.Writer, WorkDone) error{
		"work in JSON": WorkJSON, "work in CSV": WorkCSV, "a dog's work in JSON": func(w io.Writer, x WorkDone) error { return DogJSON(w, DogRecord{Work: x.Rows}) },
	} {
		was := listed(t, func(w io.Writer) error { return list(w, WorkDone{Rows: first.Rows}) })
		for _, one := range all {
			is := listed(t, func(w io.Writer) error { return list(w, WorkDone{Rows: one.Thing.Rows}) })
			inList(t, name, one.Path, one.Key, was != is, nil, nil)
		}
	}
}

// inList fails for a field that is left out without a reason.
func inList(t *testing.T, name, path, key string, in bool, not map[string]string, met map[string]bool) {
	t.Helper()
	if !in && not[key] == "" {
		t.Errorf("%s leave out %s (%s)", name, path, key)
	}
	if !in {
		met[key] = true
	}
}

// needed fails for a reason that excuses nothing.
func needed(t *testing.T, name string, not map[string]string, met map[string]bool) {
	t.Helper()
	for key := range not {
		if !met[key] {
			t.Errorf("%s have %s after all", name, key)
		}
	}
}

// A table that a list wrote brings every field back that a table holds.
func TestNoFieldIsLostInATable(t *testing.T) {
	for round := range 2 {
		k, err := filled.Kennel(round)
		if err != nil {
			t.Fatal(err)
		}
		var back kennel.Kennel
		for _, list := range []func(io.Writer, kennel.Kennel) error{DogsCSV, ShowsCSV} {
			var b bytes.Buffer
			if err := list(&b, k); err != nil {
				t.Fatal(err)
			}
			rows, err := text.ReadCSV("table.csv", b.Bytes())
			if err != nil {
				t.Fatalf("%v\n%s", err, &b)
			}
			for _, r := range rows.Dogs {
				d := kennel.UsualDog()
				d.Name = r.Name
				r.Set(&d)
				back.Dogs = append(back.Dogs, d)
			}
			for _, r := range rows.Shows {
				s := kennel.Show{Name: r.Name, On: r.On}
				r.Set(&s)
				back.Shows = append(back.Shows, s)
			}
		}
		lost := filled.Differences(k.Dogs, back.Dogs)
		for _, x := range filled.Left(lost, map[string]string{
			".Here": "a row has no room for runs of days", ".All": "lists show coats dog by dog; the column coat is for new dogs", ".Areas": "as all",
			".Duties": "a row has no room for duties", ".Outlines": "a row has no room for notes",
		}) {
			t.Errorf("dogs%s", x)
		}
		lost = filled.Differences(kennel.ByDate(k.Shows), back.Shows)
		for _, x := range filled.Left(lost, map[string]string{".Away.Why": "a table has no column for the note on travelling"}) {
			t.Errorf("shows%s", x)
		}
		coat := "name,coat\nSorrel," + fmt.Sprintf("%g %s; %g %s\n", k.Dogs[0].All[0].Share, k.Dogs[0].All[0].Pulled, k.Dogs[0].All[1].Share, k.Dogs[0].All[1].Pulled)
		rows, err := text.ReadCSV("table.csv", []byte(coat))
		if err != nil {
			t.Fatal(err)
		}
		var d kennel.Dog
		rows.Dogs[0].Set(&d)
		for _, lost := range filled.Differences(k.Dogs[0].All, d.All) {
			t.Errorf("the column coat: %s", lost)
		}
	}
}
