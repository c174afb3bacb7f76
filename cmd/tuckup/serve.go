package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tuckup/kennel/book"
	"tuckup/reports/desk"
	"tuckup/reports/desk/guard"
)

// serveFlags are what the flags say of the desk.
type serveFlags struct {
	listen string
	lan    bool
	plain  bool // without encryption
	browse bool // open the browser on the desk, or on the one that is open already
}

// usualServe is what the flags say when none is given.
func usualServe(browse bool) serveFlags {
	return serveFlags{listen: usualAddress, browse: browse}
}

// usualAddress is where the desk listens.
const usualAddress = "127.0.0.1:8420"

// anyPort lets the machine choose a port.
const anyPort = "127.0.0.1:0"

func (a *app) serveCommand() *cobra.Command {
	var f serveFlags
	c := &cobra.Command{
		Use:   "serve",
		Short: "Open your book in the browser, and on a phone at the table",
		Long: "serve answers the browser of this machine until it is interrupted: the sheet of today, the week, the string, the shows, the " +
			"hours and the history, all on the book. Plans are made in the background. Nobody else can open it: with --lan a phone " +
			"on the same network can, once it is paired with the code that is printed. What goes over that network is encrypted with a certificate of the " +
			"desk's own, which a phone is asked to trust once; with --unencrypted it is not.",
		Example: "  tuckup serve\n  tuckup serve --demo\n  tuckup serve --listen 127.0.0.1:8420 --lan",
		Args:    noWords,
		RunE:    func(c *cobra.Command, _ []string) error { return a.serve(c, f) },
	}
	a.serveFlags(c, &f)
	return c
}

func (a *app) serveFlags(c *cobra.Command, f *serveFlags) {
	a.bookFlag(c)
	a.patternsFlag(c)
	a.todayFlag(c)
	a.seedFlags(c)
	c.Flags().BoolVar(&a.flags.demo, "demo", false, "the invented string that comes with the program, in a book that is thrown away afterwards")
	c.Flags().StringVar(&f.listen, "listen", usualAddress, "address to listen on; port 0 picks a free port")
	c.Flags().BoolVar(&f.lan, "lan", false, "let paired phones on your network in as well")
	c.Flags().BoolVar(&f.plain, "unencrypted", false, "with --lan: without a certificate; who listens to your network can read all of it")
}

func (a *app) serve(c *cobra.Command, f serveFlags) error {
	ctx, end := context.WithCancel(c.Context())
	defer end()
	ps, err := a.readPatterns()
	if err != nil {
		return err
	}
	if err := a.onlyOne(); err != nil {
		return err
	}
	live, err := a.readLive(c)
	if err != nil {
		return err
	}
	if a.flags.demo {
		dir, book, err := demoBook()
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir) //nolint:errcheck // it lies in the folder for what may go
		a.flags.book = book
	}
	path, err := a.bookPath()
	if err != nil {
		return err
	}
	hold, free := a.claimFor(path)
	defer hold.drop()
	if !free && f.browse {
		return a.openAgain(ctx, path)
	}
	bookOpt := a.bookOptions(ps)
	bookOpt.Create = true
	b, err := book.Open(ctx, path, bookOpt)
	if err != nil {
		return err
	}
	defer b.Close() //nolint:errcheck // every change is on the disk when it is acknowledged
	if a.flags.demo {
		if err := fillDemo(ctx, b); err != nil {
			return err
		}
	}
	if why := b.ReadOnly(); why != nil {
		a.say("the book can be read, but nothing can be written in it: "+why.Error(), tryOf(why))
	}
	key, err := a.calendarKey(b.Path())
	if err != nil {
		return err
	}
	if f.browse && !c.Flags().Changed("listen") {
		f.listen = freeAddress(ctx)
	}
	door, err := a.openDoor(ctx, f, key)
	if err != nil {
		return err
	}
	defer door.listener.Close() //nolint:errcheck // closed before, or nobody was answered yet
	var phones desk.Phones
	if f.lan {
		phones = door.guard
	}
	m := bookDesk{a, c, ps, live}
	made := m.options(b, key)
	made.Phones = phones
	made.Close = func(after time.Duration) { time.AfterFunc(after, end) }
	if a.flags.demo {
		made.MadeUp, made.Today, made.SetSettings = true, m.demoDay, nil
	} else {
		sample := &madeUp{m: m, home: "http://" + door.hosts[0] + "/"}
		defer sample.end()
		made.Sample = sample.open
	}
	d, err := desk.New(made)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := hold.tell(door.hosts[0]); err != nil {
		a.say(fmt.Sprintf("a second start will not find this desk: %v", err), "")
	}
	if f.browse {
		address := "http://" + door.hosts[0] + "/"
		go func() {
			if err := a.browse(address); err != nil {
				a.say(fmt.Sprintf("no browser could be opened: %v", err), "to open "+address+" in your browser yourself")
			}
		}()
	}
	return a.answer(ctx, hold.answers(d), door)
}

