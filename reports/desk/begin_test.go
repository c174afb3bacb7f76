package desk

import (
	"context"
	"encoding/csv"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/text"
)

// newcomer is a desk on an empty book, which reads tables.
func newcomer(t *testing.T) *room {
	t.Helper()
	r := open(t, kennel.Kennel{})
	r.desk.opt.Bring = func(_ context.Context, f File) (Brought, error) {
		name, data, today, dogs := f.Name, f.Data, f.Today, f.Dogs
		rows, err := text.ReadCSV(name, data)
		return func(s *book.State) (string, error) {
			s.Begin()
			return "took in " + name, s.Rows(rows, name, today, func(x *kennel.Show) { x.Dogs = slices.Clone(dogs) })
		}, err
	}
	return r
}

// fill is the form of the page with these values.
func (p page) fill(do string, values ...string) url.Values {
	p.t.Helper()
	v := p.form("main", do)
	for i := 0; i+1 < len(values); i += 2 {
		v.Set(values[i], values[i+1])
	}
	return v
}

// stepsDone are the steps that the side says are done.
func (p page) stepsDone() (names []string) {
	p.Find(".first-steps li.done b").Each(func(_ int, s *goquery.Selection) { names = append(names, s.Text()) })
	return names
}

// From an empty book to the sheet, by the forms of the pages alone.
func TestTheFirstStepsLeadToASheet(t *testing.T) {
	r := newcomer(t)
	if p := r.ask(http.MethodGet, "/", nil); p.to != beginPath {
		t.Fatalf("an empty book opens at %q", p.to)
	}
	if p := r.ask(http.MethodGet, beginPath, nil); p.to != "/begin/kennel" {
		t.Fatalf("the first step is %q", p.to)
	}
	p := r.send("/begin/kennel", r.get("/begin/kennel").fill("save", "kennel", "Larkrise", "name", "Maeve", "time_zone", "Europe/Dublin", "mon", "2", "wed", "1:30"))
	k := r.state().Kennel
	if k.Name != "Larkrise" || k.TimeZone != "Europe/Dublin" || len(k.Hands) != 1 || k.Hands[0].Name != "Maeve" || k.Hands[0].Hours[0] != 2 || k.Hands[0].Hours[2] != 1.5 {
		t.Errorf("the kennel is %+v", k)
	}
	if !slices.Equal(p.stepsDone(), []string{"Kennel"}) {
		t.Errorf("done is %q", p.stepsDone())
	}
	p.says("h1", "Dogs")

	p = r.get("/begin/dogs?name=Moss&pattern=border-terrier&born=2024-05-01")
	p.says("h1", "The coat of Moss")
	p = r.send("/begin/dogs", p.fill("add", "how", "pulled", "pulled", "2026-10-12"))
	p.says(".have", "Moss Border Terrier")
	moss := r.state().Kennel.Dogs[0]
	if moss.Born.String() != "2024-05-01" || len(moss.All) != 1 || moss.All[0].Share != 1 || moss.All[0].Pulled.String() != "2026-10-12" {
		t.Errorf("Moss is %+v", moss)
	}
	p = r.get("/begin/dogs?name=Juniper&pattern=welsh-terrier&born=")
	if n := p.Find(".seen-table tbody tr").Length(); n != 5 {
		t.Errorf("it is asked what is seen of %d areas", n)
	}
	if n := p.Find(".seen-table thead svg").Length(); n != 4 || p.Find("figure svg").Length() != 1 {
		t.Errorf("%d pictures of hair", n)
	}
	v := p.fill("add", "how", "seen")
	for i, a := range r.desk.opt.Patterns["welsh-terrier"].SeenAreas() {
		v.Set(seenField(a), looks[min(i, 1)].value)
	}
	r.send("/begin/dogs", v)
	juniper := r.state().Kennel.Dogs[1]
	coat, err := kennel.NewDogCoat(juniper, r.desk.opt.Patterns["welsh-terrier"], monday)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range coat.Areas {
		if a.Name == kennel.AreaSkirtLine && a.Rule.State(a.Curve, 0) != kennel.StateComingIn || a.Name == kennel.AreaBack && a.Rule.State(a.Curve, 0) != kennel.StateInCoat {
			t.Errorf("the %s is %s", a.Name, a.Rule.State(a.Curve, 0))
		}
	}
	if l, err := r.desk.look(context.WithValue(t.Context(), unplannedKey{}, true)); err != nil || l.status.Running || l.plan != nil {
		t.Errorf("a plan is made before the shows are known: %+v %v", l.status, err)
	}

	p = r.get("/begin/shows")
	if n := p.Find("[name=dogs][checked]").Length(); n != 2 {
		t.Errorf("%d dogs are chosen", n)
	}
	v = p.form("main", "save")
	v.Set("name", "Wendlemoor")
	v.Set("on", monday.AddDays(54).String())
	p = r.send("/begin/shows", v)
	p.says(".have", "Wendlemoor")
	if s := r.state().Kennel.Shows; len(s) != 1 || !s[0].Entered() || !slices.Equal(s[0].Dogs, []string{"Moss", "Juniper"}) {
		t.Errorf("the shows are %+v", s)
	}

	r.get("/begin/paper").says("main", "There is nothing to print yet")
	if p := r.ask(http.MethodGet, sheetPath, nil); p.status != http.StatusNotFound {
		t.Errorf("a sheet without a plan: %d", p.status)
	}
	r.get("/begin/plan")
	r.planned()
	p = r.get("/begin/plan")
	p.says(".lead", "Your plan is made")
	p.says("main", "Moss")
	if !slices.Equal(p.stepsDone(), []string{"Kennel", "Dogs", "Shows", "Plan"}) {
		t.Errorf("done is %q", p.stepsDone())
	}
	to, _ := r.get("/begin/paper").Find("main a[role=button]").Attr("href")
	sheet := r.get(to)
	sheet.says("h1", "Work for")
	sheet.says("main", "Moss")
	if p := r.ask(http.MethodGet, beginPath, nil); p.to != "/begin/paper" {
		t.Errorf("after it the steps lead to %q", p.to)
	}
	if p := r.get("/"); p.Find("h1").Text() != "Board" {
		t.Errorf("after it the first page is %q", p.Find("h1").Text())
	}
}

