package html

import (
	"bytes"
	"errors"
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
	for _, want := range []string{"For " + owner + ", January 2027", own + " is ", "too late &lt;b&gt;", "nails of " + own + ": no hands", "No work is written down for this month."} {
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
