package book

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/kennel/text"
)

func builtin(t *testing.T) kennel.Patterns {
	t.Helper()
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func onBack(s State, ps kennel.Patterns, on kennel.Date) []kennel.Layer {
	return s.Now(ps, on).Dogs[0].LayersOn(kennel.AreaBack)
}

func backWork(id int64, on kennel.Date, share kennel.Share) Work {
	return Work{ID: id, Work: kennel.Work{Dog: "Sorrel", On: on, Minutes: 30, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: share}}}}
}

// Only work that came after the coat was looked at moves it: on a later day, or on the same day and told later.
func TestWorkMovesTheCoatOnlyFromWhenItWasLookedAt(t *testing.T) {
	ps := builtin(t)
	on := kennel.NewDate(2027, 1, 4)
	s := State{Kennel: kennel.Kennel{Dogs: []kennel.Dog{{Name: "Sorrel", Pattern: "wire-fox-terrier", All: []kennel.Layer{{Share: 1, Pulled: on - 90}}}}}}
	s.Work = []Work{backWork(1, on, 0.25), backWork(2, on+1, 0.25)}
	moved := []kennel.Layer{{Share: 0.5, Pulled: on - 90}, {Share: 0.25, Pulled: on}, {Share: 0.25, Pulled: on + 1}}
	if got := onBack(s, ps, on+9); !slices.Equal(got, moved) {
		t.Errorf("nobody looked: %v", got)
	}
	if got := onBack(s, ps, on); len(got) != 2 {
		t.Errorf("work of tomorrow moved the coat of today: %v", got)
	}
	s.Looked("Sorrel", AllAreas, on+1)
	if got := onBack(s, ps, on+9); len(got) != 1 {
		t.Errorf("work that was seen moved the coat: %v", got)
	}
	s.Work = append(s.Work, backWork(3, on+1, 0.25), backWork(4, on-3, 0.5))
	if got := onBack(s, ps, on+9); !slices.Equal(got, []kennel.Layer{{Share: 0.75, Pulled: on - 90}, {Share: 0.25, Pulled: on + 1}}) {
		t.Errorf("work told later on the same day counts, forgotten work of before does not: %v", got)
	}
	s.Looked("Sorrel", kennel.AreaRibs, on+5)
	if got := onBack(s, ps, on+9); len(got) != 2 {
		t.Errorf("a look at the ribs changed the back: %v", got)
	}
	s.Looked("Sorrel", kennel.AreaBack, on+5)
	s.Looked("Sorrel", AllAreas, on+1)
	if len(s.Seen) != 1 {
		t.Errorf("a look at the whole dog leaves older looks: %v", s.Seen)
	}
	if s.Kennel.Dogs[0].Areas != nil {
		t.Error("the coat that was told was moved")
	}
}

// A session of last month is shown the coat of last month, whatever order the work was written down in, and not what was seen since.
func TestEachWorkIsShownTheCoatThatItCameTo(t *testing.T) {
	ps := builtin(t)
	on := kennel.NewDate(2027, 1, 4)
	s := State{Kennel: kennel.Kennel{Dogs: []kennel.Dog{{Name: "Sorrel", Pattern: "wire-fox-terrier", All: []kennel.Layer{{Share: 1, Pulled: on - 90}}}}}}
	s.Work = []Work{backWork(2, on+7, 0.25), backWork(1, on, 0.5), {Work: kennel.Work{Dog: "Quill", On: on}}, backWork(3, on+7, 0.1), backWork(4, on+30, 0.1)}
	s.Looked("Sorrel", kennel.AreaRibs, on+3)
	s.Work[1].Areas = append(s.Work[1].Areas, kennel.Pulled{Area: kennel.AreaRibs, Share: 0.2})
	var coats [][]kennel.Layer
	var known int
	s.EachWork(ps, on+7, func(w kennel.Work, before kennel.Dog, of kennel.Work) {
		if w.Dog != before.Name {
			t.Errorf("%s is shown %s", w.Dog, before.Name)
		}
		coats = append(coats, before.LayersOn(kennel.AreaBack))
		known += len(of.Areas)
	})
	old := func(share kennel.Share) kennel.Layer { return kennel.Layer{Share: share, Pulled: on - 90} }
	want := [][]kennel.Layer{{old(1)}, {old(0.5), {Share: 0.5, Pulled: on}}, {old(0.25), {Share: 0.5, Pulled: on}, {Share: 0.25, Pulled: on + 7}}}
	if !reflect.DeepEqual(coats, want) || known != 3 {
		t.Errorf("%v; %d areas known", coats, known)
	}
	if s.Work[0].ID != 2 || s.Kennel.Dogs[0].Areas != nil {
		t.Error("the book was changed by looking through it")
	}
}

