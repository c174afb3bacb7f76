package desk

import (
	"bytes"
	"context"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/text"
	"tuckup/optimize/learn"
)

// sendFile sends a file by the form of a page, as a browser does.
func (r *room) sendFile(path, name, content string) page {
	r.t.Helper()
	var b bytes.Buffer
	m := multipart.NewWriter(&b)
	p := r.get(path)
	form := p.Find(`form[enctype="multipart/form-data"]`)
	if form.Length() != 1 || form.Find("input[type=file]").Length() != 1 {
		r.t.Fatalf("%s has no form for a file", path)
	}
	for _, field := range form.Find("input[type=hidden]").EachIter() {
		m.WriteField(field.AttrOr("name", ""), field.AttrOr("value", ""))
	}
	part, err := m.CreateFormFile("file", name)
	if err != nil {
		r.t.Fatal(err)
	}
	part.Write([]byte(content))
	m.Close()
	req := httptest.NewRequest(http.MethodPost, form.AttrOr("action", ""), &b)
	req.Header.Set("Content-Type", m.FormDataContentType())
	return r.answer(req)
}

// bringing is a desk that takes files.
func bringing(t *testing.T) *room {
	r := opened(t)
	r.desk.opt.Bring = func(_ context.Context, f File) (Brought, error) {
		look := text.TableLook{Dates: text.DateOrder(f.Dates)}
		for _, sign := range f.Separator {
			look.Separator = sign
		}
		rows, err := text.ReadTable(f.Name, f.Data, look)
		return func(s *book.State) (string, error) {
			s.Kennel = s.Kennel.Clone()
			return "took in " + f.Name, s.Rows(rows, f.Name, f.Today, func(x *kennel.Show) { x.Dogs, x.Chance = f.Dogs, f.Chance })
		}, err
	}
	return r
}

func TestATableIsLookedAtBeforeItIsTaken(t *testing.T) {
	r := bringing(t)
	before := r.version()
	p := r.sendFile("/bring", "shows.csv", "name;on\nFerrydown;09/03/2027\n")
	if p.status != http.StatusSeeOther {
		t.Fatalf("%d %s", p.status, p.body)
	}
	p = r.ask(http.MethodGet, p.to, nil)
	p.says("main .error", `could be two days`)
	if p.status != http.StatusUnprocessableEntity || p.Find("button[value=take]").Length() != 0 {
		t.Errorf("what can't be read can be taken: %d", p.status)
	}
	form := p.form("main", "look")
	form.Set("dates", "month")
	form.Set("dogs", "Moss")
	form.Set("chance", "50%")
	p = r.ask(http.MethodPost, "/bring", form)
	p.says("main ul", "new show Ferrydown")
	p.says("main ul", "2027-09-03")
	form.Set("dates", "day")
	p = r.ask(http.MethodPost, "/bring", form)
	p.says("main ul", "2027-03-09")
	if r.version() != before {
		t.Fatal("looking changed the book")
	}
	form = p.form("main", "take")
	form.Set("dogs", "Moss") // a checkbox is read as the page has it
	for range 2 {            // tapped twice
		if p := r.ask(http.MethodPost, "/bring", form); p.status != http.StatusSeeOther {
			t.Fatalf("%d: %s", p.status, p.Find("main").Text())
		}
	}
	if r.version() != before+1 {
		t.Errorf("%d changes", r.version()-before)
	}
	k := r.state().Kennel
	i := len(k.Shows) - 1
	if s := k.Shows[i]; s.Name != "Ferrydown" || s.On.String() != "2027-03-09" || s.Chance != 0.5 || len(s.Dogs) != 1 || s.Dogs[0] != "Moss" {
		t.Errorf("taken: %+v", s)
	}
	if p := r.ask(http.MethodGet, "/bring?held="+url.QueryEscape(form.Get("held")), nil); p.status != http.StatusGone {
		t.Errorf("what was taken is still held: %d", p.status)
	}
}

