package desk

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
)

// dayWithSession is a day of the plan on which the first hands have a session, today before others.
func (r *room) dayWithSession() (optimize.Day, optimize.SessionIn) {
	r.t.Helper()
	for _, d := range r.use().Timetable.Days {
		for _, s := range d.Sessions() {
			if s.At.Hands == "Handler" {
				return d, s
			}
		}
	}
	r.t.Fatal("the plan has no session")
	return optimize.Day{}, optimize.SessionIn{}
}

// movable is the first session of a day that could go elsewhere, with the first place for it, and where its form is.
func (r *room) movable(p page) (d optimize.Day, s optimize.SessionIn, within, free string) {
	r.t.Helper()
	for _, d := range r.use().Timetable.Days {
		within := "#" + escaped(d.On.String()) + " .session"
		to, ok := p.Find(within).First().Find("option").FilterFunction(func(_ int, o *goquery.Selection) bool { return strings.Contains(o.Text(), ": free at ") }).First().Attr("value")
		if sessions := d.Sessions(); ok && len(sessions) > 0 {
			return d, sessions[0], within, to
		}
	}
	r.t.Fatal("no session can go anywhere")
	return d, s, "", ""
}

// workday moves today to the first day with a session.
func (r *room) workday() (page, optimize.SessionIn) {
	r.t.Helper()
	d, s := r.dayWithSession()
	r.turn(d.On)
	return r.get("/today"), s
}

func TestASessionIsTickedOffInOneTap(t *testing.T) {
	r := opened(t)
	p, s := r.workday()
	form := p.form(".thumb", "tick")
	before := r.version()
	p = r.send("/work", form)
	p.says(".said", s.Dog+" written down.")
	p.says(".thumb .now", s.Dog+" written down")
	p.says(".task.done", "Done in")
	work := r.state().Work
	if len(work) != 1 || work[0].Dog != s.Dog || work[0].On != r.day || work[0].Hands != "Handler" {
		t.Fatalf("written down: %+v", work)
	}
	for i, a := range s.Areas {
		if got := work[0].Areas[i]; got.Area != a.Area || got.Share != a.Share {
			t.Errorf("pulled %v, planned %s %v", got, a.Area, a.Share)
		}
	}
	if p.Find(".plan-note").Length() != 0 {
		t.Errorf("work as it was planned is said to change something: %s", p.Find(".plan-note").Text())
	}
	p = r.send("/work", p.form(".task.done", "drop"))
	p.says(".said", s.Dog+": taken out again.")
	p.says(".thumb .now", s.Dog+": taken out again")
	if n := len(r.state().Work); n != 0 {
		t.Errorf("%d lines of work after it was dropped", n)
	}
	if got := r.version() - before; got != 2 {
		t.Errorf("%d changes for a tick and its taking back", got)
	}
}

// How the long layer of an area is seen decides its share in one tap: what stands beside the word is what is written down, and the coat in
// the book is as it was seen.
func TestWhatIsSeenDecidesTheShareInOneTap(t *testing.T) {
	r := inUseOf(t, rolled())
	p, s := r.workday()
	if len(s.Areas) < 3 {
		t.Fatalf("only %d areas are planned", len(s.Areas))
	}
	none, thin, thick := s.Areas[0], s.Areas[1], s.Areas[2]
	form := p.form(".thumb", "tick")
	beside := func(area kennel.AreaName, long kennel.LongSeen) string {
		tap := p.Find(fmt.Sprintf("input[type=radio][form=%q][name=%q][value=%q]", nextForm, "seen."+string(area), long))
		if tap.Length() != 1 {
			t.Fatalf("%d places to tap for %s %s", tap.Length(), area, long)
		}
		if _, chosen := tap.Attr("checked"); chosen {
			t.Errorf("%s %s is chosen before anybody looked", area, long)
		}
		return strings.Join(strings.Fields(tap.Parent().Find("b").Text()), " ")
	}
	for area, long := range map[kennel.AreaName]kennel.LongSeen{none.Area: kennel.LongNone, thin.Area: kennel.LongThin, thick.Area: kennel.LongThick} {
		form.Set("seen."+string(area), string(long))
	}
	if got := beside(none.Area, kennel.LongNone); got != "leave it" {
		t.Errorf("beside none stands %q", got)
	}
	if got := beside(thin.Area, kennel.LongExpected); got != shareWords(thin.Share) {
		t.Errorf("beside as expected stands %q, planned is %q", got, shareWords(thin.Share))
	}
	hair := r.state().LongHair(r.desk.opt.Patterns, s.Dog, r.day)
	p2 := r.send("/work", form)
	p2.says(".task.done", "long layer seen: ")
	w := r.state().Work[0]
	shares := map[kennel.AreaName]kennel.Share{}
	for _, a := range w.Areas {
		shares[a.Area] = a.Share
	}
	if _, left := shares[none.Area]; left || shares[thin.Area] != thin.Share/2 || shareWords(shares[thin.Area]) != beside(thin.Area, kennel.LongThin) {
		t.Errorf("pulled %v", w.Areas)
	}
	if got := shares[thick.Area]; got < thick.Share || shareWords(got) != beside(thick.Area, kennel.LongThick) {
		t.Errorf("of what is thick %v was taken, %v was planned", got, thick.Share)
	}
	if len(w.Looks) != 3 || w.Looks[0].Share != 0 || w.Looks[2].Share != hair[thick.Area].Seen(kennel.LongThick) {
		t.Errorf("seen: %v", w.Looks)
	}
	if got := r.state().LongHair(r.desk.opt.Patterns, s.Dog, r.day)[none.Area].Share; got != 0 || hair[none.Area].Share == 0 {
		t.Errorf("%v of the %s is long by the book, %v was", got, none.Area, hair[none.Area].Share)
	}
	p2.says(".plan-note", "Changed since this plan was made on Mon 4 Jan: the coat of "+s.Dog+".")
	form.Set("seen."+string(none.Area), "plenty")
	form.Set("key", "another")
	if p := r.ask(http.MethodPost, "/work", form); p.status != http.StatusUnprocessableEntity && p.status != http.StatusConflict {
		t.Errorf("what nobody can see is answered with %d", p.status)
	}
	r.send("/work", p2.form(".task.done", "drop"))
	if got := r.state().LongHair(r.desk.opt.Patterns, s.Dog, r.day)[none.Area].Share; got != hair[none.Area].Share {
		t.Errorf("taken out again, %v of the %s is long, %v was", got, none.Area, hair[none.Area].Share)
	}
}

