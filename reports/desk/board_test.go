package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/draw"
)

// boardNames are the dogs of a board from above.
func boardNames(p page) (names []string) {
	p.Find(".board tbody th a").Each(func(_ int, a *goquery.Selection) { names = append(names, a.Text()) })
	return names
}

// The first page has a line for each dog and a cell for each week, and each leads where it says.
func TestTheBoardHasALineForEachDogAndACellForEachWeek(t *testing.T) {
	r := opened(t)
	p := r.get("/")
	weeks := len(r.use().Weeks)
	p.Find(".board tbody tr").Each(func(_ int, row *goquery.Selection) {
		if n := row.Find("td").Length(); n != weeks {
			t.Errorf("%s has %d cells for %d weeks", row.Find("th a").Text(), n, weeks)
		}
	})
	if names := boardNames(p); len(names) != 2 || !slices.Contains(names, "Moss") || !slices.Contains(names, "Sorrel") {
		t.Errorf("the dogs are %q", names)
	}
	sorrel := p.Find(".board tbody tr").FilterFunction(func(_ int, row *goquery.Selection) bool { return row.Find("th a").Text() == "Sorrel" })
	if to, _ := sorrel.Find("th a").Attr("href"); to != "/dogs/Sorrel" {
		t.Errorf("the name leads to %q", to)
	}
	at := r.use().Readiness[0]
	for n, w := range r.use().Weeks {
		cell := sorrel.Find("td").Eq(n)
		to, _ := cell.Find("a").First().Attr("href")
		q := url.Values{"of": {w.Week.String()}, "dog": {"Sorrel"}}
		if want := "/week?" + q.Encode() + "#at"; to != want {
			t.Errorf("the cell of %s leads to %q, not %q", w.Week, to, want)
		}
		r.get(strings.TrimSuffix(to, "#at"))
		label, _ := cell.Find("a").First().Attr("aria-label")
		if want := fmt.Sprintf("Sorrel, week of %s, %s", w.Week.Time().Format("2 January"), r.use().Outlooks[0].PlannedStates[n]); !strings.HasPrefix(label, want) {
			t.Errorf("the cell of %s is read out as %q, not %q", w.Week, label, want)
		}
		mark := cell.Find("a.mark")
		if (w.Week == at.On.Monday()) != (mark.Length() == 1) {
			t.Errorf("the week of %s has %d marks", w.Week, mark.Length())
		}
		if mark.Length() == 1 {
			if want := "▼" + kennel.ScoreWords(at.Score); !strings.HasPrefix(mark.Text(), want) {
				t.Errorf("the mark says %q, not %q", mark.Text(), want)
			}
			if want := "Brackenmere " + kennel.ScoreWords(at.Score); !strings.Contains(label, want) {
				t.Errorf("%q does not say %q", label, want)
			}
			to, _ := mark.Attr("href")
			r.get(strings.TrimSuffix(to, "#edit")).says("h2", "Change Brackenmere")
		}
	}
	if n := p.Find(".board tfoot td").Length(); n != weeks {
		t.Errorf("hours of %d weeks", n)
	}
	first := r.use().Weeks[0]
	p.says(".day", fmt.Sprintf("Mon 4 Jan, %.1f of %.1f h this week", float64(first.Planned), float64(first.Hours)))
}

// The minutes that a cell says are those of the sessions, and each session is a tick.
func TestACellOfTheBoardHasATickForEachSession(t *testing.T) {
	r := opened(t)
	p := r.get("/")
	for _, dog := range []string{"Sorrel", "Moss"} {
		cells := p.Find(".board tbody tr").FilterFunction(func(_ int, row *goquery.Selection) bool { return row.Find("th a").Text() == dog }).Find("td")
		for n, w := range r.use().Weeks {
			sessions := 0
			for _, x := range w.Dogs {
				if x.Dog == dog {
					sessions += x.Sessions
				}
			}
			if got := cells.Eq(n).Find("i").Length(); got != sessions {
				t.Errorf("%s in the week of %s has %d ticks for %d sessions", dog, w.Week, got, sessions)
			}
			label, _ := cells.Eq(n).Find("a").First().Attr("aria-label")
			if (sessions > 0) != strings.Contains(label, "minutes") {
				t.Errorf("%d sessions are read out as %q", sessions, label)
			}
		}
	}
}

