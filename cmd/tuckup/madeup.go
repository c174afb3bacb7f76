package main

import (
	"context"
	"crypto/rand"
	"errors"
	"os"
	"path/filepath"
	"sync"
	"time"

	"tuckup/kennel/book"
	"tuckup/kennel/text"
	"tuckup/reports/desk"
	"tuckup/reports/desk/guard"
	"tuckup/testdata/demo"
)

// madeUp is the made-up string that a desk opens beside its own book: a desk on an address of its own, on a book that goes with it. Its
// methods may be called from several goroutines.
type madeUp struct {
	m    bookDesk
	home string // address of the desk that opens it

	mu      sync.Mutex
	address string // "" = it is not open
	stop    context.CancelFunc
	over    chan struct{} // closed when it has ended, and its book is gone
}

// demoBook is a folder that is to go, and where the demo's book is in it.
func demoBook() (dir, path string, err error) {
	dir, err = os.MkdirTemp("", "tuckup-demo-*")
	return dir, filepath.Join(dir, "book.db"), err
}

// open opens it, unless it is open, and returns its address.
func (x *madeUp) open(ctx context.Context) (address string, err error) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.address != "" {
		return x.address, nil
	}
	dir, path, err := demoBook()
	if err != nil {
		return "", err
	}
	leave := []func(){func() { os.RemoveAll(dir) }} //nolint:errcheck // it lies in the folder for what may go
	undo := func() {
		for i := len(leave) - 1; i >= 0; i-- {
			leave[i]()
		}
	}
	opt := x.m.a.bookOptions(x.m.ps)
	opt.Create = true
	b, err := book.Open(ctx, path, opt)
	if err != nil {
		undo()
		return "", err
	}
	leave = append(leave, func() { b.Close() }) //nolint:errcheck // it is thrown away
	if err := fillDemo(ctx, b); err != nil {
		undo()
		return "", err
	}
	key, err := guard.NewKey(rand.Reader)
	if err != nil {
		undo()
		return "", err
	}
	at, err := x.m.a.openDoor(ctx, serveFlags{listen: anyPort}, key)
	if err != nil {
		undo()
		return "", err
	}
	run, stop := context.WithCancel(context.WithoutCancel(ctx)) // it outlives the request that opens it
	o := x.m.options(b, key)
	o.Today, o.MadeUp, o.Home = x.m.demoDay, true, x.home
	o.SetSettings = nil // the settings file is about the own string
	o.Close = func(after time.Duration) { time.AfterFunc(after, func() { x.endOf(at.hosts[0]) }) }
	d, err := desk.New(o)
	if err != nil {
		stop()
		undo()
		return "", errors.Join(err, at.listener.Close())
	}
	leave = append(leave, d.Close)
	x.address, x.stop, x.over = "http://"+at.hosts[0]+"/", stop, make(chan struct{})
	go func(over chan<- struct{}) {
		defer close(over)
		defer undo()
		if err := at.guard.Serve(run, at.listener, d, guard.DefaultTimes()); err != nil {
			x.m.a.log.Warn().Err(err).Msg("the made-up string has ended")
		}
	}(x.over)
	return x.address, nil
}

// endOf ends it if it is the one that answers at the host.
func (x *madeUp) endOf(host string) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.address == "http://"+host+"/" {
		x.stop()
		x.address = ""
	}
}

// end ends it, if it is open, and waits until its book is gone.
func (x *madeUp) end() {
	x.mu.Lock()
	over := x.over
	if x.stop != nil {
		x.stop()
		x.address = ""
	}
	x.mu.Unlock()
	if over != nil {
		<-over
	}
}

// fillDemo puts the demo into an empty book.
func fillDemo(ctx context.Context, b *book.Book) error {
	k, _, err := text.Read(demoName, demo.Kennel)
	if err != nil {
		return err
	}
	_, err = b.Change(ctx, book.AnyVersion, "opened the demo", func(s *book.State) error {
		s.Replace(k, k.PlanFrom)
		return nil
	})
	return err
}
