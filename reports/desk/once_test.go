package desk

import (
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// sent is a form as a person sends it.
type sent struct {
	path string
	form url.Values
}

// fillIn is a form of a page with fields filled in.
func fillIn(p page, path, within, do string, fields ...string) sent {
	f := p.form(within, do)
	for i := 0; i+1 < len(fields); i += 2 {
		f.Set(fields[i], fields[i+1])
	}
	return sent{path, f}
}

// everyForm fills in each form of the desk, by what it does.
var everyForm = map[string]func(r *room) sent{
	"tick": func(r *room) sent { p, _ := r.workday(); return fillIn(p, "/work", ".thumb", "tick") },
	"work": func(r *room) sent {
		return fillIn(r.get("/work?dog=Sorrel"), "/work", "main", "save", "share.back", "1/20", "minutes", "20")
	},
	"work stopped": func(r *room) sent {
		p, s := r.workday()
		link, _ := p.Find(".task a[href*='stopped=yes']").First().Attr("href")
		return fillIn(r.get(link), "/work", "main", "save", "share."+string(s.Areas[0].Area), "1/50", "minutes", "17")
	},
	"drop work": func(r *room) sent {
		p, _ := r.workday()
		return fillIn(r.send("/work", p.form(".thumb", "tick")), "/work", ".task.done", "drop")
	},
	"undo a tick": func(r *room) sent {
		p, _ := r.workday()
		return fillIn(r.send("/work", p.form(".thumb", "tick")), "/work", ".thumb", "drop")
	},
	"move": func(r *room) sent { return r.moved() },
	"loose": func(r *room) sent {
		m := r.moved()
		r.send(m.path, m.form)
		return fillIn(r.get("/week"), "/week", "main", "loose")
	},
	"add a dog": func(r *room) sent {
		return fillIn(r.get("/string"), "/string", "main", "add", "name", "Tansy", "pattern", "wire-fox-terrier", "coat", "2026-10-12")
	},
	"coat": func(r *room) sent {
		return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "coat", "area", "back", "coat", "0.3 2026-12-01 0.7 2026-10-01")
	},
	"length": func(r *room) sent {
		return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "measure", "measured", "back", "length", "31")
	},
	"facts": func(r *room) sent {
		return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "facts", "owner", "R. Calloway")
	},
	"facts as they are": func(r *room) sent { return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "facts") },
	"another name": func(r *room) sent {
		return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "facts", "name", "Sorrel of the Ferry")
	},
	"duty": func(r *room) sent {
		return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "duty", "duty", "ears 5 every 1w")
	},
	"drop a duty":       func(r *room) sent { return fillIn(r.get("/dogs/Sorrel"), "/dogs/Sorrel", "main", "drop-duty") },
	"retire":            func(r *room) sent { return fillIn(r.get("/dogs/Moss"), "/dogs/Moss", "main", "retire") },
	"try a show":        func(r *room) sent { return r.ferrydown() },
	"keep a show":       func(r *room) sent { return r.ending("/shows", r.ferrydown(), "keep") },
	"throw a show away": func(r *room) sent { return r.ending("/shows", r.ferrydown(), "discard") },
	"save a show":       func(r *room) sent { s := r.ferrydown(); s.form.Set("do", "save"); return s },
	"try to drop a show": func(r *room) sent {
		return fillIn(r.get("/shows?show=2027-02-27+Brackenmere"), "/shows", "[aria-labelledby=edit]", "try-drop")
	},
	"hours": func(r *room) sent {
		return fillIn(r.get("/hours"), "/hours", "[aria-labelledby=hands-1]", "save", "mon", "3.5")
	},
	"try hours":  func(r *room) sent { return r.moreHours() },
	"keep hours": func(r *room) sent { return r.ending("/hours", r.moreHours(), "keep") },
	"new hands": func(r *room) sent {
		return fillIn(r.get("/hours"), "/hours", "[aria-labelledby=new]", "save", "name", "Apprentice", "sat", "2")
	},
	"drop hands": func(r *room) sent { return fillIn(r.get("/hours"), "/hours", "[aria-labelledby=hands-2]", "drop") },
	"away":       func(r *room) sent { return r.away() },
	"not away": func(r *room) sent {
		a := r.away()
		return fillIn(r.send(a.path, a.form), "/hours", ".away", "back")
	},
	"take back": func(r *room) sent {
		r.change(func(s *book.State) { s.Kennel.Dogs[0].Priority = 2 })
		return fillIn(r.get("/history"), "/history", "main", "undo")
	},
	"go back to a copy": func(r *room) sent {
		r.change(func(s *book.State) { s.Kennel.Name = "Other" })
		link, _ := r.get("/copies").Find("main li a").First().Attr("href")
		return fillIn(r.get(link), "/copies", "main", "restore")
	},
	"take the new plan": func(r *room) sent { return r.otherPlan("take") },
	"keep the old plan": func(r *room) sent { return r.otherPlan("throw away") },
	"plan again":        func(r *room) sent { return fillIn(r.get("/plan"), "/plan", "main", "start") },
	"stop planning": func(r *room) sent {
		hold := make(chan struct{})
		r.t.Cleanup(func() { close(hold) })
		r.hold = hold
		return fillIn(r.send("/plan", r.get("/plan").form("main", "start")), "/plan", ".plan-note", "stop")
	},
	"what to enter": func(r *room) sent {
		r.change(func(s *book.State) { s.Kennel.Shows[0].Chance = 0.5 })
		return fillIn(r.get("/shows"), "/shows", "[aria-labelledby=advice]", "advise")
	},
}