// door is where browsers come in, and the guard before it.
type door struct {
	listener net.Listener
	hosts    []string
	guard    *guard.Guard
}

// openDoor opens the address that the flags name. Who comes before answer is called waits.
func (a *app) openDoor(ctx context.Context, f serveFlags, key string) (door, error) {
	if f.plain && !f.lan {
		return door{}, usage("--lan --unencrypted, or neither", "--unencrypted is about other machines, and without --lan none may ask")
	}
	l, hosts, err := guard.Listen(ctx, f.listen, f.lan)
	if err != nil {
		return door{}, err
	}
	encryption, err := a.encryption(f, hosts)
	if err != nil {
		l.Close() //nolint:errcheck // nobody was answered yet
		return door{}, err
	}
	g, err := guard.New(guard.Options{
		Now: a.now, Random: rand.Reader, Hosts: hosts, LAN: f.lan, Encryption: encryption, CalendarPath: desk.CalendarPath, CalendarKey: key, Larger: desk.Larger(),
		Announce: a.announce,
		Paired:   func(from string) { fmt.Fprintf(a.out, "paired with %s\n", harmless(from)) },
		Trouble:  func(stack string) { a.log.Error().Str("at", stack).Msg("a page failed inside") },
	})
	if err != nil {
		l.Close() //nolint:errcheck // nobody was answered yet
		return door{}, err
	}
	return door{l, hosts, g}, nil
}

// answer lets browsers ask until the context ends.
func (a *app) answer(ctx context.Context, pages http.Handler, at door) error {
	if _, err := fmt.Fprintf(a.out, "The desk is open at http://%s/\nCtrl-C closes it.\n", at.hosts[0]); err != nil {
		return err
	}
	if err := at.guard.Open(); err != nil {
		return err
	}
	return at.guard.Serve(ctx, at.listener, pages, guard.DefaultTimes())
}

// announce tells a pairing code.
func (a *app) announce(p guard.Pairing) {
	if len(p.Trust) > 0 {
		fmt.Fprintf(a.out, "Once on each phone, to trust this desk, open on it:\n")
		for _, u := range p.Trust {
			fmt.Fprintf(a.out, "  %s\n", u)
		}
		fmt.Fprintf(a.out, "and compare the fingerprint: %s\n", p.Fingerprint)
		fmt.Fprintln(a.out, "It does not protect from who has the desk's key file, or from who holds a paired phone.")
	}
	fmt.Fprintf(a.out, "To pair a phone, open one of these on it before %s:\n", p.Until.Format("15:04"))
	for _, u := range p.URLs {
		fmt.Fprintf(a.out, "  %s\n", u)
	}
	fmt.Fprintf(a.out, "or type the code %s there.\n", p.Code)
	if len(p.URLs) > 0 && isTerminal(a.out) {
		if err := guard.WriteQR(a.out, p.URLs[0]); err != nil {
			a.log.Debug().Err(err).Msg("the address was too long for a picture")
		}
	}
}

// calendarKey is the secret in the calendar's address. It lies beside the book, so that phones that follow the calendar
// keep their address; that of the demo goes with it. Where it can't be read or written there, it holds while the desk is
// open.
func (a *app) calendarKey(bookPath string) (string, error) {
	path := strings.TrimSuffix(bookPath, filepath.Ext(bookPath)) + ".calendar-key"
	data, err := os.ReadFile(path)
	const fewest = 20 // letters: what is shorter was not written by this program
	if key := strings.TrimSpace(string(data)); err == nil && len(key) >= fewest {
		return key, nil
	}
	key, e := guard.NewKey(rand.Reader)
	if e != nil {
		return "", e
	}
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		err = os.WriteFile(path, []byte(key+"\n"), 0o600)
	}
	if err != nil {
		a.say(fmt.Sprintf("the calendar's address can't be kept, it changes when the desk is opened again: %v", err), "")
	}
	return key, nil
}
