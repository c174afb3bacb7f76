package book

import (
	"context"
	"database/sql"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

var keep = flag.Bool("keep", false, "write a kept book of this form where there is none yet; those of earlier forms are never written anew")

// keptState is what every kept book holds, whatever its form. A new form adds what it brings to later().
func keptState() State {
	on := kennel.NewDate(2027, 1, 4)
	k := kennel.Kennel{
		Name: "Thornfield", PlanFrom: on, Weeks: 26, TimeZone: "Europe/Dublin", Units: kennel.UnitsMillimetres,
		Hands: []kennel.Hands{{
			Name: "Handler", Hours: [kennel.DaysAWeek]kennel.Hours{5, 5, 4, 5, 3}, StripHoursADay: 4, Does: []kennel.Skill{kennel.SkillJacket, kennel.SkillClose},
			Away: []kennel.Span{{From: on + 40, To: on + 44, Why: "shows abroad"}, {From: on + 90}},
		}, {Name: "Assistant"}},
		Dogs: []kennel.Dog{{
			Name: "Sorrel", Pattern: "wire-fox-terrier", Born: on - 900, Owner: "R. Calloway",
			Coat:  kennel.Coat{Texture: kennel.TextureHard, Growth: 1.05, Pace: 0.9, RollOnly: true},
			Table: kennel.Table{SetUp: 12, Minutes: 75, AWeek: 2}, Priority: 1.25, Here: []kennel.Span{{From: on - 3}},
			All:   []kennel.Layer{{Share: 0.6, Pulled: on - 90}, {Share: 0.4, Pulled: on - 30}},
			Areas: []kennel.AreaCoat{{Area: kennel.AreaRibs, Layers: []kennel.Layer{{Share: 1.0 / 3, Pulled: on - 60}}}, {Area: kennel.AreaSkull, Layers: []kennel.Layer{{Share: 1, Pulled: on - 9}}}},
			Duties: []kennel.Duty{
				{Name: "nails", Minutes: 10, Every: 2},
				{Name: "close trim", Minutes: 30, Before: &kennel.BeforeShow{From: 10, To: 0}},
			},
		}, {
			Name: "Moss", Pattern: "border-terrier", Coat: kennel.Coat{Growth: 1, Pace: 1}, Table: kennel.Table{SetUp: 10, Minutes: 60, AWeek: 1},
			Priority: 1, All: []kennel.Layer{{Share: 1, Pulled: on - 70}},
		}},
		Shows: []kennel.Show{
			{Name: "Brackenmere Terrier Club", On: on + 75, Days: 2, EntriesClose: on + 60, Weight: 3, Chance: 1, Away: &kennel.Span{From: on + 74, To: on + 76, Why: "ferry"}, Dogs: []string{"Sorrel", "Moss"}},
			{Name: "Yarrowmead Show", On: on + 120, Days: 1, Weight: 1, Chance: 0.4},
		},
	}
	return State{
		Kennel: k,
		Work: []Work{
			{1, kennel.Work{Dog: "Sorrel", On: on + 1, Hands: "Handler", Minutes: 50, Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 1.0 / 17}, {Area: kennel.AreaBack, Share: 1.0 / 12}}, Stopped: true, Note: "fussy; took less"}},
			{3, kennel.Work{Dog: "Moss", On: on + 2, Minutes: 10, Duty: "nails"}},
		},
		Measures:  []Measure{{1, kennel.Measure{Dog: "Sorrel", On: on + 1, Area: kennel.AreaBack, Length: 31.5, Note: "damp"}}},
		Showables: []Showable{{1, kennel.Showable{Dog: "Moss", Area: kennel.AreaEars, Pulled: on - 40, On: on - 20}}},
		Sessions: []Session{
			{1, kennel.Session{Dog: "Sorrel", On: on + 1, Start: 545, Minutes: 60, Hands: "Handler", Areas: []kennel.Pulled{{Area: kennel.AreaRibs, Share: 1.0 / 15}}}, 1},
			{2, kennel.Session{Dog: "Moss", On: on + 8, Start: 600, Minutes: 40, Pinned: true}, 0},
		},
	}
}