func (r *room) moved() sent {
	p := r.get("/week")
	_, _, within, free := r.movable(p)
	see := fillIn(p, "/week", within, "see", "to", free)
	return fillIn(r.send(see.path, see.form), "/week", ".moving", "move")
}

func (r *room) ferrydown() sent {
	s := fillIn(r.get("/shows"), "/shows", "[aria-labelledby=edit]", "try", "name", "Ferrydown", "on", "2027-02-20")
	s.form["dogs"] = []string{"Sorrel"}
	return s
}

func (r *room) moreHours() sent {
	return fillIn(r.get("/hours"), "/hours", "[aria-labelledby=hands-1]", "try-save", "mon", "3")
}

func (r *room) away() sent {
	return fillIn(r.get("/hours"), "/hours", "[aria-labelledby=hands-1]", "away", "from", "2027-02-01")
}

// ending is the form that ends a draft, once its plan is there.
func (r *room) ending(page string, draft sent, do string) sent {
	p := r.send(draft.path, draft.form)
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get(page + "?draft=1")
	}
	return fillIn(p, page, ".draft", do)
}

func (r *room) otherPlan(do string) sent {
	r.change(func(s *book.State) { s.Kennel.Hands[0].Hours[0] = 0 })
	return fillIn(r.again(), "/plan", "[aria-labelledby=next]", do)
}

// restarted is the same book with a desk that was just started.
func (r *room) restarted() {
	r.t.Helper()
	again, err := New(r.desk.opt)
	if err != nil {
		r.t.Fatal(err)
	}
	r.desk.Close()
	r.desk = again
}

// The same form sent twice is answered twice as it was the first time, and done once; a form that changed the book also
// when the desk was started again in between, or the change was taken back.
func TestTheSameFormSentAgainIsAnsweredAsItWasAndDoneOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: fills in every form on a desk of its own")
	}
	for name, fill := range everyForm {
		t.Run(name, func(t *testing.T) {
			r := roomy(t)
			s := fill(r)
			before := r.version()
			first := r.ask(http.MethodPost, s.path, s.form)
			if first.status != http.StatusSeeOther || first.to == "" {
				t.Fatalf("it is not carried out: %d %s", first.status, strings.Join(strings.Fields(first.Find("main").Text()), " "))
			}
			after, state := r.version(), r.state()
			changes := after > before
			again := func(when string) {
				t.Helper()
				version := r.version()
				if p := r.ask(http.MethodPost, s.path, s.form); p.status != first.status || p.to != first.to {
					t.Errorf("%s it is answered with %d %q, the first time with %d %q: %s", when, p.status, p.to, first.status, first.to, strings.Join(strings.Fields(p.Find("main").Text()), " "))
				}
				if got := r.version(); got != version {
					t.Errorf("%s the book goes from change %d to %d", when, version, got)
				}
			}
			again("sent again")
			if got := r.state(); len(got.Work) != len(state.Work) || len(got.Kennel.Shows) != len(state.Kennel.Shows) || len(got.Measures) != len(state.Measures) {
				t.Errorf("something was added: %+v, after the first time %+v", got, state)
			}
			if !changes {
				return
			}
			r.hold = nil
			r.restarted()
			again("after a start of the desk")
			if _, _, err := r.book.Undo(t.Context(), book.AnyVersion); err != nil {
				t.Fatal(err)
			}
			again("after it was taken back")
		})
	}
}

