package desk

import (
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// The card of a dog at home is for the next days out of hand, or for those that are asked for.
func TestTheHomeCardIsForTheDaysOutOfHand(t *testing.T) {
	r := open(t, twoDogs())
	r.hold = make(chan struct{})
	r.change(func(s *book.State) {
		s.Kennel.Dogs[0].Here = []kennel.Span{{To: monday + 6}, {From: monday + 21}}
		s.Kennel.Dogs[0].Spells = []kennel.Spell{{From: monday + 8, To: monday + 12, What: kennel.SpellIllness, Growth: 1}}
	})
	p := r.get(homePath("Sorrel"))
	for _, want := range []string{"Mon 11 Jan to Sun 24 Jan", "No bath", "Nothing is pulled", "the vet decides", "It is back on Mon 25 Jan; its next show is Brackenmere"} {
		if !strings.Contains(p.Text(), want) {
			t.Errorf("it lacks %q", want)
		}
	}
	if other := r.get(homePath("Sorrel") + "?from=2027-03-01&to=2027-03-05").Text(); !strings.Contains(other, "Mon 1 Mar to Fri 5 Mar") || strings.Contains(other, "vet decides what") {
		t.Error("it is not for the days that were asked for")
	}
	if bad := r.ask("GET", homePath("Sorrel")+"?from=2027-03-05&to=2027-03-01", nil); bad.status != 422 {
		t.Errorf("days the wrong way round: %d", bad.status)
	}
	if bad := r.ask("GET", homePath("Sorrel")+"?from=soon", nil); bad.status != 422 {
		t.Errorf("a day that is none: %d", bad.status)
	}
}