// Each step can be left and come back to: what was given is in its form, and the next step that is not done is opened.
func TestAStepCanBeLeftAndComeBackTo(t *testing.T) {
	r := newcomer(t)
	r.send("/begin/kennel", r.get("/begin/kennel").fill("save", "kennel", "Larkrise", "name", "Maeve", "fri", "3"))
	if p := r.ask(http.MethodGet, beginPath, nil); p.to != "/begin/dogs" {
		t.Errorf("it goes on at %q", p.to)
	}
	if p := r.ask(http.MethodGet, "/", nil); p.to != beginPath {
		t.Errorf("without dogs the desk opens at %q", p.to)
	}
	v := r.get("/begin/kennel").form("main", "save")
	if v.Get("kennel") != "Larkrise" || v.Get("name") != "Maeve" || v.Get("fri") != "3" || v.Get("mon") != "" {
		t.Errorf("the form comes back as %v", v)
	}
	v.Set("name", "Maeve Orr")
	v.Set("mon", "1")
	r.send("/begin/kennel", v)
	if h := r.state().Kennel.Hands; len(h) != 1 || h[0].Name != "Maeve Orr" || h[0].Hours[0] != 1 || h[0].Hours[4] != 3 {
		t.Errorf("the hands are %+v", h)
	}
	r.get("/begin/plan").says(".lead", "A plan needs a little more first")
}

