package desk

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
)

// visitor fills in the forms of the pages as a person might, most of them so that they can be carried out.
type visitor struct {
	*room
	rng             *rand.Rand
	slips           float64        // chance that a field holds something that it should not
	posted, carried int            // forms sent, and those that the desk carried out
	pressed, did    map[string]int // of those sent and carried out, by page and button
	names           int
	answered        map[int]int
}

func newVisitor(t testing.TB, rng *rand.Rand, slips float64) *visitor {
	t.Helper()
	v := &visitor{room: opened(t), rng: rng, slips: slips, pressed: map[string]int{}, did: map[string]int{}, answered: map[int]int{}}
	v.workday() // there is work to tick off today
	v.settle()
	return v
}

// settle waits until there is a plan, and has the same one made again from now on as long as its dogs are there: forms are
// tried here, not plans.
func (v *visitor) settle() {
	v.t.Helper()
	if always := v.always.Load(); always != nil {
		names := v.state().Kennel.DogNames()
		if slices.ContainsFunc(always.Kennel.Dogs, func(d kennel.Dog) bool { return !slices.Contains(names, d.Name) }) {
			v.always.Store(nil)
		}
	}
	v.planned()
	if use := v.use(); use != nil {
		v.always.Store(&use.whole)
	}
}

func pick[T any](v *visitor, of []T) T { return of[v.rng.IntN(len(of))] }

// paths are the pages that there are now.
func (v *visitor) paths() []string {
	paths := []string{
		"/", "/today", "/today", "/week", "/string", "/shows", "/hours", "/hours", "/history", "/plan", "/work",
		"/begin/kennel", "/begin/dogs", "/begin/shows",
	}
	k := v.state().Kennel
	if !slices.Contains(k.DogNames(), "Fern") {
		paths = append(paths, "/begin/dogs?name=Fern&pattern=border-terrier&born=")
	}
	for _, d := range k.Dogs {
		paths = append(paths, "/work?dog="+url.QueryEscape(d.Name), "/dogs/"+url.PathEscape(d.Name))
	}
	for _, s := range k.Shows {
		paths = append(paths, "/shows?show="+url.QueryEscape(showKey(s)))
	}
	return paths
}

// step opens a page and sends one of its forms.
func (v *visitor) step() {
	v.t.Helper()
	path := pick(v, v.paths())
	p := v.ask(http.MethodGet, path, nil)
	for p.status == http.StatusSeeOther { // from an empty book to the first steps
		path = p.to
		p = v.ask(http.MethodGet, path, nil)
	}
	if p.status != http.StatusOK {
		v.t.Fatalf("GET %s: %d", path, p.status)
	}
	for range 3 { // an answer may hold the form again, with a question or with what is wrong
		forms := p.Find("form[method=post]")
		if forms.Length() == 0 {
			return
		}
		f := v.newest(forms)
		if first := p.Find("form:has(.question), .draft form"); first.Length() > 0 {
			f = first.First()
		}
		action, _ := f.Attr("action")
		form, ok := v.filled(f)
		if !ok {
			return
		}
		p = v.ask(http.MethodPost, action, form)
		v.posted++
		v.pressed[button(action, form.Get("do"))]++
		v.answered[p.status]++
		if p.status >= http.StatusInternalServerError {
			v.t.Fatalf("POST %s %v: %d\n%s", action, form, p.status, p.Find("main").Text())
		}
		v.settle()
		if p.status == http.StatusSeeOther {
			v.carried++
			v.did[button(action, form.Get("do"))]++
			to, _, _ := strings.Cut(p.to, "#")
			p = v.ask(http.MethodGet, to, nil)
			if p.status >= http.StatusInternalServerError {
				v.t.Fatalf("POST %s %v leads to %s: %d", action, form, to, p.status)
			}
			if p.Find(".draft form").Length() == 0 {
				return
			}
		}
	}
}

// button is the name of a page's button.
func button(action, do string) string {
	page, _, _ := strings.Cut(action[1:], "/")
	return page + " " + do
}

