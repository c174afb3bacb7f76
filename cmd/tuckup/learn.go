package main

import (
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/optimize/learn"
	"tuckup/reports"
)

func (a *app) learnCommand() *cobra.Command {
	var accept bool
	c := &cobra.Command{
		Use:   "learn",
		Short: "Estimate each dog's growth and pace from the records",
		Long: "learn estimates growth from lengths, from notes of hair that was long enough to show and from how long layers were seen, and pace from the minutes of sessions, and " +
			"sets them beside what the book has. It says how many of the sessions that were agreed on were done: plans count on that. Living hair and dead hair, which comes off at once, are kept apart. It changes nothing until you say so: --accept writes what is new into the book.",
		Example: "  tuckup learn\n  tuckup learn --format json\n  tuckup learn --accept --dry-run",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			if err := a.checkFormat(); err != nil {
				return err
			}
			src, err := a.source(c.Context())
			if err != nil {
				return err
			}
			if src.book == "" && accept {
				return usage("tuckup import FILE first", "only a book remembers what was learned")
			}
			on, err := a.today(c, src)
			if err != nil {
				return err
			}
			if err := kennel.Check(src.kennel, src.patterns); err != nil {
				return src.locate(err)
			}
			src.kennel = src.kennel.InHand(on)
			opt, err := a.options(c)
			if err != nil {
				return err
			}
			dogs, err := src.learned(on, opt)
			if err != nil {
				return err
			}
			name, missed := src.kennel.Name, src.missed(on, opt)
			err = a.write(writers{
				text: func(w io.Writer) error { return reports.Learned(w, name, dogs, missed, on, a.look()) },
				json: func(w io.Writer) error { return reports.LearnedJSON(w, name, dogs, missed, on) },
				csv:  func(w io.Writer) error { return reports.LearnedCSV(w, dogs, missed) },
			})
			if err != nil || !accept {
				return err
			}
			return a.acceptLearned(c.Context(), src, dogs)
		},
	}
	a.sourceFlags(c)
	a.formatFlag(c)
	c.Flags().BoolVar(&accept, "accept", false, "write what is new into the book")
	a.dryRunFlag(c)
	return c
}

// learned is what the book's records up to the day tell of the dogs in hand, beside the settings; a kennel file has none.
func (s *source) learned(on kennel.Date, opt optimize.Options) ([]learn.Dog, error) {
	r := learn.Records{Pick: opt.Pick}
	s.state.EachWork(s.patterns, on, func(w kennel.Work, before kennel.Dog, known kennel.Work) {
		done := learn.Session{Work: w, Dead: map[kennel.AreaName]kennel.Share{}}
		for _, x := range known.Areas {
			done.Dead[x.Area] = learn.Dead(before, s.patterns[before.Pattern], x, w.On)
		}
		r.Work = append(r.Work, done)
		for _, x := range known.Looks {
			p := s.patterns[before.Pattern]
			if a, ok := p.Area(x.Area); ok {
				r.Looks = append(r.Looks, learn.Look{Look: x, Dog: w.Dog, On: w.On, Layers: before.LayersOf(a)})
			}
		}
	})
	for _, x := range s.state.Showables {
		if x.On <= on {
			r.Showables = append(r.Showables, x.Showable)
		}
	}
	coats := map[kennel.Date]kennel.Kennel{}
	for _, m := range s.state.Measures {
		if m.On > on {
			continue
		}
		before := m.On.AddDays(-1) // a rule is laid on before pulling begins
		k, ok := coats[before]
		if !ok {
			k = s.state.AsPulled(s.patterns, before)
			coats[before] = k
		}
		l := learn.Length{Measure: m.Measure}
		if i, err := k.FindDog(m.Dog); err == nil {
			l.Pulled, _ = learn.Longest(k.Dogs[i], m.Area, m.On)
		}
		r.Lengths = append(r.Lengths, l)
	}
	return learn.Fit(s.kennel, s.patterns, r)
}

// missed is the part of the sessions agreed on for days gone by that were not done, beside the setting.
func (s *source) missed(on kennel.Date, opt optimize.Options) learn.Estimate {
	var a learn.Agreed
	for _, x := range s.state.Sessions {
		if x.On >= on {
			continue
		}
		if a.Sessions++; x.Work != 0 {
			a.Done++
		}
	}
	return learn.Missed(a, opt.Missed)
}

// acceptLearned writes the factors that are new into the book. Factors stay within what a kennel may have.
func (a *app) acceptLearned(ctx context.Context, src source, dogs []learn.Dog) error {
	trial := src.state
	trial.Kennel = src.state.Kennel.Clone()
	n := learn.Adopt(&trial.Kennel, dogs)
	if n == 0 {
		fmt.Fprintln(a.err, "nothing new was learned; nothing was changed")
		return nil
	}
	if a.flags.dryRun {
		fmt.Fprintf(a.err, "this would change %d factors; nothing was changed\n", n)
		return nil
	}
	b, err := a.openBook(ctx, src.patterns)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	done, err := b.Change(ctx, src.version, fmt.Sprintf("learned %d factors of growth and pace", n), func(s *book.State) error {
		learn.Adopt(&s.Kennel, dogs)
		return nil
	})
	if err != nil {
		return err
	}
	a.uncopied(done)
	fmt.Fprintf(a.err, "learned %d factors (change %d); tuckup undo takes it back\n", n, done.Version)
	return nil
}
