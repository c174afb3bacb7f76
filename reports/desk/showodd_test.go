package desk

import (
	"net/http"
	"net/url"
	"slices"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// asked sends the form of a show and expects a question that offers these answers, and nothing else.
func (r *room) asked(form url.Values, words string, answers ...string) page {
	r.t.Helper()
	before := r.version()
	p := r.ask(http.MethodPost, "/shows", form)
	if p.status != http.StatusUnprocessableEntity || p.Find(".error").Length() != 0 || r.version() != before {
		r.t.Fatalf("status %d, errors %q, change %d after %d", p.status, p.Find(".error").Text(), r.version(), before)
	}
	p.says(".question", words)
	got := p.Find(".question button").Map(func(_ int, s *goquery.Selection) string { v, _ := s.Attr("value"); return v })
	if !slices.Equal(got, answers) {
		r.t.Errorf("the answers are %q, want %q", got, answers)
	}
	return p
}

func (r *room) newShow(name, on string, dogs ...string) url.Values {
	form := r.get("/shows").form("[aria-labelledby=edit]", "try")
	form.Set("name", name)
	form.Set("on", on)
	form["dogs"] = dogs
	return form
}

// brought waits for the draft that a form begins, and keeps it.
func (r *room) brought(p page) page {
	r.t.Helper()
	if p.status != http.StatusSeeOther {
		r.t.Fatalf("status %d: %s", p.status, p.Find("main").Text())
	}
	p = r.get(p.to[:len(p.to)-len("#draft")])
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get("/shows?draft=1")
	}
	return r.send("/shows", p.form(".draft", "keep"))
}

func TestAShowOfTheWrongYearTakesTheDayThatWasMeant(t *testing.T) {
	r := opened(t)
	form := r.newShow("Corran Spring Show", "2026-03-20", "Moss")
	form.Set("entries_close", "2026-03-02")
	form.Set("away_from", "2027-03-19") // typed right
	p := r.asked(form, "Friday 20 March 2026 was 10 months ago. Was Saturday 20 March 2027 meant?", doMeant, doPast)
	p = r.brought(r.ask(http.MethodPost, "/shows", p.form("[aria-labelledby=edit]", doMeant)))
	p.says("[aria-labelledby=list]", "Corran Spring Show")
	shows := r.state().Kennel.Shows
	s := shows[len(shows)-1]
	if s.On.String() != "2027-03-20" || s.EntriesClose.String() != "2027-03-02" || s.Away == nil || s.Away.From.String() != "2027-03-19" {
		t.Errorf("%+v, away %v", s, s.Away)
	}
}

// Entries that close in the year that was meant are no reason to refuse the year that was not.
func TestTheWrongYearIsAskedAboutBeforeItsClosingDay(t *testing.T) {
	r := opened(t)
	form := r.newShow("Corran Spring Show", "2026-03-20", "Moss")
	form.Set("entries_close", "2027-03-02")
	p := r.asked(form, "Was Saturday 20 March 2027 meant?", doMeant, doPast)
	p = r.ask(http.MethodPost, "/shows", p.form("[aria-labelledby=edit]", doPast))
	if p.status != http.StatusUnprocessableEntity {
		t.Fatalf("status %d", p.status)
	}
	p.wrongAt("entries_close", "is after the show", "2027-03-02")
}

func TestAShowInThePastIsKeptAndListedWhereItCanBeFixed(t *testing.T) {
	r := opened(t)
	p := r.asked(r.newShow("Corran Spring Show", "2026-03-20", "Moss"), "was 10 months ago", doMeant, doPast)
	p = r.send("/shows", p.form("[aria-labelledby=edit]", doPast))
	p.says(".said", "Saved")
	p.says("[aria-labelledby=past]", "Corran Spring Show on Fri 20 Mar 2026, 10 months ago: Moss")
	if p.Find("[aria-labelledby=list]:contains(Corran)").Length() != 0 {
		t.Error("it is listed as ahead")
	}
	r.asked(r.newShow("Lately", "2026-12-28", "Moss"), "Mon 28 Dec 2026 was 7 days ago.", doPast)
	// It opens from the list; changing what is not odd asks nothing, another day in the past does.
	to, _ := r.get("/shows").Find("[aria-labelledby=past] a").Attr("href")
	form := r.get(to[:len(to)-len("#edit")]).form("[aria-labelledby=edit]", "try")
	form.Set("on", "2026-03-21")
	r.asked(form, "Saturday 21 March 2026 was 9 months ago", doMeant, doPast)
	form.Set("on", "2026-03-20")
	form.Set("do", "save")
	form.Set("weight", "3")
	r.send("/shows", form).says(".said", "Saved")
	form = r.get("/shows?show=2026-03-20+Corran+Spring+Show").form("[aria-labelledby=edit]", "try-drop")
	r.brought(r.ask(http.MethodPost, "/shows", form))
	if n := len(r.state().Kennel.Shows); n != 1 {
		t.Errorf("%d shows", n)
	}
}

func TestAShowWithoutDogsIsAskedAboutKeptAndListed(t *testing.T) {
	r := opened(t)
	p := r.asked(r.newShow("Nodogs", "2027-03-06"), "No dog is named, so no dog is prepared for it.", doBare)
	p = r.brought(r.ask(http.MethodPost, "/shows", p.form("[aria-labelledby=edit]", doBare)))
	p.says("[aria-labelledby=bare]", "Nodogs on Sat 6 Mar")
	if p.Find("[aria-labelledby=list]:contains(Nodogs)").Length() != 0 {
		t.Error("it is listed among those that dogs are prepared for")
	}
	// Taking the last dog off a show asks, too.
	form := r.get("/shows?show=2027-02-27+Brackenmere").form("[aria-labelledby=edit]", "try")
	form.Del("dogs")
	r.asked(form, "No dog is named", doBare)
}

// A wrong year and no dogs are asked about one after the other.
func TestAWrongYearWithoutDogsIsAskedAboutTwice(t *testing.T) {
	r := opened(t)
	p := r.asked(r.newShow("Corran", "2026-03-20"), "Was Saturday 20 March 2027 meant?", doMeant, doPast)
	p = r.asked(p.form("[aria-labelledby=edit]", doMeant), "No dog is named", doBare)
	if got, _ := p.Find("[name=on]").Attr("value"); got != "2027-03-20" {
		t.Errorf("the form has the day %q", got)
	}
}

func TestAShowThatIsOnlyHopedForMayNameNoDog(t *testing.T) {
	r := opened(t)
	form := r.newShow("Yarrowmead", "2027-03-06")
	form.Set("chance", "50")
	form.Set("do", "save")
	p := r.send("/shows", form)
	p.says("[aria-labelledby=bare]", "Yarrowmead on Sat 6 Mar, hoped for, 50 %: the advice below looks at every dog for it")
}

func TestPastShowsAreListedTheLatestFirst(t *testing.T) {
	k := twoDogs()
	for _, n := range []int{-40, -400, -7} {
		k.Shows = append(k.Shows, kennel.Show{Name: "Held", On: monday.AddDays(n), Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Moss"}})
	}
	r := opened(t)
	r.change(func(s *book.State) { s.Kennel.Shows = k.Shows })
	got := r.get("/shows").Find("[aria-labelledby=past] a").Map(func(_ int, s *goquery.Selection) string { v, _ := s.Attr("href"); return v[len("/shows?show="):][:10] })
	if !slices.Equal(got, []string{"2026-12-28", "2026-11-25", "2025-11-30"}) {
		t.Errorf("%q", got)
	}
}
