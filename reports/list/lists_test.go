package list

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
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

// told is a string in which everybody and everything has the name.
func told(name string) (kennel.Kennel, DogRecord, WorkDone, []HistoryRow) {
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
	return k, DogRecord{Dog: dog, Shows: k.Shows, Work: work}, WorkDone{Day: on, Week: week, Rows: work}, history
}

// lists are the lists of a told string in all their forms.
func lists(name string, l layout.Look) map[string][3]func(io.Writer) error {
	k, dog, work, history := told(name)
	on := sample.Date(1, 4)
	return map[string][3]func(io.Writer) error{
		"dogs":    {func(w io.Writer) error { return Dogs(w, k, l) }, func(w io.Writer) error { return DogsJSON(w, k) }, func(w io.Writer) error { return DogsCSV(w, k) }},
		"dog":     {func(w io.Writer) error { return Dog(w, dog, on, l) }, func(w io.Writer) error { return DogJSON(w, dog) }, func(w io.Writer) error { return DogCSV(w, dog) }},
		"shows":   {func(w io.Writer) error { return Shows(w, k, on, l) }, func(w io.Writer) error { return ShowsJSON(w, k, on) }, func(w io.Writer) error { return ShowsCSV(w, k) }},
		"hours":   {func(w io.Writer) error { return Hours(w, k, l) }, func(w io.Writer) error { return HoursJSON(w, k) }, func(w io.Writer) error { return HoursCSV(w, k) }},
		"work":    {func(w io.Writer) error { return Work(w, work, l) }, func(w io.Writer) error { return WorkJSON(w, work) }, func(w io.Writer) error { return WorkCSV(w, work) }},
		"history": {func(w io.Writer) error { return History(w, history, l) }, func(w io.Writer) error { return HistoryJSON(w, history) }, func(w io.Writer) error { return HistoryCSV(w, history) }},
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

// What is asked for first is told where there is nothing yet.
func TestEmptyListsSayHowToBegin(t *testing.T) {
	var k kennel.Kennel
	for want, write := range map[string]func(io.Writer) error{
		"tuckup dog add":   func(w io.Writer) error { return Dogs(w, k, layout.Look{}) },
		"tuckup show add":  func(w io.Writer) error { return Shows(w, k, sample.Date(1, 4), layout.Look{}) },
		"tuckup hours set": func(w io.Writer) error { return Hours(w, k, layout.Look{}) },
		"tuckup work add":  func(w io.Writer) error { return Work(w, WorkDone{}, layout.Look{}) },
		"nothing":          func(w io.Writer) error { return History(w, nil, layout.Look{}) },
	} {
		if page := listed(t, write); !strings.Contains(page, want) {
			t.Errorf("got %q, want %q", page, want)
		}
	}
	for _, write := range []func(io.Writer) error{
		func(w io.Writer) error { return DogsJSON(w, k) }, func(w io.Writer) error { return ShowsJSON(w, k, sample.Date(1, 4)) },
		func(w io.Writer) error { return HoursJSON(w, k) }, func(w io.Writer) error { return WorkJSON(w, WorkDone{}) },
		func(w io.Writer) error { return HistoryJSON(w, nil) },
	} {
		if page := listed(t, write); page != "[]\n" {
			t.Errorf("got %q", page)
		}
	}
}