// later is what a form brought that earlier ones could not hold.
func later(form int) State {
	s := keptState()
	if form >= 2 {
		s.Seen = []Seen{{Dog: "Sorrel", Area: AllAreas, On: s.Kennel.PlanFrom}, {Dog: "Sorrel", Area: kennel.AreaSkull, On: s.Kennel.PlanFrom + 1, Work: 1}}
	}
	if form >= 6 {
		s.Kennel.Dogs[0].RingName = "Thornfield Autumn Sorrel"
	}
	if form >= formWithLooks {
		s.Work[0].Looks = []kennel.Look{{Area: kennel.AreaBack, Long: kennel.LongThin, Share: 0.03}, {Area: kennel.AreaLoin, Long: kennel.LongNone}}
	}
	if form >= formWithLastDays {
		s.Kennel.Dogs[0].Duties[0].Done = s.Kennel.PlanFrom - 7
	}
	if form >= formWithSpells {
		s.Kennel.Dogs[1].Spells = []kennel.Spell{{From: s.Kennel.PlanFrom + 20, To: s.Kennel.PlanFrom + 41, What: kennel.SpellSeason, Growth: 0.8, Table: kennel.AnswerYes}, {From: s.Kennel.PlanFrom + 60, What: kennel.SpellInjury, Growth: 1}}
	}
	if form >= formWithOutlines {
		s.Kennel.Dogs[0].Outlines = []kennel.Outline{{Area: kennel.AreaLoin, Note: "low in loin", Least: 30}, {Area: kennel.AreaNeck, Note: "leave the base long"}}
	}
	if form >= formWithDutyWork {
		s.Kennel.Dogs[0].Duties[0].Work, s.Kennel.Dogs[0].Duties[0].LeaveOut = kennel.SkillClose, true
	}
	if form >= formWithPhotos {
		s.Photos = []Photo{{1, kennel.Photo{Dog: "Sorrel", On: s.Kennel.PlanFrom, Digest: strings.Repeat("0a", 32)}}, {2, kennel.Photo{Dog: "Moss", On: s.Kennel.PlanFrom, Area: kennel.AreaRibs, Digest: strings.Repeat("1b", 32), Note: "wet"}}}
	}
	if form >= 3 {
		s.Plan = PlanInUse{On: s.Kennel.PlanFrom, Change: 1}
	}
	if form >= formWithPlans {
		s.Plan.Result = []byte("a plan's record")
	}
	return s
}

// formWithPlans is the form that brought the record of the plan in use.
const formWithPlans = 7

// formWithLooks is the form that brought what was seen of long layers.
const formWithLooks = 8

// formWithLastDays is the form that brought the day on which a duty was last done.
const formWithLastDays = 9

// formWithSpells is the form that brought the spells of dogs.
const formWithSpells = 10

// formWithOutlines is the form that brought what is wanted of single areas.
const formWithOutlines = 11

// formWithDutyWork is the form that brought who may do a duty, and duties that are left out.
const formWithDutyWork = 12

// formWithPhotos is the form that brought pictures.
const formWithPhotos = 13

// formWithKeys is the form that brought the keys of changes, and keptKey the one that its books hold.
const formWithKeys = 5

var keptKey = Once{Key: "moved in", Answer: func(Done) string { return "/week" }}

func keptFile(form int) string { return filepath.Join("testdata", fmt.Sprintf("form-%d.db", form)) }

