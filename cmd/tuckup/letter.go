package main

import (
	"io"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/reports/html"
)

func (a *app) letterCommand() *cobra.Command {
	var (
		out, month string
		f          accountFlags
	)
	c := &cobra.Command{
		Use:     "owner NAME",
		Aliases: []string{"letter"},
		Short:   "Write the letter of a month to an owner, a page for a dog",
		Long: "report owner writes what an owner wants to read: how the dog is, what comes, what is to be decided; its coat by week, its shows, " +
			"and the hours of the month, with --currency and --rate also what they cost. It says nothing of other owners' dogs.",
		Example: "  tuckup report owner 'R. Calloway' --demo\n  tuckup report owner 'R. Calloway' --month 2027-02 --currency EUR --rate 24.50",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage(c.CommandPath()+" with the owner's name", "%s takes the owner's name and nothing else", c.CommandPath())
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return a.letter(c, args[0], out, month, f) },
	}
	a.planFlags(c)
	c.Flags().StringVar(&out, "out", ".", "folder to write the page into; it is created if needed")
	c.Flags().StringVar(&month, "month", "", "the month whose work it tells, like 2027-02 (default: the month that holds today)")
	f.rateFlags(c)
	return c
}

func (a *app) letter(c *cobra.Command, owner, out, month string, f accountFlags) error {
	terms, err := a.terms(c, f)
	if err != nil {
		return err
	}
	src, opt, err := a.prepareShown(c)
	if err != nil {
		return err
	}
	if owner, err = src.kennel.FindOwner(owner); err != nil {
		return err
	}
	first := opt.On.Time()
	if month != "" {
		if first, err = time.Parse("2006-01", month); err != nil || kennel.NewDate(first.Year(), first.Month(), 1) <= 0 {
			return usage("--month with a month like 2027-02", "--month %q is not a month", month)
		}
	}
	terms.From = kennel.NewDate(first.Year(), first.Month(), 1)
	terms.To = kennel.NewDate(first.Year(), first.Month()+1, 1).AddDays(-1)
	account, err := accountOf(src.kennel, workOf(src.state), terms)
	if err != nil {
		return err
	}
	if err := makeFolder(out); err != nil {
		return err
	}
	r, _, err := a.shownOf(c.Context(), src, opt)
	if err != nil {
		return err
	}
	a.tellBeside(r)
	return a.writePage(filepath.Join(out, pageName("owner", owner+" "+first.Format("2006-01"))), func(w io.Writer) error {
		return html.Letter(w, r, owner, account.BillOf(owner), a.photos())
	})
}
