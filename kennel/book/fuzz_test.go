package book

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

// A book whose bytes are not as they were written, or whose file ends early, is read without a panic, in little time, and
// without a byte written anywhere. What is said to be wrong comes with something to try. What is called sound holds what
// was written, to the last bit.
func FuzzDamagedBook(f *testing.F) {
	for form := range len(migrations()) {
		f.Add(form, uint(100), []byte{0xff}, uint(0))      // the first page's kind
		f.Add(form, uint(60), []byte{0, 0, 0, 1}, uint(0)) // another form
		f.Add(form, uint(18), []byte{1, 1}, uint(0))       // another journal
		f.Add(form, uint(18), []byte{2, 2}, uint(0))
		f.Add(form, uint(0), []byte("no book"), uint(0))
		f.Add(form, uint(4096), []byte{2, 0, 0, 0, 9}, uint(0))
		f.Add(form, uint(20000), []byte("2027-01-0"), uint(0))
		f.Add(form, uint(30000), []byte{0x80}, uint(12000))
	}
	f.Fuzz(func(t *testing.T, form int, at uint, patch []byte, cut uint) {
		holdDamaged(t, form, at, patch, cut)
	})
}

// mostDamage is how many bytes in a row are changed at most: a longer run could be a whole book of its own.
const mostDamage = 64

// holdDamaged damages a kept book, reads it and reports what became of it.
func holdDamaged(t *testing.T, form int, at uint, patch []byte, cut uint) (sound bool) {
	t.Helper()
	form = 1 + int(uint(form)%uint(len(migrations())))
	data, err := os.ReadFile(keptFile(form))
	if err != nil {
		t.Fatal(err)
	}
	copy(data[at%uint(len(data)):], patch[:min(len(patch), mostDamage)])
	data = data[:uint(len(data))-cut%uint(len(data))]
	dir := t.TempDir()
	path := filepath.Join(dir, "book.db")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	const most = 20 * time.Second // a machine with much else to do takes long for what takes a tenth of a second
	ctx, cancel := context.WithTimeout(context.Background(), most)
	defer cancel()
	s, wrong, err := readAll(ctx, path)
	if ctx.Err() != nil {
		t.Fatalf("it hangs: %v", err)
	}
	var (
		e  *Error
		in *kennel.InputError
	)
	switch {
	case errors.As(err, &e):
		if e.Try == "" || strings.Contains(e.Try, "restore") {
			t.Errorf("%v: to try is %q", err, e.Try)
		}
	case errors.As(err, &in):
	case err != nil:
		t.Errorf("said is %v (%T)", err, err)
	case len(wrong) == 0:
		sound = true
		if !reflect.DeepEqual(s, later(form)) {
			t.Errorf("called sound is\n%+v\nand it was\n%+v", s, later(form))
		}
	}
	files := filesIn(t, dir)
	if len(files) != 1 || !bytes.Equal([]byte(files[path]), data) {
		t.Errorf("%d files are there, and the book is as it was: %v", len(files), bytes.Equal([]byte(files[path]), data))
	}
	return sound
}

// readAll does all that reads a book.
func readAll(ctx context.Context, path string) (s State, wrong []string, err error) {
	b, err := Open(ctx, path, reading())
	if err != nil {
		return s, nil, err
	}
	defer func() { err = errors.Join(err, b.Close()) }()
	if wrong, err = b.Check(ctx); err != nil {
		return s, wrong, err
	}
	if s, _, err = b.Read(ctx); err != nil {
		return s, wrong, err
	}
	lines, err := b.History(ctx, 0)
	if err != nil {
		return s, wrong, err
	}
	if len(lines) > 0 {
		if _, err := b.At(ctx, 0); err != nil && len(wrong) == 0 {
			return s, wrong, err
		}
	}
	return s, wrong, nil
}

// Bytes of a book are turned one at a time: what reads other than it was written is always found.
func TestATurnedByteIsFoundOrChangesNothing(t *testing.T) {
	n := 400
	if testing.Short() {
		n = 60
	}
	random := rand.New(rand.NewPCG(5, 6))
	found := 0
	for range n {
		if !holdDamaged(t, len(migrations())-1, uint(random.Uint32()), []byte{byte(1 + random.IntN(255))}, 0) {
			found++
		}
	}
	t.Logf("%d of %d were found", found, n)
	if found == 0 {
		t.Error("nothing was damaged")
	}
}
