package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"testing"

	nethtml "golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/desk/visit"
	"tuckup/reports/html"
	"tuckup/reports/layout"
	"tuckup/reports/tally"
)

// figures is one row of a table of a page: its first cell in words, and each figure under its column.
type figures struct {
	name   string
	shown  map[string]string
	values map[string]float64
}

// figuresUnder are the rows of the tables in the section with the id, totals left out.
func figuresUnder(t *testing.T, page, id string) (rows []figures) {
	t.Helper()
	doc, err := nethtml.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	for n := range doc.Descendants() {
		if n.DataAtom == atom.Section && attribute(n, "aria-labelledby") == id {
			for table := range n.Descendants() {
				if table.DataAtom == atom.Table {
					rows = append(rows, rowsOf(t, table)...)
				}
			}
		}
	}
	if len(rows) == 0 {
		t.Fatalf("no figures under %s", id)
	}
	return rows
}

func rowsOf(t *testing.T, table *nethtml.Node) (rows []figures) {
	t.Helper()
	var columns []string
	for n := range table.Descendants() {
		if n.DataAtom == atom.Th && attribute(n, "scope") == "col" {
			columns = append(columns, said(n))
		}
		if n.DataAtom != atom.Tr || n.Parent.DataAtom != atom.Tbody || attribute(n, "class") == "total" {
			continue
		}
		row, i := figures{shown: map[string]string{}, values: map[string]float64{}}, 0
		for c := range n.ChildNodes() {
			if c.Type != nethtml.ElementNode {
				continue
			}
			column := columns[i]
			row.shown[column] = said(c)
			if i == 0 {
				row.name = said(c)
			}
			if d := c.FirstChild; d != nil && d.DataAtom == atom.Data {
				v, err := strconv.ParseFloat(attribute(d, "value"), 64)
				if err != nil {
					t.Fatal(err)
				}
				row.values[column] = v
				if wrong := shownWrong(column, said(d), v); wrong != "" {
					t.Errorf("%s of %s: %s", column, row.name, wrong)
				}
			}
			i++
		}
		rows = append(rows, row)
	}
	return rows
}

// shownWrong says how what people read differs from the value behind it: by more than the rounding of its last digit
// in its unit, or by rounding a readiness up to enough or a chance to certainty.
func shownWrong(column, shown string, v float64) string {
	number, unit, _ := strings.Cut(shown, " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return "no number: " + shown
	}
	_, decimals, _ := strings.Cut(number, ".")
	switch {
	case unit == "%":
		v *= 100
		if v > 0 && v < 100 {
			v = min(max(v, 1), 99) // only what is certain is shown as such
		}
	case strings.Contains("pulling set-up duties shows all hours need there are at home", column):
		v /= 60
	case unit == "" && len(decimals) == 0 && v < float64(kennel.ReadyScore) && x >= float64(kennel.ReadyScore):
		return fmt.Sprintf("%v is shown as %s", v, shown)
	case unit == "" && len(decimals) == 0 && v < float64(kennel.ReadyScore):
		v = min(v, float64(kennel.ReadyScore)-1)
	}
	if math.Abs(x-v) > 0.5*math.Pow10(-len(decimals))+1e-6 {
		return fmt.Sprintf("%v is shown as %s", v, shown)
	}
	return ""
}

