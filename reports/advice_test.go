package reports

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/learn"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

func sampleAhead(name string) []optimize.Ahead {
	return []optimize.Ahead{
		{Dog: name, State: kennel.StateInCoat, Score: 91, Earliest: sample.Date(1, 5), Likely: 0.9, Windows: []kennel.Window{{From: sample.Date(1, 5), To: sample.Date(2, 7)}}, Most: 99, MostOn: sample.Date(1, 11)},
		{Dog: name, State: kennel.StateComingIn, Score: 12, Most: 64, MostOn: sample.Date(2, 1), WorstArea: kennel.AreaRibs, Why: "58 % is under 11 weeks"},
		{Dog: name, State: kennel.StateInCoat, Score: 80, Earliest: sample.Date(1, 5), Likely: 0.5, Most: 79, MostOn: sample.Date(1, 4)},
	}
}

// sampleMissed is a part of sessions that were missed.
var sampleMissed = learn.Estimate{Value: 0.14, SD: 0.3, Low: 0.08, High: 0.22, Told: 0.1, Records: 40}

func sampleLearned(name string) []learn.Dog {
	return []learn.Dog{
		{
			Dog: name, Growth: learn.Estimate{Value: 1.126, SD: 0.05, Low: 1.03, High: 1.22, Records: 5, Told: 1},
			Areas: []learn.Area{{Area: kennel.AreaRibs, Growth: learn.Estimate{Value: 1.1, SD: 0.06, Low: 1, High: 1.2, Records: 3}}},
			Pace:  learn.Estimate{Value: 1, SD: 0.2, Low: 0.7, High: 1.4, Told: 1},
			Dead:  learn.Estimate{Value: 0.8, SD: 0.1, Low: 0.7, High: 0.9, Records: 4},
			Records: []learn.Record{
				{On: sample.Date(1, 4), Area: kennel.AreaRibs, What: learn.WhatLength, Seen: 400, Expected: 42, Trust: 0.01},
				{On: sample.Date(1, 4), What: learn.WhatMinutes, Seen: 40, Expected: 42, Trust: 1},
			},
			Unused: []learn.Unused{{On: sample.Date(1, 3), Area: kennel.AreaEars, What: learn.WhatShowable, Why: "its pattern has no such area"}},
		},
		{Dog: "Quill", Growth: learn.Estimate{Value: 1, SD: 0.1, Low: 0.9, High: 1.1, Told: 1}, Pace: learn.Estimate{Value: 1, Told: 1}},
	}
}

// Every dog is named on the first line that is its own, also one whose growth has no records.
func TestLearnedNamesEveryDogWithRecords(t *testing.T) {
	dogs := append(sampleLearned("Sorrel"), learn.Dog{Dog: "Rowan", Pace: learn.Estimate{Value: 1.2, Low: 1, High: 1.4, Told: 1, Records: 3}})
	var b bytes.Buffer
	if err := Learned(&b, "Thornfield", dogs, sampleMissed, sample.Date(1, 5), layout.Look{}); err != nil {
		t.Fatal(err)
	}
	if page := b.String(); !regexp.MustCompile(`(?m)^  Rowan +pace +1.00`).MatchString(page) || strings.Count(page, "Sorrel  growth") != 1 {
		t.Error(page)
	}
}

// advices are the reports that are not of a plan, by name: text, JSON and CSV with somebody's name in them.
var advices = map[string][3]func(io.Writer, string, layout.Look) error{
	"entries": {
		func(w io.Writer, n string, l layout.Look) error {
			return Entries(w, n, sample.Entries(n), sample.Date(1, 5), l)
		},
		func(w io.Writer, n string, _ layout.Look) error {
			return EntriesJSON(w, n, sample.Entries(n), sample.Date(1, 5))
		},
		func(w io.Writer, n string, _ layout.Look) error {
			return EntriesCSV(w, sample.Entries(n), sample.Date(1, 5))
		},
	},
	"ahead": {
		func(w io.Writer, n string, l layout.Look) error {
			return Ahead(w, n, sampleAhead(n), sample.Date(1, 5), l)
		},
		func(w io.Writer, n string, _ layout.Look) error {
			return AheadJSON(w, n, sampleAhead(n), sample.Date(1, 5))
		},
		func(w io.Writer, n string, _ layout.Look) error { return AheadCSV(w, sampleAhead(n)) },
	},
	"changes": {
		func(w io.Writer, n string, l layout.Look) error {
			return Changes(w, sampleChanges(n), sample.Date(1, 4), l)
		},
		func(w io.Writer, n string, _ layout.Look) error { return ChangesJSON(w, sampleChanges(n)) },
		func(w io.Writer, n string, _ layout.Look) error { return ChangesCSV(w, sampleChanges(n)) },
	},
	"learned": {
		func(w io.Writer, n string, l layout.Look) error {
			return Learned(w, n, sampleLearned(n), sampleMissed, sample.Date(1, 5), l)
		},
		func(w io.Writer, n string, _ layout.Look) error {
			return LearnedJSON(w, n, sampleLearned(n), sampleMissed, sample.Date(1, 5))
		},
		func(w io.Writer, n string, _ layout.Look) error { return LearnedCSV(w, sampleLearned(n), sampleMissed) },
	},
}

