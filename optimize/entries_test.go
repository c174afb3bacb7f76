package optimize

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize/made"
)

func entries(t *testing.T, k kennel.Kennel) []Entry {
	t.Helper()
	k.PlanFrom = made.Monday
	opt := DefaultOptions()
	opt.Missed = 0 // what is advised is told from what is likely, whatever that hangs on
	all, err := Entries(context.Background(), k, made.Patterns(), opt)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// hopedFor is a show that is only hoped for, with the day on which its entries close.
func hopedFor(name string, days, closeDays int, dogs ...string) kennel.Show {
	s := made.ShowOn(name, days, dogs...)
	s.Chance = 0.5
	s.EntriesClose = made.Monday.AddDays(closeDays)
	return s
}

func TestAdviceOnEntries(t *testing.T) {
	rolled := made.EvenDog("Moss", "rough", 12)
	stripped := made.EvenDog("Sorrel", "rough", 0)
	k := kennel.Kennel{
		Weeks: 20, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{rolled, stripped},
		Shows: []kennel.Show{
			hopedFor("Late", 124, 108, "Moss"), hopedFor("Early", 40, 20, "Moss", "Sorrel"), hopedFor("Closed", 41, -1, "Moss"),
			hopedFor("Far", 300, 280, "Moss"), hopedFor("Tomorrow", 1, 0, "Moss"), made.ShowOn("Entered", 125, "Moss"), hopedFor("Over", -3, -9, "Moss"),
		},
	}
	type advice struct {
		show, dog string
		advice    Advice
		reason    string
	}
	want := []advice{
		{"Closed", "Moss", AdviceLeaveOut, "entries closed on 2028-01-02"},
		{"Tomorrow", "Moss", AdviceLeaveOut, "% likely to be in coat (ears:"},
		{"Early", "Moss", AdviceWait, "79 % likely to be in coat, as sessions may be missed and it may grow slower or faster than thought; measure"},
		{"Early", "Sorrel", AdviceLeaveOut, "0 % likely to be in coat (ribs: 100 % is under"},
		{"Late", "Moss", AdviceEnter, "likely to be in coat"},
		{"Far", "Moss", AdviceWait, "after the weeks planned"},
	}
	got := entries(t, k)
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, e := range got {
		w := want[i]
		if e.Show != w.show || e.Dog != w.dog || e.Advice != w.advice || !strings.Contains(e.Reason, w.reason) || !e.Named {
			t.Errorf("%s %s: %s, %s\nwant %+v", e.Show, e.Dog, e.Advice, e.Reason, w)
		}
	}
}

// A show that takes all the hours available is paid for by the other dog, and the cost is told.
func TestEntryThatTakesHoursIsPaidForByTheOthers(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := twoDogs()
	k.Shows = []kennel.Show{made.ShowOn("Brackenmere", 100, "Moss"), hopedFor("Yarrowmead", 103, 90, "Sorrel")}
	k.Shows[1].Weight = 9
	e := entries(t, k)[0]
	if len(e.Dogs) != 1 || e.Dogs[0].Dog != "Moss" || e.Cost() <= leastCost || e.Own <= 0 || e.Hours <= 0 {
		t.Errorf("%+v", e)
	}
	if e.Gain-e.Own+e.Cost() > e.Own {
		t.Errorf("the sum does not hold: %+v", e)
	}
}

func TestShowWithoutDogsIsLookedAtForEveryDogInHand(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: plans whole seasons of true patterns")
	}
	k := twoDogs()
	k.Shows = []kennel.Show{hopedFor("Yarrowmead", 103, 90)}
	k.Dogs = append(k.Dogs, made.EvenDog("Gone", "rough", 12))
	k.Dogs[2].Here = []kennel.Span{{To: made.Monday.AddDays(20)}}
	all := entries(t, k)
	if len(all) != 2 || all[0].Named || all[0].Dog != "Sorrel" || all[1].Dog != "Moss" {
		t.Errorf("%+v", all)
	}
}