func TestAFileThatCannotBeTakenChangesNothing(t *testing.T) {
	r := bringing(t)
	before := r.version()
	for _, c := range []struct {
		name, content string
		status        int
		words         string
	}{
		{"shows.csv", "", http.StatusUnprocessableEntity, "No file was chosen, or it is empty"},
		{"shows.csv", strings.Repeat("x", LargestFile+1), http.StatusRequestEntityTooLarge, "larger than 8 MB"},
	} {
		if p := r.sendFile("/bring", c.name, c.content); p.status != c.status || !strings.Contains(p.body, c.words) {
			t.Errorf("%d bytes: %d %s", len(c.content), p.status, p.Find("main").Text())
		}
	}
	for content, words := range map[string]string{"name,on\nX,soon\n": "is not a date", "colour\nred\n": "is not a column", "\x00\x01": "Try:"} {
		p := r.sendFile("/bring", "shows.csv", content)
		r.ask(http.MethodGet, p.to, nil).says("main .error", words)
	}
	p := r.get(r.sendFile("/bring", "shows.csv", "name,on\nFerrydown,2027-03-09\n").to)
	form := p.form("main", "take")
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Owner = "Somebody" })
	if p := r.ask(http.MethodPost, "/bring", form); p.status != http.StatusUnprocessableEntity || !strings.Contains(p.body, "was changed since") {
		t.Errorf("after another change it is answered with %d", p.status)
	}
	form.Set("do", "throw away")
	form.Set("key", "another")
	r.send("/bring", form)
	if r.version() != before+1 {
		t.Errorf("%d changes besides that of somebody else", r.version()-before-1)
	}
}

// A kennel file may take the place of all; the page asks, and names the kennel of the book as every page does.
func TestAKennelFileIsLookedAtBeforeItIsTaken(t *testing.T) {
	r := bringing(t)
	r.desk.opt.Bring = func(_ context.Context, f File) (Brought, error) {
		k, _, err := text.Read(f.Name, f.Data)
		return func(s *book.State) (string, error) {
			if f.Replace {
				s.Replace(k, f.Today)
			} else {
				s.Kennel.Dogs = append(slices.Clone(s.Kennel.Dogs), k.Dogs...)
			}
			return "took in " + f.Name, nil
		}, err
	}
	const file = "kennel: Larkrise\nhands: [{name: Maeve, hours: {mon: 2}}]\ndogs: [{name: Fern, pattern: border-terrier, areas: {all: [{share: 1, pulled: 2026-11-02}]}}]\n"
	p := r.ask(http.MethodGet, r.sendFile("/bring", "mine.yaml", file).to, nil)
	p.says("title", "Thornfield")
	p.says(".changes", "new dog Fern")
	form := p.form("main", "look")
	form.Set("replace", "yes")
	p = r.ask(http.MethodPost, "/bring", form)
	p.says(".changes", "gone dog Moss")
	form = p.form("main", "take")
	if form.Get("replace") == "" {
		t.Error("it is forgotten that all is replaced")
	}
	r.send("/bring", form)
	if k := r.state().Kennel; len(k.Dogs) != 1 || k.Dogs[0].Name != "Fern" {
		t.Errorf("taken: %+v", k.Dogs)
	}
	p = r.ask(http.MethodGet, r.sendFile("/begin/dogs", "wrong.yaml", file+"x: y\n").to, nil)
	if p.status != http.StatusUnprocessableEntity || p.Find("main input[type=file]").Length() != 1 {
		t.Errorf("a file that is wrong: %d", p.status)
	}
	p.says("main [role=alert]", "Line 4")
	if p.Find("header [aria-current]").Length() != 0 {
		t.Errorf("in the first steps the menu is at %s", p.Find("header [aria-current]").Text())
	}
	r.desk.opt.Bring = func(context.Context, File) (Brought, error) {
		return nil, &kennel.InputError{Line: 7, Field: "dogs[0].pattern", Value: "border-terier", What: "is not a pattern that is known", Try: "one of border-terrier"}
	}
	p = r.ask(http.MethodGet, r.sendFile("/begin/dogs", "wrong.yaml", file).to, nil)
	p.says("main [role=alert]", `Line 7: pattern: "border-terier" is not a pattern that is known. Try: one of border-terrier`)
}

func TestAnEmptyBookIsNotAskedWhetherItIsReplaced(t *testing.T) {
	r := newcomer(t)
	p := r.ask(http.MethodGet, r.sendFile("/begin/dogs", "mine.yaml", "kennel: Larkrise\n").to, nil)
	if p.Find("[name=replace], button[value=look]").Length() != 0 {
		t.Error("it is asked whether all of nothing is replaced")
	}
}

