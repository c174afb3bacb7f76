package reports

import (
	"testing"

	"tuckup/reports/sample"
)

// Parts of the whole are parts: they sum to 1, and a dog that needs more than it gets has more of the need.
func TestTheBalanceIsOfTheWholeStrings(t *testing.T) {
	b := newBalanceDoc(sample.Pictured(sample.Result()))
	var hours, need float64
	for _, s := range b.Dogs {
		hours += s.PartOfHours
		need += s.PartOfNeed
	}
	if len(b.Dogs) != 2 || hours < 0.999999 || hours > 1.000001 || need < 0.999999 || need > 1.000001 {
		t.Errorf("%+v: hours %v, need %v", b.Dogs, hours, need)
	}
	// Moss is least ready on the mean: its other show has no weight.
	if b.Worst != "Moss" || b.Why != "for Brackenmere Terrier Club it is 88" {
		t.Errorf("worst %s: %s", b.Worst, b.Why)
	}
}
