package desk

import (
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/say"
)

// owned are two dogs of one owner and one of another, with work written down.
func owned(t *testing.T) *room {
	t.Helper()
	k := twoDogs()
	k.Dogs[0].Owner, k.Dogs[1].Owner = "R. Calloway", "T. Marsh <b>"
	r := inUseOf(t, k)
	r.change(func(s *book.State) {
		s.Work = append(s.Work, book.Work{ID: 1, Work: kennel.Work{Dog: "Sorrel", On: monday, Hands: "Handler", Minutes: 90, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.1}}, Note: "bled"}})
	})
	return r
}

var letterFigures = regexp.MustCompile(`\b\d+ (with the work|if it were left alone)\b|\b(\d+) of 100\b`)

// The letter is about the owner's dogs alone, each show has one figure, that of every other page, and its hours are those of the book.
func TestTheLetterSaysWhatTheDeskSays(t *testing.T) {
	r := owned(t)
	form := url.Values{"owner": {"R. Calloway"}, "month": {monday.Time().Format(monthForm)}, "rate": {"20"}, "currency": {"EUR"}}
	p := r.get("/letter?" + form.Encode())
	p.says("h1", "For R. Calloway")
	p.says("main", "Sorrel is ")
	if strings.Contains(p.Find("main").Text(), "Moss") || strings.Contains(p.Find("main").Text(), "bled") {
		t.Error("it tells of another owner's dog, or a note")
	}
	use := r.use()
	allowed := map[string]bool{}
	for _, o := range use.Outlooks {
		if o.Dog == "Sorrel" {
			allowed[kennel.ScoreWords(o.Score)] = true
		}
	}
	shows := 0
	for _, x := range use.Readiness {
		if x.Dog != "Sorrel" {
			continue
		}
		shows++
		allowed[kennel.ScoreWords(x.Score)], allowed[kennel.ScoreWords(x.Idle)] = true, true
		row := p.Find("tr").FilterFunction(func(_ int, s *goquery.Selection) bool { return strings.Contains(s.Text(), x.Show) })
		if got := row.Find("td.figure").Map(func(_ int, s *goquery.Selection) string { return s.Text() }); !slices.Equal(got, []string{kennel.ScoreWords(x.Score), kennel.ScoreWords(x.Idle)}) {
			t.Errorf("%s has %v", x.Show, got)
		}
		r.get(dogPath("Sorrel")).says("main", kennel.ScoreWords(x.Score))
	}
	said := letterFigures.FindAllString(p.Find("main").Text(), -1)
	for _, s := range said {
		if n, _, _ := strings.Cut(s, " "); !allowed[n] {
			t.Errorf("%q is no figure of the plan", s)
		}
	}
	if shows == 0 || len(said) < 3 {
		t.Errorf("%d shows, figures %q", shows, said)
	}
	wantMonth := 0.0
	for _, w := range r.state().Work {
		if w.Dog == "Sorrel" && w.On.Time().Month() == monday.Time().Month() && w.On.Time().Year() == monday.Time().Year() {
			wantMonth += float64(w.Minutes) / 60
		}
	}
	if wantMonth != 1.5 {
		t.Fatalf("the book has %v h in the month", wantMonth)
	}
	p.says("main", "1.50")
	p.says("main", "30.00")
	mail, _ := p.Find(`a[href^="mailto:"]`).Attr("href")
	body, err := url.QueryUnescape(mail)
	if err != nil || !strings.Contains(body, "Sorrel is ") || strings.Contains(body, "Moss") {
		t.Errorf("the mail is %q (%v)", body, err)
	}
}

func TestALetterAsksForWhatItNeeds(t *testing.T) {
	r := owned(t)
	r.get("/letter").says("main", "Choose whom the letter is to")
	for query, words := range map[string]string{
		"owner=R.+Calloway&month=soon": "is not a month", "owner=R.+Calloway&rate=1,500": "is not an amount", "owner=R.+Calloway&rate=20": "a code like EUR",
		"owner=R.+Calloway&rate=20&currency=euro": "is not a currency",
	} {
		p := r.ask("GET", "/letter?"+query, nil)
		if p.status != 422 || !strings.Contains(p.Text(), words) {
			t.Errorf("%s: %d %s", query, p.status, p.Find("main").Text())
		}
	}
	if p := r.ask("GET", "/letter?owner=Nobody", nil); p.status != 422 {
		t.Errorf("nobody: %d", p.status)
	}
	file := r.ask("GET", "/letter?owner=T.+Marsh+%3Cb%3E&file=yes", nil)
	if file.status != 200 || !strings.Contains(file.body, "For T. Marsh &lt;b&gt;") || strings.Contains(file.body, "<script") {
		t.Errorf("the file: %d", file.status)
	}
}

// Shows in a spell are what an owner is asked about.
func TestALetterAsksAboutAShowInASpell(t *testing.T) {
	k := twoDogs()
	k.Dogs[0].Owner = "R. Calloway"
	k.Dogs[0].Spells = []kennel.Spell{{From: monday + 50, To: monday + 60, What: kennel.SpellSeason, Growth: 1}}
	r := inUseOf(t, k)
	p := r.get("/letter?owner=R.+Calloway")
	p.says("main", "To decide: whether it is withdrawn from Brackenmere on "+say.Day(monday+54, monday)+", for it is in season then")
	p.says("main", "There is no show in these weeks that it is worked for")
}