// rolled are two dogs in layers, so that a session takes a little of several areas.
func rolled() kennel.Kennel {
	k := twoDogs()
	for i := range k.Dogs {
		k.Dogs[i].All = nil
		for n := range 16 {
			k.Dogs[i].All = append(k.Dogs[i].All, kennel.Layer{Share: 1.0 / 16, Pulled: monday.AddDays(-7 * (n + 1))})
		}
	}
	return k
}

func TestOtherSharesANoteALengthAndStoppingEarlyAreWrittenDown(t *testing.T) {
	r := opened(t)
	p, s := r.workday()
	link, _ := p.Find(".task a[href*='stopped=yes']").First().Attr("href")
	p = r.get(link)
	form := p.form("main", "save")
	if form.Get("stopped") == "" {
		t.Error("the form does not say that it was stopped early")
	}
	for n, a := range s.Areas {
		if n > 0 {
			form.Set("share."+string(a.Area), "")
		}
	}
	first := s.Areas[0].Area
	form.Set("share."+string(first), "1/50")
	form.Set("minutes", "17")
	form.Set("note", "fussy today")
	form.Set("measured", string(first))
	form.Set("length", "31")
	p = r.send("/work", form)
	p.says(".said", s.Dog+" written down.")
	p.says(".left", s.Dog+": what is left")
	if n := p.Find(".left li").Length(); n == 0 {
		t.Error("nothing is left of a session that was stopped")
	}
	p.says(".task.done", "Stopped early after 17 min: fussy today")
	b := r.state()
	if w := b.Work[0]; !w.Stopped || w.Minutes != 17 || len(w.Areas) != 1 || w.Areas[0].Share != 0.02 || w.Note != "fussy today" {
		t.Errorf("written down: %+v", w)
	}
	if len(b.Measures) != 1 || b.Measures[0].Length != 31 || b.Measures[0].Area != first {
		t.Errorf("measured: %+v", b.Measures)
	}
	r.turn(r.day + 1)
	p = r.get("/today")
	p.says("main > .behind", "Behind: "+s.Dog)
}

func TestSharesAreTypedAsTheyArePrinted(t *testing.T) {
	r := opened(t)
	p, s := r.workday()
	link, _ := p.Find(".task a[href*='stopped=yes']").First().Attr("href")
	form := r.get(link).form("main", "save")
	for _, a := range s.Areas {
		name := "share." + string(a.Area)
		if got, want := form.Get(name), strings.TrimPrefix(kennel.ShareWords(a.Share), "about "); got != want {
			t.Errorf("the field of %s holds %q, printed is %q", a.Area, got, want)
		}
		form.Set(name, "0")
	}
	form.Set("share."+string(s.Areas[0].Area), "1 in 8")
	form.Set("minutes", "40 min")
	r.send("/work", form)
	if w := r.state().Work; len(w) != 1 || w[0].Minutes != 40 || len(w[0].Areas) != 1 || w[0].Areas[0] != (kennel.Pulled{Area: s.Areas[0].Area, Share: 0.125}) {
		t.Errorf("written down: %+v", w)
	}
}

func TestWorkThatCannotBeIsRefusedBesideItsField(t *testing.T) {
	r := opened(t)
	p := r.get("/work?dog=Sorrel&on=2027-01-04&hands=Handler")
	base := p.form("main", "save")
	for _, c := range []struct{ field, typed, words string }{
		{"minutes", "soon", "is not a stretch of time"},
		{"minutes", "", "is missing"},
		{"minutes", "9999", "out of range"},
		{"share.back", "3/2", "is not a part of an area"},
		{"on", "2027-02-30", "February 2027 has 28"},
		{"on", "2027-01-05", "after today"},
		{"length", "long", "is not a length"},
	} {
		form := url.Values{}
		for k, v := range base {
			form[k] = slices.Clone(v)
		}
		form.Set("minutes", "20")
		form.Set("share.back", "1/20")
		form.Set("note", "kept as typed")
		if c.field == "length" {
			form.Set("measured", "back")
		}
		form.Set(c.field, c.typed)
		p := r.ask(http.MethodPost, "/work", form)
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s %q: %d", c.field, c.typed, p.status)
			continue
		}
		p.wrongAt(c.field, c.words, c.typed)
		if got, _ := p.Find("[name=note]").Attr("value"); got != "kept as typed" {
			t.Errorf("%s %q: the note is %q", c.field, c.typed, got)
		}
	}
	if n := len(r.state().Work); n != 0 {
		t.Errorf("%d lines were written", n)
	}
}