// newest is one of the forms; every other time the one with the button that was carried out least.
func (v *visitor) newest(forms *goquery.Selection) *goquery.Selection {
	f := forms.Eq(v.rng.IntN(forms.Length()))
	if v.rng.IntN(2) == 0 {
		return f
	}
	least := v.posted
	forms.Each(func(_ int, one *goquery.Selection) {
		for _, do := range one.Find(carrying).EachIter() {
			if n := v.did[button(one.AttrOr("action", "/"), do.AttrOr("value", ""))]; n < least {
				f, least = one, n
			}
		}
	})
	return f
}

// carrying are the buttons that a form is carried out by: others only change what stands in it.
const carrying = "button[name=do]:not([hidden]):not([value^='less ']):not([value^='more ']):not([value^='after '])"

// rare are buttons that take much away, or that stand on every page; they are pressed seldom.
var rare = []string{"drop", "retire", "undo", "drop-duty", "advise", "try-drop", "accept", "start", "refuse"}

// filled is the form with one of its buttons pressed.
func (v *visitor) filled(f *goquery.Selection) (url.Values, bool) {
	do := f.Find(carrying).Map(func(_ int, s *goquery.Selection) string { value, _ := s.Attr("value"); return value })
	if len(do) == 0 {
		return nil, false
	}
	if q := f.Find(".question button").Length(); q > 0 {
		do = do[:q]
	}
	action := f.AttrOr("action", "/")
	form := url.Values{"do": {pick(v, do)}}
	if v.rng.IntN(2) == 0 {
		form.Set("do", slices.MinFunc(do, func(a, b string) int { return v.did[button(action, a)] - v.did[button(action, b)] }))
	}
	if seen := v.pressed[button(action, form.Get("do"))]; slices.Contains(rare, form.Get("do")) && seen > 0 && v.rng.IntN(8) > 0 {
		return nil, false
	}
	f.Find("input[name]").Each(func(_ int, s *goquery.Selection) {
		name, value, kind := s.AttrOr("name", ""), s.AttrOr("value", ""), s.AttrOr("type", "text")
		_, on := s.Attr("checked")
		switch {
		case kind == "checkbox" && v.rng.IntN(4) == 0:
			on = !on
			fallthrough
		case kind == "checkbox":
			if on {
				form.Add(name, value)
			}
		case kind == "hidden":
			form.Add(name, v.slipped(value, 0.1))
		default:
			form.Add(name, v.slipped(v.typed(f, name, value, kind), 1))
		}
	})
	f.Find("select[name]").Each(func(_ int, s *goquery.Selection) {
		open := s.Find("option:not([disabled])").Map(func(_ int, o *goquery.Selection) string { return o.AttrOr("value", "") })
		if s.AttrOr("name", "") == "measured" { // goes with a length
			open = slices.DeleteFunc(open, func(area string) bool { return (area == "") != (form.Get("length") == "") })
		}
		if len(open) > 0 {
			form.Add(s.AttrOr("name", ""), v.slipped(pick(v, open), 1))
		}
	})
	return form, true
}

