package book

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tuckup/kennel"
)

// What can be a kennel but is not what was written is found: each of these passes all bounds and references.
func TestRowsAndLinesThatNoChangeLeftAreFound(t *testing.T) {
	ctx := context.Background()
	for name, c := range map[string]struct{ damage, want string }{
		"a factor":           {"UPDATE dogs SET growth = 1.06 WHERE name = 'Sorrel'", "dog Sorrel is not as the history left it: growth 1.05 -> 1.06"},
		"a letter":           {"UPDATE dogs SET owner = 'R. Callowaz' WHERE name = 'Sorrel'", "dog Sorrel is not as the history left it"},
		"a day":              {"UPDATE layers SET pulled = '2026-10-07' WHERE dog = 'Sorrel' AND area = 'ribs'", "dog Sorrel is not as the history left it: coat"},
		"a row too many":     {"INSERT INTO measures (id, dog, on_day, area, length_mm) VALUES (9, 'Moss', '2027-01-04', 'back', 30)", "measure 9 of Moss is not as the history left it: no change added it"},
		"a row gone":         {"DELETE FROM measures", "measure 1 of Sorrel is not as the history left it: no change took it away"},
		"the order":          {"UPDATE dogs SET position = 1 - position", "dog Sorrel is not as the history left it: place in the list"},
		"words of a line":    {"UPDATE history SET what = 'moved im' WHERE id = 1", "change 1 of the history is not as it was written"},
		"who wrote a line":   {"UPDATE history SET who = 'Somebody' WHERE id = 2", "change 2 of the history is not as it was written"},
		"when it was":        {"UPDATE history SET at = '2027-01-05T12:00:01Z' WHERE id = 1", "change 1 of the history is not as it was written"},
		"rows of a line":     {"UPDATE history SET after = replace(after, '1.05', '1.06') WHERE id = 1", "change 1 of the history is not as it was written"},
		"both alike":         {"UPDATE history SET after = replace(after, '1.05', '1.06') WHERE id = 1; UPDATE dogs SET growth = 1.06 WHERE name = 'Sorrel'", "change 1 of the history is not as it was written"},
		"a checksum":         {"UPDATE history SET sum = '' WHERE id = 1", "change 1 of the history is not as it was written"},
		"the first line":     {"DELETE FROM history WHERE id = 1", "the history has no line between change 0 and change 2"},
		"the last line":      {"DELETE FROM history WHERE id = 2", "the history ends with change 1, the last that was written is 2"},
		"lines that changed": {"UPDATE history SET before = after, after = before WHERE id = 2", "change 2 of the history is not as it was written"},
		"another kind":       {"PRAGMA writable_schema = 1; UPDATE sqlite_schema SET sql = replace(sql, 'owner     TEXT', 'owner     ANY') WHERE name = 'dogs'; PRAGMA writable_schema = RESET; UPDATE dogs SET owner = x'00ff'", "dogs.owner holds"},
	} {
		t.Run(name, func(t *testing.T) {
			b := open(t, filepath.Join(t.TempDir(), "book.db"), options())
			fill(t, b)
			if _, err := b.Change(ctx, AnyVersion, "weeks", func(s *State) error { s.Kennel.Weeks = 30; return nil }); err != nil {
				t.Fatal(err)
			}
			if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
				t.Fatalf("it is not sound before: %v %v", wrong, err)
			}
			b.db.SetMaxOpenConns(1)
			if _, err := b.db.Exec("PRAGMA foreign_keys = 0; " + c.damage); err != nil {
				t.Fatal(err)
			}
			wrong, err := b.Check(ctx)
			if err != nil || !strings.Contains(strings.Join(wrong, "\n"), c.want) {
				t.Errorf("found is %q (%v), not %q", wrong, err, c.want)
			}
		})
	}
}

// An earlier form has no checksums; when it is brought up every line gets one, and the chain goes on from there.
func TestABookThatIsBroughtUpIsSealed(t *testing.T) {
	ctx := context.Background()
	data, err := os.ReadFile(keptFile(3))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "book.db")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	b := open(t, path, options())
	if _, err := b.Change(ctx, AnyVersion, "dog", func(s *State) error {
		d := s.Kennel.Dogs[1]
		d.Name, d.All = "Quill", []kennel.Layer{{Share: 1.0 / 3, Pulled: 20000}}
		s.Kennel.Dogs = append(s.Kennel.Dogs, d)
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	var sums []string
	if err := b.inside(ctx, true, func(tx *sql.Tx) error {
		return links(ctx, tx, func(l link) error { sums = append(sums, l.sum); return nil })
	}); err != nil {
		t.Fatal(err)
	}
	if len(sums) != 2 || len(sums[0]) != 64 || len(sums[1]) != 64 || sums[0] == sums[1] {
		t.Errorf("the checksums are %q", sums)
	}
	if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
		t.Error(wrong, err)
	}
}

// The checksum of a line is the same for ever: books hold it.
func TestAChecksumIsTheSameForEver(t *testing.T) {
	l := link{id: 3, at: "2027-01-05T12:00:00Z", who: "Handler", what: "weeks", before: "{}", after: `{"kennel":[]}`, undoes: 2}
	const want = "913cb1db636cc7be03572f9c22129a8612e4be8fc9b97202cf0c0e98ed177d62"
	if got := l.sumAfter("ab"); got != want {
		t.Errorf("it is %s, not %s", got, want)
	}
}