func TestADutyIsTickedOff(t *testing.T) {
	r := opened(t)
	p := r.send("/work", url.Values{"version": {number64(r.version())}, "do": {"save"}, "dog": {"Moss"}, "on": {"2027-01-04"}, "hands": {"Handler"}, "minutes": {"10"}, "duty": {"nails"}, "back": {"/today"}})
	p.says(".said", "Moss: nails written down")
	if w := r.state().Work; len(w) != 1 || w[0].Duty != "nails" || len(w[0].Areas) != 0 {
		t.Errorf("written down: %+v", w)
	}
}

// Two people tick off different dogs from pages that are both old: both are written down.
func TestTwoPeopleDoNotStandInEachOthersWay(t *testing.T) {
	r := opened(t)
	p := r.get("/work?dog=Sorrel")
	form := p.form("main", "save")
	form.Set("share.back", "1/20")
	form.Set("minutes", "20")
	r.change(func(s *book.State) {
		s.Record(kennel.Work{Dog: "Moss", On: monday, Hands: "Assistant", Minutes: 10, Duty: "nails"})
	})
	r.send("/work", form)
	if n := len(r.state().Work); n != 2 {
		t.Errorf("%d lines of work, want both", n)
	}
}

func TestAStaleEditIsRefusedWithBothVersions(t *testing.T) {
	r := opened(t)
	p := r.get("/shows?show=2027-02-27+Brackenmere")
	form := p.form("[aria-labelledby=edit]", "try")
	form.Set("weight", "5")
	form.Set("do", "save")
	r.change(func(s *book.State) { s.Kennel.Shows[0].Weight = 3 })
	p = r.ask(http.MethodPost, "/shows", form)
	if p.status != http.StatusConflict {
		t.Fatalf("status %d", p.status)
	}
	var row []string
	p.Find(".conflict .differs > *").Each(func(_ int, s *goquery.Selection) { row = append(row, s.Text()) })
	if !slices.Equal(row, []string{"weight", "2", "3"}) {
		t.Errorf("both versions differ in %q", row)
	}
	if got, _ := p.Find("[name=weight]").Attr("value"); got != "5" {
		t.Errorf("typed was 5, kept is %q", got)
	}
	if w := r.state().Kennel.Shows[0].Weight; w != 3 {
		t.Errorf("the other's weight of 3 became %v", w)
	}
	// Saved again knowingly, it goes over the other's.
	form = p.form("[aria-labelledby=edit]", "try")
	form.Set("do", "save")
	r.send("/shows", form)
	if w := r.state().Kennel.Shows[0].Weight; w != 5 {
		t.Errorf("saved again, the weight is %v", w)
	}
}

func TestAShowIsTriedBeforeItIsKept(t *testing.T) {
	r := opened(t)
	form := r.get("/shows").form("[aria-labelledby=edit]", "try")
	form.Set("name", "Ferrydown")
	form.Set("on", "2027-02-20")
	form.Set("entries_close", "2027-02-06")
	form["dogs"] = []string{"Sorrel", "Moss"}
	before := r.version()
	p := r.send("/shows", form)
	for p.Find(".draft [data-stream], .draft[data-stream]").Length() > 0 {
		p = r.get("/shows?draft=1")
	}
	p.says(".draft", "The season gains")
	p.says(".draft .entered", "Moss at Ferrydown (Sat 20 Feb): ")
	p.says(".draft", "What breaks")
	if n := p.Find(".draft button[value=keep]").Length(); n != 2 {
		t.Errorf("it can be taken in %d places", n)
	}
	if text := p.Find(".draft").Text(); strings.Contains(text, "2027-") {
		t.Error("a day is not said as elsewhere: " + text)
	}
	if r.version() != before {
		t.Fatal("a draft was written")
	}
	if got, _ := p.Find("[name=name]").Attr("value"); got != "Ferrydown" {
		t.Errorf("beside it the form has the name %q", got)
	}
	p = r.send("/shows", p.form(".draft", "keep"))
	p.says(".said", "Taken. This is the plan now.")
	p.says(".shows", "Ferrydown")
	if p.Find(".plan-note").Length() != 0 {
		t.Errorf("the plan that was looked at is not the plan: %s", p.Find(".plan-note").Text())
	}
	if got := r.version() - before; got != 1 {
		t.Errorf("%d changes were written", got)
	}
	if n := p.Find(".shows tr:contains(Ferrydown) b").Length(); n != 2 {
		t.Errorf("%d dogs have a readiness for it", n)
	}
	// It is thrown away as easily.
	form = r.get("/shows?show=2027-02-20+Ferrydown").form("[aria-labelledby=edit]", "try-drop")
	p = r.send("/shows", form)
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get("/shows?draft=2")
	}
	p.says(".draft .entered", "Ferrydown")
	p = r.send("/shows", p.form(".draft", "discard"))
	p.says(".said", "thrown away")
	if n := len(r.state().Kennel.Shows); n != 2 {
		t.Errorf("%d shows", n)
	}
}

