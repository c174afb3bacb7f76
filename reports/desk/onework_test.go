package desk

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/reports"
)

// touchOf is one area of a session as every surface says it.
func touchOf(on kennel.Date, dog, area, words string) string {
	return fmt.Sprintf("%s %s: %s %s", on, dog, area, strings.TrimPrefix(words, "about "))
}

func inOrder(all []string) []string {
	slices.Sort(all)
	return all
}

func squeezed(s *goquery.Selection) string { return strings.Join(strings.Fields(s.Text()), " ") }

// onPhone is the work on the pages of the days from today on that is not done.
func (r *room) onPhone() (all []string) {
	r.t.Helper()
	for _, h := range r.state().Kennel.Hands {
		for day := r.day; day <= r.day.AddDays(20); day++ {
			r.get("/today?" + url.Values{"day": {day.String()}, "hands": {h.Name}}.Encode()).Find(".task:not(.done)").Each(func(_ int, t *goquery.Selection) {
				t.Find(".areas li").Each(func(_ int, a *goquery.Selection) {
					all = append(all, touchOf(day, squeezed(t.Find("h2 a")), squeezed(a.Find("span").First()), squeezed(a.Find("b").First())))
				})
			})
		}
	}
	return inOrder(all)
}

// onWeek is the work on the page Week that is not done.
func (r *room) onWeek() (all []string) {
	r.t.Helper()
	for n := range 3 {
		all = append(all, r.inWeek(r.day.Monday().AddDays(7*n))...)
	}
	return inOrder(all)
}

// inWeek is the work of a week on its page.
func (r *room) inWeek(monday kennel.Date) (all []string) {
	r.t.Helper()
	r.get("/week?of=" + monday.String()).Find(".weekday").Each(func(_ int, d *goquery.Selection) {
		id, _ := d.Attr("id")
		day, err := kennel.ParseDate(id)
		if err != nil {
			r.t.Fatal(err)
		}
		d.Find(".session:not(.done)").Each(func(_ int, s *goquery.Selection) {
			for _, a := range strings.Split(squeezed(s.Find("p.small").First()), ", ") {
				n := strings.IndexFunc(a, func(c rune) bool { return c >= '0' && c <= '9' })
				for _, words := range []string{"half", "all of it", "a few hairs"} {
					if i := strings.Index(a, words); n < 0 && i >= 0 {
						n = i
					}
				}
				if n < 1 {
					r.t.Fatalf("%q says no share", a)
				}
				if day >= r.day {
					all = append(all, touchOf(day, squeezed(s.Find("b")), strings.TrimSpace(a[:n]), a[n:]))
				}
			}
		})
	})
	return all
}

// onSheet is the work on the sheet for the wall, which a break may cut in two.
func (r *room) onSheet() (all []string) {
	r.t.Helper()
	var sheet bytes.Buffer
	if err := reports.SheetCSV(&sheet, r.use().Result); err != nil {
		r.t.Fatal(err)
	}
	rows, err := csv.NewReader(&sheet).ReadAll()
	if err != nil {
		r.t.Fatal(err)
	}
	type spot struct {
		on        kennel.Date
		dog, area string
	}
	sum, words := map[spot]kennel.Share{}, map[spot]string{}
	at := func(row []string, name string) string { return row[slices.Index(rows[0], name)] }
	for _, row := range rows[1:] {
		if at(row, "share") == "" {
			continue
		}
		on, e1 := kennel.ParseDate(at(row, "date"))
		share, e2 := strconv.ParseFloat(at(row, "share"), 64)
		if err := errors.Join(e1, e2); err != nil {
			r.t.Fatal(err)
		}
		x := spot{on, at(row, "dog"), at(row, "what")}
		if words[x] = at(row, "words"); sum[x] > 0 {
			words[x] = kennel.ShareWords(sum[x] + kennel.Share(share))
		}
		sum[x] += kennel.Share(share)
	}
	for x, says := range words {
		all = append(all, touchOf(x.on, x.dog, x.area, says))
	}
	return inOrder(all)
}

