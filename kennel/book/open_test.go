package book

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"tuckup/kennel"
)

func reading() Options {
	opt := options()
	opt.Create, opt.Read = false, true
	return opt
}

// A file that lost its content is no book, whoever opens it, and nothing is written over what may be left of it.
func TestAnEmptyFileIsNoBook(t *testing.T) {
	for name, data := range map[string]string{
		"nothing in it":           "",
		"a database of no tables": bareDatabase(t),
	} {
		for how, opt := range map[string]Options{"read": reading(), "changed": {Now: options().Now}, "begun": options()} {
			dir := t.TempDir()
			path := filepath.Join(dir, "book.db")
			for file, data := range map[string]string{path: data, path + "-wal": "left of it"} {
				if name != "nothing in it" && file != path {
					continue
				}
				if err := os.WriteFile(file, []byte(data), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			before := filesIn(t, dir)
			_, err := Open(context.Background(), path, opt)
			if trouble(t, err, TroubleEmpty); !strings.Contains(err.Error(), "is empty") {
				t.Errorf("%s, %s: said is %q", name, how, err)
			}
			if after := filesIn(t, dir); !reflect.DeepEqual(before, after) {
				t.Errorf("%s, %s: the folder is not as it was", name, how)
			}
		}
	}
}

func bareDatabase(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "bare.db")
	b := halfOpen(t, path, 0)
	if _, err := b.db.Exec("VACUUM"); err != nil {
		t.Fatal(err)
	}
	if err := b.db.Close(); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil || len(data) == 0 {
		t.Fatalf("%d bytes, %v", len(data), err)
	}
	return string(data)
}

// Whoever reads leaves the folder as it was, byte by byte: of a book of today, of one of an earlier form, and of one
// whose last changes are beside its file because its writer was killed.
func TestReadingLeavesEverythingAsItWas(t *testing.T) {
	ctx := context.Background()
	folders := map[string]string{}
	for form := 1; form <= len(migrations()); form++ {
		dir := t.TempDir()
		copyFile(t, keptFile(form), filepath.Join(dir, "book.db"))
		folders[filepath.Base(keptFile(form))] = dir
	}
	today := t.TempDir()
	b := open(t, filepath.Join(today, "book.db"), options())
	fill(t, b)
	killed := t.TempDir()
	for _, end := range []string{"", "-wal"} {
		copyFile(t, b.file+end, filepath.Join(killed, "book.db"+end))
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	folders["today's"] = today
	for name, dir := range folders {
		before := filesIn(t, dir)
		r := open(t, filepath.Join(dir, "book.db"), reading())
		s, v, err := r.Read(ctx)
		if err != nil || v != 1 || len(s.Kennel.Dogs) != 2 {
			t.Fatalf("%s: version %d, %+v (%v)", name, v, s.Kennel, err)
		}
		if wrong, err := r.Check(ctx); err != nil || len(wrong) > 0 {
			t.Errorf("%s: %v %v", name, wrong, err)
		}
		if _, _, err := r.TryUndo(ctx); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		_, err = r.Change(ctx, AnyVersion, "weeks", func(s *State) error { s.Kennel.Weeks = 9; return nil })
		trouble(t, err, TroubleReadOnly)
		copied := filepath.Join(t.TempDir(), "copy.db")
		if err := r.Backup(ctx, copied); err != nil {
			t.Errorf("%s: %v", name, err)
		} else if again, _, err := open(t, copied, reading()).Read(ctx); err != nil || !reflect.DeepEqual(again, s) {
			t.Errorf("%s: the copy holds %+v (%v)", name, again, err)
		}
		if err := r.Close(); err != nil {
			t.Fatal(err)
		}
		if after := filesIn(t, dir); !reflect.DeepEqual(before, after) {
			t.Errorf("%s: the folder is not as it was", name)
		}
	}
	// What a killed writer left is read, and taken into the file as the next use would.
	r := open(t, filepath.Join(killed, "book.db"), reading())
	if s, v, err := r.Read(ctx); err != nil || v != 1 || !reflect.DeepEqual(s, later(len(migrations()))) {
		t.Errorf("version %d, %+v (%v)", v, s, err)
	}
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	if left := filesIn(t, killed); len(left) != 1 {
		t.Errorf("%d files are left", len(left))
	}
}

func copyFile(t *testing.T, from, to string) {
	t.Helper()
	data, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// A first change that fails leaves no file and no folder; one that does not leaves a whole book.
func TestABookIsBegunByItsFirstChangeOrNotAtAll(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	path := filepath.Join(dir, "deep", "er", "book.db")
	boom := errors.New("no")
	for name, first := range map[string]func(*Book) error{
		"what is taken in can't be read": func(*Book) error { return boom },
		"what is taken in can't be": func(b *Book) error {
			_, err := b.Change(ctx, AnyVersion, "dog", func(s *State) error {
				s.Kennel.Name, s.Kennel.Dogs = "Half", []kennel.Dog{{Name: "Sorrel"}}
				return nil
			})
			return err
		},
	} {
		if err := Begin(ctx, path, options(), first); err == nil {
			t.Errorf("%s: no error", name)
		}
		if left, err := os.ReadDir(dir); err != nil || len(left) != 0 {
			t.Errorf("%s: left is %v %v", name, left, err)
		}
	}
	name := func(n string) func(*Book) error {
		return func(b *Book) error {
			_, err := b.Change(ctx, AnyVersion, n, func(s *State) error { s.Kennel.Name = n; return nil })
			return err
		}
	}
	if err := Begin(ctx, path, options(), name("First")); err != nil {
		t.Fatal(err)
	}
	err := Begin(ctx, path, options(), name("Second"))
	if trouble(t, err, TroubleBusy); !errors.Is(err, fs.ErrExist) {
		t.Error(err)
	}
	if left := filesIn(t, dir); len(left) != 1 {
		t.Errorf("%d files are left", len(left))
	}
	if k, err := open(t, path, options()).Kennel(ctx); err != nil || k.Name != "First" {
		t.Errorf("it holds %+v (%v)", k, err)
	}
}

func TestABookIsNotBegunOverWhatIsLeftOfOne(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.db")
	if err := os.WriteFile(path+"-wal", []byte("changes"), 0o600); err != nil {
		t.Fatal(err)
	}
	before := filesIn(t, dir)
	_, err := Open(context.Background(), path, options())
	trouble(t, err, TroublePlace)
	if after := filesIn(t, dir); !reflect.DeepEqual(before, after) {
		t.Error("the folder is not as it was")
	}
}

func TestABookIsBegunWhereALinkLeads(t *testing.T) {
	dir := t.TempDir()
	link, real := filepath.Join(dir, "link.db"), filepath.Join(dir, "elsewhere", "book.db")
	if err := os.Symlink(filepath.Join("elsewhere", "book.db"), link); err != nil {
		t.Skipf("no link can be made here: %v", err)
	}
	fill(t, open(t, link, options()))
	if s, _, err := open(t, real, reading()).Read(context.Background()); err != nil || len(s.Kennel.Dogs) != 2 {
		t.Errorf("it holds %+v (%v)", s, err)
	}
}

// Several that find no book at once begin one between them.
func TestSeveralBeginOneBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep", "book.db")
	var all sync.WaitGroup
	for range 6 {
		all.Go(func() {
			b, err := Open(context.Background(), path, options())
			if err != nil {
				t.Error(err)
				return
			}
			defer b.Close()
			if _, err := b.Change(context.Background(), AnyVersion, "weeks", func(s *State) error {
				s.Kennel.Name = "Thornfield"
				s.Kennel.Weeks = max(4, s.Kennel.Weeks) + 1
				return nil
			}); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if k, err := open(t, path, options()).Kennel(context.Background()); err != nil || k.Weeks != 10 {
		t.Errorf("it holds %+v (%v)", k, err)
	}
}
