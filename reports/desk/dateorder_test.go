package desk

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// Every page, and every paper, has its dates in the reader's order; what is typed, sent and linked to is as it was, and tables are ISO 8601.
func TestEveryPageHasItsDatesInTheReadersOrder(t *testing.T) {
	k := twoDogs()
	k.Dogs[0].Owner = "R. Calloway"
	k.Shows[0].Name = "The 6 May Open"
	r := inUseOf(t, k)
	dayFirst := regexp.MustCompile(`\b\d{1,2} (Jan|Feb|Mar|January|February|March)\b|\b20\d\d-\d\d-\d\d\b`)
	paths := []string{
		"/", "/today", "/week", "/string", "/dogs/Sorrel", "/shows", "/shows?show=" + url.QueryEscape(showKey(k.Shows[0])), "/hours", "/workload", "/papers", "/history", "/plan", "/setup",
		"/copies", "/account", "/why", "/home/Sorrel?from=2027-01-10&to=2027-01-20", "/letter?owner=R.+Calloway&month=2027-01", "/papers/sheet.html", "/papers/season.html", "/papers/readiness.html",
	}
	seen := map[string]page{}
	for _, path := range paths {
		seen[path] = r.get(path)
	}
	if !dayFirst.MatchString(seen["/week"].Find("main").Text()) {
		t.Fatal("the week has no dates")
	}
	r.change(func(s *book.State) { s.Kennel.Dates = kennel.MonthFirst })
	for _, path := range paths {
		p := r.get(path)
		p.Find("script, style, code, textarea").Remove()
		heard := p.Find("body").Text()
		p.Find("[aria-label], [alt], [title]").Each(func(_ int, s *goquery.Selection) {
			heard += "\n" + s.AttrOr("aria-label", "") + s.AttrOr("alt", "") + s.AttrOr("title", "")
		})
		if got := dayFirst.FindString(strings.ReplaceAll(heard, "The 6 May Open", "")); got != "" {
			t.Errorf("%s: %q", path, got)
		}
		if strings.Contains(heard, "May 6 Open") {
			t.Errorf("%s: the show's name is turned round", path)
		}
		for _, what := range []string{"href", "value", "id", "action", "datetime"} {
			of := func(p page) (all []string) {
				p.Find("[" + what + "]").Each(func(_ int, s *goquery.Selection) {
					if name := s.AttrOr("name", ""); name != "version" && name != "key" && name != "dates" && name != "was" && !strings.Contains(s.AttrOr("value", ""), "first") {
						all = append(all, s.AttrOr(what, ""))
					}
				})
				return all
			}
			if path == "/history" || path == "/copies" { // a change more
				continue
			}
			if was, is := strings.Join(of(seen[path]), "\n"), strings.Join(of(p), "\n"); was != is {
				t.Errorf("%s: of what is sent %s differs:\n%s\n%s", path, what, was, is)
			}
		}
	}
	if csv := r.get("/workload.csv").body; !strings.Contains(csv, "2027-01-04") {
		t.Error("the table is not as ISO 8601 has dates")
	}
}

func TestADateIsTypedInTheReadersOrder(t *testing.T) {
	r := opened(t)
	form := r.get("/hours").form("main", "away")
	form.Set("from", "2/3/2027")
	form.Set("to", "2/4/2027")
	if p := r.ask(http.MethodPost, "/hours", form); p.status != http.StatusUnprocessableEntity || !strings.Contains(p.Find(".error").Text(), "could be two days") {
		t.Fatalf("%d: %s", p.status, p.Find(".error").Text())
	}
	setup := r.get("/setup").form("main", "save")
	setup.Set("dates", "month-first")
	if p := r.ask(http.MethodPost, "/setup", setup); p.status != http.StatusSeeOther {
		t.Fatalf("%d: %s", p.status, p.Find(".error").Text())
	}
	form = r.get("/hours").form("main", "away")
	form.Set("from", "2/3/2027")
	form.Set("to", "2/4/2027")
	r.send("/hours", form)
	if got := r.state().Kennel.Hands[0].Away; len(got) != 1 || got[0].From != kennel.NewDate(2027, 2, 3) || got[0].To != kennel.NewDate(2027, 2, 4) {
		t.Errorf("away is %v", got)
	}
	coat := r.get("/dogs/Sorrel").form("main", "coat")
	for name := range coat {
		if strings.HasPrefix(name, "layer") || strings.HasPrefix(name, "share") {
			coat.Del(name)
		}
	}
	coat.Set("coat", "10/11/2026")
	r.send("/dogs/Sorrel", coat)
	if got := r.state().Kennel.Dogs[0].LayersOn(kennel.AreaBack); len(got) != 1 || got[0].Pulled != kennel.NewDate(2026, 10, 11) {
		t.Errorf("the coat is %v", got)
	}
}
