package book

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tuckup/kennel"
	"tuckup/kennel/picture"
)

// Check looks through the whole book: the file itself, the references between its rows, whether what it holds can be a
// kennel, and whether its rows are what its history tells. It returns what is wrong, in words, at most mostWrongs; none
// is a sound book. What is to be tried follows in a line "Try: ..." of its own.
func (b *Book) Check(ctx context.Context) (wrong []string, err error) {
	err = b.inside(ctx, true, func(tx *sql.Tx) error {
		if wrong, err = fileWrongs(ctx, tx); err != nil || len(wrong) > 0 {
			return err
		}
		c, err := load(ctx, tx)
		var value *valueError
		if errors.As(err, &value) {
			wrong = append(wrong, value.Error())
			return nil
		}
		if err != nil {
			return err
		}
		s, err := decode(c)
		if err != nil {
			wrong = append(wrong, err.Error())
		} else {
			for _, p := range problems(s, c) {
				wrong = append(wrong, p.Error())
			}
		}
		strange, err := historyWrongs(ctx, tx, c)
		wrong = append(wrong, strange...)
		if err != nil {
			return err
		}
		strange, err = recordWrongs(ctx, tx)
		wrong = append(wrong, strange...)
		return err
	})
	if n := len(wrong); n > mostWrongs {
		wrong = append(wrong[:mostWrongs:mostWrongs], fmt.Sprintf("and %d more", n-mostWrongs))
	}
	return wrong, err
}

// mostWrongs is how much of what is wrong is listed; the rest is counted.
const mostWrongs = 50

// fileWrongs is what SQLite finds wrong with the file and its references.
func fileWrongs(ctx context.Context, tx *sql.Tx) (wrong []string, err error) {
	for _, ask := range []struct{ pragma, sound string }{
		{"SELECT integrity_check FROM pragma_integrity_check", "ok"},
		{`SELECT "table" || ' row ' || coalesce(rowid, '?') || ' names something of ' || parent || ' that is not there' FROM pragma_foreign_key_check`, ""},
	} {
		found, err := column1(ctx, tx, ask.pragma)
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			if f != ask.sound {
				wrong = append(wrong, f)
			}
		}
	}
	return wrong, nil
}

func column1(ctx context.Context, tx *sql.Tx, query string) (all []string, err error) {
	rows, err := tx.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // rows.Err tells it
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	return all, rows.Err()
}

// check is the first trouble with a state that is to be written over another one. Dogs that differ are also held
// against the coat patterns; others may have a pattern of a file that is not at hand.
func check(s State, was, now content, patterns kennel.Patterns) error {
	if all := problems(s, now); len(all) > 0 {
		return all[0]
	}
	if all := tooLong(s, was); len(all) > 0 {
		return all[0]
	}
	if patterns == nil {
		return nil
	}
	changed := between(was, now).dogs()
	for i, d := range s.Kennel.Dogs {
		if !changed[d.Name] {
			continue
		}
		for _, p := range kennel.Problems(kennel.Kennel{Dogs: []kennel.Dog{d}}, patterns) {
			p.Field = strings.Replace(p.Field, "dogs[0]", fmt.Sprintf("dogs[%d]", i), 1)
			return Named(p, s.Kennel)
		}
	}
	return nil
}

// tooLong are texts of more letters than they may have. What the book held before, in whatever place, may stay.
func tooLong(s State, was content) (all []*kennel.InputError) {
	held := map[string]bool{}
	for t := range was {
		for _, r := range was[t] {
			for _, v := range r {
				if text, ok := v.(string); ok && len(text) > kennel.LongestName {
					held[text] = true
				}
			}
		}
	}
	known := func(text string) bool { return held[text] }
	for _, p := range kennel.TooLong(s.Kennel, known) {
		all = append(all, Named(p, s.Kennel))
	}
	note := func(field, text string) {
		if p := kennel.LongText(field, text, kennel.LongestNote); p != nil && !known(text) {
			all = append(all, p)
		}
	}
	for _, w := range s.Work {
		note(fmt.Sprintf("work %d: note", w.ID), w.Note)
	}
	for _, m := range s.Measures {
		note(fmt.Sprintf("measure %d: note", m.ID), m.Note)
	}
	for _, x := range s.Photos {
		note(fmt.Sprintf("photo %d: note", x.ID), x.Note)
	}
	return all
}