func TestADraftIsNotKeptOverWhatSomebodyElseChanged(t *testing.T) {
	r := opened(t)
	form := r.get("/shows?show=2027-02-27+Brackenmere").form("[aria-labelledby=edit]", "try")
	form.Set("chance", "40")
	p := r.send("/shows", form)
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get("/shows?draft=1")
	}
	keep := p.form(".draft", "keep")
	r.change(func(s *book.State) { s.Kennel.Shows[0].Days = 2 })
	p = r.ask(http.MethodPost, "/shows", keep)
	if p.status != http.StatusConflict {
		t.Fatalf("status %d", p.status)
	}
	p.says(".conflict .differs", "days12")
	if s := r.state().Kennel.Shows[0]; s.Chance != 1 || s.Days != 2 {
		t.Errorf("the show is %+v", s)
	}
}

func TestAShowThatCannotBeIsRefusedBesideItsField(t *testing.T) {
	r := opened(t)
	base := r.get("/shows").form("[aria-labelledby=edit]", "try")
	for _, c := range []struct{ field, typed, words string }{
		{"name", "", "is missing"},
		{"on", "", "is missing"},
		{"on", "tomorrow", "is not a date"},
		{"days", "0", "1 to 14"},
		{"days", "two", "not a whole number"},
		{"chance", "0", "above 0"},
		{"chance", "140", "at most 100"},
		{"chance", "0.6", "would be 0.6 %. Try: 60, or 0.6% if it is right"},
		{"on", "09/11/2027", "could be two days. Try: 2027-11-09 for 9 November 2027, or 2027-09-11 for 11 September 2027"},
		{"name", strings.Repeat("n", 81), "has 81 letters. Try: at most 80 letters"},
		{"weight", "-1", "above 0"},
		{"entries_close", "2027-03-07", "after the show"},
		{"away_to", "2027-02-01", "is before from, 2027-02-20"},
	} {
		form := url.Values{}
		for k, v := range base {
			form[k] = slices.Clone(v)
		}
		form.Set("name", "Ferrydown")
		form.Set("on", "2027-02-20")
		form.Set("dogs", "Moss")
		form.Set(c.field, c.typed)
		p := r.ask(http.MethodPost, "/shows", form)
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s %q: %d", c.field, c.typed, p.status)
			continue
		}
		p.wrongAt(c.field, c.words, c.typed)
	}
	form := url.Values{}
	for k, v := range base {
		form[k] = v
	}
	form.Set("name", "Brackenmere")
	form.Set("on", "2027-02-27")
	form.Set("dogs", "Moss")
	p := r.ask(http.MethodPost, "/shows", form)
	if p.status != http.StatusUnprocessableEntity || !strings.Contains(p.Find(".error").Text(), "appears twice") {
		t.Errorf("a second show of the same name and day: %d %s", p.status, p.Find(".error").Text())
	}
	if r.version() != 1 {
		t.Errorf("the book is at change %d", r.version())
	}
}

func TestAdviceOnEntriesIsWorkedOutWhenAsked(t *testing.T) {
	k := twoDogs()
	k.Shows = append(k.Shows, kennel.Show{Name: "Yarrowmead", On: monday.AddDays(40), Days: 1, Weight: 1, Chance: 0.5, Dogs: []string{"Moss"}})
	r := inUseOf(t, k)
	p := r.send("/shows", r.get("/shows").form("[aria-labelledby=advice]", "advise"))
	for p.Find(".advice").Length() == 0 {
		p.says("#advice ~ p", "being worked out")
		p = r.get("/shows")
	}
	p.says(".advice", "Moss")
	p.says(".advice", "Yarrowmead")
}

func TestASessionGoesToAnotherDayAndIsPinned(t *testing.T) {
	r := roomy(t)
	p := r.get("/week")
	_, s, within, free := r.movable(p)
	form := p.form(within, "see")
	if got, _ := p.Find(within + " option[selected]").First().Attr("value"); got != placeKey(s.At.On, s.At.Hands) {
		t.Errorf("the form begins at %q", got)
	}
	form.Set("to", free)
	before := r.version()
	p = r.send("/week", form)
	p.says(".moving", s.Dog+", ")
	p.says(".moving", "Nothing is written yet")
	p.says(".moving", "Nothing falls out")
	if r.version() != before {
		t.Error("a look at what changes was written")
	}
	p = r.send("/week", p.form(".moving", "move"))
	p.says(".said", "Moved and pinned")
	day, _, _ := strings.Cut(free, " ")
	p.says("#"+escaped(day), s.Dog)
	p.says("#"+escaped(day)+" .pin", "pinned")
	var pinned []book.Session
	for _, x := range r.state().Sessions {
		if x.Pinned {
			pinned = append(pinned, x)
		}
	}
	if len(pinned) != 1 || pinned[0].Dog != s.Dog || pinned[0].On.String() != day {
		t.Fatalf("pinned: %+v", pinned)
	}
	at := optimize.SessionAt{On: pinned[0].On, Start: pinned[0].Start, Hands: pinned[0].Hands}
	if x, ok := r.use().Timetable.SessionAt(s.Dog, at); !ok || !x.Pinned {
		t.Error("the plan in use has not moved it")
	}
	r.send("/plan", r.again().form("[aria-labelledby=next]", "take"))
	if x, ok := r.use().Timetable.SessionAt(s.Dog, at); !ok || !x.Pinned {
		t.Error("the new plan moved what was pinned")
	}
	p = r.send("/week", r.get("/week").form("#"+escaped(day)+" .session", "loose"))
	p.says(".said", "No longer pinned")
	for _, x := range r.state().Sessions {
		if x.Pinned {
			t.Errorf("still pinned: %+v", x)
		}
	}
	if x, ok := r.use().Timetable.SessionAt(s.Dog, at); !ok || x.Pinned {
		t.Error("the plan in use still has it pinned")
	}
}

