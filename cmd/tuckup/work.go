package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/list"
	"tuckup/reports/say"
)

func (a *app) workCommand() *cobra.Command {
	c := group("work", "Write down the work: add, done, drop, list",
		"  tuckup work add Sorrel back 1/17 ribs 1/12, 50 min\n  tuckup work done Sorrel\n  tuckup work list")
	c.AddCommand(a.workAddCommand(), a.workDoneCommand(), workDropCommand(a.inBook(false)), a.workListCommand())
	return c
}

// workFlags are what the flags say of work.
type workFlags struct {
	on, hands, note, duty, minutes string
	stopped                        bool
	leave, seen                    []string
}

func (f *workFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.on, "on", "", "the day of the work (default: today)")
	c.Flags().StringVar(&f.minutes, "minutes", "", "how long it took with its set-up, like 50 or 1h10")
	c.Flags().StringVar(&f.hands, "hands", "", "who worked (default: the first hands)")
	c.Flags().StringVar(&f.note, "note", "", "your own note; owners don't see it")
	c.Flags().BoolVar(&f.stopped, "stopped", false, "stopped early")
	c.Flags().StringArrayVar(&f.seen, "seen", nil, "the long layer of an area as it was seen before the pull: \"back thin\", with none, thin, as expected or thick; may be given more than once")
}

// complete fills in what the flags say of work.
func (f *workFlags) complete(c *cobra.Command, k kennel.Kennel, today kennel.Date, w *kennel.Work) (err error) {
	w.On, w.Stopped, w.Note = today, f.stopped, f.note
	if c.Flags().Changed("on") {
		if w.On, err = dateFlag("on", f.on); err != nil {
			return err
		}
	}
	if w.On > today {
		return usage("the day of the work, or --today with a later day", "work on %s can't be written down on %s, before it is done", w.On, today)
	}
	if c.Flags().Changed("minutes") {
		if w.Minutes, err = kennel.ParseMinutes(f.minutes); err != nil {
			return err
		}
	}
	if len(k.Hands) > 0 || f.hands != "" {
		i, err := k.FindHands(f.hands)
		if err != nil {
			return err
		}
		w.Hands = k.Hands[i].Name
	}
	return nil
}

func (a *app) workAddCommand() *cobra.Command {
	var f workFlags
	e := a.inBook(false)
	c := &cobra.Command{
		Use:   "add DOG AREA SHARE ...",
		Short: "Write down what was pulled, or a duty that was done",
		Long: "add writes down one stretch of work, as it is said: the dog, then each area with the share that was pulled, and how " +
			"long it took. The coat moves: what was pulled comes off the longest layer and becomes a layer of its own. A session " +
			"that was agreed for the day, or earlier in its week, is spent.",
		Example: "  tuckup work add Sorrel back 1/17 ribs 1/12, 50 min\n  tuckup work add Sorrel back 1/17 ribs 1/12 --minutes 50 --on 2027-01-05\n  tuckup work add Moss --duty nails --minutes 10",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		ps, err := a.readPatterns()
		if err != nil {
			return err
		}
		return e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			said, err := kennel.ParseWork(args, s.Kennel.DogNames())
			if err != nil {
				return "", err
			}
			w := kennel.Work{Dog: said.Dog, Areas: kennel.PulledOnly(said.Areas), Minutes: said.Minutes}
			if err := f.complete(c, s.Kennel, today, &w); err != nil {
				return "", err
			}
			if _, err := f.look(*s, ps, &w, w.Areas); err != nil {
				return "", err
			}
			if f.duty != "" && len(w.Areas) > 0 {
				return "", usage("a line of work for each", "a duty and areas can't be one stretch of work")
			}
			return f.record(s, w, f.duty, ps)
		})
	}
	f.add(c)
	c.Flags().StringVar(&f.duty, "duty", "", "a duty of the dog that was done, instead of areas")
	e.flags(c)
	return c
}

// record writes work down and says so. A duty may be the care that the dog's pattern brings.
func (f *workFlags) record(s *book.State, w kennel.Work, duty string, ps kennel.Patterns) (string, error) {
	i, err := s.Kennel.FindDog(w.Dog)
	if err != nil {
		return "", err
	}
	d := s.Kennel.Dogs[i]
	d = d.Recordable(ps[d.Pattern])
	if duty != "" {
		var minutes kennel.Minutes
		if w.Duty, minutes, err = d.MatchDuty(duty); err != nil {
			return "", err
		}
		if w.Minutes == 0 {
			w.Minutes = minutes
		}
	}
	switch {
	case w.Minutes == 0:
		return "", usage("--minutes 50, or \"50 min\" behind the areas", "nothing says how long the work on %s took", w.Dog)
	case w.Duty == "" && len(w.Areas)+len(w.Looks) == 0:
		return "", usage("areas with shares, like back 1/17, or --duty NAME", "nothing says what was done on %s", w.Dog)
	}
	s.Record(w)
	return fmt.Sprintf("wrote down work on %s on %s", w.Dog, w.On), nil
}