// The script of the desk is told where a form led; the answer is the same.
func TestTheScriptIsToldWhereAFormLed(t *testing.T) {
	r := opened(t)
	s := r.ferrydown()
	s.form.Set("do", "save")
	for range 2 {
		w := r.asScript(s)
		if w.status != http.StatusNoContent || w.to != "/shows?said=saved" {
			t.Errorf("told %d %q", w.status, w.to)
		}
	}
	if p := r.ask(http.MethodPost, s.path, s.form); p.status != http.StatusSeeOther || p.to != "/shows?said=saved" {
		t.Errorf("without a script it is told %d %q", p.status, p.to)
	}
	if n := len(r.state().Kennel.Shows); n != 2 {
		t.Errorf("%d shows", n)
	}
}

// Sent many times at once, a form is done once and answered alike.
func TestAFormSentManyTimesAtOnceIsDoneOnce(t *testing.T) {
	r := opened(t)
	s := fillIn(r.get("/work?dog=Sorrel"), "/work", "main", "save", "share.back", "1/20", "minutes", "20")
	var all sync.WaitGroup
	var mu sync.Mutex
	answers := map[string]int{}
	for range 10 {
		all.Go(func() {
			p := r.ask(http.MethodPost, s.path, s.form)
			mu.Lock()
			defer mu.Unlock()
			answers[p.to]++
		})
	}
	all.Wait()
	if len(answers) != 1 || answers["/today?said=done&work=1"] != 10 || len(r.state().Work) != 1 {
		t.Errorf("answered %v, written down %+v", answers, r.state().Work)
	}
}

// Two desks on one book, as when a second one is started by mistake: a form that reaches both is done once.
func TestAFormThatReachesTwoDesksIsDoneOnce(t *testing.T) {
	r := opened(t)
	s := fillIn(r.get("/work?dog=Sorrel"), "/work", "main", "save", "share.back", "1/20", "minutes", "20")
	first := r.ask(http.MethodPost, s.path, s.form)
	other, err := New(r.desk.opt)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	second := (&room{t: t, desk: other, book: r.book, day: r.day}).ask(http.MethodPost, s.path, s.form)
	if second.status != first.status || second.to != first.to || len(r.state().Work) != 1 {
		t.Errorf("the second answers %d %q, the first %d %q; written down %+v", second.status, second.to, first.status, first.to, r.state().Work)
	}
}

// Who goes back in the browser, changes a field and saves again has sent another form, though its key is the same.
func TestAFormThatWasChangedIsAnotherForm(t *testing.T) {
	r := opened(t)
	s := fillIn(r.get("/work?dog=Sorrel"), "/work", "main", "save", "share.back", "1/20", "minutes", "20")
	r.send(s.path, s.form)
	other := fillIn(r.get("/work?dog=Moss"), "/work", "main", "save", "share.back", "1/20", "minutes", "30")
	other.form.Set("key", s.form.Get("key"))
	r.send(other.path, other.form)
	if n := len(r.state().Work); n != 2 {
		t.Fatalf("%d lines of work, want both", n)
	}
	s.form.Set("minutes", "25") // of the dog of the first: that is not as it was when the form was opened
	p := r.ask(http.MethodPost, s.path, s.form)
	if p.status != http.StatusConflict || len(r.state().Work) != 2 {
		t.Fatalf("%d, %d lines of work", p.status, len(r.state().Work))
	}
	p.says(".conflict", "Nothing of this form was saved")
	p.says(".conflict", "Save it again only if it is other work: it is added to what is now in the book.")
	r.send("/work", p.form("main", "save")) // knowingly
	if n := len(r.state().Work); n != 3 {
		t.Errorf("%d lines of work", n)
	}
}