// escaped is an identifier that starts with a digit, as a selector takes it.
func escaped(id string) string { return `\3` + id[:1] + " " + id[1:] }

func TestASessionDoesNotGoWhereItCannotBe(t *testing.T) {
	r := opened(t)
	d, s := r.dayWithSession()
	p := r.get("/week")
	within := "#" + escaped(d.On.String()) + " .session"
	form := p.form(within, "see")
	reasons := map[string]bool{}
	p.Find(within).First().Find("option[disabled]").Each(func(_ int, o *goquery.Selection) {
		to, _ := o.Attr("value")
		form.Set("to", to)
		form.Set("do", []string{"see", "move", "room"}[len(reasons)%3])
		p := r.ask(http.MethodPost, "/week", form)
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s to %s: %d", s.Dog, to, p.status)
			return
		}
		said := p.Find("details[open] .error").Text()
		_, why, _ := strings.Cut(o.Text(), "no, ")
		if why == "" || !strings.Contains(said, why) {
			t.Errorf("the list says %q, the answer %q", o.Text(), said)
		}
		reasons[why] = true
	})
	if len(reasons) < 3 {
		t.Errorf("only these reasons were met: %v", reasons)
	}
	if r.version() != 1 {
		t.Errorf("the book is at change %d", r.version())
	}
}

func TestHoursAreKeptAndRefused(t *testing.T) {
	r := opened(t)
	p := r.get("/hours")
	form := p.form("[aria-labelledby=hands-1]", "save")
	form.Set("mon", "3.5")
	p = r.send("/hours", form)
	p.says(".said", "Saved")
	if h := r.state().Kennel.Hands[0].Hours; h[0] != 3.5 || h[1] != 2 {
		t.Errorf("hours are %v", h)
	}
	for typed, want := range map[string]kennel.Hours{"2h": 2, "1:30": 1.5, "2,5": 2.5, "90 min": 1.5} {
		form = p.form("[aria-labelledby=hands-1]", "save")
		form.Set("mon", typed)
		p = r.send("/hours", form)
		if h := r.state().Kennel.Hands[0].Hours[0]; h != want {
			t.Errorf("%q is %v", typed, h)
		}
	}
	form = p.form("[aria-labelledby=hands-1]", "save")
	form.Set("mon", "25")
	p = r.ask(http.MethodPost, "/hours", form)
	p.wrongAt("mon", "0 to 24", "25")
	form.Set("mon", "two")
	p = r.ask(http.MethodPost, "/hours", form)
	p.wrongAt("mon", "not a number", "two")
	p = r.get("/hours")
	away := p.form("[aria-labelledby=hands-1]", "away")
	away.Set("from", "2027-02-01")
	away.Set("to", "2027-01-20")
	p = r.ask(http.MethodPost, "/hours", away)
	p.wrongAt("to", "is before from, 2027-02-01", "2027-01-20")
	away.Set("to", "2027-02-03")
	away.Set("why", "a few days off")
	p = r.send("/hours", away)
	p.says(".away", "Mon 1 Feb to Wed 3 Feb, a few days off")
	r.send("/hours", p.form(".away", "back"))
	if n := len(r.state().Kennel.Hands[0].Away); n != 0 {
		t.Errorf("%d days away", n)
	}
	form = r.get("/hours").form("[aria-labelledby=new]", "save")
	form.Set("name", "Apprentice")
	form.Set("sat", "2")
	r.send("/hours", form)
	if h := r.state().Kennel.Hands; len(h) != 3 || h[2].Name != "Apprentice" || h[2].Hours[kennel.Saturday] != 2 || len(h[2].Does) != 0 {
		t.Errorf("hands are %+v", h)
	}
	form = r.get("/hours").form("[aria-labelledby=new]", "save")
	form.Set("name", "handler")
	if p := r.ask(http.MethodPost, "/hours", form); p.status != http.StatusUnprocessableEntity {
		t.Errorf("a second pair of hands of one name: %d", p.status)
	} else {
		p.wrongAt("name", "appears twice", "handler")
	}
	r.send("/hours", r.get("/hours").form("[aria-labelledby=hands-3]", "drop"))
	if n := len(r.state().Kennel.Hands); n != 2 {
		t.Errorf("%d pairs of hands", n)
	}
}

func TestHoursAreTriedBeforeTheyAreKept(t *testing.T) {
	r := opened(t)
	form := r.get("/hours").form("[aria-labelledby=hands-1]", "try-away")
	form.Set("from", "2027-01-11")
	form.Set("to", "2027-01-17")
	p := r.send("/hours", form)
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get("/hours?draft=1")
	}
	p.says(".draft .hours", "11 January")
	if r.version() != 1 {
		t.Fatal("a draft was written")
	}
	r.send("/hours", p.form(".draft", "keep"))
	if n := len(r.state().Kennel.Hands[0].Away); n != 1 {
		t.Errorf("%d days away", n)
	}
}

