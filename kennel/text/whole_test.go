package text

import (
	"testing"

	"tuckup/kennel/filled"
)

// Every field of a kennel is written and comes back.
func TestNoFieldIsLostInAKennelFile(t *testing.T) {
	for round := range 2 {
		k, err := filled.Kennel(round)
		if err != nil {
			t.Fatal(err)
		}
		data := write(k) // not Write, which says that something is lost, but not what
		back, _, err := Read("k.yaml", data)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		for _, lost := range filled.Differences(k, back) {
			t.Errorf("%s\n%s", lost, data)
		}
	}
}
