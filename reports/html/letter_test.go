package html

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/tally"
)

func letterTo(t *testing.T, r optimize.Result, owner string, bill tally.Bill) string {
	t.Helper()
	var b bytes.Buffer
	if err := Letter(&b, r, owner, bill, nil); err != nil {
		t.Fatal(err)
	}
	if wrong := badHTML(b.Bytes()); len(wrong) > 0 {
		t.Error(strings.Join(wrong, "; "))
	}
	return b.String()
}

// A letter is about the owner's dogs and no others, and its figures are the plan's.
func TestALetterIsAboutTheOwnersDogs(t *testing.T) {
	r := sample.Pictured(sample.Result())
	r.Kennel.Dogs = slices.Clone(r.Kennel.Dogs)
	owner := r.Kennel.Dogs[0].Owner
	r.Kennel.Dogs[1].Owner = owner + " junior"
	own, other := r.Kennel.Dogs[0].Name, r.Kennel.Dogs[1].Name
	r.Cannot = []optimize.Cannot{
		{What: own + " in coat for " + r.Kennel.Shows[0].Name, Why: "too late <b>"},
		{What: "nails of " + own, Why: "no hands"},
		{What: "nails of " + other, Why: "no hands either"},
		{What: "any work on the dogs", Why: "no reason"},
	}
	page := letterTo(t, r, owner, tally.Bill{Month: sample.Date(1, 1)})
	for _, want := range []string{"For " + owner + ", January 2027", own + " is ", "too late &lt;b&gt;", "Nails of " + own + ": no hands", "No work is written down for this month."} {
		if !strings.Contains(page, want) {
			t.Errorf("it lacks %q", want)
		}
	}
	for _, not := range []string{other, "no hands either", "any work"} {
		if strings.Contains(page, not) {
			t.Errorf("it has %q", not)
		}
	}
	shows := 0
	for _, x := range r.Readiness {
		if x.Dog != own {
			continue
		}
		shows++
		if figure := `<data value="` + kennel.Number(layout.Points(x.Score)) + `">` + kennel.ScoreWords(x.Score); !strings.Contains(page, figure) {
			t.Errorf("it lacks the readiness for %s, %s", x.Show, figure)
		}
	}
	if shows == 0 {
		t.Error("the sample shows the dog nowhere")
	}
}

// An owner is asked about entries that close within eight weeks, and told what we would do.
func TestALetterAsksWhatIsToBeDecided(t *testing.T) {
	r := sample.Pictured(sample.Result())
	r.Kennel.Shows, r.Readiness = slices.Clone(r.Kennel.Shows), slices.Clone(r.Readiness)
	x := &r.Readiness[0]
	s := &r.Kennel.Shows[0]
	s.Name, s.On, s.Dogs = x.Show, x.On, []string{x.Dog}
	owner, err := r.Kennel.FindDog(x.Dog)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		chance float64
		closes kennel.Date
		score  kennel.Score
		want   string
	}{
		{0.5, r.On, 80, "(80: we would enter)"},
		{0.5, r.On.AddDays(56), 79, "(79: we would leave it out)"},
		{1, r.On.AddDays(7), 90, "There is no entry to decide on"},
		{0.5, r.On.AddDays(-1), 90, "There is no entry to decide on"},
		{0.5, r.On.AddDays(57), 90, "There is no entry to decide on"},
	} {
		s.Chance, s.EntriesClose, x.Score = c.chance, c.closes, c.score
		page := letterTo(t, r, r.Kennel.Dogs[owner].Owner, tally.Bill{Month: r.On})
		if !strings.Contains(page, c.want) {
			t.Errorf("%+v: it lacks %q", c, c.want)
		}
	}
}

func TestALetterHasTheWorkOfItsMonth(t *testing.T) {
	r := sample.Pictured(sample.Result())
	bill := tally.Bill{
		Month: sample.Date(2, 1), Minutes: 9000, Amount: "36.75 EUR", Rule: "Counted: minutes as recorded.",
		Lines: []tally.BillLine{{Dog: r.Kennel.Dogs[0].Name, Sessions: 2, Duties: 1, Minutes: 9000, Amount: "36.75 EUR"}},
	}
	page := letterTo(t, r, r.Kennel.Dogs[0].Owner, bill)
	for _, want := range []string{"Work in February 2027", "Counted: minutes as recorded.", `<data value="1.5">1.50</data>`, "36.75 EUR"} {
		if !strings.Contains(page, want) {
			t.Errorf("it lacks %q", want)
		}
	}
	bill.Amount, bill.Lines[0].Amount = "", ""
	if page := letterTo(t, r, r.Kennel.Dogs[0].Owner, bill); strings.Contains(page, "amount") {
		t.Error("it has a column of amounts though nothing is charged")
	}
	var e *kennel.InputError
	if err := Letter(io.Discard, r, "Nobody", bill, nil); !errors.As(err, &e) || e.Field != "owner" {
		t.Errorf("a letter to nobody: %v", err)
	}
}

