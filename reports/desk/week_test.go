package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/optimize/timetable"
)

// fullDays is a desk whose days are so full that sessions can only change places or push others out.
func fullDays(t *testing.T) *room {
	t.Helper()
	k := twoDogs()
	k.Hands = k.Hands[:1]
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{1.2, 0, 0, 1.2}
	for i := range k.Dogs {
		k.Dogs[i].Duties, k.Dogs[i].Table.AWeek, k.Dogs[i].Table.Minutes = nil, 1, 45
	}
	k.Shows[0].Dogs = []string{"Sorrel", "Moss"}
	return inUseOf(t, k)
}

// way is the first session of the plan in use that can be moved in a way that the list of days names so, and the form that asks for it.
func (r *room) way(words string) (s optimize.SessionIn, form url.Values, said string) {
	r.t.Helper()
	for week := range 2 {
		p := r.get("/week?of=" + r.day.Monday().AddDays(7*week).String())
		for _, d := range r.use().Timetable.Days {
			for n, s := range d.Sessions() {
				item := p.Find("#" + escaped(d.On.String()) + " .session").Eq(n)
				o := item.Find("option").FilterFunction(func(_ int, o *goquery.Selection) bool { return strings.Contains(o.Text(), words) }).First()
				if o.Length() == 0 {
					continue
				}
				form := url.Values{"do": {"see"}}
				item.Find("form input").Each(func(_ int, in *goquery.Selection) { form.Set(in.AttrOr("name", ""), in.AttrOr("value", "")) })
				form.Set("to", o.AttrOr("value", ""))
				return s, form, o.Text()
			}
		}
	}
	r.t.Fatalf("no session can be moved so: %q", words)
	return s, nil, ""
}

// Two sessions of full days change places: what changes is said before it is taken, and then the plan in use has both where they were said to go.
func TestASessionChangesPlacesWithOneOfAFullDay(t *testing.T) {
	r := fullDays(t)
	s, form, said := r.way("swap with")
	before := r.version()
	p := r.send("/week", form)
	_, other, _ := strings.Cut(said, "swap with ")
	other, _, _ = strings.Cut(other, ",")
	p.says(".moving", s.Dog+", ")
	p.says(".moving", other+", ")
	p.says(".moving", "Nothing falls out")
	if r.version() != before {
		t.Fatal("a look was written")
	}
	sessions := len(allSessions(r.use().Result))
	p = r.send("/week", p.form(".moving", "move"))
	p.says(".said", "Moved and pinned")
	if r.version() != before+1 {
		t.Errorf("%d changes", r.version()-before)
	}
	on, _ := kennel.ParseDate(form.Get("to")[:10])
	there, back := false, false
	for _, x := range allSessions(r.use().Result) {
		there = there || x.Dog == s.Dog && x.At.On == on && x.Pinned
		back = back || x.Dog == other && x.At.On == s.At.On && !x.Pinned
	}
	if !there || !back || len(allSessions(r.use().Result)) != sessions {
		t.Errorf("%s on %s: %v, %s on %s: %v; %d sessions of %d", s.Dog, on, there, other, s.At.On, back, len(allSessions(r.use().Result)), sessions)
	}
	r.send("/history", r.get("/history").form("main", "undo"))
	if _, ok := r.use().Timetable.SessionAt(s.Dog, s.At); !ok {
		t.Error("taken back, it is not where it was")
	}
}

// allSessions are the sessions of the days that a plan lays out.
func allSessions(r optimize.Result) (all []optimize.SessionIn) {
	for _, d := range r.Timetable.Days {
		all = append(all, d.Sessions()...)
	}
	return all
}

// A session goes to a full day, and the rest is planned around it: what moves and what falls out is seen before it is taken.
func TestRoomIsMadeForASessionOnAFullDay(t *testing.T) {
	r := fullDays(t)
	s, form, _ := r.way("make room")
	before := r.version()
	p := r.send("/week", form)
	p.says(".moving", "That day is full")
	p.says(".moving", "On that day now: ")
	p = r.send("/week", p.form(".moving", "room"))
	for i := 0; i < 600 && p.Find(".draft button[value=keep]").Length() == 0; i++ {
		p = r.get("/week?of=" + s.At.On.Monday().String() + "&draft=1")
	}
	p.says(".draft", "moved the session of "+s.Dog)
	if r.version() != before {
		t.Fatal("a look was written")
	}
	on, _ := kennel.ParseDate(form.Get("to")[:10])
	p = r.send("/week", p.form(".draft", "keep"))
	p.says(".said", "This is the plan now")
	there := false
	for _, x := range allSessions(r.use().Result) {
		there = there || x.Dog == s.Dog && x.At.On == on && x.Pinned
	}
	if !there || r.version() != before+1 {
		t.Errorf("%s is on %s: %v, after %d changes", s.Dog, on, there, r.version()-before)
	}
}