func (a *app) workDoneCommand() *cobra.Command {
	var f workFlags
	e := a.inBook(false)
	c := &cobra.Command{
		Use:   "done DOG [AREA SHARE ...]",
		Short: "Write down that the agreed session, or a duty, was done, as agreed or with differences",
		Long: "done takes the dog's session that was agreed for the day (else an earlier one of its week): areas that are named " +
			"were pulled by the share that is given, --leave names those that were left, all others were done as agreed. --seen says how " +
			"the long layer of an area was seen before it was pulled, and the share to take follows: none leaves the area, thin takes half, thick " +
			"more, as far as hair is long and the rules near a show allow. With --dry-run it says the shares before you pull. With --duty it is a duty that " +
			"was done: one of the dog's own, one that its pattern brings, or several with commas between.",
		Example: "  tuckup work done Sorrel\n  tuckup work done Sorrel back 1/20 --leave ribs --minutes 40 --stopped\n" +
			"  tuckup work done Sorrel --seen \"back thin\" --seen \"ribs none\" --dry-run\n  tuckup work done Sorrel --duty \"legs and beard\"",
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		ps, err := a.readPatterns()
		if err != nil {
			return err
		}
		var takes []string
		err = e.carry(c, func(s *book.State, today kennel.Date) (string, error) {
			said, err := kennel.ParseWork(args, s.Kennel.DogNames())
			if err != nil {
				return "", err
			}
			w := kennel.Work{Dog: said.Dog}
			if err := f.complete(c, s.Kennel, today, &w); err != nil {
				return "", err
			}
			if f.duty != "" {
				if len(said.Areas)+len(f.leave)+len(f.seen) > 0 {
					return "", usage("a line of work for each", "a duty and areas can't be one stretch of work")
				}
				w.Minutes = max(w.Minutes, said.Minutes)
				return f.record(s, w, f.duty, ps)
			}
			agreed, err := s.AgreedFor(w.Dog, w.On)
			if err != nil {
				return "", err
			}
			if !c.Flags().Changed("on") {
				w.On = agreed.On
			}
			if !c.Flags().Changed("hands") && agreed.Hands != "" {
				w.Hands = agreed.Hands
			}
			if w.Minutes == 0 {
				w.Minutes = max(said.Minutes, 0)
			}
			if w.Minutes == 0 {
				w.Minutes = agreed.Minutes
			}
			if w.Areas, err = f.differing(agreed.Areas, said.Areas); err != nil {
				return "", err
			}
			if takes, err = f.look(*s, ps, &w, said.Areas); err != nil {
				return "", err
			}
			return f.record(s, w, "", nil)
		})
		if err != nil {
			return err
		}
		for _, t := range takes {
			fmt.Fprintln(a.err, t)
		}
		return nil
	}
	f.add(c)
	c.Flags().StringVar(&f.duty, "duty", "", "a duty of the dog that was done, instead of its session")
	c.Flags().StringArrayVar(&f.leave, "leave", nil, "an agreed area that was left out; may be given more than once")
	e.flags(c)
	return c
}

// look writes down how long layers were seen, and pulls of the areas what follows from it; those whose shares were said stay. It returns what
// follows, a line for each area.
func (f *workFlags) look(s book.State, ps kennel.Patterns, w *kennel.Work, said []kennel.Pulled) (takes []string, err error) {
	hair := s.LongHair(ps, w.Dog, w.On)
	for _, words := range f.seen {
		area, long, err := kennel.ParseLook(words)
		if err != nil {
			return nil, err
		}
		h, there := hair[area]
		switch {
		case !there:
			return nil, usage("an area of the dog that is pulled", "--seen %q: %s has no long layer on the %s", words, w.Dog, area)
		case slices.ContainsFunc(w.Looks, func(x kennel.Look) bool { return x.Area == area }):
			return nil, usage("--seen once for each area", "--seen %q: the %s appears twice", words, area)
		}
		w.Looks = append(w.Looks, kennel.Look{Area: area, Long: long, Share: h.Seen(long)})
		i := slices.IndexFunc(w.Areas, func(p kennel.Pulled) bool { return p.Area == area })
		if i < 0 || slices.ContainsFunc(said, func(p kennel.Pulled) bool { return p.Area == area }) {
			continue
		}
		planned := w.Areas[i].Share
		w.Areas[i].Share = h.Take(long, planned)
		takes = append(takes, fmt.Sprintf("%s %s: %s", area, long, say.Take(planned, w.Areas[i].Share)))
	}
	w.Areas = kennel.PulledOnly(w.Areas)
	return takes, nil
}