// A letter of one dog is one page of A4 and of Letter, however much there is to say: the longest names that a kennel may have, shows on every
// weekend of two years, entries to decide on, and as much that can't be met; what is too much for a page is counted.
func TestALetterOfOneDogIsOnePage(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: prints with a browser")
	}
	long := func(s string) string {
		return (s + " " + strings.Repeat("Wolverhampton ", kennel.LongestName))[:kennel.LongestName]
	}
	r := sample.Pictured(sample.Result())
	name := long("Sorrel")
	r.Kennel.Name = long("Thornfield")
	r.Kennel.Dogs = []kennel.Dog{{
		Name: name, RingName: long("Champion"), Owner: long("R. Calloway"), Pattern: r.Kennel.Dogs[0].Pattern,
		Spells: []kennel.Spell{{From: r.On, To: r.On.AddDays(7), What: kennel.SpellWhelping}},
	}}
	o := r.Outlooks[0]
	o.Dog, o.IdleStates, o.PlannedStates = name, nil, nil
	r.Weeks, r.Kennel.Shows, r.Readiness, r.Cannot = nil, nil, nil, nil
	for n := range 104 {
		r.Weeks = append(r.Weeks, optimize.Week{Week: r.Week0.AddDays(7 * n)})
		o.IdleStates, o.PlannedStates = append(o.IdleStates, kennel.StateBlown), append(o.PlannedStates, []kennel.State{kennel.StateInCoat, kennel.StateGoingOver}[n%2])
		s := kennel.Show{Name: long(fmt.Sprintf("Show %d of", n)), On: r.Week0.AddDays(7*n + 5), Chance: 0.5, EntriesClose: r.On.AddDays(n), Dogs: []string{name}}
		r.Kennel.Shows = append(r.Kennel.Shows, s)
		r.Readiness = append(r.Readiness, optimize.ShowReadiness{Dog: name, Show: s.Name, On: s.On, Chance: 0.5, Score: 70, Idle: 20})
		r.Cannot = append(r.Cannot, optimize.Cannot{What: name + " in coat for " + s.Name, Why: long("hours are short: with all the hours it would be 86; it will be 39")})
	}
	r.Outlooks = []optimize.Outlook{o}
	w := optimize.Way{Dog: name, Kind: optimize.WayStripped, Held: true, Other: &optimize.Other{Kind: optimize.WayRolled}}
	for n := range 6 {
		w.Spells = append(w.Spells, optimize.Spell{Kind: optimize.WayStaged, From: r.On.AddDays(100 * n), To: r.On.AddDays(100*n + 70)})
	}
	for n := range 2 {
		w.Other.Shows = append(w.Other.Shows, optimize.OtherShow{Show: r.Kennel.Shows[n].Name, On: r.Kennel.Shows[n].On, Score: 70, Other: 60})
	}
	r.Ways = []optimize.Way{w}
	bill := tally.Bill{
		Month: sample.Date(1, 1), Minutes: 90000, Amount: "3675.50 EUR", Rule: "Counted: each stretch of work up to the next 15 minutes.",
		Lines: []tally.BillLine{{Dog: name, Sessions: 20, Duties: 31, Minutes: 90000, Amount: "3675.50 EUR"}},
	}
	tall := image.NewGray(image.Rect(0, 0, 300, 1200))
	var drawn bytes.Buffer
	if err := jpeg.Encode(&drawn, tall, nil); err != nil {
		t.Fatal(err)
	}
	photo := Photo{
		Photo: kennel.Photo{Dog: name, On: r.On}, Of: kennel.PhotoOf{Session: true, Areas: kennel.AreaNames()}, Src: Inside(drawn.Bytes()),
	}
	var b bytes.Buffer
	if err := Letter(&b, r, r.Kennel.Dogs[0].Owner, bill, []Photo{photo}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"And 99 more shows, the last on ", "and on 54 more", "And 101 more."} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("it lacks %q", want)
		}
	}
	for _, paper := range []string{"A4", "Letter"} {
		if pages := printedPages(t, b.Bytes(), paper); pages != 1 {
			t.Errorf("on %s it has %d pages", paper, pages)
		}
	}
}