func TestACopyThatWasSavedIsGoneBackTo(t *testing.T) {
	r := opened(t)
	r.get("/setup").says("main", "Copy of the book")
	copied := r.get("/copies/book.db").body
	was := r.state().Kennel.Dogs[0].Owner
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Owner = "Somebody" })
	before := r.version()
	p := r.get(r.sendFile("/copies", "book-2027-01-04.db", copied).to)
	p.says("main ul", "owner")
	if r.version() != before {
		t.Fatal("looking changed the book")
	}
	form := p.form("main", "restore")
	r.send("/copies", form).says(".said", "The book holds what the copy holds")
	if got := r.state().Kennel.Dogs[0].Owner; got != was || r.version() != before+1 {
		t.Errorf("the owner is %q, was %q; %d changes", got, was, r.version()-before)
	}
	p = r.ask(http.MethodGet, r.sendFile("/copies", "letter.db", "Dear Sir").to, nil)
	if p.status != http.StatusUnprocessableEntity || !strings.Contains(p.body, "not a copy of a book") {
		t.Errorf("a letter is answered with %d", p.status)
	}
}

func TestTheKennelIsSetUpInThePage(t *testing.T) {
	r := opened(t)
	r.desk.opt.Export = func(s book.State) ([]byte, error) { return text.Write(s.Export(r.desk.opt.Patterns)) }
	form := r.get("/setup").form("main", "save")
	if form.Get("name") != "Thornfield" || form.Get("weeks") != "8" {
		t.Errorf("the form holds %v", form)
	}
	for field, said := range map[string]string{"weeks": "3", "time_zone": "Nowhere/Else", "units": "ells", "name": ""} {
		bad := url.Values{}
		for k, v := range form {
			bad[k] = v
		}
		bad.Set(field, said)
		if p := r.ask(http.MethodPost, "/setup", bad); p.status != http.StatusUnprocessableEntity || p.Find(`[name=`+field+`][aria-invalid]`).Length() != 1 {
			t.Errorf("%s %q: %d %s", field, said, p.status, p.Find(".error").Text())
		}
	}
	form.Set("name", "Larkrise")
	form.Set("units", "in")
	form.Set("time_zone", "Europe/Dublin")
	form.Set("weeks", "12")
	r.send("/setup", form)
	k := r.state().Kennel
	if k.Name != "Larkrise" || k.Units != kennel.UnitsInches || k.TimeZone != "Europe/Dublin" || k.Weeks != 12 || len(k.Dogs) != 2 {
		t.Errorf("the kennel is %q %q %q %v", k.Name, k.Units, k.TimeZone, k.Weeks)
	}
	if file := r.get("/copies/kennel.yaml").body; !strings.Contains(file, "Larkrise") {
		t.Error(file)
	}
}

func TestWhatTheRecordsSayIsTakenInThePage(t *testing.T) {
	r := opened(t)
	r.desk.opt.Learn = func(book.State, kennel.Date) ([]learn.Dog, learn.Estimate, error) {
		return []learn.Dog{{Dog: "Sorrel", Growth: learn.Estimate{Value: 1.1234567, Low: 1, High: 1.2, Records: 7, Told: 1}}, {Dog: "Moss"}}, learn.Estimate{}, nil
	}
	p := r.get("/learned")
	p.says("main", "1 factor is new")
	p.says("main table", "1.12 new")
	form := p.form("main", "take")
	r.send("/learned", form).says(".said", "Taken")
	if got := r.state().Kennel.Dogs[0].Coat.Growth; got != 1.123 {
		t.Errorf("growth is %v", got)
	}
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Coat.Growth = 1 })
	form.Set("key", "another")
	if p := r.ask(http.MethodPost, "/learned", form); p.status != http.StatusConflict && p.status != http.StatusSeeOther {
		t.Errorf("%d", p.status)
	}
}

func TestEveryPatternIsLookedAt(t *testing.T) {
	r := opened(t)
	links := r.get("/patterns").Find(".papers a")
	if links.Length() != len(r.desk.opt.Patterns) {
		t.Errorf("%d patterns of %d", links.Length(), len(r.desk.opt.Patterns))
	}
	if first := links.First().AttrOr("href", ""); first != "/patterns/border-terrier" && first != "/patterns/wire-fox-terrier" {
		t.Errorf("the first is %s, no dog of the string's", first)
	}
	for _, a := range links.EachIter() {
		x := r.desk.opt.Patterns[strings.TrimPrefix(a.AttrOr("href", ""), "/patterns/")]
		if rows := r.get(a.AttrOr("href", "")).Find("tbody tr").Length(); rows != len(x.Figures()) {
			t.Errorf("%s has %d of %d figures", x.Name, rows, len(x.Figures()))
		}
	}
}
