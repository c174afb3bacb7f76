package main

import (
	"context"
	"fmt"
	"net"

	"github.com/spf13/cobra"
)

func (a *app) openCommand() *cobra.Command {
	f := usualServe(true)
	c := &cobra.Command{
		Use:   "open",
		Short: "Open your book in the browser, or go back to the desk that is open",
		Long: "open does what serve does, and opens the browser on it. Where a desk is open on the book already, the browser is opened on that one. " +
			"A double-click on the program does the same. The desk is closed by the button at the foot of its pages, or by Ctrl-C.",
		Example: "  tuckup open\n  tuckup open --demo",
		Args:    noWords,
		RunE:    func(c *cobra.Command, _ []string) error { return a.serve(c, f) },
	}
	a.serveFlags(c, &f)
	return c
}

// claimFor takes the hold on a book for its desk. A demo is nobody's; where no hold can be had, the desk opens without one.
func (a *app) claimFor(path string) (hold *claim, free bool) {
	if a.flags.demo {
		return nil, true
	}
	hold, free, err := claimDesk(path)
	if err != nil {
		a.log.Warn().Err(err).Msg("a second start will not find this desk")
		return nil, true
	}
	return hold, free
}

// openAgain opens the browser on the desk that is open on a book already.
func (a *app) openAgain(ctx context.Context, path string) error {
	host, err := a.openDesk(ctx, path)
	if err != nil {
		return err
	}
	address := "http://" + host + "/"
	if _, err := fmt.Fprintf(a.out, "The desk is open already, at %s\n", address); err != nil {
		return err
	}
	if err := a.browse(address); err != nil {
		return usage("to open "+address+" in your browser yourself", "no browser could be opened: %v", err)
	}
	return nil
}

// freeAddress is the usual address, or one with a port that is free where another program has that.
func freeAddress(ctx context.Context) string {
	var config net.ListenConfig
	l, err := config.Listen(ctx, "tcp4", usualAddress)
	if err != nil {
		return anyPort
	}
	l.Close() //nolint:errcheck // nobody was answered
	return usualAddress
}
