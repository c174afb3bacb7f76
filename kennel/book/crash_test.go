package book

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

var crashRounds = flag.Int("crashes", 40, "how often a writer is killed in the midst of its changes")

// crashEnv holds the path of the book that this very program, as a child, changes until it is killed.
const crashEnv = "TUCKUP_TEST_CRASH"

func TestMain(m *testing.M) {
	if path := os.Getenv(crashEnv); path != "" {
		if err := changeForEver(path); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// changeForEver makes one change after the other and says the number of each when it is acknowledged.
func changeForEver(path string) error {
	ctx := context.Background()
	opt := options()
	opt.stage = stopping()
	b, err := Open(ctx, path, opt)
	if err != nil {
		return err
	}
	if opt.stage != nil { // a change is larger than what is kept in memory, so that some of it is written before the commit
		b.db.SetMaxOpenConns(1)
		if _, err := b.db.Exec("PRAGMA cache_size = 10"); err != nil {
			return err
		}
	}
	v, err := b.Version(ctx)
	if opt.stage != nil {
		daily(b, v)
	}
	for err == nil {
		if v, err = nth(b, v); err == nil {
			fmt.Println(v)
		}
	}
	return err
}

// nth makes the change that follows on change v: always the same on the same book. Some touch many rows of many tables,
// some take back, some only add a line.
func nth(b *Book, v int64) (int64, error) {
	ctx := context.Background()
	on := kennel.NewDate(2027, 1, 4).AddDays(int(v))
	once := Once{Key: changeKey(v + 1), Answer: func(d Done) string { return fmt.Sprint(d.Version) }}
	if v%7 == 6 {
		_, done, err := b.UndoOnce(ctx, v, once)
		return done.Version, err
	}
	done, err := b.CarryOnce(ctx, v, once, func(s *State) (string, error) {
		switch name := fmt.Sprint("Dog ", v); {
		case len(s.Kennel.Dogs) == 0:
			*s = later(len(migrations()))
			s.Kennel.Weeks = kennel.Weeks(4 + v%100)
		case v%31 == 30:
			*s = State{Kennel: kennel.Kennel{Name: fmt.Sprint("Emptied ", v)}}
		case v%3 == 1: // hundreds of pages, so that a kill finds it half written
			s.Measures = nil
			for n := range 400 {
				s.Measures = append(s.Measures, Measure{Measure: kennel.Measure{
					Dog: s.Kennel.Dogs[0].Name, On: on, Area: kennel.AreaBack, Length: kennel.Millimetres(1 + n), Note: strings.Repeat("long ", 200),
				}})
			}
		case v%5 == 0:
			d := keptState().Kennel.Dogs[0]
			d.Name, d.Born = name, on-900
			s.Kennel.Dogs = append(s.Kennel.Dogs, d)
			s.Kennel.Shows[0].Dogs = append(s.Kennel.Shows[0].Dogs, name)
			s.Looked(name, AllAreas, on)
		case v%5 == 1:
			for i := range s.Kennel.Dogs {
				s.Kennel.Dogs[i].Priority = float64(v)
				s.Kennel.Dogs[i].All = append(s.Kennel.Dogs[i].All[:0:0], kennel.Layer{Share: 0.5, Pulled: on})
			}
		case v%5 == 2:
			for _, d := range s.Kennel.Dogs {
				s.Work = append(s.Work, Work{Work: kennel.Work{Dog: d.Name, On: on, Minutes: 45, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.05}, {Area: kennel.AreaRibs, Share: 0.06}}}})
			}
		case v%5 == 3 && len(s.Kennel.Dogs) > 3:
			dropDog(s, s.Kennel.Dogs[2].Name)
		default:
			s.Kennel.Name = name
		}
		return fmt.Sprint("change ", v+1), nil
	})
	return done.Version, err
}

// changeKey is the key that change n is asked for by.
func changeKey(n int64) string { return fmt.Sprint("key of change ", n) }

// keyed asks that the keys of changes up to the last are used, and not one more.
func keyed(t *testing.T, b *Book, last int64) {
	t.Helper()
	for n, want := range map[int64]bool{last: true, last + 1: false} {
		if answer, ok, err := b.Answered(context.Background(), changeKey(n)); err != nil || ok != want || ok && answer != fmt.Sprint(n) {
			t.Fatalf("the book is at change %d; the key of change %d is used: %t, answered %q (%v)", last, n, ok, answer, err)
		}
	}
}

// A writer is killed at random moments. Every change that it acknowledged is in the book with its key, at most one more
// is, none is there in part, and the book is sound.
func TestNothingIsLostOrHalfDoneWhenAWriterIsKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("many processes")
	}
	ctx := context.Background()
	random := rand.New(rand.NewPCG(1, 2))
	var (
		dir       string
		reference *Book
		at        int64 // the reference book's version
		acked     int64
		moved     int64 // the changes that the book began with, which had no key
		ahead     int   // rounds in which a change was there that was not acknowledged any more
	)
	for round := range *crashRounds {
		if round%20 == 0 { // a new book, or one of an earlier form that is brought up while it is killed
			dir, at, acked, moved = t.TempDir(), 0, 0, 0
			reference = open(t, filepath.Join(dir, "reference.db"), options())
			if round%40 == 20 {
				data, err := os.ReadFile(keptFile(1))
				if err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(filepath.Join(dir, "book.db"), data, 0o600); err != nil {
					t.Fatal(err)
				}
				if err := reference.Close(); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(filepath.Join(dir, "reference.db"), data, 0o600); err != nil {
					t.Fatal(err)
				}
				reference = open(t, filepath.Join(dir, "reference.db"), options())
				at, acked, moved = 1, 1, 1
			}
		}
		path := filepath.Join(dir, "book.db")
		if n := killed(t, path, random); n > acked {
			acked = n
		}
		b := open(t, path, options())
		got, version, err := b.Read(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if version < acked || version > acked+1 {
			t.Fatalf("round %d: the book is at change %d, acknowledged were %d", round, version, acked)
		}
		if version > acked {
			ahead++
		}
		for at < version {
			if at, err = nth(reference, at); err != nil {
				t.Fatal(err)
			}
		}
		want, _, err := reference.Read(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("round %d: after %d changes the book holds\n%+v\nnot\n%+v", round, version, got, want)
		}
		if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
			t.Fatalf("round %d: %v %v", round, wrong, err)
		}
		if version > moved {
			keyed(t, b, version)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		acked = version
	}
	t.Logf("%d rounds, %d of them with a change more than was acknowledged", *crashRounds, ahead)
}

// killed runs a writer and kills it at a random moment; it returns the last change that was acknowledged, 0 for none.
func killed(t *testing.T, path string, random *rand.Rand) (acked int64) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), crashEnv+"="+path)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	read := func() bool {
		if !lines.Scan() {
			return false
		}
		n, err := strconv.ParseInt(lines.Text(), 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		acked = n
		return true
	}
	if random.IntN(4) > 0 { // well under way; else while it opens the book
		for range 1 + random.IntN(12) {
			if !read() {
				t.Fatal("the writer ended by itself")
			}
		}
		time.Sleep(time.Duration(random.IntN(8000)) * time.Microsecond)
	} else {
		time.Sleep(time.Duration(random.IntN(80)) * time.Millisecond)
	}
	if err := c.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for read() {
	}
	_ = c.Wait() // it was killed
	return acked
}
