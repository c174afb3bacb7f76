package reports

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

// told is a string in which everybody and everything has the name.
func told(name string) (kennel.Kennel, DogTold, WorkTold, []HistoryRow, optimize.Changes) {
	on := sample.Date(1, 4)
	dog := kennel.Dog{
		Name: name, Pattern: "wire-fox-terrier", Owner: name, Here: []kennel.Span{{From: on, Why: name}, {To: on + 9}},
		All: []kennel.Layer{{Share: 0.6, Pulled: on - 90}, {Share: 0.4, Pulled: on - 30}}, Areas: []kennel.AreaCoat{{Area: kennel.AreaBack, Layers: []kennel.Layer{{Share: 1, Pulled: on}}}},
		Duties: []kennel.Duty{{Name: name, Minutes: 10, Every: 1}, {Name: "trim", Minutes: 30, Before: &kennel.BeforeShow{From: 10, To: 0}}},
	}
	k := kennel.Kennel{
		Name: name, Dogs: []kennel.Dog{dog}, Hands: []kennel.Hands{{Name: name, Hours: [kennel.DaysAWeek]kennel.Hours{5, 4}, StripHoursADay: 3, Away: dog.Here}, {Name: name}},
		Shows: []kennel.Show{
			{Name: name, On: on + 90, Days: 1, Weight: 1.5, Chance: 0.4, EntriesClose: on + 60},
			{Name: name, On: on + 70, Days: 2, Weight: 3, Chance: 1, Away: &kennel.Span{From: on + 69, To: on + 72}, Dogs: []string{name, name}},
		},
	}
	work := []WorkRow{
		{7, kennel.Work{Dog: name, On: on, Hands: name, Minutes: 50, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 1.0 / 17}, {Area: kennel.AreaSkirtLine, Share: 1}}, Stopped: true, Note: name}},
		{6, kennel.Work{Dog: name, On: on, Minutes: 10, Duty: name}},
	}
	week := []kennel.DogDone{{Dog: name, Agreed: 1, Done: 2, AgreedMinutes: 60, DoneMinutes: 55, Stopped: 1, Areas: []kennel.AreaDone{{Area: kennel.AreaBack, Agreed: 0.1}}, Duties: []string{name}}, {Dog: name, Stranger: true}}
	history := []HistoryRow{{Change: 2, At: time.Date(2027, 1, 4, 9, 5, 0, 0, time.UTC), Who: name, What: name, Before: "{}", After: `{"dogs":[]}`, Undoes: 1}, {Change: 1, Who: name, What: name, Before: "{}", After: "{}", Undone: true}}
	at := optimize.SessionAt{On: on + 1, Start: 545, Hands: name}
	changes := optimize.Changes{
		From: on, Weeks: 2, PointsBefore: 10, PointsAfter: 9.25,
		Sessions:       []optimize.SessionChange{{Dog: name, Kind: optimize.SessionMoved, From: at, To: optimize.SessionAt{On: on + 7}}, {Dog: name, Kind: optimize.SessionAdded, To: at}, {Dog: name, Kind: optimize.SessionDropped, From: optimize.SessionAt{On: on + 70}}},
		Shares:         []optimize.ShareChange{{Week: on, Dog: name, Area: kennel.AreaSkirtLine, Before: 0.1}, {Week: on + 70, Dog: name, Area: kennel.AreaBack, After: 0.1}},
		Hours:          []optimize.HoursChange{{Week: on, Before: 5, After: 4, ThereBefore: 9, ThereAfter: 4}, {Week: on + 7, Before: 5, After: 5, ThereBefore: 9, ThereAfter: 9}},
		Readiness:      []optimize.ReadinessChange{{Dog: name, Show: name, On: on + 70, InBefore: true, InAfter: true, Before: 99, After: 79.9}, {Dog: name, Show: name, On: on + 80, InAfter: true, After: 50}, {Dog: name, Show: name, On: on + 90, InBefore: true, InAfter: true}},
		Dogs:           []optimize.DogChange{{Dog: name, InBefore: true, InAfter: true, Before: 5, After: 4.25}, {Dog: name, InBefore: true, Before: 5}},
		NewlyCannot:    []optimize.Cannot{{What: name, Why: name}},
		NoLongerCannot: []optimize.Cannot{{What: name, Why: name}},
	}
	return k, DogTold{Dog: dog, Shows: k.Shows, Work: work}, WorkTold{Day: on, Week: week, Rows: work}, history, changes
}