// dogs are the names of the dogs whose own rows the patch changes.
func (p patch) dogs() map[string]bool {
	names := map[string]bool{}
	for _, t := range []int{tDogs, tDogsHere, tLayers, tDuties, tSpells, tOutlines} {
		for _, r := range p.after[t] {
			name, _ := r[0].(string)
			names[name] = true
		}
		for _, r := range p.before[t] {
			name, _ := r[0].(string)
			names[name] = true
		}
	}
	return names
}

// problems are all troubles with a state, coat patterns left aside.
func problems(s State, c content) (all []*kennel.InputError) {
	for _, p := range kennel.Problems(s.Kennel, nil) {
		if !strings.HasSuffix(p.Field, ".pattern") {
			all = append(all, Named(p, s.Kennel))
		}
	}
	for _, d := range s.Kennel.Dogs {
		if d.Pattern == "" {
			all = append(all, &kennel.InputError{Field: d.Name + ": pattern", What: "is missing", Try: "one that `tuckup pattern list` names"})
		}
	}
	r := records{dogs: map[string]bool{}, add: func(field, value, what, try string) {
		all = append(all, &kennel.InputError{Field: field, Value: value, What: what, Try: try})
	}}
	for _, d := range s.Kennel.Dogs {
		r.dogs[d.Name] = true
	}
	r.check(s)
	return append(all, badText(c)...)
}

// badText are texts that would break the line that they are shown in, or would not come back as they were written.
func badText(c content) (all []*kennel.InputError) {
	for t := range tables {
		for _, r := range c[t] {
			for i, v := range r {
				if s, ok := v.(string); ok && (!utf8.ValidString(s) || strings.ContainsFunc(s, breaks)) {
					all = append(all, &kennel.InputError{
						Field: tables[t].name + "." + tables[t].columns[i].name, Value: strings.ToValidUTF8(s, "?"),
						What: "holds a line break or a control character", Try: "words on one line",
					})
				}
			}
		}
	}
	return all
}

// breaks reports whether a character would break a line or a cell that it is shown in.
func breaks(c rune) bool { return unicode.In(c, unicode.Cc, unicode.Zl, unicode.Zp) }

// records checks what was written down at the table.
type records struct {
	dogs map[string]bool
	add  func(field, value, what, try string)
}

// Bounds of records. A day has so many minutes; no dog's hair is longer than half a metre.
const (
	mostMinutes = 24 * 60
	mostLength  = 500 // millimetres
)