// A move that somebody else has made impossible is refused, and nothing changes.
func TestAMoveThatCameLateChangesNothing(t *testing.T) {
	r := fullDays(t)
	s, form, _ := r.way("swap with")
	take := r.send("/week", form).form(".moving", "move")
	r.change(func(b *book.State) { b.Sessions = withoutSession(b.Sessions, s) })
	before := r.version()
	p := r.ask(http.MethodPost, "/week", take)
	if p.status != http.StatusConflict || r.version() != before {
		t.Errorf("answered %d, change %d after %d", p.status, r.version(), before)
	}
	p.says("[role=alert]", "Nothing of this form was saved")
}

// The page leads to this week and the next seven; shows and closing days are in their days.
func TestTheWeekLeadsAheadWithItsShows(t *testing.T) {
	r := opened(t)
	p := r.get("/week")
	if n := p.Find(".weeks a[href*='of=']").Length(); n != 8+1 { // and the arrow ahead
		t.Errorf("%d links to weeks", n)
	}
	if n := p.Find(".weekday").Length(); n != 7 {
		t.Errorf("%d days", n)
	}
	p.says(".weeks [aria-current]", "4 Jan")
	p = r.get("/week?of=2027-01-11")
	p.says("h1", "Week of 11 January")
	p.says("#"+escaped("2027-01-14"), "Entries close for Brackenmere")
	p = r.get("/week?of=2027-02-27&dog=Sorrel")
	p.says("#"+escaped("2027-02-27"), "▼ Brackenmere Sorrel")
	for path, status := range map[string]int{"/week?of=2026-12-28": 404, "/week?of=2027-12-28": 404, "/week?of=soon": 404} {
		if p := r.ask(http.MethodGet, path, nil); p.status != status {
			t.Errorf("%s: %d", path, p.status)
		}
	}
}

// A week that is not laid into days yet says the work dog by dog; the dog that was asked for is marked, or said to have none.
func TestAWeekAheadSaysTheWorkOfEachDog(t *testing.T) {
	r := opened(t)
	for _, w := range r.use().Weeks[4:] {
		for _, dog := range []string{"Sorrel", "Moss"} {
			p := r.get("/week?" + url.Values{"of": {w.Week.String()}, "dog": {dog}}.Encode())
			works := false
			for _, x := range w.Dogs {
				if x.Dog == dog {
					works = true
					p.says("#at", fmt.Sprintf("%s %d session", dog, x.Sessions))
				}
			}
			for _, x := range w.Duties {
				works = works || x.Dog == dog
			}
			if !works {
				p.says("#at", dog+" has no work in this week")
			}
			if p.Find("#at").Length() != 1 {
				t.Errorf("%d places of %s in the week of %s", p.Find("#at").Length(), dog, w.Week)
			}
		}
	}
}

// Done work stays on its day, struck through, with what was really taken; also what nobody had planned.
func TestDoneWorkStaysInTheWeek(t *testing.T) {
	r := opened(t)
	d, s := r.dayWithSession()
	r.turn(d.On)
	r.change(func(b *book.State) {
		b.Record(kennel.Work{Dog: s.Dog, On: d.On, Hands: s.At.Hands, Minutes: 17, Areas: []kennel.Pulled{{Area: s.Areas[0].Area, Share: 0.02}}, Stopped: true})
		b.Record(kennel.Work{Dog: "Moss", On: d.On, Hands: "Assistant", Minutes: 9, Duty: "ears"})
	})
	p := r.get("/week?of=" + d.On.String())
	item := "#" + escaped(d.On.String()) + " .session.done"
	p.says(item+" del", s.Dog)
	p.says(item+" ins", string(s.Areas[0].Area))
	p.says(item+" ins", "17 min, stopped early")
	p.says("#"+escaped(d.On.String())+" .item.done:not(.session)", "ears, 9 min")
	r.turn(d.On + 1)
	if d.On.Monday() == r.day.Monday() {
		r.get("/week").says(item+" ins", "17 min, stopped early")
	}
}

