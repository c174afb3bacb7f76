package reports

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/tally"
)

type dataReport func(io.Writer, optimize.Result) error

var csvReports = map[string]dataReport{"plan": PlanCSV, "readiness": ReadinessCSV, "workload": WorkloadCSV, "balance": balanceCSV, "by owner": byOwnerCSV, "sheet": SheetCSV}

func byOwnerCSV(w io.Writer, r optimize.Result) error { return WorkloadByCSV(w, r, tally.PartOwner) }

func bytesOf(t *testing.T, f dataReport, r optimize.Result) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := f(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// RFC 4180: lines end in CRLF, every row has as many fields as the header, quotes are doubled.
func TestCSVReadsBackWithHostileNames(t *testing.T) {
	for name, report := range csvReports {
		for _, who := range []string{"Sorrel", sample.FormulaName, sample.TerminalName, "+1", "-1", "@x", "\tx", "\rx", "a,b\"c", "＝x", "  =x", "\x00"} {
			data := bytesOf(t, report, sample.Hostile(who))
			if bytes.Contains(bytes.ReplaceAll(data, []byte("\r\n"), nil), []byte("\n")) {
				t.Errorf("%s with %q has a line end that is not CRLF", name, who)
			}
			rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
			if err != nil {
				t.Fatalf("%s with %q: %v", name, who, err)
			}
			if len(rows) < 2 {
				t.Fatalf("%s has no rows", name)
			}
			found := false
			for _, row := range rows {
				for _, c := range row {
					found = found || strings.HasPrefix(c, layout.Cell(who))
					if c == "" {
						continue
					}
					if first := strings.TrimLeft(c, " "); first != "" && strings.ContainsAny(first[:1], "=+-@\t\r\n") {
						t.Errorf("%s: a spreadsheet would run %q", name, c)
					}
				}
			}
			if !found {
				t.Errorf("%s lost the name %q", name, who)
			}
		}
	}
}

func TestCellsAreSafeAndOtherwiseUntouched(t *testing.T) {
	for in, want := range map[string]string{
		"Sorrel": "Sorrel", "": "", "=1": "'=1", "+1": "'+1", "-1": "'-1", "@a": "'@a", "\ta": "'\ta", "\ra": "'\na",
		"a=b": "a=b", " =b": "' =b", "'=a": "'=a", "a\r\nb": "a\nb", "1,5": "1,5", "\xff": "\uFFFD",
	} {
		if got := layout.Cell(in); got != want {
			t.Errorf("cell(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestWorkloadAddsUpToThePlan(t *testing.T) {
	r := sample.Result()
	var plan planDoc
	if err := json.Unmarshal(bytesOf(t, PlanJSON, r), &plan); err != nil {
		t.Fatal(err)
	}
	var work workloadDoc
	if err := json.Unmarshal(bytesOf(t, WorkloadJSON, r), &work); err != nil {
		t.Fatal(err)
	}
	sums, hands := map[string]float64{}, map[string]float64{}
	var all float64
	for _, l := range work.Lines {
		sums[l.Week] += l.Minutes
		hands[l.Hands] += l.Minutes
		all += l.Minutes
	}
	if math.Abs(all-work.Minutes) > 1e-6 {
		t.Errorf("lines add up to %v, the total says %v", all, work.Minutes)
	}
	for _, w := range plan.Weeks {
		var want float64
		for _, d := range w.Dogs {
			want += d.Minutes + d.SetUp
		}
		for _, d := range w.Duties {
			want += d.Minutes
		}
		if math.Abs(sums[w.Week]-want) > 1e-6 {
			t.Errorf("week %s: workload %v minutes, plan %v", w.Week, sums[w.Week], want)
		}
		if math.Abs(60*w.Planned-want) > 0.005 {
			t.Errorf("week %s: planned %v hours, but its parts are %v minutes", w.Week, w.Planned, want)
		}
	}
	// The assistant is given 15.333333 of the close work and both duties.
	if got := hands["Assistant"]; math.Abs(got-35.33) > 1e-6 {
		t.Errorf("the assistant has %v minutes, want 35.33", got)
	}
	rows, err := csv.NewReader(bytes.NewReader(bytesOf(t, WorkloadCSV, r))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var fromCSV float64
	for _, row := range rows[1:] {
		m, err := strconv.ParseFloat(row[len(row)-1], 64)
		if err != nil {
			t.Fatal(err)
		}
		fromCSV += m
	}
	if math.Abs(fromCSV-work.Minutes) > 1e-6 {
		t.Errorf("CSV adds up to %v, JSON to %v", fromCSV, work.Minutes)
	}
}

func TestPlanJSONKeepsItsNames(t *testing.T) {
	var doc map[string]any
	if err := json.Unmarshal(bytesOf(t, PlanJSON, sample.Result()), &doc); err != nil {
		t.Fatal(err)
	}
	has := func(where string, v any, keys ...string) map[string]any {
		m, ok := v.(map[string]any)
		if !ok {
			t.Fatalf("%s is %T", where, v)
		}
		for _, k := range keys {
			if _, ok := m[k]; !ok {
				t.Errorf("%s has no %q", where, k)
			}
		}
		return m
	}
	first := func(v any) any { return v.([]any)[0] }
	has("plan", doc, "season", "weeks", "readiness", "cannot", "gathered", "kennel", "on", "tight", "outlooks")
	season := has("season", doc["season"], "objective", "bound", "gap", "seconds", "hour_price")
	has("hour_price", first(season["hour_price"]), "week", "hands", "points_per_hour")
	week := has("week", first(doc["weeks"]), "week", "hours", "planned", "dogs", "duties", "hands")
	dog := has("dog", first(week["dogs"]), "dog", "sessions", "minutes", "set_up", "areas", "lift", "tool", "why")
	area := has("area", first(dog["areas"]), "area", "share", "minutes")
	has("readiness", first(doc["readiness"]), "dog", "show", "on", "score", "worst_area", "worst_score", "why")
	way := has("way", doc["ways"].([]any)[1], "dog", "way", "held", "words", "spells", "other")
	has("spell", first(way["spells"]), "way", "from", "to")
	other := has("other", way["other"], "way", "shows", "weeks_in_coat", "weeks_in_coat_other")
	has("show of the other way", first(other["shows"]), "show", "on", "score", "other")
	cure := has("cure", has("readiness", first(doc["readiness"]))["cure"], "words", "score", "work")
	has("work of a cure", first(cure["work"]), "area", "share", "minutes", "by")
	has("cannot", first(doc["cannot"]), "what", "why")
	has("gathered", doc["gathered"], "points")
	if area["share"] != 0.058824 || dog["minutes"] != 30.34 || week["week"] != "2027-01-04" {
		t.Errorf("share %v, minutes %v, week %v", area["share"], dog["minutes"], week["week"])
	}
	gap := (season["bound"].(float64) - season["objective"].(float64)) / season["bound"].(float64)
	if math.Abs(gap-season["gap"].(float64)) > 1e-6 {
		t.Errorf("gap %v, but objective and bound give %v", season["gap"], gap)
	}
}

func TestAnEmptyPlanHasListsNotNull(t *testing.T) {
	for name, f := range map[string]dataReport{"plan": PlanJSON, "readiness": ReadinessJSON, "workload": WorkloadJSON} {
		data := string(bytesOf(t, f, optimize.Result{}))
		if strings.Contains(strings.ReplaceAll(data, `"tight": null`, ""), "null") {
			t.Errorf("%s writes null: %s", name, data)
		}
	}
}

func TestNumbersThatAreNotFiniteAreAnError(t *testing.T) {
	r := sample.Result()
	r.Season.Bound = math.Inf(1)
	if err := PlanJSON(io.Discard, r); err == nil {
		t.Error("an infinite bound was written")
	}
}

func TestTheSamePlanGivesTheSameBytes(t *testing.T) {
	for name, f := range csvReports {
		if !bytes.Equal(bytesOf(t, f, sample.Result()), bytesOf(t, f, sample.Result())) {
			t.Errorf("%s differs", name)
		}
	}
	if !bytes.Equal(bytesOf(t, WorkloadJSON, sample.Result()), bytesOf(t, WorkloadJSON, sample.Result())) {
		t.Error("workload JSON differs")
	}
}

// The sheet's rows hold all the minutes of the days and nothing else.
func TestTheSheetsMinutesAreThoseOfTheDays(t *testing.T) {
	r := sample.Result()
	rows, err := csv.NewReader(bytes.NewReader(bytesOf(t, SheetCSV, r))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var sum, want float64
	for _, row := range rows[1:] {
		if last := row[len(row)-1]; last != "" {
			m, err := strconv.ParseFloat(last, 64)
			if err != nil {
				t.Fatal(err)
			}
			sum += m
		}
	}
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Items {
				switch i.Kind {
				case optimize.ItemTravel:
				case optimize.ItemSession:
					want += float64(i.SetUp)
					for _, a := range i.Areas {
						want += float64(a.Minutes)
					}
				default:
					want += float64(i.End - i.Start)
				}
			}
		}
	}
	if math.Abs(sum-want) > 0.05 || want == 0 {
		t.Errorf("CSV has %v minutes, the days %v", sum, want)
	}
}

func TestTheDaysAreInJSONUnderTheirNames(t *testing.T) {
	for name, f := range map[string]dataReport{"plan": PlanJSON, "sheet": SheetJSON} {
		var doc struct {
			Days []struct {
				Date  string
				Hands []struct {
					Name  string
					Items []struct {
						Start, End, Kind, Dog, What, Why string
						Areas                            []struct {
							Area           string
							Share, Minutes float64
						}
					}
				}
			}
			LeftOut []struct{ Week, Dog, Area, Duty, Why string } `json:"left_out"`
		}
		if err := json.Unmarshal(bytesOf(t, f, sample.Result()), &doc); err != nil {
			t.Fatal(err)
		}
		if len(doc.Days) != 7 || len(doc.LeftOut) != 2 {
			t.Fatalf("%s: %d days, %d left out", name, len(doc.Days), len(doc.LeftOut))
		}
		first := doc.Days[0]
		if first.Date != "2027-01-05" || len(first.Hands) != 2 || first.Hands[0].Name != "Handler" || len(first.Hands[0].Items) != 3 {
			t.Fatalf("%s: the first day is %+v", name, first)
		}
		s := first.Hands[0].Items[0]
		if s.Start != "09:00" || s.End != "09:43" || s.Kind != "session" || s.Dog != "Sorrel" || s.Why != "Brackenmere in 10 weeks" ||
			len(s.Areas) != 2 || s.Areas[0].Area != "skirt line" || s.Areas[0].Share != 0.058824 || s.Areas[0].Minutes != 10.01 {
			t.Errorf("%s: the first session is %+v", name, s)
		}
		var kinds []string
		for _, d := range doc.Days {
			for _, h := range d.Hands {
				for _, i := range h.Items {
					kinds = append(kinds, i.Kind)
				}
			}
		}
		if got, want := strings.Join(kinds, " "), "session break session duty bath duty session travel session"; got != want {
			t.Errorf("%s: kinds %s, want %s", name, got, want)
		}
	}
}