// inFeed is the work in the calendar that phones follow.
func (r *room) inFeed() (all []string) {
	r.t.Helper()
	to, _ := r.get("/workload").Find("a[href^='/calendar.ics']").Attr("href")
	body := strings.ReplaceAll(strings.ReplaceAll(r.get(to).body, "\r\n ", ""), "\r\n", "\n")
	for _, event := range strings.Split(body, "BEGIN:VEVENT")[1:] {
		var day kennel.Date
		dog := ""
		for _, line := range strings.Split(event, "\n") {
			name, value, _ := strings.Cut(line, ":")
			switch {
			case strings.HasPrefix(name, "DTSTART"):
				var err error
				if day, err = kennel.ParseDate(value[:4] + "-" + value[4:6] + "-" + value[6:8]); err != nil {
					r.t.Fatal(err)
				}
			case name == "SUMMARY":
				dog, _, _ = strings.Cut(value, ":")
			}
		}
		_, says, _ := strings.Cut(event, "DESCRIPTION:")
		says, _, _ = strings.Cut(says, "\n")
		for _, line := range strings.Split(says, `\n`) {
			if area, ok := strings.CutPrefix(line, "- "); ok {
				area, words, _ := strings.Cut(strings.ReplaceAll(area, `\,`, ","), ": ")
				words, _, _ = strings.Cut(words, ",")
				all = append(all, touchOf(day, dog, area, words))
			}
		}
	}
	return inOrder(all)
}

// inBook is the work that the book has: of the sessions that were agreed for the coming days, and of the plan in use.
func (r *room) inBook() (sessions, plan []string) {
	r.t.Helper()
	s := r.state()
	for _, x := range s.Accepted(r.day) {
		for _, a := range x.Areas {
			sessions = append(sessions, touchOf(x.On, x.Dog, string(a.Area), kennel.ShareWords(a.Share)))
		}
	}
	for _, d := range r.use().Timetable.Days {
		for _, x := range d.Sessions() {
			for _, a := range x.Areas {
				plan = append(plan, touchOf(d.On, x.Dog, string(a.Area), a.Words()))
			}
		}
	}
	return inOrder(sessions), inOrder(plan)
}

