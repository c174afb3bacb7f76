package optimize

import (
	"context"
	"testing"

	"pgregory.net/rapid"
)

func TestFiguresOfRandomKennelsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, err := Plan(context.Background(), someKennel().Draw(t, "kennel"), testPatterns(), DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, Check(r))
	})
}

func agrees(t rapid.TB, c Checked) {
	t.Helper()
	for _, d := range c.Differences {
		t.Errorf("%v", d)
	}
}
