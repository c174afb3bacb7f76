// Command seasonbench measures the season solver: it makes seasons from seeds, plans them, gives the same model files to
// the general solvers that are installed, and checks every answer from the files' text alone.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	os.Exit((&app{out: os.Stdout, err: os.Stderr, now: time.Now}).run(ctx, os.Args[1:]))
}