func TestWhatIsWrongInAStepIsSaidBesideItAndChangesNothing(t *testing.T) {
	r := newcomer(t)
	before := r.version()
	bad := func(path string, v url.Values, field, words string) {
		t.Helper()
		p := r.ask(http.MethodPost, path, v)
		if p.status != http.StatusUnprocessableEntity || r.version() != before {
			t.Errorf("%s %v: %d", path, v, p.status)
		}
		p.says("main", words)
		if field != "" && p.Find("[aria-invalid=true][name='"+field+"']").Length() == 0 {
			t.Errorf("the field %s is not marked", field)
		}
	}
	kennelForm := func(values ...string) url.Values { return r.get("/begin/kennel").fill("save", values...) }
	bad("/begin/kennel", kennelForm("mon", "2"), "kennel", "it is printed on every sheet")
	bad("/begin/kennel", kennelForm("kennel", "Larkrise"), "mon", "no day has any hours")
	bad("/begin/kennel", kennelForm("kennel", "Larkrise", "mon", "25"), "mon", "must be")
	bad("/begin/kennel", kennelForm("kennel", "Larkrise", "mon", "2", "time_zone", "Nowhere/Land"), "time_zone", "is not a time zone")
	bad("/begin/kennel", kennelForm("kennel", "Larkrise", "mon", "2", "name", ""), "name", "who does the work")
	for _, c := range []struct{ query, words string }{
		{"name=&pattern=border-terrier", "is missing"},
		{"name=Moss&pattern=", "how fast the coat comes in"},
		{"name=Moss&pattern=border-terrier&born=2031-01-01", "still to come"},
	} {
		if p := r.ask(http.MethodGet, "/begin/dogs?"+c.query, nil); p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s: %d", c.query, p.status)
		} else {
			p.says("main", c.words)
		}
	}
	coat := func(values ...string) url.Values {
		return r.get("/begin/dogs?name=Moss&pattern=border-terrier&born=2026-06-01").fill("add", values...)
	}
	bad("/begin/dogs", coat(), "", "choose one: the day of the last pull, or what you see")
	bad("/begin/dogs", coat("how", "pulled"), "pulled", "is missing")
	bad("/begin/dogs", coat("how", "pulled", "pulled", "2031-01-01"), "pulled", "still to come")
	bad("/begin/dogs", coat("how", "pulled", "pulled", "2026-01-01"), "pulled", "before the dog was born")
	bad("/begin/dogs", coat("how", "seen", "seen-back", "right"), "seen-skirt-line", "choose one for the skirt line")
	if len(r.state().Kennel.Dogs) != 0 {
		t.Error("a dog was added")
	}
}

// upload sends a file by the form of a step, and follows it to the page that shows the file.
func (r *room) upload(step, name, content string) page {
	r.t.Helper()
	return r.ask(http.MethodGet, r.sendFile(step, name, content).to, nil)
}

func TestAListIsShownBeforeItIsTaken(t *testing.T) {
	r := newcomer(t)
	r.send("/begin/kennel", r.get("/begin/kennel").fill("save", "kennel", "Larkrise", "mon", "2"))
	before := r.version()
	table := "name,pattern,coat\nMoss,border-terrier,1 2026-11-02\nSorrel,wire-fox-terrier,1 2026-10-12\n"
	p := r.upload("/begin/dogs", "dogs.csv", table)
	p.says("main", "Nothing is written yet")
	p.says(".changes", "Sorrel")
	p.says(".first-steps [aria-current]", "Dogs")
	if p.status != http.StatusOK || r.version() != before {
		t.Fatalf("%d: it is written already", p.status)
	}
	if p.Find("[name=chance]").Length() != 0 {
		t.Error("a table of dogs asks for the chance of shows")
	}
	v := p.form("main", "take")
	r.send("/bring", v).says(".have", "Sorrel")
	if n := len(r.state().Kennel.Dogs); n != 2 {
		t.Errorf("there are %d dogs", n)
	}
	after := r.version()
	if p := r.ask(http.MethodPost, "/bring", v); p.to == "" || r.version() != after {
		t.Errorf("taken twice: %d", p.status)
	}
	p = r.upload("/begin/dogs", "dogs.csv", table)
	p.says("main", "It changes nothing")
	r.send("/bring", p.form("main", "throw away")).says("h1", "Dogs")
	p = r.upload("/begin/shows", "shows.csv", "name,on\nWendlemoor,2027-03-06\n")
	p.says(".changes", "Wendlemoor")
	if n := p.Find("[name=dogs][checked]").Length(); n != 2 {
		t.Errorf("it is for %d dogs", n)
	}
	for name, content := range map[string]string{"dogs.csv": "name,kind\nMoss,x\n", "other.csv": "name,pattern,coat\nFern,none-such,1 2026-11-02\n"} {
		p := r.upload("/begin/dogs", name, content)
		if p.status != http.StatusUnprocessableEntity || r.version() != after {
			t.Errorf("%s: %d", content, p.status)
		}
		p.says("main h2", name)
		p.says("main [role=alert]", "Try:")
		if p.Find("main input[type=file]").Length() != 1 {
			t.Error("no other file can be chosen")
		}
	}
	if l, err := r.desk.look(context.WithValue(t.Context(), unplannedKey{}, true)); err != nil || l.status.Running || l.plan != nil {
		t.Errorf("a plan is made before the shows are known: %+v %v", l.status, err)
	}
}