func attribute(n *nethtml.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// said is all that is written inside a node.
func said(n *nethtml.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == nethtml.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

func fromJSON[T any](t *testing.T, write func(io.Writer) error) (doc T) {
	t.Helper()
	if err := json.Unmarshal([]byte(written(t, write)), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

func fromCSV(t *testing.T, write func(io.Writer) error) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(written(t, write))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// same compares a figure in three places; CSV gives it as written.
func same(t *testing.T, what string, page, fromJSON float64, fromCSV string) {
	t.Helper()
	c, err := strconv.ParseFloat(fromCSV, 64)
	if err != nil || page != fromJSON || c != fromJSON {
		t.Errorf("%s: the page has %v, JSON %v, CSV %q", what, page, fromJSON, fromCSV)
	}
}

type sum struct {
	Name                     string
	Pulling, Duties, Minutes float64
	Shows                    float64
	SetUp                    float64  `json:"set_up"`
	ThereAre                 *float64 `json:"there_are"`
}

// Every figure of the demo's pages is the one that JSON and CSV give.
func TestTheDemosPagesJSONAndCSVHaveTheSameFigures(t *testing.T) {
	long(t, "plans the demo")
	r := planOf(t, "--demo")
	compareWorkload(t, r)
	compareBalance(t, r)
	compareReadiness(t, r)
	comparePrices(t, r)
	for _, d := range r.Kennel.Dogs {
		compareDog(t, r, d.Name)
	}
}

func compareWorkload(t *testing.T, r optimize.Result) {
	page := written(t, workloadWriters(r, layout.Look{}, "").html)
	all := fromJSON[struct{ By map[string][]sum }](t, workloadWriters(r, layout.Look{}, "").json)
	for _, by := range tally.Parts() {
		if by == tally.PartBalance {
			continue
		}
		rows := figuresUnder(t, page, "by-"+string(by))
		sums, cells := all.By[string(by)], fromCSV(t, workloadWriters(r, layout.Look{}, by).csv)
		one := fromJSON[[]sum](t, workloadWriters(r, layout.Look{}, by).json)
		if len(rows) != len(sums) || len(rows) != len(cells) || len(rows) != len(one) {
			t.Fatalf("by %s: %d rows on the page, %d and %d in JSON, %d in CSV", by, len(rows), len(sums), len(one), len(cells))
		}
		for i, row := range rows {
			what := fmt.Sprintf("by %s, %s: ", by, sums[i].Name)
			if by != tally.PartWeek && row.name != sums[i].Name || cells[i][0] != sums[i].Name || one[i].Minutes != sums[i].Minutes {
				t.Errorf("%sthe page has %s, CSV %s", what, row.name, cells[i][0])
			}
			same(t, what+"pulling", row.values["pulling"], sums[i].Pulling, cells[i][1])
			same(t, what+"set-up", row.values["set-up"], sums[i].SetUp, cells[i][2])
			same(t, what+"duties", row.values["duties"], sums[i].Duties, cells[i][3])
			same(t, what+"shows", row.values["shows"], sums[i].Shows, cells[i][4])
			same(t, what+"all", row.values["all"], sums[i].Minutes, cells[i][5])
			if there := sums[i].ThereAre; there != nil {
				if home := sums[i].Minutes - sums[i].Shows; math.Abs(row.values["at home"]-home) > 1e-6 {
					t.Errorf("%s%v minutes at home, want %v", what, row.values["at home"], home)
				}
				same(t, what+"there are", row.values["there are"], *there, cells[i][6])
			}
		}
	}
}

func compareBalance(t *testing.T, r optimize.Result) {
	page := written(t, workloadWriters(r, layout.Look{}, "").html)
	doc := fromJSON[struct {
		Dogs []struct {
			Dog                  string
			Minutes, Need, Score float64
			PartOfHours          float64 `json:"part_of_hours"`
			PartOfNeed           float64 `json:"part_of_need"`
		}
		Worst string
	}](t, workloadWriters(r, layout.Look{}, tally.PartBalance).json)
	rows, cells := figuresUnder(t, page, "balance"), fromCSV(t, workloadWriters(r, layout.Look{}, tally.PartBalance).csv)
	if len(rows) != len(r.Kennel.Dogs) || len(rows) != len(doc.Dogs) || len(rows) != len(cells) {
		t.Fatalf("%d rows, %d in JSON, %d in CSV", len(rows), len(doc.Dogs), len(cells))
	}
	for i, row := range rows {
		d := doc.Dogs[i]
		same(t, d.Dog+"'s hours", row.values["hours"], d.Minutes, cells[i][1])
		same(t, d.Dog+"'s need", row.values["need"], d.Need, cells[i][2])
		same(t, d.Dog+"'s share of hours", row.values["share of hours"], d.PartOfHours, cells[i][3])
		same(t, d.Dog+"'s share of need", row.values["share of need"], d.PartOfNeed, cells[i][4])
		same(t, d.Dog+"'s readiness", row.values["ready"], d.Score, cells[i][5])
		if row.name != d.Dog || cells[i][0] != d.Dog || (cells[i][7] != "") != (d.Dog == doc.Worst) {
			t.Errorf("row %d is of %s, %s and %s", i, row.name, d.Dog, cells[i][0])
		}
	}
}

func compareReadiness(t *testing.T, r optimize.Result) {
	page := written(t, readinessWriters(r, layout.Look{}).html)
	doc := fromJSON[struct {
		Dogs []struct {
			Dog, State string
			Score      float64
		}
		Readiness []struct {
			Dog, Show, On    string
			Score, Low, High float64
			Likely           float64
			Idle             float64 `json:"left_alone"`
		}
	}](t, readinessWriters(r, layout.Look{}).json)
	cells := fromCSV(t, readinessWriters(r, layout.Look{}).csv)
	for i, row := range figuresUnder(t, page, "today") {
		if d := doc.Dogs[i]; row.name != d.Dog || row.values["ready"] != d.Score || row.shown["state"] != d.State {
			t.Errorf("today: %v, JSON has %v", row, d)
		}
	}
	matrix, found := figuresUnder(t, page, "shows"), 0
	detail := figuresUnder(t, page, "coats") // by dog, then by date
	next := 0
	for _, dog := range r.Kennel.Dogs {
		for i, x := range doc.Readiness {
			if x.Dog != dog.Name {
				continue
			}
			what := x.Dog + " at " + x.Show
			for _, row := range matrix {
				if strings.HasPrefix(row.name, x.Show+" ") {
					same(t, what, row.values[x.Dog], x.Score, cells[i][4])
					if !slices.ContainsFunc(rangesOf(x.Low, x.High), func(want string) bool { return strings.Contains(row.shown[x.Dog], want) }) {
						t.Errorf("%s: the range is %q, want one of %q", what, row.shown[x.Dog], rangesOf(x.Low, x.High))
					}
					found++
				}
			}
			row := detail[next]
			next++
			if !strings.Contains(row.name, x.Show) {
				t.Errorf("%s: the row is %q", what, row.name)
			}
			same(t, what+", ready", row.values["ready"], x.Score, cells[i][4])
			same(t, what+", chance", row.values["chance in coat"], x.Likely, cells[i][7])
			same(t, what+", left alone", row.values["left alone"], x.Idle, cells[i][8])
		}
	}
	if found != len(doc.Readiness) || next != len(detail) {
		t.Errorf("%d of %d found in the matrix, %d of %d under the coats", found, len(doc.Readiness), next, len(detail))
	}
}

func comparePrices(t *testing.T, r optimize.Result) {
	var b bytes.Buffer
	if err := html.Season(&b, r, html.Records{}); err != nil {
		t.Fatal(err)
	}
	doc := fromJSON[struct {
		Season struct {
			Prices []struct {
				Points float64 `json:"points_per_hour"`
			} `json:"hour_price"`
		}
	}](t, planWriters(r, layout.Look{}).json)
	left := map[float64]int{}
	for _, p := range doc.Season.Prices {
		left[p.Points]++
	}
	for _, row := range figuresUnder(t, b.String(), "worth") {
		left[row.values["points"]]--
	}
	for p, n := range left {
		if n != 0 {
			t.Errorf("the price %v is told %d times too seldom", p, n)
		}
	}
}

// A dog's weeks hold the minutes that the plan's JSON gives it.
func compareDog(t *testing.T, r optimize.Result, dog string) {
	var b bytes.Buffer
	if err := html.Dog(&b, r, dog, html.Records{}); err != nil {
		t.Fatal(err)
	}
	doc := fromJSON[struct {
		Weeks []struct {
			Dogs []struct {
				Dog     string
				Minutes float64
				SetUp   float64 `json:"set_up"`
			}
			Duties []struct {
				Dog     string
				Minutes float64
			}
		}
	}](t, planWriters(r, layout.Look{}).json)
	n := 0
	for i, d := range r.Kennel.Dogs {
		if d.Name == dog {
			n = i + 1
		}
	}
	for i, row := range figuresUnder(t, b.String(), fmt.Sprintf("dog-%d-plan", n)) {
		var want float64
		for _, d := range doc.Weeks[i].Dogs {
			if d.Dog == dog {
				want += d.Minutes + d.SetUp
			}
		}
		for _, d := range doc.Weeks[i].Duties {
			if d.Dog == dog {
				want += d.Minutes
			}
		}
		if math.Abs(row.values["minutes"]-want) > 1e-6 {
			t.Errorf("%s, %s: %v minutes, JSON has %v", dog, row.name, row.values["minutes"], want)
		}
	}
}

// rangesOf are the words for a range whose ends are known to the hundredth: an end of 99.5 may have been a little less.
func rangesOf(low, high float64) (words []string) {
	const half = 0.005
	for _, l := range [2]float64{low - half, low + half} {
		for _, h := range [2]float64{high - half, high + half} {
			words = append(words, kennel.ScoreWords(kennel.Score(l))+" to "+kennel.ScoreWords(kennel.Score(h)))
		}
	}
	return words
}

// The demo's letters are a page for each dog, the month's work on the last of them.
func TestTheDemosLettersAreAPageForADog(t *testing.T) {
	long(t, "plans the demo")
	r := planOf(t, "--demo")
	dogs := map[string]int{}
	for _, d := range r.Kennel.Dogs {
		dogs[d.Owner]++
	}
	site := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		bill := tally.Bill{Month: r.On, Rule: "Counted: minutes as recorded.", Amount: "420.00 EUR"}
		owner := q.URL.Query().Get("owner")
		for _, d := range r.Kennel.Dogs {
			if d.Owner == owner {
				bill.Lines = append(bill.Lines, tally.BillLine{Dog: d.Name, Sessions: 6, Duties: 9, Minutes: 60000, Amount: "210.00 EUR"})
				bill.Minutes += 60000
			}
		}
		if err := html.Letter(w, r, owner, bill, nil); err != nil {
			t.Error(err)
		}
	}))
	defer site.Close()
	v := visit.New(t, site.URL)
	for owner, want := range dogs {
		v.Open("/?owner=" + url.QueryEscape(owner))
		if pages, across := v.Printed(); pages != want || across {
			t.Errorf("the letter to %s has %d pages for %d dogs, across: %v", owner, pages, want, across)
		}
	}
}