// The kennel that is tried differs in the one entry only.
func TestEnteredForChangesOneDogAtOneShow(t *testing.T) {
	k := twoDogs()
	k.Shows = []kennel.Show{hopedFor("Yarrowmead", 103, 90, "Sorrel", "Moss"), made.ShowOn("Yarrowmead for Moss", 20, "Sorrel")}
	before := k.Clone()
	in, out := enteredFor(k, 0, 1, true), enteredFor(k, 0, 1, false)
	if !reflect.DeepEqual(k, before) {
		t.Fatal("the kennel itself has changed")
	}
	if err := kennel.Check(in, made.Patterns()); err != nil {
		t.Error(err)
	}
	if len(out.Shows) != 2 || out.Shows[0].Has("Moss") || !out.Shows[0].Has("Sorrel") || out.Shows[0].Chance != 0.5 {
		t.Errorf("%+v", out.Shows)
	}
	if own := in.Shows[2]; !reflect.DeepEqual(in.Shows[:2], out.Shows) || own.Chance != 1 || !reflect.DeepEqual(own.Dogs, []string{"Moss"}) || own.On != k.Shows[0].On || own.Name == in.Shows[1].Name {
		t.Errorf("%+v", in.Shows)
	}
}

func TestAdviceGoesByChanceGainAndOthers(t *testing.T) {
	out := []OutOfCoat{{Dog: "Moss", Show: "Brackenmere", Before: 90, After: 70}}
	pays := []DogChange{{Dog: "Moss", Before: 2, After: 1}}
	for _, c := range []struct {
		e    Entry
		want Advice
	}{
		{Entry{Likely: 0.9, Gain: 1}, AdviceEnter},
		{Entry{Likely: 0.9, Gain: 1, Dogs: pays}, AdviceEnter},
		{Entry{Likely: 0.7, Gain: 1}, AdviceWait},
		{Entry{Likely: 0.9, Gain: 1, Out: out}, AdviceWait},
		{Entry{Likely: 0.49, Gain: 1}, AdviceLeaveOut},
		{Entry{Likely: 0.9, Gain: 0}, AdviceLeaveOut},
		{Entry{Likely: 0.9, Gain: -1, Dogs: pays}, AdviceLeaveOut},
		{Entry{Likely: 0.9, Gain: 1, Closes: made.Monday - 1}, AdviceLeaveOut},
		{Entry{Likely: 0.9, Gain: 1, Closes: made.Monday}, AdviceEnter},
	} {
		e := c.e
		if e.advise(made.Monday, false); e.Advice != c.want || e.Reason == "" {
			t.Errorf("%+v: %s, %s", c.e, e.Advice, e.Reason)
		}
	}
}

func TestAdviceOnEntriesEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	k := twoDogs()
	k.Shows = []kennel.Show{hopedFor("Yarrowmead", 103, 90, "Sorrel")}
	if _, err := Entries(ctx, k, made.Patterns(), DefaultOptions()); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// calledOff is a context that is called off when it has been asked so often.
type calledOff struct {
	context.Context
	left atomic.Int64
}

func (c *calledOff) Err() error {
	if c.left.Add(-1) >= 0 {
		return nil
	}
	return context.Canceled
}

// Advice that is called off is what was finished by then, and as it would have been.
func TestAdviceCalledOffIsWhatWasFinished(t *testing.T) {
	k := kennel.Kennel{
		PlanFrom: made.Monday, Weeks: 16, Hands: []kennel.Hands{made.Ample()}, Dogs: []kennel.Dog{made.EvenDog("Moss", "rough", 12), made.EvenDog("Sorrel", "rough", 0)},
		Shows: []kennel.Show{hopedFor("Early", 60, 20, "Moss", "Sorrel"), hopedFor("Late", 124, 108, "Moss", "Sorrel")},
	}
	r, err := Plan(context.Background(), k, made.Patterns(), DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	everyDog := func(string) bool { return true }
	whole := &calledOff{Context: context.Background()}
	whole.left.Store(math.MaxInt64)
	all, err := EntriesOf(whole, r, everyDog)
	if err != nil || len(all) != 4 {
		t.Fatalf("%d, %v", len(all), err)
	}
	asked := math.MaxInt64 - whole.left.Load()
	const moments = 24
	some := map[int]bool{}
	for i := range int64(moments) {
		c := &calledOff{Context: context.Background()}
		early := float64(moments-i) / (moments + 1)
		c.left.Store(asked - max(2, int64(float64(asked)*early*early*early))) // closer together towards the end
		got, err := EntriesOf(c, r, everyDog)
		if !errors.Is(err, context.Canceled) || len(got) >= len(all) {
			t.Fatalf("%d, %v", len(got), err)
		}
		for _, e := range got {
			if !slices.ContainsFunc(all, func(o Entry) bool { return reflect.DeepEqual(e, o) }) {
				t.Errorf("%+v is not what it would have been", e)
			}
		}
		some[len(got)] = true
	}
	if len(some) < 3 {
		t.Errorf("numbers of entries finished: %v", some)
	}
}
