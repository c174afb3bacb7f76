package main

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tuckup/config"
	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports"
)

// accountFlags are what the flags say of an account.
type accountFlags struct {
	from, to, currency string
	rates              []string
}

func (a *app) accountCommand() *cobra.Command {
	var f accountFlags
	c := &cobra.Command{
		Use:   "account",
		Short: "Add up the work done: per owner, dog and day, in minutes and money",
		Long: "account lists the work written down in the book, by owner, dog and day, with its minutes as recorded and as " +
			"counted. The settings round_minutes and round_up say how each stretch of work is rounded. With --currency and --rate it is " +
			"charged by the hour, each stretch on its own, so that a total is the sum of its lines to the last digit.",
		Example: "  tuckup account\n  tuckup account --from 2027-01-01 --to 2027-01-31 --format csv\n" +
			"  tuckup account --currency EUR --rate 24.50 --rate Assistant=15",
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return a.account(c, f) },
	}
	a.sourceFlags(c)
	a.formatFlag(c)
	c.Flags().StringVar(&f.from, "from", "", "first day, like 2027-01-01 (default: the first of the month of --to)")
	c.Flags().StringVar(&f.to, "to", "", "last day (default: today)")
	f.rateFlags(c)
	return c
}

// rateFlags are the flags of what an hour is charged at.
func (f *accountFlags) rateFlags(c *cobra.Command) {
	c.Flags().StringVar(&f.currency, "currency", "", "currency of the rates, as ISO 4217 has it, like EUR")
	c.Flags().StringArrayVar(&f.rates, "rate", nil, "what an hour is charged at, like 24.50, or Handler=24.50 for one pair of hands; may be given more than once")
}

func (a *app) account(c *cobra.Command, f accountFlags) error {
	if err := a.checkFormat(); err != nil {
		return err
	}
	terms, err := a.terms(c, f)
	if err != nil {
		return err
	}
	src, err := a.source(c.Context())
	if err != nil {
		return err
	}
	if err := a.days(c, f, src, &terms); err != nil {
		return err
	}
	k := src.state.Kennel
	account, err := accountOf(k, workOf(src.state), terms)
	if err != nil {
		return err
	}
	return a.write(writers{
		text: func(w io.Writer) error { return reports.AccountText(w, k, account, a.look()) },
		json: func(w io.Writer) error { return reports.AccountJSON(w, k, account) },
		csv:  func(w io.Writer) error { return reports.AccountCSV(w, account) },
	})
}

// accountOf counts and charges the work; the rates' hands are found by their names.
func accountOf(k kennel.Kennel, work []kennel.Work, terms reports.Terms) (reports.Account, error) {
	for i, r := range terms.Rates {
		worked := slices.ContainsFunc(work, func(w kennel.Work) bool { return w.Hands == r.Hands })
		if r.Hands == "" || worked {
			continue
		}
		h, err := k.FindHands(r.Hands)
		if err != nil {
			return reports.Account{}, err
		}
		terms.Rates[i].Hands = k.Hands[h].Name
	}
	account, err := reports.NewAccount(k, work, terms)
	if err != nil {
		return account, usage("--currency with a code like EUR, GBP or USD", "--currency %v", err)
	}
	return account, nil
}

// days sets the days that are accounted for.
func (a *app) days(c *cobra.Command, f accountFlags, src source, terms *reports.Terms) (err error) {
	if f.to != "" {
		terms.To, err = dateFlag("to", f.to)
	} else {
		terms.To, err = a.today(c, src)
	}
	if err != nil {
		return err
	}
	first := terms.To.Time()
	terms.From = kennel.NewDate(first.Year(), first.Month(), 1)
	if f.from != "" {
		if terms.From, err = dateFlag("from", f.from); err != nil {
			return err
		}
	}
	if terms.From > terms.To {
		return usage("--from with a day up to "+terms.To.String(), "--from %s is after the last day, %s", terms.From, terms.To)
	}
	return nil
}

// terms are how work is counted and charged, by flags and settings.
func (a *app) terms(c *cobra.Command, f accountFlags) (reports.Terms, error) {
	terms, err := f.terms()
	if err != nil {
		return terms, err
	}
	values, err := a.settings(c)
	if err != nil {
		return terms, err
	}
	terms.Step, terms.Up = int(values.Get(roundMinutes)), values.Get(roundUp) == 1
	return terms, nil
}

// terms reads the rates and their currency.
func (f accountFlags) terms() (t reports.Terms, err error) {
	t.Currency = f.currency
	for _, given := range f.rates {
		hands, amount, ok := cutLast(given, "=")
		if !ok {
			hands, amount = "", given
		}
		money, err := reports.ParseMoney(amount)
		if err != nil {
			return t, usage("--rate 24.50 or --rate Handler=24.50", "--rate %v", err)
		}
		for _, r := range t.Rates {
			if r.Hands == hands {
				return t, usage("one rate for each pair of hands", "--rate %q: there is a rate for these hands already", given)
			}
		}
		t.Rates = append(t.Rates, reports.Rate{Hands: hands, AnHour: money})
	}
	switch {
	case len(t.Rates) > 0 && t.Currency == "":
		return t, usage("--currency with a code like EUR, GBP or USD", "--rate needs a currency")
	case len(t.Rates) == 0 && t.Currency != "":
		return t, usage("--rate 24.50 beside --currency", "--currency %q needs a rate", t.Currency)
	}
	return t, nil
}

func cutLast(s, separator string) (before, after string, found bool) {
	i := strings.LastIndex(s, separator)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(separator):], true
}

// workOf is the work that a book holds.
func workOf(s book.State) []kennel.Work {
	work := make([]kennel.Work, len(s.Work))
	for i, w := range s.Work {
		work[i] = w.Work
	}
	return work
}

// The settings of an account.
const (
	roundMinutes = "round_minutes"
	roundUp      = "round_up"
)

// accountSettings are settings that no plan depends on, with their defaults.
func accountSettings() map[string]float64 {
	return map[string]float64{roundMinutes: 0, roundUp: 1}
}

// describedAccountSettings says what they are.
func describedAccountSettings() []config.Setting {
	return []config.Setting{
		{Key: roundMinutes, Unit: "minutes", Low: 0, High: 60, Whole: true, About: "an account rounds each stretch of work to this many minutes; 0 leaves it as recorded"},
		{Key: roundUp, Unit: "0 or 1", Low: 0, High: 1, Whole: true, About: "an account rounds up, 1, or to the nearest, 0"},
	}
}