// From an empty book to a planned week, by forms alone.
func TestAFirstVisitEndsInAPlannedWeek(t *testing.T) {
	r := open(t, kennel.Kennel{})
	form := r.get("/hours").form("[aria-labelledby=new]", "save")
	for _, day := range []string{"mon", "wed", "fri"} {
		form.Set(day, "2")
	}
	r.send("/hours", form)
	form = r.get("/string").form("main", "add")
	form.Set("name", "Sorrel")
	form.Set("pattern", "wire-fox-terrier")
	form.Set("coat", "0.5 2026-09-28 0.5 2026-11-09")
	r.send("/string", form)
	r.planned()
	p := r.get("/week")
	p.says(".week", "Sorrel")
	r.get("/string").says(".dog-card", "Wire Fox Terrier")
	r.get("/dogs/Sorrel").says("main", "The coat today")
}

func TestADogIsToldAndRefused(t *testing.T) {
	r := opened(t)
	add := r.get("/string").form("main", "add")
	for _, c := range []struct{ field, typed, words string }{
		{"name", "", "is missing"},
		{"name", "Sorrel", "already"},
		{"coat", "", "is missing"},
		{"coat", "long ago", "neither a share nor a day"},
		{"coat", "2027-03-01", "can't be seen"},
		{"born", "2027-13-01", "no month of that number"},
	} {
		form := url.Values{}
		for k, v := range add {
			form[k] = slices.Clone(v)
		}
		form.Set("name", "Tansy")
		form.Set("pattern", "wire-fox-terrier")
		form.Set("coat", "2026-10-12")
		form.Set(c.field, c.typed)
		p := r.ask(http.MethodPost, "/string", form)
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%s %q: %d", c.field, c.typed, p.status)
			continue
		}
		p.wrongAt(c.field, c.words, c.typed)
	}
	form := r.get("/dogs/Sorrel").form("main", "facts")
	form.Set("growth", "1.2")
	form.Set("owner", "R. Calloway")
	r.send("/dogs/Sorrel", form)
	form.Set("growth", "9")
	form.Set("version", number64(r.version()))
	p := r.ask(http.MethodPost, "/dogs/Sorrel", form)
	p.wrongAt("growth", "must be 0.5 to 2", "9")
	form = r.get("/dogs/Sorrel").form("main", "coat")
	form.Set("area", "back")
	form.Set("coat", "0.3 2026-12-01 0.7 2026-10-01")
	p = r.send("/dogs/Sorrel", form)
	p.says(".layers", "back0.3 2026-12-01 0.7 2026-10-01")
	form.Set("version", number64(r.version()))
	form.Set("coat", "30% 1 December 2026 1 in 2 1.10.2026")
	p = r.send("/dogs/Sorrel", form)
	p.says(".layers", "back0.3 2026-12-01 0.5 2026-10-01")
	p.says(".said", "A part of the coat has no day")
	form.Set("version", number64(r.version()))
	form.Set("coat", "0.3 0.7")
	p = r.ask(http.MethodPost, "/dogs/Sorrel", form)
	p.wrongAt("coat", "is not a day", "0.3 0.7")
	form = r.get("/dogs/Sorrel").form("main", "duty")
	form.Set("duty", "ears 5 every 1w")
	p = r.send("/dogs/Sorrel", form)
	p.says("main", "ears, 5 min, every 1 week")
	form.Set("version", number64(r.version()))
	form.Set("duty", strings.Repeat("n", 81)+" 5 every 1w")
	r.ask(http.MethodPost, "/dogs/Sorrel", form).wrongAt("duty", "has 81 letters", form.Get("duty"))
	form.Set("duty", "ears sometimes")
	form.Set("version", number64(r.version()))
	p = r.ask(http.MethodPost, "/dogs/Sorrel", form)
	p.wrongAt("duty", "does not say", "ears sometimes")
	r.send("/dogs/Sorrel", r.get("/dogs/Sorrel").form("main", "drop-duty"))
	form = r.get("/dogs/Sorrel").form("main", "measure")
	if n := r.get("/dogs/Sorrel").Find("select[name=measured] option[value='']").Length(); n != 0 {
		t.Error("a length can be that of the whole dog")
	}
	form.Set("measured", "back")
	form.Set("length", "320")
	r.ask(http.MethodPost, "/dogs/Sorrel", form).wrongAt("length", "would be 32 cm", "320")
	form.Set("note", strings.Repeat("n", 2001))
	form.Set("length", "1.25in")
	r.ask(http.MethodPost, "/dogs/Sorrel", form).wrongAt("note", "has 2001 letters", form.Get("note"))
	form.Set("note", "")
	r.send("/dogs/Sorrel", form)
	form.Set("length", "")
	form.Set("version", number64(r.version()))
	p = r.ask(http.MethodPost, "/dogs/Sorrel", form)
	p.wrongAt("length", "is missing", "")
	s := r.state()
	d := s.Kennel.Dogs[0]
	if d.Coat.Growth != 1.2 || d.Owner != "R. Calloway" || len(d.Duties) != 1 || len(s.Measures) != 1 || s.Measures[0].Length != 31.75 {
		t.Errorf("the dog is %+v, measured %+v", d, s.Measures)
	}
	form = r.get("/dogs/Sorrel").form("main", "facts")
	form.Set("name", "Sorrel of the Ferry")
	p = r.send("/dogs/Sorrel", form)
	p.says("h1", "Sorrel of the Ferry")
	if got := r.state().Kennel.Shows[0].Dogs; !slices.Equal(got, []string{"Sorrel of the Ferry"}) {
		t.Errorf("the show names %v", got)
	}
	p = r.send("/dogs/Moss", r.get("/dogs/Moss").form("main", "retire"))
	p.says("main", "Saved")
}

