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
)

var killRounds = flag.Int("kills", 16, "how often a writer is killed inside a transaction")

// stopEnv says where the child stops, so that it is killed there: a stage, and how often it is passed before.
const stopEnv = "TUCKUP_TEST_STOP"

// stopping makes the child stop where stopEnv says. At the commit it only says so and goes on, because what is to be hit
// is the writing itself.
func stopping() (stage func(string)) {
	where, after, found := strings.Cut(os.Getenv(stopEnv), " ")
	if !found {
		return nil
	}
	left, err := strconv.Atoi(after)
	if err != nil {
		panic(err)
	}
	return func(stage string) {
		if stage != where {
			return
		}
		if left > 0 {
			left--
			return
		}
		left = 1 << 30
		fmt.Println(stage)
		if stage != stageCommit {
			select {}
		}
	}
}

// daily makes the clock of a book a day later with each change, so that each copies the book first.
func daily(b *Book, version int64) {
	day := int(version)
	b.opt.Now = func() time.Time { return noon.AddDate(0, 0, day) }
	stage := b.opt.stage
	b.opt.stage = func(s string) {
		if s == stageLocked {
			day++
		}
		stage(s)
	}
}

// A writer is killed while it holds the write lock: as it takes it, with the day's copy half made, with some of its rows
// written, and while it commits. What it acknowledged is in the book, of what it did not all or nothing, the book and
// each of its copies are sound.
func TestNothingIsLostOrHalfDoneWhenAWriterIsKilledInsideATransaction(t *testing.T) {
	rounds := *killRounds
	if testing.Short() {
		rounds = 4
	}
	ctx := context.Background()
	random := rand.New(rand.NewPCG(3, 4))
	var (
		path      string
		reference *Book
		at        int64
		inside    = map[string]int{} // kills by stage, inside a transaction for certain
		late      int                // the change was acknowledged before the kill
		whole     int                // the change was there that was not acknowledged
	)
	stages := []string{stageLocked, stageCopied, stageRows, stageRows, stageCommit, stageCommit}
	for round := 0; sum(inside) < rounds; round++ {
		if round > 3*rounds {
			t.Fatalf("only %d of %d kills hit a transaction", sum(inside), round)
		}
		if round%40 == 0 {
			dir := t.TempDir()
			path, at = filepath.Join(dir, "book.db"), 0
			reference = open(t, filepath.Join(dir, "reference", "book.db"), options())
		}
		stage := stages[round%len(stages)]
		passed := random.IntN(4)
		if stage == stageRows {
			passed = random.IntN(3 * tableCount)
		}
		acked, hit, acknowledged := killedAt(t, path, stage, passed, time.Duration(random.IntN(3000))*time.Microsecond)
		switch {
		case !hit:
			t.Fatalf("round %d: the writer ended before it came to %q", round, stage)
		case acknowledged:
			late++
		default:
			inside[stage]++
		}
		acked = max(acked, at)
		b := open(t, path, options())
		got, version, err := b.Read(ctx)
		if err != nil {
			t.Fatal(err)
		}
		most := acked
		if stage == stageCommit {
			most++ // it may have been committed and not acknowledged
		}
		if version < acked || version > most {
			t.Fatalf("round %d: the book is at change %d, acknowledged were %d when it was killed at %q", round, version, acked, stage)
		}
		if version > acked {
			whole++
		}
		for at < version {
			if at, err = nth(reference, at); err != nil {
				t.Fatal(err)
			}
		}
		if want, _, err := reference.Read(ctx); err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("round %d: after %d changes the book holds\n%+v\nnot\n%+v (%v)", round, version, got, want, err)
		}
		if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
			t.Fatalf("round %d: %v %v", round, wrong, err)
		}
		copies, err := Copies(path)
		if err != nil {
			t.Fatal(err)
		}
		if len(copies) > 0 {
			if _, err := copies[0].Look(ctx, options()); err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d kills inside a transaction (%v), %d of them with the whole change there; %d came after the acknowledgement", sum(inside), inside, whole, late)
}

func sum(of map[string]int) (n int) {
	for _, x := range of {
		n += x
	}
	return n
}

// killedAt runs a writer and kills it when it has come to a stage; at the commit, a moment later. It returns the last
// change that was acknowledged (0 for none), whether the stage was come to, and whether that change was acknowledged.
func killedAt(t *testing.T, path, stage string, passed int, later time.Duration) (acked int64, hit, acknowledged bool) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), crashEnv+"="+path, fmt.Sprintf("%s=%s %d", stopEnv, stage, passed))
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		if lines.Text() == stage {
			hit = true
			if stage == stageCommit {
				time.Sleep(later)
			}
			if err := c.Process.Kill(); err != nil {
				t.Fatal(err)
			}
			continue
		}
		n, err := strconv.ParseInt(lines.Text(), 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		acked, acknowledged = n, hit
	}
	_ = c.Wait() // it was killed
	return acked, hit, acknowledged
}