// lateForShow is twoDogs with a show so near that Moss can't be in coat for it.
func lateForShow() kennel.Kennel {
	k := twoDogs()
	k.Dogs[1].All = []kennel.Layer{{Share: 0.5, Pulled: monday.AddDays(-7)}, {Share: 0.5, Pulled: monday.AddDays(-7 * 30)}}
	k.Dogs[1].Owner, k.Dogs[0].Owner = "R. Calloway", "D. Quillfeather"
	k.Shows = append(k.Shows, kennel.Show{Name: "Wendlemoor", On: monday.AddDays(19), Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Moss"}})
	return k
}

// What is wrong comes first, with the one thing to do about it: a press shows what leaving the dog out brings, and nothing is written yet.
func TestTroubleComesFirstOnTheBoardWithWhatToDoAboutIt(t *testing.T) {
	r := inUseOf(t, lateForShow())
	p := r.get("/")
	p.says(".troubles li", "Moss not in coat for Wendlemoor (Sat 23 Jan)")
	if n := p.Find(".troubles > ul > li").Length(); n == 0 || n > mostTroubles {
		t.Errorf("%d lines of trouble", n)
	}
	body := p.body
	if strings.Index(body, `class="troubles"`) > strings.Index(body, `class="board"`) {
		t.Error("trouble is below the board")
	}
	if names := boardNames(p); names[0] != "Moss" {
		t.Errorf("the dog in trouble is not the first of %q", names)
	}
	p.says(".board tbody tr:first-child th", "not in coat")
	p.says(".board tbody tr:first-child .mark.bad", "!")
	form := p.form(".troubles", "try-leave")
	before := r.version()
	draft := r.send("/shows", form)
	if r.version() != before {
		t.Error("leaving it out was written at once")
	}
	draft.says(".draft", "Nothing is written yet")
	for i := 0; i < 600 && draft.Find(".draft button[value=keep]").Length() == 0; i++ {
		draft = r.get("/shows?draft=1")
	}
	r.send("/shows", draft.form(".draft", "keep"))
	for _, s := range r.state().Kennel.Shows {
		if s.Name == "Wendlemoor" && s.Has("Moss") {
			t.Error("Moss is still entered for Wendlemoor")
		}
	}
}

func TestTheBoardIsOrderedAndChosenAsAsked(t *testing.T) {
	r := inUseOf(t, lateForShow())
	for _, c := range []struct {
		ask  string
		want []string
	}{
		{"", []string{"Moss", "Sorrel"}},
		{"order=name", []string{"Moss", "Sorrel"}},
		{"order=owner", []string{"Sorrel", "Moss"}},
		{"order=show", []string{"Moss", "Sorrel"}},
		{"order=readiness", []string{"Moss", "Sorrel"}},
		{"owner=R.+Calloway", []string{"Moss"}},
		{"show=Brackenmere", []string{"Sorrel"}},
		{"only=trouble", []string{"Moss"}},
		{"only=below", []string{"Moss"}},
		{"only=ready", []string{"Sorrel"}},
		{"only=ready&owner=R.+Calloway", nil},
		{"order=upside-down", []string{"Moss", "Sorrel"}},
	} {
		p := r.get("/?" + c.ask)
		if names := boardNames(p); !slices.Equal(names, c.want) {
			t.Errorf("%q shows %q, want %q", c.ask, names, c.want)
		}
		if len(c.want) < 2 {
			p.says(".asks summary", fmt.Sprintf("%d of 2 dogs", len(c.want)))
		}
	}
}

// Weeks in which a dog is not in hand are shaded, and said.
func TestTheBoardShadesTheWeeksInWhichADogIsAway(t *testing.T) {
	k := twoDogs()
	k.Dogs[0].Here = []kennel.Span{{From: monday.AddDays(17)}}
	k.Dogs[1].Spells = []kennel.Spell{{From: monday.AddDays(8), To: monday.AddDays(20), What: kennel.SpellSeason, Growth: 1}}
	k.Hands[0].Away = []kennel.Span{{From: monday.AddDays(28), To: monday.AddDays(34), Why: "a week off"}}
	r := inUseOf(t, k)
	p := r.get("/")
	cells := p.Find(".board tbody tr").FilterFunction(func(_ int, row *goquery.Selection) bool { return row.Find("th a").Text() == "Sorrel" }).Find("td")
	for n, want := range []string{"all", "all", "part", ""} {
		cell := cells.Eq(n)
		if got := map[bool]string{true: "all"}[cell.HasClass("all")] + map[bool]string{true: "part"}[cell.HasClass("part")]; got != want {
			t.Errorf("week %d is shaded %q, want %q", n+1, got, want)
		}
		label, _ := cell.Find("a").First().Attr("aria-label")
		if strings.Contains(label, "not in hand") != (want != "") {
			t.Errorf("week %d is read out as %q", n+1, label)
		}
	}
	moss := p.Find(".board tbody tr").FilterFunction(func(_ int, row *goquery.Selection) bool { return row.Find("th a").Text() == "Moss" }).Find("td")
	for n, want := range []string{"", "in season for 6 days", "in season", ""} {
		label, _ := moss.Eq(n).Find("a").First().Attr("aria-label")
		if strings.Contains(label, "in season") != (want != "") || !strings.HasSuffix(label, want) {
			t.Errorf("Moss in week %d is read out as %q", n+1, label)
		}
	}
	label, _ := p.Find(".board tfoot td").Eq(4).Find("a").Attr("aria-label")
	if !strings.Contains(label, "Handler is away: a week off") {
		t.Errorf("the hours are read out as %q", label)
	}
}

// The board is there before there is a plan.
func TestTheBoardWithoutAPlanListsTheDogs(t *testing.T) {
	r := open(t, kennel.Kennel{})
	if p := r.ask(http.MethodGet, "/", nil); p.to != beginPath {
		t.Errorf("an empty book leads to %q", p.to)
	}
	r.get("/?order=name").says("main", "There is no dog yet")
	k := twoDogs()
	k.Hands = nil
	r.change(func(s *book.State) { s.Replace(k, monday) })
	r.get("/").says("main", "Sorrel")
}

// The style sheet draws the states of a coat with the colours and lines of the pictures.
func TestTheBoardHasTheFillsOfThePictures(t *testing.T) {
	data, err := os.ReadFile("assets/desk.css")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range draw.States() {
		f := draw.StateFill(s)
		_, rule, ok := strings.Cut(string(data), ".s"+draw.Letter(s)+"::before")
		rule, _, _ = strings.Cut(rule, "}")
		if !ok || !strings.Contains(rule, f.Colour) || f.Lines != "" && (!strings.Contains(rule, "'"+f.Lines+"'") || !strings.Contains(rule, "%23"+f.Line[1:])) {
			t.Errorf("%s is drawn %q, in pictures it is %+v", s, rule, f)
		}
	}
}

// What can't be met is said wherever the dog is looked for, with the sign, the words and the reason.
func TestTroubleIsSeenWhereOneLooks(t *testing.T) {
	r := inUseOf(t, lateForShow())
	var at int
	for i, x := range r.use().Readiness {
		if x.Dog == "Moss" {
			at = i
		}
	}
	x := r.use().Readiness[at]
	reason := whyNotMet(r.use().Result, x)
	if !notReady(x) || reason == "" {
		t.Fatalf("Moss is %v for the show: %q", x.Score, reason)
	}
	score := kennel.ScoreWords(x.Score)
	r.get("/shows").says(".shows .bad", score+" ! not in coat")
	r.get("/shows").says(".shows", strings.Join(strings.Fields(reason), " "))
	r.get("/dogs/Moss").says(".troubles li", "not in coat for Wendlemoor (Sat 23 Jan), "+score)
	r.get("/dogs/Moss").says("main", "Today ")
	r.get("/string").says(".dog-card .bad", " ! not in coat")
	if n := r.get("/dogs/Sorrel").Find(".troubles li").Length(); n != 0 {
		t.Errorf("Sorrel has %d troubles", n)
	}
	if text := r.get("/shows").Find(".shows .bad").Text(); strings.Contains(text, "Sorrel") {
		t.Error("Sorrel is said to be out of coat: " + text)
	}
	for _, day := range r.use().Timetable.Days {
		for _, s := range day.Sessions() {
			if s.Dog == "Moss" {
				r.get("/today?"+url.Values{"day": {day.On.String()}, "hands": {s.At.Hands}}.Encode()).says(".task .bad", "Not in coat for Wendlemoor")
				return
			}
		}
	}
	t.Error("Moss is never worked")
}