// Each session says why, in a few words.
func TestASessionSaysWhy(t *testing.T) {
	r := opened(t)
	d, s := r.dayWithSession()
	why := r.get("/week?of=" + d.On.String()).Find("#" + escaped(d.On.String()) + " .session .why").First().Text()
	if len(strings.Fields(why)) < 2 || len(strings.Fields(why)) > 9 || !strings.Contains(why, string(s.Areas[0].Area)) {
		t.Errorf("%s: %q", s.Dog, why)
	}
}

// Before a move is made the page says what it does to the dogs' readiness, also where it does nothing.
func TestAMoveSaysWhatItCostsBeforeItIsMade(t *testing.T) {
	r := fullDays(t)
	_, form, _ := r.way("swap with")
	r.send("/week", form).says(".moving", "Every dog is as ready for its shows as before.")

	r = roomy(t)
	l, err := r.desk.look(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	costly := 0
	for _, s := range allSessions(l.plan.Result) {
		words := way{place: timetable.Place{On: s.At.On.AddDays(28), Hands: s.At.Hands, Start: s.At.Start}}.words(l, s)
		said := strings.Join(words, " ")
		lost := regexp.MustCompile(`Sorrel for Brackenmere \(Sat 27 Feb\): ready (\d+), before (\d+)`).FindStringSubmatch(said)
		if lost != nil && lost[1] != lost[2] {
			costly++
		} else if !strings.Contains(said, "Every dog is as ready for its shows as before.") {
			t.Errorf("of %s on %s is said %q", s.Dog, s.At.On, said)
		}
	}
	if costly == 0 {
		t.Error("no session costs anything when it is four weeks late")
	}
}

// A day on which nobody works any more is no place for a session, whatever the plan in use thought.
func TestAMoveIsJudgedByTheBookAsItIs(t *testing.T) {
	r := roomy(t)
	s := allSessions(r.use().Result)[0]
	place := func() (on kennel.Date, hands, why string) {
		l, err := r.desk.look(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range l.plan.views.places(l.plan.Result, s) {
			if p.Hands == "Handler" && p.On != s.At.On && (on == 0 && p.Why == "" || p.Why == "Handler does not work" && p.On < monday.AddDays(5)) {
				on, hands, why = p.On, p.Hands, p.Why
			}
		}
		return on, hands, why
	}
	on, hands, why := place()
	if on == 0 || why != "" {
		t.Fatal("no day is free")
	}
	p := r.get("/week?of=" + s.At.On.Monday().String())
	form := p.form(".session", "see")
	form.Set("session", sessionKey(s.Dog, s.At))
	form.Set("to", placeKey(on, hands))
	form.Set("of", s.At.On.String())
	r.change(func(b *book.State) { b.Kennel.Hands[0].Away = []kennel.Span{{From: on, To: on}} })
	if now, _, why := place(); now != on || why != "Handler does not work" {
		t.Errorf("on %s is said %q of %s", on, why, now)
	}
	before := r.version()
	if p := r.ask(http.MethodPost, "/week", form); p.status != http.StatusUnprocessableEntity || !strings.Contains(p.Find("main").Text(), "Handler does not work") || r.version() != before {
		t.Errorf("answered %d: %s", p.status, p.Find("main .error").Text())
	}
}

// What the days could not hold is three lines before the week, however much it is; the rest is folded away.
func TestALongListOfWhatWasLeftOutIsFolded(t *testing.T) {
	r := opened(t)
	use := r.use()
	for n := range 9 {
		use.Timetable.LeftOut = append(use.Timetable.LeftOut, optimize.LeftOut{Week: monday, Dog: "Moss", Duty: fmt.Sprintf("duty %d", n), Minutes: 12, Why: "no time is left"})
	}
	p := r.get("/week")
	p.says("#left-out ~ ul", "duty 2")
	if n := p.Find("section:has(#left-out) > ul > li").Length(); n != 3 {
		t.Errorf("%d lines are before the week", n)
	}
	p.says("section:has(#left-out) details summary", "6 more")
	p.says("section:has(#left-out) details", "duty 8")
	if n := p.Find("section:has(#left-out) li").Length(); n != 9 {
		t.Errorf("%d lines in all", n)
	}
}

func TestHoursBelowTheBoardStayNarrow(t *testing.T) {
	for h, want := range map[kennel.Hours]string{0: "0.0", 8.52: "8.5", 99.94: "99.9", 99.96: "100", 108.31: "108"} {
		if got := hoursOfWeek(h); got != want {
			t.Errorf("%v is %q, want %q", float64(h), got, want)
		}
	}
}