// lists are the lists of a told string in all their forms.
func lists(name string, l layout.Look) map[string][3]func(io.Writer) error {
	k, dog, work, history, changes := told(name)
	on := sample.Date(1, 4)
	return map[string][3]func(io.Writer) error{
		"dogs":    {func(w io.Writer) error { return DogList(w, k, l) }, func(w io.Writer) error { return DogListJSON(w, k) }, func(w io.Writer) error { return DogListCSV(w, k) }},
		"dog":     {func(w io.Writer) error { return DogShow(w, dog, on, l) }, func(w io.Writer) error { return DogShowJSON(w, dog) }, func(w io.Writer) error { return DogShowCSV(w, dog) }},
		"shows":   {func(w io.Writer) error { return ShowList(w, k, on, l) }, func(w io.Writer) error { return ShowListJSON(w, k, on) }, func(w io.Writer) error { return ShowListCSV(w, k) }},
		"hours":   {func(w io.Writer) error { return HoursList(w, k, l) }, func(w io.Writer) error { return HoursListJSON(w, k) }, func(w io.Writer) error { return HoursListCSV(w, k) }},
		"work":    {func(w io.Writer) error { return WorkList(w, work, l) }, func(w io.Writer) error { return WorkListJSON(w, work) }, func(w io.Writer) error { return WorkListCSV(w, work) }},
		"history": {func(w io.Writer) error { return History(w, history, l) }, func(w io.Writer) error { return HistoryJSON(w, history) }, func(w io.Writer) error { return HistoryCSV(w, history) }},
		"changes": {func(w io.Writer) error { return Changes(w, changes, on, l) }, func(w io.Writer) error { return ChangesJSON(w, changes) }, func(w io.Writer) error { return ChangesCSV(w, changes) }},
	}
}

func listed(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestEveryListCanBeReadWhateverTheNames(t *testing.T) {
	for _, columns := range []int{layout.LeastColumns, layout.Columns} {
		for _, who := range []string{"Sorrel", sample.TerminalName, sample.FormulaName, sample.HebrewName, sample.LongName, "\xff\xfe", "🐶👨‍👩‍👧", "", "a,b\"c", "+1"} {
			for name, forms := range lists(who, layout.Look{Columns: columns}) {
				page := listed(t, forms[0])
				if !utf8.ValidString(page) || strings.ContainsFunc(page, func(r rune) bool { return r != '\n' && unicode.Is(unicode.Cc, r) || r == '\u202e' }) {
					t.Errorf("%s with %q: what a terminal must not see", name, who)
				}
				for _, line := range strings.Split(page, "\n") {
					if say.Width(line) > columns {
						t.Errorf("%s with %q: %d columns of %d: %q", name, who, say.Width(line), columns, line)
					}
				}
				if !json.Valid([]byte(listed(t, forms[1]))) {
					t.Errorf("%s with %q: no JSON", name, who)
				}
				rows, err := csv.NewReader(strings.NewReader(listed(t, forms[2]))).ReadAll()
				if err != nil || len(rows) < 2 {
					t.Errorf("%s with %q: no CSV: %v", name, who, err)
				}
				for _, row := range rows {
					for _, c := range row {
						if c != "" && strings.ContainsAny(c[:1], "=+@\t\r") {
							t.Errorf("%s with %q: a spreadsheet takes %q for a formula", name, who, c)
						}
					}
				}
			}
		}
	}
}

func TestChangesSayWhatChangedAndWhoPays(t *testing.T) {
	_, _, _, _, c := told("Sorrel")
	page := strings.Join(strings.Fields(listed(t, func(w io.Writer) error { return Changes(w, c, sample.Date(1, 4), layout.Look{}) })), " ")
	for _, want := range []string{
		"The season loses 0.75 points: 10.00 before, 9.25 after.",
		"moved Sorrel Tue 5 Jan 09:05 Sorrel -> week of 11 January",
		"skirt line about 1 in 10 -> none",
		"5.0 of 9.0 4.0 of 4.0",
		"Sorrel 99 79", // 79.9 is no 80
		"Sorrel - 50",
		"1 other as before",
		"Sorrel 5.00 4.25 -0.75",
		"Sorrel 5.00 - -5.00",
		"and 1 more in later weeks",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("it does not say %q:\n%s", want, page)
		}
	}
	if strings.Contains(page, "18 January") {
		t.Errorf("hours that are as before are told:\n%s", page)
	}
	var none optimize.Changes
	if page := listed(t, func(w io.Writer) error { return Changes(w, none, 0, layout.Look{}) }); !strings.Contains(page, "worth the same") || !strings.Contains(page, "nobody") {
		t.Errorf("%s", page)
	}
}

// What is asked for first is told where there is nothing yet.
func TestEmptyListsSayHowToBegin(t *testing.T) {
	var k kennel.Kennel
	for want, write := range map[string]func(io.Writer) error{
		"tuckup dog add":   func(w io.Writer) error { return DogList(w, k, layout.Look{}) },
		"tuckup show add":  func(w io.Writer) error { return ShowList(w, k, sample.Date(1, 4), layout.Look{}) },
		"tuckup hours set": func(w io.Writer) error { return HoursList(w, k, layout.Look{}) },
		"tuckup work add":  func(w io.Writer) error { return WorkList(w, WorkTold{}, layout.Look{}) },
		"nothing":          func(w io.Writer) error { return History(w, nil, layout.Look{}) },
	} {
		if page := listed(t, write); !strings.Contains(page, want) {
			t.Errorf("got %q, want %q", page, want)
		}
	}
	for _, write := range []func(io.Writer) error{
		func(w io.Writer) error { return DogListJSON(w, k) }, func(w io.Writer) error { return ShowListJSON(w, k, sample.Date(1, 4)) },
		func(w io.Writer) error { return HoursListJSON(w, k) }, func(w io.Writer) error { return WorkListJSON(w, WorkTold{}) },
		func(w io.Writer) error { return HistoryJSON(w, nil) },
	} {
		if page := listed(t, write); page != "[]\n" {
			t.Errorf("got %q", page)
		}
	}
}