// typed is what a person types into a field.
func (v *visitor) typed(f *goquery.Selection, name, value, kind string) string {
	if value != "" && v.rng.IntN(3) > 0 {
		return value
	}
	if strings.HasPrefix(name, "layer_") || strings.HasPrefix(name, "duty_") {
		return "" // the coat and the duty are written out
	}
	day := func(from, days int) string { return monday.AddDays(from + v.rng.IntN(days)).String() }
	switch name {
	case "name":
		if value != "" && v.rng.IntN(10) > 0 {
			return value
		}
		v.names++
		return fmt.Sprintf("Name %d", v.names)
	case "coat":
		return pick(v, []string{"2026-10-12", "0.6 2026-09-20 0.4 2026-12-01"})
	case "length":
		if strings.HasPrefix(f.AttrOr("action", ""), "/work") && v.rng.IntN(3) > 0 {
			return ""
		}
		return pick(v, []string{"32", "32mm", "1.25in", "18.5"})
	case "duty":
		return pick(v, []string{"nails 10 every 2w", "close trim 30 before 10d 7d", "ears 5 every 1w"})
	case "minutes":
		if strings.HasPrefix(f.AttrOr("action", ""), "/work") {
			return pick(v, []string{"30", "50", "1h10"})
		}
		return pick(v, []string{"60", "75", "90"})
	case "chance":
		return pick(v, []string{"100", "50", "33,3"})
	case "on":
		if f.AttrOr("action", "") == "/shows" {
			return day(20, 60)
		}
		return day(0, 1)
	case "entries_close":
		return pick(v, []string{"", day(5, 10)})
	case "away_from", "away_to":
		return ""
	case "born":
		return "2024-05-02"
	case "from":
		return day(0, 10)
	case "to":
		return day(20, 10)
	case "note", "why", "owner":
		return pick(v, []string{"", "A note", "<b>Ünder & \u05db\u05dc\u05d1"})
	}
	if strings.Contains(f.AttrOr("action", ""), "/work") {
		return pick(v, []string{"", "1/17", "6%", "0.1"})
	}
	if kind == "date" {
		return day(-6, 7) // of what was seen or measured
	}
	return pick(v, []string{"1", "2"})
}

// slipped is what was typed, or with the chance of a slip something else.
func (v *visitor) slipped(typed string, part float64) string {
	if v.rng.Float64() >= v.slips*part {
		return typed
	}
	return pick(v, []string{
		"", "0", "-1", "1e308", "NaN", "2027-02-30", "0001-01-01", "2199-12-31", "none", "\x00", "\u202e", "\xff", strings.Repeat("9", 400), "'; DROP TABLE dogs; --",
		"<script>", "../../", typed + typed, typed + " ", strings.ToUpper(typed),
	})
}

// ends looks at the book as it was left.
func (v *visitor) ends() {
	v.t.Helper()
	wrong, err := v.book.Check(v.t.Context())
	if err != nil || len(wrong) > 0 {
		v.t.Errorf("the book is not sound: %v %v", wrong, err)
	}
	for _, path := range v.paths() {
		if p := v.ask(http.MethodGet, path, nil); p.status != http.StatusOK && p.to != beginPath {
			v.t.Errorf("afterwards GET %s: %d", path, p.status)
		}
	}
}

// Forms that are filled in as they should be are carried out, most of them; whatever else is typed is refused with a
// page, and the book stays sound.
func TestEveryFormIsCarriedOutOrRefused(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: fills in hundreds of forms; FuzzForms fills in some")
	}
	v := newVisitor(t, rand.New(rand.NewPCG(1, 4)), 0.02)
	before := v.version()
	for v.posted < 340 {
		v.step()
	}
	v.ends()
	changes := int(v.version() - before)
	t.Logf("%d forms, %d carried out, %d changes; answers %v; %v", v.posted, v.carried, changes, v.answered, v.did)
	if 2*v.carried < v.posted || changes < v.posted/5 {
		t.Errorf("of %d forms %d were carried out and made %d changes", v.posted, v.carried, changes)
	}
	for _, form := range []string{
		"dogs coat", "dogs measure", "dogs facts", "dogs duty", "dogs spell", "dogs outline", "hours save", "hours away", "hours try-away", "plan start", "plan take", "shows try", "shows keep", "string add", "week see", "week move",
		"work tick", "work save", "history undo",
	} {
		if v.did[form] == 0 {
			t.Errorf("the form %q was never carried out", form)
		}
	}
}

// FuzzForms sends forms with as many slips as the data says.
func FuzzForms(f *testing.F) {
	f.Add(uint64(1), byte(0))
	f.Add(uint64(2), byte(20))
	f.Add(uint64(3), byte(200))
	f.Fuzz(func(t *testing.T, seed uint64, slips byte) {
		v := newVisitor(t, rand.New(rand.NewPCG(seed, 0)), float64(slips)/255)
		for v.posted < 20 {
			v.step()
		}
		v.ends()
	})
}
