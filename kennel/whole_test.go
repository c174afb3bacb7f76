package kennel_test

import (
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/filled"
)

// What is changed in a copy changes nothing in what it was copied from.
func TestACopySharesNoFieldWithItsKennel(t *testing.T) {
	k, err := filled.Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	was, err := filled.Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	c := k.Clone()
	if lost := filled.Differences(k, c); lost != nil {
		t.Errorf("the copy lacks %q", lost)
	}
	filled.Overwrite(&c)
	if touched := filled.Differences(was, k); touched != nil {
		t.Errorf("shared: %q", touched)
	}
	if kennel.Problems(c, nil) == nil {
		t.Error("the copy was not written over")
	}
}
