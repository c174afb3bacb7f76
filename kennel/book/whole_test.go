package book

import (
	"maps"
	"path/filepath"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/filled"
)

// filledState is a state of which every field is set.
func filledState(t *testing.T, round int) (s State) {
	t.Helper()
	values := filled.KennelValues()
	maps.Copy(values, filled.RecordValues())
	maps.Copy(values, filled.Values{
		"book.State.Kennel": {filledKennel(t, round)},
		"book.Seen.Dog":     {"Moss", "Sorrel"}, "book.Seen.Area": {"back", filled.Empty, "neck"},
		"book.Seen.On": {monday, monday + 1, monday + 2}, "book.Seen.Work": {1, 2, 2},
		"book.Work.ID": {1, 2}, "book.Measure.ID": {1, 2}, "book.Showable.ID": {1, 2}, "book.Photo.ID": {1, 2}, "book.Session.ID": {1, 2}, "book.Session.Work": {1, 2},
		"book.PlanInUse.On": {monday, 0, monday + 7}, "book.PlanInUse.Change": {7, 0, 8}, "book.PlanInUse.Result": {"spring", filled.Empty, "summer"},
	})
	if round > 0 {
		for _, key := range []string{"kennel.Work.Dog", "kennel.Measure.Dog", "kennel.Showable.Dog", "kennel.Session.Dog", "kennel.Photo.Dog", "book.Seen.Dog"} {
			values[key] = []any{"Bracken", "Sorrel"}
		}
	}
	if err := filled.Fill(&s, values, round); err != nil {
		t.Fatal(err)
	}
	return s
}

func filledKennel(t *testing.T, round int) kennel.Kennel {
	t.Helper()
	k, err := filled.Kennel(round)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

var monday = kennel.NewDate(2027, 1, 11)

// Every field of everything that a book holds is there when it is opened again, through a change of every field and back.
func TestNoFieldIsLostInABook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	for round := range 2 {
		b, err := Open(t.Context(), path, options())
		if err != nil {
			t.Fatal(err)
		}
		want := filledState(t, round)
		if _, err := b.Change(t.Context(), AnyVersion, "everything", func(s *State) error { *s = want; return nil }); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		again := open(t, path, options())
		got, version, err := again.Read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, lost := range filled.Differences(want, got) {
			t.Errorf("round %d: %s", round, lost)
		}
		if wrong, err := again.Check(t.Context()); err != nil || len(wrong) > 0 {
			t.Error(wrong, err)
		}
		if round == 0 {
			continue
		}
		was, err := again.At(t.Context(), version-1)
		if err != nil {
			t.Fatal(err)
		}
		for _, lost := range filled.Differences(filledState(t, 0), was) {
			t.Errorf("one change earlier: %s", lost)
		}
	}
}

// Every field of a kennel file comes into the book, over what it held and instead of it.
func TestNoFieldIsLostWhenAKennelIsMergedOrPutInstead(t *testing.T) {
	for name, lay := range map[string]func(*State, kennel.Kennel, kennel.Date){"merged": (*State).Merge, "instead": (*State).Replace} {
		was, k := filledKennel(t, 0), filledKennel(t, 1)
		for i := range k.Dogs { // the same dogs, shows and hands, so that the fields of each are laid over
			k.Dogs[i].Name, k.Hands[i].Name = was.Dogs[i].Name, was.Hands[i].Name
			k.Shows[i].Name, k.Shows[i].On, k.Shows[i].Dogs = was.Shows[i].Name, was.Shows[i].On, []string{"Moss"}
			k.Shows[i].EntriesClose = was.Shows[i].On - 3
		}
		s := State{Kennel: was}
		lay(&s, k, monday)
		for _, lost := range filled.Differences(k, s.Kennel) {
			t.Errorf("%s: %s", name, lost)
		}
		s = State{}
		lay(&s, k, monday)
		for _, lost := range filled.Differences(k, s.Kennel) {
			t.Errorf("%s into an empty book: %s", name, lost)
		}
	}
}
