package desk

import (
	"bytes"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/reports"
	"tuckup/reports/html"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// Every paper that is listed is there, is what the terminal writes of the same plan, and makes no plan.
func TestEveryPaperIsReadAndSaved(t *testing.T) {
	k := twoDogs()
	k.Dogs[0].Owner = "Lindqvist & Söner / <b>"
	r := inUseOf(t, k)
	before := r.version()
	p := r.get("/papers")
	links := p.Find(".papers a").Map(func(_ int, a *goquery.Selection) string { return a.AttrOr("href", "") })
	if len(links) < 20 {
		t.Errorf("only %d papers: %q", len(links), links)
	}
	for _, link := range links {
		paper := r.get(link)
		if paper.body == "" {
			t.Errorf("%s is empty", link)
		}
		if strings.HasSuffix(link, "?save=yes") && !strings.Contains(paper.kind, "html") {
			t.Errorf("%s is saved as %s", link, paper.kind)
		}
	}
	var sheet, work bytes.Buffer
	if err := html.Sheet(&sheet, r.use().Result); err != nil {
		t.Fatal(err)
	}
	if err := reports.PlanCSV(&work, r.use().Result); err != nil {
		t.Fatal(err)
	}
	if r.get("/papers/sheet.html").body != sheet.String() || r.get("/papers/plan.csv").body != work.String() {
		t.Error("a paper is not what the terminal writes")
	}
	r.get("/papers/owner/"+`Lindqvist%20&%20S%C3%B6ner%20%2F%20%3Cb%3E`).says("body", "Lindqvist")
	for _, path := range []string{"/papers/nothing.html", "/papers/dog/Nobody", "/papers/owner/Nobody"} {
		if p := r.ask(http.MethodGet, path, nil); p.status != http.StatusNotFound {
			t.Errorf("%s: %d", path, p.status)
		}
	}
	if got := p.Find("main a[href='/letter']").Length(); got != 1 || r.get("/letter").status != http.StatusOK {
		t.Errorf("%d links lead to the letter", got)
	}
	if r.version() != before {
		t.Error("reading papers changed the book")
	}
}

// A paper's own style is let through by its digest, and nothing else of it.
func TestAPaperKeepsTheStrictPolicy(t *testing.T) {
	r := opened(t)
	w := r.raw("/papers/sheet.html")
	policy := w.Header().Get("Content-Security-Policy")
	if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") || !strings.Contains(policy, "style-src 'sha256-") {
		t.Errorf("the policy is %q", policy)
	}
	if got := w.Header().Get("Content-Disposition"); !strings.HasPrefix(got, "inline") {
		t.Errorf("it is sent as %q", got)
	}
	if got := r.raw("/papers/sheet.html?save=yes").Header().Get("Content-Disposition"); got != "attachment; filename=sheet.html" {
		t.Errorf("saved it is sent as %q", got)
	}
}

func TestWithoutAPlanThePapersOfTheBookAreThere(t *testing.T) {
	r := open(t, twoDogs())
	r.planned()
	r.get("/papers/dogs.csv")
	r.get("/papers").says("main", "Account")
}

func TestTheAccountIsAddedUpInThePage(t *testing.T) {
	r := opened(t)
	p, s := r.workday()
	form := p.form(".thumb", "tick")
	form.Set("minutes", "50")
	r.send("/work", form)
	p = r.get("/account")
	p.says("main", "All: 50 min")
	p.says(".account tbody", s.Dog)
	p = r.get("/account?from=2027-01-01&to=2027-01-31&currency=EUR&rate=24,00")
	p.says("main", "20.00 EUR")
	link := p.Find("main a[href*=csv]").AttrOr("href", "")
	if got := r.get(link).body; !strings.Contains(got, "20.00,EUR") {
		t.Errorf("the table at %s is %q", link, got)
	}
	r.get("/account?rate+Handler=36&currency=EUR").says("main", "30.00 EUR")
	for field, c := range map[string]struct{ query, words string }{
		"rate": {"rate=much&currency=EUR", "is not an amount. Try: 24.50"}, "currency": {"rate=10", "is missing"},
		"to": {"from=2027-02-01&to=2027-01-01", "before the first day"}, "from": {"from=soon", "is not a date"},
	} {
		p := r.ask(http.MethodGet, "/account?"+c.query, nil)
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", c.query, p.status)
		}
		typed := map[string]string{"rate": "much", "to": "2027-01-01", "from": "soon"}[field]
		p.wrongAt(field, c.words, typed)
	}
	if p := r.ask(http.MethodGet, "/account?rate=10&currency=XQQ", nil); p.status != http.StatusUnprocessableEntity || !strings.Contains(p.body, "not a currency") {
		t.Errorf("a currency that is none: %d", p.status)
	}
}

// raw is an answer as it is sent.
func (r *room) raw(path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	r.desk.ServeHTTP(w, asked(http.MethodGet, path, nil))
	return w
}

// A paper is written once for all who ask, and again when the book has changed.
func TestAPaperIsThatOfTheBookAsItIs(t *testing.T) {
	r := opened(t)
	first := r.get("/papers/season.html").body
	if again := r.get("/papers/season.html").body; again != first {
		t.Error("asked again it is another one")
	}
	r.change(func(s *book.State) {
		s.Record(kennel.Work{Dog: "Moss", On: monday.AddDays(-3), Hands: "Handler", Minutes: 33, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.05}}})
	})
	if r.get("/papers/season.html").body == first {
		t.Error("it does not have what was written down since")
	}
}
