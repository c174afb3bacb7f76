package main

import (
	"context"
	"fmt"
	"io"
	"runtime/debug"
	"time"

	"github.com/rs/zerolog"
)

// app is one run of the program: where its results and its words go, its clock, and what the flags said.
type app struct {
	out, err io.Writer
	now      func() time.Time
	log      zerolog.Logger
	flags    flags
	used     source // what the last plan was made from

	started  func() start       // how the program was started
	browse   func(string) error // opens an address in the browser
	patience time.Duration      // for a desk that is open already, to answer
}

// flags are the values of the flags that several commands share.
type flags struct {
	demo      bool
	check     bool
	strict    bool
	kennel    string
	book      string
	on        string
	today     string
	dryRun    bool
	accept    bool
	format    string
	patterns  []string
	config    string
	log       string
	seed      uint64
	timeLimit float64
}

func newApp(out, err io.Writer, now func() time.Time) *app {
	const patience = 10 * time.Second
	return &app{out: out, err: err, now: now, log: zerolog.Nop(), started: started, browse: showInBrowser, patience: patience}
}

// run carries out one command line and returns the exit code.
func (a *app) run(ctx context.Context, args []string) (code int) {
	defer func() {
		if p := recover(); p != nil {
			a.log.Debug().Str("at", string(debug.Stack())).Msg(fmt.Sprint(p))
			fmt.Fprintf(a.err, "tuckup: something went wrong inside (%v); nothing was changed.\nTry: the same again with --log debug, and report what it says\n", p)
			code = codeFailed
		}
	}()
	root := a.rootCommand()
	root.SetArgs(append([]string{}, args...)) // no words are none: for nil it would take those of the process
	root.SetOut(a.out)
	root.SetErr(a.err)
	return a.report(root.ExecuteContext(ctx))
}