func TestTheLastChangeIsTakenBackUnlessSomethingCameBetween(t *testing.T) {
	r := opened(t)
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Priority = 2 })
	p := r.get("/history")
	p.says("[aria-labelledby=undo]", "somebody else")
	form := p.form("main", "undo")
	r.change(func(s *book.State) { s.Kennel.Dogs[1].Priority = 3 })
	stale := r.ask(http.MethodPost, "/history", form)
	if stale.status != http.StatusConflict {
		t.Fatalf("status %d", stale.status)
	}
	if d := r.state().Kennel.Dogs; d[0].Priority != 2 || d[1].Priority != 3 {
		t.Error("something was taken back")
	}
	p = r.send("/history", r.get("/history").form("main", "undo"))
	p.says(".said", "Undone")
	p.says(".undone", "(undone)")
	if d := r.state().Kennel.Dogs; d[0].Priority != 2 || d[1].Priority != 1 {
		t.Errorf("priorities are %v and %v", d[0].Priority, d[1].Priority)
	}
}

func TestThePlanInUseStaysUntilTheNewOneIsTaken(t *testing.T) {
	r := opened(t)
	hold := make(chan struct{})
	r.hold = hold
	record := r.state().Plan.Result
	r.change(func(s *book.State) { s.Kennel.Hands[0].Hours[0] = 0 })
	p := r.get("/week")
	p.says(".plan-note", "Changed since this plan was made on Mon 4 Jan: hours or days away of Handler.")
	p.says(".week", "Monday 4 January")
	p = r.send("/plan", p.form(".plan-note", "start"))
	p.says(".plan-note", "A new plan is being made")
	if to, _ := p.Find(".plan-note").Attr("data-stream"); to != "/progress" {
		t.Errorf("the page follows %q", to)
	}
	r.until(func(s status) bool { return s.Begun })
	r.get("/plan").says("main", "No plan can pass, points 2.50")
	close(hold)
	r.planned()
	p = r.get("/week")
	p.says(".plan-note", "A new plan is ready")
	if !bytes.Equal(r.state().Plan.Result, record) {
		t.Fatal("making a plan has changed the one in use")
	}
	p = r.get("/plan")
	p.says("[aria-labelledby=next]", "points")
	before := r.version()
	p = r.send("/plan", p.form("[aria-labelledby=next]", "take"))
	p.says(".said", "This is the plan now")
	if s := r.state(); s.Plan.On != monday || bytes.Equal(s.Plan.Result, record) || len(s.Sessions) == 0 || r.version() != before+1 {
		t.Errorf("the new plan was not taken in one change: change %d after %d", r.version(), before)
	}
	if p.Find(".plan-note").Length() != 0 {
		t.Errorf("the plan is asked for again: %s", p.Find(".plan-note").Text())
	}
	r.send("/history", r.get("/history").form("main", "undo"))
	if !bytes.Equal(r.state().Plan.Result, record) {
		t.Error("taken back, the plan before is not the one in use")
	}
	r.get("/today").says(".plan-note", "Changed since this plan was made")
}

func TestAPlanCanBeThrownAwayAndStopped(t *testing.T) {
	r := opened(t)
	record := r.state().Plan.Result
	r.change(func(s *book.State) { s.Kennel.Hands[0].Hours[0] = 0 })
	p := r.send("/plan", r.again().form("[aria-labelledby=next]", "throw away"))
	p.says(".said", "stays as it was")
	p.says(".plan-note", "Changed since this plan was made")
	if next, _, s := r.desk.plans.stand(); !bytes.Equal(r.state().Plan.Result, record) || next != nil || s.Running {
		t.Error("another plan is in use, waits or is made")
	}
	hold := make(chan struct{})
	defer close(hold)
	r.hold = hold
	p = r.send("/plan", r.get("/plan").form("main", "start"))
	p.says(".plan-note", "A new plan is being made")
	r.send("/plan", p.form(".plan-note", "stop"))
	r.planned()
	r.get("/plan").says(".plan-note", "A new plan is ready") // the best that was found
}

// The first plan of a book is made and taken unasked; taken back, it is not forced on anybody again.
func TestTheFirstPlanOfABookIsTaken(t *testing.T) {
	r := open(t, twoDogs())
	r.planned()
	if s := r.state(); s.Plan.Result == nil || r.version() != 2 {
		t.Fatalf("no plan is in use at change %d", r.version())
	}
	h := r.get("/history")
	h.says("main", "took the plan: ")
	r.send("/history", h.form("main", "undo"))
	r.planned()
	p := r.get("/week")
	p.says(".plan-note", "There is no plan in use.")
	if s := r.state(); s.Plan.Result != nil || r.version() != 3 {
		t.Errorf("another was taken: change %d", r.version())
	}
	r.send("/plan", p.form(".plan-note", "start"))
	r.planned()
	if s := r.state(); s.Plan.Result == nil {
		t.Error("asked for, it is not taken")
	}
}