// A form that was refused is sent again when it is put right, and a draft that was thrown away is made again.
func TestAFormThatWasNotCarriedOutKeepsItsKey(t *testing.T) {
	r := opened(t)
	s := r.ferrydown()
	right := s.form.Get("name")
	s.form.Set("name", "")
	for range 2 {
		if p := r.ask(http.MethodPost, s.path, s.form); p.status != http.StatusUnprocessableEntity {
			t.Fatalf("status %d", p.status)
		}
	}
	s.form.Set("name", right)
	p := r.send(s.path, s.form)
	for p.Find(".draft[data-stream]").Length() > 0 {
		p = r.get("/shows?draft=1")
	}
	r.send("/shows", p.form(".draft", "discard"))
	if to := r.ask(http.MethodPost, s.path, s.form).to; to != "/shows?draft=2#draft" {
		t.Errorf("tried again after it was thrown away, it leads to %q", to)
	}
}

// Every form of every page has a key of its own, another one each time the page is opened.
func TestEveryFormHasAKeyOfItsOwn(t *testing.T) {
	r := opened(t)
	r.change(func(s *book.State) {
		s.Kennel.Hands[0].Away = []kennel.Span{{From: monday.AddDays(20), To: monday.AddDays(21)}}
		s.Record(kennel.Work{Dog: "Moss", On: monday, Hands: "Handler", Minutes: 10, Duty: "nails"})
	})
	draft := r.ferrydown()
	r.send(draft.path, draft.form)
	r.planned()
	keys, forms := map[string]string{}, 0
	for range 2 {
		for _, path := range []string{"/today", "/today?said=done&work=1", "/week", "/string", "/dogs/Sorrel", "/shows", "/shows?draft=1", "/hours", "/history", "/plan", "/work", "/work?dog=Moss"} {
			r.get(path).Find("form").Each(func(_ int, f *goquery.Selection) {
				forms++
				key, _ := f.Find("input[type=hidden][name=key]").Attr("value")
				if len(key) < 20 || keys[key] != "" || f.Find("[name=key]").Length() != 1 {
					t.Errorf("%s: the key %q was on %q before:\n%s", path, key, keys[key], strings.Join(strings.Fields(f.Text()), " "))
				}
				keys[key] = path
			})
		}
	}
	if forms < 50 {
		t.Errorf("only %d forms", forms)
	}
}

// What an address says was done is said only if it is so.
func TestAnAddressCannotSayThatADogWasWrittenDown(t *testing.T) {
	r := opened(t)
	r.change(func(s *book.State) {
		s.Record(kennel.Work{Dog: "Moss", On: monday, Hands: "Handler", Minutes: 10, Duty: "nails"})
	})
	r.get("/today?said=done&work=1").says(".said", "Moss: nails written down.")
	for _, path := range []string{"/today?said=done&work=2", "/today?said=done", "/today?said=left&work=x", "/today?said=dropped&dog=Nobody", "/today?said=dropped"} {
		if p := r.get(path); p.Find(".said, .now, .just").Length() != 0 {
			t.Errorf("%s says %q", path, p.Find(".said, .now").Text())
		}
	}
}

// The care that the dog's pattern brings is written down like a duty of its own, and stays out of the kennel.
func TestCareOfKeptHairIsWrittenDown(t *testing.T) {
	r := opened(t)
	s := fillIn(r.get("/work?dog=Sorrel"), "/work", "main", "save", "duty", "legs and beard", "minutes", "15")
	if p := r.ask(http.MethodPost, s.path, s.form); p.status != http.StatusSeeOther {
		t.Fatalf("%d %s", p.status, strings.Join(strings.Fields(p.Find("main").Text()), " "))
	}
	state := r.state()
	if w := state.Work; len(w) != 1 || w[0].Duty != "legs and beard" || w[0].Minutes != 15 {
		t.Errorf("written down: %+v", w)
	}
	if d := state.Kennel.Dogs[0].DutyNames(); len(d) != 1 || d[0] != "nails" {
		t.Errorf("the dog's own duties: %v", d)
	}
	bad := fillIn(r.get("/work?dog=Moss"), "/work", "main", "save", "duty", "legs and beard", "minutes", "15")
	if p := r.ask(http.MethodPost, bad.path, bad.form); p.status != http.StatusUnprocessableEntity {
		t.Errorf("a Border has nothing to care for: %d", p.status)
	}
}
