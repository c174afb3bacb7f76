package html

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

// pageReports are all pages, each of the dog and owner that come first.
func pageReports(x Records) map[string]func(io.Writer, optimize.Result) error {
	return map[string]func(io.Writer, optimize.Result) error{
		"readiness": Readiness,
		"workload":  Workload,
		"dog":       func(w io.Writer, r optimize.Result) error { return Dog(w, r, r.Kennel.Dogs[0].Name, x) },
		"owner":     func(w io.Writer, r optimize.Result) error { return Owner(w, r, r.Kennel.Dogs[0].Owner, x) },
		"season":    func(w io.Writer, r optimize.Result) error { return Season(w, r, x) },
	}
}

func records(name, dog string) Records {
	return Records{
		Work: []kennel.Work{
			{Dog: dog, On: sample.Date(1, 4), Hands: name, Minutes: 42, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.2}}, Note: "note " + name},
			{Dog: dog, On: sample.Date(1, 2), Hands: name, Minutes: 10.5, Duty: name},
			{Dog: dog, On: kennel.NewDate(2026, 12, 30), Minutes: 77, Duty: "bath"},
		},
		Measures: []kennel.Measure{{Dog: dog, On: sample.Date(1, 3), Area: kennel.AreaRibs, Length: 38, Note: "length " + name}},
		Advice:   []Advice{{Dog: dog, Words: "Enter " + name}},
	}
}

// writtenBy is a page as it is written.
func writtenBy(t *testing.T, page func(io.Writer, optimize.Result) error, r optimize.Result) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := page(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestEveryPageIsValidWhateverTheNames(t *testing.T) {
	for _, name := range sample.HostileNames {
		if name == "" {
			continue // the hostile sample needs a name
		}
		r := sample.Pictured(sample.Hostile(name))
		x := records(name, r.Kennel.Dogs[0].Name)
		for _, private := range []bool{false, true} {
			x.Private = private
			for what, page := range pageReports(x) {
				out := writtenBy(t, page, r)
				if wrong := badHTML(out); len(wrong) > 0 {
					t.Errorf("%s with %q: %s", what, name, strings.Join(wrong, "; "))
				}
				if bytes.ContainsAny(out, "\x1b\u202e\x07\x00") {
					t.Errorf("%s with %q holds a control character", what, name)
				}
				doc, err := html.Parse(bytes.NewReader(out))
				if err != nil {
					t.Fatal(err)
				}
				if !strings.Contains(writtenIn(doc), say.Plain(name)) {
					t.Errorf("%s lost the name %q", what, name)
				}
				if !bytes.Equal(out, writtenBy(t, page, r)) {
					t.Errorf("%s with %q differs when written again", what, name)
				}
			}
		}
	}
}

func TestPagesOfAnEmptyKennelAreValid(t *testing.T) {
	for what, page := range pageReports(Records{}) {
		if what == "dog" || what == "owner" {
			continue // there is none
		}
		if wrong := badHTML(writtenBy(t, page, optimize.Result{On: sample.Date(1, 4), Week0: sample.Date(1, 4)})); len(wrong) > 0 {
			t.Errorf("%s: %s", what, strings.Join(wrong, "; "))
		}
	}
}

func TestReportsToOwnersHaveTheRingName(t *testing.T) {
	r := sample.Result()
	r.Kennel.Dogs = slices.Clone(r.Kennel.Dogs)
	r.Kennel.Dogs[0].RingName = "Thornfield <Autumn>"
	for name, write := range map[string]func(io.Writer) error{
		"owner": func(w io.Writer) error { return Owner(w, r, r.Kennel.Dogs[0].Owner, Records{}) },
		"dog":   func(w io.Writer) error { return Dog(w, r, r.Kennel.Dogs[0].Name, Records{}) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(b.String(), "Thornfield &lt;Autumn&gt;"); n != 1 {
			t.Errorf("the page of the %s has the ring name %d times", name, n)
		}
	}
}

func TestTheHandlersNotesAreNotForTheOwner(t *testing.T) {
	r := sample.Pictured(sample.Result())
	x := records("Handler", "Sorrel")
	x.Private = true
	of := func(page string) string { return string(writtenBy(t, pageReports(x)[page], r)) }
	for _, note := range []string{"note Handler", "length Handler"} {
		if !strings.Contains(of("dog"), note) {
			t.Errorf("the dog's page does not tell %q", note)
		}
		if strings.Contains(of("owner"), note) {
			t.Errorf("the owner is told %q", note)
		}
	}
	if !strings.Contains(of("owner"), "Enter Handler") {
		t.Error("the owner is not told what to enter")
	}
}

func TestPagesOfADogSayHowItIsWorked(t *testing.T) {
	r := sample.Pictured(sample.Result())
	r.Kennel.Dogs = slices.Clone(r.Kennel.Dogs)
	r.Kennel.Dogs[1].Owner = r.Kennel.Dogs[0].Owner
	for what, page := range map[string][]byte{
		"dog":   writtenBy(t, func(w io.Writer, r optimize.Result) error { return Dog(w, r, "Moss", Records{}) }, r),
		"owner": writtenBy(t, pageReports(Records{})["owner"], r),
		"sheet": writtenBy(t, Sheet, r),
	} {
		if want := "In coat with skull, about half, 15 min, by 2 March; and ears, 30 min, by 27 February"; what == "owner" && !strings.Contains(string(page), want) {
			t.Errorf("the page of the %s does not say %q", what, want)
		}
		if !strings.Contains(string(page), "trip out now, to 10 January; rest from 11 January. 88 at Brackenmere Terrier Club; rolling only: 61") {
			t.Errorf("the page of the %s does not say how Moss is worked", what)
		}
	}
}

// Only the month that holds today counts, and only the owner's dogs.
func TestAnOwnerIsToldTheHoursOfTheMonth(t *testing.T) {
	x := records("Handler", "Sorrel")
	x.Work = append(x.Work, kennel.Work{Dog: "Moss", On: sample.Date(1, 4), Minutes: 500, Duty: "bath"})
	page := string(writtenBy(t, pageReports(x)["owner"], sample.Pictured(sample.Result())))
	if !strings.Contains(page, `<data value="52.5">`) || !strings.Contains(page, "Hours spent in January 2027") {
		t.Error("42 and 10.5 minutes of January are not told")
	}
	if strings.Contains(page, `<data value="77">`) || strings.Contains(page, `<data value="500">`) {
		t.Error("work of another month or another owner's dog is told")
	}
}

func TestAPageOfNobodyIsRefused(t *testing.T) {
	for what, err := range map[string]error{
		"dog": Dog(io.Discard, sample.Result(), "Sorel", Records{}), "owner": Owner(io.Discard, sample.Result(), "", Records{}),
	} {
		var e *kennel.InputError
		if !errors.As(err, &e) || e.Field != what || e.Try == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
}