// What was seen of the long layer moves the coat from its day on, whatever order work was written down in; records are held against the
// days of the pulls alone. Taken out again, it moves nothing.
func TestWhatWasSeenMovesTheCoatUntilItIsTakenOut(t *testing.T) {
	ps := builtin(t)
	on := kennel.NewDate(2027, 1, 4)
	s := State{Kennel: kennel.Kennel{Dogs: []kennel.Dog{{Name: "Sorrel", Pattern: "wire-fox-terrier", Coat: kennel.Coat{Growth: 1}, All: []kennel.Layer{
		{Share: 0.5, Pulled: on - 300}, {Share: 0.5, Pulled: on - 20},
	}}}}}
	back, _ := ps["wire-fox-terrier"].Area(kennel.AreaBack)
	saw := Work{ID: 1, Work: kennel.Work{Dog: "Sorrel", On: on, Looks: []kennel.Look{{Area: kennel.AreaBack, Long: kennel.LongNone}, {Area: kennel.AreaRibs, Long: kennel.LongNone}}}}
	s.Work = []Work{backWork(2, on+7, 0.1), saw}
	s.Looked("Sorrel", kennel.AreaRibs, on+3)
	short := on.AddDays(1 - int(math.Round(7*back.LongAfter(kennel.Coat{Growth: 1}))))
	want := []kennel.Layer{{Share: 0.4, Pulled: short}, {Share: 0.5, Pulled: on - 20}, {Share: 0.1, Pulled: on + 7}}
	now := s.Now(ps, on+10).Dogs[0]
	if got := now.LayersOn(kennel.AreaBack); !reflect.DeepEqual(got, want) {
		t.Errorf("the back is %v, not %v", got, want)
	}
	if got := now.LayersOn(kennel.AreaRibs); !reflect.DeepEqual(got, s.Kennel.Dogs[0].All) {
		t.Errorf("ribs looked at again are moved by what was seen before: %v", got)
	}
	if got := s.AsPulled(ps, on+10).Dogs[0].LayersOn(kennel.AreaBack)[0]; got.Pulled != on-300 {
		t.Errorf("the pulls alone make it %v", got)
	}
	s.EachWork(ps, 0, func(w kennel.Work, before kennel.Dog, known kennel.Work) {
		if before.LayersOn(kennel.AreaBack)[0].Pulled != on-300 || len(w.Looks) == 2 && len(known.Looks) != 1 {
			t.Errorf("%v came to the table with %v, of which is known %v", w, before.LayersOn(kennel.AreaBack), known.Looks)
		}
	})
	if !s.DropWork(1) || s.Now(ps, on+10).Dogs[0].LayersOn(kennel.AreaBack)[0].Pulled != on-300 {
		t.Error("it is not taken out")
	}
}

// What is exported, taken in again, is exported alike, whatever work was done: nothing is counted twice.
func TestAnExportTakenInAgainCountsNoWorkTwice(t *testing.T) {
	ps := builtin(t)
	rapid.Check(t, func(t *rapid.T) {
		on := kennel.NewDate(2027, 1, 4)
		s := later(len(migrations()))
		s.Kennel.Dogs[0].Areas[0].Layers = []kennel.Layer{{Share: 1, Pulled: on - 60}}
		for id := range rapid.Int64Range(0, 6).Draw(t, "work") {
			w := backWork(id+10, on.AddDays(rapid.IntRange(0, 9).Draw(t, "day")), kennel.Share(rapid.Float64Range(0.01, 0.5).Draw(t, "share")))
			w.Areas = append(w.Areas, kennel.Pulled{Area: kennel.AreaRibs, Share: 0.1})
			w.Looks = []kennel.Look{{Area: kennel.AreaRibs, Long: kennel.LongThin, Share: kennel.Share(rapid.Float64Range(0, 1).Draw(t, "long"))}}
			s.Work = append(s.Work, w)
		}
		out := s.Export(ps)
		data, err := text.Write(out)
		if err != nil {
			t.Fatal(err)
		}
		k, _, err := text.Read("out.yaml", data)
		if err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "replace") {
			s.Replace(k, k.PlanFrom)
		} else {
			s.Merge(k, k.PlanFrom)
		}
		if again := s.Export(ps); !reflect.DeepEqual(again, out) {
			t.Fatalf("exported\n%+v\nthen\n%+v", out, again)
		}
	})
}

// A file that is exported brings no duty back that the book knows to be done.
func TestAnExportSaysWhenDutiesWereLastDone(t *testing.T) {
	s := keptState()
	on := s.Kennel.PlanFrom
	nails, trim := s.Kennel.Dogs[0].Duties[0].Name, s.Kennel.Dogs[0].Duties[1].Name
	s.Kennel.Dogs[0].Duties[1].Done = on + 9 // said, and later than what the book has
	s.Work = nil
	for id, w := range []kennel.Work{{Duty: nails, On: on + 3}, {Duty: nails, On: on + 1}, {Duty: trim, On: on + 2}, {Duty: "ears", On: on + 4}} {
		w.Dog, w.Minutes = s.Kennel.Dogs[0].Name, 10
		s.Work = append(s.Work, Work{ID: int64(id + 1), Work: w})
	}
	got := s.Export(builtin(t)).Dogs[0].Duties
	if got[0].Done != on+3 || got[1].Done != on+9 {
		t.Errorf("%s last done on %s, %s on %s", nails, got[0].Done, trim, got[1].Done)
	}
	if s.Kennel.Dogs[0].Duties[0].Done != 0 {
		t.Error("the book was changed by writing it out")
	}
}

