// Command tuckup plans the coat work of a string of hard-coated show dogs.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"
	_ "time/tzdata" // time zones of kennels, also where the machine has none

	"github.com/spf13/cobra"
)

func main() {
	cobra.MousetrapHelpText = "" // a double-click opens the desk, and is no mistake
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	os.Exit(newApp(os.Stdout, os.Stderr, time.Now).run(ctx, os.Args[1:]))
}