func adviceOf(t *testing.T, f func(io.Writer, string, layout.Look) error, name string, l layout.Look) string {
	t.Helper()
	var b bytes.Buffer
	if err := f(&b, name, l); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestAdviceFitsThePageAndReadsBackWhateverTheNames(t *testing.T) {
	for report, as := range advices {
		for _, who := range []string{"Sorrel", sample.TerminalName, sample.FormulaName, sample.HebrewName, sample.LongName, "\xff\xfe", ""} {
			page := adviceOf(t, as[0], who, layout.Look{Columns: layout.LeastColumns})
			if !utf8.ValidString(page) || strings.ContainsAny(page, "\x1b\u202e") {
				t.Errorf("%s lets %q through", report, who)
			}
			for _, line := range strings.Split(page, "\n") {
				if say.Width(line) > layout.LeastColumns {
					t.Errorf("%s with %q: %d columns: %q", report, who, say.Width(line), line)
				}
			}
			if !json.Valid([]byte(adviceOf(t, as[1], who, layout.Look{}))) {
				t.Errorf("%s with %q is not JSON", report, who)
			}
			rows, err := csv.NewReader(strings.NewReader(adviceOf(t, as[2], who, layout.Look{}))).ReadAll()
			if err != nil || len(rows) < 3 {
				t.Errorf("%s with %q: %d rows, %v", report, who, len(rows), err)
			}
			for _, row := range rows {
				for _, c := range row {
					if strings.HasPrefix(strings.TrimLeft(c, " "), "=") {
						t.Errorf("%s: a spreadsheet would run %q", report, c)
					}
				}
			}
		}
	}
}

func TestAdviceSaysWhatTheHandlerNeeds(t *testing.T) {
	for report, wants := range map[string][]string{
		"entries": {"CLOSES Tue 2 Mar Sorrel on Sat 20 Mar, hoped for, 50 %", "Sorrel wait 91 80 to 95 Sorrel would no longer be in coat", "NO CLOSING DAY Far off", "Sorrel wait it is after the weeks planned"},
		"ahead": {
			"Sorrel 91 today 90 % 5 Jan to 7 Feb", "Sorrel 12 not in these weeks: at best 64 in the week of 1 February (ribs: 58 % is under 11 weeks)",
			"Sorrel 80 today 50 % not at the end of this week any more",
		},
		"learned": {
			"Sorrel growth 1.00 1.13 1.03 to 1.22, from 5 records, new", "ribs 1.10 1.00 to 1.20, from 3 records", "1 dog without records",
			"Sorrel Mon 4 Jan length, ribs 400 mm, expected about 42 mm", "Sorrel Sun 3 Jan showable, ears its pattern has no such area",
		},
	} {
		page := strings.Join(strings.Fields(adviceOf(t, advices[report][0], "Sorrel", layout.Look{})), " ")
		for _, want := range wants {
			if !strings.Contains(page, want) {
				t.Errorf("%s does not say %q:\n%s", report, want, page)
			}
		}
		if strings.Contains(page, "40 min") {
			t.Errorf("%s tells a record that is in line: %s", report, page)
		}
	}
	var b bytes.Buffer
	if err := Entries(&b, "Thornfield", nil, sample.Date(1, 5), layout.Look{}); err != nil || !strings.Contains(b.String(), "No show ahead is only hoped for.") {
		t.Errorf("%q, %v", b.String(), err)
	}
}

func TestADogThatNeedsItsEarsDoneIsNotToldToWait(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"text": func(w io.Writer) error {
			return Entries(w, "Thornfield", sample.Entries("Quill"), sample.Date(1, 5), layout.Look{})
		},
		"csv": func(w io.Writer) error { return EntriesCSV(w, sample.Entries("Quill"), sample.Date(1, 5)) },
		"json": func(w io.Writer) error {
			return EntriesJSON(w, "Thornfield", sample.Entries("Quill"), sample.Date(1, 5))
		},
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"do the", "ears, 30 min, by 27 February"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s does not say %q:\n%s", name, want, b.String())
			}
		}
	}
}