// differing is what was agreed with the areas that were said to be otherwise, and without those that were left or of which
// nothing was pulled.
func (f *workFlags) differing(agreed, said []kennel.Pulled) ([]kennel.Pulled, error) {
	all := slices.Clone(agreed)
	for _, p := range said {
		if i := slices.IndexFunc(all, func(o kennel.Pulled) bool { return o.Area == p.Area }); i >= 0 {
			all[i] = p
		} else {
			all = append(all, p)
		}
	}
	all = kennel.PulledOnly(all)
	for _, name := range f.leave {
		area, err := kennel.MatchArea(name)
		if err != nil {
			return nil, err
		}
		n := len(all)
		all = slices.DeleteFunc(all, func(p kennel.Pulled) bool { return p.Area == area })
		if len(all) == n {
			return nil, usage("an area that was agreed", "--leave %q was not agreed on", name)
		}
	}
	return all, nil
}

func workDropCommand(e editor) *cobra.Command {
	c := &cobra.Command{
		Use:     "drop NUMBER",
		Short:   "Remove work written down by mistake; the coat goes back to what it was",
		Example: "  tuckup work drop 12",
		Args:    oneName,
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		return e.carry(c, func(s *book.State, _ kennel.Date) (string, error) {
			var id int64
			if _, err := fmt.Sscanf(args[0]+"\n", "%d\n", &id); err != nil || !s.DropWork(id) {
				return "", usage("tuckup work list for the numbers", "there is no work %q", args[0])
			}
			return fmt.Sprintf("dropped work %d", id), nil
		})
	}
	e.flags(c)
	return c
}

func (a *app) workListCommand() *cobra.Command {
	var (
		dog string
		n   int
	)
	c := &cobra.Command{
		Use:   "list",
		Short: "List the work done, and this week's beside what was agreed",
		Long: "list prints the work written down, the newest first. The text begins with this week: what was agreed on for " +
			"each dog and what was done.",
		Example: "  tuckup work list\n  tuckup work list --dog Sorrel --format csv\n  tuckup work list --on 2027-01-10",
		Args:    noWords,
	}
	c.RunE = func(c *cobra.Command, _ []string) error {
		src, on, err := a.told(c)
		if err != nil {
			return err
		}
		told, err := workTold(src, on, dog, n)
		if err != nil {
			return err
		}
		return a.write(writers{
			text: func(w io.Writer) error { return list.Work(w, told, a.look()) },
			json: func(w io.Writer) error { return list.WorkJSON(w, told) },
			csv:  func(w io.Writer) error { return list.WorkCSV(w, told) },
		})
	}
	a.sourceFlags(c)
	a.formatFlag(c)
	c.Flags().StringVar(&dog, "dog", "", "only this dog")
	c.Flags().IntVar(&n, "last", 0, "only this many of the newest; 0 = all")
	return c
}

func workTold(src source, on kennel.Date, dog string, n int) (told list.WorkDone, err error) {
	if dog != "" {
		i, err := src.state.Kennel.FindDog(dog)
		if err != nil {
			return told, err
		}
		dog = src.state.Kennel.Dogs[i].Name
	}
	var agreed []kennel.Session
	var done []kennel.Work
	for _, x := range src.state.Sessions {
		if dog == "" || x.Dog == dog {
			agreed = append(agreed, x.Session)
		}
	}
	for _, w := range src.state.Work {
		if dog == "" || w.Dog == dog {
			done = append(done, w.Work)
			told.Rows = append(told.Rows, list.WorkRow{ID: w.ID, Work: w.Work})
		}
	}
	told.Day = on
	told.Week = kennel.WeekDone(src.state.Kennel, src.patterns, agreed, done, on)
	slices.SortStableFunc(told.Rows, func(a, b list.WorkRow) int {
		if a.On != b.On {
			return int(b.On - a.On)
		}
		return int(b.ID - a.ID)
	})
	if n > 0 {
		told.Rows = told.Rows[:min(n, len(told.Rows))]
	}
	return told, nil
}