// Who has the address of the page that took lists before is led to the one that does now.
func TestTheOldAddressOfAListLeadsToTheOneThatTakesIt(t *testing.T) {
	r := newcomer(t)
	for _, method := range []string{http.MethodGet, http.MethodPost} {
		p := r.ask(method, listPath, nil)
		if p.status != http.StatusSeeOther {
			t.Fatalf("%s: %d", method, p.status)
		}
		p = r.get(p.to)
		p.says("h1", "Bring a list")
		p.says(".first-steps [aria-current]", "Dogs")
	}
	if p := r.get("/bring?back=" + url.QueryEscape("https://elsewhere.example/")); p.Find(".first-steps").Length() != 0 || strings.Contains(p.body, "elsewhere") {
		t.Error("a list leads elsewhere")
	}
}

// The table to fill in is one that can be read.
func TestTheTableToFillInCanBeBroughtBack(t *testing.T) {
	r := newcomer(t)
	body := r.get(templatePath).body
	rows, err := csv.NewReader(strings.NewReader(body)).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v: %s", err, body)
	}
	p := r.upload("/begin/dogs", "dogs.csv", body)
	p.says(".changes", "Example one")
	p.says(".changes", "Example two")
	r.send("/bring", p.form("main", "take"))
	if n := len(r.state().Kennel.Dogs); n != 2 {
		t.Errorf("there are %d dogs", n)
	}
}

// The sheet stands alone: the browser is allowed its one style, by its sum, and nothing else.
func TestTheSheetIsAllowedItsOwnStyleAndNoScript(t *testing.T) {
	r := opened(t)
	req := asked(http.MethodGet, sheetPath, nil)
	w := httptest.NewRecorder()
	r.desk.ServeHTTP(w, req)
	policy := w.Header().Get("Content-Security-Policy")
	if w.Code != http.StatusOK || strings.Count(policy, "'sha256-") != 1 || !strings.HasPrefix(policy, "default-src 'none';") || strings.Contains(policy, "unsafe") || strings.Contains(policy, "script") {
		t.Errorf("%d with %q", w.Code, policy)
	}
}

func TestTheMadeUpStringIsOpenedFromItsOwnMachineOnly(t *testing.T) {
	r := newcomer(t)
	if p := r.at(here, asked(http.MethodGet, samplePath, nil)); p.status != http.StatusNotFound {
		t.Errorf("where there is none: %d", p.status)
	}
	opened := 0
	r.desk.opt.Sample = func(context.Context) (string, error) { opened++; return "http://127.0.0.1:8421/", nil }
	if p := r.at(phone, asked(http.MethodGet, samplePath, nil)); p.status != http.StatusNotFound || opened != 0 {
		t.Errorf("from a phone: %d", p.status)
	}
	if p := r.at(phone, asked(http.MethodGet, "/begin/kennel", nil)); p.Find("a[href='/sample']").Length() != 0 {
		t.Error("a phone is led there")
	}
	if p := r.at(here, asked(http.MethodGet, "/begin/kennel", nil)); p.Find("a[href='/sample'][target=_blank]").Length() != 1 {
		t.Error("nothing leads there")
	}
	if p := r.at(here, asked(http.MethodGet, samplePath, nil)); p.to != "http://127.0.0.1:8421/" || opened != 1 {
		t.Errorf("%d to %q", p.status, p.to)
	}
}

func TestEveryPageOfAMadeUpStringSaysSo(t *testing.T) {
	r := opened(t)
	r.desk.opt.MadeUp, r.desk.opt.Home = true, "http://127.0.0.1:8420/"
	r.desk.opt.Close = func(time.Duration) {}
	for _, path := range []string{"/", "/today", "/week", "/string", "/dogs/Moss", "/shows", "/hours", "/workload", "/history", "/plan", "/begin/kennel"} {
		p := r.at(here, asked(http.MethodGet, path, nil))
		p.says(".made-up", "A made-up string.")
		if p.Find(".made-up form[action='/close'] button").Length() != 1 || p.Find("footer form").Length() != 0 {
			t.Errorf("%s has not the one button that throws it away", path)
		}
	}
	p := r.at(here, asked(http.MethodPost, "/close", r.at(here, asked(http.MethodGet, "/week", nil)).form(".made-up", "close")))
	p = r.at(here, asked(http.MethodGet, p.to, nil))
	p.says("main", "The made-up string is gone")
	if p.Find("main a[href='http://127.0.0.1:8420/']").Length() != 1 {
		t.Error("nothing leads back")
	}
}
