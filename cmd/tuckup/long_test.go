package main

import "testing"

// long leaves a test out of the quick round (go test -short), and says why it can't be smaller.
func long(t testing.TB, why string) {
	t.Helper()
	if testing.Short() {
		t.Skip("left out of the quick round: " + why)
	}
}
