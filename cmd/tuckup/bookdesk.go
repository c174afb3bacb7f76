package main

import (
	"context"
	"crypto/rand"
	"slices"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/desk"
)

// bookDesk makes desks on books, with what the flags of a command say.
type bookDesk struct {
	a    *app
	c    *cobra.Command
	ps   kennel.Patterns
	live *liveSettings
}

// options are those of the desk of a book: what it asks the program for.
func (m bookDesk) options(b *book.Book, key string) desk.Options {
	a := m.a
	return desk.Options{
		Book: b, Terms: m.live.accountTerms, Patterns: m.ps, Now: a.now, Random: rand.Reader, Log: a.log, CalendarKey: key,
		Today: func(k kennel.Kennel) (kennel.Date, error) {
			return a.todayBy(m.c, "today", a.flags.today, source{state: book.State{Kennel: k}, book: b.Path()})
		},
		Plan: func(ctx context.Context, w desk.Wish) (optimize.Result, error) {
			src, opt := a.wished(m.ps, w, b.Path(), m.live.options())
			opt.TimeLimit = w.TimeLimit
			return a.planOf(ctx, src.kennel, m.ps, opt)
		},
		TimeLimit: func() float64 { return m.live.options().TimeLimit },
		Seen: func(use optimize.Result, w desk.Wish) optimize.Result {
			src := source{kennel: w.State.Kennel, patterns: m.ps, state: w.State, book: b.Path()}
			opt := m.live.options()
			src.lookAt(w.On, &opt)
			return optimize.Seen(use, src.now(opt))
		},
		Advise: func(ctx context.Context, w desk.Wish) ([]optimize.Entry, error) {
			src, opt := a.wished(m.ps, w, b.Path(), m.live.options())
			return optimize.Entries(ctx, src.kennel, m.ps, opt)
		},
		Bring: m.bring, Export: m.export, Learn: m.learned, Settings: m.settings, SetSettings: m.setSettings,
	}
}

// demoDay is today in the demo: what --today says, else its own first day.
func (m bookDesk) demoDay(k kennel.Kennel) (kennel.Date, error) {
	if !m.c.Flags().Changed("today") && k.PlanFrom != 0 {
		return k.PlanFrom, nil
	}
	return m.a.todayBy(m.c, "today", m.a.flags.today, source{state: book.State{Kennel: k}})
}

// wished is what a plan of the desk is made from.
func (a *app) wished(ps kennel.Patterns, w desk.Wish, path string, opt optimize.Options) (source, optimize.Options) {
	src := source{kennel: w.State.Kennel, patterns: ps, state: w.State, book: path}
	src.asOf(w.On, &opt)
	start := a.now()
	opt.Seconds = func() float64 { return a.now().Sub(start).Seconds() }
	opt.Progress, opt.Begin = w.Progress, w.Begin
	if w.Begin != nil && w.State.Plan.On == 0 {
		// Nobody agreed on days: those of the plan that is looked at are kept unless leaving them pays.
		opt.Accepted = slices.Concat(opt.Accepted, w.Begin.SessionsAhead())
	}
	return src, opt
}
