package reports

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/tally"
)

// withAShow is the sample with a show of two days, the first of them in its first week, for both of its dogs, which are of one breed.
func withAShow() optimize.Result {
	r := sample.Result()
	day := func(f float64) kennel.Figure { return kennel.Figure{Value: f, Low: f, High: f} }
	r.Patterns = kennel.Patterns{"border-terrier": {
		Name: "border-terrier", Title: "Border Terrier", Pack: []string{"comb", "brush"},
		Finish: []kennel.FinishLine{
			{Name: "feet", Work: kennel.SkillClose, Minutes: day(15), From: day(7), To: day(3), Lasts: day(7)},
			{Name: "combed out", Work: kennel.SkillFurnishings, Minutes: day(10)},
			{Name: "powder in and out", Work: kennel.SkillFurnishings, Minutes: day(12)},
		},
	}}
	for i := range r.Kennel.Dogs {
		r.Kennel.Dogs[i].Pattern = "border-terrier"
	}
	r.Kennel.Dogs[1].Duties = []kennel.Duty{{Name: "powder in and out", LeaveOut: true}}
	r.Kennel.Shows = append(r.Kennel.Shows,
		kennel.Show{Name: "Quernby Winter Show", On: sample.Date(1, 10), Days: 2, Chance: 1, Dogs: []string{"Sorrel", "Moss"}},
		kennel.Show{Name: "Thrushcombe Open", On: sample.Date(1, 9), Chance: 0.3, Dogs: []string{"Sorrel"}})
	return r
}

// What is done at shows is work of its own: in all sums, by the pair of hands that goes, and not of the hours at home.
func TestWorkAtShowsIsInTheHoursAndTakesNoneOfThoseAtHome(t *testing.T) {
	r := withAShow()
	var home, work workloadDoc
	if err := json.Unmarshal(bytesOf(t, WorkloadJSON, sample.Result()), &home); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(bytesOf(t, WorkloadJSON, r), &work); err != nil {
		t.Fatal(err)
	}
	const sorrel, moss = 22., 10. // minutes on each of the two days
	if work.AtShows != 2*(sorrel+moss) || math.Abs(work.Minutes-home.Minutes-work.AtShows) > 1e-9 || home.AtShows != 0 {
		t.Errorf("%v minutes, %v of them at shows; %v without the show", work.Minutes, work.AtShows, home.Minutes)
	}
	shows := map[string]map[string]float64{"week": {}, "dog": {}, "owner": {}, "hands": {}, "area": {}}
	for name, list := range map[string][]sumDoc{"week": work.Parts.Week, "dog": work.Parts.Dog, "owner": work.Parts.Owner, "hands": work.Parts.Hands, "area": work.Parts.Area} {
		for _, s := range list {
			if s.Minutes != layout.Rounded(s.Pulling+s.SetUp+s.Duties+s.Shows, 2) {
				t.Errorf("by %s, %s: %v is not the sum of %+v", name, s.Name, s.Minutes, s)
			}
			if s.Shows > 0 {
				shows[name][s.Name] = s.Shows
			}
		}
	}
	for name, want := range map[string]map[string]float64{
		"week": {"2027-01-04": sorrel + moss, "2027-01-11": sorrel + moss}, "dog": {"Sorrel": 2 * sorrel, "Moss": 2 * moss},
		"owner": {"R. Calloway": 2 * sorrel, "": 2 * moss}, "hands": {"Handler": 2 * (sorrel + moss)}, "area": {"(at shows)": 2 * (sorrel + moss)},
	} {
		if len(shows[name]) != len(want) {
			t.Errorf("by %s: %v, want %v", name, shows[name], want)
		}
		for key, minutes := range want {
			if shows[name][key] != minutes {
				t.Errorf("by %s, %s: %v minutes at shows, want %v", name, key, shows[name][key], minutes)
			}
		}
	}
	for _, x := range []struct {
		home, with []tally.Line
	}{{tally.Lines(sample.Result()), tally.AtHome(tally.Lines(r))}} {
		if len(x.home) != len(x.with) {
			t.Errorf("%d lines at home, %d without the show", len(x.with), len(x.home))
		}
	}
	csv := string(bytesOf(t, WorkloadCSV, r))
	if !strings.Contains(csv, "2027-01-11,Sorrel,R. Calloway,,powder in and out,Handler,show,12.00\r\n") {
		t.Errorf("no line of the show's second day in %s", csv)
	}
	text := pageOf(t, Workload, r, layout.Look{Columns: layout.Columns})
	for _, line := range []string{"  4 January      1.06    0.40    0.33     1.79   0.53  2.33  of 27.00 =-------------------", "  (at shows)     0.00    0.00    0.00     0.00   1.07  1.07"} {
		if !strings.Contains(text, line+"\n") {
			t.Errorf("no line %q in\n%s", line, text)
		}
	}
	if plan := pageOf(t, Plan, r, layout.Look{Columns: layout.Columns}); !strings.Contains(plan, "At the shows, beside these hours: 64 min at Quernby Winter Show (Sun 10 Jan).") {
		t.Errorf("the plan does not say what is done at the show:\n%s", plan)
	}
}

// Programs read what is done at the shows, and what to pack, as people do: the plan has all of its shows, the sheet those near.
func TestPlanAndSheetSayForProgramsWhatIsDoneAndPackedAtShows(t *testing.T) {
	r := withAShow()
	r.Kennel.Shows[1].On, r.Kennel.Shows[1].Chance = sample.Date(1, 17), 1 // in the plan's weeks, beyond its days
	var plan planDoc
	if err := json.Unmarshal(bytesOf(t, PlanJSON, r), &plan); err != nil {
		t.Fatal(err)
	}
	var sheet sheetDoc
	if err := json.Unmarshal(bytesOf(t, SheetJSON, r), &sheet); err != nil {
		t.Fatal(err)
	}
	if len(plan.AtShows) != 2 || len(sheet.AtShows) != 1 {
		t.Fatalf("%d shows in the plan, %d on the sheet", len(plan.AtShows), len(sheet.AtShows))
	}
	for _, s := range []atShowDoc{plan.AtShows[1], sheet.AtShows[0]} {
		got, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		const want = `{"show":"Quernby Winter Show","on":"2027-01-10","days":["2027-01-10","2027-01-11"],"hands":"Handler","minutes":32,"dogs":[` +
			`{"dog":"Sorrel","minutes":22,"work":[{"work":"combed out","minutes":10},{"work":"powder in and out","minutes":12}],"pack":["comb","brush"]},` +
			`{"dog":"Moss","minutes":10,"work":[{"work":"combed out","minutes":10}],"pack":["comb","brush"]}],` +
			`"pack":["entry passes and papers","show leads","water and bowls","bench or crate covers","table and apron","bags and towels"]}`
		if string(got) != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
	text := pageOf(t, Sheet, r, layout.Look{Columns: layout.Columns})
	for _, line := range []string{
		"  Quernby Winter Show, Sun 10 Jan: 32 min before the ring, on each of its days",
		"    [ ] Sorrel: combed out 10 min, powder in and out 12 min; pack comb, brush",
		"    [ ] Moss: combed out 10 min; pack comb, brush",
		"    Sorrel and Moss may be in one ring: all are ready before the first goes in, 32 min together",
	} {
		if !strings.Contains(text, line+"\n") {
			t.Errorf("no line %q in\n%s", line, text)
		}
	}
}