func (r *records) check(s State) {
	work := map[int64]bool{}
	for _, w := range s.Work {
		at := fmt.Sprintf("work %d", w.ID)
		r.of(at, w.Dog, w.On, work, w.ID)
		r.number(at+": minutes", float64(w.Minutes), w.Minutes > 0 && w.Minutes <= mostMinutes, fmt.Sprintf("a number above 0, at most %d (minutes)", mostMinutes))
		if w.Duty != "" && len(w.Areas)+len(w.Looks) > 0 {
			r.add(at, w.Duty, "is a duty and pulling at once", "one line of work for each")
		}
		r.pulled(at, w.Areas)
		r.looks(at, w.Looks)
	}
	seen := map[int64]bool{}
	for _, m := range s.Measures {
		at := fmt.Sprintf("measure %d", m.ID)
		r.of(at, m.Dog, m.On, seen, m.ID)
		r.area(at, m.Area)
		r.number(at+": length", float64(m.Length), m.Length > 0 && m.Length <= mostLength, fmt.Sprintf("a number above 0, at most %d (mm)", mostLength))
	}
	seen = map[int64]bool{}
	for _, x := range s.Showables {
		at := fmt.Sprintf("note %d", x.ID)
		r.of(at, x.Dog, x.On, seen, x.ID)
		r.area(at, x.Area)
		if x.Pulled == 0 || x.Pulled > x.On {
			r.add(at+": pulled", x.Pulled.String(), "is not a day before the hair was fit to be shown", "a day before "+x.On.String())
		}
	}
	seen = map[int64]bool{}
	for _, x := range s.Sessions {
		at := fmt.Sprintf("session %d", x.ID)
		r.of(at, x.Dog, x.On, seen, x.ID)
		r.number(at+": minutes", float64(x.Minutes), x.Minutes >= 0 && x.Minutes <= mostMinutes, fmt.Sprintf("a number from 0 to %d (minutes)", mostMinutes))
		r.pulled(at, x.Areas)
		if x.Work != 0 && !work[x.Work] {
			r.add(at, fmt.Sprint(x.Work), "is done by work that is not in the book", "tuckup work list for the work there is")
		}
	}
	seen = map[int64]bool{}
	for _, x := range s.Photos {
		at := fmt.Sprintf("photo %d", x.ID)
		r.of(at, x.Dog, x.On, seen, x.ID)
		if x.Area != AllAreas {
			r.area(at, x.Area)
		}
		if !picture.IsDigest(x.Digest) {
			r.add(at, kennel.Shortened(x.Digest), "is not the name of a picture", "the picture again")
		}
	}
	for _, x := range s.Seen {
		if !r.dogs[x.Dog] {
			r.add("seen", x.Dog, "is not a dog of the book", "tuckup dog list for those there are")
		}
	}
}

// of checks whose record it is, when, and that its number is its own.
func (r *records) of(at, dog string, on kennel.Date, ids map[int64]bool, id int64) {
	if !r.dogs[dog] {
		r.add(at, dog, "is not a dog of the book", "tuckup dog list for those there are")
	}
	if on == 0 {
		r.add(at+": on", "", "is missing", "a date like 2027-03-20")
	}
	if ids[id] {
		r.add(at, fmt.Sprint(id), "appears twice", "another number")
	}
	ids[id] = true
}

func (r *records) number(field string, v float64, ok bool, try string) {
	if !ok {
		r.add(field, fmt.Sprint(v), "is out of range", try)
	}
}

func (r *records) area(at string, a kennel.AreaName) {
	if !slices.Contains(kennel.AreaNames(), a) {
		r.add(at+": area", string(a), "is not an area of the coat", "tuckup pattern show NAME for those there are")
	}
}

func (r *records) looks(at string, all []kennel.Look) {
	seen := map[kennel.AreaName]bool{}
	for _, x := range all {
		r.area(at, x.Area)
		r.number(at+": long layer of the "+string(x.Area), float64(x.Share), x.Share >= 0 && x.Share <= 1, "a share from 0 to 1")
		if !slices.Contains(kennel.LongSeens(), x.Long) {
			r.add(at+": long layer of the "+string(x.Area), string(x.Long), "is not a way to see it", "none, thin, as expected or thick")
		}
		if seen[x.Area] {
			r.add(at, string(x.Area), "was seen twice", "name each area once")
		}
		seen[x.Area] = true
	}
}

func (r *records) pulled(at string, all []kennel.Pulled) {
	seen := map[kennel.AreaName]bool{}
	for _, p := range all {
		r.area(at, p.Area)
		r.number(at+": "+string(p.Area), float64(p.Share), p.Share > 0 && p.Share <= 1, "a share above 0, at most 1")
		if seen[p.Area] {
			r.add(at, string(p.Area), "appears twice", "name each area once")
		}
		seen[p.Area] = true
	}
}
