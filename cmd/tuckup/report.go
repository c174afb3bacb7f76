package main

import (
	"context"
	"fmt"
	"hash/fnv"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/html"
)

func (a *app) reportCommand() *cobra.Command {
	c := &cobra.Command{
		Use:     "report",
		Short:   "Write pages to print or to send: of a dog, for an owner, of the season",
		Long:    "report writes a page that is one file: nothing in it is fetched from anywhere, and it can be printed.",
		Example: "  tuckup report dog Sorrel --demo --out .\n  tuckup report season --demo --out .",
		Args:    noCommand,
		RunE:    func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(
		a.pageCommand(&cobra.Command{
			Use:   "dog NAME",
			Short: "Write the page of one dog: its coat drawn area by area, layers, shows and plan",
			Long: "report dog draws the coat area by area with its state, shows the ages of the hair, the shows with their readiness, the " +
				"work of the next 8 weeks, and what was written down.",
			Example: "  tuckup report dog Sorrel --demo\n  tuckup report dog Sorrel --kennel thornfield.yaml --out .",
		}, pageKind{
			name: "dog", of: "the dog's name", find: findDog, write: html.Dog,
			about: func(_ optimize.Result, name string) []string { return []string{name} },
		}),
		a.pageCommand(&cobra.Command{
			Use:   "dogs OWNER",
			Short: "Write the pages of all dogs of an owner, what to enter, and the hours spent this month",
			Long: "report dogs writes the pages of the owner's dogs without your own notes, and the hours spent on them in the month that " +
				"holds today: what you work from. What you send is \"tuckup report owner\": a page a dog.",
			Example: "  tuckup report dogs 'R. Calloway' --demo",
		}, pageKind{
			name: "dogs", of: "the owner's name", find: kennel.Kennel.FindOwner, write: html.Owner, about: dogsOfOwner,
		}),
		a.letterCommand(),
		a.homeCommand(),
		a.pageCommand(&cobra.Command{
			Use:   "season",
			Short: "Write the whole season as one page",
			Long: "report season writes how good the plan is, what cannot be met, the weeks in which an hour is dear, readiness, workload, " +
				"every dog, and the facts and sources behind the figures.",
			Example: "  tuckup report season --demo\n  tuckup report season --kennel thornfield.yaml --out .",
		}, pageKind{name: "season", write: func(w io.Writer, r optimize.Result, _ string, x html.Records) error {
			return html.Season(w, r, x)
		}, about: func(r optimize.Result, _ string) []string { return r.Kennel.DogNames() }}),
	)
	return c
}

// pageKind is a kind of page: what word it takes, whom that means and how the page is written. of is empty and find nil
// where it takes none. about are the dogs that it is about.
type pageKind struct {
	name  string
	of    string
	find  func(kennel.Kennel, string) (string, error)
	write func(w io.Writer, r optimize.Result, name string, x html.Records) error
	about func(r optimize.Result, name string) []string
}

func dogsOfOwner(r optimize.Result, owner string) (dogs []string) {
	for _, d := range r.Kennel.Dogs {
		if d.Owner == owner {
			dogs = append(dogs, d.Name)
		}
	}
	return dogs
}

func findDog(k kennel.Kennel, name string) (string, error) {
	return kennel.Match("dog", name, k.DogNames())
}

// pageCommand completes a command that writes a page into a folder.
func (a *app) pageCommand(c *cobra.Command, kind pageKind) *cobra.Command {
	var (
		out    string
		advice bool
	)
	c.Args = func(c *cobra.Command, args []string) error {
		switch {
		case kind.of == "":
			return noWords(c, args)
		case len(args) != 1:
			return usage(c.CommandPath()+" with "+kind.of, "%s takes %s and nothing else", c.CommandPath(), kind.of)
		}
		return nil
	}
	c.RunE = func(c *cobra.Command, args []string) error {
		src, opt, err := a.prepareShown(c)
		if err != nil {
			return err
		}
		name := ""
		if kind.find != nil {
			if name, err = kind.find(src.kennel, args[0]); err != nil {
				return err
			}
		}
		if err := makeFolder(out); err != nil {
			return err
		}
		r, whole, err := a.shownOf(c.Context(), src, opt)
		if err != nil {
			return err
		}
		a.tellBeside(r)
		records := a.records()
		if advice {
			entries, err := a.advice(c.Context(), src, whole, func(dog string) bool { return slices.Contains(kind.about(r, name), dog) })
			if err != nil {
				return err
			}
			records.Advice = html.AdviceOn(entries, r.On)
		}
		return a.writePage(filepath.Join(out, pageName(kind.name, name)), func(w io.Writer) error { return kind.write(w, r, name, records) })
	}
	a.planFlags(c)
	c.Flags().StringVar(&out, "out", ".", "folder to write the page into; it is created if needed")
	c.Flags().BoolVar(&advice, "advice", kind.name == "dogs", "add advice on which shows to enter: each is planned with and without the dog, which takes a while")
	return c
}

// writePage writes a page into a file and prints the file's name.
func (a *app) writePage(file string, page func(io.Writer) error) error {
	if err := a.writeFiles([]outFile{{file, page}}); err != nil {
		return err
	}
	_, err := fmt.Fprintln(a.out, file)
	return err
}

// advice is the advice on the dogs that of picks, against the plan that is shown.
func (a *app) advice(ctx context.Context, src source, plan optimize.Result, of func(dog string) bool) ([]optimize.Entry, error) {
	if plan.Solved == nil && src.state.Plan.Result != nil {
		use, err := src.inUse()
		if err != nil {
			return nil, err
		}
		plan = *use
	}
	return optimize.EntriesOf(ctx, plan, of)
}

// records are what was written down about the dogs of a plan.
func (a *app) records() html.Records {
	x := html.Records{Private: true, Work: workOf(a.used.state)}
	for _, m := range a.used.state.Measures {
		x.Measures = append(x.Measures, m.Measure)
	}
	x.Photos = a.photos()
	return x
}

// photos are the newest pictures of each dog, as parts of the page; of a kennel file there are none.
func (a *app) photos() (all []html.Photo) {
	shown := map[string]int{}
	of := a.used.state.PhotosOf()
	var photos []html.Photo
	for i, p := range a.used.state.Photos {
		photos = append(photos, html.Photo{Photo: p.Photo, Of: of[i]})
	}
	slices.SortStableFunc(photos, func(x, y html.Photo) int { return int(y.On - x.On) })
	for _, p := range photos {
		if shown[p.Dog]++; shown[p.Dog] > html.MostPhotos {
			continue
		}
		data, err := book.ReadPhoto(a.used.book, p.Digest)
		if err != nil {
			a.log.Warn().Err(err).Msg("a picture can't be shown")
		}
		p.Src = html.Inside(data)
		all = append(all, p)
	}
	return all
}

// pageName is the name of a page's file: letters and digits of any script; a name that has others gets a number that
// tells it apart.
func pageName(kind, name string) string {
	if name == "" {
		return kind + ".html"
	}
	var b strings.Builder
	plain := true
	for _, r := range strings.ToLower(name) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
			plain = plain && (r == ' ' || r == '.' || r == '-')
		default:
			plain = plain && (r == ' ' || r == '.')
		}
		if b.Len() > longestName {
			plain = false
			break
		}
	}
	s := kind + "-" + strings.TrimSuffix(b.String(), "-")
	if !plain || b.Len() == 0 {
		h := fnv.New32a()
		h.Write([]byte(name))
		s = fmt.Sprintf("%s-%08x", strings.TrimSuffix(s, "-"), h.Sum32())
	}
	return s + ".html"
}

// longestName is the most bytes of a person's or dog's name in the name of a file.
const longestName = 60