// A kept book of every form that there ever was opens in the form of today, holds what it held, has a dated copy of what
// it was, and its last change can still be taken back.
func TestBooksOfEveryEarlierFormAreBroughtUp(t *testing.T) {
	for form := 1; form <= len(migrations()); form++ {
		t.Run(fmt.Sprint(form), func(t *testing.T) {
			if _, err := os.Stat(keptFile(form)); err != nil && *keep && form == len(migrations()) {
				writeKept(t, form)
			}
			ctx := context.Background()
			data, err := os.ReadFile(keptFile(form))
			if err != nil {
				t.Fatalf("%v; go test ./kennel/book -run %s -keep writes the one of the newest form", err, t.Name())
			}
			path := filepath.Join(t.TempDir(), "book.db")
			if err := os.WriteFile(path, data, 0o600); err != nil {
				t.Fatal(err)
			}
			b := open(t, path, options())
			got, _, err := b.Read(ctx)
			if err != nil {
				t.Fatal(err)
			}
			if want := later(form); !reflect.DeepEqual(got, want) {
				t.Errorf("it holds\n%+v\nnot\n%+v", got, want)
			}
			if v, err := b.form(ctx); err != nil || v != len(migrations()) {
				t.Errorf("it is of form %d (%v)", v, err)
			}
			if wrong, err := b.Check(ctx); err != nil || len(wrong) > 0 {
				t.Error(wrong, err)
			}
			if answer, ok, err := b.Answered(ctx, keptKey.Key); err != nil || ok != (form >= formWithKeys) || ok && answer != "/week" {
				t.Errorf("its key is answered with %q (%t, %v)", answer, ok, err)
			}
			undone, done, err := b.Undo(ctx, AnyVersion)
			if err != nil || undone.What != "moved in" || !done.State.Nothing() {
				t.Errorf("took back %q (%v), left %+v", undone.What, err, done.State)
			}
			copies, err := filepath.Glob(filepath.Join(filepath.Dir(path), "backups", "book.db-2027-01-05T120000-form-*.db"))
			if err != nil {
				t.Fatal(err)
			}
			if form == len(migrations()) {
				if len(copies) != 0 {
					t.Errorf("a book of today's form was copied: %v", copies)
				}
				return
			}
			if len(copies) != 1 || !strings.Contains(copies[0], fmt.Sprintf("form-%d.db", form)) {
				t.Fatalf("copies are %v", copies)
			}
			if v := formOf(t, copies[0]); v != form {
				t.Errorf("the copy is of form %d, not %d", v, form)
			}
		})
	}
}

func formOf(t *testing.T, path string) (v int) {
	t.Helper()
	db, err := sql.Open("sqlite", uri(path)+"?mode=ro")
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.QueryRow("PRAGMA user_version").Scan(&v); err != nil {
		t.Fatal(err)
	}
	return v
}

// writeKept writes a book of a form with the state in it.
func writeKept(t *testing.T, form int) {
	t.Helper()
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "book.db")
	b := halfOpen(t, path, form)
	s := later(form)
	now := encode(s)
	if err := b.inside(ctx, false, func(tx *sql.Tx) error {
		p := patch{after: now}
		for i := range tables {
			if err := tables[i].put(ctx, tx, p.after[i]); err != nil {
				return err
			}
		}
		done := Done{}
		if form >= formWithPlans {
			if err := keepRecord(ctx, tx, s.Plan.Result); err != nil {
				return err
			}
		}
		var err error
		if done.Version, err = b.line(ctx, tx, "moved in", p, 0); err != nil || form < formWithKeys {
			return err
		}
		return b.answer(ctx, tx, keptKey, &done)
	}); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := b.Backup(ctx, keptFile(form)); err != nil {
		t.Fatal(err)
	}
}

// halfOpen opens a book in an earlier form.
func halfOpen(t *testing.T, path string, form int) *Book {
	t.Helper()
	opt := options()
	db, err := sql.Open("sqlite", address(path, usualWait, "page_size(1024)", "journal_mode(WAL)"))
	if err != nil {
		t.Fatal(err)
	}
	b := &Book{db: db, path: path, file: path, opt: opt}
	t.Cleanup(func() { db.Close() })
	if err := b.migrate(context.Background(), form); err != nil {
		t.Fatal(err)
	}
	return b
}

func TestTenDatedCopiesAreKept(t *testing.T) {
	dir := t.TempDir()
	b := open(t, filepath.Join(dir, "book.db"), options())
	other := filepath.Join(dir, "backups", "spring.db")
	for n := range keptForms + 5 {
		if err := b.keepForm(context.Background(), 1); err != nil {
			t.Fatal(err)
		}
		if n == 0 {
			if err := os.WriteFile(other, nil, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if n < 2 {
			continue
		}
		b.opt.Now = later1(n)
	}
	copies, err := filepath.Glob(filepath.Join(dir, "backups", "book.db-*"))
	if err != nil || len(copies) != keptForms {
		t.Errorf("%d copies: %v (%v)", len(copies), copies, err)
	}
	if _, err := os.Stat(other); err != nil {
		t.Error("somebody else's file went:", err)
	}
	if newest := filepath.Join(dir, "backups", "book.db-2027-01-05T120013-form-1.db"); !strings.Contains(strings.Join(copies, " "), newest) {
		t.Errorf("the newest copy %s went: %v", newest, copies)
	}
}

func later1(seconds int) func() time.Time {
	return func() time.Time { return noon.Add(time.Duration(seconds) * time.Second) }
}