// A record that this program can't read is said, never guessed at, and another plan can be made.
func TestAPlanThatCannotBeReadIsSaid(t *testing.T) {
	r := opened(t)
	r.change(func(s *book.State) { s.Plan.Result = []byte("tuckup plan of another day") })
	for _, path := range []string{"/", "/today", "/week", "/string", "/dogs/Moss", "/plan"} {
		p := r.get(path)
		p.says(".plan-note .error", "The plan in use can't be read:")
	}
	r.send("/plan", r.again().form("[aria-labelledby=next]", "take"))
	if p := r.get("/week"); p.Find(".plan-note").Length() != 0 || p.Find(".session").Length() == 0 {
		t.Errorf("%s", p.Find(".plan-note").Text())
	}
}

func TestTheHoursAndTheCalendarAreTakenAway(t *testing.T) {
	r := opened(t)
	p := r.get("/workload.csv")
	if !strings.HasPrefix(p.kind, "text/csv") || strings.Count(p.body, "\n") < 5 || !strings.Contains(p.body, "Sorrel") {
		t.Errorf("%s: %.200s", p.kind, p.body)
	}
	to, _ := r.get("/workload").Find("a[href^='/calendar.ics']").Attr("href")
	p = r.get(to)
	if !strings.HasPrefix(p.kind, "text/calendar") || !strings.Contains(p.body, "BEGIN:VEVENT") {
		t.Errorf("%s: %.200s", p.kind, p.body)
	}
	uids := func(body string) (all []string) {
		for _, line := range strings.Split(body, "\r\n") {
			if strings.HasPrefix(line, "UID:") {
				all = append(all, line)
			}
		}
		slices.Sort(all)
		return all
	}
	again := r.get(to)
	if !slices.Equal(uids(p.body), uids(again.body)) || len(uids(p.body)) == 0 {
		t.Error("the entries have other names when the calendar is fetched again")
	}
}

func TestProgressIsToldUntilThePlanIsThere(t *testing.T) {
	r := open(t, kennel.Kennel{})
	hold := make(chan struct{})
	r.hold = hold
	r.change(func(s *book.State) { s.Replace(twoDogs(), monday) })
	p := r.get("/week")
	p.says(".plan-note", "The plan is being made")
	stream, _ := p.Find(".plan-note").Attr("data-stream")
	if stream != "/progress?go=%2Fweek" {
		t.Errorf("the page follows %q", stream)
	}
	told := make(chan page)
	go func() { told <- r.ask(http.MethodGet, stream, nil) }()
	close(hold)
	got := <-told
	if got.kind != "text/event-stream" {
		t.Errorf("told as %q", got.kind)
	}
	for _, want := range []string{"event: go\ndata: /week\n"} {
		if !strings.Contains(got.body, want) {
			t.Errorf("%q is not told in %q", want, got.body)
		}
	}
	if other := r.ask(http.MethodGet, "/progress?go=https://example.org", nil); strings.Contains(other.body, "event: go") {
		t.Errorf("another page is opened: %q", other.body)
	}
}

func TestAFormNeverLeadsAway(t *testing.T) {
	r := opened(t)
	for _, to := range []string{"https://example.org/", "//example.org/", `/\example.org`, "javascript:alert(1)", ""} {
		p := r.ask(http.MethodPost, "/work", url.Values{
			"version": {number64(r.version())}, "do": {"tick"}, "dog": {"Moss"}, "on": {"2027-01-04"}, "hands": {"Handler"}, "minutes": {"10"}, "duty": {"nails"}, "back": {to},
		})
		if p.status != http.StatusSeeOther || !strings.HasPrefix(p.to, "/work?") {
			t.Errorf("back to %q: %d %q", to, p.status, p.to)
		}
	}
}

func TestAPlanThatCannotBeMadeSaysWhy(t *testing.T) {
	k := twoDogs()
	r := inUseOf(t, k)
	r.book = r.another() // one that has the patterns of a file, which are not at hand here
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Pattern = "of-a-file" })
	r.send("/plan", r.get("/plan").form("main", "start"))
	r.until(func(s status) bool { return !s.Running })
	p := r.get("/today")
	p.says(".plan-note .error", "Sorrel: pattern")
	p.says(".plan-note", "Try:")
	if p.Find(".tasks").Length() != 1 {
		t.Error("the day is not shown any more")
	}
}

func TestWhatGoesWrongInsidePlanningIsTold(t *testing.T) {
	r := open(t, kennel.Kennel{})
	r.desk.plans.opt.Plan = func(context.Context, Wish) (optimize.Result, error) { panic("a fault") }
	r.change(func(s *book.State) { s.Replace(twoDogs(), monday) })
	r.get("/today")
	r.until(func(s status) bool { return !s.Running })
	r.get("/today").says(".plan-note .error", "went wrong inside")
}

func TestAVersionThatNeverWasIsRefused(t *testing.T) {
	r := opened(t)
	form := r.get("/hours").form("[aria-labelledby=hands-1]", "save")
	form.Set("version", "99")
	form.Set("mon", "3")
	if p := r.ask(http.MethodPost, "/hours", form); p.status != http.StatusUnprocessableEntity || r.version() != 1 {
		t.Errorf("status %d, the book is at change %d", p.status, r.version())
	}
}
