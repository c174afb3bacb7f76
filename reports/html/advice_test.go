package html

import (
	"strings"
	"testing"

	"tuckup/optimize"
	"tuckup/reports/sample"
)

// What an owner is sent must not say whose hours an entry takes.
func TestAdviceOnAPageNamesNoOtherDog(t *testing.T) {
	all := sample.Entries("Sorrel")
	all[0].Dogs = []optimize.DogChange{{Dog: "Moss", Before: 2, After: 1.8}}
	all[0].Out = []optimize.OutOfCoat{{Dog: "Moss", Show: "Brackenmere", Before: 81, After: 79}}
	all[0].Reason = "Moss would no longer be in coat"
	got := AdviceOn(all, sample.Date(1, 5))
	want := []Advice{
		{"Sorrel", "Wait: Sorrel on Sat 20 Mar, entries close Tue 2 Mar; readiness 91, 91 % likely to be in coat"},
		{"Sorrel", "Do the ears: Brackenmere Terrier Club on Sat 27 Mar, entries close Wed 3 Mar; readiness 45, 2 % likely to be in coat (ears: 100 % is over 8 weeks); in coat with ears, 30 min, by 27 February"},
		{"Sorrel", "Wait: Far off on Mon 20 Dec"},
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got  %q\nwant %q", got[i], want[i])
		}
		if strings.Contains(got[i].Words, "Moss") {
			t.Errorf("%q names another dog", got[i].Words)
		}
	}
}

func TestAdviceOnAPageSaysWhatIsShort(t *testing.T) {
	all := sample.Entries("Sorrel")[:1]
	all[0].Score = 71
	if got := AdviceOn(all, sample.Date(1, 5))[0].Words; !strings.HasSuffix(got, "readiness 71, 91 % likely to be in coat (ribs: 58 % is under 11 weeks)") {
		t.Error(got)
	}
}
