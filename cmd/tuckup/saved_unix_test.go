//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Nobody reads what the program says, as behind a pipe that was closed: it says on standard error that the change is
// saved, and does not end by a signal, which a script would take for a failure.
func TestAChangeThatNobodyReadsOfIsSaidToBeSaved(t *testing.T) {
	dir, path := threeDogsIn(t)
	for n, args := range changingCommands(dir) {
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		r.Close()
		var said bytes.Buffer
		c := exec.Command(os.Args[0], append(args, "--book", path)...)
		c.Args[0] = "tuckup" // the name by which this program is the tuckup command
		c.Stdout, c.Stderr = w, &said
		err = c.Run()
		w.Close()
		var ended *exec.ExitError
		if errors.As(err, &ended) || err != nil {
			t.Errorf("%q ended with %v", args, err)
		}
		if want := fmt.Sprintf("change %d is saved, but the output that says so can't be written", n+1); !strings.Contains(said.String(), want) {
			t.Errorf("%q said %q", args, said.String())
		}
		if v := versionOf(t, path); v != int64(n+1) {
			t.Fatalf("%q: the book is at change %d, want %d", args, v, n+1)
		}
	}
}