func TestWorkSpendsTheSessionThatWasAgreed(t *testing.T) {
	on := kennel.NewDate(2027, 1, 4) // a Monday
	agreed := func(days ...int) State {
		s := keptState()
		s.Work, s.Sessions = nil, nil
		for i, d := range days {
			s.Sessions = append(s.Sessions, Session{ID: int64(i + 1), Session: kennel.Session{Dog: "Sorrel", On: on.AddDays(d)}})
		}
		return s
	}
	for _, c := range []struct {
		days  []int
		on    int
		spent int64 // 0 = none
	}{
		{[]int{0, 2}, 2, 2},
		{[]int{0, 2}, 0, 1},
		{[]int{0, 5}, 3, 1},
		{[]int{0, 1}, 3, 0},
		{[]int{3}, 1, 0},
		{[]int{-1}, 1, 0},
	} {
		s := agreed(c.days...)
		_, err := s.AgreedFor("Sorrel", on.AddDays(c.on))
		x := s.Record(kennel.Work{Dog: "Sorrel", On: on.AddDays(c.on), Minutes: 40})
		if (x == nil) != (c.spent == 0) || (err != nil) != (c.spent == 0) || x != nil && (x.ID != c.spent || x.Work != s.Work[0].ID) {
			t.Errorf("%+v: spent %+v, %v", c, x, err)
		}
		if c.spent != 0 && len(s.Accepted(0)) != len(c.days)-1 {
			t.Errorf("%+v: still agreed are %v", c, s.Accepted(0))
		}
	}
	s := agreed(0)
	if x := s.Record(kennel.Work{Dog: "Sorrel", On: on, Minutes: 10, Duty: "nails"}); x != nil {
		t.Error("a duty spent a session")
	}
}

func TestAnAgreementTakesThePlaceOfTheOneBefore(t *testing.T) {
	on := kennel.NewDate(2027, 1, 4)
	s := keptState()
	s.Sessions = []Session{
		{ID: 1, Session: kennel.Session{Dog: "Sorrel", On: on - 3}},
		{ID: 2, Session: kennel.Session{Dog: "Sorrel", On: on + 1}, Work: 1},
		{ID: 3, Session: kennel.Session{Dog: "Sorrel", On: on + 2}},
		{ID: 4, Session: kennel.Session{Dog: "Moss", On: on + 3, Start: 540, Pinned: true}},
	}
	if err := s.Take(madePlan{sessions: []kennel.Session{{Dog: "Moss", On: on + 3, Start: 540, Pinned: true}, {Dog: "Moss", On: on + 4}}, record: "spring"}, on, 7); err != nil {
		t.Fatal(err)
	}
	var left []int64
	for _, x := range s.Sessions {
		left = append(left, x.ID)
	}
	if !slices.Equal(left, []int64{1, 2, 4, 0}) || !reflect.DeepEqual(s.Plan, PlanInUse{On: on, Change: 7, Result: []byte("spring")}) {
		t.Errorf("left %v, %+v", left, s.Plan)
	}
}

func TestARenamedDogKeepsItsRecords(t *testing.T) {
	s := later(len(migrations()))
	s.RenameDog("Sorrel", "Fern")
	all := problems(s, encode(s))
	if len(all) > 0 {
		t.Errorf("%v", all)
	}
	for _, w := range s.Work {
		if w.Dog == "Sorrel" {
			t.Error("work of a dog that is not there")
		}
	}
}

func TestMergingLaysOverAndReplacingTakesThePlace(t *testing.T) {
	on := kennel.NewDate(2027, 2, 1)
	sorrel, quill := kennel.UsualDog(), kennel.UsualDog()
	sorrel.Name, sorrel.Pattern, sorrel.All = "SORREL", "wire-fox-terrier", []kennel.Layer{{Share: 1, Pulled: on - 9}}
	quill.Name, quill.Pattern = "Quill", "border-terrier"
	file := kennel.Kennel{Name: "New", Units: kennel.UnitsInches, Dogs: []kennel.Dog{sorrel, quill}}
	s := later(len(migrations()))
	s.Merge(file, on)
	if names := s.Kennel.DogNames(); !slices.Equal(names, []string{"Sorrel", "Moss", "Quill"}) || len(s.Kennel.Shows) != 2 || s.Kennel.Name != "New" || len(s.Work) != 2 {
		t.Errorf("merged %+v", s)
	}
	if x := s.seenOn("Sorrel", kennel.AreaSkull); x.On != on {
		t.Errorf("the new coat was looked at on %v", x)
	}
	file.Dogs[0].Name = "Sorrel"
	s = later(len(migrations()))
	s.Replace(file, on)
	if names := s.Kennel.DogNames(); !slices.Equal(names, []string{"Sorrel", "Quill"}) || len(s.Kennel.Shows) != 0 || len(s.Work) != 1 || len(s.Sessions) != 1 {
		t.Errorf("replaced %+v", s)
	}
	if all := problems(s, encode(s)); len(all) > 0 {
		t.Errorf("%v", all)
	}
}