// The phone, the week, the calendar that phones follow and the book say the same work, to the share, after every kind of change; a change
// that takes nothing leaves it as it was, and a start of the desk shows the same bytes.
func TestEverySurfaceSaysTheSameWorkAfterEveryKindOfChange(t *testing.T) {
	k := rolled()
	k.Hands[0].Hours = [kennel.DaysAWeek]kennel.Hours{4, 4, 4, 4, 4}
	r := inUseOf(t, k)
	taken := false // the step is one that changes the plan in use
	same := func(step string, before []string) []string {
		t.Helper()
		phone := r.onPhone()
		sessions, plan := r.inBook()
		for surface, says := range map[string][]string{"the week": r.onWeek(), "the calendar": r.inFeed(), "the sheet": r.onSheet(), "the plan in the book": plan, "the book's sessions": sessions} {
			if !slices.Equal(says, phone) {
				t.Errorf("%s: %s says\n%s\nthe phone\n%s", step, surface, strings.Join(says, "\n"), strings.Join(phone, "\n"))
			}
		}
		for _, x := range phone {
			if _, words, _ := strings.Cut(x, ": "); !taken && !slices.Contains(before, x) && before != nil {
				t.Errorf("%s: %q came although nothing was taken", step, words)
			}
		}
		return phone
	}
	now := same("at first", nil)
	if len(now) < 4 {
		t.Fatalf("only %d areas to compare", len(now))
	}
	fill := func(path, page, within, do string, values ...string) func() {
		return func() { s := fillIn(r.get(page), path, within, do, values...); r.send(s.path, s.form) }
	}
	draft := func(do string) func() {
		return func() {
			s := r.ending("/shows", r.ferrydown(), do)
			r.send(s.path, s.form)
		}
	}
	for _, step := range []struct {
		name  string
		do    func()
		takes bool
	}{
		{"a draft thrown away", draft("discard"), false},
		{"a show saved", func() { s := r.ferrydown(); s.form.Set("do", "save"); r.send(s.path, s.form) }, false},
		{"other hours", fill("/hours", "/hours", "[aria-labelledby=hands-1]", "save", "mon", "3.5"), false},
		{"days away", func() { a := r.away(); r.send(a.path, a.form) }, false},
		{"a coat looked at again", fill("/dogs/Moss", "/dogs/Moss", "main", "coat", "area", "back", "coat", "0.3 2026-12-01 0.7 2026-10-01"), false},
		{"facts of a dog", fill("/dogs/Moss", "/dogs/Moss", "main", "facts", "priority", "2"), false},
		{"a length", fill("/dogs/Moss", "/dogs/Moss", "main", "measure", "measured", "back", "length", "31"), false},
		{"a new dog", fill("/string", "/string", "main", "add", "name", "Tansy", "pattern", "wire-fox-terrier", "coat", "2026-10-12"), false},
		{"a plan made and thrown away", func() { r.send("/plan", r.again().form("[aria-labelledby=next]", "throw away")) }, false},
		{"a session moved", func() { m := r.moved(); r.send(m.path, m.form) }, true},
		{"a session no longer pinned", fill("/week", "/week", "main", "loose"), false},
		{"the next day with a session", func() { r.workday() }, false},
		{"a tick", func() { r.send("/work", r.get("/today").form(".thumb", "tick")) }, false},
		{"the tick taken back", func() { r.send("/work", r.get("/today").form(".task.done", "drop")) }, true},
		{"a tick with what was seen", func() {
			f := r.get("/today").form(".thumb", "tick")
			f.Set("seen.back", string(kennel.LongNone))
			r.send("/work", f)
		}, false},
		{"work that nobody planned", fill("/work", "/work?dog=Moss", "main", "save", "share.neck", "1/9", "minutes", "15", "hands", "Assistant"), false},
		{"a plan made", func() { r.again() }, false},
		{"a plan taken", func() { r.send("/plan", r.get("/plan").form("[aria-labelledby=next]", "take")) }, true},
		{"that taken back", func() { r.send("/history", r.get("/history").form("main", "undo")) }, true},
		{"a draft taken", func() {
			a := fillIn(r.get("/hours"), "/hours", "[aria-labelledby=hands-1]", "try-save", "tue", "3")
			p := r.send(a.path, a.form)
			for p.Find(".draft[data-stream]").Length() > 0 {
				p = r.get("/hours?draft=2")
			}
			r.send("/hours", p.form(".draft", "keep"))
		}, true},
		{"a dog with another name", fill("/dogs/Moss", "/dogs/Moss", "main", "facts", "name", "Moss of the Ferry"), true},
		{"its old name", fill("/dogs/Moss%20of%20the%20Ferry", "/dogs/Moss%20of%20the%20Ferry", "main", "facts", "name", "Moss"), true},
		{"hands with another name", fill("/hours", "/hours", "[aria-labelledby=hands-1]", "save", "name", "Nora"), false},
		{"a day later", func() { r.turn(r.day + 1) }, false},
		{"a dog that leaves", fill("/dogs/Moss", "/dogs/Moss", "main", "retire"), false},
	} {
		taken = step.takes
		step.do()
		now = same(step.name, now)
		if next, _, _ := r.desk.plans.stand(); next != nil {
			continue // a plan that waits to be taken is not in the book
		}
		pages := map[string]string{}
		for _, path := range []string{"/", "/today", "/week", "/string", "/shows", "/dogs/Sorrel", "/workload"} {
			pages[path] = withoutKeys(r.get(path))
		}
		r.restarted()
		for path, was := range pages {
			if is := withoutKeys(r.get(path)); is != was {
				t.Errorf("%s: after a start %s is another", step.name, path)
			}
		}
	}
	if r.state().Plan.Result == nil {
		t.Error("no plan is in use")
	}
}

// withoutKeys is what a page says, without the keys of its forms.
func withoutKeys(p page) string {
	p.Find("input[name=key]").Remove()
	html, err := p.Find("main").Html()
	if err != nil {
		p.t.Fatal(err)
	}
	return html
}
